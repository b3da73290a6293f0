package check

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
)

// short is the length up to which a narrow part of a piece is a tip or a corner that can be held.
const short = 2 * float64(measure.Inch)

// parallel is the tangent of the angle within which edges count as parallel: 10 degrees, with a little for what
// rounding may turn a wall that is drawn so.
var parallel = math.Tan(10.01 * math.Pi / 180)

// An edgeWall is a wall of the starting side, or of the side opposite, along the rows.
type edgeWall struct {
	a, b recount.Spot
	side int // 0 at the starting side, 1 opposite
}

// alike is how far apart across the rows corners may lie that were drawn in line: turning rounds them.
const alike = 16.5

// parted is how far short of the farthest corner a slanted wall may stop: a chimney breast parts it from the rest.
const parted = 2*float64(measure.Inch) + 0.5

// edgeWalls returns the walls along the rows, within 10 degrees, that reach farthest to the starting side or away from
// it, or nearly so where it slants.
func edgeWalls(f *recount.Floor) []edgeWall {
	low, high := math.Inf(1), math.Inf(-1)
	for i := range f.Rooms {
		for _, p := range f.Rooms[i].Outline.Corners {
			low, high = min(low, p.Y), max(high, p.Y)
		}
	}
	var out []edgeWall
	for i := range f.Rooms {
		corners := f.Rooms[i].Outline.Corners
		for k, a := range corners {
			b := corners[(k+1)%len(corners)]
			along := math.Abs(b.Y-a.Y) <= parallel*math.Abs(b.X-a.X)
			if !along || a == b {
				continue
			}
			near := alike
			if math.Abs(a.Y-b.Y) > alike {
				near = parted
			}
			if min(a.Y, b.Y) < low+near {
				out = append(out, edgeWall{a, b, 0})
			}
			if max(a.Y, b.Y) > high-near {
				out = append(out, edgeWall{a, b, 1})
			}
		}
	}
	return out
}

// near reports whether a place lies within some distance of the wall.
func (w *edgeWall) near(p recount.Spot, distance float64) bool {
	vx, vy := w.b.X-w.a.X, w.b.Y-w.a.Y
	t := min(1, max(0, ((p.X-w.a.X)*vx+(p.Y-w.a.Y)*vy)/(vx*vx+vy*vy)))
	return math.Hypot(p.X-w.a.X-t*vx, p.Y-w.a.Y-t*vy) <= distance
}

// An edgeRow is a piece along the starting wall or the wall opposite where it is narrowest.
type edgeRow struct {
	width           float64
	row, run, piece int // from 1
}

// beside reports whether an edge from p to q runs along the wall, within 10 degrees.
func (w *edgeWall) beside(p, q recount.Spot) bool {
	vx, vy, ux, uy := w.b.X-w.a.X, w.b.Y-w.a.Y, q.X-p.X, q.Y-p.Y
	return math.Abs(vx*uy-vy*ux) <= parallel*math.Abs(vx*ux+vy*uy)
}

// edgeRows returns how wide the pieces along the starting wall and the wall opposite are where they are narrowest, at
// most a plank. Doorways do not count.
func (c *roomChecker) edgeRows(f *recount.Floor) (edges [2]edgeRow) {
	wide := float64(c.job.Plank.Width)
	edges[0].width, edges[1].width = wide, wide
	walls := edgeWalls(f)
	reach := float64(c.widestGap()) + f.Hidden + recount.Slack
	var spots []recount.Spot
	for i := range c.room.Rows {
		row := &c.room.Rows[i]
		if c.over() {
			break
		}
		if !meets(walls, float64(row.From)-reach, float64(row.To)+reach) {
			continue
		}
		for k := range row.Runs {
			for m := range row.Runs[k].Pieces {
				if spots = corners(spots[:0], row, &row.Runs[k].Pieces[m]); len(spots) == 0 {
					continue
				}
				for _, n := range recount.Narrows(spots, recount.Bounds{
					Width: wide, Long: short, Degrees: 10.01,
					Join: 2,
				}) {
					middle := recount.Spot{X: (n.A.X + n.B.X) / 2, Y: (n.A.Y + n.B.Y) / 2}
					for w := range walls {
						e := &edges[walls[w].side]
						within := n.Up == (walls[w].side == 0) // else it lies beyond the wall, in a doorway
						if within && n.Width < e.width && walls[w].beside(n.A, n.B) && walls[w].near(middle, reach) {
							*e = edgeRow{n.Width, i + 1, k + 1, m + 1}
						}
					}
				}
			}
		}
	}
	return edges
}

