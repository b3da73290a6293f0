package simplex_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"plank.example/cutopt/internal/simplex"
)

// A covering program: rows "at least" first, then rows "at most".
type covering struct {
	atLeast, atMost int
	rhs, costs      []float64
	columns         [][]float64
}

const artificial = 1000.0

func randomCovering(r *rand.Rand) *covering {
	c := &covering{atLeast: 1 + r.IntN(8), atMost: r.IntN(3)}
	for range c.atLeast {
		c.rhs = append(c.rhs, float64(r.IntN(9)))
	}
	for range c.atMost {
		c.rhs = append(c.rhs, float64(5+r.IntN(20)))
	}
	for range 3 + r.IntN(20) {
		c.add(r)
	}
	return c
}

func (c *covering) add(r *rand.Rand) {
	column := make([]float64, len(c.rhs))
	for i := range column {
		if r.IntN(2) == 0 {
			column[i] = float64(r.IntN(4))
		}
	}
	column[r.IntN(len(column))] = 1 // gonum refuses a column of zeros
	c.columns, c.costs = append(c.columns, column), append(c.costs, float64(1+r.IntN(6)))
}

// load makes the program of the house: a surplus column for each row "at least".
func (c *covering) load() *simplex.Program {
	logicals := make([]float64, len(c.rhs))
	for i := range c.atLeast {
		logicals[i] = artificial
	}
	p := simplex.NewProgram(c.rhs, logicals)
	for i := range c.atLeast {
		p.Add(0, []simplex.Entry{{Row: i, By: -1}})
	}
	for v := range c.columns {
		p.Add(c.costs[v], c.entries(v))
	}
	return p
}

func (c *covering) entries(v int) []simplex.Entry {
	var out []simplex.Entry
	for i, x := range c.columns[v] {
		if x != 0 {
			out = append(out, simplex.Entry{Row: i, By: x})
		}
	}
	return out
}

// reference is the optimum by gonum's simplex, with a dear column for each row "at least".
func (c *covering) reference(t *testing.T) float64 {
	rows, n := len(c.rhs), len(c.columns)
	total := n + rows + c.atLeast
	a, costs := mat.NewDense(rows, total, nil), make([]float64, total)
	for v, column := range c.columns {
		costs[v] = c.costs[v]
		for i, x := range column {
			a.Set(i, v, x)
		}
	}
	for i := range rows {
		a.Set(i, n+i, 1) // slack
		if i < c.atLeast {
			a.Set(i, n+i, -1)
			a.Set(i, n+rows+i, 1)
			costs[n+rows+i] = artificial
		}
	}
	rhs := append([]float64(nil), c.rhs...)
	for i := range rhs {
		rhs[i] += 1e-6 * float64(i+1) // gonum's simplex can cycle
	}
	z, _, err := lp.Simplex(costs, a, rhs, 1e-10, nil)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// hold compares the program with the reference and its duals with their definition: no reduced cost below zero, and
// the same value by the dual program.
func (c *covering) hold(t *testing.T, seed uint64, p *simplex.Program) {
	t.Helper()
	if !p.Solve(10_000) {
		t.Fatalf("seed %d: no optimum", seed)
	}
	want := c.reference(t)
	if got := p.Objective(); math.Abs(got-want) > 5e-2 {
		// A dual value of 1000 on a right-hand side moved by 1e-5 is 0.01.
		t.Errorf("seed %d: %.9f, the reference has %.9f", seed, got, want)
	}
	if got := p.Bound(); math.Abs(got-want) > 5e-2 {
		t.Errorf("seed %d: the bound is %.9f, the reference has %.9f", seed, got, want)
	}
	value := 0.0
	for i, y := range p.Y {
		value += y * c.rhs[i]
		if i < c.atLeast && (y < -1e-6 || y > artificial+1e-6) || i >= c.atLeast && y > 1e-6 {
			t.Errorf("seed %d: dual value %g of row %d", seed, y, i)
		}
	}
	if math.Abs(value-want) > 5e-2 {
		t.Errorf("seed %d: the dual values give %.9f, the optimum is %.9f", seed, value, want)
	}
	for v := range c.columns {
		if d := p.Reduced(c.costs[v], c.entries(v)); d < -1e-6 {
			t.Errorf("seed %d: column %d has reduced cost %g", seed, v, d)
		}
	}
}

// TestProgram holds random programs against gonum's simplex (gonum.org/v1/gonum/optimize/convex/lp), from scratch and
// warm after new columns and after other right-hand sides.
func TestProgram(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 3))
		c := randomCovering(r)
		p := c.load()
		c.hold(t, seed, p)
		for range 4 {
			if r.IntN(2) == 0 {
				c.add(r)
				p.Add(c.costs[len(c.costs)-1], c.entries(len(c.costs)-1))
			}
			row := r.IntN(len(c.rhs))
			c.rhs[row] = float64(r.IntN(12))
			p.SetRHS(row, c.rhs[row])
			c.hold(t, seed, p)
		}
	}
}

// TestProgramUnbounded: a column of negative cost that nothing bounds has no optimum.
func TestProgramUnbounded(t *testing.T) {
	p := simplex.NewProgram([]float64{1}, []float64{0})
	p.Add(-1, []simplex.Entry{{Row: 0, By: -1}})
	if p.Solve(100) {
		t.Error("an unbounded program was solved")
	}
}

// BenchmarkProgram solves a covering program of 80 rows and 400 columns from scratch: about the master of 80 lengths.
func BenchmarkProgram(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 4))
	rhs, logicals := make([]float64, 80), make([]float64, 80)
	for i := range rhs {
		rhs[i], logicals[i] = float64(1+r.IntN(9)), 10
	}
	columns := make([][]simplex.Entry, 400)
	for v := range columns {
		for range 4 {
			columns[v] = append(columns[v], simplex.Entry{Row: r.IntN(80), By: float64(1 + r.IntN(2))})
		}
	}
	for b.Loop() {
		p := simplex.NewProgram(rhs, logicals)
		for i := range rhs {
			p.Add(0, []simplex.Entry{{Row: i, By: -1}})
		}
		for _, c := range columns {
			p.Add(1, c)
		}
		if !p.Solve(10_000) {
			b.Fatal("no optimum")
		}
	}
}
