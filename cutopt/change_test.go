package cutopt_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

func TestChanges(t *testing.T) {
	const in = measure.Inch
	plan := func() *cutopt.Plan {
		row := func() cutopt.PlanRow {
			return cutopt.PlanRow{Width: 7 * in, Runs: []cutopt.PlanRun{{Pieces: []cutopt.Piece{
				{Plank: 1, Length: 20 * in}, {Plank: 2, Length: 30 * in},
			}}}}
		}
		return &cutopt.Plan{
			Order:  cutopt.Order{Boxes: 2},
			Floors: []cutopt.PlanFloor{{Rows: []cutopt.PlanRow{row(), row()}}, {}},
			Planks: make([]cutopt.PlankUse, 2),
		}
	}
	if changes := cutopt.Changes(plan(), plan()); changes != nil {
		t.Errorf("a plan differs from itself: %+v", changes)
	}
	for _, c := range []struct {
		reason string
		change func(p *cutopt.Plan)
		want   []cutopt.Change
	}{
		{"a box more", func(p *cutopt.Plan) { p.Order.Boxes = 3 }, []cutopt.Change{
			{Kind: cutopt.ChangeBoxes, WasCount: 2, IsCount: 3},
		}},
		{
			"a floor and a plank less", func(p *cutopt.Plan) { p.Floors, p.Planks = p.Floors[:1], p.Planks[:1] },
			[]cutopt.Change{
				{Kind: cutopt.ChangePlanks, WasCount: 2, IsCount: 1}, {Kind: cutopt.ChangeFloors, WasCount: 2, IsCount: 1},
			},
		},
		{"a tick that no tape shows", func(p *cutopt.Plan) {
			p.Floors[0].Axes.Origin.X++
			p.Floors[0].Rows[1].Width++
			pieces := p.Floors[0].Rows[1].Runs[0].Pieces
			pieces[0].Length, pieces[1].Length = pieces[0].Length+1, pieces[1].Length-1
		}, nil},
		{"turned: rows of another direction have no number in common", func(p *cutopt.Plan) {
			p.Floors[0].Axes.Turn, p.Floors[0].Rows = 90, nil
		}, []cutopt.Change{{Kind: cutopt.ChangeAxes, Floor: 1}}},
		{"a row less, the other ripped", func(p *cutopt.Plan) {
			p.Floors[0].Rows = p.Floors[0].Rows[:1]
			p.Floors[0].Rows[0].Width = 5 * in
		}, []cutopt.Change{
			{Kind: cutopt.ChangeRows, Floor: 1, WasCount: 2, IsCount: 1},
			{Kind: cutopt.ChangeWidth, Floor: 1, Row: 1, Was: 7 * in, Is: 5 * in},
		}},
		{"a joint moved, and the ender from another plank", func(p *cutopt.Plan) {
			pieces := p.Floors[0].Rows[1].Runs[0].Pieces
			pieces[0].Length, pieces[1].Length, pieces[1].Plank = 24*in, 26*in, 1
		}, []cutopt.Change{
			{Kind: cutopt.ChangeLength, Floor: 1, Row: 2, Run: 1, Piece: 1, Was: 20 * in, Is: 24 * in},
			{Kind: cutopt.ChangeLength, Floor: 1, Row: 2, Run: 1, Piece: 2, Was: 30 * in, Is: 26 * in},
			{Kind: cutopt.ChangeSource, Floor: 1, Row: 2, Run: 1, Piece: 2, WasCount: 2, IsCount: 1},
		}},
		{"a piece gone, and a run come", func(p *cutopt.Plan) {
			row := &p.Floors[0].Rows[0]
			row.Runs[0].Pieces = row.Runs[0].Pieces[:1]
			row.Runs = append(row.Runs, cutopt.PlanRun{})
		}, []cutopt.Change{
			{Kind: cutopt.ChangeRuns, Floor: 1, Row: 1, WasCount: 1, IsCount: 2},
			{Kind: cutopt.ChangePieces, Floor: 1, Row: 1, Run: 1, WasCount: 2, IsCount: 1},
			{Kind: cutopt.ChangeLength, Floor: 1, Row: 1, Run: 1, Piece: 2, Was: 30 * in},
		}},
	} {
		after := plan()
		c.change(after)
		if diff := cmp.Diff(c.want, cutopt.Changes(plan(), after)); diff != "" {
			t.Errorf("%s: %s", c.reason, diff)
		}
	}
	for k := cutopt.ChangeBoxes; k <= cutopt.ChangeSource; k++ {
		var back cutopt.ChangeKind
		if text, err := k.MarshalText(); err != nil || back.UnmarshalText(text) != nil || back != k {
			t.Errorf("%v reads back as %v, %v", k, back, err)
		}
	}
}
