package sheet

import (
	"regexp"
	"strings"
)

// remarkForms are the forms of the notes that a plan has on a floor, by the key of their words after "remark.". Names of groups are those of
// the places in the words.
var remarkForms = []struct {
	key  string
	form *regexp.Regexp
}{
	{"doorway", regexp.MustCompile(`^the doorway in wall (?P<wall>\d+) of (?P<room>.+) is no wider than the gaps at its sides: no floor runs into it$`)},
	{"jogs", regexp.MustCompile(`^straightened (?P<n>\d+|one) jogs? shorter than (?P<size>.+)$`)},
	{"slivers", regexp.MustCompile(`^left (?P<n>\d+|one) slivers? under the trim, each narrower than (?P<size>.+), (?P<area>.+) in all$`)},
	{"first", regexp.MustCompile(`^with a first row of (?P<row>.+) the edge rows are (?P<first>.+) and (?P<last>.+) wide; the least is (?P<least>.+)$`)},
	{"edges", regexp.MustCompile(`^no place of the rows keeps every edge row at (?P<least>.+): the first row is (?P<first>.+) wide and the last (?P<last>.+)$`)},
	{"walls", regexp.MustCompile(`^no place of the rows keeps every edge row at (?P<least>.+): (?P<n>\d+|one) walls? further in is met by a strip of (?P<strip>.+), (?P<at>.+) from the starting side$`)},
	{"across", regexp.MustCompile(`^the floor is (?P<size>.+) across the rows and the most is (?P<most>.+): put a break after row (?P<row>\d+), (?P<at>.+) from the starting side$`)},
	{"along", regexp.MustCompile(`^row (?P<row>\d+) is (?P<size>.+) long without a break and the most is (?P<most>.+): put a break (?P<at>.+) from its left end$`)},
}

// remark says a note of a floor in the language of the sheet; one of no known form stays as the plan has it.
func (s *speech) remark(text string) string {
	if s.language == "en" {
		return text
	}
	for _, r := range remarkForms {
		m := r.form.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		var places []string
		for i, name := range r.form.SubexpNames() {
			if name == "" {
				continue
			}
			value := m[i]
			if value == "one" {
				value = "1"
			}
			if name != "room" && s.comma {
				value = strings.ReplaceAll(value, ".", ",")
			}
			places = append(places, name, value)
		}
		return s.say("remark."+r.key, places...)
	}
	return text
}
