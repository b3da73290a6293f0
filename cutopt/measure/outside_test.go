package measure_test

import (
	"testing"

	"plank.example/cutopt/measure"
)

func length(t *testing.T, text string) measure.Length {
	t.Helper()
	l, err := measure.Parse(text, mm)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// The relations between the units are exact by definition: the international yard and pound agreement of 1959 makes
// 1 in = 25.4 mm (NIST Special Publication 811, appendix B).
func TestUnitsAreExact(t *testing.T) {
	for _, pair := range [][2]string{
		{"1 in", "25.4 mm"},
		{"1 ft", "0.3048 m"},
		{"1 ft", "12 in"},
		{"1/64 in", "0.396875 mm"},
		{"1 m", "100 cm"},
		{"10 in", "254 mm"},
		{"48 in", "121.92 cm"},
	} {
		if a, b := length(t, pair[0]), length(t, pair[1]); a != b || a == 0 {
			t.Errorf("%s = %d ticks, %s = %d ticks", pair[0], a, pair[1], b)
		}
	}
	for _, pair := range [][2]string{
		{"1 sq ft", "0.09290304 m2"},
		{"144 sq in", "1 sq ft"},
		{"1 sq in", "6.4516 cm2"},
		{"10.763910416709722 sq ft", "1 m2"}, // 1/0.09290304, to 15 decimals
	} {
		a, errA := measure.ParseArea(pair[0], in)
		b, errB := measure.ParseArea(pair[1], in)
		if errA != nil || errB != nil || a != b || a == 0 {
			t.Errorf("%s = %d, %s = %d square ticks (%v, %v)", pair[0], a, pair[1], b, errA, errB)
		}
	}
}

// Worked examples of OpenStax, Prealgebra 2e, section "Systems of Measurement".
func TestPublishedSums(t *testing.T) {
	// Four planks of 6 ft 4 in, laid end to end.
	if got := (4 * length(t, "6 ft 4 in")).Format(ft, measure.Inch); got != `25' 4"` {
		t.Errorf("four planks of 6 ft 4 in are %s, the book says 25 ft 4 in", got)
	}
	// Mouldings of 8 ft 7 in and 12 ft 11 in.
	if got := (length(t, "8 ft 7 in") + length(t, "12 ft 11 in")).Format(ft, measure.Inch); got != `21' 6"` {
		t.Errorf("8 ft 7 in and 12 ft 11 in are %s, the book says 21 ft 6 in", got)
	}
}

// Worked examples of areas, in the unit they are printed in.
func TestPublishedAreas(t *testing.T) {
	for _, row := range []struct{ width, depth, want, source string }{
		{"29 ft", "16 ft", "464.0 sq ft", `OpenStax, Contemporary Mathematics, "Area"`},
		{"15 ft", "14 ft", "210.0 sq ft", `OpenStax, Prealgebra 2e, "Rectangles, Triangles, Trapezoids"`},
	} {
		area := measure.Area(length(t, row.width)) * measure.Area(length(t, row.depth))
		if got := area.Format(ft); got != row.want {
			t.Errorf("%s x %s is %s, want %s (%s)", row.width, row.depth, got, row.want, row.source)
		}
	}
}
