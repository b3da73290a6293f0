package cut

import (
	"math"
	"slices"

	"plank.example/cutopt/stock"
)

// A tree looks for a packing within a target, or refutes that there is one, by splits on which pieces are on one stick
// (after D. M. Ryan and B. A. Foster, 1981, for kinds of equal pieces) and on how many sticks of a kind are cut.
type tree struct {
	e        *engine
	run      *run
	nodes    int
	dives    uint64
	patience int64 // steps that a node and all below it get before its shortlist is made
	until    int64 // steps at which they are spent
}

const (
	deepest = 400 // levels of a tree
	// integral is how near to a whole number a figure counts as one.
	integral = 1e-4
	// patienceMost is how many steps a node gets at most before its shortlist is made, patienceShare which share of what
	// is left of the effort.
	patienceMost  = 6e8
	patienceShare = 6
)

// A visit returns the proof that no packing of a node is within the target; nil where one is or the effort is spent.
type visit func(n *node, from []pattern, depth int, settled bool) *stock.Node

// clear visits a node with few steps, and where these do not do by its shortlist. Where that does not do either the
// node is split, and each side visited so.
func (t *tree) clear(n *node, from []pattern, depth int, settled bool) *stock.Node {
	t.until = t.e.meter.steps + t.patience
	if proof := t.explore(n, from, depth, settled); proof != nil || t.over() {
		return proof
	}
	m := newMaster(t.e, n, t.e.spareWithin(n, t.run.spare))
	for _, p := range from {
		m.offer(p)
	}
	l, ok := m.finish()
	if !ok || depth >= deepest {
		m.release()
		return nil
	}
	if proof := t.shortlist(m, l); proof != nil || t.over() {
		m.release()
		return proof
	}
	t.until = t.e.meter.steps + 8*t.patience
	if proof := t.explore(n, from, depth, settled); proof != nil || t.over() {
		m.release()
		return proof
	}
	return t.branch(m, depth, t.clear)
}

// over reports whether there is nothing left to look for, or the effort is spent.
func (t *tree) over() bool { return t.run.closed() || t.e.meter.out() }

// explore visits a node and all below it as long as the steps last. The target falls as packings are found. Settled
// says that the node was split on a number of sticks.
func (t *tree) explore(n *node, from []pattern, depth int, settled bool) *stock.Node {
	t.nodes++
	m := newMaster(t.e, n, t.e.spareWithin(n, t.run.spare))
	for _, p := range from {
		m.offer(p)
	}
	state, leaf := m.raise(t.run.target())
	if state == refuted || state == spent || depth >= deepest || t.e.meter.steps > t.until {
		m.release()
		return leaf
	}
	patterns, x := m.solution()
	kind, _, _ := t.fractionalStick(m, patterns, x)
	if t.nodes&(t.nodes-1) == 0 || t.nodes%16 == 0 || settled && kind < 0 {
		t.dives++
		t.run.offer(m.dive(t.run.target(), t.run.target(), t.dives))
	}
	if t.over() || t.whole(m, patterns, x) && t.run.closed() {
		m.release()
		return nil
	}
	return t.branch(m, depth, t.explore)
}

// branch splits a node whose program is solved, and visits both sides. It releases the master.
func (t *tree) branch(m *master, depth int, v visit) *stock.Node {
	patterns, x := m.solution()
	if kind, count, more := t.fractionalStick(m, patterns, x); kind >= 0 {
		return t.branchSticks(m, kind, count, more, depth, v)
	}
	return t.branchPair(m, patterns, x, depth, v)
}

// shortlist refutes a node by a list of all patterns that a plan within the target can use, where it is short.
func (t *tree) shortlist(m *master, l *leaf) *stock.Node {
	s := newShortlist(m, l, t.run.target())
	if s == nil {
		return nil
	}
	proof := s.close()
	if proof == nil {
		return nil
	}
	n := l.node()
	n.Shortlist = proof
	return n
}

// whole offers the master's optimum where it is one in whole numbers.
func (t *tree) whole(m *master, patterns []pattern, x []float64) bool {
	var out packing
	demand := slices.Clone(m.n.demand)
	for i, p := range patterns {
		count := math.Round(x[i])
		if math.Abs(x[i]-count) > integral {
			return false
		}
		for range int(count) {
			b := trimmed(p, demand)
			for _, u := range b.takes {
				demand[u.kind] -= u.count
			}
			if len(b.takes) > 0 {
				out = append(out, batch{pattern{p.stick, m.n.pieces(b.takes)}, 1})
			}
		}
	}
	if slices.ContainsFunc(demand, func(d int) bool { return d > 0 }) {
		return false
	}
	t.run.offer(out)
	return true
}

