package walk

import "plank.example/cutopt/measure"

// joinRings makes one ring of all, each in turn joined to those before it where that wastes least more: what rings
// waste each by itself is wasted at one link, and no run is alone in a ring, where no move reaches it. Time is at most
// quadratic in runs, and linear where there is one ring.
func (w *links) joinRings() {
	joined := make([]bool, len(w.layout))
	var all []int // runs joined
	for first := range w.layout {
		if joined[first] {
			continue
		}
		ring := []int{first}
		for i := w.after[first]; i != first; i = w.after[i] {
			ring = append(ring, i)
		}
		if len(all) > 0 {
			w.joinRing(ring, all)
		}
		for _, i := range ring {
			joined[i] = true
		}
		all = append(all, ring...)
	}
}

// joinRing exchanges who follows a run of one ring and a run of another, where that wastes least more, if it may.
func (w *links) joinRing(ring, other []int) {
	least, first, second := measure.Length(-1), -1, -1
	for _, i := range ring {
		for _, j := range other {
			toI, ok := w.wasteAfter(w.before[j], i)
			toJ, okToo := w.wasteAfter(w.before[i], j)
			if more := toI + toJ - w.waste(i) - w.waste(j); ok && okToo && (first < 0 || more < least) {
				least, first, second = more, i, j
			}
		}
	}
	if first < 0 {
		return
	}
	a, b := w.before[first], w.before[second]
	w.before[first], w.before[second], w.after[a], w.after[b] = b, a, second, first
	for _, i := range [2]int{first, second} {
		w.fresh[i] = w.room[w.before[i]] < w.need(i)
	}
}

// wasteAfter is what the link to run i would waste if it followed another run and were laid as it is; false where it
// could not: a piece leaves what it does only on a plank of its own.
func (w *links) wasteAfter(before, i int) (measure.Length, bool) {
	left, need := w.room[before], w.need(i)
	switch {
	case w.layout[i] == 0:
		return left, w.fresh[i] && left < need
	case left < need:
		return left + w.in.Plank - need, true
	}
	return left - need, true
}
