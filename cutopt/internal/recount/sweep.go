package recount

import (
	"cmp"
	"container/heap"
	"context"
	"slices"
	"sort"
)

const (
	noise  = 0.5  // ticks: narrower cells are rounding
	sliver = 1e-3 // ticks: places nearer than this are the same
)

// An edge is a side of a polygon that is not level.
type edge struct {
	low, high Spot
	polygon   int32
	cell      int32 // the cell on its right while it is on the line, else none
}

const none = -1

// at returns where the edge is at a height between its ends.
func (e *edge) at(y float64) float64 {
	if e.low.X == e.high.X {
		return e.low.X
	}
	t := (y - e.low.Y) / (e.high.Y - e.low.Y)
	return e.low.X + (e.high.X-e.low.X)*min(1, max(0, t))
}

// A cell lies between two neighbouring edges from a height up to where the one or the other ends, or another comes
// between.
type cell struct {
	right int32 // edge; none beyond the last
	from  float64
	wall  bool // it is wide enough to part two runs, and no floor
	state state
}

// A crossing is a height at which two neighbours change places.
type crossing struct {
	y           float64
	left, right int32
}

// A sweeper moves a level line over polygons from the lowest place up. Only what lies beside a corner or a crossing is
// touched there: a cell stays open as long as the edges on both its sides and what covers it stay the same.
type sweeper struct {
	*survey
	edges     []edge
	starts    []int32 // edges by their lower ends
	ends      []int32 // edges by their upper ends
	line      []int32 // edges that the line crosses, from left to right
	crossings crossings
	cells     []cell
	free      []int32 // cells not in use
	changed   []int32 // edges whose cells are to be looked at; none for the place before the first edge
}

// MeasureContext recounts a floor and returns what is wrong with the parts that lie on it, and what they leave open,
// each in a fixed order. Parts must lie within the strip of their row, and strips must not overlap. The error is that
// of the context, which is polled every few thousand steps.
//
// With n corners of outlines and parts, of which d lie in strips of walls at any one place, and c crossings of edges it
// takes O((n + c) (d + log n)) steps, and for each corner it moves at most as many indices as edges lie at its height.
func MeasureContext(ctx context.Context, f *Floor, strips []Strip, parts []Part) ([]Flaw, []Open, error) {
	d := draw(f)
	for i := range parts {
		d.add(rolePart, i, parts[i].Corners...)
	}
	s := &sweeper{survey: newSurvey(d, strips, parts)}
	s.list()
	for steps := 0; ; {
		h, ok := s.next()
		if !ok {
			return s.flaws(), s.open, nil
		}
		steps += s.step(h)
		if steps > 1<<12 {
			if err := ctx.Err(); err != nil {
				return nil, nil, err
			}
			steps = 0
		}
	}
}

// Measure does what [MeasureContext] does, to the end.
func Measure(f *Floor, strips []Strip, parts []Part) []Flaw {
	// without a context that ends there is no error
	flaws, _, _ := MeasureContext(context.Background(), f, strips, parts)
	return flaws
}

// list lists the edges of all polygons, by their lower ends and by their upper ends.
func (s *sweeper) list() {
	for i := range s.polygons {
		corners := s.polygons[i].corners
		for k, a := range corners {
			b := corners[(k+1)%len(corners)]
			if a.Y > b.Y {
				a, b = b, a
			}
			if b.Y-a.Y > sliver {
				s.edges = append(s.edges, edge{a, b, int32(i), none})
			}
		}
	}
	s.starts, s.ends = make([]int32, len(s.edges)), make([]int32, len(s.edges))
	for i := range s.starts {
		s.starts[i], s.ends[i] = int32(i), int32(i)
	}
	slices.SortFunc(s.starts, func(i, j int32) int {
		return cmp.Or(cmp.Compare(s.edges[i].low.Y, s.edges[j].low.Y), cmp.Compare(i, j))
	})
	slices.SortFunc(s.ends, func(i, j int32) int {
		return cmp.Or(cmp.Compare(s.edges[i].high.Y, s.edges[j].high.Y), cmp.Compare(i, j))
	})
}

// next returns the lowest height at which something changes.
func (s *sweeper) next() (h float64, ok bool) {
	if len(s.ends) == 0 {
		return 0, false
	}
	h = s.edges[s.ends[0]].high.Y
	if len(s.starts) > 0 {
		h = min(h, s.edges[s.starts[0]].low.Y)
	}
	if len(s.crossings) > 0 {
		h = min(h, s.crossings[0].y)
	}
	return h, true
}

