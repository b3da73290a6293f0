package quality

import (
	"slices"

	"plank.example/cutopt/measure"
)

// A ledger counts the planks of the best pairing of enders and heads (starters, and boards of one-piece runs) without
// pairing them. By Hall's theorem, over thresholds t,
//
//	planks = whole planks + heads + max(0, max_t (#{enders that leave less than t} - #{heads shorter than t})).
//
// Every length of a head is a threshold, and one lies beyond all.
type ledger struct {
	values []measure.Length
	excess []int32 // by threshold: the difference above
	begun  int     // whole planks and heads
}

// newLedger takes thresholds at the multiples of step within a plank and at the lengths given.
func newLedger(plank, step measure.Length, heads []measure.Length) *ledger {
	l := &ledger{values: slices.Clone(heads)}
	for x := step; x <= plank; x += step {
		l.values = append(l.values, x)
	}
	slices.Sort(l.values)
	l.values = slices.Compact(l.values)
	l.excess = make([]int32, len(l.values)+1)
	return l
}

// above returns the first threshold above x.
func (l *ledger) above(x measure.Length) int {
	k, _ := slices.BinarySearch(l.values, x+1)
	return k
}

// head adds (by 1) or takes away (by -1) a head.
func (l *ledger) head(length measure.Length, by int32) {
	l.begun += int(by)
	for k := l.above(length); k < len(l.excess); k++ {
		l.excess[k] -= by
	}
}

// ender adds or takes away an ender that leaves room on its plank.
func (l *ledger) ender(room measure.Length, by int32) {
	for k := l.above(room); k < len(l.excess); k++ {
		l.excess[k] += by
	}
}

// move changes the length of a head, or with by -1 the room beside an ender.
func (l *ledger) move(from, to measure.Length, by int32) {
	a, b := l.above(from), l.above(to)
	if a > b {
		a, b, by = b, a, -by
	}
	for k := a; k < b; k++ {
		l.excess[k] += by
	}
}

// planks returns the number of planks.
func (l *ledger) planks() int { return l.begun + max(0, int(slices.Max(l.excess))) }
