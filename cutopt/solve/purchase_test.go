package solve_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/solve"
)

// TestLooksCostNoBox plans random rooms for the fewest boxes and for the fewest planks, with planks that break: both
// buy the same, the floor laid uses no more than its boxes hold beyond spares and reserve, and the risk is within the
// limit.
func TestLooksCostNoBox(t *testing.T) {
	spent := 0
	for seed := range uint64(oracle.Samples(12)) {
		job := oracle.PlainRoom(rand.New(rand.NewPCG(seed, 1515)))
		job.Rules.Loss, job.Rules.RiskLimit, job.Box.Planks, job.Spare.Planks = 2, 2, 8, int(seed%3)
		boxes, err := solve.Job(t.Context(), job, nil)
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		planks, err := solve.Job(t.Context(), job, &solve.Options{Fewest: solve.FewestPlanks, Effort: solve.EffortQuick})
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		o := &boxes.Plan.Order
		if fewest := planks.Plan.Order.Boxes; o.Boxes != fewest && boxes.Plan.Bound.Settled {
			t.Errorf("seed %d: %d boxes, and for the fewest planks %d", seed, o.Boxes, fewest)
		}
		if o.Over() < 0 || o.Kept != job.Spare.Planks || o.Risk > 0.02 || o.Planks < o.Fewest {
			t.Errorf("seed %d: %+v", seed, o)
		}
		spent += o.Planks - o.Fewest
	}
	if spent == 0 {
		t.Error("no floor used a plank for its looks")
	}
}
