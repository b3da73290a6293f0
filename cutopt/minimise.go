package cutopt

import (
	"context"
	"errors"
	"fmt"
	"time"

	"plank.example/cutopt/internal/bound"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A RowsResult is the best layout of a bare instance, what it needs, and what is proven.
type RowsResult struct {
	Layout  rows.Layout
	Cutting *rows.Cutting
	Bound   Bound // Boxes and Proven are of planks: one plank a box
	Status  Status
	Stats   Stats
}

// SolveRows minimises the planks of a bare instance. Options.Fewest is not read. Errors are those of Instance.Validate
// and an *InfeasibleError whose rows are the names of runs.
func SolveRows(ctx context.Context, in *rows.Instance, opt *Options) (*RowsResult, error) {
	if opt == nil {
		opt = new(Options)
	}
	if err := in.Validate(); err != nil {
		return nil, err
	}
	out, err := minimise(ctx, in, opt, 1, Spare{})
	if err != nil {
		places := make([]place, len(in.Runs))
		for i := range places {
			places[i].row = i
		}
		return nil, explain(&Job{}, in, places, err)
	}
	return &RowsResult{Layout: out.layout, Cutting: out.cutting, Bound: out.bound, Status: out.status, Stats: out.stats}, nil
}

// minimum is what minimise returns.
type minimum struct {
	layout  rows.Layout
	cutting *rows.Cutting
	bound   Bound
	status  Status
	stats   Stats
	quality Quality
}

// minimise runs bound and search until the objective is settled.
func minimise(ctx context.Context, in *rows.Instance, opt *Options, perBox int, spare Spare) (*minimum, error) {
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
	m.bound = Bound{
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

// level orders efforts from quick to thorough.
func (e Effort) level() int { return [...]int{EffortQuick: 0, EffortNormal: 1, EffortThorough: 2}[e] }

// A place is where a run of the instance lies.
type place struct {
	name           string // of the room
	room, row, run int
	mirrored       bool // rows of the room are laid from the right
}

// explain turns an error about a run into one about the rows of a job.
func explain(job *Job, in *rows.Instance, places []place, err error) error {
	var inf *bound.Infeasible
	if !errors.As(err, &inf) {
		if errors.Is(err, fewest.ErrNoLayout) {
			return &InfeasibleError{
				Rule: "stagger", Text: "no starters were found that keep every stagger where rows split round islands; " +
					"try a smaller stagger, or thorough effort",
			}
		}
		return err
	}
	len := func(x measure.Length) string { return x.Format(job.Unit, in.Grid) }
	p := places[inf.Run]
	ref := RowRef{Room: p.name, Row: p.row + 1}
	run := in.Runs[inf.Run]
	if !inf.Stagger {
		return &InfeasibleError{
			Rule: "min-piece", Rows: []RowRef{ref},
			Text: fmt.Sprintf("%s is %s long: with planks of %s it needs a starter and an ender of at least min-piece %s each; "+
				"allow a shorter min-piece", ref, len(run.Length), len(in.Plank), len(in.MinPiece)),
		}
	}
	refs := []RowRef{ref}
	for _, t := range in.Touch {
		for k, i := range t {
			if i == inf.Run {
				if q := places[t[1-k]]; q.row < p.row {
					refs = append([]RowRef{{q.name, q.row + 1}}, refs...)
				}
			}
		}
	}
	return &InfeasibleError{
		Rule: "stagger", Rows: refs,
		Text: fmt.Sprintf("%s and the rows before it have no joints left that keep stagger %s with min-piece %s and planks of %s; "+
			"allow a smaller stagger", ref, len(in.Stagger), len(in.MinPiece), len(in.Plank)),
	}
}

// String names the row as a message does: "den row 7".
func (r RowRef) String() string {
	if r.Room == "" {
		return fmt.Sprintf("row %d", r.Row)
	}
	return fmt.Sprintf("%s row %d", r.Room, r.Row)
}
