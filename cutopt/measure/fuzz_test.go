package measure_test

import (
	"testing"

	"plank.example/cutopt/measure"
)

// What is accepted prints, on the finest grid and in every unit, as something that reads back as the same length.
func FuzzParse(f *testing.F) {
	for _, s := range []string{
		`12' 6-1/2"`, `12ft 6 1/2in`, `6 1/2`, `150.5`, `3.81 m`, `-2' 6½"`, `12'-6"`, `5/0`,
		`1e3`, `3,81`, `0x1p3`,
	} {
		f.Add(s, uint8(0))
	}
	f.Fuzz(func(t *testing.T, s string, u uint8) {
		unit := units[int(u)%len(units)]
		l, err := measure.ParseSigned(s, unit)
		if err != nil {
			if err.Error() == "" {
				t.Fatal("an error without a message")
			}
			return
		}
		for _, unit := range units {
			checkReadsBack(t, l, unit, measure.Tick)
		}
		if p, err := measure.Parse(s, unit); err == nil && p != l {
			t.Fatalf("Parse(%q) = %d, ParseSigned = %d", s, p, l)
		}
	})
}

func FuzzParseArea(f *testing.F) {
	for _, s := range []string{"19.6 sq ft", "2.2 m²", "3 1/2 ft^2", "144 sq. in.", "1 m"} {
		f.Add(s, uint8(0))
	}
	f.Fuzz(func(t *testing.T, s string, u uint8) {
		unit := units[int(u)%len(units)]
		a, err := measure.ParseArea(s, unit)
		if err != nil {
			return
		}
		if back, err := measure.ParseArea(a.Decimal(unit), unit); err != nil || back != a || a < 0 {
			t.Fatalf("ParseArea(%q) = %d, and its decimal %q reads back as %d, %v", s, a, a.Decimal(unit), back, err)
		}
	})
}

func FuzzFromDecimal(f *testing.F) {
	for _, s := range []string{"0", "12.5", "-0.001", "1e3", "1E-3", "012", "NaN"} {
		f.Add(s, uint8(0))
	}
	f.Fuzz(func(t *testing.T, s string, u uint8) {
		unit := units[int(u)%len(units)]
		l, err := measure.FromDecimal(s, unit)
		if err != nil {
			return
		}
		if back, err := measure.FromDecimal(l.Decimal(unit), unit); err != nil || back != l {
			t.Fatalf("FromDecimal(%q) = %d, and its decimal %q reads back as %d, %v", s, l, l.Decimal(unit), back, err)
		}
	})
}
