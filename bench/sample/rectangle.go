package sample

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// MixRectangle is plain rectangles, 8 to 20 ft by 8 to 20 ft, each side drawn alike in quarters of an inch: the rooms
// that purchases are compared on. It is no part of the study's mixes.
const MixRectangle Mix = "rectangle"

// KindRectangle is the kind of a room of MixRectangle.
const KindRectangle Kind = "rectangle"

// DrawRectangle makes the rectangle of a seed. The same seed is the same room on every machine.
func DrawRectangle(seed uint64) *Room {
	const step, least, most = measure.Inch / 4, 8 * 12 * measure.Inch, 20 * 12 * measure.Inch
	d := newDraws(MixRectangle, seed)
	side := func() measure.Length { return least + step*measure.Length(d.below(int((most-least)/step)+1)) }
	w, h := side(), side()
	return &Room{
		Mix: MixRectangle, Seed: seed, Kind: KindRectangle, Shape: ShapeRectangle,
		Plan: cutopt.Room{Name: "Sample rectangle", Outline: rectangle(0, 0, w, h)},
		Net:  measure.Area(w) * measure.Area(h),
	}
}

// Any makes the room of a seed of any mix.
func Any(mix Mix, seed uint64) *Room {
	if mix == MixRectangle {
		return DrawRectangle(seed)
	}
	return Draw(mix, seed)
}
