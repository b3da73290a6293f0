// Package words says plans in the words of a language: what maps, sheets, lists and the command print. [New] makes a
// [Speech], [Speech.Facts] says the facts of a floor, [Speech.Fact] one of them, and [Speech.Say] whatever else has a
// key in [Vocabulary].
//
// Every key has words in every language, with the same places to be filled in; a test holds this.
package words

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// vocabularies holds the words of every language by key, in parts that share no key. A word may hold places in braces,
// {row}, that are filled in.
var vocabularies = map[string]vocabulary{
	"en": {english, sheetEnglish, reportEnglish, findingEnglish, takeoffEnglish, siteEnglish},
	"de": {german, sheetGerman, reportGerman, findingGerman, takeoffGerman, siteGerman},
}

type vocabulary []map[string]string

// text returns the words of a key.
func (v vocabulary) text(key string) (text string, ok bool) {
	for _, part := range v {
		if text, ok = part[key]; ok {
			break
		}
	}
	return text, ok
}

// joined returns the words of all parts; nil where there are none.
func (v vocabulary) joined() map[string]string {
	if v == nil {
		return nil
	}
	all := make(map[string]string)
	for _, part := range v {
		for key, text := range part {
			if _, twice := all[key]; twice {
				panic("words: two texts for " + key)
			}
			all[key] = text
		}
	}
	return all
}

// Languages returns the languages at hand, "de" and "en", in the order of their names.
func Languages() []string { return slices.Sorted(maps.Keys(vocabularies)) }

// Vocabulary returns a copy of all words of a language by key, for reading or translating; nil for an unknown
// language. A translation is given to [New] and keeps the places in braces.
func Vocabulary(language string) map[string]string { return vocabularies[language].joined() }

// Has reports whether there are words of that key.
func Has(key string) bool {
	_, ok := vocabularies["en"].text(key)
	return ok
}

// A Speech says things in one language, with the lengths of one job. It is only read once it is made, so several
// goroutines may use it.
type Speech struct {
	Language string         // one of Languages
	Unit     measure.Unit   // of all lengths
	Grid     measure.Length // lengths are rounded to it
	Glued    bool           // a length holds together at the end of a line, by NoBreak

	own   map[string]string
	base  vocabulary
	comma bool
}

// Floors says which numbers of boxes are reckoned of the floor of fewest planks, where some are and others of the
// plan, and whether the bound leaves open that fewer would do; "" where all are of the plan.
func (s *Speech) Floors(v *cutopt.Verdict, bound *cutopt.Bound) string {
	if len(v.Counts) == 0 {
		return ""
	}
	fewest, plan := v.Counts[0].Planks, v.Counts[len(v.Counts)-1].Planks
	for _, c := range v.Counts {
		if c.Planks == plan && fewest != plan {
			key := "risk.floors"
			if fewest > bound.Planks {
				key = "risk.floors-found"
			}
			return s.Say(key, "boxes", strconv.Itoa(c.Boxes), "fewest", strconv.Itoa(fewest),
				"planks", strconv.Itoa(plan))
		}
	}
	return ""
}

// NoBreak is a space where no line is broken.
const NoBreak = '\u00a0'

// New prepares to speak a language, "" for English, in which own replaces single words by key; nil for none. Lengths
// are given on the grid, or on 1/16 in or 1 mm where that is finer or the grid is 0. An unknown language has no words:
// Say returns the keys.
func New(language string, own map[string]string, unit measure.Unit, grid measure.Length) *Speech {
	if language == "" {
		language = "en"
	}
	finest := measure.Sixteenth
	if unit.Metric() {
		finest = measure.Millimetre
	}
	if grid <= 0 || grid > finest {
		grid = finest
	}
	s := &Speech{Language: language, Unit: unit, Grid: grid, own: own, base: vocabularies[language]}
	s.comma = s.Say("decimal") == ","
	return s
}

// Say returns the words of a key, with the places in braces filled: name, value, name, value and so on. It returns a
// key that has no words.
func (s *Speech) Say(key string, places ...string) string {
	text, ok := s.own[key]
	if !ok {
		text, ok = s.base.text(key)
	}
	if !ok {
		return key
	}
	return Fill(text, places...)
}

// Fill puts values into the places of a text.
func Fill(text string, places ...string) string {
	if len(places) == 0 {
		return text
	}
	var b strings.Builder
	for {
		before, after, ok := strings.Cut(text, "{")
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		name, rest, ok := strings.Cut(after, "}")
		i := 0
		for i < len(places) && places[i] != name {
			i += 2
		}
		if ok && i < len(places) {
			b.WriteString(places[i+1])
			text = rest
		} else {
			b.WriteByte('{')
			text = after
		}
	}
}

// List returns the lines of a key that holds several.
func (s *Speech) List(key string) []string {
	return strings.Split(strings.TrimSpace(s.Say(key)), "\n")
}

// Count says a number of things: the key with ".one" for one and ".many" for other numbers, with {n} and the other
// places filled.
func (s *Speech) Count(key string, n int, places ...string) string {
	return s.Say(key+form(n), append([]string{"n", strconv.Itoa(n)}, places...)...)
}

// form returns what a key of words for a number ends in.
func form(n int) string {
	if n == 1 {
		return ".one"
	}
	return ".many"
}

// Length prints a length with its unit, rounded down to the graduation.
func (s *Speech) Length(l measure.Length) string { return s.format(l.Floor(s.Grid), s.Grid) }

// Bare prints a length without its unit, rounded down to the graduation.
func (s *Speech) Bare(l measure.Length) string { return s.compact(l.Floor(s.Grid)) }

// Range prints the lengths between which a piece may turn out that is laid as it comes, with one unit at the end.
func (s *Speech) Range(from, to measure.Length) string {
	return s.Say("range", "from", s.Bare(from), "to", s.Length(to))
}

// BareRange prints what Range does without its unit.
func (s *Speech) BareRange(from, to measure.Length) string {
	return s.Say("range", "from", s.Bare(from), "to", s.Bare(to))
}

// Exact prints a length with its unit to the tick: a figure that a rule names is not rounded.
func (s *Speech) Exact(l measure.Length) string { return s.format(l, measure.Tick) }

func (s *Speech) format(l, grid measure.Length) string {
	return s.Decimal(s.glue(l.Format(s.Unit, grid)))
}

func (s *Speech) compact(l measure.Length) string {
	return s.Decimal(s.glue(l.Compact(s.Unit, s.Grid)))
}

// Area prints an area.
func (s *Speech) Area(a measure.Area) string { return s.Decimal(s.glue(a.Format(s.Unit))) }

// glue keeps a measure on one line, in documents whose lines are broken.
func (s *Speech) glue(text string) string {
	if s.Glued {
		return strings.ReplaceAll(text, " ", string(NoBreak))
	}
	return text
}

// Percent prints a percentage to one decimal.
func (s *Speech) Percent(v float64) string {
	return s.Decimal(s.glue(strconv.FormatFloat(v, 'f', 1, 64) + " %"))
}

// Share writes a part of one as a percentage, with as many decimals as it takes.
func (s *Speech) Share(v float64) string {
	return s.Decimal(s.glue(strconv.FormatFloat(100*v, 'g', 6, 64) + " %"))
}

// Decimal turns the decimal point into the language's mark. Lengths and areas hold no other point.
func (s *Speech) Decimal(text string) string {
	if s.comma {
		return strings.ReplaceAll(text, ".", ",")
	}
	return text
}
