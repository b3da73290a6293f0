package counts_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/bound"
	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/internal/walk"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
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

// TestDrawCycles draws walks of small floors from rings and chains, with tables too small for all runs: each lays every
// run and needs no more planks than it was drawn for, none is drawn for fewer than the count, and most draws for the
// count succeed, for every other floor with its starters spread.
func TestDrawCycles(t *testing.T) {
	draws, drawn := 0, 0
	never := func() bool { return false }
	for seed := range uint64(oracle.Samples(150)) {
		in := shortRuns(rand.New(rand.NewPCG(seed, 47)))
		table := starters.New(in)
		floor := counts.Sort(table)
		if floor == nil {
			continue
		}
		c := counts.New(floor, 1<<20)
		program := counts.NewCycles(floor)
		program.Settle(1<<30, never)
		if seed%2 == 1 {
			program.Spread(counts.Roughly, 1<<30, never)
		}
		rng := rand.New(rand.NewPCG(seed, 48))
		for k := range 6 {
			target := c.Planks() - 1 + k/2
			lots, ok := program.DrawWithin(target, 500, rng)
			if target < c.Planks() {
				if ok {
					t.Errorf("seed %d: a walk of fewer planks than the count", seed)
				}
				continue
			}
			if draws++; !ok {
				continue
			}
			drawn++
			if want := len(in.Runs) - whole(in); len(lots) != want {
				t.Fatalf("seed %d: %d lots for %d runs", seed, len(lots), want)
			}
			layout, packing, _ := walk.Fit(table, floor.Kinds, lots, 10, rng)
			for i, s := range layout {
				if _, ok := in.Lay(i, s); !ok {
					t.Fatalf("seed %d: run %d cannot be laid with %d", seed, i, s)
				}
			}
			if n := in.Count(layout, packing); n > target {
				t.Errorf("seed %d: a walk drawn for %d planks needs %d: %+v %v %v", seed, target, n, in, layout, packing)
			}
		}
	}
	t.Logf("%d of %d drawn", drawn, draws)
	if 3*drawn < 2*draws {
		t.Errorf("only %d walks of %d are drawn", drawn, draws)
	}
}

// TestSpread holds that walks drawn with starters spread break fewer staggers once these are handed to runs.
func TestSpread(t *testing.T) {
	never := func() bool { return false }
	var broken, drawn [2]int // without and with
	for seed := range uint64(oracle.Samples(30)) {
		in := shortRuns(rand.New(rand.NewPCG(seed, 49)))
		table := starters.New(in)
		floor := counts.Sort(table)
		if floor == nil {
			continue
		}
		target := counts.New(floor, 1<<20).Planks()
		program := counts.NewCycles(floor)
		program.Settle(1<<30, never)
		for k := range broken {
			if k == 1 {
				program.Spread(counts.Roughly, 1<<30, never)
			}
			rng := rand.New(rand.NewPCG(seed, 50))
			for range 5 {
				if lots, ok := program.DrawWithin(target, 500, rng); ok {
					_, _, n := walk.Fit(table, floor.Kinds, lots, 100, rng)
					broken[k] += n
					drawn[k]++
				}
			}
		}
	}
	t.Logf("%d staggers broken in %d walks, with starters spread %d in %d", broken[0], drawn[0], broken[1], drawn[1])
	if 5*broken[1]*drawn[0] > 4*broken[0]*drawn[1] {
		t.Error("spreading starters hardly helps")
	}
}

// TestSpreadPrices holds that the prices of starters spread prove the planks that the program gives, and for some
// floors more than the count, which heeds no stagger.
func TestSpreadPrices(t *testing.T) {
	const near = 0.01 // of a plank
	never := func() bool { return false }
	more := 0
	for seed := range uint64(oracle.Samples(150)) {
		in := shortRuns(rand.New(rand.NewPCG(seed, 51)))
		in.Stagger = in.Plank * 2 / 5
		table := starters.New(in)
		floor := counts.Sort(table)
		root, err := bound.New(table)
		if floor == nil || err != nil {
			continue
		}
		program := counts.NewCycles(floor)
		program.Settle(1<<30, never)
		_, prices := program.Spread(counts.Finely, 1<<30, never)
		if prices == nil {
			continue
		}
		root.Offer(prices)
		least := int(math.Ceil(program.Most() - near))
		if root.Planks() < least {
			t.Errorf("seed %d: the program gives %.4f planks, its prices prove %d", seed, program.Most(), root.Planks())
		}
		cert := proof.Certificate{Planks: least, Tree: proof.Node{Prices: prices}}
		if err := cert.Verify(in); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if least > counts.New(floor, 1<<20).Planks() {
			more++
		}
	}
	t.Logf("the prices of %d floors prove more than the count", more)
	if more == 0 {
		t.Error("no prices prove more than the count")
	}
}

// shortRuns draws a floor of four rooms, 20 to 40 runs of a few lengths, those in one piece among them.
func shortRuns(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(60 + r.IntN(60)), Kerf: measure.Length(r.IntN(3)),
		MinPiece: measure.Length(4 + r.IntN(10)), Stagger: 10, Grid: 1,
	}
	for range 4 {
		w := in.Plank/3 + measure.Length(r.IntN(int(4*in.Plank)))
		if r.IntN(3) == 0 {
			w = in.Plank/3 + measure.Length(r.IntN(int(in.Plank/2)))
		}
		for k := range 5 + r.IntN(6) {
			if k > 0 {
				in.Touch = append(in.Touch, [2]int{len(in.Runs) - 1, len(in.Runs)})
			}
			in.Runs = append(in.Runs, rows.Run{Length: w})
		}
	}
	return in
}

func whole(in *rows.Instance) (n int) {
	for _, r := range in.Runs {
		if r.Length == in.Plank {
			n++
		}
	}
	return n
}
