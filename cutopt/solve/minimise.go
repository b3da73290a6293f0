package solve

import (
	"context"
	"errors"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Rows minimises the planks of a bare instance. Options.Fewest is not read. Errors are those of Instance.Validate and
// of options out of range, an *[InfeasibleError] whose rows are runs, by their names and by their numbers from 1, and
// whose lengths are whole numbers of the instance's own unit, and a *[StoppedError] when there is no layout yet as ctx
// or the limit ends the call.
func Rows(ctx context.Context, in *rows.Instance, opt *Options) (*RowsResult, error) {
	c, end, err := begin(ctx, opt)
	if err != nil {
		return nil, err
	}
	defer end()
	if in == nil {
		return nil, &cutopt.FieldError{Field: "instance", Value: "nil", Rule: "there is nothing to solve"}
	}
	if err := in.Validate(); err != nil {
		return nil, err
	}
	if err := graduated("grid", in); err != nil {
		return nil, err
	}
	terms := cutopt.Terms{PerBox: 1}
	least, err := c.minimise(in, c.enough(&terms), nil)
	if err != nil {
		var stopped *StoppedError
		if errors.As(err, &stopped) {
			return nil, err
		}
		places := make([]place, len(in.Runs))
		for i := range places {
			places[i].name, places[i].row = in.Runs[i].Name, i
		}
		return nil, unitless(explain(&cutopt.Job{}, in, places, err))
	}
	out := &RowsResult{Layout: least.layout, Cutting: least.cutting, Stats: least.stats}
	out.Bound, out.Status = settle(terms, FewestPlanks, least, false)
	return out, nil
}

// A certified bound is a number of planks below which no layout can go, and its proof.
type certified struct {
	planks      int
	certificate *proof.Certificate
}

// A floorplan is a layout of an instance, how its planks are cut, and what is proven.
type floorplan struct {
	layout    rows.Layout
	packing   rows.Packing // of fewest; nil where Instance.Count finds one as good
	cutting   *rows.Cutting
	least     int // planks of the floor of fewest planks, which the boxes are chosen for
	certified certified
	prices    []proof.Step // the best price function by itself
	stats     Stats
	stopped   error // of the context, when it ended the search
	irregular *Irregular
	curtailed bool // with more effort other first rows would be looked at for longer
}

func (f *floorplan) planks() int { return len(f.cutting.Planks) }

// searchBudgets are what bound and search may spend, by effort.
var searchBudgets = [...]*fewest.Budget{
	EffortQuick: &fewest.Quick, EffortNormal: &fewest.Normal, EffortThorough: &fewest.Thorough,
}

// briefRuns is the most runs of a variant that is compared for which the effort is not cut short.
const briefRuns = 60

// budget is what bound and search may spend on so many runs.
func (opt *Options) budget(runs int) *fewest.Budget {
	switch {
	case opt.brief && runs > briefRuns:
		return &fewest.Brief
	case opt.onSite && opt.Effort == EffortNormal:
		return &fewest.Site
	case opt.Fewest == FewestBoxes && opt.Effort == EffortNormal:
		return &fewest.Boxes
	}
	return searchBudgets[opt.Effort]
}

// boxing says how many boxes so many planks ask for.
type boxing interface {
	Boxes(planks int) int   // to buy
	Holding(planks int) int // that hold them where none is lost
}

// enough returns when a layout is as good as a bound: where the boxes to buy are settled, and so is what the floor
// itself takes, which rests on no assumed loss.
func (c *call) enough(terms boxing) func(planks, bound int) bool {
	return func(planks, bound int) bool {
		return planks <= bound || c.opt.Fewest == FewestBoxes && terms.Boxes(planks) <= terms.Boxes(bound) &&
			terms.Holding(planks) <= terms.Holding(bound)
	}
}

// minimise plays bound and search against each other until the objective is settled. Start is a layout to begin with,
// not heeded where it breaks a rule; nil for none.
func (c *call) minimise(
	in *rows.Instance, enough func(planks, bound int) bool, start rows.Layout,
) (*floorplan, error) {
	phase := PhaseBound
	set := fewest.Settings{
		Enough: enough, Start: start,
		Budget: c.opt.budget(len(in.Runs)), Seed: c.opt.Seed, Workers: c.opt.Workers, Stop: c.stop,
		Report: func(name string, planks, bound int, steps int64) {
			if phase.UnmarshalText([]byte(name)) == nil {
				c.report(Progress{Phase: phase, Planks: planks, Bound: bound, Steps: steps})
			}
		},
	}
	out, err := fewest.Solve(in, &set)
	if err != nil {
		if stopped := c.stopped(phase); stopped != nil {
			return nil, stopped
		}
		return nil, err
	}
	f := &floorplan{layout: out.Layout, packing: out.Packing, cutting: in.Cut(out.Layout, out.Packing)}
	f.least = f.planks()
	f.certified, f.prices = certified{out.Bound, out.Certificate}, out.Prices
	f.stats = Stats{Steps: out.Steps, Paths: out.Paths, Leaves: out.Leaves}
	if out.Stopped() {
		f.stopped = c.ctx.Err()
	}
	return f, nil
}
