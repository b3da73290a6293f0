package check

import (
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
	return floors
}

// shape checks the corners of a piece that is no full rectangle.
func (c *roomChecker) shape(at Violation, row *cutopt.PlanRow, p *cutopt.Piece) {
	if p.Shape == nil {
		return
	}
	at.Rule = RuleShape
	if len(p.Shape) < 3 {
		c.report(at, "shape-corners", "n", len(p.Shape))
		return
	}
	for _, q := range p.Shape {
		if q.X < p.From || q.X > p.To || q.Y < row.From || q.Y > row.To {
			c.report(at, "shape-beyond", "at", q,
				"from", cutopt.Point{X: p.From, Y: row.From}, "to", cutopt.Point{X: p.To, Y: row.To})
			return
		}
	}
	if twiceArea(p.Shape) == 0 {
		c.report(at, "shape-empty")
	}
}

// spot places a point of the drawing in the axes of the plan.
func (c *roomChecker) spot(p cutopt.Point) recount.Spot {
	x, y := c.room.Axes.FromDrawing(p)
	return recount.Spot{X: x, Y: y}
}

// place rounds a place to whole ticks.
func place(s recount.Spot) cutopt.Point { return cutopt.Point{X: about(s.X), Y: about(s.Y)} }

// about rounds a length to whole ticks.
func about(l float64) measure.Length { return measure.Length(math.Round(l)) }

// cover measures how the pieces lie in the room.
func (c *roomChecker) cover() error {
	if len(c.rooms) == 0 {
		return nil
	}
	strips := make([]recount.Strip, len(c.room.Rows))
	for i := range c.room.Rows {
		row := &c.room.Rows[i]
		if row.To <= row.From || i > 0 && row.From < c.room.Rows[i-1].To {
			return nil // reported with the rows; pieces of such rows lie nowhere
		}
		strips[i] = recount.Strip{From: float64(row.From), To: float64(row.To)}
	}
	if c.crowded() {
		return nil
	}
	floor := c.floor()
	c.facts(floor)
	c.lanes(floor)
	flaws, open, err := recount.MeasureContext(c.ctx, floor, strips, c.lying())
	if err != nil {
		return err
	}
	if len(c.room.Rows) > 0 {
		holes := slices.ContainsFunc(flaws, func(f recount.Flaw) bool { return f.Kind == recount.Uncovered })
		c.slivers(c.open(floor, open, holes))
	}
	for _, f := range flaws {
		if f.Kind == recount.Split && len(c.rooms) > 1 && c.beside(f.Part, f.Other) {
			continue // parted by a wall, as lanes holds; the one ends in the opening of that wall
		}
		c.flaw(&f)
	}
	return err
}

// lying returns a function that lists the pieces of a row as they lie, until it is called again.
func (c *roomChecker) lying() func(row int) []recount.Part {
	var parts []recount.Part
	var spots []recount.Spot
	return func(i int) []recount.Part {
		parts, spots = parts[:0], spots[:0]
		row := &c.room.Rows[i]
		for k := range row.Runs {
			for m := range row.Runs[k].Pieces {
				n := len(spots)
				if spots = corners(spots, row, &row.Runs[k].Pieces[m]); len(spots) > n {
					ref := recount.Ref{Row: i, Run: k, Piece: m}
					parts = append(parts, recount.Part{Ref: ref, Corners: spots[n:len(spots):len(spots)]})
				}
			}
		}
		return parts
	}
}

// corners adds the corners of a piece as it lies to spots; none where its length or its shape is reported as wrong.
func corners(spots []recount.Spot, row *cutopt.PlanRow, p *cutopt.Piece) []recount.Spot {
	if p.To <= p.From {
		return spots
	}
	x0, y0, x1, y1 := float64(p.From), float64(row.From), float64(p.To), float64(row.To)
	if p.Shape == nil {
		return append(spots, recount.Spot{X: x0, Y: y0}, recount.Spot{X: x1, Y: y0}, recount.Spot{X: x1, Y: y1},
			recount.Spot{X: x0, Y: y1})
	}
	if len(p.Shape) < 3 {
		return spots
	}
	for _, q := range p.Shape {
		spots = append(spots, recount.Spot{X: min(max(float64(q.X), x0), x1), Y: min(max(float64(q.Y), y0), y1)})
	}
	return spots
}

