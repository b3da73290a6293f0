package site

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// amend works what was measured anew into the job, and holds that what lies comes out as it lies.
//
// Where runs end farther from some row on, the wall at their end gets a step whose gap ends at the line before that
// row, so that it takes nothing off the rows beside it: a gap as wide as a slanted wall needs, none where it runs
// square to the rows. A step that straightening would take for a jog of the drawing keeps a gap one tick wider, and
// lies one tick farther out: walls that keep different gaps are never straightened.
//
// Corners of slanted walls are rounded, which may move the end of a run that lies by a tick or two: the piece there is
// taken as so much longer. A whole plank cannot be, and in a room that is turned by no whole quarter the lines between
// rows may move as well: there places of the step beside the nearest one are tried.
func (a *application) amend(s *State) {
	if !slices.ContainsFunc(s.Events, func(e Event) bool { return e.Kind.Remeasures() }) {
		return
	}
	turned := slices.ContainsFunc(a.plan.Floors, func(f cutopt.PlanFloor) bool { return !f.Axes.Square() })
	var first Errors
	for i, nudge := range nudges() {
		if i > 0 && !turned && !a.unbent {
			break
		}
		a.job, a.errs, a.nudge = a.measured.Clone(), nil, nudge
		if a.remeasure(s); len(a.errs) == 0 {
			return
		}
		if first == nil {
			first = a.errs
		}
	}
	a.errs = first
}

// nudges are the places of a step beside the nearest to the line, in the order they are tried.
func nudges() []cutopt.Point {
	var out []cutopt.Point
	for x := measure.Length(-2); x <= 2; x++ {
		for y := measure.Length(-2); y <= 2; y++ {
			out = append(out, cutopt.Point{X: x, Y: y})
		}
	}
	slices.SortStableFunc(out, func(p, q cutopt.Point) int { return cmp.Compare(p.X*p.X+p.Y*p.Y, q.X*q.X+q.Y*q.Y) })
	return out
}

// remeasure works all that was measured anew into the job.
func (a *application) remeasure(s *State) {
	touched := make(map[int]*Event) // floors whose rooms change, with the last event that changes them
	first := make(map[int]measure.Length)
	var last *Event
	for _, pass := range []func(Kind) bool{
		func(k Kind) bool { return k == KindWall || k == KindLast }, // they count the walls of the job
		func(k Kind) bool { return k.Remeasures() && k != KindWall && k != KindLast },
	} {
		for i := range s.Events {
			e := &s.Events[i]
			if !pass(e.Kind) {
				continue
			}
			for _, f := range a.floorsOf(e) {
				touched[f] = e
			}
			if last = e; e.Kind == KindFirst {
				first[e.Floor] = e.Length
			}
			a.change(e)
		}
	}
	if len(a.errs) > 0 {
		return
	}
	if err := a.job.Validate(); err != nil {
		a.refuse(last, "measure the room again, and change the job file", "with that the room is none: %v", plainly(err))
		return
	}
	for f := range a.plan.Floors {
		if e := touched[f]; e != nil && (begun(&a.plan.Floors[f]) || first[f] > 0) {
			a.pin(f, e, first[f])
		}
	}
	if len(a.errs) == 0 {
		a.held(touched, last)
	}
}

// floorsOf returns the floors whose rooms an event changes.
func (a *application) floorsOf(e *Event) (out []int) {
	if !e.Kind.ofRoom() {
		return []int{e.Floor}
	}
	for f, field := range a.job.Fields(a.was.Breaks) {
		if f < len(a.plan.Floors) && slices.ContainsFunc(field.Rooms, func(r cutopt.RoomPart) bool {
			return r.Number == e.Room
		}) {
			out = append(out, f)
		}
	}
	return out
}

