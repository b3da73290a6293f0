package simplex_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/simplex"
)

// A matrix of columns that rows are added to and removed from, as a master has.
type matrix struct {
	columns [][]float64 // [variable][row]
	rhs     []float64
	costs   []float64
}

func (m *matrix) entries(v int) []simplex.Entry {
	var out []simplex.Entry
	for r, x := range m.columns[v] {
		if x != 0 {
			out = append(out, simplex.Entry{Row: r, By: x})
		}
	}
	return out
}

func (m *matrix) cost(v int) float64 {
	if v < 0 {
		return 0
	}
	return m.costs[v]
}

// element is A's element, with the logicals' unit columns.
func (m *matrix) element(row, v int) float64 {
	if r, ok := simplex.RowOf(v); ok {
		if r == row {
			return 1
		}
		return 0
	}
	return m.columns[v][row]
}

// check multiplies the inverse by the basic columns and compares X and Y with their definitions.
func check(t *testing.T, seed uint64, b *simplex.Basis, m *matrix) {
	t.Helper()
	n := len(b.Vars)
	for p := range n {
		for q := range n {
			sum, want := 0.0, 0.0
			for r := range n {
				sum += b.Inverse[p][r] * m.element(r, b.Vars[q])
			}
			if p == q {
				want = 1
			}
			if math.Abs(sum-want) > 1e-6 {
				t.Fatalf("seed %d: B^-1 B has %g at %d, %d", seed, sum, p, q)
			}
		}
	}
	for r := range n {
		ax := 0.0
		for p, v := range b.Vars {
			ax += m.element(r, v) * b.X[p]
		}
		if math.Abs(ax-m.rhs[r]) > 1e-6 {
			t.Fatalf("seed %d: row %d is %g, want %g", seed, r, ax, m.rhs[r])
		}
	}
}

func duals(t *testing.T, seed uint64, b *simplex.Basis, m *matrix) {
	t.Helper()
	for _, v := range b.Vars {
		sum := m.cost(v)
		for r, y := range b.Y {
			sum -= y * m.element(r, v)
		}
		if math.Abs(sum) > 1e-6 {
			t.Fatalf("seed %d: basic variable %d has reduced cost %g", seed, v, sum)
		}
	}
}

// TestBasis pivots at random, adds rows and removes them, and holds the inverse against its definition.
func TestBasis(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 1))
		m := &matrix{columns: make([][]float64, 12), costs: make([]float64, 12)}
		for v := range m.costs {
			m.costs[v] = float64(r.IntN(7))
		}
		b := &simplex.Basis{}
		var column []float64
		for range 60 {
			switch k := r.IntN(6); {
			case k == 0 && len(b.Vars) < 8 || len(b.Vars) == 0:
				for v := range m.columns {
					m.columns[v] = append(m.columns[v], float64(r.IntN(5)-2))
				}
				m.rhs = append(m.rhs, float64(r.IntN(9)))
				row := len(m.rhs) - 1
				b.AddRow(m.rhs[row], func(v int) float64 { return m.element(row, v) })
			case k == 1:
				p := r.IntN(len(b.Vars))
				row, ok := simplex.RowOf(b.Vars[p])
				if !ok || b.Y[row] != 0 {
					continue
				}
				b.RemoveRow(p)
				m.rhs = append(m.rhs[:row], m.rhs[row+1:]...)
				for v, c := range m.columns {
					m.columns[v] = append(c[:row], c[row+1:]...)
				}
			default:
				v := r.IntN(len(m.columns))
				if basic(b, v) {
					continue
				}
				column = b.Column(column, m.entries(v))
				if p := r.IntN(len(b.Vars)); math.Abs(column[p]) > 0.1 {
					reduced := m.cost(v)
					for row, y := range b.Y {
						reduced -= y * m.columns[v][row]
					}
					b.Price(p, reduced/column[p])
					b.Pivot(p, v, column)
				}
			}
			check(t, seed, b, m)
		}
		duals(t, seed, b, m)
		if repaired := b.Refactor(m.rhs, m.entries, m.cost); repaired != nil {
			t.Fatalf("seed %d: a sound basis was repaired", seed)
		}
		check(t, seed, b, m)
		duals(t, seed, b, m)
	}
}

func basic(b *simplex.Basis, v int) bool {
	for _, w := range b.Vars {
		if w == v {
			return true
		}
	}
	return false
}

// TestRepair factors bases with columns that repeat others, are zero or the sum of two.
func TestRepair(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 2))
		n := 2 + r.IntN(6)
		m := &matrix{columns: make([][]float64, n), costs: make([]float64, n), rhs: make([]float64, n)}
		b := &simplex.Basis{}
		for v := range n {
			m.columns[v] = make([]float64, n)
			m.rhs[v], m.costs[v] = float64(r.IntN(9)), float64(r.IntN(5))
			for row := range n {
				switch k := r.IntN(3); {
				case v > 1 && seed%3 == 0 && v == n-1:
					m.columns[v][row] = m.columns[0][row] + m.columns[1][row]
				case seed%3 == 1 && v == n-1:
					m.columns[v][row] = 2 * m.columns[0][row]
				case k == 0:
					m.columns[v][row] = float64(r.IntN(5) - 2)
				}
			}
			if seed%5 == 0 && v == 0 {
				clear(m.columns[v])
			}
			b.Vars = append(b.Vars, v)
		}
		repaired := b.Refactor(m.rhs, m.entries, m.cost)
		if (seed%3 == 1 || seed%5 == 0) && len(repaired) == 0 {
			t.Fatalf("seed %d: a dependent basis was not repaired", seed)
		}
		for _, v := range repaired {
			if basic(b, v) {
				t.Fatalf("seed %d: %d was repaired away and is basic", seed, v)
			}
		}
		check(t, seed, b, m)
		duals(t, seed, b, m)
	}
}
