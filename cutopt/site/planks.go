package site

import (
	"cmp"
	"slices"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// parts returns what is on hand of a plank: what neither lies nor is gone, less the kerfs beside what lies.
func (a *application) parts(use *cutopt.PlankUse) []cutopt.Leftover {
	taken := slices.Clone(use.Gone)
	for _, ref := range use.Pieces {
		p := a.plan.Piece(ref)
		if p == nil || !p.Lies {
			continue
		}
		from, to := a.at[ref], a.at[ref]+p.Length
		if p.AsItComes > 0 { // it took all that its offcut was
			from, to = a.whole(use, ref)
		}
		if p.Ends&cutopt.EndsLeft == 0 {
			from -= a.kerf
		}
		if p.Ends&cutopt.EndsRight == 0 {
			to += a.kerf
		}
		taken = append(taken, cutopt.Leftover{From: from, To: to})
	}
	return a.between(taken)
}

// whole returns how far a piece that was laid as it came reaches on its plank: to the pieces beside it that lie.
func (a *application) whole(use *cutopt.PlankUse, ref cutopt.PieceRef) (from, to measure.Length) {
	from, to = 0, a.long
	for _, other := range use.Pieces {
		q := a.plan.Piece(other)
		switch at := a.at[other]; {
		case other == ref || q == nil || !q.Lies:
		case at < a.at[ref]:
			from = max(from, at+q.Length+a.kerf)
		default:
			to = min(to, at-a.kerf)
		}
	}
	return from, to
}

// between returns what is left of a plank between parts that are taken.
func (a *application) between(taken []cutopt.Leftover) []cutopt.Leftover {
	slices.SortFunc(taken, func(p, q cutopt.Leftover) int { return cmp.Compare(p.From, q.From) })
	var out []cutopt.Leftover
	at := measure.Length(0)
	for _, t := range taken {
		if t.From > at {
			out = append(out, a.part(at, t.From))
		}
		at = max(at, t.To)
	}
	if at < a.long {
		out = append(out, a.part(at, a.long))
	}
	return out
}

// part returns a part of a plank with its factory ends.
func (a *application) part(from, to measure.Length) cutopt.Leftover {
	o := cutopt.Leftover{From: from, To: to}
	if from == 0 {
		o.Ends |= cutopt.EndsLeft
	}
	if to == a.long {
		o.Ends |= cutopt.EndsRight
	}
	return o
}

// settle takes what is planned of a plank off it, and says anew where it was sawn and what is left.
func (a *application) settle(use *cutopt.PlankUse) {
	use.Pieces = slices.DeleteFunc(use.Pieces, func(r cutopt.PieceRef) bool {
		p := a.plan.Piece(r)
		return p == nil || !p.Lies
	})
	slices.SortFunc(use.Pieces, func(p, q cutopt.PieceRef) int { return cmp.Compare(a.at[p], a.at[q]) })
	slices.SortFunc(use.Gone, func(p, q cutopt.Leftover) int { return cmp.Compare(p.From, q.From) })
	use.Left, use.Cuts = a.parts(use), nil
	ends := make(map[measure.Length]bool) // where something ends
	for _, o := range use.Left {
		ends[o.To] = true
	}
	for _, ref := range use.Pieces {
		p := a.plan.Piece(ref)
		end := a.at[ref] + p.Length
		if p.AsItComes > 0 {
			_, end = a.whole(use, ref)
		}
		ends[end] = true
	}
	delete(ends, a.long)
	for _, g := range use.Gone {
		delete(ends, g.From)
	}
	for end := range ends {
		use.Cuts = append(use.Cuts, cutopt.Cut{At: end})
	}
	slices.SortFunc(use.Cuts, func(p, q cutopt.Cut) int { return cmp.Compare(p.At, q.At) })
}

// losses works in what was lost, culled and miscut, and the offcuts that came from elsewhere, in the order told.
func (a *application) losses(s *State) {
	for i := range s.Events {
		e := &s.Events[i]
		switch e.Kind {
		case KindLost, KindOffcuts:
			for _, n := range e.Planks {
				a.lose(e, a.use(n))
			}
		case KindCulled:
			if n := a.unopened(); e.Count > n && !counted(s) {
				a.refuse(e, "count the planks that are here: planks 14", "only %d whole planks are left", n)
				return
			}
			for range e.Count {
				a.plan.Planks = append(a.plan.Planks, cutopt.PlankUse{
					Number: len(a.plan.Planks) + 1, Opened: true, Gone: []cutopt.Leftover{a.part(0, a.long)},
				})
			}
		case KindMiscut:
			a.miscut(e)
		case KindOffcut:
			a.bring(e)
		}
	}
}

// lose takes all that does not lie of a plank.
func (a *application) lose(e *Event, use *cutopt.PlankUse) {
	if e.Kind == KindOffcuts && !use.Opened {
		a.refuse(e, "write lost and its number for a whole plank", "plank %d has no offcut: nothing of it is sawn",
			use.Number)
		return
	}
	gone := a.parts(use)
	if len(gone) == 0 {
		a.refuse(e, "see the number on the plank, and on the plan", "nothing of plank %d is left to be lost", use.Number)
		return
	}
	for i := range gone { // with the kerf of a one-piece run that was sawn off beyond, which begins where this ends
		if slices.ContainsFunc(use.Pieces, func(r cutopt.PieceRef) bool {
			p := a.plan.Piece(r)
			return p != nil && p.Lies && p.Ends&cutopt.EndsRight == 0 && a.at[r] == gone[i].To+a.kerf
		}) {
			gone[i].To += a.kerf
		}
	}
	use.Opened, use.Gone = true, append(use.Gone, gone...)
	a.settle(use)
}

// miscut saws a plank in the wrong place: only the kerf is gone, and what is on its two sides is on hand.
func (a *application) miscut(e *Event) {
	use := a.use(e.Planks[0])
	if e.Length <= 0 || e.Length+a.kerf >= a.long {
		a.refuse(e, "measure the part that has that factory end", "the part is shorter than a plank of %s", a.format(a.long))
		return
	}
	from := e.Length
	if e.Ends == cutopt.EndsRight {
		from = a.long - e.Length - a.kerf
	}
	for _, part := range a.parts(use) {
		if part.From < from && from+a.kerf < part.To {
			use.Opened, use.Gone = true, append(use.Gone, a.part(from, from+a.kerf))
			a.settle(use)
			return
		}
	}
	a.refuse(e, "measure from the factory end, and see the number on the plank",
		"no cut there can be in what plank %d has on hand: %s", use.Number, a.list(a.parts(use)))
}

// list says what is on hand of a plank, by places from its left end.
func (a *application) list(parts []cutopt.Leftover) string {
	if len(parts) == 0 {
		return "nothing"
	}
	said := make([]string, len(parts))
	for i, p := range parts {
		grid := measure.Sixteenth
		if a.unit.Metric() {
			grid = measure.Millimetre
		}
		said[i] = p.From.Format(a.unit, grid) + " to " + p.To.Format(a.unit, grid)
	}
	return strings.Join(said, ", ")
}

// bring adds an offcut that is no part of the job's planks.
func (a *application) bring(e *Event) {
	slack := a.long - e.Length
	if e.Length <= 0 || slack <= 0 || e.Ends == cutopt.EndsNone && slack < 2 {
		a.refuse(e, "count a whole plank: planks 1", "an offcut is shorter than a plank: %s", a.format(a.long))
		return
	}
	use := cutopt.PlankUse{Number: len(a.plan.Planks) + 1, Opened: true, Brought: true}
	switch e.Ends {
	case cutopt.EndsLeft:
		use.Gone = []cutopt.Leftover{a.part(e.Length, a.long)}
	case cutopt.EndsRight:
		use.Gone = []cutopt.Leftover{a.part(0, slack)}
	case cutopt.EndsNone:
		use.Gone = []cutopt.Leftover{a.part(0, slack/2), a.part(slack/2+e.Length, a.long)}
	default:
		a.refuse(e, "count a whole plank: planks 1", "an offcut has one factory end at most")
		return
	}
	use.Lot = e.Lot
	use.Left = a.parts(&use)
	a.plan.Planks = append(a.plan.Planks, use)
}

// unopened returns how many whole planks there are by the plan: those bought and brought, less those opened.
func (a *application) unopened() int {
	bought, brought := a.was.Order.Boxes, 0
	if site := a.was.Site; site != nil {
		brought = site.Brought
	}
	return bought*a.was.Order.PlanksPerBox + brought - opened(a.plan)
}

// opened counts the planks of a plan that are no whole planks any more.
func opened(p *cutopt.Plan) (n int) {
	for i := range p.Planks {
		if p.Planks[i].Opened && !p.Planks[i].Brought {
			n++
		}
	}
	return n
}
