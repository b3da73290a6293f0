package site_test

import (
	"context"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// TestPushedOffcut: an ender that came out longer pushes the one-piece run that is sawn off beyond it, so what is left
// of their plank may be two fit allowances shorter than planned.
func TestPushedOffcut(t *testing.T) {
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 10},
		Rules: cutopt.DefaultRules(measure.UnitInch),
		Rooms: []cutopt.Room{
			{Name: "Den", Outline: cutopt.Rectangle(125*in, 90*in)},
			{Name: "Closet", Outline: cutopt.RectangleAt(cutopt.Point{X: 300 * in}, 40*in, 16*in)},
		},
	}
	job.Rooms[1].Rows.Direction = cutopt.DirectionAcross
	job.Rules.AsItComes = 0
	first, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	s := &site.State{Events: []site.Event{
		{Kind: site.KindLaid, Floor: 0, Row: len(first.Plan.Floors[0].Rows)}, {Kind: site.KindLaid, Floor: 1, Row: 5},
	}}
	_, marked, _, err := site.Apply(job, first.Plan, s)
	if err != nil {
		t.Fatal(err)
	}
	instance, err := check.Instance(job, marked)
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for i := range marked.Planks {
		var lie []*cutopt.Piece
		for _, ref := range marked.Planks[i].Pieces {
			if p := marked.Piece(ref); p.Lies {
				lie = append(lie, p)
			}
		}
		if len(lie) != 2 || lie[0].Ends != cutopt.EndsLeft || lie[1].Ends != cutopt.EndsNone {
			continue
		}
		seen++
		left := job.Plank.Length - lie[0].Length - lie[1].Length - 2*(job.Rules.Kerf+job.Rules.Fit)
		if left > 0 && !slices.Contains(instance.Offcuts, rows.Offcut{Length: left, End: rows.EndRight}) {
			t.Errorf("plank %d: of what is left %d are sure, not among %v", i+1, left, instance.Offcuts)
		}
	}
	if seen == 0 {
		t.Error("no ender shares its plank with a run of one piece")
	}
	if _, err := solve.Continue(context.Background(), job, marked, nil); err != nil {
		t.Error(err)
	}
}
