package sheet

import (
	"cmp"
	"math"
	"slices"
	"sort"
	"strconv"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
)

// walls draws the outline of a room, open at its doorways.
func (m *mapper) walls(r *roomShape) {
	pen := draw.Pen{Colour: m.look.ink, Width: 1.6}
	for i := range r.outline {
		if !m.onTile(r, i) {
			continue
		}
		if r.walls[i] < 0 {
			m.brk(r, i)
			continue
		}
		for _, part := range m.solid(r, i) {
			m.d.Line(pen, m.place(part[0]), m.place(part[1]))
		}
	}
	for i := range r.doors {
		m.door(&r.doors[i])
	}
}

// brk draws the middle of a break, where a transition covers the gaps of two fields.
func (m *mapper) brk(r *roomShape, wall int) {
	a, b := m.place(r.outline[wall]), m.place(r.outline[(wall+1)%len(r.outline)])
	m.d.Line(draw.Pen{Colour: m.look.accent, Width: 1.6, Dash: 4}, a, b)
}

// onTile reports whether a wall may be seen on the tile that is drawn.
func (m *mapper) onTile(r *roomShape, wall int) bool {
	a, b, margin := r.outline[wall], r.outline[(wall+1)%len(r.outline)], wallMargin/m.scale
	return max(a.X, b.X) >= m.tile.min.X-margin && min(a.X, b.X) <= m.tile.max.X+margin &&
		max(a.Y, b.Y) >= m.tile.min.Y-margin && min(a.Y, b.Y) <= m.tile.max.Y+margin
}

