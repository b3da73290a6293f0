package site

import (
	"errors"
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
)

// Apply returns what package solve plans on from: the job with the measures that differ, and the plan with marks of
// what lies, what was opened and lost, and the stock that is here. Neither job nor plan is changed. The remarks tell
// what was assumed, and which rules what lies does not keep.
//
// What lies and what was opened follows from the plan: a plank is opened when some of it lies, or a line tells of it.
// What is here is what the plan says to buy, less what was opened, unless planks or boxes are counted. Planned pieces
// stay in the rows; of planks of which something is gone they are taken off.
//
// The error is of type [Errors], each with the place of its line: states that contradict the plan or the job, or
// change what lies. It takes time in proportion to the pieces of the plan and the events, and where measures differ to
// lay the rooms out a few times.
func Apply(job *cutopt.Job, plan *cutopt.Plan, state *State) (*cutopt.Job, *cutopt.Plan, []cutopt.Finding, error) {
	a, err := work(job, plan, state)
	if err != nil {
		return nil, nil, nil, err
	}
	return a.job, a.plan, a.remarks, nil
}

// ToFit returns the state without the lines that tell of other lengths within the fit allowance, and whether there are
// any: whoever cuts those rows to fit can lay them by the plan as it is, with less left of the allowance for what turns
// out otherwise still. The errors are those of [Apply], and so is the time.
func ToFit(job *cutopt.Job, plan *cutopt.Plan, state *State) (*State, bool, error) {
	a, err := work(job, plan, state)
	if err != nil {
		return nil, false, err
	}
	out := new(State)
	for i := range state.Events {
		e := &state.Events[i]
		if by, ok := a.by[e]; !ok || max(by, -by) > job.Rules.Fit || a.within[e] {
			out.Events = append(out.Events, *e)
		}
	}
	return out, len(out.Events) < len(state.Events), nil
}

// work works a state into copies of a job and its plan.
func work(job *cutopt.Job, plan *cutopt.Plan, state *State) (*application, error) {
	seq, err := laying.FromPlan(job, plan)
	if err != nil {
		return nil, Errors{{
			Msg: "plan and job do not go together: " + err.Error(), Mend: "give the plan made from this job",
		}}
	}
	if o := &plan.Order; min(o.Boxes, o.PlanksPerBox) < 0 || max(o.Boxes, o.PlanksPerBox) > mostPlanks ||
		o.Boxes*o.PlanksPerBox > 5*mostPlanks { // planks that are here or lost are listed one by one
		return nil, Errors{{
			Msg:  fmt.Sprintf("the plan buys %d boxes of %d planks, more than a job takes", o.Boxes, o.PlanksPerBox),
			Mend: "give the plan as it was written",
		}}
	}
	a := &application{
		measured: job, job: job.Clone(), was: plan, plan: plan.Clone(), long: job.Plank.Length, kerf: job.Rules.Kerf,
		at: make(map[cutopt.PieceRef]measure.Length, len(seq.Pieces)), unit: job.Unit,
	}
	for _, p := range seq.Pieces {
		a.at[p.Ref] = p.At
	}
	if len(state.Events) == 0 {
		return a, nil
	}
	for _, step := range []func(*State){a.valid, a.lie, a.losses, a.stock, a.amend} {
		if step(state); len(a.errs) > 0 {
			return nil, a.errs
		}
	}
	return a, nil
}

// An application works a state into a job and its plan.
type application struct {
	measured   *cutopt.Job  // as it was measured first
	job        *cutopt.Job  // with what differs
	was        *cutopt.Plan // as it was
	plan       *cutopt.Plan // with marks
	long, kerf measure.Length
	unit       measure.Unit
	at         map[cutopt.PieceRef]measure.Length // where each piece begins on its plank
	nudge      cutopt.Point                       // by which steps of walls are moved off the nearest place
	unbent     bool                               // a whole plank that lies would have to be a tick longer
	by         map[*Event]measure.Length          // how much longer runs are, of lines that tell of it
	loosely    bool                               // rows that lie may end elsewhere by what the trim hides
	within     map[*Event]bool                    // of those, the ones that the fit allowance covers
	remarks    []cutopt.Finding
	errs       Errors
}

