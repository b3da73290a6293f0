package solve

import (
	"context"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/rows"
)

// Rows minimises the planks of a bare instance. Options.Fewest is not read. Errors are those of Instance.Validate
// and an *InfeasibleError whose rows are the names of runs.
func Rows(ctx context.Context, in *rows.Instance, opt *Options) (*RowsResult, error) {
	if opt == nil {
		opt = new(Options)
	}
	if err := in.Validate(); err != nil {
		return nil, err
	}
	out, err := minimise(ctx, in, opt, 1, cutopt.Spare{})
	if err != nil {
		places := make([]place, len(in.Runs))
		for i := range places {
			places[i].row = i
		}
		return nil, explain(&cutopt.Job{}, in, places, err)
	}
	return &RowsResult{Layout: out.layout, Cutting: out.cutting, Bound: out.bound, Status: out.status, Stats: out.stats}, nil
}

// minimum is what minimise returns.
type minimum struct {
	layout  rows.Layout
	cutting *rows.Cutting
	bound   cutopt.Bound
	status  Status
	stats   Stats
	quality cutopt.Quality
}

// minimise runs bound and search until the objective is settled.
func minimise(ctx context.Context, in *rows.Instance, opt *Options, perBox int, spare cutopt.Spare) (*minimum, error) {
	boxes := func(planks int) int { return spare.Boxes(planks, perBox) }
	start := time.Now()
	set := fewest.Settings{
		Enough: func(planks, bound int) bool {
			return planks <= bound || opt.Fewest == FewestBoxes && boxes(planks) <= boxes(bound)
		},
		Effort: int(opt.Effort.level()), Seed: opt.Seed, Workers: opt.Workers,
		Stop: func() bool {
			return ctx.Err() != nil || opt.Limit > 0 && time.Since(start) > opt.Limit
		},
	}
	if opt.brief && len(in.Runs) > 60 {
		set.Effort = -1
	}
	if opt.Progress != nil {
		set.Report = func(phase string, planks, bound int, steps int64) {
			opt.Progress(Progress{Phase: phase, Planks: planks, Bound: bound, Steps: steps})
		}
	}
	out, err := fewest.Solve(in, &set)
	if err != nil {
		return nil, err
	}
	m := &minimum{layout: out.Layout, cutting: in.Cut(out.Layout, out.Packing)}
	planks := len(m.cutting.Planks)
	m.bound = cutopt.Bound{
		Planks: out.Bound, Boxes: boxes(out.Bound), PlanksProven: out.Bound == planks,
		Proven: boxes(out.Bound) == boxes(planks), Certificate: out.Certificate,
	}
	m.stats = Stats{Steps: out.Steps, Paths: out.Paths, Leaves: out.Leaves}
	switch {
	case m.bound.PlanksProven || opt.Fewest == FewestBoxes && m.bound.Proven:
		m.status = StatusProven
	case ctx.Err() != nil:
		m.status = StatusCancelled
	case out.Stopped:
		m.status = StatusLimit
	default:
		m.status = StatusExhausted
	}
	return m, nil
}
