package solve_test

import (
	"context"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestJoinedRoomsShareRows: rooms joined without a transition have common rows; one that asks for others is refused,
// one that asks for the same or for nothing is not.
func TestJoinedRoomsShareRows(t *testing.T) {
	const in = measure.Inch
	joined := func(rows cutopt.RowRules) *cutopt.Job {
		job := clashing()
		job.Rules = oracle.Rules(measure.UnitInch)
		job.Rooms = []cutopt.Room{
			{
				Name: "Shop", Outline: []cutopt.Point{{}, {X: 120 * in}, {X: 120 * in, Y: 90 * in}, {Y: 90 * in}},
				Rows:     cutopt.RowRules{Direction: cutopt.DirectionAcross},
				Doorways: []cutopt.Doorway{{Wall: 1, At: 20 * in, Width: 32 * in, Depth: 5 * in, To: "Yard", Through: true}},
			},
			{
				Name: "Yard", Outline: []cutopt.Point{{X: 125 * in}, {X: 225 * in}, {X: 225 * in, Y: 90 * in}, {
					X: 125 * in,
					Y: 90 * in,
				}},
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
		_, err := solve.Job(context.Background(), joined(test.rows), &solve.Options{Effort: solve.EffortQuick})
		var field *cutopt.FieldError
		if test.ok && err != nil || !test.ok && (!errors.As(err, &field) || field.Field != "rooms[2].rows") {
			t.Errorf("%s: %v", test.reason, err)
		}
		if !test.ok {
			t.Log(err)
		}
	}
}

func TestFloors(t *testing.T) {
	through := func(to string) cutopt.Doorway { return cutopt.Doorway{To: to, Through: true} }
	room := func(name string, doors ...cutopt.Doorway) cutopt.Room {
		return cutopt.Room{Name: name, Doorways: doors}
	}
	for _, test := range []struct {
		reason string
		rooms  []cutopt.Room
		want   [][]int
	}{
		{"none", nil, nil},
		{"each for itself", []cutopt.Room{room("A", cutopt.Doorway{To: "B"}), room("B")}, [][]int{{0}, {1}}},
		{"from the later room", []cutopt.Room{room("A"), room("B"), room("C", through("A"))}, [][]int{{0, 2}, {1}}},
		{
			"one by way of another",
			[]cutopt.Room{room("A"), room("B", through("D")), room("C"), room("D", through("C"))},
			[][]int{{0}, {1, 2, 3}},
		},
		{
			"round in a ring",
			[]cutopt.Room{room("A", through("B")), room("B", through("C")), room("C", through("A"))},
			[][]int{{0, 1, 2}},
		},
		{"to no room of the job", []cutopt.Room{room("", through("")), room("B", through("Attic"))}, [][]int{{0}, {1}}},
	} {
		if d := cmp.Diff(test.want, (&cutopt.Job{Rooms: test.rooms}).Floors()); d != "" {
			t.Errorf("%s (-want +got):\n%s", test.reason, d)
		}
	}
}
