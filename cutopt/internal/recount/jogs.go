package recount

import (
	"math"
	"slices"

	"plank.example/cutopt/measure"
)

// A Wall is a wall of an outline or an island once its jogs are straightened, and walls in line that keep one gap are
// joined. It runs from At to the next wall's, the floor on its left.
type Wall struct {
	At    measure.Point
	Gap   measure.Length
	Drawn []int // the walls as drawn that lie in it
}

// A corner of a ring with the wall that runs from it to the next, the floor on its left. Corners are linked both ways.
type corner struct {
	x, y         int64
	gap          measure.Length
	drawn        []int
	moved        float64 // how far its wall was moved into the floor
	before, next int
}

// An unjogger straightens a ring.
type unjogger struct {
	all       []corner
	tolerance float64
}

// Straighten straightens the jogs of a ring, by their definition, and returns how many there were. A jog is a wall
// shorter than the tolerance between two that are not, keep one gap, no narrower than its own, and run the same way,
// but for a hundredth of their lengths. The wall of the two that lies farther out, all of it, is moved in to the line
// of the other: by the tolerance at most with what either was moved before, along the wall at its other end, which
// keeps an end, is no nearer to the moved one's direction than 30 degrees and moves its corner by twice the tolerance
// at most. The corner is rounded to the nearest tick.
//
// Walls are taken in the order in which the floor lies on their left, from the first one drawn, round and round until
// none is a jog; after one that is, the wall that it became part of comes next. Rings keep four walls. It takes O(n)
// steps.
func Straighten(
	points []measure.Point, gap func(wall int) measure.Length, island bool, tolerance measure.Length,
) (ring []Wall, jogs int) {
	all := walled(points, gap, island)
	if tolerance > 0 && len(all) >= 6 {
		all, jogs = straightened(all, tolerance)
	}
	for i := range all {
		c := &all[i]
		at := measure.Point{X: measure.Length(c.x), Y: measure.Length(c.y)}
		ring = append(ring, Wall{at, c.gap, c.drawn})
	}
	return ring, jogs
}

// straightened returns the walls that straightening leaves, and the number of jogs.
func straightened(ring []corner, tolerance measure.Length) (kept []corner, jogs int) {
	u := &unjogger{all: ring, tolerance: float64(tolerance)}
	for i := range u.all {
		u.all[i].before, u.all[i].next = (i+len(ring)-1)%len(ring), (i+1)%len(ring)
	}
	at, left := 0, len(ring)
	for seen := 0; seen < left && left > 5; seen++ {
		if before := u.all[at].before; u.straighten(at) {
			jogs++
			left -= 2
			at, seen = before, -1
			continue
		}
		at = u.all[at].next
	}
	if jogs == 0 {
		return ring, 0
	}
	for i, n := at, 0; n < left; i, n = u.all[i].next, n+1 {
		kept = append(kept, u.all[i])
	}
	return joined(kept), jogs
}

// walled returns the walls of a ring with the floor on their left, without corners drawn twice, those in line that keep
// one gap as one wall.
func walled(points []measure.Point, gap func(wall int) measure.Length, island bool) []corner {
	var all []corner
	for i, p := range points {
		c := corner{x: int64(p.X), y: int64(p.Y), gap: gap(i), drawn: []int{i}}
		if n := len(all) - 1; n >= 0 && all[n].x == c.x && all[n].y == c.y {
			all[n].gap, all[n].drawn = c.gap, c.drawn
			continue
		}
		all = append(all, c)
	}
	for n := len(all); n > 1 && all[n-1].x == all[0].x && all[n-1].y == all[0].y; n-- {
		all = all[:n-1]
	}
	n := len(all)
	if n < 3 {
		return nil
	}
	var twice int64
	for i := range all {
		a, b, o := &all[i], &all[(i+1)%n], &all[0]
		twice += (a.x-o.x)*(b.y-o.y) - (a.y-o.y)*(b.x-o.x)
	}
	if (twice < 0) != island { // the other way round, a wall is drawn from its other corner
		turned := make([]corner, n)
		for i := range turned {
			turned[i] = all[n-1-i]
			turned[i].gap, turned[i].drawn = all[(2*n-2-i)%n].gap, all[(2*n-2-i)%n].drawn
		}
		all = turned
	}
	return joined(all)
}

