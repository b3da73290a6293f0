package solve

import (
	"cmp"
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A standing is how a job stands that has been begun: what lies, what is on hand, and what the plan before said of the
// rest. It is read from that plan with its marks, once the job's rows are found to be those that lie.
type standing struct {
	*problem
	before *cutopt.Plan
	site   cutopt.Site // Bought, Brought, Here and Mixed are settled
	runs   []standingRun
	hand   []part            // on hand, by plank and place
	whole  [][]rows.Part     // planks of the plan before that are not opened: what of it is not yet laid, runs by problem
	at     map[runKey]int    // indices of runs
	spans  [][]span          // by plank of the plan before and piece: where it lies on the plank
	uses   []cutopt.PlankUse // of the plan before; Opened is settled
}

type runKey struct{ floor, row, run int }

type span struct{ from, to measure.Length }

// A standingRun is what lies of a run of the problem, on the line of the instance.
type standingRun struct {
	pieces []cutopt.Piece   // that lie, in the order of laying
	all    bool             // nothing is left to lay
	from   measure.Length   // where the first piece begins
	joints []measure.Length // after each piece that lies; where all do, not after the last
	longer measure.Length   // how much longer than its nominal length the first piece may have come out
	old    measure.Length   // the starter before, 0 for one piece; -1 where there was no such run
	was    []measure.Length // lengths of the pieces before, in the order of laying
}

// inHand reports whether some of the run lies and some does not.
func (r *standingRun) inHand() bool { return len(r.pieces) > 0 && !r.all }

// A part is what is on hand of an opened plank, from sawn end to sawn end, or to where something is gone.
type part struct {
	plank    int // index
	from, to measure.Length
	usable   measure.Length // what of it can be counted on: less where it ends beside a piece that was cut to fit
	ends     cutopt.Ends
	destined []rows.Part // what the plan before cuts from it, runs by problem
}

// standingOf reads what lies and what is on hand, and holds it against the job's rows and itself. Errors are
// *cutopt.FieldError of the plan.
func standingOf(p *problem, before *cutopt.Plan) (*standing, error) {
	s := &standing{
		problem: p, before: before, runs: make([]standingRun, len(p.places)), at: make(map[runKey]int),
		uses: slices.Clone(before.Planks), spans: make([][]span, len(before.Planks)),
	}
	for i, at := range p.places {
		s.at[runKey{at.room, at.row, at.run}] = i
	}
	if err := s.listed(); err != nil {
		return nil, err
	}
	for i := range p.places {
		if err := s.read(i); err != nil {
			return nil, err
		}
	}
	for k := range s.uses {
		if err := s.open(k); err != nil {
			return nil, err
		}
	}
	return s, s.stock()
}

// listed holds that planks and pieces of the plan before belong to each other, and that what lies is of runs that the
// job has.
func (s *standing) listed() error {
	of := make(map[cutopt.PieceRef]bool)
	for k := range s.uses {
		for n, ref := range s.uses[k].Pieces {
			p := s.before.Piece(ref)
			if p == nil || p.Plank != k+1 || of[ref] || p.Length <= 0 || p.Length > s.job.Plank.Length {
				return s.plankError(k, n+1, "a plank lists the pieces of the plan that are cut from it, each once")
			}
			of[ref] = true
		}
	}
	for f := range s.before.Floors {
		for r := range s.before.Floors[f].Rows {
			for u, run := range s.before.Floors[f].Rows[r].Runs {
				for n := range run.Pieces {
					ref := cutopt.PieceRef{Floor: f, Row: r, Run: u, Piece: n}
					_, there := s.at[runKey{f, r, u}]
					if run.Pieces[n].Lies && (!there || !of[ref]) {
						return &cutopt.FieldError{
							Field: fmt.Sprintf("plan.floors[%d].rows[%d].runs[%d].pieces[%d]", f+1, r+1, u+1, n+1),
							Value: fmt.Sprintf("plank %d", run.Pieces[n].Plank),
							Rule:  "a piece that lies is of a run of the job and cut from one of the planks",
							Mend:  "measure the room as it lies, and mark what lies again",
						}
					}
				}
			}
		}
	}
	return nil
}

// ordered returns the pieces of a run of the plan before in the order of laying.
func ordered(room *cutopt.PlanFloor, run *cutopt.PlanRun) []cutopt.Piece {
	pieces := slices.Clone(run.Pieces)
	if room.LaidFrom == cutopt.HandRight {
		slices.Reverse(pieces)
	}
	return pieces
}

// read finds what lies of run i, and how the plan before lays it.
func (s *standing) read(i int) error {
	at, run := s.places[i], &s.runs[i]
	run.old = -1
	if at.room >= len(s.before.Floors) || at.row >= len(s.before.Floors[at.room].Rows) ||
		at.run >= len(s.before.Floors[at.room].Rows[at.row].Runs) {
		return nil
	}
	room := &s.before.Floors[at.room]
	pieces := ordered(room, &room.Rows[at.row].Runs[at.run])
	if len(pieces) == 0 {
		return nil
	}
	if run.old = pieces[0].Length; len(pieces) == 1 {
		run.old = 0
	}
	for _, p := range pieces {
		run.was = append(run.was, p.Length)
	}
	lies := 0
	for lies < len(pieces) && pieces[lies].Lies {
		lies++
	}
	if lies == 0 {
		return s.unlaid(i, pieces)
	}
	if err := s.unlaid(i, pieces[lies:]); err != nil {
		return err
	}
	run.pieces, run.all = pieces[:lies], lies == len(pieces)
	place := func(p *cutopt.Piece) (from, to measure.Length) {
		if at.mirrored {
			return -p.To, -p.From
		}
		return p.From, p.To
	}
	run.from, _ = place(&pieces[0])
	end := run.from
	for k := range run.pieces {
		p := &run.pieces[k]
		from, to := place(p)
		switch {
		case p.Length <= 0 || p.Length > s.job.Plank.Length || p.To-p.From != p.Length:
			return s.pieceError(i, k, p.Length, "a piece that lies is as long as its place and at most a plank")
		case from != end:
			return s.pieceError(i, k, from-end, "pieces that lie follow each other without a gap or an overlap")
		case k > 0 && k+1 < len(pieces) && p.Length != s.job.Plank.Length:
			return s.pieceError(i, k, p.Length, "between the first piece of a run and the last all are whole planks")
		}
		end = to
		if k+1 < len(pieces) {
			run.joints = append(run.joints, to)
		}
	}
	if p := &pieces[0]; p.AsItComes > p.Length && len(pieces) > 1 {
		run.longer = p.AsItComes - p.Length
	}
	if full := &s.instance.Runs[i]; run.inHand() && end >= full.From+full.Length-s.job.Rules.Fit {
		return s.pieceError(i, lies-1, end-run.from, "a run that is full to its end lies complete")
	}
	return nil
}

// unlaid holds that none of the pieces lies.
func (s *standing) unlaid(i int, pieces []cutopt.Piece) error {
	for k := range pieces {
		if pieces[k].Lies {
			return s.pieceError(i, len(s.runs[i].was)-len(pieces)+k, pieces[k].Length,
				"the pieces of a run that lie are the first from the end where it begins")
		}
	}
	return nil
}

// pieceError refuses the k-th piece of a run in the order of laying.
func (s *standing) pieceError(i, k int, value measure.Length, rule string) error {
	at := s.places[i]
	return &cutopt.FieldError{
		Field: fmt.Sprintf("plan.floors[%d].rows[%d].runs[%d], piece %d from where it begins", at.room+1, at.row+1, at.run+1,
			k+1),
		Value: value.Format(s.job.Unit, measure.Tick), Rule: rule, Mend: "measure what lies, and say of the run how it lies",
	}
}

// open finds where the pieces of a plank lie on it, and what of it is on hand.
func (s *standing) open(k int) error {
	use := &s.uses[k]
	use.Gone = slices.Clone(use.Gone)
	slices.SortStableFunc(use.Gone, func(a, b cutopt.Leftover) int { return cmp.Compare(a.From, b.From) })
	for _, ref := range use.Pieces {
		use.Opened = use.Opened || s.before.Piece(ref).Lies
	}
	s.spans[k] = s.placed(use)
	if use.Opened = use.Opened || use.Brought || len(use.Gone) > 0; !use.Opened {
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

// stock settles what is here. A plan without a site says nothing of it: then it is what the order says, less the planks
// opened.
func (s *standing) stock() error {
	opened := s.opened()
	if site := s.before.Site; site != nil {
		s.site = cutopt.Site{Bought: site.Bought, Brought: site.Brought, Here: slices.Clone(site.Here), Mixed: site.Mixed}
	} else {
		s.site = cutopt.Site{Bought: s.before.Order.Boxes}
		left := s.site.Bought*s.terms.PerBox - opened
		s.site.Here = []cutopt.Lot{{Planks: left, Boxes: max(left, 0) / s.terms.PerBox}}
	}
	for i, lot := range s.site.Here {
		if lot.Planks < 0 || lot.Boxes < 0 || lot.Boxes*s.terms.PerBox > lot.Planks {
			return &cutopt.FieldError{
				Field: fmt.Sprintf("plan.site.here[%d]", i+1), Value: fmt.Sprintf("%d planks, %d boxes", lot.Planks, lot.Boxes),
				Rule: "planks are here or not, and those of unopened boxes are among them", Mend: "count what is here again",
			}
		}
	}
	whole := cutopt.WholePlanks(s.site.Here)
	if in := s.site.Bought*s.terms.PerBox + s.site.Brought; in != opened+whole {
		return &cutopt.FieldError{
			Field: "plan.site.here", Value: fmt.Sprintf("%d whole planks", whole),
			Rule: fmt.Sprintf("%d planks came and %d of them are opened, which leaves %d", in, opened, in-opened),
			Mend: "count what is here again",
		}
	}
	return nil
}

// opened counts the planks that are opened, but offcuts brought along.
func (s *standing) opened() (n int) {
	for k := range s.uses {
		if s.uses[k].Opened && !s.uses[k].Brought {
			n++
		}
	}
	return n
}

// inUse counts those of the opened planks that pieces are or can still be cut from: all but those lost whole.
func (s *standing) inUse() (n int) {
	for k := range s.uses {
		use := &s.uses[k]
		lies := slices.ContainsFunc(use.Pieces, func(r cutopt.PieceRef) bool { return s.before.Piece(r).Lies })
		onHand := slices.ContainsFunc(s.hand, func(p part) bool { return p.plank == k })
		if use.Opened && !use.Brought && (lies || onHand) {
			n++
		}
	}
	return n
}

// begun reports whether anything lies or is opened, so that the plan before is more than a plan.
func (s *standing) begun() bool {
	return slices.ContainsFunc(s.uses, func(u cutopt.PlankUse) bool { return u.Opened })
}
