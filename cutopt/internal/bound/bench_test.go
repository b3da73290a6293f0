package bound

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
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
	return newPrices(at, w, 0, in.Plank, in.Kerf, nil, nil, Relief{})
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

// TestEvenSteps holds the evaluation of prices with equal steps at every grid line and a few more against that of the
// same prices step by step: with one-piece runs at places that a split leaves, with multipliers, and layouts of both.
func TestEvenSteps(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 21))
		in := &rows.Instance{
			Plank: measure.Length(40 + r.IntN(60)), Kerf: measure.Length(r.IntN(4)), MinPiece: measure.Length(4 + r.IntN(6)),
			Stagger: measure.Length(r.IntN(12)), Grid: measure.Length(1 + r.IntN(4)),
		}
		for i := range 3 + r.IntN(5) {
			in.Runs = append(in.Runs, rows.Run{From: measure.Length(r.IntN(9)), Length: measure.Length(12 + r.IntN(150))})
			if i > 0 {
				in.Touch = append(in.Touch, [2]int{i - 1, i})
			}
		}
		b, err := New(starters.New(in))
		if err != nil {
			continue
		}
		n := len(b.thresholds)
		w := make([]float64, n)
		even := 1.0
		for range r.IntN(6) {
			by := even * r.Float64() / 2
			w[r.IntN(n)] += by
			even -= by
		}
		on := []proof.Constraint{
			{Split: proof.Split{Of: proof.OfDeficit, Below: b.thresholds[r.IntN(n)], Value: 1}, AtMost: true},
			{Split: proof.Split{Of: proof.OfStarted, Value: 4}},
		}[:r.IntN(3)]
		relief := []Relief{{}, {}, {Starter: in.MinPiece + 2}, {Ender: in.MinPiece + 3}}[r.IntN(4)]
		p := newPrices(b.thresholds, w, even, in.Plank, in.Kerf, on, []float64{0.3, 0.2}[:len(on)], relief)
		q := &prices{c: curve{steps: p.c.steps}, multipliers: p.multipliers, relief: relief}
		q.derive(on, in.Kerf)
		if p.c.uneven == nil {
			t.Fatalf("seed %d: no equal steps", seed)
		}
		got, okGot := b.eval.evaluate(p, nil)
		want, okWant := b.eval.evaluate(q, nil)
		if got != want || okGot != okWant {
			t.Errorf("seed %d: %d %v by equal steps, %d %v step by step", seed, got, okGot, want, okWant)
		}
		for range 20 {
			x, first := measure.Length(1+r.IntN(int(in.Plank)-1)), measure.Length(r.IntN(int(in.Plank)))
			last := first + measure.Length(r.IntN(int(in.Plank)))
			got, at := p.single(x, in.Kerf, first, last)
			want, _ := q.single(x, in.Kerf, first, last)
			if got != want || got < infinite && p.c.at(at+x+in.Kerf)-p.c.at(at) != got {
				t.Errorf("seed %d: a piece of %d at %d to %d costs %d at %d, step by step %d", seed, x, first, last, got, at, want)
			}
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
