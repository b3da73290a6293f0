package outline

import (
	"cmp"
	"iter"
	"math"
	"slices"

	"plank.example/cutopt/measure"
)

// Within reports whether a simple ring lies within another; it may touch it from inside. In the flaw I is an edge of
// ring and J one of outer. It takes O((m + n) log n) steps for m and n corners, O(log n) for each pair of edges whose
// extents along x meet, and O(n) for each place where the rings touch.
func Within(ring, outer []measure.Point) (Flaw, bool) {
	r, ri := distinct(ring)
	o, oi := distinct(outer)
	parts, f, ok := split(r, o)
	if !ok {
		f.I, f.J = ri[f.I], oi[f.J]
		return f, false
	}
	for k, p := range parts {
		if k > 0 && !p.fresh {
			continue
		}
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
	parts, f, ok := split(ca, cb)
	if !ok {
		f.I, f.J = ia[f.I], ib[f.J]
		return f, false
	}
	same := true
	for k, p := range parts {
		if k > 0 && !p.fresh {
			continue
		}
		switch at := locate(p.a, p.b, cb); {
		case at == inside:
			return Flaw{Kind: Overlap, I: ia[p.edge], At: p.middle()}, false
		case at == outside:
			same = false
		}
	}
	if same {
		return Flaw{Kind: Overlap, I: ia[0], At: ca[0]}, false
	}
	parts, _, _ = split(cb, ca)
	for k, p := range parts {
		if k > 0 && !p.fresh {
			continue
		}
		if locate(p.a, p.b, ca) == inside {
			return Flaw{Kind: Overlap, I: 0, J: ib[p.edge], At: p.middle()}, false
		}
	}
	return Flaw{}, true
}

// A part is a stretch of an edge with no corner or edge of the other ring in between: all of it is inside the other
// ring, outside, or on its boundary.
type part struct {
	a, b  point
	edge  int
	fresh bool // its edge touches the other ring, so that it may lie elsewhere than the part before
}

func (p part) middle() point { return point{X: p.a.X + (p.b.X-p.a.X)/2, Y: p.a.Y + (p.b.Y-p.a.Y)/2} }

// split cuts the edges of a ring where corners of the other lie on them. It fails where two edges cross properly.
func split(ring, other []point) (parts []part, f Flaw, ok bool) {
	near := edgesNear(other, boxOf(ring...))
	var cuts []point
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		cuts = append(cuts[:0], a, b)
		crossed, here := -1, false
		for j := range near.meeting(boxOf(a, b)) {
			c, d := other[j], other[(j+1)%len(other)]
			if crossProperly(a, b, c, d) {
				crossed = j
				break
			}
			if cross(a, b, c) == 0 && onSegment(a, b, c) {
				cuts, here = append(cuts, c), true
			}
			here = here || cross(c, d, a) == 0 && onSegment(c, d, a) || cross(c, d, b) == 0 && onSegment(c, d, b)
		}
		if crossed >= 0 {
			c, d := other[crossed], other[(crossed+1)%len(other)]
			return nil, Flaw{Kind: Cross, I: i, J: crossed, At: crossing(a, b, c, d)}, false
		}
		slices.SortFunc(cuts, compare)
		cuts = slices.Compact(cuts)
		for k := 1; k < len(cuts); k++ {
			parts = append(parts, part{cuts[k-1], cuts[k], i, here})
		}
	}
	return parts, Flaw{}, true
}

// An index finds the edges of a ring by their extents: a balanced tree of the edges in the order of their left ends,
// each node with how far its subtree reaches to the right (compare T. Cormen and others, Introduction to Algorithms, on
// interval trees).
type index struct {
	boxes []box
	edges []int
	reach []measure.Length // by node: the middle of a range is the root of its tree
}

// edgesNear returns an index of the edges of a ring whose extent meets a box. It takes O(n log n) steps.
func edgesNear(ring []point, b box) *index {
	x := &index{}
	var edges []int
	boxes := make([]box, len(ring))
	for j, c := range ring {
		if boxes[j] = boxOf(c, ring[(j+1)%len(ring)]); b.meets(boxes[j]) {
			edges = append(edges, j)
		}
	}
	slices.SortFunc(edges, func(i, j int) int {
		return cmp.Or(cmp.Compare(boxes[i].min.X, boxes[j].min.X), cmp.Compare(i, j))
	})
	x.edges, x.reach = edges, make([]measure.Length, len(edges))
	for _, j := range edges {
		x.boxes = append(x.boxes, boxes[j])
	}
	x.extend(0, len(edges))
	return x
}

// extend fills in the reach of the tree over a range.
func (x *index) extend(from, to int) measure.Length {
	if from == to {
		return math.MinInt64
	}
	root := (from + to) / 2
	x.reach[root] = max(x.boxes[root].max.X, x.extend(from, root), x.extend(root+1, to))
	return x.reach[root]
}

// meeting yields the edges whose extent meets a box. It takes O(log n) steps for each that meets its stretch of x.
func (x *index) meeting(b box) iter.Seq[int] {
	return func(yield func(int) bool) { x.visit(0, len(x.edges), b, yield) }
}

func (x *index) visit(from, to int, b box, yield func(int) bool) bool {
	if from == to {
		return true
	}
	root := (from + to) / 2
	if x.reach[root] < b.min.X {
		return true
	}
	if !x.visit(from, root, b, yield) {
		return false
	}
	if x.boxes[root].min.X > b.max.X {
		return true
	}
	if x.boxes[root].meets(b) && !yield(x.edges[root]) {
		return false
	}
	return x.visit(root+1, to, b, yield)
}
