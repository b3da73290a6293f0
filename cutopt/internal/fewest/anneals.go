package fewest

import (
	"math/rand/v2"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/walk"
)

// banded reports whether annealings heed bands: where a third of the runs or more are in some.
func (s *solver) banded() bool {
	return s.annealed() && 3*walk.Banded(s.table, s.out.Layout) >= len(s.table.Instance.Runs)
}

// approach walks towards numbers of planks between the target and the best before the first annealings of bands: from
// near the target those need few moves, from far off they seldom come to it. It reports whether it reached one.
func (s *solver) approach(round int) bool {
	return round == 0 && s.out.Planks > s.target()+1 && s.banded() && s.descend(0)
}

// A course is so many annealings, which cool as if they had so many moves and make at most so many.
type course struct{ tries, moves, most int }

// The courses of the first round. Floors with bands close early on in some annealings that cool slowly, or take many
// moves.
var (
	shortBanded = course{3, 3_000_000, 1_500_000}
	longBanded  = course{3, 6_000_000, 6_000_000}
	longOther   = course{2, 6_000_000, 6_000_000}
)

// annealBands are short annealings of floors with bands, in the first round.
func (s *solver) annealBands(target, round int) []try {
	if round > 0 || !s.banded() {
		return nil
	}
	return s.anneals(target, shortBanded, true, 0)
}

// annealBest are long annealings, in each round of twice the moves: those of floors with bands are twice as many.
func (s *solver) annealBest(target, round int) []try {
	if !s.annealed() {
		return nil
	}
	first := uint64(round << 16)
	if s.banded() {
		c := longBanded
		c.tries <<= round
		return s.anneals(target, c, true, first+1<<8)
	}
	c := longOther
	c.moves, c.most = c.moves<<round, c.most<<round
	return s.anneals(target, c, false, first)
}

// annealed reports whether the order of walks is annealed: for as many runs as are laid anew to mend staggers.
func (s *solver) annealed() bool {
	n := len(s.table.Instance.Runs)
	return n >= fewestMended && n <= mostRuns
}

// anneals are the annealings of a course, of the order of the best layout's walk, their draws numbered from first on;
// all together take at most half of the patience left, and are fewer where each would have less than half of its moves.
func (s *solver) anneals(target int, c course, bands bool, first uint64) []try {
	for c.tries > 1 && s.left()/int64(c.tries) < int64(c.most) {
		c.tries--
	}
	most := min(int64(c.most), s.left()/int64(2*c.tries))
	way := walk.Course{Moves: int(most) * (c.moves / c.most), Most: int(most), Bands: bands}
	start, packing := s.out.Layout, s.out.Packing
	var out []try
	for k := range c.tries {
		pcg := rand.NewPCG(s.Seed*1_000_003+first+uint64(k), 17)
		out = append(out, func(stop func() bool) (f found) {
			layout, packing, steps, ok := walk.Anneal(s.table, start, packing, target, way, pcg, stop)
			if f.steps = int64(steps); ok {
				f.layout, f.packing = layout, packing
			} else {
				f.end, f.endPacking = layout, packing
			}
			return f
		})
	}
	return out
}

// annealDraws are short annealings of walks drawn without stagger, each of one of its own, for as many runs as are laid
// anew to mend staggers: where few runs are in bands, one of several short ones often closes what a long one does not.
// Draws from rings and chains waste nothing, so with most runs in bands little is left to mend: floors of any size
// close by a few. Where draws are by beams these are wide, since few of them reach a target that wastes little. The
// annealings together take at most half of the patience left; draws an eighth, or up to half where they fail.
func (s *solver) annealDraws(target, round int) []try {
	const most, moves, width, redraws, exchanges = 12, 200_000, 160, 4, 200
	in := s.table.Instance
	n := len(in.Runs)
	large := n > renewedRuns && !(s.cycled && s.banded())
	if !s.drawable() || n < fewestMended || large || target >= s.out.Planks || s.over() {
		return nil
	}
	drawing := int64(n * 8)
	switch {
	case s.readyCycles():
		drawing = int64(n * 100)
	case !s.exact():
		drawing = int64(n * (8 + width*len(s.floor.Kinds)/4))
	}
	tries := min(most, s.left()/(8*drawing))
	if tries == 0 {
		return nil
	}
	each := int(min(moves<<round, s.left()/(2*tries)))
	perDraw := s.share(8 * tries)
	way := walk.Course{Moves: each, Most: each, Bands: s.banded()}
	var out []try
	for k := range tries {
		seed := s.Seed*1_000_003 + uint64(round<<16) + uint64(k)
		out = append(out, func(stop func() bool) (f found) {
			if stop() {
				return f
			}
			rng := rand.New(rand.NewPCG(seed, 19))
			var lots []counts.Lot
			for n, ok := 0, false; !ok; n++ {
				if n == redraws || stop() {
					return f
				}
				var steps int
				lots, steps, ok = s.drawLots(target, width, perDraw, rng)
				f.steps += int64(steps)
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
