package check

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A part is a room of the job, or what breaks leave of it on one side, as a room of its own.
type part struct {
	*cutopt.Room
	number   int // index of the room in the job
	edges    []edge
	doorways []int // by doorway: its index in the room of the job; -1 for one that the room behind lists
	into     []int // by doorway: the part of the floor that it runs through to; -1 for none
	ends     []int // breaks of the plan that it ends at
}

// An edge is a wall of a part.
type edge struct {
	from  cutopt.Point
	wall  int            // of the room in the job; below 0 a break of the plan, -1 the first
	start measure.Length // from the first corner of that wall
	gap   measure.Length
}

// whole returns a room of the job as a part.
func (c *checker) whole(i int) *part {
	room := &c.job.Rooms[i]
	p := &part{Room: room, number: i}
	for w, corner := range room.Outline {
		p.edges = append(p.edges, edge{corner, w, 0, c.job.Rules.WallGap(room, w)})
	}
	for k := range room.Doorways {
		p.doorways, p.into = append(p.doorways, k), append(p.into, -1)
	}
	return p
}

// fields returns the floors that the job's rooms make, parted at the breaks of the plan, in the order of their first
// rooms: each as its parts, and the index of its first room.
func (c *checker) fields() (fields [][]*part, firsts []int) {
	parts := make([][]*part, len(c.job.Rooms))
	for i := range parts {
		parts[i] = []*part{c.whole(i)}
	}
	for n := range c.plan.Breaks {
		if c.breakFigures(n) && c.plan.Breaks[n].Doorway < 0 {
			c.cut(parts, n)
		}
	}
	c.askedBreaks()
	for n := range c.plan.Breaks {
		if b := &c.plan.Breaks[n]; b.Doorway >= 0 && c.known(b) {
			c.shut(parts, n)
		}
	}
	c.openStill(parts)
	for _, rooms := range c.floors() {
		all := []*part{}
		for _, i := range rooms {
			all = append(all, parts[i]...)
		}
		for _, field := range joined(all) {
			fields, firsts = append(fields, field), append(firsts, rooms[0])
		}
	}
	if len(fields) != len(c.plan.Floors) {
		c.report(Violation{Rule: RuleJob}, "floors-other", "got", len(c.plan.Floors), "want", len(fields))
	}
	return fields, firsts
}

// known reports whether the room and the doorway of a break are some of the job's.
func (c *checker) known(b *cutopt.PlanBreak) bool {
	return 0 <= b.Room && b.Room < len(c.job.Rooms) && b.Doorway < len(c.job.Rooms[b.Room].Doorways) &&
		b.Wall < len(c.job.Rooms[b.Room].Outline)
}

// breakFigures recounts the figures of a break, and reports whether it can be one.
func (c *checker) breakFigures(n int) bool {
	b := &c.plan.Breaks[n]
	if !c.known(b) {
		c.report(Violation{Rule: RuleBreak}, "break-astray", "n", n+1)
		return false
	}
	off := func(field string, got, want any) {
		c.report(Violation{Rule: RuleBreak}, "break-figure", "n", n+1, "field", field, "got", got, "want", want)
	}
	if b.Width != c.job.Rules.BreakWidth {
		off("width", b.Width, c.job.Rules.BreakWidth)
	}
	if rules := &c.job.Rules; !b.Asked && rules.MaxAlong == 0 && rules.MaxAcross == 0 {
		c.report(Violation{Rule: RuleBreak}, "break-needless", "n", n+1)
	}
	room := &c.job.Rooms[b.Room]
	if b.Doorway >= 0 {
		if d := &room.Doorways[b.Doorway]; b.Length != d.Width {
			off("length", b.Length, d.Width)
		}
		return true
	}
	if long := apartFrom(b.From, b.To); b.Length != long {
		off("length", b.Length, long)
	}
	if b.Wall >= 0 {
		if at := apartFrom(room.Outline[b.Wall], b.From); max(at-b.At, b.At-at) > 2 {
			off("at", b.At, at)
		}
	}
	return true
}

func apartFrom(p, q cutopt.Point) measure.Length {
	return measure.Length(math.Round(math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))))
}

