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
	hidden              int64 // by how much a side may slant that is sawn square: the trim hides it
}

// Shaping tells how to saw a piece of a run between x = from and x = to from the full rectangle of its row: a fact for
// each part that comes off, from the left, but for trifles, and after one that a fixed thing holds the piece by a fact
// for its slit. It is nil for a full rectangle.
func (f *Floor) Shaping(row, run int, from, to measure.Length) []cutopt.Fact {
	corners, _ := f.clip(row, run, from, to)
	if len(corners) == 0 {
		return nil
	}
	s := &saw{int64(from), int64(to), int64(f.Rows[row].From), int64(f.Rows[row].To), f.hidden}
	slices.Reverse(corners)
	for i, p := range corners {
		corners[i] = s.onSide(p)
	}
	rectangle := []point{{s.from, s.low}, {s.to, s.low}, {s.to, s.high}, {s.from, s.high}}
	off := connected(sweep([][]point{rectangle, corners}).patches())
	slices.SortFunc(off, func(a, b part) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.low, b.low), cmp.Compare(a.to, b.to))
	})
	var out []cutopt.Fact
	for i := range off {
		if min(off[i].to-off[i].from, off[i].high-off[i].low) <= int64(cutopt.Trifle) {
			continue
		}
		d, fact := s.round(&off[i], f.discs)
		if d == nil {
			fact = s.fact(&off[i])
		}
		if fact.Kind == cutopt.FactNone {
			continue
		}
		if notches := s.steps(&off[i]); fact.Kind == cutopt.FactScribe && notches != nil {
			out = append(out, notches...)
			continue
		}
		if fact.Kind == cutopt.FactScribe || fact.Kind == cutopt.FactOutline {
			if cuts := s.cuts(&off[i]); cuts != nil {
				out = append(out, cuts...)
				continue
			}
		}
		out = append(out, fact)
		held := []*disc{d}
		if d == nil {
			if held = s.pipesIn(&off[i], f.discs); held == nil {
				held = []*disc{nil}
			}
		}
		for _, d := range held {
			if slit, ok := s.slit(&off[i], d); ok {
				out = append(out, slit)
			}
		}
	}
	return out
}

// rough is how far places may be off, in ticks, before a sawn line counts as slanted or bent.
const rough = 4

func near(a, b int64) bool { return max(a-b, b-a) <= rough }

// onSide puts a corner on the sides of the full rectangle that it lies next to, but for rounding: a strip of a tick or
// two would join what comes off at one end of it to the other end.
func (s *saw) onSide(p point) point {
	for _, x := range []int64{s.from, s.to} {
		if near(p.x, x) {
			p.x = x
		}
	}
	for _, y := range []int64{s.low, s.high} {
		if near(p.y, y) {
			p.y = y
		}
	}
	return p
}

// fact tells of one part that comes off; its kind is FactNone for a trifle.
func (s *saw) fact(p *part) cutopt.Fact {
	long, wide := p.to-p.from, p.high-p.low
	if min(long, wide) <= int64(cutopt.Trifle) {
		return cutopt.Fact{}
	}
	fact := s.box(cutopt.FactScribe, p.from, p.to, p.low, p.high)
	left, right := fact.End&cutopt.EndsLeft != 0, fact.End&cutopt.EndsRight != 0
	front, back := fact.Edge&cutopt.EdgesFront != 0, fact.Edge&cutopt.EdgesBack != 0
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
		switch {
		case left && right && front && back:
			fact.Kind = cutopt.FactOutline
		case s.square(p, &fact) && (left || right || front || back):
			fact.Kind = cutopt.FactNotch
		case s.square(p, &fact):
			fact.Kind = cutopt.FactCutOut
		}
	}
	return fact.Own()
}

// square reports whether the rectangle around a part may come off in its stead: no side of the part that is sawn lies
// farther within it than the trim hides, as where walls are a little out of square.
func (s *saw) square(p *part, around *cutopt.Fact) bool {
	in := s.hidden
	from, to, low, high := p.from+in, p.to-in, p.low+in, p.high-in
	if around.End&cutopt.EndsLeft != 0 {
		from = s.from
	}
	if around.End&cutopt.EndsRight != 0 {
		to = s.to
	}
	if around.Edge&cutopt.EdgesFront != 0 {
		low = s.low
	}
	if around.Edge&cutopt.EdgesBack != 0 {
		high = s.high
	}
	if from >= to || low >= high {
		return false
	}
	open := 2 * (to - from) * (high - low)
	for i := range p.patches {
		ring := p.patches[i].between(from, to)
		open -= twiceArea(banded(ring, low, high))
	}
	return open <= rough*(to-from+high-low)
}

