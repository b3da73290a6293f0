package strips

import (
	"cmp"
	"slices"

	"plank.example/cutopt/measure"
)

// An opening is where the floor runs through a wall.
type opening struct {
	room, wall      int  // the wall of the drawing
	near, far       spot // its sides on the wall
	nearEnd, farEnd spot // where they end
	into, to        int  // room and wall on the other side of a passage; -1 for none
}

// A span is a stretch of a wall, measured from its first corner.
type span struct{ from, to float64 }

func (s span) meets(t span) bool { return s.from < t.to && t.from < s.to }

// side returns a wall of the drawing: its first corner, its length, its direction and the direction out of the room.
func (d *drawing) side(room, wall int) (a spot, size float64, along, out vector) {
	outline := d.rooms[room].Outline
	p, q := pointOf(outline[wall]), pointOf(outline[(wall+1)%len(outline)])
	v := q.minus(p)
	if size = v.size(); size == 0 {
		return a, 0, along, out
	}
	along = vector{float64(v.x) / size, float64(v.y) / size}
	out = vector{along.y, -along.x}
	if d.clockwise[room] {
		out = vector{-out.x, -out.y}
	}
	return vector{float64(p.x), float64(p.y)}, size, along, out
}

func (p vector) on(v vector, times float64) vector {
	return vector{p.x + float64(v.x*times), p.y + float64(v.y*times)}
}

func (p vector) dot(q vector) float64 { return float64(p.x*q.x) + float64(p.y*q.y) }

// open adds a doorway, narrowed by what its casing keeps free or wider by what runs beneath it. One whose floor would
// end before the wall opens nothing. A passage that both of its rooms list is taken from the one that comes first.
func (d *drawing) open(room int, w *Doorway) {
	a, size, along, out := d.side(room, w.Wall)
	s := span{max(0, float64(w.At+w.Jamb-w.Under)), min(size, float64(w.At+w.Width-w.Jamb+w.Under))}
	depth := w.Depth
	if w.Into >= 0 {
		s = d.within(room, w, s)
	} else if depth -= w.Stop; depth <= 0 {
		return
	}
	key := [2]int{room, w.Wall}
	if size == 0 || s.to <= s.from || w.Into >= 0 && slices.ContainsFunc(d.passages[key], s.meets) {
		return
	}
	o := opening{room: room, wall: w.Wall, near: a.on(along, s.from), far: a.on(along, s.to), into: -1, to: -1}
	o.nearEnd, o.farEnd = o.near.on(out, float64(depth)), o.far.on(out, float64(depth))
	if w.Into >= 0 {
		d.passages[key] = append(d.passages[key], s)
		d.through(&o, w.Into, out)
	}
	d.openings = append(d.openings, o)
}

// within returns the sides of a passage no farther apart than the wall that it opens in the other room: where one
// stands at a corner there, the floor runs beneath no casing.
func (d *drawing) within(room int, w *Doorway, s span) span {
	a, _, along, out := d.side(room, w.Wall)
	near, _, _ := d.facing(w.Into, a.on(along, float64(w.At)), out)
	if far, _, _ := d.facing(w.Into, a.on(along, float64(w.At+w.Width)), out); near < 0 || near != far {
		return s
	}
	b, size, way, _ := d.side(w.Into, near)
	on := func(p spot) float64 { return vector{p.x - a.x, p.y - a.y}.dot(along) }
	p, q := on(b), on(b.on(way, size))
	first, last := d.beside(w.Into, near)
	if p > q {
		p, q, first, last = q, p, last, first
	}
	before, after := d.beside(room, w.Wall)
	_, long, _, _ := d.side(room, w.Wall)
	from, to := max(s.from, p+first, before), min(s.to, q-last, long-after)
	// The clear opening itself is not narrowed by the gaps of the walls beside it.
	return span{min(from, max(p, float64(w.At+w.Jamb))), max(to, min(q, float64(w.At+w.Width-w.Jamb)))}
}

// beside returns the gaps of the walls before and after a wall of a room.
func (d *drawing) beside(room, wall int) (before, after float64) {
	gaps := d.rooms[room].Gaps
	return float64(gaps[(wall+len(gaps)-1)%len(gaps)]), float64(gaps[(wall+1)%len(gaps)])
}

