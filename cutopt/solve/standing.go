package solve

import (
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
	if err := s.counted(); err != nil {
		return nil, err
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
		if long := p.AsItComes; long != 0 && (k > 0 || len(pieces) == 1 || long <= p.Length || long > s.job.Plank.Length) {
			return s.pieceError(i, k, long, "what lies as it comes is the first of several pieces, and at most a plank")
		}
		if err := s.ended(i, k, pieces); err != nil {
			return err
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

// ended holds that the k-th piece of a run in the order of laying has the factory ends of its place: both if it is a
// whole plank, and only then, and where pieces join.
func (s *standing) ended(i, k int, pieces []cutopt.Piece) error {
	p, ends := &pieces[k], cutopt.EndsRight
	switch whole := p.Length == s.job.Plank.Length; {
	case whole:
		ends = cutopt.EndsBoth
	case len(pieces) == 1 && p.Ends < cutopt.EndsBoth:
		return nil
	case len(pieces) == 1:
		ends = cutopt.EndsNone
	case (k == 0) == s.places[i].mirrored:
		ends = cutopt.EndsLeft
	}
	if p.Ends == ends {
		return nil
	}
	return &cutopt.FieldError{
		Field: s.pieceField(i, k) + ".factory_ends", Value: p.Ends.String(),
		Rule: fmt.Sprintf("a piece of %s there has the factory ends %v", p.Length.Format(s.job.Unit, measure.Tick), ends),
		Mend: "say of the run how it lies, or give the plan as it was written",
	}
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
	return &cutopt.FieldError{
		Field: s.pieceField(i, k), Value: value.Format(s.job.Unit, measure.Tick), Rule: rule,
		Mend: "measure what lies, and say of the run how it lies",
	}
}

// pieceField names the k-th piece of a run in the order of laying as plan files number it.
func (s *standing) pieceField(i, k int) string {
	at := s.places[i]
	if at.mirrored {
		k = len(s.runs[i].was) - 1 - k
	}
	return fmt.Sprintf("plan.floors[%d].rows[%d].runs[%d].pieces[%d]", at.room+1, at.row+1, at.run+1, k+1)
}

// begun reports whether anything lies or is opened, so that the plan before is more than a plan.
func (s *standing) begun() bool {
	return slices.ContainsFunc(s.uses, func(u cutopt.PlankUse) bool { return u.Opened })
}
