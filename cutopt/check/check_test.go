package check_test

import (
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/words"
)

const mm = measure.Millimetre

// parlour is a room of 2420 x 620 mm, so with a gap of 10 a floor of 2400 x 600, or three rows of planks of 1000 x 200.
func parlour() *cutopt.Job {
	return &cutopt.Job{
		Name: "Parlour", Unit: measure.UnitMillimetre, Spare: cutopt.Spare{Planks: 1},
		Plank: cutopt.Plank{Length: 1000 * mm, Width: 200 * mm},
		Box:   cutopt.Box{Planks: 4, Price: 2500},
		Rules: cutopt.Rules{
			Gap: 10 * mm, MinPiece: 200 * mm, Stagger: 200 * mm, Kerf: 3 * mm, Grid: mm, Cover: 6 * mm, Smooth: 3 * mm,
			WasteAllowance: 10,
		},
		Rooms: []cutopt.Room{
			{Name: "Parlour", Outline: rectangle(0, 0, 2420, 620), Rows: cutopt.RowRules{Start: cutopt.StartFar}},
		},
	}
}

func rectangle(x0, y0, x1, y1 measure.Length) []cutopt.Point {
	return []cutopt.Point{
		{X: x0 * mm, Y: y0 * mm},
		{X: x1 * mm, Y: y0 * mm},
		{X: x1 * mm, Y: y1 * mm},
		{X: x0 * mm, Y: y1 * mm},
	}
}

// parlourPlan lays the parlour by hand. From the left wall at 10, with joints in brackets:
//
//	row 1: 600 (610) 1000 (1610) 800             planks 1, 2, 3
//	row 2: 200 (210) 1000 (1210) 1000 (2210) 200 planks 4, 5, 6, 7
//	row 3: 700 (710) 1000 (1710) 700             planks 7, 8, 4
//
// Joints of rows 1 and 2 are at least 400 apart, those of rows 2 and 3 at least 500. Two planks are shared: the ender
// of 700, a kerf, 94 left, a kerf and the starter of 200 make 1000, and so do 200, 3, 94, 3 and 700. Plank 1 leaves 397
// at its left end, plank 3 leaves 197 at its right end. Offcuts of planks 4 and 7 are kept at the end of row 2 for row
// 3.
//
// Eight planks and one spare make 3 boxes of 4, or 2,400,000 mm². Of it 1,440,000 are laid, (397 + 197 + 94 + 94) x
// 200 = 156,400 are offcuts, 6 x 3 x 200 = 3,600 are sawdust and four planks, 800,000, are left whole. The room has
// 1,500,400, and with 10 % added 1,650,440: three boxes of 800,000. Eight planks have 1,600,000, a tenth of which is
// not laid.
func parlourPlan() *cutopt.Plan {
	piece := func(plank int, from, to measure.Length, ends cutopt.Ends) cutopt.Piece {
		return cutopt.Piece{Plank: plank, From: from * mm, To: to * mm, Length: (to - from) * mm, Ends: ends}
	}
	row := func(from measure.Length, pieces ...cutopt.Piece) cutopt.PlanRow {
		return cutopt.PlanRow{
			From: from * mm, To: (from + 200) * mm, Width: 200 * mm,
			Runs: []cutopt.PlanRun{{From: 10 * mm, To: 2410 * mm, Pieces: pieces}},
		}
	}
	whole := func(number, row, piece int) cutopt.PlankUse {
		return cutopt.PlankUse{Number: number, Pieces: []cutopt.PieceRef{{Row: row, Piece: piece}}}
	}
	const left, right, both, none = cutopt.EndsLeft, cutopt.EndsRight, cutopt.EndsBoth, cutopt.EndsNone
	const area = measure.Area(mm * mm)
	return &cutopt.Plan{
		Version: cutopt.PlanVersion, Job: "Parlour", Unit: measure.UnitMillimetre,
		Order: cutopt.Order{
			Planks: 8, Fewest: 8, PlanksPerBox: 4, Boxes: 3, Left: 4, Kept: 1, Price: 7500,
			ThumbBoxes: 3,
		},
		Bound: cutopt.Bound{Planks: 8, Boxes: 3, Proven: true, Settled: true, PlanksProven: true},
		Waste: cutopt.Waste{
			AddedToFloor: 100 * 899_600.0 / 1_500_400, ShareOfPurchase: 100 * 899_600.0 / 2_400_000, Afterwards: 10,
			Net: 1_500_400 * area, Bought: 2_400_000 * area, Laid: 1_440_000 * area, Offcuts: 156_400 * area,
			Kerf:      3_600 * area,
			WholeLeft: 800_000 * area,
		},
		Quality: cutopt.Quality{LongestChain: 1, LeastStagger: 400 * mm, Crosscuts: 6, OffcutsAtOnce: 2},
		Floors: []cutopt.PlanFloor{{
			Name: "Parlour", Axes: cutopt.Axes{Origin: cutopt.Point{Y: 620 * mm}, Mirrored: true},
			Rows: []cutopt.PlanRow{
				row(10, piece(1, 10, 610, right), piece(2, 610, 1610, both), piece(3, 1610, 2410, left)),
				row(
					210,
					piece(4, 10, 210, right),
					piece(5, 210, 1210, both),
					piece(6, 1210, 2210, both),
					piece(7, 2210, 2410, left),
				),
				row(410, piece(7, 10, 710, right), piece(8, 710, 1710, both), piece(4, 1710, 2410, left)),
			},
		}},
		Planks: []cutopt.PlankUse{
			{
				Number: 1, Pieces: []cutopt.PieceRef{{Row: 0, Piece: 0}}, Cuts: []cutopt.Cut{{At: 397 * mm}},
				Left: []cutopt.Leftover{{To: 397 * mm, Ends: left}},
			},
			whole(2, 0, 1),
			{
				Number: 3, Pieces: []cutopt.PieceRef{{Row: 0, Piece: 2}}, Cuts: []cutopt.Cut{{At: 800 * mm}},
				Left: []cutopt.Leftover{{From: 803 * mm, To: 1000 * mm, Ends: right}},
			},
			{
				Number: 4, Pieces: []cutopt.PieceRef{{Row: 2, Piece: 2}, {Row: 1, Piece: 0}}, Cuts: []cutopt.Cut{
					{At: 797 * mm},
					{At: 700 * mm},
				},
				Left: []cutopt.Leftover{{From: 703 * mm, To: 797 * mm, Ends: none}},
			},
			whole(5, 1, 1),
			whole(6, 1, 2),
			{
				Number: 7, Pieces: []cutopt.PieceRef{{Row: 1, Piece: 3}, {Row: 2, Piece: 0}}, Cuts: []cutopt.Cut{
					{At: 200 * mm},
					{At: 297 * mm},
				},
				Left: []cutopt.Leftover{{From: 203 * mm, To: 297 * mm, Ends: none}},
			},
			whole(8, 2, 1),
		},
	}
}

