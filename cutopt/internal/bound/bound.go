// Package bound proves how few planks any layout of an instance needs.
//
// For every non-decreasing C on [0, L] with values in [0, 1], price a cut starter s at C(s), a cut ender e at
// 1 - C(L-kerf-e) and a whole piece at 1. If s and e share a plank then s <= L-kerf-e, so every plank carries pieces
// worth at most 1, and no layout needs fewer planks than the cheapest layout costs. Stagger ties only neighbours, so
// that cheapest layout is a shortest path; the best C is found by a stabilised cutting-plane method (Kelley, J. SIAM 8,
// 1960; smoothing as in Wentges, Int. Trans. Oper. Res. 4, 1997, with the weight adapted as in Pessoa et al., INFORMS
// J. Comput. 30, 2018). Where the bound so found is a little short, it branches on whole-number figures of the layout,
// each side adding a multiplier to the prices.
package bound

import (
	"fmt"
	"math"
	"math/bits"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Infeasible says that no layout keeps the rules.
type Infeasible struct {
	Run     int  // a run that no starter is left for
	Stagger bool // because of the runs it touches; else it cannot be laid on its own
}

// Error names the run.
func (e *Infeasible) Error() string { return fmt.Sprintf("bound: run %d cannot be laid", e.Run) }

// A Bound is the best dual solution found so far for one node of the proof and the master program that improves it.
type Bound struct {
	table       *starters.Table
	eval        *evaluator
	thresholds  []measure.Length
	stride      int                // the master may step at every stride-th threshold and at the last
	constraints []proof.Constraint // of the node
	domains     []*domain          // of the node, by run; nil for what its class admits, and nil where all are
	eager       bool               // a node of a tree, given up as soon as no prices in use lift it above the target
	held        bool               // a node of a dive, which only looks for layouts
	inherited   []*cut             // of the parent, while the node is not begun
	relief      Relief             // of all its prices
	relieved    []Relief           // reliefs tried at the node before
	stood       []rows.Layout      // what its mixtures came down to under these
	master      *master
	parts       int    // of the floor, that have cuts of their own: 1, or as many as the evaluator divides it into
	recent      []*cut // of the layout passed last, one of each part

	best  *prices
	value int64 // of best, in Den-ths

	untried      int     // trials until the prices by length are tried; 0 for never
	offered      *prices // the best of Offer
	offeredValue int64

	center  []float64 // weights and multipliers of best
	trial   []float64
	optimum []float64
	toward  []float64 // optimum less center
	stay    float64   // weight of center in the next trial
	theta   float64   // upper bound on what any prices can give, by the master
	even    bool      // equal steps at all thresholds are a column of the master
	evens   evens     // where even is set
	done    bool
	layout  rows.Layout
	places  []measure.Length // of layout, as in cut
}

// evens are weights of equal steps at all thresholds together, beside those of steps, for the same prices.
type evens struct{ center, trial, optimum float64 }

const (
	// startSteps is the number of equal steps of the price function that the master starts from, close to C(x) = x/L.
	startSteps = 24
	// lengthAfter is how many trials come before C(x) = x/L at every grid line, whose path takes as long as ten of them:
	// most rooms are settled by then.
	lengthAfter = 12
	// third is how much of what the master leaves open C(x) = x/L must close to be gone on from at once.
	third = 0.3
	// finest is the most steps, summed over runs, for C(x) = x/L at every grid line: some 100 MB while it is evaluated.
	finest = 2_000_000
	// stay is the weight of the best prices in the first trial, against the master's: it damps the master's swings. It
	// then moves between leastStay and mostStay.
	stay, leastStay, mostStay = 0.7, 0.2, 0.95
	// least is the smallest step worth keeping in a trial: shorter price functions are faster to evaluate.
	least = 0.0002
	// masterStep is how much work of the master, as it counts it, takes about as long as a step.
	masterStep = 128
	// leastHeld is the same in dives, which only look for layouts.
	leastHeld = 0.001
	// coarsest is the least number of thresholds the master begins with, where the grid has so many: prices that step on
	// a few thresholds only are found in a fraction of the paths and are nearly as good.
	coarsest = 96
)

// New evaluates the first prices, about C(x) = x/L, and returns an *Infeasible when no layout keeps the rules.
func New(t *starters.Table) (*Bound, error) { return NewRelieved(t, Relief{}) }

// NewRelieved is New with a relief, under which all its prices are.
func NewRelieved(t *starters.Table, relief Relief) (*Bound, error) {
	in := t.Instance
	b := &Bound{table: t, eval: newEvaluator(t, 1), relief: relief, parts: 1}
	for x := in.Grid; x < in.Plank; x += in.Grid {
		b.thresholds = append(b.thresholds, x)
	}
	b.thresholds = append(b.thresholds, in.Plank)
	n := len(b.thresholds)
	for b.stride = 1; n/(2*b.stride) >= coarsest; b.stride *= 2 {
	}
	center := make([]float64, n)
	for i := 1; i <= startSteps; i++ {
		center[(n-1)*i/startSteps] += 1.0 / startSteps
	}
	if !b.start(center) {
		return nil, b.eval.blocked()
	}
	if n*len(in.Runs) <= finest {
		b.untried = lengthAfter
	}
	return b, nil
}

// byLength offers C(x) = x/L at every grid line: the area bound with the kerfs, plus what enders waste that no starter
// can be as long as. Then the same from the shortest starter to the longest that leaves room for an ender: where every
// run wastes about a grid line, it counts for more.
func (b *Bound) byLength() {
	in := b.table.Instance
	b.Offer(b.ramp(0, in.Plank))
	shortest, longest := in.MinPiece, in.Plank-in.Kerf-max(in.MinPiece, in.MinEnder)
	from, to := max(0, shortest-1)/in.Grid*in.Grid, (longest/in.Grid+1)*in.Grid
	if from < longest && to < in.Plank {
		b.Offer(b.ramp(from, to))
	}
}

// ramp returns prices that rise evenly at the grid lines between two lengths.
func (b *Bound) ramp(from, to measure.Length) (steps []proof.Step) {
	for _, x := range b.thresholds {
		if x <= from || x > to {
			continue
		}
		hi, lo := bits.Mul64(uint64(x-from), Den)
		price, _ := bits.Div64(hi, lo, uint64(to-from))
		steps = append(steps, proof.Step{At: x, Price: int64(price)})
	}
	if to < b.table.Instance.Plank {
		steps = append(steps, proof.Step{At: b.table.Instance.Plank, Price: Den})
	}
	return steps
}

// level goes on from equal steps at every grid line, C(x) = x/L, where prices offered are better than the steps found
// so far: the master may then raise all steps by the same, beside single ones. Where little is wasted, the best prices
// differ from equal steps in few places, and single steps take thousands of paths to come near. It reports false where
// that is not so, or done already, and on floors of few runs, which cases settle sooner.
func (b *Bound) level() bool {
	if b.even || len(b.layout) <= fewRuns || b.relief != (Relief{}) || b.offered == nil || b.offeredValue <= b.value {
		return false
	}
	b.even, b.stay = true, stay
	b.master = b.master.again(b.stride, true)
	clear(b.trial)
	b.evens.trial = 1
	b.try()
	return true
}

// Offer gives the root a price function found elsewhere, as a certificate has it. Only the proof takes it, where it is
// better. The master and the domains of walks go on from prices with fewer steps: the shorter a price function, the
// faster its path.
func (b *Bound) Offer(steps []proof.Step) {
	if len(steps)*len(b.table.Instance.Runs) > finest {
		return
	}
	p := &prices{c: curve{steps: steps}, relief: b.relief}
	p.derive(nil, b.table.Instance.Kerf)
	if v, ok := b.eval.evaluate(p, nil); ok && (b.offered == nil || v > b.offeredValue) {
		b.offered, b.offeredValue = p, v
	}
}

// proven is the largest value found, in Den-ths.
func (b *Bound) proven() int64 {
	if b.offered != nil {
		return max(b.value, b.offeredValue)
	}
	return b.value
}

// start evaluates the first prices of a node.
func (b *Bound) start(center []float64) bool {
	b.value, b.stay, b.theta = -infinite, stay, math.MaxInt32
	b.layout = make(rows.Layout, len(b.table.Instance.Runs))
	b.center = make([]float64, len(b.thresholds)+len(b.constraints))
	b.trial, b.optimum, b.toward = make(
		[]float64,
		len(b.center),
	), make(
		[]float64,
		len(b.center),
	), make(
		[]float64,
		len(b.center),
	)
	copy(b.trial, center)
	b.evens.trial = b.evens.center
	return b.try()
}

// try evaluates the trial prices, keeps them if they are the best, and leaves the cheapest layout in b.layout.
func (b *Bound) try() bool {
	n := len(b.thresholds)
	in := b.table.Instance
	p := newPrices(b.thresholds, b.trial[:n], b.evens.trial, in.Plank, in.Kerf, b.constraints, b.trial[n:], b.relief)
	b.eval.domains = b.domains
	v, ok := b.eval.evaluate(p, b.layout)
	if !ok {
		return false
	}
	if v > b.value {
		b.value, b.best = v, p
		copy(b.center, b.trial)
		b.evens.center = b.evens.trial
	}
	b.places = b.placesAt(p)
	b.recent = b.cuts(b.layout, b.places)
	b.add(b.recent)
	return true
}

// Refine lets the master step at twice as many thresholds, and has a cut for each part of the floor, which takes a
// fraction of the paths. It reports false when it steps at all thresholds already.
func (b *Bound) Refine() bool {
	if b.stride == 1 {
		return false
	}
	b.stride /= 2
	if b.parts == b.eval.parts {
		b.master = b.master.again(b.stride, b.even)
	} else {
		b.divide()
	}
	b.done, b.stay = false, stay
	b.level()
	return true
}

// next tries the next prices. It reports false when the bound, rounded up, cannot rise any more by steps at the
// thresholds in use.
func (b *Bound) next() bool {
	if b.done {
		return false
	}
	if b.untried > 0 {
		if b.untried--; b.untried == 0 {
			b.byLength()
			if b.offered != nil && float64(b.offeredValue-b.value)/Den > third*(b.theta-float64(b.value)/Den) {
				b.level()
			}
		}
	}
	solved := b.master.solve()
	b.eval.work += b.master.work / masterStep
	b.master.work = 0
	if !solved {
		b.done = true
		return false
	}
	b.master.drop()
	b.evens.optimum, b.theta = b.master.read(b.optimum)
	if ceilDen(int64((b.theta-1e-7)*Den)) <= ceilDen(b.proven()) {
		b.done = !b.level()
		return !b.done
	}
	for i := range b.trial {
		b.trial[i] = float64(b.stay*b.center[i]) + float64((1-b.stay)*b.optimum[i])
		b.toward[i] = b.optimum[i] - b.center[i]
	}
	if b.even {
		b.evens.trial = float64(b.stay*b.evens.center) + float64((1-b.stay)*b.evens.optimum)
		each := (b.evens.optimum - b.evens.center) / float64(len(b.thresholds))
		for t := range b.thresholds {
			b.toward[t] += each
		}
	}
	b.prune()
	b.try()
	slope := 0.0
	for _, c := range b.recent {
		slope += c.slope(b.toward)
	}
	if slope > 0 {
		b.stay = max(b.stay-0.1, leastStay)
	} else {
		b.stay = min(b.stay+float64((1-b.stay)*0.1), mostStay)
	}
	return true
}

// prune moves the weight of steps too small to matter to the next step, which keeps price functions short.
func (b *Bound) prune() {
	carried, least := 0.0, least
	if b.held {
		least = leastHeld
	}
	for t := range b.thresholds {
		w := b.trial[t] + carried
		carried = 0
		if w < least && t < len(b.thresholds)-1 {
			w, carried = 0, w
		}
		b.trial[t] = w
	}
}

// Work returns the steps done for this node and all of its trees: a step is some 0.2 microseconds.
func (b *Bound) Work() int64 { return b.eval.work }

// Layout returns the cheapest layout under the prices tried last.
func (b *Bound) Layout() rows.Layout { return append(rows.Layout(nil), b.layout...) }

// Planks returns the bound, rounded up.
func (b *Bound) Planks() int { return int(max(ceilDen(b.proven()), 0)) }

func ceilDen(v int64) int64 { return (v + Den - 1) / Den }

// nothing is a leaf for a node that no layout of the forest is left for, whatever the prices.
func (b *Bound) nothing() *proof.Node {
	out := &proof.Node{Prices: []proof.Step{{At: b.table.Instance.Plank, Price: Den}}}
	if n := len(b.constraints); n > 0 {
		out.Multipliers = make([]int64, n)
	}
	return out
}

// Leaf returns the best dual solution as a leaf of a certificate.
func (b *Bound) Leaf() *proof.Node {
	if b.proven() > b.value {
		return b.leaf(b.offered)
	}
	return b.leaf(b.best)
}

// leaf is the leaf of prices.
func (b *Bound) leaf(p *prices) *proof.Node {
	return &proof.Node{
		Prices: p.c.steps, Multipliers: p.multipliers, FreeStarter: p.relief.Starter, FreeEnder: p.relief.Ender,
	}
}

// Dropped lists the ties that the bound leaves out.
func (b *Bound) Dropped() [][2]int { return b.eval.dropped }
