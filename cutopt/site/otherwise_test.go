package site_test

import (
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// Each row of a narrow L is begun with a starter of 260 mm, whatever was planned. Where its ender was to come off the
// plank that a run in one piece is cut from, that lies where it was: what was left of the ender's place is on hand.
func TestAnyRowBeginsOtherwise(t *testing.T) {
	const mm = measure.Millimetre
	job := &cutopt.Job{
		Unit: measure.UnitMillimetre, Plank: cutopt.Plank{Length: 1220 * mm, Width: 174 * mm},
		Box: cutopt.Box{Planks: 8}, Rules: cutopt.DefaultRules(measure.UnitMillimetre),
		Rooms: []cutopt.Room{{
			Name: "Hall",
			Outline: []cutopt.Point{
				{},
				{X: 4291 * mm},
				{X: 4291 * mm, Y: 9579 * mm / 10},
				{X: 21455 * mm / 10, Y: 9579 * mm / 10},
				{X: 21455 * mm / 10, Y: 3193 * mm},
				{Y: 3193 * mm},
			},
			Rows: cutopt.RowRules{Direction: cutopt.DirectionAcross, Start: cutopt.StartFar},
		}},
	}
	quick := &solve.Options{Effort: solve.EffortQuick}
	planned, err := solve.Job(t.Context(), job, quick)
	if err != nil {
		t.Fatal(err)
	}
	midway := 0 // lying pieces without factory ends, on planks that the row has no piece on any more
	for row := range planned.Plan.Floors[0].Rows {
		s := &site.State{Events: []site.Event{
			{Kind: site.KindLaid, Row: row}, {Kind: site.KindStarter, Row: row + 1, Length: 260 * mm},
		}}
		if row == 0 {
			s.Events = s.Events[1:]
		}
		now, marked, _, err := site.Apply(job, planned.Plan, s)
		if err != nil {
			t.Errorf("row %d: %v", row+1, err)
			continue
		}
		for i := range marked.Planks {
			for _, ref := range marked.Planks[i].Pieces {
				if p := marked.Piece(ref); p.Lies && p.Ends == cutopt.EndsNone && len(marked.Planks[i].Pieces) == 1 {
					midway++
				}
			}
		}
		if _, err := solve.Continue(t.Context(), now, marked, quick); err != nil {
			t.Errorf("row %d: %v", row+1, err)
		}
	}
	if midway == 0 {
		t.Error("no piece lies that is cut from the middle of a plank, with nothing else of it")
	}
}
