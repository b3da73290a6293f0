package cutopt_test

import (
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Findings are plain where no language is asked for: names of figures, lengths to the tick.
func TestFindingFormat(t *testing.T) {
	const in = measure.Inch
	for _, c := range []struct {
		finding cutopt.Finding
		want    string
	}{
		{cutopt.Find("no-plan"), "no-plan"},
		{cutopt.Find("starter-short", "length", 5*in+1, "least", 8*in), "starter-short: length 5.0001 in, least 8 in"},
		{
			cutopt.Find("cuts", "got", []measure.Length{in, 2 * in}, "row", cutopt.RowRef{Room: "Den", Row: 7}),
			"cuts: got " +
				"[1 in, 2 in], row Den row 7",
		},
		{cutopt.Find("open", "area", 144*measure.Area(in*in), "at", cutopt.Point{X: in}, "row",
			cutopt.RowRef{Row: 2}), "open" +
			": area 1 sq ft, at (1 in, 0 in), row row 2"},
		{cutopt.Find("told", "fact", cutopt.Fact{
			Kind: cutopt.FactNotch, End: cutopt.EndsLeft, Edge: cutopt.EdgesBack,
			Length: in, Width: in / 2,
		}), "told: fact notch: end left edge back at 0 in across 0 in length 1 in width 1/2 in"},
		{
			cutopt.Find("told", "fact", cutopt.Fact{Kind: cutopt.FactSlivers, Count: 2, Most: in}),
			"told: fact slivers: count 2 " +
				"most 1 in area 0 sq ft",
		},
	} {
		if got := c.finding.Format(measure.UnitInch); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := cutopt.Find("a", "n", 3).Figure("n"); got != 3 {
		t.Errorf("figure %v, want 3", got)
	}
	if got := cutopt.Find("a", "n", 3).Figure("m"); got != nil {
		t.Errorf("a figure that is none: %v", got)
	}
}
