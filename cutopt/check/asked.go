package check

import (
	"math"
	"slices"

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
	first := c.first
	at := c.at(RuleJob, 0, 0, 0)
	if own := c.rooms[0].Name; len(c.rooms) == 1 && own != c.room.Name {
		c.report(at, "floor-name", "got", c.room.Name, "want", own)
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
	switch gap := c.narrowestGap(floor, from); {
	case gap == math.MaxInt64 && (c.entered() || begins >= from+float64(width)):
		return // no wall runs along the rows there: where the floor begins, or that it tapers off, is not known
	case gap != math.MaxInt64 && begins < from+float64(gap)-1: // within a doorway
		begins, slack = from+float64(gap), 1+float64(c.job.Rules.Smooth)
	}
	line := begins + float64(width)
	broken := slices.ContainsFunc(c.rooms, func(p *part) bool { return len(p.ends) > 0 })
	if line >= to {
		return // the rooms are no deeper: what there is of the row goes on into the doorways
	}
	for i := range c.room.Rows {
		row := &c.room.Rows[i]
		// Where a break meets a wall aslant the floor reaches past its gap, round the end of it.
		if math.Abs(float64(row.To)-line) <= slack || broken && row.To == c.room.Rows[0].From+width ||
			i+1 == len(c.room.Rows) && float64(row.To) < line && row.To-row.From <= width {
			return
		}
	}
	c.report(c.at(RuleJob, 1, 0, 0), "first-row-other", "across", about(line), "width", width)
}

// entered reports whether the floor runs into a doorway and ends there.
func (c *roomChecker) entered() bool {
	for _, p := range c.rooms {
		for k := range p.Doorways {
			if d := &p.Doorways[k]; p.into[k] < 0 && d.Depth > p.edges[d.Wall].gap {
				return true
			}
		}
	}
	return false
}

// narrowestGap returns the gap of the wall along the rows that the floor begins at.
func (c *roomChecker) narrowestGap(floor *recount.Floor, from float64) measure.Length {
	least := measure.Length(math.MaxInt64)
	for i := range floor.Rooms {
		ring := &floor.Rooms[i].Outline
		for k, a := range ring.Corners {
			b := ring.Corners[(k+1)%len(ring.Corners)]
			if a != b && min(a.Y, b.Y) <= from+1 && math.Abs(b.Y-a.Y) <= parallel*math.Abs(b.X-a.X) {
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
	lean := c.leant()
	far := 0.0
	if first.Rows.Start == cutopt.StartFar {
		far = 180
	}
	w := c.baseWall(first)
	switch along := w.along(); first.Rows.Direction {
	case cutopt.DirectionFree:
		if near(turn, along+far, exact+1.01*lean) || near(turn, along+far+90, exact+1.01*lean) {
			return
		}
	case cutopt.DirectionAlong:
		if near(turn, along+far, exact+1.01*lean) {
			return
		}
	case cutopt.DirectionAcross:
		if near(turn, along+far+90, exact+1.01*lean) {
			return
		}
	case cutopt.DirectionAngle: // turned by less than half a turn, to the left, from along the wall
		if left := math.Mod(turn-far-along+720+exact, 360); left < 180+2*exact {
			return
		}
	}
	c.report(c.at(RuleJob, 0, 0, 0), "direction-other", "turn", turn, "direction", first.Rows.Direction,
		"room", first.Name, "side", first.Rows.Start)
}

// A baseWall is the wall that rows are laid out from, from one end to the other, the room on its left.
type baseWall struct {
	from, to cutopt.Point
	number   int // of the wall drawn first that lies in it, from 1
	alike    int // how many walls are as long but for a hundredth
}

func (w *baseWall) long() float64 {
	return math.Hypot(float64(w.to.X-w.from.X), float64(w.to.Y-w.from.Y))
}

// along returns the direction of the x axis of rows along the wall, in degrees: facing it, x runs against its own. One
// that runs off the drawing's axes by less than 1/2 in over its length counts as running along them.
func (w *baseWall) along() float64 {
	const most = float64(measure.Inch / 2)
	dx, dy := float64(w.to.X-w.from.X), float64(w.to.Y-w.from.Y)
	if math.Abs(dx) < most && math.Abs(dy) > most {
		dx = 0
	}
	if math.Abs(dy) < most && math.Abs(dx) > most {
		dy = 0
	}
	return math.Atan2(-dy, -dx) * 180 / math.Pi
}

// baseWall returns the wall that the job asks for, or the longest once jogs are straightened: of those as long but for
// a hundredth the one drawn first.
func (c *roomChecker) baseWall(room *cutopt.Room) *baseWall {
	gap := func(wall int) measure.Length { return c.job.Rules.WallGap(room, wall) }
	walls, _ := recount.Straighten(room.Outline, gap, false, c.job.Rules.Smooth)
	all := make([]baseWall, len(walls))
	most := 0.0
	for i, w := range walls {
		all[i] = baseWall{from: w.At, to: walls[(i+1)%len(walls)].At, number: slices.Min(w.Drawn) + 1}
		if k := room.Rows.StartWall; k > 0 && slices.Contains(w.Drawn, k-1) {
			return &all[i]
		}
		most = max(most, all[i].long())
	}
	best, alike := &baseWall{}, 0
	for i := range all {
		if w := &all[i]; w.long() >= 0.99*most {
			if alike++; alike == 1 || w.number < best.number {
				best = w
			}
		}
	}
	best.alike = alike
	return best
}
