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
	none, inLine := []cutopt.Aim{}, []cutopt.Aim{cutopt.AimHJoints}
	for _, row := range []struct {
		reason   string
		starters []measure.Length // the pipe stands in the second of the rows
		aims     []cutopt.Aim
		fixed    bool
		cap      int
		want     measure.Length // starter of the second
	}{
		{"the middle of the pipe", []measure.Length{30, 50, 30}, none, false, 12, 10},
		{"there is a joint already", []measure.Length{30, 11, 30}, none, false, 12, 11},
		{"the rows beside it have joints there, and make way", []measure.Length{10, 50, 10}, none, false, 12, 10},
		{"a pattern stays", []measure.Length{30, 50, 30}, none, true, 12, 50},
		{"planks do not suffice", []measure.Length{30, 60, 30}, none, false, 10, 60},
		{"20 from the joints beside it, and that stagger is aimed at", []measure.Length{28, 50, 28}, []cutopt.Aim{
			cutopt.AimStagger,
		}, false, 12, 8},
		{"20 from the joints beside it, which are as far apart at first", []measure.Length{28, 50, 28}, none, false, 12, 8},
		{"8 to 12 are in line with the last row", []measure.Length{30, 50, 30, 10}, inLine, false, 14, 50},
		{"where that is no aim, a slit is worse", []measure.Length{30, 50, 30, 10}, none, false, 14, 9}, // 10: a cluster
	} {
		p, layout := strip(185, row.starters...)
		p.Instance.Stagger, p.Instance.MinPiece, p.Fixed = 5, 4, row.fixed
		p.Held = [][]quality.Span{nil, {{From: 128, To: 132}}, nil}
		cutting := p.Instance.Cut(layout, nil)
		got := quality.Improve(p, layout, cutting, &quality.Settings{Order: row.aims, Cap: row.cap})
		if s := got.Layout[1]; s != row.want {
			t.Errorf("%s: starter %d, want %d, with %d planks of %d", row.reason, s, row.want, len(got.Cutting.Planks),
				len(cutting.Planks))
		}
		if broken := p.Instance.Check(got.Layout); broken != nil {
			t.Errorf("%s: %v", row.reason, broken)
		}
	}
}
