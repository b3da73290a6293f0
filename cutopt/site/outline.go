package site

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// near is how far rounding may leave two places of a drawing apart, in ticks.
const near = 4

// own returns where a point of the drawing lies in the axes of a floor, to the nearest tick.
func own(axes cutopt.Axes, p cutopt.Point) cutopt.Point {
	x, y := axes.FromDrawing(p)
	return cutopt.Point{X: measure.Length(math.Round(x)), Y: measure.Length(math.Round(y))}
}

// wallIn returns the wall of a room that a row meets at y: the first one that reaches beyond x on that side, or the
// nearest one to x.
func wallIn(
	room *cutopt.Room, axes cutopt.Axes, row *cutopt.PlanRow, y, x, side measure.Length, nearest bool,
) (best wallPlace, found bool) {
	far := func(w *wallPlace) measure.Length {
		if nearest {
			return max(w.x-x, x-w.x)
		}
		return side * (w.reach - x)
	}
	for w := range room.Outline {
		p, q := own(axes, room.Outline[w]), own(axes, room.Outline[(w+1)%len(room.Outline)])
		low, high := min(p.Y, q.Y), max(p.Y, q.Y)
		if low == high || y < low || y > high {
			continue
		}
		at := func(y measure.Length) measure.Length {
			y = max(low, min(y, high))
			return p.X + measure.Length(math.Round(float64(y-p.Y)/float64(q.Y-p.Y)*float64(q.X-p.X)))
		}
		this := wallPlace{wall: w, x: at(y), y: y, reach: side * max(side*at(row.From), side*at(row.To))}
		if (nearest || far(&this) >= -near) && (!found || far(&this) < far(&best)) {
			best, found = this, true
		}
	}
	return best, found
}

// across lists the places across a row at which what it ends at is looked for: in the middle, and where corners within
// the row hide that, nearer to its edges.
func across(row *cutopt.PlanRow) []measure.Length {
	w := row.To - row.From
	return []measure.Length{row.From + w/2, row.From + w/4, row.To - w/4, row.From + w/16, row.To - w/16}
}

// A ring is an outline that is taken apart: corners with the wall that runs from each.
type ring struct {
	room    *cutopt.Room
	corners []side
}

// A side is a wall of a ring with the corner that it runs from.
type side struct {
	at   cutopt.Point
	gap  measure.Length // -1 where the job has none for it
	was  int            // index of the wall that it is, or is part of; -1 for a step
	from measure.Length // where on that wall it begins
}

func newRing(room *cutopt.Room) *ring {
	r := &ring{room: room}
	for i, p := range room.Outline {
		s := side{at: p, gap: -1, was: i}
		if gap, ok := room.WallGaps[i]; ok {
			s.gap = gap
		}
		r.corners = append(r.corners, s)
	}
	return r
}

// rebuilt returns the room with the ring as its outline: gaps, doorways, breaks and the starting wall go with their
// walls. It is nil where a doorway or a break would stand astride a step, or a wall is moved beyond another.
func (r *ring) rebuilt() *cutopt.Room {
	room := *r.room
	room.Outline, room.WallGaps = nil, make(map[int]measure.Length)
	for i, s := range r.corners {
		if was, n := r.room.Outline, len(r.room.Outline); s.was >= 0 {
			a, e, next := was[s.was], was[(s.was+1)%n], r.corners[(i+1)%len(r.corners)].at
			if float64(float64(e.X-a.X)*float64(next.X-s.at.X))+float64(float64(e.Y-a.Y)*float64(next.Y-s.at.Y)) <= 0 {
				return nil // it would run the other way
			}
		}
		room.Outline = append(room.Outline, s.at)
		if s.gap >= 0 {
			room.WallGaps[i] = s.gap
		}
	}
	room.Doorways, room.Breaks = slices.Clone(room.Doorways), slices.Clone(room.Breaks)
	for k := range room.Doorways {
		d := &room.Doorways[k]
		wall, at, ok := r.place(d.Wall, d.At, d.Width)
		if !ok {
			return nil
		}
		d.Wall, d.At = wall, at
	}
	for k := range room.Breaks {
		b := &room.Breaks[k]
		wall, at, ok := r.place(b.Wall, b.At, 0)
		if !ok {
			return nil
		}
		b.Wall, b.At = wall, at
	}
	if room.Rows.StartWall > 0 {
		if wall, _, ok := r.place(room.Rows.StartWall-1, 1, 0); ok {
			room.Rows.StartWall = wall + 1
		}
	}
	return &room
}

