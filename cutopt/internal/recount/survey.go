package recount

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"sort"
)

// A survey gathers what is wrong.
type survey struct {
	*drawing
	strips []Strip
	parts  []Ref

	uncovered map[int]*Flaw       // by row
	overlap   map[[2]int]*Flaw    // by parts
	outside   map[int]*Flaw       // by part
	near      map[int]*Flaw       // by part
	between   map[[3]int]*meeting // by row and two runs

	open []Open // floor that no part covers, hidden or not

	here, kept []int // parts and keeps at a place, reused
}

// mostOpen is the most cells of open floor that are kept: more than a floor has that is laid.
const mostOpen = 4 << 20

// A meeting is what lies between two neighbouring runs.
type meeting struct {
	walled      bool
	part, other int
}

func newSurvey(d *drawing, strips []Strip) *survey {
	return &survey{
		drawing: d, strips: strips,
		uncovered: make(map[int]*Flaw), overlap: make(map[[2]int]*Flaw), outside: make(map[int]*Flaw),
		near: make(map[int]*Flaw), between: make(map[[3]int]*meeting),
	}
}

// A state is what a line along the rows has come to at a place.
type state struct {
	on     []int32 // polygons that the place lies in, in ascending order; shared, never changed
	last   int     // the part left last, none within a part
	walled bool    // something that is no floor was passed since
}

// pass returns the state beyond an edge of a polygon.
func (s *survey) pass(st state, polygon int32) state {
	k, inside := slices.BinarySearch(st.on, polygon)
	on := make([]int32, 0, len(st.on)+1)
	on = append(on, st.on[:k]...)
	if inside {
		on = append(on, st.on[k+1:]...)
	} else {
		on = append(append(on, polygon), st.on[k:]...)
	}
	next := state{on, st.last, st.walled}
	if p := &s.polygons[polygon]; p.role == rolePart {
		if !inside {
			s.meet(&st, int(p.of))
		}
		next.last, next.walled = none, false
		if inside && !slices.ContainsFunc(on, func(i int32) bool { return s.polygons[i].role == rolePart }) {
			next.last = int(p.of)
		}
	}
	return next
}

// apart reports whether a place in these polygons parts two runs: no floor, or kept free.
func (s *survey) apart(on []int32) bool {
	count := s.count(on)
	return !count.inside() || count[roleKeep] > 0
}

// A tally counts polygons by role.
type tally [roles]int

func (s *survey) count(on []int32) (t tally) {
	for _, i := range on {
		t[s.polygons[i].role]++
	}
	return t
}

func (t *tally) floor() bool { return t[roleRoom] > 0 && t[roleIsland] == 0 || t[roleOpen] > 0 }

func (t *tally) inside() bool { return t.floor() || t[roleMargin] > 0 }

// A trapezoid is the extent of a cell: its two sides at its lower and its upper end, and the heights of these.
type trapezoid struct{ left0, right0, left1, right1, low, high float64 }

func (c *trapezoid) thick() float64 { return c.high - c.low }

func (c *trapezoid) area() float64 {
	return (max(0, c.right0-c.left0) + max(0, c.right1-c.left1)) / 2 * c.thick()
}

func (c *trapezoid) extent() (at, to Spot) {
	return Spot{min(c.left0, c.left1), c.low}, Spot{max(c.right0, c.right1), c.high}
}

// wide returns the width where it is widest.
func (c *trapezoid) wide() float64 { return max(c.right0-c.left0, c.right1-c.left1) }

// corners returns the corners at the heights where it is wide enough to count.
func (c *trapezoid) corners() []Spot {
	var out []Spot
	if c.right0-c.left0 > noise {
		out = append(out, Spot{c.left0, c.low}, Spot{c.right0, c.low})
	}
	if c.right1-c.left1 > noise {
		out = append(out, Spot{c.left1, c.high}, Spot{c.right1, c.high})
	}
	return out
}

// between returns the part of a trapezoid between two heights.
func (c *trapezoid) between(low, high float64) trapezoid {
	at := func(x0, x1, y float64) float64 { return x0 + (x1-x0)*(y-c.low)/(c.high-c.low) }
	out := *c
	if low > c.low {
		out.low, out.left0, out.right0 = low, at(c.left0, c.left1, low), at(c.right0, c.right1, low)
	}
	if high < c.high {
		out.high, out.left1, out.right1 = high, at(c.left0, c.left1, high), at(c.right0, c.right1, high)
	}
	return out
}

// cell judges one cell that lies in these polygons.
func (s *survey) cell(c *trapezoid, on []int32) {
	count := s.count(on)
	s.here, s.kept = s.here[:0], s.kept[:0]
	for _, i := range on {
		switch p := &s.polygons[i]; p.role {
		case rolePart:
			s.here = append(s.here, int(p.of))
		case roleKeep:
			s.kept = append(s.kept, int(p.of))
		}
	}
	parts := s.here
	switch {
	case len(parts) == 0:
		if count.floor() && count[roleHide] == 0 {
			s.bare(c)
		}
		if count.floor() && count[roleKeep]+count[roleFree] == 0 &&
			(!s.jogged || count[roleStraight] >= count[roleRoom]) {
			s.rows(c, func(row int, t *trapezoid) {
				if t.wide() > noise && len(s.open) < mostOpen {
					at, to := t.extent()
					s.open = append(s.open, Open{
						row, at, to, t.area(), [2]float64{t.left0, t.left1}, [2]float64{t.right0, t.right1},
					})
				}
			})
		}
		return
	case !count.inside():
		for _, i := range parts {
			s.grow(s.outside, i, Flaw{Kind: Outside, Part: s.parts[i]}, c)
		}
	case len(s.kept) > 0:
		for _, i := range parts {
			s.beside(i, c)
		}
	}
	for k, i := range parts {
		for _, j := range parts[:k] {
			key := [2]int{min(i, j), max(i, j)}
			f, ok := s.overlap[key]
			if !ok {
				f = &Flaw{Kind: Overlap, Part: s.parts[key[0]], Other: s.parts[key[1]], At: c.corners()[0]}
				s.overlap[key] = f
			}
			f.Area += c.area()
		}
	}
}

