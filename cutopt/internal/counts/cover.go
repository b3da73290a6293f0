package counts

import (
	"math/rand/v2"
	"slices"

	"plank.example/cutopt/measure"
)

// pointStep is how many points of a table take as long as a step, arcStep how many arcs of a network, entryStep how
// many entries of the program.
const pointStep, arcStep, entryStep = 12, 80, 200

// Draw draws a walk over all runs that needs at most the given number of planks, with no regard to stagger. Rings and
// chains of the program's solution are taken, whole ones first, and the program solved anew for the runs left, until
// these are few enough for a table of counts, which decides. It returns the steps done too, and false
// where runs are left that need too many planks, once about the most steps are done, or where offcuts are on hand. The
// program itself stays as it is.
func (c *Cycles) Draw(target, most int, rng *rand.Rand) (lots []Lot, steps int, ok bool) {
	const points = 10_000
	return c.draw(target, points, most, rng)
}

// draw is Draw with tables of at most so many points.
func (c *Cycles) draw(target, points, most int, rng *rand.Rand) (lots []Lot, steps int, ok bool) {
	const rounds = 300
	if len(c.in.Offcuts) > 0 {
		return nil, 0, false
	}
	c = c.copy()
	c.begin()
	left, need := c.number(), target-c.whole
	for {
		if rest := c.rest(left); Fits(rest, points) {
			t := New(rest, points)
			more, ok := t.Draw(need, 0, rng)
			first := len(lots)
			for _, lot := range more {
				if lot.Host >= 0 {
					lot.Host += first
				}
				lots = append(lots, lot)
			}
			return lots, t.Size()/pointStep + c.steps(), ok
		}
		best, ok := c.raise(left, 0, float64(need), settled, rounds, func() bool { return c.steps() > most })
		x, times := c.pick(left, rng)
		if !ok || best > float64(need)+nearly || x == nil {
			return nil, c.steps(), false
		}
		for range times {
			lots = c.lay(x, lots, rng)
			need -= x.planks
			for k, n := range x.rows {
				left[k] -= n
			}
		}
	}
}

// rest is the floor of so many runs of each kind.
func (c *Cycles) rest(left []int) *Floor {
	f := *c.Floor
	f.whole = 0
	f.Kinds = slices.Clone(f.Kinds)
	for k := range f.Kinds {
		f.Kinds[k].Runs = f.Kinds[k].Runs[:left[k]]
	}
	f.starts = slices.DeleteFunc(slices.Clone(f.starts), func(s start) bool { return s.kind >= 0 && left[s.kind] == 0 })
	return &f
}

// pick draws a ring or chain of the program's solution that the runs left suffice for, and how many times it is taken.
func (c *Cycles) pick(left []int, rng *rand.Rand) (out *cycle, times int) {
	const least, rather = 1e-4, 10
	seen := 0.0
	for q, v := range c.lp.Vars {
		x := c.lp.X[q]
		if v < len(c.Kinds) || x < least {
			continue
		}
		z := &c.cycles[v-len(c.Kinds)]
		most := int(x + least)
		weight := x
		if most > 0 {
			weight *= rather
		}
		most = max(most, 1)
		for k, n := range z.rows {
			if n > 0 {
				most = min(most, left[k]/n)
			}
		}
		if most == 0 {
			continue
		}
		if seen += weight; rng.Float64()*seen < weight {
			out, times = z, most
		}
	}
	return out, times
}

// lay appends the lots of a ring or chain. All starters of a ring are longer or shorter by the same, drawn at random.
func (c *Cycles) lay(x *cycle, lots []Lot, rng *rand.Rand) []Lot {
	w := c.net
	arcs, chain := x.arcs, x.arcs[0] == byRise
	turn := int32(0)
	if chain {
		arcs = arcs[1:]
	} else {
		begin := slices.IndexFunc(arcs, func(i int32) bool { return !w.single(i) })
		arcs = slices.Concat(arcs[begin:], arcs[:begin])
		if len(c.crowds) == 0 {
			turn = w.turn(arcs, rng)
		}
	}
	first := len(lots)
	var beside []int // one-piece runs on the plank that the next starter comes from
	share := func(host int) {
		for _, i := range beside {
			if i != host {
				lots[i].Host = host
			}
		}
		beside = beside[:0]
	}
	for _, i := range arcs {
		a := &w.arcs[i]
		lot := Lot{Kind: int(a.kind), Host: -1}
		switch {
		case w.single(i):
			beside = append(beside, len(lots))
		case a.from == w.last:
			lot.Starter = c.in.Plank
		default:
			lot.Starter = measure.Length(a.from+turn) * c.in.Grid
		}
		if lot.Starter > 0 {
			share(len(lots))
		}
		lots = append(lots, lot)
	}
	if !chain {
		share(first)
	} else if len(beside) > 0 {
		share(beside[0])
	}
	return lots
}

// single reports whether an arc lays a run in one piece.
func (w *network) single(i int32) bool { return w.arcs[i].planks == 0 }

// turn draws by how many grid lines more or less all arcs of a ring may begin.
func (w *network) turn(arcs []int32, rng *rand.Rand) int32 {
	lo, hi := -w.last, w.last
	for _, i := range arcs {
		a, grid := &w.arcs[i], w.floor.in.Grid
		switch {
		case a.from == w.last || a.to == 0:
			return 0
		case w.single(i):
			lo, hi = max(lo, -a.to), min(hi, w.last-1-a.from)
			continue
		}
		s := measure.Length(a.from) * grid
		for _, seg := range w.floor.Kinds[a.kind].Segments {
			if seg.Lo <= s && s <= seg.Hi {
				lo, hi = max(lo, int32((seg.Lo-s)/grid)), min(hi, int32((seg.Hi-s)/grid))
			}
		}
	}
	return lo + rng.Int32N(hi-lo+1)
}
