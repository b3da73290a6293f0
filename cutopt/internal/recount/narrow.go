package recount

import (
	"cmp"
	"math"
	"slices"
)

// A Narrow is a stretch of a part where two of its edges, which are within 10 degrees of parallel, face each other at
// less than some distance.
type Narrow struct {
	A, B   Spot    // the stretch of the longer of the two edges
	Length float64 // from A to B
	Width  float64 // between the edges where they are nearest
	Up     bool    // the part lies on the side of A and B where Y is greater
}

// A facet is an edge of a part.
type facet struct {
	a, b          Spot
	along, normal Spot // unit vectors; normal points into the part
	size          float64
}

// facets lists the edges of a ring, but for ways there and back, which join a hole to the outline.
func facets(corners []Spot) []facet {
	turn := turning(corners)
	ways := make(map[[2]Spot]bool, len(corners))
	for i, a := range corners {
		ways[[2]Spot{a, corners[(i+1)%len(corners)]}] = true
	}
	var out []facet
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		v := b.minus(a)
		if size := math.Hypot(v.X, v.Y); size > 0 && !ways[[2]Spot{b, a}] {
			u := Spot{v.X / size, v.Y / size}
			out = append(out, facet{a, b, u, Spot{-u.Y * turn, u.X * turn}, size})
		}
	}
	return out
}

// Bounds say what is narrow.
type Bounds struct {
	Width   float64 // nearer to each other than this
	Long    float64 // over more than this
	Degrees float64 // within so many degrees of parallel
	Join    float64 // stretches that are no farther apart along an edge are one
}

// Narrows returns the stretches of a ring of corners, either way round, that are narrow. Each is found from one of its
// two edges or from both. It takes O(k^2) steps for k corners.
func Narrows(corners []Spot, b Bounds) []Narrow {
	facets := facets(corners)
	limit := -math.Cos(b.Degrees * math.Pi / 180)
	var out []Narrow
	var near []reached
	for i := range facets {
		e := &facets[i]
		near = near[:0]
		for j := range facets {
			f := &facets[j]
			if e.along.dot(f.along) > limit {
				continue
			}
			p, q := f.a.minus(e.a), f.b.minus(e.a)
			if r, ok := faced(p.dot(e.along), q.dot(e.along), p.dot(e.normal), q.dot(e.normal), e.size, b.Width); ok {
				near = append(near, r)
			}
		}
		slices.SortFunc(near, func(a, b reached) int {
			return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to,
				b.to))
		})
		for k := 0; k < len(near); {
			r := near[k]
			for k++; k < len(near) && near[k].from <= r.to+b.Join; k++ {
				r.to, r.width = max(r.to, near[k].to), min(r.width, near[k].width)
			}
			if r.to-r.from > b.Long {
				out = append(out, Narrow{
					e.a.plus(e.along, r.from), e.a.plus(e.along, r.to), r.to - r.from, r.width, e.normal.Y > 0,
				})
			}
		}
	}
	return out
}

// A reached is a stretch of an edge that another faces.
type reached struct{ from, to, width float64 }

// faced returns where along an edge of some size another, which runs from place s at height g to place t at height h
// over it, lies in front of it and nearer than a width.
func faced(s, t, g, h, size, width float64) (reached, bool) {
	if s > t {
		s, t, g, h = t, s, h, g
	}
	at := func(x float64) float64 { return g + (h-g)*(x-s)/(t-s) }
	from, to := max(s, 0), min(t, size)
	if from >= to {
		return reached{}, false
	}
	for _, bound := range [2]struct{ y, way float64 }{{0, 1}, {width, -1}} {
		a, b := (at(from)-bound.y)*bound.way, (at(to)-bound.y)*bound.way
		switch {
		case a <= 0 && b <= 0:
			return reached{}, false // two edges that lie on each other are none of one strip
		case a < 0:
			from += (to - from) * a / (a - b)
		case b < 0:
			to -= (to - from) * b / (b - a)
		}
	}
	if max(at(from), at(to)) <= 1 { // a spur that the rounding of its corners to ticks leaves
		return reached{}, false
	}
	return reached{from, to, max(0, min(at(from), at(to)))}, to > from
}
