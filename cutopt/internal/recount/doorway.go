package recount

import (
	"cmp"
	"math"
	"slices"
)

// A span is a stretch of an edge, measured from its first corner.
type span struct{ from, to float64 }

// closedSpans returns what openings leave of an edge.
func (d *drawing) closedSpans(s *side, open []span) []side {
	if len(open) == 0 {
		return []side{*s}
	}
	open = slices.SortedFunc(slices.Values(open), func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var closed []side
	at, end := 0.0, math.Hypot(s.b.X-s.a.X, s.b.Y-s.a.Y)
	add := func(to float64) {
		if to > at {
			part := *s
			part.a, part.b = s.a.plus(s.along, at), s.a.plus(s.along, to)
			if at == 0 {
				part.a = s.a
			} else {
				part.endsA(d.floor.Hidden)
			}
			if to == end {
				part.b = s.b
			} else {
				part.endsB(d.floor.Hidden)
			}
			closed = append(closed, part)
		}
	}
	for _, o := range open {
		add(min(o.from, end))
		at = max(at, o.to)
	}
	add(end)
	return closed
}

// openings adds the doorways of all rooms and returns, for each room and wall, where the wall is open. A passage that both
// of its rooms list is taken from the one that comes first.
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
			here := span{door.At, door.At + door.Width}
			if door.Into >= 0 && slices.ContainsFunc(open[i][door.Wall], here.meets) {
				continue
			}
			open[i][door.Wall] = append(open[i][door.Wall], here)
			o := opening{near: s.a.plus(s.along, here.from), far: s.a.plus(s.along, here.to), out: s.normal.plus(s.normal, -2)}
			o.nearEnd, o.farEnd = o.near.plus(o.out, door.Depth), o.far.plus(o.out, door.Depth)
			if door.Into >= 0 {
				d.through(&o, door.Into, open[door.Into])
			}
			d.opening(&s, door, &o, Edge{Room: i, Island: -1, Doorway: k, Index: door.Wall})
		}
	}
	return open
}

func (s span) meets(t span) bool { return s.from < t.to && t.from < s.to }

// An opening is the floor of a doorway: its two ends on the wall, and how far it runs from each.
type opening struct{ near, far, nearEnd, farEnd, out Spot }

// opening adds one doorway: its floor, and what its sides and its far line keep free and hide.
func (d *drawing) opening(s *side, door *Doorway, o *opening, name Edge) {
	deep := o.near != o.nearEnd
	jamb := func(a, b, normal Spot) {
		t := *s
		t.a, t.b, t.along, t.normal, t.gap = a, b, o.out, normal, door.Gap
		t.endsA(d.floor.Hidden)
		t.endsB(d.floor.Hidden)
		if deep {
			d.wall(t, name)
		}
		d.mitre(a, s.normal, normal, s.hide, s.hide)
		if door.Into >= 0 {
			d.mitre(b, o.out, normal, s.hide, s.hide)
		}
	}
	jamb(o.near, o.nearEnd, s.along)
	jamb(o.far, o.farEnd, s.along.plus(s.along, -2))
	if deep {
		d.add(roleOpen, 0, o.near, o.far, o.farEnd, o.nearEnd)
	}
	if door.Into < 0 {
		d.strip(roleHide, 0, o.nearEnd, o.farEnd, s.normal, d.floor.Hidden+Slack)
		d.strip(roleMargin, 0, o.nearEnd.plus(s.along, -s.slack), o.farEnd.plus(s.along, s.slack), o.out, s.slack)
	}
}

// through runs an opening on to the wall of another room that it faces within a metre, and opens that wall. Where its two
// sides do not meet one wall there, it is left as deep as it was.
func (d *drawing) through(o *opening, into int, open map[int][]span) {
	ring := &d.floor.Rooms[into].Outline
	sides := d.sides(ring, turning(ring.Corners))
	near, nearEnd := facing(sides, o.near, o.out)
	far, farEnd := facing(sides, o.far, o.out)
	if near == nil || near != far {
		return
	}
	o.nearEnd, o.farEnd = nearEnd, farEnd
	p, q := nearEnd.minus(near.a).dot(near.along), farEnd.minus(near.a).dot(near.along)
	open[near.index] = append(open[near.index], span{min(p, q), max(p, q)})
}

// facing returns the first side that a line from a place meets within a metre from outside its room, and where.
func facing(sides []side, from, way Spot) (first *side, at Spot) {
	const reach, early = 320_000.0, 2.0 // ticks: walls drawn in common are met too
	best := reach
	for i := range sides {
		s := &sides[i]
		into := way.dot(s.normal)
		if into < 1e-6 {
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
