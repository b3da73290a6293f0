package measure_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"plank.example/cutopt/measure"
)

func TestDecimal(t *testing.T) {
	for _, row := range []struct {
		l    measure.Length
		unit measure.Unit
		want string
	}{
		{0, in, "0"},
		{measure.Inch / 4, in, "0.25"},
		{-measure.Inch / 4, in, "-0.25"},
		{22*measure.Inch + 3*measure.Sixteenth, in, "22.1875"},
		{measure.Inch + measure.SixtyFourth, in, "1.0156"}, // 1.015625 in full: four decimals tell the tick
		{3810 * measure.Millimetre, m, "3.81"},
		{1, mm, "0.003"}, // 0.003125 in full
		{1, m, "0.000003"},
		{1, in, "0.0001"},
		{measure.Foot - 1, ft, "0.99999"},
		{6 * measure.Inch, ft, "0.5"},
	} {
		if got := row.l.Decimal(row.unit); got != row.want {
			t.Errorf("(%d).Decimal(%v) = %q, want %q", row.l, row.unit, got, row.want)
		}
	}
}

// Decimal reads back as the same tick, is a JSON number, and no shorter number does it.
func TestDecimalIsShortestAndReadsBack(t *testing.T) {
	const seed = 42
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 3))
	places := map[measure.Unit]int{in: 4, ft: 5, mm: 3, cm: 4, m: 6}
	for n := range 60_000 {
		l, unit := random(rng), units[n%len(units)]
		if n < 40_000 {
			l = measure.Length(n / len(units)) // every tick of an inch
		}
		text := l.Decimal(unit)
		for _, read := range []func(string, measure.Unit) (measure.Length, error){
			measure.FromDecimal[string],
			measure.ParseSigned,
		} {
			if got, err := read(text, unit); err != nil || got != l {
				t.Fatalf("%q %v read back as %d, %v; want %d", text, unit, got, err, l)
			}
		}
		if !json.Valid([]byte(text)) {
			t.Fatalf("(%d).Decimal(%v) = %q: no JSON number", l, unit, text)
		}
		whole, decimals, point := strings.Cut(text, ".")
		if len(decimals) > places[unit] {
			t.Fatalf("(%d).Decimal(%v) = %q: more than %d decimals", l, unit, text, places[unit])
		}
		if point {
			checkNoShorter(t, l, unit, whole, decimals)
		}
	}
}

// checkNoShorter tries both neighbours with one decimal less.
func checkNoShorter(t *testing.T, l measure.Length, unit measure.Unit, whole, decimals string) {
	t.Helper()
	cut := strings.TrimSuffix(whole+"."+decimals[:len(decimals)-1], ".")
	below, err := measure.FromDecimal(cut, unit)
	if err != nil {
		t.Fatal(err)
	}
	step := unit.Size()
	for range decimals[:len(decimals)-1] {
		step /= 10
	}
	if below == l {
		t.Fatalf("%s.%s %v has a shorter form, %s", whole, decimals, unit, cut)
	}
	if off := l - below; max(off, -off) > step+1 {
		t.Fatalf("%s.%s %v is %d ticks from %s", whole, decimals, unit, off, cut)
	}
}

func TestFromDecimal(t *testing.T) {
	for _, row := range []struct {
		text string
		unit measure.Unit
		want measure.Length
	}{
		{"12.5", in, 25 * measure.Inch / 2},
		{"-12.5", in, -25 * measure.Inch / 2},
		{"1e3", mm, 1000 * measure.Millimetre},
		{"1.5E+2", mm, 150 * measure.Millimetre},
		{"1500e-1", mm, 150 * measure.Millimetre},
		{"0", ft, 0},
		{"-0", ft, 0},
		{"1e-99", m, 0},
	} {
		if got, err := measure.FromDecimal(row.text, row.unit); err != nil || got != row.want {
			t.Errorf("FromDecimal(%q, %v) = %d, %v; want %d", row.text, row.unit, got, err, row.want)
		}
	}
	for _, text := range []string{
		"", " 1", "1 ", "012", "+1", ".5", "5.", "1e", "1e+", "1e100", "0x10", "NaN", "Inf", "1_000", "1,5", "6 1/2", "--1",
		"1e99",
		strings.Repeat("9", 200),
	} {
		_, err := measure.FromDecimal(text, in)
		var pe *measure.ParseError
		if !errors.As(err, &pe) {
			t.Errorf("FromDecimal(%.20q): error %v, want a *ParseError", text, err)
		}
	}
}

