package strips

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A drawing is a floor as rings: in the axes of the drawing until place turns them.
type drawing struct {
	rooms     []Room
	outlines  []ring // by room
	islands   []ring
	discs     []disc // placed in the floor's own axes
	openings  []opening
	clockwise []bool            // by room: its outline in the drawing
	passages  map[[2]int][]span // by room and wall: where passages open it
	frame     frame
}

// A spot is a place off the ticks in the axes of the drawing.
type spot = vector

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

// draw reads the rooms and tells what was smoothed.
func draw(f *Floor, rooms []Room, l *Layout) (*drawing, error) {
	d := &drawing{rooms: rooms, passages: make(map[[2]int][]span)}
	jogs := 0
	add := func(outline []measure.Point, gap func(int) measure.Length, island bool) (ring, bool) {
		r := newRing(outline, gap, island)
		if len(r) < 3 || twiceArea(r.corners()) == 0 {
			return nil, false
		}
		r, n := r.smoothed(int64(l.Smooth))
		jogs += n
		return r, true
	}
	for i := range rooms {
		d.clockwise = append(d.clockwise, twiceOf(rooms[i].Outline) < 0)
	}
	for i := range rooms {
		room := &rooms[i]
		if err := room.sound(len(rooms)); err != nil {
			return nil, err
		}
		r, ok := add(room.Outline, func(w int) measure.Length { return room.Gaps[w] }, false)
		if !ok {
			return nil, &Error{
				Room:   room.Name,
				Reason: "its outline encloses nothing; list at least three corners that are not in line",
			}
		}
		d.outlines = append(d.outlines, r)
		f.Net += enclosed(room.Outline)
		for k := range room.Islands {
			if r, ok := add(
				room.Islands[k].Outline,
				func(int) measure.Length { return room.Islands[k].Gap },
				true,
			); ok {
				d.islands = append(d.islands, r)
				f.Net -= enclosed(room.Islands[k].Outline)
			}
		}
		for k := range room.Doorways {
			if w := &room.Doorways[k]; w.Width <= 2*w.Jamb {
				f.tell(cutopt.Fact{
					Kind:    cutopt.FactDoorway,
					Room:    room.Number,
					Wall:    cmp.Or(w.JobWall, w.Wall+1),
					Doorway: cmp.Or(w.Number, k+1),
				})
			} else {
				d.open(i, w)
			}
		}
	}
	if jogs > 0 {
		f.tell(cutopt.Fact{Kind: cutopt.FactJogs, Count: jogs, Most: l.Smooth})
	}
	return d, nil
}

// enclosed returns the area within an outline, halves of a square tick rounded down.
func enclosed(outline []measure.Point) measure.Area {
	twice := twiceOf(outline)
	return measure.Area(max(twice, -twice) / 2)
}

func twiceOf(outline []measure.Point) int64 {
	corners := make([]point, len(outline))
	for i, p := range outline {
		corners[i] = pointOf(p)
	}
	return twiceArea(corners)
}

// sound returns an error where indices of a room are out of range or its places beyond a kilometre.
func (r *Room) sound(rooms int) error {
	fail := func(format string, args ...any) error {
		return &Error{Room: r.Name, Reason: fmt.Sprintf(format, args...)}
	}
	if len(r.Gaps) != len(r.Outline) {
		return fail("it has %d gaps for %d walls", len(r.Gaps), len(r.Outline))
	}
	const most = 1000 * measure.Metre
	within := func(points []measure.Point) bool {
		for _, p := range points {
			if min(p.X, p.Y) < -most || max(p.X, p.Y) > most {
				return false
			}
		}
		return true
	}
	sound := within(r.Outline)
	for _, gap := range r.Gaps {
		sound = sound && 0 <= gap && gap <= most
	}
	for _, i := range r.Islands {
		sound = sound && within(i.Outline) && 0 <= i.Gap && i.Gap <= most
	}
	for _, p := range r.Pipes {
		sound = sound && within([]measure.Point{p.At}) && 0 < p.Diameter && p.Diameter <= most && 0 <= p.Gap &&
			p.Gap <= most
	}
	for _, d := range r.Doorways {
		if d.Wall < 0 || d.Wall >= len(r.Outline) || d.Into < -1 || d.Into >= rooms {
			return fail(
				"a doorway in wall %d leads to room %d; there are %d walls and %d rooms",
				d.Wall+1,
				d.Into+1,
				len(r.Outline),
				rooms,
			)
		}
		for _, v := range []measure.Length{d.At, d.Width, d.Depth, d.Jamb, d.Under, d.Stop} {
			sound = sound && 0 <= v && v <= most
		}
	}
	if !sound {
		return fail("its places and sizes must lie within a kilometre, and no gap may be below 0")
	}
	return nil
}

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

