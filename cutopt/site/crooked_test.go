package site_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// crooked are rooms whose walls lean in and out, in sixteenths of an inch, with rows along their first wall.
var crooked = []struct {
	name    string
	corners []cutopt.Point
}{
	{"all walls lean out", []cutopt.Point{{X: 0, Y: 0}, {X: 2280, Y: 3}, {X: 2288, Y: 1765}, {X: -7, Y: 1758}}},
	{"all walls lean in", []cutopt.Point{{X: 0, Y: 0}, {X: 2280, Y: -2}, {X: 2273, Y: 1765}, {X: 8, Y: 1758}}},
	{"the far corner is cut off", []cutopt.Point{
		{X: 0, Y: 0}, {X: 2280, Y: 3}, {X: 2281, Y: 1000}, {X: 1680, Y: 1600}, {X: -4, Y: 1598},
	}},
	{"a nook, and walls that meet at a slant", []cutopt.Point{
		{X: 0, Y: 0}, {X: 2100, Y: 2}, {X: 2106, Y: 700}, {X: 2410, Y: 704}, {X: 2400, Y: 1500}, {X: 6, Y: 1496},
	}},
	{"turned by a third of a quarter", []cutopt.Point{
		{X: 0, Y: 0}, {X: 1976, Y: 1141}, {X: 1090, Y: 2662}, {X: -879, Y: 1528},
	}},
}

// plannedCrooked plans the n-th of the crooked rooms.
func plannedCrooked(t *testing.T, n int) planned {
	t.Helper()
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 10},
		Rules: cutopt.DefaultRules(measure.UnitInch), Rooms: []cutopt.Room{{Name: "Room"}},
	}
	for _, c := range crooked[n].corners {
		c.X, c.Y = c.X*measure.Sixteenth, c.Y*measure.Sixteenth
		job.Rooms[0].Outline = append(job.Rooms[0].Outline, c)
	}
	result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	return planned{crooked[n].name, job, result.Plan}
}

// TestCrookedWalls lays rooms with slanted walls to any row and moves the wall from the next one on: a layer who
// measures that is never refused, what lies stays where it lies but for rounding, and plans that go on pass Check.
func TestCrookedWalls(t *testing.T) {
	for n := range crooked {
		room := plannedCrooked(t, n)
		rows := room.plan.Floors[0].Rows
		for row := 1; row < len(rows); row++ {
			for k, by := range []measure.Length{in / 16, -in / 16, in / 4, -in / 4, 5 * in / 8, -5 * in / 8} {
				events := []site.Event{{Kind: site.KindLaid, Row: row}, {Kind: site.KindLonger, Row: row + 1, Length: by}}
				if k >= 4 && len(rows[row].Runs[0].Pieces) > 2 { // with the row in hand
					events = append(events, site.Event{Kind: site.KindLaid, Row: row + 1, Pieces: 2})
				}
				about := fmt.Sprintf("%s: laid to row %d, then %s", room.name, row, by.Format(measure.UnitInch, measure.Tick))
				job, marked, _, err := site.Apply(room.job, room.plan, &site.State{Events: events})
				if err != nil {
					t.Errorf("%s: %v", about, err)
					continue
				}
				for r := range row {
					was, is := rows[r].Runs[0], marked.Floors[0].Rows[r].Runs[0]
					if d := (is.To - is.From) - (was.To - was.From); max(d, -d) > in/64 {
						t.Errorf("%s: row %d, which lies, is %d ticks longer", about, r+1, d)
					}
				}
				if (n+row+k)%7 > 0 {
					continue
				}
				result, err := solve.Continue(context.Background(), job, marked, &solve.Options{Effort: solve.EffortQuick})
				if err != nil {
					t.Errorf("%s: %v", about, err)
				} else if v := check.Plan(job, result.Plan); len(v) > 0 {
					t.Errorf("%s: %v", about, v[0])
				}
			}
		}
	}
}

