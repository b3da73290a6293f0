package recount

import (
	"cmp"
	"container/heap"
	"context"
	"math"
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
// touched there: a cell stays open as long as the edges on both its sides and what covers it stay the same. The parts
// of a row come in as the line gets there, and the edges of those it has left are used again.
type sweeper struct {
	*survey
	row       func(int) []Part
	entered   int // rows
	starts    agenda
	ends      agenda
	line      []int32 // edges that the line crosses, from left to right
	crossings crossings
	cells     []cell
	free      []int32 // cells not in use
	unused    []int32 // edges of parts that are done with
	changed   []int32 // edges whose cells are to be looked at; none for the place before the first edge

	leaving, joining, done, renewed []int32 // reused
}

// An agenda is edges by one of their ends, from the lowest: those of the drawing, and those of parts.
type agenda struct{ drawn, laid []int32 }

// first returns the edge whose end comes first, of those of equal height that of the drawing; none if there are none.
func (a *agenda) first(end func(e int32) float64) int32 {
	switch {
	case len(a.drawn) == 0 && len(a.laid) == 0:
		return none
	case len(a.laid) == 0 || len(a.drawn) > 0 && end(a.drawn[0]) <= end(a.laid[0]):
		return a.drawn[0]
	}
	return a.laid[0]
}

// pass takes the edge off that comes first.
func (a *agenda) pass(e int32) {
	if len(a.drawn) > 0 && a.drawn[0] == e {
		a.drawn = a.drawn[1:]
	} else {
		a.laid = a.laid[1:]
	}
}

// add adds edges of parts.
func (a *agenda) add(edges []int32, end func(e int32) float64) {
	a.laid = append(a.laid, edges...)
	order := func(i, j int32) int { return cmp.Compare(end(i), end(j)) }
	if !slices.IsSortedFunc(a.laid, order) {
		slices.SortStableFunc(a.laid, order)
	}
}

func (s *sweeper) low(e int32) float64  { return s.edges[e].low.Y }
func (s *sweeper) high(e int32) float64 { return s.edges[e].high.Y }

// MeasureContext recounts a floor and returns what is wrong with the parts that lie on it, and what they leave open,
// each in a fixed order. Row returns the parts of a row and is called once for each strip, in their order; what it
// returns is not kept. Parts must lie within the strip of their row, strips ascend and must not overlap. The error is
// that of the context, which is polled every few thousand steps.
//
// With n corners of outlines and parts, of which d lie in strips of walls at any one place, and c crossings of edges it
// takes O((n + c) (d + log n)) steps, and for each corner it moves at most as many indices as edges lie at its height.
// It keeps a few words of each part, and the corners of those at one height.
func MeasureContext(ctx context.Context, f *Floor, strips []Strip, row func(int) []Part) ([]Flaw, []Open, error) {
	s := &sweeper{survey: newSurvey(draw(f), strips), row: row}
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

// Measure does what [MeasureContext] does, to the end, with parts in the order of their rows.
func Measure(f *Floor, strips []Strip, parts []Part) []Flaw {
	// without a context that ends there is no error
	flaws, _, _ := MeasureContext(context.Background(), f, strips, func(row int) []Part {
		n := 0
		for n < len(parts) && parts[n].Row <= row {
			n++
		}
		own := parts[:n]
		parts = parts[n:]
		return own
	})
	return flaws
}

// list lists the edges of the drawing by their lower ends and by their upper ends.
func (s *sweeper) list() {
	by := func(end func(e int32) float64) []int32 {
		out := make([]int32, len(s.edges))
		for i := range out {
			out[i] = int32(i)
		}
		slices.SortStableFunc(out, func(i, j int32) int { return cmp.Compare(end(i), end(j)) })
		return out
	}
	s.starts.drawn, s.ends.drawn = by(s.low), by(s.high)
}

// enter lists the edges of the parts of the next row.
func (s *sweeper) enter() {
	edges, parts := s.joining[:0], s.row(s.entered)
	if s.entered == 0 { // rows mostly have about as many
		n := (len(parts) + 1) * len(s.strips)
		s.polygons, s.parts = slices.Grow(s.polygons, n), slices.Grow(s.parts, n)
	}
	for _, p := range parts {
		s.polygons = append(s.polygons, polygon{rolePart, int32(len(s.parts))})
		s.parts = append(s.parts, p.Ref)
		for k, a := range p.Corners {
			side, ok := s.side(a, p.Corners[(k+1)%len(p.Corners)])
			if !ok {
				continue
			}
			e := int32(len(s.edges))
			if n := len(s.unused); n > 0 {
				e, s.unused = s.unused[n-1], s.unused[:n-1]
				s.edges[e] = side
			} else {
				s.edges = append(s.edges, side)
			}
			edges = append(edges, e)
		}
	}
	s.starts.add(edges, s.low)
	s.ends.add(edges, s.high)
	s.entered++
	s.joining = edges
}

// next returns the lowest height at which something changes.
func (s *sweeper) next() (h float64, ok bool) {
	for {
		e := s.ends.first(s.high)
		if h = math.Inf(1); e != none {
			h = s.high(e)
		}
		if e := s.starts.first(s.low); e != none {
			h = min(h, s.low(e))
		}
		if len(s.crossings) > 0 {
			h = min(h, s.crossings[0].y)
		}
		if s.entered == len(s.strips) || s.strips[s.entered].From > h+sliver {
			return h, e != none
		}
		s.enter()
	}
}

// step takes all that changes at a height, and at most a sliver above it, and returns how many steps that took.
func (s *sweeper) step(h float64) int {
	top := h + sliver
	leaving, joining, done := s.leaving[:0], s.joining[:0], s.done[:0]
	for e := s.starts.first(s.low); e != none && s.low(e) <= top; e = s.starts.first(s.low) {
		if s.starts.pass(e); s.high(e) > top {
			joining = append(joining, e)
		}
	}
	for e := s.ends.first(s.high); e != none && s.high(e) <= top; e = s.ends.first(s.high) {
		if s.ends.pass(e); s.edges[e].cell != none {
			leaving = append(leaving, e)
		}
		if s.polygons[s.edges[e].polygon].role == rolePart {
			done = append(done, e)
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
		steps += s.walk(0, h, true)
	} else {
		steps += s.walks(h)
	}
	s.unused = append(s.unused, done...) // no crossing of theirs is left
	s.leaving, s.joining, s.done = leaving, joining, done
	return steps
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
	line, k := s.renewed[:0], 0
	for _, e := range joining {
		for ; k < len(s.line) && !s.before(e, s.line[k], h); k++ {
			line = append(line, s.line[k])
		}
		line = append(line, e)
		s.edges[e].cell = s.fresh()
	}
	s.line, s.renewed = append(line, s.line[k:]...), s.line
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
