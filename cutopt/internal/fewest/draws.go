package fewest

import (
	"math/rand/v2"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/internal/walk"
	"plank.example/cutopt/proof"
)

// Points of a table of counts: few are made before the first walks, many only where those leave something open. What the
// verifier of a certificate takes is more than either.
const fewPoints, manyPoints = 100_000, 4_000_000

// count makes the table of counts, where it has at most so many points, and takes its number of planks as a bound. It
// reports whether the target has changed.
func (s *solver) count(most int) bool {
	if s.settled() || s.halt() || s.counts != nil {
		return false
	}
	before := s.target()
	if s.counts = counts.New(s.table, most); s.counts == nil {
		return false
	}
	if n := s.counts.Planks(); n > s.bound() {
		s.tree, s.proven = &proof.Node{Counts: true}, n
		s.report("counts")
	}
	return s.target() != before
}

// draws are draws of walks over planks without stagger, their starters handed to runs so that no stagger breaks, and each
// try's best a walk of the search on the grid where some still do.
func (s *solver) draws(target, round int) []try {
	const each, exchanges = 25, 200
	if s.counts == nil {
		return nil
	}
	in := s.table.Instance
	var out []try
	for k := range 4 << round {
		out = append(out, func(stop func() bool) (f found) {
			seed := s.Seed*1_000_003 + uint64(round<<16+k)
			rng := rand.New(rand.NewPCG(seed, 13))
			least, best := -1, found{}
			for range each {
				lots, ok := s.counts.Draw(target, rng)
				if !ok || stop() {
					return f
				}
				layout, packing, broken := walk.Fit(s.table, s.counts.Kinds, lots, exchanges, rng)
				f.steps += int64(len(layout))
				if least < 0 || broken < least {
					least, best.layout, best.packing = broken, layout, packing
				}
				if broken == 0 && in.Count(layout, packing) <= target && in.Check(layout) == nil {
					f.layout, f.packing = layout, packing
					return f
				}
			}
			g := s.walk(search.Lattice(s.table, in.Grid), best.layout, best.packing, target, 20_000<<round, seed, stop)
			g.steps += f.steps
			return g
		})
	}
	return out
}
