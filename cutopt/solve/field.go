package solve

import (
	"context"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// A ground is the rooms of a job cut into rows: floors, or the fields of them between breaks.
type ground struct {
	floors []*strips.Floor
	fields []field // by floor
	breaks []cutopt.PlanBreak
	net    measure.Area // of all rooms, less what stands in them
}

// A field is a floor of a job, or a part of one between breaks, and how its rows lie.
type field struct {
	cutopt.Field
	lie  cutopt.RowRules
	turn *float64      // which way the rows of the whole floor run, where breaks part it
	base []cutopt.Fact // which wall they are laid out from, then
}

// wholeFloors returns the floors of a job without breaks: rooms joined by doorways without a transition are one floor,
// laid as the first of them says.
func wholeFloors(job *cutopt.Job) []field {
	var out []field
	for _, f := range job.Fields(nil) {
		out = append(out, field{Field: f, lie: lieOf(job, &f)})
	}
	return out
}

// lieOf returns how the rows of a floor lie, along where the job leaves that open.
func lieOf(job *cutopt.Job, f *cutopt.Field) cutopt.RowRules {
	lie := job.Rooms[f.Rooms[0].Number].Rows
	if lie.Direction == cutopt.DirectionFree {
		lie.Direction = cutopt.DirectionAlong
	}
	return lie
}

// floorOf cuts one field into rows that lie as said, of so many pieces at most.
func floorOf(
	ctx context.Context, job *cutopt.Job, f *field, lie *cutopt.RowRules, most int,
) (*strips.Floor, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	in := make([]strips.Room, len(f.Rooms))
	for i := range f.Rooms {
		in[i] = stripsRoom(&job.Rules, &f.Rooms[i])
	}
	layout := stripsLayout(job, lie)
	layout.MaxPieces = most
	layout.Turn = f.turn
	floor, err := strips.LayContext(ctx, in, layout)
	if err != nil {
		return nil, err
	}
	return f.told(floor), nil
}

// told has a floor that a field was cut into say what its rows are laid out from.
func (f *field) told(floor *strips.Floor) *strips.Floor {
	if f.turn != nil {
		floor.Facts = append(slices.Clone(f.base), floor.Facts...)
	}
	return floor
}

// groundOf cuts the rooms of a job that passed Validate into floors with rows and runs, with the breaks that the job
// asks for and those that its limits do. The error is a *strips.Error of the first floor that cannot be cut, a
// *cutopt.FieldError where no break parts a floor that is too long, or that of the context.
func groundOf(ctx context.Context, job *cutopt.Job) (*ground, error) {
	g := &ground{breaks: job.Breaks()}
	left := cutopt.MaxPieces
	sectioned := make(map[int]*sectioning)
	for _, whole := range wholeFloors(job) {
		f, err := floorOf(ctx, job, &whole, &whole.lie, max(1, left))
		if err != nil {
			return nil, err
		}
		g.net += f.Net
		s := &sectioning{ctx: ctx, job: job, whole: whole, turn: f.Upright, most: left}
		for _, fact := range f.Facts {
			if fact.Kind == cutopt.FactBase || fact.Kind == cutopt.FactBaseAsked {
				s.base = append(s.base, fact)
			}
		}
		for i := range whole.Rooms {
			s.rooms = append(s.rooms, whole.Rooms[i].Number)
		}
		for _, b := range g.breaks {
			if b.Asked && s.has(b.Room) {
				s.breaks = append(s.breaks, b)
			}
		}
		if len(s.breaks) == 0 && !s.long(f) {
			g.floors = append(g.floors, f)
			left -= f.Pieces(job.Plank.Length)
			continue
		}
		if err := s.run(); err != nil {
			return nil, err
		}
		g.floors = append(g.floors, s.floors...)
		sectioned[whole.Floor] = s
		for _, b := range s.breaks {
			if !b.Asked {
				g.breaks = append(g.breaks, b)
			}
		}
		for _, f := range s.floors {
			left -= f.Pieces(job.Plank.Length)
		}
	}
	// What fields say of breaks counts in the plan's own list.
	for _, f := range job.Fields(g.breaks) {
		part := field{Field: f, lie: lieOf(job, &f)}
		if s := sectioned[f.Floor]; s != nil {
			part.lie, part.turn, part.base = s.whole.lie, &s.turn, s.base
		}
		g.fields = append(g.fields, part)
	}
	return g, nil
}
