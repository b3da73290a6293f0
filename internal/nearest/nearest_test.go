package nearest_test

import (
	"strings"
	"testing"

	"plank.example/internal/nearest"
)

func TestWord(t *testing.T) {
	list := []string{"along", "across", "diagonal", "h-joints", "min-piece", "min-strip"}
	for word, want := range map[string]string{
		"alnog":                  "along", // two letters swapped are one fault
		"Acros":                  "across",
		"min_piece":              "min-piece",
		"h joints":               "h-joints",
		"sideways":               "",
		"diag":                   "diagonal", // begun
		"alongside":              "along",    // and more than it
		"dia":                    "",         // too short to tell
		"min-":                   "",         // begins several
		"":                       "",
		strings.Repeat("a", 999): "",
	} {
		if got := nearest.Word(word, list); got != want {
			t.Errorf("%.20q is near %q, want %q", word, got, want)
		}
	}
}
