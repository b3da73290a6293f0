package site

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A progress says how far a floor is laid: all runs before one in the order of laying, and so many pieces of that.
type progress struct{ run, pieces int }

// A told is what the lines tell of how far a floor is laid.
type told struct {
	runs     [][2]int       // in the order of laying, by row and run
	far      progress       // the farthest
	starters map[int]*Event // of runs that lie otherwise, by their place in that order
	inHand   map[int]int    // pieces that lie of runs of which they are counted
}

// lie marks what lies: first what lies as planned, on all floors, then runs that lie otherwise, which are cut from
// what that leaves.
func (a *application) lie(s *State) {
	all := make([]told, len(a.plan.Floors))
	for f := range all {
		all[f] = a.told(f, s)
		a.mark(f, &all[f])
	}
	for i := range a.plan.Planks {
		use := &a.plan.Planks[i]
		for _, ref := range use.Pieces {
			if p := a.plan.Piece(ref); p != nil && p.Lies {
				use.Opened = true
			}
		}
		a.sawn(use)
	}
	for f := range all {
		t := &all[f]
		for k, at := range t.runs {
			if e := t.starters[k]; e != nil && len(a.errs) == 0 {
				a.otherwise(f, at, e, t.inHand[k])
			}
		}
	}
	for f := range all {
		for k, at := range all[f].runs {
			if all[f].starters[k] != nil && len(a.errs) == 0 {
				a.judge(f, at)
			}
		}
	}
}

// sawn settles a piece that lies and was to be laid as its offcut comes, while what leaves that offcut does not lie:
// so it was sawn, as long as it is planned.
func (a *application) sawn(use *cutopt.PlankUse) {
	var loose *cutopt.Piece
	planned := false
	for _, ref := range use.Pieces {
		switch p := a.plan.Piece(ref); {
		case p == nil:
		case !p.Lies:
			planned = true
		case p.AsItComes > 0:
			loose = p
		}
	}
	if loose != nil && planned {
		loose.AsItComes = 0
		a.settle(use)
	}
}

// told reads how far a floor is laid.
func (a *application) told(f int, s *State) told {
	floor := &a.plan.Floors[f]
	t := told{runs: order(floor), starters: make(map[int]*Event), inHand: make(map[int]int)}
	for i := range s.Events {
		e := &s.Events[i]
		if e.Floor != f || e.Kind != KindLaid && e.Kind != KindStarter {
			continue
		}
		k := a.last(floor, t.runs, e)
		if k < 0 {
			continue // a row without floor, at the beginning
		}
		if e.Kind == KindStarter {
			if before := t.starters[k]; before != nil && before.Length != e.Length {
				a.refuse(e, "keep one of the lines", "row %d is told twice: it began with %s", e.Row, a.format(before.Length))
				continue
			}
			t.starters[k] = e
			continue
		}
		if e.Pieces == 0 {
			t.far = further(t.far, progress{k + 1, 0})
			continue
		}
		t.inHand[k] = max(t.inHand[k], e.Pieces)
		t.far = further(t.far, progress{k, e.Pieces})
	}
	for k := range t.starters {
		if t.inHand[k] == 0 {
			t.far = further(t.far, progress{k + 1, 0})
		}
	}
	for k := range t.inHand {
		if k < t.far.run {
			delete(t.inHand, k) // it has been finished since
		}
	}
	return t
}

// mark marks what lies of a floor as it is planned.
func (a *application) mark(f int, t *told) {
	floor := &a.plan.Floors[f]
	for k, at := range t.runs[:min(len(t.runs), t.far.run+1)] {
		if t.starters[k] != nil {
			continue
		}
		pieces := floor.Rows[at[0]].Runs[at[1]].Pieces
		lie := len(pieces)
		if k == t.far.run {
			lie = min(lie, t.far.pieces)
		}
		for n := range lie {
			if floor.LaidFrom == cutopt.HandRight {
				n = len(pieces) - 1 - n
			}
			pieces[n].Lies = true
		}
	}
}

func further(a, b progress) progress {
	if b.run > a.run || b.run == a.run && b.pieces > a.pieces {
		return b
	}
	return a
}

