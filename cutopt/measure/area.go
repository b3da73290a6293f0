package measure

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"
)

const useAreas = "use sq ft, sq in, m2, cm2 or mm2"

// areaUnits holds the size of every unit of area by its name without blanks, stops and carets.
var areaUnits = func() map[string]Area {
	m := map[string]Area{"sf": SquareFoot}
	for word, u := range unitWords {
		size := Area(u.Size()) * Area(u.Size())
		m["sq"+word], m["square"+word], m[word+"2"], m[word+"²"] = size, size, size, size
	}
	return m
}()

// areaUnit returns the unit of area that goes with a unit of length: square feet or square metres.
func areaUnit(u Unit) (size Area, name string) {
	if u.Metric() {
		return SquareMetre, "m²"
	}
	return SquareFoot, "sq ft"
}

// ParseArea reads an area that is 0 or more: a number as [Parse] reads it, then a unit such as "sq ft", "ft2", "ft²",
// "square feet", "sq in", "m2", "m²". Without a unit it is in square feet where bare is inches or feet, and in square
// metres where bare is metric. An area between two square ticks is rounded to the nearer one, midway to the even one.
// The error is a *ParseError.
func ParseArea(s string, bare Unit) (Area, error) {
	sc, perr := newScanner("area", s)
	if perr != nil {
		perr.Mend = "write a number and a unit, such as 19.6 sq ft or 2.2 m2"
		return 0, perr
	}
	if _, perr = sc.sign(false); perr != nil {
		perr.Msg = strings.Replace(perr.Msg, "a length", "an area", 1)
		return 0, perr
	}
	from := sc.pos
	v, _, perr := sc.number()
	if perr != nil {
		return 0, perr
	}
	sc.spaces()
	size, _ := areaUnit(bare)
	if !sc.end() {
		name := strings.Map(areaRune, string(sc.runes[sc.pos:]))
		var ok bool
		if size, ok = areaUnits[name]; !ok {
			msg := "unknown unit of area"
			if _, length := unitWords[name]; length {
				msg = "this is a unit of length"
			}
			return 0, sc.fail(sc.pos, len(sc.runes), msg, useAreas)
		}
	}
	ticks, ok := roundRat(v.Mul(v, new(big.Rat).SetInt64(int64(size))))
	if !ok {
		return 0, sc.fail(from, len(sc.runes), "it is too large", "areas are held up to 90 square kilometres")
	}
	return Area(ticks), nil
}

// areaRune drops what the names of units are written with and without.
func areaRune(r rune) rune {
	if r == '.' || r == '^' || unicode.IsSpace(r) {
		return -1
	}
	return unicode.ToLower(r)
}

// Format prints the area in square feet where u is inches or feet and in square metres where it is metric, to one
// decimal, midway to the even digit: "163.3 sq ft", "15.2 m²".
func (a Area) Format(u Unit) string {
	size, name := areaUnit(u)
	tenths := new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(int64(a)), big.NewInt(10)), big.NewInt(int64(size)))
	n, _ := roundRat(tenths) // fits: the unit is more than ten square ticks
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	return fmt.Sprintf("%s%d.%d %s", sign, n/10, n%10, name)
}

// Decimal returns the shortest decimal number of square feet (u is inches or feet) or square metres (u is metric) that
// [ParseArea] reads back as the same area.
func (a Area) Decimal(u Unit) string {
	size, _ := areaUnit(u)
	return signed(int64(a), size)
}

// PercentOf returns a as a percentage of whole; 0 where whole is 0.
func (a Area) PercentOf(whole Area) float64 {
	if whole == 0 {
		return 0
	}
	return 100 * float64(a) / float64(whole)
}
