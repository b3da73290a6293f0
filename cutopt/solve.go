package cutopt

import (
	"context"
	"errors"
	"fmt"
	"time"

	"plank.example/cutopt/rows"
)

// Options steer Solve. The zero value and nil are ready to use.
type Options struct {
	Fewest  Objective     // what to have as few as possible of; default FewestBoxes
	Effort  Effort        // how many steps to spend; default EffortNormal
	Seed    uint64        // seed of the search; default 0. Same job, options and seed: the same plan
	Workers int           // goroutines; default 1. The plan does not depend on it
	Limit   time.Duration // extra stop by the clock; default 0 for none. A plan cut short says so in its Status
	// Progress, if not nil, is called now and then from the goroutine of Solve with a copy of the figures.
	Progress func(Progress)
}

// An Objective says what a plan has as few as possible of.
type Objective uint8

// The objectives.
const (
	FewestBoxes  Objective = iota // "boxes": stop as soon as the number of boxes is settled
	FewestPlanks                  // "planks": go on until the number of planks is
)

// An Effort is how many steps Solve spends before it gives up on a proof or on a better plan.
type Effort uint8

// The efforts. The zero value is EffortNormal.
const (
	EffortNormal   Effort = iota // "normal"
	EffortQuick                  // "quick"
	EffortThorough               // "thorough"
)

// Progress is a moment of a running Solve.
type Progress struct {
	Phase  string // "floor", "bound", "search", "branch" or "check"
	Planks int    // planks of the best plan so far; 0 before the first
	Bound  int    // proven lower bound on planks
	Steps  int64  // steps spent
}

// A Status says why Solve stopped.
type Status uint8

// The statuses.
const (
	StatusProven    Status = iota // "proven": the objective cannot be bettered
	StatusExhausted               // "exhausted": the effort is spent and a gap is left
	StatusLimit                   // "limit": the clock's limit came first
	StatusCancelled               // "cancelled": the context was cancelled
)

// A Result is a plan and how it was reached.
type Result struct {
	Plan     *Plan
	Status   Status
	Stats    Stats
	Instance *rows.Instance // the bare problem that was solved
}

// Stats count the work of Solve in steps, which do not depend on the machine.
type Stats struct {
	Steps  int64 // single-run moves tried by the search
	Paths  int   // shortest paths evaluated by the bound
	Leaves int   // leaves of the proof's branching tree; 1 when it was closed at the root
}

// ErrNoPlan is the sentinel that an InfeasibleError unwraps to.
var ErrNoPlan = errors.New("no plan keeps the rules")

// An InfeasibleError names the rows that no plan can lay and the rule in the way.
type InfeasibleError struct {
	Rule string // key of the rule: "min-piece" or "stagger"
	Rows []RowRef
	Text string // the clash in words, with figures
}

// A RowRef names a row of a room, from 1 at the starting side.
type RowRef struct {
	Room string
	Row  int
}

// Error names the rows, the rule and the figures.
func (e *InfeasibleError) Error() string { return fmt.Sprintf("%v: %s", ErrNoPlan, e.Text) }

// Unwrap returns ErrNoPlan.
func (e *InfeasibleError) Unwrap() error { return ErrNoPlan }

// Solve plans the floor of a job.
func Solve(ctx context.Context, job *Job, opt *Options) (*Result, error) {
	return nil, errors.New("cutopt: Solve is being wired")
}
