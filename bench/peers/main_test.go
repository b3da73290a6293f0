package main

import (
	"context"
	"strings"
	"testing"
	"time"

	"plank.example/bench/mip"
)

// TestRun compares on two small instances with whatever peers are installed but HiGHS, which is not in an empty folder.
func TestRun(t *testing.T) {
	var out strings.Builder
	c := comparison{n: 1, seed: 40, limit: time.Second, solvers: []*mip.Solver{mip.HiGHS(t.TempDir()), mip.CBC()}}
	if err := c.run(context.Background(), &out); err != nil {
		t.Fatal(err)
	}
	if text := out.String(); !strings.Contains(text, "HiGHS: absent") || !strings.Contains(text, "=20 ") {
		t.Errorf("seed 40 needs 20 planks, and HiGHS is not installed in an empty folder:\n%s", text)
	}
	c.mixed, c.seed, c.solvers = true, 1, nil
	out.Reset()
	if err := c.run(context.Background(), &out); err != nil {
		t.Fatal(err)
	}
	if text := out.String(); !strings.Contains(text, "| this library | 1 |") {
		t.Errorf("one mixed instance:\n%s", text)
	}
}

// TestFrozen takes instances of the frozen set by their id.
func TestFrozen(t *testing.T) {
	c := comparison{n: 3, frozen: "quarter-", file: "../../testdata/instances/instances.jsonl"}
	list, err := c.problems()
	if err != nil || len(list) != 3 || list[2].name != "quarter-3" {
		t.Errorf("%v, %v", list, err)
	}
}
