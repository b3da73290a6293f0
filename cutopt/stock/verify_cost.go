package stock

import "math"

const (
	// tried is how many kinds of sticks to buy may be tried in all numbers.
	tried = 3
	// maxTries is how many numbers of them.
	maxTries = 1 << 20
)

// leastCost is the least that a plan may cost, from a figure on: what some number of sticks of each kind costs that are
// as long together as all pieces. Where there are more than three kinds of sticks to buy, or their numbers are too many
// to try, it is the next multiple of the greatest common measure of all costs.
func leastCost(job *Job, from int64) int64 {
	costs := job.Costs()
	g, need := int64(0), int64(0)
	for _, p := range job.Pieces {
		need += int64(p.Length+job.Kerf) * int64(p.Count)
	}
	var kinds []sold
	tries := 1.0
	for k := range job.Sticks {
		s := &job.Sticks[k]
		capacity := int64(s.Usable() + job.Kerf)
		if costs[k] == 0 {
			need -= capacity * int64(s.Supply)
			continue
		}
		g = gcd(g, costs[k])
		most := from/costs[k] + need/capacity + 2
		if s.Supply > 0 {
			most = min(most, int64(s.Supply))
		}
		if kinds = append(kinds, sold{costs[k], capacity, most}); len(kinds) > 1 {
			tries *= float64(most + 1)
		}
	}
	g = max(g, 1)
	plain := (from + g - 1) / g * g
	if len(kinds) == 0 || len(kinds) > tried || tries > maxTries {
		return plain
	}
	// The first kind is reckoned, the others are tried.
	least := cheapest(kinds[1:], kinds[0], from, need, 0, math.MaxInt64)
	if least == math.MaxInt64 {
		return plain
	}
	return least
}

// A sold is a kind of stick that is bought.
type sold struct{ cost, capacity, most int64 }

// cheapest is the least cost from a figure on of sticks as long as need together, those spent already counted, or best
// if that is less.
func cheapest(kinds []sold, last sold, from, need, spent, best int64) int64 {
	if len(kinds) == 0 {
		n := max(0, (from-spent+last.cost-1)/last.cost, (need+last.capacity-1)/last.capacity)
		if n <= last.most {
			best = min(best, spent+n*last.cost)
		}
		return best
	}
	k := kinds[0]
	for n := int64(0); n <= k.most && spent+n*k.cost < best; n++ {
		best = cheapest(kinds[1:], last, from, need-n*k.capacity, spent+n*k.cost, best)
	}
	return best
}
