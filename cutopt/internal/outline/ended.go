package outline

import (
	"math"
	"slices"

	"plank.example/cutopt/measure"
)

// maxEnded is the most pairs of corners and walls that [Ended] compares.
const maxEnded = 10_000_000

// Ended returns a simple ring that reaches beyond another by no more than within, with its corners there moved to the
// nearest place of the other; of the corner moved farthest how far, and the edge of outer it lies on. It is false where
// nothing reaches beyond, where that does not make the ring lie within, and of rings that are not simple. Places off
// the ticks are rounded to one inside. It takes O(m n) steps for m and n corners.
func Ended(ring, outer []measure.Point, within measure.Length) (
	ended []measure.Point, most measure.Length, edge int, ok bool,
) {
	if len(ring) == 0 || len(outer) == 0 || len(ring) > maxEnded/len(outer) || !sound(ring) || !sound(outer) {
		return nil, 0, 0, false
	}
	if _, lies := Within(ring, outer); lies {
		return nil, 0, 0, false
	}
	ended = slices.Clone(ring)
	for i, p := range ring {
		if locate(p, p, outer) != outside {
			continue
		}
		at, k, ok := nearest(p, outer)
		off := math.Hypot(float64(p.X-at.X), float64(p.Y-at.Y))
		if !ok || off > float64(within) {
			return nil, 0, 0, false
		}
		if l := measure.Length(math.Ceil(off)); l > most {
			most, edge = l, k
		}
		ended[i] = at
	}
	if !sound(ended) {
		return nil, 0, 0, false
	}
	if _, lies := Within(ended, outer); !lies {
		return nil, 0, 0, false
	}
	return ended, most, edge, true
}

// sound reports whether a ring is simple and within all bounds.
func sound(ring []point) bool {
	for _, p := range ring {
		if min(p.X, p.Y) < -MaxCoordinate || max(p.X, p.Y) > MaxCoordinate {
			return false
		}
	}
	_, ok := Simple(ring)
	return ok
}

// beside are the steps to a tick and its neighbours.
var beside = []point{
	{}, {X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {X: 1, Y: 1}, {X: -1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: -1},
}

// nearest returns the tick inside a ring that is next to the place on it nearest to p, and the edge of that place.
func nearest(p point, ring []point) (at point, edge int, ok bool) {
	least := math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
		size := float64(dx*dx) + float64(dy*dy)
		if size == 0 {
			continue
		}
		t := (float64(float64(p.X-a.X)*dx) + float64(float64(p.Y-a.Y)*dy)) / size
		past := t < 0 || t > 1 // of two walls at a corner, the one that p is beyond counts
		t = max(0, min(1, t))
		x, y := float64(a.X)+float64(t*dx), float64(a.Y)+float64(t*dy)
		ox, oy := float64(p.X)-x, float64(p.Y)-y
		if d := float64(ox*ox) + float64(oy*oy); d < least || d == least && !past {
			least, edge, at = d, i, point{X: measure.Length(math.Round(x)), Y: measure.Length(math.Round(y))}
		}
	}
	for _, s := range beside {
		if q := (point{X: at.X + s.X, Y: at.Y + s.Y}); locate(q, q, ring) != outside {
			return q, edge, true
		}
	}
	return point{}, 0, false
}
