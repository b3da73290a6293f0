package check

import (
	"math"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
)

// asked holds the floor against what the job says of it: its name, which way its rows run, which wall they begin at,
// from which end they are laid, and how wide the first is.
func (c *roomChecker) asked() {
	if len(c.rooms) == 0 {
		return
	}
	first := &c.job.Rooms[c.rooms[0]]
	at := c.at(RuleJob, 0, 0, 0)
	if len(c.rooms) == 1 && first.Name != c.room.Name {
		c.report(at, "floor-name", "got", c.room.Name, "want", first.Name)
	}
	if from := c.job.LaidFrom(first.Rows); from != c.room.LaidFrom {
		c.report(at, "laid-from", "got", c.room.LaidFrom, "want", from)
	}
	if !c.room.Axes.Mirrored {
		c.report(at, "axes-unmirrored")
	} else {
		c.turned(first)
	}
}

// firstRow holds the first row against the width that the job asks for: so far from where the floor begins along the
// starting wall, doorways not counted, lies a line between two rows, if the floor reaches so far. What the trim hides
// is laid with no plank, so that a row asked for may be none.
func (c *roomChecker) firstRow(floor *recount.Floor, width measure.Length) {
	if width == 0 || width <= c.hidden() || len(c.room.Rows) == 0 {
		return
	}
	from, to := math.Inf(1), math.Inf(-1)
	for i := range floor.Rooms {
		for _, p := range floor.Rooms[i].Outline.Corners {
			from, to = min(from, p.Y), max(to, p.Y)
		}
	}
	// The floor begins at the gap, unless straightening moves the wall in, or the room tapers off there.
	begins, slack := float64(c.room.Rows[0].From), 1.0
	if begins < from { // within a doorway
		gap := c.narrowestGap(floor, from)
		if gap == math.MaxInt64 {
			return // no wall runs along the rows there: where the floor begins beside the opening is not known
		}
		begins, slack = from+float64(gap), 1+float64(c.job.Rules.Smooth)
	}
	line := begins + float64(width)
	if line >= to {
		return // the rooms are no deeper: what there is of the row goes on into the doorways
	}
	for i := range c.room.Rows {
		row := &c.room.Rows[i]
		if math.Abs(float64(row.To)-line) <= slack ||
			i+1 == len(c.room.Rows) && float64(row.To) < line && row.To-row.From <= width {
			return
		}
	}
	c.report(c.at(RuleJob, 1, 0, 0), "first-row-other", "across", about(line), "width", width)
}

// narrowestGap returns the gap of the wall along the rows that the floor begins at.
func (c *roomChecker) narrowestGap(floor *recount.Floor, from float64) measure.Length {
	least := measure.Length(math.MaxInt64)
	for i := range floor.Rooms {
		ring := &floor.Rooms[i].Outline
		for k, a := range ring.Corners {
			b := ring.Corners[(k+1)%len(ring.Corners)]
			if a != b && min(a.Y, b.Y) <= from+1 && math.Abs(b.Y-a.Y) <= math.Abs(b.X-a.X) {
				least = min(least, measure.Length(ring.Gaps[k]))
			}
		}
	}
	return least
}

// turned holds the direction of the rows, and which wall they begin at, against the job. Facing the longest wall of the
// first room, x runs against the wall's own direction, which has the room on its left.
func (c *roomChecker) turned(first *cutopt.Room) {
	turn := c.room.Axes.Turn
	near := func(a, b, slack float64) bool { return math.Abs(math.Remainder(a-b, 360)) <= slack }
	const exact = 1e-6
	if first.Rows.Direction == cutopt.DirectionAngle && !near(2*turn, 2*first.Rows.Angle, 2*exact) {
		c.report(c.at(RuleJob, 0, 0, 0), "angle-other", "got", turn, "want", first.Rows.Angle)
		return
	}
	far := 0.0
	if first.Rows.Start == cutopt.StartFar {
		far = 180
	}
	for _, w := range starting(first, c.job.Rules.Smooth) {
		slack := max(exact, w.slack)
		switch first.Rows.Direction {
		case cutopt.DirectionAlong:
			if near(turn, w.along+far, slack) {
				return
			}
		case cutopt.DirectionAcross:
			if near(turn, w.along+far+90, slack) {
				return
			}
		case cutopt.DirectionAngle: // turned by less than half a turn, to the left, from along the wall
			left := math.Mod(turn-far-w.along+720+slack, 360)
			if left < 180+2*slack {
				return
			}
		}
	}
	c.report(c.at(RuleJob, 0, 0, 0), "direction-other", "turn", turn, "direction", first.Rows.Direction,
		"room", first.Name, "side", first.Rows.Start)
}

