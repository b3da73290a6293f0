package rows_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// BenchmarkCount counts layouts of which a third of the runs are one piece.
func BenchmarkCount(b *testing.B) {
	for _, n := range []int{30, 1000, 100_000} {
		r := rand.New(rand.NewPCG(1, 1))
		in := &rows.Instance{Plank: 1000, Kerf: 3, MinPiece: 100, Grid: 1}
		layout := make(rows.Layout, n)
		for i := range layout {
			in.Runs = append(in.Runs, rows.Run{Length: measure.Length(100 + r.IntN(700))})
			if i%3 > 0 {
				layout[i] = measure.Length(100 + r.IntN(700))
				in.Runs[i].Length += layout[i]
			}
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				in.Count(layout, nil)
			}
		})
	}
}

// BenchmarkCountSingles counts layouts of one-piece runs only, whose packing the search does not settle.
func BenchmarkCountSingles(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	in := &rows.Instance{Plank: 390_144, Kerf: 1016, MinPiece: 65_024, Grid: 508}
	layout := make(rows.Layout, 1000)
	for range layout {
		in.Runs = append(in.Runs, rows.Run{Length: measure.Length(50_000 + r.IntN(200_000))})
	}
	for b.Loop() {
		in.Count(layout, nil)
	}
}
