package solve

import (
	"context"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/rows"
)

// Job plans the floor of a job: it lays out the rows of every room, finds starters that need the fewest boxes (or
// planks) and proves that fewer cannot do, makes the floor better to look at and easier to lay as Job.Aims say, with no more
// boxes (or planks), cuts every plank, and returns a plan in which [check.Plan] finds nothing.
//
// nil options are the default options. A job that Validate refuses gives its errors; rows that no plan can lay give an
// *InfeasibleError. When ctx is cancelled or the limit passes with a plan in hand, the plan is returned and its Status
// says so; ctx is polled every few thousand steps, well under a tenth of a second for a dwelling. Where that happens while
// the rows are laid out, the error is the context's. A job that takes more than [cutopt.MaxPieces] gives an error that wraps
// [cutopt.ErrTooLarge]. The job is only read.
//
// Time is dominated by the search, whose steps Options.Effort bounds; laying out rows takes O(corners * rows), a bound
// O(runs * steps of the price function) for each shortest path.
func Job(ctx context.Context, job *cutopt.Job, opt *Options) (*Result, error) {
	if opt == nil {
		opt = new(Options)
	}
	began := time.Now()
	laying := ctx
	if opt.Limit > 0 {
		var done context.CancelFunc
		laying, done = context.WithTimeout(ctx, opt.Limit)
		defer done()
	}
	floors, err := layOut(laying, job)
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
	if broken := check.Plan(job, plan); len(broken) > 0 {
		return nil, &InternalError{Violations: broken}
	}
	result.Plan, result.Status, result.Stats = plan, out.status, out.stats
	return result, nil
}
