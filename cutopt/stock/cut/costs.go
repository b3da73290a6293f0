package cut

import "math"

const (
	// pricesMost is how many kinds of sticks to buy may have all their numbers tried, and numbersMost how many numbers:
	// the limits of stock.Verify, which must come to the same cost.
	pricesMost  = 3
	numbersMost = 1 << 20
)

// next is the least value of a packing from a figure on: a number of sticks, or what some number of sticks of each kind
// costs that are as long together as all pieces. Where these are too many to try it is the next multiple of the common
// measure of all costs. It takes O(n²) for three kinds of which n may be cut.
func (e *engine) next(from int64) int64 {
	if e.byCount {
		return from
	}
	c := costing{from: from, least: math.MaxInt64}
	need := int64(0)
	for i, w := range e.sizes {
		need += w * e.unit * int64(e.demand[i])
	}
	for _, s := range e.sticks {
		if s.cost == 0 {
			need -= s.ticks * int64(s.supply)
		} else {
			c.sticks = append(c.sticks, s)
		}
	}
	step := e.step()
	plain := (from + step - 1) / step * step
	if len(c.sticks) == 0 || len(c.sticks) > pricesMost {
		return plain
	}
	numbers := 1.0
	for i := range c.sticks {
		s := &c.sticks[i]
		most := from/s.cost + need/s.ticks + 2
		if s.supply >= 0 {
			most = min(most, int64(s.supply))
		}
		if s.supply = int(most); i > 0 {
			numbers *= float64(most + 1)
		}
	}
	if numbers > numbersMost {
		return plain
	}
	e.meter.spend(int64(numbers) * 8)
	if c.try(1, need, 0); c.least == math.MaxInt64 {
		return plain
	}
	return c.least
}

// A costing tries numbers of sticks; supply is the most of each that need be tried.
type costing struct {
	sticks []stick
	from   int64
	least  int64
}

// try tries those from kind k on, then as many of the first as are still needed.
func (c *costing) try(k int, need, spent int64) {
	if k < len(c.sticks) {
		s := c.sticks[k]
		for n := int64(0); n <= int64(s.supply) && spent+n*s.cost < c.least; n++ {
			c.try(k+1, need-n*s.ticks, spent+n*s.cost)
		}
		return
	}
	s := c.sticks[0]
	n := max(0, (c.from-spent+s.cost-1)/s.cost, (need+s.ticks-1)/s.ticks)
	if n <= int64(s.supply) {
		c.least = min(c.least, spent+n*s.cost)
	}
}
