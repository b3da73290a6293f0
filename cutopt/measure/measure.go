// Package measure holds exact lengths and areas: what a tape and a product label say, as whole numbers.
//
// A [Length] counts ticks of 1/320 mm. One inch is 25.4 mm exactly, so one sixty-fourth of an inch is 127 ticks and
// one millimetre 320: both systems are exact, and so is every sum, difference and comparison. Programs multiply by a
// unit, as they do with package time:
//
//	width := 7*measure.Inch + measure.Inch/4 // 7 1/4 in
//	gap := 6 * measure.Millimetre
//
// No floating-point number is used to read, reckon with or print a length. [Length.Millimetres] and [Area.PercentOf]
// give one, for drawings and reports; a figure that a program has in floating point is rounded first and then
// multiplied, or goes through [FromDecimal].
//
// [Parse] reads what people write ("12' 6-1/2\"", "3.81 m", "22½"), [Length.Format] prints a length on a graduation,
// and what was printed reads back as the same length. [Length.Decimal] and [FromDecimal] do the same for files.
//
// All functions are safe for use by several goroutines. Those that take a [Unit] panic for one that is none of the
// constants.
package measure

import (
	"fmt"
)

// Length is a length in ticks of 1/320 mm. Every unit below is a whole number of ticks, so sums, differences and
// comparisons of lengths are exact. A bare number is ticks: 48 is 48/320 mm, and 48*Inch four feet.
//
// Package fmt prints a Length as its ticks, since package rows counts the lengths of bare problems in any unit; people
// read what [Length.Format] prints.
type Length int64

// Units of length, each exact (1 in = 25.4 mm).
const (
	Tick        Length = 1
	Millimetre  Length = 320
	Centimetre  Length = 10 * Millimetre
	Metre       Length = 1000 * Millimetre
	SixtyFourth Length = 127 // 1/64 in
	Sixteenth   Length = 4 * SixtyFourth
	Inch        Length = 64 * SixtyFourth
	Foot        Length = 12 * Inch
)

// Area is an area in square ticks, (1/320 mm)². The largest is about 90 square kilometres.
type Area int64

// Units of area, each exact.
const (
	SquareFoot  Area = Area(Foot) * Area(Foot)
	SquareMetre Area = Area(Metre) * Area(Metre)
)

// A Point is a place in the plane.
type Point struct{ X, Y Length }

// Unit is the unit in which a job is written and printed.
type Unit uint8

// The units of a job. The zero value is UnitInch.
const (
	UnitInch       Unit = iota // "in": inches and fractions
	UnitFoot                   // "ft": feet, inches and fractions; a bare number is feet
	UnitMillimetre             // "mm"
	UnitCentimetre             // "cm"
	UnitMetre                  // "m"
)

var (
	unitNames = [...]string{"in", "ft", "mm", "cm", "m"}
	unitSizes = [...]Length{Inch, Foot, Millimetre, Centimetre, Metre}
)

// String returns the unit's name as job files spell it.
func (u Unit) String() string {
	if int(u) < len(unitNames) {
		return unitNames[u]
	}
	return fmt.Sprintf("Unit(%d)", uint8(u))
}

// Size returns the length of one unit.
func (u Unit) Size() Length { return unitSizes[u] }

// Metric reports whether u is one of the metric units.
func (u Unit) Metric() bool { return u >= UnitMillimetre }

// MarshalText returns the unit's name. It fails for a value that is none of the constants.
func (u Unit) MarshalText() ([]byte, error) {
	if int(u) >= len(unitNames) {
		return nil, fmt.Errorf("measure: %v is no unit", u)
	}
	return []byte(unitNames[u]), nil
}

// UnmarshalText reads a unit as [ParseUnit] does.
func (u *Unit) UnmarshalText(text []byte) error {
	v, err := ParseUnit(string(text))
	if err != nil {
		return err
	}
	*u = v
	return nil
}

// Millimetres returns the length in millimetres, as the nearest float64: for drawing, and for programs that reckon in
// floating point. Nothing in this module reckons with it.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }
