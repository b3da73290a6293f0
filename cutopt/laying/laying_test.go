package laying_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
)

// byHand returns two rooms laid with planks of 100 ticks and a kerf of 2, drawn on paper. The first is laid from the
// left; a duct takes its second row and a post stands in its third. The second is laid from the right.
//
//	Den    row 1   | 30 #1 | 100 #2 | 60 #3 |
//	       row 2   nothing
//	       row 3   | 12 #3 |   | 24 #3 | 67 #1 |
//	Porch  row 1   | 52 #5 | 78 #4 |
//	       row 2   | 20 #4 | 40 #5 |
//
//	#1  0 ender 67, kerf, 1 of sawdust, 70 starter 100
//	#2  0 whole 100
//	#3  0 ender 60, kerf, 62 single 74, kerf, 76 starter 100
//	#4  0 starter 78, kerf, 80 ender 100
//	#5  0 starter 40, kerf, 42 over 46, kerf, 48 ender 100
func byHand() (*cutopt.Job, *cutopt.Plan) {
	job := &cutopt.Job{Plank: cutopt.Plank{Length: 100, Width: 10}, Rules: cutopt.Rules{Kerf: 2}}
	run := func(from measure.Length, pieces ...cutopt.Piece) cutopt.PlanRun {
		at := from
		for i := range pieces {
			p := &pieces[i]
			p.From, p.To = at, at+p.Length
			at = p.To
		}
		return cutopt.PlanRun{From: from, To: at, Pieces: pieces}
	}
	row := func(runs ...cutopt.PlanRun) cutopt.PlanRow { return cutopt.PlanRow{To: 10, Width: 10, Runs: runs} }
	piece := func(plank int, length measure.Length, ends cutopt.Ends) cutopt.Piece {
		return cutopt.Piece{Plank: plank, Length: length, Ends: ends}
	}
	ref := func(room, row, run, piece int) cutopt.PieceRef {
		return cutopt.PieceRef{Floor: room, Row: row, Run: run, Piece: piece}
	}
	const left, right = cutopt.EndsLeft, cutopt.EndsRight
	return job, &cutopt.Plan{
		Floors: []cutopt.PlanFloor{
			{Name: "Den", Rows: []cutopt.PlanRow{
				row(run(0, piece(1, 30, right), piece(2, 100, cutopt.EndsBoth), piece(3, 60, left))),
				row(),
				row(run(0, piece(3, 12, cutopt.EndsNone)), run(40, piece(3, 24, right), piece(1, 67, left))),
			}},
			{Name: "Porch", LaidFrom: cutopt.HandRight, Rows: []cutopt.PlanRow{
				row(run(0, piece(5, 52, right), piece(4, 78, left))),
				row(run(0, piece(4, 20, right), piece(5, 40, left))),
			}},
		},
		Planks: []cutopt.PlankUse{
			{Number: 1, Pieces: []cutopt.PieceRef{ref(0, 2, 1, 1), ref(0, 0, 0, 0)}, Cuts: []cutopt.Cut{{At: 68}, {At: 67}}},
			{Number: 2, Pieces: []cutopt.PieceRef{ref(0, 0, 0, 1)}},
			{
				Number: 3,
				Pieces: []cutopt.PieceRef{ref(0, 0, 0, 2), ref(0, 2, 0, 0), ref(0, 2, 1, 0)},
				Cuts:   []cutopt.Cut{{At: 60}, {At: 74}},
			},
			{Number: 4, Pieces: []cutopt.PieceRef{ref(1, 0, 0, 1), ref(1, 1, 0, 0)}, Cuts: []cutopt.Cut{{At: 78}}},
			{
				Number: 5, Pieces: []cutopt.PieceRef{ref(1, 1, 0, 1), ref(1, 0, 0, 0)}, Cuts: []cutopt.Cut{{At: 46}, {At: 40}},
				Left: []cutopt.Leftover{{From: 42, To: 46}},
			},
		},
	}
}

// said puts a piece into words.
func said(p *laying.Piece) string {
	s := fmt.Sprintf("%d: row %s, %v %d at %d of #%d from ", p.Order, p.Run.Name, p.Role, p.Length, p.At, p.Plank)
	if o := p.Source; o != nil {
		s += fmt.Sprintf("the %d of %d", o.Length(), o.Of.Order)
	} else {
		s += "new"
	}
	if p.SawLeft {
		s += ", saw left"
	}
	if p.SawRight {
		s += ", saw right"
	}
	for _, o := range p.Offcuts {
		s += fmt.Sprintf(", %d-%d (%v) ", o.From, o.To, o.Ends)
		if o.Next == nil {
			s += "over"
		} else {
			s += fmt.Sprintf("for %d", o.Next.Order)
		}
	}
	return s
}

