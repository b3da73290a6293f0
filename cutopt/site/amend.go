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
// Corners of slanted walls are rounded, which may move the end of a run that lies by a hair: see meet. Where both its
// ends are whole planks it cannot give way, and in a room that is turned by no whole quarter the lines between rows may
// move as well: there places of the step beside the nearest one are tried.
//
// What cannot be worked in and is no more than the fit allowance is left out with a remark: all plans hold for that.
func (a *application) amend(s *State) {
	if !slices.ContainsFunc(s.Events, func(e Event) bool { return e.Kind.Remeasures() }) {
		return
	}
	a.by, a.within = make(map[*Event]measure.Length), make(map[*Event]bool)
	fit := a.measured.Rules.Fit
	for a.amended(s) {
		for _, wrong := range a.errs {
			by, known := a.by[wrong.event]
			if !known || max(by, -by) > fit || a.within[wrong.event] {
				return
			}
		}
		for _, wrong := range a.errs {
			a.within[wrong.event] = true
		}
	}
	for i := range s.Events {
		if e := &s.Events[i]; a.within[e] {
			a.remark("cut-to-fit", "row", a.row(e.Floor, e.Row-1), "length", max(a.by[e], -a.by[e]), "fit", fit)
		}
	}
}

// amended works all that counts into the job anew, and reports whether anything is wrong with it: where nothing else
// will do, with rows that lie taken to end elsewhere by what the trim hides.
func (a *application) amended(s *State) (wrong bool) {
	turned := slices.ContainsFunc(a.plan.Floors, func(f cutopt.PlanFloor) bool { return !f.Axes.Square() })
	var first Errors
	remarks := len(a.remarks)
	for _, a.loosely = range []bool{false, true} {
		for i, nudge := range nudges() {
			if i > 0 && (!turned && !a.unbent || a.loosely) {
				break
			}
			a.job, a.errs, a.nudge, a.remarks = a.measured.Clone(), nil, nudge, a.remarks[:remarks]
			if a.remeasure(s); len(a.errs) == 0 {
				return false
			}
			if first == nil {
				first = a.errs
			}
		}
	}
	a.errs, a.remarks = first, a.remarks[:remarks]
	return true
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
	a.pinBreaks()
	touched := make(map[int]*Event) // floors whose rooms change, with the last event that changes them
	first := make(map[int]measure.Length)
	var last *Event
	steps := make(map[*Event]*runEnd) // walls at which rows lie, which stand elsewhere from a row on
	for i := range s.Events {
		if e := &s.Events[i]; e.Kind == KindWall {
			steps[e] = a.wallFrom(e)
		}
	}
	for _, pass := range []func(*Event) bool{
		func(e *Event) bool { return steps[e] == nil && (e.Kind == KindWall || e.Kind == KindLast) }, // by walls of the job
		func(e *Event) bool {
			return steps[e] != nil || e.Kind.Remeasures() && e.Kind != KindWall && e.Kind != KindLast
		},
	} {
		for i := range s.Events {
			e := &s.Events[i]
			if !pass(e) || a.within[e] {
				continue
			}
			for _, f := range a.floorsOf(e) {
				touched[f] = e
			}
			if last = e; e.Kind == KindFirst {
				first[e.Floor] = e.Length
			}
			if end := steps[e]; end != nil {
				a.stepWallFrom(e, end)
				continue
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
