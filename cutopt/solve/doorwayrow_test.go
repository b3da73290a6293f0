package solve_test

import (
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// A doorway in the wall opposite gets a strip beside the last row. In a room 120 in wide edge rows of 3 1/2 in or more
// are 3 1/2 and 4 in together at most, so that the strip is 1 1/4 in: no first row that min-rip admits leaves more, the
// plan tells of it, and Check finds what is told otherwise. By hand: 119 1/2 in of floor are 16 rows of 7 in and
// 7 1/2 in; the floor in the doorway is 4 1/2 in deep.
func TestDoorwayRow(t *testing.T) {
	const in = measure.Inch
	room := func(wall int, depth, first measure.Length) *cutopt.Job {
		rules := cutopt.DefaultRules(measure.UnitInch)
		return &cutopt.Job{
			Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in},
			Box: cutopt.Box{Planks: 10}, Rules: rules,
			Rooms: []cutopt.Room{{
				Name: "Room", Outline: []cutopt.Point{{}, {X: 144 * in}, {X: 144 * in, Y: 120 * in}, {Y: 120 * in}},
				Doorways: []cutopt.Doorway{{Wall: wall, At: 24 * in, Width: 30 * in, Depth: depth}},
				Rows:     cutopt.RowRules{FirstRow: first, StartWall: 1},
			}},
		}
	}
	planned := func(job *cutopt.Job) *cutopt.Plan {
		t.Helper()
		result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatal(err)
		}
		return result.Plan
	}
	told := func(p *cutopt.Plan) int {
		return slices.IndexFunc(p.Floors[0].Facts, func(f cutopt.Fact) bool { return f.Kind == cutopt.FactDoorwayRow })
	}
	last := func(p *cutopt.Plan) measure.Length { return p.Floors[0].Rows[len(p.Floors[0].Rows)-1].Width }
	job := room(2, 4*in+in/4, 0)
	plan := planned(job)
	at := told(plan)
	if at < 0 || plan.Floors[0].Facts[at] != (cutopt.Fact{
		Kind: cutopt.FactDoorwayRow, Row: len(plan.Floors[0].Rows), Width: in + in/4, Least: 2 * in,
	}) {
		t.Fatalf("told %+v, want the last row 1 1/4 in wide", plan.Floors[0].Facts)
	}
	for first := 3*in + in/2; first <= 4*in; first += in / 8 {
		if w := last(planned(room(2, 4*in+in/4, first))); w > in+in/4 {
			t.Errorf("a first row of %v leaves %v in the doorway", first, w)
		}
	}
	facts := plan.Floors[0].Facts
	try := func(what string, with []cutopt.Fact) {
		t.Helper()
		plan.Floors[0].Facts = with
		if check.Plan(job, plan) == nil {
			t.Errorf("%s is not found", what)
		}
	}
	try("left out", slices.Delete(slices.Clone(facts), at, at+1))
	try("told twice", append(slices.Clone(facts), facts[at]))
	for _, field := range cutopt.FactDoorwayRow.Fields() {
		for _, up := range []bool{false, true} {
			with := slices.Clone(facts)
			forge(&with[at], field, up)
			try(string(field), with)
		}
	}
	for _, c := range []struct {
		reason string
		job    *cutopt.Job
		want   bool
	}{
		{"the same in the starting wall", room(0, 5*in, 3*in+in/2), true}, // 5 1/4 in less 3 1/2 in
		{"2 1/4 in is wide enough", room(2, 5*in+in/4, 3*in+in/2), false},
		{"below 1 in it is told as a strip", room(2, 4*in, 4*in), false},
		{"no doorway", func() *cutopt.Job { j := room(2, 4*in, 0); j.Rooms[0].Doorways = nil; return j }(), false},
	} {
		if p := planned(c.job); (told(p) >= 0) != c.want {
			t.Errorf("%s: told %+v", c.reason, p.Floors[0].Facts)
		}
	}
}

// The back edge of a row that lies in a doorway alone runs along the wall too, and is no edge row for that: with a
// first row of 6 7/8 in the last is 5/8 in wide (119 1/2 less 6 7/8 in are 16 rows of 7 and 5/8 in), and the row in the
// doorway 1 7/8 in.
func TestDoorwayRowIsNoEdgeRow(t *testing.T) {
	const in = measure.Inch
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 10},
		Rules: cutopt.DefaultRules(measure.UnitInch),
		Rooms: []cutopt.Room{{
			Name: "Room", Outline: []cutopt.Point{{}, {X: 144 * in}, {X: 144 * in, Y: 120 * in}, {Y: 120 * in}},
			Doorways: []cutopt.Doorway{{At: 24 * in, Width: 30 * in, Depth: 2 * in}},
			Rows:     cutopt.RowRules{FirstRow: 7*in - in/8, StartWall: 1},
		}},
	}
	result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	var told []cutopt.Fact
	for _, f := range result.Plan.Floors[0].Facts {
		if f.Kind == cutopt.FactEdgeAsked || f.Kind == cutopt.FactDoorwayRow {
			told = append(told, f)
		}
	}
	want := []cutopt.Fact{
		{Kind: cutopt.FactEdgeAsked, First: 7*in - in/8, Last: 5 * in / 8, Least: 3*in + in/2},
		{Kind: cutopt.FactDoorwayRow, Row: 1, Width: 2*in - in/8, Least: 2 * in},
	}
	if !slices.Equal(told, want) {
		t.Errorf("told %+v, want %+v", told, want)
	}
}
