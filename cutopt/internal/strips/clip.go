package strips

import (
	"sort"

	"plank.example/cutopt/measure"
)

// Clip returns the part of a run between x = from and x = to: its corners in order, and its area. The corners are nil
// where it is the full rectangle of the row's strip, and where there is no floor in it. Parts that do not hang
// together, and holes, are joined to one ring by ways there and back.
//
// The area is that of the corners, exact but for half a square tick, rounded down. Where the ends of a piece cut only
// sides along the axes, the areas of the pieces of a run add up to the run's; where an end cuts a slanted side, the
// place of the cut is rounded to a tick, the same for the pieces on both sides of it, and corners that are there by
// rounding alone are left out. Indices out of range give nil and 0. It takes O(k log k) steps for the k corners of the
// run, O(1) for a rectangle.
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
	near := s.near(int64(from), int64(to))
	if spanned(near, int64(from), int64(to)) == int64(r.To-r.From) {
		return nil, whole
	}
	var polygons [][]point
	for i := range near {
		if p := near[i].between(int64(from), int64(to)); len(p) > 2 {
			polygons = append(polygons, p)
		}
	}
	rings := trace(polygons)
	if len(rings) == 0 {
		return nil, 0
	}
	for i := range rings {
		rings[i] = settled(rings[i], int64(from), int64(to))
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

// near returns the patches of which some may lie between two abscissas.
func (s *stretch) near(from, to int64) []patch {
	low := sort.Search(len(s.patches), func(i int) bool { return s.reach[i] > from })
	high := sort.Search(len(s.patches), func(i int) bool { return s.patches[i].left() >= to })
	return s.patches[min(low, high):high]
}

// spanned returns the height of the patches that reach from one abscissa to the other over all their height.
func spanned(patches []patch, from, to int64) (height int64) {
	for i := range patches {
		if p := &patches[i]; max(p.left0, p.left1) <= from && min(p.right0, p.right1) >= to {
			height += p.high - p.low
		}
	}
	return height
}

// settled drops corners of slanted sides that are there by rounding: those within a tick of the line that remains,
// unless they lie on an end of the piece, or beside a longer edge along the axes. Of more than [longest] in a row some
// stay.
func settled(ring []point, from, to int64) []point {
	slanted := func(a, b point) bool { return a.x != b.x && a.y != b.y }
	n := len(ring)
	prev, next := make([]int, n), make([]int, n)
	for i := range ring {
		prev[i], next[i] = (i+n-1)%n, (i+1)%n
	}
	at, left := 0, n
	for kept := 0; kept < left && left > 3; {
		first, last := prev[at], next[at]
		a, p, b := ring[first], ring[at], ring[last]
		before, after := slanted(a, p), slanted(p, b)
		short := min(p.minus(a).size(), b.minus(p).size()) <= 2
		if p.x == from || p.x == to || !(before && after) && !(short && (before || after)) || !beside(ring, first, last) {
			kept++
			at = last
			continue
		}
		next[first], prev[last] = last, first
		left--
		// The two corners before may go now too.
		at, kept = prev[first], 0
	}
	out := make([]point, 0, left)
	for range left {
		out = append(out, ring[at])
		at = next[at]
	}
	return out
}

// longest is the most corners dropped between two that stay.
const longest = 64

// beside reports whether all corners between two lie within a tick of the line from one to the other.
func beside(ring []point, first, last int) bool {
	if n := len(ring); (last-first+n)%n > longest {
		return false
	}
	a, b := ring[first], ring[last]
	v := b.minus(a)
	for i := (first + 1) % len(ring); i != last; i = (i + 1) % len(ring) {
		p := ring[i]
		if p.minus(a).dot(v) < 0 || b.minus(p).dot(v) < 0 || abs(float64(v.cross(p.minus(a)))) > v.size() {
			return false
		}
	}
	return true
}

// between returns the corners of the part of a patch between two abscissas, counter-clockwise.
func (p *patch) between(from, to int64) []point {
	low, high := p.left(), p.right()
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

// banded keeps what lies between two lines along the rows.
func banded(corners []point, low, high int64) []point {
	over := func(ring []point) []point { // the diagonal, and listed the other way round
		out := make([]point, len(ring))
		for i, p := range ring {
			out[len(ring)-1-i] = point{p.y, p.x}
		}
		return out
	}
	return over(half(half(over(corners), low, 1), high, -1))
}

// heightAt returns where the line between a and b crosses x, to the nearest tick, the same from both ends.
func heightAt(a, b point, x int64) int64 {
	if a.x > b.x {
		a, b = b, a
	}
	s := side{low: point{a.y, a.x}, high: point{b.y, b.x}}
	return s.at(x).nearest()
}
