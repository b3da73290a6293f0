package strips

import (
	"slices"

	"plank.example/cutopt"
)

// A sawnLine is a line along which a part comes off, which lies on its left.
type sawnLine struct{ from, to point }

// sawn lists the lines of the part's outline that do not lie on the rectangle of the piece, in order; ok is false
// where the part has several outlines. Its outline is returned too.
func (s *saw) sawn(p *part) (lines []sawnLine, ring []point, ok bool) {
	polygons := make([][]point, len(p.patches))
	for i := range p.patches {
		polygons[i] = straight(p.patches[i].corners())
	}
	rings := trace(polygons)
	if len(rings) != 1 {
		return nil, nil, false
	}
	ring = smoothed(rings[0])
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if near(a.y, s.low) && near(b.y, s.low) || near(a.y, s.high) && near(b.y, s.high) ||
			near(a.x, s.from) && near(b.x, s.from) || near(a.x, s.to) && near(b.x, s.to) {
			continue
		}
		lines = append(lines, sawnLine{a, b})
	}
	return lines, ring, true
}

// mostCuts is how many straight cuts a part is told as at most.
const mostCuts = 3

// cuts tells of a part as a few straight cuts right across the piece, as where an edge row ends at a slanted wall: the
// ends and corners first, which are sawn before the edges are ripped. It is nil for parts that are no such, and where
// one of the cuts would hardly take off anything of its own.
func (s *saw) cuts(p *part) []cutopt.Fact {
	lines, ring, ok := s.sawn(p)
	if !ok || len(lines) < 2 || len(lines) > mostCuts || twiceArea(ring) <= 0 {
		return nil
	}
	long, wide := s.to-s.from, s.high-s.low
	slack := float64(4 * rough * (long + wide))
	rectangle := []vector{
		{float64(s.from), float64(s.low)},
		{float64(s.to), float64(s.low)},
		{float64(s.to), float64(s.high)},
		{float64(s.from), float64(s.high)},
	}
	off := make([][]vector, len(lines))
	sum := 0.0
	var out []cutopt.Fact
	for i, l := range lines {
		off[i] = l.beyond(rectangle)
		own := areaOf(off[i])
		for k := range lines[:i] {
			sum -= areaOf(lines[k].beyond(off[i]))
		}
		sum += own
		for k := range lines {
			if k != i && own-areaOf(lines[k].beyond(off[i])) <= slack {
				return nil
			}
		}
		a, b := l.across(rectangle)
		fact, ok := s.cut(a, b, int64(float64(2*own)))
		if !ok || fact.Kind == cutopt.FactNone {
			return nil
		}
		out = append(out, fact)
	}
	if d := sum - float64(float64(p.twice)/2); max(d, -d) > slack/2 {
		return nil
	}
	slices.SortStableFunc(out, func(a, b cutopt.Fact) int { return ripped(a) - ripped(b) })
	return out
}

// ripped orders cuts: those along an edge come last.
func ripped(f cutopt.Fact) int {
	if f.Kind == cutopt.FactRip || f.Kind == cutopt.FactEdgeCut {
		return 1
	}
	return 0
}

// side returns how far a place lies on the left of the line, times the line's length.
func (l *sawnLine) side(p vector) float64 {
	x, y := float64(l.to.x-l.from.x), float64(l.to.y-l.from.y)
	return float64(x*(p.y-float64(l.from.y))) - float64(y*(p.x-float64(l.from.x)))
}

// beyond returns what of a convex polygon lies on the left of the line.
func (l *sawnLine) beyond(ring []vector) []vector {
	var out []vector
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		d, e := l.side(p), l.side(q)
		if d >= 0 {
			out = append(out, p)
		}
		if (d < 0) != (e < 0) {
			t := d / (d - e)
			out = append(out, vector{p.x + float64(t*(q.x-p.x)), p.y + float64(t*(q.y-p.y))})
		}
	}
	return out
}

// across returns the two places where the line, drawn on, leaves a convex polygon, in the direction of the line.
func (l *sawnLine) across(ring []vector) (from, to point) {
	x, y := float64(l.to.x-l.from.x), float64(l.to.y-l.from.y)
	first := true
	var low, high float64
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		d, e := l.side(p), l.side(q)
		if (d < 0) == (e < 0) {
			continue
		}
		t := d / (d - e)
		place := vector{p.x + float64(t*(q.x-p.x)), p.y + float64(t*(q.y-p.y))}
		along := float64(place.x*x) + float64(place.y*y)
		here := point{round(place.x), round(place.y)}
		if first || along < low {
			low, from = along, here
		}
		if first || along > high {
			high, to = along, here
		}
		first = false
	}
	return from, to
}

func areaOf(ring []vector) float64 {
	sum := 0.0
	for i, p := range ring {
		q, o := ring[(i+1)%len(ring)], ring[0]
		sum += float64((p.x-o.x)*(q.y-o.y)) - float64((p.y-o.y)*(q.x-o.x))
	}
	return float64(max(sum, -sum) / 2)
}
