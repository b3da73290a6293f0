package check

import (
	"cmp"
	"errors"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A restRun is a run of a floor as the bare problem of what is left sees it, along the axis that it is laid on.
type restRun struct {
	number  int            // in the bare problem; -1 where all of it lies
	lying   int            // pieces that lie, from the end that is laid first
	joints  []joint        // where what lies ends, but for the last joint of a run in hand
	last    measure.Length // that joint
	more    []joint        // all its joints once more, as far on as its starter may have turned out longer
	planned bool           // nothing of it lies
}

// addRest appends what is left of a floor: its runs that do not lie altogether, and for those that are not begun the
// joints that lie in the runs beside them.
func addRest(job *cutopt.Job, floor *cutopt.PlanFloor, in *rows.Instance) error {
	if len(floor.Rows) == 0 {
		return errors.New("check: a room of the plan has no rows")
	}
	var before []restRun
	first := len(in.Runs)
	for r := range floor.Rows {
		if err := followed(floor, r); err != nil {
			return err
		}
		here := make([]restRun, len(floor.Rows[r].Runs))
		for k := range here {
			here[k] = rest(floor, &floor.Rows[r].Runs[k])
			if here[k].number < 0 {
				continue
			}
			here[k].number = len(in.Runs)
			in.Runs = append(in.Runs, here[k].bare(job, floor, &floor.Rows[r].Runs[k]))
		}
		if r > 0 && floor.Rows[r-1].To == floor.Rows[r].From {
			tied, err := ties(floor.Rows[r-1].Runs, floor.Rows[r].Runs, 0, 0, mostTies-len(in.Touch))
			if err != nil {
				return err
			}
			for _, t := range tied {
				a, b := &before[t[0]], &here[t[1]]
				beside(in, a, b)
				beside(in, b, a)
				if a.number >= 0 && b.number >= 0 && (a.planned || b.planned) {
					in.Touch = append(in.Touch, [2]int{a.number, b.number})
				}
			}
		}
		before = here
	}
	for i := first; i < len(in.Runs); i++ {
		slices.Sort(in.Runs[i].Beside)
		in.Runs[i].Beside = slices.Compact(in.Runs[i].Beside)
	}
	return nil
}

// beside adds the joints of b that lie to a run that is not begun.
func beside(in *rows.Instance, a, b *restRun) {
	if !a.planned || b.planned {
		return
	}
	to := &in.Runs[a.number].Beside
	for _, j := range slices.Concat(b.joints, b.more) {
		*to = append(*to, j.x)
	}
}

// rest reads what lies of a run.
func rest(floor *cutopt.PlanFloor, run *cutopt.PlanRun) (out restRun) {
	n := len(run.Pieces)
	at := func(i int) *cutopt.Piece { // in the order of laying
		if floor.LaidFrom == cutopt.HandRight {
			return &run.Pieces[n-1-i]
		}
		return &run.Pieces[i]
	}
	end := func(i int) measure.Length {
		if floor.LaidFrom == cutopt.HandRight {
			return -at(i).From
		}
		return at(i).To
	}
	for out.lying < n && at(out.lying).Lies {
		out.lying++
	}
	switch out.lying {
	case 0:
		out.planned = true
		return out
	case n:
		out.number = -1
	}
	for i := range n - 1 {
		if i < out.lying-1 || out.number < 0 {
			out.joints = append(out.joints, joint{x: end(i)})
		}
		if by := longer(floor, run); by > 0 {
			out.more = append(out.more, joint{x: end(i) + by})
		}
	}
	out.last = end(out.lying - 1)
	return out
}

// bare returns the run of the bare problem: a run in hand begins a plank before its last joint that lies. Its ender is
// what it is, and no longer than a plank, however little the fit allowance then adds.
func (r *restRun) bare(job *cutopt.Job, floor *cutopt.PlanFloor, run *cutopt.PlanRun) rows.Run {
	from, to := run.From, run.To
	if floor.LaidFrom == cutopt.HandRight {
		from, to = -run.To, -run.From
	}
	if r.planned {
		return rows.Run{From: from, Length: to - from + job.Rules.Fit}
	}
	plank := job.Plank.Length
	length := to - r.last + plank
	return rows.Run{From: r.last - plank, Length: length + min(job.Rules.Fit, length.Ceil(plank)-length), Starter: plank}
}

// onHand lists the offcuts on hand: what of the opened planks neither lies nor is gone, plank by plank from the left
// end. Beside a piece that was cut to fit, an offcut may be shorter by the fit allowance. Where rows are laid from the
// right, left and right are exchanged, as they are in the bare problem.
func onHand(job *cutopt.Job, plan *cutopt.Plan) (out []rows.Offcut) {
	starts := cutopt.EndsRight // the end that a starter keeps
	if len(plan.Floors) > 0 && plan.Floors[0].LaidFrom == cutopt.HandRight {
		starts = cutopt.EndsLeft
	}
	for i := range plan.Planks {
		if plan.Planks[i].Opened {
			for _, part := range partsOf(job, plan, &plan.Planks[i]) {
				o := rows.Offcut{Length: part.To - part.From, End: rows.EndNone}
				switch {
				case part.Ends&starts != 0:
					o.End = rows.EndRight
				case part.Ends != cutopt.EndsNone:
					o.End = rows.EndLeft
				}
				if o.Length > 0 {
					out = append(out, o)
				}
			}
		}
	}
	return out
}

// A taken is a stretch of an opened plank that is no offcut: a piece that lies, with the kerfs at its sawn ends, or
// what is gone; and by how much the part on its left or its right may be shorter.
type taken struct {
	from, to    measure.Length
	left, right measure.Length
	gone        bool
}

// pushed adds to what the parts beside pieces that lie may be shorter what comes of the pieces beyond these, which may
// push them: as far as the offcut between does not take that up. What is gone is where it is.
func pushed(all []taken, kerf measure.Length) {
	for i := 1; i < len(all); i++ {
		if a, b := &all[i-1], &all[i]; !a.gone && !b.gone {
			b.right += max(0, a.right-(b.from+kerf-a.to))
		}
	}
	for i := len(all) - 1; i > 0; i-- {
		if a, b := &all[i-1], &all[i]; !a.gone && !b.gone {
			a.left += max(0, b.left-(b.from+kerf-a.to))
		}
	}
}

// partsOf returns the parts on hand of an opened plank; their ends are those that they reach to before what they may be
// shorter by comes off.
func partsOf(job *cutopt.Job, plan *cutopt.Plan, use *cutopt.PlankUse) (out []cutopt.Leftover) {
	long, kerf, fit := job.Plank.Length, job.Rules.Kerf, job.Rules.Fit
	var all []taken
	for _, part := range use.Gone {
		all = append(all, taken{from: part.From, to: part.To, gone: true})
	}
	for i, span := range spans(job, plan, use) {
		p := plan.Piece(use.Pieces[i])
		if !p.Lies {
			continue
		}
		t := taken{from: span[0], to: span[1]}
		if (&checker{plan: plan}).laidLast(use.Pieces[i]) {
			if p.Ends&cutopt.EndsRight != 0 {
				t.left = fit
			} else {
				t.right = fit
			}
		}
		if !slices.ContainsFunc(use.Gone, func(g cutopt.Leftover) bool { return g.To == t.from }) && t.from > 0 {
			t.from -= kerf
		}
		if !slices.ContainsFunc(use.Gone, func(g cutopt.Leftover) bool { return g.From == t.to }) && t.to < long {
			t.to += kerf
		}
		all = append(all, t)
	}
	slices.SortStableFunc(all, func(a, b taken) int { return cmp.Compare(a.from, b.from) })
	pushed(all, kerf)
	at, shorter := measure.Length(0), measure.Length(0)
	add := func(to, less measure.Length) {
		part := cutopt.Leftover{From: at, To: to}
		part.Ends = endsOf(part, long)
		if part.To -= shorter + less; part.To > part.From {
			out = append(out, part)
		}
	}
	for _, t := range all {
		add(t.from, t.left)
		at, shorter = max(at, t.to), t.right
	}
	add(long, 0)
	return out
}

// spans returns what each piece of an opened plank takes of it, from and to; none where they cannot be placed.
func spans(job *cutopt.Job, plan *cutopt.Plan, use *cutopt.PlankUse) [][2]measure.Length {
	c := &plankChecker{checker: &checker{job: job, plan: plan}, use: use}
	for _, ref := range use.Pieces {
		p := plan.Piece(ref)
		if p == nil {
			return nil
		}
		c.pieces = append(c.pieces, p)
	}
	if !c.gone() || !c.around() {
		return nil
	}
	return c.spans
}
