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
	e       *engine
	n       *node
	spare   []int64 // by stick
	program *simplex.Program
	columns []pattern // column first+i of the program
	seen    map[string]bool
	first   int     // columns before the patterns: what is cut too often
	wanted  int     // kinds with a row
	rows    []int   // by kind: its row, or -1 where none is wanted
	up, low []int   // by stick: its row, or -1
	costRow int     // or -1
	dearest int64   // largest value
	costly  int64   // largest cost
	scale   float64 // what one unit of the program is in a leaf's whole numbers
	largest int64   // that a worth may be
	center  []float64
	bound   float64 // of the center, in values
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
	m := &master{e: e, n: n, spare: spare, seen: map[string]bool{}, costRow: -1, bound: math.Inf(-1)}
	var rhs, logicals []float64
	pieces := 0
	for _, d := range n.demand {
		if pieces += d; d == 0 {
			m.rows = append(m.rows, -1)
			continue
		}
		m.rows = append(m.rows, len(rhs))
		rhs, logicals = append(rhs, float64(d)), append(logicals, missing)
	}
	m.first, m.wanted = len(rhs), len(rhs)
	for k, s := range e.sticks {
		m.dearest, m.costly = max(m.dearest, e.value(k)), max(m.costly, s.cost)
		m.up, m.low = append(m.up, -1), append(m.low, -1)
		if n.most[k] >= 0 && n.most[k] < pieces {
			m.up[k] = len(rhs)
			rhs, logicals = append(rhs, float64(n.most[k])), append(logicals, 0)
		}
		if n.least[k] > 0 {
			m.low[k] = len(rhs)
			rhs, logicals = append(rhs, float64(n.least[k])), append(logicals, missing)
		}
	}
	m.dearest = max(m.dearest, 1)
	if e.byCount && m.costly > 0 {
		m.costRow = len(rhs)
		rhs, logicals = append(rhs, float64(e.costMost)/float64(m.costly)), append(logicals, 0)
	}
	m.program = simplex.NewProgram(rhs, logicals)
	for row := range m.first {
		m.program.Add(0, []simplex.Entry{{Row: row, By: -1}})
	}
	for _, row := range m.low {
		if row >= 0 {
			m.program.Add(0, []simplex.Entry{{Row: row, By: -1}})
			m.first++
		}
	}
	m.largest = (1 << 58) / int64(max(pieces, 1))
	m.scale = float64(min(1<<40, m.largest/missing))
	if !e.byCount {
		m.scale = math.Max(1, math.Floor(m.scale/float64(m.dearest))) * float64(m.dearest)
	}
	return m
}

// add makes a column of a pattern unless there is one.
func (m *master) add(p pattern) {
	key := make([]byte, 0, 4+8*len(p.takes))
	put := func(x int) { key = append(key, byte(x), byte(x>>8), byte(x>>16)) }
	put(p.stick)
	for _, t := range p.takes {
		put(t.kind)
		put(t.count)
	}
	if m.seen[string(key)] {
		return
	}
	m.seen[string(key)] = true
	m.e.patterns++
	m.columns = append(m.columns, p)
	m.program.Add(float64(m.e.value(p.stick))/float64(m.dearest), m.entries(p))
}

func (m *master) entries(p pattern) []simplex.Entry {
	out := make([]simplex.Entry, 0, len(p.takes)+3)
	for _, t := range p.takes {
		out = append(out, simplex.Entry{Row: m.rows[t.kind], By: float64(t.count)})
	}
	for _, row := range []int{m.up[p.stick], m.low[p.stick]} {
		if row >= 0 {
			out = append(out, simplex.Entry{Row: row, By: 1})
		}
	}
	if m.costRow >= 0 && m.e.sticks[p.stick].cost > 0 {
		out = append(out, simplex.Entry{Row: m.costRow, By: float64(m.e.sticks[p.stick].cost) / float64(m.costly)})
	}
	return out
}

// offer adds a pattern if it is one of the node and wastes no more than it may.
func (m *master) offer(p pattern) {
	if len(p.takes) > 0 && m.usable(p.stick) && m.n.allows(p.takes) &&
		m.e.sticks[p.stick].capacity-m.e.fill(m.n.sizes, p.takes) <= m.spare[p.stick] {
		m.add(p)
	}
}

func (m *master) usable(k int) bool { return m.spare[k] >= 0 && m.n.most[k] != 0 }

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
		trial := slices.Clone(m.program.Y)
		smooth := m.center != nil
		if smooth {
			for i, y := range trial {
				trial[i] = float64(stay*m.center[i]) + float64((1-stay)*y)
			}
		}
		leaf, added := m.try(trial, target)
		if leaf == nil && added == 0 && smooth {
			leaf, added = m.try(slices.Clone(m.program.Y), target)
		}
		switch {
		case leaf != nil:
			return refuted, leaf
		case added == 0:
			return stuck, nil
		}
	}
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

// release lets go of the program, which is large, where only the node is still of use.
func (m *master) release() { m.program, m.columns, m.seen = nil, nil, nil }

// within reports whether the program's optimum is at most the target, to within rounding.
func (m *master) within(target int64) bool {
	return m.program.Bound() <= float64(float64(target)/float64(m.dearest)*(1+1e-9))+1e-7
}

// try prices at dual values. It adds the patterns that the program would take and returns a leaf where they refute the
// target.
func (m *master) try(duals []float64, target int64) (leaf *stock.Node, added int) {
	l := m.round(duals)
	most := m.priceAll(l, &added)
	bound := l.settle(m, most, target)
	if bound > m.bound {
		m.bound, m.center = bound, duals
	}
	if l.refutes(m, target) {
		return l.node(), added
	}
	return nil, added
}

