package measure

import (
	"fmt"
	"strconv"
)

// Format prints the length in unit u, rounded to a multiple of grid as [Length.Nearest] does:
//
//	UnitInch   22 1/4 in
//	UnitFoot   12' 6 1/2"   (6 1/2" below one foot)
//	metric     1220 mm, 12.5 cm, 3.81 m
//
// Inches are printed with a fraction where the rounded length is a multiple of 1/64 in, else with the shortest decimals
// that read back. A length that is a multiple of grid reads back as itself with [ParseSigned], and with [Parse] when it
// is not negative. A grid of 0 or less stands for one tick.
func (l Length) Format(u Unit, grid Length) string {
	if u == UnitFoot {
		return l.Compact(u, grid)
	}
	return l.Compact(u, grid) + " " + u.String()
}

// Compact prints the length as [Length.Format] does but without the name of the unit, for tables whose heading names
// it. Feet and inches keep their marks.
func (l Length) Compact(u Unit, grid Length) string {
	l = l.Nearest(grid)
	sign, magnitude := "", uint64(l)
	if l < 0 {
		sign, magnitude = "-", -magnitude
	}
	switch u {
	case UnitFoot:
		return sign + feet(magnitude)
	case UnitInch:
		return sign + inches(magnitude)
	}
	return l.Decimal(u)
}

// feet prints ticks as feet, inches and a fraction.
func feet(ticks uint64) string {
	const foot = uint64(Foot)
	in := inches(ticks%foot) + `"`
	if ticks < foot {
		return in
	}
	return strconv.FormatUint(ticks/foot, 10) + "' " + in
}

// inches prints ticks as inches and a fraction.
func inches(ticks uint64) string {
	const inch, step = uint64(Inch), uint64(SixtyFourth)
	if ticks%step != 0 {
		return decimal(ticks, inch)
	}
	whole, part, parts := ticks/inch, ticks%inch/step, uint64(64)
	if part == 0 {
		return strconv.FormatUint(whole, 10)
	}
	for part%2 == 0 {
		part, parts = part/2, parts/2
	}
	fraction := fmt.Sprintf("%d/%d", part, parts)
	if whole == 0 {
		return fraction
	}
	return fmt.Sprintf("%d %s", whole, fraction)
}
