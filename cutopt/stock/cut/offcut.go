package cut

import (
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

// offcut makes the largest single offcut longer at the plan's cost and number of sticks: an offcut of length r is one
// more piece. Lengths are tried from what the sticks can waste down, halving what is open of those that can come about.
func (s *solver) offcut() {
	s.refill()
	most := s.longest()
	// Offcuts of least are to be had (0 or one worth keeping), longer ones than most are not.
	least := s.out.Plan.Offcut
	proof := s.wasteless(most)
	possible := s.possible()
	for try := most; least < most; try = max(middle(possible, least, most), s.job.Keep) {
		e := s.kinds.engine(s.job, s.meter, try)
		e.byCount, e.costMost = true, s.out.Plan.Cost
		r := s.run(e)
		r.lower, r.upper = int64(s.out.Plan.Sticks), int64(s.out.Plan.Sticks)+1
		r.solve()
		refuted := r.proof
		r.proof = nil
		s.take(r)
		if r.best != nil {
			s.best = s.kinds.without(r.best)
			least = max(try, s.kinds.plan(s.job, s.best).Offcut)
			continue
		}
		if refuted == nil {
			break
		}
		proof = refuted
		if most = try - 1; most < s.job.Keep {
			most = 0
		}
	}
	s.out.Certificate.Refutations = append(s.out.Certificate.Refutations, proof)
	s.out.Bound.Offcut, s.out.Proven.Offcut = most, least >= most
}

// sumsMost is how many sums of pieces are listed at most.
const sumsMost = 1 << 12

// possible lists the lengths that an offcut can have, ascending: what is left of a stick by any choice of pieces; nil
// where they are too many to list.
func (s *solver) possible() []measure.Length {
	widest := measure.Length(0)
	for i := range s.job.Sticks {
		widest = max(widest, s.job.Sticks[i].Usable()+s.job.Kerf)
	}
	sums := []measure.Length{0}
	seen := map[measure.Length]bool{0: true}
	for i, l := range s.kinds.lengths {
		for at, before := 0, len(sums); at < before; at++ {
			sum := sums[at]
			for range s.kinds.counts[i] {
				if sum += l + s.job.Kerf; sum > widest {
					break
				}
				if !seen[sum] {
					seen[sum] = true
					sums = append(sums, sum)
				}
			}
			if len(sums) > sumsMost {
				return nil
			}
		}
	}
	s.meter.spend(int64(len(sums) * len(s.kinds.lengths)))
	var out []measure.Length
	for i := range s.job.Sticks {
		for _, sum := range sums {
			if left := s.job.Sticks[i].Usable() - sum; left > 0 {
				out = append(out, left)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// middle returns a length to try that parts what is open above least, up to most: of the possible lengths about as many
// are below it as not. It is the least that stands for the same ones, so that a refutation leaves no length between.
func middle(possible []measure.Length, least, most measure.Length) measure.Length {
	if possible == nil {
		return least + (most-least+1)/2
	}
	low, _ := slices.BinarySearch(possible, least+1)
	high, _ := slices.BinarySearch(possible, most+1)
	if at := low + (high-low)/2; at > low {
		return possible[at-1] + 1
	}
	return least + 1
}

// wasteless refutes offcuts longer than most, where what the sticks can waste shows it, or where they are too short:
// what the piece that stands for the offcut is worth then is on no pattern.
func (s *solver) wasteless(most measure.Length) *stock.Refutation {
	values := make([]int64, len(s.kinds.lengths)+1)
	values[len(values)-1] = 1
	return &stock.Refutation{
		Claim: stock.Claim{Cost: s.out.Plan.Cost, Sticks: s.out.Plan.Sticks, Offcut: max(most+1, s.job.Keep)},
		Root:  &stock.Node{Values: values},
	}
}

// longest is an offcut that none of a plan with the same cost and number of sticks passes, by what such a plan can
// waste; 0 where none is worth keeping.
func (s *solver) longest() measure.Length {
	e := s.kinds.engine(s.job, s.meter, 0)
	most := measure.Length(0)
	for _, x := range e.spareTicks(stock.Claim{Cost: s.out.Plan.Cost, Sticks: s.out.Plan.Sticks}) {
		most = max(most, measure.Length(x)-s.job.Kerf)
	}
	if most < s.job.Keep {
		return 0
	}
	return most
}
