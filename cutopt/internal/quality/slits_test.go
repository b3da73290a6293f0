package quality_test

import (
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/measure"
)

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