// step takes all that changes at a height, and at most a sliver above it, and returns how many steps that took.
func (s *sweeper) step(h float64) int {
	top := h + sliver
	var leaving, joining []int32
	for ; len(s.starts) > 0 && s.edges[s.starts[0]].low.Y <= top; s.starts = s.starts[1:] {
		if e := s.starts[0]; s.edges[e].high.Y > top {
			joining = append(joining, e)
		}
	}
	for ; len(s.ends) > 0 && s.edges[s.ends[0]].high.Y <= top; s.ends = s.ends[1:] {
		if e := s.ends[0]; s.edges[e].cell != none {
			leaving = append(leaving, e)
		}
	}
	s.changed = s.changed[:0]
	all := 8*(len(leaving)+len(joining)) > len(s.line)
	if all {
		s.renew(leaving, joining, h)
	} else {
		for _, e := range leaving {
			s.leave(e, h)
		}
		for _, e := range joining {
			s.join(e, h)
		}
	}
	for len(s.crossings) > 0 && s.crossings[0].y <= top {
		c := heap.Pop(&s.crossings).(crossing)
		s.swap(&c, h)
	}
	steps := len(leaving) + len(joining) + len(s.changed) + 1
	if all {
		return steps + s.walk(0, h, true)
	}
	return steps + s.walks(h)
}

// before reports whether edge i lies left of edge j at a height, or above it where they meet there.
func (s *sweeper) before(i, j int32, h float64) bool {
	a, b := &s.edges[i], &s.edges[j]
	if d := a.at(h) - b.at(h); d < -sliver || d > sliver {
		return d < 0
	}
	y := min(a.high.Y, b.high.Y)
	if d := a.at(y) - b.at(y); d < -sliver || d > sliver {
		return d < 0
	}
	return cmp.Or(cmp.Compare(a.polygon, b.polygon), cmp.Compare(i, j)) < 0
}

// renew takes edges off the line and puts others on it, all in one pass.
func (s *sweeper) renew(leaving, joining []int32, h float64) {
	for _, e := range leaving {
		s.drop(e, h)
	}
	s.line = slices.DeleteFunc(s.line, func(e int32) bool { return s.edges[e].cell == none })
	slices.SortFunc(joining, func(i, j int32) int {
		switch {
		case i == j:
			return 0
		case s.before(i, j, h):
			return -1
		}
		return 1
	})
	line := make([]int32, 0, len(s.line)+len(joining))
	k := 0
	for _, e := range joining {
		for ; k < len(s.line) && !s.before(e, s.line[k], h); k++ {
			line = append(line, s.line[k])
		}
		line = append(line, e)
		s.edges[e].cell = s.fresh()
	}
	s.line = append(line, s.line[k:]...)
}

// place returns where the edge is, or belongs, on the line.
func (s *sweeper) place(e int32, h float64) int {
	return sort.Search(len(s.line), func(k int) bool { return !s.before(s.line[k], e, h) })
}

// index returns where on the line an edge is that is on it. Rounding may have put it a little beside its place.
func (s *sweeper) index(e int32, h float64) int {
	at := s.place(e, h)
	for d := 0; ; d++ {
		if k := at + d; k < len(s.line) && s.line[k] == e {
			return k
		}
		if k := at - d; k >= 0 && k < len(s.line) && s.line[k] == e {
			return k
		}
	}
}

// mark notes that the cell on the right of the edge at an index of the line is to be looked at.
func (s *sweeper) mark(k int) {
	if k < 0 {
		s.changed = append(s.changed, none)
	} else {
		s.changed = append(s.changed, s.line[k])
	}
}

func (s *sweeper) leave(e int32, h float64) {
	k := s.index(e, h)
	s.drop(e, h)
	s.line = slices.Delete(s.line, k, k+1)
	s.mark(k - 1)
}

func (s *sweeper) join(e int32, h float64) {
	k := s.place(e, h)
	s.line = slices.Insert(s.line, k, e)
	s.edges[e].cell = s.fresh()
	s.mark(k - 1)
	s.mark(k)
}

