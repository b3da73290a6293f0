package quality

import "plank.example/cutopt/measure"

// thin counts the pieces of run i with a strip that nobody could hold. It takes the time to clip its pieces.
func (s *search) thin(i int, starter measure.Length) int {
	if s.p.Thin == nil {
		return 0
	}
	return s.p.Thin(i, starter)
}

// thicken moves joints that lie so near to a corner that a strip beside them could not be held, where that takes no
// more planks than may be used, to where fewer pieces of the run have one.
func (s *search) thicken() {
	if s.p.Fixed || s.p.Thin == nil {
		return
	}
	for i := range s.start {
		for thin := s.thin(i, s.start[i]); thin > 0 && s.mayMove(i); thin = s.thin(i, s.start[i]) {
			if !s.settle(i, s.near(i), nil, func(x measure.Length) bool { return s.thin(i, x) < thin }) {
				break
			}
		}
	}
}

// near lists all starters of run i but the one it has, the nearest first.
func (s *search) near(i int) (out []measure.Length) {
	x := s.start[i]
	for away := s.step; away < s.in.Plank; away += s.step {
		out = append(out, x-away, x+away)
	}
	return out
}
