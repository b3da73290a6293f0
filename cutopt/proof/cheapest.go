package proof

import (
	"slices"

	"plank.example/cutopt/measure"
)

// none is the cost of what cannot be laid.
const none = int64(1) << 62

// A stretch is a row of starters lo, lo+grid, … hi with as many joints each and equal cost.
type stretch struct {
	lo, hi measure.Length
	joints int
	cost   int64
}

// table is the cost of a run and of all runs below it by the run's starter.
type table struct {
	starters []measure.Length
	joints   []int
	costs    []int64
	single   int64 // laid in one piece
}

// cheapest returns the cost of the cheapest layout that keeps the forest's staggers: every run adds to its parent, for
// each of the parent's starters, its own cheapest starter that goes with it. With nothing to lay it returns none.
func (v *verifier) cheapest(on []Constraint, multipliers []int64) int64 {
	in := v.in
	total := int64(0)
	for k, c := range on {
		if c.AtMost {
			total -= multipliers[k] * int64(c.Value)
		} else {
			total += multipliers[k] * int64(c.Value)
		}
	}
	for _, h := range v.hands {
		if v.worthless(h) {
			continue
		}
		total -= v.c(h.to) - v.c(h.from)
	}
	kept := v.agree()
	tables := make([]*table, len(in.Runs))
	own := make(map[measure.Length]*table) // by length of run, of those that are plain
	get := func(i int) *table {
		switch w := in.Runs[i].Length; {
		case tables[i] != nil:
		case kept[i] != nil || !in.Runs[i].Plain() || v.limited(i):
			tables[i] = v.table(i, kept[i], on, multipliers)
		default:
			if own[w] == nil {
				own[w] = v.table(i, nil, on, multipliers)
			}
			t := *own[w]
			t.costs = slices.Clone(t.costs)
			tables[i] = &t
		}
		return tables[i]
	}
	for _, i := range v.order {
		if v.ctx.Err() != nil {
			return none
		}
		t := get(i)
		s := t.stretches(in.Grid)
		best := t.single
		if len(s) > 0 {
			best = min(best, s[0].cost)
		}
		if best >= none {
			return none
		}
		tables[i] = nil
		if p := v.parent[i]; p >= 0 {
			v.pass(s, t.single, best, in.Runs[p].From-in.Runs[i].From, get(p))
		} else {
			total += best
		}
	}
	return total
}

// table prices every starter that the case leaves run i, by itself: those of kept, or if that is nil of domain.
func (v *verifier) table(i int, kept *domain, on []Constraint, multipliers []int64) *table {
	in := v.in
	if kept == nil {
		kept = v.domain(i)
	}
	t := &table{single: none}
	if kept.single {
		lim := v.limitsOf(i)
		if w := in.Runs[i].Length; w < in.Plank {
			t.single = v.single(w, lim.first, lim.last)
		} else if lim.first == 0 {
			t.single = Denominator
		}
	}
	for k, s := range kept.starters {
		p, _ := in.Lay(i, s)
		t.starters = append(t.starters, s)
		t.joints = append(t.joints, kept.joints[k])
		t.costs = append(t.costs, v.cost(p, s, on, multipliers))
	}
	return t
}

// stretches lists the starters that can be laid as stretches of equal cost, cheapest first.
func (t *table) stretches(grid measure.Length) []stretch {
	var out []stretch
	for k, s := range t.starters {
		if t.costs[k] >= none {
			continue
		}
		n := len(out) - 1
		if n >= 0 && out[n].hi+grid == s && out[n].joints == t.joints[k] && out[n].cost == t.costs[k] {
			out[n].hi = s
			continue
		}
		out = append(out, stretch{s, s, t.joints[k], t.costs[k]})
	}
	slices.SortStableFunc(out, func(a, b stretch) int {
		if a.cost < b.cost {
			return -1
		}
		if a.cost > b.cost {
			return 1
		}
		return 0
	})
	return out
}

// pass adds to each starter of the parent the cheapest choice of its child that goes with it. delta is From of the
// parent less From of the child.
func (v *verifier) pass(child []stretch, single, best int64, delta measure.Length, parent *table) {
	if parent.single < none {
		parent.single += best
	}
	for k := range parent.starters {
		if parent.costs[k] >= none {
			continue
		}
		least := single
		for _, s := range child {
			if s.cost >= least {
				break
			}
			if v.goes(s, parent.starters[k]+delta, parent.joints[k]) {
				least = s.cost
				break
			}
		}
		if least >= none {
			parent.costs[k] = none
		} else {
			parent.costs[k] += least
		}
	}
}

// goes reports whether some starter of the stretch has all its joints at least Stagger from the joints x, x+plank, …
func (v *verifier) goes(s stretch, x measure.Length, joints int) bool {
	in := v.in
	for t := s.lo; t <= s.hi; {
		if !in.Clash(t, s.joints, x, joints) {
			return true
		}
		// t lies within Stagger of x + mL for one m or more that both runs have; the next candidate is past the first such.
		past := s.hi + 1
		near, span := (t-x)/in.Plank, in.Stagger/in.Plank+1
		for m := max(near-span, measure.Length(1-s.joints)); m <= min(near+span, measure.Length(joints-1)); m++ {
			y := x + m*in.Plank
			if y-in.Stagger < t && t < y+in.Stagger {
				past = min(past, y+in.Stagger)
			}
		}
		t = max((past+in.Grid-1)/in.Grid*in.Grid, t+in.Grid)
	}
	return false
}
