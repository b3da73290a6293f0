package counts_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/internal/walk"
)

// TestDraw draws walks of tiny instances to the count and to one and two planks more: each lays every run, needs no more
// planks than it was drawn for, and none is drawn for fewer than the count.
func TestDraw(t *testing.T) {
	for seed := range uint64(3000) {
		in := tiny(rand.New(rand.NewPCG(seed, 44)))
		in.Offcuts = nil
		table := starters.New(in)
		c := counts.New(table, 1<<20)
		if c == nil {
			continue
		}
		rng := rand.New(rand.NewPCG(seed, 45))
		for k := range 12 {
			target := c.Planks() + k/4
			lots, ok := c.Draw(target, rng)
			if !ok {
				t.Fatalf("seed %d: nothing drawn for %d planks", seed, target)
			}
			layout, packing, _ := walk.Fit(table, c.Kinds, lots, 10, rng)
			for i, s := range layout {
				if _, ok := in.Lay(i, s); !ok {
					t.Fatalf("seed %d: run %d cannot be laid with %d", seed, i, s)
				}
			}
			if n := in.Count(layout, packing); n > target {
				t.Errorf("seed %d: a walk drawn for %d planks needs %d: %+v %v %v", seed, target, n, in, layout, packing)
			}
		}
		if _, ok := c.Draw(c.Planks()-1, rng); ok {
			t.Errorf("seed %d: a walk of fewer planks than the count", seed)
		}
	}
}
