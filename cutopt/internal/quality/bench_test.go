package quality_test

import (
	"fmt"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// hall is n rows of one length, and the layout of the trade's habit.
func hall(n int, length measure.Length) (*quality.Problem, rows.Layout) {
	const in = measure.Inch
	instance := &rows.Instance{
		Plank: 48 * in, Kerf: in / 8, MinPiece: 8 * in, MinEnder: 8*in + in/4, Stagger: 8*in + in/4, Grid: in / 16,
	}
	p := &quality.Problem{Instance: instance, Fit: in / 8, InLine: in, Prefer: 12 * in, Round: in}
	for i := range n {
		instance.Runs = append(instance.Runs, rows.Run{Length: length})
		p.Row = append(p.Row, i)
		if i > 0 {
			instance.Touch = append(instance.Touch, [2]int{i - 1, i})
		}
	}
	layout, ok := search.Carry(starters.New(instance))
	if !ok {
		panic("the hall cannot be laid")
	}
	return p, layout
}

var allAims = cutopt.DefaultAims()

// BenchmarkImprove improves floors of a den, a dwelling and halls, with four planks to spare.
func BenchmarkImprove(b *testing.B) {
	for _, n := range []int{19, 40, 200, 2000} {
		p, layout := hall(n, 174*measure.Inch+measure.Inch/2)
		cutting := p.Instance.Cut(layout, nil)
		b.Run(fmt.Sprintf("rows=%d", n), func(b *testing.B) {
			steps := int64(0)
			for b.Loop() {
				out := quality.Improve(
					p,
					layout,
					cutting,
					&quality.Settings{Order: allAims, Cap: len(cutting.Planks) + 4, Budget: normal},
				)
				steps = out.Steps
			}
			b.ReportMetric(float64(steps), "steps")
		})
	}
}

// BenchmarkMeasure counts the figures of the same floors.
func BenchmarkMeasure(b *testing.B) {
	for _, n := range []int{40, 2000} {
		p, layout := hall(n, 174*measure.Inch)
		cutting := p.Instance.Cut(layout, nil)
		b.Run(fmt.Sprintf("rows=%d", n), func(b *testing.B) {
			for b.Loop() {
				quality.Measure(p, layout, cutting)
			}
		})
	}
}

// BenchmarkCorners moves joints off corners without aims: of every tenth row, and where these are blocked, of none,
// after all places were tried.
func BenchmarkCorners(b *testing.B) {
	for _, blocked := range []bool{false, true} {
		p, layout := hall(200, 174*measure.Inch+measure.Inch/2)
		cutting := p.Instance.Cut(layout, nil)
		p.Thin = func(i int, starter measure.Length) int {
			if i%10 == 0 && (blocked || starter == layout[i]) {
				return 1
			}
			return 0
		}
		b.Run(fmt.Sprintf("blocked=%v", blocked), func(b *testing.B) {
			for b.Loop() {
				quality.Improve(p, layout, cutting, &quality.Settings{Cap: len(cutting.Planks) + 4})
			}
		})
	}
}
