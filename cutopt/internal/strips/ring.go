package strips

import (
	"math"
	"slices"

	"plank.example/cutopt/measure"
)

// A point is a place in ticks.
type point struct{ x, y int64 }

func pointOf(p measure.Point) point { return point{int64(p.X), int64(p.Y)} }

func (p point) minus(q point) point { return point{p.x - q.x, p.y - q.y} }

func (p point) cross(q point) int64 { return p.x*q.y - p.y*q.x }

func (p point) dot(q point) int64 { return p.x*q.x + p.y*q.y }

func (p point) size() float64 { return math.Hypot(float64(p.x), float64(p.y)) }

// A wall is an edge of a ring: it runs from its corner to the corner of the next wall, with the floor on its left.
type wall struct {
	at    point
	gap   int64
	index []int   // walls of the drawing that lie in it
	moved float64 // how far smoothing moved it inwards
	way   vector  // its direction, where rounded corners may not tell it; else zero
}

// A ring is an outline, counter-clockwise, or an island, clockwise.
type ring []wall

// twiceArea returns twice the signed area of a ring of corners.
func twiceArea(corners []point) int64 {
	var twice int64
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		twice += p.minus(corners[0]).cross(q.minus(corners[0]))
	}
	return twice
}

func (r ring) corners() []point {
	out := make([]point, len(r))
	for i := range r {
		out[i] = r[i].at
	}
	return out
}

// newRing drops repeated corners, turns the ring the way asked for, and joins walls in line that keep the same gap.
func newRing(outline []measure.Point, gap func(wall int) measure.Length, island bool) ring {
	var r ring
	for i, p := range outline {
		at := pointOf(p)
		if n := len(r); n > 0 && r[n-1].at == at {
			r[n-1].gap, r[n-1].index = int64(gap(i)), []int{i}
			continue
		}
		r = append(r, wall{at: at, gap: int64(gap(i)), index: []int{i}})
	}
	for len(r) > 1 && r[len(r)-1].at == r[0].at {
		r = r[:len(r)-1]
	}
	if len(r) < 3 {
		return nil
	}
	if (twiceArea(r.corners()) < 0) != island {
		r = r.reversed()
	}
	return r.straightened()
}

// reversed returns the ring the other way round.
func (r ring) reversed() ring {
	n := len(r)
	out := make(ring, n)
	for i := range r {
		out[i] = r[(2*n-2-i)%n]
		out[i].at = r[n-1-i].at
		out[i].way = vector{-out[i].way.x, -out[i].way.y}
	}
	return out
}

// straightened joins walls in line that keep the same gap.
func (r ring) straightened() ring {
	out := make(ring, 0, len(r))
	for i, w := range r {
		before := r[(i+len(r)-1)%len(r)]
		d, e := w.at.minus(before.at), r[(i+1)%len(r)].at.minus(w.at)
		if len(out) > 0 && d.cross(e) == 0 && d.dot(e) > 0 && before.gap == w.gap && before.way == w.way {
			last := &out[len(out)-1]
			last.index = append(slices.Clip(last.index), w.index...)
			last.moved = max(last.moved, w.moved)
			continue
		}
		out = append(out, w)
	}
	if n := len(out); n > 3 {
		d, e := out[0].at.minus(out[n-1].at), out[1].at.minus(out[0].at)
		if d.cross(e) == 0 && d.dot(e) > 0 && out[0].gap == out[n-1].gap && out[0].way == out[n-1].way {
			out[n-1].index = append(slices.Clip(out[n-1].index), out[0].index...)
			out[n-1].moved = max(out[n-1].moved, out[0].moved)
			out = out[1:]
		}
	}
	return out
}

// turned is what a wall may run off the drawing's axes over its length before the floor is turned for it: 1/2 in.
const turned = 8128 / 2

// longest returns the longest wall, and how many are as long but for a hundredth: of these it is the one drawn first.
func (r ring) longest() (wall, alike int) {
	long := func(i int) float64 { return r[(i+1)%len(r)].at.minus(r[i].at).size() }
	most := 0.0
	for i := range r {
		most = max(most, long(i))
	}
	first := -1
	for i := range r {
		if long(i) < 0.99*most {
			continue
		}
		alike++
		if n := slices.Min(r[i].index); first < 0 || n < first {
			wall, first = i, n
		}
	}
	return wall, alike
}

// heading returns the direction of a wall. One that runs next to along an axis of the drawing counts as running along
// it.
func (r ring) heading(wall int) point {
	d := r[(wall+1)%len(r)].at.minus(r[wall].at)
	switch {
	case max(d.x, -d.x) < turned && max(d.y, -d.y) > turned:
		d.x = 0
	case max(d.y, -d.y) < turned && max(d.x, -d.x) > turned:
		d.y = 0
	}
	return d
}

// meet returns where the line through p along d meets the line through q along e, rounded to the nearest tick.
func meet(p, d, q, e point) (point, bool) {
	det := d.cross(e)
	if det == 0 {
		return point{}, false
	}
	t := float64(q.minus(p).cross(e)) / float64(det)
	m := point{p.x + round(t*float64(d.x)), p.y + round(t*float64(d.y))}
	if d.x == 0 {
		m.x = p.x
	}
	if d.y == 0 {
		m.y = p.y
	}
	if e.x == 0 {
		m.x = q.x
	}
	if e.y == 0 {
		m.y = q.y
	}
	return m, true
}

func round(v float64) int64 { return int64(math.Floor(float64(v) + 0.5)) }

// distinct drops walls without length.
func (r ring) distinct() ring {
	var out ring
	for i, w := range r {
		if r[(i+1)%len(r)].at != w.at {
			out = append(out, w)
		}
	}
	return out
}