// through runs a passage on to the wall of the other room that it faces within a metre. Where its two sides do not meet
// one wall there, it stays as deep as it was.
func (d *drawing) through(o *opening, into int, out vector) {
	near, nearAt, nearEnd := d.facing(into, o.near, out)
	far, farAt, farEnd := d.facing(into, o.far, out)
	if near < 0 || near != far {
		return
	}
	o.nearEnd, o.farEnd, o.into, o.to = nearEnd, farEnd, into, near
	key := [2]int{into, near}
	d.passages[key] = append(d.passages[key], span{min(nearAt, farAt), max(nearAt, farAt)})
}

// facing returns the first wall of a room that a line from a place meets from outside within a metre, how far along the
// wall, and where. Walls drawn in common are met too.
func (d *drawing) facing(room int, from spot, way vector) (wall int, at float64, place spot) {
	const early = 2.0 // ticks
	best := float64(measure.Metre)
	wall = -1
	for w := range d.rooms[room].Outline {
		a, size, along, out := d.side(room, w)
		speed := -way.dot(out)
		if size == 0 || speed < 0.5 { // a wall that runs on from a side of the opening is none that it meets
			continue
		}
		ahead := vector{from.x - a.x, from.y - a.y}.dot(out) / speed
		hit := from.on(way, ahead)
		x := vector{hit.x - a.x, hit.y - a.y}.dot(along)
		if ahead >= -early && ahead < best && x >= -early && x <= size+early {
			best, wall, at, place = ahead, w, x, hit
		}
	}
	return wall, at, place
}

// doorstep returns the wall of a room's ring that an opening with the given sides lies in, and its corners there in the
// order of the ring.
func (d *drawing) doorstep(room, index int, near, far spot) (k int, p, q point, ok bool) {
	r := d.outlines[room]
	k = slices.IndexFunc(r, func(w wall) bool { return slices.Contains(w.index, index) })
	if k < 0 {
		return 0, p, q, false
	}
	a, b := r[k].at, r[(k+1)%len(r)].at
	v := b.minus(a)
	size := v.size()
	on := func(s spot) float64 {
		x, y := d.frame.own(s.x-float64(d.frame.origin.x), s.y-float64(d.frame.origin.y))
		return min(size, max(0, (float64((x-float64(a.x))*float64(v.x))+float64((y-float64(a.y))*float64(v.y)))/size))
	}
	s, t := on(near), on(far)
	if s > t {
		s, t = t, s
	}
	along := vector{float64(v.x) / size, float64(v.y) / size}
	p, q = a.plus(along, s), a.plus(along, t)
	return k, p, q, p != q
}

// threshold returns the corners where an opening ends, beyond q and p.
func (d *drawing) threshold(o *opening, p, q point) (beyondQ, beyondP point) {
	v := q.minus(p)
	size := v.size()
	out := vector{float64(v.y) / size, -float64(v.x) / size}
	x, y := d.frame.own(o.nearEnd.x-float64(d.frame.origin.x), o.nearEnd.y-float64(d.frame.origin.y))
	depth := max(0, float64((x-float64(p.x))*out.x)+float64((y-float64(p.y))*out.y))
	return q.plus(out, depth), p.plus(out, depth)
}

// opened returns the ring with its walls cut at openings, which keep no gap.
func (r ring) opened(openings func(wall int) [][2]point) ring {
	var out ring
	for i, w := range r {
		out = append(out, w)
		spans := slices.Clone(openings(i))
		from := func(s [2]point) int64 { v := s[0].minus(w.at); return v.dot(v) }
		slices.SortFunc(spans, func(a, b [2]point) int { return cmp.Compare(from(a), from(b)) })
		for n, s := range spans {
			if n > 0 { // overlapping openings
				last := &out[len(out)-1]
				if v := s[1].minus(w.at); v.dot(v) <= last.at.minus(w.at).dot(last.at.minus(w.at)) {
					continue
				} else if from(s) <= last.at.minus(w.at).dot(last.at.minus(w.at)) {
					last.at = s[1]
					continue
				}
			}
			gate := w
			gate.gap, gate.at = 0, s[0]
			rest := w
			rest.at = s[1]
			out = append(out, gate, rest)
		}
	}
	// Openings that begin or end at a corner leave walls without length.
	return out.distinct()
}
