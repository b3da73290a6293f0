package solve

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A crossing finds straight lines through a field that breaks may lie on. It works in axes of its own: u runs the way
// that the floor is too long, v along the lines. Its figures only guide: where the breaks lie in the drawing is rounded
// to ticks.
type crossing struct {
	s        *sectioning
	rooms    []cutopt.RoomPart
	outlines [][]uv // by room
	blocked  []box  // what no line comes near: islands, pipes and openings
	corner   float64
	zone     float64

	cos, sin float64 // of u in the drawing
	ox, oy   float64
	flip     float64
}

// A uv is a place in the axes of a crossing.
type uv struct{ u, v float64 }

// A box is a stretch along u and v.
type box struct{ u0, u1, v0, v1 float64 }

// newCrossing looks at field k of a sectioning, for lines along its rows or square to them.
func newCrossing(s *sectioning, k int, along bool) *crossing {
	c := &crossing{s: s, rooms: s.fields[k].Rooms, zone: float64(s.zone())}
	f, rules := s.floors[k], &s.job.Rules
	sin, cos := math.Sincos(f.Turn * math.Pi / 180)
	if math.Mod(f.Turn, 90) == 0 {
		sin, cos = math.Round(sin), math.Round(cos)
	}
	c.ox, c.oy = float64(f.Origin.X), float64(f.Origin.Y)
	// The field's x runs along (cos, sin) in the drawing, its y along (sin, -cos).
	c.cos, c.sin, c.flip = cos, sin, -1
	c.corner = float64(rules.MinPiece)
	if along {
		c.cos, c.sin, c.flip = sin, -cos, 1
		c.corner = float64(s.job.LeastRip())
	}
	for i := range c.rooms {
		room := &c.rooms[i]
		ring := make([]uv, len(room.Outline))
		for n, p := range room.Outline {
			ring[n] = c.own(p)
		}
		c.outlines = append(c.outlines, ring)
		for n := range room.Islands {
			c.block(room.Islands[n].Outline, c.zone)
		}
		for n := range room.Pipes {
			at, r := room.Pipes[n].At, room.Pipes[n].Diameter/2
			c.block([]cutopt.Point{{X: at.X - r, Y: at.Y - r}, {X: at.X + r, Y: at.Y + r}}, c.zone)
		}
		for n := range room.Doorways {
			c.opening(room, n)
		}
	}
	return c
}

// own returns where a place of the drawing lies.
func (c *crossing) own(p cutopt.Point) uv {
	x, y := float64(p.X)-c.ox, float64(p.Y)-c.oy
	return uv{float64(x*c.cos) + float64(y*c.sin), c.flip * (float64(y*c.cos) - float64(x*c.sin))}
}

// drawn returns where a place lies in the drawing.
func (c *crossing) drawn(p uv) cutopt.Point {
	v := p.v * c.flip
	return cutopt.Point{
		X: measure.Length(math.Round(c.ox + float64(p.u*c.cos) - float64(v*c.sin))),
		Y: measure.Length(math.Round(c.oy + float64(p.u*c.sin) + float64(v*c.cos))),
	}
}

// block keeps lines away from some places.
func (c *crossing) block(places []cutopt.Point, margin float64) {
	b := box{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}
	for _, p := range places {
		q := c.own(p)
		b = box{min(b.u0, q.u), max(b.u1, q.u), min(b.v0, q.v), max(b.v1, q.v)}
	}
	c.blocked = append(c.blocked, box{b.u0 - margin, b.u1 + margin, b.v0 - margin, b.v1 + margin})
}

// opening keeps lines away from a doorway, and from its other end where the floor runs through.
func (c *crossing) opening(room *cutopt.RoomPart, doorway int) {
	d := &room.Doorways[doorway]
	a, b := room.Outline[d.Wall], room.Outline[(d.Wall+1)%len(room.Outline)]
	size := math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
	if size == 0 {
		return
	}
	at := func(l measure.Length) cutopt.Point {
		t := float64(l) / size
		return cutopt.Point{
			X: a.X + measure.Length(
				math.Round(float64(b.X-a.X)*t),
			),
			Y: a.Y + measure.Length(math.Round(float64(b.Y-a.Y)*t)),
		}
	}
	places := []cutopt.Point{at(d.At), at(d.At + d.Width)}
	if room.Into[doorway] >= 0 && room.Openings[doorway] >= 0 {
		if mid, ok := c.s.job.BreakInDoorway(room.Number, room.Openings[doorway]); ok { // midway: as far again beyond
			near := places[0]
			places = append(places, mid.From, mid.To,
				cutopt.Point{X: 2*mid.From.X - near.X, Y: 2*mid.From.Y - near.Y},
				cutopt.Point{X: 2*mid.To.X - places[1].X, Y: 2*mid.To.Y - places[1].Y})
		}
	}
	c.block(places, c.zone+float64(c.s.job.Rules.Under))
}

