package solve_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/solve"
)

// TestCrookedRowSavesABox: in these rooms with slanted walls, pipes or jogs, and joined rooms, found by drawing 2,000,
// the first row that looks best is proven to need a box more than another that breaks no rule worse. The plan takes
// that one, Check finds nothing in it, and its proof holds.
func TestCrookedRowSavesABox(t *testing.T) {
	cases := []struct {
		name string
		draw func(*rand.Rand) *cutopt.Job
		seed uint64
	}{
		{"awkward", awkward, 191},
		{"slanted", slantedRoom, 270},
		{"awkward", awkward, 421},
		{"slanted", slantedRoom, 318},
		{"awkward", awkward, 640},
		{"awkward", awkward, 67},
		{"awkward", awkward, 228},
		{"awkward", awkward, 253},
		{"awkward", awkward, 278},
		{"awkward", awkward, 346},
		{"awkward", awkward, 348},
		{"joined", joinedRooms, 71},
	}
	for _, c := range cases[:min(len(cases), oracle.Samples(3))] {
		job := c.draw(rand.New(rand.NewPCG(c.seed, 1616)))
		result, err := solve.Job(context.Background(), job, nil)
		if err != nil {
			t.Fatalf("%s, seed %d: %v", c.name, c.seed, err)
		}
		plan := result.Plan
		if broken := check.Plan(job, plan); len(broken) > 0 {
			t.Errorf("%s, seed %d: %v", c.name, c.seed, broken)
		}
		if err := check.Proof(job, plan); err != nil {
			t.Errorf("%s, seed %d: %v", c.name, c.seed, err)
		}
		floors, _, err := solve.Floors(context.Background(), job)
		if err != nil {
			t.Fatal(err)
		}
		in, err := check.Instance(job, &cutopt.Plan{Floors: floors})
		if err != nil {
			t.Fatal(err)
		}
		looks, err := solve.Rows(context.Background(), in, nil)
		if err != nil {
			t.Fatal(err)
		}
		terms, err := job.Terms()
		if err != nil {
			t.Fatal(err)
		}
		if terms.Boxes(looks.Bound.Planks) <= plan.Order.Boxes {
			t.Errorf("%s, seed %d: %d boxes, and %d with the first row that looks best", c.name, c.seed, plan.Order.Boxes,
				terms.Boxes(looks.Bound.Planks))
		}
	}
}

// TestPatternSavesABox: in these rooms, found by drawing 300, joints that follow a pattern need a box less with another
// first row than with the one that looks best. The plan takes that one, and where walls are level its bound is of the
// room.
func TestPatternSavesABox(t *testing.T) {
	for _, c := range []struct {
		name    string
		draw    func(*rand.Rand) *cutopt.Job
		seed    uint64
		pattern string
	}{{"level", levelRoom, 135, "halves"}, {"slanted", slantedRoom, 18, "halves"}} {
		job := c.draw(rand.New(rand.NewPCG(c.seed, 78)))
		job.Rooms[0].Rows.FirstRow = 0
		var err error
		if job.Pattern, err = cutopt.ParsePattern(c.pattern, job.Unit, job.Plank.Length, job.Rules.Grid); err != nil {
			t.Fatal(err)
		}
		result, err := solve.Job(context.Background(), job, nil)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		plan := result.Plan
		if broken := check.Plan(job, plan); len(broken) > 0 {
			t.Errorf("%s: %v", c.name, broken)
		}
		if err := check.Proof(job, plan); err != nil || plan.Bound.Rooms == nil && c.name == "level" {
			t.Errorf("%s: the bound is not proven, or not of the room: %v", c.name, err)
		}
		floors, _, err := solve.Floors(context.Background(), job)
		if err != nil {
			t.Fatal(err)
		}
		fixed := *job
		fixed.Rooms = slices.Clone(job.Rooms)
		fixed.Rooms[0].Rows.FirstRow = floors[0].Rows[0].To - floors[0].Rows[0].From
		looks, err := solve.Job(context.Background(), &fixed, nil)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if looks.Plan.Order.Boxes <= plan.Order.Boxes {
			t.Errorf("%s: %d boxes, and %d with the first row that looks best", c.name, plan.Order.Boxes,
				looks.Plan.Order.Boxes)
		}
	}
}

// TestCurtailed: a plan says that a thorough effort would look at other first rows for longer only where nothing is
// claimed of the room, and with that effort never; where it says so, that effort does take more steps.
func TestCurtailed(t *testing.T) {
	said := 0
	for n := range uint64(oracle.Samples(3)) {
		seed := n + 3 // one that is
		job := slantedRoom(rand.New(rand.NewPCG(seed, 1616)))
		if job.Validate() != nil {
			continue
		}
		normal, err := solve.Job(context.Background(), job, nil)
		if err != nil || !normal.Curtailed {
			continue
		}
		said++
		thorough, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortThorough})
		if err != nil {
			t.Fatal(err)
		}
		if normal.Plan.Bound.Rooms != nil || thorough.Curtailed || thorough.Stats.Steps <= normal.Stats.Steps {
			t.Errorf("seed %d: %d steps are curtailed, %d are %v", seed, normal.Stats.Steps, thorough.Stats.Steps,
				thorough.Curtailed)
		}
	}
	if said == 0 {
		t.Error("no plan is curtailed")
	}
}
