package recount_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/recount"
)

// hall is a hall with many rows: 20 pieces in each.
func hall(rows int) (*recount.Floor, []recount.Strip, []recount.Part) {
	deep := float64(rows) * 180
	f := floorOf(box(0, 0, 24020, deep+20), box(100, 100, 300, 300))
	f.Rooms[0].Islands = nil
	var strips []recount.Strip
	var parts []recount.Part
	for i := range rows {
		y := 10 + 180*float64(i)
		strips = append(strips, recount.Strip{From: y * mm, To: (y + 180) * mm})
		for k := range 20 {
			x := 10 + 1200*float64(k)
			parts = append(parts, part(i, 0, k, box(x, y, x+1200, y+180)))
		}
	}
	return f, strips, parts
}

func BenchmarkMeasure(b *testing.B) {
	for _, rows := range []int{50, 500, 5000} {
		f, strips, parts := hall(rows)
		b.Run(fmt.Sprintf("rows=%d", rows), func(b *testing.B) {
			for b.Loop() {
				if found := recount.Measure(f, strips, parts); found != nil {
					b.Fatal(found)
				}
			}
		})
	}
}

// BenchmarkMeasureJagged sweeps an outline of many short edges, with nothing laid.
func BenchmarkMeasureJagged(b *testing.B) {
	for _, corners := range []int{1000, 10_000, 50_000} {
		r := rand.New(rand.NewPCG(1, 2))
		var outline []spot
		for i := range corners {
			angle := 2 * math.Pi * float64(i) / float64(corners)
			d := 20_000 + 3*r.Float64()
			outline = append(outline, spot{X: math.Round(d * math.Cos(angle) * mm), Y: math.Round(d * math.Sin(angle) * mm)})
		}
		f := floorOf(outline)
		b.Run(fmt.Sprintf("corners=%d", corners), func(b *testing.B) {
			for b.Loop() {
				if found := recount.Measure(f, nil, nil); len(found) != 1 {
					b.Fatal(found)
				}
			}
		})
	}
}
