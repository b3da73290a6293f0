package walk_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/internal/walk"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// TestAnnealPieces anneals floors of which a third of the runs may be in one piece towards the planks that the material
// alone takes. Whichever the start has in one piece, beside which others, and which runs use up their own offcuts, by
// themselves, most floors are reached, and what is reached keeps every rule by the checks of package rows.
func TestAnnealPieces(t *testing.T) {
	const moves = 400_000
	floors, reached := 0, 0
	for seed := range uint64(oracle.Samples(12)) {
		in := closets(rand.New(rand.NewPCG(seed, 71)))
		table := starters.New(in)
		start, ok := search.Carry(table)
		if !ok {
			continue
		}
		target := materialAndKerfs(in)
		if in.Count(start, nil) <= target {
			continue
		}
		floors++
		way := walk.Course{Moves: moves, Most: moves}
		got, beside, done, ok := walk.Anneal(table, start, nil, target, way, rand.NewPCG(seed, 73),
			func() bool { return false })
		annealed(t, seed, in, got, done, moves)
		if ok {
			reached++
			keeps(t, seed, in, got, beside, target)
		}
	}
	t.Logf("%d of %d floors reach the planks that their material takes", reached, floors)
	if floors < 8 || 3*reached < 2*floors {
		t.Errorf("%d of %d floors reach the planks that their material takes", reached, floors)
	}
}

// closets draws two rooms and several closets, most of whose runs are shorter than a plank. A plank is long in steps of
// the grid, and so is the shortest piece.
func closets(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(600 + r.IntN(600)), Kerf: measure.Length(r.IntN(3)), MinPiece: 130, Stagger: 100, Grid: 1,
	}
	add := func(n int, w measure.Length) {
		for k := range n {
			if k > 0 {
				in.Touch = append(in.Touch, [2]int{len(in.Runs) - 1, len(in.Runs)})
			}
			in.Runs = append(in.Runs, rows.Run{Length: w})
		}
	}
	for range 2 {
		add(10+r.IntN(6), measure.Length(1600+r.IntN(1600)))
	}
	for range 3 {
		add(3+r.IntN(4), measure.Length(270+r.IntN(int(in.Plank)-270)))
	}
	return in
}

// TestAnnealPastShortEnders anneals a dwelling in sixteenths of an inch, with planks of 36 inches of which every run
// needs 8 at both ends: on the way to the planks of its material the last run's plank has to be used by 8 inches and
// next by none, which no single move saves.
func TestAnnealPastShortEnders(t *testing.T) {
	in := &rows.Instance{Plank: 576, Kerf: 2, MinPiece: 128, MinEnder: 128, Stagger: 128, Grid: 1}
	for _, block := range []struct {
		n int
		w measure.Length
	}{
		{25, 4368},
		{5, 3199},
		{10, 2856},
		{16, 2138},
		{19, 1614},
		{5, 796},
		{6, 684},
		{5, 670},
		{19, 657},
		{3, 595},
		{3, 394},
		{5, 383},
	} {
		for k := range block.n {
			if k > 0 {
				in.Touch = append(in.Touch, [2]int{len(in.Runs) - 1, len(in.Runs)})
			}
			in.Runs = append(in.Runs, rows.Run{Length: block.w})
		}
	}
	table := starters.New(in)
	start, ok := search.Carry(table)
	if !ok {
		t.Fatal("no layout")
	}
	const target, seed = 430, 0
	never := func() bool { return false }
	start, beside, _, _ := walk.Renew(table, start, nil, target+2, 300_000, 20, rand.New(rand.NewPCG(1, 79)), never)
	way := walk.Course{Moves: 4_000_000, Most: 1_000_000, Bands: true}
	got, with, _, ok := walk.Anneal(table, start, beside, target, way, rand.NewPCG(seed, 83), never)
	if !ok {
		t.Fatalf("from %d planks to %d, not to %d", in.Count(start, beside), in.Count(got, with), target)
	}
	keeps(t, seed, in, got, with, target)
}
