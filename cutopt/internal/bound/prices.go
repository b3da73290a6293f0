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
	// uneven has the steps that differ from the rest, where all but a few are equal ones, one at each grid line. Costs of
	// a starter and of the ender it leaves change by as much between them, so that their sum stays.
	uneven []proof.Step
	each   int64 // of the equal steps
	grid   measure.Length
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
// constant between steps and C(u+x+kerf) never falls, so the first place and the steps are all there is to try; of
// equal steps at every grid line the first, since from one to the next C(u) rises by no more than C(u+x+kerf). It takes
// O(steps), or O(uneven steps log steps).
func (p *prices) single(x, kerf, first, last measure.Length) (price int64, u measure.Length) {
	l := p.c.steps[len(p.c.steps)-1].At
	price = infinite
	if first+x <= l && first <= last {
		price, u = p.c.at(first+x)-p.c.at(first-kerf), first-kerf
	}
	steps := p.c.bends()
	if p.c.uneven != nil {
		k := firstStep(p.c.steps, first-kerf-1)
		if s := p.c.steps[k]; s.At+x+kerf <= l && s.At+kerf <= last {
			if d := p.c.at(s.At+x+kerf) - s.Price; d < price {
				price, u = d, s.At
			}
		}
	}
	k := 0 // steps up to the end of the piece
	for _, s := range steps {
		if s.At+x+kerf > l || s.At+kerf > last {
			break
		}
		if s.At+kerf < first {
			continue
		}
		for k < len(steps) && steps[k].At <= s.At+x+kerf {
			k++
		}
		if d := p.c.between(k, s.At+x+kerf) - s.Price; d < price {
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
	even float64,
	l measure.Length,
	kerf measure.Length,
	on []proof.Constraint,
	multipliers []float64,
	relief Relief,
) *prices {
	p := &prices{relief: relief}
	sum, each := int64(0), int64(even*Den/float64(len(thresholds)))
	for i, w := range weights {
		n := min(int64(w*Den)+each, Den-sum)
		if n <= 0 || thresholds[i] >= l {
			continue
		}
		sum += n
		step := proof.Step{At: thresholds[i], Price: sum}
		p.c.steps = append(p.c.steps, step)
		if n != each {
			p.c.uneven = append(p.c.uneven, step)
		}
	}
	last := proof.Step{At: l, Price: Den}
	p.c.steps = append(p.c.steps, last)
	if p.c.uneven = append(p.c.uneven, last); each == 0 || Den-sum < each {
		p.c.uneven = nil
	} else {
		p.c.each, p.c.grid = each, thresholds[0]
	}
	for _, m := range multipliers {
		p.multipliers = append(p.multipliers, int64(m*Den))
	}
	p.derive(on, kerf)
	return p
}

// derive computes starter, ender, started and constant from C and the multipliers.
func (p *prices) derive(on []proof.Constraint, kerf measure.Length) {
	p.starter = p.c
	p.ender = curve{start: Den, steps: opposite(p.c.steps)}
	switch {
	case p.relief != Relief{}: // free starters and enders break the pattern of equal steps
		p.starter.uneven = nil
	case p.c.uneven != nil:
		p.ender.uneven, p.ender.each, p.ender.grid = opposite(p.c.uneven), -p.c.each, p.c.grid
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

// opposite has the steps of Den less a curve.
func opposite(steps []proof.Step) []proof.Step {
	out := make([]proof.Step, len(steps))
	for i, s := range steps {
		out[i] = proof.Step{At: s.At, Price: Den - s.Price}
	}
	return out
}

// plusBelow adds m to the curve left of x.
func (c curve) plusBelow(x measure.Length, m int64) curve {
	out := curve{start: c.start + m, steps: c.raised(c.steps, x, m)}
	if c.uneven != nil {
		out.uneven, out.each, out.grid = c.raised(c.uneven, x, m), c.each, c.grid
	}
	return out
}

// raised returns some of the curve's steps with m added to those left of x, and one at x.
func (c *curve) raised(steps []proof.Step, x measure.Length, m int64) []proof.Step {
	out := make([]proof.Step, 0, len(steps)+1)
	i := 0
	for ; i < len(steps) && steps[i].At < x; i++ {
		out = append(out, proof.Step{At: steps[i].At, Price: steps[i].Price + m})
	}
	out = append(out, proof.Step{At: x, Price: c.at(x)})
	if i < len(steps) && steps[i].At == x {
		i++
	}
	return append(out, steps[i:]...)
}