// solid lists the parts of a wall between its openings: its own doorways, and those of joined rooms that come out in
// it.
func (m *mapper) solid(r *roomShape, wall int) [][2]spot {
	a, b := r.outline[wall], r.outline[(wall+1)%len(r.outline)]
	n := math.Hypot(b.X-a.X, b.Y-a.Y)
	if n == 0 {
		return nil
	}
	u := spot{X: (b.X - a.X) / n, Y: (b.Y - a.Y) / n}
	along := func(p spot) (at, beside float64) {
		x, y := p.X-a.X, p.Y-a.Y
		return x*u.X + y*u.Y, math.Abs(x*u.Y - y*u.X)
	}
	var open [][2]float64
	rooms := m.shapes[m.floor].rooms
	for k := range rooms {
		for _, d := range rooms[k].doors {
			near, far := d.near, d.far
			switch {
			case &rooms[k] == r && d.door.Wall == wall:
			case &rooms[k] != r && d.door.Through:
				near, far = d.nearB, d.farB
			default:
				continue
			}
			from, off := along(near)
			to, beyond := along(far)
			if max(off, beyond) < float64(measure.Inch) && max(from, to) > 0 && min(from, to) < n {
				open = append(open, [2]float64{max(0, min(from, to)), min(n, max(from, to))})
			}
		}
	}
	slices.SortFunc(open, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	at := func(t float64) spot { return spot{X: a.X + t*u.X, Y: a.Y + t*u.Y} }
	var parts [][2]spot
	done := 0.0
	for _, o := range append(open, [2]float64{n, n}) {
		if o[0] > done {
			parts = append(parts, [2]spot{at(done), at(o[0])})
		}
		done = max(done, o[1])
	}
	return parts
}

// door draws a doorway: its reveals, the line where the floor ends, and its number.
func (m *mapper) door(d *doorShape) {
	ink := draw.Pen{Colour: m.look.ink, Width: 1.6}
	near, far, nearB, farB := m.place(d.near), m.place(d.far), m.place(d.nearB), m.place(d.farB)
	m.d.Line(ink, near, nearB)
	m.d.Line(ink, far, farB)
	if !d.door.Through {
		m.d.Line(draw.Pen{Colour: m.look.accent, Width: 1.2, Dash: 3}, nearB, farB)
	}
	c := m.doorSpot(d)
	text := m.Say("door-letter") + strconv.Itoa(d.number)
	m.d.Circle(m.look.paper, draw.Pen{Colour: m.look.accent, Width: 0.8}, c, doorRadius)
	m.d.Write(
		draw.Text{
			At:     draw.Point{X: c.X, Y: c.Y + 2.4},
			Str:    text,
			Size:   6.5,
			Bold:   true,
			Colour: m.look.accent,
			Anchor: draw.Middle,
		},
	)
}

// doorRadius is the radius of the mark of a doorway, in points.
const doorRadius = 7.0

// doorSpot returns where the mark of a doorway stands.
func (m *mapper) doorSpot(d *doorShape) draw.Point {
	near, far, nearB, farB := m.place(d.near), m.place(d.far), m.place(d.nearB), m.place(d.farB)
	out := draw.Point{X: nearB.X - near.X, Y: nearB.Y - near.Y}
	n := math.Hypot(out.X, out.Y)
	if n < 0.01 {
		out = draw.Point{X: far.Y - near.Y, Y: near.X - far.X}
		n = max(1e-9, math.Hypot(out.X, out.Y))
	}
	c := draw.Point{X: (nearB.X+farB.X)/2 + out.X/n*9, Y: (nearB.Y+farB.Y)/2 + out.Y/n*9}
	switch {
	case d.door.Through:
		c = draw.Point{X: (near.X + farB.X) / 2, Y: (near.Y + farB.Y) / 2}
	case d.side == sideStart: // beside the opening: the starting wall is named above it
		c = draw.Point{X: max(nearB.X, farB.X) + 10, Y: min(nearB.Y, farB.Y) + 4}
	}
	return c
}

// wallSize is the size of the figures at walls, in points; wallMargin is how far they reach out of the room.
const (
	wallSize   = 6.0
	wallMargin = 10.0
)

// wallFigures writes at every wall its number in the job and its length from corner to corner, outside the room and as
// much of it as the wall has room for. Where another room of the floor lies there, or something of a neighbouring wall,
// the number alone stands on the wall.
func (m *mapper) wallFigures(lo, hi draw.Point) {
	rooms := m.shapes[m.floor].rooms
	for k := range rooms {
		r := &rooms[k]
		clockwise := turning(r.outline) > 0
		for i := range r.outline {
			if !m.onTile(r, i) {
				continue
			}
			from, to := m.longestStretch(r, i)
			n := math.Hypot(to.X-from.X, to.Y-from.Y)
			c := draw.Point{X: (from.X + to.X) / 2, Y: (from.Y + to.Y) / 2}
			if n < wallSize || c.X < lo.X-1 || c.X > hi.X+1 || c.Y < lo.Y-1 || c.Y > hi.Y+1 {
				continue
			}
			out := draw.Point{X: (to.Y - from.Y) / n, Y: (from.X - to.X) / n}
			if !clockwise {
				out = draw.Point{X: -out.X, Y: -out.Y}
			}
			m.wallFigure(rooms, r, i, wallPlace{from: from, to: to, length: n, out: out, top: lo.Y})
		}
	}
}

// A wallPlace is where the figures of a wall go: the longest stretch of it between doorways, on the page.
type wallPlace struct {
	from, to draw.Point
	length   float64
	out      draw.Point // one point out of the room
	top      float64    // of the map: the starting wall is named above it
}

// longestStretch returns the longest part of a wall that is no opening, on the page.
func (m *mapper) longestStretch(r *roomShape, wall int) (from, to draw.Point) {
	from = m.place(r.outline[wall])
	to = from
	for _, part := range m.solid(r, wall) {
		a, b := m.place(part[0]), m.place(part[1])
		if math.Hypot(b.X-a.X, b.Y-a.Y) > math.Hypot(to.X-from.X, to.Y-from.Y) {
			from, to = a, b
		}
	}
	return from, to
}

// wallFigure writes the figures of one wall.
func (m *mapper) wallFigure(rooms []roomShape, r *roomShape, wall int, p wallPlace) {
	outline, own := r.whole.Outline, r.walls[wall]
	number := strconv.Itoa(own + 1)
	if own < 0 {
		outline, own = r.room.Outline, wall
	}
	a, b := outline[own], outline[(own+1)%len(outline)]
	length := m.Length(roundTicks(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))))
	c := draw.Point{X: (p.from.X + p.to.X) / 2, Y: (p.from.Y + p.to.Y) / 2}
	beyond := draw.Point{X: c.X + p.out.X*wallMargin, Y: c.Y + p.out.Y*wallMargin}
	for _, other := range rooms {
		if len(rooms) > 1 && within(m.ring(other.outline), beyond) {
			m.wallPlate(c, number)
			return
		}
	}
	text, longer := number, []string{
		m.Say("wall.full", "n", number, "length", length), m.Say("wall.short", "n", number, "length", length),
	}
	t := draw.Text{Size: wallSize, Colour: m.look.soft, Anchor: draw.Middle}
	if r.walls[wall] < 0 {
		text, longer, t.Colour = "", []string{
			m.Say("wall.break", "length", length),
			m.Say("wall.transition"),
		}, m.look.accent
	}
	for _, full := range longer {
		if draw.Width(full, wallSize, false) <= p.length-4 {
			text = full
			break
		}
	}
	if t.Str = text; text == "" {
		return
	}
	switch {
	case math.Abs(p.out.Y) > 0.98 && p.out.Y < 0 && c.Y < p.top+wallSize+2: // no room below the starting wall
		t.At = draw.Point{X: c.X, Y: p.top - 8.5}
	case math.Abs(p.out.Y) > 0.98 && p.out.Y < 0:
		t.At = draw.Point{X: c.X, Y: c.Y - 3}
	case math.Abs(p.out.Y) > 0.98:
		t.At = draw.Point{X: c.X, Y: c.Y + wallSize + 1.5}
	case math.Abs(p.out.X) > 0.98:
		t.At, t.Up = draw.Point{X: c.X + p.out.X*5.5 + 2.5, Y: c.Y}, true
	default:
		t.At = draw.Point{X: c.X + p.out.X*4, Y: c.Y + p.out.Y*6 + 2}
		t.Anchor = draw.Start
		if p.out.X < 0 {
			t.Anchor = draw.End
		}
	}
	m.d.Write(t)
}

