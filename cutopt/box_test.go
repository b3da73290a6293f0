package cutopt_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// square is the area of a square.
func square(side measure.Length) measure.Area { return measure.Area(side) * measure.Area(side) }

func TestPlanksPer(t *testing.T) {
	plank := cutopt.Plank{Length: 48 * inch, Width: 7 * inch} // 2 1/3 sq ft
	metric := cutopt.Plank{Length: 1220 * measure.Millimetre, Width: 180 * measure.Millimetre}
	foot := measure.SquareFoot
	for _, row := range []struct {
		name  string
		box   cutopt.Box
		plank cutopt.Plank
		want  int // 0 for an error
	}{
		{"planks alone", cutopt.Box{Planks: 8}, plank, 8},
		{"planks alone need no size", cutopt.Box{Planks: 8}, cutopt.Plank{}, 8},
		{"exact", cutopt.Box{Covers: 70 * foot / 3}, plank, 10},
		{"rounded on the label", cutopt.Box{Covers: 2333 * foot / 100}, plank, 10},
		{"exact, metric", cutopt.Box{Covers: 2196 * measure.SquareMetre / 1000}, metric, 10},
		{"5 % of a plank too much", cutopt.Box{Covers: 7 * foot / 3 * 10049 / 10000 * 10}, plank, 10},
		{"a little more than that", cutopt.Box{Covers: 7*foot/3*10 + 7*foot/3*51/1000}, plank, 0},
		{"5 % of a plank too little", cutopt.Box{Covers: 7*foot/3*10 - 7*foot/3*49/1000}, plank, 10},
		{"a little less than that", cutopt.Box{Covers: 7*foot/3*10 - 7*foot/3*51/1000}, plank, 0},
		{"half way", cutopt.Box{Covers: 7 * foot / 6 * 21}, plank, 0},
		{"less than one", cutopt.Box{Covers: foot}, plank, 0},
		{"both agree", cutopt.Box{Planks: 10, Covers: 70 * foot / 3}, plank, 10},
		{"both, 5 % more", cutopt.Box{Planks: 10, Covers: 70 * foot / 3 / 1000 * 1049}, plank, 10},
		{"both, above that", cutopt.Box{Planks: 10, Covers: 70 * foot / 3 / 1000 * 1051}, plank, 0},
		{"both, 5 % less", cutopt.Box{Planks: 10, Covers: 70 * foot / 3 / 1000 * 951}, plank, 10},
		{"both, below that", cutopt.Box{Planks: 10, Covers: 70 * foot / 3 / 1000 * 949}, plank, 0},
		{"neither", cutopt.Box{}, plank, 0},
		{"negative", cutopt.Box{Planks: -1}, plank, 0},
		{"negative covers", cutopt.Box{Planks: 1, Covers: -1}, plank, 0},
		{"covers of planks without a size", cutopt.Box{Covers: foot}, cutopt.Plank{Length: 1}, 0},
		{"too many", cutopt.Box{Covers: math.MaxInt64}, cutopt.Plank{Length: 1, Width: 1}, 0},
		{"beyond all areas", cutopt.Box{Planks: 1000, Covers: 1}, cutopt.Plank{
			Length: cutopt.MaxLength,
			Width:  cutopt.MaxLength,
		}, 0},
		{"a plank of 1 km by 1 km", cutopt.Box{Covers: square(cutopt.MaxLength)}, cutopt.Plank{
			Length: cutopt.MaxLength, Width: cutopt.MaxLength,
		}, 1},
		{"a tick longer than 1 km", cutopt.Box{Covers: square(cutopt.MaxLength)}, cutopt.Plank{
			Length: cutopt.MaxLength + 1, Width: cutopt.MaxLength,
		}, 0},
		{"a tick wider than 1 km", cutopt.Box{Covers: square(cutopt.MaxLength)}, cutopt.Plank{
			Length: cutopt.MaxLength, Width: cutopt.MaxLength + 1,
		}, 0},
	} {
		got, err := row.box.PlanksPer(row.plank)
		var fe *cutopt.FieldError
		if got != row.want || (err == nil) != (row.want > 0) || err != nil && !errors.As(err, &fe) {
			t.Errorf("%s: %d, %v; want %d", row.name, got, err, row.want)
		}
	}
}

func TestMoney(t *testing.T) {
	for text, want := range map[string]cutopt.Money{
		"52": 5200, "52.5": 5250, "52.50": 5250, "0.05": 5, "0": 0, " 7 ": 700, "92233720368547758.07": math.MaxInt64,
	} {
		got, err := cutopt.ParseMoney(text)
		if err != nil || got != want {
			t.Errorf("ParseMoney(%q) = %d, %v; want %d", text, got, err, want)
		}
		if back, err := cutopt.ParseMoney(got.String()); err != nil || back != got {
			t.Errorf("%v read back as %d, %v", got, back, err)
		}
	}
	for _, text := range []string{
		"", ".5", "5.", "5.123", "-5", "+5", "$5", "5 EUR", "1,000", "1e3",
		"92233720368547758.08", "1.2.3", "٣",
	} {
		if got, err := cutopt.ParseMoney(text); err == nil || !strings.Contains(err.Error(), text) {
			t.Errorf("ParseMoney(%q) = %d, %v; want an error that quotes it", text, got, err)
		}
	}
	for m, want := range map[cutopt.Money]string{
		5: "0.05", -5: "-0.05", 123456: "1234.56",
		math.MinInt64: "-92233720368547758.08",
	} {
		if got := m.String(); got != want {
			t.Errorf("Money(%d) is %q, want %q", int64(m), got, want)
		}
	}
}
