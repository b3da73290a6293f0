package fewest

import (
	"math/rand/v2"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/walk"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Points of a table of counts. Before the first walks it is made only where it is exact with few, or as a core; with
// many, which is what the verifier of a certificate takes, where those leave something open and it is exact then.
const corePoints, fewPoints, manyPoints = 200_000, 2_000_000, 12_000_000

// mostRuns is the most runs that walks over planks are drawn for: they take long, and what a plank more is matters
// less.
const mostRuns = 2_500

// count makes the table of counts, exact with at most so many points or else a core, and takes its number of planks as
// a bound where it is exact. It reports whether the target has changed.
func (s *solver) count(most int) bool {
	if s.over() || s.counted >= most {
		return false
	}
	before := s.target()
	s.counted = most
	switch {
	case s.floor == nil || s.exact() || len(s.table.Instance.Runs) > mostRuns:
		return false
	case counts.Fits(s.floor, most):
		s.counts = counts.New(s.floor, most)
	case s.cycled:
	case s.counts == nil:
		s.counts = counts.New(s.floor, corePoints)
	}
	if s.counts != nil {
		s.out.Steps += int64(s.counts.Size() / 12) // a point takes about a twelfth of a step
	}
	if !s.exact() {
		return false
	}
	if n := s.counts.Planks(); n > s.bound() {
		s.tree, s.proven = &proof.Node{Counts: true}, n
		s.progressed()
		s.report("counts")
	}
	return s.target() != before
}

// price raises the bound by the prices of kinds as far as they reach.
func (s *solver) price() {
	if s.floor == nil || s.over() {
		return
	}
	s.cycles = counts.NewCycles(s.floor)
	for !s.over() {
		before := s.bound()
		steps := s.cycles.Prices(before, s.halt)
		if steps == nil {
			return
		}
		if s.root.Offer(steps); s.bound() == before {
			return
		}
		s.progressed()
		s.report("prices")
	}
}

// exact reports whether there is an exact table of counts.
func (s *solver) exact() bool { return s.counts != nil && s.counts.Exact }

// readyCycles makes rings and chains of the cutting plane ready to be drawn from, where runs are of so few lengths that
// most of them are of use whole, and reports whether they are. The bound takes the prices that spreading starters ends
// with, finer ones where the program is hardly below the next plank.
func (s *solver) readyCycles() bool {
	const least = 4      // runs of a length
	const hardly = 0.005 // of a plank
	in := s.table.Instance
	n := len(in.Runs)
	if s.cycled || s.cycles == nil || len(in.Offcuts) > 0 || n > mostRuns || n < least*len(s.floor.Kinds) {
		return s.cycled
	}
	s.cycled = true
	most := s.share(8)
	s.out.Steps += int64(s.cycles.Settle(most, s.halt))
	for _, care := range []counts.Care{counts.Roughly, counts.Finely} {
		steps, prices := s.cycles.Spread(care, most, s.halt)
		s.out.Steps += int64(steps)
		before := s.bound()
		if prices != nil {
			s.root.Offer(prices)
		}
		if s.bound() > before {
			s.progressed()
			s.report("prices")
		}
		if s.over() || s.cycles.Most() < float64(s.target())-hardly {
			break
		}
	}
	return true
}

// drawable reports whether there is something to draw walks from.
func (s *solver) drawable() bool { return s.counts != nil || s.cycled }

// drawLots draws a walk without stagger: from rings and chains once they are ready, from an exact table of counts, or
// by a beam of the given width where lengths are many or offcuts on hand. It returns the steps done. From rings and
// chains these are not many more than most; tables and beams take what their size says.
func (s *solver) drawLots(target, width, most int, rng *rand.Rand) (lots []counts.Lot, steps int, ok bool) {
	n := len(s.table.Instance.Runs)
	switch {
	case s.cycled:
		return s.cycles.Draw(target, most, rng)
	case s.exact():
		lots, ok = s.counts.Draw(target, 0, rng)
		return lots, 8 * n, ok
	}
	lots, ok = s.counts.Draw(target, width, rng)
	return lots, n * (8 + width*len(s.floor.Kinds)/4), ok
}

// A dose is how much is drawn: so many tries of so many draws each, with beams of the given width where counts are too
// many for a table, then the given steps of a walk on the grid from the best of a try and, where that still breaks
// staggers, so many of laying it anew for each run, of renewedRuns at most, and all tries together at most a quarter
// of the patience left.
type dose struct{ tries, each, width, mend, anew int }

// fewestMended is the fewest runs whose walks are laid anew to mend staggers: what walks leave of fewer runs is for
// dives and branching.
const fewestMended = 60

// drawFirst makes the few draws that come before the first walks of a round, which they often make needless: from rings
// and chains, else from a table, which may raise the bound. It reports whether the target was reached or has changed.
func (s *solver) drawFirst(round int) bool {
	if s.over() {
		return false
	}
	before := s.target()
	if s.readyCycles() {
		light := dose{1, 12, 0, 10_000, 0}
		return s.target() != before || s.attempt(s.target(), s.draws(s.target(), round, light)) || s.count(fewPoints)
	}
	if s.count(fewPoints) {
		return true
	}
	light := dose{1, 8, 40, 0, 0}
	if s.exact() {
		light = dose{1, 25, 0, 10_000, 0}
	}
	return s.attempt(s.target(), s.draws(s.target(), round, light))
}

// mendDose is for floors of fewestMended runs and more with an exact table.
func (s *solver) mendDose(round int) dose {
	if s.exact() && len(s.table.Instance.Runs) >= fewestMended {
		return dose{4, 10, 0, 0, 8_000 << round}
	}
	return dose{}
}

func heavyDose(round int) dose { return dose{4 << round, 25, 100, 20_000 << round, 6_000 << round} }

// draws are draws of walks over planks without stagger, their starters handed to runs so that no stagger breaks, and
// each try's best mended where some still do. Draws of different rounds and doses differ.
func (s *solver) draws(target, round int, d dose) []try {
	if !s.drawable() {
		return nil
	}
	var out []try
	most := s.share(32 * max(int64(d.tries), 1))
	d.anew *= min(len(s.table.Instance.Runs), renewedRuns)
	if len(s.table.Instance.Runs) < fewestMended {
		d.anew = 0
	} else if d.tries > 0 {
		d.anew = int(min(int64(d.anew), s.left()/int64(4*d.tries)))
	}
	for k := range d.tries {
		seed := s.Seed*1_000_003 + uint64(round<<16+d.tries<<8+k)
		out = append(out, func(stop func() bool) found { return s.draw(target, d, most, seed, stop) })
	}
	return out
}

func (s *solver) draw(target int, d dose, most int, seed uint64, stop func() bool) (f found) {
	const exchanges, mostFailed, mostSteps = 200, 3, 600_000
	in := s.table.Instance
	rng := rand.New(rand.NewPCG(seed, 13))
	least, failed, best := -1, 0, found{}
	for n := 0; n < d.each && failed < mostFailed && f.steps < mostSteps; n++ {
		if stop() {
			return f
		}
		lots, steps, ok := s.drawLots(target, d.width, most, rng)
		f.steps += int64(steps)
		if !ok {
			failed++
			continue
		}
		layout, packing, broken := walk.Fit(s.table, s.floor.Kinds, lots, exchanges, rng)
		if least < 0 || broken < least {
			least, best.layout, best.packing = broken, layout, packing
		}
		if broken == 0 && in.Count(layout, packing) <= target && in.Check(layout) == nil {
			f.layout, f.packing = layout, packing
			return f
		}
	}
	if least < 0 {
		return f
	}
	if d.mend > 0 {
		g := s.walk(s.fine(), best.layout, best.packing, target, d.mend, seed, stop)
		if g.steps += f.steps; g.layout != nil {
			return g
		}
		f.steps = g.steps
	}
	if d.anew == 0 {
		return f
	}
	const narrow, wide = 6, 20
	width := narrow
	if seed%2 == 1 {
		width = wide
	}
	layout, packing, n, ok := walk.Mend(s.table, s.floor.Kinds, best.layout, best.packing, target,
		d.anew, width, rng, stop)
	if f.steps += int64(n); ok {
		f.layout, f.packing = layout, packing
	}
	return f
}

// Steps of renewals for each run in the first round, before and after the prices are sharpened, on floors of at most
// renewedRuns; larger ones get no more.
const fewRenewals, manyRenewals, renewedRuns = 2_500, 4_000, 250

// renew lays stretches of the best layout's walk anew, with wide beams and with narrow ones. A better layout is taken
// though it may not reach the target; else the next renewals go on from where these ended. It reports whether the
// target was reached.
func (s *solver) renew(round, steps int) bool {
	if s.over() || len(s.table.Instance.Runs) > mostRuns || len(s.table.Instance.Offcuts) > 0 {
		return false
	}
	target := s.target()
	steps *= min(len(s.table.Instance.Runs), renewedRuns)
	tries := make([]try, len(s.renewed))
	most := int(min(int64(steps)<<round, s.left()/int64(len(tries)))) // none goes on when patience is at an end
	for k := range tries {
		width := [...]int{20, 6}[k]
		begin := s.renewed[k]
		if begin.end == nil || begin.planks > s.out.Planks {
			begin.end, begin.endPacking = s.out.Layout, s.out.Packing
		}
		seed := s.Seed*1_000_003 + uint64(round<<16+k)
		tries[k] = func(stop func() bool) (f found) {
			rng := rand.New(rand.NewPCG(seed, uint64(steps)))
			layout, packing, n, ok := walk.Renew(
				s.table, begin.end, begin.endPacking, target, most, width, rng, stop)
			if f.steps = int64(n); ok {
				f.layout, f.packing = layout, packing
			} else {
				f.end, f.endPacking = layout, packing
				s.renewed[k] = renewal{layout, packing, s.table.Instance.Count(layout, packing)}
			}
			return f
		}
	}
	if s.attempt(target, tries) {
		clear(s.renewed[:]) // how far the others got depends on the workers
		return true
	}
	return false
}

// A renewal is where laying a walk anew has ended.
type renewal struct {
	end        rows.Layout
	endPacking rows.Packing
	planks     int
}
