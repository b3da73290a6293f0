package bound

import (
	"math/rand/v2"
	"slices"
	"sort"

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
	part    []int            // by run: its part of the floor, one tree or several
	parts   int
	dropped [][2]int // ties that close a cycle and are left out: fewer rules, so still a bound
	narrow  bool     // two stagger windows may touch: pieces must be single starters

	shortest measure.Length // of the runs that may be one piece, more than a plank where there are none

	left map[int][]starters.Tie // the dropped ties, by run; Delta is From of the other run less From of this one

	domains []*domain // by run, of the node evaluated; nil for what its class admits
	base    []choice  // by class, at the current prices
	choices []choice  // by run
	arena   []piece   // the page of it that is being filled
	pages   [][]piece // of the arena; that being filled may have grown
	page    int       // the one being filled
	filled  int       // pieces on those before
	spans   []span
	free    []interval
	spare   []interval
	rng     *rand.PCG
	work    int64   // steps done, by the evaluator and the masters of its nodes
	stuck   int     // the run that evaluate found no starter for
	heap    []int32 // pieces by cost, of the message being made
}

// blocked explains why evaluate failed.
func (e *evaluator) blocked() *Infeasible {
	cl := e.table.Of(e.stuck)
	return &Infeasible{Run: e.stuck, Stagger: cl.Single || len(cl.Segments) > 0 || cl.Cleared}
}

type interval struct{ lo, hi measure.Length }

// newEvaluator prepares the forest; seed is that of the draws among equally cheap layouts. Ties are taken in order; one
// that would close a cycle is dropped.
func newEvaluator(t *starters.Table, seed uint64) *evaluator {
	in := t.Instance
	n := len(in.Runs)
	e := &evaluator{
		table: t, parent: make([]int, n), delta: make([]measure.Length, n),
		base: make([]choice, len(t.Classes)), choices: make([]choice, n),
		narrow: in.Plank-2*in.Stagger < in.Grid, rng: rand.NewPCG(seed, 2), left: make(map[int][]starters.Tie),
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
		d := in.Runs[p[1]].From - in.Runs[p[0]].From
		if a == b {
			e.dropped = append(e.dropped, p)
			e.left[p[0]] = append(e.left[p[0]], starters.Tie{Run: p[1], Delta: d})
			e.left[p[1]] = append(e.left[p[1]], starters.Tie{Run: p[0], Delta: -d})
			continue
		}
		root[a] = b
		kept[p[0]] = append(kept[p[0]], starters.Tie{Run: p[1], Delta: d})
		kept[p[1]] = append(kept[p[1]], starters.Tie{Run: p[0], Delta: -d})
	}
	e.arrange(kept)
	e.shortest = in.Plank + 1
	for k := range t.Classes {
		if t.Classes[k].Single {
			e.shortest = min(e.shortest, t.Classes[k].Length)
		}
	}
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
	e.divide()
}

// mostParts is the most parts a floor is divided into: a row of the master each for every layout passed.
const mostParts = 12

// divide makes each tree a part of its own, the largest first, or all that are left one.
func (e *evaluator) divide() {
	e.part = make([]int, len(e.parent))
	size := make(map[int]int) // runs, by root
	var roots []int
	for k := len(e.order) - 1; k >= 0; k-- {
		i := e.order[k]
		if up := e.parent[i]; up < 0 {
			e.part[i] = i
			roots = append(roots, i)
		} else {
			e.part[i] = e.part[up]
		}
		size[e.part[i]]++
	}
	slices.SortStableFunc(roots, func(a, b int) int { return size[b] - size[a] })
	number := make(map[int]int, len(roots))
	for k, r := range roots {
		number[r] = min(k, mostParts-1)
	}
	for i, r := range e.part {
		e.part[i] = number[r]
	}
	e.parts = min(len(roots), mostParts)
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
			single, _ = p.single(cl.Length, in.Kerf, 0, in.Plank)
		}
	}
	starter, ender := p.starter.bends(), p.ender.bends()
	for _, seg := range cl.Segments {
		// The room an ender leaves for a starter is L-kerf-e = s + shift.
		shift := in.Plank - in.Kerf - cl.Length + measure.Length(seg.Field)*in.Plank
		fixed := int64(seg.Field)*(Den+p.started) + p.started
		i, j := firstStep(starter, seg.Lo), firstStep(ender, seg.Lo+shift)
		for lo := seg.Lo; lo <= seg.Hi; {
			hi := seg.Hi
			if i < len(starter) {
				hi = min(hi, before(starter[i].At, in.Grid))
			}
			if j < len(ender) {
				hi = min(hi, before(ender[j].At-shift, in.Grid))
			}
			// A room below 0 is beside an ender that no kerf goes with: C is 0 there, without equal steps.
			if e.narrow || seg.Lo == seg.Hi || lo+shift < 0 && p.ender.uneven != nil {
				hi = lo
			}
			cost := fixed + p.starter.between(i, lo) + p.ender.between(j, lo+shift)
			out = append(out, piece{lo, hi, cost, seg.Joints()})
			lo = hi + in.Grid
			for i < len(starter) && starter[i].At <= lo {
				i++
			}
			for j < len(ender) && ender[j].At-shift <= lo {
				j++
			}
		}
	}
	return choice{out, single}
}

