package bound

import (
	"math"
	"slices"

	"plank.example/cutopt/internal/simplex"
)

// The master is the linear program over the layouts seen so far of each part p of the floor,
//
//	max sum_p theta_p  s.t.  theta_p(i) - sum_t w_t H_i(t) - sum_c m_c x_i(c) <= a_i for every cut i,
//	                         sum_t w_t = 1,  sum_c m_c <= largest,  w, m >= 0,
//
// whose weights w are the steps of the best price function and m the best multipliers for those layouts. Trees of the
// forest cost what they cost whatever the others are laid like, so cuts of parts tell more than cuts of the floor: they
// stand for every floor that layouts of the parts make up. It is kept
// optimal by the dual simplex method: a new cut is a new row, and all thresholds are priced by one suffix sum, so a
// pivot takes O(rows² + rows * jumps + thresholds). Every column bears a tiny charge of its own, since without it most
// pivots are degenerate and some rooms cycle. Rows whose cut is slack are dropped. The master only guides: no bound is
// claimed from its floating-point figures.
type master struct {
	thresholds, sides int
	parts             int
	stride            int  // thresholds stride-1, 2*stride-1, … and the last have a column
	even              bool // there is a column of equal steps at all thresholds
	cuts              []*cut
	// Row 0 is the sum of the weights, row 1 that of the multipliers, row i+heads cut i. Variables 0 … thresholds-1 are
	// weights, then the multipliers (in units of largest), then the slack of row 1, then the thetas, which are free. The
	// dual value of row i+heads is the weight of cut i's layout in the best mixture of its part.
	basis   simplex.Basis
	charge  []float64 // by column
	alphas  []float64 // scratch, by threshold
	costs   []float64
	column  []float64
	inBasis []bool // by column
	idle    []int  // by cut: solves since its slack was last out of the basis
	work    int64  // entries of the inverse and columns gone through in pivots
}

const (
	heads = 2 // rows before those of the cuts
	// tiny is the mean charge of a column, in planks.
	tiny = 1e-6
	// patience is how many solves a cut may be slack before it is dropped.
	patience = 3
	// largest is the sum that multipliers may reach, in planks.
	largest = 4.0
)

// newMaster starts from one cut of each part, in their order, at the column of each head row that pays them most, which
// is optimal for them.
func newMaster(thresholds, sides, stride int, even bool, first []*cut) *master {
	columns, parts := thresholds+sides+1, len(first)
	m := &master{
		thresholds: thresholds, sides: sides, parts: parts, stride: stride, even: even,
		cuts: slices.Clone(first), idle: make([]int, parts),
		alphas: make([]float64, thresholds), costs: make([]float64, thresholds), inBasis: make([]bool, columns+parts+1),
		charge: simplex.Charges(columns, tiny),
	}
	t, s := 0, thresholds
	ht, hs := math.Inf(-1), math.Inf(-1)
	for v := range columns {
		h := -m.charge[v]
		for _, c := range first {
			h += m.coefficient(c, v)
		}
		if v < thresholds && h > ht && m.inUse(v) {
			t, ht = v, h
		}
		if v >= thresholds && h > hs {
			s, hs = v, h
		}
	}
	m.basis.Vars = []int{t, s}
	rhs := []float64{1, 1}
	for p, c := range first {
		m.basis.Vars = append(m.basis.Vars, m.theta(p))
		rhs = append(rhs, c.a)
	}
	for _, v := range m.basis.Vars {
		m.inBasis[v] = true
	}
	m.basis.Refactor(rhs, m.entries, m.cost)
	return m
}

// theta is the variable of a part; their sum is maximised.
func (m *master) theta(part int) int { return m.thresholds + m.sides + 1 + part }

// isTheta reports whether v is the variable of a part.
func (m *master) isTheta(v int) bool { return v >= m.theta(0) && v < m.theta(m.parts) }

// evenly is the variable of equal steps at all thresholds, where it is in use. It has no charge.
func (m *master) evenly() int { return m.theta(m.parts) }

// cost is what a unit of a variable adds to the sum of the thetas, less its charge.
func (m *master) cost(v int) float64 {
	switch {
	case m.isTheta(v):
		return 1
	case v < 0 || v == m.evenly():
		return 0
	}
	return -m.charge[v]
}

// inUse reports whether threshold t has a column.
func (m *master) inUse(t int) bool { return (t+1)%m.stride == 0 || t == m.thresholds-1 }

// again is the program over the same cuts with the columns of another stride.
func (m *master) again(stride int, even bool) *master {
	first := make([]*cut, m.parts)
	for _, c := range m.cuts {
		if first[c.part] == nil {
			first[c.part] = c
		}
	}
	n := newMaster(m.thresholds, m.sides, stride, even, first)
	for _, c := range m.cuts {
		if c != first[c.part] {
			n.add(c)
		}
	}
	return n
}

// weight is what the layout of cut i has in the best mixture of its part.
func (m *master) weight(i int) float64 { return m.basis.Y[i+heads] }

// coefficient is what one unit of column v adds to the cost of the cut's layout.
func (m *master) coefficient(c *cut, v int) float64 {
	switch {
	case v < m.thresholds:
		return c.h(v)
	case v < m.thresholds+m.sides:
		return largest * c.excess[v-m.thresholds]
	case v == m.evenly():
		return c.mean(m.thresholds)
	}
	return 0
}

// element is the coefficient of variable v in the row of a cut.
func (m *master) element(c *cut, v int) float64 {
	if m.isTheta(v) {
		if v == m.theta(c.part) {
			return 1
		}
		return 0
	}
	return -m.coefficient(c, v)
}

