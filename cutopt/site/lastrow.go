package site

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// mostTaper is how far a wall behind the last row may lean against the rows, as a share of its length: about 6 degrees.
const mostTaper = 0.1

// lastRow moves the walls behind the last row so that it is as wide as told, where it is widest. The last row is that
// before the wall: what lies beyond it in a doorway does not count.
func (a *application) lastRow(e *Event) {
	rows := a.plan.Floors[e.Floor].Rows
	for r := len(rows) - 1; r >= 0; r-- {
		walls, wide := a.behind(e.Floor, r)
		if len(walls) == 0 {
			continue
		}
		if slices.ContainsFunc(rows[r:], func(row cutopt.PlanRow) bool {
			return slices.ContainsFunc(row.Runs, func(run cutopt.PlanRun) bool {
				return slices.ContainsFunc(run.Pieces, func(p cutopt.Piece) bool { return p.Lies })
			})
		}) {
			a.refuse(e, "drop the line", "the last row lies already")
			return
		}
		for _, w := range walls {
			next := moveWall(&a.job.Rooms[w.room], w.wall, e.Length-wide)
			if next.Outline == nil {
				a.refuse(e, "measure the room again, and change the job file", "a doorway or another wall is in the way")
				return
			}
			a.job.Rooms[w.room] = next
		}
		return
	}
	if len(rows) > 0 {
		a.refuse(e, "write which wall stands elsewhere: wall 3 out 1/2", "no wall of the room runs along the last row")
	}
}

// behind returns the walls that bound a row of a floor on its far side, and how wide they leave it where it is widest:
// walls that run along the rows, but for a taper, and before which the row ends with their gap.
func (a *application) behind(f, r int) (walls []wallPlace, wide measure.Length) {
	floor := &a.plan.Floors[f]
	row := &floor.Rows[r]
	slack := a.job.Rules.Smooth + a.job.Rules.Cover + near
	for _, part := range a.measured.Fields(a.was.Breaks)[f].Rooms {
		outline := a.job.Rooms[part.Number].Outline
		for w := range outline {
			p, q := own(floor.Axes, outline[w]), own(floor.Axes, outline[(w+1)%len(outline)])
			if p.X > q.X {
				p, q = q, p
			}
			if float64(max(p.Y-q.Y, q.Y-p.Y)) > mostTaper*float64(q.X-p.X) {
				continue
			}
			y := func(x measure.Length) measure.Length {
				return p.Y + measure.Length(math.Round(float64(x-p.X)/float64(q.X-p.X)*float64(q.Y-p.Y)))
			}
			at := wallPlace{room: part.Number, wall: w}
			for k := range row.Runs {
				from, to := max(p.X, row.Runs[k].From), min(q.X, row.Runs[k].To)
				if from >= to {
					continue
				}
				if end := max(y(from), y(to)) - a.gapAt(at); end > row.From+slack && end <= row.To+slack {
					walls, wide = append(walls, at), max(wide, min(end, row.To)-row.From)
					break
				}
			}
		}
	}
	return walls, wide
}
