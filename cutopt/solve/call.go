package solve

import (
	"context"
	"fmt"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A call is a running [Job] or [Rows]: its options, its clock and who is told of its progress.
type call struct {
	ctx context.Context
	opt *Options
}

// begin checks the options and starts the clock. End must be called when the call is over.
func begin(ctx context.Context, opt *Options) (c *call, end context.CancelFunc, err error) {
	if opt, err = opt.checked(); err != nil {
		return nil, nil, err
	}
	end = func() {}
	if opt.Limit > 0 {
		ctx, end = context.WithTimeout(ctx, opt.Limit)
	}
	return &call{ctx, opt}, end, nil
}

// graduated returns an error where a plank has more lines of the grid than starters can be searched on.
func graduated(field string, in *rows.Instance) error {
	n := in.Plank / in.Grid
	if n <= cutopt.MaxGraduations {
		return nil
	}
	return &cutopt.FieldError{
		Field: field, Value: fmt.Sprintf("%d to a plank", n), Rule: fmt.Sprintf("at most %d graduations make a plank",
			cutopt.MaxGraduations),
		Mend: "write the step your tape shows, such as 1/16 in or 1 mm", Err: cutopt.ErrTooLarge,
	}
}

// stop reports whether the clock or the context ends the call. It is polled, and may be from several goroutines.
func (c *call) stop() bool { return c.ctx.Err() != nil }

// leave lets the search end early enough for what comes after it, which is not cut short: a plan in hand is worth
// having. The function it returns must be called when the call is over.
func (c *call) leave(rest time.Duration) context.CancelFunc {
	deadline, ok := c.ctx.Deadline()
	if !ok {
		return func() {}
	}
	ctx, end := context.WithDeadline(c.ctx, deadline.Add(-rest))
	c.ctx = ctx
	return end
}

// writing is the time that placing the pieces of a floor and recounting them is expected to take: on a core of 2020 and
// later, about 3 microseconds for each piece and 50 for each corner, of which the ring round a pipe has 24.
func (p *problem) writing() time.Duration {
	pieces, corners := measure.Length(0), 0
	for _, r := range p.instance.Runs {
		pieces += r.Length/p.instance.Plank + 2
	}
	for i := range p.job.Rooms {
		corners += len(p.job.Rooms[i].Outline) + 24*len(p.job.Rooms[i].Pipes)
		for k := range p.job.Rooms[i].Islands {
			corners += len(p.job.Rooms[i].Islands[k].Outline)
		}
	}
	return time.Duration(pieces)*4*time.Microsecond + time.Duration(corners)*50*time.Microsecond
}

// reading is the time that recounting a plan is expected to take which others made: it may have shapes of more corners
// than its rooms.
func reading(plan *cutopt.Plan) time.Duration {
	pieces, corners := 0, 0
	for i := range plan.Floors {
		for k := range plan.Floors[i].Rows {
			for _, run := range plan.Floors[i].Rows[k].Runs {
				pieces += len(run.Pieces)
				for m := range run.Pieces {
					corners += len(run.Pieces[m].Shape)
				}
			}
		}
	}
	return time.Duration(pieces)*4*time.Microsecond + time.Duration(corners)*50*time.Microsecond
}

// report tells of the progress.
func (c *call) report(p Progress) {
	if c.opt.Progress != nil {
		c.opt.Progress(p)
	}
}

// stopped returns a *StoppedError when the clock or the context ended the call in a phase before there was a plan.
func (c *call) stopped(phase Phase) error {
	if err := c.ctx.Err(); err != nil {
		return &StoppedError{Phase: phase, Err: err}
	}
	return nil
}

// A StoppedError says that the clock or the context ended a call before there was a plan. It says nothing of whether
// there is one.
type StoppedError struct {
	Phase Phase // in which the call was stopped
	Err   error // context.DeadlineExceeded, for Options.Limit too, or context.Canceled
}

// Error names the phase and what stopped it.
func (e *StoppedError) Error() string {
	return fmt.Sprintf("stopped before there was a plan, in phase %v: %v; %s", e.Phase, e.Err, e.Hint())
}

// Hint says how to mend it.
func (e *StoppedError) Hint() string { return "give it more time" }

// Unwrap returns what stopped the call.
func (e *StoppedError) Unwrap() error { return e.Err }
