package main

import (
	"context"
	"os"
	"path/filepath"
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

// TestAnswers goes on from a file of answers: what is there is not asked for again, and with kept nothing is.
func TestAnswers(t *testing.T) {
	name := filepath.Join(t.TempDir(), "answers.jsonl")
	kept := `{"instance":"40","solver":"this library","limit":0,"planks":20,"proven":true,"cpu":0.001}
{"instance":"40","solver":"CBC step","limit":60,"planks":20,"proven":true,"cpu":1}
{"instance":"40","solver":"GLPK step","limit":1,"planks":0,"proven":false,"cpu":0}
{"instance":"40","solver":"GLPK step","limit":3,"planks":0,"proven":false,"cpu":0}
{"instance":"41","solver":"CBC step","limit":60,"planks":30,"proven":true,"cpu":1}
`
	if err := os.WriteFile(name, []byte(kept), 0o644); err != nil {
		t.Fatal(err)
	}
	known, err := readAnswers(name)
	if err != nil {
		t.Fatal(err)
	}
	if a, ok := known.of("40", "GLPK step", 4*time.Second); ok {
		t.Errorf("an answer of three seconds is taken for one of four: %v", a)
	}
	if a, ok := known.of("40", "CBC step", time.Second/2); !ok || a.Proven {
		t.Errorf("what takes a second closes in half of one: %v, %v", a, ok)
	}
	cbc, glpk := mip.CBC(), mip.GLPK()
	if cbc.Version() == "" || glpk.Version() == "" {
		t.Skip("CBC and GLPK are not installed")
	}
	var out strings.Builder
	c := comparison{
		n: 2, seed: 40, limit: time.Minute, solvers: []*mip.Solver{cbc, glpk}, only: "CBC step,GLPK step",
		answers: known, race: true, kept: true,
	}
	if err := c.run(context.Background(), &out); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"| this library | 1 | 1 | | 0.00 | 1 |", "| CBC step | 1 | 1 | 1 of 1 | 1.00 | 1000 |",
		"| GLPK step | 1 | 0 | 0 of 0 | 0.00 | - |", "| best of them, each instance | 1 | 1 | 1 of 1 | 1.00 | 1000 |",
	} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not in\n%s", want, out.String())
		}
	}
	if after, err := os.ReadFile(name); err != nil || string(after) != kept {
		t.Errorf("the answers have changed: %v\n%s", err, after)
	}
}
