package recount

import "math"

// A role says what a polygon stands for.
type role uint8

const (
	roleRoom     role = iota // outline of a room
	roleIsland               // outline of an island
	roleOpen                 // opening of a doorway
	roleMargin               // outside a wall without a gap that is held with Slack
	roleKeep                 // the gap of an edge
	roleFree                 // the mitre of two gaps, which need not be kept free and may be
	roleHide                 // hidden floor
	roleStraight             // outline of a room with its jogs straightened
	rolePart                 // piece
	roles
)

// A polygon is a simple ring of corners, whose edges are listed apart.
type polygon struct {
	role role
	of   int32 // index of the part, or of the gap's edge in drawing.keeps
}

// A keep is an edge with the gap it keeps.
type keep struct {
	name Edge
	a, b Spot
	gap  float64 // from the edge, or from the rim of a round thing
	rim  float64 // radius of a round thing, whose middle a and b are
}

// A drawing is a floor as polygons.
type drawing struct {
	floor    *Floor
	polygons []polygon
	edges    []edge
	keeps    []keep
	slanted  bool // some walls do not lie along the axes
	jogged   bool // jogs of some room are straightened
}

func (d *drawing) add(r role, of int, corners ...Spot) {
	if r == roleHide && d.floor.Sharp {
		return
	}
	d.polygons = append(d.polygons, polygon{r, int32(of)})
	for k, a := range corners {
		if e, ok := d.side(a, corners[(k+1)%len(corners)]); ok {
			d.edges = append(d.edges, e)
		}
	}
}

// side returns the edge of the last polygon between two of its corners, if it is not level.
func (d *drawing) side(a, b Spot) (e edge, ok bool) {
	if a.Y > b.Y {
		a, b = b, a
	}
	return edge{a, b, int32(len(d.polygons) - 1), none}, b.Y-a.Y > sliver
}

// strip adds the strip of a given depth along an edge, on the side of the normal.
func (d *drawing) strip(r role, of int, a, b, normal Spot, depth float64) {
	if depth > 0 {
		d.add(r, of, a, b, b.plus(normal, depth), a.plus(normal, depth))
	}
}

// draw turns a floor into polygons. It takes O(corners + doorways * walls of the rooms they run through to).
func draw(f *Floor) *drawing {
	d := &drawing{floor: f}
	open := d.openings()
	for i := range f.Rooms {
		d.jogged = d.jogged || f.Rooms[i].Straight != nil
	}
	for i := range f.Rooms {
		room := &f.Rooms[i]
		d.add(roleRoom, i, room.Outline.Corners...)
		d.straight(room)
		d.ring(&room.Outline, Edge{Room: i, Island: -1, Doorway: -1}, open[i])
		for k := range room.Islands {
			d.add(roleIsland, i, room.Islands[k].Corners...)
			d.ring(&room.Islands[k], Edge{Room: i, Island: k, Doorway: -1}, nil)
		}
		for k := range room.Rounds {
			d.round(&room.Rounds[k], Edge{Room: i, Island: k, Doorway: -1, Index: RoundEdge})
		}
	}
	return d
}

// straight adds what straightening the jogs of a room takes of the floor, with the gaps of the straight walls.
func (d *drawing) straight(room *Room) {
	if room.Straight != nil {
		d.add(roleStraight, 0, room.Straight.Corners...)
		d.free(room.Straight, 1)
	} else if d.jogged {
		d.add(roleStraight, 0, room.Outline.Corners...)
	}
	for k := range room.Fixed {
		d.add(roleFree, 0, room.Fixed[k].Corners...)
		d.free(&room.Fixed[k], -1)
	}
}

// free adds the gaps along the edges of a ring. Turn is 1 for an outline and -1 for an island.
func (d *drawing) free(ring *Ring, turn float64) {
	turn *= turning(ring.Corners)
	sides := d.sides(ring, turn)
	for i := range sides {
		s, before := &sides[i], &sides[(i+len(sides)-1)%len(sides)]
		d.strip(roleFree, 0, s.a, s.b, s.normal, s.gap)
		if before.along.cross(s.along)*turn < 0 {
			d.mitre(roleFree, s.a, before.normal, s.normal, before.gap, s.gap)
		}
	}
}

// rims is how many corners stand for a circle, and loose how much farther from its middle than the circle the floor may
// end: whoever saws round cuts a little outside the line.
const (
	rims  = 96
	loose = 1.01
)

