package strips

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A frame turns points of the drawing into the floor's own axes.
type frame struct {
	origin   point
	cos, sin float64
	exact    bool // turned by whole quarters
}

// direction returns the direction of the own x axis in the drawing, in degrees in [0, 360). The longest wall runs along
// d with the room on its left; whoever faces it from inside has its end on the left and its first corner on the right.
func direction(d point, l *Layout) float64 {
	along := degrees(point{-d.x, -d.y})
	turn := along
	switch l.Direction {
	case cutopt.DirectionAcross:
		turn += 90
	case cutopt.DirectionAngle:
		left := math.Mod(l.Angle-along, 180)
		if left < 0 {
			left += 180
		}
		if left > 180-1e-9 {
			left = 0
		}
		turn = along + left
		if quarter := math.Round(turn / 90); math.Mod(l.Angle, 90) == 0 && math.Abs(turn-float64(90*quarter)) < 1e-9 {
			turn = 90 * quarter
		}
	}
	if l.Start == cutopt.StartFar {
		turn += 180
	}
	for turn >= 360 {
		turn -= 360
	}
	return turn
}

// degrees returns the direction of d in [0, 360), exact along the axes.
func degrees(d point) float64 {
	switch {
	case d.y == 0 && d.x >= 0:
		return 0
	case d.y == 0:
		return 180
	case d.x == 0 && d.y > 0:
		return 90
	case d.x == 0:
		return 270
	}
	turn := math.Atan2(float64(d.y), float64(d.x)) * 180 / math.Pi
	if turn < 0 {
		turn += 360
	}
	return turn
}

func newFrame(turn float64) frame {
	switch turn {
	case 0:
		return frame{cos: 1, exact: true}
	case 90:
		return frame{sin: 1, exact: true}
	case 180:
		return frame{cos: -1, exact: true}
	case 270:
		return frame{sin: -1, exact: true}
	}
	sin, cos := math.Sincos(turn * math.Pi / 180)
	return frame{cos: cos, sin: sin}
}

// own returns where a place that lies dx, dy from the origin lies in the own axes.
func (f *frame) own(dx, dy float64) (x, y float64) {
	return float64(dx*f.cos) + float64(dy*f.sin), float64(dx*f.sin) - float64(dy*f.cos)
}

func (f *frame) point(p point) point {
	if f.exact {
		cos, sin, dx, dy := int64(f.cos), int64(f.sin), p.x-f.origin.x, p.y-f.origin.y
		return point{dx*cos + dy*sin, dx*sin - dy*cos}
	}
	x, y := f.own(float64(p.x-f.origin.x), float64(p.y-f.origin.y))
	return point{round(x), round(y)}
}

// around sets the origin so that the least coordinates of the places are 0.
func (f *frame) around(places []point) {
	f.origin = places[0]
	low := f.point(places[0])
	for _, p := range places {
		q := f.point(p)
		low = point{min(low.x, q.x), min(low.y, q.y)}
	}
	x, y := float64(low.x), float64(low.y)
	// The turn is its own inverse.
	dx, dy := f.own(x, y)
	f.origin = point{f.origin.x + round(dx), f.origin.y + round(dy)}
}

// stub is the length, in ticks, below which a wall's rounded corners do not tell its direction well enough for the gap
// beside it: 1/2 in.
const stub = 4096

// turn places a ring that is drawn, and keeps the ways that stubs run.
func (f *frame) turn(r ring) {
	for i := range r {
		d := r[(i+1)%len(r)].at.minus(r[i].at)
		if size := d.size(); !f.exact && size < stub {
			x, y := f.own(float64(d.x), float64(d.y))
			r[i].way = vector{x / size, y / size}
		}
	}
	for i := range r {
		r[i].at = f.point(r[i].at)
	}
}

func (f *frame) measured() measure.Point {
	return measure.Point{X: measure.Length(f.origin.x), Y: measure.Length(f.origin.y)}
}

// askew is how far rounding may leave a wall off the axes, in ticks: half a tick in each coordinate of its corners in
// the drawing, and again after turning.
const askew = 4

// squared puts the walls that rounding left off the axes back on them: it moves coordinates that such walls share, and
// others within 2 ticks of them, to one value.
func squared(rings []ring) {
	xs, ys := make(map[int64]bool), make(map[int64]bool)
	for _, r := range rings {
		for i := range r {
			a, b := r[i].at, r[(i+1)%len(r)].at
			dx, dy := max(a.x-b.x, b.x-a.x), max(a.y-b.y, b.y-a.y)
			if dy <= askew && dx > 100*max(dy, 1) {
				ys[a.y], ys[b.y] = true, true
				r[i].way = vector{}
			}
			if dx <= askew && dy > 100*max(dx, 1) {
				xs[a.x], xs[b.x] = true, true
				r[i].way = vector{}
			}
		}
	}
	toX, toY := clusters(xs), clusters(ys)
	for _, r := range rings {
		for i := range r {
			p := &r[i].at
			if v, ok := toX[p.x]; ok {
				p.x = v
			}
			if v, ok := toY[p.y]; ok {
				p.y = v
			}
		}
	}
}

// clusters maps each value to the middle one of those that lie within askew of each other.
func clusters(set map[int64]bool) map[int64]int64 {
	values := make([]int64, 0, len(set))
	for v := range set {
		values = append(values, v)
	}
	slices.Sort(values)
	out := make(map[int64]int64, len(values))
	for i := 0; i < len(values); {
		j := i + 1
		for j < len(values) && values[j]-values[i] <= askew {
			j++
		}
		middle := (values[i] + values[j-1]) / 2
		for _, v := range values[i:j] {
			out[v] = middle
		}
		i = j
	}
	return out
}
