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

// TestRecountTurned plans turned rooms with jogs: straightening moves an end of the wall that rows are laid out from by
// parts of a tick, or makes another wall the longest.
func TestRecountTurned(t *testing.T) {
	for _, row := range []struct {
		reason  string
		corners [][2]measure.Length
		smooth  measure.Length
		rows    cutopt.RowRules
	}{
		{
			"the end of the longest wall is moved along it and rounded",
			[][2]measure.Length{
				{0, 0},
				{-172064, -369267},
				{-171744, -369416},
				{-240569, -517123},
				{-240889, -516974},
				{
					-344129,
					-738535,
				},
				{116893, -952995},
				{117488, -951715},
				{577915, -1167455},
				{924715, -430882},
			},
			960,
			cutopt.RowRules{Start: cutopt.StartFar},
		},
		{
			"jogs of the longest side are straightened no more than those of another, which is the longest then",
			[][2]measure.Length{
				{0, 0},
				{152116, -221586},
				{153076, -220927},
				{213922, -309561},
				{212962, -310220},
				{304233, -443173},
				{689531, -178670},
				{689970, -179310},
				{844089, -73509},
				{843650, -72869},
				{1074829, 85833},
				{
					922712,
					307419,
				},
				{922072, 306980},
				{861226, 395614},
				{861866, 396053},
				{770595, 529005},
				{385297, 264502},
				{
					385736,
					263862,
				},
			},
			960,
			cutopt.RowRules{},
		},
	} {
		room := cutopt.Room{Rows: row.rows}
		for _, c := range row.corners {
			room.Outline = append(room.Outline, cutopt.Point{X: c[0], Y: c[1]})
		}
		job := metric(1200*measure.Millimetre, 180*measure.Millimetre, room)
		job.Rules.Smooth = row.smooth
		if _, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick}); err != nil {
			t.Errorf("%s: %v", row.reason, err)
		}
	}
}

// TestEnderBesideOnePiece: a one-piece run that is sawn off a plank before its ender leaves the ender what it may come
// out longer by.
func TestEnderBesideOnePiece(t *testing.T) {
	job := denJob()
	job.Rules.AsItComes, job.Rules.Fit = 0, measure.Inch
	closet := job.Rooms[0]
	closet.Name = "Closet"
	closet.Outline = cutopt.RectangleAt(cutopt.Point{X: 300 * measure.Inch}, 16*measure.Inch, 40*measure.Inch)
	closet.Rows.Direction = cutopt.DirectionAcross
	job.Rooms = []cutopt.Room{closet, job.Rooms[0]}
	result, err := solve.Job(t.Context(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for i := range result.Plan.Planks {
		use := &result.Plan.Planks[i]
		if len(use.Pieces) < 2 || result.Plan.Piece(use.Pieces[0]).Ends != cutopt.EndsLeft ||
			result.Plan.Piece(use.Pieces[1]).Ends != cutopt.EndsNone || use.Pieces[1].Floor >= use.Pieces[0].Floor {
			continue
		}
		seen++
		ender := result.Plan.Piece(use.Pieces[0]).Length
		kept := ender + job.Rules.Kerf // what lies to the left of the cut, beyond the ender
		if len(use.Left) > 0 && use.Left[0].From == kept {
			kept = use.Left[0].To
		}
		if kept < ender+job.Rules.Fit {
			t.Errorf("plank %d: %d is kept for an ender of %d and a fit of %d", i+1, kept, ender, job.Rules.Fit)
		}
	}
	if seen == 0 {
		t.Error("no ender shares its plank with a run that is laid before it")
	}
}
