package quality

import (
	"math/rand/v2"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A search improves a state, one aim after the other.
type search struct {
	*state
	set     *Settings
	wishes  []cutopt.Aim // those of set.Order, then the planks and what is no aim
	looks   []cutopt.Aim // of set.Order, those before the stagger in DefaultAims: what joints look like
	rng     *rand.PCG
	movable []int // runs whose starter may move
	same    [][]int
	targets []int // runs to move, for the aim at hand
	strict  int   // of set, for the aim at hand
	steps   int64
	passes  int // how often partners may still be passed on
	halted  bool
}

func newSearch(p *Problem, layout rows.Layout, cutting *rows.Cutting, set *Settings) *search {
	s := &search{state: newState(p, layout, cutting, set.Cap), set: set, rng: rand.NewPCG(set.Seed, uint64(len(layout)))}
	for _, a := range set.Order {
		if a < cutopt.AimStagger {
			s.looks = append(s.looks, a)
		}
	}
	s.wishes = slices.Clone(set.Order)
	for _, a := range append([]cutopt.Aim{cutopt.AimPlanks}, cutopt.DefaultAims()...) {
		if !slices.Contains(s.wishes, a) {
			s.wishes = append(s.wishes, a)
		}
	}
	s.same = make([][]int, len(s.table.Classes))
	for i := range layout {
		if !p.Fixed && s.web.at[i].n > 0 && len(s.guests[i]) == 0 {
			s.movable = append(s.movable, i)
			c := s.table.ClassOf[i]
			s.same[c] = append(s.same[c], i)
		}
	}
	return s
}

func (s *search) pick(n int) int { return int((s.rng.Uint64() >> 32) * uint64(n) >> 32) }

// stage improves the aim at place k of the order. Where it gains nothing the floor stays as it was, since steps on the
// level may have cost aims that come later.
func (s *search) stage(k int) {
	aim := s.set.Order[k]
	if aim == cutopt.AimStagger {
		s.raise(k)
		return
	}
	if aim == cutopt.AimCrosscuts || aim == cutopt.AimOffcuts || aim == cutopt.AimWaiting {
		s.pairUp()
	}
	s.values[cutopt.AimPlanks] = s.planks()
	was, before := s.values[aim], s.remember()
	s.spend(k)
	if s.values[aim] >= was {
		s.restore(before)
	}
}

// spend improves the aim at place k first without more planks than are used already, then with all that may be, if
// these are more.
func (s *search) spend(k int) {
	s.limit = s.planks()
	s.improve(k)
	if s.limit < s.set.Cap || s.set.Order[k] < cutopt.AimStagger { // faults that an eye sees are worth a second look
		s.limit = s.set.Cap
		s.improve(k)
	}
}

// raise looks for the largest least stagger, up to the preferred one, by halving.
func (s *search) raise(k int) {
	const halvings = 5
	low := s.leastStagger()
	high := min(s.p.Prefer, s.in.Plank/2)
	for try := 0; low < high && try <= halvings && !s.halted; try++ {
		goal := high
		if try > 0 {
			goal = (low + high) / 2
		}
		before := s.remember()
		s.aimAt(goal)
		if s.spend(k); s.values[cutopt.AimStagger] == 0 {
			low = s.leastStagger()
			continue
		}
		high = goal
		s.restore(before)
	}
	s.aimAt(min(low, s.p.Prefer))
}

// A memory is a floor to go back to.
type memory struct {
	pieces    []rows.Pieces
	headOf    []int // where pairs are kept
	moved     bool
	threshold measure.Length
}

func (s *search) remember() memory {
	m := memory{pieces: slices.Clone(s.pieces), moved: s.moved, threshold: s.threshold}
	if s.paired {
		m.headOf = slices.Clone(s.headOf)
	}
	return m
}

// restore goes back to a floor.
func (s *search) restore(m memory) {
	s.begin()
	for e, h := range m.headOf {
		if s.headOf[e] != h {
			s.pair(e, -1)
		}
	}
	for i, p := range m.pieces {
		if s.pieces[i] != p {
			s.state.set(i, p, 0)
		}
	}
	for e, h := range m.headOf {
		s.pair(e, h)
	}
	s.moved = m.moved
	s.aimAt(m.threshold)
}

// patience is how many steps for each run without a gain end a stage: more for what is seen for years than for what is
// sawn and carried once.
func patience(aim cutopt.Aim) int {
	if aim < cutopt.AimCrosscuts {
		return 200
	}
	return 100
}

// improve makes steps until the aim at place k is reached, nothing was gained for a while, or the steps are spent.
func (s *search) improve(k int) {
	aim := s.set.Order[k]
	budget := min(s.set.Budget.PerRun*max(len(s.pieces), 8), s.set.Budget.AtMost)
	s.values[cutopt.AimPlanks] = s.planks()
	s.strict = 0
	for n, a := range []cutopt.Aim{cutopt.AimHJoints, cutopt.AimChains} {
		if k < n || s.set.Order[n] != a {
			break
		}
		s.strict++
	}
	last, listed, same := 0, 0, false
	for step := range budget {
		if s.values[aim] <= ideal(aim) || s.halted {
			return
		}
		if step >= listed {
			if !same {
				s.aimFor(aim)
				same = true
			}
			if len(s.targets) == 0 {
				return
			}
			listed = step + 4*len(s.targets)
		}
		if step-last > max(patience(aim)*len(s.targets), 400) {
			return
		}
		if s.steps++; s.steps%1024 == 0 && s.halt() {
			return
		}
		gained, changed := s.try(k, aim)
		if gained {
			last = step
		}
		same = same && !changed
	}
}

// halt asks Stop, and remembers its answer.
func (s *search) halt() bool {
	s.halted = s.halted || s.set.Stop != nil && s.set.Stop()
	return s.halted
}

// ideal is the value of an aim that is not worth bettering: one offcut is in hand, not in the way.
func ideal(a cutopt.Aim) int {
	if a == cutopt.AimOffcuts {
		return 1
	}
	return 0
}

// aimFor lists the runs that an aim is to be served by: those that are part of what it counts.
func (s *search) aimFor(aim cutopt.Aim) {
	s.targets = s.targets[:0]
	if aim >= cutopt.AimCrosscuts && aim != cutopt.AimFigures {
		for i := range s.pieces {
			s.targets = append(s.targets, i)
		}
		return
	}
	if aim == cutopt.AimChains {
		in := s.web.inChains()
		for _, i := range s.movable {
			if in[i] {
				s.targets = append(s.targets, i)
			}
		}
		return
	}
	for _, i := range s.movable {
		if s.serves(i, aim) {
			s.targets = append(s.targets, i)
		}
	}
}

// serves reports whether run i is part of what an aim about joints or figures counts.
func (s *search) serves(i int, aim cutopt.Aim) bool {
	own := &s.web.at[i]
	switch aim {
	case cutopt.AimHJoints:
		return s.web.inLines(i, own) > 0
	case cutopt.AimStagger:
		return s.web.short(i, own, s.threshold) > 0
	case cutopt.AimFigures:
		return s.odd(i) > 0
	}
	stairs, clusters := s.web.fours(i)
	return aim == cutopt.AimStaircases && stairs > 0 || aim == cutopt.AimClusters && clusters > 0
}

// try makes a step and takes it back if it breaks a rule or worsens what comes first. It reports whether it gained, and
// whether the floor is another.
func (s *search) try(k int, aim cutopt.Aim) (gained, changed bool) {
	top := 0
	if s.paired {
		top = s.piles.rows
	}
	s.begin()
	i := s.targets[s.pick(len(s.targets))]
	if s.paired {
		s.proposePaired(i, aim)
	} else {
		s.propose(i, aim)
	}
	if len(s.log) == 0 {
		return false, false
	}
	gain := s.gain(k, top)
	if gain > 0 {
		s.undo()
	}
	return gain < 0, gain <= 0
}

// gain compares the floor after a step with that before it: below 0 it is better, above 0 worse or not to be laid. top
// is how many rows had the most offcuts at their ends.
func (s *search) gain(k, top int) int {
	planks := s.planks()
	s.values[cutopt.AimPlanks] = planks
	gain := compare(s.set.Order[:k+1], &s.values, &s.snapshot)
	if gain == 0 && s.set.Order[k] == cutopt.AimOffcuts { // fewer rows at the peak lead to a lower one
		if gain = s.piles.rows - top; gain == 0 {
			gain = s.values[cutopt.AimWaiting] - s.snapshot[cutopt.AimWaiting]
		}
	}
	if planks > s.limit || gain == 0 && planks > s.snapshot[cutopt.AimPlanks] {
		return 1
	}
	return gain
}

// compare returns by how much the first aim of an order that differs is worse than before, below 0 where it is better;
// 0 where none differs.
func compare(order []cutopt.Aim, now, before *values) int {
	for _, a := range order {
		if by := max(now[a], ideal(a)) - max(before[a], ideal(a)); by != 0 {
			return by
		}
	}
	return 0
}
