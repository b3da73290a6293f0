//go:build unix

package fewest_test

import (
	"math/rand/v2"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// closets draws a dwelling: one to three rooms, some with a closet behind the wall at the end of their rows, most with
// a passage whose rows run across it, and closets of few rows, all laid from the same planks: many short runs of few
// lengths.
func closets(r *rand.Rand) *rows.Instance {
	plank := usual(r)
	out := new(rows.Instance)
	add := func(rowsOf [][][2]measure.Length) {
		part := rules(rowsOf, plank)
		n := len(out.Runs)
		part.Runs = append(out.Runs, part.Runs...)
		for k := range part.Touch {
			part.Touch[k][0] += n
			part.Touch[k][1] += n
		}
		part.Touch = append(out.Touch, part.Touch...)
		out = part
	}
	for range 1 + r.IntN(3) {
		w := inches(r, 90, 200)
		room := block(8+r.IntN(16), 0, w)
		if r.IntN(2) == 0 {
			x := w + 4*in
			c := inches(r, 22, 30)
			first := r.IntN(4)
			for i := first; i < min(first+4+r.IntN(6), len(room)); i++ {
				room[i] = append(room[i], [2]measure.Length{x, x + c})
			}
		}
		add(room)
	}
	if r.IntN(3) > 0 {
		add(block(10+r.IntN(30), 0, inches(r, 36, 54)))
	}
	for range 1 + r.IntN(3) {
		add(block(3+r.IntN(4), 0, inches(r, 24, 90)))
	}
	return out
}
