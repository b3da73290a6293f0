package measure_test

import (
	"testing"

	"plank.example/cutopt/measure"
)

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := measure.Parse(`12' 6 1/2"`, in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	l := 150*measure.Inch + measure.Inch/2
	for b.Loop() {
		l.Format(ft, measure.Sixteenth)
	}
}

func BenchmarkDecimal(b *testing.B) {
	l := 1220 * measure.Millimetre
	for b.Loop() {
		l.Decimal(in)
	}
}
