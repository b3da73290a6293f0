package cutopt

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
)

// MaxWall is the thickest wall that a floor runs through: rooms whose walls at a doorway are farther apart are not
// drawn beside each other.
const MaxWall = measure.Metre

const oneDrawing = "draw them in one drawing, the corners of all measured from one place, or drop through:; " +
	"rooms given by size, or walked, each begin where they please"

// through reports rooms joined into one floor that are not drawn so: they overlap, or a doorway between them is no
// opening of both. Sound says which rooms have an outline in order.
func (v *validator) through(sound []bool, names map[string]int) {
	for _, rooms := range v.job.Floors() {
		if len(rooms) < 2 || slices.ContainsFunc(rooms, func(r int) bool { return !sound[r] }) {
			continue
		}
		before := len(v.errs)
		if v.roomsApart(rooms); len(v.errs) > before {
			continue
		}
		for _, r := range rooms {
			for k := range v.job.Rooms[r].Doorways {
				d := &v.job.Rooms[r].Doorways[k]
				to, known := names[d.To]
				if !d.Through || !known || to == r+1 || d.Wall < 0 || d.Wall >= len(v.job.Rooms[r].Outline) {
					continue // reported elsewhere
				}
				v.passage(rooms, r, k, to-1)
			}
		}
	}
}

// roomsApart reports rooms of one floor that lie over each other, by the doorway that joins one of them.
func (v *validator) roomsApart(rooms []int) {
	type extent struct {
		room     int
		from, to measure.Length
	}
	var line []extent
	for _, r := range rooms {
		e := extent{room: r, from: MaxLength, to: -MaxLength}
		for _, p := range v.job.Rooms[r].Outline {
			e.from, e.to = min(e.from, p.X), max(e.to, p.X)
		}
		line = append(line, e)
	}
	slices.SortFunc(line, func(a, b extent) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.room, b.room))
	})
	for i, e := range line {
		for _, f := range line[i+1:] {
			if f.from >= e.to {
				break
			}
			a, b := min(e.room, f.room), max(e.room, f.room)
			if flaw, ok := outline.Apart(v.job.Rooms[b].Outline, v.job.Rooms[a].Outline); !ok {
				field, value := v.joins(rooms, a, b)
				v.add(
					field,
					value,
					fmt.Sprintf("rooms of one floor lie beside each other, and %q lies over %q near %s",
						v.job.Rooms[b].Name, v.job.Rooms[a].Name, v.near(flaw.At)),
					oneDrawing,
				)
				return
			}
		}
	}
}

// joins returns the field and the value of a doorway that joins two rooms, or else one of them or their floor.
func (v *validator) joins(rooms []int, a, b int) (field, value string) {
	best := -1
	for _, r := range rooms {
		for k, d := range v.job.Rooms[r].Doorways {
			if !d.Through {
				continue
			}
			to := v.job.Rooms[a].Name
			if r == a {
				to = v.job.Rooms[b].Name
			}
			rank := 0
			switch {
			case (r == a || r == b) && d.To == to:
				rank = 2
			case r == a || r == b:
				rank = 1
			}
			if rank > best {
				best, field, value = rank, fmt.Sprintf("rooms[%d].doorways[%d].through", r+1, k+1), "true"
			}
		}
	}
	return field, value
}

// passage holds a doorway that a floor runs through against the room behind it: both its sides meet one wall of it,
// near enough, with no other room between, and nothing fixed stands there.
func (v *validator) passage(rooms []int, room, doorway, to int) {
	from := &v.job.Rooms[room]
	d := &from.Doorways[doorway]
	field := fmt.Sprintf("rooms[%d].doorways[%d].through", room+1, doorway+1)
	rule := fmt.Sprintf("a floor runs through a doorway that both rooms share: its sides meet one wall of %q, nearly "+
		"parallel and at most %s away", d.To, v.text(MaxWall.Floor(measure.Inch)))
	if v.unit.Metric() {
		rule = fmt.Sprintf(
			"a floor runs through a doorway that both rooms share: its sides meet one wall of %q, nearly "+
				"parallel and at most %s away",
			d.To,
			v.text(MaxWall),
		)
	}
	if d.Casing == CasingMetal && d.Width <= 2*v.job.Rules.WallGap(from, d.Wall) {
		v.add(field, "true", "a floor runs through an opening wider than the gaps at its metal casing, and this is "+
			v.text(d.Width)+" wide", "widen it, or drop through:")
		return
	}
	o, ok := d.sides(from.Outline)
	if !ok {
		return
	}
	meets := -1 // the room met first
	var met faced
	best := float64(MaxWall) + 2
	for _, r := range rooms {
		if r == room {
			continue
		}
		if f, ok := o.facing(v.job.Rooms[r].Outline); ok && max(f.ahead[0], f.ahead[1]) < best {
			best, meets, met = max(f.ahead[0], f.ahead[1]), r, f
		}
	}
	switch {
	case meets < 0:
		v.add(field, "true", rule, oneDrawing)
	case meets != to:
		v.add(field, "true", rule+fmt.Sprintf(", and this one opens on %q", v.job.Rooms[meets].Name),
			"check the wall, at and to of the doorway: at is measured from the corner where its wall begins")
	default:
		v.freeBeyond(field, &Doorway{
			Wall: met.wall, At: measure.Length(min(met.at[0], met.at[1])),
			Width: measure.Length(math.Abs(met.at[1] - met.at[0])),
		}, to)
	}
}

