package cut

import (
	"math"
	"slices"

	"plank.example/cutopt/internal/simplex"
	"plank.example/cutopt/stock"
)

// A master is the linear program over the patterns seen so far,
//
//	min sum_p value(p) x_p  s.t.  each kind is cut at least as often as wanted, sticks within least and most,
//	                              with few sticks as the aim also cost <= costMost,
//
// after Gilmore and Gomory (Oper. Res. 9, 1961). Values are in units of the dearest stick's.
type master struct {
	*frame
	program simplex.Program
	columns []pattern // column first+i of the program
	seen    patternSet
	first   int       // columns before the patterns: what is cut too often
	center  []float64 // the best dual values so far, where there are any
	bound   float64   // of the center, in values

	trial []float64 // scratch
	most  []int64
	able  []int
}

const (
	// missing is what a piece costs that no pattern reaches, in units of the program.
	missing = 1000
	// stay is the weight of the best dual values so far in the next trial (P. Wentges, Int. Trans. Oper. Res. 4, 1997).
	stay = 0.5
	// pivotsMost bounds one solve of the program.
	pivotsMost = 20_000
	// chunkSteps is the work between two looks at the meter, some milliseconds.
	chunkSteps = 1 << 22
)

func newMaster(e *engine, n *node, spare []int64) *master {
	m := e.work.master()
	m.set(e, n, spare)
	m.columns, m.center, m.first, m.bound = m.columns[:0], m.center[:0], m.wanted, math.Inf(-1)
	m.seen.reset()
	m.program.Reset(m.rhs, m.logicals)
	surplus := func(row int) {
		m.column = append(m.column[:0], simplex.Entry{Row: row, By: -1})
		m.program.Add(0, m.column)
	}
	for row := range m.first {
		surplus(row)
	}
	for _, row := range m.low {
		if row >= 0 {
			surplus(row)
			m.first++
		}
	}
	return m
}

// release lets another node have the memory.
func (m *master) release() { m.e.work.masters = append(m.e.work.masters, m) }

// add makes a column of a pattern unless there is one.
func (m *master) add(p pattern) {
	if !m.seen.add(m.columns, &p) {
		return
	}
	m.e.patterns++
	m.columns = append(m.columns, p)
	m.program.Add(m.value(p.stick), m.entries(p))
}

// offer adds a pattern if it is one of the node and wastes no more than it may.
func (m *master) offer(p pattern) {
	if len(p.takes) > 0 && m.usable(p.stick) && m.n.allows(p.takes) &&
		m.e.sticks[p.stick].capacity-m.e.fill(m.n.sizes, p.takes) <= m.spare[p.stick] {
		m.add(p)
	}
}

// An outcome says how raising the bound of a node ended.
type outcome uint8

const (
	refuted outcome = iota // no plan of the node is within the target
	reached                // the program is within the target
	stuck                  // the program is not, but the bound in whole numbers does not show it; or pivots ran out
	spent                  // the effort is spent
)

// raise generates patterns until the program is within the target or the bound is above it. Where the node is refuted
// it returns the leaf that shows it.
func (m *master) raise(target int64) (outcome, *stock.Node) {
	for {
		if !m.solve() {
			if m.e.meter.out() {
				return spent, nil
			}
			return stuck, nil
		}
		if m.within(target) {
			return reached, nil
		}
		if m.e.meter.out() {
			return spent, nil
		}
		trial := append(m.trial[:0], m.program.Y...)
		m.trial = trial
		smooth := len(m.center) > 0
		if smooth {
			for i, y := range trial {
				trial[i] = float64(stay*m.center[i]) + float64((1-stay)*y)
			}
		}
		leaf, added := m.try(trial, target)
		if leaf == nil && added == 0 && smooth {
			leaf, added = m.try(m.program.Y, target)
		}
		switch {
		case leaf != nil:
			return refuted, leaf
		case added == 0:
			return stuck, nil
		}
	}
}

// finish generates patterns until no more would better the program, and returns the leaf of its dual values.
func (m *master) finish() (*leaf, bool) {
	for m.solve() && !m.e.meter.out() {
		l, added := m.priced(m.program.Y)
		if added == 0 {
			return l.clone(), true
		}
	}
	return nil, false
}

