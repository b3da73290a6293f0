package solve

import (
	"context"

	"plank.example/cutopt"
)

// FirstPlan plans a job as [Job] does up to the first floor with so few boxes, and returns the plan of that: no joint
// of it was moved.
func FirstPlan(ctx context.Context, job *cutopt.Job, opt *Options) (*cutopt.Plan, error) {
	c, end, err := begin(ctx, opt)
	if err != nil {
		return nil, err
	}
	defer end()
	p, err := c.prepare(job)
	if err != nil {
		return nil, err
	}
	p, floor, err := c.layAnyhow(p)
	if err != nil {
		return nil, err
	}
	p, floor, _ = c.anywhere(p, floor)
	floor.least = floor.planks()
	bound, _ := settle(p.terms, c.opt.Fewest, floor, false)
	return p.assemble(floor, bound), nil
}
