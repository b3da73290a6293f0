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
	columns  []Entry   // of all columns, one after the other
	ends     []int     // by column: where it ends
	costs    []float64
	basic    []bool
	column   []float64
	cells    []float64 // of the first inverse
	sound    int       // pivots at the last check of X
	Pivots   int       // so far
	Work     int       // so far, in entries of columns and inverse that pivots went over
}

const (
	// moved is the mean by which right-hand sides are moved.
	moved = 1e-7
	// checkEvery is how many pivots pass between two checks of X against the rows.
	checkEvery = 100
)

// NewProgram starts with every logical basic. Right-hand sides are 0 or more.
func NewProgram(rhs, logicals []float64) *Program {
	p := new(Program)
	p.Reset(rhs, logicals)
	return p
}

// Reset makes p the program that NewProgram makes, in the memory that it has.
func (p *Program) Reset(rhs, logicals []float64) {
	n := len(rhs)
	if len(p.moved) != n {
		p.moved = Charges(n, moved)
	}
	p.logicals = append(p.logicals[:0], logicals...)
	p.columns, p.ends, p.costs, p.basic = p.columns[:0], p.ends[:0], p.costs[:0], p.basic[:0]
	p.sound, p.Pivots, p.Work = 0, 0, 0
	p.rhs, p.X, p.Y = resize(p.rhs, n), resize(p.X, n), resize(p.Y, n)
	if cap(p.Vars) < n {
		p.Vars = make([]int, n)
	}
	p.Vars = p.Vars[:n]
	p.square(n)
	clear(p.cells)
	for i := range n {
		p.rhs[i] = rhs[i] + p.moved[i]
		p.Vars[i], p.X[i], p.Y[i] = Logical(i), p.rhs[i], p.logicals[i]
		p.Inverse[i][i] = 1
	}
}

// square lays the inverse out in the cells.
func (p *Program) square(n int) {
	p.cells = resize(p.cells, n*n)
	if cap(p.Inverse) < n {
		p.Inverse = make([][]float64, n)
	}
	p.Inverse = p.Inverse[:n]
	for i := range n {
		p.Inverse[i] = p.cells[i*n : (i+1)*n : (i+1)*n]
	}
}

// Add appends a column and returns its number.
func (p *Program) Add(cost float64, entries []Entry) int {
	p.columns = append(p.columns, entries...)
	p.ends, p.costs, p.basic = append(p.ends, len(p.columns)), append(p.costs, cost), append(p.basic, false)
	return len(p.ends) - 1
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
func (p *Program) ReducedCost(v int) float64 { return p.Reduced(p.costs[v], p.entries(v)) }

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

func (p *Program) entries(v int) []Entry {
	if v == 0 {
		return p.columns[:p.ends[0]]
	}
	return p.columns[p.ends[v-1]:p.ends[v]]
}

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
		for _, e := range p.entries(v) {
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
	begin := 0
	for v, end := range p.ends {
		entries := p.columns[begin:end]
		if begin = end; p.basic[v] {
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
	begin := 0
	for v, end := range p.ends {
		entries := p.columns[begin:end]
		if begin = end; p.basic[v] {
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
		reduced = p.Reduced(reduced, p.entries(ratio.Var))
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
	p.column = p.Column(p.column, p.entries(v))
}

// exchange pivots, with the dual values moved by a multiple of the leaving row.
func (p *Program) exchange(leave, enter int, by float64) {
	p.Pivots++
	p.Work += len(p.columns) + len(p.rhs)*len(p.rhs)
	p.Price(leave, by)
	if v := p.Vars[leave]; v >= 0 {
		p.basic[v] = false
	}
	if enter >= 0 {
		p.basic[enter] = true
	}
	p.Pivot(leave, enter, p.column)
}

// Set makes p a program of its own with the rows, columns and basis of another, in the memory that it has.
func (p *Program) Set(from *Program) {
	n := len(from.rhs)
	p.moved = from.moved
	p.Vars = append(p.Vars[:0], from.Vars...)
	p.X, p.Y = append(p.X[:0], from.X...), append(p.Y[:0], from.Y...)
	p.rhs, p.logicals = append(p.rhs[:0], from.rhs...), append(p.logicals[:0], from.logicals...)
	p.columns, p.ends = append(p.columns[:0], from.columns...), append(p.ends[:0], from.ends...)
	p.costs, p.basic = append(p.costs[:0], from.costs...), append(p.basic[:0], from.basic...)
	p.sound, p.Pivots, p.Work = from.sound, from.Pivots, from.Work
	p.square(n)
	for i, row := range from.Inverse {
		copy(p.Inverse[i], row)
	}
}
