package solve

import (
	"slices"

	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/rows"
)

// looks returns how bad the floor looks with a layout of the rest: what lies beside it counts too. The figures are
// those that an eye sees, the first of them worth more than all that follow.
func (s *standing) looks(r *rest) func(rows.Layout) int {
	const most = 1_000 // of each figure
	base := make(rows.Layout, len(r.full))
	for k := range base {
		base[k] = r.in.Runs[k].Starter
	}
	starter := s.starters(r, base)
	p := &quality.Problem{
		Instance: s.asItLies(starter), Row: rowNumbers(s.places), Fit: s.job.Rules.Fit, InLine: s.job.Rules.InLine,
		Prefer: s.job.Rules.PreferStagger,
	}
	return func(layout rows.Layout) (sum int) {
		for k, i := range r.full {
			if !s.runs[i].inHand() {
				starter[i] = layout[k]
			}
		}
		q := quality.Looks(p, starter)
		for _, n := range []int{q.HJoints, q.Chains, q.Staircases, q.Clusters} {
			sum = sum*most + min(n, most-1)
		}
		return sum
	}
}

// starters lists the first piece of every run as it lies or as a layout of the rest has it, 0 for one piece.
func (s *standing) starters(r *rest, layout rows.Layout) rows.Layout {
	out := make(rows.Layout, len(s.places))
	for i := range out {
		if run := &s.runs[i]; len(run.pieces) > 1 || run.inHand() {
			out[i] = run.pieces[0].Length
		}
	}
	for k, i := range r.full {
		if !s.runs[i].inHand() {
			out[i] = layout[k]
		}
	}
	return out
}

// asItLies is the problem with runs that are begun as they lie, wherever on the grid that is, and the first pieces of
// all.
func (s *standing) asItLies(starter rows.Layout) *rows.Instance {
	in := *s.instance
	in.Grid, in.Runs = 1, slices.Clone(in.Runs)
	for i := range in.Runs {
		run := &s.runs[i]
		if len(run.pieces) == 0 {
			continue
		}
		end := in.Runs[i].From + in.Runs[i].Length
		if run.all {
			end = run.from + s.job.Rules.Fit
			for _, p := range run.pieces {
				end += p.Length
			}
		}
		in.Runs[i].From, in.Runs[i].Length, in.Runs[i].Starter = run.from, end-run.from, starter[i]
	}
	return &in
}
