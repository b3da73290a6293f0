package strips

import (
	"cmp"
	"context"
	"slices"

	"plank.example/cutopt/measure"
)

// A side is an edge of a path that is not level, from its lower end to its upper one.
type side struct {
	low, high point
	turns     int32 // what the winding number gains on the way over it from left to right
}

// An abscissa is the exact place of a side at a height: whole + part/of, with 0 <= part < of.
type abscissa struct{ whole, part, of int64 }

// at returns where the side is at a height between its ends. No product overflows within the limit.
func (s *side) at(y int64) abscissa {
	dx := s.high.x - s.low.x
	if dx == 0 {
		return abscissa{s.low.x, 0, 1}
	}
	of := s.high.y - s.low.y
	n := dx * (y - s.low.y)
	whole, part := n/of, n%of
	if part < 0 {
		whole, part = whole-1, part+of
	}
	return abscissa{s.low.x + whole, part, of}
}

func (a abscissa) compare(b abscissa) int {
	if a.whole != b.whole {
		return cmp.Compare(a.whole, b.whole)
	}
	return cmp.Compare(a.part*b.of, b.part*a.of)
}

func (a abscissa) float() float64 { return float64(a.whole) + float64(a.part)/float64(a.of) }

// nearest returns the nearest tick, halves upwards.
func (a abscissa) nearest() int64 {
	if 2*a.part >= a.of {
		return a.whole + 1
	}
	return a.whole
}

// A cell is floor between two sides and two heights.
type cell struct {
	from, to    int64
	left, right int32 // indices of sides
}

// A region is floor as cells, which share no more than boundaries. Level boundaries between cells are within the floor;
// sides never are.
type region struct {
	sides []side
	cells []cell
}

// A crossing is a side in a slab.
type crossing struct {
	side      int32
	low, high abscissa
	top       int64 // the height of high
}

// A sweeper moves a line over paths from the lowest y up.
type sweeper struct {
	region
	line []crossing
	open []int32 // by side: the last cell on its right, +1
}

// sweep returns the points that the paths wind around at least once.
func sweep(paths [][]point) *region {
	reg, _ := sweepPolled(&poll{ctx: context.Background()}, paths) // without a context that ends there is no error
	return reg
}

// sweepPolled does what sweep does; the error is that of the poll.
func sweepPolled(clock *poll, paths [][]point) (*region, error) {
	s := &sweeper{}
	var heights []int64
	for _, path := range paths {
		for i, a := range path {
			b := path[(i+1)%len(path)]
			switch {
			case a.y < b.y:
				s.sides = append(s.sides, side{a, b, -1})
			case a.y > b.y:
				s.sides = append(s.sides, side{b, a, 1})
			default:
				continue
			}
			heights = append(heights, a.y, b.y)
		}
	}
	slices.SortFunc(s.sides, func(a, b side) int {
		return cmp.Or(cmp.Compare(a.low.y, b.low.y), cmp.Compare(a.low.x, b.low.x), cmp.Compare(a.high.x, b.high.x),
			cmp.Compare(a.high.y, b.high.y), cmp.Compare(a.turns, b.turns))
	})
	slices.Sort(heights)
	heights = slices.Compact(heights)
	s.open = make([]int32, len(s.sides))
	next, all := 0, len(s.sides) // knots add sides
	for i := 0; i+1 < len(heights); i++ {
		low, high := heights[i], heights[i+1]
		s.line = slices.DeleteFunc(s.line, func(c crossing) bool { return s.sides[c.side].high.y <= low })
		for ; next < all && s.sides[next].low.y == low; next++ {
			s.line = append(s.line, crossing{side: int32(next), top: low - 1})
		}
		for low < high && len(s.line) > 0 {
			low = s.slab(low, high)
			if err := clock.spend(len(s.line)); err != nil {
				return nil, err
			}
		}
	}
	return &s.region, nil
}

// slab takes the slab from low up to high, or up to where sides cross in it, and returns its upper end.
func (s *sweeper) slab(low, high int64) int64 {
	for i := range s.line {
		c := &s.line[i]
		if c.top == low {
			c.low = c.high
		} else {
			c.low = s.sides[c.side].at(low)
		}
		c.high, c.top = s.sides[c.side].at(high), high
	}
	// Sides keep their order from slab to slab but for a few: insertion is quick.
	for i := 1; i < len(s.line); i++ {
		c := s.line[i]
		j := i
		for ; j > 0 && before(&c, &s.line[j-1]); j-- {
			s.line[j] = s.line[j-1]
		}
		s.line[j] = c
	}
	for {
		cut := s.crossed(low, high)
		if cut == high {
			s.emit(low, high)
			return high
		}
		if high == low+1 {
			s.knot(low, high)
			return high
		}
		high = cut
		for i := range s.line {
			c := &s.line[i]
			c.high, c.top = s.sides[c.side].at(high), high
		}
	}
}

func before(a, b *crossing) bool {
	c := a.low.compare(b.low)
	return c < 0 || c == 0 && a.high.compare(b.high) < 0
}

// crossed returns a height at or below the lowest place where neighbours cross, but above low if a tick is between
// them; high where none do.
func (s *sweeper) crossed(low, high int64) int64 {
	cut := high
	for i := 1; i < len(s.line); i++ {
		a, b := &s.line[i-1], &s.line[i]
		if b.high.compare(a.high) >= 0 {
			continue
		}
		// The floating-point estimate only guides: what still crosses is cut again.
		p, q := b.low.float()-a.low.float(), a.high.float()-b.high.float()
		y := low
		if p+q > 0 {
			y += int64(float64(high-low) * p / (p + q))
		}
		cut = min(cut, max(low+1, min(y, high-1)), high-1)
	}
	return cut
}