// refuse records that an event cannot be.
func (a *application) refuse(e *Event, mend, format string, args ...any) {
	if len(a.errs) < mostErrors {
		a.errs = append(a.errs, &Error{
			Line: e.Line, Column: e.Column, Value: e.Text, Msg: fmt.Sprintf(format, args...), Mend: mend,
			event: e,
		})
	}
}

func (a *application) remark(kind string, figures ...any) {
	a.remarks = append(a.remarks, cutopt.Find(kind, figures...))
}

// format prints a length for an error.
func (a *application) format(l measure.Length) string { return l.Format(a.unit, measure.Tick) }

// row names a row for a finding.
func (a *application) row(floor, row int) cutopt.RowRef {
	return cutopt.RowRef{Room: a.plan.Floors[floor].Name, Row: row + 1}
}

// valid refuses events of what the plan or the job does not have.
func (a *application) valid(s *State) {
	for i := range s.Events {
		e := &s.Events[i]
		switch floors := len(a.plan.Floors); {
		case e.Kind.ofFloor() && (e.Floor < 0 || e.Floor >= floors):
			a.refuse(e, "", "the plan has no floor %d: it has %d", e.Floor+1, floors)
		case e.Kind.ofRoom() && (e.Room < 0 || e.Room >= len(a.job.Rooms)):
			a.refuse(e, "", "the job has no room %d: it has %d", e.Room+1, len(a.job.Rooms))
		case e.Kind == KindWall && (e.Wall < 1 || e.Wall > len(a.job.Rooms[e.Room].Outline)):
			a.refuse(e, "walls count as in the job file", "the room has walls 1 to %d", len(a.job.Rooms[e.Room].Outline))
		case e.Kind == KindLaid || e.Kind == KindStarter || e.Kind == KindLonger || e.Kind == KindMeasured:
			a.validRow(e)
		}
		for _, n := range e.Planks {
			if n < 1 || n > len(a.was.Planks) {
				a.refuse(e, "planks have the numbers of the plan", "plank %d: the plan has planks 1 to %d", n, len(a.was.Planks))
			}
		}
		if max(e.Length, -e.Length) > cutopt.MaxLength || e.Count < 0 || e.Count > mostPlanks {
			a.refuse(e, "", "a length is at most a kilometre, and what is counted at most %d", mostPlanks)
		}
	}
}

// validRow refuses rows, runs and pieces that the floor does not have.
func (a *application) validRow(e *Event) {
	rows := a.plan.Floors[e.Floor].Rows
	if e.Row < 1 || e.Row > len(rows) {
		a.refuse(e, "count from the starting wall", "the rows have the numbers 1 to %d", len(rows))
		return
	}
	runs := rows[e.Row-1].Runs
	switch {
	case e.Run < 0 || e.Run > len(runs):
		a.refuse(e, "", "row %d has %d runs", e.Row, len(runs))
		return
	case e.Run == 0 && len(runs) != 1 && (e.Kind == KindStarter || e.Pieces > 0):
		a.refuse(e, fmt.Sprintf("write %da for the first from the left", e.Row), "row %d has %d runs: which?", e.Row,
			len(runs))
		return
	case e.Pieces > 0:
		if n := len(runs[max(0, e.Run-1)].Pieces); e.Pieces > n {
			a.refuse(e, "", "row %d has %d pieces", e.Row, n)
		}
	}
}

// file names the file in all errors of a state.
func (es Errors) file(name string) {
	for _, e := range es {
		e.File = name
	}
}

// Apply is [Apply] for the state of a file, whose name the errors bear.
func (f *File) Apply(
	job *cutopt.Job, plan *cutopt.Plan, s *State,
) (*cutopt.Job, *cutopt.Plan, []cutopt.Finding, error) {
	amended, marked, remarks, err := Apply(job, plan, s)
	var wrong Errors
	if errors.As(err, &wrong) {
		wrong.file(f.name)
	}
	return amended, marked, remarks, err
}

// order lists the runs of a floor as they are laid, by row and run.
func order(floor *cutopt.PlanFloor) [][2]int {
	var out [][2]int
	for r := range floor.Rows {
		from := len(out)
		for k := range floor.Rows[r].Runs {
			out = append(out, [2]int{r, k})
		}
		if floor.LaidFrom == cutopt.HandRight {
			slices.Reverse(out[from:])
		}
	}
	return out
}
