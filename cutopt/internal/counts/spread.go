package counts

import (
	"math"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
)

// A window is a stretch of a plank shorter than the stagger. Of runs that touch, and begin in line, no two start in it:
// a row of the program holds that no more starters of a kind lie there than runs of it do not touch each other.
type window struct {
	kind   int32
	lo, hi int32 // grid lines
	most   int
	arcs   []int32 // with a starter in it
}

func (x *window) holds(a *arc) bool {
	return a.kind == x.kind && a.planks > 0 && x.lo <= a.from && a.from <= x.hi
}

// A Care is how exactly starters are spread.
type Care struct {
	tolerance float64 // starters more than a window may hold, so that it counts as crowded
	near      float64 // planks that the program may stay off its optimum
	most      int     // times that windows are added
}

// Roughly is enough to draw from, Finely for prices that prove what they can.
var (
	Roughly = Care{tolerance: 0.05, near: settled, most: 12}
	Finely  = Care{tolerance: 0.01, near: 1e-4, most: 40}
)

// Spread adds windows that the program's solution crowds, and solves it anew, until none is crowded, or rounds or about
// the most steps are spent. It returns the steps done, and the price function of the best worths: where stagger is
// heeded it proves as many planks as these give, or nearly, often more than prices found by way of paths. It is nil
// without windows.
func (c *Cycles) Spread(care Care, most int, stop func() bool) (steps int, prices []proof.Step) {
	const rounds = 300
	c.begin()
	over := func() bool { return c.steps() > most || stop() }
	apart := c.apart()
	for range care.most {
		if over() || !c.crowded(apart, care.tolerance) {
			break
		}
		c.build()
		for len(c.worth) < len(c.Kinds)+len(c.crowds) {
			c.worth = append(c.worth, 0)
		}
		c.raise(c.number(), 0, math.Inf(1), care.near, rounds, over)
	}
	if len(c.crowds) > 0 && c.dist != nil {
		prices = c.net.steps(c.dist)
	}
	return c.steps(), prices
}

// Most is what the program gives: about the most planks that Spread could prove.
func (c *Cycles) Most() float64 { return value(c.number(), c.lp.Y) + float64(c.whole) }

// crowded adds the most crowded window of each kind, and reports whether there is any.
func (c *Cycles) crowded(apart []int, tolerance float64) bool {
	w := c.net
	wide := int32((c.in.Stagger + c.in.Grid - 1) / c.in.Grid)
	at := make([][]float64, len(c.Kinds)) // by kind and line: starters
	for k := range at {
		at[k] = make([]float64, w.last+1)
	}
	for q, v := range c.lp.Vars {
		if v < len(c.Kinds) {
			continue
		}
		for _, i := range c.cycles[v-len(c.Kinds)].arcs {
			if i != byRise && !w.single(i) {
				at[w.arcs[i].kind][w.arcs[i].from] += c.lp.X[q]
			}
		}
	}
	found := false
	for k := range at {
		sum, worst, end := 0.0, float64(apart[k])+tolerance, int32(-1)
		for t := range w.last + 1 {
			sum += at[k][t]
			if t >= wide {
				sum -= at[k][t-wide]
			}
			if sum > worst {
				worst, end = sum, t
			}
		}
		if end < 0 {
			continue
		}
		x := window{kind: int32(k), lo: end - wide + 1, hi: end, most: apart[k]}
		for i := range w.arcs {
			if x.holds(&w.arcs[i]) {
				x.arcs = append(x.arcs, int32(i))
			}
		}
		c.crowds = append(c.crowds, x)
		found = true
	}
	return found
}

// apart is by kind how many of its runs at most do not touch each other in line: all less those of a matching.
func (f *Floor) apart() []int {
	of := make([]int, len(f.in.Runs))
	for i := range of {
		of[i] = -1
	}
	out := make([]int, len(f.Kinds))
	for k := range f.Kinds {
		if f.Kinds[k].hand != "" {
			continue
		}
		out[k] = len(f.Kinds[k].Runs)
		for _, i := range f.Kinds[k].Runs {
			of[i] = k
		}
	}
	matched := make([]bool, len(of))
	from := func(i int) measure.Length { return f.in.Runs[i].From }
	for _, t := range f.in.Touch {
		a, b := t[0], t[1]
		if of[a] >= 0 && of[a] == of[b] && from(a) == from(b) && !matched[a] && !matched[b] {
			matched[a], matched[b] = true, true
			out[of[a]]--
		}
	}
	return out
}
