package counts

import (
	"math/rand/v2"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Lot is one run of a walk, not yet a certain one of its kind.
type Lot struct {
	Kind    int            // index of Table.Kinds
	Starter measure.Length // 0 in one piece
	Host    int            // of a one-piece run: the lot whose starter or piece it lies beside; -1 for none
}

// latest is the worst point from which a run or an offcut of kind k still leads to one as good as x.
func (c *Table) latest(k int, x point) point {
	in, kind := c.in, &c.Kinds[k]
	if kind.hand != "" {
		return c.latestHand(kind, x)
	}
	p, r := x.planks(), x.left()
	l, w := in.Plank, kind.Length
	opened := c.step(k, at(0, l))
	from := at(p-1-opened.planks(), 0)
	if opened.left() < r {
		from = at(p-2-opened.planks(), 0)
	}
	if kind.Single {
		need := w
		if r > 0 {
			need = r + w + in.Kerf
		}
		if need <= l {
			from = max(from, at(p, need))
		} else {
			from = max(from, at(p-1, w))
		}
	}
	for _, seg := range kind.Segments {
		n := int64(seg.Field) + 1
		if s, ok := c.least(k, seg, r); ok {
			from = max(from, at(p-n, s))
		} else {
			from = max(from, at(p-n-1, seg.Lo))
		}
	}
	return from
}

// least is the shortest starter of the stretch that leaves r.
func (c *Table) least(k int, seg starters.Segment, r measure.Length) (measure.Length, bool) {
	in := c.in
	s := r - (measure.Length(seg.Field+1)*in.Plank - c.Kinds[k].Length - in.Kerf)
	if r <= 0 || s <= seg.Lo {
		return seg.Lo, true
	}
	if seg.Lo < seg.Hi {
		s = (s + in.Grid - 1) / in.Grid * in.Grid
	} else {
		s = max(s, seg.Hi)
	}
	return s, s <= seg.Hi
}

// a leg is a run of a walk read backwards: the point it leads to must be as good as need.
type leg struct {
	kind int
	need point
}

// Draw draws a walk over all runs that needs at most the given number of planks, with no regard to stagger: one of many
// that do. It returns false when there is none. Offcuts on hand may make it need more after all.
func (c *Table) Draw(target int, rng *rand.Rand) ([]Lot, bool) {
	left := int64(target-c.whole) + c.base
	if int64(c.best[c.size-1]) > left {
		return nil, false
	}
	digits := make([]int, len(c.Kinds))
	for k := range digits {
		digits[k] = len(c.Kinds[k].Runs)
	}
	var lots []Lot
	for v := c.size - 1; v > 0; {
		var legs []leg
		j := c.drawStart(v, left, digits, rng)
		legs, v, left = c.drawLegs(j, v, left, digits, rng)
		lots = c.lay(j, left, legs, lots, rng)
	}
	return lots, true
}

// drawStart draws how the last walk of vector v began, among those that need at most left planks.
func (c *Table) drawStart(v int, left int64, digits []int, rng *rand.Rand) int {
	out, seen := 0, 0
	for j := range c.starts {
		if j == 0 && c.drawLeg(0, v, at(left, 0), digits, rng) < 0 {
			continue // fewest by a ring
		}
		if x := c.points[v*len(c.starts)+j]; x < never && c.close(j, x) <= left {
			if seen++; rng.IntN(seen) == 0 {
				out = j
			}
		}
	}
	return out
}

// drawLegs draws the last walk of vector v backwards and returns its legs from the last to the first, the vector before
// it and the planks that may be used for that.
func (c *Table) drawLegs(j, v int, left int64, digits []int, rng *rand.Rand) ([]leg, int, int64) {
	need := at(left, c.starts[j].starter) // what closes it
	var legs []leg
	for {
		if s := c.starts[j]; s.kind < 0 {
			if before := int64(need) >> 32; len(legs) > 0 && int64(c.best[v]) <= before {
				if next := c.drawLeg(j, v, need, digits, rng); next < 0 || rng.IntN(2) == 0 {
					return legs, v, before
				}
			}
		} else if digits[s.kind] > 0 {
			before := int64(need-s.next) >> 32
			if u := v - c.stride[s.kind]; int64(c.best[u]) <= before {
				// a ring may end here; go on half the time where it may also be longer
				if next := c.drawLeg(j, v, need, digits, rng); next < 0 || rng.IntN(2) == 0 {
					digits[s.kind]--
					return append(legs, leg{s.kind, need}), u, before
				}
			}
		}
		k := c.drawLeg(j, v, need, digits, rng)
		legs = append(legs, leg{k, need})
		need = c.latest(k, need)
		digits[k]--
		v -= c.stride[k]
	}
}

// drawLeg draws the kind of the run that the walk begun at start j ends with at v, or -1 for none, by how many are left.
func (c *Table) drawLeg(j, v int, need point, digits []int, rng *rand.Rand) int {
	out, seen := -1, 0
	for k, n := range digits {
		if n == 0 {
			continue
		}
		if x := c.points[(v-c.stride[k])*len(c.starts)+j]; x < never && x <= c.latest(k, need) {
			if seen += n; rng.IntN(seen) < n {
				out = k
			}
		}
	}
	return out
}

// latestHand is latest for an offcut on hand.
func (c *Table) latestHand(kind *Kind, need point) point {
	p, r := need.planks(), need.left()
	from := need
	if r <= kind.Length {
		from = max(from, at(p, 0))
	}
	if kind.hand == rows.EndLeft {
		lost := c.in.Plank - kind.Length
		from = max(from, at(p, lost-c.in.Kerf)) // one plank less is better, whatever it leaves
		switch {
		case r == 0:
			from = max(from, at(p+1, lost-c.in.Kerf))
		case r <= kind.Length:
			from = max(from, at(p+1, r+lost))
		}
	}
	return from
}

// lay makes a walk of its legs, which are in backward order, after the given number of planks, and appends its lots. A
// starter is the longest there is half the time, else any that leaves what the legs after it need.
func (c *Table) lay(j int, before int64, legs []leg, lots []Lot, rng *rand.Rand) []Lot {
	first, x := len(lots), at(before, 0)
	ring := c.starts[j].kind >= 0
	if ring {
		x = c.starts[j].next + point(before<<32)
		lots = append(lots, Lot{c.starts[j].kind, c.starts[j].starter, -1})
		legs = legs[:len(legs)-1]
	}
	var beside []int // one-piece runs on the plank that the next starter may come from
	share := func(host int) {
		for _, i := range beside {
			if i != host {
				lots[i].Host = host
			}
		}
		beside = beside[:0]
	}
	flush := func() {
		if len(beside) > 0 {
			share(beside[0])
		}
	}
	for n := len(legs) - 1; n >= 0; n-- {
		k, need := legs[n].kind, legs[n].need
		kind := &c.Kinds[k]
		if kind.hand != "" {
			flush()
			x = c.step(k, x)
			continue
		}
		seg := c.segment(kind, x.left())
		if seg == nil && (!kind.Single || kind.Length > x.left()) {
			flush()
			x = at(x.planks()+1, c.in.Plank)
			seg = c.segment(kind, x.left())
		}
		if kind.Single && kind.Length <= x.left() {
			beside = append(beside, len(lots))
			lots = append(lots, Lot{k, 0, -1})
			x = c.step(k, x)
			continue
		}
		share(len(lots))
		most := c.longest(*seg, x.left())
		next := c.after(k, *seg, at(x.planks(), most))
		if least, ok := c.least(k, *seg, need.left()); rng.IntN(2) == 0 && (ok || next.planks() < need.planks()) {
			if next.planks() < need.planks() {
				least = seg.Lo
			}
			if least < most {
				most = least + measure.Length(rng.IntN(int((most-least)/c.in.Grid)+1))*c.in.Grid
				next = c.after(k, *seg, at(x.planks(), most))
			}
		}
		lots = append(lots, Lot{k, most, -1})
		x = next
	}
	if ring && x.left() >= c.starts[j].starter {
		share(first)
	}
	flush()
	return lots
}

// segment is the stretch with the longest starter up to r, or nil.
func (c *Table) segment(kind *Kind, r measure.Length) *starters.Segment {
	for n := len(kind.Segments) - 1; n >= 0; n-- {
		if kind.Segments[n].Lo <= r {
			return &kind.Segments[n]
		}
	}
	return nil
}

// longest is the longest starter of the stretch up to r.
func (c *Table) longest(seg starters.Segment, r measure.Length) measure.Length {
	if r < seg.Hi {
		return r - r%c.in.Grid
	}
	return seg.Hi
}
