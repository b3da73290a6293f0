package sheet

import (
	"cmp"
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A kind says what part a piece plays in its run.
type kind uint8

const (
	kindWhole   kind = iota // a whole plank
	kindStarter             // laid first, sawn towards the wall
	kindEnder               // laid last, cut to fit
	kindOnly                // fills its run alone
)

// A part is what is left of an opened plank, or one end of it, between two cuts.
type part struct {
	plank    int            // number
	from, to measure.Length // on the plank, from its left end
	born     *laid          // the piece whose cut made it
	next     *laid          // the piece that is cut from it next; nil when it is left over
}

func (p *part) length() measure.Length { return p.to - p.from }

// A laid is a piece with its place in the order of laying and how it is come by.
type laid struct {
	cutopt.Piece
	ref         cutopt.PieceRef
	order       int // from 0, over the whole job
	kind        kind
	plankFrom   measure.Length // where it lies on its plank
	plankTo     measure.Length
	source      *part // the offcut it is cut from; nil for a new plank
	sawLeft     bool  // its left end is sawn now; an offcut's own sawn end needs no second cut
	sawRight    bool
	left, right *part // what the cuts leave at either end; nil for nothing or sawdust
}

// parts lists what the cuts of the piece leave.
func (l *laid) parts() []*part {
	var list []*part
	for _, p := range []*part{l.left, l.right} {
		if p != nil {
			list = append(list, p)
		}
	}
	return list
}

// A laying is a plan read in the order in which it is laid.
type laying struct {
	job    *cutopt.Job
	plan   *cutopt.Plan
	pieces []*laid     // in the order of laying
	planks [][]*laid   // pieces of each plank, from its left end
	rows   [][]laidRow // by room, from the starting wall
	pile   []*part     // every offcut that is used later, in the order they arise
}

// A laidRow is one row: its runs, each with its pieces, in the order of laying.
type laidRow struct {
	room, row int
	runs      [][]*laid
}

// readLaying checks that a plan holds together and belongs to its job, and puts it in the order of laying. It takes
// O(pieces log pieces).
func readLaying(job *cutopt.Job, plan *cutopt.Plan) (*laying, error) {
	l := &laying{job: job, plan: plan}
	if err := checkJob(job); err != nil {
		return nil, err
	}
	if err := l.collect(); err != nil {
		return nil, err
	}
	byRef := make(map[cutopt.PieceRef]*laid, len(l.pieces))
	for _, p := range l.pieces {
		byRef[p.ref] = p
	}
	l.planks = make([][]*laid, len(plan.Planks))
	for i := range plan.Planks {
		if err := l.placeOnPlank(i, byRef); err != nil {
			return nil, err
		}
	}
	for _, p := range l.pieces {
		if p.plankTo == 0 {
			return nil, fmt.Errorf("sheet: %s is on no plank of Plan.Planks: is this plan complete?", where(p.ref))
		}
	}
	slices.SortFunc(l.pile, func(a, b *part) int {
		return cmp.Or(cmp.Compare(a.born.order, b.born.order), cmp.Compare(a.from, b.from))
	})
	return l, nil
}

// collect lists the pieces in the order of laying.
func (l *laying) collect() error {
	l.rows = make([][]laidRow, len(l.plan.Rooms))
	for i := range l.plan.Rooms {
		room := &l.plan.Rooms[i]
		for j := range room.Rows {
			if err := checkRow(i, j, &room.Rows[j]); err != nil {
				return err
			}
			lr := laidRow{room: i, row: j}
			for _, k := range fromHand(len(room.Rows[j].Runs), room.From) {
				run := &room.Rows[j].Runs[k]
				var pieces []*laid
				for _, n := range fromHand(len(run.Pieces), room.From) {
					p := &laid{Piece: run.Pieces[n], ref: cutopt.PieceRef{Room: i, Row: j, Run: k, Piece: n}, order: len(l.pieces)}
					l.pieces, pieces = append(l.pieces, p), append(pieces, p)
				}
				setKinds(pieces, l.job.Plank.Length)
				lr.runs = append(lr.runs, pieces)
			}
			l.rows[i] = append(l.rows[i], lr)
		}
	}
	return nil
}

// fromHand lists 0 to n-1 from the left or from the right.
func fromHand(n int, hand cutopt.Hand) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
		if hand == cutopt.HandRight {
			list[i] = n - 1 - i
		}
	}
	return list
}

