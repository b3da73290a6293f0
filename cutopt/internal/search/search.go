// Package search looks for layouts that fit a given number of planks.
package search

import (
	"math"
	"math/rand/v2"

	"plank.example/cutopt/rows"
)

// An Attempt is one annealed walk towards a target.
type Attempt struct {
	Domain  *Domain
	Start   rows.Layout
	Packing rows.Packing // may be nil
	Target  int          // planks to fit
	Steps   int          // moves at most
	Seed    uint64
	Stop    func() bool // polled every 4,096 moves
}

// Run walks and returns the layout it ended at, whether it fits the target, and the moves made. A layout that fits also
// keeps every stagger.
func (a *Attempt) Run() (layout rows.Layout, packing rows.Packing, steps int, ok bool) {
	st := newState(a.Domain, a.Start, a.Packing, a.Target)
	w := &annealer{state: st, rng: rand.NewPCG(a.Seed, uint64(len(st.options)))}
	steps = w.run(a.Steps, hot, fall, a.Stop)
	layout, packing = st.layout()
	return layout, packing, steps, st.energy == 0 && st.clashes == 0 && (st.crossed == nil || st.counted())
}

// The walk starts at temperature hot and ends at a tenth of it, e^-fall, in units of energy: measured on floors of 30
// to 180 runs, where hotter walks forget the good layout they start from and succeed only as they cool.
const hot, fall = 1, math.Ln10
