package quality

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// propose moves run i, or one beside it, before pairs are kept: it exchanges starters with a run of the same length,
// which leaves the planks as they are, or where these are equal slides the run together with one; moves the starter a
// little; or takes any.
func (s *search) propose(i int, aim cutopt.Aim) {
	if near := s.web.beside[i]; len(near) > 0 && s.pick(4) == 0 {
		if j := int(near[s.pick(len(near))]); s.mayMove(j) {
			i = j
		}
	}
	if !s.mayMove(i) {
		return
	}
	if s.pick(2) == 0 {
		if of := s.same[s.table.ClassOf[i]]; len(of) > 1 {
			j := of[s.pick(len(of))]
			if s.start[i] == s.start[j] {
				s.slide(i, of[s.pick(len(of))])
			} else {
				s.layBoth(i, s.start[j], j, s.start[i])
			}
			return
		}
	}
	s.move(i, s.anyStarter(i))
}

// mayMove reports whether the starter of run i may move.
func (s *search) mayMove(i int) bool {
	return !s.p.Fixed && s.web.at[i].n > 0 && len(s.guests[i]) == 0
}

// slide moves the starters of two runs by as much, within a plank: where the ender of each shares a plank with the
// starter of the other, and no plank has anything to spare, neither can move alone.
func (s *search) slide(i, j int) {
	x := s.anyStarter(i)
	if i == j || x <= 0 || x == s.start[i] {
		return
	}
	y := s.start[j] + x - s.start[i]
	if y <= 0 {
		y += s.in.Plank
	} else if y > s.in.Plank {
		y -= s.in.Plank
	}
	s.layBoth(i, x, j, s.onStep(y))
}

// layBoth lays two runs with other starters if they then clash with nothing.
func (s *search) layBoth(i int, x measure.Length, j int, y measure.Length) {
	p, ok := s.in.Lay(i, x)
	q, fine := s.in.Lay(j, y)
	if !ok || !fine {
		return
	}
	w := s.web
	was, other := w.at[i], w.at[j]
	w.at[i], w.at[j] = w.comb(i, &p), w.comb(j, &q)
	ok = !w.clashes(i, &w.at[i]) && !w.clashes(j, &w.at[j])
	if w.at[i], w.at[j] = was, other; ok {
		s.state.set(i, p, 0)
		s.state.set(j, q, 0)
	}
}

// free returns the pieces of run i laid with a starter, if they clash with nothing.
func (s *search) free(i int, x measure.Length) (rows.Pieces, bool) {
	p, ok := s.in.Lay(i, x)
	if !ok {
		return p, false
	}
	own := s.web.comb(i, &p)
	return p, !s.web.clashes(i, &own)
}

// move lays run i with another starter if that clashes with nothing and does not worsen what comes first.
func (s *search) move(i int, x measure.Length) bool { return s.lay(i, x, s.strict) }

// lay lays run i with another starter if that clashes with nothing, as strictly as set is told to be.
func (s *search) lay(i int, x measure.Length, strict int) bool {
	if x <= 0 || x == s.start[i] {
		return false
	}
	p, ok := s.free(i, x)
	return ok && s.state.set(i, p, strict)
}

// anyStarter draws a starter of run i: near the one it has, whole, or any, half of them rounded to a round figure; 0
// where it hits none.
func (s *search) anyStarter(i int) measure.Length {
	segments := s.table.Of(i).Segments
	x := s.start[i]
	switch s.pick(8) {
	case 0:
		return s.in.Plank
	case 1, 2, 3:
		x = x/s.step*s.step + s.step*measure.Length(s.pick(33)-16)
	default:
		seg := segments[s.pick(len(segments))]
		x = seg.Lo + s.step*measure.Length(s.pick(int((seg.Hi-seg.Lo)/s.step)+1))
	}
	if r := s.p.Round; r > 0 && s.pick(2) == 0 {
		x = (x + r/2) / r * r
	}
	return s.onStep(x)
}

// onStep brings a starter to a multiple of the step, or leaves a whole plank.
func (s *search) onStep(x measure.Length) measure.Length {
	if x >= s.in.Plank {
		return s.in.Plank
	}
	return x / s.step * s.step
}
