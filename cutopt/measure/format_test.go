package measure_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"plank.example/cutopt/measure"
)

var units = []measure.Unit{in, ft, mm, cm, m}

// random returns a length between -1 km and 1 km, as often short as long.
func random(rng *rand.Rand) measure.Length {
	l := measure.Length(rng.Int64N(int64(1000*measure.Metre) >> rng.IntN(25)))
	if rng.IntN(2) == 0 {
		return -l
	}
	return l
}

func TestFormat(t *testing.T) {
	const inch, foot, mil = measure.Inch, measure.Foot, measure.Millimetre
	for _, row := range []struct {
		l    measure.Length
		unit measure.Unit
		grid measure.Length
		want string
	}{
		{89 * inch / 4, in, measure.Sixteenth, "22 1/4 in"},
		{inch / 4, in, measure.Sixteenth, "1/4 in"},
		{22 * inch, in, measure.Sixteenth, "22 in"},
		{0, in, measure.Sixteenth, "0 in"},
		{-89 * inch / 4, in, measure.Sixteenth, "-22 1/4 in"},
		{22*inch + measure.SixtyFourth, in, measure.SixtyFourth, "22 1/64 in"},
		{22*inch + measure.SixtyFourth, in, measure.Sixteenth, "22 in"},
		{150*inch + inch/2, ft, measure.Sixteenth, `12' 6 1/2"`},
		{12 * foot, ft, measure.Sixteenth, `12' 0"`},
		{13 * inch / 2, ft, measure.Sixteenth, `6 1/2"`},
		{0, ft, measure.Sixteenth, `0"`},
		{-30 * inch, ft, measure.Sixteenth, `-2' 6"`},
		{12*foot - 1, ft, measure.Sixteenth, `12' 0"`}, // rounding carries into the feet
		{1220 * mil, mm, mil, "1220 mm"},
		{1220*mil + 100, mm, mil, "1220 mm"},
		{1220*mil + 160, mm, mil / 2, "1220.5 mm"},
		{125 * mil, cm, mil, "12.5 cm"},
		{3810 * mil, m, mil, "3.81 m"},
		{-3810 * mil, m, mil, "-3.81 m"},
		{1220 * mil, in, mil, "48.0315 in"}, // a millimetre grid in inches has no fractions
		{1220 * mil, ft, mil, `4' 0.0315"`},
		{inch / 16, mm, measure.Sixteenth, "1.588 mm"}, // 1.5875 mm: three decimals tell the tick
		{inch / 16, mm, mil, "2 mm"},
	} {
		if got := row.l.Format(row.unit, row.grid); got != row.want {
			t.Errorf("(%d).Format(%v, %d) = %q, want %q", row.l, row.unit, row.grid, got, row.want)
		}
		want := strings.TrimSuffix(row.want, " "+row.unit.String())
		if got := row.l.Compact(row.unit, row.grid); got != want {
			t.Errorf("(%d).Compact(%v, %d) = %q, want %q", row.l, row.unit, row.grid, got, want)
		}
	}
}

// A length on the graduation reads back as itself, from every print, whatever the unit of bare numbers is.
func TestFormatReadsBack(t *testing.T) {
	const seed = 20261125
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	grids := []measure.Length{
		0, measure.Tick, measure.SixtyFourth, measure.Sixteenth, measure.Inch / 8, measure.Inch, measure.Foot,
		measure.Millimetre / 2, measure.Millimetre, measure.Centimetre, 7, 12345,
	}
	for range 20_000 {
		grid, unit := grids[rng.IntN(len(grids))], units[rng.IntN(len(units))]
		l := random(rng).Nearest(grid)
		checkReadsBack(t, l, unit, grid)
	}
	for _, l := range []measure.Length{math.MaxInt64, math.MinInt64, math.MinInt64 + 1} {
		for _, unit := range units {
			checkReadsBack(t, l, unit, measure.Tick)
		}
	}
}

func checkReadsBack(t *testing.T, l measure.Length, unit measure.Unit, grid measure.Length) {
	t.Helper()
	for _, bare := range units {
		text := l.Format(unit, grid)
		if got, err := measure.ParseSigned(text, bare); err != nil || got != l {
			t.Fatalf("ParseSigned(%q, %v) = %d, %v; want %d on a grid of %d", text, bare, got, err, l, grid)
		}
		if got, err := measure.Parse(text, bare); (err == nil) != (l >= 0) || err == nil && got != l {
			t.Fatalf("Parse(%q, %v) = %d, %v; want %d, or an error below 0", text, bare, got, err, l)
		}
	}
	text := l.Compact(unit, grid)
	if got, err := measure.ParseSigned(text, unit); err != nil || got != l {
		t.Fatalf("ParseSigned(%q, %v) = %d, %v; want %d", text, unit, got, err, l)
	}
	if got, err := measure.FromDecimal(l.Decimal(unit), unit); err != nil || got != l {
		t.Fatalf("FromDecimal(%q, %v) = %d, %v; want %d", l.Decimal(unit), unit, got, err, l)
	}
}

