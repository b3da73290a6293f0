package solve_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
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

// TestRuleOfThumb: of 15 ft by 16 ft 11 5/8 in and 10 %, 279.98 sq ft, 12 boxes of ten planks of 48 x 7 in hold 280.00,
// but by their label of 23.33 sq ft 279.96. The label is what a buyer reads.
func TestRuleOfThumb(t *testing.T) {
	const in = measure.Inch
	for _, c := range []struct {
		box  cutopt.Box
		want int
	}{{cutopt.Box{Planks: 10}, 12}, {cutopt.Box{Covers: 2333 * measure.SquareFoot / 100}, 13}} {
		job := &cutopt.Job{
			Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: c.box,
			Rules: oracle.Rules(measure.UnitInch),
			Rooms: []cutopt.Room{{Outline: cutopt.Rectangle(180*in, 203*in+5*in/8)}},
		}
		result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatal(err)
		}
		if got := result.Plan.Order.ThumbBoxes; got != c.want {
			t.Errorf("%+v: the rule of thumb buys %d boxes, want %d", c.box, got, c.want)
		}
	}
}