// change works one event into the job.
func (a *application) change(e *Event) {
	switch e.Kind {
	case KindWall:
		if a.job.Rooms[e.Room] = moveWall(&a.job.Rooms[e.Room], e.Wall-1, e.Length); a.job.Rooms[e.Room].Outline == nil {
			a.refuse(e, "measure the room again, and change the job file", "a doorway or another wall is in the way")
		}
	case KindLast:
		a.lastRow(e)
	case KindLonger, KindMeasured:
		a.ends(e)
	case KindPipe:
		room := &a.job.Rooms[e.Room]
		room.Pipes = append(slices.Clone(room.Pipes), cutopt.Pipe{At: e.At, Diameter: e.Length})
		half := e.Length/2 + a.job.Rules.Gap
		a.clear(e, cutopt.RectangleAt(cutopt.Point{X: e.At.X - half, Y: e.At.Y - half}, 2*half, 2*half))
	case KindIsland:
		room := &a.job.Rooms[e.Room]
		island := cutopt.Island{Outline: cutopt.RectangleAt(e.At, e.Size.X, e.Size.Y)}
		room.Islands = append(slices.Clone(room.Islands), island)
		gap := a.job.Rules.Gap
		a.clear(e, cutopt.RectangleAt(cutopt.Point{X: e.At.X - gap, Y: e.At.Y - gap}, e.Size.X+2*gap, e.Size.Y+2*gap))
	}
}

// clear refuses a fixed thing that takes floor, a ring of the drawing, where a piece lies.
func (a *application) clear(e *Event, ring []cutopt.Point) {
	for _, f := range a.floorsOf(e) {
		floor := &a.plan.Floors[f]
		x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
		for _, p := range ring {
			x, y := floor.Axes.FromDrawing(p)
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
		}
		for r := range floor.Rows {
			row := &floor.Rows[r]
			if float64(row.To) <= y0 || float64(row.From) >= y1 {
				continue
			}
			for k := range row.Runs {
				for _, p := range row.Runs[k].Pieces {
					if p.Lies && float64(p.From) < x1 && x0 < float64(p.To) {
						a.refuse(e, "take up what lies there first, or see its place in the drawing of the job",
							"row %d lies there already", r+1)
						return
					}
				}
			}
		}
	}
}

// lies reports whether all of a run lies.
func lies(run *cutopt.PlanRun) bool {
	return len(run.Pieces) > 0 && !slices.ContainsFunc(run.Pieces, func(p cutopt.Piece) bool { return !p.Lies })
}

// ends moves the wall at which runs end, from a row on.
func (a *application) ends(e *Event) {
	floor := &a.plan.Floors[e.Floor]
	row := &floor.Rows[e.Row-1]
	if len(row.Runs) == 0 {
		a.refuse(e, "write a row that is laid", "row %d has no floor", e.Row)
		return
	}
	run := &row.Runs[max(0, e.Run-1)]
	if e.Run == 0 && floor.LaidFrom == cutopt.HandLeft {
		run = &row.Runs[len(row.Runs)-1] // which ends at the wall
	}
	if lies(run) {
		a.refuse(e, "write from which row on it is so", "row %d lies already, and ends where it ends", e.Row)
		return
	}
	side := measure.Length(1)
	if floor.LaidFrom == cutopt.HandRight {
		side = -1
	}
	at, ok := a.wallAt(e.Floor, row, run, side)
	if !ok && e.Kind == KindLonger && a.deepen(e, row, run, side) {
		return
	}
	if !ok {
		a.refuse(e, "tell where that thing or the wall behind it stands, or measure the room again",
			"row %d does not end at a wall of the room there", e.Row)
		return
	}
	by := e.Length
	if e.Kind == KindMeasured {
		start, ok := a.wallAt(e.Floor, row, run, -side)
		if !ok {
			a.refuse(e, "write longer or shorter, and by how much", "row %d does not begin at a wall of the room", e.Row)
			return
		}
		by -= run.To - run.From + a.gapAt(at) + a.gapAt(start)
	}
	// The plan may know of a step there already, from a line before.
	room := &a.job.Rooms[at.room]
	now, ok := wallIn(room, floor.Axes, row, at.x+side*by, side, true)
	if !ok {
		a.refuse(e, "measure the room again, and change the job file", "row %d does not end at one wall", e.Row)
		return
	}
	if shift := at.x + side*by - now.x; shift != 0 {
		moved := stepWall(room, floor.Axes, now.wall, row.From, shift, side, a.nudge, &a.job.Rules)
		if moved == nil {
			a.refuse(e, "write another row, or measure the room again",
				"that wall cannot step so at row %d: a doorway or another wall is in the way", e.Row)
			return
		}
		a.job.Rooms[at.room] = *moved
	}
}

