package cutopt_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"plank.example/cutopt"
)

// TestReserve holds reserve and risk against gonum's binomial distribution: boxes are the fewest whose risk is
// accepted, and the reserve the fewest planks beyond those laid.
func TestReserve(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 15))
	for range 3000 {
		terms := cutopt.Terms{
			PerBox: 1 + r.IntN(
				20,
			), Loss: []float64{0, 0.001, 0.02, 0.05, 0.3, 0.5}[r.IntN(6)], Limit: []float64{0.0001, 0.02, 0.2, 0.9}[r.IntN(4)],
			Spare: cutopt.Spare{Planks: r.IntN(2) * r.IntN(9)},
		}
		n := r.IntN(300)
		if r.IntN(50) == 0 {
			n = r.IntN(200_000)
		}
		short := func(extra int) float64 {
			if terms.Loss == 0 || n == 0 {
				return 0
			}
			return distuv.Binomial{N: float64(n + extra), P: terms.Loss}.Survival(float64(extra))
		}
		const slack = 1e-9
		if x := terms.Reserve(n); short(x) > terms.Limit+slack || x > 0 && short(x-1) < terms.Limit-slack {
			t.Fatalf(
				"%+v: a reserve of %d for %d planks: short with %g, with one less %g",
				terms,
				x,
				n,
				short(x),
				short(max(x-1, 0)),
			)
		}
		boxes := terms.Boxes(n)
		if got, want := terms.Risk(n, boxes), short(boxes*terms.PerBox-terms.Kept(n)-n); math.Abs(got-want) > slack ||
			got > terms.Limit && terms.Loss > 0 {
			t.Fatalf("%+v: %d boxes for %d planks: risk %g, want %g", terms, boxes, n, got, want)
		}
		if boxes > 0 && terms.Loss > 0 && terms.Risk(n, boxes-1) <= terms.Limit {
			t.Fatalf("%+v: %d boxes for %d planks, and one less would do", terms, boxes, n)
		}
		if m := terms.MostPlanks(boxes); m < n || terms.Boxes(m) > boxes || terms.Boxes(m+1) <= boxes {
			t.Fatalf("%+v: %d boxes hold at most %d planks, and are bought for %d", terms, boxes, m, n)
		}
		if terms.Boxes(n+1) < boxes || terms.Reserve(n+1) < terms.Reserve(n) {
			t.Fatalf("%+v: fewer boxes for %d planks than for one less", terms, n+1)
		}
	}
}

// TestReserveByHand reckons small ones: a lost plank costs a whole one.
func TestReserveByHand(t *testing.T) {
	for _, c := range []struct {
		reason string
		terms  cutopt.Terms
		planks int
		want   int
	}{
		{"none is lost", cutopt.Terms{PerBox: 1}, 10, 0},
		{
			"one plank, lost one time in two: more than r of r + 1 lost is 1/2^(r+1), and 1/8 is the first of at most 0.2",
			cutopt.Terms{PerBox: 1, Loss: 0.5, Limit: 0.2},
			1, 2,
		},
		{"10 planks at 1 %: 1 - 0.99^10 = 9.6 % is accepted", cutopt.Terms{PerBox: 1, Loss: 0.01, Limit: 0.1}, 10, 0},
		{"11 planks: 10.5 % is not", cutopt.Terms{PerBox: 1, Loss: 0.01, Limit: 0.1}, 11, 1},
		{"nothing to lay", cutopt.Terms{PerBox: 1, Loss: 0.5, Limit: 0.02}, 0, 0},
	} {
		if got := c.terms.Reserve(c.planks); got != c.want {
			t.Errorf("%s: a reserve of %d, want %d", c.reason, got, c.want)
		}
	}
}