// TestCrookedEdgeRows measures the first and the last row of rooms with slanted walls, and walls at which rows lie: the
// rows are as wide as told, what lies keeps its joints, and plans that go on pass Check.
func TestCrookedEdgeRows(t *testing.T) {
	const laid = 4
	for n := range crooked {
		room := plannedCrooked(t, n)
		rows := room.plan.Floors[0].Rows
		last := len(rows) - 1
		for k, e := range []site.Event{
			{Kind: site.KindLast, Length: rows[last].Width - in/2},
			{Kind: site.KindLast, Length: rows[last].Width - in},
			{Kind: site.KindFirst, Length: rows[0].Width - in/4},
			{Kind: site.KindFirst, Length: rows[0].Width - 5*in/8},
			{Kind: site.KindWall, Wall: 2, Length: in / 4},
			{Kind: site.KindWall, Wall: len(crooked[n].corners), Length: -in / 4},
		} {
			about := fmt.Sprintf("%s, %v", room.name, e)
			s := &site.State{Events: []site.Event{{Kind: site.KindLaid, Row: laid}, e}}
			job, marked, _, err := site.Apply(room.job, room.plan, s)
			if err != nil {
				t.Errorf("%s: %v", about, err)
				continue
			}
			is := marked.Floors[0].Rows
			if e.Kind == site.KindFirst && is[0].Width != e.Length {
				t.Errorf("%s: the first row is %v wide", about, is[0].Width)
			}
			if e.Kind == site.KindLast {
				floors, _, err := solve.Floors(context.Background(), job)
				if err != nil {
					t.Fatalf("%s: %v", about, err)
				}
				now := floors[0].Rows
				if d := now[len(now)-1].Width - e.Length; len(now) != len(rows) || max(d, -d) > in/16 {
					t.Errorf("%s: the last of %d rows is %v wider", about, len(now), d)
				}
			}
			for r := range laid {
				for m, p := range rows[r].Runs[0].Pieces[1:] { // all but the last are as long as they were
					if m+2 < len(rows[r].Runs[0].Pieces) && is[r].Runs[0].Pieces[m+1].Length != p.Length {
						t.Errorf("%s: row %d, piece %d is another", about, r+1, m+2)
					}
				}
			}
			if (n+k)%3 > 0 {
				continue
			}
			result, err := solve.Continue(context.Background(), job, marked, &solve.Options{Effort: solve.EffortQuick})
			if err != nil {
				t.Errorf("%s: %v", about, err)
			} else if v := check.Plan(job, result.Plan); len(v) > 0 {
				t.Errorf("%s: %v", about, v[0])
			}
		}
	}
}

// TestCornerWithinARow: a wall that is cut off at 45 degrees begins 3/8 in before the next row. Where it steps out
// there, what is left of it in the row before is hidden by the trim: that row ends 1/8 in sooner, no contradiction.
func TestCornerWithinARow(t *testing.T) {
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 6 * in}, Box: cutopt.Box{Planks: 10},
		Rules: cutopt.DefaultRules(measure.UnitInch), Rooms: []cutopt.Room{{Name: "Office"}},
	}
	for _, c := range []cutopt.Point{
		{X: 0, Y: 0}, {X: 2537, Y: 0}, {X: 2537, Y: -1504}, {X: 2077, Y: -1964}, {X: 404, Y: -1964}, {X: 0, Y: -1560},
	} {
		job.Rooms[0].Outline = append(job.Rooms[0].Outline, cutopt.Point{
			X: c.X * measure.Sixteenth, Y: c.Y * measure.Sixteenth,
		})
	}
	first, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	s := &site.State{Events: []site.Event{
		{Kind: site.KindLaid, Row: 16}, {Kind: site.KindLonger, Row: 17, Length: 5 * in / 2},
	}}
	job, marked, _, err := site.Apply(job, first.Plan, s)
	if err != nil {
		t.Fatal(err)
	}
	was, is := first.Plan.Floors[0].Rows[15].Runs[0], marked.Floors[0].Rows[15].Runs[0]
	if d := was.To - is.To; d <= 0 || d > job.Rules.Cover {
		t.Errorf("row 16 ends %v sooner", d)
	}
	result, err := solve.Continue(context.Background(), job, marked, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	if v := check.Plan(job, result.Plan); len(v) > 0 {
		t.Error(v[0])
	}
}