func TestCheckPassesPlanByHand(t *testing.T) {
	if v := check.Plan(parlour(), parlourPlan()); v != nil {
		t.Errorf("a plan that keeps every rule breaks %v", v)
	}
}

// rulesOf returns the names of the rules that are broken, each as often as it is, in order.
func rulesOf(violations []check.Violation) string {
	names := make([]string, len(violations))
	for i, v := range violations {
		names[i] = v.Rule.String()
	}
	slices.Sort(names)
	return strings.Join(names, " ")
}

// expect holds the violations of a plan against rules, and one of them against a text.
func expect(t *testing.T, job *cutopt.Job, plan *cutopt.Plan, rules, text string) {
	t.Helper()
	got := check.Plan(job, plan)
	if rulesOf(got) != rules {
		t.Errorf("broken are %q, want %q:\n%v", rulesOf(got), rules, got)
	}
	english := words.New("en", nil, job.Unit, job.Rules.Grid)
	var told []string
	for i := range got {
		said := english.Violation(&got[i])
		if told = append(told, said); strings.ContainsAny(said, "{}") {
			t.Errorf("a place is not filled in: %s", said)
		}
	}
	if !slices.ContainsFunc(told, func(said string) bool { return strings.Contains(said, text) }) {
		t.Errorf("none of these says %q:\n%s", text, strings.Join(told, "\n"))
	}
}

