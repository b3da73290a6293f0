package walk

import (
	"math"

	"plank.example/cutopt/measure"
)

// What the link to the spare one wastes grows as the others waste less, until its plank is used by no more than the
// shortest ender, and next it would have to be used by none: what is saved on the way from one to the other is as much
// as no single move saves. So while staggers are free of charge the last run before the spare link may end in less.

// longestAny is longest for an ender of any length, where the run has no starter or joints beside it given.
func (a *annealing) longestAny(i int, r measure.Length) (measure.Length, int, bool) {
	in := a.in
	run := &in.Runs[i]
	if r >= a.whole[i] || run.Starter > 0 || len(run.Beside) > 0 || a.banded && a.bands.of[i] >= 0 {
		return a.longest(i, r)
	}
	s := min(r, run.Length-in.Grid, in.Plank)
	if s < in.Plank {
		s -= s % in.Grid
	}
	if s < max(in.MinPiece, in.Grid) {
		return 0, 0, false
	}
	return s, int((run.Length-s-1)/in.Plank) + 1, true
}

// short reports whether the last run ends in less than it may.
func (a *annealing) short() bool {
	last := a.before[a.spare]
	_, ok := a.in.Lay(last, a.layout[last])
	return !ok
}

// settle lays the last run as it may be laid, perhaps with some before it, and reports false where it cannot.
func (a *annealing) settle() bool {
	const most = 6
	heat := a.heat
	a.heat = math.MaxInt32
	for n := 1; n <= most && a.short(); n++ {
		first := a.spare
		for range n {
			first = a.before[first]
		}
		var w window
		if !a.take(&w, first, n) {
			break
		}
		a.try(a.wasted(&w), &w)
	}
	a.heat = heat
	return !a.short()
}
