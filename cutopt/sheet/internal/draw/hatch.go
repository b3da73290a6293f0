package draw

import (
	"math"
	"sort"
)

// A Hatch is a pattern of parallel lines.
type Hatch uint8

// The hatches.
const (
	HatchNone    Hatch = iota
	HatchRising        // like a slash
	HatchFalling       // like a backslash
	HatchCross         // both
	HatchUpright       // vertical lines
)

// mostHatchLines bounds the lines of one hatch: a ring that would take more is hatched wider.
const mostHatchLines = 1000

// Hatch draws the hatch of a closed ring, its lines step points apart. Lines of neighbouring rings join up. It takes
// O(lines x corners), and draws at most 1,000 lines.
func (d *Drawing) Hatch(h Hatch, pen Pen, step float64, ring []Point) {
	var lines [][]Point
	switch h {
	case HatchRising:
		lines = hatchLines(nil, ring, step, Point{math.Sqrt2 / 2, -math.Sqrt2 / 2})
	case HatchFalling:
		lines = hatchLines(nil, ring, step, Point{math.Sqrt2 / 2, math.Sqrt2 / 2})
	case HatchCross:
		lines = hatchLines(nil, ring, step, Point{math.Sqrt2 / 2, -math.Sqrt2 / 2})
		lines = hatchLines(lines, ring, step, Point{math.Sqrt2 / 2, math.Sqrt2 / 2})
	case HatchUpright:
		lines = hatchLines(nil, ring, step, Point{0, 1})
	}
	if len(lines) > 0 {
		d.Add(Path{Lines: lines, Fill: None, Pen: pen})
	}
}

// hatchLines appends the parts inside the ring of all lines in direction dir whose distance from the page's corner is
// an odd multiple of half the step. Inside is decided by the even-odd rule.
func hatchLines(lines [][]Point, ring []Point, step float64, dir Point) [][]Point {
	across := Point{-dir.Y, dir.X}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range ring {
		v := p.X*across.X + p.Y*across.Y
		lo, hi = min(lo, v), max(hi, v)
	}
	step = max(step, (hi-lo)/mostHatchLines)
	var cuts []float64
	for k := math.Ceil(lo/step - 0.5); (k+0.5)*step < hi; k++ {
		v := (k + 0.5) * step
		cuts = cuts[:0]
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			va, vb := a.X*across.X+a.Y*across.Y-v, b.X*across.X+b.Y*across.Y-v
			if (va < 0) == (vb < 0) {
				continue
			}
			t := va / (va - vb)
			cuts = append(cuts, (a.X+t*(b.X-a.X))*dir.X+(a.Y+t*(b.Y-a.Y))*dir.Y)
		}
		sort.Float64s(cuts)
		for i := 0; i+1 < len(cuts); i += 2 {
			if cuts[i+1]-cuts[i] < 0.05 {
				continue
			}
			lines = append(lines, []Point{
				{cuts[i]*dir.X + v*across.X, cuts[i]*dir.Y + v*across.Y},
				{cuts[i+1]*dir.X + v*across.X, cuts[i+1]*dir.Y + v*across.Y},
			})
		}
	}
	return lines
}
