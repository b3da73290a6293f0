package solve

import (
	"time"
)

// level orders efforts from quick to thorough.
func (e Effort) level() int { return [...]int{EffortQuick: 0, EffortNormal: 1, EffortThorough: 2}[e] }

// forComparison returns the options for the layout that a pattern is compared with: as few planks as a quick search finds,
// since a pattern's cost is in planks.
func (opt *Options) forComparison() *Options {
	quick := *opt
	quick.Fewest = FewestPlanks
	if quick.Effort == EffortNormal {
		quick.Effort = EffortQuick
	}
	return &quick
}

// Options steer [Job], [Rows] and [Compare]. The zero value and nil are ready to use.
type Options struct {
	Fewest  Objective     // what to have as few as possible of; default FewestBoxes
	Effort  Effort        // how many steps to spend; default EffortNormal
	Seed    uint64        // seed of the search; default 0. Same job, options and seed: the same plan
	Workers int           // goroutines; default 1. The plan does not depend on it
	Limit   time.Duration // extra stop by the clock; default 0 for none. A plan cut short says so in its Status
	// Progress, if not nil, is called now and then from the goroutine of the call with a copy of the figures.
	Progress func(Progress)

	brief bool // even less than EffortQuick, for more than 60 runs
}

// An Objective says what a plan has as few as possible of.
type Objective uint8

// The objectives.
const (
	FewestBoxes  Objective = iota // "boxes": stop as soon as the number of boxes is settled
	FewestPlanks                  // "planks": go on until the number of planks is
)

// An Effort is how many steps a call spends before it gives up on a proof or on a better plan.
type Effort uint8

// The efforts. The zero value is EffortNormal.
const (
	EffortNormal   Effort = iota // "normal"
	EffortQuick                  // "quick"
	EffortThorough               // "thorough"
)

// Progress is a moment of a running call.
type Progress struct {
	Phase  string // "floor", "bound", "search", "branch" or "check"
	Planks int    // planks of the best plan so far; 0 before the first
	Bound  int    // proven lower bound on planks
	Steps  int64  // steps spent
}
