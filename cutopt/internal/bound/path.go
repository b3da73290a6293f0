package bound

import (
	"math/rand/v2"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// infinite marks a choice that no layout of the rows below can go with.
const infinite int64 = 1 << 61

// A piece is a stretch of starters lo, lo+grid, … hi of one run at one cost.
type piece struct {
	lo, hi measure.Length
	cost   int64
	joints int
}

// A choice is the cost of a run by starter, with the best of all runs below it in the forest added in.
type choice struct {
	pieces []piece // ascending
	single int64   // laid in one piece, or infinite
}

// A span is a stretch of starters, on the grid or not, that a message gives one value.
type span struct {
	lo, hi measure.Length
	value  int64
}

// evaluator finds the cheapest layout under given prices by dynamic programming over a forest of ties.
//
// Costs are piecewise constant in the starter, so a run is a short list of pieces instead of one entry a position: a
// message to the next run takes the cheapest piece for every starter but the few that the stagger window round that
// piece forbids, then the next cheapest for those, and so on. One evaluation takes O(runs * pieces) where pieces is
// about twice the number of steps of the price function, whatever the grid.
type evaluator struct {
	table   *starters.Table
	order   []int            // runs, each before its parent
	parent  []int            // by run, -1 at a root
	delta   []measure.Length // From of the parent less From of the run
	dropped [][2]int         // ties that close a cycle and are left out: fewer rules, so still a bound
	narrow  bool             // two stagger windows may touch: pieces must be single starters

	fixed   rows.Layout // by run: the starter it is held at, or -1; nil for none
	base    []choice    // by class, at the current prices
	choices []choice    // by run
	arena   []piece
	spans   []span
	free    []interval
	spare   []interval
	rng     *rand.PCG
	stuck   int     // the run that evaluate found no starter for
	heap    []int32 // pieces by cost, of the message being made
}

// blocked explains why evaluate failed.
func (e *evaluator) blocked() *Infeasible {
	cl := e.table.Of(e.stuck)
	return &Infeasible{Run: e.stuck, Stagger: cl.Single || len(cl.Segments) > 0 || cl.Cleared}
}

type interval struct{ lo, hi measure.Length }

// newEvaluator prepares the forest; seed is that of the draws among equally cheap layouts. Ties are taken in order; one that would close a cycle is dropped.
func newEvaluator(t *starters.Table, seed uint64) *evaluator {
	in := t.Instance
	n := len(in.Runs)
	e := &evaluator{
		table: t, parent: make([]int, n), delta: make([]measure.Length, n),
		base: make([]choice, len(t.Classes)), choices: make([]choice, n),
		narrow: in.Plank-2*in.Stagger < in.Grid, rng: rand.NewPCG(seed, 2),
	}
	kept := make([][]starters.Tie, n)
	root := make([]int, n)
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for _, p := range in.Touch {
		a, b := find(p[0]), find(p[1])
		if a == b {
			e.dropped = append(e.dropped, p)
			continue
		}
		root[a] = b
		d := in.Runs[p[1]].From - in.Runs[p[0]].From
		kept[p[0]] = append(kept[p[0]], starters.Tie{Run: p[1], Delta: d})
		kept[p[1]] = append(kept[p[1]], starters.Tie{Run: p[0], Delta: -d})
	}
	e.arrange(kept)
	return e
}

// arrange roots every tree at its highest run and lists runs before their parents.
func (e *evaluator) arrange(kept [][]starters.Tie) {
	n := len(kept)
	done := make([]bool, n)
	e.order = make([]int, 0, n)
	for r := n - 1; r >= 0; r-- {
		if done[r] {
			continue
		}
		done[r], e.parent[r] = true, -1
		e.order = append(e.order, r)
		for k := len(e.order) - 1; k < len(e.order); k++ {
			i := e.order[k]
			for _, tie := range kept[i] {
				if !done[tie.Run] {
					done[tie.Run] = true
					e.parent[tie.Run], e.delta[tie.Run] = i, -tie.Delta
					e.order = append(e.order, tie.Run)
				}
			}
		}
	}
	for i, j := 0, n-1; i < j; i, j = i+1, j-1 {
		e.order[i], e.order[j] = e.order[j], e.order[i]
	}
}

// price fills base with the cost of every starter at the given prices.
func (e *evaluator) price(p *prices) {
	for k := range e.base {
		e.base[k] = e.priceClass(&e.table.Classes[k], p, e.base[k].pieces[:0])
	}
}

func (e *evaluator) priceClass(cl *starters.Class, p *prices, out []piece) choice {
	in := e.table.Instance
	single := infinite
	if cl.Single {
		single = Den
		if cl.Length < in.Plank {
			single, _ = p.single(cl.Length, in.Kerf)
		}
	}
	for _, seg := range cl.Segments {
		// The room an ender leaves for a starter is L-kerf-e = s + shift.
		shift := in.Plank - in.Kerf - cl.Length + measure.Length(seg.Field)*in.Plank
		fixed := int64(seg.Field)*(Den+p.started) + p.started
		i, j := firstStep(p.starter.steps, seg.Lo), firstStep(p.ender.steps, seg.Lo+shift)
		for lo := seg.Lo; lo <= seg.Hi; {
			hi := seg.Hi
			if i < len(p.starter.steps) {
				hi = min(hi, before(p.starter.steps[i].At, in.Grid))
			}
			if j < len(p.ender.steps) {
				hi = min(hi, before(p.ender.steps[j].At-shift, in.Grid))
			}
			if e.narrow || seg.Lo == seg.Hi {
				hi = lo
			}
			out = append(out, piece{lo, hi, fixed + p.starter.before(i) + p.ender.before(j), seg.Joints()})
			lo = hi + in.Grid
			for i < len(p.starter.steps) && p.starter.steps[i].At <= lo {
				i++
			}
			for j < len(p.ender.steps) && p.ender.steps[j].At-shift <= lo {
				j++
			}
		}
	}
	return choice{out, single}
}

// before returns the curve's value just before step i.
func (c *curve) before(i int) int64 {
	if i == 0 {
		return c.start
	}
	return c.steps[i-1].Price
}

// firstStep returns the index of the first step after x.
func firstStep(steps []proof.Step, x measure.Length) int {
	i := 0
	for i < len(steps) && steps[i].At <= x {
		i++
	}
	return i
}

// before returns the last grid line before x.
func before(x, grid measure.Length) measure.Length { return (x - 1) / grid * grid }

// own is the cost of run i by itself: by class, or of its one choice where it is fixed.
func (e *evaluator) own(i int) choice {
	b := &e.base[e.table.ClassOf[i]]
	if e.fixed == nil || e.fixed[i] < 0 {
		return *b
	}
	s := e.fixed[i]
	if s == 0 {
		return choice{nil, b.single}
	}
	for _, p := range b.pieces {
		if p.lo <= s && s <= p.hi {
			return choice{[]piece{{s, s, p.cost, p.joints}}, infinite}
		}
	}
	return choice{nil, infinite}
}

// evaluate returns the cheapest layout under the prices and its cost in Den-ths, or false when no layout of the forest
// keeps the rules. The cost is a lower bound, in planks times Den, on every layout.
func (e *evaluator) evaluate(p *prices, layout rows.Layout) (int64, bool) {
	e.price(p)
	e.arena = e.arena[:0]
	for i := range e.choices {
		e.choices[i] = e.own(i)
	}
	total := p.constant
	for _, o := range e.table.Instance.Offcuts {
		total -= p.offcut(o, e.table.Instance)
	}
	for _, i := range e.order {
		best := e.choices[i].best()
		if best >= infinite {
			e.stuck = i
			return 0, false
		}
		if up := e.parent[i]; up >= 0 {
			e.send(i, up, e.delta[i], best)
		} else {
			total += best
		}
	}
	if layout != nil {
		e.trace(layout)
	}
	return total, true
}

func (c *choice) best() int64 {
	best := c.single
	for i := range c.pieces {
		best = min(best, c.pieces[i].cost)
	}
	return best
}

// send adds to run b's costs the cheapest compatible choice of run a, best being a's cheapest of all.
func (e *evaluator) send(a, b int, delta measure.Length, best int64) {
	from, to := &e.choices[a], &e.choices[b]
	start := len(e.arena)
	if to.single < infinite {
		to.single += best
	}
	for k := 0; k < len(to.pieces); {
		j := k + 1 // pieces k … j-1 have the same number of joints
		for j < len(to.pieces) && to.pieces[j].joints == to.pieces[k].joints {
			j++
		}
		e.message(from, delta, interval{to.pieces[k].lo, to.pieces[j-1].hi}, to.pieces[k].joints)
		e.merge(to.pieces[k:j])
		k = j
	}
	to.pieces = e.arena[start:len(e.arena):len(e.arena)]
}

// message lists in e.spans, for the starters within dom of a run with the given joints, the cheapest choice of run a
// that its stagger allows. delta is From of the receiving run less From of a.
func (e *evaluator) message(from *choice, delta measure.Length, dom interval, joints int) {
	e.spans = e.spans[:0]
	e.free = append(e.free[:0], dom)
	last, lastIndex := -infinite, -1
	for taken := 0; len(e.free) > 0; taken++ {
		if taken >= scans && len(from.pieces) > few {
			e.rest(from, last, lastIndex, delta, dom, joints)
			break
		}
		// the cheapest piece not yet taken
		k, cost := -1, infinite
		for i := range from.pieces {
			if c := from.pieces[i].cost; c < cost && (c > last || c == last && i > lastIndex) {
				k, cost = i, c
			}
		}
		if from.single < infinite && from.single <= cost {
			e.give(from.single)
			break
		}
		if k < 0 {
			break
		}
		last, lastIndex = cost, k
		e.assign(&from.pieces[k], delta, dom, joints)
	}
	sortSpans(e.spans)
}

// A message finds its first pieces by a scan each, and the rest too where there are few; else a heap is faster.
const scans, few = 3, 100

// rest goes on with the message from the piece after the one of the given cost and index.
func (e *evaluator) rest(from *choice, last int64, lastIndex int, delta measure.Length, dom interval, joints int) {
	e.heapUp(from.pieces, last, lastIndex)
	for len(e.free) > 0 {
		k, cost := e.pop(from.pieces)
		if from.single < infinite && from.single <= cost {
			e.give(from.single)
			return
		}
		if k < 0 {
			return
		}
		e.assign(&from.pieces[k], delta, dom, joints)
	}
}

// give gives every free starter one cost.
func (e *evaluator) give(cost int64) {
	for _, f := range e.free {
		e.spans = append(e.spans, span{f.lo, f.hi, cost})
	}
}

// heapUp makes a heap of the pieces that can be laid and come after one of the given cost and index.
func (e *evaluator) heapUp(pieces []piece, last int64, lastIndex int) {
	e.heap = e.heap[:0]
	for i := range pieces {
		if c := pieces[i].cost; c < infinite && (c > last || c == last && i > lastIndex) {
			e.heap = append(e.heap, int32(i))
		}
	}
	for i := len(e.heap)/2 - 1; i >= 0; i-- {
		e.sift(pieces, i)
	}
}

// pop takes the cheapest piece from the heap, the first of equal ones, and returns it and its cost, or -1.
func (e *evaluator) pop(pieces []piece) (k int, cost int64) {
	n := len(e.heap) - 1
	if n < 0 {
		return -1, infinite
	}
	k = int(e.heap[0])
	e.heap[0] = e.heap[n]
	e.heap = e.heap[:n]
	if n > 0 {
		e.sift(pieces, 0)
	}
	return k, pieces[k].cost
}

// sift moves entry i of the heap down to where none below it is cheaper.
func (e *evaluator) sift(pieces []piece, i int) {
	h := e.heap
	x := h[i]
	cost := pieces[x].cost
	for {
		c := 2*i + 1
		if c >= len(h) {
			break
		}
		at := pieces[h[c]].cost
		if c+1 < len(h) {
			if r := pieces[h[c+1]].cost; r < at || r == at && h[c+1] < h[c] {
				c, at = c+1, r
			}
		}
		if at > cost || at == cost && h[c] > x {
			break
		}
		h[i] = h[c]
		i = c
	}
	h[i] = x
}

// assign gives the cost of piece p to every free starter that some starter of p is compatible with. All of p is
// forbidden to t exactly when, for some whole m, hi-delta+mL-stagger < t < lo-delta+mL+stagger.
func (e *evaluator) assign(p *piece, delta measure.Length, dom interval, joints int) {
	in := e.table.Instance
	l, d := in.Plank, in.Stagger
	m0 := max(floorDiv(dom.lo-p.lo+delta-d, l)+1, measure.Length(1-joints))
	m1 := min(-floorDiv(-(dom.hi-p.hi+delta+d), l)-1, measure.Length(p.joints-1))
	if p.hi-p.lo >= 2*d {
		m1 = m0 - 1
	}
	e.spare = e.spare[:0]
	for _, f := range e.free {
		lo := f.lo
		for m := m0; m <= m1; m++ {
			x, y := max(p.hi-delta+m*l-d+1, lo), min(p.lo-delta+m*l+d-1, f.hi)
			if x > y {
				continue
			}
			if lo < x {
				e.spans = append(e.spans, span{lo, x - 1, p.cost})
			}
			e.spare = append(e.spare, interval{x, y})
			lo = y + 1
		}
		if lo <= f.hi {
			e.spans = append(e.spans, span{lo, f.hi, p.cost})
		}
	}
	e.free, e.spare = e.spare, e.free
}

// sortSpans sorts by insertion: spans are few and nearly in order.
func sortSpans(s []span) {
	for i := 1; i < len(s); i++ {
		for j := i; j > 0 && s[j].lo < s[j-1].lo; j-- {
			s[j], s[j-1] = s[j-1], s[j]
		}
	}
}

// merge appends pieces to the arena, split where e.spans changes and with its values added. Starters outside every span
// are dropped: nothing below goes with them.
func (e *evaluator) merge(pieces []piece) {
	g := e.table.Instance.Grid
	start := len(e.arena)
	k := 0
	for i := range pieces {
		p := pieces[i]
		for k < len(e.spans) && e.spans[k].hi < p.lo {
			k++
		}
		for j := k; j < len(e.spans) && e.spans[j].lo <= p.hi; j++ {
			s := &e.spans[j]
			lo, hi := p.lo, p.hi
			if s.lo > lo {
				lo = (s.lo + g - 1) / g * g
			}
			if s.hi < hi {
				hi = s.hi / g * g
			}
			if lo > hi {
				continue
			}
			cost := p.cost + s.value
			if n := len(e.arena) - 1; n >= start && e.arena[n].cost == cost && e.arena[n].hi+g == lo && !e.narrow {
				e.arena[n].hi = hi
				continue
			}
			e.arena = append(e.arena, piece{lo, hi, cost, p.joints})
		}
	}
}

// trace lays the runs from the roots down, each at a cheapest choice that goes with its parent.
func (e *evaluator) trace(layout rows.Layout) {
	joints := make([]int, len(layout))
	for k := len(e.order) - 1; k >= 0; k-- {
		i := e.order[k]
		c := &e.choices[i]
		window := func(p *piece, visit func(interval)) { visit(interval{p.lo, p.hi}) }
		if par := e.parent[i]; par >= 0 {
			window = func(p *piece, visit func(interval)) {
				e.allowed(p, layout[par]+e.delta[i], joints[par], visit)
			}
		}
		layout[i], joints[i] = e.pick(c, window)
	}
}

// allowed visits the stretches of p whose joints keep the stagger from a neighbour with the given joints, the first at
// x in the axis of p's starters.
func (e *evaluator) allowed(p *piece, x measure.Length, joints int, visit func(interval)) {
	in := e.table.Instance
	l, d := in.Plank, in.Stagger
	if joints == 0 || d == 0 {
		visit(interval{p.lo, p.hi})
		return
	}
	// a starter t of p clashes when x - mL - d < t < x - mL + d
	m0 := max(floorDiv(x-d-p.hi, l)+1, measure.Length(1-joints))
	m1 := min(-floorDiv(-(x+d-p.lo), l)-1, measure.Length(p.joints-1))
	lo := p.lo
	for m := m1; m >= m0; m-- {
		if w := x - m*l - d; lo <= w {
			visit(interval{lo, min(w, p.hi)})
		}
		lo = max(lo, x-m*l+d)
	}
	if lo <= p.hi {
		visit(interval{lo, p.hi})
	}
}

// pick returns a cheapest starter and its joints among those that window leaves of the pieces. Equal ones are drawn, the
// shortest of a stretch more often than not: layouts that agree on starters make better dives.
func (e *evaluator) pick(c *choice, window func(*piece, func(interval))) (measure.Length, int) {
	g := e.table.Instance.Grid
	best, joints, starter := c.single, 0, measure.Length(0)
	seen := uint64(1)
	for i := range c.pieces {
		p := &c.pieces[i]
		if p.cost > best {
			continue
		}
		window(p, func(w interval) {
			lo, n := w.lo, uint64(1)
			if p.lo < p.hi {
				lo = (w.lo + g - 1) / g * g
				if lo > w.hi {
					return
				}
				n = uint64((w.hi-lo)/g) + 1
			}
			if p.cost < best {
				best, seen = p.cost, 0
			}
			seen += n
			if r := e.rng.Uint64() % seen; r < n {
				if e.rng.Uint64()%8 < 5 {
					r = 0
				}
				starter, joints = lo+measure.Length(r)*g, p.joints
			}
		})
	}
	return starter, joints
}

func floorDiv(a, b measure.Length) measure.Length {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
