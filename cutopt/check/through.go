package check

import (
	"math"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
)

// A reach is how far a room goes across the rows.
type reach struct{ low, high float64 }

// reaches returns those of the rooms of the floor, by number in the job, without gaps.
func (c *roomChecker) reaches(floor *recount.Floor) map[int]reach {
	out := make(map[int]reach)
	for i := range floor.Rooms {
		number := c.rooms[i].number + 1
		r, ok := out[number]
		if !ok {
			r = reach{math.Inf(1), math.Inf(-1)}
		}
		for _, p := range floor.Rooms[i].Outline.Corners {
			r = reach{min(r.low, p.Y), max(r.high, p.Y)}
		}
		out[number] = r
	}
	return out
}

// through holds what is told of a floor through several rooms: a line between two rows that runs through so many of
// them, and the rows of each room, but for one at either side, which gaps and the trim may take.
func (c *roomChecker) through(floor *recount.Floor, lines, rooms []*cutopt.Fact) {
	reaches := c.reaches(floor)
	rows := c.room.Rows
	line := c.once(lines)
	if len(reaches) < 2 {
		for _, f := range append(lines, rooms...) {
			c.untrue(f, "through-alone")
		}
		return
	}
	if line == nil {
		c.report(c.at(RuleFact, 0, 0, 0), "through-untold")
	} else if line.Row < 1 || line.Row > len(rows) || line.Across != rows[line.Row-1].To-rows[0].From ||
		!c.crosses(reaches, float64(rows[line.Row-1].To), line.Count) {
		c.untrue(line, "through-other")
	}
	for _, f := range rooms {
		r, ok := reaches[f.Room]
		delete(reaches, f.Room)
		least, most, first := 0, 0, len(rows)
		slack := float64(c.widestGap()) + 2*recount.Slack
		for i := range rows {
			from, to := float64(rows[i].From), float64(rows[i].To)
			if to > r.low && from < r.high {
				most++
				first = min(first, i)
			}
			if to > r.low+slack && from < r.high-slack {
				least++
			}
		}
		if !ok || f.Count < max(1, least) || f.Count > most || f.Row < first+1 || f.Row > first+2 {
			c.untrue(f, "room-rows-other")
		}
	}
	for number, r := range reaches {
		if r.high-r.low > 2*float64(c.widestGap()+c.job.Plank.Width) {
			c.report(c.at(RuleFact, 0, 0, 0), "room-rows-untold", "room", c.job.Rooms[number-1].Name)
			return
		}
	}
}

// crosses reports whether a line along the rows may run through so many rooms: gaps may take it where it is near
// a wall.
func (c *roomChecker) crosses(reaches map[int]reach, y float64, rooms int) bool {
	least, most := 0, 0
	gap := float64(c.widestGap()) + 2*recount.Slack
	for _, r := range reaches {
		if r.low-recount.Slack < y && y < r.high+recount.Slack {
			most++
		}
		if r.low+gap < y && y < r.high-gap {
			least++
		}
	}
	return rooms >= max(1, least) && rooms <= max(1, most)
}
