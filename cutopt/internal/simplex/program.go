package simplex

import "math"

// A Program is a program in the standard form with its columns listed, as a column generation has them. Each row's
// logical has a cost: 0 makes it the slack of a row "at most b", a large one makes it stand in for what the columns do
// not reach of a row "at least b", whose surplus is a column of the caller's. New columns and other right-hand sides
// keep the basis, so that the next [Program.Solve] starts warm. It is not safe for concurrent use.
type Program struct {
	Basis
	rhs      []float64 // moved a little each, against cycling
	moved    []float64
	logicals []float64 // costs
	columns  [][]Entry
	costs    []float64
	basic    []bool
	column   []float64
	sound    int // pivots at the last check of X
	Pivots   int // so far
}

const (
	// moved is the mean by which right-hand sides are moved.
	moved = 1e-7
	// checkEvery is how many pivots pass between two checks of X against the rows.
	checkEvery = 100
)

// NewProgram starts with every logical basic. Right-hand sides are 0 or more.
func NewProgram(rhs, logicals []float64) *Program {
	n := len(rhs)
	p := &Program{
		moved: Charges(n, moved), rhs: make([]float64, n), logicals: append([]float64(nil), logicals...),
	}
	p.Vars, p.X, p.Y = make([]int, n), make([]float64, n), make([]float64, n)
	p.Inverse = make([][]float64, n)
	cells := make([]float64, n*n)
	for i := range n {
		p.rhs[i] = rhs[i] + p.moved[i]
		p.Vars[i], p.X[i], p.Y[i] = Logical(i), p.rhs[i], p.logicals[i]
		p.Inverse[i] = cells[i*n : (i+1)*n : (i+1)*n]
		p.Inverse[i][i] = 1
	}
	return p
}

// Add appends a column and returns its number. The program keeps the entries.
func (p *Program) Add(cost float64, entries []Entry) int {
	p.columns, p.costs, p.basic = append(p.columns, entries), append(p.costs, cost), append(p.basic, false)
	return len(p.columns) - 1
}

// SetRHS changes a right-hand side. The basis stays; Solve restores X >= 0.
func (p *Program) SetRHS(row int, to float64) {
	by := to + p.moved[row] - p.rhs[row]
	if by == 0 {
		return
	}
	p.rhs[row] += by
	for q, r := range p.Inverse {
		p.X[q] += float64(by * r[row])
	}
}

// Reduced returns the reduced cost that a column has or would have.
func (p *Program) Reduced(cost float64, entries []Entry) float64 {
	for _, e := range entries {
		cost -= float64(e.By * p.Y[e.Row])
	}
	return cost
}

// ReducedCost is that of a column.
func (p *Program) ReducedCost(v int) float64 { return p.Reduced(p.costs[v], p.columns[v]) }

// Objective is the cost of X, for the right-hand sides as they are moved.
func (p *Program) Objective() float64 {
	sum := 0.0
	for q, v := range p.Vars {
		sum += float64(p.cost(v) * p.X[q])
	}
	return sum
}

// Bound is what the dual values give for the right-hand sides as the caller set them: at an optimum, the optimum for
// these.
func (p *Program) Bound() float64 {
	sum := 0.0
	for row, y := range p.Y {
		sum += float64(y * (p.rhs[row] - p.moved[row]))
	}
	return sum
}

func (p *Program) cost(v int) float64 {
	if row, ok := RowOf(v); ok {
		return p.logicals[row]
	}
	return p.costs[v]
}

func (p *Program) entries(v int) []Entry { return p.columns[v] }

// Solve makes the basis optimal: dual pivots while a value is below zero, then primal pivots while a reduced cost is.
// It reports false when there is no solution or more than limit pivots would be needed; the basis stays as it is then.
func (p *Program) Solve(limit int) bool {
	for end := p.Pivots + limit; p.Pivots < end; {
		p.restore()
		if leave := p.Leaving(nil); leave >= 0 {
			if !p.dual(leave) {
				return false
			}
			continue
		}
		enter, reduced := p.entering()
		if enter < 0 && reduced == 0 {
			return true
		}
		if !p.primal(enter, reduced) {
			return false
		}
	}
	return false
}

