package recount

import (
	"cmp"
	"math"
	"slices"
)

// A span is an opening in an edge, measured from the edge's first corner, and the gap of its sides.
type span struct{ from, to, gap float64 }

// closedSpans returns what openings leave of an edge.
func (d *drawing) closedSpans(s *side, open []span) []side {
	if len(open) == 0 {
		return []side{*s}
	}
	open = slices.SortedFunc(slices.Values(open), func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var closed []side
	at, gap, end := 0.0, 0.0, math.Hypot(s.b.X-s.a.X, s.b.Y-s.a.Y)
	add := func(to, gapB float64) {
		if to > at {
			part := *s
			part.a, part.b = s.a.plus(s.along, at), s.a.plus(s.along, to)
			if at == 0 {
				part.a = s.a
			} else {
				part.endsA(gap + d.mouth())
			}
			if to == end {
				part.b = s.b
			} else {
				part.endsB(gapB + d.mouth())
			}
			closed = append(closed, part)
		}
	}
	for _, o := range open {
		add(min(o.from, end), o.gap)
		at, gap = max(at, o.to), o.gap
	}
	add(end, 0)
	return closed
}

// mouth is how far beside the sides of an opening and their gap floor is hidden: a passage that meets a wall askew may
// be cut off square to that wall.
func (d *drawing) mouth() float64 { return d.hidden() + 8*Slack }

// openings adds the doorways of all rooms and returns, for each room and wall, where the wall is open. A passage that
// both of its rooms list is taken from the one that comes first.
func (d *drawing) openings() []map[int][]span {
	open := make([]map[int][]span, len(d.floor.Rooms))
	for i := range open {
		open[i] = make(map[int][]span)
	}
	for i := range d.floor.Rooms {
		ring := &d.floor.Rooms[i].Outline
		turn := turning(ring.Corners)
		for k := range d.floor.Rooms[i].Doorways {
			door := &d.floor.Rooms[i].Doorways[k]
			s, ok := d.newSide(door.Wall, ring.Corners[door.Wall], ring.Corners[(door.Wall+1)%len(ring.Corners)], turn,
				ring.Gaps[door.Wall])
			if !ok {
				continue
			}
			here := span{max(0, door.At-door.Under), min(s.long(), door.At+door.Width+door.Under), door.Gap}
			deep := door.Depth
			if door.Into >= 0 {
				here = d.narrowed(ring, &s, door, here)
			} else if deep -= door.Stop; deep <= 0 {
				continue // the floor ends before the wall
			}
			if door.Into >= 0 && slices.ContainsFunc(open[i][door.Wall], here.meets) {
				continue
			}
			open[i][door.Wall] = append(open[i][door.Wall], here)
			o := opening{
				near: s.a.plus(s.along, here.from), far: s.a.plus(s.along, here.to),
				out: s.normal.plus(s.normal, -2),
			}
			o.nearEnd, o.farEnd = o.near.plus(o.out, deep), o.far.plus(o.out, deep)
			if door.Into >= 0 {
				d.through(&o, door, open[door.Into])
			}
			d.opening(&s, door, &o, Edge{Room: i, Island: -1, Doorway: k, Index: door.Wall})
		}
	}
	return open
}

func (s span) meets(t span) bool { return s.from < t.to && t.from < s.to }

// An opening is the floor of a doorway: its two ends on the wall, how far it runs from each, and the wall of another
// room that it runs through to, or nil.
type opening struct {
	near, far, nearEnd, farEnd, out Spot
	beyond                          *side
}

// opening adds one doorway: its floor, and what its sides and its far line keep free and hide.
func (d *drawing) opening(s *side, door *Doorway, o *opening, name Edge) {
	deep := o.near != o.nearEnd
	jamb := func(a, b, normal Spot) {
		t := *s
		t.a, t.b, t.along, t.normal, t.gap = a, b, o.out, normal, door.Gap
		t.endsA(d.hidden())
		t.endsB(d.hidden())
		if o.beyond != nil { // the gap may end square to the wall beyond
			t.trimB += door.Gap * math.Abs(o.out.cross(o.beyond.normal)/o.out.dot(o.beyond.normal))
		}
		if deep {
			d.wall(t, name)
		}
		d.mitre(roleHide, a, s.normal, normal, s.hide, s.hide)
		d.mitre(roleFree, a, s.normal, normal, s.gap, door.Gap)
		if o.beyond != nil {
			d.mitre(roleHide, b, o.beyond.normal, normal, o.beyond.hide, s.hide)
			d.mitre(roleFree, b, o.beyond.normal, normal, o.beyond.gap, door.Gap)
		}
	}
	jamb(o.near, o.nearEnd, s.along)
	jamb(o.far, o.farEnd, s.along.plus(s.along, -2))
	if deep {
		d.add(roleOpen, 0, o.near, o.far, o.farEnd, o.nearEnd)
	}
	if door.Into < 0 {
		d.strip(roleHide, 0, o.nearEnd, o.farEnd, s.normal, d.hidden())
		d.strip(roleMargin, 0, o.nearEnd.plus(s.along, -s.slack), o.farEnd.plus(s.along, s.slack), o.out, s.slack)
	}
}

// narrowed returns an opening no wider than the wall of the other room that it runs through to: the floor runs beneath
// no casing where that wall ends at the side of the opening.
func (d *drawing) narrowed(own *Ring, s *side, door *Doorway, here span) span {
	ring := &d.floor.Rooms[door.Into].Outline
	sides := d.sides(ring, turning(ring.Corners))
	out := s.normal.plus(s.normal, -2)
	one, _ := facing(sides, s.a.plus(s.along, door.At), out)
	two, _ := facing(sides, s.a.plus(s.along, door.At+door.Width), out)
	if one == nil || one != two {
		return here
	}
	p, q := one.a.minus(s.a).dot(s.along), one.b.minus(s.a).dot(s.along)
	gap := func(r *Ring, edge int) float64 { n := len(r.Gaps); return r.Gaps[(edge+n)%n] }
	low, high := p+gap(ring, one.index-1), q-gap(ring, one.index+1)
	if p > q {
		p, q = q, p
		low, high = p+gap(ring, one.index+1), q-gap(ring, one.index-1)
	}
	low, high = max(low, gap(own, s.index-1)), min(high, s.long()-gap(own, s.index+1))
	// The opening itself is not narrowed by the gaps of the walls beside it.
	here.from = min(max(here.from, low), max(p, door.At))
	here.to = max(min(here.to, high), min(q, door.At+door.Width))
	return here
}

// through runs an opening on to the wall of another room that it faces within a metre, and opens that wall. Where its
// two sides do not meet one wall there, it is left as deep as it was.
func (d *drawing) through(o *opening, door *Doorway, open map[int][]span) {
	ring := &d.floor.Rooms[door.Into].Outline
	sides := d.sides(ring, turning(ring.Corners))
	near, nearEnd := facing(sides, o.near, o.out)
	far, farEnd := facing(sides, o.far, o.out)
	if near == nil || near != far {
		return
	}
	o.nearEnd, o.farEnd, o.beyond = nearEnd, farEnd, near
	p, q := nearEnd.minus(near.a).dot(near.along), farEnd.minus(near.a).dot(near.along)
	open[near.index] = append(open[near.index], span{min(p, q), max(p, q), door.Gap})
}

// facing returns the first side that a line from a place meets within a metre from outside its room, and where.
func facing(sides []side, from, way Spot) (first *side, at Spot) {
	const reach, early = 320_000.0, 2.0 // ticks: walls drawn in common are met too
	best := reach
	for i := range sides {
		s := &sides[i]
		into := way.dot(s.normal)
		if into < 0.5 { // a wall that runs away from the opening
			continue
		}
		ahead := s.a.minus(from).dot(s.normal) / into
		hit := from.plus(way, ahead)
		along := hit.minus(s.a).dot(s.along)
		if ahead >= -early && ahead < best && along >= -early && along <= s.b.minus(s.a).dot(s.along)+early {
			best, first, at = ahead, s, hit
		}
	}
	return first, at
}