// askedBreaks holds the breaks that are told to be asked for against those of the job: each begins at its place and
// runs square to its wall, or lies in a doorway.
func (c *checker) askedBreaks() {
	left := make(map[[3]int64]int)
	for i := range c.job.Rooms {
		for _, b := range c.job.Rooms[i].Breaks {
			left[[3]int64{int64(i), int64(b.Wall), int64(b.At)}]++
		}
	}
	for n := range c.plan.Breaks {
		b := &c.plan.Breaks[n]
		if !b.Asked {
			continue
		}
		if b.Doorway >= 0 && c.asksToShut(b) {
			continue // two in one doorway are astray
		}
		key := [3]int64{int64(b.Room), int64(b.Wall), int64(b.At)}
		if left[key] == 0 || b.Doorway >= 0 || !c.square(b) {
			c.report(Violation{Rule: RuleBreak}, "break-unasked", "n", n+1)
			continue
		}
		left[key]--
	}
	for i := range c.job.Rooms {
		for _, b := range c.job.Rooms[i].Breaks {
			if left[[3]int64{int64(i), int64(b.Wall), int64(b.At)}] > 0 {
				c.report(
					Violation{Rule: RuleBreak},
					"break-missing",
					"room",
					c.job.Rooms[i].Name,
					"wall",
					b.Wall+1,
					"at",
					b.At,
				)
			}
		}
	}
}

// asksToShut reports whether the job asks for a break in that doorway.
func (c *checker) asksToShut(b *cutopt.PlanBreak) bool {
	d := &c.job.Rooms[b.Room].Doorways[b.Doorway]
	return d.Break && d.Through
}

// openStill holds that no doorway runs through for which the job asks for a break: those that the plan breaks do not.
func (c *checker) openStill(parts [][]*part) {
	for _, all := range parts {
		for _, p := range all {
			for k := range p.Doorways {
				if d := &p.Doorways[k]; d.Through && d.Break {
					c.report(Violation{Rule: RuleBreak}, "break-open", "room", p.Name, "doorway", p.doorways[k]+1)
				}
			}
		}
	}
}

// square reports whether a break runs square to its wall, but for rounding at its two ends.
func (c *checker) square(b *cutopt.PlanBreak) bool {
	ring := c.job.Rooms[b.Room].Outline
	p, q := ring[b.Wall], ring[(b.Wall+1)%len(ring)]
	along := float64(q.X-p.X)*float64(b.To.X-b.From.X) + float64(q.Y-p.Y)*float64(b.To.Y-b.From.Y)
	return math.Abs(along) <= 2*math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
}

// cut parts the part of a room that a break crosses.
func (c *checker) cut(parts [][]*part, n int) {
	b := &c.plan.Breaks[n]
	own := parts[b.Room]
	for k, p := range own {
		one, two := p.sides(b, n, c.job.Rules.Gap+(b.Width+1)/2)
		if one == nil {
			continue
		}
		parts[b.Room] = slices.Concat(own[:k], []*part{one, two}, own[k+1:])
		return
	}
	c.report(Violation{Rule: RuleBreak}, "break-astray", "n", n+1)
}

// sides returns what a break leaves of a part on its two sides: from its first end to its second along the outline, and
// back. It returns nil where the break does not cross the part from wall to wall, or crosses what stands in it.
func (p *part) sides(b *cutopt.PlanBreak, n int, gap measure.Length) (one, two *part) {
	var loop []edge // the outline with the two ends as corners
	first, last := -1, -1
	for i, e := range p.edges {
		to := p.edges[(i+1)%len(p.edges)].from
		here := []edge{e}
		for _, end := range []cutopt.Point{b.From, b.To} {
			if end != e.from && end != to && onEdge(e.from, to, end) {
				here = append(here, edge{end, e.wall, e.start + apartFrom(e.from, end), e.gap})
			}
		}
		if len(here) > 2 {
			return nil, nil // both on one wall
		}
		for _, h := range here {
			switch {
			case h.from == b.From && first < 0:
				first = len(loop)
			case h.from == b.To && last < 0:
				last = len(loop)
			}
			loop = append(loop, h)
		}
	}
	if first < 0 || last < 0 || p.crossed(b) {
		return nil, nil
	}
	one, two = p.arc(loop, first, last, n, gap), p.arc(loop, last, first, n, gap)
	if len(one.edges) < 3 || len(two.edges) < 3 {
		return nil, nil
	}
	for k := range p.Doorways {
		if !p.hand(k, one) {
			p.hand(k, two)
		}
	}
	for k := range p.Islands {
		to := one
		if inRing(two.Outline, p.Islands[k].Outline) > inRing(one.Outline, p.Islands[k].Outline) {
			to = two
		}
		to.Islands = append(to.Islands, p.Islands[k])
	}
	for k := range p.Pipes {
		to := one
		if inRing(two.Outline, []cutopt.Point{p.Pipes[k].At}) > inRing(one.Outline, []cutopt.Point{p.Pipes[k].At}) {
			to = two
		}
		to.Pipes = append(to.Pipes, p.Pipes[k])
	}
	return one, two
}

