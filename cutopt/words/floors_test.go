package words_test

import (
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/words"
)

// Where fewer boxes would be bought for another floor than the plan's, that is said with its figures.
func TestFloors(t *testing.T) {
	verdict := func(planks ...int) *cutopt.Verdict {
		v := new(cutopt.Verdict)
		for i, n := range planks {
			v.Counts = append(v.Counts, cutopt.BoxCount{Boxes: 8 + i, Planks: n})
		}
		return v
	}
	for _, c := range []struct {
		v               *cutopt.Verdict
		english, german string
	}{
		{verdict(), "", ""},
		{verdict(73, 73), "", ""},
		{
			verdict(70, 70, 73, 73),
			"With fewer than 10 boxes: of a floor of 70 planks, the fewest. From 10 on: of this plan, of 73.",
			"Bei weniger als 10 Paketen: für einen Boden aus 70 Dielen, den wenigsten. Ab 10: für diesen Plan " +
				"aus 73.",
		},
	} {
		for language, want := range map[string]string{"en": c.english, "de": c.german} {
			if got := words.New(language, nil, measure.UnitInch, 0).Floors(c.v); got != want {
				t.Errorf("%s: %q, want %q", language, got, want)
			}
		}
	}
}