// swap lets two neighbours change places, if they still are neighbours.
func (s *sweeper) swap(c *crossing, h float64) {
	if s.edges[c.left].cell == none || s.edges[c.right].cell == none {
		return
	}
	k := s.index(c.left, h)
	if k+1 == len(s.line) || s.line[k+1] != c.right {
		return
	}
	s.line[k], s.line[k+1] = c.right, c.left
	s.mark(k - 1)
	s.mark(k)
	s.mark(k + 1)
}

// fresh returns a cell that is not yet open.
func (s *sweeper) fresh() int32 {
	c := int32(len(s.cells))
	if n := len(s.free); n > 0 {
		c, s.free = s.free[n-1], s.free[:n-1]
	} else {
		s.cells = append(s.cells, cell{})
	}
	s.cells[c] = cell{right: unopened}
	return c
}

const unopened = -2

// drop judges the cell on the right of an edge that leaves the line, as it lies up to a height, and frees it.
func (s *sweeper) drop(e int32, h float64) {
	at := s.edges[e].cell
	s.judge(&s.edges[e], &s.cells[at], h)
	s.free = append(s.free, at)
	s.edges[e].cell = none
}

// judge judges a cell that ends at a height.
func (s *sweeper) judge(left *edge, c *cell, h float64) {
	if c.right < 0 || h-c.from <= sliver {
		return
	}
	right := &s.edges[c.right]
	t := trapezoid{left.at(c.from), right.at(c.from), left.at(h), right.at(h), c.from, h}
	if t.wide() > noise {
		s.cell(&t, c.state.on)
	}
}

// walks walks on from each place that has changed, from left to right.
func (s *sweeper) walks(h float64) (steps int) {
	places := make([]int, 0, len(s.changed))
	for _, e := range s.changed {
		switch {
		case e == none:
			places = append(places, 0)
		case s.edges[e].cell != none:
			places = append(places, s.index(e, h))
		}
	}
	slices.Sort(places)
	done := 0
	for _, k := range places {
		if k >= done {
			n := s.walk(k, h, false)
			done, steps = k+n, steps+n
		}
	}
	return steps
}

// walk brings the cells up to date from an index of the line on, at most up to one that is found as it should be. It
// returns how many it looked at.
func (s *sweeper) walk(from int, h float64, all bool) int {
	st := state{last: none}
	if from > 0 {
		st = s.cells[s.edges[s.line[from-1]].cell].state
	}
	for k := from; k < len(s.line); k++ {
		e, next := s.line[k], int32(none)
		if k+1 < len(s.line) {
			next = s.line[k+1]
		}
		st = s.pass(st, s.edges[e].polygon)
		c := &s.cells[s.edges[e].cell]
		if c.right == next && slices.Equal(c.state.on, st.on) {
			st.walled = st.walled || c.wall && st.last != none
			same := c.state.last == st.last && c.state.walled == st.walled
			c.state.last, c.state.walled = st.last, st.walled
			if same && !all {
				return k - from + 1
			}
			continue
		}
		s.judge(&s.edges[e], c, h)
		*c = cell{right: next, from: h}
		if next != none {
			wide := s.meeting(e, next, h)
			c.wall = wide > noise && s.apart(st.on)
		}
		st.walled = st.walled || c.wall && st.last != none
		c.state = st
	}
	return len(s.line) - from
}

// meeting notes where two neighbours cross, and returns how wide what lies between them grows.
func (s *sweeper) meeting(left, right int32, h float64) float64 {
	a, b := &s.edges[left], &s.edges[right]
	y := min(a.high.Y, b.high.Y)
	here, there := b.at(h)-a.at(h), b.at(y)-a.at(y)
	if there < -sliver {
		here := max(0, here)
		heap.Push(&s.crossings, crossing{h + (y-h)*here/(here-there), left, right})
	}
	return max(here, there)
}

// crossings is a heap, the lowest first.
type crossings []crossing

func (c crossings) Len() int { return len(c) }

func (c crossings) Less(i, j int) bool {
	return cmp.Or(cmp.Compare(c[i].y, c[j].y), cmp.Compare(c[i].left, c[j].left), cmp.Compare(c[i].right,
		c[j].right)) < 0
}

func (c crossings) Swap(i, j int) { c[i], c[j] = c[j], c[i] }

func (c *crossings) Push(x any) { *c = append(*c, x.(crossing)) }

func (c *crossings) Pop() any {
	old := *c
	x := old[len(old)-1]
	*c = old[:len(old)-1]
	return x
}
