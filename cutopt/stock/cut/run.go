package cut

import (
	"math"
	"slices"

	"plank.example/cutopt/stock"
)

// A run finds the least value of an engine's aim and refutes less. Its target is the value of the packings it looks
// for, or less.
type run struct {
	e      *engine
	best   packing           // the best so far; nil before the first
	upper  int64             // its value, or one more than is looked for
	lower  int64             // no packing has a smaller value, which is proven
	aimAt  int64             // the value that the round looks for packings at
	spare  []int64           // by stick: what a packing of that value can waste on one
	proof  *stock.Refutation // that nothing is below lower; nil where nothing needs to be shown
	step   int64
	wanted int64     // a value that is good enough
	pool   []pattern // in the kinds of the job, to begin with

	nodes, dives int
}

func newRun(e *engine) *run { return &run{e: e, upper: math.MaxInt64, step: e.step(), wanted: -1} }

// begin takes the bound that what all pieces count gives.
func (r *run) begin() {
	refutes := func(v int64) bool {
		return !slices.ContainsFunc(r.e.spareTicks(r.e.claim(v)), func(x int64) bool { return x >= 0 })
	}
	if r.e.byCount {
		r.lower = 1
	}
	if !refutes(r.lower) {
		return
	}
	bad, good := r.lower, max(r.upper, r.lower)
	for good-bad > r.step {
		if mid := bad + (good-bad)/2/r.step*r.step; refutes(mid) {
			bad = mid
		} else {
			good = mid
		}
	}
	if bad < r.upper {
		r.refute(bad, &stock.Node{Values: []int64{1}})
	}
}

// target is the value that packings are looked for at.
func (r *run) target() int64 { return min(r.aimAt, r.upper-r.step) }

// look is the value that dives look for: the least that is not refuted.
func (r *run) look() int64 { return min(r.lower, r.target()) }

// closed reports whether there is nothing left to look for at the target.
func (r *run) closed() bool { return r.upper <= r.lower || r.upper <= r.aimAt && r.best != nil }

// offer takes a packing if it is better.
func (r *run) offer(p packing) {
	if p == nil {
		return
	}
	if v, _ := r.e.total(p); v < r.upper {
		r.best, r.upper = p, v
	}
}

const (
	// near is how many steps above the bound a packing may be for the next target to be the bound itself, where all sticks
	// count alike. Else values between the bound and the packing are many and few of them are sums of costs.
	near = 32
	// divesEach is how many dives a target gets before the tree.
	divesEach = 3
)

// solve closes the gap between lower and upper as far as the effort goes.
func (r *run) solve() {
	for r.lower < r.upper && r.upper > r.wanted && (r.wanted < 0 || r.lower <= r.wanted) && !r.e.meter.out() {
		if !r.round() {
			return
		}
	}
}

// round takes the next target. It reports false where it neither found a better packing nor raised the bound.
func (r *run) round() bool {
	tight := r.e.uniform() && (r.upper-r.lower)/r.step <= near
	r.aimAt = r.lower
	if !tight {
		r.aimAt = r.upper - r.step
	}
	m := r.master()
	defer m.release()
	state, leaf := m.raise(r.look())
	for state == refuted && !tight && r.lower < r.upper {
		// Far off, the program is solved to the end and its optimum is the next bound.
		r.refute(r.look(), leaf)
		r.jump(m)
		state, leaf = m.raise(r.look())
	}
	if state != refuted && !tight {
		r.jump(m)
	}
	r.pool = append(r.pool[:0], m.columns...)
	switch state {
	case refuted:
		r.refute(r.look(), leaf)
		return true
	case spent:
		return false
	}
	before := r.upper
	for i := uint64(1); i <= divesEach && !r.closed() && !r.e.meter.out(); i++ {
		r.dives++
		r.offer(m.dive(r.look(), r.target(), i))
	}
	if r.closed() || r.upper < before {
		return true
	}
	left := r.e.meter.budget - r.e.meter.steps
	t := &tree{e: r.e, run: r, patience: min(patienceMost, left/patienceShare)}
	proof := t.clear(r.e.root(), r.pool, 0, false)
	r.nodes += t.nodes
	if proof != nil {
		r.refute(r.target(), proof)
	}
	return proof != nil || r.upper < before
}

// master is the program of a round over the patterns known.
func (r *run) master() *master {
	r.spare = r.e.spare(r.e.claim(r.aimAt))
	m := newMaster(r.e, r.e.root(), r.spare)
	for k := range r.e.sticks {
		for i := range r.e.sizes {
			m.offer(r.single(k, i))
		}
	}
	for _, b := range r.best {
		m.offer(b.pattern)
	}
	for _, p := range r.pool {
		m.offer(p)
	}
	return m
}

// refute notes that no packing has a value of at most most.
func (r *run) refute(most int64, root *stock.Node) {
	r.lower = r.e.next(most + r.step)
	r.proof = &stock.Refutation{Claim: r.e.claim(most), Root: root}
}

// jump raises the lower bound to the best one that the master has shown.
func (r *run) jump(m *master) {
	if m.bound <= float64(r.lower) || len(m.center) == 0 {
		return
	}
	// The largest value that is surely below the bound, in steps; less where rounding has it otherwise.
	most := (int64(m.bound) - 1) / r.step * r.step
	for ; most >= r.lower && !r.e.meter.out(); most -= r.step + (most-r.lower)/16/r.step*r.step {
		if leaf, _ := m.try(m.center, most); leaf != nil {
			r.refute(most, leaf)
			return
		}
	}
}

// single is the pattern of nothing but pieces of one kind.
func (r *run) single(k, i int) pattern {
	n := min(int64(r.e.demand[i]), r.e.sticks[k].capacity/r.e.sizes[i])
	if n == 0 {
		return pattern{stick: k}
	}
	return pattern{k, r.e.work.keep([]take{{i, int(n)}})}
}
