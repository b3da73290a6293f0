package sticks

import (
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

// BestFit packs by best fit decreasing: the longest piece left goes on the stick that it fills most, or on a new one;
// of several kinds the new one costs least for its length and holds the piece. It returns the cost and the sticks.
func BestFit(job *stock.Job) (cost int64, sticks int) {
	var pieces []measure.Length
	for _, p := range job.Pieces {
		for range p.Count {
			pieces = append(pieces, p.Length+job.Kerf)
		}
	}
	slices.SortFunc(pieces, func(a, b measure.Length) int { return int(b - a) })
	costs := job.Costs()
	used := make([]int, len(job.Sticks))
	var left []measure.Length
	for _, w := range pieces {
		best := -1
		for i, l := range left {
			if l >= w && (best < 0 || l < left[best]) {
				best = i
			}
		}
		if best >= 0 {
			left[best] -= w
			continue
		}
		kind := -1
		for k, s := range job.Sticks {
			room := s.Usable() + job.Kerf
			if room < w || s.Supply > 0 && used[k] >= s.Supply {
				continue
			}
			if kind < 0 || costs[k]*int64(job.Sticks[kind].Usable()) < costs[kind]*int64(s.Usable()) {
				kind = k
			}
		}
		if kind < 0 {
			return 0, 0
		}
		used[kind]++
		cost += costs[kind]
		left = append(left, job.Sticks[kind].Usable()+job.Kerf-w)
	}
	return cost, len(left)
}