// box returns a fact of a kind about a rectangle of the piece.
func (s *saw) box(kind cutopt.FactKind, from, to, low, high int64) cutopt.Fact {
	return cutopt.Fact{
		Kind: kind, At: measure.Length(from - s.from), Across: measure.Length(low - s.low),
		Length: measure.Length(to - from), Width: measure.Length(high - low),
		End:  set(near(from, s.from), cutopt.EndsLeft) | set(near(to, s.to), cutopt.EndsRight),
		Edge: set(near(low, s.low), cutopt.EdgesFront) | set(near(high, s.high), cutopt.EdgesBack),
	}
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
	lines, ring, ok := s.sawn(p)
	if !ok || len(lines) != 1 {
		return cutopt.Fact{}, false
	}
	from, to := lines[0].from, lines[0].to
	if twiceArea(ring) < 0 {
		from, to = to, from
	}
	return s.cut(from, to, p.twice)
}

// smoothed drops corners that lie as good as on the line between their neighbours.
func smoothed(ring []point) []point {
	for i := 0; i < len(ring) && len(ring) > 3; {
		a, p, b := ring[(i+len(ring)-1)%len(ring)], ring[i], ring[(i+1)%len(ring)]
		v := b.minus(a)
		if d := p.minus(a); abs(float64(v.cross(d))) <= rough*v.size() && d.dot(v) >= -rough*rough &&
			d.dot(v) <= v.dot(v)+rough*rough {
			ring = slices.Delete(ring, i, i+1)
			i = max(0, i-2)
			continue
		}
		i++
	}
	return ring
}

// cut tells of a straight cut from a to b that takes off what lies on its left, twice so large: from one edge to the
// other it cuts an end, from one end to the other an edge, else a corner. Its kind is FactNone for a trifle; ok is
// false where something else comes off too, or no more than a corner is left.
func (s *saw) cut(a, b point, twice int64) (fact cutopt.Fact, ok bool) {
	long, wide := s.to-s.from, s.high-s.low
	off, most := int64(0), int64(0) // twice the area and the most that comes off
	switch {
	case near(min(a.y, b.y), s.low) && near(max(a.y, b.y), s.high):
		front, back := a.x-s.from, b.x-s.from
		fact.Kind, fact.End = cutopt.FactEndCut, cutopt.EndsLeft
		off, most = (front+back)*wide, max(front, back)
		if a.y > b.y {
			front, back = back, front
			fact.End = cutopt.EndsRight
			off, most = 2*long*wide-off, long-min(front, back)
		}
		fact.Front, fact.Back = measure.Length(front), measure.Length(back)
		if fact.End == cutopt.EndsLeft {
			fact.Front, fact.Back = measure.Length(long-front), measure.Length(long-back)
		}
	case near(min(a.x, b.x), s.from) && near(max(a.x, b.x), s.to):
		left, right := a.y-s.low, b.y-s.low
		fact.Kind, fact.Edge = cutopt.FactEdgeCut, cutopt.EdgesBack
		off, most = 2*long*wide-(left+right)*long, wide-min(left, right)
		if a.x > b.x {
			left, right = right, left
			fact.Edge = cutopt.EdgesFront
			off, most = 2*long*wide-off, max(left, right)
		}
		fact.Left, fact.Right = measure.Length(left), measure.Length(right)
		if fact.Edge == cutopt.EdgesFront {
			fact.Left, fact.Right = measure.Length(wide-left), measure.Length(wide-right)
		}
	default:
		fact = cutopt.Fact{
			Kind: cutopt.FactCornerCut, End: cutopt.EndsLeft, Edge: cutopt.EdgesFront,
			Length: measure.Length(max(a.x-b.x, b.x-a.x)), Width: measure.Length(max(a.y-b.y, b.y-a.y)),
		}
		if a.y > b.y {
			fact.End = cutopt.EndsRight
		}
		if a.x < b.x {
			fact.Edge = cutopt.EdgesBack
		}
		off, most = int64(fact.Length)*int64(fact.Width), int64(min(fact.Length, fact.Width))
	}
	if max(off-twice, twice-off) > 4*rough*(long+wide) {
		return cutopt.Fact{}, false
	}
	if most <= int64(cutopt.Trifle) {
		return cutopt.Fact{}, true
	}
	return s.upright(fact), true
}

