package quality

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// proposePaired makes a step while pairs are kept. For fewer cuts, whole starters; for round figures, the next ones;
// for offcuts, other partners: another head for an ender, two enders that exchange heads, a starter cut so that it goes
// with an ender laid shortly before, or a pair taken apart where planks are left.
func (s *search) proposePaired(i int, aim cutopt.Aim) {
	switch draw := s.pick(8); {
	case aim == cutopt.AimFigures:
		s.round(i)
	case aim < cutopt.AimCrosscuts || aim == cutopt.AimPlanks && draw < 4 || draw == 0:
		if s.mayMove(i) {
			s.move(i, s.anyStarter(i))
		}
	case aim == cutopt.AimCrosscuts && draw < 5:
		if s.mayMove(i) {
			s.move(i, s.in.Plank)
		}
	case draw < 4:
		s.exchange(i)
	case draw == 4 && aim != cutopt.AimPlanks:
		if s.isEnder(i) {
			s.pair(i, -1)
		}
		return
	default:
		s.goWith(i)
	}
	s.mend()
}

// round moves the starter of run i to the round figure below or above.
func (s *search) round(i int) {
	r := s.p.Round
	if r == 0 || !s.mayMove(i) {
		return
	}
	x := s.start[i] / r * r
	if s.pick(2) == 0 {
		x += r
	}
	if s.pick(4) == 0 {
		x += r * measure.Length(s.pick(9)-4)
	}
	s.move(i, s.onStep(x))
}

// exchange lets the enders of run i and of a run near it take each other's heads.
func (s *search) exchange(i int) {
	j := i + s.pick(33) - 16
	if j < 0 || j >= len(s.pieces) || j == i || !s.isEnder(i) || !s.isEnder(j) {
		return
	}
	x, y := s.headOf[i], s.headOf[j]
	if x == y || x >= 0 && !s.fits(j, x) || y >= 0 && !s.fits(i, y) {
		return
	}
	s.pair(i, -1)
	s.pair(j, -1)
	s.pair(i, y)
	s.pair(j, x)
}

// goWith pairs the ender of run i with the starter of a run laid soon after, or just before: if the two do not fit, one
// of them is moved until they do. The partners they leave are paired with each other where they fit.
func (s *search) goWith(i int) {
	h := i + s.pick(9) - 2
	if h < 0 || h >= len(s.pieces) || h == i || s.headOf[i] == h || !s.isEnder(i) || !s.isHead(h) {
		return
	}
	if !s.fits(i, h) || s.pick(4) == 0 {
		if s.pick(2) == 0 {
			if x := s.longest(h, s.room(i)); !s.mayMove(h) || x != s.start[h] && !s.move(h, x) {
				return
			}
		} else if x := s.leaving(i, s.used(h)); !s.mayMove(i) || x != s.start[i] && !s.move(i, x) {
			return
		}
		if !s.isEnder(i) || !s.isHead(h) || !s.fits(i, h) {
			return
		}
	}
	e, g := s.enderOf[h], s.headOf[i]
	if e == i {
		return
	}
	s.pair(i, -1)
	if e >= 0 {
		s.pair(e, -1)
	}
	s.pair(i, h)
	if e >= 0 && g >= 0 && s.enderOf[g] < 0 && s.fits(e, g) {
		s.pair(e, g)
	}
}

// longest returns the longest starter of run i up to most, 0 where there is none.
func (s *search) longest(i int, most measure.Length) measure.Length {
	segments := s.table.Of(i).Segments
	for k := len(segments) - 1; k >= 0; k-- {
		if x := s.onStep(min(segments[k].Hi, most)); x >= segments[k].Lo && x < s.in.Plank {
			return x
		}
	}
	return 0
}

