package words

import (
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Fact says a fact of a plan of the job. Sizes are given on the graduation: what is left of a piece is rounded down and
// what comes off is rounded up, so that the piece fits and the gap takes the slack; places and widths of rows are
// rounded to the nearest, and what a rule names is not rounded.
//
// The words are those of the key "fact." and the kind; of a kind that counts, with ".one" or ".many" added. Their
// places are the fields of the kind; {place} says where something comes off a piece, and {room} is the room's name.
func (s *Speech) Fact(job *cutopt.Job, f *cutopt.Fact) string {
	key := "fact." + f.Kind.String()
	places := []string{"place", s.place(f)}
	for _, field := range f.Kind.Fields() {
		places = append(places, string(field), s.field(job, f, field))
		if field == cutopt.FieldCount {
			key += form(f.Count)
		}
	}
	return s.Say(key, places...)
}

// Shaping says how the shape of a piece is sawn that lies in a row of that width; "" for a full rectangle. A strip that
// comes off one edge all along is said by what is left of the piece, which is what a saw is set to.
func (s *Speech) Shaping(job *cutopt.Job, width measure.Length, p *cutopt.Piece) string {
	said, rips := make([]string, len(p.Shaping)), 0
	for i := range p.Shaping {
		if p.Shaping[i].Kind == cutopt.FactRip {
			rips++
		}
	}
	for i := range p.Shaping {
		f := &p.Shaping[i]
		if f.Kind == cutopt.FactRip && rips == 1 {
			said[i] = s.Say("shaping.rip", "width", s.format((width-f.Width+rough).Floor(s.Grid), s.Grid),
				"edge", s.Say("edge."+f.Edge.String()))
		} else {
			said[i] = s.Fact(job, f)
		}
	}
	return strings.Join(said, "; ")
}

// field prints one field of a fact.
func (s *Speech) field(job *cutopt.Job, f *cutopt.Fact, field cutopt.FactField) string {
	switch v := f.Field(field).(type) {
	case *int:
		if field == cutopt.FieldRoom {
			return s.room(job, *v)
		}
		if field == cutopt.FieldIsland {
			return s.island(job, f.Room, *v)
		}
		return strconv.Itoa(*v)
	case *cutopt.Ends:
		return s.Say("end." + v.String())
	case *cutopt.Edges:
		return s.Say("edge." + v.String())
	case *measure.Area:
		return s.small(*v)
	case *measure.Length:
		switch {
		case field == cutopt.FieldLeast || field == cutopt.FieldMost:
			return s.Exact(*v)
		case f.Kind.OfShape():
			return s.sawn(f.Kind, field, *v)
		}
		if narrowFact(f.Kind, field) {
			return s.narrower(*v, f.Least)
		}
		return s.format(*v, s.Grid)
	}
	return ""
}

// narrowFact reports whether a field of a fact is a width that is told because it is below Least.
func narrowFact(kind cutopt.FactKind, field cutopt.FactField) bool {
	switch kind {
	case cutopt.FactStrip, cutopt.FactDoorwayRow:
		return field == cutopt.FieldWidth
	case cutopt.FactEdgeAsked, cutopt.FactEdgeForced:
		return field == cutopt.FieldFirst || field == cutopt.FieldLast
	}
	return false
}

// narrower prints a width so that it is seen to be below another, if it is.
func (s *Speech) narrower(width, least measure.Length) string {
	if width < least && s.format(width, s.Grid) == s.format(least, s.Grid) {
		width = width.Floor(s.Grid)
	}
	return s.format(width, s.Grid)
}

// small prints an area that may be too small for square feet and square metres.
func (s *Speech) small(a measure.Area) string {
	size, name := float64(measure.Inch), " sq in"
	if s.Unit.Metric() {
		size, name = float64(measure.Centimetre), " cm²"
	}
	if n := float64(a) / (size * size); n < 144 {
		return s.Decimal(s.glue(strconv.FormatFloat(n, 'f', 1, 64) + name))
	}
	return s.Area(a)
}

// rough is how far off the graduation a length may be that is meant to be on it: places are rounded by so much.
const rough = 4 * measure.Tick

// sawn prints a length of the shape of a piece. The first of two stands without the unit.
func (s *Speech) sawn(kind cutopt.FactKind, field cutopt.FactField, l measure.Length) string {
	down, up := (l + rough).Floor(s.Grid), (l - rough).Ceil(s.Grid)
	switch field {
	case cutopt.FieldFront, cutopt.FieldLeft:
		return s.compact(down)
	case cutopt.FieldBack, cutopt.FieldRight:
		return s.format(down, s.Grid)
	case cutopt.FieldDiameter:
		return s.format(up, s.Grid)
	case cutopt.FieldLength:
		if kind == cutopt.FactOutline {
			return s.compact(down)
		}
		return s.compact(up)
	case cutopt.FieldWidth:
		if kind == cutopt.FactOutline {
			return s.format(down, s.Grid)
		}
		return s.format(up, s.Grid)
	}
	return s.format(l, s.Grid)
}

// place says where on a piece something comes off.
func (s *Speech) place(f *cutopt.Fact) string {
	ends, edges := f.End != cutopt.EndsNone, f.Edge != cutopt.EdgesNone
	corner := f.End != cutopt.EndsBoth && f.Edge != cutopt.EdgesBoth
	key := "within"
	switch {
	case f.End == cutopt.EndsBoth && edges && f.Edge != cutopt.EdgesBoth:
		key = "edge"
	case f.End == cutopt.EndsBoth:
		key = "length"
	case ends && edges && corner:
		key = "corner"
	case ends && f.Edge == cutopt.EdgesBoth:
		key = "end"
	case ends:
		key = "in-end"
	case f.Edge == cutopt.EdgesBoth:
		key = "width"
	case edges:
		key = "in-edge"
	}
	return s.Say("where."+key, "end", s.Say("end."+f.End.String()), "edge", s.Say("edge."+f.Edge.String()),
		"at", s.format(f.At, s.Grid), "across", s.format(f.Across, s.Grid))
}

// FloorName names a floor of a plan, by its index: after its rooms, and by its number where breaks part it.
func (s *Speech) FloorName(plan *cutopt.Plan, floor int) string {
	f := &plan.Floors[floor]
	name := f.Name
	if name == "" {
		name = s.Say("room", "n", strconv.Itoa(floor+1))
	}
	if f.Field > 0 {
		name = s.Say("field", "room", name, "n", strconv.Itoa(f.Field))
	}
	return name
}

// room names a room of the job by its number.
func (s *Speech) room(job *cutopt.Job, number int) string {
	if number >= 1 && number <= len(job.Rooms) && job.Rooms[number-1].Name != "" {
		return job.Rooms[number-1].Name
	}
	return s.Say("room", "n", strconv.Itoa(number))
}

// island names an island of a room, both from 1.
func (s *Speech) island(job *cutopt.Job, room, number int) string {
	if room >= 1 && room <= len(job.Rooms) {
		if all := job.Rooms[room-1].Islands; number >= 1 && number <= len(all) && all[number-1].Name != "" {
			return all[number-1].Name
		}
	}
	return s.Say("takeoff.island", "n", strconv.Itoa(number))
}