// upright tells of a cut that turns out to be square as of the rectangle that it takes off.
func (s *saw) upright(f cutopt.Fact) cutopt.Fact {
	long, wide := measure.Length(s.to-s.from), measure.Length(s.high-s.low)
	switch {
	case f.Kind == cutopt.FactEdgeCut && f.Left == f.Right:
		return cutopt.Fact{Kind: cutopt.FactRip, Edge: f.Edge, Width: wide - f.Left}
	case f.Kind == cutopt.FactEndCut && f.Front == f.Back:
		notch := cutopt.Fact{
			Kind:   cutopt.FactNotch,
			End:    f.End,
			Edge:   cutopt.EdgesBoth,
			Length: long - f.Front,
			Width:  wide,
		}
		if f.End == cutopt.EndsRight {
			notch.At = f.Front
		}
		return notch
	}
	return f
}

// mostSteps is how many notches a part that comes off in steps is told as at most.
const mostSteps = 4

// steps tells of a part whose outline runs along and across the piece alone, as at a jamb beside a wall, as notches
// side by side, from the left or from the front, whichever are fewer; nil for other parts.
func (s *saw) steps(p *part) []cutopt.Fact {
	boxes := make([][4]int64, len(p.patches)) // from, to, low, high
	for i := range p.patches {
		q := &p.patches[i]
		if !near(q.left0, q.left1) || !near(q.right0, q.right1) {
			return nil
		}
		boxes[i] = [4]int64{q.left(), q.right(), q.low, q.high}
	}
	along, across := s.notches(boxes, 0), s.notches(boxes, 2)
	if along == nil || across != nil && len(across) < len(along) {
		return across
	}
	return along
}

// notches cuts rectangles that hang together into notches side by side along an axis, 0 for the piece and 2 for across
// it; nil where that takes too many, or where one of them would not reach an edge or an end.
func (s *saw) notches(boxes [][4]int64, axis int) []cutopt.Fact {
	var lines []int64
	for _, b := range boxes {
		lines = append(lines, b[axis], b[axis+1])
	}
	slices.Sort(lines)
	lines = slices.CompactFunc(lines, near)
	other := 2 - axis
	var joined [][4]int64
	for i := 1; i < len(lines); i++ {
		slab, ok := slabOf(boxes, axis, lines[i-1], lines[i])
		if !ok {
			return nil
		}
		if n := len(joined); n > 0 && near(joined[n-1][other], slab[other]) && near(joined[n-1][other+1], slab[other+1]) {
			joined[n-1][axis+1] = slab[axis+1]
		} else {
			joined = append(joined, slab)
		}
	}
	if len(joined) > mostSteps {
		return nil
	}
	out := make([]cutopt.Fact, len(joined))
	for i, b := range joined {
		out[i] = s.box(cutopt.FactNotch, b[0], b[1], b[2], b[3])
		if min(b[1]-b[0], b[3]-b[2]) <= int64(cutopt.Trifle) || out[i].End == 0 && out[i].Edge == 0 {
			return nil
		}
		out[i] = out[i].Own()
	}
	return out
}

// slabOf returns what rectangles cover between two lines across an axis; ok is false where that is no rectangle.
func slabOf(boxes [][4]int64, axis int, from, to int64) (slab [4]int64, ok bool) {
	other := 2 - axis
	var spans [][2]int64
	for _, b := range boxes {
		if b[axis] <= from+rough && b[axis+1] >= to-rough {
			spans = append(spans, [2]int64{b[other], b[other+1]})
		}
	}
	if len(spans) == 0 {
		return slab, false
	}
	slices.SortFunc(spans, func(a, b [2]int64) int { return cmp.Compare(a[0], b[0]) })
	end := spans[0][1]
	for _, span := range spans[1:] {
		if span[0] > end+rough {
			return slab, false
		}
		end = max(end, span[1])
	}
	slab[axis], slab[axis+1], slab[other], slab[other+1] = from, to, spans[0][0], end
	return slab, true
}
