package strips

import (
	"cmp"
	"math"
	"slices"
)

// A way is a directed piece of a boundary, with the floor on its left.
type way struct{ from, to point }

// levels returns the level boundary of polygons that do not overlap: where what lies above and what lies below do not
// cancel. It runs to the right where the floor lies above it.
func levels(polygons [][]point) []way {
	type event struct{ y, x, gain int64 }
	var events []event
	for _, corners := range polygons {
		for i, a := range corners {
			b := corners[(i+1)%len(corners)]
			if a.y == b.y && a.x < b.x {
				events = append(events, event{a.y, a.x, 1}, event{a.y, b.x, -1})
			} else if a.y == b.y && a.x > b.x {
				events = append(events, event{a.y, b.x, -1}, event{a.y, a.x, 1})
			}
		}
	}
	slices.SortFunc(events, func(a, b event) int {
		return cmp.Or(cmp.Compare(a.y, b.y), cmp.Compare(a.x, b.x), cmp.Compare(a.gain, b.gain))
	})
	var out []way
	net, from := int64(0), point{}
	for i := 0; i < len(events); {
		at, was := point{events[i].x, events[i].y}, net
		for ; i < len(events) && events[i].x == at.x && events[i].y == at.y; i++ {
			net += events[i].gain
		}
		if net == was {
			continue
		}
		for ; was > 0; was-- {
			out = append(out, way{from, at})
		}
		for ; was < 0; was++ {
			out = append(out, way{at, from})
		}
		from = at
	}
	return out
}

// trace returns the rings around polygons that do not overlap: counter-clockwise around floor, clockwise around holes.
// Where rings touch in a point they are kept apart.
func trace(polygons [][]point) [][]point {
	ways := levels(polygons)
	for _, corners := range polygons {
		for i, a := range corners {
			if b := corners[(i+1)%len(corners)]; a.y != b.y {
				ways = append(ways, way{a, b})
			}
		}
	}
	slices.SortFunc(ways, func(a, b way) int {
		return cmp.Or(cmp.Compare(a.from.y, b.from.y), cmp.Compare(a.from.x, b.from.x), cmp.Compare(a.to.y, b.to.y),
			cmp.Compare(a.to.x, b.to.x))
	})
	leaving := make(map[point][]int, len(ways))
	for i, w := range ways {
		leaving[w.from] = append(leaving[w.from], i)
	}
	used := make([]bool, len(ways))
	var rings [][]point
	for i := range ways {
		if used[i] {
			continue
		}
		var r []point
		for k := i; k >= 0 && !used[k]; k = leftmost(ways, leaving[ways[k].to], used, k) {
			used[k] = true
			r = append(r, ways[k].from)
		}
		if r = straight(r); len(r) > 2 {
			rings = append(rings, r)
		}
	}
	return rings
}

// leftmost returns the way that turns most to the left after way k; -1 for none.
func leftmost(ways []way, leaving []int, used []bool, k int) int {
	best, turn := -1, math.Inf(-1)
	d := ways[k].to.minus(ways[k].from)
	for _, i := range leaving {
		if used[i] {
			continue
		}
		e := ways[i].to.minus(ways[i].from)
		if t := math.Atan2(float64(d.cross(e)), float64(d.dot(e))); t > turn {
			best, turn = i, t
		}
	}
	return best
}

// straight drops corners in line, and repeated ones.
func straight(r []point) []point {
	for again := true; again && len(r) > 2; {
		again = false
		out := make([]point, 0, len(r))
		for i, p := range r {
			a := r[(i+len(r)-1)%len(r)]
			if len(out) > 0 {
				a = out[len(out)-1]
			}
			d, e := p.minus(a), r[(i+1)%len(r)].minus(p)
			if d == (point{}) || d.cross(e) == 0 && d.dot(e) > 0 {
				again = true
				continue
			}
			out = append(out, p)
		}
		r = out
	}
	return r
}

// bridged joins rings to one by ways there and back between nearest corners, so that the area stays what it is. It
// takes O(n^2) steps for n corners.
func bridged(rings [][]point) []point {
	one := slices.Clone(rings[0])
	ways := make([]bridge, len(rings)) // of each ring to those joined before
	for k := range ways {
		ways[k].best = math.Inf(1)
		if k > 0 {
			ways[k].nearer(one, rings[k])
		}
	}
	for range len(rings) - 1 {
		k := 1
		for ways[k].joined {
			k++
		}
		for j := k + 1; j < len(rings); j++ {
			if !ways[j].joined && ways[j].best < ways[k].best {
				k = j
			}
		}
		w, r := &ways[k], rings[k]
		w.joined = true
		at, from := slices.Index(r, w.to), slices.Index(one, w.from)
		loop := slices.Concat(r[at:], r[:at], []point{r[at], one[from]})
		if w.best == 0 {
			loop = loop[1 : len(loop)-1]
			loop = append(loop, one[from])
		}
		one = slices.Insert(one, from+1, loop...)
		for j := range ways {
			if j > 0 && !ways[j].joined {
				ways[j].nearer(r, rings[j])
			}
		}
	}
	return one
}

// A bridge is the shortest way found from rings that are one to another.
type bridge struct {
	from, to point
	best     float64
	joined   bool
}

// nearer takes the shortest way from the corners of one ring to those of another, where it is shorter.
func (w *bridge) nearer(one, other []point) {
	for _, q := range other {
		for _, p := range one {
			if d := p.minus(q).size(); d < w.best {
				w.from, w.to, w.best = p, q, d
			}
		}
	}
}
