package check_test

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
)

// TestInstanceTies holds the pairs of runs that touch against their definition, on random rows whose runs follow each
// other from the left and may overlap, as beside a slanted wall between two rooms.
func TestInstanceTies(t *testing.T) {
	const seed = 7
	for i := range oracle.Samples(200) {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		job, plan := parlour(), parlourPlan()
		rows := plan.Floors[0].Rows[:2]
		plan.Floors[0].Rows = rows
		plan.Floors[0].LaidFrom = cutopt.Hand(r.IntN(2))
		for k := range rows {
			rows[k].Runs = nil
			at := measure.Length(0)
			for range 1 + r.IntN(5) {
				at += measure.Length(r.IntN(5)) * mm
				rows[k].Runs = append(rows[k].Runs, cutopt.PlanRun{From: at, To: at + measure.Length(1+r.IntN(6))*mm})
			}
		}
		var want [][2]int
		for a, x := range rows[0].Runs {
			for b, y := range rows[1].Runs {
				if x.From < y.To && y.From < x.To {
					want = append(want, [2]int{a, len(rows[0].Runs) + b})
				}
			}
		}
		in, err := check.Instance(job, plan)
		if err != nil || !slices.Equal(in.Touch, want) {
			t.Errorf("seed %d, case %d: %v, %v, want %v: %v", seed, i, in, err, want, rows)
		}
	}
}

// A plan from elsewhere whose runs lie on each other takes no memory without limit, nor time.
func TestInstanceHostile(t *testing.T) {
	job, plan := parlour(), parlourPlan()
	rows := plan.Floors[0].Rows[:2]
	plan.Floors[0].Rows = rows
	for k := range rows {
		rows[k].Runs = make([]cutopt.PlanRun, 5000)
		for i := range rows[k].Runs {
			rows[k].Runs[i] = cutopt.PlanRun{From: measure.Length(i), To: 1000 * mm}
		}
	}
	if _, err := check.Instance(job, plan); !errors.Is(err, cutopt.ErrTooLarge) {
		t.Errorf("25 million pairs: %v", err)
	}
	slices.Reverse(rows[1].Runs)
	if _, err := check.Instance(job, plan); err == nil || errors.Is(err, cutopt.ErrTooLarge) {
		t.Errorf("runs from right to left: %v", err)
	}
}
