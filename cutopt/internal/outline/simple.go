package outline

import (
	"slices"
	"sort"

	"plank.example/cutopt/measure"
)

// A Kind says what is wrong with a ring.
type Kind int

// The kinds of flaws.
const (
	FewCorners Kind = iota // fewer than three different corners
	Fold                   // edge J runs back over edge I
	Cross                  // edges I and J cross at At
	Touch                  // corner I lies on edge J
	Repeat                 // corners I and J are the same place
	Outside                // the part of edge I at At lies outside the other ring
	Overlap                // the two rings share the part around edge I
)

// A Flaw says where a ring is no outline. Indices are from 0: edge i runs from corner i to corner i+1.
type Flaw struct {
	Kind Kind
	I, J int
	At   measure.Point
}

// Simple reports the first flaw it meets, from left to right, of a ring that should neither cross nor touch itself.
// Either direction will do, and so will corners that repeat the one before them and corners in line.
//
// It is the sweep of Shamos and Hoey ("Geometric intersection problems", 1976) with the crossing edges in a sorted
// slice: O(n log n) comparisons for n corners, and at worst n moves of n indices.
func Simple(ring []measure.Point) (Flaw, bool) {
	corners, index := distinct(ring)
	if len(corners) < 3 {
		return Flaw{Kind: FewCorners}, false
	}
	s := &sweep{corners: corners}
	f, ok := s.run()
	if ok {
		return Flaw{}, true
	}
	f.I, f.J = index[f.I], index[f.J]
	return f, false
}

// A sweep moves a line over a ring from left to right, tilted so little that it meets one corner at a time.
type sweep struct {
	corners []point
	active  []int32 // edges that the line crosses, from bottom to top
}

// ends returns the lower and the higher end of an edge in the order of the sweep.
func (s *sweep) ends(edge int32) (first, last point) {
	a, b := s.corners[edge], s.corners[s.next(edge)]
	if compare(a, b) > 0 {
		return b, a
	}
	return a, b
}

func (s *sweep) next(i int32) int32 {
	if int(i)+1 == len(s.corners) {
		return 0
	}
	return i + 1
}

func (s *sweep) run() (Flaw, bool) {
	order := make([]int32, len(s.corners))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(i, j int32) int {
		if c := compare(s.corners[i], s.corners[j]); c != 0 {
			return c
		}
		return int(i - j)
	})
	for k := 1; k < len(order); k++ {
		if i, j := order[k-1], order[k]; s.corners[i] == s.corners[j] {
			return Flaw{Kind: Repeat, I: int(i), J: int(j), At: s.corners[i]}, false
		}
	}
	for _, v := range order {
		if f, ok := s.step(v); !ok {
			return f, false
		}
	}
	return Flaw{}, true
}

// step moves the line past corner v: edges that end there leave it, edges that begin there join it, and edges that have
// become neighbours are tested.
func (s *sweep) step(v int32) (Flaw, bool) {
	p := s.corners[v]
	side := func(k int) int64 {
		first, last := s.ends(s.active[k])
		return cross(first, last, p)
	}
	from := sort.Search(len(s.active), func(k int) bool { return side(k) <= 0 })
	into, out := v-1, v
	if v == 0 {
		into = int32(len(s.corners) - 1)
	}
	to := from
	for ; to < len(s.active) && side(to) == 0; to++ {
		if e := s.active[to]; e != into && e != out {
			return Flaw{Kind: Touch, I: int(v), J: int(e), At: p}, false
		}
	}
	var joining []int32
	for _, e := range []int32{into, out} {
		if first, _ := s.ends(e); first == p {
			joining = append(joining, e)
		}
	}
	if len(joining) == 2 {
		_, a := s.ends(joining[0])
		_, b := s.ends(joining[1])
		turn := cross(p, a, b)
		if turn == 0 {
			return Flaw{Kind: Fold, I: int(into), J: int(out), At: p}, false
		}
		if turn < 0 {
			joining[0], joining[1] = joining[1], joining[0]
		}
	}
	s.active = slices.Replace(s.active, from, to, joining...)
	after := from + len(joining)
	if f, ok := s.test(from-1, from); !ok || len(joining) == 0 {
		return f, ok
	}
	return s.test(after-1, after)
}

// test reports whether two neighbours on the line stay apart; they may share a corner when they follow each other.
func (s *sweep) test(k, l int) (Flaw, bool) {
	if k < 0 || l >= len(s.active) {
		return Flaw{}, true
	}
	i, j := min(s.active[k], s.active[l]), max(s.active[k], s.active[l])
	if s.next(i) == j || s.next(j) == i {
		return Flaw{}, true
	}
	a, b := s.corners[i], s.corners[s.next(i)]
	c, d := s.corners[j], s.corners[s.next(j)]
	if crossProperly(a, b, c, d) {
		return Flaw{Kind: Cross, I: int(i), J: int(j), At: crossing(a, b, c, d)}, false
	}
	for _, t := range []struct {
		corner, edge int32
		a, b, p      point
	}{{j, i, a, b, c}, {s.next(j), i, a, b, d}, {i, j, c, d, a}, {s.next(i), j, c, d, b}} {
		if cross(t.a, t.b, t.p) == 0 && onSegment(t.a, t.b, t.p) {
			return Flaw{Kind: Touch, I: int(t.corner), J: int(t.edge), At: t.p}, false
		}
	}
	return Flaw{}, true
}