// TestCheckFindsEachRuleBroken breaks one thing at a time. What else it breaks of necessity is listed too.
func TestCheckFindsEachRuleBroken(t *testing.T) {
	type (
		job  = cutopt.Job
		plan = cutopt.Plan
	)
	row := func(p *plan, i int) *cutopt.PlanRow { return &p.Floors[0].Rows[i] }
	piece := func(p *plan, i, m int) *cutopt.Piece { return &row(p, i).Runs[0].Pieces[m] }
	// joint moves the joint after piece m of row i.
	joint := func(p *plan, i, m int, by measure.Length) {
		a, b := piece(p, i, m), piece(p, i, m+1)
		a.To, b.From = a.To+by, b.From+by
		a.Length, b.Length = a.To-a.From, b.To-b.From
	}
	for _, c := range []struct {
		reason string
		spoil  func(*job, *plan)
		rules  string // all that are broken, in order
		text   string // what one of the violations says
	}{
		// The job, and the plan as a file.
		{"a job out of order", func(j *job, _ *plan) { j.Plank.Length = 0 }, "job", "plank.length"},
		{"another version", func(_ *job, p *plan) { p.Version = 1 }, "plan", "version is 1; want 2"},
		{
			"another job's", func(_ *job, p *plan) { p.Job = "Attic" }, "job",
			`job: the plan is of the job "Attic"; want ` +
				`"Parlour"`,
		},
		{
			"a unit that is none", func(_ *job, p *plan) { p.Unit = 9 }, "plan",
			"the unit is Unit(9); want a unit of length",
		},
		{"a turn that is no number", func(_ *job, p *plan) { p.Floors[0].Axes.Turn = 1e9 }, "plan", "turned by 1e+09 " +
			"degrees"},
		{
			"a length on the moon", func(_ *job, p *plan) { piece(p, 0, 0).To = 1 << 60 }, "plan",
			"Parlour row 1 run 1 piece " +
				"1: plan:",
		},
		{
			"ends that are none", func(_ *job, p *plan) { piece(p, 0, 0).Ends = 9 }, "plan",
			"its factory ends are Ends(9)",
		},
		{
			"a hand that is none", func(_ *job, p *plan) { p.Floors[0].LaidFrom = 7 }, "plan",
			"rows are laid from Hand(7)",
		},
		{
			"a cut out of range", func(_ *job, p *plan) { p.Planks[0].Cuts[0].At = -1 << 50 }, "plan",
			"plank 1: plan: a cut",
		},
		{"a room too many", func(j *job, p *plan) {
			j.Rooms = append(j.Rooms, cutopt.Room{Name: "Porch", Outline: rectangle(0, 0, 10, 10)})
			p.Waste.Net += 100 * measure.Area(mm*mm)
			p.Waste.AddedToFloor, p.Waste.ShareOfPurchase = 100*899_500.0/1_500_500, 100*899_500.0/2_400_000
		}, "job", "the plan has 1 floors; want 2"},
		{
			"another name", func(_ *job, p *plan) { p.Floors[0].Name = "Attic" }, "job",
			`Attic: job: the floor is called "Attic"; want "Parlour"`,
		},
		{
			"laid from the other hand", func(j *job, _ *plan) { j.Rooms[0].Rows.LaidFrom = cutopt.FromRight }, "job",
			"laid " +
				"from the left; want from the right",
		},

		// Rows.
		{
			"a width that does not add up", func(_ *job, p *plan) { row(p, 1).Width -= mm }, "rows",
			"row 2: rows: it lies " +
				"from 210 mm to 410 mm and says it is 199 mm wide; want 200 mm",
		},
		{"a row that is thinner than it should be", func(_ *job, p *plan) {
			row(p, 1).To -= mm
			row(p, 1).Width -= mm
		}, "cover waste waste", "row 2: cover: 24 cm² between (19.025 mm, 409 mm) and (2400.975 mm, 410 mm) lie open"},
		{"a row in the middle that is thinner", func(_ *job, p *plan) {
			for _, r := range []*cutopt.PlanRow{row(p, 1), row(p, 2)} {
				r.To -= 10 * mm
			}
			row(p, 1).Width, row(p, 2).From = 190*mm, 400*mm
		}, "cover rows waste waste", "row 2: rows: it is 190 mm wide with rows on both sides; want a whole plank"},
		{"a row that begins too early", func(_ *job, p *plan) {
			row(p, 1).From -= mm
			row(p, 1).Width += mm
		}, "rows rows waste waste", "row 2: rows: it is 201 mm wide; want more than 0 and at most a plank"},
		{"edge rows as wide as the least", func(j *job, _ *plan) { j.Rules.MinRip = 200 * mm }, "", ""},
		{"a first row that may not be so narrow", func(j *job, p *plan) {
			j.Rooms[0].Outline, j.Rules.MinRip = rectangle(0, 0, 2420, 520), 150*mm
			narrow(p)
		}, "min-rip", "row 1 run 1 piece 1: min-rip: an edge row of 100 mm; want at least 150 mm"},
		{"a first row that is told to be forced, where rows of 150, 200 and 150 do", func(j *job, p *plan) {
			j.Rooms[0].Outline, j.Rules.MinRip = rectangle(0, 0, 2420, 520), 150*mm
			narrow(p)
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactEdgeForced, First: 100 * mm, Last: 200 * mm,
				Least: 150 * mm,
			}}
		}, "min-rip", "edge rows of 100 mm and 200 mm are told to be forced; want rows that keep 150 mm"},
		{"one that is forced: two edge rows share 300 or 500", func(j *job, p *plan) {
			j.Rooms[0].Outline, j.Rules.MinRip = rectangle(0, 0, 2420, 520), 160*mm
			narrow(p)
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactEdgeForced, First: 100 * mm, Last: 200 * mm,
				Least: 160 * mm,
			}}
		}, "", ""},
		{"its width told wrong", func(j *job, p *plan) {
			j.Rooms[0].Outline, j.Rules.MinRip = rectangle(0, 0, 2420, 520), 160*mm
			narrow(p)
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactEdgeForced, First: 110 * mm, Last: 200 * mm,
				Least: 160 * mm,
			}}
		}, "fact", "first 110 mm last 200 mm least 160 mm; want what the rows are where they are narrowest: first " +
			"100 mm, " +
			"last 200 mm"},
		{"it is what the job asks", func(j *job, p *plan) {
			j.Rooms[0].Outline, j.Rules.MinRip, j.Rooms[0].Rows.FirstRow = rectangle(0, 0, 2420, 520), 150*mm, 100*mm
			narrow(p)
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactEdgeAsked, First: 100 * mm, Last: 200 * mm,
				Least: 150 * mm,
			}}
		}, "", ""},
		{"asked, it says, and the job does not ask", func(j *job, p *plan) {
			j.Rooms[0].Outline, j.Rules.MinRip = rectangle(0, 0, 2420, 520), 160*mm
			narrow(p)
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactEdgeAsked, First: 100 * mm, Last: 200 * mm,
				Least: 160 * mm,
			}}
		}, "fact", "want a job that asks for the width of the first row"},
		{"a narrow row told of that is none", func(_ *job, p *plan) {
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactEdgeForced, First: 200 * mm, Last: 200 * mm,
				Least: 100 * mm,
			}}
		}, "fact", "with one of them below 100 mm"},

		// What else is told, and what the job asks.
		{
			"a first row of another width than asked for", func(j *job,
				_ *plan,
			) {
				j.Rooms[0].Rows.FirstRow = 150 * mm
			}, "job",
			"row 1: job: no row ends at 160 mm; want a first row of 150 mm as the job asks",
		},
		{
			"rows across, where they lie along", func(j *job,
				_ *plan,
			) {
				j.Rooms[0].Rows.Direction = cutopt.DirectionAcross
			},
			"job", "rows run at 0 degrees; want rows across the longest wall",
		},
		{
			"begun at the other wall", func(j *job, _ *plan) { j.Rooms[0].Rows.Start = cutopt.StartNear }, "job",
			`want rows along the longest wall of "Parlour", from its near side`,
		},
		{"jogs told of that are none", func(_ *job, p *plan) {
			p.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactJogs, Count: 1, Most: 3 * mm}}
		}, "fact", "count 1 most 3 mm; want most 3 mm, count 0"},
		{"more left to the trim than there is", func(_ *job, p *plan) {
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactSlivers, Count: 1, Most: 6 * mm,
				Area: 600_000 * measure.Area(mm*mm),
			}}
		}, "fact", "want an area of 0 m² to"},
		{"slivers wider than the trim", func(_ *job, p *plan) {
			p.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactSlivers, Count: 1, Most: 7 * mm}}
		}, "fact", "want most 6 mm"},
		{"a jog of 2 mm that was straightened", func(j *job, p *plan) {
			jog(j, p)
			p.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactJogs, Count: 1, Most: 3 * mm}}
		}, "", ""},
		{"and not told of", func(j *job, p *plan) { jog(j, p) }, "fact", "nothing is told of 1 jogs shorter than 3 mm"},
		{"told as two", func(j *job, p *plan) {
			jog(j, p)
			p.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactJogs, Count: 2, Most: 3 * mm}}
		}, "fact", "want most 3 mm, count 1"},
		{"5 x 600 mm under the trim, a sliver in each row", func(j *job, p *plan) { sliver(j, p, 3, 3000) }, "", ""},
		{"told as two", func(j *job, p *plan) { sliver(j, p, 2, 3000) }, "fact", "want count 3 to 3"},
		{"told 1 mm² too small", func(j *job, p *plan) { sliver(j, p, 3, 2999) }, "fact", "want an area of 0.00299"},
		{"told 1 mm² too large", func(j *job, p *plan) { sliver(j, p, 3, 3001) }, "fact", "which lies open"},
		{"told as none", func(j *job, p *plan) { sliver(j, p, 0, 3000) }, "fact", "want count 3 to 3"},
		{"not told of", func(j *job, p *plan) {
			sliver(j, p, 3, 3000)
			p.Floors[0].Facts = nil
		}, "fact", "30 cm² lie open under the trim and nothing is told of it"},
		{"a strip that is none", func(j *job, p *plan) {
			j.Rules.MinStrip = 25 * mm
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactStrip, Row: 1, Run: 1, Piece: 1, Length: 900 * mm,
				Width: 20 * mm, Least: 25 * mm,
			}}
		}, "fact", "want a strip of"},
		{"a strip of a piece that is none", func(j *job, p *plan) {
			j.Rules.MinStrip = 25 * mm
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactStrip, Row: 9, Run: 1, Piece: 1, Length: 900 * mm,
				Width: 20 * mm, Least: 25 * mm,
			}}
		}, "fact", "want a piece of this floor"},
		{"a strip where none is too narrow", func(j *job, p *plan) {
			j.Rules.MinStrip = 0
			p.Floors[0].Facts = []cutopt.Fact{{
				Kind: cutopt.FactStrip, Row: 1, Run: 1, Piece: 1, Length: 900 * mm,
				Width: 20 * mm, Least: 25 * mm,
			}}
		}, "fact", "want a job that has a least width"},
		{"a finger of 15 mm beside a slot of 20 x 150 mm", func(j *job, p *plan) {
			j.Rules.MinStrip = 25 * mm
			piece(p, 0, 1).Shape = []cutopt.Point{
				{X: 610 * mm, Y: 10 * mm},
				{X: 1610 * mm, Y: 10 * mm},
				{X: 1610 * mm, Y: 210 * mm},
				{X: 645 * mm, Y: 210 * mm},
				{X: 645 * mm, Y: 60 * mm},
				{X: 625 * mm, Y: 60 * mm},
				{X: 625 * mm, Y: 210 * mm},
				{X: 610 * mm, Y: 210 * mm},
			}
		}, "cover fact min-strip waste waste", "row 1 run 1 piece 2: min-strip: it has a strip only 15 mm wide " +
			"that the " +
			"plan does not state"},
		{
			"a notch of 30 x 30 mm", func(_ *job, p *plan) { notch(piece(p, 0, 1), 30*mm, 30*mm) }, "cover waste waste",
			"row 1: cover:",
		},
		{"nothing told of it", func(_ *job, p *plan) {
			notch(piece(p, 0, 1), 30*mm, 30*mm)
			piece(p, 0, 1).Shaping = nil
		}, "cover fact waste waste", "0 facts tell how to saw it; want parts that reach as far as its shape lacks"},
		{
			"told as 15 long", func(_ *job, p *plan) { notch(piece(p, 0, 1), 15*mm, 30*mm) }, "cover fact waste waste",
			"want parts that reach as far as its shape lacks",
		},
		{
			"told as 28 wide", func(_ *job, p *plan) { notch(piece(p, 0, 1), 30*mm, 28*mm) }, "cover fact waste waste",
			"want parts that reach as far as its shape lacks",
		},
		{
			"told as 29.5 long, a trifle less", func(_ *job, p *plan) { notch(piece(p, 0, 1), 59*mm/2, 30*mm) },
			"cover waste waste", "row 1: cover:",
		},
		{"a doorway that is open told of as shut", func(_ *job, p *plan) {
			p.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactDoorway, Room: 1, Wall: 1, Doorway: 1}}
		}, "fact", "want a doorway of this floor"},
		{"a doorway that its gaps close, not told of", func(j *job, _ *plan) {
			j.Rooms[0].Doorways = []cutopt.Doorway{{
				Wall: 1, At: 100 * mm, Width: 20 * mm, Depth: 10 * mm,
				Casing: cutopt.CasingMetal,
			}}
		}, "fact", "nothing is told of doorway 1 of room 1"},
		{
			"a floor too wide without a break", func(j *job, _ *plan) { j.Rules.MaxAcross = 500 * mm }, "break",
			"it reaches 600 mm across the rows",
		},
		{
			"a run too long without a break", func(j *job, _ *plan) { j.Rules.MaxAlong = 2000 * mm }, "break",
			"it reaches 2400 mm along the rows",
		},
		{"a break that nothing asks for", func(_ *job, p *plan) {
			p.Breaks = []cutopt.PlanBreak{{
				Wall: -1, Doorway: -1, From: cutopt.Point{X: 5},
				To: cutopt.Point{X: 9}, Length: 4,
			}}
		}, "break break", "that needs none"},
		{
			"a fact of a kind that is none", func(_ *job, p *plan) { p.Floors[0].Facts = []cutopt.Fact{{Kind: 99}} },
			"fact",
			"want facts about floors",
		},
		{"a fact with a field of another kind", func(_ *job, p *plan) {
			p.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactJogs, Count: 1, Most: 3 * mm, Row: 1}}
		}, "fact", "with the fields of their kinds"},
		{"a fact about a shape told of a floor", func(_ *job, p *plan) {
			p.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactRip, Edge: cutopt.EdgesFront, Width: mm}}
		}, "fact", "want facts about floors"},
		{"a full rectangle that is told to be sawn", func(_ *job, p *plan) {
			piece(p, 0, 1).Shaping = []cutopt.Fact{{Kind: cutopt.FactRip, Edge: cutopt.EdgesFront, Width: mm}}
		}, "fact", "row 1 run 1 piece 2: fact: 1 facts tell how to saw a full rectangle"},
		{"half a plank is the least where none is given", func(j *job, p *plan) {
			j.Rooms[0].Outline = rectangle(0, 0, 2420, 520)
			narrow(p)
		}, "", ""},

		// Runs and pieces.
		{
			"a run that ends before its last piece", func(_ *job, p *plan) { row(p, 0).Runs[0].To -= mm }, "run",
			"its last " +
				"piece ends at 2410 mm; want 2409 mm, where the run ends",
		},
		{
			"a run that begins before its first piece", func(_ *job, p *plan) { row(p, 0).Runs[0].From -= mm }, "run",
			"it " +
				"begins at 10 mm; want 9 mm, where the run begins",
		},
		{"a hole between two pieces", func(_ *job, p *plan) {
			piece(p, 0, 2).From += mm
			piece(p, 0, 2).Length -= mm
		}, "cover leftovers run waste", "row 1 run 1 piece 3: run: it begins at 1611 mm; want 1610 mm, where the " +
			"piece " +
			"before it ends"},
		{
			"a length that does not add up", func(_ *job, p *plan) { piece(p, 0, 1).Length-- }, "length",
			"piece 2: length: " +
				"it lies from 610 mm to 1610 mm and says it is 999.997 mm long",
		},
		{"a piece longer than a plank", func(_ *job, p *plan) { joint(p, 0, 0, -mm) }, "cuts length", ""},
		{"a piece left out", func(_ *job, p *plan) {
			r := &row(p, 0).Runs[0]
			r.Pieces = r.Pieces[:2]
		}, "cover number run waste", "its last piece ends at 1610 mm; want 2410 mm"},
		{
			"one run made two where no wall stands", func(_ *job, p *plan) { split(p) }, "run",
			"row 1 run 1: run: the floor " +
				"goes on to run 2 without a wall between them",
		},
		{"runs from right to left", func(_ *job, p *plan) {
			split(p)
			slices.Reverse(row(p, 0).Runs)
			for i := range 3 {
				p.Planks[i].Pieces[0] = map[int]cutopt.PieceRef{0: {Run: 1}, 1: {Run: 1, Piece: 1}, 2: {Run: 0}}[i]
			}
		}, "run run", "row 1 run 2: run: it begins at 10 mm; want runs from left to right"},
		{"a run without pieces", func(_ *job, p *plan) {
			row(p, 0).Runs = append(row(p, 0).Runs, cutopt.PlanRun{From: 2410 * mm, To: 2420 * mm})
		}, "run", "row 1 run 2: run: it has no piece"},

		// Ends, lengths, joints.
		{
			"a starter with its left end", func(_ *job, p *plan) { piece(p, 0, 0).Ends = cutopt.EndsLeft }, "ends ends",
			"a " +
				"sawn starter has its factory ends: left; want right",
		},
		{
			"an ender with its right end", func(_ *job, p *plan) { piece(p, 0, 2).Ends = cutopt.EndsRight },
			"ends leftovers",
			"a sawn ender has its factory ends: right; want left",
		},
		{
			"a sawn piece with both ends", func(_ *job, p *plan) { piece(p, 0, 0).Ends = cutopt.EndsBoth }, "ends ends",
			"a " +
				"piece of 600 mm has both factory ends",
		},
		{
			"a whole plank that says it is sawn", func(_ *job, p *plan) { piece(p, 0, 1).Ends = cutopt.EndsLeft },
			"ends ends",
			"a piece as long as a plank has its factory ends: left",
		},
		{
			"a starter below the least", func(j *job, _ *plan) { j.Rules.MinPiece = 201 * mm }, "min-piece min-piece",
			"row 2 " +
				"run 1 piece 1: min-piece: a starter of 200 mm; want at least 201 mm",
		},
		{
			"a starter off the grid", func(j *job, _ *plan) { j.Rules.Grid = 300 * mm }, "grid grid",
			"row 2 run 1 piece 1: " +
				"grid: the piece laid first is 200 mm long; want a multiple of 300 mm",
		},
		{"laid from the right the ender is on the grid", func(j *job, p *plan) {
			j.Rules.Grid = 350 * mm
			j.Rooms[0].Rows.LaidFrom, p.Floors[0].LaidFrom = cutopt.FromRight, cutopt.HandRight
		}, "grid grid", "row 1 run 1 piece 3: grid: the piece laid first is 800 mm long"},
		{
			"joints too near", func(j *job, _ *plan) { j.Rules.Stagger = 401 * mm }, "stagger stagger",
			"row 2 run 1 piece 1: " +
				"stagger: the joint at its right end, at 210 mm, is 400 mm from the one at 610 mm of row 1 run 1; " +
				"want " +
				"at least " +
				"401 mm",
		},

		// The floor.
		{"a room that is larger than the plan", func(j *job, _ *plan) {
			j.Rooms[0].Outline[1].X,
				j.Rooms[0].Outline[2].X = 2450*mm, 2450*mm
		}, "cover cover cover waste", "row 1: cover:"},
		{"as much open as the trim hides, and nothing told of it", func(j *job, _ *plan) {
			j.Rooms[0].Outline[1].X,
				j.Rooms[0].Outline[2].X = 2429*mm, 2429*mm
		}, "fact waste", "54 cm² lie open"},
		{"floor before the first row", func(j *job, _ *plan) {
			j.Rooms[0].Outline[2].Y, j.Rooms[0].Outline[3].Y = 640*mm,
				640*mm
		}, "cover waste", "row 1: cover: 261 cm² before it between (19.025 mm, -0.975 mm) and (2400.975 mm, 10 mm) " +
			"lie open"},
		{"floor after the last row", func(j *job, p *plan) {
			j.Rooms[0].Outline[2].Y, j.Rooms[0].Outline[3].Y, p.Floors[0].Axes.Origin.Y = 640*mm, 640*mm, 640*mm
		}, "cover waste", "row 3: cover: 261 cm² after it between"},
		{
			"a wall that is nearer", func(j *job, _ *plan) { j.Rooms[0].WallGaps = map[int]measure.Length{1: 11 * mm} },
			"gap " +
				"gap gap", "row 1 run 1 piece 3: gap: at (2410 mm, ",
		},
		{"a wall that is nearer by one tick", func(j *job, _ *plan) {
			j.Rooms[0].WallGaps = map[int]measure.Length{3: 10*mm +
				1}
		}, "gap gap gap", "of wall 4; want at least 10.003 mm"},
		{
			"a smaller room", func(j *job, _ *plan) {
				j.Rooms[0].Outline[1].X, j.Rooms[0].Outline[2].X = 2400*mm,
					2400*mm
			},
			"gap gap gap inside inside inside waste", "row 3 run 1 piece 3: inside:",
		},
		{"an island under the floor", func(j *job, _ *plan) {
			j.Rooms[0].Islands = []cutopt.Island{{Outline: rectangle(1000, 300, 1100, 320), Gap: cutopt.GapNone}}
		}, "inside waste", "row 2 run 1 piece 2: inside: 20 cm² of it"},
		{"the gap of an island", func(j *job, p *plan) {
			j.Rooms[0].Islands = []cutopt.Island{{Name: "Post", Outline: rectangle(2415, 300, 2420, 320)}}
		}, "gap waste", "within 5 mm of edge 4 of Post; want at least 10 mm"},
		{
			"axes of a mirror image", func(_ *job, p *plan) { p.Floors[0].Axes = cutopt.Axes{} }, "job",
			"left and right are " +
				"swapped",
		},
		{"axes turned round", func(j *job, p *plan) {
			j.Rooms[0].Rows.Start = cutopt.StartNear
			p.Floors[0].Axes = cutopt.Axes{Origin: cutopt.Point{X: 2420 * mm}, Turn: 180, Mirrored: true}
		}, "", ""},
		{
			"axes turned round to the wrong side of the origin", func(j *job, p *plan) {
				j.Rooms[0].Rows.Start = cutopt.StartNear
				p.Floors[0].Axes.Turn = 180
			}, "cover inside inside inside inside inside inside inside inside inside inside",
			"row 2 run 1 piece 3: inside: " +
				"2000 cm² of it",
		},
		{"rows at the angle asked for", func(j *job, _ *plan) {
			j.Rooms[0].Rows.Direction, j.Rooms[0].Rows.Angle = cutopt.DirectionAngle, 180
		}, "", ""},
		{"rows at another angle", func(j *job, _ *plan) {
			j.Rooms[0].Rows.Direction, j.Rooms[0].Rows.Angle = cutopt.DirectionAngle, 45
		}, "job", "rows run at 0 degrees; want 45 degrees"},
		{"a piece on another", func(_ *job, p *plan) {
			piece(p, 0, 1).To += mm
			piece(p, 0, 1).Length += mm
		}, "length overlap run waste", "row 1 run 1 piece 2: overlap: it lies on row 1 run 1 piece 3 at (1610 mm, " +
			"10 mm), " +
			"over 2 cm²"},
		{"a shape beyond its row", func(_ *job, p *plan) {
			piece(p, 0, 1).Shape = []cutopt.Point{{X: 610 * mm, Y: 10 * mm}, {X: 1610 * mm, Y: 10 * mm}, {
				X: 1610 * mm,
				Y: 210 * mm,
			}, {X: 610 * mm, Y: 211 * mm}}
		}, "shape waste waste", "piece 2: shape: its shape has a corner at (610 mm, 211 mm)"},
		{
			"a shape of two corners", func(_ *job, p *plan) { piece(p, 0, 1).Shape = make([]cutopt.Point, 2) },
			"cover shape " +
				"waste waste", "its shape has 2 corners",
		},
		{"a shape that leaves floor open", func(_ *job, p *plan) {
			piece(p, 0, 1).Shape = []cutopt.Point{{X: 610 * mm, Y: 10 * mm}, {X: 1610 * mm, Y: 10 * mm}, {
				X: 1610 * mm,
				Y: 210 * mm,
			}}
		}, "cover fact waste waste", "row 1: cover: 998 cm² between (610 mm, 19"},

		// Planks.
		{
			"planks that are out of order", func(_ *job, p *plan) { p.Planks[1].Number = 3 }, "number",
			"plank 2: number: it " +
				"has number 3; want 2",
		},
		{"a plank that is not used", func(_ *job, p *plan) {
			p.Planks = append(p.Planks, cutopt.PlankUse{Number: 9})
			p.Order.Planks, p.Order.Left, p.Bound.PlanksProven = 9, 3, false
			p.Waste.WholeLeft, p.Waste.Afterwards = 600_000*measure.Area(mm*mm), 20
		}, "number waste", "plank 9: number: no piece is cut from it"},
		{
			"a piece of another plank", func(_ *job, p *plan) { piece(p, 0, 1).Plank = 5 }, "number",
			"the plank lists a " +
				"piece of plank 5",
		},
		{"a piece that no plank lists", func(_ *job, p *plan) {
			p.Planks[6].Pieces = p.Planks[6].Pieces[:1]
		}, "leftovers number", "Parlour row 3 run 1 piece 1: number: it says it is of plank 7, and no plank lists it"},
		{"a piece listed twice", func(_ *job, p *plan) {
			p.Planks[4].Pieces = append(p.Planks[4].Pieces,
				p.Planks[4].Pieces[0])
		}, "number", "the piece is listed twice"},
		{
			"a piece that is not there", func(_ *job, p *plan) { p.Planks[4].Pieces[0].Run = -1 }, "number number",
			"plank 5: " +
				"number: it lists the piece floor 1, row 2, run 0, piece 2",
		},
		{
			"too much on one plank", func(j *job, _ *plan) { j.Rules.Kerf = 101 * mm }, "fit fit leftovers leftovers",
			"plank " +
				"4: fit: 2 pieces and the kerfs between them take 1001 mm; want at most 1000 mm",
		},
		{
			"pieces in the wrong order", func(_ *job, p *plan) { slices.Reverse(p.Planks[3].Pieces) }, "ends ends",
			"plank 4: " +
				"ends: its piece 2 has a left factory end",
		},
		{
			"a cut left out", func(_ *job, p *plan) { p.Planks[3].Cuts = p.Planks[3].Cuts[:1] }, "cuts",
			"plank 4: cuts: it " +
				"is cut at 797 mm; want 700 mm, 797 mm",
		},
		{
			// A starter of 998 leaves 2 of the plank and the kerf is 3: it begins 1 before the plank does.
			"a kerf that begins before the plank", func(_ *job, p *plan) {
				joint(p, 0, 0, 398*mm)
				joint(p, 0, 1, 398*mm)
				p.Planks[0].Cuts[0].At, p.Planks[0].Left = -mm, nil
				p.Planks[2].Cuts[0].At, p.Planks[2].Left[0].From = 402*mm, 405*mm
				longStarter(p)
			}, "", "",
		},
		{"its place cut short at the plank", func(_ *job, p *plan) {
			joint(p, 0, 0, 398*mm)
			joint(p, 0, 1, 398*mm)
			p.Planks[0].Cuts[0].At, p.Planks[0].Left = 0, nil
			p.Planks[2].Cuts[0].At, p.Planks[2].Left[0].From = 402*mm, 405*mm
			longStarter(p)
		}, "cuts", "plank 1: cuts: it is cut at 0 mm; want -1 mm"},
		{"a cut in the wrong place", func(_ *job, p *plan) { p.Planks[0].Cuts[0].At++ }, "cuts", "plank 1: cuts:"},
		{
			"a cut of a whole plank", func(_ *job, p *plan) { p.Planks[1].Cuts = []cutopt.Cut{{At: 5}} }, "cuts",
			"want no " +
				"place",
		},
		{
			"an offcut left out", func(_ *job, p *plan) { p.Planks[2].Left = nil }, "leftovers",
			"plank 3: leftovers: nothing " +
				"is said of 803 mm to 1000 mm of the plank",
		},
		{
			"an offcut left out before the starter", func(_ *job, p *plan) { p.Planks[0].Left = nil }, "leftovers",
			"plank 1: " +
				"leftovers: nothing is said of 0 mm to 397 mm",
		},
		{
			"an offcut that is longer", func(_ *job, p *plan) { p.Planks[2].Left[0].To += mm }, "leftovers",
			"a length above " +
				"0 within the plank",
		},
		{
			"an offcut that is elsewhere", func(_ *job, p *plan) { p.Planks[3].Left[0].From += mm }, "leftovers",
			"plank 4: " +
				"leftovers: nothing is said of 703 mm to 797 mm",
		},
		{
			"an offcut with the wrong end", func(_ *job, p *plan) { p.Planks[2].Left[0].Ends = cutopt.EndsLeft },
			"leftovers",
			"an offcut from 803 mm to 1000 mm has its factory ends: left; want right",
		},

		// Order, bound and waste.
		{
			"planks miscounted", func(_ *job, p *plan) { p.Order.Planks = 7 }, "order",
			"order: order.planks is 7; want 8",
		},
		{
			"planks a box miscounted", func(_ *job, p *plan) { p.Order.PlanksPerBox = 5 }, "order",
			"order.planks_per_box is " +
				"5; want 4",
		},
		{"a box too few", func(_ *job, p *plan) { p.Order.Boxes = 2 }, "order", "order.boxes is 2; want 3"},
		{"spare planks miscounted", func(_ *job, p *plan) { p.Order.Left = 3 }, "order", "order.left is 3; want 4"},
		{
			"planks for repairs miscounted", func(_ *job, p *plan) { p.Order.Kept = 4 }, "order",
			"order.kept is 4; want 1",
		},
		{"an eighth kept, which is one plank", func(j *job, _ *plan) { j.Spare = cutopt.Spare{Percent: 12.5} }, "", ""},
		{
			"a little more than an eighth", func(j *job, _ *plan) { j.Spare = cutopt.Spare{Percent: 12.6} }, "order",
			"order.kept is 1; want 2",
		},
		{"half of the planks kept: four, which the boxes hold", func(j *job, p *plan) {
			j.Spare,
				p.Order.Kept = cutopt.Spare{Percent: 50}, 4
		}, "", ""},
		{
			"a little more than half of them", func(j *job, p *plan) {
				j.Spare,
					p.Order.Kept = cutopt.Spare{Percent: 50.01}, 5
			},
			"bound order order order waste waste", "order.boxes is 3; want 4",
		},
		{
			"a reserve where none is lost", func(_ *job, p *plan) { p.Order.Reserve = 1 }, "order",
			"order.reserve is 1; want " +
				"0",
		},
		{
			"a loss that the job does not have", func(_ *job, p *plan) { p.Order.Loss = 2 }, "order",
			"order.loss is 2 % and " +
				"order.risk_limit 0 %; want 0 % and 0 %",
		},
		{
			"a chance that is none", func(_ *job, p *plan) { p.Order.Risk = 1e-6 }, "order",
			"order.risk is 1e-06; want 0",
		},
		{"a floor of 7 that one box less would hold, to which the bound of 7 does not belong", func(j *job, p *plan) {
			p.Order.Fewest, p.Bound.Planks, p.Bound.Boxes = 7, 7, 2
			p.Bound.Settled, p.Bound.PlanksProven = false, false
		}, "order", "order.fewest is 7, for which 2 boxes would be bought; want planks for which 3 boxes are"},
		{
			"fewer planks than are proven", func(_ *job, p *plan) { p.Order.Fewest = 7 }, "bound order",
			"order.fewest is 7; " +
				"want 8 to 8",
		},
		{
			// Of 8 + 3 planks the boxes hold, more than 3 are lost with 1 - sum of C(11, k) 0.02^k 0.98^(11-k), k to 3:
			// 4.717e-5.
			"one in fifty lost, with two in reserve", func(j *job, p *plan) {
				j.Rules.Loss, j.Rules.RiskLimit = 2, 2
				p.Order.Loss, p.Order.RiskLimit, p.Order.Reserve, p.Order.Risk = 2, 2, 1, 4.717377828e-05
			}, "", "",
		},
		{
			"a reserve too small", func(j *job, p *plan) {
				j.Rules.Loss, j.Rules.RiskLimit = 2, 0.1
				p.Order.Loss, p.Order.RiskLimit, p.Order.Reserve, p.Order.Risk = 2, 0.1, 1, 4.717377828e-05
			}, "order", "order.reserve is 1; want 2",
		},
		{"a box kept for two", func(j *job, p *plan) { j.Spare, p.Order.Kept = cutopt.Spare{BoxPer: 2}, 4 }, "", ""},
		{
			"a box kept, and a plank of it used", func(j *job, p *plan) {
				j.Spare,
					p.Order.Kept = cutopt.Spare{BoxPer: 2}, 3
			},
			"order", "order.kept is 3; want 4",
		},
		{
			"a box kept for each", func(j *job, p *plan) { j.Spare, p.Order.Kept = cutopt.Spare{BoxPer: 1}, 8 },
			"bound order order order waste waste", "order.boxes is 3; want 4",
		},
		{
			"price of two boxes", func(_ *job, p *plan) { p.Order.Price = 5000 }, "order",
			"order.price is 50.00; want 3 " +
				"boxes at 25.00",
		},
		{"rule of thumb", func(_ *job, p *plan) { p.Order.ThumbBoxes = 2 }, "order", "order.thumb_boxes is 2; want 3"},
		{
			"rule of thumb by what the label says", func(j *job,
				_ *plan,
			) {
				j.Box.Covers = 826_000 * measure.Area(mm*mm)
			},
			"order", "order.thumb_boxes is 3; want 2",
		},
		{
			"a bound above the plan", func(_ *job, p *plan) { p.Bound.Planks = 9 }, "bound",
			"bound.planks is 9; want 0 to 8",
		},
		{
			"a bound below the plan that says it is proven", func(_ *job, p *plan) { p.Bound.Planks = 7 },
			"bound bound bound " +
				"bound", "bound.planks_proven is true; want false",
		},
		{"boxes of the bound", func(_ *job, p *plan) { p.Bound.Boxes = 2 }, "bound", "bound.boxes is 2; want 3"},
		{
			"a purchase called open", func(_ *job, p *plan) { p.Bound.Settled = false }, "bound",
			"bound.settled is false; " +
				"want true",
		},
		{"proof denied", func(_ *job, p *plan) { p.Bound.Proven = false }, "bound", "bound.proven is false; want true"},
		{"floor area", func(_ *job, p *plan) { p.Waste.Net += 2 }, "waste", "waste.areas.net"},
		{"bought", func(_ *job, p *plan) { p.Waste.Bought++ }, "waste waste", "add up to"},
		{
			"laid and ripped", func(_ *job, p *plan) { p.Waste.Laid--; p.Waste.Ripped++ }, "waste waste",
			"waste.areas.ripped",
		},
		{
			"offcuts and kerf", func(_ *job, p *plan) { p.Waste.Offcuts--; p.Waste.Kerf++ }, "waste waste",
			"waste.areas.kerf",
		},
		{"whole planks left", func(_ *job, p *plan) { p.Waste.WholeLeft++ }, "waste waste", "waste.areas.whole_left"},
		{"added to the floor", func(_ *job, p *plan) { p.Waste.AddedToFloor += 1e-6 }, "waste", "waste.added_to_floor"},
		{
			"share of the purchase", func(_ *job, p *plan) { p.Waste.ShareOfPurchase = 40 }, "waste",
			"waste.share_of_purchase is 40 %; want 37.48",
		},
		{
			"measured afterwards", func(_ *job, p *plan) { p.Waste.Afterwards = 9 }, "waste",
			"waste.afterwards is 9 %; want " +
				"10 %",
		},
	} {
		t.Run(c.reason, func(t *testing.T) {
			j, p := parlour(), parlourPlan()
			c.spoil(j, p)
			if c.rules == "" {
				if v := check.Plan(j, p); v != nil {
					t.Errorf("this is allowed, and breaks %v", v)
				}
				return
			}
			expect(t, j, p, c.rules, c.text)
		})
	}
}

