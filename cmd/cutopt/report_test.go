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
	"plank.example/cutopt/solve"
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
		return cutopt.PlanRow{
			From: y, To: y + 7*in, Width: 7 * in, Runs: []cutopt.PlanRun{{To: 100 * in, Pieces: pieces}},
		}
	}
	job := &cutopt.Job{
		Plank: cutopt.Plank{
			Length: 48 * in,
			Width:  7 * in,
		}, Box: cutopt.Box{Planks: 3},
		Rules: cutopt.Rules{Kerf: in / 8, Grid: in / 16, MinPiece: 8 * in, Stagger: 8 * in},
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
			{
				Number: 3, Pieces: []cutopt.PieceRef{ref(0, 2), ref(1, 0)},
				Cuts: []cutopt.Cut{{At: 32 * in}, {At: 32*in + in/8}},
			},
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
			{"1", "7", false, "20", "new", "1", "32", "new", []string{"27 7/8 over", "15 7/8 starts 2"}},
			{"2", "7", false, "15 3/4", "row 1", "1", "36 1/4", "new", []string{"11 5/8 over"}},
		}},
		// Laid from the right the same pieces change their parts: what ends a row starts it.
		{cutopt.HandRight, []rowLine{
			{"1", "7", false, "32", "new", "1", "20", "new", []string{"15 7/8 ends 2", "27 7/8 over"}},
			{"2", "7", false, "36 1/4", "new", "1", "15 3/4", "row 1", []string{"11 5/8 over"}},
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

// TestReasons: why so many boxes are bought, of boxes of 8 planks for 49.90. The chances by hand: more than 2 lost of
// 72 are 1 - 0.98^72 - 72 0.02 0.98^71 - 2556 0.02^2 0.98^70 = 17 %, more than 1 of them 42 %.
func TestReasons(t *testing.T) {
	sure := cutopt.Rules{WasteAllowance: 10}
	breaks := cutopt.Rules{WasteAllowance: 10, Loss: 2, RiskLimit: 2}
	for _, c := range []struct {
		name  string
		rules cutopt.Rules
		order cutopt.Order
		bound cutopt.Bound
		want  []string
	}{
		{
			"proven, whatever breaks", sure,
			cutopt.Order{Boxes: 9, Planks: 70, Fewest: 70, Left: 2, ThumbBoxes: 10},
			cutopt.Bound{Boxes: 9, Planks: 70, Settled: true, PlanksProven: true},
			[]string{
				"8 boxes are proven too few for these rows.",
				"The floor takes 70 planks to cut and lay; 69 are proven too few for these rows.",
				"The other 2 of the 72 planks bought: 2 over.",
				"The 10 % rule would buy 10 boxes for 499.00, 49.90 more.",
			},
		},
		{
			"with any first row", sure,
			cutopt.Order{Boxes: 9, Planks: 71, Fewest: 71, Left: 1, ThumbBoxes: 9},
			cutopt.Bound{Boxes: 9, Planks: 70, Settled: true, Rooms: &cutopt.RoomBound{Planks: 65}},
			[]string{
				"8 boxes are proven too few, whatever the width of the first row.",
				"The floor takes 71 planks to cut and lay.",
				"The other one of the 72 planks bought: 1 over.",
				"The 10 % rule would buy as many.",
			},
		},
		{
			"no number below one box", sure,
			cutopt.Order{Boxes: 1, Planks: 1, Fewest: 1, Left: 7, ThumbBoxes: 1},
			cutopt.Bound{Boxes: 1, Planks: 1, Settled: true, PlanksProven: true},
			[]string{
				"Nothing less will do.", "The floor takes 1 plank to cut and lay.",
				"The other 7 of the 8 planks bought: 7 over.", "The 10 % rule would buy as many.",
			},
		},
		{
			"a box less is open: that changes what to buy", sure,
			cutopt.Order{Boxes: 9, Planks: 65, Fewest: 65, Left: 7, ThumbBoxes: 8},
			cutopt.Bound{Boxes: 8, Planks: 63},
			[]string{
				"7 boxes are proven too few for these rows.",
				"Whether 8 boxes would do is open: the floor would have to take 64 planks or fewer, and 62 are " +
					"proven too few for these rows.",
				"The floor takes 65 planks to cut and lay.",
				"The other 7 of the 72 planks bought: 7 over.",
				"The 10 % rule would buy 8 boxes for 399.20, 49.90 less: too few for the floor planned; whether " +
					"others would do with so few is open.",
			},
		},
		{
			"a plank less would buy as many, so nothing is said of it", sure,
			cutopt.Order{Boxes: 9, Planks: 72, Fewest: 70, ThumbBoxes: 7},
			cutopt.Bound{Boxes: 9, Planks: 69, Settled: true},
			[]string{
				"8 boxes are proven too few for these rows.",
				"The floor takes 72 planks to cut and lay, 2 more than the fewest found, for its looks and fewer cuts.",
				"The boxes hold no plank more.",
				"The 10 % rule would buy 7 boxes for 349.30, 99.80 less: proven too few for these rows.",
			},
		},
		{
			"a box less holds the floor but runs short too often", breaks,
			cutopt.Order{Boxes: 10, Planks: 73, Fewest: 70, Left: 7, Reserve: 4, ThumbBoxes: 9},
			cutopt.Bound{Boxes: 9, Planks: 70, Settled: true},
			[]string{
				"8 boxes are proven too few for these rows.",
				"9 boxes hold the floor, but run short with a chance of 17 % if 2 % of the planks break; 2 % is " +
					"accepted.",
				"The floor takes 73 planks to cut and lay, 3 more than it must, for its looks and fewer cuts.",
				"The other 7 of the 80 planks bought: 4 in reserve if planks break, 3 over.",
				"The 10 % rule would buy 9 boxes for 449.10, 49.90 less: these run short with a chance of 17 %.",
			},
		},
		{
			"a box less is not known to hold the floor, and would be too risky if it did", breaks,
			cutopt.Order{Boxes: 10, Planks: 73, Fewest: 73, Left: 7, Reserve: 4, ThumbBoxes: 10},
			cutopt.Bound{Boxes: 9, Planks: 71, Settled: true},
			[]string{
				"8 boxes are proven too few for these rows.",
				"9 boxes run short with a chance of 42 % or more if 2 % of the planks break: these rows need " +
					"at least 71 planks, which is proven; 2 % is accepted.",
				"The floor takes 73 planks to cut and lay.",
				"The other 7 of the 80 planks bought: 4 in reserve if planks break, 3 over.",
				"The 10 % rule would buy as many.",
			},
		},
	} {
		job := &cutopt.Job{
			Plank: cutopt.Plank{Width: measure.Inch}, Rules: c.rules, Box: cutopt.Box{Planks: 8, Price: 4990},
		}
		c.order.PlanksPerBox = 8
		why, err := reasons(words.New("en", nil, job.Unit, 0), job, &cutopt.Plan{Order: c.order, Bound: c.bound})
		if err != nil || !slices.Equal(why, c.want) {
			t.Errorf("%s: %v\n got %q\nwant %q", c.name, err, why, c.want)
		}
	}
}

// TestChanceBeside: a chance above the limit never reads like the limit.
func TestChanceBeside(t *testing.T) {
	for _, c := range []struct {
		chance, limit float64
		want          string
	}{
		{0.17, 0.02, "17 %"},
		{0.0201, 0.02, "2.01 %"},
		{0.020004, 0.02, "2.0004 %"},
		{0.02, 0.02, "2.0 %"},
		{0.0005, 0.0004, "0.05 %"},
	} {
		if got := chanceBeside(c.chance, c.limit); got != c.want {
			t.Errorf("%v beside %v: %q, want %q", c.chance, c.limit, got, c.want)
		}
	}
}

func TestRestIsFor(t *testing.T) {
	for _, c := range []struct {
		spare              cutopt.Spare
		left, kept, perBox int
		want               string
	}{
		{cutopt.Spare{}, 2, 0, 8, "The other 2 of the 80 planks bought: 2 over."},
		{cutopt.Spare{Planks: 1}, 1, 1, 8, "The other one of the 80 planks bought: 1 kept for repairs."},
		{cutopt.Spare{Percent: 3}, 5, 3, 8, "The other 5 of the 80 planks bought: 3 kept for repairs, 2 over."},
		{
			cutopt.Spare{BoxPer: 50},
			10, 8, 8,
			"The other 10 of the 80 planks bought: 8 kept for repairs in 1 unopened box, 2 over.",
		},
		{
			cutopt.Spare{BoxPer: 50},
			16, 16, 8,
			"The other 16 of the 80 planks bought: 16 kept for repairs in 2 unopened boxes.",
		},
	} {
		plan := &cutopt.Plan{Order: cutopt.Order{Boxes: 10, Left: c.left, Kept: c.kept, PlanksPerBox: c.perBox}}
		got := restIsFor(words.New("en", nil, measure.UnitInch, 0), &cutopt.Job{Spare: c.spare}, plan)
		if got != c.want {
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
		// A fraction that begins a line reads as the whole figure.
		{"about 3 7/8 in, left", 12, "", []string{"about", "3 7/8 in,", "left"}},
		{`keep 2' 6 3/8": mark`, 9, "", []string{"keep", `2' 6 3/8":`, "mark"}},
		{`rolls of 30' 0"`, 12, "", []string{"rolls of", `30' 0"`}},
		{"for 12.5 sq ft of", 10, "", []string{"for", "12.5 sq ft", "of"}},
		{"höchstens 2 %, wenn", 12, "", []string{"höchstens", "2 %, wenn"}},
		{"row 2 3/4 done", 6, "", []string{"row", "2 3/4", "done"}},
		{"row 2 and/or 3", 8, "", []string{"row 2", "and/or 3"}},
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

// TestEdgeIsAlongTheWall: a first row as wide as a plank in a doorway may be half an inch wide along the wall, and then
// the plan says so.
func TestEdgeIsAlongTheWall(t *testing.T) {
	const in = measure.Inch
	floor := func(first, last measure.Length, facts ...cutopt.Fact) cutopt.PlanFloor {
		return cutopt.PlanFloor{Rows: []cutopt.PlanRow{{Width: first}, {Width: 7 * in}, {Width: last}}, Facts: facts}
	}
	forced := cutopt.Fact{Kind: cutopt.FactEdgeForced, First: 4 * in, Last: in / 2, Least: 7 * in / 2}
	for _, c := range []struct {
		floors []cutopt.PlanFloor
		want   measure.Length
	}{
		{[]cutopt.PlanFloor{floor(5*in, 4*in)}, 4 * in},
		{[]cutopt.PlanFloor{floor(5*in, 7*in, forced)}, in / 2},
		{[]cutopt.PlanFloor{floor(2*in, 7*in, cutopt.Fact{Kind: cutopt.FactEdgeAsked, First: 3 * in, Last: 7 * in})}, 3 * in},
		{[]cutopt.PlanFloor{floor(2*in, 7*in), floor(5*in, 7*in, forced)}, in / 2},
	} {
		if got := edge(&cutopt.Plan{Floors: c.floors}); got != c.want {
			t.Errorf("%+v: edge %v, want %v", c.floors, got, c.want)
		}
	}
}

// TestTableFoldsWhereItIsRare: a column is not narrowed in all rows for the sake of one cell that is longer.
func TestTableFoldsWhereItIsRare(t *testing.T) {
	tab := &table{
		columns: []column{{head: "Row"}, {head: "From", fold: true}, {head: "Offcut", fold: true}},
		rows: [][]string{
			{"1", "new", "15 7/8 starts 2"},
			{"2", "Back parlour row 9", "12 1/2 starts 3"},
			{"3", "row 2", "10 7/8 starts 4"},
		},
	}
	var out bytes.Buffer
	ok, err := tab.write(&out, 30, palette{})
	want := "Row From       Offcut\n1   new        15 7/8 starts 2\n2   Back       12 1/2 starts 3\n" +
		"    parlour\n    row 9\n3   row 2      10 7/8 starts 4\n"
	if !ok || err != nil || out.String() != want {
		t.Errorf("write into 30 columns: %v, %v\n%s\nwant\n%s", ok, err, &out, want)
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

// TestClosingOfFirstRows: what is left undone of other first rows is said once it is a matter of effort, in each
// language, and not of a plan that was cut short from outside.
func TestClosingOfFirstRows(t *testing.T) {
	for _, c := range []struct {
		reason, language string
		result           solve.Result
		want             []string
	}{
		{"settled, or not for want of effort", "en", solve.Result{}, nil},
		{"the effort is spent", "en", solve.Result{Curtailed: true}, []string{
			"The effort for other first rows is spent; --effort thorough looks at them for longer.",
		}},
		{"the effort is spent", "de", solve.Result{Curtailed: true}, []string{
			"Der Aufwand für andere erste Reihen ist verbraucht; --effort thorough rechnet an ihnen länger.",
		}},
		{"stopped from outside", "en", solve.Result{Curtailed: true, Status: solve.StatusLimit}, []string{
			"Stopped by --limit: this is the best plan so far.",
		}},
	} {
		s := words.New(c.language, nil, measure.UnitInch, 0)
		if got := (&outFlags{}).closing(s, &c.result, nil); !slices.Equal(got, c.want) {
			t.Errorf("%s, %s: %q, want %q", c.reason, c.language, got, c.want)
		}
	}
}
