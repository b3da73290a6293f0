package measure

import (
	"math/big"
	"strings"
	"unicode"
)

// A scanner reads numbers and words from a text, and makes the errors.
type scanner struct {
	kind  string
	runes []rune
	pos   int
}

// newScanner refuses texts that are empty or far too long.
func newScanner(kind, s string) (*scanner, *ParseError) {
	sc := &scanner{kind: kind}
	if len(s) > maxText {
		sc.runes = []rune(shorten(s))
		return nil, sc.fail(0, len(sc.runes), "it is too long", "")
	}
	sc.runes = []rune(s)
	sc.spaces()
	if sc.end() {
		return nil, sc.fail(0, 0, "it is empty", "")
	}
	return sc, nil
}

// fail returns the error for the characters from..to.
func (sc *scanner) fail(from, to int, msg, hint string) *ParseError {
	to = min(to, len(sc.runes))
	return &ParseError{
		Kind: sc.kind, Text: string(sc.runes), Part: string(sc.runes[from:to]), Column: from + 1, Msg: msg, Mend: hint,
	}
}

func (sc *scanner) end() bool { return sc.pos >= len(sc.runes) }

// peek returns the next character, or 0 at the end.
func (sc *scanner) peek() rune { return sc.at(sc.pos) }

func (sc *scanner) at(i int) rune {
	if i < len(sc.runes) {
		return sc.runes[i]
	}
	return 0
}

// spaces skips blanks and reports whether there were any.
func (sc *scanner) spaces() bool {
	from := sc.pos
	for !sc.end() && unicode.IsSpace(sc.peek()) {
		sc.pos++
	}
	return sc.pos > from
}

// digits reads a run of ASCII digits.
func (sc *scanner) digits() string {
	from := sc.pos
	for isDigit(sc.peek()) {
		sc.pos++
	}
	return string(sc.runes[from:sc.pos])
}

// word reads a run of letters, and the full stop of an abbreviation.
func (sc *scanner) word() string {
	from := sc.pos
	for unicode.IsLetter(sc.peek()) {
		sc.pos++
	}
	w := string(sc.runes[from:sc.pos])
	if w != "" && sc.peek() == '.' && !isDigit(sc.at(sc.pos+1)) {
		sc.pos++
	}
	return strings.ToLower(w)
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

// isDash reports the hyphens and minus signs that people type and editors put in their place.
func isDash(r rune) bool {
	return r == '-' || r == '\u2010' || r == '\u2011' || r == '\u2013' || r == '\u2212'
}

func isSlash(r rune) bool { return r == '/' || r == '\u2044' || r == '\u2215' }

// fractions are the characters that stand for a whole fraction.
var fractions = map[rune][2]int64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4}, '⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5},
	'⅙': {1, 6}, '⅚': {5, 6}, '⅐': {1, 7}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8}, '⅑': {1, 9}, '⅒': {1, 10},
}

// number reads a whole number, a decimal number, a fraction or a mixed number ("6 1/2", "6-1/2", "6½"). whole says
// that it has no decimals and no fraction.
func (sc *scanner) number() (v *big.Rat, whole bool, err *ParseError) {
	from := sc.pos
	if f, ok := fractions[sc.peek()]; ok {
		sc.pos++
		return big.NewRat(f[0], f[1]), false, sc.after(from)
	}
	units := sc.digits()
	if sc.peek() == '.' {
		return sc.decimals(from, units)
	}
	if units == "" {
		return nil, false, sc.noNumber(from)
	}
	if isSlash(sc.peek()) {
		v, err = sc.fraction(from, units)
		return v, false, err
	}
	v = ratOf(units)
	rest, mixed, err := sc.mixedRest(from)
	if err != nil {
		return nil, false, err
	}
	if mixed {
		v.Add(v, rest)
	}
	return v, !mixed, sc.after(from)
}

