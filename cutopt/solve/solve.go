package solve

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/bits"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
)

// Job plans the floor of a job: it lays out the rows of every room, finds starters that need the fewest boxes (or
// planks) and proves that fewer cannot do, makes the floor better to look at and easier to lay as Job.Aims say, with no
// more boxes (or planks), cuts every plank, and returns a plan in which [check.Plan] finds nothing.
//
// nil options are the default options. A job that Validate refuses, a nil one too, and options out of range give their
// errors; rows that no plan can lay give an *InfeasibleError. When ctx is cancelled or the limit passes with a plan in
// hand, the plan is returned and its Status says so, and before there is one the error is a *StoppedError; ctx is
// polled every few thousand steps, well under a tenth of a second for a dwelling. A deadline is passed by at most a
// quarter of a second: a plan that is not recounted by then is not returned. A job that takes more than
// [cutopt.MaxPieces] gives an error that wraps [cutopt.ErrTooLarge]. The job is only read.
//
// Time is dominated by the search, whose steps Options.Effort bounds; laying out rows takes O(corners * rows), a bound
// O(runs * steps of the price function) for each shortest path.
func Job(ctx context.Context, job *cutopt.Job, opt *Options) (*Result, error) {
	c, end, err := begin(ctx, opt)
	if err != nil {
		return nil, err
	}
	defer end()
	p, err := c.prepare(job)
	if err != nil {
		return nil, err
	}
	whole := c.ctx
	defer c.leave(p.writing())()
	if err := c.stopped(PhaseFloor); err != nil {
		return nil, err
	}
	p, floor, err := c.layAnyhow(p)
	if err != nil {
		return nil, err
	}
	p, floor, rooms := c.anywhere(p, floor)
	first := c.improve(p, floor)
	fixed := floor.irregular != nil && !floor.packed()
	bound, status := settle(p.terms, c.opt.Fewest, floor, fixed)
	c.report(Progress{Phase: PhaseCheck, Planks: floor.planks(), Bound: bound.Planks, Steps: floor.stats.Steps})
	plan, stats := p.assemble(floor, bound), floor.stats
	rooms.borne(p.job, plan)
	if err := recounted(whole, p, plan); err != nil {
		return nil, err
	}
	return &Result{
		Plan: plan, Status: status, Stats: stats, Instance: p.instance, Irregular: floor.irregular,
		Curtailed: floor.curtailed && rooms == nil, Before: first,
	}, nil
}

// overtime is how long a deadline may be passed by for the recount of a plan in hand.
const overtime = 200 * time.Millisecond

// recounted holds a plan against [check.Plan] and returns an *InternalError where it breaks a rule. No plan leaves
// without it: being cancelled does not cut it short, and of a floor so large that it may take longer than the overtime
// it is given up when a deadline and that have passed, with a *StoppedError. An order beyond reckoning is a
// *cutopt.FieldError.
func recounted(ctx context.Context, p *problem, plan *cutopt.Plan) error {
	last := context.WithoutCancel(ctx)
	if deadline, ok := ctx.Deadline(); ok && max(p.writing(), reading(plan)) > overtime {
		var end context.CancelFunc
		last, end = context.WithDeadline(last, deadline.Add(overtime))
		defer end()
	}
	if err := reckonable(p.job, &plan.Order); err != nil {
		return err
	}
	broken, err := check.PlanContext(last, p.job, plan)
	if err != nil {
		return &StoppedError{Phase: PhaseCheck, Err: err}
	}
	if len(broken) > 0 {
		return &InternalError{Violations: broken}
	}
	return nil
}

// reckonable refuses an order whose planks cover more than an area can say, which takes planks of a hundred metres and
// more.
func reckonable(job *cutopt.Job, o *cutopt.Order) error {
	planks := max(o.Planks, o.Boxes*o.PlanksPerBox)
	high, low := bits.Mul64(uint64(job.Plank.Length)*uint64(job.Plank.Width), uint64(planks))
	if high == 0 && low <= math.MaxInt64 {
		return nil
	}
	return &cutopt.FieldError{
		Field: "plank", Value: fmt.Sprintf("%s x %s", job.Plank.Length.Format(job.Unit, measure.Tick),
			job.Plank.Width.Format(job.Unit, measure.Tick)),
		Rule: fmt.Sprintf("%d planks of this size cover more than 90 square kilometres", planks),
		Mend: "check the unit of the plank's size, and the spares", Err: cutopt.ErrTooLarge,
	}
}

// layAnyhow lays the floor, and where it cannot be laid as its rows lie, with other first rows that the job leaves
// open.
func (c *call) layAnyhow(p *problem) (*problem, *floorplan, error) {
	var floor *floorplan
	p, err := c.anyhow(p, func(p *problem) (err error) {
		floor, err = c.lay(p)
		return err
	})
	var no *InfeasibleError
	if errors.As(err, &no) {
		err = c.advise(p, no)
	}
	return p, floor, err
}

// lay returns the floor of the fewest boxes or planks; of a job with a pattern, that of the pattern.
func (c *call) lay(p *problem) (*floorplan, error) {
	if len(p.job.Pattern) == 0 {
		return c.least(p, c.opt)
	}
	pattern, err := p.patterned()
	if err != nil {
		return nil, err
	}
	floor, err := c.least(p, c.opt.forComparison())
	if err != nil {
		return nil, err
	}
	floor.follow(p, pattern)
	return floor, nil
}

// least returns the floor of the fewest boxes or planks, as the options ask.
func (c *call) least(p *problem, opt *Options) (*floorplan, error) {
	ask := &call{c.ctx, opt}
	floor, err := ask.minimise(p.instance, ask.enough(&p.terms), nil)
	if err != nil {
		return nil, fitToo(p.job, explain(p.job, asMeasured(p.job, p.instance), p.places, err))
	}
	return floor, nil
}