// floor places the rooms of the job in the axes of the plan.
func (c *roomChecker) floor() *recount.Floor {
	rules := &c.job.Rules
	f := &recount.Floor{Exact: c.room.Axes.Square(), Hidden: float64(rules.Cover + rules.Smooth)}
	ring := func(points []cutopt.Point, gap func(i int) measure.Length) recount.Ring {
		r := recount.Ring{Corners: make([]recount.Spot, len(points)), Gaps: make([]float64, len(points))}
		for i, p := range points {
			r.Corners[i], r.Gaps[i] = c.spot(p), float64(gap(i))
		}
		return r
	}
	for _, p := range c.rooms {
		room := p.Room
		wallGap := func(i int) measure.Length { return rules.WallGap(room, i) }
		straight := func(points []cutopt.Point, gap func(int) measure.Length, island bool) *recount.Ring {
			walls, jogs := recount.Straighten(points, gap, island, rules.Smooth)
			if c.straightened += jogs; jogs == 0 {
				return nil
			}
			corners := make([]cutopt.Point, len(walls))
			for i, w := range walls {
				corners[i] = w.At
			}
			r := ring(corners, func(wall int) measure.Length { return walls[wall].Gap })
			return &r
		}
		r := recount.Room{Outline: ring(room.Outline, wallGap), Straight: straight(room.Outline, wallGap, false)}
		for k := range room.Islands {
			gap := c.job.Rules.FixedGap(room.Islands[k].Gap)
			same := func(int) measure.Length { return gap }
			r.Islands = append(r.Islands, ring(room.Islands[k].Outline, same))
			if fixed := straight(room.Islands[k].Outline, same, true); fixed != nil {
				r.Fixed = append(r.Fixed, *fixed)
			}
		}
		for k := range room.Pipes {
			gap := c.job.Rules.FixedGap(room.Pipes[k].Gap)
			r.Rounds = append(r.Rounds, recount.Round{
				Middle: c.spot(room.Pipes[k].At), Radius: float64(room.Pipes[k].Diameter) / 2, Gap: float64(gap),
			})
		}
		for k := range room.Doorways {
			d := &room.Doorways[k]
			r.Doorways = append(r.Doorways, c.doorway(d, p.into[k], wallGap(d.Wall)))
		}
		f.Rooms = append(f.Rooms, r)
	}
	return f
}

// doorway returns an opening as it is measured: wooden casings are undercut, so the floor may run beneath them.
func (c *roomChecker) doorway(d *cutopt.Doorway, into int, gap measure.Length) recount.Doorway {
	door := recount.Doorway{
		Wall: d.Wall, At: float64(d.At), Width: float64(d.Width), Depth: float64(d.Depth), Into: into,
	}
	if d.Casing == cutopt.CasingMetal {
		door.Gap = float64(gap)
	} else {
		door.Under = float64(c.job.Rules.Under)
	}
	if door.Into < 0 {
		door.Stop = float64(gap)
	}
	return door
}

// flaw turns a flaw that was measured into a violation.
func (c *roomChecker) flaw(f *recount.Flaw) {
	part := func(rule Rule) Violation { return c.at(rule, f.Part.Row+1, f.Part.Run+1, f.Part.Piece+1) }
	switch f.Kind {
	case recount.Uncovered:
		at := c.at(RuleCover, f.Row+1, 0, 0)
		kind := "open"
		switch {
		case len(c.room.Rows) == 0:
			at.Row = 0
		case f.Row < 0:
			at.Row, kind = 1, "open-before"
		case f.Row >= len(c.room.Rows):
			at.Row, kind = len(c.room.Rows), "open-after"
		}
		c.report(at, kind, "area", measure.Area(f.Area), "from", place(f.At), "to", place(f.To))
	case recount.Overlap:
		c.report(part(RuleOverlap), "overlap", "row", f.Other.Row+1, "run", f.Other.Run+1, "piece", f.Other.Piece+1,
			"at", place(f.At), "area", measure.Area(f.Area))
	case recount.Outside:
		c.report(part(RuleInside), "outside", "area", measure.Area(f.Area), "from", place(f.At), "to", place(f.To))
	case recount.Near:
		c.near(part(RuleGap), f)
	case recount.Split:
		at := part(RuleRun)
		at.Piece = 0
		c.report(at, "run-goes-on", "run", f.Other.Run+1)
	}
}

// near reports a piece that comes too near to a wall, an edge of an island or the casing of a doorway, named or counted
// as in the job, from 1.
func (c *roomChecker) near(at Violation, f *recount.Flaw) {
	p := c.rooms[f.Edge.Room]
	room := p.Room
	figures := []any{"at", place(f.At), "distance", about(f.Distance), "least", about(f.Gap)}
	report := func(kind string, more ...any) { c.report(at, kind, append(figures, more...)...) }
	edge := f.Edge.Index + 1
	switch e := f.Edge; {
	case e.Index == recount.RoundEdge && room.Pipes[e.Island].Name != "":
		report("near-pipe-named", "name", room.Pipes[e.Island].Name)
	case e.Index == recount.RoundEdge:
		report("near-pipe", "n", e.Island+1)
	case e.Island >= 0 && room.Islands[e.Island].Name != "":
		report("near-island-named", "edge", edge, "name", room.Islands[e.Island].Name)
	case e.Island >= 0:
		report("near-island", "edge", edge, "n", e.Island+1)
	case e.Doorway >= 0 && room.Doorways[e.Doorway].Name != "":
		report("near-casing-named", "name", room.Doorways[e.Doorway].Name)
	case e.Doorway >= 0:
		report("near-casing", "n", e.Doorway+1)
	case p.edges[e.Index].wall < 0:
		report("near-break", "n", -p.edges[e.Index].wall)
	case len(c.rooms) > 1:
		report("near-wall-of", "wall", p.edges[e.Index].wall+1, "room", room.Name)
	default:
		report("near-wall", "wall", p.edges[e.Index].wall+1)
	}
}
