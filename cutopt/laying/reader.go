package laying

import (
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A reader makes a sequence from a plan.
type reader struct {
	plan       *cutopt.Plan
	long, kerf measure.Length // of a plank; of a cut
	listed     []bool         // by Piece.Order: a plank has listed it
	slab       []*Piece       // what the lists of the planks' pieces are cut from
	seq        Sequence
}

// rooms lists rows, runs and pieces in the order of laying.
func (r *reader) rooms() error {
	r.seq.Floors = make([][]Row, len(r.plan.Floors))
	n := 0
	for range r.plan.Pieces() {
		n++
	}
	r.seq.Pieces, r.slab = make([]*Piece, 0, n), make([]*Piece, 0, n)
	for i := range r.plan.Floors {
		floor := &r.plan.Floors[i]
		for j := range floor.Rows {
			row := Row{Floor: i, Row: j}
			runs := floor.Rows[j].Runs
			for k := range runs {
				k = fromHand(k, len(runs), floor.LaidFrom)
				run := &Run{Index: k, Name: runName(j, k, len(runs))}
				of := runs[k].Pieces
				pieces := make([]Piece, len(of))
				run.Pieces = make([]*Piece, len(of))
				for m := range pieces {
					p, n := &pieces[m], fromHand(m, len(of), floor.LaidFrom)
					ref := cutopt.PieceRef{Floor: i, Row: j, Run: k, Piece: n}
					*p = Piece{Piece: &of[n], Ref: ref, Run: run, Order: len(r.seq.Pieces)}
					r.seq.Pieces, run.Pieces[m] = append(r.seq.Pieces, p), p
				}
				if err := r.kinds(run); err != nil {
					return err
				}
				row.Runs = append(row.Runs, run)
			}
			row.Laid = len(r.seq.Pieces)
			r.seq.Floors[i] = append(r.seq.Floors[i], row)
		}
	}
	return nil
}

// fromHand returns the index from the left of the i-th of n from a hand, and the other way round.
func fromHand(i, n int, hand cutopt.Hand) int {
	if hand == cutopt.HandRight {
		return n - 1 - i
	}
	return i
}

// piece returns the piece that a reference names; nil where the plan has none there.
func (r *reader) piece(ref cutopt.PieceRef) *Piece {
	if r.plan.Piece(ref) == nil {
		return nil
	}
	hand, runs := r.plan.Floors[ref.Floor].LaidFrom, r.seq.Floors[ref.Floor][ref.Row].Runs
	pieces := runs[fromHand(ref.Run, len(runs), hand)].Pieces
	return pieces[fromHand(ref.Piece, len(pieces), hand)]
}

// runName names a run of a row that has so many: letters from a to z, then .27, .28 and so on.
func runName(row, run, runs int) string {
	switch {
	case runs == 1:
		return fmt.Sprint(row + 1)
	case run < 26:
		return fmt.Sprintf("%d%c", row+1, 'a'+run)
	}
	return fmt.Sprintf("%d.%d", row+1, run+1)
}

// kinds checks the lengths of a run's pieces and tells the pieces apart.
func (r *reader) kinds(run *Run) error {
	last := len(run.Pieces) - 1
	for i, p := range run.Pieces {
		if p.Length <= 0 || p.Length != p.To-p.From {
			return fmt.Errorf("laying: %s runs from %d to %d ticks and is %d long: To is above From, Length is To-From",
				name(p.Ref), p.From, p.To, p.Length)
		}
		if p.Length > r.long {
			return fmt.Errorf("laying: %s is %d ticks long, Job.Plank.Length is %d: is this plan made from this job?",
				name(p.Ref), p.Length, r.long)
		}
		switch {
		case p.Length == r.long && p.Ends == cutopt.EndsBoth:
			p.Role = RoleWhole
		case last == 0:
			p.Role = RoleSingle
		case i == 0:
			p.Role = RoleStarter
		case i == last:
			p.Role = RoleEnder
		default:
			return fmt.Errorf(
				"laying: %s lies between others and is %d ticks long with the factory ends %v: only whole planks, %d ticks with "+
					"both, lie there",
				name(p.Ref),
				p.Length,
				p.Ends,
				r.long,
			)
		}
	}
	return nil
}

// planks places every piece on its plank and cuts the planks up.
func (r *reader) planks() error {
	r.seq.Planks = make([][]*Piece, len(r.plan.Planks))
	r.listed = make([]bool, len(r.seq.Pieces))
	for i := range r.plan.Planks {
		pieces, err := r.onPlank(i)
		if err != nil {
			return err
		}
		r.seq.Planks[i] = pieces
		if len(pieces) == 1 && pieces[0].Role == RoleWhole && r.plain(i) {
			continue // it lies from end to end, and nothing is sawn
		}
		all, err := r.place(i, pieces)
		if err != nil {
			return err
		}
		for _, on := range all {
			r.cutUp(i, on)
		}
	}
	for _, p := range r.seq.Pieces {
		if !r.listed[p.Order] {
			return fmt.Errorf("laying: %s is on no plank: is this plan complete?", name(p.Ref))
		}
	}
	return nil
}

// plain reports whether nothing of a plank is gone, nothing is left over and nothing sawn.
func (r *reader) plain(i int) bool {
	use := &r.plan.Planks[i]
	return len(use.Gone) == 0 && len(use.Left) == 0 && len(use.Cuts) == 0
}

// onPlank takes the pieces of a plank from those that no plank has listed yet.
func (r *reader) onPlank(i int) ([]*Piece, error) {
	use := &r.plan.Planks[i]
	if use.Number != i+1 {
		return nil, fmt.Errorf("laying: planks[%d].number is %d: plank numbers count from 1", i+1, use.Number)
	}
	begin := len(r.slab)
	for j, ref := range use.Pieces {
		p := r.piece(ref)
		if p == nil || p.Plank != use.Number || r.listed[p.Order] {
			return nil, fmt.Errorf("laying: planks[%d].pieces[%d] names %s, which is no piece of plank %d or is named twice",
				i+1, j+1, name(ref), use.Number)
		}
		r.listed[p.Order] = true
		r.slab = append(r.slab, p)
	}
	return r.slab[begin:len(r.slab):len(r.slab)], nil
}

// A stretch is a part of a plank between parts that are gone: the whole plank where nothing is. It holds so many
// pieces.
type stretch struct {
	from, to measure.Length
	pieces   []*Piece
}

// stretches returns the stretches of a plank, still without pieces.
func (r *reader) stretches(i int) ([]stretch, error) {
	at := measure.Length(0)
	var out []stretch
	for k, gone := range r.plan.Planks[i].Gone {
		if gone.From < at || gone.To < gone.From || gone.To > r.long {
			return nil, fmt.Errorf("laying: planks[%d].gone[%d] is from %d to %d ticks: parts follow each other on the plank",
				i+1, k+1, gone.From, gone.To)
		}
		out = append(out, stretch{from: at, to: gone.From})
		at = gone.To
	}
	return append(out, stretch{from: at, to: r.long}), nil
}

// place finds where the pieces of a plank lie on it: one after the other from the left end of each stretch, with the
// plan's offcuts between them and a kerf after each; a piece with the plank's right end lies there, behind up to a kerf
// of sawdust. It returns the stretches with their pieces.
func (r *reader) place(i int, pieces []*Piece) ([]stretch, error) {
	use := &r.plan.Planks[i]
	offcuts := make(map[measure.Length]measure.Length, len(use.Left))
	for _, o := range use.Left {
		if o.From < o.To && o.To <= r.long {
			offcuts[o.From] = o.To
		}
	}
	cuts := make(map[measure.Length]bool, len(use.Cuts))
	for _, c := range use.Cuts {
		cuts[c.At] = true
	}
	all, err := r.stretches(i)
	if err != nil {
		return nil, err
	}
	n := 0            // the stretch that is being filled
	at := all[0].from // at most a kerf beyond it
	// saw cuts at the end of what lies before there.
	saw := func(there measure.Length) error {
		if at = there; at < all[n].to {
			if !cuts[at] {
				return fmt.Errorf(
					"laying: planks[%d].cuts has none at %d ticks, where a piece or an offcut ends: is this plan complete?",
					i+1,
					at,
				)
			}
			at += r.kerf
		}
		return nil
	}
	for k, p := range pieces {
		for {
			if end, ok := offcuts[at]; ok && at < all[n].to {
				delete(offcuts, at) // each once, whatever the kerf
				if err := saw(end); err != nil {
					return nil, err
				}
			} else if at >= all[n].to && n+1 < len(all) {
				n++
				at = all[n].from
			} else {
				break
			}
		}
		p.At = at
		if p.Ends&cutopt.EndsRight != 0 {
			p.At = max(at, r.long-p.Length)
		}
		end := p.At + p.Length
		if end > all[n].to {
			return nil, fmt.Errorf("laying: planks[%d] is cut into %d ticks, its length is %d: is this plan made from "+
				"this job?", i+1, end, all[n].to)
		}
		if next := k + 1; p.AsItComes > 0 && p.Ends == cutopt.EndsLeft && next < len(pieces) {
			end = max(end, r.long-pieces[next].Length-r.kerf) // it reaches to where the next piece is sawn off
		}
		if err := saw(end); err != nil {
			return nil, err
		}
		all[n].pieces = append(all[n].pieces, p)
	}
	return all, nil
}

// cutUp cuts a stretch of a plank in the order of laying and records what every cut leaves. The piece laid first of all
// that a part of the plank holds is cut from it, and leaves a part on either side for those further left and further
// right: with the order of laying as key, the pieces from left to right make a Cartesian tree (Vuillemin 1980), which a
// stack builds in O(pieces). Of a plank of which some is gone each stretch is an offcut before its first cut, but for
// that of the piece which was sawn from the whole plank.
func (r *reader) cutUp(i int, on stretch) {
	spoilt := len(r.plan.Planks[i].Gone) > 0
	if len(on.pieces) == 0 {
		if spoilt && on.from < on.to {
			r.seq.found = append(r.seq.found, r.part(i, on.from, on.to))
		}
		return
	}
	left, right := make(map[*Piece]*Piece), make(map[*Piece]*Piece)
	var spine []*Piece // the piece that is cut first, the first of those to its right, and so on
	for _, p := range on.pieces {
		for len(spine) > 0 && sawnBefore(p, spine[len(spine)-1]) {
			left[p], spine = spine[len(spine)-1], spine[:len(spine)-1]
		}
		if len(spine) > 0 {
			right[spine[len(spine)-1]] = p
		}
		spine = append(spine, p)
	}
	if spoilt && spine[0] != r.opener(i) {
		o := r.part(i, on.from, on.to)
		o.Next, spine[0].Source = spine[0], o
		r.seq.found = append(r.seq.found, o)
	}
	for todo := []*Piece{spine[0]}; len(todo) > 0; {
		p := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		from, to := on.from, on.to
		if p.Source != nil {
			from, to = p.Source.From, p.Source.To
		}
		end := p.At + p.Length
		if p.AsItComes > 0 && p.Source != nil {
			continue // nothing is sawn and nothing left
		}
		if p.SawLeft, p.SawRight = p.At > from, end < to; p.Source == nil {
			p.SawLeft, p.SawRight = p.At > 0, end < r.long
		}
		for _, side := range []struct {
			from, to measure.Length
			next     *Piece
		}{{from, p.At - r.kerf, left[p]}, {end + r.kerf, to, right[p]}} {
			if side.to <= side.from {
				continue
			}
			o := r.part(i, side.from, side.to)
			o.Of, o.Next = p, side.next
			p.Offcuts = append(p.Offcuts, o)
			if o.Next != nil {
				o.Next.Source = o
				todo = append(todo, o.Next)
			}
		}
	}
}

// opener returns the piece that lies and was sawn from the whole plank; nil where none was.
func (r *reader) opener(i int) (first *Piece) {
	if r.plan.Planks[i].Brought {
		return nil
	}
	for _, p := range r.seq.Planks[i] {
		if p.Lies && (first == nil || p.Order < first.Order) {
			first = p
		}
	}
	return first
}

// sawnBefore reports whether a piece is cut before another of its plank: what lies is.
func sawnBefore(p, q *Piece) bool {
	if p.Lies != q.Lies {
		return p.Lies
	}
	return p.Order < q.Order
}

// part returns a part of a plank as an offcut.
func (r *reader) part(i int, from, to measure.Length) *Offcut {
	o := &Offcut{From: from, To: to, Plank: i + 1}
	if from == 0 {
		o.Ends |= cutopt.EndsLeft
	}
	if to == r.long {
		o.Ends |= cutopt.EndsRight
	}
	return o
}

// name names a piece in an error, as plan files count: from 1.
func name(r cutopt.PieceRef) string {
	return fmt.Sprintf("floors[%d].rows[%d].runs[%d].pieces[%d]", r.Floor+1, r.Row+1, r.Run+1, r.Piece+1)
}
