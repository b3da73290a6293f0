package sheet

import (
	"errors"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// farthest bounds every coordinate, so that no sum overflows and no picture runs away: more than a kilometre.
const farthest = 1_100 * measure.Metre

// mostSheets is how many pages the map of one floor may take.
const mostSheets = 5_000

// checkJob reports what makes a job impossible to draw.
func checkJob(job *cutopt.Job) error {
	if w := job.Plank.Width; w <= 0 || w > farthest {
		return fmt.Errorf("sheet: Job.Plank.Width is %d ticks: a plank is wider than 0 and at most a kilometre wide", w)
	}
	if int(job.Unit) > int(measure.UnitMetre) {
		return fmt.Errorf("sheet: Job.Unit is %v: use one of the units of package measure", job.Unit)
	}
	for i := range job.Rooms {
		r := &job.Rooms[i]
		rings := [][]cutopt.Point{r.Outline}
		for _, island := range r.Islands {
			rings = append(rings, island.Outline)
		}
		for _, ring := range rings {
			for _, p := range ring {
				if !near(p.X, p.Y) {
					return fmt.Errorf("sheet: rooms[%d] has a corner at %d, %d ticks: a room lies within a kilometre", i+1, p.X, p.Y)
				}
			}
		}
		for k, d := range r.Doorways {
			if !near(d.At, d.Width, d.Depth) {
				return fmt.Errorf("sheet: rooms[%d].doorways[%d] lies or reaches farther than a kilometre", i+1, k+1)
			}
		}
	}
	return nil
}

func near(list ...measure.Length) bool {
	for _, l := range list {
		if l < -farthest || l > farthest {
			return false
		}
	}
	return true
}

// checkRows reports the first floor that lies nowhere, or row whose runs and pieces do not lie in it.
func checkRows(plan *cutopt.Plan) error {
	for i := range plan.Floors {
		if a := plan.Floors[i].Axes; !a.Finite() {
			return fmt.Errorf("sheet: floors[%d] is turned by %v degrees about %d, %d ticks: a floor lies within kilometres",
				i+1, a.Turn, a.Origin.X, a.Origin.Y)
		}
		for j := range plan.Floors[i].Rows {
			if err := checkRow(i, j, &plan.Floors[i].Rows[j]); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkRow reports a row whose runs and pieces do not lie in it from left to right.
func checkRow(floor, j int, row *cutopt.PlanRow) error {
	name := fmt.Sprintf("sheet: floors[%d].rows[%d]", floor+1, j+1)
	if row.To <= row.From || row.Width != row.To-row.From || !near(row.From, row.To) {
		return fmt.Errorf(
			"%s runs from %d to %d ticks and is %d wide: To is above From, Width is To-From",
			name,
			row.From,
			row.To,
			row.Width,
		)
	}
	for k := range row.Runs {
		run := &row.Runs[k]
		if run.To <= run.From || !near(run.From, run.To) {
			return fmt.Errorf("%s.runs[%d] runs from %d to %d ticks: To is above From", name, k+1, run.From, run.To)
		}
		at := run.From
		for n := range run.Pieces {
			p := &run.Pieces[n]
			if p.From < at || p.To <= p.From || p.To > run.To {
				return fmt.Errorf("%s.runs[%d].pieces[%d] runs from %d to %d ticks: pieces lie in their run from left to right",
					name, k+1, n+1, p.From, p.To)
			}
			for _, c := range p.Shape {
				if c.X < p.From || c.X > p.To || c.Y < row.From || c.Y > row.To {
					return fmt.Errorf(
						"%s.runs[%d].pieces[%d].shape has a corner at %d, %d ticks: it lies within its piece",
						name,
						k+1,
						n+1,
						c.X,
						c.Y,
					)
				}
			}
			at = p.To
		}
	}
	return nil
}

// checkSheets refuses a map that would take a library of paper.
func (b *book) checkSheets() error {
	var errs []error
	width, height := b.opt.Paper.size()
	for _, i := range b.floors() {
		if n := b.sheetCount(i, width, height); n > mostSheets {
			errs = append(
				errs,
				fmt.Errorf(
					"sheet: the map of floor %d takes %.0f sheets of paper, more than %d: draw it as SVG or PNG, or in parts",
					i+1,
					n,
					mostSheets,
				),
			)
		}
	}
	return errors.Join(errs...)
}
