package sheet

import (
	"fmt"
	"math"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
)

// A spot is a place in a floor's own axes, in ticks. Drawings need no exactness; what is printed as a number never
// comes from here but from the plan.
type spot = draw.Point

// A floorShape is the surroundings of one floor of the plan, in its own axes.
type floorShape struct {
	rooms    []roomShape
	min, max spot // extent of outlines, doorways and pieces
}

// A roomShape is one room of the job.
type roomShape struct {
	room    *cutopt.Room // as far as the field goes
	whole   *cutopt.Room // of the job
	walls   []int        // by wall: that of the whole room; below 0 a break
	outline []spot
	islands [][]spot
	pipes   []pipeShape
	doors   []doorShape
}

// A pipeShape is a round thing: its middle and its radius, in ticks.
type pipeShape struct {
	name   string
	middle spot
	radius float64
}

// A doorShape is a doorway: its two jambs on the wall and the two corners of its far line.
type doorShape struct {
	door        *cutopt.Doorway
	near, far   spot // jambs
	nearB, farB spot // where the floor ends
	number      int  // from 1, over the floor
	side        side
	firstRow    int // rows that reach it, from 0; -1 for none
	lastRow     int
}

// A side is a side of a floor seen facing the starting wall.
type side uint8

const (
	sideStart side = iota
	sideFar
	sideLeft
	sideRight
)

// floorShapes matches the floors of a plan with the rooms of its job.
func floorShapes(job *cutopt.Job, plan *cutopt.Plan) ([]floorShape, error) {
	fields := job.Fields(plan.Breaks)
	if len(fields) != len(plan.Floors) {
		return nil, fmt.Errorf(
			"sheet: the plan has %d floors, the job's %d rooms make %d: is this plan made from this job?",
			len(plan.Floors),
			len(job.Rooms),
			len(fields),
		)
	}
	shapes := make([]floorShape, len(fields))
	for i := range fields {
		shapes[i] = newFloorShape(job, &plan.Floors[i], &fields[i])
	}
	return shapes, nil
}

func newFloorShape(job *cutopt.Job, floor *cutopt.PlanFloor, field *cutopt.Field) floorShape {
	s := floorShape{min: spot{X: math.Inf(1), Y: math.Inf(1)}, max: spot{X: math.Inf(-1), Y: math.Inf(-1)}}
	place := func(p cutopt.Point) spot {
		x, y := floor.Axes.FromDrawing(p)
		return spot{X: x, Y: y}
	}
	ring := func(points []cutopt.Point) []spot {
		spots := make([]spot, len(points))
		for i, p := range points {
			spots[i] = place(p)
			s.reach(spots[i])
		}
		return spots
	}
	doors := 0
	reach := float64(2*job.Rules.Gap + job.Rules.Cover)
	for i := range field.Rooms {
		part := &field.Rooms[i]
		r := &part.Room
		rs := roomShape{room: r, whole: &job.Rooms[part.Number], walls: part.Walls, outline: ring(r.Outline)}
		for _, island := range r.Islands {
			rs.islands = append(rs.islands, ring(island.Outline))
		}
		for k := range r.Pipes {
			p := &r.Pipes[k]
			rs.pipes = append(rs.pipes, pipeShape{p.Name, place(p.At), float64(p.Diameter) / 2})
		}
		for j := range r.Doorways {
			if d := &r.Doorways[j]; d.Wall >= 0 && d.Wall < len(r.Outline) {
				doors++
				rs.doors = append(rs.doors, s.doorway(rs.outline, d, doors, floor, reach))
			}
		}
		s.rooms = append(s.rooms, rs)
	}
	for _, row := range floor.Rows {
		for _, run := range row.Runs {
			s.reach(spot{X: float64(run.From), Y: float64(row.From)})
			s.reach(spot{X: float64(run.To), Y: float64(row.To)})
		}
	}
	if s.min.X > s.max.X {
		s.min, s.max = spot{}, spot{}
	}
	return s
}

func (s *floorShape) reach(p spot) {
	s.min = spot{X: min(s.min.X, p.X), Y: min(s.min.Y, p.Y)}
	s.max = spot{X: max(s.max.X, p.X), Y: max(s.max.Y, p.Y)}
}

