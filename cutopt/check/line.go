package check

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
)

// base holds the wall that the rows are told to be laid out from against the job: the one it asks for, or the
// longest. A plan need not tell it.
func (c *roomChecker) base(longest, asked []*cutopt.Fact) {
	first := c.first
	number, rows := c.leading+1, first.Rows
	for _, f := range append(slices.Clone(longest), asked...) {
		if f.Room != number || f.Wall < 1 || f.Wall > len(first.Outline) {
			c.untrue(f, "base-other", "room", number)
			return
		}
	}
	a, l, w := c.once(asked), c.once(longest), c.baseWall(first)
	switch {
	case a != nil && a.Wall != rows.StartWall:
		c.untrue(a, "base-not-asked")
	case l != nil && rows.StartWall > 0:
		c.untrue(l, "base-untold", "wall", rows.StartWall)
	case l != nil && rows.Direction == cutopt.DirectionAngle:
		c.untrue(l, "base-at-angle")
	case l != nil && (l.Wall != w.number || l.Count != w.alike || math.Abs(float64(l.Length)-w.long()) > 1):
		c.untrue(l, "base-longest", "wall", w.number, "count", w.alike, "length", about(w.long()))
	}
}

// taper holds what is told of a room's taper against how far the starting side and the side opposite run off the rows,
// one to each side.
func (c *roomChecker) taper(floor *recount.Floor, facts []*cutopt.Fact) {
	f := c.once(facts)
	if f == nil {
		return
	}
	const rough = 8.0
	sides := edgeSides(floor)
	first, last := sides[0].b.Y-sides[0].a.Y, sides[1].b.Y-sides[1].a.Y
	if first*last >= 0 || math.Abs(math.Abs(first)-float64(f.First)) > rough ||
		math.Abs(math.Abs(last)-float64(f.Last)) > rough || f.Least != c.job.LeastRip() {
		c.untrue(f, "taper-other", "least", c.job.LeastRip())
	}
}

// edgeSides returns the starting side and the side opposite, each from the left end of its first wall to the right end
// of its last.
func edgeSides(floor *recount.Floor) (sides [2]edgeWall) {
	var found [2]bool
	for _, w := range edgeWalls(floor) {
		s := &sides[w.side]
		for _, p := range []recount.Spot{w.a, w.b} {
			if !found[w.side] || p.X < s.a.X {
				s.a = p
			}
			if !found[w.side] || p.X > s.b.X {
				s.b = p
			}
			found[w.side] = true
		}
	}
	return sides
}

// leant returns by how many degrees the plan says that the floor is turned to share a taper: as the wall of the
// starting side that runs off the rows so far.
func (c *roomChecker) leant() float64 {
	lean := 0.0
	for i := range c.room.Facts {
		f := &c.room.Facts[i]
		if f.Kind != cutopt.FactTaper {
			continue
		}
		start := edgeSides(c.floor())[0]
		if rise := math.Abs(start.b.Y - start.a.Y); rise > 0 && math.Abs(rise-float64(f.First)) <= 8 {
			lean = max(lean, math.Atan2(rise, start.b.X-start.a.X)*180/math.Pi)
		}
	}
	return lean
}

// A lineWall is a wall that the first row lies along, from its left end.
type lineWall struct {
	room, wall int // from 1
	a, b       recount.Spot
	gap        float64
}

// at returns how far the wall lies across the rows at a distance from its left end.
func (w *lineWall) at(x float64) float64 { return w.a.Y + (w.b.Y-w.a.Y)*x/(w.b.X-w.a.X) }

