package cutopt_test

import (
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// TestGaps: what a wall, an island or a pipe says of its gap, and what it leaves to the rules.
func TestGaps(t *testing.T) {
	rules := &cutopt.Rules{Gap: 6 * measure.Millimetre}
	room := &cutopt.Room{WallGaps: map[int]measure.Length{1: 9 * measure.Millimetre, 2: 0}}
	for wall, want := range []measure.Length{rules.Gap, 9 * measure.Millimetre, 0, rules.Gap} {
		if got := rules.WallGap(room, wall); got != want {
			t.Errorf("wall %d: a gap of %d ticks, want %d", wall, got, want)
		}
	}
	for own, want := range map[measure.Length]measure.Length{0: rules.Gap, cutopt.GapNone: 0, measure.Inch: measure.Inch} {
		if got := rules.FixedGap(own); got != want {
			t.Errorf("an island with %d: a gap of %d ticks, want %d", own, got, want)
		}
	}
}