// narrow rips the first row to half a plank. The floor is then 2400 x 500: 1,200,000 mm², and 240,000 are ripped off;
// the room has 2420 x 520 = 1,258,400 mm², 1,384,240 with 10 % added: two boxes.
func narrow(p *cutopt.Plan) {
	rows := p.Floors[0].Rows
	rows[0].To, rows[0].Width = 110*mm, 100*mm
	for i := 1; i < 3; i++ {
		rows[i].From -= 100 * mm
		rows[i].To -= 100 * mm
	}
	p.Floors[0].Axes.Origin.Y = 520 * mm
	const area = measure.Area(mm * mm)
	w := &p.Waste
	w.Net, w.Laid, w.Ripped = 1_258_400*area, 1_200_000*area, 240_000*area
	w.AddedToFloor, w.ShareOfPurchase, w.Afterwards = 100*1_141_600.0/1_258_400, 100*1_141_600.0/2_400_000, 25
	p.Order.ThumbBoxes = 2
}

// jog has the far wall of the parlour 2 mm further out from 1 m from its right end on: a floor of 600 deep is laid all
// the same. It adds 2 x 1000 to the room.
func jog(j *cutopt.Job, p *cutopt.Plan) {
	o := j.Rooms[0].Outline
	j.Rooms[0].Outline = []cutopt.Point{
		o[0], {X: 1420 * mm}, {X: 1420 * mm, Y: -2 * mm}, {X: 2420 * mm, Y: -2 * mm}, o[2], o[3],
	}
	widen(p, 2_000)
}

