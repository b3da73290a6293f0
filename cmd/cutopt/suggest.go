package main

import (
	"fmt"

	"plank.example/internal/nearest"
)

// didYouMean returns a question naming the known word nearest to a mistyped one, or "" when none is near.
func didYouMean(word string, known []string) string {
	if meant := nearest.Word(word, known); meant != "" {
		return fmt.Sprintf(": did you mean %s?", meant)
	}
	return ""
}
