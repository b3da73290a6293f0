package site

import (
	"strings"
	"unicode"
)

// A token is a word, a number or a mark of a line.
type token struct {
	kind     tokenKind
	text     string // words in lower case
	from, to int    // in characters
}

type tokenKind uint8

const (
	tokenWord   tokenKind = iota // letters
	tokenNumber                  // digits with points, slashes and fractions
	tokenMark                    // anything else but blanks
)

// mostText is the longest line read, in bytes.
const mostText = 400

// lex parts a line into tokens. What follows a # after a blank is a comment, but for a
// number.
func lex(runes []rune) []token {
	var out []token
	for i := 0; i < len(runes); {
		r := runes[i]
		from := i
		switch {
		case unicode.IsSpace(r):
			i++
			continue
		case r == '#' && (i == 0 || unicode.IsSpace(runes[i-1])) && (i+1 == len(runes) || !isFigure(runes[i+1])):
			return out
		case unicode.IsLetter(r):
			for i < len(runes) && unicode.IsLetter(runes[i]) {
				i++
			}
			out = append(out, token{tokenWord, strings.ToLower(string(runes[from:i])), from, i})
		case isFigure(r):
			for i < len(runes) && (isFigure(runes[i]) || (runes[i] == '.' || runes[i] == '/' || runes[i] == '⁄') &&
				i+1 < len(runes) && isFigure(runes[i+1])) {
				i++
			}
			out = append(out, token{tokenNumber, string(runes[from:i]), from, i})
		default:
			i++
			out = append(out, token{tokenMark, string(r), from, i})
		}
	}
	return out
}

// isFigure reports digits and the characters that stand for a fraction.
func isFigure(r rune) bool { return '0' <= r && r <= '9' || unicode.Is(unicode.No, r) }

// vocabulary is the words that a line is read by: each spelling stands for the first of its list.
var vocabulary = spellings(
	"laid lies lie lay done finished", "lost lose broken broke gone", "culled cull culls bad", "miscut miscuts missawn",
	"offcut offcuts cutoff", "plank planks board boards", "box boxes", "mix mixed", "lot lots batch", "row rows",
	"piece pieces pcs", "starter starters starts joint", "longer", "shorter", "is measures measured", "wall walls",
	"out outwards", "in inwards", "first", "last", "pipe pipes column", "island islands", "at", "size",
	"diameter dia across", "left", "right", "none neither", "all", "from", "to", "field part", "room floor", "of", "and",
	"x by", "number", "the", "up", "on", "with", "for",
)

func spellings(lists ...string) map[string]string {
	out := make(map[string]string)
	for _, list := range lists {
		words := strings.Fields(list)
		for _, w := range words {
			out[w] = words[0]
		}
	}
	return out
}

// fillers are words that say nothing.
var fillers = map[string]bool{"the": true, "up": true, "on": true, "with": true, "for": true, "number": true}

// unitWords are the words that may stand in a length.
var unitWords = map[string]bool{
	"in": true, "inch": true, "inches": true, "ft": true, "foot": true, "feet": true, "mm": true, "cm": true, "m": true,
}

// lengthMarks are the marks that may stand in a length.
const lengthMarks = "'\"-‐‑–−\u2018\u2019\u201c\u201d′″ʹʺ´`"
