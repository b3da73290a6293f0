package solve

import (
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// asBefore returns the problem with the rows of the plan before. Where the job leaves the first row of a floor open the
// planner may choose another than the plan has, so that one is asked for. A floor of which nothing lies may have other
// rows, as the job then says; one of which some lies must have those that lie, or the error is a *cutopt.FieldError.
func (c *call) asBefore(p *problem, before *cutopt.Plan) (*problem, error) {
	if len(before.Floors) != len(p.floors) {
		return nil, &cutopt.FieldError{
			Field: "plan.floors", Value: fmt.Sprintf("%d", len(before.Floors)),
			Rule: fmt.Sprintf("the plan has the floors of the job, %d", len(p.floors)),
			Mend: "give the plan that was made of this job",
		}
	}
	floors := slices.Clone(p.floors)
	for i := range floors {
		was := &before.Floors[i]
		row, same := differs(floors[i], was)
		for _, lie := range c.liesAs(p, i, was) {
			if same {
				break
			}
			other, err := floorOf(c.ctx, p.job, &p.fields[i], &lie, cutopt.MaxPieces)
			if stopped := c.stopped(PhaseFloor); err != nil && stopped != nil {
				return nil, stopped
			}
			if err == nil { // a room that is another, and of which nothing lies, is laid as it looks best
				if k, ok := differs(other, was); ok || k > row && lastLying(was) >= 0 {
					floors[i], row, same = other, k, ok
				}
			}
		}
		if lies := lastLying(was); !same && row <= lies {
			return nil, &cutopt.FieldError{
				Field: fmt.Sprintf("plan.floors[%d].rows[%d]", i+1, row+1), Value: was.Name,
				Rule: fmt.Sprintf("rows that lie are those of the job, and row %d of %d that lie is not", row+1, lies+1),
				Mend: "set the wall and the width of the first row in the job as they were laid",
			}
		}
	}
	ground := *p.ground
	ground.floors = floors
	out := &problem{job: p.job, terms: p.terms, ground: &ground}
	out.instance, out.places = instanceOf(p.job, floors)
	return out, nil
}

// liesAs lists how the rows of a floor may have been laid for those of a plan to come out, where the job leaves their
// first row or their direction open: with a first row that has the plan's first line, or is as wide.
func (c *call) liesAs(p *problem, i int, was *cutopt.PlanFloor) (out []cutopt.RowRules) {
	if len(was.Rows) == 0 {
		return nil
	}
	wide := p.job.Plank.Width
	add := func(lie cutopt.RowRules, f *strips.Floor) {
		if lie.FirstRow > 0 {
			out = append(out, lie)
			return
		}
		widths := []measure.Length{was.Rows[0].Width}
		if len(f.Rows) > 0 {
			line := (was.Rows[0].To - f.Rows[0].To + f.First) % wide
			widths = append(widths, (line+2*wide-1)%wide+1)
		}
		out = append(out, lie)
		for _, w := range widths {
			lie.FirstRow = w
			out = append(out, lie)
		}
	}
	add(p.fields[i].lie, p.floors[i])
	if p.free(i) {
		if other := c.turned(p, i); other != nil {
			add(other.lie, other.floor)
		}
	}
	return out
}

// differs returns the first row in which a floor is another than in a plan, and whether there is none.
func differs(f *strips.Floor, was *cutopt.PlanFloor) (row int, same bool) {
	if f.Name != was.Name || f.LaidFrom != was.LaidFrom ||
		(cutopt.Axes{Origin: f.Origin, Turn: f.Turn, Mirrored: f.Mirrored}) != was.Axes {
		return 0, false
	}
	for k := range min(len(f.Rows), len(was.Rows)) {
		if f.Rows[k].From != was.Rows[k].From || f.Rows[k].To != was.Rows[k].To ||
			len(f.Rows[k].Runs) != len(was.Rows[k].Runs) {
			return k, false
		}
	}
	return min(len(f.Rows), len(was.Rows)), len(f.Rows) == len(was.Rows)
}

// lastLying returns the last row of a floor of which some lies, -1 where none does.
func lastLying(room *cutopt.PlanFloor) int {
	for k := len(room.Rows) - 1; k >= 0; k-- {
		for _, run := range room.Rows[k].Runs {
			if slices.ContainsFunc(run.Pieces, func(p cutopt.Piece) bool { return p.Lies }) {
				return k
			}
		}
	}
	return -1
}

// A rest is what is left to lay, as a bare problem of its own: runs that are free, runs in hand that are begun, what
// lies beside them, and the offcuts on hand.
type rest struct {
	in    *rows.Instance
	full  []int // by run: its run in the problem
	hand  []int // by offcut: its part in standing.hand
	begun int   // runs in hand: each counts a plank that lies
}

// rest makes the bare problem of what is left on some floors, with the offcuts that may be used; nil takes all.
func (s *standing) rest(floor func(int) bool, may func(*part) bool) *rest {
	all := s.instance
	r := &rest{in: &rows.Instance{
		Name: all.Name, Plank: all.Plank, Kerf: all.Kerf, MinPiece: all.MinPiece, MinEnder: all.MinEnder,
		Stagger: all.Stagger, Grid: all.Grid,
	}}
	to := make([]int, len(all.Runs)) // its run in the rest, or -1
	for i := range all.Runs {
		to[i] = -1
		if s.runs[i].all || floor != nil && !floor(s.places[i].room) {
			continue
		}
		to[i] = len(r.full)
		r.full = append(r.full, i)
		run := all.Runs[i]
		if s.runs[i].inHand() {
			last := s.runs[i].joints[len(s.runs[i].joints)-1]
			run.Length += run.From - last + all.Plank
			// what is left to its end is what it is: the fit allowance makes no more pieces of it
			length := run.Length - s.job.Rules.Fit
			run.Length = min(run.Length, length.Ceil(all.Plank))
			run.From = last - all.Plank
			run.Starter = all.Plank
			r.begun++
		}
		r.in.Runs = append(r.in.Runs, run)
	}
	for _, t := range all.Touch {
		a, b := to[t[0]], to[t[1]]
		s.beside(r, t[0], b)
		s.beside(r, t[1], a)
		if a >= 0 && b >= 0 && (r.in.Runs[a].Starter == 0 || r.in.Runs[b].Starter == 0) {
			r.in.Touch = append(r.in.Touch, [2]int{a, b})
		}
	}
	for k := range s.hand {
		p := &s.hand[k]
		if p.usable > 0 && (may == nil || may(p)) {
			r.in.Offcuts = append(r.in.Offcuts, rows.Offcut{Length: p.usable, End: s.endOf(p.ends)})
			r.hand = append(r.hand, k)
		}
	}
	return r
}

// endOf returns the factory end of an offcut in the bare problem, in which rooms laid from the right are mirrored. One
// that has both is a plank; it serves as a starter.
func (s *standing) endOf(e cutopt.Ends) rows.End {
	if len(s.places) > 0 && s.places[0].mirrored {
		e = mirrored(e)
	}
	switch {
	case e&cutopt.EndsRight != 0:
		return rows.EndRight
	case e == cutopt.EndsLeft:
		return rows.EndLeft
	}
	return rows.EndNone
}

// beside puts the joints of run i of the problem that lie beside run k of the rest, where that is free. A first piece
// that was laid as it came has moved them somewhere up to so much on, and those to come.
func (s *standing) beside(r *rest, i, k int) {
	run := &s.runs[i]
	if k < 0 || r.in.Runs[k].Starter > 0 || len(run.pieces) == 0 {
		return
	}
	joints := run.joints
	if run.inHand() { // the last of them is of the run that goes on
		joints = joints[:len(joints)-1]
	}
	to := &r.in.Runs[k].Beside
	*to = append(*to, joints...)
	if run.longer == 0 {
		return
	}
	for _, x := range joints {
		*to = append(*to, x+run.longer)
	}
	if run.inHand() {
		full := &s.instance.Runs[i]
		for x := run.joints[len(run.joints)-1]; x < full.From+full.Length-s.job.Rules.Fit; x += s.instance.Plank {
			*to = append(*to, x+run.longer)
		}
	}
}

// onward says what so many planks of the rest ask for: Terms of a job of which some lies.
type onward struct {
	terms cutopt.Terms
	inUse int // of the planks opened, those that count for spares
	here  int // whole planks
	begun int // planks that a count of the rest has too many: they lie
}

// needed returns the whole planks that a count of the rest takes.
func (t *onward) needed(planks int) int { return planks - t.begun }

// Boxes returns the boxes to buy on top.
func (t *onward) Boxes(planks int) int {
	n := t.needed(planks)
	return t.terms.OnTop(n, t.inUse+n, max(0, n-t.here), t.here)
}

// Holding returns the boxes to buy on top where none is lost.
func (t *onward) Holding(planks int) int {
	n := t.needed(planks)
	per := max(t.terms.PerBox, 1)
	return (max(0, n+t.terms.Kept(t.inUse+n)-t.here) + per - 1) / per
}

// do reports whether the whole planks here will do for a count of the rest.
func (t *onward) do(planks int) bool { return t.needed(planks) <= t.here }

// most returns the most planks of the rest that so many boxes on top hold, and what is here too where it holds these.
func (t *onward) most(planks int) int {
	most := t.inBoxes(planks)
	if t.do(planks) {
		most = min(most, t.here+t.begun)
	}
	return most
}

// inBoxes returns the most planks of the rest that so many boxes on top hold.
func (t *onward) inBoxes(planks int) int {
	boxes := t.Boxes(planks)
	step := 1
	for t.Boxes(planks+step) <= boxes && step < 1<<20 {
		step *= 2
	}
	for step > 0 {
		if t.Boxes(planks+step) <= boxes {
			planks += step
		}
		step /= 2
	}
	return planks
}
