package check

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt/internal/recount"
)

// A section is floor between two abscissas and two straight edges, which are given where it begins and ends.
type section struct {
	from, to     float64
	low0, low1   float64
	high0, high1 float64
}

func (s *section) height() (left, right float64) { return s.high0 - s.low0, s.high1 - s.low1 }

// slopes returns how steeply the upper and the lower edge rise along the row.
func (s *section) slopes() (up, down float64) {
	long := s.to - s.from
	return (s.high1 - s.high0) / long, (s.low1 - s.low0) / long
}

// tilt compares the two edges with parallel ones: -1 where they are within 10 degrees beyond doubt, 1 where they are
// not, 0 where rounding may make them either.
func (s *section) tilt() int {
	up, down := s.slopes()
	along := 1 + float64(up*down)
	return angle(math.Abs(up-down), along)
}

// angle compares an angle, of whose tangent the two parts are given, with 10 degrees: -1, 0 in doubt, or 1.
func angle(across, along float64) int {
	const less, more = 0.17273, 0.18008 // tangents of 9.8 and 10.2 degrees
	switch {
	case along > 0 && across <= float64(less*along):
		return -1
	case along <= 0 || across >= float64(more*along):
		return 1
	}
	return 0
}

// square returns what a height measures square to the edges.
func (s *section) square() float64 {
	up, down := s.slopes()
	slope := (up + down) / 2
	return 1 / math.Sqrt(1+float64(slope*slope))
}

// above returns the part of a section that is higher than some height, which is linear along it.
func (s *section) above(height float64) (part section, ok bool) {
	h0, h1 := s.height()
	from, to := s.from, s.to
	switch {
	case h0 <= height && h1 <= height:
		return section{}, false
	case h0 <= height:
		from = s.to - float64((h1-height)/(h1-h0)*(s.to-s.from))
	case h1 <= height:
		to = s.from + float64((h0-height)/(h0-h1)*(s.to-s.from))
	}
	at := func(a, b, x float64) float64 { return a + float64((b-a)*((x-s.from)/(s.to-s.from))) }
	return section{
		from, to, at(s.low0, s.low1, from), at(s.low0, s.low1, to), at(s.high0, s.high1, from), at(s.high0, s.high1, to),
	}, from < to
}

// meets returns over how much of the place where a section begins another ends.
func (s *section) meets(before *section) float64 {
	return min(before.high1, s.high0) - max(before.low1, s.low0)
}

// A cut is a cell between two heights.
type cut struct{ low, high, left0, left1, right0, right1 float64 }

// cutOf returns what lies of a cell between two heights.
func cutOf(o *recount.Open, low, high float64) (c cut, ok bool) {
	c = cut{o.At.Y, o.To.Y, o.Left[0], o.Left[1], o.Right[0], o.Right[1]}
	tall := c.high - c.low
	at := func(a, b, y float64) float64 { return a + float64((b-a)*((y-o.At.Y)/tall)) }
	if low > c.low {
		c.low, c.left0, c.right0 = low, at(o.Left[0], o.Left[1], low), at(o.Right[0], o.Right[1], low)
	}
	if high < o.To.Y {
		c.high, c.left1, c.right1 = high, at(o.Left[0], o.Left[1], high), at(o.Right[0], o.Right[1], high)
	}
	return c, c.high-c.low > 0.01
}

// at returns what a line across the rows meets of a cut; beyond its ends, what it meets there.
func (c *cut) at(x float64) (low, high float64, ok bool) {
	low, high = c.low, c.high
	x = min(max(x, min(c.left0, c.left1)), max(c.right0, c.right1))
	side := func(x0, x1 float64, right bool) bool {
		switch {
		case math.Abs(x0-x1) < 1 && right:
			return x <= max(x0, x1)
		case math.Abs(x0-x1) < 1:
			return x >= min(x0, x1)
		case x < min(x0, x1):
			return right
		case x > max(x0, x1):
			return !right
		}
		y := c.low + float64((x-x0)/(x1-x0)*(c.high-c.low))
		if (x0 < x1) == right {
			low = max(low, y)
		} else {
			high = min(high, y)
		}
		return true
	}
	ok = side(c.left0, c.left1, false) && side(c.right0, c.right1, true)
	return low, high, ok && low <= high
}

// A band is the floor between two heights as slabs of sections, from left to right and in each from the lowest up.
type band struct {
	places []float64 // where slabs begin, and where the last ends
	slabs  [][]section
}

// A bander cuts floor into bands again and again, in memory that it uses again once they are let go.
type bander struct {
	cuts     []cut
	places   []float64
	sections []section
	slabs    [][]section
}

// free lets go of the bands cut so far.
func (m *bander) free() { m.places, m.sections, m.slabs = m.places[:0], m.sections[:0], m.slabs[:0] }

// band cuts the floor between two heights into sections. Cells that touch are one. It takes O(k²) steps for k cells
// that lie there.
func (m *bander) band(cells []recount.Open, low, high float64) *band {
	m.cuts = m.cuts[:0]
	first := len(m.places)
	for i := range cells {
		if cells[i].At.Y >= high {
			break // they ascend
		}
		if cells[i].To.Y <= low {
			continue
		}
		if c, ok := cutOf(&cells[i], low, high); ok {
			m.cuts = append(m.cuts, c)
			m.places = append(m.places, c.left0, c.left1, c.right0, c.right1)
		}
	}
	xs := m.places[first:]
	slices.Sort(xs)
	n := 0
	for _, x := range xs {
		if n == 0 || x-xs[n-1] > 1 {
			xs[n] = x
			n++
		}
	}
	m.places = m.places[:first+n]
	begin := len(m.slabs)
	for i := 0; i+1 < n; i++ {
		m.slabs = append(m.slabs, m.slab(xs[i], xs[i+1]))
	}
	return &band{places: xs[:n:n], slabs: m.slabs[begin:len(m.slabs):len(m.slabs)]}
}

// slab returns the sections between two abscissas, between which no corner lies.
func (m *bander) slab(from, to float64) []section {
	begin := len(m.sections)
	for i := range m.cuts {
		c, x := &m.cuts[i], (from+to)/2
		if x < min(c.left0, c.left1) || x > max(c.right0, c.right1) {
			continue
		}
		low, high, ok := c.at(x)
		if !ok {
			continue
		}
		s := section{from, to, low, low, high, high}
		if low, high, ok := c.at(from); ok {
			s.low0, s.high0 = low, high
		}
		if low, high, ok := c.at(to); ok {
			s.low1, s.high1 = low, high
		}
		m.sections = append(m.sections, s)
	}
	out := m.sections[begin:]
	if len(out) < 2 {
		return out[:len(out):len(out)]
	}
	slices.SortFunc(out, func(a, b section) int {
		return cmp.Or(cmp.Compare(a.low0+a.low1, b.low0+b.low1), cmp.Compare(a.high0+a.high1, b.high0+b.high1))
	})
	n := 0
	for i := 1; i < len(out); i++ {
		if a, b := &out[n], &out[i]; b.low0-a.high0 <= 2 && b.low1-a.high1 <= 2 {
			a.high0, a.high1 = max(a.high0, b.high0), max(a.high1, b.high1)
			continue
		}
		n++
		out[n] = out[i]
	}
	m.sections = m.sections[:begin+n+1]
	return out[: n+1 : n+1]
}
