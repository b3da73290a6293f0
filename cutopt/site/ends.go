package site

import (
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// lies reports whether all of a run lies.
func lies(run *cutopt.PlanRun) bool {
	return len(run.Pieces) > 0 && !slices.ContainsFunc(run.Pieces, func(p cutopt.Piece) bool { return !p.Lies })
}

// ends moves what runs end at, from a row on: a wall, an island or the line of a doorway.
func (a *application) ends(e *Event) {
	floor := &a.plan.Floors[e.Floor]
	row := &floor.Rows[e.Row-1]
	if len(row.Runs) == 0 {
		a.refuse(e, "write a row that is laid", "row %d has no floor", e.Row)
		return
	}
	run, side := endingRun(floor, row, e.Run)
	by, ok := a.longer(e, row, run)
	if !ok {
		return
	}
	a.by[e] = by
	if e.Kind == KindMeasured && by != 0 { // which a slip of the thumb shows in
		kind := "measured-longer"
		if by < 0 {
			kind = "measured-shorter"
		}
		a.remark(kind, "row", a.row(e.Floor, e.Row-1), "length", max(by, -by))
	}
	if lies(run) {
		if row, run = a.next(e, by); row == nil {
			return
		}
	}
	end := &runEnd{e.Floor, row, run, side}
	if at, ok := a.wallAt(end); ok {
		a.stepAt(e, at, by, end)
		return
	}
	if a.deepen(e, by, end) || a.stepIsland(e, by, end) {
		return
	}
	if a.endsAtBreak(end) {
		a.refuse(e, "say in the job file where the break is", "row %d ends at a break of the floor", e.Row)
		return
	}
	a.refuse(e, "tell where that thing or the wall behind it stands, or measure the room again",
		"row %d does not end at a wall of the room there", e.Row)
}

// endingRun returns a run of a row, from 1, or with 0 the one that ends at the wall; and the side on which runs end.
func endingRun(floor *cutopt.PlanFloor, row *cutopt.PlanRow, run int) (*cutopt.PlanRun, measure.Length) {
	side := measure.Length(1)
	if floor.LaidFrom == cutopt.HandRight {
		side = -1
	}
	if run == 0 && side > 0 {
		run = len(row.Runs)
	}
	return &row.Runs[max(0, run-1)], side
}

// next returns the first row beyond that of an event which does not lie, from which on it then counts: its own row was
// cut to fit, if the fit allowance holds that. It returns nil where there is none, and where the event is refused.
func (a *application) next(e *Event, by measure.Length) (*cutopt.PlanRow, *cutopt.PlanRun) {
	if fit := a.measured.Rules.Fit; max(by, -by) > fit {
		a.refuse(e, fmt.Sprintf("write that the rows lie to row %d, and of row %d the pieces before its end", e.Row-1, e.Row),
			"row %d lies already, as planned but for the fit allowance of %s", e.Row, a.format(fit))
		return nil, nil
	}
	floor := &a.plan.Floors[e.Floor]
	for r := e.Row; r < len(floor.Rows); r++ {
		if row := &floor.Rows[r]; len(row.Runs) > 0 {
			if run, _ := endingRun(floor, row, min(e.Run, len(row.Runs))); !lies(run) {
				a.remark("counts-from", "row", a.row(e.Floor, e.Row-1), "other", r+1)
				return row, run
			}
		}
	}
	return nil, nil
}

// longer returns by how much a run ends farther out than planned: told, or of what the tape shows between what it ends
// at on both sides. A row of several runs that is told without one is meant as a whole if it is rather that long.
func (a *application) longer(e *Event, row *cutopt.PlanRow, run *cutopt.PlanRun) (by measure.Length, ok bool) {
	if e.Kind != KindMeasured {
		return e.Length, true
	}
	tape := func(first, last *cutopt.PlanRun) (measure.Length, bool) {
		left, ok := a.gapOf(&runEnd{e.Floor, row, first, -1})
		right, ok2 := a.gapOf(&runEnd{e.Floor, row, last, 1})
		return last.To - first.From + left + right, ok && ok2
	}
	was, ok := tape(run, run)
	if by = e.Length - was; e.Run == 0 && len(row.Runs) > 1 {
		whole, all := tape(&row.Runs[0], &row.Runs[len(row.Runs)-1])
		if d := e.Length - whole; all && (!ok || max(d, -d) < max(by, -by)) {
			by, ok = d, true
		}
	}
	if !ok {
		a.refuse(e, "write longer or shorter, and by how much", "row %d does not go from wall to wall", e.Row)
	}
	return by, ok
}

// A runEnd is an end of a run of a floor: that to the right for side 1, to the left for -1.
type runEnd struct {
	floor int
	row   *cutopt.PlanRow
	run   *cutopt.PlanRun
	side  measure.Length
}

// x returns where it is along the row.
func (end *runEnd) x() measure.Length {
	if end.side < 0 {
		return end.run.From
	}
	return end.run.To
}

// index returns the index of its row.
func (a *application) index(end *runEnd) int {
	return slices.IndexFunc(a.plan.Floors[end.floor].Rows, func(r cutopt.PlanRow) bool { return r.From == end.row.From })
}

// gapOf returns the gap between a run and what it ends at: a wall, the line of a doorway or an island.
func (a *application) gapOf(end *runEnd) (measure.Length, bool) {
	if w, ok := a.wallAt(end); ok {
		return a.gapAt(w), true
	}
	if room, door, _, _, ok := a.doorAt(end); ok {
		return a.gapAt(wallPlace{room: room, wall: a.rooms()[room].Doorways[door].Wall}), true
	}
	if _, island, _, ok := a.islandAt(end); ok {
		return a.job.Rules.FixedGap(island.Gap), true
	}
	return 0, false
}

// stepAt moves a wall from a row on.
func (a *application) stepAt(e *Event, at wallPlace, by measure.Length, end *runEnd) {
	axes, row, side := a.plan.Floors[e.Floor].Axes, end.row, end.side
	// The plan may know of a step there already, from a line before.
	room := &a.job.Rooms[at.room]
	now, ok := wallIn(room, axes, row, at.y, at.x+side*by, side, true)
	if !ok {
		a.refuse(e, "measure the room again, and change the job file", "row %d does not end at one wall", a.index(end)+1)
		return
	}
	if shift := at.x + side*by - now.x; shift != 0 {
		moved := stepWall(room, axes, &step{now.wall, row.From, shift, side, -1, a.nudge}, &a.job.Rules)
		if moved == nil {
			a.refuse(e, "write another row, or measure the room again",
				"that wall cannot step so at row %d: a doorway or another wall is in the way", a.index(end)+1)
			return
		}
		a.job.Rooms[at.room] = *moved
	}
}

// wallFrom returns where the first run that does not lie ends at a wall that an event moves, if one that lies does too;
// nil where none does, or none is left.
func (a *application) wallFrom(e *Event) (next *runEnd) {
	lies := false
	for _, f := range a.floorsOf(e) {
		floor := &a.plan.Floors[f]
		for r := range floor.Rows {
			row := &floor.Rows[r]
			for k := range row.Runs {
				run := &row.Runs[k]
				for side, n := range map[measure.Length]int{-1: 0, 1: len(run.Pieces) - 1} {
					end := &runEnd{f, row, run, side}
					if w, ok := a.wallAt(end); !ok || n < 0 || w.room != e.Room || w.wall != e.Wall-1 {
						continue
					}
					switch {
					case run.Pieces[n].Lies:
						lies, next = true, nil
					case lies && next == nil:
						next = end
					}
				}
			}
		}
	}
	return next
}

// stepWallFrom moves a wall, out by so much square to itself, from where a run ends at it on.
func (a *application) stepWallFrom(e *Event, end *runEnd) {
	axes, outline := a.plan.Floors[end.floor].Axes, a.rooms()[e.Room].Outline
	at, ok := a.wallAt(end)
	p, q := own(axes, outline[e.Wall-1]), own(axes, outline[e.Wall%len(outline)])
	dx, dy := float64(q.X-p.X), math.Abs(float64(q.Y-p.Y))
	if !ok || dy < math.Abs(dx) {
		a.refuse(e, "measure the room again, and change the job file", "rows that lie end at that wall")
		return
	}
	a.remark("wall-from", "n", e.Wall, "row", a.row(end.floor, a.index(end)))
	a.stepAt(e, at, measure.Length(math.Round(float64(e.Length)*math.Hypot(dx, dy)/dy)), end)
}

// stepIsland moves the side of an island at which a run ends, from its row on; it reports whether one does.
func (a *application) stepIsland(e *Event, by measure.Length, end *runEnd) bool {
	r, island, at, ok := a.islandAt(end)
	if !ok {
		return false
	}
	axes, row, side := a.plan.Floors[e.Floor].Axes, end.row, end.side
	is := &a.job.Rooms[r].Islands[at.room]
	around := cutopt.Room{Outline: is.Outline}
	now, ok := wallIn(&around, axes, row, at.y, at.x+side*by, side, true)
	shift := at.x + side*by - now.x
	if ok && shift == 0 {
		return true
	}
	var moved *cutopt.Room
	if smooth := a.job.Rules.Smooth + near; ok && max(shift, -shift) > smooth { // less is a jog of the drawing
		gap := a.job.Rules.FixedGap(island.Gap)
		moved = stepWall(&around, axes, &step{now.wall, row.From, shift, side, gap, a.nudge}, &a.job.Rules)
	}
	if moved == nil {
		a.refuse(e, "write another row, or tell where that thing stands", "what row %d ends at cannot step so there", e.Row)
		return true
	}
	is.Outline = moved.Outline
	return true
}

// islandAt returns the island that a run ends at, with its room, and the wall of it at the middle of the row; the room
// of that place is the index of the island.
func (a *application) islandAt(end *runEnd) (room int, island *cutopt.Island, at wallPlace, found bool) {
	row, side, axes := end.row, end.side, a.plan.Floors[end.floor].Axes
	for _, r := range a.measured.Fields(a.was.Breaks)[end.floor].Rooms {
		islands := a.rooms()[r.Number].Islands
		for k := range islands {
			around := cutopt.Room{Outline: islands[k].Outline}
			w, ok := wallIn(&around, axes, row, (row.From+row.To)/2, end.x(), side, false)
			if !ok || found && side*(w.reach-at.reach) >= 0 {
				continue
			}
			gap := a.job.Rules.FixedGap(islands[k].Gap)
			if side*(w.x-end.x()) <= gap+gap/2+a.job.Rules.Smooth+a.job.Rules.Cover+near {
				w.room = k
				room, island, at, found = r.Number, &islands[k], w, true
			}
		}
	}
	return room, island, at, found
}

// endsAtBreak reports whether a run ends at a break that parts the floor.
func (a *application) endsAtBreak(end *runEnd) bool {
	axes, y := a.plan.Floors[end.floor].Axes, (end.row.From+end.row.To)/2
	return slices.ContainsFunc(a.was.Breaks, func(b cutopt.PlanBreak) bool {
		p, q := own(axes, b.From), own(axes, b.To)
		x := (p.X + q.X) / 2
		return min(p.Y, q.Y) < y && y < max(p.Y, q.Y) &&
			max(x-end.x(), end.x()-x) <= b.Width+2*a.job.Rules.Gap+a.job.Rules.Cover+near
	})
}

// pinBreaks asks the job for the breaks at which rows lie, so that the planner does not choose others.
func (a *application) pinBreaks() {
	if !slices.ContainsFunc(a.plan.Floors, func(f cutopt.PlanFloor) bool { return begun(&f) }) {
		return
	}
	for _, b := range a.was.Breaks {
		if b.Asked || b.Doorway >= 0 {
			continue
		}
		room := &a.job.Rooms[b.Room]
		room.Breaks = append(slices.Clone(room.Breaks), cutopt.Break{Wall: b.Wall, At: b.At})
	}
}

// deepen moves the line at which a floor ends in a doorway, where a run ends there.
func (a *application) deepen(e *Event, by measure.Length, end *runEnd) bool {
	r, k, from, to, ok := a.doorAt(end)
	if !ok {
		return false
	}
	if n := a.liesBetween(e.Floor, from.Y, to.Y); n > 0 {
		a.refuse(e, "write a row past the doorway", "row %d ends in that doorway too, along the same line, and lies", n)
		return true
	}
	was, is := &a.rooms()[r].Doorways[k], &a.job.Rooms[r].Doorways[k]
	depth := was.Depth + squareTo(from, to, by)
	switch {
	case depth <= 0:
		a.refuse(e, "measure the doorway again, and change the job file", "that leaves no floor in the doorway")
	case is.Depth != was.Depth && is.Depth != depth:
		a.refuse(e, "keep one of the lines", "the floor ends in that doorway along one line, told otherwise before")
	default:
		is.Depth = depth
	}
	return true
}

// doorAt returns the doorway in which a run ends, with its room, and where its opening is, in the floor's own axes.
func (a *application) doorAt(end *runEnd) (room, door int, from, to cutopt.Point, ok bool) {
	axes, row := a.plan.Floors[end.floor].Axes, end.row
	for _, r := range a.measured.Fields(a.was.Breaks)[end.floor].Rooms {
		was := &a.rooms()[r.Number]
		for k, d := range was.Doorways {
			p, q := was.Outline[d.Wall], was.Outline[(d.Wall+1)%len(was.Outline)]
			size := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
			between := func(at measure.Length) cutopt.Point {
				return own(axes, cutopt.Point{
					X: p.X + measure.Length(math.Round(float64(q.X-p.X)*float64(at)/size)),
					Y: p.Y + measure.Length(math.Round(float64(q.Y-p.Y)*float64(at)/size)),
				})
			}
			from, to = between(d.At), between(d.At+d.Width)
			low, high := max(row.From, min(from.Y, to.Y)), min(row.To, max(from.Y, to.Y))
			if low >= high || d.Through {
				continue
			}
			at := func(y measure.Length) measure.Length {
				x := float64(y-from.Y) / float64(to.Y-from.Y) * float64(to.X-from.X)
				return end.side * (from.X + measure.Length(math.Round(x)))
			}
			beyond := end.side*end.x() - max(at(low), at(high)) // where the row reaches farthest
			if beyond > 0 && squareTo(from, to, beyond) <= d.Depth {
				return r.Number, k, from, to, true
			}
		}
	}
	return 0, 0, from, to, false
}

// squareTo returns how far something that is so long along the rows reaches square to a line of the floor.
func squareTo(from, to cutopt.Point, along measure.Length) measure.Length {
	dx, dy := float64(to.X-from.X), math.Abs(float64(to.Y-from.Y))
	return measure.Length(math.Round(float64(along) * dy / math.Hypot(dx, dy)))
}

// liesBetween returns the number of a row that ends and lies between two places across a floor; 0 for none.
func (a *application) liesBetween(f int, from, to measure.Length) int {
	from, to = min(from, to), max(from, to)
	rows := a.plan.Floors[f].Rows
	for r := range rows {
		if rows[r].From < to && from < rows[r].To && slices.ContainsFunc(rows[r].Runs, func(run cutopt.PlanRun) bool {
			return lies(&run)
		}) {
			return r + 1
		}
	}
	return 0
}

// gapAt returns the gap of a wall of the job as it was.
func (a *application) gapAt(w wallPlace) measure.Length {
	return a.job.Rules.WallGap(&a.rooms()[w.room], w.wall)
}

// rooms returns the rooms of the job as they were measured first.
func (a *application) rooms() []cutopt.Room { return a.measured.Rooms }

// A wallPlace is a place of a wall: of a room of the job, at x in a floor's own axes.
type wallPlace struct {
	room, wall int
	x, y       measure.Length // at a place of a row, at the middle if it is met there
	reach      measure.Length // where it reaches farthest on a side within the row
}

// wallAt returns the wall that a run ends at: false where it ends elsewhere.
func (a *application) wallAt(end *runEnd) (wallPlace, bool) {
	side, slack := end.side, a.job.Rules.Smooth+a.job.Rules.Cover+near
	for _, y := range across(end.row) {
		best, found := wallPlace{}, false
		for _, r := range a.measured.Fields(a.was.Breaks)[end.floor].Rooms {
			w, ok := wallIn(&a.rooms()[r.Number], a.plan.Floors[end.floor].Axes, end.row, y, end.x(), side, false)
			if w.room = r.Number; ok && (!found || side*(w.reach-best.reach) < 0) {
				best, found = w, true
			}
		}
		if gap := a.gapAt(best); found && side*(best.reach-end.x()) <= gap+gap/2+slack {
			return best, true
		}
	}
	return wallPlace{}, false
}
