package fewest

import (
	"math"

	"plank.example/cutopt/internal/bound"
)

// relieve goes on with a bound that frees the offcuts on hand which the best layout leaves over, where that is as good:
// prices alone subtract what such offcuts are worth, and no branching makes up for it.
func (s *solver) relieve() {
	in := s.table.Instance
	if s.over() || len(in.Offcuts) == 0 {
		return
	}
	relief := bound.LeftOver(in, s.out.Layout, s.out.Packing)
	if relief == (bound.Relief{}) {
		return
	}
	b, err := bound.NewRelieved(s.table, relief)
	if err != nil {
		return
	}
	before := s.root
	s.root = b
	s.out.Steps += before.Work()
	if s.raise(s.budget.Paths, math.MaxInt64); b.Planks() < before.Planks() {
		s.root = before
		s.out.Steps += b.Work() - before.Work()
	}
}
