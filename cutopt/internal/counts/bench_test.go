package counts_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// closets is a dwelling of 58 runs of five lengths: 1.1 million points.
func closets() *rows.Instance {
	const in = measure.Inch
	out := &rows.Instance{Plank: 48 * in, Kerf: in / 8, MinPiece: 8 * in, Stagger: 8 * in, Grid: measure.Sixteenth}
	for _, block := range []struct {
		rows   int
		length measure.Length
	}{{19, 174 * in}, {15, 131*in + in/2}, {14, 44*in + in/4}, {6, 29 * in}, {4, 61 * in}} {
		for k := range block.rows {
			if k > 0 {
				out.Touch = append(out.Touch, [2]int{len(out.Runs) - 1, len(out.Runs)})
			}
			out.Runs = append(out.Runs, rows.Run{Length: block.length})
		}
	}
	return out
}

func BenchmarkTable(b *testing.B) {
	f := counts.Sort(starters.New(closets()))
	for b.Loop() {
		counts.New(f, 1<<22)
	}
}

// BenchmarkVerify recounts the same by the verifier of certificates.
func BenchmarkVerify(b *testing.B) {
	in := closets()
	c := counts.New(counts.Sort(starters.New(in)), 1<<22)
	cert := proof.Certificate{Planks: c.Planks(), Tree: proof.Node{Counts: true}}
	for b.Loop() {
		if err := cert.Verify(in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	c := counts.New(counts.Sort(starters.New(closets())), 1<<22)
	rng := rand.New(rand.NewPCG(1, 1))
	for b.Loop() {
		c.Draw(c.Planks(), 0, rng)
	}
}

// BenchmarkBeam draws with a core of 100,000 points.
func BenchmarkBeam(b *testing.B) {
	f := counts.Sort(starters.New(closets()))
	target := counts.New(f, 1<<22).Planks()
	c := counts.New(f, 100_000)
	rng := rand.New(rand.NewPCG(1, 1))
	for b.Loop() {
		c.Draw(target, 100, rng)
	}
}
