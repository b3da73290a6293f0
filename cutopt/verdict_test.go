package cutopt_test

import (
	"testing"

	"plank.example/cutopt"
)

// TestTellingLeavesOutNoBox: that a floor cannot be laid with no box at all tells nobody anything; that it can, with
// planks on hand, does.
func TestTellingLeavesOutNoBox(t *testing.T) {
	plan := &cutopt.Plan{Order: cutopt.Order{Boxes: 1, ThumbBoxes: 1}}
	for _, c := range []struct {
		none  cutopt.Enough
		first int
	}{
		{cutopt.EnoughNo, 1},
		{cutopt.EnoughOpen, 0},
		{cutopt.EnoughYes, 0},
	} {
		v := &cutopt.Verdict{Recommended: 1, Counts: []cutopt.BoxCount{
			{Boxes: 0, Enough: c.none}, {Boxes: 1, Enough: cutopt.EnoughYes}, {Boxes: 2, Enough: cutopt.EnoughYes},
		}}
		if told := v.Telling(plan); len(told) == 0 || told[0].Boxes != c.first {
			t.Errorf("no box is %v: told of %+v, want %d boxes first", c.none, told, c.first)
		}
	}
}
