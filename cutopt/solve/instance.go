package solve

import (
	"context"
	"errors"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A problem is a job made ready to be searched.
type problem struct {
	job   *cutopt.Job
	terms cutopt.Terms
	*ground
	instance *rows.Instance
	places   []place // of the runs of the instance
	shapes   []bool  // by run, once asked for: some of its pieces are no full rectangles
}

// prepare validates a job and cuts its rooms into rows and runs.
func (c *call) prepare(job *cutopt.Job) (*problem, error) {
	c.report(Progress{Phase: PhaseFloor})
	ground, err := layOut(c.ctx, job)
	if err != nil {
		if stopped := c.stopped(PhaseFloor); stopped != nil && errors.Is(err, c.ctx.Err()) {
			return nil, stopped
		}
		return nil, err
	}
	terms, err := job.Terms()
	if err != nil {
		return nil, err
	}
	p := &problem{job: job, terms: terms, ground: ground}
	p.instance, p.places = instanceOf(job, ground.floors)
	if err := graduated("rules.grid", p.instance); err != nil {
		return nil, err
	}
	return p, nil
}

// instanceOf lists the runs of all floors, room by room and row by row from the starting side, and ties runs of
// neighbouring rows that touch: whose extents along the rows overlap. Rooms laid from the right are mirrored, so that
// in the instance every run is laid from the left; all rooms of a job are laid from one side.
//
// The fit allowance enters exactly. What differs is a run's length, by at most fit, at either of its ends; its starter
// is sawn to its figure and its ender to what is then left. So a run is as long here as it may come out, which makes
// its ender as long as it may have to be: what fits on a plank here fits whatever the wall does. An ender that may come
// out twice fit shorter than that must still be a piece, hence MinEnder; and where a run begins may differ, by fit on
// each side of a joint, hence the wider stagger.
func instanceOf(job *cutopt.Job, floors []*strips.Floor) (*rows.Instance, []place) {
	fit := job.Rules.Fit
	in := &rows.Instance{
		Name: job.Name, Plank: job.Plank.Length, Kerf: job.Rules.Kerf, MinPiece: job.Rules.MinPiece,
		Stagger: job.Rules.Stagger, Grid: job.Rules.Grid,
	}
	if fit > 0 {
		in.MinEnder = in.MinPiece + 2*fit
		if in.Stagger > 0 {
			in.Stagger += 2 * fit
		}
	}
	var places []place
	for f, fl := range floors {
		mirrored := fl.LaidFrom == cutopt.HandRight
		before := [2]int{}
		for r := range fl.Rows {
			row := &fl.Rows[r]
			here := [2]int{len(in.Runs), len(in.Runs) + len(row.Runs)}
			for k, run := range row.Runs {
				from := run.From
				if mirrored {
					from = -run.To
				}
				in.Runs = append(in.Runs, rows.Run{From: from, Length: run.To - run.From + fit, Name: fl.Name})
				places = append(places, place{fl.Name, f, r, k, mirrored})
			}
			if r > 0 && fl.Rows[r-1].To == row.From {
				in.Touch = append(in.Touch, touching(in, fit, before, here)...)
			}
			before = here
		}
	}
	return in, places
}

// touching pairs the runs of two neighbouring rows whose extents overlap, as measured: without the fit allowance.
func touching(in *rows.Instance, fit measure.Length, a, b [2]int) [][2]int {
	var out [][2]int
	for i := a[0]; i < a[1]; i++ {
		for j := b[0]; j < b[1]; j++ {
			p, q := in.Runs[i], in.Runs[j]
			if p.From < q.From+q.Length-fit && q.From < p.From+p.Length-fit {
				out = append(out, [2]int{i, j})
			}
		}
	}
	return out
}

// A place is where a run of the instance lies.
type place struct {
	name           string // of the room
	room, row, run int
	mirrored       bool // rows of the room are laid from the right
}

// Instance returns the bare problem of a job: the runs of all its rooms, which of them touch, and the plank. Errors are
// those of [Job].
func Instance(job *cutopt.Job) (*rows.Instance, error) {
	ground, err := layOut(context.Background(), job)
	if err != nil {
		return nil, err
	}
	in, _ := instanceOf(job, ground.floors)
	return in, nil
}