// onEdge reports whether a place lies on the line between two others, but for rounding.
func onEdge(a, b, p cutopt.Point) bool {
	dx, dy, ex, ey := float64(b.X-a.X), float64(b.Y-a.Y), float64(p.X-a.X), float64(p.Y-a.Y)
	size := math.Hypot(dx, dy)
	return size > 0 && math.Abs(dx*ey-dy*ex) < 2*size && dx*ex+dy*ey > 0 && dx*ex+dy*ey < size*size
}

// crossed reports whether a break leaves the part between its ends, or crosses an island or a pipe.
func (p *part) crossed(b *cutopt.PlanBreak) bool {
	at := func(t float64) cutopt.Point {
		return cutopt.Point{
			X: b.From.X + measure.Length(math.Round(t*float64(b.To.X-b.From.X))),
			Y: b.From.Y + measure.Length(math.Round(t*float64(b.To.Y-b.From.Y))),
		}
	}
	const steps = 64
	for i := 1; i < steps; i++ {
		q := at(float64(i) / steps)
		if inRing(p.Outline, []cutopt.Point{q}) == 0 {
			return true
		}
	}
	meets := func(ring []cutopt.Point) bool {
		for i, q := range ring {
			if over(b.From, b.To, q, ring[(i+1)%len(ring)]) {
				return true
			}
		}
		return false
	}
	for k := range p.Islands {
		if meets(p.Islands[k].Outline) {
			return true
		}
	}
	for k := range p.Pipes {
		r, m := p.Pipes[k].Diameter/2, p.Pipes[k].At
		if meets(
			[]cutopt.Point{{X: m.X - r, Y: m.Y}, {X: m.X + r, Y: m.Y}, {X: m.X, Y: m.Y - r}, {X: m.X, Y: m.Y + r}},
		) {
			return true
		}
	}
	return false
}

// over reports whether two lines cross between their ends.
func over(a, b, p, q cutopt.Point) bool {
	turn := func(o, s, t cutopt.Point) float64 {
		return float64(s.X-o.X)*float64(t.Y-o.Y) - float64(s.Y-o.Y)*float64(t.X-o.X)
	}
	return turn(a, b, p)*turn(a, b, q) < 0 && turn(p, q, a)*turn(p, q, b) < 0
}

// arc returns the part of an outline from one corner to another, closed by a break.
func (p *part) arc(loop []edge, from, to, n int, gap measure.Length) *part {
	room := *p.Room
	room.Outline, room.WallGaps, room.Islands, room.Pipes, room.Doorways = nil, make(
		map[int]measure.Length,
	), nil, nil, nil
	out := &part{Room: &room, number: p.number}
	add := func(e edge) {
		room.WallGaps[len(room.Outline)] = e.gap
		out.edges, room.Outline = append(out.edges, e), append(room.Outline, e.from)
	}
	for i := from; i != to; i = (i + 1) % len(loop) {
		add(loop[i])
	}
	add(edge{loop[to].from, -1 - n, 0, gap})
	for _, e := range out.edges {
		if e.wall < 0 && !slices.Contains(out.ends, -1-e.wall) {
			out.ends = append(out.ends, -1-e.wall)
		}
	}
	return out
}

// hand gives a doorway to a side, if it lies in a wall of that.
func (p *part) hand(k int, to *part) bool {
	d := p.Doorways[k]
	own := p.edges[d.Wall]
	middle := own.start + d.At + d.Width/2
	for w, e := range to.edges {
		if e.wall == own.wall && middle >= e.start &&
			middle <= e.start+apartFrom(e.from, to.edges[(w+1)%len(to.edges)].from) {
			d.Wall, d.At = w, max(0, own.start+d.At-e.start)
			to.Doorways = append(to.Doorways, d)
			to.doorways, to.into = append(to.doorways, p.doorways[k]), append(to.into, -1)
			return true
		}
	}
	return false
}

// inRing counts the places, and the middles between them, that lie within an outline.
func inRing(outline, places []cutopt.Point) (n int) {
	for i, p := range places {
		q := places[(i+1)%len(places)]
		for _, at := range [2][2]float64{
			{float64(p.X), float64(p.Y)}, {float64(p.X+q.X) / 2, float64(p.Y+q.Y) / 2},
		} {
			odd := false
			for k, a := range outline {
				b := outline[(k+1)%len(outline)]
				if (float64(a.X) > at[0]) != (float64(b.X) > at[0]) &&
					float64(a.Y)+float64(b.Y-a.Y)*(at[0]-float64(a.X))/float64(b.X-a.X) > at[1] {
					odd = !odd
				}
			}
			if odd {
				n++
			}
		}
	}
	return n
}
