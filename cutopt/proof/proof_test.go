package proof_test

import (
	"encoding/json"
	"errors"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// three rows of 25 from planks of 10, no kerf, shortest piece 3, stagger 2, grid 1. A run is a starter s, one or two
// whole planks and an ender. With C(x) = 1 from 5 on: starters below 5 leave two whole planks and the ender 5 - s,
// which the shortest piece forbids (s + e = 5); so s + e = 15 with one whole plank, s from 5 to 10. C(s) = 1, and the
// ender 15 - s leaves 10 - e = s - 5, below 5 unless s = 10, which is a whole plank beside the ender 5: 1 + 1 + (1 -
// C(5)) = 2. So a run costs 3, or 2 with a whole starter; two touching runs cannot both have s = 10, so the cheapest
// layout takes whole starters in rows 1 and 3: 2 + 3 + 2 = 7 planks.
func three() *rows.Instance {
	return &rows.Instance{
		Plank: 10, MinPiece: 3, Stagger: 2, Grid: 1,
		Runs: []rows.Run{{Length: 25}, {Length: 25}, {Length: 25}}, Touch: [][2]int{{0, 1}, {1, 2}},
	}
}

func byHand() *proof.Certificate {
	return &proof.Certificate{Planks: 7, Tree: proof.Node{Prices: []proof.Step{
		{At: 5, Price: proof.Denominator}, {At: 10, Price: proof.Denominator},
	}}}
}

func TestByHand(t *testing.T) {
	if err := byHand().Verify(three()); err != nil {
		t.Error(err)
	}
	more := byHand()
	more.Planks = 8
	if err := more.Verify(three()); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("8 planks: %v", err)
	}
}

// TestRefuses changes one thing of a certificate that holds.
func TestRefuses(t *testing.T) {
	const den = proof.Denominator
	full := []proof.Step{{At: 5, Price: den}, {At: 10, Price: den}}
	leaf := func(m ...int64) *proof.Node { return &proof.Node{Prices: full, Multipliers: m} }
	split := &proof.Split{Of: proof.OfStarted, Value: 6}
	tests := []struct {
		name   string
		change func(c *proof.Certificate, in *rows.Instance)
	}{
		{"no prices", func(c *proof.Certificate, _ *rows.Instance) { c.Tree.Prices = nil }},
		{"prices fall", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree.Prices = []proof.Step{{At: 3, Price: den}, {At: 5, Price: 1}, {At: 10, Price: den}}
		}},
		{"a price below 0", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree.Prices = []proof.Step{{At: 3, Price: -1}, {At: 10, Price: den}}
		}},
		{"a price above a plank", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree.Prices = []proof.Step{{At: 5, Price: den + 1}, {At: 10, Price: den + 1}}
		}},
		{"a step before 0", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree.Prices = []proof.Step{{At: -5, Price: den}, {At: 10, Price: den}}
		}},
		{"two steps in one place", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree.Prices = []proof.Step{{At: 5, Price: 1}, {At: 5, Price: den}, {At: 10, Price: den}}
		}},
		{"no step at the plank", func(c *proof.Certificate, _ *rows.Instance) { c.Tree.Prices = full[:1] }},
		{"a multiplier without a split", func(c *proof.Certificate, _ *rows.Instance) { c.Tree.Multipliers = []int64{1} }},
		{
			"a pair left out that does not touch",
			func(c *proof.Certificate, _ *rows.Instance) { c.Dropped = [][2]int{{0, 2}} },
		},
		{
			"pairs left out that the proof needs",
			func(c *proof.Certificate, _ *rows.Instance) { c.Dropped = [][2]int{{0, 1}, {1, 2}} },
		},
		{"a cycle", func(_ *proof.Certificate, in *rows.Instance) { in.Touch = append(in.Touch, [2]int{0, 2}) }},
		{"a claim beyond all layouts", func(c *proof.Certificate, _ *rows.Instance) { c.Planks = 1 << 40 }},
		{"a branch with one side", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: split, Low: leaf(0)}
		}},
		{"a branch on nothing", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: &proof.Split{Of: "rows"}, Low: leaf(0), High: leaf(0)}
		}},
		{"a multiplier below 0", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: split, Low: leaf(-1), High: leaf(0)}
		}},
		{"a leaf without its multiplier", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: split, Low: leaf(), High: leaf(0)}
		}},
		{"a branch on a run there is not", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: &proof.Split{Of: proof.OfStarter, Run: 3, Value: 5}, Low: leaf(), High: leaf()}
		}},
		{"a branch on a run below 0", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: &proof.Split{Of: proof.OfPlace, Run: -1, Value: 5}, Low: leaf(), High: leaf()}
		}},
		{"a branch on a starter below 0", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: &proof.Split{Of: proof.OfStarter, Value: -1}, Low: leaf(), High: leaf()}
		}},
		{"a branch on a place beyond the plank", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: &proof.Split{Of: proof.OfPlace, Value: 11}, Low: leaf(), High: leaf()}
		}},
		{"a sum of one run", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: &proof.Split{Of: proof.OfStarted, Run: 1, Value: 6}, Low: leaf(0), High: leaf(0)}
		}},
		{"a sum with a length it does not have", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = splitByHand().Tree
			c.Tree.Split = &proof.Split{Of: proof.OfStarted, Below: 1, Value: 1}
		}},
		{"sides without a split", func(c *proof.Certificate, _ *rows.Instance) { c.Tree.Low = &proof.Node{Prices: full} }},
		{"a starter with a length it does not have", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: &proof.Split{Of: proof.OfStarter, Below: 4, Value: 6}, Low: leaf(), High: leaf()}
		}},
		{"a multiplier for a split on a run", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree = proof.Node{Split: &proof.Split{Of: proof.OfStarter, Value: 6}, Low: leaf(0), High: leaf(0)}
		}},
		{"a looser rule", func(_ *proof.Certificate, in *rows.Instance) { in.Stagger = 0 }},
	}
	for _, test := range tests {
		c, in := byHand(), three()
		test.change(c, in)
		if err := c.Verify(in); !errors.Is(err, proof.ErrUnproven) {
			t.Errorf("%s: %v", test.name, err)
		}
	}
}

