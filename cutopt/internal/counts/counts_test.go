package counts_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// tiny draws two to five runs of a few lengths on a grid of a few lines a plank, one-piece runs and longer ones, none
// of which touch, with up to two offcuts on hand in one of three.
func tiny(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(
			8 + r.IntN(9),
		), Kerf: measure.Length(r.IntN(2)), MinPiece: measure.Length(1 + r.IntN(3)), Grid: 1,
	}
	in.Grid = measure.Length(1 + r.IntN(2))
	if r.IntN(3) == 0 {
		in.MinEnder = in.MinPiece + 1
	}
	short, long := measure.Length(2+r.IntN(int(in.Plank))), measure.Length(6+r.IntN(30))
	for range 2 + r.IntN(3) {
		w := short
		if r.IntN(2) == 0 {
			w = long
		}
		if r.IntN(4) == 0 {
			w++
		}
		run := rows.Run{Length: w}
		if r.IntN(6) == 0 {
			run.Beside = append(run.Beside, measure.Length(r.IntN(int(w)+1)))
			in.Stagger = measure.Length(1 + r.IntN(3))
		}
		in.Runs = append(in.Runs, run)
	}
	if r.IntN(3) == 0 {
		for range 1 + r.IntN(2) {
			ends := []rows.End{rows.EndLeft, rows.EndRight}
			length := 1 + measure.Length(r.IntN(int(in.Plank)-1))
			in.Offcuts = append(in.Offcuts, rows.Offcut{Length: length, End: ends[r.IntN(2)]})
		}
	}
	return in
}

// nearly makes runs of an instance that are longer than a plank and differ by less than a step of a coarse grid, or by
// whole planks and less, with nothing on hand: such are of one kind.
func nearly(r *rand.Rand, in *rows.Instance) {
	in.Grid, in.Offcuts, in.Stagger = 3+measure.Length(r.IntN(2)), nil, 0
	in.Plank += measure.Length(r.IntN(9))
	base := in.Plank + 1 + measure.Length(r.IntN(2*int(in.Plank)))
	for i := range in.Runs {
		w := base + measure.Length(r.IntN(3))
		if r.IntN(3) == 0 {
			w += in.Plank
		}
		in.Runs[i] = rows.Run{Length: w}
	}
}

// TestAgainstBruteForce counts tiny instances without stagger: as many planks as laying and cutting in every way, and
// never more where offcuts are on hand.
func TestAgainstBruteForce(t *testing.T) {
	n := uint64(1200)
	if testing.Short() {
		n = 400
	}
	equal, hand, equalHand, merged := 0, 0, 0, 0
	for seed := range n {
		r := rand.New(rand.NewPCG(seed, 43))
		in := tiny(r)
		switch seed % 3 {
		case 1:
			oracle.Begin(r, in)
		case 2:
			nearly(r, in)
		}
		want := oracle.Fewest(in)
		floor := counts.Sort(starters.New(in))
		if floor == nil {
			if want >= 0 {
				t.Errorf("seed %d: not counted, but %d planks do", seed, want)
			}
			continue
		}
		lengths := make(map[measure.Length]bool)
		for _, run := range in.Runs {
			lengths[run.Length] = true
		}
		if seed%3 == 2 && len(floor.Kinds) < len(lengths) {
			merged++
		}
		c := counts.New(floor, 1<<20)
		got := c.Planks()
		cert := proof.Certificate{Planks: got, Tree: proof.Node{Counts: true}}
		if err := cert.Verify(in); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if cert.Planks++; cert.Verify(in) == nil {
			t.Errorf("seed %d: a leaf of counts verifies for %d planks, the count is %d: %+v", seed, got+1, got, in)
		}
		if got > want || got < want && len(in.Offcuts) == 0 {
			t.Errorf("seed %d: %d planks are counted, %d are needed: %+v", seed, got, want, in)
		}
		if len(in.Offcuts) > 0 {
			hand++
			if got == want {
				equalHand++
			}
		} else {
			equal++
		}
	}
	t.Logf("%d equal without offcuts, %d of them of several lengths a kind; with offcuts %d of %d",
		equal, merged, equalHand, hand)
	if merged < int(n)/20 {
		t.Errorf("only %d floors have kinds of several lengths", merged)
	}
	if equalHand < hand*95/100 {
		t.Errorf("with offcuts on hand only %d of %d counts are exact", equalHand, hand)
	}
}
