package cutopt

import (
	"fmt"
	"math"

	"plank.example/cutopt/measure"
)

// free reports a doorway that an island stands in front of: nearer to the opening than its gap, beyond the gap beside
// the casing. What is fixed there keeps the floor out of the doorway, and the door shut.
func (v *roomValidator) free(field string, d Doorway) {
	for k := range v.room.Islands {
		island := &v.room.Islands[k]
		if d.blockedBy(v.room.Outline, island.Outline, v.job.Rules.FixedGap(island.Gap)) {
			what := fmt.Sprintf("an opening from %s to %s", v.text(d.At), v.text(d.At+d.Width))
			if d.Name != "" {
				what = fmt.Sprintf("doorway %q", d.Name)
			}
			v.add(field, what, fmt.Sprintf("nothing fixed stands in front of an opening, and %s does",
				named("island", island.Name, fmt.Sprintf("islands[%d]", k+1))),
				"move the one or the other, or leave out the doorway if it is closed up")
		}
	}
}

// cased reports a wooden casing beside a corner that juts into the room, with less wall than the floor takes beneath
// the casing and for the gap at the other wall of the corner: it would come out at that wall.
func (v *roomValidator) cased(field string, d Doorway) {
	if d.Casing != CasingWood || d.Depth == 0 {
		return
	}
	ring := v.room.Outline
	n := len(ring)
	a, b := ring[d.Wall], ring[(d.Wall+1)%n]
	for _, side := range []struct {
		stretch measure.Length
		corner  [3]Point
		wall    int // the other one
	}{
		{d.At, [3]Point{ring[(d.Wall+n-1)%n], a, b}, (d.Wall + n - 1) % n},
		{distance(a, b) - d.At - d.Width, [3]Point{a, b, ring[(d.Wall+2)%n]}, (d.Wall + 1) % n},
	} {
		juts := clockwise(side.corner[:]) != clockwise(ring)
		least := v.job.Rules.Under + v.job.Rules.WallGap(v.room, side.wall)
		if juts && side.stretch < least {
			v.add(field, fmt.Sprintf("an opening from %s to %s", v.text(d.At), v.text(d.At+d.Width)),
				fmt.Sprintf("beside a corner that juts into the room, a wooden casing stands on at least %s of wall: what "+
					"runs beneath it, and the gap; here wall %d goes on for %s", v.text(least), d.Wall+1, v.text(side.stretch)),
				"check at and width, or cut round it: casing: metal")
		}
	}
}

// named calls a thing by its name, or by its field.
func named(what, name, field string) string {
	if name != "" {
		return fmt.Sprintf("%s %q", what, name)
	}
	return field
}

// blockedBy reports whether an island comes nearer than a gap to the opening, less the gap at both its sides.
func (d *Doorway) blockedBy(room, island []Point, gap measure.Length) bool {
	a, b := room[d.Wall], room[(d.Wall+1)%len(room)]
	size := math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
	ux, uy := float64(b.X-a.X)/size, float64(b.Y-a.Y)/size
	from, to := float64(d.At+gap), float64(d.At+d.Width-gap)
	place := func(p Point) (along, off float64) {
		x, y := float64(p.X-a.X), float64(p.Y-a.Y)
		return float64(x*ux) + float64(y*uy), math.Abs(float64(x*uy) - float64(y*ux)) // rounded alike on every machine
	}
	for i, p := range island {
		s0, d0 := place(p)
		s1, d1 := place(island[(i+1)%len(island)])
		if d0 > d1 {
			s0, d0, s1, d1 = s1, d1, s0, d0
		}
		if d0 > float64(gap) || d0 == float64(gap) && gap > 0 {
			continue
		}
		if d1 > float64(gap) { // the part that is near enough
			s1 = s0 + (s1-s0)*(float64(gap)-d0)/(d1-d0)
		}
		if min(s0, s1) < to && max(s0, s1) > from {
			return true
		}
	}
	return false
}
