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

// TestAnneal anneals the walks of layouts laid the trade's way, of floors whose rows are all of another length, some
// with runs in one piece, towards the planks that the material alone takes: what is said to reach them keeps every rule
// by the checks of package rows, every run is laid as it may be even where not, the moves are kept to, the same seed
// does alike, and most floors are reached.
func TestAnneal(t *testing.T) {
	const moves = 300_000
	floors, reached := 0, 0
	for seed := range uint64(oracle.Samples(12)) {
		r := rand.New(rand.NewPCG(seed, 61))
		in := longSlanted(r)
		table := starters.New(in)
		start, ok := search.Carry(table)
		if !ok {
			continue
		}
		material := measure.Length(0)
		for _, run := range in.Runs {
			material += run.Length + in.Kerf
		}
		target := int((material + in.Plank - 1) / in.Plank)
		if in.Count(start, nil) <= target {
			continue
		}
		floors++
		anneal := func() (rows.Layout, rows.Packing, int, bool) {
			return walk.Anneal(table, start, nil, target, moves, rand.NewPCG(seed, 67), func() bool { return false })
		}
		got, beside, done, ok := anneal()
		if again, _, doneAgain, okAgain := anneal(); ok != okAgain || done != doneAgain || !slices.Equal(got, again) {
			t.Errorf("seed %d: %v after %d moves, then %v after %d", seed, ok, done, okAgain, doneAgain)
		}
		if done > moves {
			t.Errorf("seed %d: %d moves of %d", seed, done, moves)
		}
		for i, s := range got {
			if _, may := in.Lay(i, s); !may {
				t.Errorf("seed %d: run %d may not start with %d", seed, i, s)
			}
		}
		if !ok {
			continue
		}
		reached++
		keeps(t, seed, in, got, beside, target)
	}
	t.Logf("%d of %d floors reach the planks that their material takes", reached, floors)
	if floors < 6 || 2*reached < floors {
		t.Errorf("%d of %d floors reach the planks that their material takes", reached, floors)
	}
}

// longSlanted draws a floor of 40 to 80 rows that grow and shift, a few with a run in one piece beside them.
func longSlanted(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(150 + r.IntN(150)), Kerf: measure.Length(r.IntN(2)), MinPiece: 20,
		Stagger: measure.Length(20 + r.IntN(10)), Grid: 1,
	}
	w, from, grow := measure.Length(500+r.IntN(300)), measure.Length(0), measure.Length(1+r.IntN(9))
	for i := range 40 + r.IntN(40) {
		in.Runs = append(in.Runs, rows.Run{From: from, Length: w})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
		w, from = w+grow, from-measure.Length(r.IntN(4))
	}
	for range r.IntN(4) {
		in.Runs = append(in.Runs, rows.Run{Length: measure.Length(30 + r.IntN(int(in.Plank)-29))})
	}
	return in
}