// lines returns the lines that part a field, from one place along u to another, into n fields no longer than most at
// least as far as its extent goes.
func (c *crossing) lines(from, to, most float64, n int) []sectionLine {
	var out []sectionLine
	for _, u := range c.places(from, to) {
		i := 1 // fields before the line
		for ; i < n; i++ {
			before, behind := u-float64(c.zone/2)-from, to-u-float64(c.zone/2)
			if before > 0 && behind > 0 && before <= c.reach(most, i) && behind <= c.reach(most, n-i) {
				break
			}
		}
		if i >= n {
			continue
		}
		if l, ok := c.line(u); ok {
			even := from + (to-from)*float64(i)/float64(n)
			l.uneven = math.Abs(u - even)
			out = append(out, l)
		}
	}
	return out
}

// reach is how far so many fields reach with breaks between them. Rounding to ticks must not make one too long.
func (c *crossing) reach(most float64, fields int) float64 {
	return float64(most*float64(fields)) + float64(c.zone*float64(fields-1)) - 2
}

// places returns where lines are tried: on a grid of 96 and where the field narrows, each to the inch or the centimetre
// but for the latter.
func (c *crossing) places(from, to float64) []float64 {
	grid := float64(measure.Inch)
	if c.s.job.Unit.Metric() {
		grid = float64(measure.Centimetre)
	}
	step := max(grid, math.Round((to-from)/96/grid)*grid)
	var out []float64
	even := (from + to) / 2
	out = append(out, even)
	for u := math.Ceil(from/grid) * grid; u < to; u += step {
		out = append(out, u)
	}
	half := float64(float64(c.s.job.Rules.BreakWidth) / 2)
	for _, ring := range c.outlines {
		for i, p := range ring {
			if q := ring[(i+1)%len(ring)]; math.Abs(p.u-q.u) <= 2 && math.Abs(p.v-q.v) > 2 {
				out = append(out, p.u+half, p.u-half)
			}
		}
	}
	for _, most := range []measure.Length{c.s.job.Rules.MaxAlong, c.s.job.Rules.MaxAcross} {
		if most > 0 {
			out = append(out, from+float64(most)+float64(c.zone/2)-2, to-float64(most)-float64(c.zone/2)+2)
		}
	}
	return out
}

// line returns the breaks along the line at u: from wall to wall in each room that it crosses; false where it comes too
// near to a corner, an opening or a fixed thing.
func (c *crossing) line(u float64) (sectionLine, bool) {
	u = math.Round(u)
	var out sectionLine
	for i, ring := range c.outlines {
		type meeting struct {
			v    float64
			wall int
		}
		var met []meeting
		for k, p := range ring {
			q := ring[(k+1)%len(ring)]
			if (p.u > u) != (q.u > u) {
				met = append(met, meeting{p.v + (q.v-p.v)*(u-p.u)/(q.u-p.u), k})
			}
		}
		slices.SortFunc(met, func(a, b meeting) int {
			if a.v < b.v {
				return -1
			}
			return 1
		})
		for k := 0; k+1 < len(met); k += 2 {
			a, b := met[k], met[k+1]
			if !c.clear(u, a.v, b.v) {
				return out, false
			}
			br, ok := c.brk(i, uv{u, a.v}, uv{u, b.v}, a.wall, b.wall)
			if !ok {
				return out, false
			}
			out.breaks = append(out.breaks, br)
			out.long += br.Length
		}
	}
	return out, len(out.breaks) > 0
}

// clear reports whether a break at u from v to w keeps away from what is blocked and from walls along it.
func (c *crossing) clear(u, v, w float64) bool {
	for _, b := range c.blocked {
		if b.u0 < u && u < b.u1 && b.v0 < w && v < b.v1 {
			return false
		}
	}
	half := float64(float64(c.s.job.Rules.BreakWidth)/2) + 2
	short := 2 * float64(measure.Inch)
	for _, ring := range c.outlines {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			low, high := min(p.u, q.u), max(p.u, q.u)
			if high-low > math.Abs(p.v-q.v)/2 || math.Abs(p.v-q.v) <= short { // no wall along the line
				continue
			}
			near := max(low-u, u-high, 0)
			beside := max(p.v, q.v) > v-short && min(p.v, q.v) < w+short
			if beside && near < c.corner+c.zone && near > half {
				return false
			}
		}
	}
	return w-v > c.zone
}

// brk returns the break between two places of the outline of a room.
func (c *crossing) brk(room int, a, b uv, wallA, wallB int) (cutopt.PlanBreak, bool) {
	r := &c.rooms[room]
	if r.Walls[wallA] < 0 { // begin at a wall of the room if there is one
		a, b, wallA = b, a, wallB
	}
	from, to := c.drawn(a), c.drawn(b)
	out := cutopt.PlanBreak{
		Room: r.Number, Wall: r.Walls[wallA], Doorway: -1, From: from, To: to, Length: distance(from, to),
		Width: c.s.job.Rules.BreakWidth,
	}
	if out.Wall >= 0 {
		out.At = distance(c.s.job.Rooms[r.Number].Outline[out.Wall], from)
	}
	return out, out.Length > 0
}

func distance(p, q cutopt.Point) measure.Length {
	return measure.Length(math.Round(math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))))
}
