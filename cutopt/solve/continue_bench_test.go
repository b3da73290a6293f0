package solve_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// A mishap is what happens to a job of which some lies.
type mishap struct {
	name   string
	events func(job *cutopt.Job, plan *cutopt.Plan, laid []site.Event) []site.Event
}

// next returns the first row of which nothing lies, and the number of the first plank that none before it is cut from.
func next(plan *cutopt.Plan, laid []site.Event) (floor, row, plank int) {
	last := laid[len(laid)-1]
	if floor, row = last.Floor, last.Row+1; row > len(plan.Floors[floor].Rows) {
		floor, row = floor+1, 1
	}
	for _, ref := range inOrder(plan) {
		if ref.Floor > floor || ref.Floor == floor && ref.Row >= row-1 {
			break
		}
		plank = max(plank, plan.Piece(ref).Plank)
	}
	return floor, row, plank + 1
}

var mishaps = []mishap{
	{"laid", func(_ *cutopt.Job, _ *cutopt.Plan, laid []site.Event) []site.Event { return laid }},
	{"lost", func(_ *cutopt.Job, plan *cutopt.Plan, laid []site.Event) []site.Event {
		_, _, plank := next(plan, laid)
		return append(laid, site.Event{Kind: site.KindLost, Planks: []int{plank, plank + 2}})
	}},
	{"miscut", func(job *cutopt.Job, plan *cutopt.Plan, laid []site.Event) []site.Event {
		_, _, plank := next(plan, laid)
		return append(laid, site.Event{
			Kind: site.KindMiscut, Planks: []int{plank}, Length: job.Plank.Length * 2 / 5, Ends: cutopt.EndsLeft,
		})
	}},
	{"longer", func(_ *cutopt.Job, plan *cutopt.Plan, laid []site.Event) []site.Event {
		floor, row, _ := next(plan, laid)
		return append(laid, site.Event{Kind: site.KindLonger, Floor: floor, Row: row, Length: measure.Inch / 2})
	}},
	{"culled", func(_ *cutopt.Job, _ *cutopt.Plan, laid []site.Event) []site.Event {
		return append(laid, site.Event{Kind: site.KindCulled, Count: 2})
	}},
	{"starter", func(job *cutopt.Job, plan *cutopt.Plan, laid []site.Event) []site.Event {
		last := laid[len(laid)-1]
		return append(laid, site.Event{
			Kind: site.KindStarter, Floor: last.Floor, Row: last.Row, Run: 1, Length: job.Plank.Length * 3 / 5,
		})
	}},
	{"short", func(_ *cutopt.Job, _ *cutopt.Plan, laid []site.Event) []site.Event {
		return append(laid, site.Event{Kind: site.KindBoxes}, site.Event{Kind: site.KindPlanks, Count: 5})
	}},
	{"lots", func(_ *cutopt.Job, plan *cutopt.Plan, laid []site.Event) []site.Event {
		last := laid[len(laid)-1]
		for f := range last.Floor + 1 {
			laid = append(laid, site.Event{Kind: site.KindLot, Floor: f, Lot: "A"})
		}
		_, _, plank := next(plan, laid[:last.Floor+1])
		return append(laid, site.Event{Kind: site.KindPlanks, Count: 6, Lot: "A"},
			site.Event{Kind: site.KindBoxes, Count: 4, Lot: "B"}, site.Event{Kind: site.KindLost, Planks: []int{plank}})
	}},
}

// half says that about half of a job lies: half of the rows of a floor, or half of the floors and half of the rows of
// the next one.
func half(plan *cutopt.Plan) (laid []site.Event) {
	middle := (len(plan.Floors) - 1) / 2
	for f := range middle {
		laid = append(laid, site.Event{Kind: site.KindLaid, Floor: f, Row: len(plan.Floors[f].Rows)})
	}
	return append(laid, site.Event{Kind: site.KindLaid, Floor: middle, Row: len(plan.Floors[middle].Rows) / 2})
}

// BenchmarkContinue plans on where half of an example lies, for everything that happens on a site, and at first of all
// nothing but that. It reports the runs left and the whole planks by which need and bound are apart.
func BenchmarkContinue(b *testing.B) {
	for _, name := range []string{"den", "hall", "kitchen", "loft", "flat", "dwelling"} {
		data, err := os.ReadFile("../../examples/" + name + ".yaml")
		if err != nil {
			b.Fatal(err)
		}
		job, err := jobfile.Decode(bytes.NewReader(data), name)
		if err != nil {
			b.Fatal(err)
		}
		first, err := solve.Job(b.Context(), job, &solve.Options{Workers: 2})
		if err != nil {
			b.Fatal(err)
		}
		for _, m := range mishaps {
			state := &site.State{Events: m.events(job, first.Plan, half(first.Plan))}
			job, marked, _, err := site.Apply(job, first.Plan, state)
			if err != nil {
				b.Log(name, m.name, strings.ReplaceAll(err.Error(), "\n", "; "))
				continue
			}
			for _, fewest := range []solve.Objective{solve.FewestBoxes, solve.FewestPlanks} {
				b.Run(name+"/"+m.name+"/"+fewest.String(), func(b *testing.B) {
					var got *solve.Result
					for b.Loop() {
						if got, err = solve.Continue(b.Context(), job, marked, &solve.Options{Fewest: fewest}); err != nil {
							b.Fatal(err)
						}
					}
					b.ReportMetric(float64(len(got.Instance.Runs)), "runs")
					b.ReportMetric(float64(got.Plan.Site.Needed-got.Plan.Site.Least), "open")
				})
			}
		}
	}
}
