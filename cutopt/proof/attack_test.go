package proof_test

import (
	"errors"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// TestOffcutPricedFromItsEnd is an attack: a step at 0 prices every starter at a whole plank, so a right-ended offcut
// must be worth one too. 15 is 7 of one offcut on hand and 8 of the other, with no plank at all.
func TestOffcutPricedFromItsEnd(t *testing.T) {
	in := &rows.Instance{
		Plank: 10, MinPiece: 3, Grid: 1, Runs: []rows.Run{{Length: 15}},
		Offcuts: []rows.Offcut{{Length: 7, End: rows.EndRight}, {Length: 8, End: rows.EndLeft}},
	}
	c := &proof.Certificate{Planks: 1, Tree: proof.Node{Prices: []proof.Step{
		{At: 0, Price: proof.Denominator}, {At: 10, Price: proof.Denominator},
	}}}
	if err := c.Verify(in); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("one plank is claimed where none will do: %v", err)
	}
}

// TestHostileCounts are attacks on memory and time: 500 kinds, of which each has a table of a million lines, and 900
// leaves that each go through a million counts. The kinds are refused before their tables are made, and the counts
// gone through once.
func TestHostileCounts(t *testing.T) {
	in := &rows.Instance{Plank: 1_000_000, MinPiece: 999_000, Grid: 1}
	for k := range 500 {
		in.Runs = append(in.Runs, rows.Run{Length: measure.Length(1_999_000 + k)})
	}
	if err := byCounts(1).Verify(in); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("500 kinds: %v", err)
	}

	in = &rows.Instance{Plank: 10, MinPiece: 3, Grid: 1}
	for range 400 {
		in.Runs = append(in.Runs, rows.Run{Length: 25}, rows.Run{Length: 26})
	}
	leaf := proof.Node{Counts: true}
	tree := leaf
	for range 900 {
		low, high := tree, leaf
		tree = proof.Node{Split: &proof.Split{Of: proof.OfStarted, Value: 1}, Low: &low, High: &high}
	}
	const material = (400*25 + 400*26) / 10
	if err := (&proof.Certificate{Planks: material, Tree: tree}).Verify(in); err != nil {
		t.Errorf("all material from whole planks: %v", err)
	}
}
