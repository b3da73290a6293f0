package outline

import (
	"slices"

	"plank.example/cutopt/measure"
)

// Within reports whether a simple ring lies within another; it may touch it from inside. In the flaw I is an edge of
// ring and J one of outer. Cost: O(m n) for m and n corners where the rings touch, else O(m + n) and the pairs of edges
// whose extents meet.
func Within(ring, outer []measure.Point) (Flaw, bool) {
	r, ri := distinct(ring)
	o, oi := distinct(outer)
	parts, touches, f, ok := split(r, o)
	if !ok {
		f.I, f.J = ri[f.I], oi[f.J]
		return f, false
	}
	if !touches {
		parts = parts[:1]
	}
	for _, p := range parts {
		if locate(p.a, p.b, o) == outside {
			return Flaw{Kind: Outside, I: ri[p.edge], At: p.middle()}, false
		}
	}
	return Flaw{}, true
}

// Apart reports whether two simple rings have no floor in common; they may touch from outside. In the flaw I is an edge
// of a and J one of b. The cost is that of [Within].
func Apart(a, b []measure.Point) (Flaw, bool) {
	if !boxOf(a...).meets(boxOf(b...)) {
		return Flaw{}, true
	}
	ca, ia := distinct(a)
	cb, ib := distinct(b)
	parts, touches, f, ok := split(ca, cb)
	if !ok {
		f.I, f.J = ia[f.I], ib[f.J]
		return f, false
	}
	same := true
	for _, p := range parts {
		switch at := locate(p.a, p.b, cb); {
		case at == inside:
			return Flaw{Kind: Overlap, I: ia[p.edge], At: p.middle()}, false
		case at == outside:
			same = false
		}
		if !touches {
			break
		}
	}
	if same {
		return Flaw{Kind: Overlap, I: ia[0], At: ca[0]}, false
	}
	parts, touches, _, _ = split(cb, ca)
	for _, p := range parts {
		if locate(p.a, p.b, ca) == inside {
			return Flaw{Kind: Overlap, I: 0, J: ib[p.edge], At: p.middle()}, false
		}
		if !touches {
			break
		}
	}
	return Flaw{}, true
}

// A part is a stretch of an edge with no corner or edge of the other ring in between: all of it is inside the other
// ring, outside, or on its boundary.
type part struct {
	a, b point
	edge int
}

func (p part) middle() point { return point{X: p.a.X + (p.b.X-p.a.X)/2, Y: p.a.Y + (p.b.Y-p.a.Y)/2} }

// split cuts the edges of a ring where corners of the other lie on them. It fails where two edges cross properly, and
// says whether the rings touch.
func split(ring, other []point) (parts []part, touches bool, f Flaw, ok bool) {
	near := edgesNear(other, boxOf(ring...))
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		extent := boxOf(a, b)
		cuts := []point{a, b}
		for _, j := range near {
			c, d := other[j], other[(j+1)%len(other)]
			if !extent.meets(boxOf(c, d)) {
				continue
			}
			if crossProperly(a, b, c, d) {
				return nil, true, Flaw{Kind: Cross, I: i, J: j, At: crossing(a, b, c, d)}, false
			}
			if cross(a, b, c) == 0 && onSegment(a, b, c) {
				cuts, touches = append(cuts, c), true
			}
			touches = touches || cross(c, d, a) == 0 && onSegment(c, d, a)
		}
		slices.SortFunc(cuts, compare)
		cuts = slices.Compact(cuts)
		for k := 1; k < len(cuts); k++ {
			parts = append(parts, part{cuts[k-1], cuts[k], i})
		}
	}
	return parts, touches, Flaw{}, true
}

// edgesNear returns the edges of a ring whose extent meets a box.
func edgesNear(ring []point, b box) []int {
	var near []int
	for j, c := range ring {
		if b.meets(boxOf(c, ring[(j+1)%len(ring)])) {
			near = append(near, j)
		}
	}
	return near
}
