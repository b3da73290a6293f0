package solve_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// TestPlanOf makes plans of layouts from elsewhere: those the solver finds give its own plans but for the bound and the
// looks; joints in one line are made a plan that Check refuses; impossible starters are none.
func TestPlanOf(t *testing.T) {
	planned := 0
	for seed := range uint64(oracle.Samples(8)) {
		job := oracle.AnyRooms(rand.New(rand.NewPCG(seed, 5)))
		job.Aims = []cutopt.Aim{}
		in, err := solve.Instance(job)
		if err != nil {
			continue
		}
		out, err := solve.Rows(t.Context(), in, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			continue
		}
		plan, err := solve.PlanOf(job, out.Layout, nil)
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		if broken := check.Plan(job, plan); broken != nil {
			t.Errorf("seed %d: %v", seed, broken)
		}
		if plan.Bound.Planks != 0 ||
			plan.Bound.Proven && plan.Order.Boxes > 0 && plan.Bound.Boxes < plan.Order.Boxes &&
				job.Spare == (cutopt.Spare{}) && job.Rules.Loss == 0 {
			t.Errorf("seed %d: proven: %+v", seed, plan.Bound)
		}
		planned++
	}
	if planned < 4 {
		t.Errorf("only %d jobs were planned", planned)
	}
	job := metric(1200*measure.Millimetre, 180*measure.Millimetre, oblong("Hall", 5*measure.Metre, 3*measure.Metre))
	in, err := solve.Instance(job)
	if err != nil {
		t.Fatal(err)
	}
	straight := make(rows.Layout, len(in.Runs))
	for i := range straight {
		straight[i] = 600 * measure.Millimetre
	}
	plan, err := solve.PlanOf(job, straight, nil)
	if err != nil {
		t.Fatal(err)
	}
	if broken := check.Plan(job, plan); len(broken) == 0 || broken[0].Rule != check.RuleStagger {
		t.Errorf("joints in one line: %v", broken)
	}
	for _, layout := range []rows.Layout{nil, straight[:3], make(rows.Layout, len(in.Runs)), append(rows.Layout{-5},
		straight[1:]...)} {
		var wrong *rows.Error
		if _, err := solve.PlanOf(job, layout, nil); !errors.As(err, &wrong) {
			t.Errorf("layout %v: %v", layout, err)
		}
	}
	if _, err := solve.PlanOf(job, straight, rows.Packing{3}); err == nil {
		t.Error("a packing of one run is taken")
	}
	if _, err := solve.PlanOf(nil, nil, nil); err == nil {
		t.Error("a plan of nothing")
	}
}

// Lay a small hall by habit, a third of a plank further in each row, and let check judge it.
func ExamplePlanOf() {
	const mm = measure.Millimetre
	job := &cutopt.Job{
		Unit: measure.UnitMillimetre, Plank: cutopt.Plank{Length: 1200 * mm, Width: 190 * mm},
		Box: cutopt.Box{Planks: 8}, Rules: cutopt.DefaultRules(measure.UnitMillimetre),
		Rooms: []cutopt.Room{{Outline: cutopt.Rectangle(4000*mm, 2300*mm)}},
	}
	in, err := solve.Instance(job)
	if err != nil {
		panic(err)
	}
	habit := make(rows.Layout, len(in.Runs))
	for i := range habit {
		habit[i] = measure.Length(1+i%3) * 400 * mm
	}
	plan, err := solve.PlanOf(job, habit, nil)
	if err != nil {
		panic(err)
	}
	fmt.Println(plan.Order.Planks, "planks; violations:", len(check.Plan(job, plan)))
	// Output: 48 planks; violations: 0
}

// How large is a hall of 30 by 20 m, before it is planned?
func ExampleEstimateOf() {
	const mm = measure.Millimetre
	job := &cutopt.Job{
		Unit: measure.UnitMillimetre, Plank: cutopt.Plank{Length: 1200 * mm, Width: 190 * mm},
		Box: cutopt.Box{Planks: 8}, Rules: cutopt.DefaultRules(measure.UnitMillimetre),
		Rooms: []cutopt.Room{{Outline: cutopt.Rectangle(30*measure.Metre, 20*measure.Metre)}},
	}
	e, err := solve.EstimateOf(job)
	fmt.Println(e.Planks, "planks at least,", e.Rows, "rows, about", e.Pieces, "pieces", err)
	// Output: 2631 planks at least, 106 rows, about 2738 pieces <nil>
}
