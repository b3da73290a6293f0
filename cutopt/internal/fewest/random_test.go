package fewest_test

import (
	"math/rand/v2"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

const in = measure.Inch

// shape draws the rows of a plain room, an L, a room with an island, a room with a closet narrower than a plank, or one
// with slanted walls.
func shape(r *rand.Rand) [][][2]measure.Length {
	size := func(lo, hi int) measure.Length { return measure.Length(lo*16+r.IntN((hi-lo)*16)) * measure.Sixteenth }
	n := 8 + r.IntN(25)
	w := size(96, 300)
	out := make([][][2]measure.Length, n)
	for i := range out {
		out[i] = [][2]measure.Length{{0, w}}
	}
	switch r.IntN(5) {
	case 1:
		short := size(60, 95)
		from := []measure.Length{0, w - short}[r.IntN(2)]
		for i := 1 + r.IntN(n-1); i < n; i++ {
			out[i][0] = [2]measure.Length{from, from + short}
		}
	case 2:
		a := 1 + r.IntN(n/2)
		x := size(20, 60)
		y := x + size(20, 36)
		for i := a; i < a+1+r.IntN(n/3); i++ {
			out[i] = [][2]measure.Length{{0, x}, {y, w}}
		}
	case 3:
		c := size(22, 40)
		for range 3 + r.IntN(6) {
			out = append(out, [][2]measure.Length{{30 * in, 30*in + c}})
		}
	case 4:
		left, right := measure.Length(r.IntN(3))*in, measure.Length(r.IntN(5))*in
		for i := range out {
			out[i][0] = [2]measure.Length{-left * measure.Length(i) / 3, w + right*measure.Length(i)/2}
		}
	}
	return out
}

// instance ties the runs of neighbouring rows that overlap.
func instance(rowsOf [][][2]measure.Length, plank, kerf, piece, stagger, grid measure.Length) *rows.Instance {
	out := &rows.Instance{Plank: plank, Kerf: kerf, MinPiece: piece, Stagger: stagger, Grid: grid}
	before := 0
	for i, row := range rowsOf {
		here := len(out.Runs)
		for _, s := range row {
			out.Runs = append(out.Runs, rows.Run{From: s[0], Length: s[1] - s[0]})
		}
		for j := before; i > 0 && j < here; j++ {
			for k := here; k < len(out.Runs); k++ {
				p, q := out.Runs[j], out.Runs[k]
				if p.From < q.From+q.Length && q.From < p.From+p.Length {
					out.Touch = append(out.Touch, [2]int{j, k})
				}
			}
		}
		before = here
	}
	return out
}

// room draws an instance with the default rules and one of four common planks.
func room(seed uint64) *rows.Instance {
	r := rand.New(rand.NewPCG(seed, 99))
	plank := []measure.Length{36 * in, 48 * in, 60 * in, 1220 * measure.Millimetre}[r.IntN(4)]
	return instance(shape(r), plank, in/8, 8*in, 8*in, measure.Sixteenth)
}
