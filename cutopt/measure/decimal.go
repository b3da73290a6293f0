package measure

import (
	"fmt"
	"math"
	"math/big"
	"math/bits"
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
	rest := ticks % size
	if rest == 0 {
		return text
	}
	for places, scale := 1, uint64(10); ; places, scale = places+1, scale*10 {
		digits := mulDiv(rest, scale, size)
		if mulDiv(digits, size, scale) == rest { // so digits < scale
			return fmt.Sprintf("%s.%0*d", text, places, digits)
		}
	}
}

// mulDiv returns a*b/c to the nearest whole number, midway the even one, for a quotient below 2^64.
func mulDiv(a, b, c uint64) uint64 {
	high, low := bits.Mul64(a, b)
	q, r := bits.Div64(high, low, c)
	if r > c-r || r == c-r && q%2 == 1 {
		q++
	}
	return q
}

// FromDecimal reads a length in units u from a number as JSON spells it: an optional minus sign, digits, an optional
// fraction and an optional exponent of at most two digits. A length between two ticks is rounded to the nearer one,
// midway to the even one. The error is a *ParseError.
func FromDecimal[T string | []byte](number T, u Unit) (Length, error) {
	if l, ok := plainDecimal(number, uint64(u.Size())); ok {
		return l, nil
	}
	s := string(number)
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
		return 0, sc.fail(0, len(sc.runes), "it is too long", "lengths are held up to 28 billion kilometres")
	}
	return Length(ticks), nil
}

// plainDecimal reads a number without an exponent whose digits, times the unit, fit in 63 bits: as good as all of them.
func plainDecimal[T string | []byte](s T, size uint64) (Length, bool) {
	if size == 0 {
		return 0, false
	}
	i, negative := 0, false
	if len(s) > 0 && s[0] == '-' {
		i, negative = 1, true
	}
	first, n, scale, point := i, uint64(0), uint64(1), -1
	for ; i < len(s); i++ {
		c := s[i]
		switch {
		case '0' <= c && c <= '9' && n < math.MaxInt64/size/10-1 && scale < 1e17:
			n = 10*n + uint64(c-'0')
			if point >= 0 {
				scale *= 10
			}
		case c == '.' && point < 0 && i > first:
			point = i
		default:
			return 0, false
		}
	}
	if i == first || point == i-1 || s[first] == '0' && i > first+1 && point != first+1 {
		return 0, false
	}
	l := Length(mulDiv(n, size, scale))
	if negative {
		l = -l
	}
	return l, true
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
