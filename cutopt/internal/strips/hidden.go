package strips

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt"
)

// short is the length up to which a narrow part of a piece is a tip or a corner that can be sawn and held: 2 in.
const short = 2 * 8128

// A row of floor before it is cut into runs.
type strip struct {
	low, high int64     // its lines
	hidden    int64     // what the trim hides
	rooms     [][]point // outlines of the rooms of the floor, where there are several
	notch     int64     // how long a wall along the row only notches it
}

// bared returns the floor of a row without what the trim hides: strips along walls that are at most hidden high, and
// what lies beyond a straight cut along walls that slant by no more. It returns twice the area of the strips too.
func (s *strip) bared(patches []patch) (bare []patch, strips int, twice int64) {
	if len(patches) == 1 && !patches[0].slanted() {
		return patches, 0, 0
	}
	for _, p := range connected(patches) {
		if p.high-p.low <= s.hidden || len(p.patches) == 1 && !p.patches[0].slanted() {
			bare = append(bare, p.patches...)
			continue
		}
		cols := columns(p.patches)
		if cuts := s.strips(cols); len(cuts) > 0 {
			was := p.twice
			p.patches = without(p.patches, cuts)
			strips += len(cuts)
			twice += was - twiceOfAll(p.patches)
			cols = columns(p.patches)
		}
		if cuts := s.slants(cols); len(cuts) > 0 {
			p.patches = without(p.patches, cuts)
		}
		bare = append(bare, p.patches...)
	}
	return bare, strips, twice
}

func twiceOfAll(patches []patch) (twice int64) {
	for i := range patches {
		twice += patches[i].twice()
	}
	return twice
}

// without returns patches less what lies in some rings, which lie in them.
func without(patches []patch, rings [][]point) []patch {
	polygons := make([][]point, len(patches))
	for i := range patches {
		polygons[i] = straight(patches[i].corners())
	}
	paths := trace(polygons)
	for _, r := range rings {
		slices.Reverse(r)
		paths = append(paths, r)
	}
	return sweep(paths).patches()
}

// strips returns rings around the stretches that are at most hidden high over more than a short length.
func (s *strip) strips(cols []column) [][]point {
	var out [][]point
	for _, chain := range chains(cols) {
		for _, n := range narrows(chain, float64(s.hidden)+1, short) {
			var below, above []point
			for i := range n.columns {
				c := &n.columns[i]
				below = append(below, point{c.from, floor(c.low0)}, point{c.to, floor(c.low1)})
				above = append(above, point{c.from, ceil(c.high0)}, point{c.to, ceil(c.high1)})
			}
			out = ringed(out, below, above)
		}
	}
	return out
}

func floor(v float64) int64 { return int64(math.Floor(v)) }
func ceil(v float64) int64  { return int64(math.Ceil(v)) }

// ringed adds the ring between two lines that run from left to right.
func ringed(out [][]point, below, above []point) [][]point {
	slices.Reverse(above)
	if ring := straight(append(below, above...)); len(ring) > 2 && twiceArea(ring) > 0 {
		out = append(out, ring)
	}
	return out
}

// slants returns rings around what lies beyond straight cuts along walls that rise or fall along the row by at most
// hidden, at the lower and at the upper side.
func (s *strip) slants(cols []column) [][]point {
	var out [][]point
	for _, chain := range chains(cols) {
		out = s.slanted(out, chain)
		for i := range chain {
			chain[i] = chain[i].mirrored()
		}
		up := (&strip{low: -s.high, high: -s.low, hidden: s.hidden}).slanted(nil, chain)
		for _, r := range up {
			for k := range r {
				r[k].y = -r[k].y
			}
			slices.Reverse(r)
			out = append(out, r)
		}
	}
	return out
}

// slanted adds the rings at the lower side of a chain.
func (s *strip) slanted(out [][]point, chain []column) [][]point {
	for i := 0; i < len(chain); {
		if !s.wall(&chain[i]) {
			i++
			continue
		}
		j := i + 1
		for j < len(chain) && s.wall(&chain[j]) && math.Abs(chain[j].low0-chain[j-1].low1) <= rough {
			j++
		}
		out = s.levelled(out, chain[i:j])
		i = j
	}
	return out
}

// wall reports whether the lower side of a column is a wall along the row, within 10 degrees.
func (s *strip) wall(c *column) bool {
	return max(c.low0, c.low1) > float64(s.low)+rough && c.level()
}

// levelled adds the ring below a straight cut along the lower side of some columns, where that takes off enough to be
// seen and no more than is hidden, and leaves more than is hidden.
func (s *strip) levelled(out [][]point, chain []column) [][]point {
	low, high, left := math.Inf(1), math.Inf(-1), math.Inf(1)
	for i := range chain {
		c := &chain[i]
		low, high = min(low, c.low0, c.low1), max(high, c.low0, c.low1)
		left = min(left, c.high0, c.high1)
	}
	if high-low <= rough || high-low > float64(s.hidden) || left-high <= float64(s.hidden) {
		return out
	}
	var below []point
	for i := range chain {
		c := &chain[i]
		below = append(below, point{c.from, floor(c.low0)}, point{c.to, floor(c.low1)})
	}
	top := ceil(high)
	return ringed(out, below, []point{{below[0].x, top}, {below[len(below)-1].x, top}})
}

// squared returns a part with its ends moved in to where they are cut square, if what that takes off is no longer than
// what is hidden, and twice the area taken off.
func (s *strip) squared(p part) (part, int64) {
	if !slices.ContainsFunc(p.patches, patch.slanted) {
		return p, 0
	}
	cols := columns(p.patches)
	from := s.end(cols)
	for i := range cols {
		c := &cols[i]
		*c = column{-c.to, -c.from, c.low1, c.low0, c.high1, c.high0}
	}
	slices.SortFunc(cols, func(a, b column) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.low0+a.low1, b.low0+b.low1))
	})
	to := -s.end(cols)
	if from >= to || from == p.from && to == p.to {
		return p, 0
	}
	p.from, p.to = from, to
	lost := p.twice
	for i := range p.patches {
		if in := p.patches[i].between(from, to); len(in) > 2 {
			lost -= twiceArea(in)
		}
	}
	return p, lost
}

// levelWithin is how far the side of a doorway may rise or fall across what is hidden, in ticks, and count as along the
// row.
const levelWithin = float64(cutopt.Trifle) / 4

// end returns where the left end is cut square: where the first column begins that reaches as low and as high as all
// before it, which slant by more than 45 degrees, but for sides as good as along the row.
func (s *strip) end(cols []column) int64 {
	low, high := math.Inf(1), math.Inf(-1)
	end := cols[0].from
	for i := range cols {
		c := &cols[i]
		if i > 0 && c.from != cols[i-1].to || c.from-cols[0].from > s.hidden {
			break
		}
		if i+1 < len(cols) && cols[i+1].from < c.to {
			break // another lies above it
		}
		low, high = min(low, c.low0), max(high, c.high0)
		if c.low0 <= low+levelWithin && c.high0 >= high-levelWithin {
			end = c.from
		}
		long := float64(c.to - c.from)
		square := func(rise float64) bool { return math.Abs(rise) <= levelWithin || math.Abs(rise) >= long }
		if !square(c.low1-c.low0) || !square(c.high1-c.high0) {
			break
		}
		low, high = min(low, c.low1), max(high, c.high1)
	}
	return end
}
