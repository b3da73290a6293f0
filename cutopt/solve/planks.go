package solve

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// planks records how every plank is cut. Pieces are referred to by the plank number they carry.
func (a *assembler) planks() {
	// All references lie in one list, those of each plank together.
	begin := make([]int, len(a.floor.cutting.Planks)+1)
	for p := range a.plan.Pieces() {
		begin[p.Plank]++
	}
	for n := range a.floor.cutting.Planks {
		begin[n+1] += begin[n]
	}
	all, next := make([]cutopt.PieceRef, begin[len(begin)-1]), slices.Clone(begin)
	for r := range a.plan.Floors {
		for w := range a.plan.Floors[r].Rows {
			runs := a.plan.Floors[r].Rows[w].Runs
			for u := range runs {
				for p := range runs[u].Pieces {
					n := runs[u].Pieces[p].Plank - 1
					all[next[n]] = cutopt.PieceRef{Floor: r, Row: w, Run: u, Piece: p}
					next[n]++
				}
			}
		}
	}
	a.plan.Planks = make([]cutopt.PlankUse, len(begin)-1)
	for n := range a.plan.Planks {
		a.plan.Planks[n] = a.plank(n+1, all[begin[n]:begin[n+1]:begin[n+1]], a.floor.cutting.Planks[n])
	}
}

func (a *assembler) piece(r cutopt.PieceRef) *cutopt.Piece {
	return &a.plan.Floors[r.Floor].Rows[r.Row].Runs[r.Run].Pieces[r.Piece]
}

// plank lays out one plank: the piece with the left factory end first, the one with the right factory end last, what is
// left over between them; crosscuts are in the order in which their pieces are laid.
func (a *assembler) plank(number int, refs []cutopt.PieceRef, parts []rows.Part) cutopt.PlankUse {
	l, k := a.job.Plank.Length, a.job.Rules.Kerf
	use := cutopt.PlankUse{Number: number}
	slices.SortStableFunc(
		refs,
		func(x, y cutopt.PieceRef) int { return side(a.piece(x).Ends) - side(a.piece(y).Ends) },
	)
	use.Pieces = refs
	apart := measure.Length(0)
	if a.piece(refs[len(refs)-1]).AsItComes == 0 { // else what the plank has over comes with its starter
		gap, cuts := a.parting(parts)
		a.plan.Quality.Crosscuts += cuts
		apart = gap
	}
	at, ends := measure.Length(0), cutopt.EndsLeft
	offcut := func(to measure.Length, right cutopt.Ends) {
		if to > at {
			use.Left = append(use.Left, cutopt.Leftover{From: at, To: to, Ends: ends | right})
		}
	}
	for _, ref := range refs {
		p := a.piece(ref)
		if p.Ends == cutopt.EndsBoth {
			return use
		}
		if p.Ends == cutopt.EndsRight { // it ends the plank
			from := l - p.Length
			switch {
			case p.AsItComes > 0:
				a.uncut(from - at)
			case a.piece(refs[0]).AsItComes > 0: // from the left end to the cut of this piece
				a.uncut(from - k - at)
				use.Cuts = append(use.Cuts, cutopt.Cut{At: from - k})
			case from > at:
				offcut(from-k, cutopt.EndsNone)
				use.Cuts = append(use.Cuts, cutopt.Cut{At: from - k})
			}
			a.sequence(&use, refs)
			return use
		}
		if p.AsItComes > 0 {
			at = p.Length
			continue
		}
		if p.Ends == cutopt.EndsNone && at == 0 { // a one-piece run
			p.Ends = cutopt.EndsLeft
		}
		if at += p.Length; at == l {
			p.Ends |= cutopt.EndsRight
		}
		if at < l {
			use.Cuts = append(use.Cuts, cutopt.Cut{At: at})
		}
		at, ends = at+k, cutopt.EndsNone
		if apart > 0 {
			offcut(at+apart, cutopt.EndsNone)
			use.Cuts = append(use.Cuts, cutopt.Cut{At: at + apart})
			at, apart = at+apart+k, 0
		}
	}
	offcut(l, cutopt.EndsRight)
	a.sequence(&use, refs)
	return use
}

// parting returns how much is left over between an ender and a one-piece run that is sawn off the plank before it, as
// much as the fit allowance, with a kerf, so that the ender can still come out so much longer, and how many cuts more
// that takes. Both are cut to fit, so there must be enough for both; 0 where there is not, or no such pair.
func (p *problem) parting(parts []rows.Part) (gap measure.Length, cuts int) {
	kerf, fit := p.job.Rules.Kerf, p.job.Rules.Fit
	ender, single := -1, len(p.places)
	over := p.job.Plank.Length - kerf*measure.Length(len(parts)-1)
	for _, part := range parts {
		over -= part.Length
		switch part.Role {
		case rows.RoleEnder:
			ender = part.Run
		case rows.RoleSingle:
			single = min(single, part.Run)
		default:
			continue
		}
		over += fit
	}
	if ender < 0 || single > ender || p.places[ender].mirrored || fit <= kerf || over < 2*fit {
		return 0, 0
	}
	return fit - kerf, 1
}

// partings counts the cuts that parting adds to a floor whose starters are all sawn.
func (p *problem) partings(cutting *rows.Cutting) (n int) {
	for _, parts := range cutting.Planks {
		_, cuts := p.parting(parts)
		n += cuts
	}
	return n
}

// uncut counts an offcut that is laid as it comes, so much longer than planned: it is not sawn to its starter.
func (a *assembler) uncut(longer measure.Length) {
	a.slack += longer
	if longer > 0 {
		a.plan.Quality.Crosscuts--
	}
}

// side orders pieces along a plank by their factory end.
func side(e cutopt.Ends) int {
	return [...]int{cutopt.EndsNone: 1, cutopt.EndsLeft: 0, cutopt.EndsRight: 2, cutopt.EndsBoth: 1}[e]
}

// sequence puts the cut of the starter first where the starter is laid before the rest of the plank.
func (a *assembler) sequence(use *cutopt.PlankUse, refs []cutopt.PieceRef) {
	last := len(refs) - 1
	if last < 1 || a.piece(refs[last]).Ends != cutopt.EndsRight || !before(refs[last], refs[0]) {
		return
	}
	n := len(use.Cuts)
	use.Cuts = append([]cutopt.Cut{use.Cuts[n-1]}, use.Cuts[:n-1]...)
}

func before(a, b cutopt.PieceRef) bool {
	return slices.Compare([]int{a.Floor, a.Row, a.Run}, []int{b.Floor, b.Row, b.Run}) < 0
}