// setKinds tells the pieces of a run apart, given in the order of laying.
func setKinds(pieces []*laid, plank measure.Length) {
	for i, p := range pieces {
		switch {
		case p.Length == plank && p.Ends == cutopt.EndsBoth:
			p.kind = kindWhole
		case len(pieces) == 1:
			p.kind = kindOnly
		case i == 0:
			p.kind = kindStarter
		case i == len(pieces)-1:
			p.kind = kindEnder
		}
	}
}

// placeOnPlank finds where the pieces of a plank lie on it and follows its parts through the order of laying.
func (l *laying) placeOnPlank(i int, byRef map[cutopt.PieceRef]*laid) error {
	use := &l.plan.Planks[i]
	if use.Number != i+1 {
		return fmt.Errorf("sheet: Plan.Planks[%d].Number is %d: plank numbers count from 1", i, use.Number)
	}
	offcuts := make(map[measure.Length]measure.Length, len(use.Left))
	for _, o := range use.Left {
		offcuts[o.From] = o.To
	}
	cuts := make(map[measure.Length]bool, len(use.Cuts))
	for _, c := range use.Cuts {
		cuts[c.At] = true
	}
	at := measure.Length(0)
	step := func(to measure.Length) {
		at = to
		if cuts[at] {
			at += l.job.Rules.Kerf
		}
	}
	for j, ref := range use.Pieces {
		p := byRef[ref]
		if p == nil || p.Plank != use.Number || p.plankTo > 0 {
			return fmt.Errorf("sheet: Plan.Planks[%d].Pieces[%d] names %s, which is no piece of plank %d or is named twice",
				i, j, where(ref), use.Number)
		}
		if to, ok := offcuts[at]; ok && to > at {
			step(to)
		}
		p.plankFrom, p.plankTo = at, at+p.Length
		if end := l.job.Plank.Length - p.Length; p.Ends&cutopt.EndsRight != 0 && end > at {
			p.plankFrom, p.plankTo = end, l.job.Plank.Length // its right end is the plank's
		}
		step(p.plankTo)
		l.planks[i] = append(l.planks[i], p)
		if p.plankTo > l.job.Plank.Length {
			return fmt.Errorf("sheet: Plan.Planks[%d] is cut into %d ticks, its length is %d: is this plan made from this job?",
				i, p.plankTo, l.job.Plank.Length)
		}
	}
	return l.follow(i)
}

// follow cuts the pieces of a plank from it in the order they are laid and records what every cut leaves.
func (l *laying) follow(i int) error {
	whole := &part{plank: i + 1, to: l.job.Plank.Length}
	parts := []*part{whole}
	order := slices.Clone(l.planks[i])
	slices.SortFunc(order, func(a, b *laid) int { return cmp.Compare(a.order, b.order) })
	for _, p := range order {
		at := slices.IndexFunc(parts, func(q *part) bool { return q.from <= p.plankFrom && p.plankTo <= q.to })
		if at < 0 {
			return fmt.Errorf("sheet: Plan.Planks[%d].Cuts leave no kerf of %d ticks beside %s: is this plan made from this job?",
				i, l.job.Rules.Kerf, where(p.ref))
		}
		from := parts[at]
		parts = slices.Delete(parts, at, at+1)
		if from != whole {
			p.source = from
		}
		p.sawLeft, p.sawRight = p.plankFrom > from.from, p.plankTo < from.to
		kerf := l.job.Rules.Kerf
		if left := (&part{plank: i + 1, from: from.from, to: p.plankFrom - kerf, born: p}); left.length() > 0 {
			p.left = left
		}
		if right := (&part{plank: i + 1, from: p.plankTo + kerf, to: from.to, born: p}); right.length() > 0 {
			p.right = right
		}
		for _, q := range p.parts() {
			q.next = firstWithin(order, p, q)
			if q.next != nil {
				parts, l.pile = append(parts, q), append(l.pile, q)
			}
		}
	}
	return nil
}

// firstWithin returns the first piece after p, in the order of laying, that is cut from a part.
func firstWithin(order []*laid, p *laid, q *part) *laid {
	for _, o := range order {
		if o.order > p.order && q.from <= o.plankFrom && o.plankTo <= q.to {
			return o
		}
	}
	return nil
}

// pileAfter lists the offcuts that lie about when a piece has been laid, in the order they arose.
func (l *laying) pileAfter(order int) []*part {
	var list []*part
	for _, q := range l.pile {
		if q.born.order <= order && q.next.order > order {
			list = append(list, q)
		}
	}
	return list
}

// shared reports whether a plank gives more than one piece.
func (l *laying) shared(plank int) bool { return len(l.planks[plank-1]) > 1 }
