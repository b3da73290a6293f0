package bound

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// randomCut draws a cut with a few jumps and small whole excesses, as layouts give.
func randomCut(r *rand.Rand, thresholds, sides int) *cut {
	c := &cut{a: float64(20 + r.IntN(8))}
	for t := range thresholds {
		if r.IntN(3) == 0 {
			c.jumps = append(c.jumps, jump{t, float64(r.IntN(5) - 2)})
		}
	}
	for range sides {
		c.excess = append(c.excess, float64(r.IntN(5)-2))
	}
	return c
}

// gonums solves the master's program over the cuts with gonum's dense simplex.
func gonums(t *testing.T, cuts []*cut, thresholds, sides int, even bool) float64 {
	// Columns: theta of the first part as a difference of two, weights, multipliers in units of largest, a slack for row 1
	// and each cut, two more columns for the theta of every other part. With even, the last one is of equal steps at all
	// thresholds.
	n := 2 + thresholds + sides + 1 + len(cuts)
	parts := 1
	for _, k := range cuts {
		parts = max(parts, k.part+1)
	}
	thetas := n
	n += 2 * (parts - 1)
	if even {
		n++
	}
	a := mat.NewDense(heads+len(cuts), n, nil)
	b := make([]float64, heads+len(cuts))
	b[0], b[1] = 1, 1
	for v := range thresholds {
		a.Set(0, 2+v, 1)
	}
	for v := range sides + 1 {
		a.Set(1, 2+thresholds+v, 1)
	}
	for i, k := range cuts {
		row := heads + i
		b[row] = k.a
		theta := 0
		if k.part > 0 {
			theta = thetas + 2*(k.part-1)
		}
		a.Set(row, theta, 1)
		a.Set(row, theta+1, -1)
		for v := range thresholds {
			a.Set(row, 2+v, -k.h(v))
		}
		for s, x := range k.excess {
			a.Set(row, 2+thresholds+s, -largest*x)
		}
		a.Set(row, 2+thresholds+sides+1+i, 1)
		if even {
			sum := 0.0
			for v := range thresholds {
				sum += k.h(v)
			}
			a.Set(row, n-1, -sum/float64(thresholds))
		}
	}
	if even {
		a.Set(0, n-1, 1)
	}
	c := make([]float64, n)
	c[0], c[1] = -1, 1
	for k := range parts - 1 {
		c[thetas+2*k], c[thetas+2*k+1] = -1, 1
	}
	least, _, err := lp.Simplex(c, a, b, 1e-10, nil)
	if err != nil {
		t.Fatal(err)
	}
	return -least
}

// TestMaster adds cut after cut and compares the optimum with gonum's simplex (gonum.org/v1/gonum/optimize/convex/lp),
// within what the charges may take; the dual values are a mixture of the cuts of each part that gives it.
func TestMaster(t *testing.T) {
	const thresholds = 12
	for seed := range uint64(25) {
		r := rand.New(rand.NewPCG(seed, 8))
		sides, parts := r.IntN(3), 1+r.IntN(4)
		var all []*cut
		for p := range parts {
			k := randomCut(r, thresholds, sides)
			k.part = p
			all = append(all, k)
		}
		m := newMaster(thresholds, sides, 1, seed%2 == 0, all)
		w := make([]float64, thresholds+sides)
		for range 25 {
			k := randomCut(r, thresholds, sides)
			k.part = r.IntN(parts)
			all = append(all, k)
			m.add(k)
			m.add(k)
			if !m.solve() {
				t.Fatalf("seed %d: the master is stuck at %d cuts", seed, len(all))
			}
			sum, got := m.read(w)
			want := gonums(t, all, thresholds, sides, m.even)
			if math.Abs(got-want) > 1e-5 {
				t.Errorf("seed %d, %d cuts: theta %.9f, the simplex has %.9f", seed, len(all), got, want)
			}
			weights := 0.0
			for i := range m.cuts {
				weights += m.weight(i)
				if m.weight(i) < -1e-9 {
					t.Errorf("seed %d: cut %d has weight %g", seed, i, m.weight(i))
				}
			}
			for _, x := range w[:thresholds] {
				sum += x
			}
			if math.Abs(sum-1) > 1e-9 || math.Abs(weights-float64(parts)) > 1e-9 {
				t.Errorf("seed %d: steps sum to %g, weights of cuts to %g", seed, sum, weights)
			}
		}
	}
}
