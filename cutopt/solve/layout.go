package solve

import (
	"context"
	"errors"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// stripsRoom fills in the gap of every wall and island, and of the sides of openings: wooden casings are undercut, so
// that the floor runs beneath them; metal ones keep the gap of their wall.
func stripsRoom(rules *cutopt.Rules, room *cutopt.RoomPart) strips.Room {
	out := strips.Room{
		Name:    room.Name,
		Number:  room.Number + 1,
		Outline: room.Outline,
		Gaps:    make([]measure.Length, len(room.Outline)),
	}
	for i := range out.Gaps {
		out.Gaps[i] = rules.WallGap(&room.Room, i)
	}
	for _, w := range room.Walls {
		out.Walls = append(out.Walls, w+1)
	}
	for k, island := range room.Islands {
		out.Islands = append(out.Islands, strips.Island{
			Outline: island.Outline, Gap: rules.FixedGap(island.Gap), Number: room.Fixed[k] + 1,
		})
	}
	for _, pipe := range room.Pipes {
		out.Pipes = append(out.Pipes, strips.Pipe{At: pipe.At, Diameter: pipe.Diameter, Gap: rules.FixedGap(pipe.Gap)})
	}
	for k, d := range room.Doorways {
		door := strips.Doorway{
			Wall: d.Wall, At: d.At, Width: d.Width, Depth: d.Depth, Into: room.Into[k],
			Number: room.Openings[k] + 1, JobWall: room.Walls[d.Wall] + 1,
		}
		if d.Casing == cutopt.CasingMetal {
			door.Jamb = out.Gaps[d.Wall]
		} else {
			door.Under = rules.Under
		}
		if door.Into < 0 {
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
	}
}

// layOut validates the job and cuts its rooms into rows and runs.
func layOut(ctx context.Context, job *cutopt.Job) (*ground, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	if err := affordable(job); err != nil {
		return nil, err
	}
	ground, err := groundOf(ctx, job)
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
	return ground, err
}