// priceAll prices on every stick and returns the most that a pattern of each may be worth.
func (m *master) priceAll(l *leaf, added *int) []int64 {
	most := make([]int64, len(m.e.sticks))
	var usable []int
	widest := int64(0)
	for k, s := range m.e.sticks {
		if m.usable(k) {
			usable = append(usable, k)
			widest = max(widest, s.capacity)
		}
	}
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
		found := m.e.price.patterns(s.capacity, l.limit(m, k), len(usable) > 6)
		most[k] = found.most
		for _, takes := range found.patterns {
			p := pattern{k, takes}
			if m.program.Reduced(float64(m.e.value(k))/float64(m.dearest), m.entries(p)) < -1e-7 {
				m.add(p)
				*added++
			}
		}
	}
	return most
}

// A leaf is a leaf of the certificate in the making.
type leaf struct {
	values      []int64
	cost, count int64
	sticks      []int64
}

// round takes whole numbers for dual values.
func (m *master) round(duals []float64) *leaf {
	l := &leaf{values: make([]int64, len(m.n.sizes)), sticks: make([]int64, len(m.e.sticks))}
	for i, row := range m.rows {
		if row >= 0 {
			// At least 1, so that the pricer knows patterns from none.
			l.values[i] = min(int64(math.Max(0, duals[row])*m.scale)+1, m.largest)
		}
	}
	for k := range l.sticks {
		if row := m.up[k]; row >= 0 {
			l.sticks[k] += int64(math.Ceil(math.Max(0, -duals[row]) * m.scale))
		}
		if row := m.low[k]; row >= 0 {
			l.sticks[k] -= int64(math.Max(0, duals[row]) * m.scale)
		}
	}
	if m.e.byCount {
		l.count = int64(m.scale)
		if m.costRow >= 0 {
			l.cost = int64(math.Round(math.Max(0, -duals[m.costRow]) * m.scale / float64(m.costly)))
		}
	} else {
		l.cost = int64(m.scale) / m.dearest
	}
	return l
}

// limit is what a pattern on a stick of kind k may be worth.
func (l *leaf) limit(m *master, k int) int64 {
	return l.cost*m.e.sticks[k].cost + l.count + l.sticks[k]
}

// settle raises the multipliers until no pattern is worth more than its limit, and returns the bound they give.
func (l *leaf) settle(m *master, most []int64, target int64) float64 {
	for k, s := range m.e.sticks {
		over := most[k] - l.limit(m, k)
		if !m.usable(k) || over <= 0 {
			continue
		}
		switch {
		case m.e.byCount:
			l.count += over
		case s.cost == 0:
			l.sticks[k] += over
		default:
			l.cost += (over + s.cost - 1) / s.cost
		}
	}
	worth, rest := m.sums(l)
	x := worth.minus(rest).float()
	if m.e.byCount {
		return x / float64(l.count)
	}
	return x / float64(max(l.cost, 1))
}

// sums returns what all pieces are worth and what the sticks allow apart from the aim's own multiplier.
func (m *master) sums(l *leaf) (worth, rest wide) {
	sum := int64(0)
	for i, x := range l.values {
		sum += x * int64(m.n.demand[i]) // below 2^58
	}
	for k, x := range l.sticks {
		if x > 0 {
			rest = rest.plus(times(x, int64(m.n.most[k])))
		} else if x < 0 {
			rest = rest.plus(times(x, int64(m.n.least[k])))
		}
	}
	if m.e.byCount {
		rest = rest.plus(times(l.cost, m.e.costMost))
	}
	return times(sum, 1), rest
}

// refutes reports whether the pieces are worth more than the sticks of a plan within the target.
func (l *leaf) refutes(m *master, target int64) bool {
	worth, rest := m.sums(l)
	if m.e.byCount {
		rest = rest.plus(times(l.count, target))
	} else {
		rest = rest.plus(times(l.cost, target))
	}
	return rest.less(worth)
}

// node writes the leaf as the certificate has it.
func (l *leaf) node() *stock.Node {
	trim := func(list []int64) []int64 {
		for len(list) > 0 && list[len(list)-1] == 0 {
			list = list[:len(list)-1]
		}
		return list
	}
	return &stock.Node{Values: trim(l.values), Cost: l.cost, Count: l.count, Sticks: trim(l.sticks)}
}

// promising lists the patterns that a packing within the target may use, by their reduced cost and the gap.
func (m *master) promising(target int64) []pattern {
	gap := float64(target)/float64(m.dearest) - m.program.Bound()
	var out []pattern
	for i, p := range m.columns {
		if m.program.ReducedCost(m.first+i) <= gap+1e-6 {
			out = append(out, p)
		}
	}
	return out
}

// solution returns the columns in use and how much of each.
func (m *master) solution() (patterns []pattern, x []float64) {
	for q, v := range m.program.Vars {
		if v >= m.first && v-m.first < len(m.columns) && m.program.X[q] > 1e-5 {
			patterns, x = append(patterns, m.columns[v-m.first]), append(x, m.program.X[q])
		}
	}
	return patterns, x
}

// clone is a master of its own over the same patterns, for a dive.
func (m *master) clone() *master {
	c := *m
	c.n = m.n.clone()
	c.spare = slices.Clone(m.spare)
	c.program = m.program.Clone()
	c.columns = slices.Clone(m.columns)
	c.seen = make(map[string]bool, len(m.seen))
	for k := range m.seen {
		c.seen[k] = true
	}
	return &c
}
