package walk

import (
	"math/rand/v2"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Mend lays stretches of a layout's walk anew, as Renew does, until it keeps every stagger and needs no more planks
// than the target, or the given steps are done. While it needs more, staggers may come to be broken. After that what is
// laid anew keeps the stagger to all it touches: stretches that begin near a run that breaks one may use up what is
// spare, others make more of it, and runs of one kind exchange their places in the walk where that breaks no more.
// Without kinds those are runs of one class. It returns what Renew does; where the target is not reached, the layout
// may break staggers.
func Mend(
	t *starters.Table, kinds []counts.Kind, layout rows.Layout, packing rows.Packing, target, steps, width int,
	rng *rand.Rand, stop func() bool,
) (rows.Layout, rows.Packing, int, bool) {
	in := t.Instance
	if len(in.Offcuts) > 0 || len(in.Runs) < 4 {
		return layout, packing, 0, false
	}
	w := link(t, layout, packing)
	w.rng, w.width = rng, width
	if !w.chooseSpare() {
		return layout, packing, 0, false
	}
	alike := alike(t, kinds)
	w.loose = true
	for n := 0; w.tried/3 < steps; n++ {
		if n%16 == 0 && stop() {
			break
		}
		if w.loose && w.planks <= target {
			w.loose, w.suspects = false, everyRun(len(layout))
		}
		at := -1
		if !w.loose {
			if at = w.breaking(); at < 0 {
				break
			}
			if w.exchangePlaces(at, alike[at]) {
				continue
			}
		}
		w.renewFor(at, n)
		w.exchangeLinks()
	}
	layout, packing = w.result()
	return layout, packing, w.tried / 3, in.Check(layout) == nil && in.Count(layout, packing) <= target
}

func everyRun(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

// alike returns by run those of its kind, or without kinds those of its class.
func alike(t *starters.Table, kinds []counts.Kind) [][]int {
	out := make([][]int, len(t.Instance.Runs))
	if len(kinds) > 0 {
		for k := range kinds {
			for _, i := range kinds[k].Runs {
				out[i] = kinds[k].Runs
			}
		}
		return out
	}
	of := make([][]int, len(t.Classes))
	for i, k := range t.ClassOf {
		of[k] = append(of[k], i)
	}
	for i, k := range t.ClassOf {
		out[i] = of[k]
	}
	return out
}

// renewFor lays anew a stretch that begins a few runs before one that breaks a stagger, at the cost of what is spare;
// every other time, or for no run, any stretch.
func (w *links) renewFor(at, n int) {
	if at < 0 || n%2 == 1 {
		w.renew(anyRun)
		return
	}
	for range w.rng.IntN(longestStretch) {
		at = w.before[at]
	}
	w.renew(at)
}

// breaking returns a run that breaks a stagger, or -1. Suspects that break none are dropped.
func (w *links) breaking() int {
	for len(w.suspects) > 0 {
		k := w.rng.IntN(len(w.suspects))
		if i := w.suspects[k]; w.clashes(i) > 0 {
			return i
		}
		last := len(w.suspects) - 1
		w.suspects[k] = w.suspects[last]
		w.suspects = w.suspects[:last]
	}
	return -1
}

// clashes counts the staggers that run i breaks.
func (w *links) clashes(i int) int {
	n := 0
	for _, t := range w.table.Ties[i] {
		if w.in.Clash(w.layout[i], w.joints[i], t.Delta+w.layout[t.Run], w.joints[t.Run]) {
			n++
		}
	}
	return n
}

// exchangePlaces tries a few exchanges of run i's place in the walk with that of one alike, until one breaks no more
// staggers, and reports whether it breaks fewer.
func (w *links) exchangePlaces(i int, alike []int) bool {
	const most = 6
	for range min(len(alike)-1, most) {
		w.tried++
		j := alike[w.rng.IntN(len(alike))]
		before := w.clashes(i) + w.clashes(j)
		if !w.exchange(i, j) {
			continue
		}
		after := w.clashes(i) + w.clashes(j)
		if after > before {
			w.exchange(i, j)
			continue
		}
		for _, k := range [2]int{i, j} {
			w.suspects = append(w.suspects, k)
			for _, t := range w.table.Ties[k] {
				w.suspects = append(w.suspects, t.Run)
			}
		}
		return after < before
	}
	return false
}

// exchange exchanges the places of two runs in the walk and reports whether they may: neither is in one piece, alone in
// its ring, before or after the other or behind the spare link, and each leaves as many steps of the grid as the other
// did and enough for the run after.
func (w *links) exchange(i, j int) bool {
	if w.layout[i] == w.layout[j] || w.layout[i] == 0 || w.layout[j] == 0 || i == w.spare || j == w.spare ||
		w.after[i] == i || w.after[j] == j || w.after[i] == j || w.after[j] == i {
		return false
	}
	p, ok := w.in.Lay(i, w.layout[j])
	q, okToo := w.in.Lay(j, w.layout[i])
	if !ok || !okToo {
		return false
	}
	l, g := w.in.Plank-w.in.Kerf, w.in.Grid
	leftI, leftJ := l-p.Ender, l-q.Ender
	fits := func(left measure.Length, next int) bool { return w.fresh[next] || left >= w.need(next) }
	if !fits(leftI, w.after[j]) || !fits(leftJ, w.after[i]) ||
		leftI.Div(g) != w.room[j].Div(g) || leftJ.Div(g) != w.room[i].Div(g) {
		return false
	}
	w.layout[i], w.layout[j] = w.layout[j], w.layout[i]
	w.joints[i], w.joints[j] = p.Joints(), q.Joints()
	w.fresh[i], w.fresh[j] = w.fresh[j], w.fresh[i]
	w.before[i], w.before[j] = w.before[j], w.before[i]
	w.after[i], w.after[j] = w.after[j], w.after[i]
	for _, k := range [2]int{i, j} {
		w.after[w.before[k]], w.before[w.after[k]] = k, k
	}
	w.end(i, leftI)
	w.end(j, leftJ)
	return true
}
