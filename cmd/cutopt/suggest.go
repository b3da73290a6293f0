package main

import (
	"fmt"
	"strings"
)

// didYouMean returns a question naming the known word nearest to a mistyped one, or "" when none is near: at most one
// letter in three, and no more than three, may be wrong.
func didYouMean(word string, known []string) string {
	best, at := min(3, (len(strings.TrimLeft(word, "-"))+2)/3)+1, ""
	for _, k := range known {
		if d := editDistance(word, k); d < best {
			best, at = d, k
		}
	}
	if at == "" {
		return ""
	}
	return fmt.Sprintf(": did you mean %s?", at)
}

// editDistance counts the letters to insert, delete, change or swap with a neighbour to turn a into b (optimal string
// alignment). It takes len(a)*len(b) steps. The library has the same for the words of job files, in an internal
// package: the compiler keeps that from the command, and spelling is nothing for the library's interface to promise.
func editDistance(a, b string) int {
	r, s := []rune(a), []rune(b)
	d := make([][]int, len(r)+1)
	for i := range d {
		d[i] = make([]int, len(s)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(r); i++ {
		for j := 1; j <= len(s); j++ {
			cost := 1
			if r[i-1] == s[j-1] {
				cost = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+cost)
			if i > 1 && j > 1 && r[i-1] == s[j-2] && r[i-2] == s[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(r)][len(s)]
}