// round adds what a round thing keeps free and hides.
func (d *drawing) round(r *Round, name Edge) {
	circle := func(radius float64) []Spot {
		corners := make([]Spot, rims)
		for i := range corners {
			sin, cos := math.Sincos(float64(i) * 2 * math.Pi / rims)
			corners[i] = Spot{r.Middle.X + radius*cos, r.Middle.Y + radius*sin}
		}
		return corners
	}
	d.slanted = true // places along a circle are rounded
	d.keeps = append(d.keeps, keep{name, r.Middle, r.Middle, r.Gap, r.Radius})
	slack := Slack
	if d.floor.Sharp {
		slack = 0
	}
	d.add(roleIsland, name.Room, circle(max(1, r.Radius-slack))...)
	if free := r.Radius + r.Gap - slack; free > 0 {
		d.add(roleKeep, len(d.keeps)-1, circle(free)...)
	}
	d.add(roleHide, 0, circle((r.Radius+r.Gap)*loose+d.hidden())...)
}

// turning returns 1 for corners in counter-clockwise order, else -1.
func turning(corners []Spot) float64 {
	var twice float64
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		twice += p.minus(corners[0]).cross(q.minus(corners[0]))
	}
	if twice < 0 {
		return -1
	}
	return 1
}

// A side is an edge of a ring that is not of length 0.
type side struct {
	index     int
	a, b      Spot
	along     Spot // unit vector
	normal    Spot // unit vector into the floor
	gap, hide float64
	slack     float64
	// Where the next edge has another gap, and at openings, floor is cut off along the end of a strip. Then the strip
	// of the gap is shorter by trimA and trimB at the two ends, and the hidden strip longer by beyondA and beyondB.
	trimA, trimB, beyondA, beyondB float64
}

func (s *side) long() float64 { return s.b.minus(s.a).dot(s.along) }

// endsA and endsB say that the edge's strip ends by itself at its first corner, or at its last, and how far beyond it
// floor is hidden.
func (s *side) endsA(beyond float64) { s.trimA, s.beyondA = s.slack, beyond }

func (s *side) endsB(beyond float64) { s.trimB, s.beyondB = s.slack, beyond }

// hidden is the width beside a gap that needs no cover.
func (d *drawing) hidden() float64 { return d.floor.Hidden + Slack }

func (d *drawing) newSide(index int, a, b Spot, turn, gap float64) (side, bool) {
	v := b.minus(a)
	n := math.Hypot(v.X, v.Y)
	if n == 0 {
		return side{}, false
	}
	s := side{index: index, a: a, b: b, along: Spot{v.X / n, v.Y / n}, gap: gap, slack: Slack}
	s.normal = Spot{-s.along.Y * turn, s.along.X * turn}
	straight := d.floor.Exact && (v.X == 0 || v.Y == 0)
	if straight || d.floor.Sharp {
		s.slack = 0
	}
	d.slanted = d.slanted || !straight
	s.hide = gap + d.hidden()
	return s, true
}

// sides lists the edges of a ring. Turn is 1 where the floor lies on the left of the edges.
func (d *drawing) sides(ring *Ring, turn float64) []side {
	var sides []side
	for i, a := range ring.Corners {
		if s, ok := d.newSide(i, a, ring.Corners[(i+1)%len(ring.Corners)], turn, ring.Gaps[i]); ok {
			sides = append(sides, s)
		}
	}
	return sides
}

// ring adds what the edges of an outline or an island keep free and hide.
func (d *drawing) ring(ring *Ring, name Edge, open map[int][]span) {
	turn := turning(ring.Corners)
	if name.Island >= 0 {
		turn = -turn
	}
	sides := d.sides(ring, turn)
	for i := range sides {
		s, before, after := &sides[i], &sides[(i+len(sides)-1)%len(sides)], &sides[(i+1)%len(sides)]
		if before.gap != s.gap {
			s.endsA(d.hidden())
		}
		if after.gap != s.gap {
			s.endsB(d.hidden())
		}
		name.Index = s.index
		for _, part := range d.closedSpans(s, open[s.index]) {
			d.wall(part, name)
		}
		if before.along.cross(s.along)*turn < 0 {
			d.corner(before, s, name)
		}
	}
}

