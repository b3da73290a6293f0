package bound

import (
	"math/rand/v2"

	"plank.example/cutopt/rows"
)

// Dive holds more and more runs at the starters that most of the master's mixture of layouts agrees on, improving the
// prices with at most the given number of paths after each, as long as the bound leaves room for target planks. It
// calls visit with every layout passed, and held with the starters held so far (-1 for a free run) and the layout
// passed last each time it went a level deeper; either may stop it by reporting true. Dives with different seeds
// differ. A Bound may be dived from in several goroutines at once. It ends when more than most steps of work are done,
// and returns how many were.
func (b *Bound) Dive(
	target, paths int,
	most int64,
	seed uint64,
	visit Visit,
	held func(fixed, last rows.Layout) bool,
) int64 {
	rng := rand.New(rand.NewPCG(seed, 11))
	eval := newEvaluator(b.table, seed)
	fixed := make(rows.Layout, len(b.layout))
	for i := range fixed {
		fixed[i] = -1
	}
	node := b
	stopped := false
	for {
		run := node.fix(fixed, rng)
		if run < 0 || eval.work > most {
			return eval.work
		}
		next := &Bound{
			table: b.table, eval: eval, thresholds: b.thresholds, stride: b.stride,
			constraints: b.constraints, domains: node.cloneDomains(), held: true, relief: b.relief,
			even: node.even, evens: node.evens, parts: node.parts,
		}
		if _, ok := eval.restrict(next.domains, run, node.domain(run).hold(fixed[run])); !ok || !next.start(node.center) {
			return eval.work
		}
		_, above := next.Raise(target, paths, func(l rows.Layout, p rows.Packing) bool {
			stopped = visit(l, p)
			return stopped
		})
		if above || stopped || held(fixed, next.layout) {
			return eval.work
		}
		node = next
	}
}

// fix adds to the starters held that of a free run with the greatest share of the node's mixture, blurred so that dives
// differ, and returns the run, or -1 when all are held.
func (b *Bound) fix(fixed rows.Layout, rng *rand.Rand) int {
	run, at, best := -1, rows.Layout{0}, -1.0
	for i := range fixed {
		if fixed[i] >= 0 {
			continue
		}
		for k, c := range b.master.cuts {
			if b.master.weight(k) <= 1e-9 || c.part != b.part(i) {
				continue
			}
			share := 0.0
			for j, d := range b.master.cuts {
				if d.part == c.part && d.layout[i] == c.layout[i] {
					share += max(b.master.weight(j), 0)
				}
			}
			if share *= 0.5 + float64(rng.Float64()); share > best {
				run, at[0], best = i, c.layout[i], share
			}
		}
	}
	if run >= 0 {
		fixed[run] = at[0]
	}
	return run
}
