// Package simplex keeps the basis of a linear program for masters that make their own rows and columns.
//
// # Standard form
//
// A program has rows b, variables x and
//
//	min c·x  s.t.  A x + s = b,  x >= 0,  s >= 0,
//
// where each row has a logical variable of its own, s. A [Basis] knows the values of the basic variables and the dual
// values of the rows; which columns exist, how they are priced and which of them enters is the master's business. A
// variable is a number the master gives it, 0 or more; the logical of row i is [Logical](i), below 0. Masters that
// maximise, or whose program is the dual of one in this form, read X and Y with the signs of their own.
//
//   - The master of a cutting-plane method adds rows ([Basis.AddRow]), each with its logical basic, and restores
//     X >= 0 by dual pivots: [Basis.Leaving] names the row by dual steepest edge, a [Ratio] the column.
//   - The master of a column generation has its columns listed: a [Program] holds them and pivots by itself.
//
// # Tolerances
//
// A value is below zero under -[Epsilon], a pivot element is one above [Epsilon] in size; ratios within 1e-12 tie and
// the larger pivot element wins. Many masters are degenerate and some cycle: [Charges] gives each column a tiny cost of
// its own, a [Program] moves each right-hand side by as little. Whatever is claimed from such figures must be
// recomputed in whole numbers. Products are rounded before they are added (float64(a*b)), so that figures are the same
// on machines that could fuse the two.
//
// # Complexity and source
//
// The inverse is dense: a pivot takes O(rows²) and [Basis.Refactor] O(rows³), which suits the few hundred rows of the
// masters here. The dual simplex method is C. E. Lemke's (Naval Res. Logist. Q. 1, 1954), dual steepest edge J. J.
// Forrest and D. Goldfarb's (Math. Program. 57, 1992), the revised primal method G. B. Dantzig's (RAND
// P-392, 1953); figures are moved against cycling as A. Charnes did it (Econometrica 20, 1952), at random.
package simplex

import (
	"math"
	"math/rand/v2"
)

// Epsilon is what a figure may be off by.
const Epsilon = 1e-9

// Logical is the number of the logical variable of a row.
func Logical(row int) int { return ^row }

// RowOf returns the row that v is the logical variable of, or false.
func RowOf(v int) (row int, ok bool) { return ^v, v < 0 }

// Charges returns n tiny costs around mean, between half of it and half as much again, the same for the same n.
func Charges(n int, mean float64) []float64 {
	rng := rand.New(rand.NewPCG(1, uint64(n)))
	out := make([]float64, n)
	for v := range out {
		out[v] = mean * (0.5 + float64(rng.Float64()))
	}
	return out
}

// An Entry is a nonzero of a column.
type Entry struct {
	Row int
	By  float64
}

// A Basis is a choice of one basic variable for each row and the inverse of the square matrix of their columns. The
// master may read every field and change none. It is not safe for concurrent use.
type Basis struct {
	Vars    []int       // by position: the basic variable
	X       []float64   // by position: its value
	Y       []float64   // by row: its dual value, c_B B^-1
	Inverse [][]float64 // B^-1[position][row]
	used    []int       // scratch: rows where the pivot's row of the inverse is not 0
}

// AddRow appends a row with its logical basic. It asks coefficient for that of each basic variable that is not a
// logical; what was basic stays so, and the row's dual value is 0. It takes O(rows²).
func (b *Basis) AddRow(rhs float64, coefficient func(v int) float64) {
	n := len(b.Vars)
	row := make([]float64, n+1, n+16)
	for p, v := range b.Vars {
		if v < 0 {
			continue
		}
		h := coefficient(v)
		if h == 0 {
			continue
		}
		rhs -= float64(h * b.X[p])
		for q, x := range b.Inverse[p] {
			row[q] -= float64(h * x)
		}
	}
	row[n] = 1
	for p := range b.Inverse {
		b.Inverse[p] = append(b.Inverse[p], 0)
	}
	b.Inverse = append(b.Inverse, row)
	b.X = append(b.X, rhs)
	b.Y = append(b.Y, 0)
	b.Vars = append(b.Vars, Logical(n))
}

// RemoveRow drops the row whose logical is basic at the position: that column of the basis is a unit vector, so the
// rest of the inverse stays as it is. Later rows and their logicals move down by one.
func (b *Basis) RemoveRow(position int) {
	row, ok := RowOf(b.Vars[position])
	if !ok {
		panic("simplex: the variable is not a logical")
	}
	b.Vars = append(b.Vars[:position], b.Vars[position+1:]...)
	b.X = append(b.X[:position], b.X[position+1:]...)
	b.Inverse = append(b.Inverse[:position], b.Inverse[position+1:]...)
	for p, r := range b.Inverse {
		b.Inverse[p] = append(r[:row], r[row+1:]...)
	}
	b.Y = append(b.Y[:row], b.Y[row+1:]...)
	for p, v := range b.Vars {
		if v < Logical(row) {
			b.Vars[p]++
		}
	}
}

