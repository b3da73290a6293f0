package site_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// example returns one of the examples.
func example(t *testing.T, name string) planned {
	t.Helper()
	all, err := examples()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range all {
		if p.name == name {
			return p
		}
	}
	t.Fatalf("no example is named %q", name)
	return planned{}
}

// TestIslandStandsElsewhere measures rows beside the island of the kitchen, on either side of it, from each row on: the
// run told of is as long as that, and the others stay.
func TestIslandStandsElsewhere(t *testing.T) {
	p := example(t, "kitchen")
	rows, gap := p.plan.Floors[0].Rows, p.job.Rules.Gap
	length := func(run cutopt.PlanRun) measure.Length { return run.To - run.From }
	beside := 0
	for r := range rows {
		if len(rows[r].Runs) != 2 || r == 0 {
			continue
		}
		a, b := rows[r].Runs[0], rows[r].Runs[1]
		for _, told := range []struct {
			why  string
			e    site.Event
			a, b measure.Length
		}{
			{"the island begins farther on", site.Event{Kind: site.KindLonger, Run: 1, Length: in}, in, 0},
			{"or sooner", site.Event{Kind: site.KindLonger, Run: 1, Length: -in}, -in, 0},
			{
				"from the wall to the island, with the gap of both",
				site.Event{Kind: site.KindMeasured, Run: 1, Length: length(a) + 2*gap + in},
				in, 0,
			},
			{
				"from the island to the wall",
				site.Event{Kind: site.KindMeasured, Run: 2, Length: length(b) + 2*gap - in},
				0, -in,
			},
			{
				"without a run, from wall to wall",
				site.Event{Kind: site.KindMeasured, Length: b.To - a.From + 2*gap + in},
				0, in,
			},
		} {
			told.e.Row = r + 1
			s := &site.State{Events: []site.Event{{Kind: site.KindLaid, Row: r}, told.e}}
			job, marked, remarks, err := site.Apply(p.job, p.plan, s)
			if err != nil || (len(remarks) > 0) != (told.e.Kind == site.KindMeasured) {
				t.Errorf("row %d, %s: %v %v", r+1, told.why, remarks, err)
				continue
			}
			is := marked.Floors[0].Rows[r].Runs
			if got := [2]measure.Length{length(is[0]) - length(a), length(is[1]) - length(b)}; got != [2]measure.Length{
				told.a, told.b,
			} {
				t.Errorf("row %d, %s: longer by %v", r+1, told.why, got)
			}
			for k := range r {
				for u, run := range marked.Floors[0].Rows[k].Runs {
					if length(run) != length(rows[k].Runs[u]) {
						t.Errorf("row %d, %s: row %d, which lies, is another", r+1, told.why, k+1)
					}
				}
			}
			if r%3 > 0 {
				continue
			}
			result, err := solve.Continue(context.Background(), job, marked, &solve.Options{Effort: solve.EffortQuick})
			if err != nil {
				t.Errorf("row %d, %s: %v", r+1, told.why, err)
			} else if v := check.Plan(job, result.Plan); len(v) > 0 {
				t.Errorf("row %d, %s: %v", r+1, told.why, v[0])
			}
		}
		beside++
	}
	if beside < 3 {
		t.Errorf("only %d rows are beside the island", beside)
	}
}

// TestWithinTheFit tells of rows that end in the garden door of the hall, where one lies already: by as much as the fit
// allowance the plan stays, with a remark; more is refused, since the floor ends there along one line.
func TestWithinTheFit(t *testing.T) {
	p := example(t, "hall")
	const laid, row = 5, 6 // both end in the doorway
	fit := p.job.Rules.Fit
	for _, by := range []measure.Length{fit, -fit, in / 16, fit + 1, -fit - 1} {
		s := &site.State{Events: []site.Event{
			{Kind: site.KindLaid, Row: laid}, {Kind: site.KindLonger, Row: row, Length: by},
		}}
		about := fmt.Sprintf("longer by %s", by.Format(measure.UnitInch, measure.Tick))
		job, marked, remarks, err := site.Apply(p.job, p.plan, s)
		if max(by, -by) > fit {
			if err == nil {
				t.Errorf("%s: taken", about)
			}
			continue
		}
		if err != nil || len(remarks) != 1 || remarks[0].Kind != "cut-to-fit" || remarks[0].Figure("length") != max(by, -by) {
			t.Errorf("%s: %v %v", about, remarks, err)
			continue
		}
		result, err := solve.Continue(context.Background(), job, marked, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Errorf("%s: %v", about, err)
		} else if n := len(result.Plan.Site.Changed); n > 0 {
			t.Errorf("%s: %d runs are changed", about, n)
		}
	}
}

// TestBreakStaysWhereRowsLie: the place of a break that the planner has chosen follows the length of the room, and does
// not once rows lie up to it.
func TestBreakStaysWhereRowsLie(t *testing.T) {
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitInch),
		Rooms: []cutopt.Room{{Name: "Corridor", Outline: cutopt.Rectangle(44*12*in, 6*12*in)}},
	}
	job.Rules.MaxAlong = 30 * 12 * in
	first, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	taken := 0
	for f := range first.Plan.Floors {
		s := &site.State{Events: []site.Event{
			{Kind: site.KindLaid, Floor: 0, Row: 3},
			{Kind: site.KindLaid, Floor: 1, Row: 3},
			{Kind: site.KindLonger, Floor: f, Row: 5, Length: 3 * in},
		}}
		job, marked, _, err := site.Apply(job, first.Plan, s)
		if err != nil {
			continue
		}
		taken++
		for i, b := range marked.Breaks {
			if was := first.Plan.Breaks[i]; b.From != was.From || b.To != was.To {
				t.Errorf("field %d: the break is moved from %v to %v", f+1, was.From, b.From)
			}
		}
		result, err := solve.Continue(context.Background(), job, marked, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatalf("field %d: %v", f+1, err)
		}
		if v := check.Plan(job, result.Plan); len(v) > 0 {
			t.Errorf("field %d: %v", f+1, v[0])
		}
	}
	if taken != 1 { // rows of the other end at the break
		t.Errorf("%d of 2 fields end at a wall", taken)
	}
}

// TestToldOfARowThatLies: whoever finds a row longer while laying it, and tells of it when it lies, means the rows from
// the next one on, as long as the fit allowance holds for the row itself.
func TestToldOfARowThatLies(t *testing.T) {
	p := example(t, "den")
	job, marked, remarks, err := apply(p, "row 4", "row 4 longer 3/8")
	if err != nil || len(remarks) != 1 || remarks[0].Kind != "counts-from" {
		t.Fatalf("%v %v", remarks, err)
	}
	same, other, _, err := apply(p, "row 4", "row 5 longer 3/8")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(job, same); diff != "" {
		t.Errorf("told of row 5 it is another job: %s", diff)
	}
	if diff := cmp.Diff(marked, other); diff != "" {
		t.Errorf("told of row 5 it is another plan: %s", diff)
	}
	last := len(p.plan.Floors[0].Rows)
	if job, _, _, err = apply(p, "all", fmt.Sprintf("row %d longer 3/8", last)); err != nil {
		t.Errorf("of the last row: %v", err)
	} else if diff := cmp.Diff(p.job.Rooms[0].Outline, job.Rooms[0].Outline); diff != "" {
		t.Errorf("of the last row: %s", diff)
	}
}
