package measure

import "math/big"

const useUnits = "use in, ft, mm, cm or m"

var unitWords = map[string]Unit{
	"in": UnitInch, "inch": UnitInch, "inches": UnitInch, "ins": UnitInch,
	"ft": UnitFoot, "foot": UnitFoot, "feet": UnitFoot,
	"mm": UnitMillimetre, "millimetre": UnitMillimetre, "millimetres": UnitMillimetre,
	"millimeter": UnitMillimetre, "millimeters": UnitMillimetre,
	"cm": UnitCentimetre, "centimetre": UnitCentimetre, "centimetres": UnitCentimetre,
	"centimeter": UnitCentimetre, "centimeters": UnitCentimetre,
	"m": UnitMetre, "metre": UnitMetre, "metres": UnitMetre, "meter": UnitMetre, "meters": UnitMetre,
}

// ParseUnit reads the name of a unit: "in", "ft", "mm", "cm", "m", their long names, singular or plural, and the marks
// ' and ". Case does not matter. The error is a *ParseError.
func ParseUnit(s string) (Unit, error) {
	sc, perr := newScanner("unit", s)
	if perr != nil {
		perr.Mend = useUnits
		return 0, perr
	}
	from := sc.pos
	u, ok, perr := sc.unit()
	if perr == nil && !ok {
		perr = sc.fail(from, len(sc.runes), "it is no unit of length", useUnits)
	}
	if sc.spaces(); perr == nil && !sc.end() {
		perr = sc.fail(sc.pos, len(sc.runes), "something follows the unit", useUnits)
	}
	if perr != nil {
		return 0, perr
	}
	return u, nil
}

// Parse reads a length that is 0 or more. It accepts
//
//   - whole, decimal and mixed numbers and fractions: 6, 150.5, .5, 6 1/2, 6-1/2, 6½, 13/16;
//   - the units in, ft, mm, cm, m, their long names, and the marks ' and " in every shape that keyboards and editors
//     give them; a number without a unit is in the unit bare;
//   - feet and inches, 12' 6-1/2", 12ft 6 1/2in, 12'-6", 12' 6, and likewise metres, centimetres and millimetres: units
//     in falling order, only the last with a fraction, each after the first less than one of the unit before it.
//
// Leading zeros mean nothing: 012 is 12. Commas, grouped digits and powers of ten are refused, because they are read in
// more than one way. A length between two ticks is rounded to the nearer one, midway to the even one; no length in
// halves to sixty-fourths of an inch or in hundredths of a millimetre that are multiples of 1/32 mm lies between.
//
// The error is a *ParseError.
func Parse(s string, bare Unit) (Length, error) {
	return parseLength(s, bare, false)
}

// ParseSigned reads a coordinate: a length that may be negative. The sign holds for all of it: -2' 6" is -30 in.
func ParseSigned(s string, bare Unit) (Length, error) {
	return parseLength(s, bare, true)
}

func parseLength(s string, bare Unit, signed bool) (Length, error) {
	sc, perr := newScanner("length", s)
	if perr != nil {
		perr.Mend = "write a number and a unit, such as 12' 6 1/2\" or 3.81 m"
		return 0, perr
	}
	negative, perr := sc.sign(signed)
	if perr != nil {
		return 0, perr
	}
	from := sc.pos
	total, perr := sc.parts(bare)
	if perr != nil {
		return 0, perr
	}
	if negative {
		total.Neg(total)
	}
	ticks, ok := roundRat(total)
	if !ok {
		return 0, sc.fail(from, len(sc.runes), "it is too long", "lengths are held up to 28 billion kilometres")
	}
	return Length(ticks), nil
}

// sign reads a minus sign and refuses what may not stand before a number.
func (sc *scanner) sign(signed bool) (negative bool, err *ParseError) {
	from := sc.pos
	switch {
	case sc.peek() == '+':
		return false, sc.fail(from, from+1, "no plus sign before a number", "drop it")
	case !isDash(sc.peek()):
		return false, nil
	case isDash(sc.at(from+1)) || sc.at(from+1) == 0:
		return false, sc.fail(from, from+2, "it should begin with a number", "")
	case !signed:
		return false, sc.fail(from, len(sc.runes), "a length is not negative", "drop the minus sign")
	}
	sc.pos++
	return true, nil
}

