package bound

import (
	"sort"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
)

// Den is the common denominator of prices: a whole plank is worth Den.
const Den = proof.Denominator

// curve is a step function: value before the first step, then each step's price from its At on.
type curve struct {
	start int64
	steps []proof.Step // ascending in At
}

func (c *curve) at(x measure.Length) int64 {
	i := sort.Search(len(c.steps), func(i int) bool { return c.steps[i].At > x })
	if i == 0 {
		return c.start
	}
	return c.steps[i-1].Price
}

// prices are what pieces cost in a dual solution: the price function C and a multiplier for each constraint of the
// branch. A run costs started for its starter and each whole plank, Den for each whole plank, starter(s) for its
// starter and ender(L-kerf-e) for its ender; a one-piece run x < L costs the least C(u+x+kerf) - C(u). Without
// constraints starter(s) = C(s), ender(r) = Den - C(r) and started = 0.
type prices struct {
	c           curve // non-decreasing from 0, Den at L
	multipliers []int64
	starter     curve
	ender       curve
	started     int64
	constant    int64 // what the constraints' right-hand sides add
	relief      Relief
}

// single returns the price of a piece x < L of a one-piece run that may lie at the places from first to last, min over
// u of C(u+x+kerf) - C(u) where u + kerf is the place, and the u that gives it; infinite where it fits at none. On a
// plank with starter s, pieces x and ender e the differences telescope from s to at most L-kerf-e, so the prices of all
// its pieces sum to at most Den; u = -kerf stands for a plank without a starter, where one kerf fewer is sawn. C(u) is
// constant between steps and C(u+x+kerf) never falls, so the first place and the steps are all there is to try. It
// takes O(steps log steps).
func (p *prices) single(x, kerf, first, last measure.Length) (price int64, u measure.Length) {
	l := p.c.steps[len(p.c.steps)-1].At
	price = infinite
	if first+x <= l && first <= last {
		price, u = p.c.at(first+x)-p.c.at(first-kerf), first-kerf
	}
	for _, s := range p.c.steps {
		if s.At+x+kerf > l || s.At+kerf > last {
			break
		}
		if s.At+kerf < first {
			continue
		}
		if d := p.c.at(s.At+x+kerf) - s.Price; d < price {
			price, u = d, s.At
		}
	}
	return price, u
}

// newPrices makes the prices whose C steps by weights[i] at thresholds[i], rounded down to Den-ths, what is left of 1
// at L, with the given multiplier on each constraint.
func newPrices(
	thresholds []measure.Length,
	weights []float64,
	l measure.Length,
	kerf measure.Length,
	on []proof.Constraint,
	multipliers []float64,
	relief Relief,
) *prices {
	p := &prices{relief: relief}
	sum := int64(0)
	for i, w := range weights {
		n := min(int64(w*Den), Den-sum)
		if n <= 0 || thresholds[i] >= l {
			continue
		}
		sum += n
		p.c.steps = append(p.c.steps, proof.Step{At: thresholds[i], Price: sum})
	}
	p.c.steps = append(p.c.steps, proof.Step{At: l, Price: Den})
	for _, m := range multipliers {
		p.multipliers = append(p.multipliers, int64(m*Den))
	}
	p.derive(on, kerf)
	return p
}

// derive computes starter, ender, started and constant from C and the multipliers.
func (p *prices) derive(on []proof.Constraint, kerf measure.Length) {
	p.starter = p.c
	p.ender = curve{start: Den, steps: make([]proof.Step, len(p.c.steps))}
	for i, s := range p.c.steps {
		p.ender.steps[i] = proof.Step{At: s.At, Price: Den - s.Price}
	}
	p.relieve(kerf)
	for k, c := range on {
		m := p.multipliers[k]
		if !c.AtMost {
			m = -m
		}
		if m == 0 {
			continue
		}
		p.constant -= m * int64(c.Value)
		switch c.Of {
		case proof.OfStarted:
			p.started += m
		case proof.OfStarters:
			p.starter = p.starter.plusBelow(c.Below, m)
		case proof.OfEnders:
			p.ender = p.ender.plusBelow(c.Below, m)
		case proof.OfDeficit:
			p.ender = p.ender.plusBelow(c.Below, m)
			p.starter = p.starter.plusBelow(c.Below, -m)
		}
	}
}

// plusBelow adds m to the curve left of x.
func (c curve) plusBelow(x measure.Length, m int64) curve {
	out := curve{start: c.start + m}
	i := 0
	for ; i < len(c.steps) && c.steps[i].At < x; i++ {
		out.steps = append(out.steps, proof.Step{At: c.steps[i].At, Price: c.steps[i].Price + m})
	}
	out.steps = append(out.steps, proof.Step{At: x, Price: c.at(x)})
	if i < len(c.steps) && c.steps[i].At == x {
		i++
	}
	out.steps = append(out.steps, c.steps[i:]...)
	return out
}
