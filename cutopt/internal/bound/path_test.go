package bound_test

import (
	"testing"

	"plank.example/cutopt/internal/bound"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// TestPathsOfManyRows bounds halls whose paths fill many pages of the arena: every layout passed keeps the rules and
// needs no fewer planks than the bound, whose certificate verifies.
func TestPathsOfManyRows(t *testing.T) {
	const mm, many = measure.Millimetre, 2_000
	for _, touch := range []bool{false, true} {
		in := &rows.Instance{Plank: 1220 * mm, Kerf: 3 * mm, MinPiece: 200 * mm, Stagger: 200 * mm, Grid: mm}
		for i := range many {
			// Rows near each other are unlike, so that pieces of another row lay none.
			in.Runs = append(in.Runs, rows.Run{Length: (9_870 + measure.Length(i%31)*37) * mm})
			if i > 0 && touch {
				in.Touch = append(in.Touch, [2]int{i - 1, i})
			}
		}
		b, err := bound.New(starters.New(in))
		if err != nil {
			t.Fatal(err)
		}
		fewest := many * 12
		b.Raise(fewest, 6, func(layout rows.Layout, _ rows.Packing) bool {
			if err := in.Check(layout); err != nil {
				t.Errorf("touching %v: %v", touch, err)
			}
			fewest = min(fewest, in.Count(layout, nil))
			return false
		})
		c := &proof.Certificate{Planks: b.Planks(), Dropped: b.Dropped(), Tree: *b.Leaf()}
		if err := c.Verify(in); err != nil || b.Planks() > fewest || b.Planks() < many*8 {
			t.Errorf("touching %v: bound %d, a layout of %d planks, %v", touch, b.Planks(), fewest, err)
		}
	}
}