// deepen moves the line at which a floor ends in a doorway, where a run ends there.
func (a *application) deepen(e *Event, row *cutopt.PlanRow, run *cutopt.PlanRun, side measure.Length) bool {
	axes := a.plan.Floors[e.Floor].Axes
	end := run.To
	if side < 0 {
		end = run.From
	}
	for _, r := range a.measured.Fields(a.was.Breaks)[e.Floor].Rooms {
		was, is := &a.rooms()[r.Number], &a.job.Rooms[r.Number]
		for k, d := range was.Doorways {
			p, q := was.Outline[d.Wall], was.Outline[(d.Wall+1)%len(was.Outline)]
			size := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
			between := func(at measure.Length) cutopt.Point {
				return own(axes, cutopt.Point{
					X: p.X + measure.Length(math.Round(float64(q.X-p.X)*float64(at)/size)),
					Y: p.Y + measure.Length(math.Round(float64(q.Y-p.Y)*float64(at)/size)),
				})
			}
			from, to := between(d.At), between(d.At+d.Width)
			beyond := side * (end - (from.X+to.X)/2)
			if row.To <= min(from.Y, to.Y) || row.From >= max(from.Y, to.Y) || beyond <= 0 || beyond > d.Depth || d.Through {
				continue
			}
			if n := a.liesBetween(e.Floor, from.Y, to.Y); n > 0 {
				a.refuse(e, "write a row past the doorway, and cut these to fit", "row %d ends in that doorway too, and lies", n)
				return true
			}
			depth := d.Depth + e.Length
			if now := is.Doorways[k].Depth; now != d.Depth && now != depth {
				a.refuse(e, "keep one of the lines", "the floor ends in that doorway along one line, told otherwise before")
				return true
			}
			if depth > 0 {
				is.Doorways[k].Depth = depth
				return true
			}
		}
	}
	return false
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
	if gap, ok := a.rooms()[w.room].WallGaps[w.wall]; ok {
		return gap
	}
	return a.job.Rules.Gap
}

// rooms returns the rooms of the job as they were measured first.
func (a *application) rooms() []cutopt.Room { return a.measured.Rooms }

// A wallPlace is a place of a wall: of a room of the job, at x in a floor's own axes.
type wallPlace struct {
	room, wall int
	x          measure.Length // at the middle of a row
	reach      measure.Length // where it reaches farthest on a side within the row
}

// wallAt returns the wall that a run ends at on one side, at the middle of its row: false where it ends elsewhere.
func (a *application) wallAt(f int, row *cutopt.PlanRow, run *cutopt.PlanRun, side measure.Length) (wallPlace, bool) {
	end := run.To
	if side < 0 {
		end = run.From
	}
	best, found := wallPlace{}, false
	for _, r := range a.measured.Fields(a.was.Breaks)[f].Rooms {
		room := &a.rooms()[r.Number]
		w, ok := wallIn(room, a.plan.Floors[f].Axes, row, end, side, false)
		if w.room = r.Number; ok && (!found || side*(w.reach-best.reach) < 0) {
			best, found = w, true
		}
	}
	slack := a.job.Rules.Smooth + a.job.Rules.Cover + 4
	gap := a.gapAt(best)
	return best, found && side*(best.reach-end) <= gap+gap/2+slack
}

// lastRow moves the walls behind the last row so that it is as wide as told.
func (a *application) lastRow(e *Event) {
	floor := &a.plan.Floors[e.Floor]
	if len(floor.Rows) == 0 {
		return
	}
	row := &floor.Rows[len(floor.Rows)-1]
	for k := range row.Runs {
		if slices.ContainsFunc(row.Runs[k].Pieces, func(p cutopt.Piece) bool { return p.Lies }) {
			a.refuse(e, "drop the line", "the last row lies already")
			return
		}
	}
	by := e.Length - row.Width
	moved := false
	for _, r := range a.measured.Fields(a.was.Breaks)[e.Floor].Rooms {
		room := &a.job.Rooms[r.Number]
		for w := range room.Outline {
			if y, ok := level(room, floor.Axes, w); !ok || max(y-row.To, row.To-y) > a.gapAt(wallPlace{room: r.Number, wall: w})+
				a.job.Rules.Smooth+a.job.Rules.Cover+4 {
				continue
			}
			next := moveWall(room, w, by)
			if moved = true; next.Outline == nil {
				a.refuse(e, "measure the room again, and change the job file", "a doorway or another wall is in the way")
				return
			}
			*room = next
		}
	}
	if !moved {
		a.refuse(e, "write which wall stands elsewhere: wall 3 out 1/2", "no wall of the room runs along the last row")
	}
}
