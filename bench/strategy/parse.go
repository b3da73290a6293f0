package strategy

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"plank.example/cutopt/solve"
)

// Known returns the strategies that need no argument, by the names that Parse reads.
func Known() []Strategy {
	out := []Strategy{Thumb{}, Area{}, Stock{}, Carry{}, Pile{}, Steps{2}, Steps{3}, Random{}}
	for _, boxes := range []bool{false, true} {
		out = append(out, Apart{Effort: solve.EffortQuick, Boxes: boxes})
	}
	for _, fewest := range []solve.Objective{solve.FewestBoxes, solve.FewestPlanks} {
		for _, effort := range []solve.Effort{solve.EffortQuick, solve.EffortNormal, solve.EffortThorough} {
			out = append(out, Library{Effort: effort, Fewest: fewest})
		}
	}
	return out
}

// Parse reads a list of names with commas between: those of own, those of Known, random-N and search-N for Draws and
// Search, and label=command for a program behind a Stream, whose words are split at spaces. The limit is that of
// programs for one floor.
func Parse(list string, limit time.Duration, own ...Strategy) ([]Strategy, error) {
	var out []Strategy
	seen := make(map[string]bool)
	known := slices.Concat(own, Known())
	for _, name := range strings.Split(list, ",") {
		s := find(strings.TrimSpace(name), limit, known)
		if s == nil {
			var names []string
			for _, k := range known {
				names = append(names, k.Name())
			}
			return nil, fmt.Errorf(
				"strategy: %q is none of %s, random-N, search-N, nor label=command for a program of your own",
				name,
				strings.Join(names, ", "),
			)
		}
		if seen[s.Name()] {
			return nil, fmt.Errorf("strategy: %s is named twice", s.Name())
		}
		seen[s.Name()] = true
		out = append(out, s)
	}
	return out, nil
}

// maxDraws bounds N of random-N and search-N.
const maxDraws = 100_000_000

func find(name string, limit time.Duration, known []Strategy) Strategy {
	for _, k := range known {
		if k.Name() == name {
			return k
		}
	}
	for prefix, of := range map[string]func(n int) Strategy{
		"random-": func(n int) Strategy { return Draws{n} },
		"search-": func(n int) Strategy { return Search{n} },
	} {
		if text, ok := strings.CutPrefix(name, prefix); ok {
			if n, err := strconv.Atoi(text); err == nil && n > 0 && n <= maxDraws && strconv.Itoa(n) == text {
				return of(n)
			}
		}
	}
	if label, command, ok := strings.Cut(name, "="); ok && label != "" && len(strings.Fields(command)) > 0 {
		return &Stream{Label: label, Command: strings.Fields(command), Limit: limit}
	}
	return nil
}

// NameOf returns the name that a strategy of Parse's list has in records: the label of a program, else the word itself.
func NameOf(word string) string {
	label, _, _ := strings.Cut(strings.TrimSpace(word), "=")
	return label
}
