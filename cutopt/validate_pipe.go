package cutopt

import (
	"fmt"
	"math"

	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
)

// pipeCorners is what a pipe counts towards MaxCorners, and how many corners stand for its circle here.
const pipeCorners = 24

// ring returns corners on the circle of a pipe, to the nearest tick: what it covers is no more than the pipe does.
func (p *Pipe) ring() []Point {
	ring := make([]Point, pipeCorners)
	radius := float64(p.Diameter) / 2
	for i := range ring {
		sin, cos := math.Sincos(float64(i) * 2 * math.Pi / pipeCorners)
		ring[i] = Point{
			X: p.At.X + measure.Length(math.Round(float64(radius*cos))),
			Y: p.At.Y + measure.Length(math.Round(float64(radius*sin))),
		}
	}
	return ring
}

// pipes checks each pipe by itself and against the room.
func (v *roomValidator) pipes(sound bool) (rings [][]Point) {
	for k := range v.room.Pipes {
		pipe, field := &v.room.Pipes[k], fmt.Sprintf("%s.pipes[%d]", v.field, k+1)
		if pipe.Gap != GapNone {
			v.within(field+".gap", pipe.Gap, 0, MaxLength, "the gap of a pipe is at least 0")
		}
		// Of a pipe thinner than this corners would fall together.
		const least = measure.Millimetre
		if !v.within(field+".diameter", pipe.Diameter, least, MaxLength, "a pipe is at least 1 mm across") {
			rings = append(rings, nil)
			continue
		}
		ring := pipe.ring()
		rings = append(rings, ring)
		if !sound {
			continue
		}
		if flaw, ok := outline.Within(ring, v.room.Outline); !ok {
			v.add(
				field+".at",
				v.at(pipe.At),
				fmt.Sprintf(
					"a pipe stands within its room, it may touch the walls; this one is outside near %s",
					v.near(flaw.At),
				),
				"measure to its middle, in the axes of the room's corners; leave out what stands in a wall",
			)
		}
	}
	return rings
}
