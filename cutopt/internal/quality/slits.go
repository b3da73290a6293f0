package quality

import (
	"slices"

	"plank.example/cutopt/measure"
)

// A Span is a stretch of a run, from its beginning: an end joint in it spares the piece there a slit.
type Span struct{ From, To measure.Length }

// held counts the spans of run i without a joint when it has a starter.
func (st *state) held(i int, starter measure.Length) (n int) {
	if i >= len(st.p.Held) {
		return 0
	}
	p, ok := st.in.Lay(i, starter)
	if !ok {
		return 0
	}
	plank := st.in.Plank
	for _, span := range st.p.Held[i] {
		k := max(0, (span.From - starter + plank - 1).Div(plank))
		if k >= measure.Length(p.Joints()) || starter+k*plank > span.To {
			n++
		}
	}
	return n
}

// openers lists the starters that put a joint into a span of run i, those that put it nearest to the middle first.
func (s *search) openers(i int) []measure.Length {
	var out []measure.Length
	from := func(x, at measure.Length) measure.Length { return max(x-at, at-x) }
	for _, span := range s.p.Held[i] {
		middle, n := (span.From+span.To)/2, len(out)
		for at := (span.From + s.step - 1).Div(s.step) * s.step; at <= span.To && len(out)-n < finest; at += s.step {
			out = append(out, at)
		}
		slices.SortStableFunc(out[n:], func(a, b measure.Length) int { return int(from(a, middle) - from(b, middle)) })
		for k := n; k < len(out); k++ {
			if out[k] = out[k] - out[k].Div(s.in.Plank)*s.in.Plank; out[k] == 0 {
				out[k] = s.in.Plank
			}
		}
	}
	return out
}

// spare moves joints to fixed things that would hold a piece, where that takes no more planks than may be used and
// makes none of the looks that are aims worse. Where the rows beside are in the way everywhere, they make way for some
// of the places. It takes time in the order of the grid lines of the spans, times the ties of a run.
func (s *search) spare() {
	if s.p.Fixed {
		return
	}
	for i := range s.p.Held {
		held := s.held(i, s.start[i])
		if held == 0 || !s.mayMove(i) {
			continue
		}
		thin := s.thin(i, s.start[i])
		spares := func(x measure.Length) bool { return s.held(i, x) < held && s.thin(i, x) <= thin }
		openers := s.openers(i)
		opened := s.settle(i, openers, s.looks, spares)
		const places = 16
		for k := 0; k < places && k < len(openers) && !opened && !s.halt(); k++ {
			x := openers[k*len(openers)/min(places, len(openers))]
			opened = spares(x) && s.opens(i, x)
		}
	}
}

// makeWay lays run i with a starter that clashes with runs beside it, and moves each of these no farther than it must.
func (s *search) makeWay(i int, x measure.Length) bool {
	p, ok := s.in.Lay(i, x)
	if !ok {
		return false
	}
	s.state.set(i, p, 0)
	for _, r := range s.web.beside[i] {
		if s.web.distance(&s.web.at[i], &s.web.at[r]) < s.in.Stagger && !s.giveWay(int(r)) {
			return false
		}
	}
	return true
}

// giveWay moves the starter of a run to where it clashes with nothing, in coarse steps, where no more fixed things hold
// a piece of it and no more of its pieces are thin.
func (s *search) giveWay(i int) bool {
	const steps = 128
	step := max(s.step, s.in.Plank/steps/s.step*s.step)
	was := s.start[i]
	lay := func(x measure.Length) bool {
		x = s.onStep(x)
		if !s.mayMove(i) || x <= 0 || s.held(i, x) > s.held(i, was) {
			return false
		}
		_, ok := s.free(i, x)
		return ok && s.thin(i, x) <= s.thin(i, was) && s.lay(i, x, 0)
	}
	for away := step; away < s.in.Plank; away += step {
		if lay(was-away) || lay(was+away) {
			return true
		}
	}
	return false
}

// opens lays run i with a starter, the rows beside making way, and reports whether that may stay: there are planks
// enough, and of the looks that are aims none gets worse before another gets better.
func (s *search) opens(i int, x measure.Length) bool {
	s.begin()
	if !s.makeWay(i, x) {
		s.undo()
		return false
	}
	if !s.fit() {
		return false
	}
	if compare(s.looks, &s.values, &s.snapshot) > 0 {
		s.undo()
		return false
	}
	return true
}