// A row at 46 degrees whose line passes a corner by less than its gap turns out longer and a wall stands farther in,
// which moves the whole drawing by what rounding leaves: the plan passes Check, and no row is told as changed that
// starts where it did.
func TestLongerBesideACorner(t *testing.T) {
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 56743}, Box: cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitInch), Aims: []cutopt.Aim{}, Rooms: []cutopt.Room{{Name: "Kitchen"}},
	}
	room := &job.Rooms[0]
	room.Outline = cutopt.RectangleAt(cutopt.Point{}, 634000, 797572)
	room.Islands = []cutopt.Island{
		{Outline: cutopt.RectangleAt(cutopt.Point{X: 381034}, 54842, 88126)},
		{Outline: cutopt.RectangleAt(cutopt.Point{X: 336654, Y: 243773}, 32334, 53574)},
	}
	room.Rows = cutopt.RowRules{Direction: cutopt.DirectionAngle, Angle: 46, Start: cutopt.StartFar}
	opt := &solve.Options{Effort: solve.EffortQuick}
	result, err := solve.Job(t.Context(), job, opt)
	if err != nil {
		t.Fatal(err)
	}
	s := &site.State{Events: []site.Event{
		{Kind: site.KindLonger, Row: 9, Length: in}, {Kind: site.KindWall, Wall: 3, Length: -in},
	}}
	measured, marked, _, err := site.Apply(job, result.Plan, s)
	if err != nil {
		t.Fatal(err)
	}
	on, err := solve.Continue(t.Context(), measured, marked, opt)
	if err != nil {
		t.Fatal(err)
	}
	if v := check.Plan(measured, on.Plan); len(v) > 0 {
		t.Error(v[0])
	}
	if len(on.Plan.Site.Changed) == 0 {
		t.Error("the row that is longer starts as before")
	}
	for _, c := range on.Plan.Site.Changed {
		if was, is := c.Was.Format(measure.UnitInch, in/16), c.Is.Format(measure.UnitInch, in/16); was == is {
			t.Errorf("row %d is told to start at %s, which was %s", c.Row+1, is, was)
		}
	}
}

// TestSlantedDoorways tells of a hallway whose rows pass its doorways at 46 degrees that a row ends farther in or out:
// wherever it ends that is taken, and the line of the doorway moves by what that is square to it.
func TestSlantedDoorways(t *testing.T) {
	const mm = measure.Millimetre
	job := &cutopt.Job{
		Unit: measure.UnitMillimetre, Plank: cutopt.Plank{Length: 1285 * mm, Width: 192 * mm}, Box: cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitMillimetre), Aims: []cutopt.Aim{},
		Rooms: []cutopt.Room{{
			Name: "Hallway", Outline: cutopt.RectangleAt(cutopt.Point{}, 6420*mm, 1480*mm),
			Doorways: []cutopt.Doorway{
				{Wall: 0, At: 700 * mm, Width: 820 * mm, Depth: 110 * mm},
				{Wall: 0, At: 3900 * mm, Width: 820 * mm, Depth: 110 * mm},
			},
			Rows: cutopt.RowRules{Direction: cutopt.DirectionAngle, Angle: 46},
		}},
	}
	opt := &solve.Options{Effort: solve.EffortQuick}
	result, err := solve.Job(t.Context(), job, opt)
	if err != nil {
		t.Fatal(err)
	}
	moved, refused := 0, 0
	for r := range result.Plan.Floors[0].Rows {
		for _, by := range []measure.Length{-30 * mm, 20 * mm} {
			s := &site.State{Events: []site.Event{{Kind: site.KindLonger, Row: r + 1, Length: by}}}
			measured, marked, _, err := site.Apply(job, result.Plan, s)
			if err != nil {
				refused++ // at a jamb no wall can step, nor at a tip, where two walls meet
				continue
			}
			want := 110*mm + measure.Length(float64(by)*math.Cos(44*math.Pi/180))
			if !slices.ContainsFunc(measured.Rooms[0].Doorways, func(d cutopt.Doorway) bool { return d.Depth != 110*mm }) {
				continue
			}
			moved++
			for _, d := range measured.Rooms[0].Doorways {
				if off := d.Depth - want; d.Depth != 110*mm && max(off, -off) > mm/2 {
					t.Errorf("row %d longer by %v: a doorway is %v deep, want %v", r+1, by, d.Depth, want)
				}
			}
			if r != 7 { // that is planned on
				continue
			}
			on, err := solve.Continue(t.Context(), measured, marked, opt)
			if err != nil {
				t.Errorf("row %d longer by %v: %v", r+1, by, err)
			} else if v := check.Plan(measured, on.Plan); len(v) > 0 {
				t.Errorf("row %d longer by %v: %v", r+1, by, v[0])
			}
		}
	}
	if moved < 12 || refused > 6 {
		t.Errorf("%d rows move the line of a doorway, %d are refused", moved, refused)
	}
}
