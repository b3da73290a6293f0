package quality

import (
	"math/bits"
	"slices"

	"plank.example/cutopt/measure"
)

// A ledger counts the planks of the best pairing of enders and heads (starters, and boards of one-piece runs) without
// pairing them. By Hall's theorem, over thresholds t,
//
//	planks = whole planks + heads + max(0, max_t (#{enders that leave less than t} - #{heads shorter than t})).
//
// Every length of a head is a threshold, and one lies beyond all. The difference is kept by its change from threshold
// to threshold, in the leaves of a tree: a piece changes one leaf and the O(log thresholds) nodes above, and the root
// knows the largest.
type ledger struct {
	step  measure.Length
	steps int              // thresholds that are multiples of step
	odd   []measure.Length // the others, ascending
	tree  []span           // the root at 1, the children of k at 2k and 2k+1; the leaves in the second half
	begun int              // whole planks and heads
}

// A span is some thresholds in a row: how the difference changes over all of them, and how much it is at most above
// that before the first.
type span struct{ sum, most int32 }

// newLedger takes thresholds at the multiples of step within a plank and at the lengths given.
func newLedger(plank, step measure.Length, heads []measure.Length) *ledger {
	l := &ledger{step: step, steps: int(plank / step)}
	for _, x := range heads {
		if x%step != 0 || x > plank {
			l.odd = append(l.odd, x)
		}
	}
	slices.Sort(l.odd)
	l.odd = slices.Compact(l.odd)
	l.tree = make([]span, 2<<bits.Len(uint(l.steps+len(l.odd))))
	return l
}

// above returns the number of the first threshold above x.
func (l *ledger) above(x measure.Length) int {
	k := min(max(int(x/l.step), 0), l.steps)
	if len(l.odd) == 0 {
		return k
	}
	n, _ := slices.BinarySearch(l.odd, x+1)
	return k + n
}

// from adds to the difference at a threshold and all after it.
func (l *ledger) from(threshold int, by int32) {
	t := l.tree
	k := len(t)/2 + threshold
	t[k].sum += by
	t[k].most = t[k].sum
	for k /= 2; k > 0; k /= 2 {
		left, right := t[2*k], t[2*k+1]
		t[k] = span{left.sum + right.sum, max(left.most, left.sum+right.most)}
	}
}

// head adds (by 1) or takes away (by -1) a head.
func (l *ledger) head(length measure.Length, by int32) {
	l.begun += int(by)
	l.from(l.above(length), -by)
}

// ender adds or takes away an ender that leaves room on its plank.
func (l *ledger) ender(room measure.Length, by int32) { l.from(l.above(room), by) }

// move changes the length of a head, or with by -1 the room beside an ender.
func (l *ledger) move(from, to measure.Length, by int32) {
	if a, b := l.above(from), l.above(to); a != b {
		l.from(a, by)
		l.from(b, -by)
	}
}

// planks returns the number of planks.
func (l *ledger) planks() int { return l.begun + max(0, int(l.tree[1].most)) }
