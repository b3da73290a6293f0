package bound

import (
	"math"
	"math/rand/v2"

	"plank.example/cutopt/rows"
)

// A cut is what one layout pays under every dual solution: a, plus for each threshold the weight of its step times H,
// plus for each constraint of the branch its multiplier times the excess.
type cut struct {
	a      float64
	jumps  []jump    // H(t) is the sum of the jumps at t or later; ascending in index
	excess []float64 // by constraint, positive where the layout breaks it
	layout rows.Layout
}

// A jump adds by to H at thresholds 0 … index.
type jump struct {
	index int
	by    float64
}

// h returns H at threshold t.
func (c *cut) h(t int) float64 {
	sum := 0.0
	for k := len(c.jumps) - 1; k >= 0 && c.jumps[k].index >= t; k-- {
		sum += c.jumps[k].by
	}
	return sum
}

// slope is how the cost of the cut's layout changes along a direction of weights and multipliers.
func (c *cut) slope(direction []float64) float64 {
	n := len(direction) - len(c.excess)
	sum, h := 0.0, 0.0
	k := len(c.jumps) - 1
	for t := n - 1; t >= 0; t-- {
		for ; k >= 0 && c.jumps[k].index >= t; k-- {
			h += c.jumps[k].by
		}
		sum += float64(h * direction[t])
	}
	for i, x := range c.excess {
		sum += float64(x * direction[n+i])
	}
	return sum
}

// The master is the linear program over the layouts seen so far,
//
//	max theta  s.t.  theta - sum_t w_t H_i(t) - sum_c m_c x_i(c) <= a_i for every cut i,
//	                 sum_t w_t = 1,  sum_c m_c <= largest,  w, m >= 0,
//
// whose weights w are the steps of the best price function and m the best multipliers for those layouts. It is kept
// optimal by the dual simplex method with a dense basis inverse: a new cut is a new row, and all thresholds are priced
// by one suffix sum, so a pivot takes O(rows² + rows * jumps + thresholds). The leaving row is the one farthest from its
// facet (dual steepest edge), and every column bears a tiny charge of its own, since without it most pivots are
// degenerate and some rooms cycle. Rows whose cut is slack are dropped. The master only guides: no bound is claimed from
// its floating-point figures. Products are rounded before they are added (float64(a*b)), so that they are the same on
// machines that could fuse the two.
type master struct {
	thresholds, sides int
	stride            int // thresholds stride-1, 2*stride-1, … and the last have a column
	cuts              []*cut
	// Row 0 is the sum of the weights, row 1 that of the multipliers, row i+2 cut i. Columns 0 … thresholds-1 are
	// weights, then the multipliers (in units of largest), then the slack of row 1. basic lists the basic variable of
	// each position: thetaVar, a column, or slackVar+cut.
	basic   []int
	inverse [][]float64 // inverse[position][row]
	x       []float64   // by position
	y       []float64   // by row: dual values, the weight of each cut's layout in the best mixture from row heads on
	charge  []float64   // by column
	alphas  []float64   // scratch, by threshold
	costs   []float64
	inBasis []bool // by column
	idle    []int  // by cut: solves since its slack was last out of the basis
}

const (
	thetaVar = -1
	slackVar = 1 << 30
	heads    = 2 // rows before those of the cuts
	eps      = 1e-9
	// tiny is the mean charge of a column, in planks.
	tiny = 1e-6
	// patience is how many solves a cut may be slack before it is dropped.
	patience = 3
	// largest is the sum that multipliers may reach, in planks.
	largest = 4.0
)

