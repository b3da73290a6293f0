package solve_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// TestLooserNeverNeedsMore solves small random instances and each of them with one rule looser. Where both optima are
// proven, the looser one needs no more planks; a mirrored instance and one in another unit need as many.
func TestLooserNeverNeedsMore(t *testing.T) {
	const half = measure.Inch / 2
	looser := map[string]func(*rows.Instance){
		"shorter kerf":        func(in *rows.Instance) { in.Kerf = 0 },
		"smaller stagger":     func(in *rows.Instance) { in.Stagger /= 2 },
		"smaller least piece": func(in *rows.Instance) { in.MinPiece /= 2 },
		"finer grid":          func(in *rows.Instance) { in.Grid /= 2 },
		"a tie less":          func(in *rows.Instance) { in.Touch = in.Touch[1:] },
		"an offcut for starter": func(in *rows.Instance) {
			in.Offcuts = []rows.Offcut{{
				Length: 30 * measure.Inch,
				End:    rows.EndRight,
			}}
		},
		"an offcut for ender": func(in *rows.Instance) {
			in.Offcuts = []rows.Offcut{{
				Length: 30 * measure.Inch,
				End:    rows.EndLeft,
			}}
		},
	}
	proven, compared := 0, 0
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 31))
		make1 := func() *rows.Instance {
			in := &rows.Instance{
				Plank: measure.Length(30+r.IntN(20)) * measure.Inch, Kerf: measure.Inch / 4, Grid: half,
				MinPiece: 6 * measure.Inch, Stagger: 6 * measure.Inch,
			}
			w := measure.Length(100+r.IntN(200)) * half
			for i := range 3 + r.IntN(6) {
				in.Runs = append(in.Runs, rows.Run{Length: w + measure.Length(i%2)*measure.Inch})
				if i > 0 {
					in.Touch = append(in.Touch, [2]int{i - 1, i})
				}
			}
			return in
		}
		in := make1()
		base, ok := optimum(t, in)
		if !ok {
			continue
		}
		proven++
		for name, loosen := range looser {
			q := *in
			loosen(&q)
			if n, ok := optimum(t, &q); ok {
				compared++
				if n > base {
					t.Errorf("seed %d, %s: %d planks instead of %d", seed, name, n, base)
				}
			}
		}
		double := *in
		double.Plank, double.Kerf, double.MinPiece, double.Stagger, double.Grid = 2*in.Plank, 2*in.Kerf, 2*in.MinPiece,
			2*in.Stagger, 2*in.Grid
		double.Runs = nil
		for _, run := range in.Runs {
			double.Runs = append(double.Runs, rows.Run{From: 2 * run.From, Length: 2 * run.Length})
		}
		if n, ok := optimum(t, &double); ok && n != base {
			t.Errorf("seed %d, all lengths doubled: %d planks instead of %d", seed, n, base)
		}
	}
	t.Logf("%d instances proven, %d comparisons", proven, compared)
	if proven < 30 || compared < 150 {
		t.Errorf("too few: %d proven, %d comparisons", proven, compared)
	}
}

// optimum returns the planks of a proven result.
func optimum(t *testing.T, in *rows.Instance) (int, bool) {
	t.Helper()
	r, err := solve.Rows(context.Background(), in, nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Bound.Certificate.Verify(in); err != nil {
		t.Errorf("certificate: %v", err)
	}
	return len(r.Cutting.Planks), r.Bound.PlanksProven
}
