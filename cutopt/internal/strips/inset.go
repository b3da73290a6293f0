package strips

import "math"

// limit is the largest coordinate for which no product of the sweep overflows 64 bits: about 3 km.
const limit = 1_000_000_000

// A vector is a direction or a place off the ticks.
type vector struct{ x, y float64 }

func (p point) plus(v vector, times float64) point {
	return point{p.x + round(v.x*times), p.y + round(v.y*times)}
}

// inset returns the path of a ring that winds around each point as often as the ring does, less once for each strip
// beside a wall that covers it and once for each mitre. Each wall gives the way a, a+gap, b+gap, b.
func (r ring) inset() []point {
	n := len(r)
	along, normal := make([]vector, n), make([]vector, n)
	for i := range r {
		d := r[(i+1)%n].at.minus(r[i].at)
		size := d.size()
		if along[i] = r[i].way; along[i] == (vector{}) {
			along[i] = vector{float64(d.x) / size, float64(d.y) / size}
		}
		normal[i] = vector{-along[i].y, along[i].x}
	}
	path := make([]point, 0, 3*n)
	for i := range r {
		before, v := (i+n-1)%n, r[i].at
		g, h := float64(r[before].gap), float64(r[i].gap)
		cross, dot := r.bend(before, i, along)
		path = append(path, v.plus(normal[before], g))
		if cross < 0 && g > 0 && h > 0 {
			path = append(path, mitre(v, along[before], along[i], g, h)...)
		} else if cross != 0 || dot < 0 || g != h {
			path = append(path, v)
		}
		path = append(path, v.plus(normal[i], h))
	}
	return path
}

// bend returns what tells how a wall turns off the one before: below 0 to the right, and back. Of walls whose corners
// tell it these are exact.
func (r ring) bend(before, i int, along []vector) (cross, dot float64) {
	if a, b := along[before], along[i]; r[before].way != (vector{}) || r[i].way != (vector{}) {
		return float64(a.x*b.y) - float64(a.y*b.x), float64(a.x*b.x) + float64(a.y*b.y)
	}
	d, e := r[i].at.minus(r[before].at), r[(i+1)%len(r)].at.minus(r[i].at)
	return float64(d.cross(e)), float64(d.dot(e))
}

// mitre returns the corners between the ends of the strips of two walls, g and h wide, which meet at a corner v that
// points into the floor. Mitres end at twice the wider gap from the strips' ends.
func mitre(v point, a, b vector, g, h float64) []point {
	cos, sin := float64(a.x*b.x)+float64(a.y*b.y), float64(a.y*b.x)-float64(a.x*b.y)
	m, n := vector{-a.y, a.x}, vector{-b.y, b.x}
	var on, back float64
	if g == h {
		on = g * math.Tan(math.Atan2(sin, cos)/2)
		back = on
	} else if sin > 1e-3 {
		on, back = (h-float64(g*cos))/sin, (g-float64(h*cos))/sin
	}
	if on <= 0 || back <= 0 {
		return nil
	}
	long := 2 * max(g, h)
	first := v.plus(vector{float64(m.x*g) + float64(a.x*min(on, long)), float64(m.y*g) + float64(a.y*min(on, long))}, 1)
	if on <= long && back <= long {
		return []point{first}
	}
	return []point{
		first,
		v.plus(vector{float64(n.x*h) - float64(b.x*min(back, long)), float64(n.y*h) - float64(b.y*min(back, long))}, 1),
	}
}

// bounded reports whether all points lie within the limit.
func bounded(path []point) bool {
	for _, p := range path {
		if p.x < -limit || p.x > limit || p.y < -limit || p.y > limit {
			return false
		}
	}
	return true
}