// decimals reads the point and what follows it.
func (sc *scanner) decimals(from int, units string) (*big.Rat, bool, *ParseError) {
	sc.pos++
	decimals := sc.digits()
	if decimals == "" {
		return nil, false, sc.fail(from, sc.pos, "a number does not end with a point", "add the decimals or drop the point")
	}
	v, _ := new(big.Rat).SetString("0" + units + "." + decimals)
	return v, false, sc.after(from)
}

// noNumber is the error for text where a number should begin.
func (sc *scanner) noNumber(from int) *ParseError {
	if sc.end() {
		return sc.fail(from, from, "a number is missing at the end", "")
	}
	to := from + 1
	for unicode.IsLetter(sc.peek()) && unicode.IsLetter(sc.at(to)) {
		to++
	}
	return sc.fail(from, to, "it should begin with a number", "write a number such as 6, 6.5 or 6 1/2, then the unit")
}

// fraction reads the slash and the denominator.
func (sc *scanner) fraction(from int, numerator string) (*big.Rat, *ParseError) {
	sc.pos++
	denominator := sc.digits()
	if denominator == "" {
		return nil, sc.fail(from, sc.pos, "the fraction has no denominator", "write it as 1/2")
	}
	d := ratOf(denominator)
	if d.Sign() == 0 {
		return nil, sc.fail(from, sc.pos, "the fraction divides by zero", "write it as 1/2")
	}
	return d.Quo(ratOf(numerator), d), sc.after(from)
}

// mixedRest reads the fraction of a mixed number, if one follows the whole number that began at from: after blanks, a
// dash without blanks, or nothing.
func (sc *scanner) mixedRest(from int) (*big.Rat, bool, *ParseError) {
	back := sc.pos
	if isDash(sc.peek()) {
		sc.pos++
	} else {
		sc.spaces()
	}
	if f, ok := fractions[sc.peek()]; ok {
		sc.pos++
		return big.NewRat(f[0], f[1]), true, nil
	}
	at := sc.pos
	numerator := sc.digits()
	if numerator == "" || at == back || !isSlash(sc.peek()) {
		sc.pos = back
		return nil, false, nil
	}
	v, err := sc.fraction(at, numerator)
	if err == nil && v.Cmp(big.NewRat(1, 1)) >= 0 {
		err = sc.fail(from, sc.pos, "the fraction of a mixed number is below 1", "")
	}
	return v, true, err
}

// after refuses what may not follow a number directly.
func (sc *scanner) after(from int) *ParseError {
	next, then := sc.peek(), sc.at(sc.pos+1)
	to := sc.pos + 1
	for isDigit(sc.at(to)) {
		to++
	}
	_, vulgar := fractions[next]
	switch {
	case next == ',':
		return sc.fail(from, to, "a comma may mean decimals or thousands",
			"use a point for decimals and nothing between thousands")
	case next == '_' || next == '\u2009' && isDigit(then):
		return sc.fail(from, to, "digits are not grouped", "write 1000, not 1_000")
	case (next == 'e' || next == 'E') && (isDigit(then) || isDash(then) || then == '+'):
		return sc.fail(from, sc.pos+2, "no powers of ten", "write the number out")
	case next == '.' || isSlash(next) || vulgar:
		return sc.fail(from, sc.pos+1, "this is no number", "write it as 6.5 or 6 1/2")
	}
	return nil
}

// ratOf reads digits.
func ratOf(digits string) *big.Rat {
	v, _ := new(big.Rat).SetString(digits)
	return v
}

// roundRat returns the whole number nearest to v, midway the even one, and whether it fits in 64 bits.
func roundRat(v *big.Rat) (int64, bool) {
	q, r := new(big.Int).DivMod(v.Num(), v.Denom(), new(big.Int)) // the denominator is above 0: r >= 0
	switch r.Lsh(r, 1).Cmp(v.Denom()) {
	case 1:
		q.Add(q, big.NewInt(1))
	case 0:
		if q.Bit(0) == 1 {
			q.Add(q, big.NewInt(1))
		}
	}
	return q.Int64(), q.IsInt64()
}
