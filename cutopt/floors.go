package cutopt

import (
	"fmt"
	"slices"

	"plank.example/cutopt/measure"
)

// text says how rows lie, as a job file does.
func (r RowRules) text(unit measure.Unit) string {
	s := r.Direction.String()
	if r.Direction == DirectionAngle {
		s = fmt.Sprintf("angle %g", r.Angle)
	}
	if r.StartWall > 0 {
		s += fmt.Sprintf(", start at wall %d", r.StartWall)
	} else {
		s += ", start " + r.Start.String()
	}
	if r.LaidFrom != FromUnset {
		s += ", from " + r.LaidFrom.String()
	}
	if r.FirstRow > 0 {
		s += ", first row " + r.FirstRow.Format(unit, measure.Tick)
	}
	return s
}

// Floors groups the rooms of the job, by index, into floors: rooms joined by doorways without a transition are one, and
// floors come in the order of their first rooms, as in [Plan.Floors]. The rooms of a floor are in the order of the job.
// A doorway to no room of the job joins nothing. It takes O(rooms + doorways), but for the sorting.
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
