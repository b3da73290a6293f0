package recount

import (
	"cmp"
	"math"
	"slices"
)

// A span is a stretch of an edge, measured from its first corner.
type span struct{ from, to float64 }

// closedSpans returns what openings leave of an edge.
func closedSpans(s *side, open []span) []side {
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
			}
			if to == end {
				part.b = s.b
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

// openings adds the doorways of all rooms and returns, for each room and wall, where the wall is open.
func (d *drawing) openings() []map[int][]span {
	open := make([]map[int][]span, len(d.floor.Rooms))
	for i := range open {
		open[i] = make(map[int][]span)
	}
	for i := range d.floor.Rooms {
		ring := &d.floor.Rooms[i].Outline
		turn := turning(ring.Corners)
		for k, door := range d.floor.Rooms[i].Doorways {
			s, ok := d.newSide(door.Wall, ring.Corners[door.Wall], ring.Corners[(door.Wall+1)%len(ring.Corners)], turn,
				ring.Gaps[door.Wall])
			if !ok {
				continue
			}
			open[i][door.Wall] = append(open[i][door.Wall], span{door.At, door.At + door.Width})
			depth := door.Depth
			if door.Into >= 0 {
				depth = d.through(&s, &door, open[door.Into])
			}
			d.opening(&s, &door, depth, Edge{Room: i, Island: -1, Doorway: k, Index: door.Wall})
		}
	}
	return open
}

// opening adds one doorway: its floor, and what its sides and its far line keep free and hide.
func (d *drawing) opening(s *side, door *Doorway, depth float64, name Edge) {
	near, far := s.a.plus(s.along, door.At), s.a.plus(s.along, door.At+door.Width)
	out := s.normal.plus(s.normal, -2)
	nearEnd, farEnd := near.plus(out, depth), far.plus(out, depth)
	back := s.along.plus(s.along, -2)
	jamb := func(a, b, normal Spot) {
		t := *s
		t.a, t.b, t.normal, t.gap = a, b, normal, door.Gap
		if depth > 0 {
			d.wall(t, name)
		}
		d.mitre(a, s.normal, normal, s.hide, s.hide)
		if door.Into >= 0 {
			d.mitre(b, out, normal, s.hide, s.hide)
		}
	}
	jamb(near, nearEnd, s.along)
	jamb(far, farEnd, back)
	if depth <= 0 {
		return
	}
	d.add(roleOpen, 0, near, far, farEnd, nearEnd)
	if door.Into < 0 {
		d.strip(roleHide, 0, nearEnd, farEnd, s.normal, d.floor.Hidden+Slack)
		d.strip(roleMargin, 0, nearEnd, farEnd, out, s.slack)
	}
}

// through opens the wall of the other room that a doorway without a transition runs through to, and returns how far the
// floor runs to reach it: the doorway's depth where no wall lies within a hand's breadth of it.
func (d *drawing) through(s *side, door *Doorway, open map[int][]span) float64 {
	const reach = 32_000.0 // 100 mm
	ring := &d.floor.Rooms[door.Into].Outline
	middle := s.a.plus(s.along, door.At+door.Width/2)
	depth, best := door.Depth, reach
	var facing *side
	sides := d.sides(ring, turning(ring.Corners))
	for i := range sides {
		t := &sides[i]
		if t.along.dot(s.along) > -0.99 && t.along.dot(s.along) < 0.99 || t.normal.dot(s.normal) > 0 {
			continue
		}
		away := middle.minus(t.a).dot(t.normal) * -1 // how far the wall lies beyond this one
		at := middle.minus(t.a).dot(t.along)
		if off := math.Abs(away - door.Depth); off < best && at > 0 && at < t.b.minus(t.a).dot(t.along) {
			depth, best, facing = away, off, t
		}
	}
	if facing != nil {
		p := s.a.plus(s.along, door.At).minus(facing.a).dot(facing.along)
		q := s.a.plus(s.along, door.At+door.Width).minus(facing.a).dot(facing.along)
		open[facing.index] = append(open[facing.index], span{min(p, q), max(p, q)})
	}
	return depth
}
