package sticks_test

import (
	"context"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"plank.example/bench/mip"
	"plank.example/bench/sticks"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// small draws a job that general solvers close at once.
func small(seed uint64) *stock.Job {
	r := rand.New(rand.NewPCG(seed, 1))
	job := &stock.Job{Kerf: measure.Length(r.IntN(3)), Sticks: []stock.Stick{
		{Length: 60, Price: 7, Supply: 3}, {Length: 100, Price: 11}, {Length: 80, Price: 9},
	}}
	for range 4 + r.IntN(4) {
		job.Pieces = append(job.Pieces, stock.Piece{Length: measure.Length(9 + r.IntN(45)), Count: 1 + r.IntN(4)})
	}
	return job
}

// TestArcFlow holds the least cost against CBC on the arc-flow model: prices, supply and kerf.
func TestArcFlow(t *testing.T) {
	if testing.Short() {
		t.Skip("runs a general solver")
	}
	cbc := mip.CBC()
	if cbc.Version() == "" {
		t.Skip("cbc is not installed: apt-get install coinor-cbc")
	}
	for seed := range uint64(3) {
		job := small(seed)
		r, err := cut.Solve(context.Background(), job, &cut.Options{Aim: cut.AimCost})
		if err != nil {
			t.Fatal(err)
		}
		var text strings.Builder
		if err := sticks.WriteArcFlow(job, &text); err != nil {
			t.Fatal(err)
		}
		lp := filepath.Join(t.TempDir(), "model.lp")
		if err := os.WriteFile(lp, []byte(text.String()), 0o600); err != nil {
			t.Fatal(err)
		}
		a, err := cbc.SolveLP(context.Background(), lp, time.Minute)
		if err != nil || !a.Proven {
			t.Fatalf("seed %d: CBC: %+v, %v", seed, a, err)
		}
		if r.Status != cut.StatusProven || r.Plan.Cost != int64(a.Planks) {
			t.Errorf("seed %d: cost %d, %v, CBC has %d", seed, r.Plan.Cost, r.Status, a.Planks)
		}
	}
}

// TestBestFit: 5 and 4 go on one stick of 9, 3 and 3 on the next [arithmetic]; it is never below the optimum.
func TestBestFit(t *testing.T) {
	if cost, n := sticks.BestFit(sticks.Plain(9, []int{3, 5, 3, 4})); cost != 2 || n != 2 {
		t.Errorf("cost %d, %d sticks, want 2", cost, n)
	}
	for seed := range uint64(25) {
		job := small(seed)
		r, err := cut.Solve(context.Background(), job, &cut.Options{Aim: cut.AimCost})
		if err != nil {
			t.Fatal(err)
		}
		if cost, n := sticks.BestFit(job); n > 0 && cost < r.Bound.Cost {
			t.Errorf("seed %d: best fit costs %d, the bound is %d", seed, cost, r.Bound.Cost)
		}
	}
}

// TestClasses: every drawn job is valid, and drawn alike twice.
func TestClasses(t *testing.T) {
	for _, c := range sticks.Classes("") {
		a, err := c.Draw()
		if err != nil {
			t.Fatal(err)
		}
		b, _ := c.Draw()
		for i, in := range a {
			if err := in.Job.Validate(); err != nil {
				t.Errorf("%s: %v", in.Name, err)
			}
			if len(in.Job.Pieces) != len(b[i].Job.Pieces) || in.Job.Pieces[0] != b[i].Job.Pieces[0] {
				t.Errorf("%s is drawn otherwise the second time", in.Name)
			}
		}
	}
}
