package strips

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A disc is the hole for a pipe, in the floor's own axes.
type disc struct {
	at     point
	radius int64 // of the hole: the pipe's and the gap, rounded up
	bare   int64 // of the pipe, rounded up
}

// ring returns the polygon of 24 sides around the circle, clockwise, as islands are. The sides touch the circle, and
// the corners lie beyond it by 0.9 % of its radius. A multiple of four reaches exactly as far along the axes as the
// circle does, and with no more than 32 only the outermost sides run within 10 degrees of the rows.
func (d *disc) ring() []point {
	// The first three corners off the x axis of a polygon around the unit circle: cos a / cos 7.5°, sin a / cos 7.5°.
	const (
		x1, y1 = 1, 0.13165249758739583
		x2, y2 = 0.9318516525781366, 0.3859855926176457
		x3, y3 = 0.8001991549907408, 0.6140144073823544
	)
	eighth := [][2]float64{{x1, y1}, {x2, y2}, {x3, y3}, {y3, x3}, {y2, x2}, {y1, x1}}
	var out []point
	for quarter := range 4 {
		for _, c := range eighth {
			p := point{int64(math.Ceil(c[0] * float64(d.radius))), int64(math.Ceil(c[1] * float64(d.radius)))}
			for range quarter {
				p = point{-p.y, p.x}
			}
			out = append(out, point{d.at.x + p.x, d.at.y - p.y})
		}
	}
	return straight(out)
}

// passes reports whether a cut-out that ends in a line so far from its middle lets the pipe in.
func (d *disc) passes(distance int64) bool {
	square := func(l int64) float64 { return float64(float64(l) * float64(l)) }
	return square(distance) <= square(d.radius)-square(d.bare)
}

// held reports whether a pipe stands in a row so that no line between the rows lets it in.
func (d *disc) held(low, high int64) bool {
	return low < d.at.y && d.at.y < high && !d.passes(d.at.y-low) && !d.passes(high-d.at.y)
}

// within returns the part of the hole in a rectangle, counter-clockwise.
func (d *disc) within(s *saw) []point {
	r := d.radius
	if d.at.x+r <= s.from || d.at.x-r >= s.to || d.at.y+r <= s.low || d.at.y-r >= s.high {
		return nil
	}
	ring := d.ring()
	slices.Reverse(ring)
	return half(half(banded(ring, s.low, s.high), s.from, 1), s.to, -1)
}

// round tells of a part that comes off which is the hole for a pipe, or what of it lies on the piece, and returns the
// disc; nil where it is none.
func (s *saw) round(p *part, discs []disc) (*disc, cutopt.Fact) {
	for i := range discs {
		d := &discs[i]
		ring := d.within(s)
		if len(ring) < 3 {
			continue
		}
		low, high := extentOf(ring)
		same := near(low.x, p.from) && near(high.x, p.to) && near(low.y, p.low) && near(high.y, p.high)
		if twice := twiceArea(ring); !same || max(twice-p.twice, p.twice-twice) > 4*rough*(high.x-low.x+high.y-low.y) {
			continue
		}
		fact := s.box(cutopt.FactRound, p.from, p.to, p.low, p.high)
		fact.Diameter = measure.Length(2 * d.radius)
		if fact.End == cutopt.EndsNone && fact.Edge == cutopt.EdgesNone {
			fact.Kind = cutopt.FactHole
			fact.At, fact.Across = measure.Length(d.at.x-s.from), measure.Length(d.at.y-s.low)
		}
		return d, fact.Own()
	}
	return nil, cutopt.Fact{}
}

func extentOf(ring []point) (low, high point) {
	low, high = ring[0], ring[0]
	for _, p := range ring {
		low, high = point{min(low.x, p.x), min(low.y, p.y)}, point{max(high.x, p.x), max(high.y, p.y)}
	}
	return low, high
}