// edges holds that a fact tells of narrow edge rows, where they are narrowest, and that the job leaves a choice or not.
func (c *roomChecker) edges(floor *recount.Floor, facts []*cutopt.Fact) {
	rows := c.edgeRows(floor)
	least, slack := c.job.LeastRip(), c.slack(floor)
	f := c.once(facts)
	if f == nil {
		for _, e := range rows {
			if e.width < float64(least)-slack && !c.begun() {
				c.report(c.at(RuleMinRip, e.row, e.run, e.piece), "edge-narrow", "width", about(e.width), "least",
					least)
			}
		}
		return
	}
	off := func(told measure.Length, e *edgeRow) bool { return math.Abs(float64(told)-e.width) > slack }
	if off(f.First, &rows[0]) || off(f.Last, &rows[1]) || f.Least != least || min(f.First, f.Last) >= least {
		c.untrue(f, "edge-other", "first", about(rows[0].width), "last", about(rows[1].width), "least", least)
		return
	}
	switch fixed := c.first.Rows.FirstRow; {
	case f.Kind == cutopt.FactEdgeAsked && fixed == 0:
		c.untrue(f, "edge-unasked")
	case f.Kind == cutopt.FactEdgeForced && fixed > 0:
		c.untrue(f, "edge-is-asked", "width", fixed)
	case f.Kind == cutopt.FactEdgeForced:
		c.forced(floor, f, least)
	}
}

// slack is how far off widths may be told: where walls slant, what a straight cut leaves to the trim.
func (c *roomChecker) slack(floor *recount.Floor) float64 {
	for i := range floor.Rooms {
		for k, a := range floor.Rooms[i].Outline.Corners {
			b := floor.Rooms[i].Outline.Corners[(k+1)%len(floor.Rooms[i].Outline.Corners)]
			if a.X != b.X && a.Y != b.Y {
				return floor.Hidden + recount.Slack
			}
		}
	}
	return 1
}

// doorwayRows holds that a fact tells of each narrow row beyond the walls. Whether one lies there is only held to what
// gaps and trim take, where these differ.
func (c *roomChecker) doorwayRows(floor *recount.Floor, facts []*cutopt.Fact) {
	least := c.job.LeastDoorwayRow()
	low, high := math.Inf(1), math.Inf(-1)
	for i := range floor.Rooms {
		for _, p := range floor.Rooms[i].Outline.Corners {
			low, high = min(low, p.Y), max(high, p.Y)
		}
	}
	told := make(map[int]*cutopt.Fact)
	for _, f := range facts {
		if told[f.Row] != nil {
			c.untrue(f, "fact-again")
		}
		told[f.Row] = f
	}
	for i := range c.room.Rows {
		row := &c.room.Rows[i]
		wide := row.To - row.From
		beyond := func(by float64) bool { return float64(row.To) <= low+by || float64(row.From) >= high-by }
		narrow := wide >= c.job.Rules.MinStrip && wide < least
		f := told[i+1]
		delete(told, i+1)
		switch {
		case f == nil && narrow && beyond(0) && !c.begun():
			c.report(c.at(RuleFact, i+1, 0, 0), "doorway-row-untold", "width", wide, "least", least)
		case f != nil && (f.Width != wide || f.Least != least || !narrow ||
			!beyond(float64(c.widestGap())+floor.Hidden+recount.Slack)):
			c.untrue(f, "doorway-row-other", "width", wide, "least", least)
		}
	}
	for _, f := range told {
		c.untrue(f, "doorway-row-nowhere")
		break
	}
}

// strips holds every piece against the narrowest strip that can be held, and what is stated of those that have narrower
// ones.
func (c *roomChecker) strips(facts []*cutopt.Fact) {
	least := c.job.Rules.MinStrip
	if least == 0 {
		for _, f := range facts {
			c.untrue(f, "strip-unasked")
		}
		return
	}
	stated := make(map[recount.Ref]*cutopt.Fact)
	for _, f := range facts {
		ref := recount.Ref{Row: f.Row - 1, Run: f.Run - 1, Piece: f.Piece - 1}
		if stated[ref] != nil || f.Least != least {
			c.untrue(f, "strip-again", "least", least)
		}
		stated[ref] = f
	}
	for i := range c.room.Rows {
		if c.over() {
			return
		}
		row := &c.room.Rows[i]
		for k := range row.Runs {
			for m := range row.Runs[k].Pieces {
				ref := recount.Ref{Row: i, Run: k, Piece: m}
				c.strip(ref, row, &row.Runs[k].Pieces[m], stated[ref])
				delete(stated, ref)
			}
		}
	}
	for _, f := range facts {
		if stated[recount.Ref{Row: f.Row - 1, Run: f.Run - 1, Piece: f.Piece - 1}] == f {
			c.untrue(f, "strip-nowhere")
		}
	}
}

