package solve_test

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// A wall says how far the two ends of a run turn out from where they were measured.
type wall struct{ left, right measure.Length }

// drawWall moves the ends of a run within fit of where they were measured, so that its length differs by at most fit;
// half of the draws go to the limits.
func drawWall(r *rand.Rand, fit measure.Length) wall {
	end := func() measure.Length {
		if r.IntN(2) == 0 {
			return fit * measure.Length(r.IntN(3)-1)
		}
		return measure.Length(r.Int64N(int64(2*fit)+1)) - fit
	}
	w := wall{end(), end()}
	w.right = min(max(w.right, w.left-fit), w.left+fit)
	return w
}

// follow lays a plan in rooms whose runs differ from the measurement: offcuts are used as the plan says, starters are
// trimmed to their figure and laid to the wall, enders are cut to what is left. It returns what goes wrong first.
func follow(r *rand.Rand, job *cutopt.Job, plan *cutopt.Plan, fit measure.Length) error {
	laid := make(map[cutopt.PieceRef]measure.Length)
	for f := range plan.Floors {
		room := &plan.Floors[f]
		var before [][]measure.Length // joints of the row before, by run
		for i := range room.Rows {
			var here [][]measure.Length
			for k := range room.Rows[i].Runs {
				run := &room.Rows[i].Runs[k]
				ref := cutopt.PieceRef{Floor: f, Row: i, Run: k}
				starter, err := starterOf(r, job, plan, ref, laid)
				if err != nil {
					return err
				}
				joints, err := layRun(job, room, ref, drawWall(r, fit), starter, laid)
				if err != nil {
					return err
				}
				here = append(here, joints)
				for b := range before {
					other := &room.Rows[i-1].Runs[b]
					touch := min(run.To, other.To) > max(run.From, other.From) && room.Rows[i-1].To == room.Rows[i].From
					if touch && !apart(before[b], joints, job.Rules.Stagger) {
						return fmt.Errorf("row %d: a joint is too close to one of the row before", i+1)
					}
				}
			}
			before = here
		}
	}
	for _, use := range plan.Planks {
		left := job.Plank.Length
		for n, ref := range use.Pieces {
			if n > 0 {
				left -= job.Rules.Kerf
			}
			left -= laid[ref]
		}
		if left < 0 {
			return fmt.Errorf("plank %d: an offcut is too short by %d ticks", use.Number, -left)
		}
	}
	return nil
}

// starterOf returns how long the piece of a run that is laid first turns out: as planned, or, where it is laid as it
// comes, whatever its offcut has now come to, or any less that it may be sawn to.
func starterOf(
	r *rand.Rand,
	job *cutopt.Job,
	plan *cutopt.Plan,
	ref cutopt.PieceRef,
	laid map[cutopt.PieceRef]measure.Length,
) (measure.Length, error) {
	room := &plan.Floors[ref.Floor]
	if room.LaidFrom == cutopt.HandRight {
		ref.Piece = len(room.Rows[ref.Row].Runs[ref.Run].Pieces) - 1
	}
	p := plan.Piece(ref)
	if p.AsItComes == 0 {
		return p.Length, nil
	}
	comes := job.Plank.Length
	for _, other := range plan.Planks[p.Plank-1].Pieces {
		if other != ref {
			comes -= laid[other] + job.Rules.Kerf
		}
	}
	if comes < p.Length || comes > p.AsItComes {
		return 0, fmt.Errorf("row %d: an offcut comes at %d, not at %d to %d", ref.Row+1, comes, p.Length, p.AsItComes)
	}
	if r.IntN(4) == 0 {
		comes -= measure.Length(r.Int64N(int64(comes - p.Length + 1)))
	}
	return comes, nil
}

