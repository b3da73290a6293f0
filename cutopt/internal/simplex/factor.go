package simplex

import "math"

// A factor builds the inverse of a basis column by column: rows[r] is row r of the product of the eliminations so far,
// and at[r] the position whose column was reduced to the unit vector of row r.
type factor struct {
	rows   [][]float64
	at     []int // by row: position, or -1
	column []float64
}

func newFactor(n int) *factor {
	f := &factor{rows: make([][]float64, n), at: make([]int, n), column: make([]float64, n)}
	for r := range f.rows {
		f.rows[r] = make([]float64, n, n+16)
		f.rows[r][r] = 1
		f.at[r] = -1
	}
	return f
}

// place eliminates one more column, which becomes that of the position, and reports false when it depends on those
// placed before.
func (f *factor) place(position int, a []Entry) bool {
	pivot, size := -1, 1e-8
	for r, row := range f.rows {
		sum := 0.0
		for _, e := range a {
			sum += float64(e.By * row[e.Row])
		}
		f.column[r] = sum
		if f.at[r] < 0 && math.Abs(sum) > size {
			pivot, size = r, math.Abs(sum)
		}
	}
	if pivot < 0 {
		return false
	}
	f.at[pivot] = position
	pivotRow := f.rows[pivot]
	if inv := 1 / f.column[pivot]; inv != 1 {
		for q := range pivotRow {
			pivotRow[q] *= inv
		}
	}
	for r, by := range f.column {
		if r == pivot || by == 0 {
			continue
		}
		row := f.rows[r]
		for q, x := range pivotRow {
			row[q] -= float64(by * x)
		}
	}
	return true
}

// placeLogical places the logical of a row, where it adds anything.
func (f *factor) placeLogical(position, row int) bool { return f.place(position, []Entry{{row, 1}}) }

// inverse returns the rows by position.
func (f *factor) inverse() [][]float64 {
	out := make([][]float64, len(f.rows))
	for r, p := range f.at {
		out[p] = f.rows[r]
	}
	return out
}
