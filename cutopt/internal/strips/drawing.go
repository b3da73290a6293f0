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
			d.frame.turn(r)
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
				rings[i] = r.distinct().straightened()
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
