package strips

import (
	"math"

	"plank.example/cutopt/measure"
)

// A crumb is a whole piece that is nowhere as wide as can be held: no round of that diameter lies within the walls and
// cuts all of it lies on one side of. Rectangles that narrow are crumbs, and so are triangles that are a little larger.

// crumbReach is how many times the narrowest strip a crumb may be long: what is longer has a strip.
const crumbReach = 8

// steady is the length from which on the direction of an edge with rounded corners tells where its round touches.
const steady = 16

// A support is the line of an edge that all of a piece lies on one side of: off(p) is how far p lies from it.
type support struct {
	at     point
	normal vector
}

func (s *support) off(p vector) float64 {
	return float64((p.x-float64(s.at.x))*s.normal.x) + float64((p.y-float64(s.at.y))*s.normal.y)
}

// supports lists the edges of rings, which make up a piece, that all of it lies on one side of.
func supports(rings [][]point) (out []support) {
	for _, ring := range rings {
		for i, a := range ring {
			d := ring[(i+1)%len(ring)].minus(a)
			size := d.size()
			if size < steady {
				continue
			}
			s := support{a, vector{-float64(d.y) / size, float64(d.x) / size}}
			low, high := 0.0, 0.0
			for _, other := range rings {
				for _, p := range other {
					v := s.off(vector{float64(p.x), float64(p.y)})
					low, high = min(low, v), max(high, v)
				}
			}
			switch {
			case low >= -rough:
				out = append(out, s)
			case high <= rough:
				s.normal = vector{-s.normal.x, -s.normal.y}
				out = append(out, s)
			}
		}
	}
	return out
}

// crumbled reports whether a piece of some rings is a crumb, and the diameter of the largest round in it.
func crumbled(rings [][]point, least float64) (diameter float64, crumb bool) {
	low, high := point{math.MaxInt64, math.MaxInt64}, point{math.MinInt64, math.MinInt64}
	for _, ring := range rings {
		for _, p := range ring {
			low, high = point{min(low.x, p.x), min(low.y, p.y)}, point{max(high.x, p.x), max(high.y, p.y)}
		}
	}
	if least <= 0 || low.x >= high.x || float64(high.x-low.x) > crumbReach*least {
		return 0, false
	}
	box := []vector{
		{float64(low.x), float64(low.y)},
		{float64(high.x), float64(low.y)},
		{float64(high.x), float64(high.y)},
		{float64(low.x), float64(high.y)},
	}
	sides := supports(rings)
	if fits(box, sides, least/2) {
		return 0, false
	}
	from, to := 0.0, least/2
	for range 32 {
		if r := (from + to) / 2; fits(box, sides, r) {
			from = r
		} else {
			to = r
		}
	}
	return 2 * from, true
}

// fits reports whether some place of a ring lies at least r from all sides.
func fits(ring []vector, sides []support, r float64) bool {
	for i := range sides {
		s := &sides[i]
		var kept []vector
		for k, p := range ring {
			q := ring[(k+1)%len(ring)]
			a, b := s.off(p)-r, s.off(q)-r
			if a >= 0 {
				kept = append(kept, p)
			}
			if (a < 0) != (b < 0) {
				t := a / (a - b)
				kept = append(kept, vector{p.x + float64(t*(q.x-p.x)), p.y + float64(t*(q.y-p.y))})
			}
		}
		if ring = kept; len(ring) == 0 {
			return false
		}
	}
	return true
}

// crumb returns what is told of a piece that is a crumb: it is one strip, as long as its two corners that are farthest
// apart, about the middle of its extent.
func crumb(corners []point, from, front, least measure.Length) (Strip, bool) {
	width, ok := crumbled([][]point{corners}, float64(least))
	if !ok {
		return Strip{}, false
	}
	long := 0.0
	low, high := corners[0], corners[0]
	for _, p := range corners {
		low, high = point{min(low.x, p.x), min(low.y, p.y)}, point{max(high.x, p.x), max(high.y, p.y)}
		for _, q := range corners {
			long = max(long, q.minus(p).size())
		}
	}
	return Strip{
		At: measure.Length((low.x+high.x)/2) - from, Across: measure.Length((low.y+high.y)/2) - front,
		Length: measure.Length(long), Width: measure.Length(width),
	}, true
}
