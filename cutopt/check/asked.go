package check

import (
	"fmt"
	"math"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// asked holds the floor against what the job says of it: its name, which way its rows run, which wall they begin at, from
// which end they are laid, and how wide the first is.
func (c *roomChecker) asked() {
	if len(c.rooms) == 0 {
		return
	}
	first := &c.job.Rooms[c.rooms[0]]
	bad := func(got, want string) { c.report(c.at(RuleJob, 0, 0, 0), got, want) }
	if len(c.rooms) == 1 && first.Name != c.room.Name {
		bad(fmt.Sprintf("the floor is called %q", c.room.Name), fmt.Sprintf("%q as in the job", first.Name))
	}
	if first.Rows.From != c.room.From {
		bad(fmt.Sprintf("rows are laid from the %v", c.room.From), fmt.Sprintf("from the %v as the job asks", first.Rows.From))
	}
	if !c.room.Axes.Mirrored {
		bad("its axes are not mirrored, so that left and right are swapped", "x to the right and y towards the viewer, in a drawing with y upwards")
	} else {
		c.turned(first)
	}
	c.firstRow(first.Rows.FirstRow)
}

// firstRow holds the first row against the width that the job asks for: it is as wide, or the only one. What the trim hides
// is laid with no plank, so that a row asked for may be none.
func (c *roomChecker) firstRow(width measure.Length) {
	if width == 0 || width <= c.hidden() || len(c.room.Rows) == 0 {
		return
	}
	if w := c.room.Rows[0].To - c.room.Rows[0].From; w != width && (len(c.room.Rows) > 1 || w > width) {
		at := c.at(RuleJob, 1, 0, 0)
		c.report(at, "it is "+c.text(w)+" wide", c.text(width)+" as the job asks")
	}
}

// turned holds the direction of the rows, and which wall they begin at, against the job. Facing the longest wall of the
// first room, x runs against the wall's own direction, which has the room on its left.
func (c *roomChecker) turned(first *cutopt.Room) {
	turn := c.room.Axes.Turn
	near := func(a, b, slack float64) bool { return math.Abs(math.Remainder(a-b, 360)) <= slack }
	const exact = 1e-6
	if first.Rows.Direction == cutopt.DirectionAngle && !near(2*turn, 2*first.Rows.Angle, 2*exact) {
		c.report(c.at(RuleJob, 0, 0, 0), fmt.Sprintf("rows run at %v degrees", turn),
			fmt.Sprintf("%v degrees, or that turned round, as the job asks", first.Rows.Angle))
		return
	}
	far := 0.0
	if first.Rows.Start == cutopt.StartFar {
		far = 180
	}
	for _, w := range starting(first.Outline, c.job.Rules.Smooth) {
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
	c.report(c.at(RuleJob, 0, 0, 0), fmt.Sprintf("rows run at %.6g degrees", turn),
		fmt.Sprintf("rows %v the longest wall of %q, from its %v side, as the job asks", first.Rows.Direction, first.Name, first.Rows.Start))
}

// A startingWall is a wall that rows may begin at.
type startingWall struct {
	along float64 // direction of x, in degrees
	slack float64 // by how much straightening may turn it
	long  float64
}

// starting lists the directions that the longest wall may have. Walls that run on in one line, or but for jogs shorter than
// the tolerance, are one. Of walls that differ by less than a quarter of an inch, or twice the tolerance, the first may stand
// for the longest.
func starting(outline []cutopt.Point, smooth measure.Length) []startingWall {
	n := len(outline)
	sign := 1.0
	if signedArea(outline) < 0 {
		sign = -1
	}
	var walls []startingWall
	var from []cutopt.Point
	direction := func(p, q cutopt.Point) (float64, float64) {
		dx, dy := sign*float64(q.X-p.X), sign*float64(q.Y-p.Y)
		return math.Atan2(-dy, -dx) * 180 / math.Pi, math.Hypot(dx, dy)
	}
	for i, p := range outline {
		q := outline[(i+1)%n]
		along, long := direction(p, q)
		if long < float64(smooth) && len(walls) > 0 {
			continue // it may be a jog
		}
		if k := len(walls) - 1; k >= 0 && math.Abs(math.Remainder(along-walls[k].along, 360)) < 0.6 {
			whole, length := direction(from[k], q)
			walls[k] = startingWall{whole, 0.6, length}
			continue
		}
		walls, from = append(walls, startingWall{along, 0, long}), append(from, p)
	}
	if k := len(walls) - 1; k > 0 && math.Abs(math.Remainder(walls[k].along-walls[0].along, 360)) < 0.6 { // it begins within a wall
		walls[0] = startingWall{walls[0].along, 0.6, walls[0].long + walls[k].long}
		walls = walls[:k]
	}
	longest := 0.0
	for _, w := range walls {
		longest = max(longest, w.long)
	}
	within := max(float64(measure.Inch/4), 2*float64(smooth))
	var out []startingWall
	for _, w := range walls {
		equal := w.long > longest*(1-1e-12)
		if equal || w.long > longest-within && len(out) == 0 {
			out = append(out, w)
		}
		if equal {
			break
		}
	}
	return out
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
