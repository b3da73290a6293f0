package solve_test

import (
	"context"
	"math/rand/v2"
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
