package bound

import (
	"testing"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// benchRoom is a plain room of 20 rows of 174 in, planks of 48 in, the default rules, a grid of 1/16 in.
func benchRoom() *rows.Instance {
	in := &rows.Instance{
		Plank: 48 * measure.Inch, Kerf: measure.Inch / 8, MinPiece: 8 * measure.Inch, Stagger: 8 * measure.Inch,
		Grid: measure.Sixteenth,
	}
	for i := range 20 {
		in.Runs = append(in.Runs, rows.Run{Length: 174 * measure.Inch})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	return in
}

// benchPrices has n equal steps.
func benchPrices(in *rows.Instance, n int) *prices {
	var at []measure.Length
	var w []float64
	for i := range n {
		at = append(at, in.Plank*measure.Length(i+1)/measure.Length(n+1)/in.Grid*in.Grid)
		w = append(w, 1/float64(n+1))
	}
	return newPrices(at, w, in.Plank, in.Kerf, nil, nil, Relief{})
}

// naive is the same dynamic program over every pair of starters of neighbouring rows.
func naive(in *rows.Instance, p *prices) int64 {
	var below []int64
	var starter []measure.Length
	for s := in.Grid; s <= in.Plank; s += in.Grid {
		starter = append(starter, s)
	}
	for i := range in.Runs {
		costs := make([]int64, len(starter))
		for k, s := range starter {
			costs[k] = infinite
			q, ok := in.Lay(i, s)
			if !ok {
				continue
			}
			best := infinite
			if i == 0 {
				best = 0
			}
			for j, r := range starter {
				if i == 0 || below[j] >= best {
					continue
				}
				if o, ok := in.Lay(i-1, r); ok && !in.Clash(s, q.Joints(), r, o.Joints()) {
					best = below[j]
				}
			}
			if best < infinite {
				costs[k] = best + int64(q.Field)*Den + p.c.at(s) + Den - p.c.at(in.Plank-in.Kerf-q.Ender)
			}
		}
		below = costs
	}
	best := infinite
	for _, c := range below {
		best = min(best, c)
	}
	return best
}

// TestPathAgainstNaive holds the evaluation on breakpoints against the one over every pair of starters.
func TestPathAgainstNaive(t *testing.T) {
	in := benchRoom()
	e := newEvaluator(starters.New(in), 1)
	for _, n := range []int{1, 2, 7, 24, 100} {
		p := benchPrices(in, n)
		got, ok := e.evaluate(p, nil)
		if want := naive(in, p); !ok || got != want {
			t.Errorf("%d steps: %d, want %d", n, got, want)
		}
	}
}

func BenchmarkPath(b *testing.B) {
	in := benchRoom()
	e := newEvaluator(starters.New(in), 1)
	p := benchPrices(in, 24)
	for b.Loop() {
		e.evaluate(p, nil)
	}
}

func BenchmarkPathNaive(b *testing.B) {
	in := benchRoom()
	p := benchPrices(in, 24)
	for b.Loop() {
		naive(in, p)
	}
}

func BenchmarkBound(b *testing.B) {
	t := starters.New(benchRoom())
	for b.Loop() {
		n, err := New(t)
		if err != nil {
			b.Fatal(err)
		}
		n.Raise(1<<30, 300, nil)
	}
}

// BenchmarkBoundNaive raises the same bound as far with a column at every threshold from the start and each path found
// by the naive program too.
func BenchmarkBoundNaive(b *testing.B) {
	in := benchRoom()
	t := starters.New(in)
	for b.Loop() {
		n, err := New(t)
		if err != nil {
			b.Fatal(err)
		}
		for n.Refine() {
		}
		n.Raise(1<<30, 300, func(rows.Layout, rows.Packing) bool {
			naive(in, n.best)
			return false
		})
	}
}
