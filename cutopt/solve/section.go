package solve

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// A sectioning parts one floor of a job into fields that are no longer than allowed.
//
// As long as a field is too long, one break more is put into it: in a doorway that a floor runs through, if that makes
// for fewer breaks to come; else along a straight line through the field, square to the rows or along them, where it
// costs least: the shortest transition, then the fewest planks of the fields beside it, then the most even parts.
type sectioning struct {
	ctx    context.Context
	job    *cutopt.Job
	whole  field
	rooms  []int         // of the job
	turn   float64       // of the rows
	base   []cutopt.Fact // which wall they are laid out from
	most   int           // pieces
	breaks []cutopt.PlanBreak

	fields []field
	floors []*strips.Floor
}

// mostBreaks bounds how many breaks one floor gets.
const mostBreaks = 200

// has reports whether a room of the job is one of the floor's.
func (s *sectioning) has(room int) bool {
	return slices.ContainsFunc(s.whole.Rooms, func(r cutopt.RoomPart) bool { return r.Number == room })
}

// A way is one of the two ways in which a floor may be too long.
type way uint8

const (
	alongRows way = iota
	acrossRows
)

// extent returns from where to where a floor reaches some way, and how far it may; 0 is no limit.
func (s *sectioning) extent(f *strips.Floor, w way) (from, to, most measure.Length) {
	if w == alongRows {
		from, to = f.Along()
		return from, to, s.job.Rules.MaxAlong
	}
	from, to = f.Across()
	return from, to, s.job.Rules.MaxAcross
}

// excess returns how many breaks a floor asks for at least, some way.
func (s *sectioning) excess(f *strips.Floor, w way) int {
	from, to, most := s.extent(f, w)
	if most <= 0 || to-from <= most {
		return 0
	}
	return s.parts(to-from, most) - 1
}

// long reports whether a floor is longer or wider than allowed.
func (s *sectioning) long(f *strips.Floor) bool {
	return s.excess(f, alongRows) > 0 || s.excess(f, acrossRows) > 0
}

// parts returns how many fields, no longer than allowed and with breaks between them, a length takes.
func (s *sectioning) parts(size, most measure.Length) int {
	return int((size + s.zone() + most + s.zone() - 1) / (most + s.zone()))
}

// zone is how much floor a break takes: what stands in it, and the gap on both sides.
func (s *sectioning) zone() measure.Length { return s.job.Rules.BreakWidth + 2*s.job.Rules.Gap }

// run puts breaks into the floor until no field is too long.
func (s *sectioning) run() error {
	if err := s.lay(); err != nil {
		return err
	}
	for {
		k := slices.IndexFunc(s.floors, s.long)
		if k < 0 {
			return nil
		}
		if len(s.breaks) >= mostBreaks {
			return s.refusal(k)
		}
		more, err := s.better(k)
		if err != nil {
			return err
		}
		if more == nil {
			return s.refusal(k)
		}
		s.breaks, s.fields, s.floors = more.breaks, more.fields, more.floors
	}
}

// lay lays the fields that the breaks make.
func (s *sectioning) lay() error {
	s.fields, s.floors = nil, nil
	left := s.most
	for _, f := range s.job.FieldsOf(s.whole.Floor, s.rooms, s.breaks) {
		part := field{Field: f, lie: s.whole.lie, turn: &s.turn, base: s.base}
		floor, err := floorOf(s.ctx, s.job, &part, &part.lie, max(1, left))
		if err != nil {
			return err
		}
		left -= floor.Pieces(s.job.Plank.Length)
		s.fields, s.floors = append(s.fields, part), append(s.floors, floor)
	}
	return nil
}

// with returns the sectioning with more breaks; nil where they part nothing, or leave a field without floor.
func (s *sectioning) with(more ...cutopt.PlanBreak) (*sectioning, error) {
	out := *s
	out.breaks = append(slices.Clone(s.breaks), more...)
	if err := out.lay(); err != nil {
		return nil, s.ctx.Err() // a field that cannot be laid is a break in the wrong place
	}
	if len(out.fields) <= len(s.fields) {
		return nil, nil
	}
	return &out, nil
}

// needs returns how many breaks all fields ask for some way.
func (s *sectioning) needs(w way) (n int) {
	for _, f := range s.floors {
		n += s.excess(f, w)
	}
	return n
}

// nearer reports whether a sectioning with one break more is nearer to the end: fewer breaks are to come, or, if that
// is not asked, fields are less too long.
func (s *sectioning) nearer(next *sectioning, w way, fewer bool) bool {
	if n, m := next.needs(w), s.needs(w); fewer || n != m {
		return n < m
	}
	return next.over(w) < s.over(w)
}

// over returns by how much all fields together are too long some way.
func (s *sectioning) over(w way) (n measure.Length) {
	for _, f := range s.floors {
		if from, to, most := s.extent(f, w); most > 0 {
			n += max(0, to-from-most)
		}
	}
	return n
}

// better returns the sectioning with a break in field k; nil where there is no place for one. Breaks that leave fewer
// to come are looked for first, and those in doorways before others.
func (s *sectioning) better(k int) (*sectioning, error) {
	var ways []way
	for _, w := range [...]way{alongRows, acrossRows} {
		if s.excess(s.floors[k], w) > 0 {
			ways = append(ways, w)
		}
	}
	const tries = 4
	for more := range tries {
		for _, w := range ways {
			if found, err := s.doorway(k, w, more == 0); found != nil || err != nil {
				return found, err
			}
		}
		for _, w := range ways {
			if found, err := s.line(k, w, more); found != nil || err != nil {
				return found, err
			}
		}
	}
	return nil, nil
}

// mostPaired is the most doorways of a field of which two are tried at once.
const mostPaired = 8

