package solve

import (
	"cmp"
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A part is what is on hand of an opened plank, from sawn end to sawn end, or to where something is gone.
type part struct {
	plank    int // index
	from, to measure.Length
	usable   measure.Length // what of it can be counted on: less where it ends beside a piece that was cut to fit
	ends     cutopt.Ends
	destined []rows.Part // what the plan before cuts from it, runs by problem
}

// open finds where the pieces of a plank lie on it, and what of it is on hand.
func (s *standing) open(k int) error {
	use := &s.uses[k]
	use.Gone = slices.Clone(use.Gone)
	slices.SortStableFunc(use.Gone, func(a, b cutopt.Leftover) int { return cmp.Compare(a.From, b.From) })
	s.spans[k] = s.placed(use)
	lies := slices.ContainsFunc(use.Pieces, func(ref cutopt.PieceRef) bool { return s.before.Piece(ref).Lies })
	if (use.Opened || use.Brought) && !lies && len(use.Gone) == 0 {
		return &cutopt.FieldError{
			Field: fmt.Sprintf("plan.planks[%d].opened", k+1), Value: fmt.Sprint(use.Opened),
			Rule: "of a plank that is opened or brought as an offcut something lies or is gone",
			Mend: "say of the plank again what lies of it and what is lost",
		}
	}
	if use.Opened = use.Opened || lies || use.Brought || len(use.Gone) > 0; !use.Opened {
		var parts []rows.Part
		for n, ref := range use.Pieces {
			if part, ok := s.partOf(k, n, ref); ok {
				parts = append(parts, part)
			}
		}
		if len(parts) > 0 {
			s.whole = append(s.whole, parts)
		}
		return nil
	}
	return s.remains(k)
}

// placed returns where each piece lies on its plank: one with the left factory end at its left, one with the right at
// its right, others where the kerf before them ends. What was laid as it comes takes all that there was.
func (s *standing) placed(use *cutopt.PlankUse) []span {
	l, kerf := s.job.Plank.Length, s.job.Rules.Kerf
	out := make([]span, len(use.Pieces))
	pos := measure.Length(0)
	pass := func() { // over what is gone or left over there
		for again := true; again; {
			again = false
			for _, g := range use.Gone {
				if g.From == pos && g.To > pos {
					pos, again = g.To, true
				}
			}
			for _, o := range use.Left {
				if o.From == pos && o.To > pos {
					pos, again = o.To+kerf, true
					for _, g := range use.Gone {
						if g.From == o.To {
							pos = g.From
						}
					}
				}
			}
		}
	}
	for n, ref := range use.Pieces {
		p := s.before.Piece(ref)
		pass()
		at := span{pos, pos + p.Length}
		switch {
		case p.Ends == cutopt.EndsBoth:
			at = span{0, l}
		case p.Ends == cutopt.EndsRight && p.AsItComes > 0:
			at = span{min(pos, l-p.Length), l}
		case p.Ends == cutopt.EndsRight:
			at = span{l - p.Length, l}
		case p.Ends == cutopt.EndsLeft:
			at = span{0, p.Length}
			if p.AsItComes > 0 && n+1 < len(use.Pieces) {
				if next := s.before.Piece(use.Pieces[n+1]); next != nil && next.Ends == cutopt.EndsRight {
					at.to = max(at.to, l-next.Length-kerf)
				}
			}
		}
		out[n] = at
		pos = at.to + kerf
	}
	return out
}

// partOf returns what the plan before cuts as piece n of a plank, of a run that is there and not yet laid.
func (s *standing) partOf(k, n int, ref cutopt.PieceRef) (rows.Part, bool) {
	i, ok := s.at[runKey{ref.Floor, ref.Row, ref.Run}]
	p := s.before.Piece(ref)
	if !ok || p.Lies {
		return rows.Part{}, false
	}
	pieces := len(s.before.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run].Pieces)
	nth := ref.Piece
	if s.places[i].mirrored {
		nth = pieces - 1 - nth
	}
	role := rows.RoleField
	switch {
	case pieces == 1:
		role = rows.RoleSingle
	case nth == 0:
		role = rows.RoleStarter
	case nth == pieces-1:
		role = rows.RoleEnder
	}
	return rows.Part{Run: i, Role: role, Length: p.Length}, true
}

