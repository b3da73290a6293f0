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

// TestMend mends layouts drawn without regard to stagger: what is said to be mended keeps every rule within the target
// by the checks of package rows, most is mended, and the same seed mends alike.
func TestMend(t *testing.T) {
	drawn, mended := 0, 0
	for seed := range uint64(120) {
		r := rand.New(rand.NewPCG(seed, 53))
		in := &rows.Instance{
			Plank: measure.Length(50 + r.IntN(20)), Kerf: measure.Length(r.IntN(2)), MinPiece: 8, Stagger: 8, Grid: 1,
		}
		for range 1 + r.IntN(3) {
			w := measure.Length(30 + r.IntN(150))
			for k := range 4 + r.IntN(8) {
				if k > 0 {
					in.Touch = append(in.Touch, [2]int{len(in.Runs) - 1, len(in.Runs)})
				}
				in.Runs = append(in.Runs, rows.Run{From: measure.Length(r.IntN(3)), Length: w})
			}
		}
		table := starters.New(in)
		floor := counts.Sort(table)
		c := counts.New(floor, 1<<20)
		target := c.Planks()
		lots, ok := c.Draw(target, 20, r)
		if !ok {
			continue
		}
		layout, packing, broken := walk.Fit(table, floor.Kinds, lots, 0, r)
		if broken == 0 {
			continue
		}
		drawn++
		never := func() bool { return false }
		mend := func() (rows.Layout, rows.Packing, int, bool) {
			rng := rand.New(rand.NewPCG(seed, 59))
			return walk.Mend(table, floor.Kinds, layout, packing, target, 20_000, 6, rng, never)
		}
		got, beside, steps, ok := mend()
		again, _, stepsAgain, okAgain := mend()
		if ok != okAgain || steps != stepsAgain {
			t.Errorf("seed %d: %v after %d steps, then %v after %d", seed, ok, steps, okAgain, stepsAgain)
		}
		for i := range got {
			if got[i] != again[i] {
				t.Errorf("seed %d: run %d starts with %d, then with %d", seed, i, got[i], again[i])
			}
		}
		if !ok {
			continue
		}
		mended++
		keeps(t, seed, in, got, beside, target)
	}
	t.Logf("%d of %d are mended", mended, drawn)
	if drawn < 20 || mended*10 < drawn*8 {
		t.Errorf("%d of %d are mended", mended, drawn)
	}
}

// keeps holds a layout and what its one-piece runs lie beside to every rule and the target, by the checks of package
// rows.
func keeps(t *testing.T, seed uint64, in *rows.Instance, layout rows.Layout, beside rows.Packing, target int) {
	t.Helper()
	if err := in.Check(layout); err != nil {
		t.Errorf("seed %d: %v", seed, err)
	}
	if err := in.CheckPacking(layout, beside); err != nil {
		t.Errorf("seed %d: %v", seed, err)
	}
	if n := in.Count(layout, beside); n > target {
		t.Errorf("seed %d: %d planks, the target is %d", seed, n, target)
	}
}