// bends returns the steps where the curve does not go on as it did from grid line to grid line.
func (c *curve) bends() []proof.Step {
	if c.uneven != nil {
		return c.uneven
	}
	return c.steps
}

// between returns the curve's value at x, which comes before bend i and not before bend i-1.
func (c *curve) between(i int, x measure.Length) int64 {
	if c.uneven == nil {
		return c.before(i)
	}
	if i == 0 {
		return c.start + c.each*int64(max(x, 0)/c.grid)
	}
	b := &c.uneven[i-1]
	return b.Price + c.each*int64(x/c.grid-b.At/c.grid)
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
	return sort.Search(len(steps), func(i int) bool { return steps[i].At > x })
}

// before returns the last grid line before x.
func before(x, grid measure.Length) measure.Length { return (x - 1) / grid * grid }

// evaluate returns the cheapest layout under the prices and its cost in Den-ths, or false when no layout of the forest
// keeps the rules. The cost is a lower bound, in planks times Den, on every layout.
func (e *evaluator) evaluate(p *prices, layout rows.Layout) (int64, bool) {
	e.price(p)
	e.turn(0)
	e.filled = 0
	for i := range e.choices {
		e.choices[i] = e.own(i, p)
	}
	total := p.constant
	in := e.table.Instance
	for _, h := range e.table.Hands {
		if p.relief.frees(h, e.shortest, in.Plank, in.Kerf) {
			continue
		}
		total -= p.c.at(h.To) - p.c.at(h.From)
	}
	for _, i := range e.order {
		e.makeRoom()
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
	e.work += int64(e.filled+len(e.arena)+len(e.order)) / 8
	if layout != nil {
		e.trace(layout)
	}
	return total, true
}

// pageSize is how many pieces a page of the arena has room for, and runSize how many a run takes, nearly always.
const pageSize, runSize = 1 << 14, 1 << 10

// makeRoom begins another page of the arena where this one is nearly full. If it grew, each array that it had before
// would be kept by the pieces in it.
func (e *evaluator) makeRoom() {
	if cap(e.arena) >= pageSize && cap(e.arena)-len(e.arena) < runSize {
		e.filled += len(e.arena)
		e.turn(e.page + 1)
	}
}

// turn goes on with page k of the arena, which is at most the one after this.
func (e *evaluator) turn(k int) {
	if len(e.pages) == 0 {
		e.pages = make([][]piece, 1)
	}
	e.pages[e.page] = e.arena // it may have grown
	if k == len(e.pages) {
		e.pages = append(e.pages, make([]piece, 0, pageSize))
	}
	e.page, e.arena = k, e.pages[k][:0]
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

// trace lays the runs from the roots down, each at a cheapest choice that goes with its parent.
func (e *evaluator) trace(layout rows.Layout) {
	joints := make([]int, len(layout))
	for k := len(e.order) - 1; k >= 0; k-- {
		i := e.order[k]
		x, beside := measure.Length(0), 0
		if up := e.parent[i]; up >= 0 {
			x, beside = layout[up]+e.delta[i], joints[up]
		}
		layout[i], joints[i] = e.pick(&e.choices[i], x, beside)
	}
}

// allowed appends the stretches of p whose joints keep the stagger from a neighbour with the given joints, the first at
// x in the axis of p's starters.
func (e *evaluator) allowed(out []interval, p *piece, x measure.Length, joints int) []interval {
	in := e.table.Instance
	l, d := in.Plank, in.Stagger
	if joints == 0 || d == 0 {
		return append(out, interval{p.lo, p.hi})
	}
	// a starter t of p clashes when x - mL - d < t < x - mL + d
	m0 := max((x-d-p.hi).Div(l)+1, measure.Length(1-joints))
	m1 := min(-(-(x + d - p.lo)).Div(l)-1, measure.Length(p.joints-1))
	lo := p.lo
	for m := m1; m >= m0; m-- {
		if w := x - m*l - d; lo <= w {
			out = append(out, interval{lo, min(w, p.hi)})
		}
		lo = max(lo, x-m*l+d)
	}
	if lo <= p.hi {
		out = append(out, interval{lo, p.hi})
	}
	return out
}

// pick returns a cheapest starter and its joints among those that keep the stagger from a neighbour with so many
// joints, the first at x. Equal ones are drawn, the shortest of a stretch more often than not: layouts that agree on
// starters make better dives.
func (e *evaluator) pick(c *choice, x measure.Length, beside int) (starter measure.Length, joints int) {
	g := e.table.Instance.Grid
	best, seen := c.single, uint64(1)
	for i := range c.pieces {
		p := &c.pieces[i]
		if p.cost > best {
			continue
		}
		e.spare = e.allowed(e.spare[:0], p, x, beside)
		for _, w := range e.spare {
			lo, n := w.lo, uint64(1)
			if p.lo < p.hi {
				lo = (w.lo + g - 1) / g * g
				if lo > w.hi {
					continue
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
		}
	}
	return starter, joints
}