// newMaster starts from one cut, at the column of each head row that pays it most, which is optimal for it.
func newMaster(thresholds, sides, stride int, first *cut) *master {
	columns := thresholds + sides + 1
	m := &master{
		thresholds: thresholds, sides: sides, stride: stride, cuts: []*cut{first}, idle: []int{0},
		alphas: make([]float64, thresholds), costs: make([]float64, thresholds), inBasis: make([]bool, columns),
		charge: make([]float64, columns),
	}
	rng := rand.New(rand.NewPCG(1, uint64(columns)))
	for v := range m.charge {
		m.charge[v] = tiny * (0.5 + rng.Float64())
	}
	t, s := 0, thresholds
	ht, hs := math.Inf(-1), math.Inf(-1)
	for v := range columns {
		h := m.coefficient(first, v) - m.charge[v]
		if v < thresholds && h > ht && m.inUse(v) {
			t, ht = v, h
		}
		if v >= thresholds && h > hs {
			s, hs = v, h
		}
	}
	m.basic = []int{t, s, thetaVar}
	m.inBasis[t], m.inBasis[s] = true, true
	m.y = []float64{ht, hs, 1}
	ht, hs = m.coefficient(first, t), m.coefficient(first, s)
	m.inverse = [][]float64{{1, 0, 0}, {0, 1, 0}, {ht, hs, 1}}
	m.x = []float64{1, 1, first.a + ht + hs}
	return m
}

// inUse reports whether threshold t has a column.
func (m *master) inUse(t int) bool { return (t+1)%m.stride == 0 || t == m.thresholds-1 }

// again is the program over the same cuts with the columns of another stride.
func (m *master) again(stride int) *master {
	n := newMaster(m.thresholds, m.sides, stride, m.cuts[0])
	for _, c := range m.cuts[1:] {
		n.add(c)
	}
	return n
}

// last returns the cut added last.
func (m *master) last() *cut { return m.cuts[len(m.cuts)-1] }

// coefficient is what one unit of column v adds to the cost of the cut's layout.
func (m *master) coefficient(c *cut, v int) float64 {
	switch {
	case v < m.thresholds:
		return c.h(v)
	case v < m.thresholds+m.sides:
		return largest * c.excess[v-m.thresholds]
	}
	return 0
}

// headOf returns the head row of column v.
func (m *master) headOf(v int) int {
	if v < m.thresholds {
		return 0
	}
	return 1
}

// add appends a cut with its slack basic; solve then restores x >= 0.
func (m *master) add(c *cut) {
	n := len(m.basic)
	row := make([]float64, n+1, n+16)
	x := c.a
	for p, v := range m.basic {
		h := 0.0
		switch {
		case v == thetaVar:
			h = 1
		case v < slackVar:
			h = -m.coefficient(c, v)
		}
		if h == 0 {
			continue
		}
		x -= float64(h * m.x[p])
		for q, b := range m.inverse[p] {
			row[q] -= float64(h * b)
		}
	}
	row[n] = 1
	for p := range m.inverse {
		m.inverse[p] = append(m.inverse[p], 0)
	}
	m.inverse = append(m.inverse, row)
	m.x = append(m.x, x)
	m.y = append(m.y, 0)
	m.basic = append(m.basic, slackVar+len(m.cuts))
	m.cuts = append(m.cuts, c)
	m.idle = append(m.idle, 0)
}

// solve restores optimality by dual simplex pivots and reports whether it got there within a pivot limit.
func (m *master) solve() bool {
	for range 50 + 10*len(m.basic) {
		leave := m.leaving()
		if leave < 0 {
			return true
		}
		if !m.pivot(leave) {
			return false
		}
	}
	return false
}

// leaving returns the position whose variable is farthest below zero for the length of its row, or -1 when none is.
func (m *master) leaving() int {
	leave, worst := -1, 0.0
	for p, v := range m.basic {
		if v == thetaVar || m.x[p] >= -eps {
			continue
		}
		length := 0.0
		for _, b := range m.inverse[p] {
			length += float64(b * b)
		}
		if far := m.x[p] * m.x[p] / length; far > worst {
			leave, worst = p, far
		}
	}
	return leave
}

