package main

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/words"
)

// sample returns two rows of 100 in laid with planks of 48 in and a kerf of 1/8 in, worked out by hand:
//
//	row 1: starter 20 (plank 1), whole (plank 2), ender 32 (plank 3)
//	row 2: starter 15 3/4 (plank 3: 48 - 32 - 1/8 = 15 7/8 are left of it), whole (plank 4), ender 36 1/4 (plank 5)
func sample(from cutopt.Hand) (*cutopt.Job, *cutopt.Plan) {
	const in = measure.Inch
	piece := func(plank int, from, to measure.Length, ends cutopt.Ends) cutopt.Piece {
		return cutopt.Piece{Plank: plank, From: from, To: to, Length: to - from, Ends: ends}
	}
	row := func(y measure.Length, pieces ...cutopt.Piece) cutopt.PlanRow {
		return cutopt.PlanRow{From: y, To: y + 7*in, Width: 7 * in, Runs: []cutopt.PlanRun{{To: 100 * in, Pieces: pieces}}}
	}
	job := &cutopt.Job{
		Plank: cutopt.Plank{
			Length: 48 * in,
			Width:  7 * in,
		}, Box: cutopt.Box{Planks: 3}, Rules: cutopt.Rules{Kerf: in / 8, Grid: in / 16, MinPiece: 8 * in, Stagger: 8 * in},
	}
	ref := func(row, piece int) cutopt.PieceRef { return cutopt.PieceRef{Row: row, Piece: piece} }
	x := 15*in + 3*in/4
	plan := &cutopt.Plan{
		Floors: []cutopt.PlanFloor{{Name: "Den", LaidFrom: from, Rows: []cutopt.PlanRow{
			row(
				0,
				piece(1, 0, 20*in, cutopt.EndsRight),
				piece(2, 20*in, 68*in, cutopt.EndsBoth),
				piece(3, 68*in, 100*in, cutopt.EndsLeft),
			),
			row(
				7*in,
				piece(3, 0, x, cutopt.EndsRight),
				piece(4, x, x+48*in, cutopt.EndsBoth),
				piece(5, x+48*in, 100*in, cutopt.EndsLeft),
			),
		}}},
		Planks: []cutopt.PlankUse{
			{
				Number: 1,
				Pieces: []cutopt.PieceRef{ref(0, 0)},
				Cuts:   []cutopt.Cut{{At: 28*in - in/8}},
				Left:   []cutopt.Leftover{{To: 28*in - in/8}},
			},
			{Number: 2, Pieces: []cutopt.PieceRef{ref(0, 1)}},
			{Number: 3, Pieces: []cutopt.PieceRef{ref(0, 2), ref(1, 0)}, Cuts: []cutopt.Cut{{At: 32 * in}, {At: 32*in + in/8}}},
			{Number: 4, Pieces: []cutopt.PieceRef{ref(1, 1)}},
			{
				Number: 5, Pieces: []cutopt.PieceRef{ref(1, 2)}, Cuts: []cutopt.Cut{{At: 36*in + in/4}},
				Left: []cutopt.Leftover{{From: 36*in + 3*in/8, To: 48 * in}},
			},
		},
		Order: cutopt.Order{Planks: 5, PlanksPerBox: 3, Boxes: 2, Left: 1, ThumbBoxes: 2},
		Bound: cutopt.Bound{Planks: 5, Boxes: 2, Proven: true, PlanksProven: true},
	}
	return job, plan
}

func TestRowLines(t *testing.T) {
	for _, c := range []struct {
		from cutopt.Hand
		want []rowLine
	}{
		{cutopt.HandLeft, []rowLine{
			{"1", "7", "20", "new", "1", "32", "new", []string{"27 7/8 over", "15 7/8 starts 2"}},
			{"2", "7", "15 3/4", "row 1", "1", "36 1/4", "new", []string{"11 5/8 over"}},
		}},
		// Laid from the right the same pieces change their parts: what ends a row starts it.
		{cutopt.HandRight, []rowLine{
			{"1", "7", "32", "new", "1", "20", "new", []string{"15 7/8 ends 2", "27 7/8 over"}},
			{"2", "7", "36 1/4", "new", "1", "15 3/4", "row 1", []string{"11 5/8 over"}},
		}},
	} {
		job, plan := sample(c.from)
		r := newReport(new(bytes.Buffer), "en", job, plan)
		lay, err := laying.FromPlan(job, plan)
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range c.want {
			row := lay.Floors[0][i]
			got := r.rowLine(row, row.Runs[0])
			if !slices.Equal(got.offcuts, want.offcuts) {
				t.Errorf("from the %v, row %d: offcuts %q, want %q", c.from, i+1, got.offcuts, want.offcuts)
			}
			got.offcuts, want.offcuts = nil, nil
			if !equalLines(got, want) {
				t.Errorf("from the %v, row %d: %+v, want %+v", c.from, i+1, got, want)
			}
		}
	}
}

func equalLines(a, b rowLine) bool {
	return a.row == b.row && a.width == b.width && a.start == b.start && a.from == b.from && a.whole == b.whole &&
		a.end == b.end && a.source == b.source
}

