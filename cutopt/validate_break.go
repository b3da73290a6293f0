package cutopt

import (
	"fmt"
	"math"

	"plank.example/cutopt/measure"
)

// breaks checks the breaks of a room: each runs from its wall to another through free floor, ends beside no opening,
// and crosses no other.
func (v *roomValidator) breaks(sound bool) {
	type line struct{ from, to Point }
	var lines []line
	for k, b := range v.room.Breaks {
		field := fmt.Sprintf("%s.breaks[%d]", v.field, k+1)
		if !v.wall(field+".wall", b.Wall) || !sound {
			continue
		}
		from, to, ok := v.room.BreakLine(b)
		if !ok {
			a, e := v.room.Outline[b.Wall], v.room.Outline[(b.Wall+1)%len(v.room.Outline)]
			v.add(
				field+".at",
				v.text(b.At),
				fmt.Sprintf("a break begins within its wall, which is %s long", v.text(distance(a, e))),
				"measure at from the corner where the wall begins",
			)
			continue
		}
		if what := v.standsIn(from, to); what != "" {
			v.add(
				field,
				"from "+v.near(from)+" to "+v.near(to),
				"a break runs through free floor, and "+what+" stands in it",
				"move it, or begin it at another wall",
			)
			continue
		}
		if what := v.openingAt(from, to); what != "" {
			v.add(field, "from "+v.near(from)+" to "+v.near(to), "a break ends at walls, and "+what+" is there",
				"move it aside; for a break in a doorway that is through: write break: true there, and one that is not "+
					"ends the floor by itself")
			continue
		}
		for n, other := range lines {
			if meet(from, to, other.from, other.to) {
				v.add(
					field,
					"from "+v.near(from)+" to "+v.near(to),
					fmt.Sprintf("breaks do not cross, and breaks[%d] is there", n+1),
					"end one of them: begin it at the wall on its own side",
				)
				break
			}
		}
		lines = append(lines, line{from, to})
	}
}

// standsIn names the island or the pipe that a line crosses; "" for none.
func (v *roomValidator) standsIn(from, to Point) string {
	for k := range v.room.Islands {
		ring := v.room.Islands[k].Outline
		for i, p := range ring {
			if meet(from, to, p, ring[(i+1)%len(ring)]) {
				return named("island", v.room.Islands[k].Name, fmt.Sprintf("islands[%d]", k+1))
			}
		}
	}
	for k := range v.room.Pipes {
		p := &v.room.Pipes[k]
		if off(p.At, from, to) <= float64(float64(p.Diameter)/2)+float64(v.job.Rules.BreakWidth) {
			return named("pipe", p.Name, fmt.Sprintf("pipes[%d]", k+1))
		}
	}
	return ""
}

// openingAt names the doorway that a line ends in, or beside within what its casing and the gaps take; "" for none.
func (v *roomValidator) openingAt(from, to Point) string {
	near := float64(v.job.Rules.Under+v.job.Rules.Gap) + float64(float64(v.job.Rules.BreakWidth)/2)
	for k := range v.room.Doorways {
		d := &v.room.Doorways[k]
		m, ok := d.sides(v.room.Outline)
		if !ok {
			continue
		}
		a, b := rounded(m.sides[0][0], m.sides[0][1]), rounded(m.sides[1][0], m.sides[1][1])
		if min(off(from, a, b), off(to, a, b)) <= near {
			return named("doorway", d.Name, fmt.Sprintf("doorways[%d]", k+1))
		}
	}
	return ""
}

// off returns how far a place lies from the line between two others.
func off(p, a, b Point) float64 {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	x, y := float64(p.X-a.X), float64(p.Y-a.Y)
	if size := float64(dx*dx) + float64(dy*dy); size > 0 {
		t := min(1, max(0, (float64(x*dx)+float64(y*dy))/size))
		x, y = x-float64(t*dx), y-float64(t*dy)
	}
	return math.Hypot(x, y)
}

// meet reports whether two lines cross or touch.
func meet(a, b, p, q Point) bool {
	side := func(o, s, t Point) measure.Length {
		d := float64(float64(s.X-o.X)*float64(t.Y-o.Y)) - float64(float64(s.Y-o.Y)*float64(t.X-o.X))
		switch {
		case d > 0:
			return 1
		case d < 0:
			return -1
		}
		return 0
	}
	if side(a, b, p)*side(a, b, q) < 0 && side(p, q, a)*side(p, q, b) < 0 {
		return true
	}
	return min(off(a, p, q), off(b, p, q), off(p, a, b), off(q, a, b)) <= 1
}
