package quality_test

import (
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/measure"
)

// A run of 185 in planks of 60 has joints at s, s+60 and so on. A corner at 80 leaves a strip beside a joint from 78 to
// 82, but not on it: starters of 18 to 22 but for 20.
func TestJointsKeepAwayFromCorners(t *testing.T) {
	thin := func(i int, s measure.Length) int {
		if off := s - 20; i == 1 && off != 0 && -2 <= off && off <= 2 {
			return 1
		}
		return 0
	}
	for _, row := range []struct {
		reason   string
		starters []measure.Length // of three rows; the corner is beside the second
		fixed    bool
		cap      int
		want     measure.Length // starter of the second
	}{
		{"nothing to mend", []measure.Length{40, 25, 40}, false, 12, 25},
		{"onto the corner, the nearest place", []measure.Length{40, 19, 40}, false, 12, 20},
		{"a joint of the next row is too near to the corner", []measure.Length{24, 18, 40}, false, 12, 17},
		{"a pattern stays", []measure.Length{40, 19, 40}, true, 12, 19},
	} {
		p, layout := strip(185, row.starters...)
		p.Instance.Stagger, p.Instance.MinPiece, p.Fixed, p.Thin = 5, 4, row.fixed, thin
		set := &quality.Settings{Order: []cutopt.Aim{}, Cap: row.cap, Budget: quick}
		got := quality.Improve(p, layout, p.Instance.Cut(layout, nil), set)
		if s := got.Layout[1]; s != row.want {
			t.Errorf("%s: starter %d, want %d", row.reason, s, row.want)
		}
		if broken := p.Instance.Check(got.Layout); broken != nil {
			t.Errorf("%s: %v", row.reason, broken)
		}
	}
}

// A run of 185 in planks of 60 has joints at s, s+60 and so on. A pipe lets a joint between 128 and 132 pass: starters
// from 8 to 12 have one there.
func TestSlitsAreSpared(t *testing.T) {
	for _, row := range []struct {
		reason   string
		starters []measure.Length // of three rows; the pipe stands in the second
		stagger  measure.Length
		fixed    bool
		cap      int
		spared   bool
	}{
		{"nothing in the way", []measure.Length{30, 50, 30}, 5, false, 12, true},
		{"there is a joint already", []measure.Length{30, 11, 30}, 5, false, 12, true},
		{"the rows beside it have joints there, and make way", []measure.Length{10, 50, 10}, 5, false, 12, true},
		{"a pattern stays", []measure.Length{30, 50, 30}, 5, true, 12, false},
		{"planks do not suffice", []measure.Length{30, 60, 30}, 5, false, 10, false},
	} {
		p, layout := strip(185, row.starters...)
		p.Instance.Stagger, p.Instance.MinPiece, p.Fixed = row.stagger, 4, row.fixed
		p.Held = [][]quality.Span{nil, {{From: 128, To: 132}}, nil}
		cutting := p.Instance.Cut(layout, nil)
		got := quality.Improve(
			p,
			layout,
			cutting,
			&quality.Settings{Order: []cutopt.Aim{}, Cap: row.cap, Budget: quick},
		)
		s := got.Layout[1]
		if spared := 8 <= s && s <= 12; spared != row.spared {
			t.Errorf(
				"%s: starter %d, with %d planks of %d",
				row.reason,
				s,
				len(got.Cutting.Planks),
				len(cutting.Planks),
			)
		}
		if broken := p.Instance.Check(got.Layout); broken != nil {
			t.Errorf("%s: %v", row.reason, broken)
		}
	}
}
