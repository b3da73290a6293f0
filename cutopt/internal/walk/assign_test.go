package walk_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/internal/walk"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// TestFit hands walks to the runs of floors of two to four blocks of rows: however the starters are handed, the layout
// needs no more planks than the walk, a packing that may be, and the staggers said to be broken are those that are.
func TestFit(t *testing.T) {
	clean := 0
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 47))
		in := &rows.Instance{
			Plank: measure.Length(
				40 + r.IntN(20),
			), Kerf: measure.Length(r.IntN(2)), MinPiece: 6, Stagger: measure.Length(r.IntN(9)), Grid: 1,
		}
		for range 2 + r.IntN(3) {
			w := measure.Length(20 + r.IntN(150))
			for k := range 2 + r.IntN(6) {
				if k > 0 {
					in.Touch = append(in.Touch, [2]int{len(in.Runs) - 1, len(in.Runs)})
				}
				in.Runs = append(in.Runs, rows.Run{From: measure.Length(r.IntN(3)), Length: w})
			}
		}
		table := starters.New(in)
		floor := counts.Sort(table)
		c := counts.New(floor, 1<<20)
		for range 5 {
			lots, ok := c.Draw(c.Planks(), 20, r)
			if !ok {
				continue
			}
			layout, packing, broken := walk.Fit(table, floor.Kinds, lots, 100, r)
			if err := in.CheckPacking(layout, packing); err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			if n := in.Count(layout, packing); n > c.Planks() {
				t.Errorf("seed %d: %d planks, the walk needs %d", seed, n, c.Planks())
			}
			want := 0
			for _, touch := range in.Touch {
				pair := *in
				pair.Touch = [][2]int{touch}
				if pair.Check(layout) != nil {
					want++
				}
			}
			if broken != want {
				t.Errorf("seed %d: %d staggers are said to be broken, %d are", seed, broken, want)
			}
			if broken == 0 {
				clean++
			}
		}
	}
	t.Logf("%d layouts keep every stagger", clean)
	if clean < 400 {
		t.Errorf("only %d layouts keep every stagger", clean)
	}
}