// bare records uncovered floor, row by row.
func (s *survey) bare(c *trapezoid) {
	s.rows(c, func(row int, t *trapezoid) {
		if t.wide() > noise && (!s.slanted || t.wide() > Slack) {
			s.grow(s.uncovered, row, Flaw{Kind: Uncovered, Row: row}, t)
		}
	})
}

// rows parts a cell by the rows it lies in: -1 before the first, the number of rows after the last. What lies between
// two rows counts with the one before.
func (s *survey) rows(c *trapezoid, each func(row int, t *trapezoid)) {
	row := sort.Search(len(s.strips), func(i int) bool { return s.strips[i].To > c.low })
	if row < len(s.strips) && s.strips[row].From > c.low {
		row--
	}
	for low := c.low; ; row++ {
		high := c.high
		if row+1 < len(s.strips) {
			high = min(high, s.strips[row+1].From)
		} else if row < len(s.strips) {
			high = min(high, s.strips[row].To)
		}
		if t := c.between(low, high); high-low > sliver {
			each(row, &t)
		}
		if low = high; low >= c.high {
			return
		}
	}
}

// grow adds a cell to a flaw: to its area, and to its extent from At to To.
func (s *survey) grow(in map[int]*Flaw, key int, fresh Flaw, c *trapezoid) {
	at, to := c.extent()
	f, ok := in[key]
	if !ok {
		f = &fresh
		f.At, f.To = at, to
		in[key] = f
	}
	f.Area += c.area()
	f.tall += c.thick()
	f.wide = max(f.wide, c.wide())
	f.At = Spot{min(f.At.X, at.X), min(f.At.Y, at.Y)}
	f.To = Spot{max(f.To.X, to.X), max(f.To.Y, to.Y)}
}

// beside records a part within the gap of an edge, where it comes nearest.
func (s *survey) beside(part int, c *trapezoid) {
	f, ok := s.near[part]
	if !ok {
		f = &Flaw{Kind: Near, Part: s.parts[part], Distance: math.Inf(1)}
		s.near[part] = f
	}
	f.tall += c.thick()
	f.Area += c.area()
	for _, k := range s.kept {
		edge := &s.keeps[k]
		for _, p := range c.corners() {
			if distance := edge.distance(p); distance-edge.gap < f.Distance-f.Gap {
				f.Edge, f.At, f.Distance, f.Gap = edge.name, p, distance, edge.gap
			}
		}
	}
}

// distance returns how far a spot lies from the edge, or from the rim.
func (k *keep) distance(p Spot) float64 {
	v, w := k.b.minus(k.a), p.minus(k.a)
	if size := v.dot(v); size > 0 {
		w = w.plus(v, -min(1, max(0, w.dot(v)/size)))
	}
	return math.Hypot(w.X, w.Y) - k.rim
}

// meet notes what lies between a part that begins and the one before it where they belong to different runs of a row.
func (s *survey) meet(st *state, part int) {
	before, walled := st.last, st.walled
	touching := 0
	for _, i := range st.on {
		if p := &s.polygons[i]; p.role == rolePart {
			touching++
			before, walled = int(p.of), false // they touch, and this one was met first
		}
	}
	if touching > 1 {
		return
	}
	if before < 0 {
		return
	}
	a, b := &s.parts[before], &s.parts[part]
	if a.Row != b.Row || a.Run == b.Run {
		return
	}
	key := [3]int{a.Row, min(a.Run, b.Run), max(a.Run, b.Run)}
	m, ok := s.between[key]
	if !ok {
		m = &meeting{part: before, other: part}
		s.between[key] = m
	}
	m.walled = m.walled || walled
}

// flaws lists what was gathered, kind by kind and in the order of the rows.
func (s *survey) flaws() []Flaw {
	var out []Flaw
	for _, m := range []map[int]*Flaw{s.uncovered, s.outside, s.near} {
		for _, key := range slices.Sorted(maps.Keys(m)) {
			f := m[key]
			thin := f.tall <= Slack || f.Kind == Outside && f.wide <= Slack
			if !s.slanted || !thin && f.Area > Speck {
				out = append(out, *f)
			}
		}
	}
	pairs := slices.SortedFunc(maps.Keys(s.overlap), func(a, b [2]int) int {
		return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]))
	})
	for _, key := range pairs {
		out = append(out, *s.overlap[key])
	}
	runs := slices.SortedFunc(maps.Keys(s.between), func(a, b [3]int) int { return slices.Compare(a[:], b[:]) })
	for _, key := range runs {
		if m := s.between[key]; !m.walled {
			out = append(out, Flaw{Kind: Split, Part: s.parts[m.part], Other: s.parts[m.other]})
		}
	}
	return out
}