// last returns the run, in the order of laying, that an event is about, or the last of its row; -1 for none.
func (a *application) last(floor *cutopt.PlanFloor, runs [][2]int, e *Event) int {
	found := -1
	for k, at := range runs {
		if at[0] < e.Row-1 || at[0] == e.Row-1 && (e.Run == 0 || at[1] == e.Run-1) {
			found = k
		}
		if at[0] == e.Row-1 && at[1] == e.Run-1 {
			break
		}
	}
	return found
}

// otherwise lays a run with the starter that it has: whole planks follow, and an ender fills it. Of a run in hand so
// many pieces lie; 0 is all.
func (a *application) otherwise(f int, at [2]int, e *Event, inHand int) {
	floor := &a.plan.Floors[f]
	run := &floor.Rows[at[0]].Runs[at[1]]
	length := run.To - run.From
	switch {
	case slices.ContainsFunc(run.Pieces, func(p cutopt.Piece) bool { return p.Lies }):
		a.refuse(e, "what lies in the plan stays as it is there", "row %d lies in the plan already", e.Row)
		return
	case e.Length <= 0 || e.Length > a.long:
		a.refuse(e, "measure the piece that was laid first", "a starter is at most a plank long: %s", a.format(a.long))
		return
	case e.Length > length:
		a.refuse(e, "measure the piece that was laid first", "the row is only %s long", a.format(length))
		return
	}
	sizes := []measure.Length{e.Length}
	for rest := length - e.Length; rest > 0; rest -= a.long {
		sizes = append(sizes, min(rest, a.long))
	}
	if inHand == 0 {
		inHand = len(sizes)
	}
	a.relay(f, at, sizes, inHand)
}

// relay lays a run in pieces of other lengths, so many of which lie, each from the plank that the plan cuts the piece
// from that has its part, if that still has the room, else from another.
func (a *application) relay(f int, at [2]int, sizes []measure.Length, lie int) {
	floor := &a.plan.Floors[f]
	run := &floor.Rows[at[0]].Runs[at[1]]
	right := floor.LaidFrom == cutopt.HandRight
	old := slices.Clone(run.Pieces)
	for n := range old { // off their planks
		ref := cutopt.PieceRef{Floor: f, Row: at[0], Run: at[1], Piece: n}
		if use := a.use(old[n].Plank); use != nil {
			use.Pieces = slices.DeleteFunc(use.Pieces, func(r cutopt.PieceRef) bool { return r == ref })
			if slices.ContainsFunc(use.Pieces, a.midway) { // which lies where what is left beside it ends
				a.settle(use)
			}
		}
		delete(a.at, ref)
	}
	if right {
		slices.Reverse(old)
	}
	pieces := make([]cutopt.Piece, len(sizes))
	x := measure.Length(0)
	for n, size := range sizes {
		p := cutopt.Piece{Length: size, From: run.From + x, To: run.From + x + size}
		p.Ends = ends(n, len(sizes), size == a.long)
		if right {
			p.From, p.To = run.To-x-size, run.To-x
			p.Ends = p.Ends&1<<1 | p.Ends>>1
		}
		p.Plank = source(old, n, len(sizes))
		pieces[n] = p
		x += size
	}
	if right {
		slices.Reverse(pieces)
	}
	run.Pieces = pieces
	for n := range min(lie, len(pieces)) {
		if right {
			n = len(pieces) - 1 - n
		}
		a.cutFrom(cutopt.PieceRef{Floor: f, Row: at[0], Run: at[1], Piece: n})
	}
}

// midway reports whether a piece lies that is cut from the middle of its plank.
func (a *application) midway(ref cutopt.PieceRef) bool {
	p := a.plan.Piece(ref)
	return p != nil && p.Lies && p.Ends == cutopt.EndsNone
}

// ends returns the factory ends of the n-th of so many pieces laid from the left.
func ends(n, of int, whole bool) cutopt.Ends {
	switch {
	case whole:
		return cutopt.EndsBoth
	case of == 1:
		return cutopt.EndsNone
	case n == 0:
		return cutopt.EndsRight
	}
	return cutopt.EndsLeft
}

