package check

import (
	"context"
	"errors"
	"fmt"
	"sort"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Proof recomputes the bound of a plan from its certificate without solver code: it takes the bare problem from the
// job's rules and the plan's own rows and runs, which [Plan] holds against the outline, and verifies the certificate
// for it. Together with an empty result of [Plan], nil proves that no layout of these rows needs fewer than
// Bound.Planks planks or Bound.Boxes boxes, and where the plan has Bound.Rooms, that no first row needs fewer boxes:
// the rows that there are come from the outlines then, see [Family]. The errors unwrap to proof.ErrUnproven where the
// certificate falls short. It takes the time of proof.Certificate.Verify: seconds for a few megabytes of certificate.
//
// Of a job that is begun the certificate is of what is left to lay, with the offcuts on hand: nil proves that no layout
// of it takes fewer than Site.Least whole planks, and so, with those opened, Bound.Planks.
func Proof(job *cutopt.Job, plan *cutopt.Plan) error {
	return ProofContext(context.Background(), job, plan)
}

// ProofContext does what [Proof] does, and ends with the error of a context that is done: whoever reads plans of
// strangers gives a deadline.
func ProofContext(ctx context.Context, job *cutopt.Job, plan *cutopt.Plan) error {
	if job == nil || plan == nil {
		return errors.New("check: a proof is of a job and a plan of it")
	}
	c := plan.Bound.Certificate
	claim, err := claimed(plan)
	if err != nil {
		return err
	}
	switch {
	case c == nil && claim == 0 && plan.Site != nil:
	case c == nil:
		return fmt.Errorf("check: %w: the plan carries none", proof.ErrUnproven)
	case c.Planks < claim:
		return fmt.Errorf("check: %w: the plan's bound is %d planks and the certificate claims %d",
			proof.ErrUnproven, plan.Bound.Planks, c.Planks-claim+plan.Bound.Planks)
	}
	per, err := job.Box.PlanksPer(job.Plank)
	if err != nil {
		return err
	}
	if boxes := boundBoxes(job, plan, per); plan.Bound.Boxes > boxes {
		return fmt.Errorf("check: %w: %d planks and spares of %v fill %d boxes of %d, and the plan's bound is %d "+
			"boxes",
			proof.ErrUnproven, plan.Bound.Planks, job.Spare, boxes, per, plan.Bound.Boxes)
	}
	if c == nil {
		return nil
	}
	in, err := Instance(job, plan)
	if err != nil {
		return err
	}
	if err := c.VerifyContext(ctx, in); err != nil {
		return err
	}
	return rooms(ctx, job, plan)
}

// rooms verifies what the plan claims of its rooms, if it does.
func rooms(ctx context.Context, job *cutopt.Job, plan *cutopt.Plan) error {
	of := plan.Bound.Rooms
	if of == nil {
		return nil
	}
	if of.Certificate == nil || of.Certificate.Planks < of.Planks {
		return fmt.Errorf("check: %w: the plan claims %d planks of its rooms, with another certificate or none",
			proof.ErrUnproven, of.Planks)
	}
	family, err := familyOf(ctx, job, plan)
	if err != nil {
		return err
	}
	return of.Certificate.VerifyContext(ctx, family)
}

// claimed returns the bound that the certificate has to prove of the bare problem: of a job that is begun, of what is
// left to lay, in which each run in hand has a plank that lies.
func claimed(plan *cutopt.Plan) (int, error) {
	s := plan.Site
	if s == nil {
		return plan.Bound.Planks, nil
	}
	opened := 0
	for i := range plan.Planks {
		if use := &plan.Planks[i]; use.Opened && !use.Brought {
			opened++
		}
	}
	if plan.Bound.Planks > opened+s.Least {
		return 0, fmt.Errorf("check: %w: %d planks are opened and the rest takes at least %d, and the plan's bound is "+
			"%d", proof.ErrUnproven, opened, s.Least, plan.Bound.Planks)
	}
	if s.Least <= 0 {
		return 0, nil
	}
	return s.Least + len((&checker{plan: plan}).inHand()), nil
}

// boundBoxes returns the boxes that hold the planks of the plan's bound and those kept for repairs.
func boundBoxes(job *cutopt.Job, plan *cutopt.Plan, per int) int {
	buy := &purchase{job, per}
	if plan.Site == nil {
		return buy.holding(plan.Bound.Planks)
	}
	s := (&checker{job: job, plan: plan}).stock(per)
	return s.Bought + s.onTop(s.Least, max(0, s.Least-s.here), 0)
}

// Instance takes the bare problem from a job's rules and the plan's own rows and runs. Of a job that is begun it is
// what is left to lay: the runs that do not lie altogether, begun or not, beside what lies, and the offcuts on hand.
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
		if p.Site != nil {
			if err := addRest(job, &p.Floors[r], in); err != nil {
				return nil, err
			}
			continue
		}
		if err := addRuns(&p.Floors[r], in, rules.Fit); err != nil {
			return nil, err
		}
	}
	if p.Site != nil {
		in.Offcuts = onHand(job, p)
	}
	return in, nil
}