// place returns the wall that a stretch of a wall of the room lies on, and where.
func (r *ring) place(wall int, at, width measure.Length) (int, measure.Length, bool) {
	for i, s := range r.corners {
		if s.was != wall {
			continue
		}
		end := measure.Length(math.MaxInt64)
		for _, other := range r.corners {
			if other.was == wall && other.from > s.from {
				end = min(end, other.from)
			}
		}
		if at >= s.from && at < end {
			return i, at - s.from, at+width <= end
		}
	}
	return 0, 0, false
}

// A step moves a wall along the rows from a line across them on to where it ends.
type step struct {
	wall     int
	line, by measure.Length
	out      measure.Length // 1 where the floor lies to the left of the wall, else -1
	gap      measure.Length // kept from the step itself; -1 for as much as the wall needs
	nudge    cutopt.Point   // off the place nearest to the line
}

// stepWall returns the room with a wall moved; nil where a doorway is in the way.
func stepWall(room *cutopt.Room, axes cutopt.Axes, s *step, rules *cutopt.Rules) *cutopt.Room {
	r := newRing(room)
	n := len(r.corners)
	wall, line, by := s.wall, s.line, s.by
	before, after := (wall+n-1)%n, (wall+1)%n
	a, e := r.corners[wall], r.corners[after]
	p, q := own(axes, a.at), own(axes, e.at)
	gap := a.gap
	if max(by, -by) <= rules.Smooth+near { // no jog of the drawing: see amend
		if gap < 0 {
			gap = rules.Gap
		}
		by, gap = by+s.out, gap+1
	}
	to := func(p cutopt.Point) cutopt.Point { return axes.ToDrawing(cutopt.Point{X: p.X + by, Y: p.Y}) }
	split := line > min(p.Y, q.Y)+near
	back := s.gap
	if back < 0 {
		back = setBack(p, q, max(gap, a.gap, rules.Gap))
	}
	if by*s.out > 0 {
		line = max(line-back, min(p.Y, q.Y)+1)
	} else {
		line = min(line+back, max(p.Y, q.Y)-1)
	}
	cut := cutopt.Point{
		X: p.X + measure.Length(math.Round(float64(line-p.Y)/float64(q.Y-p.Y)*float64(q.X-p.X))), Y: line,
	}
	at := axes.ToDrawing(cut)
	end := to(cut)
	at.X, at.Y, end.X, end.Y = at.X+s.nudge.X, at.Y+s.nudge.Y, end.X+s.nudge.X, end.Y+s.nudge.Y
	from := measure.Length(math.Round(math.Hypot(float64(at.X-a.at.X), float64(at.Y-a.at.Y))))
	away := q.Y > p.Y // it goes away from the starting wall
	// Where the walls beside it run another way, it slides along them; else a step leads to it.
	shifted := to(p)
	ux, uy := float64(e.at.X-a.at.X), float64(e.at.Y-a.at.Y)
	first, slides := meets(r.corners[before].at, a.at, float64(shifted.X), float64(shifted.Y), ux, uy)
	last, slidesOn := meets(e.at, r.corners[(after+1)%n].at, float64(shifted.X), float64(shifted.Y), ux, uy)

	var parts []side
	switch {
	case away && split:
		parts = append(parts, a, side{at, back, -1, 0}, side{end, gap, wall, from})
	case slides:
		parts = append(parts, side{first, gap, wall, 0})
	default:
		parts = append(parts, side{a.at, 0, -1, 0}, side{shifted, gap, wall, 0})
	}
	switch {
	case !away && split:
		parts = append(parts, side{end, back, -1, 0}, side{at, a.gap, wall, from})
	case slidesOn:
		r.move(after, last)
	default:
		parts = append(parts, side{to(q), 0, -1, 0})
	}
	r.corners = slices.Replace(r.corners, wall, wall+1, parts...)
	return r.rebuilt()
}

