package cut_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
	"plank.example/cutopt/stock/internal/tiny"
)

// TestAgainstBruteForce holds plan, bounds and certificate of tiny jobs against every way to cut them.
// CUTOPT_SAMPLES tries more.
func TestAgainstBruteForce(t *testing.T) {
	n := oracle.Samples(600)
	seeds := []uint64{
		2310, // what sticks can waste together was reckoned in units, which the verifier reckons in ticks
	}
	for seed := range uint64(n) {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
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
		t.Errorf(
			"seed %d: the certificate shows %d sticks within %d, the bound is %d at %d",
			seed,
			v.Sticks,
			v.Within,
			r.Bound.Sticks,
			r.Plan.Cost,
		)
	}
	if !v.OffcutShown || v.OffcutWithin < r.Plan.Cost || v.OffcutSticks < r.Plan.Sticks ||
		v.Offcut > max(r.Bound.Offcut+1, job.Keep) {
		t.Errorf("seed %d: the certificate shows %+v of offcuts, the bound is %d", seed, v, r.Bound.Offcut)
	}
}

// TestRandom: jobs too large for brute force keep what they claim: the certificate verifies and shows the bound,
// whether the effort was enough or not. CUTOPT_SAMPLES tries more.
func TestRandom(t *testing.T) {
	n := oracle.Samples(30)
	for seed := range uint64(n) {
		r := rand.New(rand.NewPCG(seed, 23))
		job := mixed(seed, 3+r.IntN(18))
		if r.IntN(2) == 0 {
			job.Sticks[r.IntN(3)].Supply = 1 + r.IntN(5)
		}
		for range r.IntN(3) {
			job.Sticks = append(
				job.Sticks,
				stock.Stick{Length: measure.Length(20+r.IntN(90)) * in, OnHand: true, Supply: 1 + r.IntN(3)},
			)
		}
		if r.IntN(3) == 0 {
			for k := range job.Sticks {
				job.Sticks[k].Price, job.Sticks[k].Waste = 0, measure.Length(r.IntN(3))*in/4
			}
		}
		result, err := cut.Solve(context.Background(), job, &cut.Options{Effort: cut.EffortQuick})
		if errors.Is(err, cut.ErrNoPlan) {
			continue
		}
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		hold(t, seed, job, result)
		if result.Bound.Cost > result.Plan.Cost || result.Bound.Sticks > result.Plan.Sticks ||
			result.Bound.Offcut < result.Plan.Offcut {
			t.Errorf("seed %d: %+v is better than the bound %+v", seed, result.Plan, result.Bound)
		}
	}
}
