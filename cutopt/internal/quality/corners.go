package quality

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// thin counts the pieces of run i with a strip that nobody could hold.
func (s *search) thin(i int, starter measure.Length) int {
	if s.p.Thin == nil {
		return 0
	}
	return s.p.Thin(i, starter)
}

// thicken moves joints that lie so near to a corner that a strip beside them could not be held, where that takes no
// more planks than may be used.
func (s *search) thicken() {
	if s.p.Fixed || s.p.Thin == nil {
		return
	}
	s.limit = s.set.Cap
	s.values[cutopt.AimPlanks] = s.planks()
	if s.threshold == 0 {
		s.aimAt(min(s.leastStagger(), s.p.Prefer))
	}
	for i := range s.start {
		for s.mayMove(i) && s.widen(i) {
		}
	}
}

// A place is a starter that a run may have, and the figures of the floor with it.
type place struct {
	starter measure.Length
	values  values
}

// widen lays run i where fewer of its pieces are thin, and reports whether there is such a place: the nearest that
// costs nothing, or else the one that costs least. To clip the pieces takes longest, so it comes last. Figures are
// compared in the order of the aims; then come the planks and what is no aim, which nobody asks to be better, nor wants
// to be worse for no reason.
func (s *search) widen(i int) bool {
	was, now := s.start[i], s.values
	thin := s.thin(i, was)
	if thin == 0 {
		return false
	}
	order, asked := slices.Clone(s.set.Order), len(s.set.Order)
	for _, a := range append([]cutopt.Aim{cutopt.AimPlanks}, cutopt.DefaultAims()...) {
		if !slices.Contains(order, a) {
			order = append(order, a)
		}
	}
	var dear []place
	for away := s.step; away < s.in.Plank && !s.halt(); away += s.step {
		for _, x := range [...]measure.Length{was - away, was + away} {
			if !s.shift(i, x) {
				continue
			}
			at := place{x, s.values}
			for _, a := range order[asked:] {
				at.values[a] = max(at.values[a], now[a])
			}
			if compare(order, &at.values, &now) > 0 {
				dear = append(dear, at)
			} else if s.thin(i, x) < thin {
				return true
			}
			s.undo()
		}
	}
	slices.SortStableFunc(dear, func(a, b place) int { return compare(order, &a.values, &b.values) })
	for k := 0; k < len(dear) && !s.halt(); k++ {
		if x := dear[k].starter; s.thin(i, x) < thin {
			return s.shift(i, x)
		}
	}
	return false
}

// shift lays run i with another starter, in a step of its own, and reports whether that may be; else all stays.
func (s *search) shift(i int, x measure.Length) bool {
	s.begin()
	planks := s.planks()
	if x > s.in.Plank || !s.lay(i, x, 0) {
		return false
	}
	s.steps++
	s.mend()
	for s.planks() > planks && s.passOn() {
	}
	if s.values[cutopt.AimPlanks] = s.planks(); s.planks() > s.limit {
		s.undo()
		return false
	}
	return true
}