// wallPlate sets the number of a wall on it.
func (m *mapper) wallPlate(c draw.Point, number string) {
	w := draw.Width(number, wallSize, false) + 3
	m.d.Rect(m.look.paper, draw.Pen{Colour: m.look.soft, Width: 0.4}, c.X-w/2, c.Y-wallSize/2-0.5, w, wallSize+1)
	m.d.Write(draw.Text{
		At: draw.Point{X: c.X, Y: c.Y + wallSize*0.36}, Str: number, Size: wallSize, Colour: m.look.ink,
		Anchor: draw.Middle,
	})
}

// within reports whether a point of the page lies in a ring.
func within(ring []draw.Point, p draw.Point) bool {
	for _, s := range inside(ring, p.Y) {
		if s.from < p.X && p.X < s.to {
			return true
		}
	}
	return false
}

// roomRows is how far from the middle of a room, in rows, the plank with its name may lie.
const roomRows = 3

// roomLabels chooses, on a floor of several rooms, the piece of each that carries its name: the whole plank nearest to
// its middle, else the piece.
func (b *book) roomLabels(floor int) map[cutopt.PieceRef]string {
	rooms := b.shapes[floor].rooms
	if len(rooms) < 2 {
		return nil
	}
	labels := make(map[cutopt.PieceRef]string)
	for _, r := range rooms {
		middle := slotMiddle(r.outline)
		best, ref := math.Inf(1), cutopt.PieceRef{}
		rows := b.plan.Floors[floor].Rows
		at := sort.Search(len(rows), func(i int) bool { return float64(rows[i].To) > middle.Y })
		for j := max(0, at-roomRows); j <= at+roomRows && j < len(rows); j++ {
			across := &rows[j]
			for _, run := range b.lay.Floors[floor][j].Runs {
				for _, p := range run.Pieces {
					c := spot{X: float64(p.From+p.To) / 2, Y: float64(across.From+across.To) / 2}
					far := math.Hypot(c.X-middle.X, c.Y-middle.Y)
					if p.Role != laying.RoleWhole {
						far += float64(measure.Metre)
					}
					if far < best && within(r.outline, c) {
						best, ref = far, p.Ref
					}
				}
			}
		}
		if best < math.Inf(1) {
			labels[ref] = r.room.Name
		}
	}
	return labels
}

// slotMiddle returns a point well inside a ring: the middle of its widest slot.
func slotMiddle(ring []spot) spot {
	s := widest(ring, 1, nil)
	return spot{X: s.middle(), Y: s.y}
}

// turn returns by how many degrees, from 0 to 360, the map is turned clockwise against the drawing of the job.
func (b *book) turn(floor int) float64 {
	return math.Mod(math.Mod(b.plan.Floors[floor].Axes.Turn, 360)+360, 360)
}

// turnText says that a map is turned against the sketch; "" where it is not.
func (b *book) turnText(floor int) string {
	turn := b.turn(floor)
	mirrored := !b.plan.Floors[floor].Axes.Mirrored
	switch {
	case mirrored:
		return b.Say("turned.mirrored")
	case turn == 0:
		return ""
	case turn == 90 || turn == 180 || turn == 270:
		return b.Say("turned." + strconv.Itoa(int(turn)))
	}
	return b.Say("turned.degrees", "degrees", b.Decimal(strconv.FormatFloat(math.Round(turn*10)/10, 'f', -1, 64)))
}

// sketchArrow shows which way the top of the sketch is, where the map is turned.
func (m *mapper) sketchArrow(hi draw.Point, top float64) {
	if m.turnText(m.floor) == "" || !m.plan.Floors[m.floor].Axes.Mirrored {
		return
	}
	sin, cos := math.Sincos(m.turn(m.floor) * math.Pi / 180)
	const reach = 7.0
	c := draw.Point{X: hi.X + 26, Y: top - 26}
	tip := draw.Point{X: c.X + sin*reach, Y: c.Y - cos*reach}
	m.d.Arrow(draw.Pen{Colour: m.look.soft, Width: 1}, 5, draw.Point{X: c.X - sin*reach, Y: c.Y + cos*reach}, tip)
	m.d.Write(draw.Text{
		At: draw.Point{X: c.X, Y: c.Y + reach + 7}, Str: m.Say("sketch-top"), Size: 6, Colour: m.look.soft,
		Anchor: draw.Middle,
	})
}
