package strips

import (
	"cmp"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A saw tells what is taken off the full rectangle of a piece.
type saw struct {
	from, to, low, high int64 // the rectangle
}

// Shaping tells how to saw a piece of a run between x = from and x = to from the full rectangle of its row: a fact for each
// part that comes off, from the left, but for trifles. It is nil for a full rectangle.
func (f *Floor) Shaping(row, run int, from, to measure.Length) []cutopt.Fact {
	corners, _ := f.clip(row, run, from, to)
	if len(corners) == 0 {
		return nil
	}
	s := &saw{int64(from), int64(to), int64(f.Rows[row].From), int64(f.Rows[row].To)}
	slices.Reverse(corners)
	rectangle := []point{{s.from, s.low}, {s.to, s.low}, {s.to, s.high}, {s.from, s.high}}
	off := connected(sweep([][]point{rectangle, corners}).patches())
	slices.SortFunc(off, func(a, b part) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.low, b.low), cmp.Compare(a.to, b.to))
	})
	var out []cutopt.Fact
	for i := range off {
		if fact := s.fact(&off[i]); fact.Kind != cutopt.FactNone {
			out = append(out, fact)
		}
	}
	return out
}

// rough is how far places may be off, in ticks, before a sawn line counts as slanted or bent.
const rough = 4

func near(a, b int64) bool { return max(a-b, b-a) <= rough }

// fact tells of one part that comes off; its kind is FactNone for a trifle.
func (s *saw) fact(p *part) cutopt.Fact {
	long, wide := p.to-p.from, p.high-p.low
	if min(long, wide) <= int64(cutopt.Trifle) {
		return cutopt.Fact{}
	}
	left, right, front, back := near(p.from, s.from), near(p.to, s.to), near(p.low, s.low), near(p.high, s.high)
	fact := cutopt.Fact{
		Kind: cutopt.FactScribe, At: measure.Length(p.from - s.from), Across: measure.Length(p.low - s.low),
		Length: measure.Length(long), Width: measure.Length(wide),
		End:  set(left, cutopt.EndsLeft) | set(right, cutopt.EndsRight),
		Edge: set(front, cutopt.EdgesFront) | set(back, cutopt.EdgesBack),
	}
	switch exact := long*wide-p.twice/2 <= rough*(long+wide); {
	case exact && left && right && front != back:
		fact.Kind = cutopt.FactRip
	case exact && (left || right || front || back):
		fact.Kind = cutopt.FactNotch
	case exact:
		fact.Kind = cutopt.FactCutOut
	default:
		if slanted, ok := s.slanted(p); ok {
			return slanted
		}
		if left && right && front && back {
			fact.Kind = cutopt.FactOutline
		}
	}
	return fact.Own()
}

// set returns the bit where it is to be set.
func set[E ~uint8](on bool, bit E) E {
	if on {
		return bit
	}
	return 0
}

// slanted tells of a part with one sawn line that is not square; ok is false for others.
func (s *saw) slanted(p *part) (fact cutopt.Fact, ok bool) {
	polygons := make([][]point, len(p.patches))
	for i := range p.patches {
		polygons[i] = straight(p.patches[i].corners())
	}
	rings := trace(polygons)
	if len(rings) != 1 {
		return cutopt.Fact{}, false
	}
	cuts := 0
	var from, to point
	ring := smoothed(rings[0])
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if near(a.y, s.low) && near(b.y, s.low) || near(a.y, s.high) && near(b.y, s.high) ||
			near(a.x, s.from) && near(b.x, s.from) || near(a.x, s.to) && near(b.x, s.to) {
			continue
		}
		cuts++
		from, to = a, b
	}
	if cuts != 1 {
		return cutopt.Fact{}, false
	}
	return s.cut(from, to, p.twice)
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

// cut tells of a straight cut from a to b that takes off twice the area: from one edge to the other it cuts an end, from one
// end to the other an edge, else a corner. Its kind is FactNone for a trifle; ok is false where it leaves no more than a corner.
func (s *saw) cut(a, b point, twice int64) (fact cutopt.Fact, ok bool) {
	long, wide := s.to-s.from, s.high-s.low
	takes := func(t int64) bool { return max(t-twice, twice-t) <= 4*rough*(long+wide) }
	keep := func(fact cutopt.Fact, off int64) (cutopt.Fact, bool) {
		if off <= int64(cutopt.Trifle) {
			return cutopt.Fact{}, true
		}
		return fact, true
	}
	if a.y > b.y {
		a, b = b, a
	}
	if near(a.y, s.low) && near(b.y, s.high) { // a lies on the front edge
		front, back := a.x-s.from, b.x-s.from
		if takes((front + back) * wide) {
			f := cutopt.Fact{Kind: cutopt.FactEndCut, End: cutopt.EndsLeft, Front: measure.Length(long - front), Back: measure.Length(long - back)}
			return keep(f, max(front, back))
		}
		f := cutopt.Fact{Kind: cutopt.FactEndCut, End: cutopt.EndsRight, Front: measure.Length(front), Back: measure.Length(back)}
		return keep(f, long-min(front, back))
	}
	if a.x > b.x {
		a, b = b, a
	}
	if near(a.x, s.from) && near(b.x, s.to) { // a lies at the left end
		left, right := a.y-s.low, b.y-s.low
		if takes((left + right) * long) {
			f := cutopt.Fact{Kind: cutopt.FactEdgeCut, Edge: cutopt.EdgesFront, Left: measure.Length(wide - left), Right: measure.Length(wide - right)}
			return keep(f, max(left, right))
		}
		f := cutopt.Fact{Kind: cutopt.FactEdgeCut, Edge: cutopt.EdgesBack, Left: measure.Length(left), Right: measure.Length(right)}
		return keep(f, wide-min(left, right))
	}
	f := cutopt.Fact{
		Kind: cutopt.FactCornerCut, End: cutopt.EndsLeft, Edge: cutopt.EdgesFront,
		Length: measure.Length(b.x - a.x), Width: measure.Length(max(a.y-b.y, b.y-a.y)),
	}
	if !near(a.x, s.from) {
		f.End = cutopt.EndsRight
	}
	if !near(min(a.y, b.y), s.low) {
		f.Edge = cutopt.EdgesBack
	}
	if !takes(int64(f.Length) * int64(f.Width)) {
		return cutopt.Fact{}, false
	}
	return keep(f, int64(min(f.Length, f.Width)))
}
