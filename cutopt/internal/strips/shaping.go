package strips

import (
	"cmp"
	"fmt"
	"slices"

	"plank.example/cutopt/measure"
)

// A saw puts into words what is taken off the full rectangle of a piece.
type saw struct {
	from, to, low, high int64 // the rectangle
	unit                measure.Unit
	grid                measure.Length
}

// Shaping says in words how to saw a piece of a run between x = from and x = to from the full rectangle of its row: a line
// for each part that comes off, from the left. Front is the long edge nearer the starting wall. Sizes are given on the grid in
// the given unit, along the piece first: what is left is rounded down and what comes off is rounded up, so that the piece
// fits and the gap takes the slack; places are rounded to nearest, and parts that round to nothing are left out. It is nil
// for a full rectangle.
func (f *Floor) Shaping(row, run int, from, to measure.Length, unit measure.Unit, grid measure.Length) []string {
	corners, _ := f.clip(row, run, from, to)
	if len(corners) == 0 {
		return nil
	}
	s := &saw{int64(from), int64(to), int64(f.Rows[row].From), int64(f.Rows[row].To), unit, max(grid, measure.Tick)}
	slices.Reverse(corners)
	rectangle := []point{{s.from, s.low}, {s.to, s.low}, {s.to, s.high}, {s.from, s.high}}
	off := connected(sweep([][]point{rectangle, corners}).patches())
	slices.SortFunc(off, func(a, b part) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.low, b.low), cmp.Compare(a.to, b.to))
	})
	var out []string
	for i := range off {
		if text := s.words(&off[i]); text != "" {
			out = append(out, text)
		}
	}
	return out
}

func (s *saw) zero(l int64) bool { return measure.Length(l).Nearest(s.grid) == 0 }

func (s *saw) text(l int64) string { return measure.Length(l).Format(s.unit, s.grid) }

// off gives the size of what comes off.
func (s *saw) off(long, wide int64) string {
	return measure.Length(s.up(long)).Compact(s.unit, s.grid) + " x " + s.text(s.up(wide))
}

// left gives two lengths of what is left, joined by a word.
func (s *saw) left(a int64, join string, b int64) string {
	return measure.Length(s.down(a)).Compact(s.unit, s.grid) + join + s.text(s.down(b))
}

// up and down round to the grid; what is off it by no more than places may be is on it.
func (s *saw) up(l int64) int64   { return int64(measure.Length(l - rough).Ceil(s.grid)) }
func (s *saw) down(l int64) int64 { return int64(measure.Length(l + rough).Floor(s.grid)) }

// rough is how far places may be off, in ticks, before a sawn line counts as slanted or bent.
const rough = 4

func near(a, b int64) bool { return max(a-b, b-a) <= rough }

// words describes one part that comes off.
func (s *saw) words(p *part) string {
	long, wide := p.to-p.from, p.high-p.low
	if s.zero(long) || s.zero(wide) {
		return ""
	}
	left, right, front, back := near(p.from, s.from), near(p.to, s.to), near(p.low, s.low), near(p.high, s.high)
	corner := (left != right) && (front != back)
	place := s.place(p, left, right, front, back)
	switch exact := long*wide-p.twice/2 <= rough*(long+wide); {
	case exact && left && right && (front || back):
		return fmt.Sprintf("rip %s off the %s edge", s.text(s.up(wide)), place)
	case exact && (corner || left || right || front || back):
		return fmt.Sprintf("notch %s %s", s.off(long, wide), place)
	case exact:
		return fmt.Sprintf("cut out %s %s", s.off(long, wide), place)
	}
	if text := s.slanted(p); text != "" {
		return text
	}
	if left && right && front && back {
		return "saw to the outline drawn: " + s.left(long, " x ", wide)
	}
	return fmt.Sprintf("scribe within %s %s", s.off(long, wide), place)
}

// place says where a part lies.
func (s *saw) place(p *part, left, right, front, back bool) string {
	end := map[bool]string{true: "left", false: "right"}[left]
	edge := map[bool]string{true: "front", false: "back"}[front]
	switch {
	case left && right && front != back:
		return edge
	case left && right:
		return "across the whole length, " + s.text(p.low-s.low) + " from the front edge"
	case left != right && front != back:
		return fmt.Sprintf("at the %s %s corner", end, edge)
	case left != right && front:
		return fmt.Sprintf("at the %s end, over the whole width", end)
	case left != right:
		return fmt.Sprintf("in the %s end, %s from the front edge", end, s.text(p.low-s.low))
	case front && back:
		return "across the whole width, " + s.text(p.from-s.from) + " from the left end"
	case front || back:
		return fmt.Sprintf("in the %s edge, %s from the left end", edge, s.text(p.from-s.from))
	}
	return fmt.Sprintf("%s from the left end and %s from the front edge", s.text(p.from-s.from), s.text(p.low-s.low))
}

// reach is how far a part reaches along the four sides of the rectangle, from its ends.
type reach struct{ front, back, left, right int64 }

// slanted describes a part with one sawn line that is not square; "" for others.
func (s *saw) slanted(p *part) string {
	polygons := make([][]point, len(p.patches))
	for i := range p.patches {
		polygons[i] = straight(p.patches[i].corners())
	}
	rings := trace(polygons)
	if len(rings) != 1 {
		return ""
	}
	cuts := 0
	var r reach
	ring := smoothed(rings[0])
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		switch long := max(a.x-b.x, b.x-a.x); {
		case near(a.y, s.low) && near(b.y, s.low):
			r.front = long
		case near(a.y, s.high) && near(b.y, s.high):
			r.back = long
		case near(a.x, s.from) && near(b.x, s.from):
			r.left = max(a.y-b.y, b.y-a.y)
		case near(a.x, s.to) && near(b.x, s.to):
			r.right = max(a.y-b.y, b.y-a.y)
		default:
			cuts++
		}
	}
	if cuts != 1 {
		return ""
	}
	return s.cut(&r)
}

// smoothed drops corners that lie as good as on the line between their neighbours.
func smoothed(ring []point) []point {
	for i := 0; i < len(ring) && len(ring) > 3; {
		a, p, b := ring[(i+len(ring)-1)%len(ring)], ring[i], ring[(i+1)%len(ring)]
		v := b.minus(a)
		if d := p.minus(a); abs(float64(v.cross(d))) <= rough*v.size() && d.dot(v) >= -rough*rough && d.dot(v) <= v.dot(v)+rough*rough {
			ring = slices.Delete(ring, i, i+1)
			i = max(0, i-2)
			continue
		}
		i++
	}
	return ring
}

// cut describes a straight cut that takes off what reaches so far along the sides.
func (s *saw) cut(r *reach) string {
	long, wide := s.to-s.from, s.high-s.low
	end, at := "left", r.left
	if r.left == 0 || near(r.right, wide) {
		end, at = "right", r.right
	}
	edge, along := "front", r.front
	if r.front == 0 || near(r.back, long) {
		edge, along = "back", r.back
	}
	switch {
	case near(at, wide):
		return fmt.Sprintf("cut the %s end from %s", end, s.left(long-r.front, " to ", long-r.back))
	case near(along, long):
		return fmt.Sprintf("rip the %s edge from %s wide", edge, s.left(wide-r.left, " to ", wide-r.right))
	case at > 0 && along > 0:
		return fmt.Sprintf("cut off the %s %s corner, %s", end, edge, s.off(along, at))
	}
	return ""
}
