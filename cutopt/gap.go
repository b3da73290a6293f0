package cutopt

import "plank.example/cutopt/measure"

// WallGap returns the gap that the floor keeps from a wall of a room, by its index: that of Room.WallGaps where it has
// one, else Gap.
func (r *Rules) WallGap(room *Room, wall int) measure.Length {
	if gap, ok := room.WallGaps[wall]; ok {
		return gap
	}
	return r.Gap
}

// FixedGap returns the gap that the floor keeps from an island or a pipe whose own is given: 0 takes Gap, and GapNone
// is none.
func (r *Rules) FixedGap(own measure.Length) measure.Length {
	switch own {
	case 0:
		return r.Gap
	case GapNone:
		return 0
	}
	return own
}
