package main

import (
	"io"
	"strings"

	"plank.example/cutopt/words"
)

// plainLetters writes what the command's own words have beyond ASCII with letters and signs of ASCII, as the languages
// themselves do where type has no others.
var plainLetters = strings.NewReplacer(
	"ä", "ae", "ö", "oe", "ü", "ue", "Ä", "Ae", "Ö", "Oe", "Ü", "Ue", "ß", "ss",
	"„", `"`, "“", `"`, "”", `"`, "‘", "'", "’", "'", "–", "-", "—", "-", "…", "...", "×", "x", "·",
	"-",
	"²", "2", "≤", "<=", "≥", ">=", "→", "->", "\u00a0", " ",
)

// readable returns a writer for a terminal or a file whose locale has only ASCII: what has plain letters is written
// with them. It returns w itself in other locales.
func readable(w io.Writer) io.Writer {
	if utf8Locale() {
		return w
	}
	return &plainWriter{w}
}

// A plainWriter replaces letters; each write holds whole ones.
type plainWriter struct{ w io.Writer }

func (p *plainWriter) Write(text []byte) (int, error) {
	if _, err := plainLetters.WriteString(p.w, string(text)); err != nil {
		return 0, err
	}
	return len(text), nil
}

// readableWords returns the words of a language in plain letters where the locale has only ASCII, so that columns are
// as wide as what is printed in them; nil in other locales.
func readableWords(language string) map[string]string {
	if utf8Locale() {
		return nil
	}
	vocabulary := words.Vocabulary(language)
	for key, text := range vocabulary {
		vocabulary[key] = plainLetters.Replace(text)
	}
	return vocabulary
}
