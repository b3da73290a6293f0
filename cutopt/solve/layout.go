package solve

import (
	"context"
	"errors"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// floorsOf cuts the rooms of a job that passed Validate into floors with rows and runs. Rooms joined by doorways
// without a transition are one floor, laid as the first of them says; floors come in the order of their first rooms.
// The error is a *strips.Error of the first floor that cannot be cut, or that of the context.
func floorsOf(ctx context.Context, job *cutopt.Job) ([]*strips.Floor, error) {
	var floors []*strips.Floor
	left := cutopt.MaxPieces
	for _, rooms := range job.Floors() {
		f, err := floorOf(ctx, job, rooms, &job.Rooms[rooms[0]].Rows, max(1, left))
		if err != nil {
			return nil, err
		}
		left -= f.Pieces(job.Plank.Length)
		floors = append(floors, f)
	}
	return floors, nil
}

// floorOf cuts the rooms of one floor into rows that lie as said, of so many pieces at most.
func floorOf(ctx context.Context, job *cutopt.Job, rooms []int, lie *cutopt.RowRules, most int) (*strips.Floor, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	index := make(map[string]int, len(rooms))
	for i, r := range rooms {
		index[job.Rooms[r].Name] = i
	}
	in := make([]strips.Room, len(rooms))
	for i, r := range rooms {
		in[i] = stripsRoom(&job.Rules, &job.Rooms[r], index)
		in[i].Number = r + 1
	}
	layout := stripsLayout(job, lie)
	layout.MaxPieces = most
	return strips.LayContext(ctx, in, layout)
}

// stripsRoom fills in the gap of every wall and island, and of the sides of openings: wooden casings are undercut, so
// that the floor runs beneath them; metal ones keep the gap of their wall. Index gives the rooms of the floor by name.
func stripsRoom(rules *cutopt.Rules, room *cutopt.Room, index map[string]int) strips.Room {
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
		case cutopt.GapNone:
			gap = 0
		}
		out.Islands = append(out.Islands, strips.Island{Outline: island.Outline, Gap: gap})
	}
	for _, pipe := range room.Pipes {
		gap := pipe.Gap
		switch gap {
		case 0:
			gap = rules.Gap
		case cutopt.GapNone:
			gap = 0
		}
		out.Pipes = append(out.Pipes, strips.Pipe{At: pipe.At, Diameter: pipe.Diameter, Gap: gap})
	}
	for _, d := range room.Doorways {
		door := strips.Doorway{Wall: d.Wall, At: d.At, Width: d.Width, Depth: d.Depth, Into: -1}
		if d.Casing == cutopt.CasingMetal {
			door.Jamb = out.Gaps[d.Wall]
		} else {
			door.Under = rules.Under
		}
		if into, ok := index[d.To]; ok && d.Through {
			door.Into = into
		} else {
			door.Stop = out.Gaps[d.Wall]
		}
		out.Doorways = append(out.Doorways, door)
	}
	return out
}

// stripsLayout says how the rows of a floor lie.
func stripsLayout(job *cutopt.Job, rows *cutopt.RowRules) *strips.Layout {
	r := &job.Rules
	offsets := cutopt.LineStep
	if job.Unit.Metric() {
		offsets = measure.Metre
	}
	return &strips.Layout{
		Offsets:   offsets,
		Direction: rows.Direction,
		Angle:     rows.Angle,
		Start:     rows.Start,
		StartWall: rows.StartWall,
		LaidFrom:  job.LaidFrom(*rows),
		FirstRow:  rows.FirstRow,
		Length:    job.Plank.Length,
		Width:     job.Plank.Width,
		MinRip:    r.MinRip,
		MinStrip:  r.MinStrip,
		MinPiece:  r.MinPiece,
		Edges:     r.Edges,
		Grid:      r.Grid,
		Smooth:    r.Smooth,
		Cover:     r.Cover,
		MaxAlong:  r.MaxAlong,
		MaxAcross: r.MaxAcross,
	}
}

// layOut validates the job and cuts its rooms into rows and runs.
func layOut(ctx context.Context, job *cutopt.Job) ([]*strips.Floor, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	if err := affordable(job); err != nil {
		return nil, err
	}
	floors, err := floorsOf(ctx, job)
	var cannot *strips.Error
	if errors.As(err, &cannot) {
		e := &cutopt.FieldError{Field: "rooms", Value: cannot.Room, Rule: cannot.Reason}
		if errors.Is(err, strips.ErrTooLarge) {
			e.Err = cutopt.ErrTooLarge
		}
		for i := range job.Rooms {
			if job.Rooms[i].Name == cannot.Room {
				e.Field = fmt.Sprintf("rooms[%d]", i+1)
			}
		}
		return nil, e
	}
	return floors, err
}
