package quality

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A state is a floor with its figures kept up to date.
type state struct {
	p     *Problem
	in    *rows.Instance
	table *starters.Table
	web   *web
	*ledger
	step  measure.Length // starters are moved to multiples of it
	limit int            // planks that may be used

	start     rows.Layout
	pieces    []rows.Pieces // by run
	values    values        // Stagger: ties that are short of the threshold
	threshold measure.Length
	moved     bool // a starter was moved

	// Who shares a plank. Heads 0 … runs-1 are the cut starters of the runs; boards of one-piece runs follow. The
	// pairing is kept only once paired; before, the ledger counts.
	paired  bool
	boards  []board
	guests  [][]int // by run: one-piece runs cut from the plank of its starter
	headOf  []int   // by run: the head that shares its ender's plank, or -1
	enderOf []int   // by head: the run whose ender shares its plank, or -1
	pairs   int     // enders with a head
	enders  int     // cut enders
	piles   *piles  // offcuts kept at the ends of rows
	initial *rows.Cutting

	log      []change
	snapshot values
}

// A board is a plank of one-piece runs.
type board struct {
	runs []int
	used measure.Length // with a kerf between pieces
}

// A change is an entry of the log: a run had another starter, or its ender another head.
type change struct {
	run     int
	starter bool // else the head changed
	pieces  rows.Pieces
	head    int
}

// finest is how many thresholds a ledger has at most, roughly: starters move on a coarser grid where it would be more.
const finest = 2048

func newState(p *Problem, layout rows.Layout, cutting *rows.Cutting, limit int) *state {
	in := p.Instance
	n := len(in.Runs)
	st := &state{
		p: p, in: in, table: starters.New(in), limit: limit, start: slices.Clone(layout), initial: cutting,
		pieces: make([]rows.Pieces, n), guests: make([][]int, n), headOf: make([]int, n),
	}
	st.step = max(1, (in.Plank/in.Grid+finest-1)/finest) * in.Grid
	for i, s := range layout {
		st.pieces[i], _ = in.Lay(i, s)
		st.headOf[i] = -1
	}
	st.web = newWeb(p, st.pieces)
	for _, parts := range cutting.Planks {
		st.addBoard(parts)
	}
	st.enderOf = make([]int, n+len(st.boards))
	for h := range st.enderOf {
		st.enderOf[h] = -1
	}
	var lengths []measure.Length
	for h := range st.enderOf {
		if st.isHead(h) {
			lengths = append(lengths, st.used(h))
		}
	}
	st.ledger = newLedger(in.Plank, st.step, lengths)
	st.count()
	return st
}

// addBoard notes the one-piece runs of a plank.
func (st *state) addBoard(parts []rows.Part) {
	var b board
	host := -1
	for _, p := range parts {
		switch {
		case p.Role == rows.RoleSingle && p.Length < st.in.Plank:
			b.runs = append(b.runs, p.Run)
			b.used += p.Length + st.in.Kerf
		case p.Role == rows.RoleStarter && p.Length < st.in.Plank:
			host = p.Run
		}
	}
	switch {
	case len(b.runs) == 0:
	case host >= 0:
		st.guests[host] = b.runs
	default:
		b.used -= st.in.Kerf
		st.boards = append(st.boards, b)
	}
}

// isHead reports whether head h is a cut starter or a board.
func (st *state) isHead(h int) bool {
	if h >= len(st.pieces) {
		return true
	}
	s := st.pieces[h].Starter
	return s > 0 && s < st.in.Plank
}

// used returns what a head takes of its plank, with a kerf between its pieces.
func (st *state) used(h int) measure.Length {
	if h >= len(st.pieces) {
		return st.boards[h-len(st.pieces)].used
	}
	x := st.pieces[h].Starter
	for _, g := range st.guests[h] {
		x += st.in.Runs[g].Length + st.in.Kerf
	}
	return x
}

// isEnder reports whether run i has a cut ender.
func (st *state) isEnder(i int) bool {
	e := st.pieces[i].Ender
	return e > 0 && e < st.in.Plank
}

// room returns what the ender of run i leaves on its plank for a head; below 0 for none.
func (st *state) room(i int) measure.Length { return st.in.Plank - st.in.Kerf - st.pieces[i].Ender }

// fits reports whether head h fits beside the ender of run i.
func (st *state) fits(i, h int) bool { return st.used(h) <= st.room(i) }

// count fills ledger and values from scratch, unpaired.
func (st *state) count() {
	st.values = values{}
	for i, p := range st.pieces {
		st.begun += whole(p, st.in.Plank)
		if st.isEnder(i) {
			st.enders++
			st.ledger.ender(st.room(i), 1)
		}
		st.values[cutopt.AimFigures] += st.odd(i)
	}
	for h := range st.enderOf {
		if st.isHead(h) {
			st.ledger.head(st.used(h), 1)
		}
	}
	st.look()
}

// look counts the values of joints from scratch.
func (st *state) look() {
	var twice struct{ h, stairs, clusters int }
	for i := range st.pieces {
		twice.h += st.web.inLines(i, &st.web.at[i])
		stairs, clusters := st.web.fours(i)
		twice.stairs += stairs
		twice.clusters += clusters
	}
	st.values[cutopt.AimHJoints], st.values[cutopt.AimStaircases], st.values[cutopt.AimClusters] = twice.h/2,
		twice.stairs/4, twice.clusters/4
	st.values[cutopt.AimChains] = st.web.survey()
}