// doorway places a doorway on its wall and finds the rows that run up to it.
func (s *floorShape) doorway(
	outline []spot,
	d *cutopt.Doorway,
	number int,
	floor *cutopt.PlanFloor,
	reach float64,
) doorShape {
	a, b := outline[d.Wall], outline[(d.Wall+1)%len(outline)]
	n := math.Hypot(b.X-a.X, b.Y-a.Y)
	ds := doorShape{door: d, number: number, firstRow: -1, lastRow: -1}
	if n == 0 {
		ds.near, ds.far, ds.nearB, ds.farB = a, a, a, a
		return ds
	}
	u := spot{X: (b.X - a.X) / n, Y: (b.Y - a.Y) / n}
	out := spot{X: u.Y, Y: -u.X} // to the left of the wall with y downwards
	if turning(outline) < 0 {
		out = spot{X: -u.Y, Y: u.X}
	}
	at := func(along, outwards float64) spot {
		return spot{X: a.X + along*u.X + outwards*out.X, Y: a.Y + along*u.Y + outwards*out.Y}
	}
	from, to, depth := float64(d.At), float64(d.At+d.Width), float64(d.Depth)
	ds.near, ds.far, ds.nearB, ds.farB = at(from, 0), at(to, 0), at(from, depth), at(to, depth)
	s.reach(ds.nearB)
	s.reach(ds.farB)
	switch {
	case math.Abs(out.Y) >= math.Abs(out.X) && out.Y < 0:
		ds.side = sideStart
	case math.Abs(out.Y) >= math.Abs(out.X):
		ds.side = sideFar
	case out.X < 0:
		ds.side = sideLeft
	default:
		ds.side = sideRight
	}
	// The rows beside the opening, those within its depth, and the row that ends a gap away from it.
	slack := 0.0
	if ds.side == sideStart || ds.side == sideFar {
		slack = reach
	}
	lo := min(ds.near.Y, ds.far.Y, ds.nearB.Y, ds.farB.Y)
	hi := max(ds.near.Y, ds.far.Y, ds.nearB.Y, ds.farB.Y)
	for i, row := range floor.Rows {
		if float64(row.To) > lo-slack && float64(row.From) < hi+slack {
			if ds.firstRow < 0 {
				ds.firstRow = i
			}
			ds.lastRow = i
		}
	}
	return ds
}

// turning returns twice the signed area of a ring: above 0 when it runs clockwise with y downwards.
func turning(ring []spot) float64 {
	sum := 0.0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return sum
}

// ringOf returns the corners of a piece.
func ringOf(row *cutopt.PlanRow, p *cutopt.Piece) []spot {
	if len(p.Shape) > 2 {
		ring := make([]spot, len(p.Shape))
		for i, q := range p.Shape {
			ring[i] = spot{X: float64(q.X), Y: float64(q.Y)}
		}
		return ring
	}
	return rectangle(p.From, row.From, p.To, row.To)
}

// rims returns the outline of a piece and those of its holes: the ring without the ways there and back that join them.
func rims(ring []spot) [][]spot {
	back := make(map[[2]spot]bool, len(ring))
	for i, a := range ring {
		back[[2]spot{ring[(i+1)%len(ring)], a}] = true
	}
	next := make(map[spot][]spot, len(ring))
	for i, a := range ring {
		if b := ring[(i+1)%len(ring)]; a != b && !back[[2]spot{a, b}] {
			next[a] = append(next[a], b)
		}
	}
	var out [][]spot
	for _, first := range ring {
		var rim []spot
		for at := first; len(next[at]) > 0; {
			to := next[at][0]
			next[at] = next[at][1:]
			rim = append(rim, at)
			at = to
		}
		if len(rim) > 2 {
			out = append(out, rim)
		}
	}
	return out
}

func rectangle(x0, y0, x1, y1 measure.Length) []spot {
	a, b, c, d := float64(x0), float64(y0), float64(x1), float64(y1)
	return []spot{{X: a, Y: b}, {X: c, Y: b}, {X: c, Y: d}, {X: a, Y: d}}
}

// extent returns the corners of the box around all outlines.
func (s *floorShape) extent() (first, last spot) {
	e := floorShape{min: spot{X: math.Inf(1), Y: math.Inf(1)}, max: spot{X: math.Inf(-1), Y: math.Inf(-1)}}
	for _, r := range s.rooms {
		for _, p := range r.outline {
			e.reach(p)
		}
	}
	if e.min.X > e.max.X {
		return s.min, s.max
	}
	return e.min, e.max
}

// roundTicks returns the length nearest to a drawn distance.
func roundTicks(v float64) measure.Length { return measure.Length(math.Round(v)) }
