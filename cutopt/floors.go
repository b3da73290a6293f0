package cutopt

import (
	"fmt"
	"slices"

	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// floorsOf cuts the rooms of a job that passed Validate into floors with rows and runs. Rooms joined by doorways without a
// transition are one floor, laid as the first of them says; floors come in the order of their first rooms. The error is a
// *strips.Error of the first floor that cannot be cut.
func floorsOf(job *Job) ([]*strips.Floor, error) {
	var floors []*strips.Floor
	for _, rooms := range job.Floors() {
		index := make(map[string]int, len(rooms))
		for i, r := range rooms {
			index[job.Rooms[r].Name] = i
		}
		in := make([]strips.Room, len(rooms))
		for i, r := range rooms {
			in[i] = stripsRoom(&job.Rules, &job.Rooms[r], index)
		}
		f, err := strips.Lay(in, stripsLayout(job, &job.Rooms[rooms[0]].Rows))
		if err != nil {
			return nil, err
		}
		floors = append(floors, f)
	}
	return floors, nil
}

// text says how rows lie, as a job file does.
func (r RowRules) text(job *Job) string {
	s := r.Direction.String()
	if r.Direction == DirectionAngle {
		s = fmt.Sprintf("angle %g", r.Angle)
	}
	s += ", start " + r.Start.String() + ", from " + r.From.String()
	if r.FirstRow > 0 {
		s += ", first row " + r.FirstRow.Format(job.Unit, job.Rules.Grid)
	}
	return s
}

// Floors groups the rooms of the job, by index, into floors: rooms joined by doorways without a transition are one, and
// floors come in the order of their first rooms, as in [Plan.Rooms]. The rooms of a floor are in the order of the job. A
// doorway to no room of the job joins nothing. It takes O(rooms + doorways), but for the sorting.
func (j *Job) Floors() [][]int {
	byName := make(map[string]int, len(j.Rooms))
	for i := range j.Rooms {
		byName[j.Rooms[i].Name] = i
	}
	next := make([][]int, len(j.Rooms)) // rooms joined to each
	for i := range j.Rooms {
		for _, d := range j.Rooms[i].Doorways {
			if to, ok := byName[d.To]; ok && d.Through && d.To != "" {
				next[i], next[to] = append(next[i], to), append(next[to], i)
			}
		}
	}
	seen := make([]bool, len(j.Rooms))
	var floors [][]int
	for i := range j.Rooms {
		if seen[i] {
			continue
		}
		seen[i] = true
		floor := []int{i}
		for k := 0; k < len(floor); k++ {
			for _, to := range next[floor[k]] {
				if !seen[to] {
					seen[to] = true
					floor = append(floor, to)
				}
			}
		}
		slices.Sort(floor)
		floors = append(floors, floor)
	}
	return floors
}

// stripsRoom fills in the gap of every wall and island, and of the sides of openings: wooden casings are undercut, so that
// the floor runs beneath them; metal ones keep the gap of their wall. Index gives the rooms of the floor by name.
func stripsRoom(rules *Rules, room *Room, index map[string]int) strips.Room {
	out := strips.Room{Name: room.Name, Outline: room.Outline, Gaps: make([]measure.Length, len(room.Outline))}
	for i := range out.Gaps {
		out.Gaps[i] = rules.Gap
		if gap, ok := room.WallGaps[i]; ok {
			out.Gaps[i] = gap
		}
	}
	for _, island := range room.Islands {
		gap := island.Gap
		switch gap {
		case 0:
			gap = rules.Gap
		case GapNone:
			gap = 0
		}
		out.Islands = append(out.Islands, strips.Island{Outline: island.Outline, Gap: gap})
	}
	for _, d := range room.Doorways {
		door := strips.Doorway{Wall: d.Wall, At: d.At, Width: d.Width, Depth: d.Depth, Into: -1}
		if d.Casing == CasingMetal {
			door.Jamb = out.Gaps[d.Wall]
		}
		if into, ok := index[d.To]; ok && d.Through {
			door.Into = into
		}
		out.Doorways = append(out.Doorways, door)
	}
	return out
}

// stripsLayout says how the rows of a floor lie.
func stripsLayout(job *Job, rows *RowRules) *strips.Layout {
	direction := strips.Along
	switch rows.Direction {
	case DirectionAcross:
		direction = strips.Across
	case DirectionAngle:
		direction = strips.Angle
	}
	r := &job.Rules
	return &strips.Layout{
		Direction: direction, Angle: rows.Angle, Far: rows.Start == StartFar, From: uint8(rows.From), FirstRow: rows.FirstRow,
		Width: job.Plank.Width, MinRip: r.MinRip, Grid: r.Grid, Smooth: r.Smooth, Cover: r.Cover,
		MaxAlong: r.MaxAlong, MaxAcross: r.MaxAcross, Unit: job.Unit,
	}
}