// wall adds the gap, the hidden strip and the margin of one edge.
func (d *drawing) wall(s side, name Edge) {
	d.keeps = append(d.keeps, keep{name: name, a: s.a, b: s.b, gap: s.gap})
	if s.b.minus(s.a).dot(s.along) > s.trimA+s.trimB {
		// Floor of the room behind the wall may come up to it, and over it by the slack.
		a, b := s.a.plus(s.along, s.trimA).plus(s.normal, s.slack), s.b.plus(s.along, -s.trimB).plus(s.normal, s.slack)
		d.strip(roleKeep, len(d.keeps)-1, a, b, s.normal, s.gap-2*s.slack)
	}
	d.strip(roleHide, 0, s.a.plus(s.along, -s.beyondA), s.b.plus(s.along, s.beyondB), s.normal, s.hide)
	if s.gap < s.slack {
		out := s.normal.plus(s.normal, -2)
		d.strip(roleMargin, 0, s.a.plus(s.along, -s.slack), s.b.plus(s.along, s.slack), out, s.slack-s.gap)
	}
}

// corner adds what a corner that points into the floor keeps free beyond its two edges.
func (d *drawing) corner(s, t *side, name Edge) {
	v := t.a
	d.keeps = append(d.keeps, keep{name: name, a: v, b: v, gap: min(s.gap, t.gap)})
	if r := min(s.gap-s.slack, t.gap-t.slack); r > 0 {
		const step = math.Pi / 12
		angle := math.Atan2(s.normal.cross(t.normal), s.normal.dot(t.normal))
		n := max(1, int(math.Ceil(math.Abs(angle)/step)))
		fan := []Spot{v}
		for i := range n + 1 {
			sin, cos := math.Sincos(angle * float64(i) / float64(n))
			m := s.normal
			fan = append(fan, v.plus(Spot{m.X*cos - m.Y*sin, m.X*sin + m.Y*cos}, r))
		}
		d.add(roleKeep, len(d.keeps)-1, fan...)
	}
	d.mitre(roleHide, v, s.normal, t.normal, s.hide, t.hide)
	d.mitre(roleFree, v, s.normal, t.normal, s.gap, t.gap)
}

// mitre adds the mitre of two edges that meet in v at distances r and q, up to two and a quarter times the larger.
// Where the gaps differ so much that there is none, the floor may be cut off straight between the feet of the two gaps:
// then what lies near that line is hidden.
func (d *drawing) mitre(as role, v, m, n Spot, r, q float64) {
	cos, sin := m.dot(n), math.Abs(m.cross(n))
	bisector := m.plus(n, 1)
	size := math.Hypot(bisector.X, bisector.Y)
	if sin < 1e-9 || size < 1e-9 {
		return // in line, or a wall without thickness
	}
	bisector = Spot{bisector.X / size, bisector.Y / size}
	along, back := (q-r*cos)/sin, (r-q*cos)/sin // from the feet of v to the tip of the mitre
	if along <= 0 || back <= 0 {
		if as != roleHide {
			return
		}
		near := d.hidden() // what r and q have beyond the gaps
		d.beside(v.plus(m, r-near), v.plus(n, q-near), v, near)
		d.add(roleHide, 0, v, v.plus(m, r), v.plus(n, q))
		return
	}
	toTip, fromTip := perpendicular(m, n), perpendicular(n, m)
	foot, last := v.plus(m, r), v.plus(n, q)
	limit := 2.25 * max(r, q)
	if math.Hypot(r, along) <= limit {
		d.add(as, 0, v, foot, foot.plus(toTip, along), last)
		return
	}
	short := func(foot, way Spot, whole float64) Spot {
		return foot.plus(way, min(whole, max(0, (limit-foot.minus(v).dot(bisector))/way.dot(bisector))))
	}
	d.add(as, 0, v, foot, short(foot, toTip, along), short(last, fromTip, back), last)
}

// beside hides what lies near the line from a to b, on the side away from v.
func (d *drawing) beside(a, b, v Spot, near float64) {
	w := b.minus(a)
	size := math.Hypot(w.X, w.Y)
	if size == 0 {
		return
	}
	normal := Spot{-w.Y / size, w.X / size}
	if normal.dot(v.minus(a)) > 0 {
		normal = Spot{-normal.X, -normal.Y}
	}
	d.strip(roleHide, 0, a, b, normal, near)
}

// perpendicular returns the unit vector square to m on the side of n.
func perpendicular(m, n Spot) Spot {
	if m.cross(n) > 0 {
		return Spot{-m.Y, m.X}
	}
	return Spot{m.Y, -m.X}
}
