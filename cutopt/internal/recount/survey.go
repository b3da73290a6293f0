package recount

import (
	"cmp"
	"maps"
	"math"
	"slices"
	"sort"
)

// A survey walks along slabs and gathers what is wrong.
type survey struct {
	*drawing
	strips []Strip
	parts  []Part

	line  []crossing
	on    []bool       // by polygon: the walk is inside
	count [roles]int   // polygons the walk is inside, by role
	here  [roles][]int // of roleKeep and rolePart: which, by index of the polygon's of

	uncovered map[int]*Finding    // by row
	overlap   map[[2]int]*Finding // by parts
	outside   map[int]*Finding    // by part
	near      map[int]*Finding    // by part
	between   map[[3]int]*meeting // by row and two runs
	last      int                 // the part left last in this slab, or -1
	walled    bool                // something that is no floor was passed since
}

// A meeting is what lies between two neighbouring runs.
type meeting struct {
	walled      bool
	part, other int
}

func newSurvey(d *drawing, strips []Strip, parts []Part) *survey {
	return &survey{
		drawing: d, strips: strips, parts: parts, on: make([]bool, len(d.polygons)),
		uncovered: make(map[int]*Finding), overlap: make(map[[2]int]*Finding), outside: make(map[int]*Finding),
		near: make(map[int]*Finding), between: make(map[[3]int]*meeting),
	}
}

// A cell lies between two neighbouring edges of a slab.
type cell struct {
	left, right crossing
	low, high   float64 // heights of the slab's ends, or twice one of them where edges cross in it
	thick       float64 // height of the slab
}

func (c *cell) area() float64 {
	return (max(0, c.right.low-c.left.low) + max(0, c.right.high-c.left.high)) / 2 * c.thick
}

// wide returns the width of the cell where it is widest.
func (c *cell) wide() float64 { return max(c.right.low-c.left.low, c.right.high-c.left.high) }

// corners returns the corners of the cell at the heights where it is wide enough to count.
func (c *cell) corners() []Spot {
	var out []Spot
	if c.right.low-c.left.low > noise {
		out = append(out, Spot{c.left.low, c.low}, Spot{c.right.low, c.low})
	}
	if c.right.high-c.left.high > noise {
		out = append(out, Spot{c.left.high, c.high}, Spot{c.right.high, c.high})
	}
	return out
}

// cells walks along the slab from left to right.
func (s *survey) cells(low, high, thick float64) {
	s.last = -1
	for i := range s.line {
		s.toggle(int(s.line[i].polygon))
		if i+1 == len(s.line) {
			break
		}
		c := cell{s.line[i], s.line[i+1], low, high, thick}
		if c.wide() > noise {
			s.cell(&c)
		}
	}
}

// toggle enters or leaves a polygon.
func (s *survey) toggle(i int) {
	p := &s.polygons[i]
	s.on[i] = !s.on[i]
	if s.on[i] {
		s.count[p.role]++
	} else {
		s.count[p.role]--
	}
	if p.role != rolePart && p.role != roleKeep {
		return
	}
	here := &s.here[p.role]
	if s.on[i] {
		*here = append(*here, p.of)
		if p.role == rolePart {
			s.meet(p.of)
		}
		return
	}
	k := slices.Index(*here, p.of)
	*here = slices.Delete(*here, k, k+1)
	if p.role == rolePart {
		s.last, s.walled = p.of, false
	}
}

// cell judges one cell.
func (s *survey) cell(c *cell) {
	floor := s.count[roleRoom] > 0 && s.count[roleIsland] == 0 || s.count[roleOpen] > 0
	inside := floor || s.count[roleMargin] > 0
	parts := s.here[rolePart]
	if !inside || s.count[roleKeep] > 0 {
		s.walled = true
	}
	switch {
	case len(parts) == 0:
		if floor && s.count[roleHide] == 0 && (!s.slanted || c.wide() > Slack) {
			s.bare(c)
		}
		return
	case !inside:
		for _, i := range parts {
			s.grow(s.outside, i, Finding{Kind: Outside, Part: s.parts[i].Ref}, c)
		}
	case s.count[roleKeep] > 0:
		for _, i := range parts {
			s.close(i, c)
		}
	}
	for k, i := range parts {
		for _, j := range parts[:k] {
			key := [2]int{min(i, j), max(i, j)}
			f, ok := s.overlap[key]
			if !ok {
				f = &Finding{Kind: Overlap, Part: s.parts[key[0]].Ref, Other: s.parts[key[1]].Ref, At: c.corners()[0]}
				s.overlap[key] = f
			}
			f.Area += c.area()
		}
	}
}

// bare records uncovered floor.
func (s *survey) bare(c *cell) {
	middle := (c.low + c.high) / 2
	row := sort.Search(len(s.strips), func(i int) bool { return s.strips[i].To > middle })
	if row < len(s.strips) && s.strips[row].From > middle {
		row-- // between two rows
	}
	s.grow(s.uncovered, row, Finding{Kind: Uncovered, Row: row}, c)
}

// grow adds a cell to a finding: to its area, and to its extent from At to To.
func (s *survey) grow(in map[int]*Finding, key int, fresh Finding, c *cell) {
	corners := c.corners()
	f, ok := in[key]
	if !ok {
		f = &fresh
		f.At, f.To = corners[0], corners[0]
		in[key] = f
	}
	f.Area += c.area()
	f.tall += c.thick
	for _, p := range corners {
		f.At = Spot{min(f.At.X, p.X), min(f.At.Y, p.Y)}
		f.To = Spot{max(f.To.X, p.X), max(f.To.Y, p.Y)}
	}
}

// close records a part within the gap of an edge, where it comes nearest.
func (s *survey) close(part int, c *cell) {
	f, ok := s.near[part]
	if !ok {
		f = &Finding{Kind: Near, Part: s.parts[part].Ref, Distance: math.Inf(1)}
		s.near[part] = f
	}
	f.tall += c.thick
	f.Area += c.area()
	for _, k := range s.here[roleKeep] {
		edge := &s.keeps[k]
		for _, p := range c.corners() {
			if distance := edge.distance(p); distance-edge.gap < f.Distance-f.Gap {
				f.Edge, f.At, f.Distance, f.Gap = edge.name, p, distance, edge.gap
			}
		}
	}
}

// distance returns how far a spot lies from the edge.
func (k *keep) distance(p Spot) float64 {
	v, w := k.b.minus(k.a), p.minus(k.a)
	if size := v.dot(v); size > 0 {
		w = w.plus(v, -min(1, max(0, w.dot(v)/size)))
	}
	return math.Hypot(w.X, w.Y)
}

// meet notes what lies between a part and the one before it where they belong to different runs of a row.
func (s *survey) meet(part int) {
	before, walled := s.last, s.walled
	switch here := s.here[rolePart]; len(here) {
	case 1:
	case 2:
		before, walled = here[0], false // they touch, and this one was met first
	default:
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

// findings lists what was gathered, kind by kind and in the order of the rows.
func (s *survey) findings() []Finding {
	var out []Finding
	for _, m := range []map[int]*Finding{s.uncovered, s.outside, s.near} {
		for _, key := range slices.Sorted(maps.Keys(m)) {
			if f := m[key]; !s.slanted || f.tall > Slack && f.Area > Speck {
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
			out = append(out, Finding{Kind: Split, Part: s.parts[m.part].Ref, Other: s.parts[m.other].Ref})
		}
	}
	return out
}
