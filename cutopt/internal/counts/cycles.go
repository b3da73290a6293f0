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
	worth  []float64 // by kind: the best that has potentials
	dist   []float64 // the potentials
}

// A cycle is a ring or a chain.
type cycle struct {
	arcs   []int32 // from the first run to the last; the first is byRise in a chain
	runs   []int   // by kind
	planks int
}

// Parts of a plank: what figures may be off by, and how near to the optimum is enough to draw from.
const nearly, settled = 1e-6, 2e-3

// NewCycles is the program without rings and chains.
func NewCycles(f *Floor) *Cycles {
	c := &Cycles{Floor: f, net: newNetwork(f)}
	var alone []float64
	for k := range f.Kinds {
		kind := &f.Kinds[k]
		alone = append(alone, math.Ceil(float64(kind.Length)/float64(f.in.Plank))+1)
		c.worth = append(c.worth, float64(kind.Length)/float64(f.in.Plank))
	}
	c.lp = simplex.NewProgram(make([]float64, len(alone)), alone)
	for k := range f.Kinds {
		c.lp.Add(0, []simplex.Entry{{Row: k, By: -1}})
	}
	return c
}

// copy is a program of its own that goes on from c.
func (c *Cycles) copy() *Cycles {
	d := *c
	net := *c.net
	net.dist, net.by, net.seen, net.work = make([]float64, len(net.dist)), make([]int32, len(net.by)),
		make([]int32, len(net.seen)), 0
	d.net, d.lp = &net, new(simplex.Program)
	d.lp.Set(c.lp)
	d.cycles, d.worth, d.dist = slices.Clip(c.cycles), slices.Clone(c.worth), slices.Clone(c.dist)
	return &d
}

// number is how many runs of each kind there are.
func (f *Floor) number() []int {
	out := make([]int, len(f.Kinds))
	for k := range f.Kinds {
		if f.Kinds[k].hand == "" {
			out[k] = len(f.Kinds[k].Runs)
		}
	}
	return out
}

// value is what so many runs of each kind are worth.
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
		fits, cycles := c.net.settle(trial)
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
	x := cycle{arcs: slices.Clone(arcs), runs: make([]int, len(c.Kinds))}
	slices.Reverse(x.arcs)
	if k := slices.Index(x.arcs, byRise); k > 0 {
		x.arcs = append(slices.Clone(x.arcs[k:]), x.arcs[:k]...)
	}
	for _, a := range x.arcs {
		if a == byRise {
			x.planks++
			continue
		}
		x.planks += int(c.net.arcs[a].planks)
		x.runs[c.net.arcs[a].kind]++
	}
	var entries []simplex.Entry
	for k, n := range x.runs {
		if n > 0 {
			entries = append(entries, simplex.Entry{Row: k, By: float64(n)})
		}
	}
	c.lp.Add(float64(x.planks), entries)
	c.cycles = append(c.cycles, x)
}

// Settle solves the program for all runs nearly, with as many rings and chains as that takes within a bounded number
// of rounds, and returns the steps done. What is drawn begins there.
func (c *Cycles) Settle(stop func() bool) (steps int) {
	const rounds = 600
	c.net.work = 0
	c.raise(c.number(), 0, math.Inf(1), settled, rounds, stop)
	return int(c.net.work / arcStep)
}

// Prices looks for a price function that proves more than target planks where stagger is left out. It returns nil when
// there is none, or when it is not found in a bounded number of rounds. Figures are floating-point, so the caller must
// evaluate what it gets.
func (c *Cycles) Prices(target int, stop func() bool) []proof.Step {
	const rounds = 600
	goal := float64(target - c.whole)
	if best, _ := c.raise(c.number(), goal, goal, nearly, rounds, stop); best > goal+nearly {
		return c.net.steps(c.dist)
	}
	return nil
}
