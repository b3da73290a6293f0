package cut

import (
	"math"
	"math/rand/v2"
	"sort"
)

// dive takes more and more patterns of the master's optimum into a packing, improving the program after each step for
// what is left, until all is cut: to a value of look where it can be, and at least to one of most; else the rest is
// filled greedily. It returns the packing in the kinds of the root, nil where the sticks do not do. Dives with
// different seeds differ.
func (m *master) dive(look, most int64, seed uint64) packing {
	e := m.e
	rng := rand.New(rand.NewPCG(seed, 7))
	d := m.clone()
	left := e.stockLeft()
	var out packing
	value := int64(0)
	for d.n.left() {
		if state, _ := d.raise(look - value); state != reached {
			if look == most || state == spent || !d.within(most-value) {
				break
			}
		}
		before := len(out)
		for _, b := range d.choose(rng) {
			if b.count = d.fix(b, &left); b.count > 0 {
				out = append(out, batch{pattern{b.stick, d.n.pieces(b.takes)}, b.count})
				value += int64(b.count) * e.value(b.stick)
			}
		}
		if len(out) == before {
			break
		}
		d = d.refresh(left)
	}
	n := d.n
	d.release()
	if !n.left() {
		return out
	}
	// What is left, in the kinds of the root.
	demand := make([]int, len(e.sizes))
	for i, count := range n.demand {
		if count == 0 {
			continue
		}
		for _, t := range n.pieces([]take{{i, count}}) {
			demand[t.kind] += t.count
		}
	}
	rest := e.fullest(demand, left)
	if rest == nil {
		return nil
	}
	return append(out, rest...)
}

// choose returns patterns of the optimum to take: all whole parts; where there are none, the largest parts.
func (m *master) choose(rng *rand.Rand) []batch {
	patterns, x := m.solution()
	var out []batch
	order := make([]int, len(x))
	rank := make([]float64, len(x))
	for i := range x {
		order[i], rank[i] = i, x[i]*(0.9+float64(0.2*rng.Float64()))
		if whole := int(math.Floor(x[i] + 1e-4)); whole > 0 {
			out = append(out, batch{trimmed(patterns[i], m.n.demand), whole})
		}
	}
	if len(out) > 0 || len(x) == 0 {
		return out
	}
	sort.SliceStable(order, func(a, b int) bool { return rank[order[a]] > rank[order[b]] })
	for i, k := range order {
		if i > 0 && (x[k] < 0.75 || i > len(order)/8) {
			break
		}
		out = append(out, batch{trimmed(patterns[k], m.n.demand), 1})
	}
	return out
}

// trimmed is a pattern with no more of each kind than is wanted.
func trimmed(p pattern, demand []int) pattern {
	takes := make([]take, 0, len(p.takes))
	for _, t := range p.takes {
		if c := min(t.count, demand[t.kind]); c > 0 {
			takes = append(takes, take{t.kind, c})
		}
	}
	return pattern{p.stick, takes}
}

// fix takes a batch out of what is wanted, as often as it is, and returns how often.
func (m *master) fix(b batch, left *stockLeft) int {
	n := b.count
	for _, t := range b.takes {
		n = min(n, m.n.demand[t.kind]/t.count)
	}
	if len(b.takes) == 0 {
		return 0
	}
	for ; n > 0 && !left.take(m.e, b.stick, n); n-- {
		continue
	}
	for _, t := range b.takes {
		m.n.demand[t.kind] -= n * t.count
	}
	m.n.least[b.stick] = max(m.n.least[b.stick]-n, 0)
	if m.n.most[b.stick] >= 0 {
		m.n.most[b.stick] = max(m.n.most[b.stick]-n, 0)
	}
	wasted := m.e.sticks[b.stick].capacity - m.e.fill(m.n.sizes, b.takes)
	for k := range m.spare {
		m.spare[k] = max(m.spare[k]-int64(n)*wasted, min(m.spare[k], 0))
	}
	return n
}

// refresh tells the program what is left. Where many kinds are done with it makes a smaller program, of the patterns
// that are within what is left.
func (m *master) refresh(left stockLeft) *master {
	wanted := 0
	for _, d := range m.n.demand {
		if d > 0 {
			wanted++
		}
	}
	if float64(wanted) < smaller*float64(m.wanted) {
		c := newMaster(m.e, m.n, m.spare)
		if c.costRow >= 0 {
			c.program.SetRHS(c.costRow, float64(max(left.cost, 0))/float64(c.costly))
		}
		for _, p := range m.columns {
			c.offer(p)
		}
		m.release()
		return c
	}
	for i, row := range m.rows {
		if row >= 0 {
			m.program.SetRHS(row, float64(m.n.demand[i]))
		}
	}
	for k := range m.e.sticks {
		if row := m.up[k]; row >= 0 {
			m.program.SetRHS(row, float64(m.n.most[k]))
		}
		if row := m.low[k]; row >= 0 {
			m.program.SetRHS(row, float64(m.n.least[k]))
		}
	}
	if m.costRow >= 0 {
		m.program.SetRHS(m.costRow, float64(max(left.cost, 0))/float64(m.costly))
	}
	m.bound = math.Inf(-1)
	return m
}

// smaller is the share of the kinds in a program below which a dive makes a smaller one.
const smaller = 0.85
