package counts_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/internal/walk"
	"plank.example/cutopt/rows"
)

// TestDraw draws walks of tiny instances to the count and to one and two planks more: each lays every run, needs no
// more planks than it was drawn for, and none is drawn for fewer than the count.
func TestDraw(t *testing.T) {
	drawn := 0
	for seed := range uint64(3000) {
		in := tiny(rand.New(rand.NewPCG(seed, 44)))
		in.Offcuts = nil
		table := starters.New(in)
		floor := counts.Sort(table)
		if floor == nil {
			continue
		}
		c := counts.New(floor, 1<<20)
		rng := rand.New(rand.NewPCG(seed, 45))
		core := counts.New(floor, 40)
		for k := range 12 {
			target := c.Planks() + k/4
			lots, ok := c.Draw(target, 50, rng)
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
			if core == nil {
				continue
			}
			if lots, ok = core.Draw(target, 20, rng); !ok {
				continue
			}
			drawn++
			layout, packing, _ = walk.Fit(table, c.Kinds, lots, 10, rng)
			if n := in.Count(layout, packing); n > target || len(lots) < len(in.Runs)-whole(in) {
				t.Errorf("seed %d: a walk of core and beam for %d planks needs %d: %+v %v %v", seed, target, n, in, layout, packing)
			}
		}
		if _, ok := c.Draw(c.Planks()-1, 50, rng); ok {
			t.Errorf("seed %d: a walk of fewer planks than the count", seed)
		}
	}
	t.Logf("%d walks of core and beam", drawn)
	if drawn < 10_000 {
		t.Errorf("only %d walks of core and beam", drawn)
	}
}

func whole(in *rows.Instance) (n int) {
	for _, r := range in.Runs {
		if r.Length == in.Plank {
			n++
		}
	}
	return n
}