// setBack returns how far off the line between two rows a wall steps so that its gap ends at that line, beside a wall
// from p to q: as far as what keeps the gap of that wall, which ends square to it, reaches along the wall.
func setBack(p, q cutopt.Point, gap measure.Length) measure.Length {
	if p.X == q.X {
		return 0
	}
	slant := math.Abs(float64(q.X-p.X)) / math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
	return measure.Length(math.Ceil(float64(gap)*slant)) + near
}

// move moves a corner along the wall that runs from it.
func (r *ring) move(i int, to cutopt.Point) {
	c := &r.corners[i]
	next := r.corners[(i+1)%len(r.corners)].at
	dx, dy := float64(next.X-c.at.X), float64(next.Y-c.at.Y)
	along := (float64(float64(to.X-c.at.X)*dx) + float64(float64(to.Y-c.at.Y)*dy)) / math.Hypot(dx, dy)
	c.from += measure.Length(math.Round(along))
	c.at = to
}

// moveWall returns the room with a wall moved out by so much, or in where that is below 0; its ends slide along the
// walls beside it. The outline is nil where one of these runs nearly the same way, or a doorway is in the way.
func moveWall(room *cutopt.Room, wall int, by measure.Length) cutopt.Room {
	r := newRing(room)
	n := len(r.corners)
	after := (wall + 1) % n
	a, e := room.Outline[wall], room.Outline[after]
	d, z := room.Outline[(wall+n-1)%n], room.Outline[(wall+2)%n]
	ux, uy := float64(e.X-a.X), float64(e.Y-a.Y)
	size := math.Hypot(ux, uy)
	sign := 1.0
	if twiceArea(room.Outline) < 0 {
		sign = -1
	}
	ox, oy := float64(sign*uy/size*float64(by)), float64(-sign*ux/size*float64(by))
	first, ok := meets(d, a, float64(a.X)+ox, float64(a.Y)+oy, ux, uy)
	last, ok2 := meets(e, z, float64(a.X)+ox, float64(a.Y)+oy, ux, uy)
	if !ok || !ok2 {
		return cutopt.Room{}
	}
	r.move(wall, first)
	r.move(after, last)
	if moved := r.rebuilt(); moved != nil {
		return *moved
	}
	return cutopt.Room{}
}

// meets returns where the line through two corners meets the line through a place along u.
func meets(p, q cutopt.Point, x, y, ux, uy float64) (cutopt.Point, bool) {
	vx, vy := float64(q.X-p.X), float64(q.Y-p.Y)
	cross := float64(vx*uy) - float64(vy*ux)
	if math.Abs(cross) < 0.3*math.Hypot(vx, vy)*math.Hypot(ux, uy) {
		return cutopt.Point{}, false
	}
	t := (float64((x-float64(p.X))*uy) - float64((y-float64(p.Y))*ux)) / cross
	return cutopt.Point{
		X: p.X + measure.Length(math.Round(t*vx)), Y: p.Y + measure.Length(math.Round(t*vy)),
	}, true
}

// twiceArea returns twice the area of a ring, below 0 for one that runs clockwise.
func twiceArea(ring []cutopt.Point) (sum float64) {
	for i, p := range ring {
		q, o := ring[(i+1)%len(ring)], ring[0]
		sum += float64(float64(p.X-o.X)*float64(q.Y-o.Y)) - float64(float64(p.Y-o.Y)*float64(q.X-o.X))
	}
	return sum
}
