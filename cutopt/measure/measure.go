// Package measure holds exact lengths and areas: what a tape and a product label say, as whole numbers.
package measure

import "fmt"

// Length is a length in ticks of 1/320 mm. Every unit below is a whole number of ticks, so sums, differences and
// comparisons of lengths are exact.
type Length int64

// Units of length, each exact.
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

// Area is an area in square ticks, (1/320 mm)².
type Area int64

// Units of area, each exact.
const (
	SquareFoot  Area = Area(Foot) * Area(Foot)
	SquareMetre Area = Area(Metre) * Area(Metre)
)

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

var unitNames = [...]string{"in", "ft", "mm", "cm", "m"}
var unitSizes = [...]Length{Inch, Foot, Millimetre, Centimetre, Metre}

// String returns the unit's name as job files spell it.
func (u Unit) String() string {
	if int(u) < len(unitNames) {
		return unitNames[u]
	}
	return fmt.Sprintf("Unit(%d)", uint8(u))
}

// Size returns the length of one unit.
func (u Unit) Size() Length { return unitSizes[u] }

// A Point is a place in the plane.
type Point struct{ X, Y Length }
