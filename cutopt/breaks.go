package cutopt

import (
	"math"
	"slices"

	"plank.example/cutopt/measure"
)

// A Break parts the floor of a room along a straight line from wall to wall: it begins at a place of a wall and runs
// square to that wall to the first wall it meets. What lies on its two sides are fields, each a floor of its own, that
// keep their gap from what stands in the break; a transition covers both gaps.
type Break struct {
	Name string
	Wall int            // index of the wall it begins at: from corner Wall to corner Wall+1
	At   measure.Length // from that wall's first corner
}

// A PlanBreak is a break of a plan: one that the job asks for, or one that the product's limits do.
type PlanBreak struct {
	Room     int            // index of the room in the job
	Wall     int            // index of the wall it begins at, or of the wall of its doorway
	At       measure.Length // where on that wall it begins, from the wall's first corner
	Doorway  int            // index of the doorway that it lies in; -1 where it crosses the room
	From, To Point          // its two ends in the drawing, on the walls or between the sides of the doorway
	Length   measure.Length // from end to end, to the nearest tick: what the transition covers
	Width    measure.Length // of what stands in it: Rules.BreakWidth. Each field keeps its gap from that
	Asked    bool           // the job asks for it; else Rules.MaxAlong or Rules.MaxAcross does
}

// BreakLine returns the ends of a break on the room's walls; false where it meets no wall, or the wall is none of the
// room's. It takes O(walls).
func (r *Room) BreakLine(b Break) (from, to Point, ok bool) {
	if b.Wall < 0 || b.Wall >= len(r.Outline) {
		return from, to, false
	}
	a, e := r.Outline[b.Wall], r.Outline[(b.Wall+1)%len(r.Outline)]
	size := math.Hypot(float64(e.X-a.X), float64(e.Y-a.Y))
	if size == 0 || b.At <= 0 || float64(b.At) >= size {
		return from, to, false
	}
	ux, uy := float64(e.X-a.X)/size, float64(e.Y-a.Y)/size
	ix, iy := -uy, ux // into the room
	if clockwise(r.Outline) {
		ix, iy = uy, -ux
	}
	x, y := float64(a.X)+float64(ux*float64(b.At)), float64(a.Y)+float64(uy*float64(b.At))
	best := math.Inf(1)
	for w, p := range r.Outline {
		q := r.Outline[(w+1)%len(r.Outline)]
		dx, dy := float64(q.X-p.X), float64(q.Y-p.Y)
		cross := float64(ix*dy) - float64(iy*dx)
		if w == b.Wall || cross == 0 {
			continue
		}
		ahead := (float64((float64(p.X)-x)*dy) - float64((float64(p.Y)-y)*dx)) / cross
		along := (float64((float64(p.X)-x)*iy) - float64((float64(p.Y)-y)*ix)) / cross
		if ahead > 1 && ahead < best && along >= 0 && along <= 1 {
			best = ahead
		}
	}
	if math.IsInf(best, 1) {
		return from, to, false
	}
	return rounded(x, y), rounded(x+float64(ix*best), y+float64(iy*best)), true
}

func rounded(x, y float64) Point {
	return Point{X: measure.Length(math.Round(x)), Y: measure.Length(math.Round(y))}
}

func distance(p, q Point) measure.Length {
	return measure.Length(math.Round(math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))))
}

// Breaks returns the breaks that the job asks for, room by room, those across the room before those in its doorways, as
// a plan states them. One that both rooms ask for is there once. Those of a job that does not pass Validate may be
// missing.
func (j *Job) Breaks() []PlanBreak {
	var out []PlanBreak
	for i := range j.Rooms {
		for _, b := range j.Rooms[i].Breaks {
			if from, to, ok := j.Rooms[i].BreakLine(b); ok {
				out = append(out, PlanBreak{
					Room: i, Wall: b.Wall, At: b.At, Doorway: -1, From: from, To: to, Length: distance(from, to),
					Width: j.Rules.BreakWidth, Asked: true,
				})
			}
		}
		for k := range j.Rooms[i].Doorways {
			if d := &j.Rooms[i].Doorways[k]; !d.Break || !d.Through {
				continue
			}
			b, ok := j.BreakInDoorway(i, k)
			b.Asked = true
			if ok && !slices.ContainsFunc(out, b.sameOpening) {
				out = append(out, b)
			}
		}
	}
	return out
}

// sameOpening reports whether another break lies in the same doorway, which both its rooms may list.
func (b *PlanBreak) sameOpening(o PlanBreak) bool {
	return o.Doorway >= 0 && distance(middle(b.From, b.To), middle(o.From, o.To)) < o.Length/2
}

// BreakInDoorway returns the break that lies in a doorway that a floor runs through: midway between the walls of its
// two rooms. It is false where the doorway leads on to no wall of the room behind.
func (j *Job) BreakInDoorway(room, doorway int) (PlanBreak, bool) {
	r := &j.Rooms[room]
	d := &r.Doorways[doorway]
	to := j.roomNamed(d.To)
	m, ok := d.sides(r.Outline)
	if !ok || to < 0 {
		return PlanBreak{}, false
	}
	f, ok := m.facing(j.Rooms[to].Outline)
	if !ok {
		return PlanBreak{}, false
	}
	half := min(f.ahead[0], f.ahead[1]) / 2
	var ends [2]Point
	for i, s := range m.sides {
		ends[i] = rounded(s[0]+float64(m.out[0]*half), s[1]+float64(m.out[1]*half))
	}
	return PlanBreak{
		Room: room, Wall: d.Wall, At: d.At, Doorway: doorway, From: ends[0], To: ends[1], Length: d.Width,
		Width: j.Rules.BreakWidth,
	}, true
}

// Fact tells of the break, as the fields that end at it do.
func (b *PlanBreak) Fact() Fact {
	f := Fact{Kind: FactBreak, Room: b.Room + 1, Length: b.Length, Width: b.Width}
	switch {
	case b.Doorway >= 0:
		f.Kind, f.Doorway = FactBreakDoorway, b.Doorway+1
	case b.Wall < 0:
		f.Kind = FactBreakOn
	default:
		f.Wall, f.At = b.Wall+1, b.At
	}
	return f
}

// roomNamed returns the index of a room of that name; -1 for none.
func (j *Job) roomNamed(name string) int {
	for i := range j.Rooms {
		if j.Rooms[i].Name == name {
			return i
		}
	}
	return -1
}
