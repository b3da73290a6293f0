package solve

import (
	"errors"
	"fmt"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/enum"
)

// Options steer [Job], [Rows] and [Compare]. The zero value and nil are ready to use. Values out of range are refused
// with one *cutopt.FieldError each.
type Options struct {
	Fewest  Objective // what to have as few as possible of; default FewestBoxes
	Effort  Effort    // how many steps to spend; default EffortNormal
	Seed    uint64    // seed of the search; default 0. Same job, options and seed: the same plan
	Workers int       // goroutines, at most MaxWorkers; default 1. The plan does not depend on it
	// Limit is an extra stop by the clock; default 0 for none. It is a deadline of the context: whichever passes first
	// ends the call. A plan cut short says so in its Status.
	Limit time.Duration
	// Progress, if not nil, is called now and then from the goroutine of the call with a copy of the figures.
	Progress func(Progress)

	brief  bool // even less than EffortQuick, for more than 60 runs
	onSite bool // less than EffortNormal: who asks waits with a plank in hand
}

// MaxWorkers is the largest Options.Workers.
const MaxWorkers = 1024

// checked returns a copy of the options, those by default for nil, or an error that joins one *cutopt.FieldError for
// each value out of range.
func (opt *Options) checked() (*Options, error) {
	if opt == nil {
		return new(Options), nil
	}
	var errs []error
	refuse := func(field string, value any, rule string) {
		errs = append(errs, &cutopt.FieldError{Field: "options." + field, Value: fmt.Sprint(value), Rule: rule})
	}
	if _, err := opt.Fewest.MarshalText(); err != nil {
		refuse("fewest", opt.Fewest, "what to have as few as possible of is boxes or planks")
	}
	if _, err := opt.Effort.MarshalText(); err != nil {
		refuse("effort", opt.Effort, "an effort is quick, normal or thorough")
	}
	if opt.Workers < 0 || opt.Workers > MaxWorkers {
		refuse("workers", opt.Workers, fmt.Sprintf("the goroutines are 1 to %d, or 0 for one", MaxWorkers))
	}
	if opt.Limit < 0 {
		refuse("limit", opt.Limit, "a limit is above 0, or 0 for none")
	}
	copied := *opt
	return &copied, errors.Join(errs...)
}

// forComparison returns the options for the layout that a pattern is compared with: as few planks as a quick search
// finds, since a pattern's cost is in planks.
func (opt *Options) forComparison() *Options {
	quick := *opt
	quick.Fewest = FewestPlanks
	if quick.Effort == EffortNormal {
		quick.Effort = EffortQuick
	}
	return &quick
}

// An Objective says what a plan has as few as possible of.
type Objective uint8

// The objectives.
const (
	FewestBoxes  Objective = iota // "boxes": stop as soon as the number of boxes is settled
	FewestPlanks                  // "planks": go on until the number of planks is
)

var objectiveNames = []string{"boxes", "planks"}

// String returns "boxes" or "planks".
func (o Objective) String() string { return enum.String("Objective", objectiveNames, int(o)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (o Objective) MarshalText() ([]byte, error) {
	return enum.MarshalText("Objective", objectiveNames, int(o))
}

// UnmarshalText reads what MarshalText writes.
func (o *Objective) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Objective", objectiveNames, text, o)
}

// An Effort is how many steps a call spends before it gives up on a proof or on a better plan.
type Effort uint8

// The efforts. The zero value is EffortNormal.
const (
	EffortNormal   Effort = iota // "normal"
	EffortQuick                  // "quick"
	EffortThorough               // "thorough"
)

var effortNames = []string{"normal", "quick", "thorough"}

// String returns "normal", "quick" or "thorough".
func (e Effort) String() string { return enum.String("Effort", effortNames, int(e)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (e Effort) MarshalText() ([]byte, error) { return enum.MarshalText("Effort", effortNames, int(e)) }

// UnmarshalText reads what MarshalText writes.
func (e *Effort) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Effort", effortNames, text, e)
}

// Progress is a moment of a running call.
type Progress struct {
	Phase  Phase
	Planks int   // planks of the best plan so far; 0 before the first
	Bound  int   // proven lower bound on planks; 0 before the first
	Steps  int64 // steps spent
}

// A Phase is what a call is about. A search goes to and fro between PhaseBound, PhaseSearch and PhaseBranch.
type Phase uint8

// The phases, in the order in which a job first meets them.
const (
	PhaseFloor   Phase = iota // "floor": rows and runs are cut out of the outlines
	PhaseBound                // "bound": the proven bound is raised
	PhaseSearch               // "search": a layout of fewer planks is looked for
	PhaseBranch               // "branch": the bound is proven case by case
	PhaseQuality              // "quality": the floor is made better to look at and easier to lay
	PhaseCheck                // "check": pieces are placed and the plan is recounted
)

var phaseNames = []string{"floor", "bound", "search", "branch", "quality", "check"}

// String returns "floor", "bound", "search", "branch", "quality" or "check".
func (p Phase) String() string { return enum.String("Phase", phaseNames, int(p)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (p Phase) MarshalText() ([]byte, error) { return enum.MarshalText("Phase", phaseNames, int(p)) }

// UnmarshalText reads what MarshalText writes.
func (p *Phase) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Phase", phaseNames, text, p)
}