// lines holds what is told of the line along each starting wall against where that wall and the row lie.
func (c *roomChecker) lines(floor *recount.Floor, level, slanted []*cutopt.Fact) {
	const rough = 8.0
	told := append(slices.Clone(level), slanted...)
	for _, w := range c.lineWalls(floor) {
		var here []*cutopt.Fact
		told = slices.DeleteFunc(told, func(f *cutopt.Fact) bool {
			mine := f.Room == w.room && f.Wall == w.wall
			if mine {
				here = append(here, f)
			}
			return mine
		})
		off, long := math.Abs(w.a.Y-w.b.Y), w.b.X-w.a.X
		var places []float64
		for _, f := range here {
			at, height := float64(f.At), w.at(float64(f.At))
			if f.Kind == cutopt.FactLine {
				at, height = 0, min(w.a.Y, w.b.Y)
				if off > float64(cutopt.Trifle)+rough || len(here) > 1 {
					c.untrue(f, "line-slanted")
					return
				}
			}
			places = append(places, at)
			if !c.lineRow(f.Row, &w) || f.Row != here[0].Row ||
				math.Abs(float64(c.room.Rows[f.Row-1].To)-height-float64(f.Width)) > rough {
				c.untrue(f, "line-other", "length", about(long))
				return
			}
		}
		if len(here) > 0 && !c.linePlaces(here[0], &w, places) {
			c.untrue(here[len(here)-1], "line-other", "length", about(long))
			return
		}
	}
	for _, f := range told {
		c.untrue(f, "line-no-wall")
	}
}

// lineRow reports whether a row is the first whose back edge lies beyond a wall and its gap.
func (c *roomChecker) lineRow(row int, w *lineWall) bool {
	const rough = 2.0
	beyond := max(w.a.Y, w.b.Y) + w.gap
	return row >= 1 && row <= len(c.room.Rows) && float64(c.room.Rows[row-1].To) > beyond-rough &&
		(row == 1 || float64(c.room.Rows[row-2].To) <= beyond+rough)
}

// linePlaces reports whether the places of a line lie where floor of its row does before the wall, and reach along each
// run of it from end to end with no longer steps than [cutopt.LineStep]. A level line needs none but such floor.
func (c *roomChecker) linePlaces(f *cutopt.Fact, w *lineWall, places []float64) bool {
	const near = float64(2*measure.Inch) + 8
	hidden := w.gap + float64(c.job.Rules.Cover+c.job.Rules.Smooth) + near
	row := &c.room.Rows[f.Row-1]
	if float64(row.From) > max(w.a.Y, w.b.Y)+hidden || !slices.IsSorted(places) {
		return false
	}
	before := make([]bool, len(places)) // that have floor before them
	floor := false
	for i := range row.Runs {
		from, to := max(float64(row.Runs[i].From), w.a.X)-w.a.X, min(float64(row.Runs[i].To), w.b.X)-w.a.X
		if from >= to {
			continue
		}
		floor = true
		last := from + near - float64(cutopt.LineStep)
		for k, at := range places {
			if from-near <= at && at <= to+near {
				if before[k] = true; f.Kind == cutopt.FactLineAt && at-last > float64(cutopt.LineStep) {
					return false
				}
				last = at
			}
		}
		if f.Kind == cutopt.FactLineAt && last < to-near {
			return false
		}
	}
	return floor && (f.Kind == cutopt.FactLine || !slices.Contains(before, false))
}

// lineWalls lists the walls along the rows, within 10 degrees, that reach farthest to the starting side, but for short
// ones.
func (c *roomChecker) lineWalls(floor *recount.Floor) []lineWall {
	low := math.Inf(1)
	for i := range floor.Rooms {
		for _, p := range floor.Rooms[i].Outline.Corners {
			low = min(low, p.Y)
		}
	}
	var out []lineWall
	for i := range floor.Rooms {
		ring := &floor.Rooms[i].Outline
		for k, a := range ring.Corners {
			b := ring.Corners[(k+1)%len(ring.Corners)]
			if a.X > b.X {
				a, b = b, a
			}
			if math.Abs(b.Y-a.Y) <= parallel*(b.X-a.X) && b.X-a.X > short && min(a.Y, b.Y) < low+alike {
				if wall := c.rooms[i].edges[k].wall; wall >= 0 {
					out = append(out, lineWall{c.rooms[i].number + 1, wall + 1, a, b, ring.Gaps[k]})
				}
			}
		}
	}
	return out
}