// whole counts the whole planks of a run.
func whole(p rows.Pieces, plank measure.Length) int {
	n := p.Field
	for _, x := range []measure.Length{p.Starter, p.Ender, p.Single} {
		if x == plank {
			n++
		}
	}
	return n
}

// odd returns 1 where the starter of run i is cut to no round figure.
func (st *state) odd(i int) int {
	if s := st.pieces[i].Starter; st.p.Round > 0 && s > 0 && s < st.in.Plank && s%st.p.Round != 0 {
		return 1
	}
	return 0
}

// leastStagger returns the least distance of joints of touching runs, at most a plank.
func (st *state) leastStagger() measure.Length {
	least := st.in.Plank
	for i := range st.pieces {
		for _, r := range st.web.beside[i] {
			least = min(least, st.web.distance(&st.web.at[i], &st.web.at[r]))
		}
	}
	return least
}

// aimAt sets the threshold and counts the ties that are short of it.
func (st *state) aimAt(threshold measure.Length) {
	st.threshold = threshold
	n := 0
	for i := range st.pieces {
		n += st.web.short(i, &st.web.at[i], threshold)
	}
	st.values[cutopt.AimStagger] = n / 2
}

// planks returns the planks of the pairing, or of the best one where none is kept.
func (st *state) planks() int {
	if st.paired {
		return st.begun + st.enders - st.pairs
	}
	return st.ledger.planks()
}

// set lays run i in other pieces, and takes apart what then no longer fits on one plank. Where strict is 1 that is not
// done if it makes more H-joints, where it is 2 nor if it makes more chains and no fewer H-joints: set then returns
// false, and all stays.
func (st *state) set(i int, now rows.Pieces, strict int) bool {
	w := st.web
	was, is := w.at[i], w.comb(i, &now)
	h := w.inLines(i, &is) - w.inLines(i, &was)
	if strict > 0 && h > 0 {
		return false
	}
	w.at[i] = is
	chains := w.follow(int32(i))
	if strict > 1 && h == 0 && chains > 0 {
		w.at[i] = was
		w.follow(int32(i))
		return false
	}
	v := &st.values
	v[cutopt.AimHJoints] += h
	v[cutopt.AimChains] += chains
	v[cutopt.AimStagger] += w.short(i, &is, st.threshold) - w.short(i, &was, st.threshold)
	stairs, clusters := w.fours(i)
	w.at[i] = was
	before, less := w.fours(i)
	w.at[i] = is
	v[cutopt.AimStaircases] += stairs - before
	v[cutopt.AimClusters] += clusters - less
	if st.paired {
		st.part(i, now)
	}
	st.moved = true
	st.log = append(st.log, change{run: i, starter: true, pieces: st.pieces[i]})
	v[cutopt.AimFigures] -= st.odd(i)
	st.relay(i, now)
	v[cutopt.AimFigures] += st.odd(i)
	return true
}

// relay lays run i in other pieces, in everything but its joints.
func (st *state) relay(i int, now rows.Pieces) {
	old, plank := st.pieces[i], st.in.Plank
	if st.paired {
		st.show(i, -1)
	}
	st.start[i], st.pieces[i] = now.Starter, now
	st.enders += cut(now.Ender, plank) - cut(old.Ender, plank)
	st.begun += whole(now, plank) - whole(old, plank)
	if st.paired {
		st.begun += cut(now.Starter, plank) - cut(old.Starter, plank)
		st.show(i, 1)
	} else {
		st.book(now, old)
	}
}

// cut returns 1 for the length of a cut piece.
func cut(x, plank measure.Length) int {
	if x > 0 && x < plank {
		return 1
	}
	return 0
}

// book changes the cut pieces of a run in the ledger.
func (st *state) book(now, old rows.Pieces) {
	plank := st.in.Plank
	switch was, is := cut(old.Starter, plank), cut(now.Starter, plank); {
	case was == 1 && is == 1:
		st.ledger.move(old.Starter, now.Starter, 1)
	case was == 1:
		st.ledger.head(old.Starter, -1)
	case is == 1:
		st.ledger.head(now.Starter, 1)
	}
	room := func(p rows.Pieces) measure.Length { return plank - st.in.Kerf - p.Ender }
	switch was, is := cut(old.Ender, plank), cut(now.Ender, plank); {
	case was == 1 && is == 1:
		st.ledger.move(room(old), room(now), -1)
	case was == 1:
		st.ledger.ender(room(old), -1)
	case is == 1:
		st.ledger.ender(room(now), 1)
	}
}

// begin opens a step.
func (st *state) begin() {
	st.log, st.snapshot = st.log[:0], st.values
}

// undo takes back everything since begin.
func (st *state) undo() {
	for n := len(st.log) - 1; n >= 0; n-- {
		if c := &st.log[n]; c.starter {
			st.relay(c.run, c.pieces)
			st.web.at[c.run] = st.web.comb(c.run, &c.pieces)
			st.web.follow(int32(c.run))
		} else {
			st.link(c.run, c.head)
		}
	}
	st.values = st.snapshot
}
