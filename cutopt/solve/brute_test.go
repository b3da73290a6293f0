package solve_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// module is the unit of a tiny room: every length of it is a multiple, so that all its layouts can be tried.
const module = 4 * measure.Inch

// tinyRoom draws three or four rows of two or three planks of 9 to 12 modules.
func tinyRoom(r *rand.Rand) *cutopt.Job {
	rules := oracle.Rules(measure.UnitInch)
	rules.Gap, rules.Fit, rules.AsItComes, rules.Smooth, rules.Cover, rules.Loss = 0, 0, 0, 0, 0, 0
	rules.Grid, rules.MinPiece, rules.Kerf = module, 2*module, module*measure.Length(r.IntN(2))
	rules.Stagger = module * measure.Length(1+r.IntN(2))
	plank := cutopt.Plank{Length: module * measure.Length(9+r.IntN(4)), Width: 2 * module}
	long, deep := module*measure.Length(18+r.IntN(12)), plank.Width*measure.Length(3+r.IntN(2))
	return &cutopt.Job{
		Unit: measure.UnitInch, Plank: plank, Box: cutopt.Box{Planks: 6}, Rules: rules,
		Rooms: []cutopt.Room{{
			Name: "Mill room", Outline: cutopt.Rectangle(long, deep),
			Rows: cutopt.RowRules{StartWall: 1, FirstRow: plank.Width, LaidFrom: cutopt.FromLeft + cutopt.From(r.IntN(2))},
		}},
	}
}

// inModules returns an instance with the module as its unit; false where a length is no multiple.
func inModules(in *rows.Instance) (*rows.Instance, bool) {
	ok := true
	scale := func(l measure.Length) measure.Length {
		ok = ok && l%module == 0
		return l / module
	}
	out := &rows.Instance{
		Plank: scale(in.Plank), Kerf: scale(in.Kerf), MinPiece: scale(in.MinPiece), MinEnder: scale(in.MinEnder),
		Stagger: scale(in.Stagger), Grid: 1, Touch: in.Touch,
	}
	for _, run := range in.Runs {
		to := rows.Run{From: scale(run.From), Length: scale(run.Length), Starter: scale(run.Starter)}
		for _, x := range run.Beside {
			to.Beside = append(to.Beside, scale(x))
		}
		out.Runs = append(out.Runs, to)
	}
	for _, o := range in.Offcuts {
		out.Offcuts = append(out.Offcuts, rows.Offcut{Length: scale(o.Length), End: o.End})
	}
	return out, ok
}

// TestContinueAgainstBruteForce lays tiny rooms to some piece, loses planks and offcuts, and tries every layout and
// packing of what is left: so many whole planks are needed, and in 99 of 100 floors proven to be.
func TestContinueAgainstBruteForce(t *testing.T) {
	opt := &solve.Options{Fewest: solve.FewestPlanks}
	tried, open := 0, 0
	for seed := range uint64(oracle.Samples(40)) {
		r := rand.New(rand.NewPCG(seed, 131))
		job := tinyRoom(r)
		first, err := solve.Job(t.Context(), job, opt)
		if err != nil {
			continue
		}
		plan := first.Plan
		count := func(n int) int { return 1 + r.IntN(n) }
		row := 1 + r.IntN(len(plan.Floors[0].Rows)-1)
		state := &site.State{Events: []site.Event{{
			Kind: site.KindLaid, Row: row, Run: 1, Pieces: count(len(plan.Floors[0].Rows[row-1].Runs[0].Pieces)),
		}}}
		for range r.IntN(3) {
			e := site.Event{Kind: site.KindCulled, Count: 1}
			switch r.IntN(3) {
			case 0:
				e = site.Event{Kind: site.KindOffcut, Length: module * measure.Length(count(8)), Ends: cutopt.Ends(r.IntN(3))}
			case 1:
				n, at := count(len(plan.Planks)), module*measure.Length(count(6))
				e = site.Event{Kind: site.KindMiscut, Planks: []int{n}, Length: at, Ends: cutopt.EndsLeft}
			}
			state.Events = append(state.Events, e)
		}
		amended, marked, _, err := site.Apply(job, plan, state)
		if err != nil {
			continue // such as a plank miscut that lies
		}
		result, err := solve.Continue(t.Context(), amended, marked, opt)
		if err != nil {
			t.Errorf("seed %d: %v: %v", seed, state.Events, err)
			continue
		}
		in, err := check.Instance(amended, result.Plan)
		if err != nil {
			t.Fatal(err)
		}
		small, ok := inModules(in)
		if !ok || len(small.Runs) == 0 {
			continue
		}
		tried++
		begun := 0
		for _, run := range small.Runs {
			if run.Starter > 0 {
				begun++
			}
		}
		s, want := result.Plan.Site, oracle.Fewest(small)-begun
		if s.Least < want {
			open++
		}
		if err := check.Proof(amended, result.Plan); err != nil || s.Needed != want || s.Least > want {
			t.Errorf("seed %d: %v: %d planks are needed and %d proven, by trying all %d: %v: %+v", seed, state.Events,
				s.Needed, s.Least, want, err, small)
		}
	}
	if t.Logf("%d floors, %d of them open", tried, open); 100*open > tried {
		t.Errorf("of %d floors %d are not proven", tried, open)
	}
	if tried < oracle.Samples(40)/3 {
		t.Errorf("only %d floors were tried", tried)
	}
}