// Column writes B^-1 a to dst, by position, and returns it. It takes O(rows * entries).
func (b *Basis) Column(dst []float64, a []Entry) []float64 {
	dst = resize(dst, len(b.Vars))
	for p, r := range b.Inverse {
		sum := 0.0
		for _, e := range a {
			sum += float64(e.By * r[e.Row])
		}
		dst[p] = sum
	}
	return dst
}

// LogicalColumn is Column for the logical of a row.
func (b *Basis) LogicalColumn(dst []float64, row int) []float64 {
	dst = resize(dst, len(b.Vars))
	for p, r := range b.Inverse {
		dst[p] = r[row]
	}
	return dst
}

// Pivot makes the variable v, whose column is B^-1 a, basic at the position. Y is left to [Basis.Price].
func (b *Basis) Pivot(position, v int, column []float64) {
	pivotRow := b.Inverse[position]
	inv := 1 / column[position]
	for q := range pivotRow {
		pivotRow[q] *= inv
	}
	b.X[position] *= inv
	b.used = b.used[:0]
	for q, x := range pivotRow {
		if x != 0 {
			b.used = append(b.used, q)
		}
	}
	sparse := 3*len(b.used) < len(pivotRow)
	for p, f := range column {
		if p == position || f == 0 {
			continue
		}
		b.X[p] -= float64(f * b.X[position])
		row := b.Inverse[p][:len(pivotRow)]
		if sparse {
			for _, q := range b.used {
				row[q] -= float64(f * pivotRow[q])
			}
			continue
		}
		for q, x := range pivotRow {
			row[q] -= float64(f * x)
		}
	}
	b.Vars[position] = v
}

// Price adds to the dual values a multiple of the inverse's row at the position.
func (b *Basis) Price(position int, by float64) {
	for q, x := range b.Inverse[position] {
		b.Y[q] += float64(by * x)
	}
}

// Leaving returns the position whose variable is farthest below zero for the length of its row (dual steepest edge), or
// -1 when none is. A variable that free names may be below zero.
func (b *Basis) Leaving(free func(v int) bool) int {
	leave, worst := -1, 0.0
	for p, x := range b.X {
		if x >= -Epsilon || free != nil && free(b.Vars[p]) {
			continue
		}
		length := 0.0
		for _, r := range b.Inverse[p] {
			length += float64(r * r)
		}
		if far := x * x / length; far > worst {
			leave, worst = p, far
		}
	}
	return leave
}

// A Ratio is the ratio test of a dual pivot: of all nonbasic variables it keeps that with the least ratio of reduced
// cost to pivot element; ties go to the larger pivot element.
type Ratio struct {
	Var  int
	By   float64 // the ratio; Price takes it where costs are Y A - c, its negative where they are c - Y A
	size float64
}

// NewRatio is a test that nothing was put to.
func NewRatio() Ratio { return Ratio{By: math.Inf(1)} }

// Found reports whether any variable can enter; where none can, the program has no solution.
func (r *Ratio) Found() bool { return r.size > 0 }

// Try puts a variable to the test: alpha is its element in the leaving row of B^-1 A, cost its reduced cost, taken as 0
// where it is less.
func (r *Ratio) Try(v int, alpha, cost float64) {
	if alpha >= -Epsilon {
		return
	}
	q := max(cost, 0) / -alpha
	if q < r.By-1e-12 || q < r.By+1e-12 && -alpha > r.size {
		r.Var, r.By, r.size = v, q, -alpha
	}
}

// Refactor computes the inverse, X and Y anew from the columns of the basic variables. Where these are dependent, it
// repairs the basis: the logical of a row that is not covered takes the place of a column that adds nothing, and the
// variable is listed in the result, with its position left where it was. Entries of logicals are not asked for. It
// takes O(rows³), by Gauss-Jordan elimination with the largest pivot of each column.
func (b *Basis) Refactor(rhs []float64, column func(v int) []Entry, cost func(v int) float64) (repaired []int) {
	n := len(rhs)
	f := newFactor(n)
	var loose []int // positions whose column adds nothing
	// Logicals first: they are sparse and cannot fail.
	for p, v := range b.Vars {
		if row, ok := RowOf(v); ok && !f.place(p, []Entry{{row, 1}}) {
			loose = append(loose, p)
		}
	}
	for p, v := range b.Vars {
		if v >= 0 && !f.place(p, column(v)) {
			loose = append(loose, p)
		}
	}
	row := 0
	for _, p := range loose {
		for ; !f.placeLogical(p, row); row++ {
			continue
		}
		repaired = append(repaired, b.Vars[p])
		b.Vars[p] = Logical(row)
	}
	b.Inverse = f.inverse()
	b.X, b.Y = resize(b.X, n), resize(b.Y, n)
	clear(b.Y)
	for p, r := range b.Inverse {
		b.X[p] = 0
		c := cost(b.Vars[p])
		for q, x := range r {
			b.X[p] += float64(x * rhs[q])
			b.Y[q] += float64(c * x)
		}
	}
	return repaired
}

func resize(s []float64, n int) []float64 {
	if cap(s) < n {
		return make([]float64, n, n+n/4)
	}
	return s[:n]
}