// The order of a plan that was laid on paper.
func TestByHand(t *testing.T) {
	job, plan := byHand()
	seq, err := laying.FromPlan(job, plan)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"0: row 1, starter 30 at 70 of #1 from new, saw left, 0-68 (left) for 5",
		"1: row 1, whole 100 at 0 of #2 from new",
		"2: row 1, ender 60 at 0 of #3 from new, saw right, 62-100 (right) for 3",
		"3: row 3a, single 12 at 62 of #3 from the 38 of 2, saw right, 76-100 (right) for 4",
		"4: row 3b, starter 24 at 76 of #3 from the 24 of 3", // ready as it is
		"5: row 3b, ender 67 at 0 of #1 from the 68 of 0, saw right",
		// From the right: the starter lies at the right wall and keeps its left end.
		"6: row 1, starter 78 at 0 of #4 from new, saw right, 80-100 (right) for 9",
		"7: row 1, ender 52 at 48 of #5 from new, saw left, 0-46 (left) for 8",
		"8: row 2, starter 40 at 0 of #5 from the 46 of 7, saw right, 42-46 (none) over",
		"9: row 2, ender 20 at 80 of #4 from the 20 of 6",
	}
	var got []string
	for _, p := range seq.Pieces {
		got = append(got, said(p))
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("pieces (-want +got):\n%s", d)
	}

	var rows []string
	for _, room := range seq.Floors {
		for _, row := range room {
			s := fmt.Sprintf("%d.%d laid %d:", row.Floor, row.Row, row.Laid)
			for _, run := range row.Runs {
				s += fmt.Sprintf(" %d", run.Index)
				for _, p := range run.Pieces {
					s += fmt.Sprintf(" (%d)", p.Order)
				}
			}
			rows = append(rows, s)
		}
	}
	wantRows := []string{
		"0.0 laid 3: 0 (0) (1) (2)", "0.1 laid 3:", "0.2 laid 6: 0 (3) 1 (4) (5)", "1.0 laid 8: 0 (6) (7)", "1.1 laid 10: " +
			"0 (8) (9)",
	}
	if d := cmp.Diff(wantRows, rows); d != "" {
		t.Errorf("rows (-want +got):\n%s", d)
	}

	// Of each offcut that lies about its plank and its length.
	piles := []string{"", "#1 68", "#1 68", "#1 68 #3 38", "#1 68 #3 24", "#1 68", "", "#4 20", "#4 20 #5 46", "#4 20", ""}
	for n, want := range piles {
		var pile []string
		for _, o := range seq.Pile(n) {
			pile = append(pile, fmt.Sprintf("#%d %d", o.Plank, o.Length()))
		}
		if got := strings.Join(pile, " "); got != want {
			t.Errorf("with %d pieces laid the pile is %q, want %q", n, got, want)
		}
	}
	if n := len(seq.Pile(-1)) + len(seq.Pile(math.MaxInt)); n != 0 {
		t.Errorf("%d offcuts lie about before the first and after the last piece", n)
	}
	holds(t, job, plan, seq)
}

// The runs of a row are lettered from the left whichever hand is laid first, and numbered where letters run out.
func TestRunNames(t *testing.T) {
	const runs = 28
	for _, from := range []cutopt.Hand{cutopt.HandLeft, cutopt.HandRight} {
		plan := &cutopt.Plan{
			Floors: []cutopt.PlanFloor{{LaidFrom: from, Rows: []cutopt.PlanRow{{Runs: make([]cutopt.PlanRun, runs)}}}},
		}
		seq, err := laying.FromPlan(&cutopt.Job{Plank: cutopt.Plank{Length: 100}}, plan)
		if err != nil {
			t.Fatal(err)
		}
		row := seq.Floors[0][0]
		if first := row.Runs[0].Index; (first == 0) != (from == cutopt.HandLeft) {
			t.Errorf("from the %v the first run has index %d", from, first)
		}
		for _, run := range row.Runs {
			if want, ok := map[int]string{0: "1a", 1: "1b", 25: "1z", 26: "1.27", 27: "1.28"}[run.Index]; ok &&
				run.Name != want {
				t.Errorf("from the %v run %d is %q, want %q", from, run.Index, run.Name, want)
			}
		}
	}
}

// Two offcuts side by side, as a planner may list what it sawed apart for another reason, push the next piece on.
func TestOffcutsSideBySide(t *testing.T) {
	job, plan := byHand()
	plan.Floors = []cutopt.PlanFloor{{Rows: []cutopt.PlanRow{{Runs: []cutopt.PlanRun{{
		To: 50, Pieces: []cutopt.Piece{{Plank: 1, To: 50, Length: 50}},
	}}}}}}
	plan.Planks = []cutopt.PlankUse{{
		Number: 1, Pieces: []cutopt.PieceRef{{}}, Cuts: []cutopt.Cut{{At: 10}, {At: 22}, {At: 74}},
		Left: []cutopt.Leftover{
			{To: 10, Ends: cutopt.EndsLeft},
			{From: 12, To: 22},
			{From: 76, To: 100, Ends: cutopt.EndsRight},
		},
	}}
	seq, err := laying.FromPlan(job, plan)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := seq.Pieces[0].At, measure.Length(24); got != want { // 10, kerf 2, 10, kerf 2
		t.Errorf("the piece lies at %d, want %d", got, want)
	}
}