// entries returns the column of a variable.
func (m *master) entries(v int) []simplex.Entry {
	out := make([]simplex.Entry, 0, len(m.cuts)+1)
	switch {
	case v < m.thresholds || v == m.evenly():
		out = append(out, simplex.Entry{Row: 0, By: 1})
	case v < m.theta(0):
		out = append(out, simplex.Entry{Row: 1, By: 1})
	}
	for i, c := range m.cuts {
		if h := m.element(c, v); h != 0 {
			out = append(out, simplex.Entry{Row: i + heads, By: h})
		}
	}
	return out
}

// add appends a cut, unless it has it already, with its slack basic; solve then restores x >= 0.
func (m *master) add(c *cut) {
	if m.parts > 1 { // trees are often laid as before while others are laid otherwise
		if i := slices.IndexFunc(m.cuts, c.same); i >= 0 {
			m.idle[i] = 0
			return
		}
	}
	m.basis.AddRow(c.a, func(v int) float64 { return m.element(c, v) })
	m.cuts = append(m.cuts, c)
	m.idle = append(m.idle, 0)
}

// solve restores optimality by dual simplex pivots and reports whether it got there within a pivot limit.
func (m *master) solve() bool {
	for range 50 + 10*len(m.basis.Vars) {
		leave := m.basis.Leaving(m.isTheta)
		if leave < 0 {
			return true
		}
		if !m.pivot(leave) {
			return false
		}
	}
	return false
}

// pivot drives the basic variable at position leave to zero.
func (m *master) pivot(leave int) bool {
	r, y := m.basis.Inverse[leave], m.basis.Y
	m.work += int64(len(r)*len(r) + m.thresholds)
	ratio := simplex.NewRatio()
	// Of column v: alpha = r_head - sum_i r_i h_i(v), reduced cost = y_head - sum_i y_i h_i(v).
	clear(m.alphas)
	clear(m.costs)
	for i, c := range m.cuts {
		ri, yi := r[i+heads], y[i+heads]
		if ri == 0 && yi == 0 {
			continue
		}
		for _, j := range c.jumps {
			m.alphas[j.index] -= float64(ri * j.by)
			m.costs[j.index] -= float64(yi * j.by)
		}
	}
	alpha, cost := r[0], y[0]
	for t := m.thresholds - 1; t >= 0; t-- {
		alpha += m.alphas[t]
		cost += m.costs[t]
		if !m.inBasis[t] && m.inUse(t) {
			ratio.Try(t, alpha, cost+m.charge[t])
		}
	}
	if v := m.evenly(); m.even && !m.inBasis[v] {
		alpha, cost := r[0], y[0]
		for i, c := range m.cuts {
			h := c.mean(m.thresholds)
			alpha -= float64(r[i+heads] * h)
			cost -= float64(y[i+heads] * h)
		}
		ratio.Try(v, alpha, cost)
	}
	for v := m.thresholds; v <= m.thresholds+m.sides; v++ {
		if m.inBasis[v] {
			continue
		}
		alpha, cost := r[1], y[1]
		for i, c := range m.cuts {
			h := m.coefficient(c, v)
			alpha -= float64(r[i+heads] * h)
			cost -= float64(y[i+heads] * h)
		}
		ratio.Try(v, alpha, cost+m.charge[v])
	}
	for i, basic := range m.slackBasic() {
		if !basic {
			ratio.Try(simplex.Logical(i+heads), r[i+heads], y[i+heads])
		}
	}
	if !ratio.Found() {
		return false
	}
	m.basis.Price(leave, ratio.By)
	m.replace(leave, ratio.Var)
	return true
}

// slackBasic reports for each cut whether its slack is basic.
func (m *master) slackBasic() []bool {
	basic := make([]bool, len(m.cuts))
	for _, v := range m.basis.Vars {
		if row, ok := simplex.RowOf(v); ok {
			basic[row-heads] = true
		}
	}
	return basic
}

// replace swaps the variable enter into the basis at position leave.
func (m *master) replace(leave, enter int) {
	if row, ok := simplex.RowOf(enter); ok {
		m.column = m.basis.LogicalColumn(m.column, row)
	} else {
		m.column = m.basis.Column(m.column, m.entries(enter))
		m.inBasis[enter] = true
	}
	if v := m.basis.Vars[leave]; v >= 0 {
		m.inBasis[v] = false
	}
	m.basis.Pivot(leave, enter, m.column)
}

// drop removes cuts whose slack has been basic for several solves.
func (m *master) drop() {
	for p := len(m.basis.Vars) - 1; p >= 0; p-- {
		row, ok := simplex.RowOf(m.basis.Vars[p])
		if !ok {
			continue
		}
		i := row - heads
		m.idle[i]++
		if m.idle[i] >= patience && m.basis.X[p] >= 1e-7 {
			m.basis.RemoveRow(p)
			m.cuts = append(m.cuts[:i], m.cuts[i+1:]...)
			m.idle = append(m.idle[:i], m.idle[i+1:]...)
		}
	}
	for i, basic := range m.slackBasic() {
		if !basic {
			m.idle[i] = 0
		}
	}
}

// read writes the weights and multipliers of the optimum to w and returns the weight of equal steps and the sum of the
// thetas.
func (m *master) read(w []float64) (even, theta float64) {
	clear(w)
	for p, v := range m.basis.Vars {
		switch {
		case m.isTheta(v):
			theta += m.basis.X[p]
		case v == m.evenly():
			even = max(m.basis.X[p], 0)
		case v < 0 || v == m.thresholds+m.sides:
		case v < m.thresholds:
			w[v] = max(m.basis.X[p], 0)
		default:
			w[v] = largest * max(m.basis.X[p], 0)
		}
	}
	return even, theta
}
