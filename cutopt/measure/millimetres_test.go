package measure_test

import (
	"testing"

	"plank.example/cutopt/measure"
)

// TestMillimetres converts at the border, exactly: an inch is 25.4 mm (NIST Handbook 44, appendix C).
func TestMillimetres(t *testing.T) {
	for l, want := range map[measure.Length]float64{
		0: 0, measure.Inch: 25.4, -measure.Inch: -25.4, measure.Millimetre: 1, 1: 0.003125, 1000 * measure.Metre: 1e6,
	} {
		if got := l.Millimetres(); got != want {
			t.Errorf("%d ticks are %v mm, want %v", int64(l), got, want)
		}
	}
}
