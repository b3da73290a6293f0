package measure

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// Decimal returns the shortest decimal number of units u that [FromDecimal] and [ParseSigned] read back as the same
// length. It has at most 3 decimals in millimetres, 4 in centimetres and inches, 5 in feet and 6 in metres.
func (l Length) Decimal(u Unit) string { return signed(int64(l), u.Size()) }

// signed returns the shortest decimal number d for which d*size rounds to ticks.
func signed[T ~int64](ticks int64, size T) string {
	if ticks < 0 {
		return "-" + decimal(-uint64(ticks), uint64(size))
	}
	return decimal(uint64(ticks), uint64(size))
}

// decimal returns the shortest decimal number d for which d*size rounds to ticks. Size is even, as all units are, so
// midway cases round alike with and without the whole units.
func decimal(ticks, size uint64) string {
	text := strconv.FormatUint(ticks/size, 10)
	rest, unit := new(big.Int).SetUint64(ticks%size), new(big.Int).SetUint64(size)
	if rest.Sign() == 0 {
		return text
	}
	ten := big.NewInt(10)
	for places, scale := 1, ten; ; places, scale = places+1, new(big.Int).Mul(scale, ten) {
		digits, _ := roundRat(new(big.Rat).SetFrac(new(big.Int).Mul(rest, scale), unit))
		back, _ := roundRat(new(big.Rat).SetFrac(new(big.Int).Mul(big.NewInt(digits), unit), scale))
		if back == rest.Int64() { // so digits < scale
			return fmt.Sprintf("%s.%0*d", text, places, digits)
		}
	}
}

// FromDecimal reads a length in units u from a number as JSON spells it: an optional minus sign, digits, an optional
// fraction and an optional exponent of at most two digits. A length between two ticks is rounded to the nearer one,
// midway to the even one. The error is a *ParseError.
func FromDecimal(s string, u Unit) (Length, error) {
	sc, perr := newScanner("number", s)
	if perr != nil {
		return 0, perr
	}
	if !isJSONNumber(s) {
		return 0, sc.fail(0, len(sc.runes), "it is no decimal number", "write it as 12.5")
	}
	v, ok := new(big.Rat).SetString(s)
	if !ok {
		return 0, sc.fail(0, len(sc.runes), "it is no decimal number", "write it as 12.5")
	}
	ticks, ok := roundRat(v.Mul(v, new(big.Rat).SetInt64(int64(u.Size()))))
	if !ok {
		return 0, sc.fail(0, len(sc.runes), "it is too long", "lengths are held up to 28 million kilometres")
	}
	return Length(ticks), nil
}

// isJSONNumber reports whether s is a number of RFC 8259, section 6, with an exponent of at most two digits.
func isJSONNumber(s string) bool {
	s = strings.TrimPrefix(s, "-")
	whole, s := leadingDigits(s)
	if whole == "" || len(whole) > 1 && whole[0] == '0' {
		return false
	}
	var digits string
	if rest, ok := strings.CutPrefix(s, "."); ok {
		if digits, s = leadingDigits(rest); digits == "" {
			return false
		}
	}
	if s == "" {
		return true
	}
	if s[0] != 'e' && s[0] != 'E' {
		return false
	}
	s = s[1:]
	if s != "" && (s[0] == '+' || s[0] == '-') {
		s = s[1:]
	}
	digits, s = leadingDigits(s)
	return s == "" && 1 <= len(digits) && len(digits) <= 2
}

func leadingDigits(s string) (digits, rest string) {
	n := 0
	for n < len(s) && '0' <= s[n] && s[n] <= '9' {
		n++
	}
	return s[:n], s[n:]
}
