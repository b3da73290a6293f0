package jobfile

import (
	"strings"

	"plank.example/internal/nearest"
)

// suggest returns the hint for an unknown key or word.
func suggest(word string, keys []key) string {
	list := make([]string, len(keys))
	for i, k := range keys {
		list[i] = k.name
	}
	return suggestWord(word, list)
}

// suggestWord returns the closest word of a list as a hint, or the list.
func suggestWord(word string, list []string) string {
	if best := nearest.Word(word, list); best != "" {
		return "did you mean " + best + "?"
	}
	return "it may be " + strings.Join(list, ", ")
}

// names lists keys.
func names(keys []key) string {
	list := make([]string, len(keys))
	for i, k := range keys {
		list[i] = k.name
	}
	return strings.Join(list, ", ")
}