// rough is by how many ticks widths and lengths between slanted edges may be off, whose places are whole ticks.
const rough = 8

// strip holds one piece.
func (c *roomChecker) strip(ref recount.Ref, row *cutopt.PlanRow, p *cutopt.Piece, stated *cutopt.Fact) {
	least := float64(c.job.Rules.MinStrip)
	if p.Shape == nil && stated == nil && row.To-row.From >= c.job.Rules.MinStrip &&
		p.To-p.From >= c.job.Rules.MinStrip {
		return
	}
	corners := corners(nil, row, p)
	if corners == nil {
		return
	}
	narrowest := func(b recount.Bounds) float64 {
		w := math.Inf(1)
		for _, n := range recount.Narrows(corners, b) {
			w = min(w, n.Width)
		}
		return w
	}
	// What is narrow beyond doubt, and what may be.
	sure := narrowest(recount.Bounds{Width: least - rough, Long: short + 2*rough, Degrees: 9.9})
	whole, crumb := crumbOf(corners, p.From, row.From, least+rough)
	if crumb && whole.width < least-rough {
		sure = min(sure, whole.width)
	}
	if stated != nil {
		may := narrowest(recount.Bounds{Width: least + rough, Long: short - 2*rough, Degrees: 10.1, Join: 2 * rough})
		if crumb {
			may = min(may, whole.width)
		}
		if width := float64(stated.Width); width < may-rough || width > sure+rough {
			c.untrue(stated, "strip-other", "width", about(min(may, float64(farthest))))
		} else if !(crumb && whole.told(stated)) && !told(stated, row, p, corners) {
			c.untrue(stated, "strip-elsewhere")
		}
		return
	}
	if sure < least-rough && !p.Lies {
		c.report(c.at(RuleMinStrip, ref.Row+1, ref.Run+1, ref.Piece+1), "strip-untold",
			"width", about(sure), "least", c.job.Rules.MinStrip)
	}
}

// told reports whether the strip that a fact tells of is one of the piece's, where it says and as long: its middle lies
// in the middle of the stretch along one of the two edges. Where it is in doubt of all edges whether they are parallel,
// a part of such a stretch will do.
func told(f *cutopt.Fact, row *cutopt.PlanRow, p *cutopt.Piece, corners []recount.Spot) bool {
	near := func(told measure.Length, is float64) bool { return math.Abs(float64(told)-is) <= rough }
	narrows := func(degrees float64) []recount.Narrow {
		return recount.Narrows(corners, recount.Bounds{
			Width: float64(f.Least), Long: short - 2*rough, Degrees: degrees, Join: 2,
		})
	}
	sure, may := narrows(9.9), narrows(10.1)
	for _, n := range slices.Concat(sure, may) {
		x, y := (n.A.X+n.B.X)/2-float64(p.From), (n.A.Y+n.B.Y)/2-float64(row.From)
		if near(f.At, x) && near(f.Across, y) && near(f.Length, n.Length) && near(f.Width, n.Width) {
			return true
		}
		beyond := math.Abs(float64(f.At)-x) + float64(f.Length)/2 - n.Length/2
		if len(sure) == 0 && near(f.Across, y) && beyond <= rough && float64(f.Width) <= float64(f.Least)+rough {
			return true
		}
	}
	return false
}

func meets(walls []edgeWall, low, high float64) bool {
	for _, w := range walls {
		if min(w.a.Y, w.b.Y) <= high && max(w.a.Y, w.b.Y) >= low {
			return true
		}
	}
	return false
}

// widestGap returns the widest gap that a wall of the floor keeps.
func (c *roomChecker) widestGap() measure.Length {
	widest := c.job.Rules.Gap
	for _, p := range c.rooms {
		for _, gap := range p.WallGaps {
			widest = max(widest, gap)
		}
	}
	return widest
}
