package check

import (
	"context"
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
)

// floors returns, for each floor that the job's rooms make, the rooms it consists of. Doorways without a transition
// join rooms, and floors come in the order of their first rooms.
func (c *checker) floors() [][]int {
	rooms := c.job.Rooms
	byName := make(map[string]int, len(rooms))
	parent := make([]int, len(rooms)) // towards the first room of the floor
	for i := range rooms {
		byName[rooms[i].Name], parent[i] = i, i
	}
	first := func(i int) int {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	for i := range rooms {
		for _, d := range rooms[i].Doorways {
			if j, ok := byName[d.To]; ok && d.Through {
				a, b := first(i), first(j)
				parent[max(a, b)] = min(a, b)
			}
		}
	}
	var floors [][]int
	index := make(map[int]int)
	for i := range rooms {
		f := first(i)
		if f == i {
			index[i] = len(floors)
			floors = append(floors, nil)
		}
		floors[index[f]] = append(floors[index[f]], i)
	}
	if len(floors) != len(c.plan.Floors) {
		c.add(Violation{
			Rule: RuleJob, Got: fmt.Sprintf("the plan has %d floors", len(c.plan.Floors)),
			Want: fmt.Sprintf("%d, which the job's rooms make", len(floors)),
		})
	}
	return floors
}

// shape checks the corners of a piece that is no full rectangle.
func (c *roomChecker) shape(at Violation, row *cutopt.PlanRow, p *cutopt.Piece) {
	if p.Shape == nil {
		return
	}
	at.Rule = RuleShape
	if len(p.Shape) < 3 {
		c.report(at, fmt.Sprintf("its shape has %d corners", len(p.Shape)), "three or more, or no shape for a full rectangle")
		return
	}
	for _, q := range p.Shape {
		if q.X < p.From || q.X > p.To || q.Y < row.From || q.Y > row.To {
			c.report(
				at,
				"its shape has a corner at "+c.place(float64(q.X), float64(q.Y)),
				fmt.Sprintf(
					"corners between %s and %s",
					c.place(float64(p.From), float64(row.From)),
					c.place(float64(p.To), float64(row.To)),
				),
			)
			return
		}
	}
	if twiceArea(p.Shape) == 0 {
		c.report(at, "its shape has no area", "an area above 0")
	}
}

// place prints a place of the room's own axes.
func (c *checker) place(x, y float64) string {
	return fmt.Sprintf("(%s, %s)", c.about(x), c.about(y))
}

// about prints a length that need not be a whole number of ticks.
func (c *checker) about(l float64) string { return c.text(measure.Length(math.Round(l))) }

// cover measures how the pieces lie in the room.
func (c *roomChecker) cover(ctx context.Context) error {
	if len(c.rooms) == 0 {
		return nil
	}
	var strips []recount.Strip
	var parts []recount.Part
	for i := range c.room.Rows {
		row := &c.room.Rows[i]
		if row.To <= row.From || i > 0 && row.From < c.room.Rows[i-1].To {
			return nil // reported with the rows; pieces of such rows lie nowhere
		}
		strips = append(strips, recount.Strip{From: float64(row.From), To: float64(row.To)})
		for k := range row.Runs {
			for m := range row.Runs[k].Pieces {
				if corners := corners(row, &row.Runs[k].Pieces[m]); corners != nil {
					parts = append(parts, recount.Part{Ref: recount.Ref{Row: i, Run: k, Piece: m}, Corners: corners})
				}
			}
		}
	}
	floor := c.floor()
	c.facts(floor)
	findings, err := recount.MeasureContext(ctx, floor, strips, parts)
	for _, f := range findings {
		c.finding(&f)
	}
	return err
}

// corners returns the corners of a piece as it lies; nil where its length or its shape is reported as wrong.
func corners(row *cutopt.PlanRow, p *cutopt.Piece) []recount.Spot {
	if p.To <= p.From {
		return nil
	}
	x0, y0, x1, y1 := float64(p.From), float64(row.From), float64(p.To), float64(row.To)
	if p.Shape == nil {
		return []recount.Spot{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	}
	if len(p.Shape) < 3 {
		return nil
	}
	spots := make([]recount.Spot, len(p.Shape))
	for i, q := range p.Shape {
		spots[i] = recount.Spot{X: min(max(float64(q.X), x0), x1), Y: min(max(float64(q.Y), y0), y1)}
	}
	return spots
}

// floor places the rooms of the job in the axes of the plan.
func (c *roomChecker) floor() *recount.Floor {
	rules := &c.job.Rules
	axes := recount.Axes{Origin: c.room.Axes.Origin, Turn: c.room.Axes.Turn, Mirrored: c.room.Axes.Mirrored}
	f := &recount.Floor{Exact: math.Mod(axes.Turn, 90) == 0, Hidden: float64(rules.Cover + rules.Smooth)}
	ring := func(points []cutopt.Point, gap func(i int) measure.Length) recount.Ring {
		r := recount.Ring{Corners: make([]recount.Spot, len(points)), Gaps: make([]float64, len(points))}
		for i, p := range points {
			r.Corners[i], r.Gaps[i] = axes.Place(p), float64(gap(i))
		}
		return r
	}
	for _, i := range c.rooms {
		room := &c.job.Rooms[i]
		wallGap := func(i int) measure.Length {
			if gap, ok := room.WallGaps[i]; ok {
				return gap
			}
			return rules.Gap
		}
		r := recount.Room{Outline: ring(room.Outline, wallGap)}
		for k := range room.Islands {
			gap := room.Islands[k].Gap
			switch gap {
			case 0:
				gap = rules.Gap
			case cutopt.GapNone:
				gap = 0
			}
			r.Islands = append(r.Islands, ring(room.Islands[k].Outline, func(int) measure.Length { return gap }))
		}
		for _, d := range room.Doorways {
			r.Doorways = append(r.Doorways, c.doorway(&d, wallGap(d.Wall)))
		}
		f.Rooms = append(f.Rooms, r)
	}
	return f
}

// doorway returns an opening as it is measured: wooden casings are undercut, so the floor may run beneath them.
func (c *roomChecker) doorway(d *cutopt.Doorway, gap measure.Length) recount.Doorway {
	door := recount.Doorway{
		Wall: d.Wall, At: float64(d.At), Width: float64(d.Width), Depth: float64(d.Depth), Into: -1,
	}
	if d.Casing == cutopt.CasingMetal {
		door.Gap = float64(gap)
	} else {
		door.Under = float64(c.job.Rules.Under)
	}
	if d.Through {
		door.Into = slices.IndexFunc(c.rooms, func(i int) bool { return c.job.Rooms[i].Name == d.To })
	}
	if door.Into < 0 {
		door.Stop = float64(gap)
	}
	return door
}

// finding turns a finding of the measurement into a violation.
func (c *roomChecker) finding(f *recount.Finding) {
	part := func(rule Rule) Violation { return c.at(rule, f.Part.Row+1, f.Part.Run+1, f.Part.Piece+1) }
	switch f.Kind {
	case recount.Uncovered:
		at := c.at(RuleCover, f.Row+1, 0, 0)
		where := ""
		switch {
		case len(c.room.Rows) == 0:
			at.Row = 0
		case f.Row < 0:
			at.Row, where = 1, " before it"
		case f.Row >= len(c.room.Rows):
			at.Row, where = len(c.room.Rows), " after it"
		}
		c.report(
			at,
			fmt.Sprintf(
				"%v%s between %s and %s lie open",
				areaText(f.Area, c.job.Unit),
				where,
				c.place(f.At.X, f.At.Y),
				c.place(f.To.X, f.To.Y),
			),
			"floor covered up to what the trim hides",
		)
	case recount.Overlap:
		c.report(
			part(RuleOverlap),
			fmt.Sprintf("it lies on row %d run %d piece %d at %s, over %s", f.Other.Row+1, f.Other.Run+1, f.Other.Piece+1,
				c.place(f.At.X, f.At.Y), areaText(f.Area, c.job.Unit)),
			"pieces beside each other",
		)
	case recount.Outside:
		c.report(part(RuleInside), fmt.Sprintf("%s of it between %s and %s lie outside the room or on an island",
			areaText(f.Area, c.job.Unit), c.place(f.At.X, f.At.Y), c.place(f.To.X, f.To.Y)), "pieces on the floor")
	case recount.Near:
		c.report(
			part(RuleGap),
			fmt.Sprintf("at %s it comes within %s of %s", c.place(f.At.X, f.At.Y), c.about(f.Distance), c.edge(f.Edge)),
			"at least "+c.about(f.Gap),
		)
	case recount.Split:
		at := part(RuleRun)
		at.Piece = 0
		c.report(
			at,
			fmt.Sprintf("the floor goes on to run %d without a wall between them", f.Other.Run+1),
			"runs from wall to wall",
		)
	}
}

// areaText prints an area for people.
func areaText(a float64, unit measure.Unit) string {
	size, name := float64(measure.Inch), "sq in"
	if unit.Metric() {
		size, name = float64(measure.Centimetre), "cm²"
	}
	if a /= size * size; a >= 100 {
		return fmt.Sprintf("%.0f %s", a, name)
	}
	return fmt.Sprintf("%.2g %s", a, name)
}

// edge names a wall, an edge of an island or a side of a doorway as the job counts them, from 1.
func (c *roomChecker) edge(e recount.Edge) string {
	room := &c.job.Rooms[c.rooms[e.Room]]
	name := func(what, given string, i int) string {
		if given != "" {
			return given
		}
		return fmt.Sprintf("%s %d", what, i+1)
	}
	switch {
	case e.Island >= 0:
		return fmt.Sprintf("edge %d of %s", e.Index+1, name("island", room.Islands[e.Island].Name, e.Island))
	case e.Doorway >= 0:
		return "the casing of " + name("doorway", room.Doorways[e.Doorway].Name, e.Doorway)
	case len(c.rooms) > 1:
		return fmt.Sprintf("wall %d of %s", e.Index+1, room.Name)
	}
	return fmt.Sprintf("wall %d", e.Index+1)
}