// A startingWall is a wall that rows may begin at.
type startingWall struct {
	along float64 // direction of x, in degrees
	slack float64 // by how much straightening may turn it
	long  float64
	first int // index of the wall drawn first that is part of it
}

// starting lists the directions that the longest wall may have, as three readings of the outline give it: wall by wall
// as drawn, with those joined that run on in one line, and with those joined that only a jog shorter than the tolerance
// parts. Jogs need not be straightened, nor walls joined that keep different gaps.
func starting(room *cutopt.Room, smooth measure.Length) []startingWall {
	drawn := walls(room.Outline, 0, -1)
	if k := room.Rows.StartWall - 1; k >= 0 { // straightening may turn it
		for _, w := range drawn {
			if w.first == k {
				w.slack = math.Atan2(2*float64(smooth), w.long) * 180 / math.Pi
				return w.squared()
			}
		}
	}
	if len(room.Outline) < 3 || len(drawn) == 0 {
		return nil
	}
	out := longest(drawn, smooth)
	out = append(out, longest(walls(room.Outline, 0, 1e-9), smooth)...)
	return append(out, longest(walls(room.Outline, smooth, 0.6), smooth)...)
}

// walls lists the walls of an outline in the order of the drawing. Walls that turn by no more than so many degrees are
// one, and so are those with a shorter one between them that go the same way.
func walls(outline []cutopt.Point, jog measure.Length, turn float64) []startingWall {
	n, sign := len(outline), 1.0
	if signedArea(outline) < 0 {
		sign = -1
	}
	direction := func(p, q cutopt.Point) (along, long float64) {
		dx, dy := sign*float64(q.X-p.X), sign*float64(q.Y-p.Y)
		return math.Atan2(-dy, -dx) * 180 / math.Pi, math.Hypot(dx, dy)
	}
	same := func(a, b float64) bool { return math.Abs(math.Remainder(a-b, 360)) <= turn }
	var out []startingWall
	var from []cutopt.Point
	for i, p := range outline {
		q := outline[(i+1)%n]
		along, long := direction(p, q)
		if long == 0 || long < float64(jog) && len(out) > 0 {
			continue
		}
		if k := len(out) - 1; k >= 0 && same(along, out[k].along) {
			whole, length := direction(from[k], q)
			out[k] = startingWall{whole, turn, length, out[k].first}
			continue
		}
		out, from = append(out, startingWall{along, 0, long, i}), append(from, p)
	}
	if k := len(out) - 1; k > 0 && same(out[k].along, out[0].along) { // the outline begins within a wall
		out[0] = startingWall{out[0].along, turn, out[0].long + out[k].long, 0}
		out = out[:k]
	}
	return out
}

// longest returns the walls that may be taken: of those as long as the longest but for a hundredth the first, and
// others where measuring or straightening may decide.
func longest(walls []startingWall, smooth measure.Length) []startingWall {
	most := 0.0
	for _, w := range walls {
		most = max(most, w.long)
	}
	within := max(float64(measure.Inch/4), 2*float64(smooth))
	var out []startingWall
	for _, w := range walls {
		if w.long < 0.99*most-within {
			continue
		}
		out = append(out, w.squared()...)
		if w.long > 0.99*most+within && w.slack == 0 {
			break // none drawn after it is taken
		}
	}
	return out
}

// squared returns the wall as it may be taken: one that runs off the drawing's axes by less than 1/2 in over its length
// counts as running along them.
func (w startingWall) squared() []startingWall {
	const most = float64(measure.Inch / 2)
	axis := 90 * math.Round(w.along/90)
	off := w.long * math.Abs(math.Sin((w.along-axis)*math.Pi/180))
	if off > most+w.long*math.Sin(w.slack*math.Pi/180) {
		return []startingWall{w}
	}
	return []startingWall{w, {axis, w.slack, w.long, w.first}}
}

// signedArea is above 0 for an outline drawn counter-clockwise.
func signedArea(ring []cutopt.Point) float64 {
	sum := 0.0
	for i, p := range ring {
		q, o := ring[(i+1)%len(ring)], ring[0]
		sum += float64(p.X-o.X)*float64(q.Y-o.Y) - float64(p.Y-o.Y)*float64(q.X-o.X)
	}
	return sum
}