// source returns the number of the plank that the plan cuts the n-th of so many pieces from: the first and the last
// keep theirs; 0 where it has none.
func source(old []cutopt.Piece, n, of int) int {
	switch {
	case n == of-1 && of > 1 && len(old) > 1:
		return old[len(old)-1].Plank
	case n < len(old)-1 || n == 0 && len(old) == 1:
		return old[n].Plank
	}
	return 0
}

// use returns the plank of a number; nil for none.
func (a *application) use(number int) *cutopt.PlankUse {
	if number < 1 || number > len(a.plan.Planks) {
		return nil
	}
	return &a.plan.Planks[number-1]
}

// cutFrom cuts a piece that lies from its plank, or from another where that has no room for it.
func (a *application) cutFrom(ref cutopt.PieceRef) {
	p := a.plan.Piece(ref)
	p.Lies = true
	use := a.use(p.Plank)
	if use != nil {
		for _, part := range a.parts(use) {
			if at, ok := a.fits(p, part); ok {
				a.put(ref, use, at)
				return
			}
		}
	}
	next := a.another()
	a.remark("other-plank", "row", a.row(ref.Floor, ref.Row), "length", p.Length, "plank", next.Number)
	p.Plank = next.Number
	at, _ := a.fits(p, cutopt.Leftover{To: a.long, Ends: cutopt.EndsBoth})
	a.put(ref, next, at)
}

// fits returns where on a part of a plank a piece is cut.
func (a *application) fits(p *cutopt.Piece, part cutopt.Leftover) (measure.Length, bool) {
	if part.To-part.From < p.Length || p.Ends&^part.Ends != 0 {
		return 0, false
	}
	if p.Ends&cutopt.EndsRight != 0 {
		return part.To - p.Length, true
	}
	return part.From, true
}

// another returns one more plank.
func (a *application) another() *cutopt.PlankUse {
	a.plan.Planks = append(a.plan.Planks, cutopt.PlankUse{Number: len(a.plan.Planks) + 1})
	return &a.plan.Planks[len(a.plan.Planks)-1]
}

// put cuts a piece that lies from a place of a plank. What is planned of that plank is taken off it.
func (a *application) put(ref cutopt.PieceRef, use *cutopt.PlankUse, at measure.Length) {
	a.at[ref] = at
	use.Pieces = append(use.Pieces, ref)
	use.Opened = true
	a.settle(use)
}

// judge remarks which rules a run that lies otherwise than planned does not keep: they bind what is planned alone.
func (a *application) judge(f int, at [2]int) {
	floor := &a.plan.Floors[f]
	rules := &a.job.Rules
	run := &floor.Rows[at[0]].Runs[at[1]]
	for _, p := range run.Pieces {
		if len(run.Pieces) > 1 && p.Length < rules.MinPiece {
			a.remark("lies-short", "row", a.row(f, at[0]), "length", p.Length, "least", rules.MinPiece)
		}
	}
	for _, r := range []int{at[0] - 1, at[0] + 1} {
		if r < 0 || r >= len(floor.Rows) || rules.Stagger == 0 {
			continue
		}
		least := rules.Stagger
		for k := range floor.Rows[r].Runs {
			if beside := &floor.Rows[r].Runs[k]; beside.From < run.To && run.From < beside.To {
				least = min(least, closest(run, beside))
			}
		}
		if least < rules.Stagger {
			a.remark("lies-near", "row", a.row(f, at[0]), "other", r+1, "distance", least, "least", rules.Stagger)
		}
	}
}

// closest returns the least distance of an end joint of a run from one that lies in another; a kilometre for none.
func closest(run, beside *cutopt.PlanRun) measure.Length {
	least := cutopt.MaxLength
	for i := 1; i < len(run.Pieces); i++ {
		for k := 1; k < len(beside.Pieces); k++ {
			if beside.Pieces[k-1].Lies && beside.Pieces[k].Lies {
				d := run.Pieces[i].From - beside.Pieces[k].From
				least = min(least, max(d, -d))
			}
		}
	}
	return least
}
