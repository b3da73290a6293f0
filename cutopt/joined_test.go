package cutopt_test

import (
	"context"
	"errors"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// TestJoinedRoomsShareRows: rooms joined without a transition have common rows; one that asks for others is refused, one
// that asks for the same or for nothing is not.
func TestJoinedRoomsShareRows(t *testing.T) {
	const in = measure.Inch
	joined := func(rows cutopt.RowRules) *cutopt.Job {
		job := clashing()
		job.Rules = cutopt.DefaultRules(measure.UnitInch)
		job.Rooms = []cutopt.Room{
			{
				Name: "Shop", Outline: []cutopt.Point{{}, {X: 120 * in}, {X: 120 * in, Y: 90 * in}, {Y: 90 * in}},
				Rows:     cutopt.RowRules{Direction: cutopt.DirectionAcross},
				Doorways: []cutopt.Doorway{{Wall: 1, At: 20 * in, Width: 32 * in, Depth: 5 * in, To: "Yard", Through: true}},
			},
			{
				Name: "Yard", Outline: []cutopt.Point{{X: 125 * in}, {X: 225 * in}, {X: 225 * in, Y: 90 * in}, {X: 125 * in, Y: 90 * in}},
				Rows: rows,
			},
		}
		return job
	}
	for _, test := range []struct {
		reason string
		rows   cutopt.RowRules
		ok     bool
	}{
		{"left to the first room", cutopt.RowRules{}, true},
		{"the same", cutopt.RowRules{Direction: cutopt.DirectionAcross}, true},
		{"from the far side", cutopt.RowRules{Direction: cutopt.DirectionAcross, Start: cutopt.StartFar}, false},
		{"another first row", cutopt.RowRules{Direction: cutopt.DirectionAcross, FirstRow: 4 * in}, false},
	} {
		_, err := cutopt.Solve(context.Background(), joined(test.rows), &cutopt.Options{Effort: cutopt.EffortQuick})
		var field *cutopt.FieldError
		if test.ok && err != nil || !test.ok && (!errors.As(err, &field) || field.Field != "rooms[2].rows") {
			t.Errorf("%s: %v", test.reason, err)
		}
		if !test.ok {
			t.Log(err)
		}
	}
}