// joined makes one wall of those in line that keep one gap.
func joined(all []corner) []corner {
	n := len(all)
	inLine := func(a, b, c *corner) bool {
		dx, dy, ex, ey := b.x-a.x, b.y-a.y, c.x-b.x, c.y-b.y
		return a.gap == b.gap && dx*ey == dy*ex && dx*ex+dy*ey > 0
	}
	kept := make([]corner, 0, n)
	for i := range all {
		if len(kept) == 0 || !inLine(&all[(i+n-1)%n], &all[i], &all[(i+1)%n]) {
			kept = append(kept, all[i])
			continue
		}
		last := &kept[len(kept)-1]
		last.drawn = append(slices.Clip(last.drawn), all[i].drawn...)
	}
	if m := len(kept); m > 3 && inLine(&kept[m-1], &kept[0], &kept[1]) {
		kept[m-1].drawn = append(slices.Clip(kept[m-1].drawn), kept[0].drawn...)
		kept = kept[1:]
	}
	return kept
}

// A way leads from one corner to another.
type way struct{ x, y int64 }

func (u *unjogger) way(i int) way {
	a, b := &u.all[i], &u.all[u.all[i].next]
	return way{b.x - a.x, b.y - a.y}
}

func (w way) long() float64 { return math.Hypot(float64(w.x), float64(w.y)) }

func (w way) cross(v way) float64 { return float64(w.x*v.y - w.y*v.x) }

// straighten makes one wall of wall i and its neighbours if it is a jog.
func (u *unjogger) straighten(i int) bool {
	a, c := u.all[i].before, u.all[i].next
	d, j, e := u.way(a), u.way(i), u.way(c)
	gap := u.all[a].gap
	alike := gap == u.all[c].gap && u.all[i].gap <= gap && d.x*e.x+d.y*e.y > 0 &&
		math.Abs(d.cross(e)) <= 0.01*d.long()*e.long()
	if j.long() >= u.tolerance || min(d.long(), e.long()) < u.tolerance || !alike {
		return false
	}
	far := u.all[c].next
	if by := u.outside(a, i, c, e); by <= u.tolerance {
		by = max(u.all[a].moved+by, u.all[c].moved)
		x, y, ok := u.along(u.all[a].before, a, c, e)
		if !ok || by > u.tolerance {
			return false
		}
		u.all[a].x, u.all[a].y, u.all[a].moved = x, y, by
	} else if by := u.outside(c, far, i, d); by <= u.tolerance {
		by = max(u.all[c].moved+by, u.all[a].moved)
		x, y, ok := u.along(far, far, i, d)
		if !ok || by > u.tolerance {
			return false
		}
		u.all[far].x, u.all[far].y, u.all[a].moved = x, y, by
	} else {
		return false
	}
	u.all[a].drawn = slices.Concat(u.all[a].drawn, u.all[i].drawn, u.all[c].drawn)
	u.all[a].next, u.all[far].before = far, a
	return true
}

// outside returns how far the corners p and q lie outside the line through o along d, the farther of them; infinite
// where one lies inside.
func (u *unjogger) outside(p, q, o int, d way) float64 {
	off := func(k int) float64 { return d.cross(way{u.all[o].x - u.all[k].x, u.all[o].y - u.all[k].y}) }
	if min(off(p), off(q)) < 0 {
		return math.Inf(1)
	}
	return max(off(p), off(q)) / d.long()
}

// along returns where corner k comes to lie when it is moved along a wall, which it is one end of, to the line through
// corner o along d.
func (u *unjogger) along(wall, k, o int, d way) (x, y int64, ok bool) {
	e, start, on := u.way(wall), &u.all[wall], &u.all[o]
	if math.Abs(e.cross(d)) < 0.5*e.long()*d.long() {
		return 0, 0, false
	}
	t := way{start.x - on.x, start.y - on.y}.cross(e) / d.cross(e)
	nearest := func(from int64, v float64) int64 { return from + int64(math.Floor(float64(v)+0.5)) }
	x, y = nearest(on.x, t*float64(d.x)), nearest(on.y, t*float64(d.y))
	if e.x == 0 {
		x = start.x
	}
	if e.y == 0 {
		y = start.y
	}
	by := way{x - u.all[k].x, y - u.all[k].y}.long()
	return x, y, by <= 2*u.tolerance && by < e.long()
}
