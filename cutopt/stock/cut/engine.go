package cut

import (
	"context"
	"math"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

// An engine works on one claim after the other: kinds of pieces with sizes and demands, kinds of sticks with
// capacities, all in units of a common measure of the sizes, kerfs counted in.
type engine struct {
	meter    *meter
	unit     int64 // ticks
	sizes    []int64
	demand   []int
	sticks   []stick
	byCount  bool           // the aim is few sticks; else little cost
	costMost int64          // with byCount: what a plan may cost
	offcut   measure.Length // the last kind stands for an offcut of this length; 0: for pieces
	work     *workspace
	price    *pricer // of the workspace
	patterns int     // columns made
}

// A stick is a kind of stick.
type stick struct {
	ticks    int64 // usable length and a kerf
	capacity int64 // the same in units, rounded down
	cost     int64
	supply   int // -1: any number
}

// A take is a number of pieces of one kind on a stick.
type take struct{ kind, count int }

// A pattern is what is cut from one stick.
type pattern struct {
	stick int
	takes []take // ascending in kind, counts above 0
}

// A batch is a number of sticks that are cut alike.
type batch struct {
	pattern
	count int
}

// A packing is every stick that is cut.
type packing []batch

// value is what the aim counts of a stick of kind k.
func (e *engine) value(k int) int64 {
	if e.byCount {
		return 1
	}
	return e.sticks[k].cost
}

// total is what the aim counts of a packing, and what it costs.
func (e *engine) total(p packing) (value, cost int64) {
	for _, b := range p {
		value += int64(b.count) * e.value(b.stick)
		cost += int64(b.count) * e.sticks[b.stick].cost
	}
	return value, cost
}

// fill is what the pieces of a pattern count.
func (e *engine) fill(sizes []int64, takes []take) int64 {
	sum := int64(0)
	for _, t := range takes {
		sum += sizes[t.kind] * int64(t.count)
	}
	return sum
}

// claim is the claim that a value within the aim makes.
func (e *engine) claim(most int64) stock.Claim {
	if e.byCount {
		return stock.Claim{Cost: e.costMost, Sticks: int(most), Offcut: e.offcut}
	}
	return stock.Claim{Cost: most, Offcut: e.offcut}
}

// step is the common measure of the values.
func (e *engine) step() int64 {
	if e.byCount {
		return 1
	}
	g := int64(0)
	for _, s := range e.sticks {
		g = gcd(g, s.cost)
	}
	return max(g, 1)
}

// uniform reports whether the aim counts all sticks alike.
func (e *engine) uniform() bool {
	return !slices.ContainsFunc(e.sticks, func(s stick) bool { return !e.byCount && s.cost != e.sticks[0].cost })
}

// spare is spareTicks in units.
func (e *engine) spare(c stock.Claim) []int64 {
	out := e.spareTicks(c)
	for k := range out {
		out[k] = e.units(k, out[k])
	}
	return out
}

// units is what a stick of kind k may waste of its capacity in units, which is rounded down, so that the remainder is
// wasted anyhow.
func (e *engine) units(k int, ticks int64) int64 {
	if rest := e.sticks[k].ticks % e.unit; ticks >= rest {
		return (ticks - rest) / e.unit
	}
	return -1
}

// spareTicks is, by stick, what a plan within the claim can waste on a single one; below 0 where it can cut none of the
// kind. See stock.Node for the two ways it is reckoned.
func (e *engine) spareTicks(c stock.Claim) []int64 {
	all, free := int64(0), int64(0)
	for i, w := range e.sizes {
		all += w * e.unit * int64(e.demand[i])
	}
	best, largest := -1, int64(0)
	for k, s := range e.sticks {
		largest = max(largest, s.ticks)
		switch {
		case s.cost == 0:
			free += s.ticks * int64(s.supply)
		case best < 0 || times(e.sticks[best].ticks, s.cost).less(times(s.ticks, e.sticks[best].cost)):
			best = k
		}
	}
	out := make([]int64, len(e.sticks))
	for k, s := range e.sticks {
		out[k] = s.ticks
		if c.Sticks > 0 {
			out[k] = min(out[k], spareOf(times(int64(c.Sticks), largest).minus(times(all+largest-s.ticks, 1)), 1))
		}
		if best >= 0 {
			b := e.sticks[best]
			n := times(free-all, b.cost).plus(times(b.ticks, c.Cost))
			if s.cost > 0 {
				n = n.minus(times(b.ticks, s.cost)).plus(times(b.cost, s.ticks))
			}
			out[k] = min(out[k], spareOf(n, b.cost))
		}
	}
	return out
}

// spareOf is n/d, rounded down, as far as it fits; -1 for all below 0.
func spareOf(n wide, d int64) int64 {
	if n.negative() {
		return -1
	}
	if x, small := n.over(d).small(); small {
		return x
	}
	return math.MaxInt64
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// spareWithin is spare lowered to what the sticks of a node can waste together, where all have a largest number.
func (e *engine) spareWithin(n *node, spare []int64) []int64 {
	sum := wide{}
	for k, most := range n.most {
		if most < 0 {
			return spare
		}
		sum = sum.plus(times(e.sticks[k].ticks, int64(most)))
	}
	for i, w := range n.sizes {
		sum = sum.minus(times(w*e.unit, int64(n.demand[i])))
	}
	together, small := sum.small()
	if !small {
		return spare
	}
	out := slices.Clone(spare)
	for k, s := range e.sticks {
		out[k] = min(out[k], e.units(k, min(together, s.ticks)))
	}
	return out
}

// A meter counts steps, elementary operations to within a small factor, and says when to stop.
type meter struct {
	ctx    context.Context
	steps  int64
	budget int64
	polled int64
	err    error
}

// pollEvery is how many steps pass between two looks at the context: about a millisecond's worth.
const pollEvery = 1 << 20

func (m *meter) spend(n int64) { m.steps += n }

// out reports whether the effort is spent or the context done.
func (m *meter) out() bool {
	if m.err == nil && m.steps >= m.polled+pollEvery {
		m.polled = m.steps
		m.err = m.ctx.Err()
	}
	return m.err != nil || m.steps >= m.budget
}
