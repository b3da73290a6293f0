package measure_test

import (
	"errors"
	"slices"
	"testing"

	"plank.example/cutopt/measure"
)

func TestParseSize(t *testing.T) {
	const in, ft, mm = measure.Inch, measure.Foot, measure.Millimetre
	for _, tt := range []struct {
		text string
		bare measure.Unit
		want []measure.Length
	}{
		{`14' 6" x 11' 2"`, measure.UnitInch, []measure.Length{174 * in, 134 * in}},
		{"48x7", measure.UnitInch, []measure.Length{48 * in, 7 * in}},
		{"48 X 7 × 1/4", measure.UnitInch, []measure.Length{48 * in, 7 * in, in / 4}},
		{"14‘ x 10’", measure.UnitInch, []measure.Length{14 * ft, 10 * ft}}, // the marks an editor turns ' into
		{"14ft 6in by 10ft 11in", measure.UnitInch, []measure.Length{174 * in, 131 * in}},
		{"20ftx10ft", measure.UnitInch, []measure.Length{20 * ft, 10 * ft}},
		{"1.22 m BY 180 mm", measure.UnitInch, []measure.Length{1220 * mm, 180 * mm}},
		{"1220x180", measure.UnitMillimetre, []measure.Length{1220 * mm, 180 * mm}},
	} {
		got, err := measure.ParseSize(tt.text, tt.bare)
		if err != nil || !slices.Equal(got, tt.want) {
			t.Errorf("%q is %v, %v; want %v", tt.text, got, err, tt.want)
		}
	}
}

func TestParseSizeRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":            "it is empty",
		"14":          "a size is two lengths with x between them",
		"1x2x3x4":     "a size is two lengths with x between them",
		"14 x 11 ft":  "only one of its lengths has a unit",
		"14' x 11":    "only one of its lengths has a unit",
		"14 x":        "a size is two lengths with x between them",
		"x 14":        "a size is two lengths with x between them",
		"14 x 1,5":    `a comma may mean decimals or thousands: "1,5" at character 6`,
		"14 × foo":    "only one of its lengths has a unit",
		"14ft × 1foo": `unknown unit: "foo" at character 9`,
		"-1 x 2":      "a length is not negative: \"-1 \" at character 1",
	} {
		_, err := measure.ParseSize(text, measure.UnitInch)
		var pe *measure.ParseError
		if !errors.As(err, &pe) || pe.Reason() != want {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
}
