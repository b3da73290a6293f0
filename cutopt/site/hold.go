package site

import (
	"context"
	"errors"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// hair is how far the ends of rows that lie may come out elsewhere, by rounding and by where slanted ends are cut
// square: no tape shows it.
const hair = measure.Inch / 64

// pin asks the job for the rows that the plan has, so that the planner does not choose others for the room as it is
// now. A first row is the width it was ripped to, where that is told.
func (a *application) pin(f int, e *Event, first measure.Length) {
	fields := a.job.Fields(a.was.Breaks)
	if f >= len(fields) {
		return
	}
	was := &a.was.Floors[f]
	lead := &a.job.Rooms[fields[f].Rooms[0].Number]
	before := lead.Rows
	for _, r := range fields[f].Rooms[1:] { // its rows are those of the first room
		a.job.Rooms[r.Number].Rows = cutopt.RowRules{}
	}
	for _, rules := range a.pins(f, before) {
		lead.Rows = rules
		if fields[f].Parts > 1 && first == 0 { // each field has a first row of its own
			if a.matches(f, 0) {
				return
			}
			continue
		}
		lead.Rows.FirstRow = a.job.Plank.Width
		floors, _, err := solve.Floors(context.Background(), a.job)
		if err != nil || f >= len(floors) || len(floors[f].Rows) < 1 || floors[f].Axes.Turn != was.Axes.Turn {
			continue
		}
		_, dy := shiftOf(was.Axes, floors[f].Axes)
		line := was.Rows[0].To + dy - floors[f].Rows[0].To
		if first > 0 {
			line += first - was.Rows[0].Width
		}
		width := ((a.job.Plank.Width+line)%a.job.Plank.Width + a.job.Plank.Width) % a.job.Plank.Width
		if width == 0 {
			width = a.job.Plank.Width
		}
		if lead.Rows.FirstRow = width; a.matches(f, first) {
			return
		}
	}
	lead.Rows = before
	mend := "measure the room again, and plan it anew from what lies"
	if e.Kind == KindWall {
		mend = "where rows lie nearer to that wall than planned, or farther, write how wide the first is: first row 3 3/4"
	}
	a.refuse(e, mend, "with that the rows that lie would not come out where they lie")
}

// pins are the ways to ask for the rows of a floor, the plainest first.
func (a *application) pins(f int, asked cutopt.RowRules) []cutopt.RowRules {
	var out []cutopt.RowRules
	if asked.Direction == cutopt.DirectionFree { // the planner has chosen
		for _, d := range []cutopt.Direction{cutopt.DirectionAlong, cutopt.DirectionAcross} {
			chosen := asked
			chosen.Direction = d
			out = append(out, a.pins(f, chosen)...)
		}
		return out
	}
	if asked.Direction == cutopt.DirectionAlong && asked.Start == cutopt.StartNear && asked.StartWall == 0 {
		for _, fact := range a.was.Floors[f].Facts {
			if fact.Kind == cutopt.FactBase || fact.Kind == cutopt.FactBaseAsked {
				wall := asked
				wall.StartWall = a.renumbered(fact.Room-1, fact.Wall-1) + 1
				out = append(out, wall)
			}
		}
	}
	if asked.StartWall > 0 {
		room := a.job.Fields(a.was.Breaks)[f].Rooms[0].Number
		asked.StartWall = a.renumbered(room, asked.StartWall-1) + 1
	}
	out = append(out, asked)
	for _, start := range []cutopt.Start{cutopt.StartNear, cutopt.StartFar} {
		out = append(out, cutopt.RowRules{
			Direction: cutopt.DirectionAngle, Angle: math.Mod(a.was.Floors[f].Axes.Turn, 180), Start: start,
			LaidFrom: asked.LaidFrom,
		})
	}
	return out
}

// renumbered returns the index of a wall among those of the job as it is now: steps put walls in before it.
func (a *application) renumbered(room, wall int) int {
	was, is := a.rooms()[room].Outline, a.job.Rooms[room].Outline
	if wall < 0 || wall >= len(was) {
		return wall
	}
	mid := func(ring []cutopt.Point, i int) (x, y float64) {
		p, q := ring[i], ring[(i+1)%len(ring)]
		return float64(float64(p.X+q.X) / 2), float64(float64(p.Y+q.Y) / 2)
	}
	x, y := mid(was, wall)
	end := was[(wall+1)%len(was)]
	dx, dy := float64(end.X-was[wall].X), float64(end.Y-was[wall].Y)
	best, least := wall, math.Inf(1)
	for i := range is {
		p, q := is[i], is[(i+1)%len(is)]
		u, v := mid(is, i)
		d := math.Hypot(u-x, v-y)
		if along := float64(float64(q.X-p.X)*dx) + float64(float64(q.Y-p.Y)*dy); along > 0 && d < least {
			best, least = i, d
		}
	}
	return best
}

// shiftOf returns by how much places in the axes of a floor differ when its origin does.
func shiftOf(was, is cutopt.Axes) (dx, dy measure.Length) {
	x, y := is.FromDrawing(was.Origin)
	return measure.Length(math.Round(x)), measure.Length(math.Round(y))
}

// matches reports whether what lies of a floor comes out as it lies.
func (a *application) matches(f int, first measure.Length) bool {
	floors, _, err := solve.Floors(context.Background(), a.job)
	return err == nil && f < len(floors) && a.same(f, &floors[f], first)
}

// same compares what lies of a floor with its rows as the job has them now. Where a first row is told, rows may lie
// elsewhere across the room.
func (a *application) same(f int, is *cutopt.PlanFloor, first measure.Length) bool {
	floor := &a.plan.Floors[f]
	if floor.LaidFrom != is.LaidFrom || floor.Axes.Turn != is.Axes.Turn || floor.Axes.Mirrored != is.Axes.Mirrored {
		return false
	}
	if first > 0 && (len(is.Rows) == 0 || is.Rows[0].Width != first) {
		return false
	}
	dx, dy := shiftOf(floor.Axes, is.Axes)
	slack := measure.Length(0) // of the lines between rows
	if !floor.Axes.Square() {
		slack = near
	}
	bend := hair
	if first > 0 { // along a slanted wall all ends are elsewhere then, and were cut to fit
		bend = max(bend, a.job.Rules.Fit)
	}
	off := func(p, q, most measure.Length) bool { return max(p-q, q-p) > most }
	last := len(floor.Rows) - 1
	for r := range floor.Rows {
		row := &floor.Rows[r]
		some := slices.ContainsFunc(row.Runs, func(run cutopt.PlanRun) bool {
			return slices.ContainsFunc(run.Pieces, func(p cutopt.Piece) bool { return p.Lies })
		})
		if !some {
			continue
		}
		if r >= len(is.Rows) || len(is.Rows[r].Runs) != len(row.Runs) {
			return false
		}
		// Along a slanted wall that is longer, an edge row is wider beyond what lies: as far as the trim hides.
		from, to := slack, slack
		if r == 0 {
			from = max(slack, a.job.Rules.Cover)
		}
		if r == last && len(is.Rows) == len(floor.Rows) {
			to = max(slack, a.job.Rules.Cover)
		}
		if first == 0 && (off(is.Rows[r].From, row.From+dy, from) || off(is.Rows[r].To, row.To+dy, to)) {
			return false
		}
		for k := range row.Runs {
			run, now := &row.Runs[k], &is.Rows[r].Runs[k]
			if len(run.Pieces) > 0 && !a.ending(laid(floor, run), now.From-run.From-dx, now.To-run.To-dx, bend) {
				return false
			}
		}
	}
	return true
}

// ending reports whether the pieces of a run that lie can end where it ends elsewhere by so much on the left and on the
// right, within what ends may bend: see meet.
func (a *application) ending(l *laidRun, left, right, bend measure.Length) bool {
	begin, end := left, right
	if l.right {
		begin, end = right, left
	}
	most := bend
	if a.loosely {
		most = max(bend, a.job.Rules.Cover)
	}
	if l.first.Lies && max(begin, -begin) > bend || l.last.Lies && max(end, -end) > most {
		return false
	}
	if d := begin - end; unsawn(l.last) && d != 0 && (unsawn(l.first) || max(d, -d) > hair) {
		a.unbent = true
		return false
	}
	return true
}

// A laidRun is the pieces of a run that are laid first and last, one piece for a run of one, and whether that is from
// the right.
type laidRun struct {
	first, last *cutopt.Piece
	right       bool
}

func laid(floor *cutopt.PlanFloor, run *cutopt.PlanRun) *laidRun {
	l := &laidRun{&run.Pieces[0], &run.Pieces[len(run.Pieces)-1], floor.LaidFrom == cutopt.HandRight}
	if l.right {
		l.first, l.last = l.last, l.first
	}
	return l
}

// unsawn reports whether a piece lies that is a whole plank.
func unsawn(p *cutopt.Piece) bool { return p.Lies && p.Ends == cutopt.EndsBoth }

// held puts the rows as the job has them now into the marked plan, and refuses what changes floors that lie.
func (a *application) held(touched map[int]*Event, last *Event) {
	floors, breaks, err := solve.Floors(context.Background(), a.job)
	if err != nil {
		a.refuse(last, "measure the room again, and change the job file", "the room cannot be laid with that: %v",
			plainly(err))
		return
	}
	if len(floors) != len(a.plan.Floors) {
		a.refuse(last, "ask for the breaks in the job file, and plan it anew from what lies",
			"with that the job has %d floors, and the plan %d", len(floors), len(a.plan.Floors))
		return
	}
	for f := range floors {
		if !begun(&a.plan.Floors[f]) {
			continue
		}
		e := touched[f]
		first := measure.Length(0)
		if e != nil && a.job.Rooms[a.job.Fields(breaks)[f].Rooms[0].Number].Rows.FirstRow > 0 {
			first = floors[f].Rows[0].Width
		}
		if e == nil {
			e = last
		}
		if !a.same(f, &floors[f], first) {
			a.refuse(e, "measure the room again, and plan it anew from what lies",
				"with that the rows that lie in %q would not come out where they lie", a.plan.Floors[f].Name)
		}
	}
	for f := range floors {
		if len(a.errs) == 0 && begun(&a.plan.Floors[f]) {
			a.take(f, &floors[f])
		}
	}
	a.plan.Breaks = breaks
}

// plainly drops what an error of a job says of its place.
func plainly(err error) error {
	var field *cutopt.FieldError
	if errors.As(err, &field) {
		return errors.New(field.Rule)
	}
	return err
}

// take moves a floor of the plan to where the job has it now.
func (a *application) take(f int, is *cutopt.PlanFloor) {
	floor := &a.plan.Floors[f]
	dx, dy := shiftOf(floor.Axes, is.Axes)
	floor.Axes = is.Axes
	for r := range floor.Rows {
		row := &floor.Rows[r]
		down := dy
		if r < len(is.Rows) {
			down = is.Rows[r].From - row.From
			row.From, row.To, row.Width = is.Rows[r].From, is.Rows[r].To, is.Rows[r].Width
		} else {
			row.From, row.To = row.From+dy, row.To+dy
		}
		for k := range row.Runs {
			run := &row.Runs[k]
			run.From, run.To = run.From+dx, run.To+dx
			if r < len(is.Rows) && len(is.Rows[r].Runs) == len(row.Runs) {
				run.From, run.To = is.Rows[r].Runs[k].From, is.Rows[r].Runs[k].To
			}
			for n := range run.Pieces {
				p := &run.Pieces[n]
				p.From, p.To = p.From+dx, p.To+dx
				for i := range p.Shape {
					p.Shape[i].X, p.Shape[i].Y = p.Shape[i].X+dx, p.Shape[i].Y+down
				}
			}
			a.meet(cutopt.PieceRef{Floor: f, Row: r, Run: k})
		}
	}
}

// meet makes the pieces that lie at the ends of a run end there to the tick, where that is elsewhere by rounding or
// along a slanted wall: the run moves with what is laid first, as long as that was cut, and what is laid last was cut
// to fit. Where that is a whole plank the run moves with it, and the first piece is taken as a hair longer.
func (a *application) meet(ref cutopt.PieceRef) {
	floor := &a.plan.Floors[ref.Floor]
	run := &floor.Rows[ref.Row].Runs[ref.Run]
	n := len(run.Pieces)
	if n == 0 {
		return
	}
	l := laid(floor, run)
	with, right := l.first, l.right
	if unsawn(l.last) {
		with, right = l.last, !l.right
	}
	by := measure.Length(0)
	switch {
	case !with.Lies:
	case right:
		by = run.To - with.To
	default:
		by = run.From - with.From
	}
	for k := range run.Pieces {
		p := &run.Pieces[k]
		p.From, p.To = p.From+by, p.To+by
		for i := range p.Shape {
			p.Shape[i].X += by
		}
	}
	for _, ref.Piece = range []int{0, n - 1} {
		p := a.plan.Piece(ref)
		if p == nil || !p.Lies {
			continue
		}
		from, to := p.From, p.To
		if ref.Piece == 0 {
			from = run.From
		}
		if ref.Piece == n-1 {
			to = run.To
		}
		use := a.use(p.Plank)
		if from == p.From && to == p.To || use == nil {
			continue
		}
		if p.Ends&cutopt.EndsRight != 0 {
			a.at[ref] -= to - from - p.Length
		}
		for i := range p.Shape {
			switch p.Shape[i].X {
			case p.From:
				p.Shape[i].X = from
			case p.To:
				p.Shape[i].X = to
			}
		}
		longer := to - from - p.Length
		p.From, p.To, p.Length = from, to, to-from
		if max(longer, -longer) > hair || !a.ended(use) { // else what is planned of the plank stays so
			a.settle(use)
		}
	}
}

// ended reports whether all pieces of a plank keep a factory end: so they stay where they are on it.
func (a *application) ended(use *cutopt.PlankUse) bool {
	return !slices.ContainsFunc(use.Pieces, func(r cutopt.PieceRef) bool {
		p := a.plan.Piece(r)
		return p == nil || p.Ends == cutopt.EndsNone
	})
}
