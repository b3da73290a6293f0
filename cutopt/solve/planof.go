package solve

import (
	"context"

	"plank.example/cutopt"
	"plank.example/cutopt/rows"
)

// PlanOf makes a plan of a layout of the bare problem of a job, as [Instance] gives it, that was found by other means:
// by hand, by habit, by another solver. A nil packing leaves it to rows.Instance.Cut on which planks one-piece runs
// lie. The plan is for check.Plan to judge: it may bring joints too close, and nothing is proven of it: its bound is 0.
// Its rows are those that the planner chooses first.
//
// The error is that of [Job] for the job, or an *rows.Error that says which starter or which place on a plank cannot
// be. It takes O(n log n) for n pieces.
func PlanOf(job *cutopt.Job, layout rows.Layout, packing rows.Packing) (*cutopt.Plan, error) {
	c := &call{context.Background(), new(Options)}
	p, err := c.prepare(job)
	if err != nil {
		return nil, err
	}
	in := *p.instance
	in.Touch = nil // joints too close are for Check to find
	if err := in.Check(layout); err != nil {
		return nil, err
	}
	if err := in.CheckPacking(layout, packing); err != nil {
		return nil, err
	}
	floor := &floorplan{layout: layout, cutting: p.instance.Cut(layout, packing)}
	floor.least = floor.planks()
	bound, _ := settle(p.terms, c.opt.Fewest, floor, false)
	return p.assemble(floor, bound), nil
}
