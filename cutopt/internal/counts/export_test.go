package counts

import "math/rand/v2"

// DrawWithin is Draw with tables of at most so many points.
func (c *Cycles) DrawWithin(target, points int, rng *rand.Rand) ([]Lot, bool) {
	lots, _, ok := c.draw(target, points, 1<<30, rng)
	return lots, ok
}
