package measure_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"plank.example/cutopt/measure"
)

const (
	in = measure.UnitInch
	ft = measure.UnitFoot
	mm = measure.UnitMillimetre
	cm = measure.UnitCentimetre
	m  = measure.UnitMetre
)

func TestParse(t *testing.T) {
	const inch, foot, mil = measure.Inch, measure.Foot, measure.Millimetre
	for _, row := range []struct {
		text   string
		bare   measure.Unit
		want   measure.Length
		reason string
	}{
		{`12' 6-1/2"`, mm, 12*foot + 13*inch/2, "marks, and a dash within the mixed number"},
		{`12ft 6 1/2in`, mm, 12*foot + 13*inch/2, "names without blanks"},
		{`12 ft. 6 in.`, mm, 12*foot + 6*inch, "abbreviations with a stop"},
		{`12'-6 1/2"`, mm, 12*foot + 13*inch/2, "a dash between feet and inches, as drawings have it"},
		{`12' - 6"`, mm, 12*foot + 6*inch, "and blanks round it"},
		{`12'6`, mm, 12*foot + 6*inch, "after feet a bare number is inches"},
		{`12′6½″`, mm, 12*foot + 13*inch/2, "primes and a fraction sign"},
		{`12’ 6½”`, mm, 12*foot + 13*inch/2, "curly quotes"},
		{`12´ 6''`, mm, 12*foot + 6*inch, "an acute accent for feet, two apostrophes for inches"},
		{`12'½"`, mm, 12*foot + inch/2, "a fraction of an inch alone"},
		{`12 FEET 6 Inches`, mm, 12*foot + 6*inch, "case does not matter"},
		{`12'`, mm, 12 * foot, "feet alone"},
		{`6 1/2`, in, 13 * inch / 2, "a bare mixed number takes the unit"},
		{`6 1/2`, ft, 13 * foot / 2, "whatever that is"},
		{`6-1/2`, in, 13 * inch / 2, "with a dash"},
		{`6½`, in, 13 * inch / 2, "with a fraction sign"},
		{`6⁄8`, in, 3 * inch / 4, "the fraction slash"},
		{`13/16`, in, 13 * measure.Sixteenth, "a fraction alone"},
		{`5/4`, in, 5 * inch / 4, "board thickness by the quarter"},
		{`150.5`, mm, 301 * mil / 2, "decimals"},
		{`.5`, in, inch / 2, "nothing before the point"},
		{`3.81 m`, in, 3810 * mil, "a unit overrides the bare one"},
		{`1220mm`, in, 1220 * mil, "no blank before the unit"},
		{`1.2 cm`, in, 12 * mil, ""},
		{`3 m 81 cm`, in, 3810 * mil, "metres and centimetres"},
		{`3 m 81 cm 5 mm`, in, 3815 * mil, "and millimetres"},
		{`3 m 5 mm`, in, 3005 * mil, "a unit left out"},
		{`2 metres`, in, 2000 * mil, "long names"},
		{`012`, mm, 12 * mil, "leading zeros mean nothing: it is not octal"},
		{"\u00a012\u202fmm\t", in, 12 * mil, "every kind of blank"},
		{`0`, in, 0, "nothing is a length"},
		{`1/3 ft`, in, 4 * inch, "exact though the fraction is no decimal"},
		{`1/3 in`, in, 2709, "8128/3 = 2709.33 ticks: the nearest"},
		{`0.0015625 mm`, mm, 0, "half a tick: the even one, 0"},
		{`0.0046875 mm`, mm, 2, "one tick and a half: the even one, 2"},
		{`28823037615171174.396875 mm`, in, math.MaxInt64, "the longest: (2^63-1)/320 mm"},
	} {
		got, err := measure.Parse(row.text, row.bare)
		if err != nil || got != row.want {
			t.Errorf("Parse(%q, %v) = %d, %v; want %d (%s)", row.text, row.bare, got, err, row.want, row.reason)
		}
		if signed, err := measure.ParseSigned(row.text, row.bare); err != nil || signed != got {
			t.Errorf("ParseSigned(%q, %v) = %d, %v; want what Parse returns", row.text, row.bare, signed, err)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, row := range []struct {
		text, part string
		column     int
		msg        string
	}{
		{``, ``, 1, "empty"},
		{`   `, ``, 1, "empty"},
		{`3,81 m`, `3,81`, 1, "comma"},
		{`1,000`, `1,000`, 1, "comma"},
		{`1_000`, `1_000`, 1, "grouped"},
		{`1e3`, `1e3`, 1, "powers of ten"},
		{`1E-3`, `1E-`, 1, "powers of ten"},
		{`NaN`, `NaN`, 1, "begin with a number"},
		{`Infinity`, `Infinity`, 1, "begin with a number"},
		{`--`, `--`, 1, "begin with a number"},
		{`--5`, `--`, 1, "begin with a number"},
		{`-`, `-`, 1, "begin with a number"},
		{`-5`, `-5`, 1, "not negative"},
		{`+5`, `+`, 1, "plus sign"},
		{`5/0`, `5/0`, 1, "divides by zero"},
		{`6 5/0`, `5/0`, 3, "divides by zero"},
		{`5/`, `5/`, 1, "no denominator"},
		{`6 5/4`, `6 5/4`, 1, "below 1"},
		{`5.`, `5.`, 1, "end with a point"},
		{`.`, `.`, 1, "end with a point"},
		{`1.5.2`, `1.5.`, 1, "no number"},
		{`1/2/3`, `1/2/`, 1, "no number"},
		{`1½½`, `1½½`, 1, "no number"},
		{`1.5½`, `1.5½`, 1, "no number"},
		{`12 6`, `12 6`, 1, "no unit between"},
		{`6-2`, `6-2`, 1, "no unit between"},
		{`6 - 1/2`, `6 - 1/2`, 1, "no unit between"}, // it may mean 5 1/2
		{`6 -1/2`, `6 -1/2`, 1, "no unit between"},
		{`12' 6" 3`, `3`, 8, "needs a unit"},
		{`3 m 81`, `81`, 5, "needs a unit"},
		{`12.5' 6"`, `12.5' 6"`, 1, "only the last"},
		{`12' 12"`, `12"`, 5, "as much as one ft"},
		{`3 m 100 cm`, `100 cm`, 5, "as much as one m"},
		{`6" 12'`, `12'`, 4, "does not continue"},
		{`12' 3 cm`, `3 cm`, 5, "does not continue"},
		{`12' 3'`, `3'`, 5, "does not continue"},
		{`12 ftt`, `ftt`, 4, "unknown unit"},
		{`12 yd`, `yd`, 4, "unknown unit"},
		{`12' 6" x`, `x`, 8, "not part of a length"},
		{`12' -`, `-`, 5, "not part of a length"},
		{`0x10`, `x`, 2, "unknown unit"},
		{`१२`, `१`, 1, "begin with a number"},
		{`28823037615171174.4 mm`, `28823037615171174.4 mm`, 1, "too long"},
		{`99999999999999999999 m`, `99999999999999999999 m`, 1, "too long"},
		{strings.Repeat("1", 121), ``, 1, "too long"},
	} {
		_, err := measure.Parse(row.text, in)
		var pe *measure.ParseError
		if !errors.As(err, &pe) {
			t.Errorf("Parse(%.40q): error %v, want a *ParseError", row.text, err)
			continue
		}
		if len(row.text) > 120 {
			row.part = pe.Part // the shortened text
		}
		if pe.Part != row.part || pe.Column != row.column || !strings.Contains(pe.Msg, row.msg) {
			t.Errorf("Parse(%.40q): part %q at %d, %q; want %q at %d, %q",
				row.text, pe.Part, pe.Column, pe.Msg, row.part, row.column, row.msg)
		}
		if len(err.Error()) > 400 || !strings.Contains(err.Error(), "as a length") {
			t.Errorf("Parse(%.40q): message %q", row.text, err)
		}
	}
}

func TestParseSigned(t *testing.T) {
	for _, row := range []struct {
		text string
		want measure.Length
	}{
		{`-2' 6"`, -30 * measure.Inch},
		{`-6½`, -13 * measure.Inch / 2},
		{"\u22126 1/2", -13 * measure.Inch / 2},
		{`-0`, 0},
		{`-0.0046875 mm`, -2}, // a tick and a half: the even one
		{`-28823037615171174.4 mm`, math.MinInt64},
	} {
		if got, err := measure.ParseSigned(row.text, in); err != nil || got != row.want {
			t.Errorf("ParseSigned(%q) = %d, %v; want %d", row.text, got, err, row.want)
		}
	}
	for _, text := range []string{"--5", "- 5", "-", "+5", "5-"} {
		if got, err := measure.ParseSigned(text, in); err == nil {
			t.Errorf("ParseSigned(%q) = %d, want an error", text, got)
		}
	}
}

func TestParseUnit(t *testing.T) {
	for text, want := range map[string]measure.Unit{
		"in": in, "Inches": in, `"`: in, "''": in, "ft": ft, "feet": ft, "'": ft, "ft.": ft, " mm ": mm, "cm": cm, "metre": m,
		"meters": m, "M": m,
	} {
		got, err := measure.ParseUnit(text)
		if err != nil || got != want {
			t.Errorf("ParseUnit(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "yd", "5", "in in", "in,", "millimeterz", "km", strings.Repeat("m", 500)} {
		_, err := measure.ParseUnit(text)
		var pe *measure.ParseError
		if !errors.As(err, &pe) || !strings.Contains(err.Error(), "use in, ft, mm, cm or m") {
			t.Errorf("ParseUnit(%.20q): error %v, want one that lists the units", text, err)
		}
	}
}

func TestUnitText(t *testing.T) {
	for _, u := range []measure.Unit{in, ft, mm, cm, m} {
		text, err := u.MarshalText()
		if err != nil || string(text) != u.String() {
			t.Errorf("%v.MarshalText() = %q, %v", u, text, err)
		}
		back := measure.Unit(99)
		if err := back.UnmarshalText(text); err != nil || back != u {
			t.Errorf("UnmarshalText(%q) = %v, %v", text, back, err)
		}
		if u.Metric() == (u == in || u == ft) {
			t.Errorf("%v.Metric() = %v", u, u.Metric())
		}
	}
	u := ft
	if err := u.UnmarshalText([]byte("furlong")); err == nil || u != ft {
		t.Errorf("UnmarshalText of a wrong unit: %v, and the unit became %v", err, u)
	}
	if text, err := measure.Unit(5).MarshalText(); err == nil {
		t.Errorf("Unit(5).MarshalText() = %q, want an error", text)
	}
}

func TestParseArea(t *testing.T) {
	const foot, metre = measure.SquareFoot, measure.SquareMetre
	for _, row := range []struct {
		text string
		bare measure.Unit
		want measure.Area
	}{
		{"20", in, 20 * foot},
		{"20", ft, 20 * foot},
		{"2", mm, 2 * metre},
		{"2", m, 2 * metre},
		{"20 sq ft", m, 20 * foot},
		{"20 Sq. Ft.", m, 20 * foot},
		{"20 sqft", m, 20 * foot},
		{"20ft2", m, 20 * foot},
		{"20 ft²", m, 20 * foot},
		{"20 ft^2", m, 20 * foot},
		{"20 square feet", m, 20 * foot},
		{"20 sf", m, 20 * foot},
		{"144 sq in", m, foot},
		{"144in²", m, foot},
		{"1/2 sq ft", m, foot / 2},
		{"2 1/4 m2", in, 9 * metre / 4},
		{"2.5 m²", in, 5 * metre / 2},
		{"10000 cm2", in, metre},
		{"1000000 mm²", in, metre},
		{"3 square metres", in, 3 * metre},
		{"0", in, 0},
	} {
		if got, err := measure.ParseArea(row.text, row.bare); err != nil || got != row.want {
			t.Errorf("ParseArea(%q, %v) = %d, %v; want %d", row.text, row.bare, got, err, row.want)
		}
	}
	for text, msg := range map[string]string{
		"": "empty", "-3 m2": "an area is not negative", "3 m": "unit of length", "3 acres": "unknown unit of area",
		"3,5 m2": "comma", "90071993 m2": "too large", "sq ft": "begin with a number", "3 sq ft 4": "unknown unit of area",
	} {
		_, err := measure.ParseArea(text, in)
		var pe *measure.ParseError
		if !errors.As(err, &pe) || !strings.Contains(err.Error(), msg) || !strings.Contains(err.Error(), "as an area") {
			t.Errorf("ParseArea(%q): error %v, want %q in it", text, err, msg)
		}
	}
}
