package measure

import (
	"fmt"
	"strconv"
	"strings"
)

// A ParseError says which part of a text could not be read.
type ParseError struct {
	Kind   string // what was to be read: "length", "area", "unit" or "number"
	Text   string // the whole text, shortened when it is long
	Part   string // the offending part; "" when something is missing at the end
	Column int    // where the part begins in the text, in characters from 1
	Msg    string // what is wrong with it
	Mend   string // how to mend it; may be empty
}

// Error quotes the text and the part, says what is wrong and how to mend it.
func (e *ParseError) Error() string {
	s := fmt.Sprintf("cannot read %s as %s: %s", quote(e.Text), withArticle(e.Kind), e.Reason())
	if e.Mend != "" {
		s += "; " + e.Mend
	}
	return s
}

// Reason says what is wrong and where, without the text and the hint.
func (e *ParseError) Reason() string {
	if e.Part == "" || e.Part == e.Text {
		return e.Msg
	}
	return fmt.Sprintf("%s: %s at character %d", e.Msg, quote(e.Part), e.Column)
}

// Hint returns how to mend it; it may be empty.
func (e *ParseError) Hint() string { return e.Mend }

func withArticle(noun string) string {
	if noun == "area" {
		return "an area"
	}
	return "a " + noun
}

// quote puts quotes around a text whose inch marks stay as they are.
func quote(s string) string { return strings.ReplaceAll(strconv.Quote(s), `\"`, `"`) }

// maxText is the longest text that is looked at, in bytes: far more than any measure needs.
const maxText = 120

// shorten cuts a long text for quoting.
func shorten(s string) string {
	const keep = 40
	if len(s) <= maxText {
		return s
	}
	runes := []rune(s[:maxText])
	return string(runes[:keep]) + "…"
}