// doorway returns the sectioning with a break in the doorway of field k that leaves the fewest breaks to come, or with
// one in each of two, as where rooms are joined in a ring. Of several the shortest is taken, and then what parts the
// floor most evenly.
func (s *sectioning) doorway(k int, w way, fewer bool) (*sectioning, error) {
	doors := s.doorways(k)
	var best *sectioning
	var long, even measure.Length
	try := func(breaks ...cutopt.PlanBreak) error {
		next, err := s.with(breaks...)
		if err != nil || next == nil || !s.nearer(next, w, fewer) {
			return err
		}
		size, uneven := measure.Length(0), next.longest(w)
		for _, b := range breaks {
			size += b.Length
		}
		if best == nil || cmp.Or(cmp.Compare(next.needs(w), best.needs(w)), cmp.Compare(size, long),
			cmp.Compare(uneven, even)) < 0 {
			best, long, even = next, size, uneven
		}
		return nil
	}
	for _, b := range doors {
		if err := try(b); err != nil {
			return nil, err
		}
	}
	if best != nil || len(doors) > mostPaired {
		return best, nil
	}
	for i, b := range doors {
		for _, other := range doors[:i] {
			if err := try(other, b); err != nil {
				return nil, err
			}
		}
	}
	return best, nil
}

// doorways lists the breaks in the doorways that field k runs through, each once where both rooms list it.
func (s *sectioning) doorways(k int) []cutopt.PlanBreak {
	var out []cutopt.PlanBreak
	for i := range s.fields[k].Rooms {
		room := &s.fields[k].Rooms[i]
		for d := range room.Doorways {
			if room.Into[d] < 0 || room.Openings[d] < 0 {
				continue
			}
			b, ok := s.job.BreakInDoorway(room.Number, room.Openings[d])
			middle := between(b.From, b.To)
			twice := slices.ContainsFunc(out, func(o cutopt.PlanBreak) bool {
				return distance(between(o.From, o.To), middle) < o.Length/2
			})
			if ok && !twice {
				out = append(out, b)
			}
		}
	}
	return out
}

func between(p, q cutopt.Point) cutopt.Point {
	return cutopt.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}
}

// longest returns how far the longest field reaches some way.
func (s *sectioning) longest(w way) (most measure.Length) {
	for _, f := range s.floors {
		from, to, _ := s.extent(f, w)
		most = max(most, to-from)
	}
	return most
}

// looks is how many of the best lines are looked at with the planks they take.
const looks = 6

// line returns the sectioning with a break along a straight line through field k where it costs least, such that the
// field takes so many breaks more than it must.
func (s *sectioning) line(k int, w way, more int) (*sectioning, error) {
	from, to, most := s.extent(s.floors[k], w)
	c := newCrossing(s, k, w == acrossRows)
	n := s.parts(to-from, most) + more
	return s.cheapest(c.lines(float64(from), float64(to), float64(most), n), w, more == 0)
}

// A sectionLine is a straight line through a field, and the breaks along it.
type sectionLine struct {
	breaks []cutopt.PlanBreak
	long   measure.Length // of all of them
	uneven float64        // how far it lies from where it would part the field evenly
}

// cheapest returns the sectioning along the line that costs least; nil where none parts the floor.
func (s *sectioning) cheapest(lines []sectionLine, w way, fewer bool) (*sectioning, error) {
	slices.SortStableFunc(lines, func(a, b sectionLine) int {
		const inch = measure.Inch
		return cmp.Or(cmp.Compare(a.long/inch, b.long/inch), cmp.Compare(a.uneven, b.uneven))
	})
	var best *sectioning
	fewest, long := 0, measure.Length(0)
	looked := 0
	for i := range lines {
		l := &lines[i]
		if best != nil && (looked >= looks || l.long/measure.Inch > long/measure.Inch) {
			break
		}
		next, err := s.with(l.breaks...)
		if err != nil {
			return nil, err
		}
		if next == nil || !s.nearer(next, w, fewer) {
			continue
		}
		looked++
		planks := next.planks()
		if best == nil || planks < fewest {
			best, fewest, long = next, planks, l.long
		}
		if s.ctx.Err() != nil {
			return nil, s.ctx.Err()
		}
	}
	return best, nil
}

// planks estimates how many planks the fields take together: by a short search where they are few rows, else by the
// pieces.
func (s *sectioning) planks() int {
	const many = 150 // runs
	in, _ := instanceOf(s.job, s.floors)
	if len(in.Runs) <= many {
		result, err := fewest.Solve(in, &fewest.Settings{
			Enough: func(int, int) bool { return true }, Budget: &fewest.Quick,
			Stop: func() bool { return s.ctx.Err() != nil },
		})
		if err == nil {
			return len(in.Cut(result.Layout, result.Packing).Planks)
		}
		return math.MaxInt
	}
	n := 0
	for _, f := range s.floors {
		n += f.Pieces(s.job.Plank.Length)
	}
	return n
}

// refusal says that a field is too long and that there is no place for a break.
func (s *sectioning) refusal(k int) error {
	w, key, name := alongRows, "max-along", "along"
	if s.excess(s.floors[k], w) == 0 {
		w, key, name = acrossRows, "max-across", "across"
	}
	from, to, most := s.extent(s.floors[k], w)
	unit := s.job.Unit
	return &cutopt.FieldError{
		Field: "rules." + key,
		Value: most.Format(unit, measure.Tick),
		Rule: fmt.Sprintf(
			"the floor of %q is %s %s the rows, and no line parts it that keeps clear of doorways, corners and "+
				"fixed things",
			s.floors[k].Name,
			(to-from).Format(unit, s.job.Rules.Grid),
			name,
		),
		Mend: "say where with breaks: in the room, lay the rows another way, or take a product that needs no break",
	}
}
