package cut_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
	"plank.example/cutopt/stock/internal/tiny"
)

// TestAgainstBruteForce holds plan, bounds and certificate of tiny jobs against every way to cut them.
// CUTOPT_SAMPLES sets how many.
func TestAgainstBruteForce(t *testing.T) {
	n := 1500
	if s, err := strconv.Atoi(os.Getenv("CUTOPT_SAMPLES")); err == nil {
		n = s
	}
	for seed := range uint64(n) {
		job := tiny.Job(rand.New(rand.NewPCG(seed, 20)))
		if err := job.Validate(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want := tiny.Brute(job)
		r, err := cut.Solve(context.Background(), job, nil)
		if !want.Found {
			if !errors.Is(err, cut.ErrNoPlan) {
				t.Errorf("seed %d: there is no plan, the error is %v", seed, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		got := tiny.Best{Found: true, Cost: r.Plan.Cost, Sticks: r.Plan.Sticks, Offcut: r.Plan.Offcut}
		if got != want {
			t.Errorf("seed %d: plan %+v, the best is %+v; bound %+v, proven %+v\n%+v", seed, got, want, r.Bound, r.Proven, job)
		}
		if r.Status != cut.StatusProven {
			t.Errorf("seed %d: %v, %+v of %+v", seed, r.Status, r.Proven, r.Bound)
		}
		hold(t, seed, job, r)
	}
}

// hold verifies the certificate and that it shows what the result claims.
func hold(t *testing.T, seed uint64, job *stock.Job, r *cut.Result) {
	t.Helper()
	v, err := stock.Verify(context.Background(), job, r.Certificate)
	if err != nil {
		t.Errorf("seed %d: %v", seed, err)
		return
	}
	if v.Cost != r.Bound.Cost {
		t.Errorf("seed %d: the certificate shows cost %d, the bound is %d", seed, v.Cost, r.Bound.Cost)
	}
	if v.Sticks != r.Bound.Sticks || v.Within < r.Plan.Cost {
		t.Errorf("seed %d: the certificate shows %d sticks within %d, the bound is %d at %d", seed, v.Sticks, v.Within, r.Bound.Sticks, r.Plan.Cost)
	}
	if !v.OffcutShown || v.OffcutWithin < r.Plan.Cost || v.OffcutSticks < r.Plan.Sticks || v.Offcut > max(r.Bound.Offcut+1, job.Keep) {
		t.Errorf("seed %d: the certificate shows %+v of offcuts, the bound is %d", seed, v, r.Bound.Offcut)
	}
}
