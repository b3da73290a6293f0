package cutopt_test

import (
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
)

// A room of 144 x 132 in with a door of 30 in in its first wall, from 24 to 54 in, gap 1/4 in.
func TestBlockedDoorway(t *testing.T) {
	const in = measure.Inch
	box := func(x0, y0, x1, y1 measure.Length) []cutopt.Point {
		return []cutopt.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	}
	for _, row := range []struct {
		name    string
		cabinet []cutopt.Point
		blocked bool
	}{
		{"a cabinet in front of half of it", box(40*in, 0, 80*in, 24*in), true},
		{"one across all of it", box(20*in, 0, 80*in, 24*in), true},
		{"one in the middle of it", box(36*in, 0, 40*in, 24*in), true},
		{"one that stands free by less than its gap", box(40*in, in/8, 80*in, 24*in), true},
		{"one that stands free by its gap", box(40*in, in/4, 80*in, 24*in), false},
		{"one beside it", box(54*in, 0, 80*in, 24*in), false},
		{"one beside it that reaches in front of the casing by less than its gap", box(54*in-in/8, 0, 80*in, 24*in), false},
		{"one at another wall", box(20*in, 100*in, 80*in, 132*in), false},
	} {
		t.Run(row.name, func(t *testing.T) {
			job := &cutopt.Job{
				Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
				Rules: oracle.Rules(measure.UnitInch),
				Rooms: []cutopt.Room{{
					Name: "R", Outline: box(0, 0, 144*in, 132*in), Islands: []cutopt.Island{{Name: "Cabinet", Outline: row.cabinet}},
					Doorways: []cutopt.Doorway{{Name: "Back door", Wall: 0, At: 24 * in, Width: 30 * in, Depth: 4 * in}},
				}},
			}
			err := job.Validate()
			if (err != nil) != row.blocked {
				t.Fatalf("error %v", err)
			}
			if row.blocked && !(strings.Contains(err.Error(), `"Back door"`) && strings.Contains(err.Error(), `"Cabinet"`)) {
				t.Errorf("error %v does not name both", err)
			}
		})
	}
}

// Where a wall ends at a corner that juts into the room, the floor beneath a wooden casing needs wall to run in; where
// it ends at a corner of the room it runs on beneath the other wall's trim.
func TestDoorwayBesideACorner(t *testing.T) {
	const in = measure.Inch
	job := func(wall int, at measure.Length, casing cutopt.Casing) *cutopt.Job {
		return &cutopt.Job{
			Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
			Rules: cutopt.DefaultRules(measure.UnitInch), // 1/2 in runs beneath a casing, and the gap is 1/4 in
			Rooms: []cutopt.Room{{
				Doorways: []cutopt.Doorway{{Wall: wall, At: at, Width: 30 * in, Depth: 4 * in, Casing: casing}},
				Outline: []cutopt.Point{
					{},
					{X: 160 * in},
					{X: 160 * in, Y: 60 * in},
					{X: 80 * in, Y: 60 * in},
					{X: 80 * in, Y: 120 * in},
					{Y: 120 * in},
				},
			}},
		}
	}
	for _, c := range []struct {
		reason string
		job    *cutopt.Job
		wrong  bool
	}{
		{"3/4 in of wall beside the corner at (80, 60)", job(2, 50*in-3*in/4, cutopt.CasingWood), false},
		{"5/8 in", job(2, 50*in-5*in/8, cutopt.CasingWood), true},
		{"metal is cut round", job(2, 50*in-5*in/8, cutopt.CasingMetal), false},
		{"the other wall of that corner", job(3, 5*in/8, cutopt.CasingWood), true},
		{"a corner of the room", job(2, 0, cutopt.CasingWood), false},
	} {
		err := c.job.Validate()
		if (err != nil) != c.wrong {
			t.Errorf("%s: %v", c.reason, err)
		}
		if err != nil && !strings.Contains(err.Error(), "at least 3/4 in of wall") {
			t.Errorf("%s: %v", c.reason, err)
		}
	}
}

// Between two doorways of one wall stands as much wall as the floor runs beneath their casings, 1/2 in each, and the
// gap of 1/4 in from one that is cut round.
func TestPostBetweenDoorways(t *testing.T) {
	const in = measure.Inch
	for _, c := range []struct {
		post     measure.Length
		one, two cutopt.Casing
		depth    measure.Length // of the second
		ok       bool
	}{
		{in, cutopt.CasingWood, cutopt.CasingWood, 4 * in, true},
		{in - 1, cutopt.CasingWood, cutopt.CasingWood, 4 * in, false},
		{in / 2, cutopt.CasingWood, cutopt.CasingWood, 0, true}, // nothing runs into the second
		{3 * in / 4, cutopt.CasingMetal, cutopt.CasingWood, 4 * in, true},
		{3*in/4 - 1, cutopt.CasingWood, cutopt.CasingMetal, 4 * in, false},
		{0, cutopt.CasingMetal, cutopt.CasingMetal, 4 * in, true},
	} {
		job := &cutopt.Job{
			Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
			Rules: cutopt.DefaultRules(measure.UnitInch),
			Rooms: []cutopt.Room{{
				Outline: cutopt.Rectangle(160*in, 120*in),
				Doorways: []cutopt.Doorway{
					{At: 60*in + c.post, Width: 30 * in, Depth: c.depth, Casing: c.two},
					{At: 30 * in, Width: 30 * in, Depth: 4 * in, Casing: c.one},
				},
			}},
		}
		if err := job.Validate(); (err == nil) != c.ok || err != nil && !strings.Contains(err.Error(), "doorways[1].at") {
			t.Errorf("%v of wall between %v and %v: %v", c.post.Format(job.Unit, 1), c.one, c.two, err)
		}
	}
}
