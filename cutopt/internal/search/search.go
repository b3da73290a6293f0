// Package search looks for layouts that fit a given number of planks.
package search

import (
	"math"
	"math/rand/v2"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// An Attempt is one annealed walk towards a target.
type Attempt struct {
	Domain  [][]measure.Length // starters each run may take, ascending and not empty; 0 for one piece
	Start   rows.Layout
	Packing rows.Packing // may be nil
	Target  int          // planks to fit
	Steps   int          // moves at most
	Seed    uint64
	Stop    func() bool // polled every 4,096 moves
}

// Run walks and returns the layout it ended at, whether it fits the target, and the moves made. A layout that fits also
// keeps every stagger.
func (a *Attempt) Run(t *starters.Table) (layout rows.Layout, packing rows.Packing, steps int, ok bool) {
	st := newState(t, a.Domain, a.Start, a.Packing, a.Target)
	w := &annealer{state: st, rng: rand.NewPCG(a.Seed, uint64(len(st.options)))}
	steps = w.run(a.Steps, hot, fall, a.Stop)
	layout, packing = st.layout()
	return layout, packing, steps, st.energy == 0 && st.clashes == 0 && (st.crossed == nil || st.counted())
}

// The walk starts at temperature hot and ends at a tenth of it, e^-fall, in units of energy: measured on floors of 30
// to 180 runs, where hotter walks forget the good layout they start from and succeed only as they cool.
const hot, fall = 1, math.Ln10

// Lattice returns the domain of all admissible starters that are multiples of step, which is a multiple of the grid,
// with the ends of each segment and whole planks added. Runs of one length share a list. A step that divides a plank
// into more than finest parts is made wider, so that lists stay short whatever the grid.
func Lattice(t *starters.Table, step measure.Length) [][]measure.Length {
	const finest = 8192
	step *= max(1, t.Instance.Plank/step/finest)
	lists := make([][]measure.Length, len(t.Classes))
	for c := range t.Classes {
		cl := &t.Classes[c]
		var list []measure.Length
		if cl.Single {
			list = append(list, 0)
		}
		for _, seg := range cl.Segments {
			list = append(list, seg.Lo)
			for s := seg.Lo/step*step + step; s < seg.Hi; s += step {
				list = append(list, s)
			}
			if seg.Lo < seg.Hi {
				list = append(list, seg.Hi)
			}
		}
		lists[c] = list
	}
	domain := make([][]measure.Length, len(t.ClassOf))
	for i, c := range t.ClassOf {
		domain[i] = lists[c]
	}
	return domain
}
