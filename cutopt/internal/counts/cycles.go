package counts

import (
	"math"
	"slices"

	"plank.example/cutopt/internal/simplex"
	"plank.example/cutopt/proof"
)

// Cycles is the linear program over rings and chains of a floor: the fewest planks, in fractions, that lay so many runs
// of each kind without stagger. It grows by the rings and chains that the worths of kinds call for, few where runs are
// of few lengths, however fine the grid: that of Gilmore and Gomory over these instead of over planks (Oper. Res. 9,
// 1961). It is not safe for concurrent use.
type Cycles struct {
	*Floor
	net    *network
	lp     *simplex.Program
	cycles []cycle   // by column, after one for the surplus of each kind
	crowds []window  // rows after those of the kinds
	worth  []float64 // by row: the best that has potentials
	dist   []float64 // the potentials
}

// A cycle is a ring or a chain.
type cycle struct {
	arcs   []int32 // from the first run to the last; the first is byRise in a chain
	rows   []int   // by kind: runs; then by window: starters in it
	planks int
}

// Parts of a plank: what figures may be off by, and how near to the optimum is enough to draw from.
const nearly, settled = 1e-6, 2e-3

// NewCycles is the program without rings and chains.
func NewCycles(f *Floor) *Cycles {
	c := &Cycles{Floor: f, net: newNetwork(f)}
	for k := range f.Kinds {
		c.worth = append(c.worth, float64(f.Kinds[k].Length)/float64(f.in.Plank))
	}
	c.build()
	return c
}

// build makes the program anew, with a row for each kind and window and all rings and chains.
func (c *Cycles) build() {
	logicals := make([]float64, len(c.Kinds)+len(c.crowds))
	for k := range c.Kinds {
		logicals[k] = math.Ceil(float64(c.Kinds[k].Length)/float64(c.in.Plank)) + 1
	}
	work := 0
	if c.lp != nil {
		work = c.lp.Work
	}
	c.lp = simplex.NewProgram(make([]float64, len(logicals)), logicals)
	c.lp.Work = work
	for k := range c.Kinds {
		c.lp.Add(0, []simplex.Entry{{Row: k, By: -1}})
	}
	for k := range c.cycles {
		c.column(&c.cycles[k])
	}
}

// copy is a program of its own that goes on from c.
func (c *Cycles) copy() *Cycles {
	d := *c
	net := *c.net
	net.cost = make([]float64, len(net.cost))
	net.dist, net.by, net.seen, net.work = make([]float64, len(net.dist)), make([]int32, len(net.by)),
		make([]int32, len(net.seen)), 0
	d.net, d.lp = &net, new(simplex.Program)
	d.lp.Set(c.lp)
	d.cycles, d.worth, d.dist = slices.Clip(c.cycles), slices.Clone(c.worth), slices.Clone(c.dist)
	return &d
}

// number is how many runs of each kind there are, and how many starters each window may hold.
func (c *Cycles) number() []int {
	out := make([]int, len(c.Kinds), len(c.Kinds)+len(c.crowds))
	for k := range c.Kinds {
		if c.Kinds[k].hand == "" {
			out[k] = len(c.Kinds[k].Runs)
		}
	}
	for k := range c.crowds {
		out = append(out, c.crowds[k].most)
	}
	return out
}

// value is what rows with so much on their right-hand sides are worth.
func value(number []int, worth []float64) (sum float64) {
	for k, n := range number {
		sum += float64(float64(n) * worth[k])
	}
	return sum
}

// raise solves the program for so many runs of each kind, with more rings and chains, until worths that have potentials
// give more than goal planks, or none give more than the least, or no ring or chain makes the program better. Worths
// tried lie halfway between the best that have potentials and the program's. It returns what the best worths give, and
// false when the rounds are spent or figures fail.
func (c *Cycles) raise(number []int, least, goal, near float64, rounds int, stop func() bool) (best float64, ok bool) {
	for k, n := range number {
		c.lp.SetRHS(k, float64(n))
	}
	trial := make([]float64, len(number))
	best = value(number, c.worth)
	if c.dist == nil {
		best = 0
	}
	for range rounds {
		if !c.lp.Solve(10_000) || stop() {
			return best, false
		}
		if most := value(number, c.lp.Y); most <= max(least+nearly, best+near) {
			return best, true
		}
		for k := range trial {
			trial[k] = float64(0.5*c.worth[k]) + float64(0.5*c.lp.Y[k])
		}
		fits, cycles := c.net.settle(trial, c.crowds)
		if !fits && len(cycles) == 0 {
			return best, false
		}
		for _, arcs := range cycles {
			c.add(arcs)
		}
		if !fits {
			continue
		}
		copy(c.worth, trial)
		c.dist = append(c.dist[:0], c.net.dist...)
		if best = value(number, c.worth); best > goal+nearly {
			return best, true
		}
	}
	return best, false
}

// add adds a ring or chain, whose arcs are listed from the last to the first.
func (c *Cycles) add(arcs []int32) {
	x := cycle{arcs: slices.Clone(arcs)}
	slices.Reverse(x.arcs)
	if k := slices.Index(x.arcs, byRise); k > 0 {
		x.arcs = append(slices.Clone(x.arcs[k:]), x.arcs[:k]...)
	}
	c.cycles = append(c.cycles, x)
	c.column(&c.cycles[len(c.cycles)-1])
}

// column adds the column of a ring or chain.
func (c *Cycles) column(x *cycle) {
	x.planks, x.rows = 0, make([]int, len(c.Kinds)+len(c.crowds))
	for _, i := range x.arcs {
		if i == byRise {
			x.planks++
			continue
		}
		a := &c.net.arcs[i]
		x.planks += int(a.planks)
		x.rows[a.kind]++
		for k := range c.crowds {
			if c.crowds[k].holds(a) {
				x.rows[len(c.Kinds)+k]++
			}
		}
	}
	var entries []simplex.Entry
	for row, n := range x.rows {
		if n > 0 {
			entries = append(entries, simplex.Entry{Row: row, By: float64(n)})
		}
	}
	c.lp.Add(float64(x.planks), entries)
}

// Settle solves the program for all runs nearly, with as many rings and chains as that takes within a bounded number
// of rounds and about so many steps, and returns the steps done. What is drawn begins there.
func (c *Cycles) Settle(most int, stop func() bool) (steps int) {
	const rounds = 600
	c.begin()
	c.raise(c.number(), 0, math.Inf(1), settled, rounds, func() bool { return c.steps() > most || stop() })
	return c.steps()
}

// begin counts steps from here on.
func (c *Cycles) begin() { c.net.work, c.lp.Work = 0, 0 }

// steps are those since begin.
func (c *Cycles) steps() int { return int(c.net.work/arcStep) + c.lp.Work/entryStep }

// Prices looks for a price function that proves more than target planks where stagger is left out. It returns nil when
// there is none, or when it is not found in a bounded number of rounds. Figures are floating-point, so the caller must
// evaluate what it gets.
func (c *Cycles) Prices(target int, stop func() bool) []proof.Step {
	const rounds = 600
	goal := float64(target - c.whole)
	if best, _ := c.raise(c.number(), goal, goal, nearly, rounds, stop); best > goal+nearly && c.dist != nil {
		return c.net.steps(c.dist)
	}
	return nil
}
