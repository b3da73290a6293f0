package counts

import (
	"math/rand/v2"
	"slices"
)

// Draw draws a walk over all runs that needs at most the given number of planks, with no regard to stagger: one of many
// that do. Where the table is exact it returns false only when there is none. Else the runs beyond the core are laid
// first, from the end of the walk backwards, by a beam of the given width. Offcuts on hand may make it need more after
// all.
func (c *Table) Draw(target, width int, rng *rand.Rand) ([]Lot, bool) {
	left := int64(target-c.whole) + c.base
	d := &drawing{Table: c, rng: rng, digits: slices.Clone(c.core), crowd: c.newCrowd()}
	v := c.size - 1
	var lots []Lot
	if !c.Exact {
		j, legs, need, core, rest := c.beam(left, width, rng)
		if j < 0 {
			return nil, false
		}
		d.digits = rest
		for _, leg := range legs {
			d.crowd.add(leg.kind, c.bin(leg.kind, d.crowd.number, c.latest(leg.kind, leg.need)))
		}
		legs, v, left = d.walk(j, core, need, legs)
		lots = c.lay(j, left, legs, lots, rng)
	} else if int64(c.best[v]) > left {
		return nil, false
	}
	for v > 0 {
		var legs []leg
		j := d.start(v, left)
		legs, v, left = d.walk(j, v, at(left, c.starts[j].starter), nil)
		lots = c.lay(j, left, legs, lots, rng)
	}
	return lots, true
}

// a drawing is a draw under way.
type drawing struct {
	*Table
	rng    *rand.Rand
	digits []int // by kind: runs not drawn yet
	crowd  crowd
}

// start draws how the last walk of vector v began, among those that need at most left planks.
func (d *drawing) start(v int, left int64) int {
	out, seen := 0, 0
	for j := range d.starts {
		if j == 0 && d.leg(0, v, at(left, 0)) < 0 {
			continue // fewest by a ring
		}
		if x := d.points[v*len(d.starts)+j]; x < never && d.close(j, x) <= left {
			if seen++; d.rng.IntN(seen) == 0 {
				out = j
			}
		}
	}
	return out
}

// walk draws a walk begun at start j backwards from vector v, where its point must be as good as need, and appends its
// legs from the last to the first. It returns the vector before it too, and the planks that may be used for that. Where
// the walk may begin, it goes on half the time if it can.
func (d *drawing) walk(j, v int, need point, legs []leg) ([]leg, int, int64) {
	for {
		next := d.leg(j, v, need)
		ends := next < 0 || d.rng.IntN(2) == 0
		if s := d.starts[j]; s.kind < 0 {
			if before := int64(need) >> 32; ends && len(legs) > 0 && int64(d.best[v]) <= before {
				return legs, v, before
			}
		} else if d.digits[s.kind] > 0 {
			before := int64(need-s.next) >> 32
			if u := v - d.stride[s.kind]; ends && int64(d.best[u]) <= before {
				d.digits[s.kind]--
				return append(legs, leg{s.kind, need}), u, before
			}
		}
		legs = append(legs, leg{next, need})
		need = d.latest(next, need)
		d.crowd.add(next, d.bin(next, d.crowd.number, need))
		d.digits[next]--
		v -= d.stride[next]
	}
}

// leg draws the kind of the run that a walk begun at start j ends with at v, or -1 for none: by how many are left, and
// rather one whose starter lies where few of its kind do.
func (d *drawing) leg(j, v int, need point) int {
	out, seen := -1, 0.0
	for k, n := range d.digits {
		if n == 0 {
			continue
		}
		x := d.points[(v-d.stride[k])*len(d.starts)+j]
		if from := d.latest(k, need); x < never && x <= from {
			over := excess(d.crowd.of(k), d.crowd.number, d.bin(k, d.crowd.number, from))
			weight := float64(n) / (1 + float64(over*over))
			if seen += weight; d.rng.Float64()*seen < weight {
				out = k
			}
		}
	}
	return out
}
