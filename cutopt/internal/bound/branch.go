package bound

import (
	"math"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Visit is called with a cheap layout, which may break the stagger of ties that the bound leaves out, and a packing for
// its one-piece runs, nil where there are none. It ends the work by reporting true, and must not keep what it is given.
type Visit func(rows.Layout, rows.Packing) bool

// Raise improves the bound of the node until it is above target planks, or cannot be, or paths are spent. It calls
// visit, if not nil, with every layout passed. It returns the paths used and whether every layout of the node needs
// more than target planks.
func (b *Bound) Raise(target, paths int, visit Visit) (used int, above bool) {
	in := b.table.Instance
	for fresh := !b.done; used < paths && b.proven() <= int64(target)*Den && !b.hopeless(target) && fresh; {
		if visit != nil && visit(b.layout, packing(in, b.layout, b.places)) {
			break
		}
		used++
		fresh = b.next()
	}
	return used, b.proven() > int64(target)*Den
}

// hopeless reports whether the master proves that no prices in use lift the node above target.
func (b *Bound) hopeless(target int) bool {
	return (b.done || b.eager) && ceilDen(int64((b.theta-1e-7)*Den)) <= int64(target)
}

// child is the node with one side of a split, to be begun from this node's prices and the cuts that stay valid; nil
// when nothing is left of it.
func (b *Bound) child(split proof.Split, low bool) *Bound {
	n := &Bound{
		table: b.table, eval: b.eval, thresholds: b.thresholds, stride: b.stride,
		constraints: b.constraints, domains: b.domains, center: slices.Clone(b.center),
		inherited: slices.Clone(b.master.cuts), eager: true, relief: b.relief, even: b.even, evens: b.evens,
		parts: b.parts,
	}
	if split.Of.IsSum() {
		c := proof.Constraint{Split: split, AtMost: low}
		if !low {
			c.Value++
		}
		n.constraints = append(slices.Clip(b.constraints), c)
		return n
	}
	n.domains = b.cloneDomains()
	changed, ok := b.eval.restrict(n.domains, split.Run, b.domain(split.Run).split(split, low, b.table.Instance.Grid))
	if !ok {
		return nil
	}
	n.inherited = nil
	for _, c := range b.master.cuts {
		if b.within(c, n.domains, changed) {
			n.inherited = append(n.inherited, c)
		}
	}
	return n
}

// within reports whether the layout of the cut's part lies in the domains of the given runs.
func (b *Bound) within(c *cut, domains []*domain, of []int) bool {
	for _, i := range of {
		if b.part(i) != c.part {
			continue
		}
		place := measure.Length(0)
		if c.places != nil {
			place = c.places[i]
		}
		if !domains[i].holds(c.layout[i], place) {
			return false
		}
	}
	return true
}

// domain returns what the node leaves of run i.
func (b *Bound) domain(i int) *domain {
	if b.domains == nil || b.domains[i] == nil {
		return b.eval.whole(i)
	}
	return b.domains[i]
}

// cloneDomains returns a list of the node's domains to be changed; domains themselves never are.
func (b *Bound) cloneDomains() []*domain {
	if b.domains == nil {
		return make([]*domain, len(b.table.Instance.Runs))
	}
	return slices.Clone(b.domains)
}

// begin evaluates the first prices and adds the cuts inherited to the master. It reports false when no layout of the
// forest is left.
func (b *Bound) begin() bool {
	inherited := b.inherited
	if b.inherited = nil; !b.start(b.center) {
		return false
	}
	for _, c := range inherited {
		k := c
		if n := len(b.constraints); n > len(c.excess) {
			k = &cut{part: c.part, a: c.a, jumps: c.jumps, layout: c.layout, places: c.places}
			k.excess = append(slices.Clip(c.excess), b.excess(c, b.constraints[len(c.excess):])...)
		}
		b.master.add(k)
	}
	return true
}

// choose returns the split of the node: on a sum whose mean over the master's mixture of layouts is far from whole,
// else on a run whose starter, or whose place on its plank, differs between the layouts, else on a run of a tie left
// out that breaks the stagger. It also says which side most of the mixture lies on. It returns nil when the mixture is
// one layout that keeps the rules. runsFirst has runs come before sums.
func (b *Bound) choose(runsFirst bool) (split *proof.Split, low bool) {
	if runsFirst {
		if split, low = b.chooseRun(); split != nil {
			return split, low
		}
	}
	if split, low = b.chooseSum(); split != nil {
		return split, low
	}
	if split, low = b.chooseRun(); split != nil {
		return split, low
	}
	return b.chooseTie()
}

// chooseSum tries thresholds where the best or the master's prices step.
func (b *Bound) chooseSum() (best *proof.Split, lower bool) {
	in := b.table.Instance
	n := len(b.thresholds)
	// mean numbers of starters and of rooms beside enders, by how many thresholds are at most as long; then sums of these
	starters, rooms := make([]float64, n+1), make([]float64, n+1)
	started := 0.0
	for k, c := range b.master.cuts {
		w := b.master.weight(k)
		if w <= 1e-9 {
			continue
		}
		for i, s := range c.layout {
			if b.part(i) != c.part {
				continue
			}
			p, _ := in.Lay(i, s)
			if p.Single > 0 {
				continue
			}
			started += float64(w * float64(p.Field+1))
			starters[b.steps(s)] += w
			rooms[b.steps(in.Plank-in.Kerf-p.Ender)] += w
		}
	}
	score := 0.02
	try := func(f proof.Split, mean, weight float64) {
		low := math.Floor(mean)
		if s := weight * min(mean-low, low+1-mean); s > score {
			score = s
			f.Value = int(low)
			best, lower = &f, mean-low < 0.5
		}
	}
	try(proof.Split{Of: proof.OfStarted}, started, 2)
	s, r := 0.0, 0.0
	for t, x := range b.thresholds[:n-1] {
		s, r = s+starters[t], r+rooms[t]
		if b.center[t] < 0.01 && b.optimum[t] < 0.01 {
			continue
		}
		try(proof.Split{Of: proof.OfDeficit, Below: x}, r-s, 1)
		try(proof.Split{Of: proof.OfStarters, Below: x}, s, 1)
		try(proof.Split{Of: proof.OfEnders, Below: x}, r, 1)
	}
	return best, lower
}

// steps returns how many thresholds are at most x.
func (b *Bound) steps(x measure.Length) int {
	in := b.table.Instance
	switch {
	case x >= in.Plank:
		return len(b.thresholds)
	case x <= 0:
		return 0
	}
	return int(x / in.Grid)
}

// chooseRun halves the mixture best: by starters of a run, else by places. Of equal halves it takes that with the wider
// gap between the sides.
func (b *Bound) chooseRun() (best *proof.Split, low bool) {
	in := b.table.Instance
	type share struct {
		at     measure.Length
		weight float64
	}
	score := 0.0
	var shares []share
	try := func(of proof.Figure, run int) {
		slices.SortFunc(shares, func(x, y share) int { return int(x.at - y.at) })
		below := 0.0
		for k := range len(shares) - 1 {
			below += shares[k].weight
			lo, hi := shares[k].at, shares[k+1].at
			if lo == hi {
				continue
			}
			s := min(below, 1-below) + 0.2*float64(hi-lo)/float64(in.Plank)
			if below > 1e-6 && below < 1-1e-6 && s > score {
				at := (lo + hi) / 2
				if lo == 0 && of == proof.OfStarter {
					at = 0
				}
				score, low = s, below > 0.5
				best = &proof.Split{Of: of, Run: run, Value: int(at)}
			}
		}
	}
	for i := range b.layout {
		shares = shares[:0]
		for k, c := range b.master.cuts {
			if w := b.master.weight(k); w > 1e-9 && c.part == b.part(i) {
				shares = append(shares, share{c.layout[i], w})
			}
		}
		try(proof.OfStarter, i)
	}
	if best != nil {
		return best, low
	}
	for i := range b.layout {
		shares = shares[:0]
		for k, c := range b.master.cuts {
			if w := b.master.weight(k); w > 1e-9 && c.part == b.part(i) && c.places != nil && c.layout[i] == 0 {
				shares = append(shares, share{c.places[i], w})
			}
		}
		try(proof.OfPlace, i)
	}
	return best, low
}

// chooseTie splits so that a run of a tie left out, broken by the layout passed last, keeps only its starter, from
// which the other run's domain follows.
func (b *Bound) chooseTie() (split *proof.Split, low bool) {
	in := b.table.Instance
	layout := b.heaviest()
	joints := func(i int) int {
		p, _ := in.Lay(i, layout[i])
		return p.Joints()
	}
	for _, t := range b.eval.dropped {
		x, y := t[0], t[1]
		if !in.Clash(in.Runs[x].From+layout[x], joints(x), in.Runs[y].From+layout[y], joints(y)) {
			continue
		}
		for _, i := range t {
			parts := b.domain(i).parts
			s := layout[i]
			if len(parts) == 0 {
				continue
			}
			if b.domain(i).single || parts[0].Lo < s {
				return &proof.Split{Of: proof.OfStarter, Run: i, Value: int(s - 1)}, false
			}
			if parts[len(parts)-1].Hi > s {
				return &proof.Split{Of: proof.OfStarter, Run: i, Value: int(s)}, true
			}
		}
	}
	return nil, false
}
