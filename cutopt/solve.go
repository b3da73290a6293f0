package cutopt

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"plank.example/cutopt/internal/strips"
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

	brief bool // even less than EffortQuick, for more than 60 runs
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
	StatusProven    Status = iota // "proven": the objective cannot be bettered; with a Job.Pattern, by that pattern
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
	// Irregular is what the job would need with joints that follow no pattern; nil where it asks for none.
	Irregular *Irregular
	First     Quality // of the first plan found with so few boxes, before it was improved
}

// Stats count the work of Solve in steps, which do not depend on the machine.
type Stats struct {
	Steps  int64 // single-run moves tried by the search
	Paths  int   // shortest paths evaluated by the bound
	Leaves int   // leaves of the proof's branching tree; 1 when it was closed at the root
	Better int64 // steps tried to improve the quality of the floor
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

// Solve plans the floor of a job: it lays out the rows of every room, finds starters that need the fewest boxes (or
// planks) and proves that fewer cannot do, makes the floor better to look at and easier to lay as Job.Aims say, with no more
// boxes (or planks), cuts every plank, and returns a plan in which Check finds nothing.
//
// nil options are the default options. A job that Validate refuses gives its errors; rows that no plan can lay give an
// *InfeasibleError. When ctx is cancelled or the limit passes with a plan in hand, the plan is returned and its Status
// says so; ctx is polled every few thousand steps, well under a tenth of a second for a dwelling. The job is only read.
//
// Time is dominated by the search, whose steps Options.Effort bounds; laying out rows takes O(corners * rows), a bound
// O(runs * steps of the price function) for each shortest path.
func Solve(ctx context.Context, job *Job, opt *Options) (*Result, error) {
	if opt == nil {
		opt = new(Options)
	}
	began := time.Now()
	floors, err := layOut(job)
	if err != nil {
		return nil, err
	}
	instance, places := instanceOf(job, floors)
	perBox, err := job.Box.PlanksPer(job.Plank)
	if err != nil {
		return nil, err
	}
	var pattern rows.Layout
	ask := opt
	if len(job.Pattern) > 0 {
		if pattern, err = patterned(job, instance, places); err != nil {
			return nil, err
		}
		ask = opt.forComparison()
	}
	out, err := minimise(ctx, instance, ask, perBox, job.Spare)
	if err != nil {
		return nil, fitToo(job, explain(job, asMeasured(job, instance), places, err))
	}
	result := &Result{Instance: instance}
	if pattern != nil {
		result.Irregular = keepPattern(job, instance, pattern, perBox, out)
	}
	result.First = betterFloor(ctx, job, opt, instance, places, out, began)
	plan := assemble(job, floors, places, out)
	if broken := Check(job, plan); len(broken) > 0 {
		return nil, &InternalError{Violations: broken}
	}
	result.Plan, result.Status, result.Stats = plan, out.status, out.stats
	return result, nil
}

// asMeasured returns the instance without the fit allowance, for messages.
func asMeasured(job *Job, in *rows.Instance) *rows.Instance {
	out := *in
	out.MinPiece, out.MinEnder, out.Stagger = job.Rules.MinPiece, 0, job.Rules.Stagger
	out.Runs = slices.Clone(in.Runs)
	for i := range out.Runs {
		out.Runs[i].Length -= job.Rules.Fit
	}
	return &out
}

// fitToo adds to an error that rows cannot be laid what the fit allowance asks for on top of the rule.
func fitToo(job *Job, err error) error {
	var no *InfeasibleError
	if fit := job.Rules.Fit; fit > 0 && errors.As(err, &no) {
		text := fit.Format(job.Unit, job.Rules.Grid)
		switch no.Rule {
		case "min-piece":
			no.Text += fmt.Sprintf("; fit %s makes the shortest ender so much longer", text)
		case "stagger":
			no.Text += fmt.Sprintf("; fit %s is added to the stagger twice", text)
		}
	}
	return err
}

// An InternalError reports a plan that Check refuses: a fault of this package, never of the job.
type InternalError struct{ Violations []Violation }

// Error names the first violation.
func (e *InternalError) Error() string {
	return fmt.Sprintf("cutopt: internal error: the plan breaks %d rules, first: %v", len(e.Violations), e.Violations[0])
}

// InstanceOf returns the bare problem of a job: the runs of all its rooms, which of them touch, and the plank. Errors are
// those of Solve.
func InstanceOf(job *Job) (*rows.Instance, error) {
	floors, err := layOut(job)
	if err != nil {
		return nil, err
	}
	in, _ := instanceOf(job, floors)
	return in, nil
}

// layOut validates the job and cuts its rooms into rows and runs.
func layOut(job *Job) ([]*strips.Floor, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	floors, err := floorsOf(job)
	var cannot *strips.Error
	if errors.As(err, &cannot) {
		e := &FieldError{Field: "rooms", Value: cannot.Room, Rule: cannot.Reason}
		for i := range job.Rooms {
			if job.Rooms[i].Name == cannot.Room {
				e.Field = fmt.Sprintf("rooms[%d]", i+1)
			}
		}
		return nil, e
	}
	return floors, err
}