// What does not hold together is refused by the name of its field.
func TestRefused(t *testing.T) {
	type spoiler = func(*cutopt.Job, *cutopt.Plan)
	piece := func(p *cutopt.Plan) *cutopt.Piece { return &p.Floors[0].Rows[0].Runs[0].Pieces[0] }
	for _, c := range []struct {
		why   string
		spoil spoiler
		want  string
	}{
		{"no plank", func(j *cutopt.Job, _ *cutopt.Plan) { j.Plank.Length = 0 }, "Job.Plank.Length is 0"},
		{
			"a plank as long as the sky is high", func(j *cutopt.Job, _ *cutopt.Plan) { j.Plank.Length = math.MaxInt64 },
			"Job.Plank.Length is",
		},
		{"a kerf below nothing", func(j *cutopt.Job, _ *cutopt.Plan) { j.Rules.Kerf = -1 }, "Job.Rules.Kerf is -1"},
		{"a kerf longer than a plank", func(j *cutopt.Job, _ *cutopt.Plan) { j.Rules.Kerf = 101 }, "Job.Rules.Kerf is 101"},
		{"another kerf", func(j *cutopt.Job, _ *cutopt.Plan) { j.Rules.Kerf = 3 }, "planks[3]"},
		{
			"a piece of no length", func(_ *cutopt.Job, p *cutopt.Plan) { piece(p).Length = 0 },
			"floors[1].rows[1].runs[1].pieces[1] runs",
		},
		{
			"a piece of another length", func(_ *cutopt.Job, p *cutopt.Plan) { piece(p).Length++ },
			"floors[1].rows[1].runs[1].pieces[1] runs",
		},
		{"a piece longer than a plank", func(j *cutopt.Job, _ *cutopt.Plan) { j.Plank.Length = 99 }, "pieces[2] is 100 " +
			"ticks long"},
		{"a cut piece in the middle", func(_ *cutopt.Job,
			p *cutopt.Plan,
		) {
			p.Floors[0].Rows[0].Runs[0].Pieces[1].Ends = cutopt.EndsLeft
		}, "pieces[2] lies between others"},
		{"a plank that counts wrong", func(_ *cutopt.Job, p *cutopt.Plan) { p.Planks[3].Number = 9 }, "planks[4].number is " +
			"9"},
		{
			"a plank left out", func(_ *cutopt.Job, p *cutopt.Plan) { p.Planks = p.Planks[:4] },
			"floors[2].rows[1].runs[1].pieces[1] is on no plank",
		},
		{"a piece twice", func(_ *cutopt.Job, p *cutopt.Plan) {
			p.Planks[1].Pieces = append(p.Planks[1].Pieces, p.Planks[1].Pieces[0])
		}, "planks[2].pieces[2] names"},
		{"a piece of another plank", func(_ *cutopt.Job, p *cutopt.Plan) { piece(p).Plank = 2 }, "planks[1].pieces[2] names"},
		{
			"a piece that is nowhere", func(_ *cutopt.Job, p *cutopt.Plan) { p.Planks[3].Pieces[0].Row = -1 },
			"planks[4].pieces[1] names",
		},
		{
			"pieces from right to left", func(_ *cutopt.Job, p *cutopt.Plan) { slices.Reverse(p.Planks[3].Pieces) },
			"planks[4] is cut into",
		},
		{"no cut", func(_ *cutopt.Job, p *cutopt.Plan) { p.Planks[3].Cuts = nil }, "planks[4].cuts has none at 78"},
	} {
		job, plan := byHand()
		c.spoil(job, plan)
		seq, err := laying.FromPlan(job, plan)
		if seq != nil || err == nil || !strings.HasPrefix(err.Error(), "laying: ") || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v; want an error with %q", c.why, err, c.want)
		}
	}
	job, plan := byHand()
	if _, err := laying.FromPlan(nil, plan); err == nil {
		t.Error("a plan without a job is taken")
	}
	if _, err := laying.FromPlan(job, nil); err == nil {
		t.Error("no plan is taken")
	}
	if seq, err := laying.FromPlan(job, &cutopt.Plan{}); err != nil || len(seq.Pieces) > 0 {
		t.Errorf("an empty plan: %v", err)
	}
}

func TestRoleNames(t *testing.T) {
	for kind, want := range map[laying.Role]string{
		laying.RoleWhole: "whole", laying.RoleStarter: "starter", laying.RoleEnder: "ender", laying.RoleSingle: "single",
		9: "Role(9)",
	} {
		if got := kind.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
