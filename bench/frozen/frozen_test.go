package frozen_test

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"plank.example/bench/frozen"
	"plank.example/bench/strategy"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

func set(t *testing.T) []*frozen.Entry {
	t.Helper()
	f, err := os.Open("../../testdata/instances/instances.jsonl")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	entries, err := frozen.Read(f)
	if err != nil {
		t.Fatal(err)
	}
	return entries
}

// TestSet recomputes every entry of the frozen set from its layout and its certificate.
func TestSet(t *testing.T) {
	entries := set(t)
	if len(entries) < 300 {
		t.Errorf("%d instances, want 300 or more", len(entries))
	}
	optima := 0
	for i, e := range entries {
		if testing.Short() && i%10 > 0 {
			continue
		}
		if err := e.Verify(); err != nil {
			t.Error(err)
		}
		optima += len(e.Optima)
	}
	if optima < 20 && !testing.Short() {
		t.Errorf("only %d optima of general solvers are stored", optima)
	}
}

// TestOptima holds this library against the optima that general solvers proved on their own.
func TestOptima(t *testing.T) {
	compared := 0
	for _, e := range set(t) {
		if len(e.Optima) == 0 || testing.Short() && compared >= 10 {
			continue
		}
		compared++
		r, err := solve.Rows(context.Background(), e.Instance, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range e.Optima {
			if n := len(r.Cutting.Planks); n < o.Planks || n > o.Planks && r.Bound.PlanksProven || r.Bound.Planks > o.Planks {
				t.Errorf("%s: %d planks, bound %d; %s proved %d", e.ID, n, r.Bound.Planks, o.By, o.Planks)
			}
		}
	}
	if compared < 10 {
		t.Errorf("only %d instances have optima", compared)
	}
}

// TestMake draws some of the set anew: the file holds what the generators of this tree make.
func TestMake(t *testing.T) {
	if testing.Short() {
		t.Skip("it draws and lays every room")
	}
	drawn, err := frozen.Make()
	if err != nil {
		t.Fatal(err)
	}
	entries := set(t)
	if len(drawn) != len(entries) {
		t.Fatalf("%d instances are drawn, %d stored", len(drawn), len(entries))
	}
	for i, e := range drawn {
		if e.ID != entries[i].ID || e.Origin != entries[i].Origin || !frozen.Same(e.Instance, entries[i].Instance) {
			t.Errorf("%s is stored otherwise than it is drawn", e.ID)
		}
	}
}

// two is an entry of two runs of 20 on planks of 10, joints 3 apart: 4 planks, worked out by hand. The first run takes two whole
// planks, the second 5 + 10 + 5.
func two() *frozen.Entry {
	return &frozen.Entry{
		ID: "two", Origin: "by hand", Planks: 5, PlanksBy: "hand", Bound: 1, BoundBy: "hand",
		Instance: &rows.Instance{
			Plank: 10, MinPiece: 2, Stagger: 3, Grid: 1, Runs: []rows.Run{{Length: 20}, {Length: 20}}, Touch: [][2]int{{0, 1}},
		},
		Layout: rows.Layout{4, 7}, // 4 10 6 and 7 10 3: 2 whole, 4 with 6, 7 with 3: 4 planks
		Certificate: &proof.Certificate{Planks: 1, Tree: proof.Node{
			Prices: []proof.Step{{At: 10, Price: proof.Denominator}},
		}},
	}
}

// area is the price function that grows evenly with the length, in steps of one.
func area() *proof.Certificate {
	c := &proof.Certificate{Planks: 4}
	for x := measure.Length(1); x <= 10; x++ {
		c.Tree.Prices = append(c.Tree.Prices, proof.Step{At: x, Price: int64(x) * proof.Denominator / 10})
	}
	return c
}

// TestClaims adds results: better ones are taken, others change nothing.
func TestClaims(t *testing.T) {
	e := two()
	if err := e.Verify(); err == nil {
		t.Error("an entry that says 5 planks where its layout needs 4 verifies")
	}
	e.Planks = 4
	if err := e.Verify(); err != nil {
		t.Fatal(err)
	}
	line := func(c frozen.Claim) string {
		data, err := json.Marshal(c)
		if err != nil {
			t.Fatal(err)
		}
		return string(data) + "\n"
	}
	false5 := area()
	false5.Planks = 5
	for _, c := range []struct {
		why, text string
		ok        bool
		bettered  int
	}{
		{"no better", line(frozen.Claim{ID: "two", By: "x", Layout: rows.Layout{10, 5}}), true, 0},
		{"the area bound", line(frozen.Claim{ID: "two", By: "x", Certificate: area()}), true, 1},
		{"the same again", line(frozen.Claim{ID: "two", By: "x", Certificate: area()}), true, 0},
		{"a false bound", line(frozen.Claim{ID: "two", By: "x", Certificate: false5}), false, 0},
		{"joints in line", line(frozen.Claim{ID: "two", By: "x", Layout: rows.Layout{10, 10}}), false, 0},
		{"no such instance", line(frozen.Claim{ID: "three", By: "x", Layout: rows.Layout{10, 5}}), false, 0},
		{"by nobody", line(frozen.Claim{ID: "two", Layout: rows.Layout{10, 5}}), false, 0},
		{"another key", `{"id": "two", "by": "x", "planks": 3}` + "\n", false, 0},
		{"no JSON", "3 planks\n", false, 0},
	} {
		ids, err := frozen.Add([]*frozen.Entry{e}, strings.NewReader(c.text))
		if (err == nil) != c.ok || len(ids) != c.bettered {
			t.Errorf("%s: %v, %v", c.why, ids, err)
		}
		if err := e.Verify(); err != nil {
			t.Errorf("after %s: %v", c.why, err)
		}
	}
	if e.Bound != 4 || e.BoundBy != "x" || e.PlanksBy != "hand" {
		t.Errorf("%+v", e)
	}
	worse := two()
	worse.Certificate, worse.Layout = nil, nil
	if better, err := worse.Improve(&strategy.Answer{Layout: rows.Layout{10, 5}, Certificate: area()}, "y"); !better || err != nil || worse.Planks != 4 {
		t.Errorf("the first result: %v, %v, %+v", better, err, worse)
	}
}

// TestRead wants a set to read back as it was written, and bad files refused.
func TestRead(t *testing.T) {
	entries := set(t)[:5]
	var b bytes.Buffer
	if err := frozen.Write(&b, entries); err != nil {
		t.Fatal(err)
	}
	first := b.String()
	again, err := frozen.Read(&b)
	if err != nil {
		t.Fatal(err)
	}
	b.Reset()
	if err := frozen.Write(&b, again); err != nil || b.String() != first {
		t.Errorf("what was written reads back otherwise: %v", err)
	}
	line, _, _ := strings.Cut(first, "\n")
	for _, text := range []string{line + "\n" + line + "\n", "\n", "{}\n{}\n", `{"length": 3}`, "[]"} {
		if got, err := frozen.Read(strings.NewReader(text)); err == nil {
			t.Errorf("%.40q reads as %d entries", text, len(got))
		}
	}
	broken := entries[0]
	broken.Optima = []frozen.Optimum{{By: "a solver", Planks: broken.Bound - 1}}
	if broken.Verify() == nil {
		t.Error("an optimum below the bound verifies")
	}
}
