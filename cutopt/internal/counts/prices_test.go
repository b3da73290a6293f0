package counts_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/bound"
	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// TestPrices looks for price functions of small floors without stagger: they prove as many planks as the bound does
// that steps at every grid line until its program says that no prices prove more.
func TestPrices(t *testing.T) {
	higher := 0
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 46))
		in := &rows.Instance{
			Plank: measure.Length(
				20 + r.IntN(80),
			), Kerf: measure.Length(r.IntN(3)), MinPiece: measure.Length(1 + r.IntN(6)), Grid: 1,
		}
		for range 1 + r.IntN(4) {
			w := measure.Length(1 + r.IntN(int(4*in.Plank)))
			for range 1 + r.IntN(9) {
				in.Runs = append(in.Runs, rows.Run{Length: w})
			}
		}
		table := starters.New(in)
		floor := counts.Sort(table)
		root, err := bound.New(table)
		if err != nil {
			continue
		}
		root.Raise(1<<30, 2000, nil)
		for root.Refine() {
			root.Raise(1<<30, 2000, nil)
		}
		first := root.Planks()
		never := func() bool { return false }
		program := counts.NewCycles(floor)
		if program.Prices(first-1, never) == nil {
			t.Errorf("seed %d: no prices for %d planks: %+v", seed, first, in)
		}
		best := first - 1
		for steps := program.Prices(best, never); steps != nil; steps = program.Prices(best, never) {
			best++
			cert := proof.Certificate{Planks: best, Tree: proof.Node{Prices: steps}}
			if err := cert.Verify(in); err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
		}
		if best > first {
			higher++
		}
		if c := counts.New(floor, 1<<20); c.Exact && c.Planks() < best {
			t.Errorf("seed %d: prices for %d planks, the count is %d", seed, best, c.Planks())
		}
	}
	t.Logf("prices by kind proved more in %d floors", higher)
}

// TestPricesOfNone: where all runs are whole planks there is nothing to price, however few planks are asked for.
func TestPricesOfNone(t *testing.T) {
	in := &rows.Instance{Plank: 40, MinPiece: 4, Grid: 1, Runs: []rows.Run{{Length: 40}, {Length: 40}}}
	program := counts.NewCycles(counts.Sort(starters.New(in)))
	for target := range 3 {
		if got := program.Prices(target, func() bool { return false }); got != nil {
			t.Errorf("%d planks: prices %v", target, got)
		}
	}
}