// restore refactors where X has drifted off the rows.
func (p *Program) restore() {
	if p.Pivots < p.sound+checkEvery {
		return
	}
	p.sound = p.Pivots
	left := append([]float64(nil), p.rhs...)
	for q, v := range p.Vars {
		if row, ok := RowOf(v); ok {
			left[row] -= p.X[q]
			continue
		}
		for _, e := range p.columns[v] {
			left[e.Row] -= float64(e.By * p.X[q])
		}
	}
	for _, x := range left {
		if math.Abs(x) > 1e-8 {
			for _, v := range p.Refactor(p.rhs, p.entries, p.cost) {
				p.basic[v] = false
			}
			return
		}
	}
}

// entering returns the variable of least reduced cost, and 0 where none is below zero.
func (p *Program) entering() (enter int, reduced float64) {
	enter, reduced = -1, -Epsilon
	found := false
	for v, entries := range p.columns {
		if p.basic[v] {
			continue
		}
		if d := p.Reduced(p.costs[v], entries); d < reduced {
			enter, reduced, found = v, d, true
		}
	}
	for row, y := range p.Y {
		// The logical of a basic row has reduced cost 0 to within rounding.
		if d := p.logicals[row] - y; d < reduced && !p.logicalBasic(row) {
			enter, reduced, found = Logical(row), d, true
		}
	}
	if !found {
		return -1, 0
	}
	return enter, reduced
}

func (p *Program) logicalBasic(row int) bool {
	for _, v := range p.Vars {
		if v == Logical(row) {
			return true
		}
	}
	return false
}

// primal makes a variable basic in place of the one that falls to zero first; ties go to the larger pivot element.
func (p *Program) primal(enter int, reduced float64) bool {
	p.load(enter)
	leave, least, size := -1, math.Inf(1), 0.0
	for q, a := range p.column {
		if a <= Epsilon {
			continue
		}
		ratio := max(p.X[q], 0) / a
		if ratio < least-1e-12 || ratio < least+1e-12 && a > size {
			leave, least, size = q, ratio, a
		}
	}
	if leave < 0 {
		return false
	}
	p.exchange(leave, enter, reduced/p.column[leave])
	return true
}

// dual drives the basic variable at a position to zero.
func (p *Program) dual(leave int) bool {
	ratio := NewRatio()
	r := p.Inverse[leave]
	for v, entries := range p.columns {
		if p.basic[v] {
			continue
		}
		alpha, cost := 0.0, p.costs[v]
		for _, e := range entries {
			alpha += float64(e.By * r[e.Row])
			cost -= float64(e.By * p.Y[e.Row])
		}
		ratio.Try(v, alpha, cost)
	}
	for row, y := range p.Y {
		if r[row] < -Epsilon && !p.logicalBasic(row) {
			ratio.Try(Logical(row), r[row], p.logicals[row]-y)
		}
	}
	if !ratio.Found() {
		return false
	}
	// The reduced cost itself, not the ratio, which takes one below zero as 0: that of a basic variable is 0.
	reduced := p.cost(ratio.Var)
	if row, ok := RowOf(ratio.Var); ok {
		reduced -= p.Y[row]
	} else {
		reduced = p.Reduced(reduced, p.columns[ratio.Var])
	}
	p.load(ratio.Var)
	p.exchange(leave, ratio.Var, reduced/p.column[leave])
	return true
}

// load computes the column of a variable over the basis.
func (p *Program) load(v int) {
	if row, ok := RowOf(v); ok {
		p.column = p.LogicalColumn(p.column, row)
		return
	}
	p.column = p.Column(p.column, p.columns[v])
}

// exchange pivots, with the dual values moved by a multiple of the leaving row.
func (p *Program) exchange(leave, enter int, by float64) {
	p.Pivots++
	p.Price(leave, by)
	if v := p.Vars[leave]; v >= 0 {
		p.basic[v] = false
	}
	if enter >= 0 {
		p.basic[enter] = true
	}
	p.Pivot(leave, enter, p.column)
}

// Clone is a program of its own with the same rows, columns and basis. The entries of columns are shared.
func (p *Program) Clone() *Program {
	c := *p
	n := len(p.rhs)
	c.Vars, c.X, c.Y = append([]int(nil), p.Vars...), append([]float64(nil), p.X...), append([]float64(nil), p.Y...)
	c.rhs, c.column, c.used = append([]float64(nil), p.rhs...), nil, nil
	c.columns, c.costs = append([][]Entry(nil), p.columns...), append([]float64(nil), p.costs...)
	c.basic = append([]bool(nil), p.basic...)
	c.Inverse = make([][]float64, n)
	cells := make([]float64, n*n)
	for i, row := range p.Inverse {
		c.Inverse[i] = cells[i*n : (i+1)*n : (i+1)*n]
		copy(c.Inverse[i], row)
	}
	return &c
}