// remains lists the parts of an opened plank that are on hand, with what the plan before cuts from each. It refuses
// what lies on one another.
func (s *standing) remains(k int) error {
	use, l, kerf, fit := &s.uses[k], s.job.Plank.Length, s.job.Rules.Kerf, s.job.Rules.Fit
	type taken struct {
		span                       // with a kerf at each sawn end of what lies, where nothing beside it is gone
		at          span           // without
		left, right measure.Length // how much shorter what is beside it may come out
		gone        bool
	}
	var all []taken
	for n, ref := range use.Pieces {
		if p := s.before.Piece(ref); p.Lies {
			t := taken{span: s.spans[k][n], at: s.spans[k][n]}
			switch {
			case !s.laidLast(ref):
			case p.Ends&cutopt.EndsRight != 0:
				t.left = fit
			default:
				t.right = fit
			}
			if !slices.ContainsFunc(use.Gone, func(g cutopt.Leftover) bool { return g.To == t.at.from }) {
				t.from -= kerf
			}
			if !slices.ContainsFunc(use.Gone, func(g cutopt.Leftover) bool { return g.From == t.at.to }) {
				t.to += kerf
			}
			all = append(all, t)
		}
	}
	for n, g := range use.Gone {
		if g.From < 0 || g.To > l || g.From > g.To {
			return s.plankError(k, n+1, "what is gone of a plank lies within it")
		}
		if (g.From == 0) != (g.Ends&cutopt.EndsLeft != 0) || (g.To == l) != (g.Ends&cutopt.EndsRight != 0) {
			return s.plankError(k, n+1, "what is gone of a plank has the factory ends that it reaches to")
		}
		all = append(all, taken{span: span{g.From, g.To}, at: span{g.From, g.To}, gone: true})
	}
	slices.SortStableFunc(all, func(a, b taken) int { return cmp.Compare(a.at.from, b.at.from) })
	// A piece that came out longer pushes the one beyond it, where no offcut between takes that up.
	free := func(i int) measure.Length { return all[i].at.from - kerf - all[i-1].at.to }
	beside := func(i int) bool { return !all[i-1].gone && !all[i].gone }
	for i := 1; i < len(all); i++ {
		if beside(i) {
			all[i].right += max(0, all[i-1].right-free(i))
		}
	}
	for i := len(all) - 1; i > 0; i-- {
		if beside(i) {
			all[i-1].left += max(0, all[i].left-free(i))
		}
	}
	pos, less := measure.Length(0), measure.Length(0)
	add := func(to, lessToo measure.Length) {
		if to <= pos {
			return
		}
		p := part{plank: k, from: pos, to: to, usable: to - pos - less - lessToo}
		if p.from == 0 {
			p.ends |= cutopt.EndsLeft
		}
		if p.to == l {
			p.ends |= cutopt.EndsRight
		}
		for n, ref := range use.Pieces {
			if at := s.spans[k][n]; p.from <= at.from && at.to <= p.to {
				if d, ok := s.partOf(k, n, ref); ok {
					p.destined = append(p.destined, d)
				}
			}
		}
		s.hand = append(s.hand, p)
	}
	last := measure.Length(0) // where what was taken last ends, without its kerf
	for n, t := range all {
		if t.at.from < last {
			return s.plankError(k, n+1, "what lies of a plank and what is gone of it do not overlap")
		}
		add(t.from, t.left)
		last = t.at.to
		pos, less = max(pos, t.to), t.right
	}
	add(l, 0)
	return nil
}

// laidLast reports whether a piece is the last of its run to be laid, which is cut to fit.
func (s *standing) laidLast(ref cutopt.PieceRef) bool {
	run := &s.before.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run]
	if s.before.Floors[ref.Floor].LaidFrom == cutopt.HandRight {
		return ref.Piece == 0
	}
	return ref.Piece == len(run.Pieces)-1
}

func (s *standing) plankError(k, n int, rule string) error {
	return &cutopt.FieldError{
		Field: fmt.Sprintf("plan.planks[%d]", k+1), Value: fmt.Sprintf("part %d", n), Rule: rule,
		Mend: "say of the plank again what lies of it and what is lost",
	}
}