// Nearest reads a scale as NIST Handbook 44, section 10.3, says: the closer graduation, and exactly midway the even
// one.
func TestNearest(t *testing.T) {
	const s = measure.Sixteenth
	for _, row := range []struct{ l, grid, want measure.Length }{
		{8*s + s/2 - 1, s, 8 * s},
		{8*s + s/2, s, 8 * s}, // midway: 8 is even
		{8*s + s/2 + 1, s, 9 * s},
		{9*s + s/2, s, 10 * s}, // midway: 10 is even
		{-8*s - s/2, s, -8 * s},
		{-9*s - s/2, s, -10 * s},
		{-s / 2, s, 0},
		{5, 10, 0},
		{15, 10, 20},
		{25, 10, 20}, // the even multiple, not the even number
		{7, 5, 5},
		{8, 5, 10},
		{-7, 5, -5},
		{-8, 5, -10}, // an odd graduation has no middle
		{8 * s, s, 8 * s},
		{123, 0, 123},
		{123, -4, 123},
		{math.MaxInt64, 10, math.MaxInt64 - 7},
		{math.MinInt64, 10, math.MinInt64 + 8},
	} {
		if got := row.l.Nearest(row.grid); got != row.want {
			t.Errorf("(%d).Nearest(%d) = %d, want %d", row.l, row.grid, got, row.want)
		}
	}
}

func TestFloorAndCeil(t *testing.T) {
	for _, row := range []struct{ l, grid, floor, ceil measure.Length }{
		{0, 10, 0, 0},
		{1, 10, 0, 10},
		{9, 10, 0, 10},
		{10, 10, 10, 10},
		{-1, 10, -10, 0},
		{-10, 10, -10, -10},
		{-11, 10, -20, -10},
		{17, 0, 17, 17},
		{17, -5, 17, 17},
	} {
		if floor, ceil := row.l.Floor(row.grid), row.l.Ceil(row.grid); floor != row.floor || ceil != row.ceil {
			t.Errorf("%d on a grid of %d: %d and %d, want %d and %d", row.l, row.grid, floor, ceil, row.floor, row.ceil)
		}
	}
	const seed = 7
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 2))
	for range 20_000 {
		l, grid := random(rng), 1+measure.Length(rng.IntN(100_000))
		floor, ceil, nearest := l.Floor(grid), l.Ceil(grid), l.Nearest(grid)
		if floor%grid != 0 || ceil%grid != 0 || floor > l || ceil < l || l-floor >= grid || ceil-l >= grid {
			t.Fatalf("%d on a grid of %d: %d and %d", l, grid, floor, ceil)
		}
		if nearest != floor && nearest != ceil || max(l-nearest, nearest-l) > min(l-floor, ceil-l) {
			t.Fatalf("%d on a grid of %d lies between %d and %d: nearest %d", l, grid, floor, ceil, nearest)
		}
		if (-l).Nearest(grid) != -nearest || (-l).Floor(grid) != -ceil {
			t.Fatalf("%d on a grid of %d: not symmetric about 0", l, grid)
		}
	}
}

// At the ends of the range, where the next multiple does not fit, the last one that does is returned.
// Div rounds down on both sides of 0, as Floor does.
func TestDiv(t *testing.T) {
	for l := measure.Length(-25); l <= 25; l++ {
		for by := measure.Length(1); by <= 9; by++ {
			if got, want := l.Div(by)*by, l.Floor(by); got != want {
				t.Errorf("%d.Div(%d) times %d is %d, want %d", l, by, by, got, want)
			}
		}
	}
}

func TestRoundingDoesNotOverflow(t *testing.T) {
	for _, grid := range []measure.Length{1, 2, 7, 10, 1 << 40, math.MaxInt64} {
		for _, l := range []measure.Length{
			math.MaxInt64, math.MaxInt64 - 1, math.MaxInt64 / 2, math.MinInt64, math.MinInt64 + 1, math.MinInt64 / 2,
		} {
			for name, got := range map[string]measure.Length{
				"Floor": l.Floor(grid), "Ceil": l.Ceil(grid),
				"Nearest": l.Nearest(grid),
			} {
				off := got - l
				if got%grid != 0 || (got < 0) != (l < 0) && got != 0 && l != 0 || max(off, -off) > grid {
					t.Errorf("(%d).%s(%d) = %d", l, name, grid, got)
				}
			}
		}
	}
}
