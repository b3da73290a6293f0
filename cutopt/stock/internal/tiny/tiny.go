// Package tiny has jobs so small that every way to cut them can be tried, for tests.
package tiny

import (
	"math/rand/v2"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

// A Best is the optimum of a job, found by trying every way to put pieces on sticks.
type Best struct {
	Found  bool
	Cost   int64
	Sticks int
	Offcut measure.Length // the longest one worth keeping, 0 for none
}

// Brute tries every way: exponential in pieces.
func Brute(job *stock.Job) Best {
	var pieces []measure.Length
	for _, p := range job.Pieces {
		for range p.Count {
			pieces = append(pieces, p.Length)
		}
	}
	costs := job.Costs()
	type open struct {
		stick int
		left  measure.Length // for pieces with a kerf each
	}
	var out Best
	var sticks []open
	used := make([]int, len(job.Sticks))
	var place func(i int, cost int64)
	place = func(i int, cost int64) {
		if out.Found && cost > out.Cost {
			return
		}
		if i == len(pieces) {
			longest := measure.Length(0)
			for _, s := range sticks {
				if l := s.left - job.Kerf; l >= job.Keep {
					longest = max(longest, l)
				}
			}
			b := Best{true, cost, len(sticks), longest}
			if !out.Found || b.Cost < out.Cost || b.Cost == out.Cost &&
				(b.Sticks < out.Sticks || b.Sticks == out.Sticks && b.Offcut > out.Offcut) {
				out = b
			}
			return
		}
		w := pieces[i] + job.Kerf
		for k := range sticks {
			if sticks[k].left >= w {
				sticks[k].left -= w
				place(i+1, cost)
				sticks[k].left += w
			}
		}
		for k, s := range job.Sticks {
			if room := s.Usable() + job.Kerf; room >= w && (s.Supply == 0 || used[k] < s.Supply) {
				used[k]++
				sticks = append(sticks, open{k, room - w})
				place(i+1, cost+costs[k])
				sticks = sticks[:len(sticks)-1]
				used[k]--
			}
		}
	}
	place(0, 0)
	return out
}

// Job draws a tiny job: up to 7 pieces, up to 3 kinds of sticks, some with supply, on hand, waste, prices.
func Job(r *rand.Rand) *stock.Job {
	job := &stock.Job{
		Unit: measure.UnitMillimetre, Kerf: measure.Length(r.IntN(4)), Keep: measure.Length(r.IntN(12)),
	}
	long := 20 + r.IntN(60)
	priced := r.IntN(2) == 0
	for k := range 1 + r.IntN(3) {
		s := stock.Stick{Length: measure.Length(long + r.IntN(40)), Waste: measure.Length(r.IntN(3))}
		if priced {
			s.Price = int64(1 + r.IntN(30))
		}
		if r.IntN(3) == 0 {
			s.Supply = 1 + r.IntN(3)
		}
		if k > 0 && r.IntN(4) == 0 {
			s.OnHand, s.Supply, s.Price = true, 1+r.IntN(2), 0
		}
		job.Sticks = append(job.Sticks, s)
	}
	left := 1 + r.IntN(7)
	for left > 0 {
		p := stock.Piece{Length: measure.Length(3 + r.IntN(long-8)), Count: 1 + r.IntN(min(left, 3))}
		left -= p.Count
		job.Pieces = append(job.Pieces, p)
	}
	return job
}