// splitByHand proves 8 planks for the three rows. With C as above a run costs 2 with a whole starter and 3 else, and of
// neighbours only one can have a whole starter. Unless both outer runs have it, the layout costs 8 or more. If both
// have, no joint of the middle run may lie at 9 to 11, so its starter is neither 9 nor 10, and the cheapest C is
// another: a step at 6 to a half and one at 10 prices the ender 5 of an outer run (5 left beside it) at 1, so both
// outer runs at 3, and the middle run, with s and the ender 15 - s, at 2 or more: 3 + 2 + 3 = 8.
func splitByHand() *proof.Certificate {
	const den = proof.Denominator
	whole := &proof.Node{Prices: []proof.Step{{At: 5, Price: den}, {At: 10, Price: den}}}
	half := &proof.Node{Prices: []proof.Step{{At: 6, Price: den / 2}, {At: 10, Price: den}}}
	return &proof.Certificate{Planks: 8, Tree: proof.Node{
		Split: &proof.Split{Of: proof.OfStarter, Run: 0, Value: 9},
		Low:   whole,
		High:  &proof.Node{Split: &proof.Split{Of: proof.OfStarter, Run: 2, Value: 9}, Low: whole, High: half},
	}}
}

func TestRunSplits(t *testing.T) {
	if err := splitByHand().Verify(three()); err != nil {
		t.Error(err)
	}
	c := splitByHand()
	c.Tree.Split.Value = 8 // the low side no longer holds every layout with a starter of 9
	c.Tree.Low, c.Tree.High = c.Tree.High, c.Tree.Low
	if err := c.Verify(three()); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("sides exchanged: %v", err)
	}
	c = splitByHand()
	c.Tree.High.Split.Run = 1
	if err := c.Verify(three()); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("another run: %v", err)
	}
}

