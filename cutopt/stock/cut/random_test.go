package cut_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// best is the optimum of a job by trying every way to put pieces on sticks.
type best struct {
	found  bool
	cost   int64
	sticks int
	offcut measure.Length
}

// brute tries every way.
func brute(job *stock.Job) best {
	var pieces []measure.Length
	for _, p := range job.Pieces {
		for range p.Count {
			pieces = append(pieces, p.Length)
		}
	}
	costs := job.Costs()
	type open struct {
		stick int
		left  measure.Length // for pieces with a kerf each
	}
	var out best
	var sticks []open
	used := make([]int, len(job.Sticks))
	var place func(i int, cost int64)
	place = func(i int, cost int64) {
		if out.found && cost > out.cost {
			return
		}
		if i == len(pieces) {
			longest := measure.Length(0)
			for _, s := range sticks {
				if l := s.left - job.Kerf; l >= job.Keep {
					longest = max(longest, l)
				}
			}
			b := best{true, cost, len(sticks), longest}
			if !out.found || b.cost < out.cost || b.cost == out.cost &&
				(b.sticks < out.sticks || b.sticks == out.sticks && b.offcut > out.offcut) {
				out = b
			}
			return
		}
		w := pieces[i] + job.Kerf
		for k := range sticks {
			if sticks[k].left >= w {
				sticks[k].left -= w
				place(i+1, cost)
				sticks[k].left += w
			}
		}
		for k, s := range job.Sticks {
			if room := s.Usable() + job.Kerf; room >= w && (s.Supply == 0 || used[k] < s.Supply) {
				used[k]++
				sticks = append(sticks, open{k, room - w})
				place(i+1, cost+costs[k])
				sticks = sticks[:len(sticks)-1]
				used[k]--
			}
		}
	}
	place(0, 0)
	return out
}

// randomJob draws a tiny job: up to 7 pieces, up to 3 kinds of sticks, some with supply, on hand, waste, prices.
func randomJob(r *rand.Rand) *stock.Job {
	job := &stock.Job{
		Unit: measure.UnitMillimetre, Kerf: measure.Length(r.IntN(4)), Keep: measure.Length(r.IntN(12)),
	}
	long := 20 + r.IntN(60)
	priced := r.IntN(2) == 0
	for k := range 1 + r.IntN(3) {
		s := stock.Stick{Length: measure.Length(long + r.IntN(40)), Waste: measure.Length(r.IntN(3))}
		if priced {
			s.Price = int64(1 + r.IntN(30))
		}
		if r.IntN(3) == 0 {
			s.Supply = 1 + r.IntN(3)
		}
		if k > 0 && r.IntN(4) == 0 {
			s.OnHand, s.Supply, s.Price = true, 1+r.IntN(2), 0
		}
		job.Sticks = append(job.Sticks, s)
	}
	left := 1 + r.IntN(7)
	for left > 0 {
		p := stock.Piece{Length: measure.Length(3 + r.IntN(long-8)), Count: 1 + r.IntN(min(left, 3))}
		left -= p.Count
		job.Pieces = append(job.Pieces, p)
	}
	return job
}

// TestAgainstBruteForce holds plan, bounds and certificate of tiny jobs against every way to cut them.
// CUTOPT_SAMPLES sets how many.
func TestAgainstBruteForce(t *testing.T) {
	n := 1500
	if s, err := strconv.Atoi(os.Getenv("CUTOPT_SAMPLES")); err == nil {
		n = s
	}
	for seed := range uint64(n) {
		job := randomJob(rand.New(rand.NewPCG(seed, 20)))
		if err := job.Validate(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want := brute(job)
		r, err := cut.Solve(context.Background(), job, nil)
		if !want.found {
			if !errors.Is(err, cut.ErrNoPlan) {
				t.Errorf("seed %d: there is no plan, the error is %v", seed, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		got := best{true, r.Plan.Cost, r.Plan.Sticks, r.Plan.Offcut}
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
