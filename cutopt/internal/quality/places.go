package quality

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A place is a starter that a run may have, and the figures of the floor with it.
type place struct {
	starter measure.Length
	values  values
}

// mostPassed is the most runs that are looked at while partners are passed on: a fraction of a second.
const mostPassed = 20_000_000

// tidy ends the work on aims: what follows moves joints for other reasons, with all planks that may be used, and pairs
// are kept.
func (s *search) tidy() {
	s.pairUp()
	s.limit, s.passes = s.set.Cap, mostPassed/max(len(s.pieces), 1)
	s.values[cutopt.AimPlanks] = s.planks()
	if s.threshold == 0 { // the stagger is no aim, or was not come to
		s.aimAt(min(s.leastStagger(), s.p.Prefer))
	}
}

// settle lays run i with one of the starters given, of those that serve the first that costs nothing, or else the one
// that costs least, and reports whether there is one. Figures are compared in the order of the aims; then come the
// planks and what is no aim, which nobody asks to be better, nor wants to be worse for no reason. Of the figures of
// never, none gets worse before another gets better. What serves is asked last, and only of starters that may be.
func (s *search) settle(
	i int, starters []measure.Length, never []cutopt.Aim, serves func(starter measure.Length) bool,
) bool {
	now := s.values
	var dear []place
	for _, x := range starters {
		if s.halt() {
			return false
		}
		if !s.shift(i, x) {
			continue
		}
		at := place{x, s.values}
		for _, a := range s.wishes[len(s.set.Order):] {
			at.values[a] = max(at.values[a], now[a])
		}
		switch {
		case compare(never, &s.values, &now) > 0:
		case compare(s.wishes, &at.values, &now) > 0:
			dear = append(dear, at)
		case serves(x):
			return true
		}
		s.undo()
	}
	slices.SortStableFunc(dear, func(a, b place) int { return compare(s.wishes, &a.values, &b.values) })
	for k := 0; k < len(dear) && !s.halt(); k++ {
		if x := dear[k].starter; serves(x) {
			return s.shift(i, x)
		}
	}
	return false
}

// shift lays run i with another starter, in a step of its own, and reports whether that may be; else all stays.
func (s *search) shift(i int, x measure.Length) bool {
	s.begin()
	return x <= s.in.Plank && s.lay(i, x, 0) && s.fit()
}

// fit ends a step that moved joints: it finds partners for what is without, so that no plank more is opened if that can
// be, and reports whether there are planks enough; else it takes the step back.
func (s *search) fit() bool {
	s.steps++
	s.mend()
	for s.planks() > s.snapshot[cutopt.AimPlanks] && s.passOn() {
	}
	if s.values[cutopt.AimPlanks] = s.planks(); s.planks() > s.limit {
		s.undo()
		return false
	}
	return true
}