// freeBeyond reports an opening that an island of the room behind it stands in front of.
func (v *validator) freeBeyond(field string, d *Doorway, to int) {
	room := &v.job.Rooms[to]
	for k := range room.Islands {
		island := &room.Islands[k]
		if d.blockedBy(room.Outline, island.Outline, v.job.Rules.FixedGap(island.Gap)) {
			v.add(
				field,
				"true",
				fmt.Sprintf("nothing fixed stands in front of an opening, and in %q %s does", room.Name,
					named("island", island.Name, fmt.Sprintf("islands[%d]", k+1))),
				"move the one or the other, or leave out the doorway if it is closed up",
			)
		}
	}
}

// A mouth is an opening of a wall: its two sides and the way out of the room.
type mouth struct {
	sides [2][2]float64
	out   [2]float64
}

// sides returns the opening of a doorway in an outline.
func (d *Doorway) sides(ring []Point) (mouth, bool) {
	if d.Wall < 0 || d.Wall >= len(ring) {
		return mouth{}, false
	}
	a, b := ring[d.Wall], ring[(d.Wall+1)%len(ring)]
	size := math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
	if size == 0 {
		return mouth{}, false
	}
	ux, uy := float64(b.X-a.X)/size, float64(b.Y-a.Y)/size
	m := mouth{out: [2]float64{uy, -ux}}
	if clockwise(ring) {
		m.out = [2]float64{-uy, ux}
	}
	for i, t := range [2]float64{float64(d.At), float64(d.At + d.Width)} {
		m.sides[i] = [2]float64{float64(a.X) + float64(ux*t), float64(a.Y) + float64(uy*t)}
	}
	return m, true
}

func clockwise(ring []Point) bool {
	sum := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sum += float64(
			float64(p.X-ring[0].X)*float64(q.Y-ring[0].Y),
		) - float64(
			float64(p.Y-ring[0].Y)*float64(q.X-ring[0].X),
		)
	}
	return sum < 0
}

// A faced wall is what the two sides of an opening meet: where along the wall, and how far ahead.
type faced struct {
	wall      int
	at, ahead [2]float64
}

// facing returns the wall of another room that both sides of an opening meet first, turned from the opening by less
// than 45 degrees.
func (m *mouth) facing(ring []Point) (f faced, ok bool) {
	const slack = 2.0 // ticks
	turn := 1.0
	if clockwise(ring) {
		turn = -1
	}
	var walls [2]int
	for i, from := range m.sides {
		best := float64(MaxWall) + slack
		walls[i] = -1
		for w, a := range ring {
			b := ring[(w+1)%len(ring)]
			size := math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
			if size == 0 {
				continue
			}
			ux, uy := float64(b.X-a.X)/size, float64(b.Y-a.Y)/size
			nx, ny := -float64(uy*turn), float64(ux*turn) // into the room
			speed := float64(m.out[0]*nx) + float64(m.out[1]*ny)
			if speed < math.Sqrt2/2 {
				continue
			}
			far := (float64((float64(a.X)-from[0])*nx) + float64((float64(a.Y)-from[1])*ny)) / speed
			x := float64((from[0]+float64(m.out[0]*far)-float64(a.X))*ux) +
				float64((from[1]+float64(m.out[1]*far)-float64(a.Y))*uy)
			if far >= -slack && far < best && x >= -slack && x <= size+slack {
				best, walls[i], f.at[i] = far, w, x
			}
		}
		f.ahead[i] = best
	}
	f.wall = walls[0]
	return f, walls[0] >= 0 && walls[0] == walls[1]
}
