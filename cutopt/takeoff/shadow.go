package takeoff

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// floorOf returns the outline of a room, and then the rectangles of its doorways, with strips running along x.
func (r *reckoner) floorOf(i int, axes *cutopt.Axes, along bool) [][]measure.Point {
	src := &r.job.Rooms[i]
	place := func(p measure.Point) measure.Point {
		x, y := axes.FromDrawing(p)
		q := measure.Point{X: measure.Length(math.Round(x)), Y: measure.Length(math.Round(y))}
		if !along {
			q.X, q.Y = q.Y, q.X
		}
		return q
	}
	ring := make([]measure.Point, len(src.Outline))
	for k, p := range src.Outline {
		ring[k] = place(p)
	}
	rings := [][]measure.Point{ring}
	out := 1.0 // the right hand of a wall, outwards of a room that runs counter-clockwise
	if doubleArea(src.Outline) < 0 {
		out = -1
	}
	for _, d := range src.Doorways {
		if d.Depth == 0 {
			continue
		}
		a, b := src.Outline[d.Wall], src.Outline[(d.Wall+1)%len(src.Outline)]
		size := float64(distance(a, b))
		ux, uy := float64(b.X-a.X)/size, float64(b.Y-a.Y)/size
		at := func(l, depth measure.Length) measure.Point {
			return place(measure.Point{
				X: a.X + measure.Length(math.Round(float64(float64(l)*ux)+float64(out*float64(depth)*uy))),
				Y: a.Y + measure.Length(math.Round(float64(float64(l)*uy)-float64(out*float64(depth)*ux))),
			})
		}
		end := d.At + d.Width
		rings = append(rings, []measure.Point{at(d.At, 0), at(end, 0), at(end, d.Depth), at(d.At, d.Depth)})
	}
	return rings
}

// extent returns the least and the largest y of a ring.
func extent(ring []measure.Point) (low, high measure.Length) {
	low, high = ring[0].Y, ring[0].Y
	for _, p := range ring {
		low, high = min(low, p.Y), max(high, p.Y)
	}
	return low, high
}

// shadow returns what rings cover along x between two lines, wherever in between: intervals that touch are one, and
// each is longer by more at both ends. The shadow of a region is that of its border: of the edges between the lines and
// of the cuts along these, taken half a tick inside so that no corner lies on them.
func shadow(rings [][]measure.Point, low, high, more measure.Length) []interval {
	var found []interval
	for _, ring := range rings {
		l, h := extent(ring)
		if h <= low || l >= high {
			continue
		}
		cuts := [2][]measure.Length{} // crossings with the two lines
		lines := [2]measure.Length{2*low + 1, 2*high - 1}
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if a.Y > b.Y {
				a, b = b, a
			}
			from, to := max(2*a.Y, lines[0]), min(2*b.Y, lines[1])
			if a.Y == b.Y && 2*a.Y > lines[0] && 2*a.Y < lines[1] {
				found = append(found, interval{min(a.X, b.X), max(a.X, b.X)})
			}
			if a.Y == b.Y || from > to {
				continue
			}
			x0, x1 := crossing(a, b, from), crossing(a, b, to)
			found = append(found, interval{min(x0, x1), max(x0, x1)})
			for k, line := range lines {
				if 2*a.Y < line && line < 2*b.Y {
					cuts[k] = append(cuts[k], crossing(a, b, line))
				}
			}
		}
		for _, xs := range cuts {
			slices.Sort(xs)
			for i := 0; i+1 < len(xs); i += 2 {
				found = append(found, interval{xs[i], xs[i+1]})
			}
		}
	}
	slices.SortFunc(found, func(a, b interval) int { return cmp.Compare(a.from, b.from) })
	var all []interval
	for _, v := range found {
		v.from, v.to = v.from-more, v.to+more
		if n := len(all); n > 0 && v.from <= all[n-1].to {
			all[n-1].to = max(all[n-1].to, v.to)
		} else {
			all = append(all, v)
		}
	}
	return all
}

// crossing returns the x of an edge at half of a doubled y, to the nearest tick. The edge rises.
func crossing(a, b measure.Point, y2 measure.Length) measure.Length {
	run, rise := int64(b.X-a.X), int64(b.Y-a.Y)
	n, d := run*int64(y2-2*a.Y), 2*rise
	return a.X + measure.Length(math.Floor(float64(n)/float64(d)+0.5))
}

// shared is how long the intervals of two lists lie side by side.
func shared(a, b []interval) (sum measure.Length) {
	for _, v := range a {
		for _, w := range b {
			sum += max(0, min(v.to, w.to)-max(v.from, w.from))
		}
	}
	return sum
}