// emit adds the floor of a slab; a stretch between the same sides as in the slab below goes on.
func (s *sweeper) emit(low, high int64) {
	turns, left := int32(0), int32(-1)
	for i := 0; i < len(s.line); {
		j, was := i, turns
		for ; j < len(s.line) && s.line[j].low == s.line[i].low && s.line[j].high == s.line[i].high ||
			j < len(s.line) && s.line[j].low.compare(s.line[i].low) == 0 && s.line[j].high.compare(s.line[i].high) == 0; j++ {
			turns += s.sides[s.line[j].side].turns
		}
		switch at := s.line[i].side; {
		case was < 1 && turns >= 1:
			left = at
		case was >= 1 && turns < 1:
			s.add(low, high, left, at)
		}
		i = j
	}
}

// knot adds the floor of a slab one tick high in which sides cross. At its two ends the floor is exact; between them it
// goes straight from one to the other, which is at most a tick off. Where the number of stretches changes, those of the
// lower end go straight up.
func (s *sweeper) knot(low, high int64) {
	below := s.stretches(func(c *crossing) (abscissa, abscissa) { return c.low, c.high })
	above := s.stretches(func(c *crossing) (abscissa, abscissa) { return c.high, c.low })
	if len(below) != len(above) {
		above = below
	}
	for i, p := range below {
		q := above[i]
		if min(p.to, q.to) < max(p.from, q.from) {
			q = p // not the same stretch
		}
		if p.from == p.to && q.from == q.to {
			continue
		}
		left := s.between(p.left, q.left, point{p.from, low}, point{q.from, high})
		s.add(low, high, left, s.between(p.right, q.right, point{p.to, low}, point{q.to, high}))
	}
}

// between returns the side from one place to another in a knot: the one that runs through both, or a new one.
func (s *sweeper) between(below, above int32, low, high point) int32 {
	if below == above && s.sides[below].at(high.y).nearest() == high.x {
		return below
	}
	s.sides, s.open = append(s.sides, side{low: low, high: high}), append(s.open, 0)
	return int32(len(s.sides) - 1)
}

// An extent is a stretch of floor at one height, and the sides it lies between.
type extent struct {
	from, to    int64
	left, right int32
}

// stretches returns the floor at one end of a slab; other gives the order of sides that meet there.
func (s *sweeper) stretches(at func(*crossing) (here, other abscissa)) []extent {
	line := slices.Clone(s.line)
	// They lie almost in order: insertion is quick.
	for i := 1; i < len(line); i++ {
		c := line[i]
		p, q := at(&c)
		j := i
		for ; j > 0; j-- {
			if r, t := at(&line[j-1]); cmp.Or(p.compare(r), q.compare(t)) >= 0 {
				break
			}
			line[j] = line[j-1]
		}
		line[j] = c
	}
	var out []extent
	turns, e := int32(0), extent{}
	for i := range line {
		was := turns
		turns += s.sides[line[i].side].turns
		x, _ := at(&line[i])
		switch {
		case was < 1 && turns >= 1:
			if n := len(out); n > 0 && out[n-1].to == x.nearest() {
				e, out = out[n-1], out[:n-1] // two that touch are one
			} else {
				e.from, e.left = x.nearest(), line[i].side
			}
		case was >= 1 && turns < 1:
			e.to, e.right = x.nearest(), line[i].side
			out = append(out, e)
		}
	}
	return out
}

func (s *sweeper) add(low, high int64, left, right int32) {
	if k := s.open[left]; k > 0 {
		if c := &s.cells[k-1]; c.right == right && c.to == low {
			c.to = high
			return
		}
	}
	s.cells = append(s.cells, cell{low, high, left, right})
	s.open[left] = int32(len(s.cells))
}

// A patch is a cell whose corners are whole ticks.
type patch struct{ low, high, left0, right0, left1, right1 int64 }

// patch returns the part of the cell between two heights.
func (r *region) patch(c *cell, low, high int64) patch {
	a, b := &r.sides[c.left], &r.sides[c.right]
	p := patch{low, high, a.at(low).nearest(), b.at(low).nearest(), a.at(high).nearest(), b.at(high).nearest()}
	// Rounding may exchange two sides that meet.
	p.right0, p.right1 = max(p.left0, p.right0), max(p.left1, p.right1)
	return p
}

func (p patch) slanted() bool { return p.left0 != p.left1 || p.right0 != p.right1 }

func (p *patch) left() int64 { return min(p.left0, p.left1) }

func (p *patch) right() int64 { return max(p.right0, p.right1) }

// twice returns twice the area.
func (p *patch) twice() int64 { return (p.right0 - p.left0 + p.right1 - p.left1) * (p.high - p.low) }

func (p *patch) corners() []point {
	return []point{{p.left0, p.low}, {p.right0, p.low}, {p.right1, p.high}, {p.left1, p.high}}
}

// patches returns all cells with whole corners.
func (r *region) patches() []patch {
	out := make([]patch, 0, len(r.cells))
	for i := range r.cells {
		c := &r.cells[i]
		if p := r.patch(c, c.from, c.to); p.twice() > 0 {
			out = append(out, p)
		}
	}
	return out
}

// area returns the area, exact but for half a square tick, rounded down.
func (r *region) area() measure.Area {
	var twice int64
	for _, p := range r.patches() {
		twice += p.twice()
	}
	return measure.Area(twice / 2)
}
