package measure

import (
	"slices"
	"strings"
	"unicode"
)

// ParseSize reads two or three lengths with x, × or the word by between them: 14' 6" x 11' 2", 48x7, 1.22 m by 18 cm,
// 48 x 7 x 1/4. Each is read as [Parse] does. Either all of them name a unit or none does: "14 x 11 ft" is refused,
// since it may be meant either way. The error is a *ParseError.
func ParseSize(s string, bare Unit) ([]Length, error) {
	sc, perr := newScanner("size", s)
	if perr != nil {
		perr.Mend = `write two lengths with x between: 14' 6" x 11' 2"`
		return nil, perr
	}
	parts := sc.sizeParts()
	blank := func(p span) bool { return strings.TrimSpace(string(sc.runes[p.from:p.to])) == "" }
	if len(parts) < 2 || len(parts) > 3 || slices.ContainsFunc(parts, blank) {
		return nil, sc.fail(0, len(sc.runes), "a size is two lengths with x between them", `write it as 14' 6" x 11' 2"`)
	}
	lengths := make([]Length, len(parts))
	for i, p := range parts {
		text := sc.runes[p.from:p.to]
		if namesUnit(text) != namesUnit(sc.runes[parts[0].from:parts[0].to]) {
			return nil, sc.fail(0, len(sc.runes), "only one of its lengths has a unit", "write the unit of all, or of none")
		}
		l, err := Parse(string(text), bare)
		if pe, ok := err.(*ParseError); ok {
			inSize := sc.fail(p.from+pe.Column-1, p.from+pe.Column-1+len([]rune(pe.Part)), pe.Msg, pe.Mend)
			return nil, inSize
		}
		lengths[i] = l
	}
	return lengths, nil
}

// A span is a part of a text, in characters.
type span struct{ from, to int }

// sizeParts cuts the text at the signs between its lengths.
func (sc *scanner) sizeParts() []span {
	var parts []span
	from := 0
	for i := 0; i < len(sc.runes); i++ {
		n := 0
		switch r := sc.runes[i]; {
		case r == 'x' || r == 'X' || r == '×':
			n = 1
		case strings.EqualFold(string(sc.runes[i:min(i+2, len(sc.runes))]), "by"):
			n = 2
		}
		if n > 0 {
			parts = append(parts, span{from, i})
			from = i + n
			i += n - 1
		}
	}
	return append(parts, span{from, len(sc.runes)})
}

// namesUnit reports whether a length has a unit or a mark.
func namesUnit(text []rune) bool {
	for _, r := range text {
		if unicode.IsLetter(r) || isSingle(r) || isDouble(r) {
			return true
		}
	}
	return false
}
