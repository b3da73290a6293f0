package tables_test

import (
	"math"
	"testing"

	"plank.example/bench/tables"
	"plank.example/bench/tally"
)

// TestFigures holds what is printed: no interval prints as 0, and nothing prints finer than it is.
func TestFigures(t *testing.T) {
	for _, c := range []struct {
		why, got, want string
	}{
		{"a share, 50 of 100", tables.Share(50, 100), "50.0 ± 9.6"},
		{"all of many: half 0.014 %", tables.Share(14_000, 14_000), "100.00 ± 0.02"},
		{"of nothing", tables.Share(0, 0), "-"},
		{"a difference", tables.Interval(0.7123, 0.0712), "+0.71 ± 0.07"},
		{"a small one", tables.Interval(-0.03412, 0.00412), "-0.034 ± 0.004"},
		{"none differs", tables.Interval(0, 0), "none differs"},
		{"one room", tables.Interval(math.NaN(), math.NaN()), "-"},
		{"1, 2 and 3 %: 4.303 x 1/sqrt 3", tables.Tenths(tally.Histogram{10: 1, 20: 1, 30: 1}), "2.0 ± 2.5"},
		{"a median, no finer than a tenth", tables.TenthsAt(tally.Histogram{47: 10_000}, 0.5), "4.7 ± 0.1"},
		{"1.024 ms", tables.Time(160), "1.0"},
		{"a median time within a step", tables.TimeAt(tally.Histogram{160: 100}, 0.5), "1.0"},
		{"of two halves", tables.TimeAt(tally.Histogram{160: 50, 176: 50}, 0.5), "1.0 (1.0 to 2.0)"},
		{"too short", tables.Time(16), "< 0.1"},
		{"two figures", tables.TwoFigures(12_345), "12000"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %q, want %q", c.why, c.got, c.want)
		}
	}
}