// addRuns appends the runs of a room and the ties of those that touch: runs of rows that share an edge and whose
// extents overlap. Rooms laid from the right are mirrored. Runs are longer by the fit allowance, which their ties do
// not heed.
func addRuns(floor *cutopt.PlanFloor, in *rows.Instance, fit measure.Length) error {
	if len(floor.Rows) == 0 {
		return errors.New("check: a room of the plan has no rows")
	}
	before := len(in.Runs)
	for r, row := range floor.Rows {
		here := len(in.Runs)
		if err := followed(floor, r); err != nil {
			return err
		}
		for _, run := range row.Runs {
			from := run.From
			if floor.LaidFrom == cutopt.HandRight {
				from = -run.To
			}
			in.Runs = append(in.Runs, rows.Run{From: from, Length: run.To - run.From + fit})
		}
		if r > 0 && floor.Rows[r-1].To == row.From {
			tied, err := ties(floor.Rows[r-1].Runs, row.Runs, before, here, mostTies-len(in.Touch))
			if err != nil {
				return err
			}
			in.Touch = append(in.Touch, tied...)
		}
		before = here
	}
	return nil
}

// followed holds that the runs of a row follow each other from the left.
func followed(floor *cutopt.PlanFloor, r int) error {
	runs := floor.Rows[r].Runs
	for k := range runs {
		if k > 0 && runs[k].From < runs[k-1].From {
			return fmt.Errorf("check: row %d of %q: its runs do not follow each other from the left", r+1, floor.Name)
		}
	}
	return nil
}

// mostTies is more pairs of runs that touch than a floor of the most pieces has, whose rows hold each place once.
const mostTies = 2 * cutopt.MaxPieces

// ties lists the pairs of runs of two rows whose extents overlap, by their numbers from i and from j on. Runs follow
// each other from the left, each row for itself.
func ties(a, b []cutopt.PlanRun, i, j, most int) (out [][2]int, err error) {
	reach := make([]measure.Length, len(b)) // how far to the right a run and those before it reach
	for n := range b {
		reach[n] = b[n].To
		if n > 0 {
			reach[n] = max(reach[n], reach[n-1])
		}
	}
	for k := range a {
		n := sort.Search(len(b), func(n int) bool { return reach[n] > a[k].From })
		for ; n < len(b) && b[n].From < a[k].To; n++ {
			if b[n].To > a[k].From {
				out = append(out, [2]int{i + k, j + n})
			}
			if len(out) > most {
				return nil, fmt.Errorf("check: more than %d pairs of runs touch: %w", mostTies, cutopt.ErrTooLarge)
			}
		}
	}
	return out, nil
}
