package recount

import (
	"cmp"
	"slices"
)

const (
	noise  = 0.5  // ticks: narrower cells are rounding
	sliver = 1e-3 // ticks: lower slabs are rounding
)

// An edge is a side of a polygon that is not level.
type edge struct {
	low, high Spot
	polygon   int32
}

// at returns where the edge is at a height between its ends.
func (e *edge) at(y float64) float64 {
	if e.low.X == e.high.X {
		return e.low.X
	}
	t := (y - e.low.Y) / (e.high.Y - e.low.Y)
	return e.low.X + (e.high.X-e.low.X)*min(1, max(0, t))
}

// A crossing is where an edge passes through a slab.
type crossing struct {
	low, high float64 // x at the slab's ends
	polygon   int32
}

// Measure recounts a floor and returns what is wrong with the parts that lie on it, in a fixed order. Parts must lie
// within the strip of their row, and strips must not overlap.
//
// With n corners of outlines and parts and k edges at one height it takes O(n k log k), and O(log) more for each place
// where two edges cross.
func Measure(f *Floor, strips []Strip, parts []Part) []Finding {
	d := draw(f)
	for i := range parts {
		d.add(rolePart, i, parts[i].Corners...)
	}
	edges, heights := d.edges()
	s := newSurvey(d, strips, parts)
	var active []*edge
	next := 0
	for i := 0; i+1 < len(heights); i++ {
		low, high := heights[i], heights[i+1]
		active = slices.DeleteFunc(active, func(e *edge) bool { return e.high.Y <= low })
		for next < len(edges) && edges[next].low.Y <= low {
			if edges[next].high.Y > low {
				active = append(active, &edges[next])
			}
			next++
		}
		if high-low > sliver && len(active) > 0 {
			s.slab(active, low, high)
		}
	}
	return s.findings()
}

// edges lists the edges of all polygons from the lowest up, and all heights at which one begins or ends.
func (d *drawing) edges() ([]edge, []float64) {
	var edges []edge
	var heights []float64
	for i := range d.polygons {
		corners := d.polygons[i].corners
		for k, a := range corners {
			b := corners[(k+1)%len(corners)]
			if a.Y == b.Y {
				continue
			}
			if a.Y > b.Y {
				a, b = b, a
			}
			edges = append(edges, edge{a, b, int32(i)})
			heights = append(heights, a.Y, b.Y)
		}
	}
	slices.SortFunc(edges, func(a, b edge) int {
		return cmp.Or(cmp.Compare(a.low.Y, b.low.Y), cmp.Compare(a.polygon, b.polygon), cmp.Compare(a.low.X, b.low.X),
			cmp.Compare(a.high.X, b.high.X))
	})
	slices.Sort(heights)
	return edges, slices.Compact(heights)
}

// slab surveys the slab between two heights, which every active edge spans. Where edges cross in it, it is halved.
func (s *survey) slab(active []*edge, low, high float64) {
	line := s.line[:0]
	for _, e := range active {
		line = append(line, crossing{e.at(low), e.at(high), e.polygon})
	}
	s.line = line
	slices.SortFunc(line, compareCrossings)
	crossed := false
	for i := 1; i < len(line) && !crossed; i++ {
		a, b := line[i-1], line[i]
		crossed = b.low-a.low < -noise || b.high-a.high < -noise
	}
	switch {
	case !crossed:
		s.cells(low, high, high-low)
	case high-low > Thin:
		middle := (low + high) / 2
		s.slab(active, low, middle)
		s.slab(active, middle, high)
	default: // each end by its own order
		half := (high - low) / 2
		s.level(low, half, func(c *crossing) float64 { return c.low })
		s.level(high, half, func(c *crossing) float64 { return c.high })
	}
}

// level surveys one height of a slab for a part of it that is so thick.
func (s *survey) level(y, thick float64, at func(*crossing) float64) {
	ends := s.line
	line := make([]crossing, len(ends))
	for i := range ends {
		x := at(&ends[i])
		line[i] = crossing{x, x, ends[i].polygon}
	}
	slices.SortFunc(line, compareCrossings)
	s.line = line
	s.cells(y, y, thick)
	s.line = ends
}

func compareCrossings(a, b crossing) int {
	return cmp.Or(cmp.Compare(a.low+a.high, b.low+b.high), cmp.Compare(a.polygon, b.polygon))
}