// sliver has the right wall of the parlour 5 mm further out, and tells of so many slivers of an area in mm². It adds
// 5 x 620 to the room.
func sliver(j *cutopt.Job, p *cutopt.Plan, count int, area measure.Area) {
	j.Rooms[0].Outline[1].X, j.Rooms[0].Outline[2].X = 2425*mm, 2425*mm
	p.Floors[0].Facts = []cutopt.Fact{{
		Kind: cutopt.FactSlivers, Count: count, Most: 6 * mm, Area: area * measure.Area(mm*mm),
	}}
	widen(p, 3_100)
}

// widen adds so many mm² to the net floor.
func widen(p *cutopt.Plan, more measure.Area) {
	w := &p.Waste
	w.Net += more * measure.Area(mm*mm)
	w.AddedToFloor = 100 * float64(w.Bought-w.Net) / float64(w.Net)
	w.ShareOfPurchase = 100 * float64(w.Bought-w.Net) / float64(w.Bought)
}

// split makes two runs of the first: its starter and its whole plank, and its ender as a run of one piece.
func split(p *cutopt.Plan) {
	row := &p.Floors[0].Rows[0]
	pieces := row.Runs[0].Pieces
	row.Runs = []cutopt.PlanRun{
		{From: 10 * mm, To: 1610 * mm, Pieces: pieces[:2]},
		{From: 1610 * mm, To: 2410 * mm, Pieces: pieces[2:]},
	}
	p.Planks[2].Pieces[0] = cutopt.PieceRef{Run: 1}
}

