package proof_test

import (
	"errors"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

func byCounts(planks int) *proof.Certificate {
	return &proof.Certificate{Planks: planks, Tree: proof.Node{Counts: true}}
}

// TestCountsByHand recounts leaves of counts that are worked out by hand.
func TestCountsByHand(t *testing.T) {
	run := func(lengths ...measure.Length) (out []rows.Run) {
		for _, l := range lengths {
			out = append(out, rows.Run{Length: l})
		}
		return out
	}
	tests := []struct {
		why    string
		in     rows.Instance
		planks int
	}{
		{"75 of material from planks of 10: 10+10+5 | 5+10+10, and 10+10+5 with a plank half used", rows.Instance{
			Plank: 10, MinPiece: 3, Grid: 1, Runs: run(25, 25, 25),
		}, 8},
		{"one-piece runs of 6 never share a plank", rows.Instance{Plank: 10, MinPiece: 4, Grid: 1, Runs: run(6, 6, 6)}, 3},
		{
			"with shorter pieces one is cut in two: 6+3 | 6+3 leaves nothing over",
			rows.Instance{Plank: 10, MinPiece: 3, Grid: 1, Runs: run(6, 6, 6)},
			2,
		},
		{"a kerf of 1 forbids it: 6+1+3 | 6+1+3 still fit, since the last piece needs none", rows.Instance{
			Plank: 10, Kerf: 1, MinPiece: 3, Grid: 1, Runs: run(6, 6, 6),
		}, 2},
		{
			"a ring: starter 4 and ender 6 of one run share its one plank",
			rows.Instance{Plank: 10, MinPiece: 4, Grid: 1, Runs: run(20)},
			2,
		},
		{"a run as long as a plank takes one", rows.Instance{Plank: 10, MinPiece: 3, Grid: 1, Runs: run(10, 10)}, 2},
		{"a right-ended offcut of 5 is a starter, the rest a plank and a half", rows.Instance{
			Plank: 10, MinPiece: 3, Grid: 1, Runs: run(20), Offcuts: []rows.Offcut{{Length: 5, End: rows.EndRight}},
		}, 2},
		{"two offcuts of 5 are starter and ender, between them one plank", rows.Instance{
			Plank: 10, MinPiece: 3, Grid: 1, Runs: run(20),
			Offcuts: []rows.Offcut{{Length: 5, End: rows.EndRight}, {Length: 5, End: rows.EndLeft}},
		}, 1},
		{
			"5+10 | 10+5 share the plank of the pieces of 5",
			rows.Instance{Plank: 10, MinPiece: 3, Grid: 1, Runs: run(15, 15)},
			3,
		},
		{"joints beside forbid starter 5: nothing is left that an ender leaves room for", rows.Instance{
			Plank: 10, MinPiece: 3, Stagger: 1, Grid: 1,
			Runs: []rows.Run{{Length: 15, Beside: []measure.Length{5}}, {Length: 15, Beside: []measure.Length{5}}},
		}, 4},
	}
	for _, test := range tests {
		if err := byCounts(test.planks).Verify(&test.in); err != nil {
			t.Errorf("%s: %v", test.why, err)
		}
		if err := byCounts(test.planks + 1).Verify(&test.in); !errors.Is(err, proof.ErrUnproven) {
			t.Errorf("%s: %d planks: %v", test.why, test.planks+1, err)
		}
	}
}

// TestCountsRefuses holds what a leaf of counts may not be.
func TestCountsRefuses(t *testing.T) {
	full := []proof.Step{{At: 10, Price: proof.Denominator}}
	tests := []struct {
		name   string
		change func(c *proof.Certificate, in *rows.Instance)
	}{
		{"with prices too", func(c *proof.Certificate, _ *rows.Instance) { c.Tree.Prices = full }},
		{"with multipliers", func(c *proof.Certificate, _ *rows.Instance) { c.Tree.Multipliers = []int64{0} }},
		{"with a branch", func(c *proof.Certificate, _ *rows.Instance) {
			c.Tree.Split = &proof.Split{Of: proof.OfStarted, Value: 1}
			c.Tree.Low, c.Tree.High = &proof.Node{Counts: true}, &proof.Node{Counts: true}
		}},
		{"of a run that cannot be laid", func(_ *proof.Certificate, in *rows.Instance) {
			in.MinPiece, in.Runs = 7, append(in.Runs, rows.Run{Length: 12})
		}},
		{"of too many counts", func(_ *proof.Certificate, in *rows.Instance) {
			for k := range 12 {
				for range 4 {
					in.Runs = append(in.Runs, rows.Run{Length: measure.Length(21 + k)})
				}
			}
		}},
		{"of a whole plank on hand", func(c *proof.Certificate, in *rows.Instance) {
			c.Planks, in.Offcuts = 1, []rows.Offcut{{Length: 10, End: rows.EndRight}}
		}},
		{"of fewer runs", func(_ *proof.Certificate, in *rows.Instance) { in.Runs, in.Touch = in.Runs[1:], nil }},
		{"of an offcut on hand that spares a plank", func(_ *proof.Certificate, in *rows.Instance) {
			in.Offcuts = []rows.Offcut{{Length: 9, End: rows.EndLeft}}
		}},
	}
	for _, test := range tests {
		c, in := byCounts(8), three()
		if err := c.Verify(in); err != nil {
			t.Fatal(err)
		}
		test.change(c, in)
		if err := c.Verify(in); !errors.Is(err, proof.ErrUnproven) {
			t.Errorf("%s: %v", test.name, err)
		}
	}
}
