package strategy

import (
	"context"
	"errors"
	"slices"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// Library is this project's own solver at one effort.
type Library struct {
	Effort solve.Effort
	Fewest solve.Objective // of whole jobs; bare instances are always laid with the fewest planks
	Limit  time.Duration   // on one floor; 0 for none. With one the answer depends on the machine
}

// Name returns "library-" and the effort, followed by "-planks" where planks count before boxes.
func (l Library) Name() string {
	name := [...]string{
		solve.EffortNormal: "library-normal", solve.EffortQuick: "library-quick",
		solve.EffortThorough: "library-thorough",
	}[l.Effort]
	if l.Fewest == solve.FewestPlanks {
		name += "-planks"
	}
	return name
}

// Lay plans the whole job where there is one, else the bare instance.
func (l Library) Lay(ctx context.Context, floor *Floor) (*Answer, error) {
	opt := &solve.Options{Effort: l.Effort, Fewest: l.Fewest, Limit: l.Limit}
	if floor.Job == nil {
		r, err := solve.Rows(ctx, floor.Rows, opt)
		if err != nil {
			return nil, none(err)
		}
		return &Answer{
			Layout: r.Layout, Packing: PackingOf(floor.Rows, r.Cutting), Certificate: r.Bound.Certificate,
			Steps: r.Stats.Steps,
		}, nil
	}
	job := *floor.Job
	job.Aims = []cutopt.Aim{} // planks are counted here, and better floors may take all that the boxes hold
	r, err := solve.Job(ctx, &job, opt)
	if err != nil {
		return nil, none(err)
	}
	a := &Answer{Plan: r.Plan, Certificate: r.Plan.Bound.Certificate, Steps: r.Stats.Steps}
	a.Layout, a.Packing = layoutOf(r.Plan)
	return a, nil
}

func none(err error) error {
	if errors.Is(err, solve.ErrNoPlan) {
		return errors.Join(ErrNone, err)
	}
	return err
}

// PackingOf reads from a cutting whose plank each one-piece run comes from.
func PackingOf(in *rows.Instance, c *rows.Cutting) rows.Packing {
	packing := make(rows.Packing, len(in.Runs))
	for i := range packing {
		packing[i] = -1
	}
	for _, parts := range slices.Concat(c.Planks, c.Offcuts) {
		host := -1
		for _, p := range parts {
			if p.Role == rows.RoleStarter {
				host = p.Run
			}
		}
		for _, p := range parts {
			if p.Role != rows.RoleSingle {
				continue
			}
			if host < 0 {
				host = p.Run
			} else {
				packing[p.Run] = host
			}
		}
	}
	return packing
}

// layoutOf reads the bare layout and packing back from a plan's pieces, so that what is counted is what is printed.
func layoutOf(plan *cutopt.Plan) (rows.Layout, rows.Packing) {
	var layout rows.Layout
	var packing rows.Packing
	first := make(map[cutopt.PieceRef]int) // run of each starter and of each one-piece run
	single := make(map[cutopt.PieceRef]bool)
	for r, floor := range plan.Floors {
		for y, row := range floor.Rows {
			for x, run := range row.Runs {
				at := cutopt.PieceRef{Floor: r, Row: y, Run: x}
				if floor.LaidFrom == cutopt.HandRight {
					at.Piece = len(run.Pieces) - 1
				}
				first[at] = len(layout)
				length := run.Pieces[at.Piece].Length
				if len(run.Pieces) == 1 {
					single[at], length = true, 0
				}
				layout, packing = append(layout, length), append(packing, -1)
			}
		}
	}
	for _, use := range plan.Planks {
		host := -1
		for _, p := range use.Pieces {
			if run, ok := first[p]; ok && !single[p] {
				host = run
			}
		}
		for _, p := range use.Pieces {
			if !single[p] {
				continue
			}
			if host < 0 {
				host = first[p]
			} else {
				packing[first[p]] = host
			}
		}
	}
	return layout, packing
}
