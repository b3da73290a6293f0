package check_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
)

// TestCheckMarkedPlans marks random rectangles as laid to some row, with losses and any stock. Each plan passes; with
// any one mark or figure changed it does not.
func TestCheckMarkedPlans(t *testing.T) {
	const changes = 12
	marked := 0
	for seed := range uint64(oracle.Samples(150)) {
		r := rand.New(rand.NewPCG(seed, 17))
		unit := measure.UnitMillimetre
		if seed%2 == 1 {
			unit = measure.UnitInch
		}
		job, rows := randomJob(r, unit)
		job.Rules.Kerf += 3
		plan := layRectangle(job, rows, r)
		if plan == nil || check.Plan(job, plan) != nil {
			continue // deeper than long, or not laid
		}
		marked++
		plan = oracle.Mark(job, plan, r)
		if v := check.Plan(job, plan); v != nil {
			t.Fatalf("seed %d: a plan that is marked right breaks %v", seed, v)
		}
		for range changes {
			q := plan.Clone()
			if what := oracle.SpoilMark(q, r); what != "" && check.Plan(job, q) == nil {
				t.Errorf("seed %d: %s, and nothing was found", seed, what)
			}
		}
		for range changes / 3 {
			q := plan.Clone()
			if what := oracle.Spoil(q, r); check.Plan(job, q) == nil {
				t.Errorf("seed %d: %s, and nothing was found in a plan with marks", seed, what)
			}
		}
	}
	if marked < 50 {
		t.Errorf("only %d plans were marked", marked)
	}
}