// leaving returns a starter of run i with which its ender leaves the least room of at least least, 0 where there is
// none.
func (s *search) leaving(i int, least measure.Length) measure.Length {
	in := s.in
	for _, seg := range s.table.Of(i).Segments {
		// room = plank - kerf - (length - x - field*plank)
		x := least - in.Plank + in.Kerf + in.Runs[i].Length - measure.Length(seg.Field)*in.Plank
		x = max(x, seg.Lo)
		if x = (x + s.step - 1) / s.step * s.step; x <= seg.Hi {
			return x
		}
	}
	return 0
}

// mend finds partners near by for the enders and heads that lost theirs in this step.
func (s *search) mend() {
	for n := range len(s.log) {
		c := s.log[n]
		s.adopt(c.run)
		if !c.starter && c.head >= 0 && c.head < len(s.pieces) {
			s.adopt(c.head)
		}
	}
}

// passOn makes one pair more, if any pairing of the floor has one more, and reports whether it did: an ender without a
// head takes that of another ender, which takes that of a third, and so on to one that takes a head without an ender.
// Each of these takes time linear in runs, and s.passes bounds them all.
func (s *search) passOn() bool {
	if s.passes <= 0 {
		return false
	}
	e, h := s.alone()
	s.passes--
	if e < 0 || h < 0 {
		return false
	}
	chain := []int{e}
	for !s.fits(e, h) {
		if e = s.next(e, h); e < 0 {
			return false
		}
		chain = append(chain, e)
	}
	for k := len(chain) - 1; k >= 0; k-- {
		e, g := chain[k], s.headOf[chain[k]]
		s.pair(e, -1)
		s.pair(e, h)
		h = g
	}
	return true
}

// alone returns the ender without a head that leaves most, and the shortest head without an ender, -1 for none: if any
// two without go together by way of others, these do.
func (s *search) alone() (e, h int) {
	e, h = -1, -1
	for i := range s.pieces {
		if s.isEnder(i) && s.headOf[i] < 0 && (e < 0 || s.room(i) > s.room(e)) {
			e = i
		}
	}
	for i := range s.enderOf {
		if s.isHead(i) && s.enderOf[i] < 0 && (h < 0 || s.used(i) < s.used(h)) {
			h = i
		}
	}
	return e, h
}

// next returns an ender whose head goes with ender e: of those that leave enough for head h the one near both, or else
// the one that leaves most, more than e does; -1 for none.
func (s *search) next(e, h int) int {
	s.passes--
	away := func(a, b int) int { return max(a-b, b-a) }
	most, last, least := e, -1, 0
	for i, g := range s.headOf {
		if g < 0 || !s.fits(e, g) {
			continue
		}
		if s.room(i) > s.room(most) {
			most = i
		}
		if far := away(i, h) + away(e, g); s.fits(i, h) && (last < 0 || far < least) {
			last, least = i, far
		}
	}
	switch {
	case last >= 0:
		return last
	case most != e:
		return most
	}
	return -1
}

// adopt gives the ender and the starter of run i partners near by, if they are without.
func (s *search) adopt(i int) {
	const back, on = 3, 8
	if s.isEnder(i) && s.headOf[i] < 0 {
		for d := 1; d <= on; d++ {
			if h := i + d; h < len(s.pieces) && s.isHead(h) && s.enderOf[h] < 0 && s.fits(i, h) {
				s.pair(i, h)
				break
			}
			if h := i - d; d <= back && h >= 0 && s.isHead(h) && s.enderOf[h] < 0 && s.fits(i, h) {
				s.pair(i, h)
				break
			}
		}
	}
	if s.isHead(i) && s.enderOf[i] < 0 {
		for d := 1; d <= on; d++ {
			if e := i - d; e >= 0 && s.isEnder(e) && s.headOf[e] < 0 && s.fits(e, i) {
				s.pair(e, i)
				return
			}
			if e := i + d; d <= back && e < len(s.pieces) && s.isEnder(e) && s.headOf[e] < 0 && s.fits(e, i) {
				s.pair(e, i)
				return
			}
		}
	}
}
