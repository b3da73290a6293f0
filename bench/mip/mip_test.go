package mip_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"plank.example/bench/mip"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// TestSolvers solves an instance worked out by hand by every solver that is installed: two runs of 20 on planks of 10
// in pieces of at least 2, joints 3 apart. Each run takes two whole planks, or one with a starter and an ender that fit
// together: the second run must be of that kind, 5 + 10 + 5, so 4 planks.
func TestSolvers(t *testing.T) {
	in := &rows.Instance{
		Plank: 10, MinPiece: 2, Stagger: 3, Grid: 1, Runs: []rows.Run{{Length: 20}, {Length: 20}}, Touch: [][2]int{{0, 1}},
	}
	for _, s := range []*mip.Solver{mip.CBC(), mip.GLPK()} {
		version := s.Version()
		if version == "" {
			t.Logf("%s is not installed", s.Name)
			continue
		}
		t.Logf("%s %s", s.Name, version)
		for _, m := range []*mip.Model{mip.Compact(), mip.Step()} {
			a, err := s.Solve(context.Background(), in, m, 10*time.Second)
			if err != nil || a.Planks != 4 || !a.Proven || a.CPU <= 0 {
				t.Errorf("%s, %s model: %+v, %v; want 4, proven", s.Name, m.Name, a, err)
			}
		}
		if start, err := s.Startup(context.Background()); err != nil || start <= 0 {
			t.Errorf("%s starts in %v, %v", s.Name, start, err)
		}
	}
}

// TestDrawMixed holds that what is drawn for the step model is an instance that a layout exists for, and that it has
// what the compact model does not cover.
func TestDrawMixed(t *testing.T) {
	runs, cycles, offcuts, beside, laid := 0, 0, 0, 0, 0
	for seed := range uint64(40) {
		in := mip.DrawMixed(seed)
		if err := in.Validate(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if len(in.Touch) >= len(in.Runs) {
			cycles++
		}
		offcuts += len(in.Offcuts)
		beside += len(in.Runs[0].Beside)
		for _, r := range in.Runs {
			if r.Length <= in.Plank {
				runs++
			}
		}
		if _, err := solve.Rows(context.Background(), in, &solve.Options{Effort: solve.EffortQuick}); err == nil {
			laid++
		}
	}
	if runs == 0 || cycles == 0 || offcuts == 0 || beside == 0 || laid < 30 {
		t.Errorf(
			"%d one-piece runs, %d cycles, %d offcuts, %d joints beside, %d of 40 can be laid",
			runs,
			cycles,
			offcuts,
			beside,
			laid,
		)
	}
}

// TestAbsent wants an error, not an answer, from a solver that is not there and for a model that does not cover the
// instance.
func TestAbsent(t *testing.T) {
	in := mip.Draw(1)
	none := mip.HiGHS(t.TempDir())
	if a, err := none.Solve(context.Background(), in, mip.Step(), time.Second); err == nil {
		t.Errorf("a solver that is not installed says %+v", a)
	}
	if v := none.Version(); v != "" {
		t.Errorf("a solver that is not installed has version %q", v)
	}
	in.Runs[0].Length = in.Plank / 2
	if a, err := mip.CBC().Solve(context.Background(), in, mip.Compact(), time.Second); !errors.Is(err, rows.ErrModel) {
		t.Errorf("a one-piece run: %+v, %v", a, err)
	}
}