// TestPlaces splits on the place of a one-piece run of 4, from planks of 9 without kerf. With C a half from 4 and one
// from 9 on it costs C(8) - C(4) = 0 at place 4, but a half at 0 to 3, and at 5: C(9) - C(5). At place 4 other prices
// make it cost something: one from 5 on.
func TestPlaces(t *testing.T) {
	in := &rows.Instance{Plank: 9, MinPiece: 3, Grid: 1, Runs: []rows.Run{{Length: 4}}}
	const den = proof.Denominator
	half := &proof.Node{Prices: []proof.Step{{At: 4, Price: den / 2}, {At: 9, Price: den}}}
	one := &proof.Node{Prices: []proof.Step{{At: 5, Price: den}, {At: 9, Price: den}}}
	at := func(place int, low, high *proof.Node) *proof.Node {
		return &proof.Node{Split: &proof.Split{Of: proof.OfPlace, Value: place}, Low: low, High: high}
	}
	for _, test := range []struct {
		tree  *proof.Node
		holds bool
	}{
		{half, false},
		{one, false}, // at place 0
		{at(3, half, at(4, one, half)), true},
		{at(3, half, half), false},
		{at(2, half, at(4, one, half)), true}, // C(8) - C(4) = 1 with one, as at place 3
		{at(4, half, half), false},
	} {
		c := &proof.Certificate{Planks: 1, Tree: *test.tree}
		if err := c.Verify(in); (err == nil) != test.holds {
			t.Errorf("%+v: %v", test.tree, err)
		}
	}
}

// TestIdleOffcuts adds offcuts that no run can use, or not all of, which cost the bound nothing.
func TestIdleOffcuts(t *testing.T) {
	in := three()
	in.Offcuts = []rows.Offcut{
		{Length: 10, End: rows.EndNone},
		{Length: 2, End: rows.EndLeft},
		{Length: 2, End: rows.EndRight},
	}
	if err := byHand().Verify(in); err != nil {
		t.Error(err)
	}
	in.Offcuts[2].Length = 5 // a starter of 5, worth C(5) = 1
	if err := byHand().Verify(in); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("an offcut that serves: %v", err)
	}
}

// TestTooFine refuses a grid of more lines than can be recounted before it makes any of them.
func TestTooFine(t *testing.T) {
	in := &rows.Instance{Plank: 1_000_000_000, Grid: 1, Runs: []rows.Run{{Length: 2_500_000_000}}}
	c := &proof.Certificate{Planks: 1, Tree: proof.Node{Prices: []proof.Step{{At: in.Plank, Price: proof.Denominator}}}}
	if err := c.Verify(in); !errors.Is(err, rows.ErrTooLarge) {
		t.Errorf("got %v", err)
	}
}

// TestBranch proves the claim by cases: both sides hold with multiplier 0, as the root does.
func TestBranch(t *testing.T) {
	full := []proof.Step{{At: 5, Price: proof.Denominator}, {At: 10, Price: proof.Denominator}}
	c := &proof.Certificate{Planks: 7, Tree: proof.Node{
		Split: &proof.Split{Of: proof.OfEnders, Below: 4, Value: 1},
		Low:   &proof.Node{Prices: full, Multipliers: []int64{0}},
		High:  &proof.Node{Prices: full, Multipliers: []int64{0}},
	}}
	if err := c.Verify(three()); err != nil {
		t.Error(err)
	}
	data, err := json.Marshal(c)
	if err != nil {
		t.Fatal(err)
	}
	var back proof.Certificate
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(err)
	}
	if err := back.Verify(three()); err != nil {
		t.Errorf("read back: %v", err)
	}
}

// FuzzVerify reads any certificate for the three rows, which 8 planks can lay: none that claims more may verify.
func FuzzVerify(f *testing.F) {
	data, err := json.Marshal(byHand())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add([]byte(`{"planks": 9, "tree": {"split": {"of": "deficit", "below": 4, "value": 0}, "low": {}, "high": {}}}`))
	layout := rows.Layout{10, 7, 10}
	in := three()
	if err := in.Check(layout); err != nil {
		f.Fatal(err)
	}
	most := in.Count(layout, nil)
	f.Fuzz(func(t *testing.T, data []byte) {
		var c proof.Certificate
		if json.Unmarshal(data, &c) == nil && c.Verify(in) == nil && c.Planks > most {
			t.Errorf("a certificate of %d planks verifies where %d do: %s", c.Planks, most, data)
		}
	})
}

func BenchmarkVerify(b *testing.B) {
	in := &rows.Instance{
		Plank: 48 * measure.Inch, Kerf: measure.Inch / 8, MinPiece: 8 * measure.Inch, Stagger: 8 * measure.Inch,
		Grid: measure.Sixteenth,
	}
	for i := range 20 {
		in.Runs = append(in.Runs, rows.Run{Length: 174 * measure.Inch})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	c := &proof.Certificate{Planks: 1, Tree: proof.Node{Prices: []proof.Step{{At: in.Plank, Price: proof.Denominator}}}}
	for b.Loop() {
		if err := c.Verify(in); err != nil {
			b.Fatal(err)
		}
	}
}
