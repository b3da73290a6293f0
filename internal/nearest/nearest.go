// Package nearest finds the word that was probably meant.
package nearest

import "strings"

// longest is the longest word looked at, in bytes; begun is how many letters make a word known by its beginning.
const (
	longest = 60
	begun   = 4
)

// Word returns the word of a list that is closest to a mistyped one, or "" when none is near: at most one letter in
// three, begun ones counted, and no more than three may be wrong. Where none is, it is the only word that begins with
// the one given, or begins it, as underlay does underlayment. Case does not matter, nor whether blanks and underlines
// stand for hyphens.
func Word(word string, list []string) string {
	if len(word) > longest {
		return ""
	}
	word = strings.NewReplacer("_", "-", " ", "-").Replace(strings.ToLower(word))
	best, least := "", 1+min(3, (len(strings.TrimLeft(word, "-"))+2)/3)
	for _, w := range list {
		if n := distance(word, w); n < least {
			best, least = w, n
		}
	}
	if best != "" {
		return best
	}
	for _, w := range list {
		if min(len(w), len(word)) < begun || !strings.HasPrefix(w, word) && !strings.HasPrefix(word, w) {
			continue
		}
		if best != "" {
			return "" // it may be either
		}
		best = w
	}
	return best
}

// distance returns how many letters must be put in, left out, changed or swapped with the next to make b of a, no
// letter twice (optimal string alignment). It is O(len(a) len(b)) for words of a few letters.
func distance(a, b string) int {
	rows := make([][]int, len(a)+1)
	for i := range rows {
		rows[i] = make([]int, len(b)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			n := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				n = min(n, rows[i-2][j-2]+1)
			}
			rows[i][j] = n
		}
	}
	return rows[len(a)][len(b)]
}
