package strips_test

import (
	"math"
	"testing"

	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// A living room with an alcove, a bay at 45 degrees and a chimney breast: 10 corners.
func BenchmarkRoom(b *testing.B) {
	r := room(in/4, corners(in, 0, 0, 120, 0, 150, 20, 200, 20, 200, 150, 120, 150, 120, 140, 60, 140, 60, 150, 0, 150))
	benchmark(b, r, strips.Layout{Width: 7 * in, Grid: in / 16, Smooth: in / 8, Cover: in / 4})
}

// A hall of 100 m by 90 m with 200 niches of 300 mm, 20 columns and 500 rows: 400 corners and the columns'.
func BenchmarkHall(b *testing.B) { benchmark(b, hall(), hallLayout) }

// The same hall turned by 17 degrees.
func BenchmarkHallTurned(b *testing.B) {
	r := hall()
	s := sample{outline: r.Outline}
	for _, i := range r.Islands {
		s.islands = append(s.islands, i.Outline)
	}
	benchmark(b, s.turned(17).room(6*mm), hallLayout)
}

var hallLayout = strips.Layout{Width: 180 * mm, Grid: mm, Smooth: 3 * mm, Cover: 6 * mm}

func hall() strips.Room {
	const n = 100 // teeth of each long wall: two corners each
	var bottom, top []measure.Point
	for i := range measure.Length(n) {
		deep := measure.Length(i%2) * 300 * mm
		bottom = append(bottom, measure.Point{X: i * 1000 * mm, Y: deep}, measure.Point{X: (i + 1) * 1000 * mm, Y: deep})
		top = append(
			top,
			measure.Point{X: (n - i) * 1000 * mm, Y: 90_000*mm - deep},
			measure.Point{X: (n - i - 1) * 1000 * mm, Y: 90_000*mm - deep},
		)
	}
	r := room(6*mm, append(bottom, top...))
	for i := range measure.Length(20) {
		x, y := (5+i%5*20)*1000*mm, (15+i/5*18)*1000*mm
		r.Islands = append(
			r.Islands,
			strips.Island{Outline: corners(1, x, y, x+600*mm, y, x+600*mm, y+600*mm, x, y+600*mm), Gap: 6 * mm},
		)
	}
	return r
}

func benchmark(b *testing.B, r strips.Room, l strips.Layout) {
	b.ReportAllocs()
	var f *strips.Floor
	for b.Loop() {
		f = lay(b, l, r)
	}
	b.ReportMetric(float64(len(r.Outline)), "corners")
	b.ReportMetric(float64(len(f.Rows)), "rows")
}

// A round room of many short walls.
func BenchmarkRound(b *testing.B) { benchmark(b, room(6*mm, round(2000, 5000)), hallLayout) }

func BenchmarkRound40000(b *testing.B) { benchmark(b, room(6*mm, round(40_000, 5000)), hallLayout) }

// round returns a circle of n corners with a radius in millimetres.
func round(n int, radius float64) []measure.Point {
	var outline []measure.Point
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		outline = append(outline, measure.Point{X: measure.Length(radius * 320 * cos), Y: measure.Length(radius * 320 * sin)})
	}
	return outline
}

// BenchmarkClip cuts pieces of 1,200 mm from all runs of a round room of 40,000 corners, and puts their shapes into
// words.
func BenchmarkClip(b *testing.B) {
	f := lay(b, hallLayout, room(6*mm, round(40_000, 5000)))
	for b.Loop() {
		for i := range f.Rows {
			for k, run := range f.Rows[i].Runs {
				for x := run.From; x < run.To; x += 1200 * mm {
					to := min(run.To, x+1200*mm)
					f.Clip(i, k, x, to)
					f.Shaping(i, k, x, to)
				}
			}
		}
	}
}