// solve solves the program, and looks at the meter between pivots.
func (m *master) solve() bool {
	rows := int64(len(m.program.Y))
	each := rows*rows + int64(8*len(m.columns)) + 1
	chunk := int(max(chunkSteps/each, 1))
	for range pivotsMost/chunk + 1 {
		before := m.program.Pivots
		ok := m.program.Solve(chunk)
		done := m.program.Pivots - before
		m.e.meter.spend(int64(done) * each)
		if ok || done < chunk || m.e.meter.out() {
			return ok
		}
	}
	return false
}

// within reports whether the program's optimum is at most the target, to within rounding.
func (m *master) within(target int64) bool {
	return m.program.Bound() <= float64(float64(target)/float64(m.dearest)*(1+1e-9))+1e-7
}

// try prices at dual values. It adds the patterns that the program would take and returns a leaf where they refute the
// target.
func (m *master) try(duals []float64, target int64) (*stock.Node, int) {
	l, added := m.priced(duals)
	if l.slack(m.frame, target).negative() {
		return l.node(), added
	}
	return nil, added
}

// priced makes a leaf of dual values that holds, adds the patterns that the program would take, and keeps the dual
// values where their bound is the best so far.
func (m *master) priced(duals []float64) (l *leaf, added int) {
	l = m.round(duals)
	if bound := l.settle(m.frame, m.priceAll(l, &added)); bound > m.bound {
		m.bound, m.center = bound, append(m.center[:0], duals...)
	}
	return l, added
}

// priceAll prices on every stick and returns the most that a pattern of each may be worth.
func (m *master) priceAll(l *leaf, added *int) []int64 {
	most, usable := zeros(m.most, len(m.e.sticks)), m.able[:0]
	widest := int64(0)
	for k, s := range m.e.sticks {
		if m.usable(k) {
			usable = append(usable, k)
			widest = max(widest, s.capacity)
		}
	}
	m.most, m.able = most, usable
	own := len(usable) <= 3 // tables of their own, with what may be wasted
	loaded := false
	for _, k := range usable {
		s := m.e.sticks[k]
		if own && m.spare[k] < s.capacity {
			m.e.price.load(m.n.sizes, m.n.demand, m.n.apart, l.values, s.capacity, m.spare[k])
			loaded = false
		} else if !loaded {
			m.e.price.load(m.n.sizes, m.n.demand, m.n.apart, l.values, widest, widest)
			loaded = true
		}
		found := m.e.price.patterns(s.capacity, l.limit(m.frame, k), len(usable) > 6)
		most[k] = found.most
		for _, takes := range found.patterns {
			p := pattern{k, takes}
			if m.program.Reduced(m.value(k), m.entries(p)) < -1e-7 {
				m.add(p)
				*added++
			}
		}
	}
	return most
}

// promising lists the patterns that a packing within the target may use, by their reduced cost and the gap.
func (m *master) promising(target int64) []pattern {
	gap := float64(target)/float64(m.dearest) - m.program.Bound()
	out := make([]pattern, 0, len(m.columns))
	for i, p := range m.columns {
		if m.program.ReducedCost(m.first+i) <= gap+1e-6 {
			out = append(out, p)
		}
	}
	return out
}

// solution returns the columns in use and how much of each.
func (m *master) solution() (patterns []pattern, x []float64) {
	patterns, x = make([]pattern, 0, len(m.rhs)), make([]float64, 0, len(m.rhs))
	for q, v := range m.program.Vars {
		if v >= m.first && v-m.first < len(m.columns) && m.program.X[q] > 1e-5 {
			patterns, x = append(patterns, m.columns[v-m.first]), append(x, m.program.X[q])
		}
	}
	return patterns, x
}

// clone is a master of its own over the same patterns, for a dive.
func (m *master) clone() *master {
	c := m.e.work.master()
	c.frame.copy(m.frame)
	c.n, c.spare = m.n.clone(), slices.Clone(m.spare)
	c.program.Set(&m.program)
	c.columns, c.center = append(c.columns[:0], m.columns...), append(c.center[:0], m.center...)
	c.seen.slots = append(c.seen.slots[:0], m.seen.slots...)
	c.first, c.bound = m.first, m.bound
	return c
}
