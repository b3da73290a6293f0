package main

import (
	"cmp"
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A laying tells a plan in the order it is laid: where each cut piece comes from and what becomes of its offcuts.
type laying struct {
	plan    *cutopt.Plan
	plank   measure.Length
	kerf    measure.Length
	pieces  map[cutopt.PieceRef]*source
	several bool // more than one room
}

// A source is where a piece is cut from and what is left of that part of the plank.
type source struct {
	from  *cutopt.PieceRef // the piece whose offcut it is cut from; nil for a new plank
	rests []rest
}

// A rest is an offcut that arises when a piece is cut.
type rest struct {
	length measure.Length
	next   *cutopt.PieceRef // the piece it becomes; nil when it is left over
}

// A segment is a piece's place on its plank, from the plank's left end.
type segment struct {
	ref      cutopt.PieceRef
	from, to measure.Length
}

func newLaying(job *cutopt.Job, plan *cutopt.Plan) *laying {
	l := &laying{
		plan: plan, plank: job.Plank.Length, kerf: job.Rules.Kerf,
		pieces: make(map[cutopt.PieceRef]*source), several: len(plan.Rooms) > 1,
	}
	for i := range plan.Planks {
		l.cutUp(&plan.Planks[i])
	}
	return l
}

// cutUp follows one plank through the floor: its pieces are cut in the order they are laid, each from the part of the
// plank that then holds it.
func (l *laying) cutUp(use *cutopt.PlankUse) {
	type part struct {
		from, to measure.Length
		parent   *cutopt.PieceRef
	}
	segments := l.segments(use)
	parts := []part{{0, l.plank, nil}}
	for len(segments) > 0 {
		s := segments[0]
		segments = segments[1:]
		at := slices.IndexFunc(parts, func(p part) bool { return p.from <= s.from && s.to <= p.to })
		if at < 0 { // no plan that keeps the rules comes here; say only that the plank is new
			l.pieces[s.ref] = &source{}
			continue
		}
		p := parts[at]
		parts = slices.Delete(parts, at, at+1)
		src := &source{from: p.parent}
		for _, r := range []part{{p.from, s.from - l.kerf, &s.ref}, {s.to + l.kerf, p.to, &s.ref}} {
			if r.to <= r.from {
				continue
			}
			next := slices.IndexFunc(segments, func(n segment) bool { return r.from <= n.from && n.to <= r.to })
			left := rest{length: r.to - r.from}
			if next >= 0 {
				left.next = &segments[next].ref
				parts = append(parts, r)
			}
			src.rests = append(src.rests, left)
		}
		l.pieces[s.ref] = src
	}
}

// segments returns the plank's pieces in laying order with their places on the plank. A piece with one factory end lies
// at that end of the plank; others follow from left to right, a kerf apart.
func (l *laying) segments(use *cutopt.PlankUse) []segment {
	var segments []segment
	x := measure.Length(0)
	offcuts := use.Left
	for _, ref := range use.Pieces {
		for len(offcuts) > 0 && offcuts[0].From == x {
			x = offcuts[0].To + l.kerf
			offcuts = offcuts[1:]
		}
		p := l.piece(ref)
		if p.Ends == cutopt.EndsRight {
			x = l.plank - p.Length
		}
		segments = append(segments, segment{ref, x, x + p.Length})
		x += p.Length + l.kerf
	}
	slices.SortStableFunc(segments, func(a, b segment) int { return l.order(a.ref, b.ref) })
	return segments
}

// order compares two pieces by when they are laid.
func (l *laying) order(a, b cutopt.PieceRef) int {
	if c := cmp.Or(cmp.Compare(a.Room, b.Room), cmp.Compare(a.Row, b.Row)); c != 0 {
		return c
	}
	c := cmp.Or(cmp.Compare(a.Run, b.Run), cmp.Compare(a.Piece, b.Piece))
	if l.plan.Rooms[a.Room].From == cutopt.HandRight {
		return -c
	}
	return c
}

func (l *laying) piece(ref cutopt.PieceRef) *cutopt.Piece {
	return &l.plan.Rooms[ref.Room].Rows[ref.Row].Runs[ref.Run].Pieces[ref.Piece]
}

// row names the run that a piece lies in, as the column Row of its room's table does.
func (l *laying) row(ref cutopt.PieceRef) string {
	name := fmt.Sprint(ref.Row + 1)
	if len(l.plan.Rooms[ref.Room].Rows[ref.Row].Runs) > 1 {
		name += runLetter(ref.Run)
	}
	return name
}

// runLetter numbers the runs of a row: a to z, then .27, .28 and so on
func runLetter(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return fmt.Sprintf(".%d", i+1)
}

// rowFrom names the run that a piece lies in, seen from another room.
func (l *laying) rowFrom(ref cutopt.PieceRef, room int) string {
	if ref.Room != room {
		return clean(l.plan.Rooms[ref.Room].Name) + " row " + l.row(ref)
	}
	return "row " + l.row(ref)
}

// from says what a piece is cut from: a new plank, or an offcut of the row named.
func (l *laying) from(ref cutopt.PieceRef) string {
	src := l.pieces[ref]
	if src == nil || src.from == nil {
		return "new"
	}
	return l.rowFrom(*src.from, ref.Room)
}

// becomes says what becomes of an offcut of a piece laid in the given room.
func (l *laying) becomes(r rest, room int, print func(measure.Length) string) string {
	if r.next == nil {
		return print(r.length) + " over"
	}
	verb := "lies in"
	run := &l.plan.Rooms[r.next.Room].Rows[r.next.Row].Runs[r.next.Run]
	if len(run.Pieces) > 1 {
		verb = "ends"
		if l.isStarter(*r.next) {
			verb = "starts"
		}
	}
	place := l.row(*r.next)
	if r.next.Room != room {
		place = l.rowFrom(*r.next, room)
	}
	return print(r.length) + " " + verb + " " + place
}

// isStarter reports whether the piece is the first of its run to be laid.
func (l *laying) isStarter(ref cutopt.PieceRef) bool {
	room := &l.plan.Rooms[ref.Room]
	if room.From == cutopt.HandRight {
		return ref.Piece == len(room.Rows[ref.Row].Runs[ref.Run].Pieces)-1
	}
	return ref.Piece == 0
}
