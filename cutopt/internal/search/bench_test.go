package search

import (
	"testing"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// benchDwelling is a dwelling of 120 runs of seven lengths.
func benchDwelling() *rows.Instance {
	const in = measure.Inch
	out := &rows.Instance{Plank: 48 * in, Kerf: in / 8, MinPiece: 8 * in, Stagger: 8 * in, Grid: measure.Sixteenth}
	for _, block := range []struct {
		rows   int
		length measure.Length
	}{{24, 174 * in}, {20, 131*in + in/2}, {16, 101 * in}, {30, 44*in + in/4}, {6, 29 * in}, {14, 152 * in}, {
		10,
		61 * in,
	}} {
		for k := range block.rows {
			if k > 0 {
				out.Touch = append(out.Touch, [2]int{len(out.Runs) - 1, len(out.Runs)})
			}
			out.Runs = append(out.Runs, rows.Run{Length: block.length})
		}
	}
	return out
}

// BenchmarkWalk walks 30,000 moves towards a plank fewer than all material takes, which no walk reaches.
func BenchmarkWalk(b *testing.B) {
	t := starters.New(benchDwelling())
	start, ok := Carry(t)
	if !ok {
		b.Fatal("cannot be laid")
	}
	material := measure.Length(0)
	for _, r := range t.Instance.Runs {
		material += r.Length
	}
	domain := NewDomain(t, Lattice(t, t.Instance.Grid))
	for b.Loop() {
		a := Attempt{
			Domain: domain, Start: start, Target: int(material/t.Instance.Plank) - 1, Steps: 30_000, Seed: 1,
			Stop: func() bool { return false },
		}
		a.Run()
	}
}