func TestAreaText(t *testing.T) {
	for _, row := range []struct {
		a             measure.Area
		unit          measure.Unit
		text, decimal string
	}{
		{464 * measure.SquareFoot, in, "464.0 sq ft", "464"},
		{measure.SquareFoot / 4, ft, "0.2 sq ft", "0.25"},     // midway: the even digit
		{3 * measure.SquareFoot / 4, ft, "0.8 sq ft", "0.75"}, // likewise
		{15*measure.SquareMetre + measure.SquareMetre/5, mm, "15.2 m²", "15.2"},
		{-measure.SquareMetre / 2, m, "-0.5 m²", "-0.5"},
		{0, cm, "0.0 m²", "0"},
	} {
		if got := row.a.Format(row.unit); got != row.text {
			t.Errorf("(%d).Format(%v) = %q, want %q", row.a, row.unit, got, row.text)
		}
		if got := row.a.Decimal(row.unit); got != row.decimal {
			t.Errorf("(%d).Decimal(%v) = %q, want %q", row.a, row.unit, got, row.decimal)
		}
	}
	const seed = 11
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 4))
	for range 5_000 {
		a, unit := measure.Area(rng.Int64()>>rng.IntN(60)), units[rng.IntN(len(units))]
		text := a.Decimal(unit)
		if got, err := measure.ParseArea(text, unit); err != nil || got != a {
			t.Fatalf("ParseArea(%q, %v) = %d, %v; want %d", text, unit, got, err, a)
		}
	}
}

// FromDecimal against exact fractions, whatever the digits: rounded to the nearest tick, midway to the even one.
func TestFromDecimalIsExact(t *testing.T) {
	const seed = 7
	rng := rand.New(rand.NewPCG(seed, 4))
	for range 50_000 {
		unit := units[rng.IntN(len(units))]
		text := strconv.FormatUint(rng.Uint64()>>rng.IntN(64), 10)
		if n := rng.IntN(len(text) + 1); n > 0 {
			text = text[:n] + "." + text[n:] + "0"
		}
		if rng.IntN(2) == 0 {
			text = "-" + text
		}
		if rng.IntN(8) == 0 {
			text += "e-" + strconv.Itoa(rng.IntN(9))
		}
		exact, ok := new(big.Rat).SetString(text)
		if !ok {
			t.Fatalf("seed %d: %q is no number", seed, text)
		}
		exact.Mul(exact, new(big.Rat).SetInt64(int64(unit.Size())))
		got, err := measure.FromDecimal([]byte(text), unit)
		if zeros := strings.TrimPrefix(text, "-"); len(zeros) > 1 && zeros[0] == '0' && zeros[1] != '.' && zeros[1] != 'e' {
			if err == nil {
				t.Errorf("seed %d: %q is read with a leading zero", seed, text)
			}
			continue
		}
		if err != nil {
			if limit := new(big.Rat).SetInt64(math.MaxInt64 - 1); exact.Abs(exact).Cmp(limit) < 0 {
				t.Errorf("seed %d: %q %v: %v", seed, text, unit, err)
			}
			continue
		}
		off := exact.Sub(exact, new(big.Rat).SetInt64(int64(got)))
		if c := off.Abs(off).Cmp(big.NewRat(1, 2)); c > 0 || c == 0 && got%2 != 0 {
			t.Errorf("seed %d: %q %v is %d ticks, off by %v", seed, text, unit, got, off)
		}
	}
}
