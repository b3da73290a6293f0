package solve_test

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/solve"
)

// TestSpareNeverCostsABox plans rooms with spares of every kind, without and with aims. The boxes follow from the
// fewest planks, aims never cost one, and what is proven without aims is proven with them.
func TestSpareNeverCostsABox(t *testing.T) {
	spares := []cutopt.Spare{
		{Planks: 5},
		{Percent: 2},
		{Percent: 10},
		{Percent: 33.3},
		{BoxPer: 50},
		{BoxPer: 3},
		{BoxPer: 1},
	}
	quick := &solve.Options{Effort: solve.EffortQuick}
	more := 0 // plans whose aims take planks that the boxes hold
	for seed := range uint64(4) {
		for _, s := range spares {
			job := oracle.PlainRoom(rand.New(rand.NewPCG(seed, 92)))
			job.Spare, job.Aims = s, []cutopt.Aim{}
			plain, err := solve.Job(context.Background(), job, quick)
			if err != nil {
				t.Fatalf("seed %d, %v: %v", seed, s, err)
			}
			job.Aims = []cutopt.Aim{cutopt.AimHJoints, cutopt.AimFigures, cutopt.AimStagger}
			better, err := solve.Job(context.Background(), job, quick)
			if err != nil {
				t.Fatalf("seed %d, %v: %v", seed, s, err)
			}
			for _, plan := range []*cutopt.Plan{plain.Plan, better.Plan} {
				o, b := plan.Order, plan.Bound
				kept := oracle.Kept(s, o.Planks, o.PlanksPerBox)
				if want := (o.Planks + kept + o.PlanksPerBox - 1) / o.PlanksPerBox; o.Boxes != want || o.Kept != kept ||
					o.Left < kept {
					t.Errorf("seed %d, %v: %+v; want %d boxes and %d planks kept", seed, s, o, want, kept)
				}
				least := b.Planks + oracle.Kept(s, b.Planks, o.PlanksPerBox)
				if want := (least + o.PlanksPerBox - 1) / o.PlanksPerBox; b.Boxes != want || b.Proven != (b.Boxes == o.Boxes) {
					t.Errorf("seed %d, %v: the bound is %+v of %d boxes; want %d boxes", seed, s, b, o.Boxes, want)
				}
				if err := check.Proof(job, plan); err != nil {
					t.Errorf("seed %d, %v: %v", seed, s, err)
				}
			}
			if better.Plan.Order.Boxes != plain.Plan.Order.Boxes || better.Plan.Bound.Proven != plain.Plan.Bound.Proven {
				t.Errorf("seed %d, %v: %d boxes, without aims %d", seed, s, better.Plan.Order.Boxes, plain.Plan.Order.Boxes)
			}
			if better.Plan.Order.Planks > plain.Plan.Order.Planks {
				more++
			}
		}
	}
	if more == 0 {
		t.Error("no aim took a plank that the boxes hold: the test says nothing")
	}
}

// A plan whose bound claims a box more than its planks and spares fill does not verify.
func TestVerifyRecountsSpares(t *testing.T) {
	job := oracle.PlainRoom(rand.New(rand.NewPCG(1, 21)))
	job.Spare = cutopt.Spare{BoxPer: 50}
	result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	if err := check.Proof(job, result.Plan); err != nil {
		t.Fatal(err)
	}
	result.Plan.Bound.Boxes++
	if err := check.Proof(job, result.Plan); err == nil || !strings.Contains(err.Error(), "spares of 1 box per 50") {
		t.Errorf("a bound of a box more: %v", err)
	}
	// The job need not be in order for an error instead of a panic.
	for _, s := range []cutopt.Spare{
		{Percent: math.Inf(1)},
		{Percent: math.NaN()},
		{BoxPer: -1},
		{BoxPer: math.MaxInt},
		{Planks: math.MinInt},
	} {
		job.Spare = s
		_ = check.Proof(job, result.Plan)
	}
}