// layRun lays one run between walls that have moved, its first piece as long as given, and returns its joints.
func layRun(
	job *cutopt.Job,
	room *cutopt.PlanFloor,
	ref cutopt.PieceRef,
	w wall,
	starter measure.Length,
	laid map[cutopt.PieceRef]measure.Length,
) ([]measure.Length, error) {
	run := &room.Rows[ref.Row].Runs[ref.Run]
	fromRight := room.LaidFrom == cutopt.HandRight
	x, end := run.From+w.left, run.To+w.right
	if fromRight { // measured from the wall that is laid from
		x, end = -(run.To + w.right), -(run.From + w.left)
	}
	var joints []measure.Length
	n := len(run.Pieces)
	for m := range n {
		if ref.Piece = m; fromRight {
			ref.Piece = n - 1 - m
		}
		length := run.Pieces[ref.Piece].Length
		switch {
		case m == n-1:
			length = end - x
		case m == 0:
			length = starter
		}
		if length > job.Plank.Length {
			return nil, fmt.Errorf("row %d: a plank is too short for the last piece", ref.Row+1)
		}
		if n > 1 && (m == 0 || m == n-1) && length < job.Rules.MinPiece {
			return nil, fmt.Errorf("row %d: a piece is too short", ref.Row+1)
		}
		laid[ref] = length
		if x += length; m < n-1 {
			joints = append(joints, x)
		}
	}
	return joints, nil
}

// TestFit follows the plans of random rooms in rooms that differ from them by up to the fit allowance, twenty times
// each: with the allowance every plan survives, without it few do.
func TestFit(t *testing.T) {
	plans, without, loose := 0, 0, 0
	rooms := oracle.Samples(10)
	for seed := range uint64(rooms) {
		r := rand.New(rand.NewPCG(seed, 61))
		job := oracle.PlainRoom(r)
		if seed%4 == 0 {
			job = oracle.AnyRooms(r)
		}
		if seed%3 == 0 {
			job.Rooms[0].Rows.LaidFrom = cutopt.FromRight
			for i := range job.Rooms {
				job.Rooms[i].Rows.LaidFrom = cutopt.FromRight
			}
		}
		fit := job.Rules.Fit
		if fit == 0 {
			t.Fatal("the default rules have no fit allowance")
		}
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		if errors.Is(err, solve.ErrNoPlan) {
			continue
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		plans++
		loose += shorten(t, job, result.Plan)
		for draw := range 10 {
			if err := follow(r, job, result.Plan, fit); err != nil {
				t.Errorf("seed %d draw %d: %v", seed, draw, err)
			}
		}
		if follow(r, job, result.Plan, 0) != nil {
			t.Errorf("seed %d: the plan does not fit the room as measured", seed)
		}
		job.Rules.Fit = 0
		result, err = solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatalf("seed %d: with no allowance: %v", seed, err)
		}
		for range 10 {
			if follow(r, job, result.Plan, fit) != nil {
				without++
				break
			}
		}
	}
	t.Logf("%d plans survive; without the allowance %d of them fail; %d offcuts are laid as they come",
		plans, without, loose)
	if plans < rooms*3/4 || without < plans/2 || loose < plans {
		t.Errorf("%d plans survive and without the allowance %d fail, %d offcuts are laid as they come: too few to tell",
			plans, without, loose)
	}
}

// shorten counts the starters that are laid as they come, and sees that Check finds each of their intervals when it
// ends a tick too soon, before the longest that its offcut may come at.
func shorten(t *testing.T, job *cutopt.Job, plan *cutopt.Plan) int {
	t.Helper()
	loose := 0
	for p := range plan.Pieces() {
		if p.AsItComes == 0 {
			continue
		}
		loose++
		p.AsItComes--
		if check.Plan(job, plan) == nil {
			t.Errorf("plank %d: an interval that is a tick too short is not found", p.Plank)
		}
		p.AsItComes++
	}
	return loose
}

// TestFitChecked holds Check against plans whose pieces keep the rules but not the allowance: a plan made without it,
// and checked with it, is refused for the ender, the stagger and the plank that are too tight.
func TestFitChecked(t *testing.T) {
	broken := make(map[check.Rule]int)
	for seed := range uint64(oracle.Samples(10)) {
		job := oracle.PlainRoom(rand.New(rand.NewPCG(seed, 62)))
		fit := job.Rules.Fit
		job.Rules.Fit, job.Aims = 0, []cutopt.Aim{} // which would raise the stagger
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		job.Rules.Fit = fit
		for _, v := range check.Plan(job, result.Plan) {
			broken[v.Rule]++
		}
	}
	for _, rule := range []check.Rule{check.RuleFit, check.RuleStagger, check.RuleMinPiece} {
		if broken[rule] == 0 {
			t.Errorf("no plan made without the allowance breaks %v with it: %v", rule, broken)
		}
	}
}
