package fewest

import (
	"math/rand/v2"

	"plank.example/cutopt/internal/walk"
)

// fresh are short annealings of walks drawn without stagger, each of one of its own, for as many runs as are laid anew
// to mend staggers: an annealing leaves runs in one piece where it finds them, and of the places that draws give them
// some keep the stagger at once and some never. Beams are wide, since few draws reach a target that wastes little. All
// together take at most a quarter of the patience left, and the beams half of that.
func (s *solver) fresh(target, round int) []try {
	const most, moves, width, exchanges = 12, 200_000, 160, 200
	in := s.table.Instance
	n := len(in.Runs)
	if s.counts == nil || n < fewestMended || n > renewedRuns {
		return nil
	}
	wide := 0
	if !s.exact() {
		wide = width
	}
	drawing := int64(n * (8 + wide*len(s.floor.Kinds)/4))
	tries := min(most, s.left()/(8*drawing))
	if tries == 0 {
		return nil
	}
	each := int(min(moves<<round, s.left()/(8*tries)))
	way := walk.Course{Moves: each, Most: each}
	var out []try
	for k := range tries {
		seed := s.Seed*1_000_003 + uint64(round<<16) + uint64(k)
		out = append(out, func(stop func() bool) (f found) {
			if stop() {
				return f
			}
			rng := rand.New(rand.NewPCG(seed, 19))
			f.steps = drawing
			lots, ok := s.counts.Draw(target, wide, rng)
			if !ok {
				return f
			}
			layout, packing, _ := walk.Fit(s.table, s.floor.Kinds, lots, exchanges, rng)
			pcg := rand.NewPCG(seed, 23)
			layout, packing, done, ok := walk.Anneal(s.table, layout, packing, target, way, pcg, stop)
			if f.steps += int64(done); ok {
				f.layout, f.packing = layout, packing
			}
			return f
		})
	}
	return out
}