// pivot drives the basic variable at position leave to zero. The entering column has the least ratio of reduced cost to
// pivot element; ties go to the larger pivot.
func (m *master) pivot(leave int) bool {
	r, y := m.inverse[leave], m.y
	enter, ratio, size := -2, math.Inf(1), 0.0
	try := func(v int, alpha, cost float64) {
		if alpha >= -eps {
			return
		}
		q := max(cost, 0) / -alpha
		if q < ratio-1e-12 || q < ratio+1e-12 && -alpha > size {
			enter, ratio, size = v, q, -alpha
		}
	}
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
			try(t, alpha, cost+m.charge[t])
		}
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
		try(v, alpha, cost+m.charge[v])
	}
	for i, basic := range m.slackBasic() {
		if !basic {
			try(slackVar+i, r[i+heads], y[i+heads])
		}
	}
	if enter == -2 {
		return false
	}
	for q, b := range r {
		m.y[q] += float64(ratio * b)
	}
	m.replace(leave, enter)
	return true
}

// slackBasic reports for each cut whether its slack is basic.
func (m *master) slackBasic() []bool {
	basic := make([]bool, len(m.cuts))
	for _, v := range m.basic {
		if v >= slackVar {
			basic[v-slackVar] = true
		}
	}
	return basic
}

// replace swaps the variable enter into the basis at position leave and updates the inverse.
func (m *master) replace(leave, enter int) {
	n := len(m.basic)
	col := make([]float64, n)
	if enter >= slackVar {
		i := enter - slackVar + heads
		for p := range col {
			col[p] = m.inverse[p][i]
		}
	} else {
		h := make([]float64, len(m.cuts))
		for i, c := range m.cuts {
			h[i] = m.coefficient(c, enter)
		}
		head := m.headOf(enter)
		for p := range col {
			sum := m.inverse[p][head]
			for i, b := range m.inverse[p][heads:] {
				sum -= float64(b * h[i])
			}
			col[p] = sum
		}
		m.inBasis[enter] = true
	}
	pivotRow := m.inverse[leave]
	inv := 1 / col[leave]
	for q := range pivotRow {
		pivotRow[q] *= inv
	}
	m.x[leave] *= inv
	for p := range m.inverse {
		if p == leave || col[p] == 0 {
			continue
		}
		f := col[p]
		row := m.inverse[p][:len(pivotRow)]
		for q, b := range pivotRow {
			row[q] -= float64(f * b)
		}
		m.x[p] -= float64(f * m.x[leave])
	}
	if v := m.basic[leave]; v < slackVar {
		m.inBasis[v] = false
	}
	m.basic[leave] = enter
}

// drop removes cuts whose slack has been basic for several solves.
func (m *master) drop() {
	for p := len(m.basic) - 1; p >= 0; p-- {
		v := m.basic[p]
		if v < slackVar {
			continue
		}
		i := v - slackVar
		m.idle[i]++
		if m.idle[i] >= patience && m.x[p] >= 1e-7 {
			m.removeRow(p, i)
		}
	}
	for i, basic := range m.slackBasic() {
		if !basic {
			m.idle[i] = 0
		}
	}
}

// removeRow deletes cut i, whose slack is basic at position p: its column of the basis is a unit vector, so the rest of
// the inverse stays as it is.
func (m *master) removeRow(p, i int) {
	m.basic = append(m.basic[:p], m.basic[p+1:]...)
	m.x = append(m.x[:p], m.x[p+1:]...)
	m.inverse = append(m.inverse[:p], m.inverse[p+1:]...)
	for q := range m.inverse {
		row := m.inverse[q]
		m.inverse[q] = append(row[:i+heads], row[i+heads+1:]...)
	}
	m.y = append(m.y[:i+heads], m.y[i+heads+1:]...)
	m.cuts = append(m.cuts[:i], m.cuts[i+1:]...)
	m.idle = append(m.idle[:i], m.idle[i+1:]...)
	for q, v := range m.basic {
		if v > slackVar+i {
			m.basic[q]--
		}
	}
}

// read writes the weights and multipliers of the optimum to w and returns theta.
func (m *master) read(w []float64) float64 {
	clear(w)
	theta := 0.0
	for p, v := range m.basic {
		switch {
		case v == thetaVar:
			theta = m.x[p]
		case v < m.thresholds:
			w[v] = max(m.x[p], 0)
		case v < m.thresholds+m.sides:
			w[v] = largest * max(m.x[p], 0)
		}
	}
	return theta
}