// parts reads the numbers and units of a length up to the end of the text, and returns it in ticks.
func (sc *scanner) parts(bare Unit) (*big.Rat, *ParseError) {
	total := new(big.Rat)
	var last Unit
	for n := 0; ; n++ {
		from := sc.pos
		v, whole, err := sc.number()
		if err != nil {
			return nil, err
		}
		afterNumber := sc.pos
		sc.spaces()
		u, named, err := sc.unit()
		switch {
		case err != nil:
			return nil, err
		case !named && n == 0:
			u = bare
		case !named && last == UnitFoot:
			u = UnitInch
		case !named:
			return nil, sc.fail(from, afterNumber, "this number needs a unit", useUnits)
		}
		if n > 0 {
			if err := sc.order(from, last, u, v); err != nil {
				return nil, err
			}
		}
		total.Add(total, v.Mul(v, new(big.Rat).SetInt64(int64(u.Size()))))
		last = u
		sc.spaces()
		if sc.end() {
			return total, nil
		}
		if err := sc.between(from, named, whole); err != nil {
			return nil, err
		}
	}
}

// order refuses a part that does not continue the part before it.
func (sc *scanner) order(from int, last, u Unit, v *big.Rat) *ParseError {
	size := big.NewRat(int64(last.Size()), int64(u.Size()))
	switch {
	case last.Metric() != u.Metric() || size.Cmp(big.NewRat(1, 1)) <= 0:
		return sc.fail(from, sc.pos, "it does not continue the part before it",
			"write feet, then inches; or metres, then centimetres, then millimetres")
	case v.Cmp(size) >= 0:
		return sc.fail(
			from,
			sc.pos,
			"it is as much as one "+last.String()+" or more",
			"carry it over, or write it in one unit",
		)
	}
	return nil
}

// between steps to the next part of a length. from is where the last part began.
func (sc *scanner) between(from int, named, whole bool) *ParseError {
	at := sc.pos
	if isDash(sc.peek()) {
		sc.pos++
		sc.spaces()
	}
	_, vulgar := fractions[sc.peek()]
	if !isDigit(sc.peek()) && sc.peek() != '.' && !vulgar {
		return sc.fail(at, len(sc.runes), "this is not part of a length", "")
	}
	if !named {
		return sc.fail(
			from,
			len(sc.runes),
			"two numbers and no unit between them",
			"write 6 1/2, or feet and inches as 12' 6\"",
		)
	}
	if !whole {
		return sc.fail(from, len(sc.runes), "only the last number may have a fraction", "")
	}
	return nil
}

// unit reads a unit, if one is next.
func (sc *scanner) unit() (u Unit, ok bool, err *ParseError) {
	from := sc.pos
	switch r := sc.peek(); {
	case isSingle(r) && isSingle(sc.at(from+1)): // '' as the mark of inches
		sc.pos += 2
		return UnitInch, true, nil
	case isSingle(r):
		sc.pos++
		return UnitFoot, true, nil
	case isDouble(r):
		sc.pos++
		return UnitInch, true, nil
	}
	w := sc.word()
	if w == "" {
		return 0, false, nil
	}
	if u, ok = unitWords[w]; !ok {
		return 0, false, sc.fail(from, sc.pos, "unknown unit", useUnits)
	}
	return u, true, nil
}

// isSingle reports the marks of feet: apostrophe, curly quotes, prime, acute accent and the grave that stands in for
// it.
func isSingle(r rune) bool {
	switch r {
	case '\'', '\u2018', '\u2019', '\u2032', '\u02b9', '\u00b4', '`':
		return true
	}
	return false
}

// isDouble reports the marks of inches: straight and curly quotes and double prime.
func isDouble(r rune) bool {
	switch r {
	case '"', '\u201c', '\u201d', '\u2033', '\u02ba':
		return true
	}
	return false
}
