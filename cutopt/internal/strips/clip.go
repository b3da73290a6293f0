package strips

import "plank.example/cutopt/measure"

// Clip returns the part of a run between x = from and x = to: its corners in order, and its area. The corners are nil where
// it is the full rectangle of the row's strip, and where there is no floor in it. Parts that do not hang together, and
// holes, are joined to one ring by ways there and back.
//
// The area is that of the corners, exact but for half a square tick, rounded down. Where the ends of a piece cut only sides
// along the axes, the areas of the pieces of a run add up to the run's; where an end cuts a slanted side, the place of the
// cut is rounded to a tick, the same for the pieces on both sides of it. Indices out of range give nil and 0.
func (f *Floor) Clip(row, run int, from, to measure.Length) ([]measure.Point, measure.Area) {
	corners, twice := f.clip(row, run, from, to)
	if len(corners) == 0 {
		return nil, measure.Area(twice / 2)
	}
	out := make([]measure.Point, len(corners))
	for i, p := range corners {
		out[i] = measure.Point{X: measure.Length(p.x), Y: measure.Length(p.y)}
	}
	return out, measure.Area(twice / 2)
}

// clip returns the corners of a part of a run, nil for a full rectangle, and twice its area.
func (f *Floor) clip(row, run int, from, to measure.Length) ([]point, int64) {
	if row < 0 || row >= len(f.Rows) || run < 0 || run >= len(f.Rows[row].Runs) || to <= from {
		return nil, 0
	}
	r, s := &f.Rows[row], &f.stretches[row][run]
	whole := 2 * int64(to-from) * int64(r.To-r.From)
	if s.full && r.Runs[run].From <= from && to <= r.Runs[run].To {
		return nil, whole
	}
	var polygons [][]point
	for i := range s.patches {
		if p := s.patches[i].between(int64(from), int64(to)); len(p) > 2 {
			polygons = append(polygons, p)
		}
	}
	rings := trace(polygons)
	if len(rings) == 0 {
		return nil, 0
	}
	ring := rings[0]
	if len(rings) > 1 {
		ring = bridged(rings)
	}
	twice := twiceArea(ring)
	if twice <= 0 {
		return nil, 0
	}
	if twice == whole {
		return nil, whole
	}
	return ring, twice
}

// between returns the corners of the part of a patch between two abscissas, counter-clockwise.
func (p *patch) between(from, to int64) []point {
	low, high := min(p.left0, p.left1), max(p.right0, p.right1)
	if high <= from || low >= to {
		return nil
	}
	corners := straight(p.corners())
	if low < from {
		corners = half(corners, from, 1)
	}
	if high > to {
		corners = half(corners, to, -1)
	}
	return corners
}

// half keeps what lies right (way 1) or left (way -1) of a line across the rows.
func half(corners []point, x, way int64) []point {
	var out []point
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		if (a.x-x)*way >= 0 {
			out = append(out, a)
		}
		if (a.x-x)*(b.x-x) < 0 {
			out = append(out, point{x, heightAt(a, b, x)})
		}
	}
	return straight(out)
}

// heightAt returns where the line between a and b crosses x, to the nearest tick, the same from both ends.
func heightAt(a, b point, x int64) int64 {
	if a.x > b.x {
		a, b = b, a
	}
	s := side{low: point{a.y, a.x}, high: point{b.y, b.x}}
	return s.at(x).nearest()
}