// longStarter mends the figures of a plan whose first starter is 998 long: plank 1 leaves nothing, plank 3 leaves 595
// where both left 594, a kerf is 1 narrower on the plank, and joints of rows 1 and 2 are 202 apart.
func longStarter(p *cutopt.Plan) {
	p.Waste.Offcuts += 200 * measure.Area(mm*mm)
	p.Waste.Kerf -= 200 * measure.Area(mm*mm)
	p.Quality.LeastStagger = 202 * mm
}

// notch saws 30 x 30 mm off the back left corner of the whole plank in row 1 and tells of so much.
func notch(p *cutopt.Piece, long, wide measure.Length) {
	p.Shape = []cutopt.Point{
		{X: 610 * mm, Y: 10 * mm},
		{X: 1610 * mm, Y: 10 * mm},
		{X: 1610 * mm, Y: 210 * mm},
		{X: 640 * mm, Y: 210 * mm},
		{X: 640 * mm, Y: 180 * mm},
		{X: 610 * mm, Y: 180 * mm},
	}
	p.Shaping = []cutopt.Fact{{
		Kind: cutopt.FactNotch, End: cutopt.EndsLeft, Edge: cutopt.EdgesBack,
		Across: 200*mm - wide, Length: long, Width: wide,
	}}
}

func TestRuleNames(t *testing.T) {
	for r := check.RuleJob; r <= check.RuleSite; r++ {
		text, err := r.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		var back check.Rule
		if err := back.UnmarshalText(text); err != nil || back != r {
			t.Errorf("%v reads back as %v, %v", r, back, err)
		}
	}
	if text, err := (check.RuleSite + 1).MarshalText(); err == nil {
		t.Errorf("a rule beyond the last is %s", text)
	}
}
