package strategy

import (
	"fmt"
	"strings"
	"time"

	"plank.example/cutopt/solve"
)

// Known returns the strategies that need no argument, by the names that Parse reads.
func Known() []Strategy {
	out := []Strategy{Thumb{}, Carry{}, Steps{2}, Steps{3}, Random{}}
	for _, fewest := range []solve.Objective{solve.FewestBoxes, solve.FewestPlanks} {
		for _, effort := range []solve.Effort{solve.EffortQuick, solve.EffortNormal, solve.EffortThorough} {
			out = append(out, Library{Effort: effort, Fewest: fewest})
		}
	}
	return out
}

// Parse reads a list of names with commas between: those of Known, and label=command for a program behind a Pipe, whose
// words are split at spaces.
func Parse(list string, timeout time.Duration) ([]Strategy, error) {
	var out []Strategy
	seen := make(map[string]bool)
	for _, name := range strings.Split(list, ",") {
		s := find(strings.TrimSpace(name), timeout)
		if s == nil {
			var names []string
			for _, k := range Known() {
				names = append(names, k.Name())
			}
			return nil, fmt.Errorf("strategy: %q is none of %s, nor label=command for a program of your own", name, strings.Join(names, ", "))
		}
		if seen[s.Name()] {
			return nil, fmt.Errorf("strategy: %s is named twice", s.Name())
		}
		seen[s.Name()] = true
		out = append(out, s)
	}
	return out, nil
}

func find(name string, timeout time.Duration) Strategy {
	for _, k := range Known() {
		if k.Name() == name {
			return k
		}
	}
	if label, command, ok := strings.Cut(name, "="); ok && label != "" && len(strings.Fields(command)) > 0 {
		return &Pipe{Label: label, Command: strings.Fields(command), Timeout: timeout}
	}
	return nil
}
