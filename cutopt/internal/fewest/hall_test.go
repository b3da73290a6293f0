package fewest_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// TestHalls lays halls of nearly 500 rows, most as long as their neighbours, with as few planks as their bound at the
// effort of boxes, which draws from rings and chains do and walks alone seldom.
func TestHalls(t *testing.T) {
	for _, seed := range []uint64{1, 5} {
		in := hall(rand.New(rand.NewPCG(seed, 31)))
		set := settings()
		set.Budget = &fewest.Boxes
		out, err := fewest.Solve(in, set)
		if err != nil {
			t.Fatal(err)
		}
		if out.Planks != out.Bound {
			t.Errorf("seed %d: %d rows need %d planks, bound %d", seed, len(in.Runs), out.Planks, out.Bound)
		}
	}
}

// hall draws stretches of rows that become longer by a step of the grid now and then, a few of other lengths between.
func hall(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{Plank: 768, Kerf: 2, MinPiece: 128, MinEnder: 132, Stagger: 132, Grid: 1}
	length, from := measure.Length(6_000+r.IntN(4_000)), measure.Length(0)
	for range 3 + r.IntN(4) {
		if r.IntN(2) == 0 {
			from = measure.Length(r.IntN(768))
		}
		for k := range 100 + r.IntN(120) {
			in.Runs = append(in.Runs, rows.Run{From: from, Length: length + measure.Length(k/40)})
			if i := len(in.Runs) - 1; i > 0 {
				in.Touch = append(in.Touch, [2]int{i - 1, i})
			}
		}
		for range r.IntN(5) {
			length += measure.Length(100 + r.IntN(700))
			in.Runs = append(in.Runs, rows.Run{From: from, Length: length})
			i := len(in.Runs) - 1
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	return in
}
