package mip_test

import (
	"context"
	"errors"
	"os/exec"
	"testing"
	"time"

	"plank.example/bench/mip"
	"plank.example/cutopt/rows"
)

// TestCBC solves an instance worked out by hand, where cbc is installed: two runs of 20 on planks of 10 in pieces of at least 2, joints
// 3 apart. Each run takes two whole planks, or one with a starter and an ender that fit together: the second run must be of that kind,
// 5 + 10 + 5, so 4 planks.
func TestCBC(t *testing.T) {
	in := &rows.Instance{Plank: 10, MinPiece: 2, Stagger: 3, Grid: 1, Runs: []rows.Run{{Length: 20}, {Length: 20}}, Touch: [][2]int{{0, 1}}}
	if _, err := exec.LookPath("cbc"); err != nil {
		t.Skip("cbc is not installed")
	}
	a, err := mip.CBC().Solve(context.Background(), in, 10*time.Second)
	if err != nil || a.Planks != 4 || !a.Proven {
		t.Errorf("%+v, %v; want 4, proven", a, err)
	}
	if out, err := exec.Command("cbc", "--version").Output(); err == nil {
		t.Logf("%s", out)
	}
}

// TestAbsent wants an error, not an answer, from a solver that is not there and for a model that does not cover the instance.
func TestAbsent(t *testing.T) {
	in := mip.Draw(1)
	if a, err := mip.HiGHS(t.TempDir()).Solve(context.Background(), in, time.Second); err == nil {
		t.Errorf("a solver that is not installed says %+v", a)
	}
	in.Runs[0].Length = in.Plank / 2
	if a, err := mip.CBC().Solve(context.Background(), in, time.Second); !errors.Is(err, rows.ErrModel) {
		t.Errorf("a one-piece run: %+v, %v", a, err)
	}
}
