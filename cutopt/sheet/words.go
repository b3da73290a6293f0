package sheet

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt/measure"
)

// vocabularies holds the words of every language by key. A word may hold places in braces, {row}, that are filled in.
var vocabularies = map[string]map[string]string{"en": english, "de": german}

// Languages returns the languages at hand, "de" and "en", in the order of their names.
func Languages() []string { return slices.Sorted(maps.Keys(vocabularies)) }

// Vocabulary returns a copy of all words of a language by key, for reading or translating; nil for an unknown
// language. A translation goes into Options.Words and keeps the places in braces.
func Vocabulary(language string) map[string]string { return maps.Clone(vocabularies[language]) }

// A speech says things in one language, with the lengths of one job.
type speech struct {
	language string
	own      map[string]string
	base     map[string]string
	unit     measure.Unit
	grid     measure.Length
	comma    bool
	glued    bool // lengths hold together at the end of a line
}

// noBreak is a space where no line is broken.
const noBreak = '\u00a0'

// newSpeech prepares the words and the graduation: the job's, or 1/16 in or 1 mm where that is finer.
func newSpeech(o *Options, unit measure.Unit, grid measure.Length) *speech {
	finest := measure.Sixteenth
	if unit.Metric() {
		finest = measure.Millimetre
	}
	if grid <= 0 || grid > finest {
		grid = finest
	}
	s := &speech{language: o.Language, own: o.Words, base: vocabularies[o.Language], unit: unit, grid: grid}
	s.comma = s.say("decimal") == ","
	return s
}

// say returns the words of a key, with the places in braces filled: name, value, name, value and so on.
func (s *speech) say(key string, places ...string) string {
	text, ok := s.own[key]
	if !ok {
		text, ok = s.base[key]
	}
	if !ok {
		return key
	}
	return fill(text, places...)
}

// fill puts values into the places of a text.
func fill(text string, places ...string) string {
	for i, s := range places {
		if i%2 == 0 {
			places[i] = "{" + s + "}"
		}
	}
	return strings.NewReplacer(places...).Replace(text)
}

// list returns the lines of a key that holds several.
func (s *speech) list(key string) []string {
	return strings.Split(strings.TrimSpace(s.say(key)), "\n")
}

// count says a number of things: the key with ".one" for one and ".many" for other numbers, with {n} filled.
func (s *speech) count(key string, n int) string {
	if n == 1 {
		return s.say(key+".one", "n", "1")
	}
	return s.say(key+".many", "n", strconv.Itoa(n))
}

// length prints a length with its unit, rounded down to the graduation.
func (s *speech) length(l measure.Length) string {
	return s.decimal(s.glue(l.Floor(s.grid).Format(s.unit, s.grid)))
}

// bare prints a length without its unit, rounded down to the graduation.
func (s *speech) bare(l measure.Length) string {
	return s.decimal(s.glue(l.Floor(s.grid).Compact(s.unit, s.grid)))
}

// area prints an area.
func (s *speech) area(a measure.Area) string { return s.decimal(s.glue(a.Format(s.unit))) }

// glue keeps a measure on one line, in documents whose lines are broken.
func (s *speech) glue(text string) string {
	if s.glued {
		return strings.ReplaceAll(text, " ", string(noBreak))
	}
	return text
}

// percent prints a percentage to one decimal.
func (s *speech) percent(v float64) string {
	return s.decimal(s.glue(strconv.FormatFloat(v, 'f', 1, 64) + " %"))
}

// share writes a part of one as a percentage, with as many decimals as it takes.
func (s *speech) share(v float64) string {
	return s.decimal(s.glue(strconv.FormatFloat(100*v, 'g', 6, 64) + " %"))
}

// decimal turns the decimal point into the language's mark. Lengths and areas hold no other point.
func (s *speech) decimal(text string) string {
	if s.comma {
		return strings.ReplaceAll(text, ".", ",")
	}
	return text
}