func TestVerdict(t *testing.T) {
	for _, c := range []struct {
		boxes, bound, thumb int
		settled             bool
		want                string
	}{
		{9, 9, 10, true, "9 boxes; 8 are proven too few; the 10 % rule would buy 10."},
		{2, 2, 2, true, "2 boxes; 1 is proven too few; the 10 % rule would buy 2."},
		{1, 1, 1, true, "1 box; nothing less will do; the 10 % rule would buy 1."},
		{9, 8, 10, false, "9 boxes; 7 are proven too few, 8 may do: not proven; the 10 % rule would buy 10."},
		{9, 7, 10, true, "9 boxes; 6 are proven too few, 8 too risky if planks break; the 10 % rule would buy 10."},
		{9, 0, 10, false, "9 boxes; 8 may do: not proven; the 10 % rule would buy 10."},
		// The rule of thumb is called too few only where that is proven.
		{9, 9, 8, true, "9 boxes; 8 are proven too few; the 10 % rule would buy 8, too few."},
		{9, 8, 8, false, "9 boxes; 7 are proven too few, 8 may do: not proven; the 10 % rule would buy 8, fewer than this " +
			"plan needs."},
	} {
		plan := &cutopt.Plan{
			Order: cutopt.Order{Boxes: c.boxes, ThumbBoxes: c.thumb}, Bound: cutopt.Bound{Boxes: c.bound, Settled: c.settled},
		}
		if got := boxVerdict(words.New("en", nil, plan.Unit, 0), plan, 10); got != c.want {
			t.Errorf("verdict of %d boxes, bound %d:\n got %s\nwant %s", c.boxes, c.bound, got, c.want)
		}
	}
}

func TestSpareText(t *testing.T) {
	for _, c := range []struct {
		spare              cutopt.Spare
		left, kept, perBox int
		want               string
	}{
		{cutopt.Spare{}, 2, 0, 8, " + 2 over"},
		{cutopt.Spare{Planks: 2}, 2, 2, 8, " + 2 kept for repairs"},
		{cutopt.Spare{Percent: 3}, 5, 3, 8, " + 3 kept for repairs + 2 over"},
		{cutopt.Spare{BoxPer: 50}, 10, 8, 8, " + 8 kept for repairs in 1 unopened box + 2 over"},
		{cutopt.Spare{BoxPer: 50}, 16, 16, 8, " + 16 kept for repairs in 2 unopened boxes"},
	} {
		r := &report{
			speech: words.New("en", nil, measure.UnitInch, 0),
			job:    &cutopt.Job{Spare: c.spare},
			plan:   &cutopt.Plan{Order: cutopt.Order{Left: c.left, Kept: c.kept, PlanksPerBox: c.perBox}},
		}
		if got := r.spareText(); got != c.want {
			t.Errorf("%v of %d planks left: %q, want %q", c.spare, c.left, got, c.want)
		}
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text   string
		width  int
		indent string
		want   []string
	}{
		{"one two three", 7, "", []string{"one two", "three"}},
		{"one two three", 7, "  ", []string{"one two", "  three"}},
		{"unbreakable", 4, "", []string{"unbreakable"}},
		{"", 4, "", []string{""}},
	} {
		if got := wrap(c.text, c.width, c.indent); !slices.Equal(got, c.want) {
			t.Errorf("wrap(%q, %d, %q) = %q, want %q", c.text, c.width, c.indent, got, c.want)
		}
	}
}

func TestTableThatCannotFit(t *testing.T) {
	tab := &table{
		columns: []column{{head: "Row"}, {head: "Offcut", fold: true}},
		rows:    [][]string{{"1", "15 7/8 starts row 2"}},
	}
	var out bytes.Buffer
	if ok, err := tab.write(&out, 9, palette{}); ok || err != nil || out.Len() > 0 {
		t.Errorf("write into 9 columns: %v, %v, %q; want false and nothing written", ok, err, &out)
	}
	ok, err := tab.write(&out, 10, palette{})
	if want := "Row Offcut\n1   15 7/8\n    starts\n    row 2\n"; !ok || err != nil || out.String() != want {
		t.Errorf("write into 10 columns: %v, %v, %q; want %q", ok, err, &out, want)
	}
}

func TestDidYouMean(t *testing.T) {
	known := []string{"plan", "check", "export"}
	for _, c := range []struct{ word, want string }{
		{"pln", ": did you mean plan?"},       // a letter left out
		{"pnal", ": did you mean plan?"},      // two letters of four wrong
		{"lpan", ": did you mean plan?"},      // two neighbours swapped
		{"chekc", ": did you mean check?"},    // two neighbours swapped
		{"exports", ": did you mean export?"}, // a letter too many
		{"floor", ""},                         // nothing near
	} {
		if got := didYouMean(c.word, known); got != c.want {
			t.Errorf("didYouMean(%q) = %q, want %q", c.word, got, c.want)
		}
	}
}

// TestFaultIsOurs panics inside a command and expects exit code 1, not a crash.
func TestFaultIsOurs(t *testing.T) {
	var errs bytes.Buffer
	code := guard(&errs, func() error { panic("broken") })
	if code != exitFault || !strings.Contains(errs.String(), "internal fault: broken") {
		t.Errorf("exit code %d, %q; want %d and the fault named", code, &errs, exitFault)
	}
}

// TestBrokenOutput writes the report into a pipe that nobody reads: exit code 1.
func TestBrokenOutput(t *testing.T) {
	var errs bytes.Buffer
	args := []string{"version"}
	if code := run(context.Background(), testEnv("", brokenWriter{}, &errs), args); code != exitFault {
		t.Errorf("exit code %d, want %d: %s", code, exitFault, &errs)
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, context.DeadlineExceeded }

// TestHelpOfEveryCommand finds a text for each command and for the job file, and an explanation for each aim.
func TestHelpOfEveryCommand(t *testing.T) {
	for _, c := range commands() {
		if helpText(c.name) == "" {
			t.Errorf("%s has no help", c.name)
		}
	}
	for _, a := range cutopt.DefaultAims() {
		if aimHelp[a] == "" {
			t.Errorf("the aim %s is not explained", a)
		}
	}
}
