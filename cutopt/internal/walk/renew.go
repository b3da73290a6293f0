package walk

import (
	"math/rand/v2"
	"slices"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Renew lays stretches of a layout's walk anew until it needs no more planks than the target, or the given steps, each
// about as long as a move of a walk of package search, are done. It returns the layout it ended at, what its one-piece
// runs lie beside, the steps done, and whether the target is reached.
//
// Its measure is material, not planks. Link the pieces of a layout so that each run starts with what the run before
// left, the chains into one by links that open a plank; every link wastes what is left and not taken, and the waste of
// all is the planks less what the runs take. Of one link, the spare, it makes the waste as large as it can: a stretch
// from anywhere in the walk and the stretch before the spare are taken out, and their runs laid anew in both places by
// a beam to the least waste elsewhere, runs that touch others as the stagger has it. Once what is spare makes a plank,
// the layout needs one plank less. Losses of a step or two of the grid are taken. Floors of few lengths take wide
// beams, of which some twenty ways are kept at each run.
//
// Offcuts on hand are not for it.
func Renew(
	t *starters.Table, layout rows.Layout, packing rows.Packing, target, steps, width int, rng *rand.Rand,
	stop func() bool,
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
	for n := 0; w.planks > target && w.tried/3 < steps; n++ {
		if n%16 == 0 && stop() {
			break
		}
		w.renew(anyRun)
		w.exchangeLinks()
	}
	layout, packing = w.result()
	return layout, packing, w.tried / 3, in.Count(layout, packing) <= target
}

// links is a layout as a walk in rings: every run follows another.
type links struct {
	table    *starters.Table
	in       *rows.Instance
	rng      *rand.Rand
	layout   rows.Layout
	joints   []int
	room     []measure.Length // by run: what it leaves for the run after
	over     []measure.Length // by run: how far its end lies beyond its plank, 0 or less: no kerf is sawn there
	before   []int
	after    []int
	fresh    []bool // by run: its starter or piece opens a plank
	spare    int    // the run whose link from the one before is the spare one
	planks   int
	tried    int // runs tried in beams, three of which take a step
	width    int // of beams
	beam     anew
	loose    bool  // what is laid anew may break staggers
	suspects []int // while staggers are mended: all runs that break one, and others
}

// link reads a walk from how the layout is cut.
func link(t *starters.Table, layout rows.Layout, packing rows.Packing) *links {
	in := t.Instance
	n := len(in.Runs)
	w := &links{
		table: t, in: in, layout: append(rows.Layout(nil), layout...), joints: make([]int, n),
		room: make([]measure.Length, n),
		over: make([]measure.Length, n), before: make([]int, n), after: make([]int, n), fresh: make([]bool, n),
	}
	cutting := in.Cut(layout, packing)
	w.planks = len(cutting.Planks)
	for i, s := range layout {
		p, _ := in.Lay(i, s)
		w.joints[i] = p.Joints()
		w.end(i, in.Plank-in.Kerf-p.Ender)
		w.before[i], w.after[i], w.fresh[i] = -1, -1, true
	}
	join := func(a, b int) { w.after[a], w.before[b] = b, a }
	for _, parts := range cutting.Planks {
		last, left := -1, in.Plank
		for _, p := range parts {
			switch p.Role {
			case rows.RoleEnder:
				last, left = p.Run, w.room[p.Run]
				continue
			case rows.RoleField:
				continue
			case rows.RoleSingle:
				w.end(p.Run, left-p.Length-in.Kerf)
				left = w.room[p.Run]
			}
			if last >= 0 {
				join(last, p.Run)
				w.fresh[p.Run] = false
			}
			last = p.Run
		}
	}
	w.joinChains(join)
	return w
}

// joinChains makes one ring of all chains, the end of each linked to the next one's first run.
func (w *links) joinChains(join func(a, b int)) {
	first, last := -1, -1
	for i := range w.before {
		if w.before[i] >= 0 {
			continue
		}
		if last >= 0 {
			join(last, i)
		} else {
			first = i
		}
		for last = i; w.after[last] >= 0; last = w.after[last] {
		}
	}
	if last >= 0 {
		join(last, first)
	}
}

// end notes what run i leaves.
func (w *links) end(i int, left measure.Length) { w.room[i], w.over[i] = max(left, 0), min(left, 0) }

// need is what run i takes of the plank that it starts on.
func (w *links) need(i int) measure.Length {
	if s := w.layout[i]; s > 0 {
		return s
	}
	return w.in.Runs[i].Length
}

// waste is what the link to run i wastes: what a plank had left when another was opened, and what a starter leaves of
// its own. A piece of a one-piece run leaves the rest of its plank to the run after.
func (w *links) waste(i int) measure.Length {
	switch left := w.room[w.before[i]]; {
	case w.layout[i] > 0 && w.fresh[i]:
		return left + w.in.Plank - w.layout[i]
	case w.layout[i] > 0:
		return left - w.layout[i]
	case w.fresh[i]:
		return left
	}
	return 0
}

// chooseSpare takes the link that wastes most for the spare one, of those to runs that are not in one piece, and
// reports false where there is none.
func (w *links) chooseSpare() bool {
	w.spare = -1
	for i, s := range w.layout {
		if s > 0 && (w.spare < 0 || w.waste(i) > w.waste(w.spare)) {
			w.spare = i
		}
	}
	return w.spare >= 0
}

// exchangeLinks exchanges who follows two runs where both still fit, which wastes nothing and makes other stretches.
func (w *links) exchangeLinks() {
	for range 4 {
		i, j := w.rng.IntN(len(w.layout)), w.rng.IntN(len(w.layout))
		a, b := w.before[i], w.before[j]
		if i == j || i == w.spare || j == w.spare || w.fresh[i] || w.fresh[j] || w.layout[i] == 0 || w.layout[j] == 0 ||
			w.layout[i] > w.room[b] || w.layout[j] > w.room[a] {
			continue
		}
		w.before[i], w.before[j], w.after[a], w.after[b] = b, a, j, i
	}
}

// A stretch is runs that follow each other: what is left for the first, and what the run after the last takes.
type stretch struct {
	runs        []int
	entry, exit int // the run before the first, the run after the last
}

// longestStretch is the most runs of a stretch, and of both together; a set of runs has a bit for each.
const longestStretch, mostPool = 9, 20

// anyRun stands for a run drawn by renew.
const anyRun = -1

// renew lays one or two stretches anew, one of them from the given run on. Stretches from any run make no less spare,
// but for a step or two of the grid; those from a certain one may use up what is spare.
func (w *links) renew(first int) {
	w.tried++
	last, other, ok := w.take(first)
	if !ok {
		return
	}
	wasted := w.waste(w.spare)
	limit := measure.Length(0)
	for _, s := range []*stretch{last, other} {
		for _, i := range s.runs {
			limit += w.waste(i) + w.over[i]
		}
	}
	if other.exit >= 0 {
		limit += w.waste(other.exit)
	}
	loss := w.in.Plank
	if first == anyRun {
		loss = w.in.Grid * measure.Length(w.rng.IntN(3))
	} else {
		loss >>= w.rng.IntN(8)
	}
	got, ok := w.lay(last, other, limit+min(loss, wasted))
	if !ok {
		return
	}
	w.place(last, other, got)
	spare := w.room[w.before[w.spare]] - w.need(w.spare)
	if w.fresh[w.spare] = spare < 0; spare < 0 {
		spare += w.in.Plank
	}
	if saved := wasted + limit - got.waste - spare; saved != 0 {
		w.planks -= int(saved / w.in.Plank)
		w.chooseSpare()
	}
}

// take chooses the stretch before the spare link and another one, from the given run on, and reports false where they
// do not go together. A whole ring has no run before and after; of a stretch that ends where the other begins, one is
// made.
func (w *links) take(first int) (last, other *stretch, ok bool) {
	none := &stretch{entry: -1, exit: -1}
	last = &stretch{exit: w.spare}
	i := w.before[w.spare]
	for range 1 + w.rng.IntN(longestStretch) {
		if i == w.spare {
			return nil, nil, false
		}
		last.runs = append(last.runs, i)
		i = w.before[i]
	}
	last.entry = i
	if len(w.layout) == len(last.runs)+1 {
		return last, none, true
	}
	if first == anyRun {
		first = w.rng.IntN(len(w.layout))
	}
	if slices.Contains(last.runs, first) || first == w.spare {
		return nil, nil, false
	}
	other = &stretch{entry: w.before[first]}
	i = first
	for n := 1 + w.rng.IntN(longestStretch); n > 0 || w.layout[i] == 0; n-- { // a piece after it would have to move
		other.runs = append(other.runs, i)
		i = w.after[i]
		if i == first {
			none.runs = other.runs
			return last, none, len(last.runs)+len(none.runs) <= mostPool
		}
		if i == w.spare || len(last.runs)+len(other.runs) > mostPool {
			return nil, nil, false
		}
		if slices.Contains(last.runs, i) {
			break
		}
	}
	if other.exit = i; i == last.runs[len(last.runs)-1] {
		last.entry, last.runs = other.entry, append(last.runs, other.runs...)
		return last, none, true
	}
	return last, other, true
}

// place puts what the beam found into the walk.
func (w *links) place(last, other *stretch, got *outcome) {
	put := func(from int, some []laid, to int) {
		at := from
		for _, r := range some {
			p, _ := w.in.Lay(r.run, r.starter)
			w.layout[r.run], w.joints[r.run], w.fresh[r.run] = r.starter, p.Joints(), r.fresh
			w.end(r.run, r.left)
			w.before[r.run], w.after[at] = at, r.run
			at = r.run
		}
		w.before[to], w.after[at] = at, to
	}
	if other.exit >= 0 {
		put(other.entry, got.other, other.exit)
		w.fresh[other.exit] = w.room[w.before[other.exit]] < w.need(other.exit)
	}
	put(last.entry, got.last, w.spare)
}

// result returns the layout, and what its one-piece runs lie beside: the starter that ends their plank, else the
// first piece on it.
func (w *links) result() (rows.Layout, rows.Packing) {
	packing := make(rows.Packing, len(w.layout))
	for i := range packing {
		packing[i] = -1
	}
	for i, s := range w.layout {
		before := w.before[i]
		if s > 0 || !w.fresh[i] && w.layout[before] == 0 {
			continue // in two pieces, or not the first piece beside an ender or on a plank
		}
		var beside []int
		j := i
		for ; w.layout[j] == 0 && (j == i || !w.fresh[j]); j = w.after[j] {
			beside = append(beside, j)
			if w.after[j] == i {
				j = i
				break
			}
		}
		host := i
		if w.layout[j] > 0 && !w.fresh[j] {
			host = j
		}
		for _, k := range beside {
			if k != host {
				packing[k] = host
			}
		}
	}
	return w.layout, packing
}
