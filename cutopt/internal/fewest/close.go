package fewest

import (
	"slices"
	"sync/atomic"

	"plank.example/cutopt/internal/pool"
	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// huge is the number of runs from which memory and time allow only the coarse steps of prices and starters.
const huge = 5_000

// close brings layout and bound together. Each round tries, until one of them settles the matter: a few walks drawn
// without stagger; on floors of many runs, the order of walks drawn from rings and chains annealed; walks from the best
// layout towards the largest number of planks that is as good as the bound; where runs are many and mostly alike, walks
// towards numbers in between and short annealings of the order of the best layout's walk, which seldom succeed from one
// laid anew; stretches of this laid anew; other draws annealed; more paths for the bound, with finer steps of the
// prices, which take less than long annealings that cannot succeed; then the order of the best layout's walk annealed
// at length, and more draws mended; walks towards fewer planks than the best; where little is left between them, on
// floors of many runs in the first rounds only, dives of the bound, each ending in walks with the runs it holds held;
// and a branching proof that the target cannot be reached.
func (s *solver) close() {
	const little = 2 // planks
	if s.budget.Rounds == 0 {
		for s.attempt(s.target(), s.walks(s.target(), 0)) || s.budget.Between && s.descend(0) {
		}
		return
	}
	for round := range s.budget.Rounds {
		for s.drawFirst(round) ||
			s.cycled && s.attempt(s.target(), s.annealDraws(s.target(), round)) ||
			s.attempt(s.target(), s.walks(s.target(), round)) ||
			s.approach(round) || s.attempt(s.target(), s.annealBands(s.target(), round)) ||
			s.renew(round, fewRenewals) ||
			!s.cycled && s.attempt(s.target(), s.annealDraws(s.target(), round)) ||
			s.sharpen(round) || s.attempt(s.target(), s.annealBest(s.target(), round)) ||
			s.attempt(s.target(), s.draws(s.target(), round, s.mendDose(round))) ||
			s.descend(round) ||
			s.renew(round, manyRenewals) ||
			s.count(manyPoints) || s.attempt(s.target(), s.draws(s.target(), round, heavyDose(round))) ||
			s.out.Planks-s.target() <= little && s.attempt(s.target(), s.dives(s.target(), round)) {
			if s.over() {
				return
			}
		}
		if s.over() {
			return
		}
		if s.refute(int64(s.budget.Branch) << round); s.over() {
			return
		}
	}
}

// over reports whether the work is at an end.
func (s *solver) over() bool { return s.settled() || s.halt() || s.stalled() }

// descend walks towards numbers of planks above the target and below the best, and reports whether it reached one.
func (s *solver) descend(round int) bool {
	for t := s.target() + 1; t < s.out.Planks && !s.over(); t++ {
		if s.attempt(t, s.walks(t, round)) {
			return true
		}
	}
	return false
}

// sharpen raises the bound, the first time with ever finer steps: prices that are good to a few hundredths of a plank
// are what dives need. What is still missing after so much work waits for the next round, since nearly as good prices
// do for dives. It reports whether the target has changed.
func (s *solver) sharpen(round int) bool {
	if s.over() || len(s.table.Instance.Runs) > huge {
		return false
	}
	before := s.target()
	paths := min(max(20_000/len(s.table.Instance.Runs), 150), 2_500) // few runs have short ones
	end := s.work() + sharpening(len(s.table.Instance.Runs))<<round
	for !s.over() && s.work() < end && s.root.Refine() {
		s.raise(paths, end)
	}
	if round > 0 {
		s.raise(paths<<round, end)
	}
	return s.target() != before
}

// sharpening is the steps of sharpening in the first round; few runs have slow prices and little else that closes them.
func sharpening(runs int) int64 { return int64(max(900_000, 36_000_000/runs)) }

// target is the largest number of planks that is as good as the bound.
func (s *solver) target() int {
	t := s.bound()
	for t+1 < s.out.Planks && s.enough(t+1) {
		t++
	}
	return t
}

// a try is one independent piece of search; it returns what it found and the steps it took.
type try func(stop func() bool) found

type found struct {
	layout  rows.Layout // nil for nothing
	packing rows.Packing
	steps   int64
	// A walk that does not reach the target still leaves where it ended, which may be better than where it began.
	end        rows.Layout
	endPacking rows.Packing
}

// attempt runs the tries and takes the first of them in order that succeeds, or where none does the best that walks
// ended at, so the result does not depend on the number of workers: a try is stopped only when one before it has
// succeeded. It reports whether a try succeeded with a better layout.
func (s *solver) attempt(target int, tries []try) bool {
	if s.over() || target >= s.out.Planks {
		return false
	}
	ends := make([]found, len(tries))
	var first atomic.Int64
	first.Store(int64(len(tries)))
	pool.Each(len(tries), s.Workers, func(k int) {
		stop := func() bool { return first.Load() < int64(k) || s.halt() }
		if stop() {
			return
		}
		ends[k] = tries[k](stop)
		if ends[k].layout != nil {
			for f := first.Load(); f > int64(k) && !first.CompareAndSwap(f, int64(k)); f = first.Load() {
			}
		}
	})
	best := int(first.Load())
	for k := range min(best+1, len(tries)) {
		s.out.Steps += ends[k].steps
	}
	before := s.out.Planks
	if best < len(tries) {
		s.consider(ends[best].layout, ends[best].packing)
	} else {
		for _, f := range ends {
			if f.end != nil && s.table.Instance.Check(f.end) == nil {
				s.consider(f.end, f.endPacking)
			}
		}
	}
	s.report("search")
	return best < len(tries) && s.out.Planks < before
}

// walks are annealed walks over several domains: from the best layout all starters on a coarse lattice and on the grid,
// and from a cheap layout of the bound starters near the best prices, which narrow the walk to what cheap layouts use.
func (s *solver) walks(target, round int) []try {
	in := s.table.Instance
	steps := max(s.budget.Walk, s.budget.PerRun*len(in.Runs)) << round
	domains := []making{s.coarse}
	if len(in.Runs) <= huge {
		domains = append(append(domains, s.fine), s.near()...)
	}
	var out []try
	for k, domain := range domains {
		start, packing := s.out.Layout, s.out.Packing
		if k == 2 && round%2 == 0 && s.cheap != nil {
			start, packing = s.cheap, nil
		}
		out = append(out, func(stop func() bool) found {
			return s.walk(domain(), start, packing, target, steps, uint64(round*16+k), stop)
		})
	}
	return out
}

func (s *solver) walk(
	domain *search.Domain,
	start rows.Layout,
	packing rows.Packing,
	target, steps int,
	seed uint64,
	stop func() bool,
) found {
	a := search.Attempt{
		Domain: domain, Start: start, Packing: packing, Target: target, Steps: steps,
		Seed: s.Seed*1_000_003 + seed, Stop: stop,
	}
	layout, packing, n, ok := a.Run()
	if !ok {
		return found{steps: int64(n), end: layout, endPacking: packing}
	}
	return found{layout: layout, packing: packing, steps: int64(n)}
}

// dives are dives of the bound, each walking a little from every fourth level with the runs held so far held.
func (s *solver) dives(target, round int) []try {
	const steps, every = 20_000, 4
	in := s.table.Instance
	paths := min(1_500/len(in.Runs)+1, 100) // at each level
	if len(in.Runs) > 300 || s.budget.Dive == 0 || round > 1 && len(in.Runs) >= fewestMended {
		return nil
	}
	lattice := search.Lattice(s.table, s.lattice(192))
	var out []try
	share := s.left() / 6 // what all may spend together, if each takes half of what it may
	most := min(int64(s.budget.Dive), share)
	n := min(2<<round, max(400/len(in.Runs), 2)*s.budget.Dives, max(int(2*share/max(most, 1)), 1))
	for k := range n {
		out = append(out, func(stop func() bool) (f found) {
			seed := s.Seed*1_000_003 + uint64(round<<16+k)
			depth := 0
			visit := func(l rows.Layout, p rows.Packing) bool {
				switch {
				case in.Check(l) != nil:
				case in.CountBestFit(l) <= target:
					f.layout = slices.Clone(l)
				case p != nil && in.Count(l, p) <= target:
					f.layout, f.packing = slices.Clone(l), slices.Clone(p)
				}
				return f.layout != nil || stop()
			}
			work := s.root.Dive(target, paths, most, seed, visit, func(fixed, last rows.Layout) bool {
				if depth++; depth%every != 0 {
					return false
				}
				domain := slices.Clone(lattice)
				for i, x := range fixed {
					if x >= 0 {
						domain[i] = []measure.Length{x}
					}
				}
				g := s.walk(search.NewDomain(s.table, domain), last, nil, target, steps, seed, stop)
				g.steps += f.steps
				f = g
				return f.layout != nil
			})
			f.steps += work
			return f
		})
	}
	return out
}

// refute tries to prove by branching that the target cannot be reached, within about the given work, and takes the
// proof for the proven bound; on the way it may find a layout that does reach it. A proof begun is grown on in the next
// round.
func (s *solver) refute(steps int64) {
	const paths = 60 // at each node
	end := s.work() + steps
	for !s.over() {
		target := s.target()
		if s.growing == nil || s.growing.Target != target {
			s.growing = s.root.Refute(target)
		}
		complete := false
		for !complete && s.work() < end && !s.growing.Stuck() && !s.over() {
			var used int
			used, complete = s.growing.Grow(1, paths, func(l rows.Layout, p rows.Packing) bool {
				s.try(l, p)
				return s.out.Planks <= target || s.halt()
			})
			s.out.Paths += used
		}
		if !complete {
			return
		}
		s.tree, s.proven = s.growing.Proof(), target+1
		s.progressed()
		s.report("branch")
	}
}

// try considers a layout of the bound that keeps the rules, cut up by the packing or as it comes.
func (s *solver) try(l rows.Layout, p rows.Packing) {
	if s.table.Instance.Check(l) != nil {
		return
	}
	s.consider(l, nil)
	if p != nil {
		s.consider(l, p)
	}
	s.cheap = append(s.cheap[:0], l...)
}
