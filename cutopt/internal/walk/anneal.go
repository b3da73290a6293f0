package walk

import (
	"math/bits"
	"math/rand/v2"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// MostTurns is the most starters on the grid to a plank for Anneal.
const MostTurns = 1 << 16

// Energies are whole numbers: a broken stagger, or a step of the grid wasted above what the target leaves, is a unit.
const unit = 1 << 20

// Heats of the three parts of an annealing, in energy, and by how many 256ths each stage of a part is cooler than the
// one before.
const (
	looseHeat, looseFall = 30 * unit, 232
	closeHeat, closeFall = 22 * unit / 100, 253
	pressedHeat          = 13 * unit / 100
	stages               = 64
)

// Between two turns of pressing so many moves are made, and by so much the price of staggers at a run that still breaks
// one rises; every sixteenth turn all lose a quarter of that again, and where few are broken the starters of bands are
// dealt, after which so many moves mend what is left.
const (
	pressedMoves = 20_000
	press        = unit / 5
	fewBroken    = 2
	dealtMoves   = 50_000
)

// An annealing is a walk whose runs change places at random.
type annealing struct {
	*links
	pcg    *rand.PCG
	turns  turns
	mix    mix
	bands  *bands
	banded bool             // the starters of a band may be its runs' in any order
	ties   [][]starters.Tie // in use: where banded those not within a band
	outer  [][]starters.Tie // those not within a band
	waste  measure.Length   // of all links but the spare one, less what ends that lie beyond their planks save
	budget measure.Length   // what that may be at the target
	broken int              // staggers
	whole  []measure.Length // by run: what it takes in one piece, more than a plank where it may not be
	heat   int64
	price  int64   // of a broken stagger
	stress []int64 // by run: what a stagger costs more there
	moves  int32
	moved  []int32 // by run: the last move that it was in
	listed []bool  // by run: it is among the suspects
}

// A Course is how an annealing goes: it cools as if it had so many Moves, of which it makes at most Most.
type Course struct {
	Moves, Most int
	Bands       bool // neighbours that are alike count as one, see Anneal
}

// Anneal changes the order of the runs in a layout's walk until it keeps every stagger and needs no more planks than
// the target, or the moves of the course, each about as long as one of a walk of package search, is done. It returns
// the layout it ended at, which may break staggers, what its one-piece runs lie beside, the moves done, and whether the
// target is reached.
//
// Where every run starts with all that the run before left, a run laid is a turn on a circle one plank round, by the
// same steps of the grid wherever it lies. So runs that change places within a few that follow each other leave all
// others as they lie, and so do stretches that turn as far and are exchanged. Those are the moves, with two more that
// use what is wasted: some runs begin shorter up to a link that wastes as much, and a stretch is exchanged with the one
// before the spare link. They are taken by simulated annealing (Kirkpatrick, Gelatt and Vecchi, Science 220, 1983) in
// three parts: until little enough is wasted, however many staggers break, in half of the moves at most; then with a
// price for both, ever cooler; last, lukewarm, with a price that rises at the runs whose staggers stay broken (Morris,
// AAAI 1993).
//
// Neighbours of the same length, or nearly, turn as far wherever they lie and may exchange their starters. With Bands,
// where there are many, it is not asked which of them has which: only that the starters of each band can be dealt to
// it. Once no stagger outside a band is broken they are dealt, and what is broken still is mended with each run by
// itself.
//
// A run in one piece turns the circle like one in two, and has no joint: where there is room for it, it is laid so, and
// goes back to two pieces where there is not. Offcuts on hand are not for it, nor planks of more than MostTurns steps.
func Anneal(
	t *starters.Table, layout rows.Layout, packing rows.Packing, target int, c Course, pcg *rand.PCG, stop func() bool,
) (rows.Layout, rows.Packing, int, bool) {
	in := t.Instance
	if len(in.Offcuts) > 0 || len(in.Runs) <= 2*mostMoved || in.Plank/in.Grid > MostTurns {
		return layout, packing, 0, false
	}
	w := link(t, layout, packing)
	if w.joinRings(); !w.chooseOpen() {
		return layout, packing, 0, false
	}
	n := len(layout)
	a := &annealing{
		links: w, pcg: pcg, turns: newTurns(w), moved: make([]int32, n), stress: make([]int64, n), listed: make([]bool, n),
	}
	a.budget = measure.Length(target) * in.Plank
	for _, r := range in.Runs {
		a.budget -= r.Length + in.Kerf
	}
	a.whole, a.mix = wholes(t), a.mixed()
	a.bands = &bands{}
	if c.Bands {
		a.bands = findBands(w, &a.turns)
	}
	if a.setBanded(false); len(a.bands.all) > 0 {
		a.outer = a.bands.outer(t.Ties)
		a.setBanded(true)
	}
	done := a.anneal(c, stop)
	w.fresh[w.spare] = w.room[w.before[w.spare]] < w.need(w.spare)
	layout, packing = w.result()
	return layout, packing, done, in.Check(layout) == nil && in.Count(layout, packing) <= target
}

// wholes returns what each run takes of a plank in one piece, and more than a plank for those that may not be.
func wholes(t *starters.Table) []measure.Length {
	out := make([]measure.Length, len(t.Instance.Runs))
	for i, r := range t.Instance.Runs {
		if out[i] = t.Instance.Plank + 1; t.Of(i).Single {
			out[i] = r.Length
		}
	}
	return out
}

// A mix says how many of 32 moves are slides, how many are slides or exchanges with the last runs, and how many those
// or permutations; the others exchange what is alike.
type mix struct{ slides, lasts, permutes int }

// mixed is the mix for a floor: the more its target leaves to waste, the more moves that use what is wasted.
func (a *annealing) mixed() mix {
	in := a.in
	free := a.budget
	for _, r := range in.Runs {
		x := in.Plank - in.Kerf - r.Length
		free -= x - x.Div(in.Grid)*in.Grid // what a starter on the grid leaves unused
	}
	each := int(max(free, 0) / (in.Grid * measure.Length(len(in.Runs)))) // in steps of the grid for each run
	m := mix{slides: 2 + min(each, 4)}
	m.lasts = m.slides + 2 + min(each, 6)
	m.permutes = m.lasts + (32-m.lasts)*3/7
	return m
}

// chooseOpen takes the link that wastes most for the spare one, of those to runs whose starter an offcut can be as long
// as, and reports false where there is none.
func (w *links) chooseOpen() bool {
	w.spare = -1
	longest := w.in.Plank - w.in.Kerf - max(w.in.MinEnder, w.in.MinPiece)
	for i, s := range w.layout {
		if s > 0 && s <= longest && (w.spare < 0 || w.waste(i) > w.waste(w.spare)) {
			w.spare = i
		}
	}
	return w.spare >= 0
}

// anneal does all three parts and returns how many moves it made.
func (a *annealing) anneal(c Course, stop func() bool) int {
	a.price = 0
	done := a.cool(min(c.Moves/8, c.Most/2), c.Most, looseHeat, looseFall, stop)
	a.price = unit
	if !a.settle() {
		return done
	}
	done += a.cool((c.Moves-done)/2, c.Most-done, closeHeat, closeFall, stop)
	for turn := 1; done < c.Most && !stop(); turn++ {
		if !a.banded && a.reached() {
			break
		}
		if a.banded && (a.reached() || turn%16 == 0 && a.broken+a.bands.narrow <= fewBroken) {
			a.deal()
			a.setBanded(false)
			if done += a.cool(dealtMoves, c.Most-done, pressedHeat, 256, stop); a.reached() {
				break
			}
			a.setBanded(true)
		}
		done += a.cool(pressedMoves, c.Most-done, pressedHeat, 256, stop)
		a.press(turn)
	}
	return done
}

// press makes the staggers dearer that are broken after a turn of pressing.
func (a *annealing) press(turn int) {
	for _, i := range a.suspects {
		if a.clashes(i) > 0 {
			a.stress[i] += press
		}
	}
	for k := range a.bands.all {
		if x := &a.bands.all[k]; x.narrow > 0 {
			x.stress += press
		}
	}
	if turn%16 != 0 {
		return
	}
	for i := range a.stress {
		a.stress[i] -= a.stress[i] >> 2
	}
	for k := range a.bands.all {
		a.bands.all[k].stress -= a.bands.all[k].stress >> 2
	}
}

// setBanded begins or ends that the runs of a band have their starters in any order, and counts anew.
func (a *annealing) setBanded(banded bool) {
	if a.banded = banded; banded {
		a.ties = a.outer
		a.bands.read(a.links)
	} else {
		a.ties, a.bands.narrow = a.table.Ties, 0
	}
	a.turns = newTurns(a.links)
	a.waste, a.broken = -a.links.waste(a.spare), 0
	a.suspects = a.suspects[:0]
	for i := range a.layout {
		a.waste += a.links.waste(i) + a.over[i]
		a.broken += a.clashes(i)
		a.listed[i] = false
		a.suspect(i)
	}
	a.broken /= 2
}

// reached reports whether little enough is wasted and, where they have a price, no stagger is broken.
func (a *annealing) reached() bool {
	if a.price == 0 {
		return a.waste <= a.budget && !a.short()
	}
	return a.waste <= a.budget && a.broken == 0 && a.bands.narrow == 0
}

// cool makes so many moves from the given heat on, fewer where it reaches what it is for, and no more than most.
func (a *annealing) cool(moves, most int, heat, fall int64, stop func() bool) int {
	a.heat = heat
	done := 0
	for stage := moves/stages + 1; done < min(moves, most) && !a.reached(); done++ {
		if done%stage == stage-1 {
			a.heat = a.heat * fall >> 8
		}
		if done%(1<<14) == 1<<14-1 && stop() {
			break
		}
		a.move()
	}
	return done
}

// move makes one random move, every other at a run that breaks a stagger where those have a price.
func (a *annealing) move() {
	draw := a.pcg.Uint64()
	at := a.pick(len(a.layout))
	if draw&1 == 0 && a.price > 0 {
		if i := a.troubled(draw); i >= 0 {
			at = i
		}
	}
	switch kind := int(draw >> 1 & 31); {
	case kind < a.mix.slides:
		a.slide(at)
	case kind < a.mix.lasts:
		a.exchangeLast(at)
	case kind < a.mix.permutes:
		a.permute(at)
	default:
		a.exchangeAlike(at)
	}
}

// pick draws a number below n.
func (a *annealing) pick(n int) int { return int(a.pcg.Uint64() >> 32 * uint64(n) >> 32) }

// back is the run up to n - 1 before one.
func (a *annealing) back(i, n int) int {
	for range a.pick(n) {
		i = a.before[i]
	}
	return i
}

// permute moves the first or last run of a window around one to its other end, or exchanges both.
func (a *annealing) permute(at int) {
	var w window
	n := 2 + a.pick(longestStretch-1)
	if !a.take(&w, a.back(at, n), n) {
		return
	}
	wasted := a.wasted(&w)
	first, last := w.runs[0], w.runs[n-1]
	switch a.pick(3) {
	case 0:
		w.runs[0], w.runs[n-1] = last, first
	case 1:
		copy(w.runs[:n-1], w.runs[1:n])
		w.runs[n-1] = first
	case 2:
		copy(w.runs[1:n], w.runs[:n-1])
		w.runs[0] = last
	}
	a.try(wasted, &w)
}

// slide makes the starters of some runs from one on shorter, up to the spare link or one that wastes as much.
func (a *annealing) slide(at int) {
	const most = 64
	var w window
	n, exit := 1, a.after[at]
	for exit != a.spare && a.links.waste(exit) < a.in.Grid {
		if n++; n > mostMoved {
			return
		}
		exit = a.after[exit]
	}
	if !a.take(&w, at, n) {
		return
	}
	steps := most
	if exit != a.spare {
		steps = int(min(most, a.links.waste(exit)/a.in.Grid))
	}
	w.shorter = a.in.Grid * measure.Length(1+a.pick(steps))
	a.try(a.wasted(&w), &w)
}

// exchangeAlike exchanges a stretch of one to three runs around one with another that turns as far, or a step more or
// less.
func (a *annealing) exchangeAlike(at int) {
	var w, v window
	n := 1 + a.pick(mostAlike)
	if !a.take(&w, a.back(at, n), n) {
		return
	}
	other, m := a.turns.alike(int(w.runs[0]), n, a.pcg.Uint64())
	if other >= 0 && a.take(&v, other, m) && !meet(&w, &v) {
		a.exchangeWindows(&w, &v)
	}
}

// exchangeLast exchanges a stretch around one run with the one before the spare link; once staggers have a price only
// one that the link behind it has room for.
func (a *annealing) exchangeLast(at int) {
	const most = 6
	var w, v window
	n, m := 1+a.pick(most), 1+a.pick(most)
	last := a.spare
	for range m {
		last = a.before[last]
	}
	if !a.take(&v, last, m) || !a.take(&w, a.back(at, n), n) || meet(&w, &v) {
		return
	}
	if a.price > 0 && measure.Length(a.turns.less(&v, &w))*a.in.Grid > a.links.waste(w.exit) {
		return
	}
	a.exchangeWindows(&w, &v)
}

// exchangeWindows tries to exchange the runs of two windows, in each perhaps the first and the last.
func (a *annealing) exchangeWindows(w, v *window) {
	wasted := a.wasted(w) + a.wasted(v)
	if !w.exchange(v) {
		return
	}
	for _, x := range [2]*window{w, v} {
		if k := a.pick(2 * x.moves); k < x.moves {
			x.runs[0], x.runs[k] = x.runs[k], x.runs[0]
		}
	}
	a.try(wasted, w, v)
}

// try lays the runs of the windows in their order and leaves them so where the energy rises by less than is drawn.
// The windows wasted so much before.
func (a *annealing) try(wasted measure.Length, windows ...*window) {
	rise, waste := a.rise()+a.excess(a.waste), a.waste-wasted
	// Most moves waste more than staggers mended would be worth, two for each run: those are not counted.
	most := a.budget + measure.Length(rise/unit+1)*a.in.Grid - waste
	for _, w := range windows {
		most += 2 * measure.Length(w.n) * a.in.Grid
	}
	for _, w := range windows {
		x, ok := a.lay(w, most)
		if !ok {
			return
		}
		waste += x
		most -= x
	}
	a.mark(windows)
	before, energy := a.clashesOf(windows)
	limit := rise + energy - a.excess(waste)
	if limit < 0 {
		return
	}
	a.swap(windows)
	after, energy := a.clashesOf(windows)
	if energy > limit || a.banded && !a.rearrange(windows, limit-energy) {
		a.swap(windows)
		return
	}
	for _, w := range windows {
		a.join(w)
	}
	a.waste, a.broken = waste, a.broken+after-before
}

// rise draws by how much the energy may rise: the heat times the negative logarithm of a number below one, which is
// taken as linear between powers of two.
func (a *annealing) rise() int64 {
	draw := a.pcg.Uint64() | 1
	zeros := bits.LeadingZeros64(draw)
	log2 := int64(zeros+1)<<10 - int64(draw<<zeros>>53&1023)
	return a.heat * log2 * 11 >> 14 // ln 2 is about 11/16
}

// excess is the energy of so much waste.
func (a *annealing) excess(waste measure.Length) int64 {
	g := a.in.Grid
	return int64((max(waste-a.budget, 0)+g-1)/g) * unit
}

// suspect notes a run that may break a stagger.
func (a *annealing) suspect(i int) {
	if !a.listed[i] {
		a.listed[i] = true
		a.suspects = append(a.suspects, i)
	}
}

// troubled returns a run that breaks a stagger, or lies in a narrow stretch of a band, or -1.
func (a *annealing) troubled(draw uint64) int {
	if a.bands.narrow > 0 && (draw>>8&1 == 0 || a.broken == 0) {
		return int(a.bands.crowded(draw >> 16))
	}
	return a.breaking()
}

// breaking returns a run that breaks a stagger, or -1. Suspects that break none are dropped.
func (a *annealing) breaking() int {
	for len(a.suspects) > 0 {
		k := a.pick(len(a.suspects))
		i := a.suspects[k]
		if a.clashes(i) > 0 {
			return i
		}
		a.listed[i] = false
		last := len(a.suspects) - 1
		a.suspects[k] = a.suspects[last]
		a.suspects = a.suspects[:last]
	}
	return -1
}

// clashes counts the staggers in use that run i breaks.
func (a *annealing) clashes(i int) int {
	n := 0
	for _, t := range a.ties[i] {
		if a.in.Clash(a.layout[i], a.joints[i], t.Delta+a.layout[t.Run], a.joints[t.Run]) {
			n++
		}
	}
	return n
}
