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

// A lineWall is a wall that the first row lies along, or such a side of an island, from its left end.
type lineWall struct {
	room, wall, island int // from 1; wall or island is 0
	a, b               recount.Spot
	gap                float64
}

// at returns how far the wall lies across the rows at a distance from its left end.
func (w *lineWall) at(x float64) float64 { return w.a.Y + (w.b.Y-w.a.Y)*x/(w.b.X-w.a.X) }

// lines holds what is told of the line along each starting wall, or along fixed things where no wall shows, against
// where that and the row lie.
func (c *roomChecker) lines(floor *recount.Floor, told []*cutopt.Fact) {
	for _, group := range c.lineWalls(floor) {
		w := &group[0]
		var here []*cutopt.Fact
		told = slices.DeleteFunc(told, func(f *cutopt.Fact) bool {
			mine := f.Room == w.room && f.Wall == w.wall && f.Island == w.island
			if mine {
				here = append(here, f)
			}
			return mine
		})
		wrong := ""
		for i := range group { // of a fixed thing one side must be so
			if wrong = c.line(here, &group[i]); wrong == "" {
				break
			}
		}
		if wrong != "" {
			c.untrue(here[len(here)-1], wrong, "length", about(w.b.X-w.a.X))
			return
		}
	}
	for _, f := range told {
		c.untrue(f, "line-no-wall")
	}
}

// line returns the kind of finding of what is told of the line along a wall; "" where it is so.
func (c *roomChecker) line(here []*cutopt.Fact, w *lineWall) string {
	const rough = 8.0
	var places []float64
	for _, f := range here {
		at, height := float64(f.At), w.at(float64(f.At))
		if level(f) {
			at, height = 0, min(w.a.Y, w.b.Y)
			if math.Abs(w.a.Y-w.b.Y) > float64(cutopt.Trifle)+rough || len(here) > 1 {
				return "line-slanted"
			}
		}
		places = append(places, at)
		if !c.lineRow(f.Row, w) || f.Row != here[0].Row ||
			math.Abs(float64(c.room.Rows[f.Row-1].To)-height-float64(f.Width)) > rough {
			return "line-other"
		}
	}
	if len(here) > 0 && !c.linePlaces(here[0], w, places) {
		return "line-other"
	}
	return ""
}

// level reports whether a fact tells of a line that is as far from what it is measured from all along.
func level(f *cutopt.Fact) bool { return f.Kind == cutopt.FactLine || f.Kind == cutopt.FactLineFixed }

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
	if float64(row.From) > max(w.a.Y, w.b.Y)+hidden {
		return false
	}
	for i := 1; i < len(places); i++ {
		if places[i] <= places[i-1] {
			return false
		}
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
				if before[k] = true; !level(f) && at-last > float64(cutopt.LineStep) {
					return false
				}
				last = at
			}
		}
		if !level(f) && last < to-near {
			return false
		}
	}
	return floor && (level(f) || !slices.Contains(before, false))
}

// lineWalls lists the walls along the rows, within 10 degrees, that reach farthest to the starting side, but for short
// ones, each by itself, and for each island all its sides along the rows that face away from the starting side.
func (c *roomChecker) lineWalls(floor *recount.Floor) [][]lineWall {
	low := math.Inf(1)
	for i := range floor.Rooms {
		for _, p := range floor.Rooms[i].Outline.Corners {
			low = min(low, p.Y)
		}
	}
	var out [][]lineWall
	for i := range floor.Rooms {
		ring := &floor.Rooms[i].Outline
		for k := range ring.Corners {
			w, ok := along(ring, k)
			if ok && min(w.a.Y, w.b.Y) < low+alike {
				if wall := c.rooms[i].edges[k].wall; wall >= 0 {
					w.room, w.wall = c.rooms[i].number+1, wall+1
					out = append(out, []lineWall{w})
				}
			}
		}
		for k := range floor.Rooms[i].Islands {
			if fronts := c.fronts(i, k, &floor.Rooms[i].Islands[k]); fronts != nil {
				out = append(out, fronts)
			}
		}
	}
	return out
}

// along returns a wall of a ring that lies along the rows, within 10 degrees, and is not short.
func along(ring *recount.Ring, k int) (lineWall, bool) {
	a, b := ring.Corners[k], ring.Corners[(k+1)%len(ring.Corners)]
	if a.X > b.X {
		a, b = b, a
	}
	return lineWall{a: a, b: b, gap: ring.Gaps[k]},
		math.Abs(b.Y-a.Y) <= parallel*(b.X-a.X) && b.X-a.X > short
}

// fronts returns the sides of island k of a room along the rows with no other part of the island beyond them.
func (c *roomChecker) fronts(room, k int, ring *recount.Ring) (out []lineWall) {
	p := c.rooms[room]
	own := c.job.Rooms[p.number].Islands
	number := slices.IndexFunc(own, func(i cutopt.Island) bool {
		return slices.Equal(i.Outline, p.Islands[k].Outline)
	})
	turned := 0.0 // twice the area: its sign tells which way round the ring is
	for i, a := range ring.Corners {
		b := ring.Corners[(i+1)%len(ring.Corners)]
		turned += float64(a.X*b.Y) - float64(b.X*a.Y)
	}
	for i, a := range ring.Corners {
		b := ring.Corners[(i+1)%len(ring.Corners)]
		if w, ok := along(ring, i); ok && (a.X > b.X) == (turned > 0) {
			w.room, w.island = p.number+1, number+1
			out = append(out, w)
		}
	}
	return out
}