// pipesIn returns the discs in a part that comes off which the piece surrounds as far as they lie on it, as where a
// sliver along a leaning wall joins the hole for a pipe before it.
func (s *saw) pipesIn(p *part, discs []disc) (in []*disc) {
	const steps, margin = 90, 5
	for i := range discs {
		d := &discs[i]
		if !p.contains(d.at) {
			continue
		}
		radius, around := float64(float64(d.radius)*1.012)+4*margin, true // beyond the corners of the hole
		for k := 0; k < steps && around; k++ {
			sin, cos := math.Sincos(float64(k) * 2 * math.Pi / steps)
			q := point{d.at.x + int64(math.Round(radius*cos)), d.at.y + int64(math.Round(radius*sin))}
			on := q.x > s.from+margin && q.x < s.to-margin && q.y > s.low+margin && q.y < s.high-margin
			around = !on || !p.contains(q)
		}
		if around {
			in = append(in, d)
		}
	}
	return in
}

// contains reports whether a place lies in a part, but for rounding at its sides.
func (p *part) contains(at point) bool {
	return slices.ContainsFunc(p.patches, func(q patch) bool {
		if at.y < q.low || at.y > q.high || q.low == q.high {
			return false
		}
		t := float64(at.y-q.low) / float64(q.high-q.low)
		left := float64(q.left0) + float64(t*float64(q.left1-q.left0))
		right := float64(q.right0) + float64(t*float64(q.right1-q.right0))
		return left <= float64(at.x) && float64(at.x) <= right
	})
}

// slit tells of the slit that a part which comes off needs, as the piece cannot be laid round what stands there; d is
// the disc where that is a pipe. The slit goes to the nearest end or edge; of those as near to the back edge, which is
// open while the piece goes in, or else to the front edge.
func (s *saw) slit(p *part, d *disc) (cutopt.Fact, bool) {
	from, to, low, high := p.from, p.to, p.low, p.high
	x0, x1, y0, y1 := to, from, high, low // where slits to the right, left, back and front begin
	if d != nil {
		inside := s.from < d.at.x && d.at.x < s.to && s.low < d.at.y && d.at.y < s.high
		if !inside || d.passes(d.at.x-s.from) || d.passes(s.to-d.at.x) || d.passes(d.at.y-s.low) ||
			d.passes(s.high-d.at.y) {
			return cutopt.Fact{}, false
		}
		from, to, low, high = d.at.x-d.radius, d.at.x+d.radius, d.at.y-d.radius, d.at.y+d.radius
		x0, x1, y0, y1 = d.at.x, d.at.x, d.at.y, d.at.y
	} else if near(from, s.from) || near(to, s.to) || near(low, s.low) || near(high, s.high) {
		return cutopt.Fact{}, false
	}
	left, right, front, back := from-s.from, s.to-to, low-s.low, s.high-high
	from, to, low, high = max(from, s.from), min(to, s.to), max(low, s.low), min(high, s.high)
	switch min(left, right, front, back) {
	case back:
		return s.box(cutopt.FactSlit, from, to, y0, s.high), true
	case front:
		return s.box(cutopt.FactSlit, from, to, s.low, y1), true
	case left:
		return s.box(cutopt.FactSlit, s.from, x1, low, high), true
	}
	return s.box(cutopt.FactSlit, x0, s.to, low, high), true
}

// boxes returns the boxes around the islands with their gaps.
func (d *drawing) boxes() [][2]point {
	var out [][2]point
	for _, r := range d.islands {
		low, high := extentOf(r.inset())
		out = append(out, [2]point{low, high})
	}
	return out
}

// Held lists where along a run an end joint lets a piece round a pipe or an island that would hold it: those within its
// row that no line between the rows lets in. It takes O(pipes + islands).
func (f *Floor) Held(row, run int) []Run {
	r := &f.Rows[row]
	low, high, from, to := int64(r.From), int64(r.To), int64(r.Runs[run].From), int64(r.Runs[run].To)
	var out []Run
	for i := range f.discs {
		d := &f.discs[i]
		if d.held(low, high) && from < d.at.x && d.at.x < to {
			reach := int64(math.Sqrt(max(0, float64(d.radius*d.radius-d.bare*d.bare))))
			out = append(out, Run{measure.Length(d.at.x - reach), measure.Length(d.at.x + reach)})
		}
	}
	for _, b := range f.fixed {
		if low+rough < b[0].y && b[1].y < high-rough && from < b[0].x && b[1].x < to {
			out = append(out, Run{measure.Length(b[0].x + rough), measure.Length(b[1].x - rough)})
		}
	}
	return out
}
