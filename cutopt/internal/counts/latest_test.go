package counts

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// TestLatest holds that latest is the inverse of step: a kind leads from x to a point as good as need just when x is as
// good as latest says. It looks inside, since what is drawn goes wrong only by chance where it is not.
func TestLatest(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 1))
		in := &rows.Instance{
			Plank: measure.Length(20 + r.IntN(40)), Kerf: measure.Length(r.IntN(4)), MinPiece: measure.Length(1 + r.IntN(6)),
			Grid: measure.Length(1 + r.IntN(3)),
		}
		for range 1 + r.IntN(4) {
			in.Runs = append(in.Runs, rows.Run{Length: in.Plank/2 + measure.Length(r.IntN(int(3*in.Plank)))})
		}
		for range r.IntN(4) {
			end := []rows.End{rows.EndLeft, rows.EndRight, rows.EndNone}[r.IntN(3)]
			in.Offcuts = append(in.Offcuts, rows.Offcut{Length: measure.Length(1 + r.IntN(int(in.Plank-1))), End: end})
		}
		c := Sort(starters.New(in))
		if c == nil {
			continue
		}
		point := func() point { return at(5+int64(r.IntN(5)), measure.Length(r.IntN(int(in.Plank+1))*r.IntN(3)/2)) }
		for range 2000 {
			k, x, need := r.IntN(len(c.Kinds)), point(), point()
			if got, want := x <= c.latest(k, need), c.step(k, x) <= need; got != want && x.left() <= in.Plank &&
				need.left() <= in.Plank {
				t.Fatalf("seed %d: kind %+v of %+v leads from %d, %d to %d, %d; latest for %d, %d is %d, %d", seed, c.Kinds[k], in,
					x.planks(), x.left(), c.step(k, x).planks(), c.step(k, x).left(), need.planks(), need.left(),
					c.latest(k, need).planks(), c.latest(k, need).left())
			}
		}
	}
}