// branchSticks splits on whether at most count sticks of a kind are cut, and explores the side that the program is
// nearer to first.
func (t *tree) branchSticks(m *master, kind, count int, more bool, depth int, v visit) *stock.Node {
	out := &stock.Node{Split: &stock.Split{Kind: kind + 1, Most: count}}
	yes, no := m.n.clone(), m.n.clone()
	yes.most[kind], no.least[kind] = count, count+1
	columns := m.promising(t.run.target())
	m.release()
	explore := func(to **stock.Node, n *node) bool {
		*to = v(n, columns, depth+1, true)
		return *to != nil
	}
	if more && explore(&out.No, no) && explore(&out.Yes, yes) || !more && explore(&out.Yes, yes) && explore(&out.No,
		no) {
		return out
	}
	return nil
}

// branchPair splits on whether two kinds are on one stick.
func (t *tree) branchPair(m *master, patterns []pattern, x []float64, depth int, v visit) *stock.Node {
	a, b, ok := t.fractionalPair(m, patterns, x)
	if !ok {
		m.release()
		return nil
	}
	out := &stock.Node{Split: &stock.Split{Pair: [2]int{a, b}}}
	n := m.n
	columns := rewrite(m.promising(t.run.target()), a, b, len(n.sizes))
	m.release()
	if out.Yes = v(n.glued(a, b), columns, depth+1, false); out.Yes == nil {
		return nil
	}
	if out.No = v(n.parted(a, b), columns, depth+1, false); out.No == nil {
		return nil
	}
	return out
}

// fractionalStick returns the kind of stick whose number is nearest to a half, that number rounded down, and whether it
// is nearer to more; -1 where all are whole.
func (t *tree) fractionalStick(m *master, patterns []pattern, x []float64) (kind, count int, more bool) {
	if len(t.e.sticks) == 1 {
		return -1, 0, false
	}
	sums := make([]float64, len(t.e.sticks))
	for i, p := range patterns {
		sums[p.stick] += x[i]
	}
	kind = -1
	best := 0.01
	for k, sum := range sums {
		low := math.Floor(sum)
		if part := min(sum-low, low+1-sum); part > best && int(low) >= m.n.least[k] {
			kind, count, best, more = k, int(low), part, sum-low > 0.5
		}
	}
	return kind, count, more
}

// fractionalPair returns the pair of kinds that are together on a number of sticks far from whole, long ones before
// short; where all are whole, a pair that is together at all.
func (t *tree) fractionalPair(m *master, patterns []pattern, x []float64) (a, b int, ok bool) {
	n := len(m.n.sizes)
	together := make([]float64, n*n)
	for i, p := range patterns {
		for q, u := range p.takes {
			if u.count > 1 && m.n.demand[u.kind] > 1 {
				together[u.kind*n+u.kind] += x[i]
			}
			for _, w := range p.takes[q+1:] {
				together[u.kind*n+w.kind] += x[i]
			}
		}
	}
	best := 0.0
	for i := range n {
		for j := i; j < n; j++ {
			f := together[i*n+j]
			if f < integral || m.n.demand[i] == 0 || m.n.demand[j] == 0 {
				continue
			}
			part := f - math.Floor(f)
			score := (float64(part*(1-part)) + 1e-6) * float64(m.n.sizes[i]+m.n.sizes[j])
			if score > best {
				a, b, ok, best = i, j, true, score
			}
		}
	}
	return a, b, ok
}

// rewrite lists patterns for the children: those of the parent, and those with both kinds once with the pair glued and
// once without either.
func rewrite(columns []pattern, a, b, g int) []pattern {
	var out []pattern
	for _, p := range columns {
		out = append(out, p)
		counts := map[int]int{}
		for _, t := range p.takes {
			counts[t.kind] = t.count
		}
		if counts[a] == 0 || counts[b] == 0 || a == b && counts[a] < 2 {
			continue
		}
		without := func(kind, count int, glued bool) {
			q := pattern{stick: p.stick}
			for _, t := range p.takes {
				c := t.count
				if glued && (t.kind == a || t.kind == b) {
					if c--; a == b {
						c--
					}
				}
				if t.kind == kind {
					c = count
				}
				if c > 0 {
					q.takes = append(q.takes, take{t.kind, c})
				}
			}
			if glued {
				q.takes = append(q.takes, take{g, 1})
			}
			if len(q.takes) > 0 {
				out = append(out, q)
			}
		}
		without(-1, 0, true)
		if a == b {
			without(a, 1, false)
		} else {
			without(a, 0, false)
			without(b, 0, false)
		}
	}
	return out
}
