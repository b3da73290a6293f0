package proof

import (
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// limits are what the splits on the way to a case leave of one run: starters from lo to hi, where 0 is one piece, and
// places of that piece from first to last.
type limits struct {
	lo, hi, first, last measure.Length
}

// limitsOf returns the limits of run i.
func (v *verifier) limitsOf(i int) limits {
	if l, ok := v.limits[i]; ok {
		return l
	}
	return limits{hi: v.in.Plank, last: v.in.Plank}
}

func (v *verifier) limited(i int) bool {
	_, ok := v.limits[i]
	return ok
}

// runSplit checks the two cases of a split on a figure of one run. A place above 0 needs a run in one piece.
func (v *verifier) runSplit(n *Node, on []Constraint, depth int) error {
	i, at := n.Split.Run, measure.Length(n.Split.Value)
	switch {
	case i < 0 || i >= len(v.in.Runs):
		return unproven("a branch on run %d of %d", i, len(v.in.Runs))
	case n.Split.Below != 0:
		return unproven("a branch on %q with a length it does not have", n.Split.Of)
	case at < 0 || at > v.in.Plank:
		return unproven("a branch at %d, beyond any layout", n.Split.Value)
	}
	before, was := v.limits[i]
	all := v.limitsOf(i)
	low, high := all, all
	if n.Split.Of == OfStarter {
		low.hi, high.lo = min(all.hi, at), max(all.lo, at+1)
	} else {
		low.last, high.first = min(all.last, at), max(all.first, at+1)
		high.hi = 0
	}
	v.limits[i] = low
	err := v.node(n.Low, on, depth+1)
	if err == nil {
		v.limits[i] = high
		err = v.node(n.High, on, depth+1)
	}
	if was {
		v.limits[i] = before
	} else {
		delete(v.limits, i)
	}
	return err
}

// A domain is how a run may be laid by the rules that concern no other run and the limits of the case.
type domain struct {
	starters []measure.Length // ascending
	joints   []int            // by starter
	single   bool             // in one piece
}

func (v *verifier) domain(i int) *domain {
	in := v.in
	lim := v.limitsOf(i)
	d := &domain{single: in.MayBeSingle(i) && lim.lo == 0}
	try := func(s measure.Length) {
		if p, ok := in.Lay(i, s); ok && lim.lo <= s && s <= lim.hi {
			d.starters = append(d.starters, s)
			d.joints = append(d.joints, p.Joints())
		}
	}
	for s := in.Grid; s < in.Plank; s += in.Grid {
		try(s)
	}
	try(in.Plank)
	return d
}

// agree returns, for the runs of pairs left out, the domains less every starter that nothing in the other run's domain
// goes with, taken out again and again until all agree. Without limits on any run it returns nothing: then the pairs
// are left out altogether.
func (v *verifier) agree() map[int]*domain {
	if len(v.limits) == 0 || len(v.left) == 0 {
		return nil
	}
	in := v.in
	of := make(map[int]*domain)
	partners := make(map[int][]int)
	var queue []int // runs whose domain has changed
	for _, p := range v.left {
		for k, i := range p {
			if of[i] == nil {
				of[i] = v.domain(i)
				queue = append(queue, i)
			}
			partners[i] = append(partners[i], p[1-k])
		}
	}
	for len(queue) > 0 && v.ctx.Err() == nil {
		a := queue[0]
		queue = queue[1:]
		for _, b := range partners[a] {
			if v.narrow(of[b], of[a], in.Runs[b].From-in.Runs[a].From) && !slices.Contains(queue, b) {
				queue = append(queue, b)
			}
		}
	}
	return of
}

// narrow takes out of d every starter that nothing in other goes with, and reports whether there was one. delta is From
// of d's run less From of the other's.
func (v *verifier) narrow(d, other *domain, delta measure.Length) bool {
	if other.single {
		return false
	}
	runs := other.stretches(v.in.Grid)
	n := 0
	for k, s := range d.starters {
		if slices.ContainsFunc(runs, func(r stretch) bool { return v.goes(r, s+delta, d.joints[k]) }) {
			d.starters[n], d.joints[n] = s, d.joints[k]
			n++
		}
	}
	changed := n < len(d.starters)
	d.starters, d.joints = d.starters[:n], d.joints[:n]
	return changed
}

// stretches lists the starters as stretches with as many joints each.
func (d *domain) stretches(grid measure.Length) []stretch {
	t := table{starters: d.starters, joints: d.joints, costs: make([]int64, len(d.starters))}
	return t.stretches(grid)
}

// A hand is the part of a plank that pieces cut from an offcut on hand can take up: whatever they are, they are worth
// at most C(to) - C(from) together. From -1, where C is 0, stands for the plank's very end: C(0) may be more.
type hand struct {
	from, to measure.Length
	starter  measure.Length // it is one of so much at most and nothing else; 0 for none
	ender    measure.Length
}

// worthless reports whether the leaf in hand gives what is cut from it for nothing.
func (v *verifier) worthless(h hand) bool {
	return h.starter > 0 && h.starter <= v.freeStarter || h.ender > 0 && h.ender <= v.freeEnder
}

// usable lists the offcuts on hand that some run can use. Where no run can be one piece of an offcut, only a starter or
// an ender is cut from it, and what is longer than the longest of these is worth nothing. Only as many are worth
// anything as there are pieces of the kinds that they may be: of each run one at most.
func usable(in *rows.Instance) []hand {
	if len(in.Offcuts) == 0 {
		return nil
	}
	shortest := in.Plank + 1 // piece of a one-piece run
	starters, enders := make(map[measure.Length]bool), make(map[measure.Length]bool)
	v := &verifier{in: in}
	seen := make(map[measure.Length]bool)
	for i, r := range in.Runs {
		if in.MayBeSingle(i) {
			shortest = min(shortest, r.Length)
		}
		if r.Plain() && seen[r.Length] {
			continue
		}
		seen[r.Length] = seen[r.Length] || r.Plain()
		for _, s := range v.domain(i).starters {
			p, _ := in.Lay(i, s)
			starters[s], enders[p.Ender] = true, true
		}
	}
	longest := func(of map[measure.Length]bool, most measure.Length) measure.Length {
		best := measure.Length(0)
		for x := range of {
			if x <= most {
				best = max(best, x)
			}
		}
		return best
	}
	var out []hand
	for _, o := range worthy(in) {
		x := o.Length
		if x < shortest {
			switch o.End {
			case rows.EndLeft:
				x = longest(enders, x)
			case rows.EndRight:
				x = longest(starters, x)
			case rows.EndNone:
				x = 0
			}
		}
		switch {
		case x == 0:
		case o.End == rows.EndLeft:
			h := hand{from: in.Plank - in.Kerf - x, to: in.Plank}
			if x < shortest {
				h.ender = x
			}
			out = append(out, h)
		default:
			h := hand{from: -1, to: x}
			if x < shortest {
				h.starter = x
			}
			out = append(out, h)
		}
	}
	return out
}

// worthy lists the offcuts on hand that can all be of use: of those with a right end the longest, as many as there are
// runs that may need one, not begun with a whole plank; of those with a left end as many as runs; of the others as many
// as runs that may be one piece.
func worthy(in *rows.Instance) []rows.Offcut {
	var right, left, none []rows.Offcut
	for _, o := range in.Offcuts {
		switch o.End {
		case rows.EndRight:
			right = append(right, o)
		case rows.EndLeft:
			left = append(left, o)
		default:
			none = append(none, o)
		}
	}
	starters, singles := 0, 0
	for i := range in.Runs {
		if in.Runs[i].Starter != in.Plank {
			starters++
		}
		if in.MayBeSingle(i) {
			singles++
		}
	}
	longest := func(list []rows.Offcut, n int) []rows.Offcut {
		slices.SortStableFunc(list, func(a, b rows.Offcut) int { return int(b.Length - a.Length) })
		return list[:min(n, len(list))]
	}
	return slices.Concat(longest(right, starters), longest(left, len(in.Runs)), longest(none, singles))
}
