package cutopt

import (
	"regexp"
	"strconv"
	"strings"

	"plank.example/cutopt/measure"
)

// patternNames are the patterns with a name, each a list of parts of a plank.
var patternNames = map[string][][2]int64{
	"halves":   {{1, 1}, {1, 2}},
	"thirds":   {{1, 1}, {2, 3}, {1, 3}},
	"quarters": {{1, 1}, {1, 2}, {3, 4}, {1, 4}},
}

// ParsePattern reads what Job.Pattern holds: "irregular" for nil; "halves", "thirds" or "quarters" of a plank,
// beginning with a whole one; or starters separated by commas, each a length or a part of a plank: "16, 1/3 plank,
// plank". Parts are rounded down to the grid, and the whole plank stays whole. The error is a *FieldError, or one of
// measure.Parse.
func ParsePattern(text string, unit measure.Unit, plank, grid measure.Length) ([]measure.Length, error) {
	name := strings.TrimSpace(text)
	if name == "irregular" {
		return nil, nil
	}
	var out []measure.Length
	for _, part := range patternNames[name] {
		out = append(out, partOf(part, plank, grid))
	}
	if out != nil {
		return out, nil
	}
	if name != "" && name != "plank" && strings.Trim(name, "abcdefghijklmnopqrstuvwxyz-_ ") == "" {
		return nil, &FieldError{
			Field: "pattern", Value: text, Rule: "unknown word", Mend: didYouMean(name, []string{
				"irregular", "halves", "thirds", "quarters",
			}, "write irregular, halves, thirds, quarters, or starters such as 16 in, 1/3 plank, plank"),
		}
	}
	for _, item := range strings.Split(text, ",") {
		s, err := ParseStarter(item, unit, plank, grid)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

var partText = regexp.MustCompile(`^(?:([0-9]{1,4})/([0-9]{1,4}) |1 )?planks?$`)

// ParseStarter reads one starter of a pattern, as ParsePattern does.
func ParseStarter(text string, unit measure.Unit, plank, grid measure.Length) (measure.Length, error) {
	text = strings.TrimSpace(text)
	m := partText.FindStringSubmatch(text)
	if m == nil {
		return measure.Parse(text, unit)
	}
	part := [2]int64{1, 1}
	if m[1] != "" {
		part[0], _ = strconv.ParseInt(m[1], 10, 64)
		part[1], _ = strconv.ParseInt(m[2], 10, 64)
	}
	if part[0] < 1 || part[0] > part[1] {
		return 0, &FieldError{
			Field: "pattern", Value: text, Rule: "a part of a plank is more than nothing and at most a plank", Mend: "write " +
				"it as 1/3 plank",
		}
	}
	return partOf(part, plank, grid), nil
}

func partOf(part [2]int64, plank, grid measure.Length) measure.Length {
	if part[0] == part[1] || grid <= 0 {
		return plank * measure.Length(part[0]) / measure.Length(part[1])
	}
	return (plank * measure.Length(part[0]) / measure.Length(part[1])).Floor(grid)
}
