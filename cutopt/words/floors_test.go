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
		bound           int
		english, german string
	}{
		{verdict(), 0, "", ""},
		{verdict(73, 73), 70, "", ""},
		{
			verdict(70, 70, 73, 73), 70,
			"With fewer than 10 boxes: of a floor of 70 planks, the fewest. From 10 on: of this plan, of 73.",
			"Bei weniger als 10 Paketen: für einen Boden aus 70 Dielen, den wenigsten. Ab 10: für diesen Plan " +
				"aus 73.",
		},
		{
			verdict(108, 110), 101,
			"With fewer than 9 boxes: of a floor of 108 planks, the fewest found before the boxes were settled; one of " +
				"fewer may exist, and run short less often. From 9 on: of this plan, of 110.",
			"Bei weniger als 9 Paketen: für einen Boden aus 108 Dielen, den wenigsten, die gefunden wurden, bevor die " +
				"Pakete feststanden; einen aus weniger kann es geben, und der reicht öfter. Ab 9: für diesen Plan aus 110.",
		},
	} {
		for language, want := range map[string]string{"en": c.english, "de": c.german} {
			if got := words.New(language, nil, measure.UnitInch, 0).Floors(c.v, &cutopt.Bound{Planks: c.bound}); got != want {
				t.Errorf("%s: %q, want %q", language, got, want)
			}
		}
	}
}
