package check

import (
	"math"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
)

// A crumb is a whole piece that is too small to be held: the largest round that stays on the piece's side of every edge
// that all of it lies on one side of is narrower than the narrowest strip. It is told of like a strip, as long as its
// farthest corners are apart, about the middle of its extent.
type crumb struct {
	at, across, length float64 // from the left end of the piece and the front of its row
	width              float64 // the diameter of the round
}

// crumbReach is how many times the narrowest strip a crumb may be long, and a little more than any is.
const crumbReach = 8

// crumbOf returns the crumb that a piece is, if its round is narrower than least.
func crumbOf(corners []recount.Spot, from, front measure.Length, least float64) (c crumb, ok bool) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range corners {
		x0, y0, x1, y1 = min(x0, p.X), min(y0, p.Y), max(x1, p.X), max(y1, p.Y)
		for _, q := range corners {
			c.length = max(c.length, math.Hypot(p.X-q.X, p.Y-q.Y))
		}
	}
	if x1-x0 > crumbReach*least {
		return c, false
	}
	lines := outer(corners)
	nearest := func(x, y float64) float64 {
		near := math.Inf(1)
		for _, l := range lines {
			near = min(near, (x-l.a.X)*l.normal.X+(y-l.a.Y)*l.normal.Y)
		}
		return near
	}
	// How far the nearest line is rises to one height and falls again, whichever way one goes.
	column := func(x float64) float64 {
		_, best := highest(y0, y1, func(y float64) float64 { return nearest(x, y) })
		return best
	}
	_, r := highest(x0, x1, column)
	c.at, c.across, c.width = (x0+x1)/2-float64(from), (y0+y1)/2-float64(front), max(0, 2*r)
	return c, c.width < least
}

// told reports whether a fact tells of the crumb.
func (c *crumb) told(f *cutopt.Fact) bool {
	near := func(told measure.Length, is float64) bool { return math.Abs(float64(told)-is) <= rough }
	return near(f.At, c.at) && near(f.Across, c.across) && near(f.Length, c.length) && near(f.Width, c.width)
}

// highest returns where between two places a concave function is highest, and how high.
func highest(from, to float64, f func(float64) float64) (at, best float64) {
	const steps = 48
	for range steps {
		third := (to - from) / 3
		if a, b := from+third, to-third; f(a) < f(b) {
			from = a
		} else {
			to = b
		}
	}
	at = (from + to) / 2
	return at, f(at)
}

// An outerLine is a line of an edge that no corner lies beyond.
type outerLine struct{ a, normal recount.Spot }

// outer lists the edges of a ring that all of it lies on one side of. Very short ones tell no direction.
func outer(corners []recount.Spot) (lines []outerLine) {
	const short, off = 16, 4
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		size := math.Hypot(b.X-a.X, b.Y-a.Y)
		if size < short {
			continue
		}
		n := recount.Spot{X: (a.Y - b.Y) / size, Y: (b.X - a.X) / size}
		low, high := 0.0, 0.0
		for _, p := range corners {
			d := (p.X-a.X)*n.X + (p.Y-a.Y)*n.Y
			low, high = min(low, d), max(high, d)
		}
		if low < -off {
			n.X, n.Y, low = -n.X, -n.Y, -high
		}
		if low >= -off {
			lines = append(lines, outerLine{a, n})
		}
	}
	return lines
}
