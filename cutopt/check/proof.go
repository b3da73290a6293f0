package check

import (
	"errors"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Proof recomputes the bound of a plan from its certificate without solver code: it takes the bare problem from the
// job's rules and the plan's own rows and runs, which [Plan] holds against the outline, and verifies the certificate
// for it. Together with an empty result of [Plan], nil proves that no layout of these rows needs fewer than
// Bound.Planks planks or Bound.Boxes boxes. The errors unwrap to proof.ErrUnproven where the certificate falls short.
// It takes the time of proof.Certificate.Verify.
func Proof(job *cutopt.Job, plan *cutopt.Plan) error {
	if job == nil || plan == nil {
		return errors.New("cutopt: a proof is of a job and a plan of it")
	}
	c := plan.Bound.Certificate
	switch {
	case c == nil:
		return fmt.Errorf("cutopt: %w: the plan carries none", proof.ErrUnproven)
	case c.Planks < plan.Bound.Planks:
		return fmt.Errorf("cutopt: %w: the plan's bound is %d planks and the certificate claims %d",
			proof.ErrUnproven, plan.Bound.Planks, c.Planks)
	}
	per, err := job.Box.PlanksPer(job.Plank)
	if err != nil {
		return err
	}
	if boxes := (&purchase{job, per}).holding(plan.Bound.Planks); plan.Bound.Boxes > boxes {
		return fmt.Errorf("cutopt: %w: %d planks and spares of %v fill %d boxes of %d, and the plan's bound is %d boxes",
			proof.ErrUnproven, plan.Bound.Planks, job.Spare, boxes, per, plan.Bound.Boxes)
	}
	in, err := Instance(job, plan)
	if err != nil {
		return err
	}
	return c.Verify(in)
}

// Instance takes the bare problem from a job's rules and the plan's own rows and runs.
func Instance(job *cutopt.Job, p *cutopt.Plan) (*rows.Instance, error) {
	rules := &job.Rules
	in := &rows.Instance{
		Plank: job.Plank.Length, Kerf: rules.Kerf, MinPiece: rules.MinPiece, Stagger: rules.Stagger, Grid: rules.Grid,
		MinEnder: rules.MinPiece + 2*rules.Fit,
	}
	if rules.Stagger > 0 {
		in.Stagger = rules.Stagger + 2*rules.Fit
	}
	for r := range p.Floors {
		if err := addRuns(&p.Floors[r], in, rules.Fit); err != nil {
			return nil, err
		}
	}
	return in, nil
}

// addRuns appends the runs of a room and the ties of those that touch: runs of rows that share an edge and whose
// extents overlap. Rooms laid from the right are mirrored. Runs are longer by the fit allowance, which their ties do
// not heed.
func addRuns(room *cutopt.PlanFloor, in *rows.Instance, fit measure.Length) error {
	if len(room.Rows) == 0 {
		return errors.New("cutopt: a room of the plan has no rows")
	}
	before := len(in.Runs)
	for r, row := range room.Rows {
		here := len(in.Runs)
		for _, run := range row.Runs {
			from := run.From
			if room.LaidFrom == cutopt.HandRight {
				from = -run.To
			}
			in.Runs = append(in.Runs, rows.Run{From: from, Length: run.To - run.From + fit})
		}
		if r > 0 && room.Rows[r-1].To == row.From {
			for i := before; i < here; i++ {
				for j := here; j < len(in.Runs); j++ {
					a, b := in.Runs[i], in.Runs[j]
					if a.From < b.From+b.Length-fit && b.From < a.From+a.Length-fit {
						in.Touch = append(in.Touch, [2]int{i, j})
					}
				}
			}
		}
		before = here
	}
	return nil
}
