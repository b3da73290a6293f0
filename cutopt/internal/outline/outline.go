// Package outline checks rings of corners exactly: that one is simple, lies in another, or stays apart from another.
//
// Every decision is taken on whole numbers; it is exact for coordinates within [MaxCoordinate] of the origin.
package outline

import (
	"cmp"
	"math/big"
	"slices"

	"plank.example/cutopt/measure"
)

// MaxCoordinate is the largest coordinate for which no cross product overflows 64 bits.
const MaxCoordinate = 1000 * measure.Metre

type point = measure.Point

// cross returns twice the signed area of the triangle abc: above 0 when c lies to the left of the line from a to b.
func cross(a, b, c point) int64 {
	return int64(b.X-a.X)*int64(c.Y-a.Y) - int64(b.Y-a.Y)*int64(c.X-a.X)
}

// compare orders points by x, then y.
func compare(a, b point) int {
	return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
}

func sign(v int64) int {
	switch {
	case v < 0:
		return -1
	case v > 0:
		return 1
	}
	return 0
}

// onSegment reports whether c, which is in line with a and b, lies between them or on one of them.
func onSegment(a, b, c point) bool {
	return min(a.X, b.X) <= c.X && c.X <= max(a.X, b.X) && min(a.Y, b.Y) <= c.Y && c.Y <= max(a.Y, b.Y)
}

// crossProperly reports whether two segments cross in a point that is an end of neither.
func crossProperly(a, b, c, d point) bool {
	return sign(cross(a, b, c))*sign(cross(a, b, d)) < 0 && sign(cross(c, d, a))*sign(cross(c, d, b)) < 0
}

// crossing returns the point where two segments that cross properly meet, rounded down to whole ticks.
func crossing(a, b, c, d point) point {
	// a + (b-a) * u/(u-v), where u and v are the signed distances of a and b from the line cd.
	u, v := big.NewInt(cross(c, d, a)), big.NewInt(cross(c, d, b))
	whole := new(big.Int).Sub(u, v)
	along := func(from, to measure.Length) measure.Length {
		n := new(big.Int).Mul(big.NewInt(int64(to-from)), u)
		n.Mul(n, big.NewInt(int64(whole.Sign())))
		n.Div(n, new(big.Int).Abs(whole))
		return from + measure.Length(n.Int64())
	}
	return point{X: along(a.X, b.X), Y: along(a.Y, b.Y)}
}

// Area returns the area within a simple ring. It is exact but for half a square tick, rounded down.
func Area(ring []point) measure.Area {
	var twice int64
	for i := range ring {
		twice += cross(ring[0], ring[i], ring[(i+1)%len(ring)])
	}
	return measure.Area(max(twice, -twice) / 2)
}

// A place is where a point lies relative to a ring.
type place int

const (
	outside place = iota - 1
	boundary
	inside
)

// locate returns where the point half way between p and q lies relative to a simple ring. Cost: one pass over it.
func locate(p, q point, ring []point) place {
	// Twice the coordinates keep the middle a whole number; the differences stay within four times MaxCoordinate.
	m := point{X: p.X + q.X, Y: p.Y + q.Y}
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		a, b = point{X: 2 * a.X, Y: 2 * a.Y}, point{X: 2 * b.X, Y: 2 * b.Y}
		turn := cross(a, b, m)
		if turn == 0 && onSegment(a, b, m) {
			return boundary
		}
		if (a.Y > m.Y) != (b.Y > m.Y) && (turn > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	if in {
		return inside
	}
	return outside
}

// A box is the extent of a ring or of an edge.
type box struct{ min, max point }

func boxOf(points ...point) box {
	b := box{points[0], points[0]}
	for _, p := range points[1:] {
		b.min = point{X: min(b.min.X, p.X), Y: min(b.min.Y, p.Y)}
		b.max = point{X: max(b.max.X, p.X), Y: max(b.max.Y, p.Y)}
	}
	return b
}

func (b box) meets(c box) bool {
	return b.min.X <= c.max.X && c.min.X <= b.max.X && b.min.Y <= c.max.Y && c.min.Y <= b.max.Y
}

// distinct returns the corners of a ring, each place that is repeated at once only once, and for each the index of the
// edge that leaves it.
func distinct(ring []point) (corners []point, index []int) {
	for i, p := range ring {
		if n := len(corners); n > 0 && corners[n-1] == p {
			index[n-1] = i
		} else {
			corners, index = append(corners, p), append(index, i)
		}
	}
	for len(corners) > 1 && corners[len(corners)-1] == corners[0] {
		corners, index = corners[:len(corners)-1], index[:len(index)-1]
	}
	return slices.Clip(corners), index
}
