package solve_test

import (
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestRecountAwkward plans rooms whose plans were right and were refused by the recount: random failures, kept.
func TestRecountAwkward(t *testing.T) {
	const in = measure.Inch
	for _, row := range []struct {
		file   string
		change func(*cutopt.Job)
		reason string
	}{
		{"testdata/jobs/side-out.yaml", func(j *cutopt.Job) {
			j.Rooms[0].Outline[2].X, j.Rules.Gap = 1750*in, 0
		}, "a wall that slants by 85 degrees: more lies open beyond straight cuts than the slivers"},
		{"../../examples/kitchen.yaml", func(j *cutopt.Job) {
			j.Rooms[0].Islands[0].Outline[0].Y += in
			j.Rooms[0].Islands[0].Outline[3].Y += in / 16
		}, "walls along the rows, an island that is askew: what lies open beside it is rounding, no sliver"},
		{"../../examples/kitchen.yaml", func(j *cutopt.Job) {
			j.Rooms[0].Islands[0].Outline[2].Y -= 12 * in
		}, "an island with one slanted side, and a sliver"},
		{"../../examples/kitchen.yaml", func(j *cutopt.Job) {
			j.Rooms[0].Islands[0].Outline[2].X -= 6 * in
		}, "an island whose slanted side crosses rows"},
	} {
		job := read(t, row.file)
		row.change(job)
		if _, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick}); err != nil {
			t.Errorf("%s: %v", row.reason, err)
		}
	}
}
