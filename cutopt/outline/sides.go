package outline

import (
	"math"

	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
)

// sides are those of a ring, in bands of equal height, so that what lies beside a place is found without a pass over
// all. The bands run along the axis that fewer sides run across: on a comb with upright teeth they are upright too.
type sides struct {
	ring   []measure.Point // as drawn
	turned []measure.Point // the same, or with x and y swapped where bands are upright
	swap   bool
	extent box            // of ring
	low    measure.Length // where the first band begins
	height measure.Length // of a band
	first  []int          // by band: its first entry in sides; one more at the end
	sides  []int          // side i runs from corner i to the next
}

// newSides takes O(corners): there are no more bands than make six entries a side.
func newSides(ring []measure.Point) *sides {
	s := &sides{ring: ring, turned: ring, extent: boxOf(ring)}
	var across, climb float64
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		across, climb = across+math.Abs(float64(b.X-a.X)), climb+math.Abs(float64(b.Y-a.Y))
	}
	wide, tall := s.extent.high.X-s.extent.low.X, s.extent.high.Y-s.extent.low.Y
	s.low = s.extent.low.Y
	if across*float64(tall) < climb*float64(wide) {
		s.swap, s.turned, s.low, tall, climb = true, swapped(ring), s.extent.low.X, wide, across
	}
	n := float64(len(ring))
	bands := int(min(n, 5*n*float64(tall)/max(climb, 1), float64(tall))) + 1
	s.height = tall/measure.Length(bands) + 1
	s.first = make([]int, bands+1)
	s.each(func(_, band int) { s.first[band+1]++ })
	for k := range bands {
		s.first[k+1] += s.first[k]
	}
	s.sides = make([]int, s.first[bands])
	next := append([]int(nil), s.first...)
	s.each(func(i, band int) {
		s.sides[next[band]] = i
		next[band]++
	})
	return s
}

func swapped(ring []measure.Point) []measure.Point {
	out := make([]measure.Point, len(ring))
	for i, c := range ring {
		out[i] = measure.Point{X: c.Y, Y: c.X}
	}
	return out
}

func (s *sides) side(i int) (a, b measure.Point) { return s.turned[i], s.turned[(i+1)%len(s.turned)] }

func (s *sides) band(y measure.Length) int { return int((y - s.low) / s.height) }

// each calls f for every side with every band it reaches.
func (s *sides) each(f func(side, band int)) {
	for i := range s.ring {
		a, b := s.side(i)
		for k := s.band(min(a.Y, b.Y)); k <= s.band(max(a.Y, b.Y)); k++ {
			f(i, k)
		}
	}
}

// within reports whether a ring lies in another whose extent holds its own. A corner outside, or two sides that cross,
// settle that it does not; where nothing touches, a corner inside that it does. Rings that touch are left to the exact
// pass over all sides of both.
func within(inner, outer *sides) bool {
	touches := false
	ring := inner.ring
	if outer.swap {
		ring = swapped(ring)
	}
	for _, c := range ring {
		in, on := outer.locate(c)
		if !in && !on {
			return false
		}
		touches = touches || on
	}
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		extent := boxOf([]measure.Point{a, b})
		for k := outer.band(extent.low.Y); k <= outer.band(extent.high.Y); k++ {
			for _, j := range outer.sides[outer.first[k]:outer.first[k+1]] {
				c, d := outer.side(j)
				if !extent.meets(boxOf([]measure.Point{c, d})) {
					continue
				}
				u, v, w, x := turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)
				if u*v < 0 && w*x < 0 {
					return false
				}
				touches = touches || u*v <= 0 && w*x <= 0
			}
		}
	}
	if !touches {
		return true
	}
	_, ok := outline.Within(inner.ring, outer.ring)
	return ok
}

// locate reports whether a point lies inside the ring, by the sides to its right, or on a side.
func (s *sides) locate(p measure.Point) (in, on bool) {
	k := s.band(p.Y)
	for _, i := range s.sides[s.first[k]:s.first[k+1]] {
		a, b := s.side(i)
		t := turn(a, b, p)
		if t == 0 && boxOf([]measure.Point{a, b}).holds(box{p, p}) {
			return false, true
		}
		if (a.Y > p.Y) != (b.Y > p.Y) && (t > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	return in, false
}

// turn is 1 where c lies to the left of the line from a to b, -1 to its right, 0 on it. It is exact for coordinates
// within a kilometre of each other.
func turn(a, b, c measure.Point) int {
	l := int64(b.X-a.X)*int64(c.Y-a.Y) - int64(b.Y-a.Y)*int64(c.X-a.X)
	switch {
	case l > 0:
		return 1
	case l < 0:
		return -1
	}
	return 0
}