// place turns the drawing into the floor's own axes, and by so many degrees more.
func (d *drawing) place(f *Floor, l *Layout, lean float64) error {
	base, alike := d.outlines[0].longest()
	if l.StartWall > 0 && l.Turn == nil {
		if base = d.asked(l.StartWall - 1); base < 0 {
			return &Error{Room: f.Name, Reason: fmt.Sprintf(
				"wall %d, which the rows begin at, is a jog that straightening removes; name a longer wall",
				l.StartWall,
			)}
		}
	}
	if l.Turn != nil {
		f.Turn = *l.Turn
	} else {
		f.base(d, base, alike, l)
		f.Turn = direction(d.outlines[0].heading(base), l)
	}
	f.Upright = f.Turn
	if lean != 0 {
		f.Turn = math.Mod(f.Turn+lean+360, 360)
	}
	d.frame = newFrame(f.Turn)
	var places []point
	for i := range d.rooms {
		for _, p := range d.rooms[i].Outline {
			places = append(places, pointOf(p))
		}
	}
	for i := range d.openings {
		for _, s := range []spot{d.openings[i].nearEnd, d.openings[i].farEnd} {
			places = append(places, point{round(s.x), round(s.y)})
		}
	}
	d.frame.around(places)
	f.Origin = d.frame.measured()
	for _, rings := range [][]ring{d.outlines, d.islands} {
		for i, r := range rings {
			for k := range r {
				r[k].at = d.frame.point(r[k].at)
			}
			rings[i] = r.reversed() // the own axes are mirrored
		}
	}
	for i := range d.rooms {
		for _, p := range d.rooms[i].Pipes {
			bare := (int64(p.Diameter) + 1) / 2
			d.discs = append(d.discs, disc{d.frame.point(pointOf(p.At)), bare + int64(p.Gap), bare})
		}
	}
	f.discs = d.discs
	if !d.frame.exact {
		squared(slices.Concat(d.outlines, d.islands))
		for _, rings := range [][]ring{d.outlines, d.islands} {
			for i, r := range rings {
				rings[i] = r.straightened()
			}
		}
	}
	return nil
}

// asked returns the wall of the first room's ring that a wall of its drawing lies in; -1 where straightening leaves
// none that runs the same way.
func (d *drawing) asked(index int) int {
	r, drawn := d.outlines[0], d.rooms[0].Outline
	if index >= len(drawn) {
		return -1
	}
	v := pointOf(drawn[(index+1)%len(drawn)]).minus(pointOf(drawn[index]))
	return slices.IndexFunc(r, func(w wall) bool {
		k := slices.Index(r.corners(), w.at)
		u := r[(k+1)%len(r)].at.minus(w.at)
		return slices.Contains(w.index, index) && abs(float64(u.cross(v))) <= parallel*abs(float64(u.dot(v)))
	})
}

// placed returns the corners of the rooms' outlines, as they are drawn, in the floor's own axes.
func (d *drawing) placed() [][]point {
	out := make([][]point, len(d.rooms))
	for i := range d.rooms {
		for _, p := range d.rooms[i].Outline {
			out[i] = append(out[i], d.frame.point(pointOf(p)))
		}
	}
	return out
}

// widestGap returns the widest gap that a wall keeps.
func (d *drawing) widestGap() float64 {
	var widest measure.Length
	for i := range d.rooms {
		for _, gap := range d.rooms[i].Gaps {
			widest = max(widest, gap)
		}
	}
	return float64(widest)
}

// paths returns what the floor is wound around by, doorways and all or without; false where a gap reaches beyond all
// bounds.
func (d *drawing) paths(doorways bool) ([][]point, bool) {
	var paths [][]point
	open := make(map[[2]int][][2]point) // by room and wall of its ring
	for i := range d.openings {
		o := &d.openings[i]
		if !doorways && o.into < 0 {
			continue
		}
		k, p, q, ok := d.doorstep(o.room, o.wall, o.near, o.far)
		if !ok {
			continue
		}
		key := [2]int{o.room, k}
		open[key] = append(open[key], [2]point{p, q})
		e, f, ok := point{}, point{}, false
		if o.into >= 0 {
			if k, e, f, ok = d.doorstep(o.into, o.to, o.nearEnd, o.farEnd); ok {
				key := [2]int{o.into, k}
				open[key] = append(open[key], [2]point{e, f})
			}
		}
		if !ok {
			e, f = d.threshold(o, p, q)
		}
		quad := []point{p, q, e, f}
		if twiceArea(quad) < 0 {
			slices.Reverse(quad)
		}
		paths = append(paths, quad)
	}
	for i, r := range d.outlines {
		paths = append(paths, r.opened(func(k int) [][2]point { return open[[2]int{i, k}] }).inset())
	}
	for _, r := range d.islands {
		paths = append(paths, r.inset())
	}
	for i := range d.discs {
		paths = append(paths, d.discs[i].ring())
	}
	for _, p := range paths {
		if !bounded(p) {
			return nil, false
		}
	}
	return paths, true
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

// distinct drops walls without length.
func (r ring) distinct() ring {
	var out ring
	for i, w := range r {
		if r[(i+1)%len(r)].at != w.at {
			out = append(out, w)
		}
	}
	return out
}
