package frozen_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"plank.example/bench/frozen"
	"plank.example/bench/mip"
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
		if testing.Short() && i%10 > 0 || i%3 > 0 && len(e.Optima) == 0 { // .ci/run verifies all by another program
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

// TestQuarter draws part quarter anew. The other parts of version 1 came from rooms by the geometry of their time; what
// holds them is their hash.
func TestQuarter(t *testing.T) {
	n := 0
	for _, e := range set(t) {
		seed, ok := strings.CutPrefix(e.ID, "quarter-")
		if !ok {
			continue
		}
		number, err := strconv.ParseUint(seed, 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		drawn := mip.Draw(number)
		drawn.Name = ""
		if n++; !frozen.Same(drawn, e.Instance) {
			t.Errorf("%s is stored otherwise than it is drawn", e.ID)
		}
	}
	if n != 80 {
		t.Errorf("%d instances of part quarter, want 80", n)
	}
}

// two is an entry of two runs of 20 on planks of 10, joints 3 apart: 4 planks, worked out by hand. The first run takes
// two whole planks, the second 5 + 10 + 5.
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
	x := frozen.Source{By: "x", Date: "2026-11-26", Seconds: 1.5, Machine: "by hand"}
	false5 := area()
	false5.Planks = 5
	for _, c := range []struct {
		why, text string
		ok        bool
		taken     int
	}{
		{"a tie", line(frozen.Claim{ID: "two", Source: x, Layout: rows.Layout{10, 5}}), true, 1},
		{"the same tie again", line(frozen.Claim{ID: "two", Source: x, Layout: rows.Layout{10, 5}}), true, 0},
		{
			"a tie with oneself", line(frozen.Claim{ID: "two", Source: frozen.Source{By: "hand"}, Layout: rows.Layout{10, 5}}),
			true, 0,
		},
		{"the area bound", line(frozen.Claim{ID: "two", Source: x, Certificate: area()}), true, 1},
		{"the same again", line(frozen.Claim{ID: "two", Source: x, Certificate: area()}), true, 0},
		{"the same by another", line(frozen.Claim{ID: "two", Source: frozen.Source{By: "y"}, Certificate: area()}), true, 1},
		{"neither layout nor certificate", line(frozen.Claim{ID: "two", Source: x}), false, 0},
		{"a date of another kind", line(frozen.Claim{
			ID: "two", Source: frozen.Source{By: "x", Date: "26.11."},
			Certificate: area(),
		}), false, 0},
		{
			"less than no time", line(frozen.Claim{ID: "two", Source: frozen.Source{By: "x", Seconds: -1}, Certificate: area()}),
			false, 0,
		},
		{"a false bound", line(frozen.Claim{ID: "two", Source: x, Certificate: false5}), false, 0},
		{"joints in line", line(frozen.Claim{ID: "two", Source: x, Layout: rows.Layout{10, 10}}), false, 0},
		{"no such instance", line(frozen.Claim{ID: "three", Source: x, Layout: rows.Layout{10, 5}}), false, 0},
		{"by nobody", line(frozen.Claim{ID: "two", Layout: rows.Layout{10, 5}}), false, 0},
		{"another key", `{"id": "two", "by": "x", "planks": 3}` + "\n", false, 0},
		{"no JSON", "3 planks\n", false, 0},
	} {
		outcomes, err := frozen.Add([]*frozen.Entry{e}, strings.NewReader(c.text))
		taken := 0
		for _, o := range outcomes {
			if o.Taken {
				taken++
			}
		}
		if (err == nil) != c.ok || taken != c.taken {
			t.Errorf("%s: %v, %v", c.why, outcomes, err)
		}
		if err := e.Verify(); err != nil {
			t.Errorf("after %s: %v", c.why, err)
		}
	}
	if e.Bound != 4 || e.BoundBy != "x" || e.PlanksBy != "hand" {
		t.Errorf("%+v", e)
	}
	var history []string
	for _, r := range e.History {
		history = append(history, fmt.Sprintf("%s %d %d %v", r.By, r.Planks, r.Bound, r.Tie))
	}
	if want := []string{"x 4 0 true", "x 0 4 false", "y 0 4 true"}; !slices.Equal(history, want) {
		t.Errorf("the history is %q, want %q", history, want)
	}
	worse := two()
	worse.Certificate, worse.Layout = nil, nil
	if better, err := worse.Improve(&strategy.Answer{Layout: rows.Layout{10, 5}, Certificate: area()}, "y"); !better ||
		err != nil ||
		worse.Planks != 4 {
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
	lines := strings.SplitAfter(first, "\n")
	for _, text := range []string{
		"", "\n", "{}\n{}\n", `{"length": 3}`, "[]", lines[1], strings.Replace(first, `"version":3`, `"version":2`, 1),
		strings.Replace(first, `"plank rows"`, `"rows"`, 1), lines[0] + lines[1] + lines[2], // two of five
		lines[0] + lines[1] + lines[2] + lines[3] + lines[4] + lines[4],
	} {
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

// TestParts holds what came since version 2 against the rule of its part, its generator, and the number it should have.
func TestParts(t *testing.T) {
	entries := set(t)
	open := 0
	for _, p := range frozen.Parts() {
		n := 0
		for _, e := range entries {
			seed, ok := strings.CutPrefix(e.ID, p.Name+"-")
			if !ok {
				continue
			}
			n++
			number, err := strconv.ParseUint(seed, 10, 64)
			if err != nil {
				t.Fatal(err)
			}
			drawn, err := p.Draw(number)
			if err != nil || !frozen.Same(drawn.Instance, e.Instance) || drawn.Origin != e.Origin || drawn.PerBox != e.PerBox {
				t.Errorf("%s is stored otherwise than it is drawn: %v", e.ID, err)
			}
			if e.Since != p.Since {
				t.Errorf("%s came with version %d", e.ID, e.Since)
			}
			if e.Planks > e.Bound {
				open++
			}
		}
		if n < p.Count {
			t.Errorf("part %s has %d instances, want %d", p.Name, n, p.Count)
		}
	}
	t.Logf("%d instances of these parts are open", open)
}

// TestHashes holds every instance of the set against the list of hashes: no instance of a version may change.
func TestHashes(t *testing.T) {
	want, err := os.ReadFile("../../testdata/instances/SHA256SUMS")
	if err != nil {
		t.Fatal(err)
	}
	var got bytes.Buffer
	if err := frozen.WriteHashes(&got, set(t)); err != nil {
		t.Fatal(err)
	}
	if got.String() != string(want) {
		t.Error("the instances are not those of SHA256SUMS")
	}
}

// TestDivision holds the bound of dividing lengths below every layout of the set.
func TestDivision(t *testing.T) {
	below := 0
	for _, e := range set(t) {
		d := frozen.Division(e.Instance)
		if d > e.Planks {
			t.Errorf("%s: dividing lengths says %d planks, a layout needs %d", e.ID, d, e.Planks)
		}
		if d < e.Planks {
			below++
		}
	}
	if below == 0 {
		t.Error("dividing lengths settles every instance: the set is too easy")
	}
}

// begun are floors of which a row is laid in part, on planks of 24 and with offcuts on hand, some with a run that is a
// plank long: their layouts and certificates are those of this module.
func begun(t *testing.T) (out []*frozen.Entry) {
	t.Helper()
	for k, runs := range [][]rows.Run{
		{{Length: 60, Starter: 24}, {Length: 60}, {Length: 24, Starter: 23}, {Length: 24}, {Length: 60}},
		{{Length: 61, Starter: 4, Beside: []measure.Length{5}}, {Length: 20}, {Length: 20, Starter: 7}, {Length: 61}},
		{{Length: 24, Starter: 9}, {Length: 20, Starter: 16}, {Length: 20}, {Length: 44, Starter: 24}, {Length: 24}},
		{{Length: 47, Starter: 24}, {Length: 81}, {Length: 81}},
	} {
		in := &rows.Instance{
			Plank: 24, Kerf: 1, MinPiece: 5, Stagger: 4, Grid: 1, Runs: runs, Touch: [][2]int{{0, 1}, {1, 3}},
			Offcuts: []rows.Offcut{{Length: 13, End: rows.EndLeft}, {Length: 9, End: rows.EndRight}},
		}
		switch k {
		case 2:
			in.Touch, in.Offcuts = nil, nil
		case 3: // more offcuts than are of use
			in.Touch = [][2]int{{0, 1}, {1, 2}}
			for x := range measure.Length(6) {
				in.Offcuts = append(in.Offcuts, rows.Offcut{Length: 12 + x, End: rows.EndRight},
					rows.Offcut{Length: 13 + x, End: rows.EndLeft})
			}
		}
		r, err := solve.Rows(t.Context(), in, nil)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, &frozen.Entry{
			ID: fmt.Sprint("begun-", k), Planks: len(r.Cutting.Planks), Bound: r.Bound.Planks, Instance: in, Layout: r.Layout,
			Packing: strategy.PackingOf(in, r.Cutting), Certificate: r.Bound.Certificate,
		})
		c := *r.Bound.Certificate
		if c.Planks++; c.Verify(in) == nil {
			t.Errorf("%d: the certificate verifies for %d planks, and %d do", k, c.Planks, len(r.Cutting.Planks))
		}
		counted := *out[len(out)-1]
		counted.ID += "-counted"
		counted.Certificate = &proof.Certificate{Planks: counted.Bound, Tree: proof.Node{Counts: true}}
		counted.Certificate.Dropped = in.Touch // a leaf of counts heeds no stagger
		if counted.Certificate.Verify(in) == nil {
			out = append(out, &counted)
		}
	}
	if !slices.ContainsFunc(out, func(e *frozen.Entry) bool { return e.Certificate.Tree.Counts }) {
		t.Error("no claim about begun runs is proven by counts")
	}
	if n := out[len(out)-1].Certificate.Tree; n.FreeStarter == 0 && n.FreeEnder == 0 {
		t.Error("no claim is proven with free pieces")
	}
	return out
}

// nearly are floors without stagger whose runs differ by less than a step of the grid and by whole planks, as along
// walls that are not quite parallel: counts take such runs for one kind.
func nearly(t *testing.T) (out []*frozen.Entry) {
	t.Helper()
	for k := range measure.Length(6) {
		in := &rows.Instance{Plank: 100 + k, Kerf: 3, MinPiece: 20, Grid: 4}
		for i := range 12 + k {
			w := 237 + i%3
			if i%4 == 0 {
				w += 100 + k
			}
			in.Runs = append(in.Runs, rows.Run{Length: w + 31*(i%2)})
		}
		r, err := solve.Rows(t.Context(), in, nil)
		if err != nil {
			t.Fatal(err)
		}
		e := &frozen.Entry{
			ID: fmt.Sprint("nearly-", k), Planks: len(r.Cutting.Planks), Bound: r.Bound.Planks, Instance: in, Layout: r.Layout,
			Packing:     strategy.PackingOf(in, r.Cutting),
			Certificate: &proof.Certificate{Planks: r.Bound.Planks, Tree: proof.Node{Counts: true}},
		}
		if err := e.Certificate.Verify(in); err != nil {
			t.Errorf("nearly %d: %v", k, err)
		}
		out = append(out, e)
	}
	return out
}

// TestReferenceVerifier runs the verifier in Python over a part of the set, the whole of which CI verifies, and over
// entries that claim too much.
func TestReferenceVerifier(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 is not installed")
	}
	entries := set(t)
	run := func(list []*frozen.Entry) (string, error) {
		name := filepath.Join(t.TempDir(), "set.jsonl")
		f, err := os.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := frozen.Write(f, list); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(python, "../../testdata/instances/verify.py", name).CombinedOutput()
		return string(out), err
	}
	var some []*frozen.Entry
	for i, e := range entries {
		if i%80 == 7 && len(e.Instance.Runs) < 60 {
			some = append(some, e)
		}
	}
	if out, err := run(some); err != nil || !strings.Contains(out, fmt.Sprintf("%d entries verified", len(some))) {
		t.Errorf("%v: %s", err, out)
	}
	begun := begun(t)
	if out, err := run(begun); err != nil || !strings.Contains(out, fmt.Sprintf("%d entries verified", len(begun))) {
		t.Errorf("with runs that are begun: %v: %s", err, out)
	}
	counted := nearly(t)
	if out, err := run(counted); err != nil || !strings.Contains(out, fmt.Sprintf("%d entries verified", len(counted))) {
		t.Errorf("with runs that are nearly alike: %v: %s", err, out)
	}
	for _, e := range counted {
		e.Bound, e.Planks, e.Certificate.Planks = e.Bound+1, e.Planks+1, e.Bound+1
	}
	if out, err := run(counted); err == nil || !strings.Contains(out, fmt.Sprintf("%d failed", len(counted))) {
		t.Errorf("with runs that are nearly alike, a plank more claimed: %v: %s", err, out)
	}
	for _, spoil := range []struct {
		why string
		do  func(e *frozen.Entry)
	}{
		{"a plank less than the layout needs", func(e *frozen.Entry) { e.Planks-- }},
		{"a bound above the planks", func(e *frozen.Entry) { e.Bound++; e.Certificate.Planks++ }},
		{
			"a bound that is not proven",
			func(e *frozen.Entry) { e.Bound += 1000; e.Planks += 1000; e.Certificate.Planks += 1000 },
		},
		{"a starter off the grid", func(e *frozen.Entry) { e.Layout[0]++ }},
		{"prices that fall", func(e *frozen.Entry) {
			n := &e.Certificate.Tree
			for n.Split != nil {
				n = n.Low
			}
			if n.Counts {
				n.Counts = false
			}
			n.Prices = append([]proof.Step{{At: 1, Price: proof.Denominator}}, n.Prices...)
		}},
	} {
		list := set(t)[:1]
		spoil.do(list[0])
		if out, err := run(list); err == nil || !strings.Contains(out, "FAILED quarter-1") {
			t.Errorf("%s: %v: %s", spoil.why, err, out)
		}
	}
}

// TestReferenceClaims verifies claims in Python before they are sent: what the set knows holds, a plank more does not.
func TestReferenceClaims(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 is not installed")
	}
	e := set(t)[0]
	run := func(c frozen.Claim) (string, error) {
		name := filepath.Join(t.TempDir(), "claims.jsonl")
		text, err := json.Marshal(c)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, text, 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(python, "../../testdata/instances/claims.py", name).CombinedOutput()
		return string(out), err
	}
	claim := frozen.Claim{
		ID: e.ID, Source: frozen.Source{By: "a test"}, Layout: e.Layout, Packing: e.Packing, Certificate: e.Certificate,
	}
	want := fmt.Sprintf("holds: %s: %d planks, %d known, bound %d, %d known", e.ID, e.Planks, e.Planks, e.Bound, e.Bound)
	if out, err := run(claim); err != nil || !strings.Contains(out, want) {
		t.Errorf("%v: %s", err, out)
	}
	for _, spoil := range []struct {
		why string
		do  func(c *frozen.Claim)
	}{
		{"a bound that is not proven", func(c *frozen.Claim) {
			more := *c.Certificate
			more.Planks += 1000
			c.Certificate = &more
		}},
		{"a run short", func(c *frozen.Claim) { c.Layout = c.Layout[1:] }},
		{"an instance that is none", func(c *frozen.Claim) { c.ID = "none" }},
		{"nobody", func(c *frozen.Claim) { c.By = "" }},
		{"nothing", func(c *frozen.Claim) { c.Layout, c.Certificate = nil, nil }},
	} {
		wrong := claim
		spoil.do(&wrong)
		if out, err := run(wrong); err == nil || !strings.Contains(out, "FAILED") {
			t.Errorf("%s: %v: %s", spoil.why, err, out)
		}
	}
}
