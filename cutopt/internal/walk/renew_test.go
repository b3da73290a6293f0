package walk_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/internal/walk"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// slanted draws a floor whose rows grow and shift from one to the next.
func slanted(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(
			100 + r.IntN(100),
		), Kerf: measure.Length(r.IntN(3)), MinPiece: 16, Stagger: measure.Length(10 + r.IntN(12)),
		Grid: 1,
	}
	w, from, grow := measure.Length(250+r.IntN(300)), measure.Length(0), measure.Length(r.IntN(9)-3)
	for i := range 10 + r.IntN(20) {
		in.Runs = append(in.Runs, rows.Run{From: from, Length: w})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
		w, from = w+grow, from-measure.Length(r.IntN(4))
	}
	return in
}

// closeted adds runs of one piece to a slanted floor, and things in the way.
func closeted(r *rand.Rand) *rows.Instance {
	in := slanted(r)
	for range 2 + r.IntN(8) {
		n := len(in.Runs)
		in.Runs = append(in.Runs, rows.Run{Length: measure.Length(20 + r.IntN(int(in.Plank)-19))})
		if r.IntN(2) == 0 {
			in.Touch = append(in.Touch, [2]int{n - 1, n})
		}
	}
	return in
}

// TestRenew lays stretches of layouts anew: what comes out keeps the rules, needs no more planks than what went in, the
// same with the same seed. Most slanted floors then take no plank more than their material; few do in the way of the
// trade, which it starts from.
func TestRenew(t *testing.T) {
	slantedFloors, near, before := 0, 0, 0
	never := func() bool { return false }
	for seed := range uint64(oracle.Samples(60)) {
		r := rand.New(rand.NewPCG(seed, 61))
		in := slanted(r)
		if seed%2 == 1 {
			in = closeted(r)
		}
		table := starters.New(in)
		start, ok := search.Carry(table)
		if !ok {
			continue
		}
		went := slices.Clone(start)
		run := func(target int) (rows.Layout, rows.Packing, bool) {
			layout, packing, _, ok := walk.Renew(table, start, nil, target, 20_000, 6, rand.New(rand.NewPCG(seed, 1)), never)
			return layout, packing, ok
		}
		least := material(in)
		layout, packing, ok := run(least)
		if err := in.Check(layout); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if err := in.CheckPacking(layout, packing); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		planks, had := in.Count(layout, packing), in.Count(start, nil)
		if planks > had || ok != (planks <= least) {
			t.Errorf("seed %d: %d planks, %d before; reached %v, least %d", seed, planks, had, ok, least)
		}
		if again, _, _ := run(least); !slices.Equal(again, layout) || !slices.Equal(start, went) {
			t.Errorf("seed %d: another layout with the same seed, or the start was changed", seed)
		}
		if seed%2 == 0 {
			slantedFloors++
			near += one(planks == least)
			before += one(had == least)
		}
	}
	if 5*near < 3*slantedFloors || 3*near < 5*before {
		t.Errorf("%d of %d floors take no plank more than their material, %d before", near, slantedFloors, before)
	}
}

// material is the planks that the runs are worth by length, each with a kerf less where its end is whole.
func material(in *rows.Instance) int {
	sum := measure.Length(0)
	for _, r := range in.Runs {
		sum += r.Length
	}
	return int((sum + in.Plank - 1) / in.Plank)
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}

// TestRenewNothing leaves alone what it is not for: floors of three runs, and offcuts on hand.
func TestRenewNothing(t *testing.T) {
	floor := func(n int, offcuts ...rows.Offcut) *rows.Instance {
		in := &rows.Instance{Plank: 100, MinPiece: 10, Grid: 1, Offcuts: offcuts}
		for range n {
			in.Runs = append(in.Runs, rows.Run{Length: 250})
		}
		return in
	}
	for _, in := range []*rows.Instance{floor(3), floor(9, rows.Offcut{Length: 40, End: rows.EndRight})} {
		table := starters.New(in)
		start, _ := search.Carry(table)
		never := func() bool { return false }
		layout, _, steps, ok := walk.Renew(table, start, nil, 0, 1000, 6, rand.New(rand.NewPCG(1, 1)), never)
		if ok || steps != 0 || !slices.Equal(layout, start) {
			t.Errorf("%d runs, %d offcuts: changed", len(in.Runs), len(in.Offcuts))
		}
	}
}
