package check_test

import (
	"context"
	"errors"
	"testing"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
)

// nook is a room of 1220 x 420 whose corner at the start of the right end is cut off at 45 degrees, 200 along each
// wall.
func nook() *cutopt.Job {
	job := parlour()
	job.Spare = cutopt.Spare{}
	job.Rooms = []cutopt.Room{{
		Name: "Nook", Rows: cutopt.RowRules{Start: cutopt.StartFar},
		Outline: []cutopt.Point{
			{},
			{X: 1220 * mm},
			{X: 1220 * mm, Y: 220 * mm},
			{X: 1020 * mm, Y: 420 * mm},
			{Y: 420 * mm},
		},
	}}
	return job
}

// nookPlan lays the nook in two rows from the far wall. In its own axes the cut wall runs from (1020, 0) to (1220,
// 200); its gap moves it by 10 sqrt(2) = 14.142 to the left, to x = 1005.858 + y: from (1015.858, 10) to (1210,
// 204.142).
//
//	row 1: 500 (510) 700, its end sawn to shape  planks 1, 2
//	row 2: 250 (260) 950                         planks 2, 3
//
// Plank 2 gives the ender of 700, a kerf, 44 left, a kerf and the starter of 250.
func nookPlan() *cutopt.Plan {
	const left, right, none = cutopt.EndsLeft, cutopt.EndsRight, cutopt.EndsNone
	cut := measure.Length(325_074)             // 1015.8579 mm in ticks is 325,074.5: rounded towards the floor
	corner := 1210*mm - cut + 10*mm            // where the cut wall's gap meets the right one
	wedge := (1210*mm - cut) * (1210*mm - cut) // twice the area sawn off
	piece := func(plank int, from, to measure.Length, ends cutopt.Ends) cutopt.Piece {
		return cutopt.Piece{Plank: plank, From: from * mm, To: to * mm, Length: (to - from) * mm, Ends: ends}
	}
	run := func(pieces ...cutopt.Piece) []cutopt.PlanRun {
		return []cutopt.PlanRun{{From: 10 * mm, To: 1210 * mm, Pieces: pieces}}
	}
	shaped := piece(2, 510, 1210, left)
	shaped.Shape = []cutopt.Point{
		{
			X: 510 * mm,
			Y: 10 * mm,
		}, {X: cut, Y: 10 * mm}, {X: 1210 * mm, Y: corner}, {X: 1210 * mm, Y: 210 * mm}, {X: 510 * mm, Y: 210 * mm},
	}
	shaped.Shaping = []cutopt.Fact{
		{
			Kind:   cutopt.FactCornerCut,
			End:    cutopt.EndsRight,
			Edge:   cutopt.EdgesFront,
			Length: 1210*mm - cut,
			Width:  corner - 10*mm,
		},
	}
	const area = measure.Area(mm * mm)
	p := &cutopt.Plan{
		Version: cutopt.PlanVersion, Job: "Parlour", Unit: measure.UnitMillimetre,
		Order: cutopt.Order{Planks: 3, Fewest: 3, PlanksPerBox: 4, Boxes: 1, Left: 1, Price: 2500, ThumbBoxes: 1},
		Bound: cutopt.Bound{Planks: 3, Boxes: 1, Proven: true, Settled: true, PlanksProven: true},
		Floors: []cutopt.PlanFloor{{
			Name: "Nook", Axes: cutopt.Axes{Origin: cutopt.Point{Y: 420 * mm}, Mirrored: true},
			Rows: []cutopt.PlanRow{
				{From: 10 * mm, To: 210 * mm, Width: 200 * mm, Runs: run(piece(1, 10, 510, right), shaped)},
				{From: 210 * mm, To: 410 * mm, Width: 200 * mm, Runs: run(piece(2, 10, 260, right), piece(3, 260,
					1210, left))},
			},
		}},
		Planks: []cutopt.PlankUse{
			{
				Number: 1, Pieces: []cutopt.PieceRef{{}}, Cuts: []cutopt.Cut{{At: 497 * mm}},
				Left: []cutopt.Leftover{{To: 497 * mm, Ends: left}},
			},
			{
				Number: 2, Pieces: []cutopt.PieceRef{{Piece: 1}, {Row: 1}}, Cuts: []cutopt.Cut{
					{At: 700 * mm},
					{At: 747 * mm},
				},
				Left: []cutopt.Leftover{{From: 703 * mm, To: 747 * mm, Ends: none}},
			},
			{
				Number: 3, Pieces: []cutopt.PieceRef{{Row: 1, Piece: 1}}, Cuts: []cutopt.Cut{{At: 950 * mm}},
				Left: []cutopt.Leftover{{From: 953 * mm, To: 1000 * mm, Ends: right}},
			},
		},
	}
	// The room has 1220 x 420 - 200 x 200 / 2 = 492,400. Offcuts are 497 + 44 + 47 = 588 long, four kerfs 12.
	w := &p.Waste
	w.Net, w.Bought, w.Offcuts, w.Kerf, w.WholeLeft = 492_400*area, 800_000*area, 588*200*area, 12*200*area,
		200_000*area
	w.Ripped = measure.Area(wedge) / 2
	w.Laid = 480_000*area - w.Ripped
	p.Quality = cutopt.Quality{LongestChain: 1, LeastStagger: 250 * mm, Crosscuts: 4, OffcutsAtOnce: 1}
	w.AddedToFloor, w.ShareOfPurchase = 100*307_600.0/492_400, 100*307_600.0/800_000
	w.Afterwards = 100 * float64(600_000*area-w.Laid) / float64(600_000*area)
	return p
}

func TestCheckShapedPieces(t *testing.T) {
	if v := check.Plan(nook(), nookPlan()); v != nil {
		t.Fatalf("a plan that keeps every rule breaks %v", v)
	}
	ender := func(p *cutopt.Plan) *cutopt.Piece { return &p.Floors[0].Rows[0].Runs[0].Pieces[1] }
	for _, c := range []struct {
		reason string
		spoil  func(*cutopt.Job, *cutopt.Plan)
		rules  string
		text   string
	}{
		{
			"the corner not sawn off", func(_ *cutopt.Job, p *cutopt.Plan) { ender(p).Shape = nil },
			"fact gap inside waste " +
				"waste", "of wall 3; want at least 10 mm",
		},
		{"the corner sawn 1 mm too little", func(_ *cutopt.Job, p *cutopt.Plan) {
			ender(p).Shape[1].X += mm
			ender(p).Shape[2].Y -= mm
		}, "fact gap waste waste", "row 1 run 1 piece 2: gap:"},
		{"the corner sawn 2 mm too much, which the trim hides", func(_ *cutopt.Job, p *cutopt.Plan) {
			ender(p).Shape[1].X -= 2 * mm
			ender(p).Shape[2].Y += 2 * mm
			ender(p).Shaping[0].Length += 2 * mm
			ender(p).Shaping[0].Width += 2 * mm
		}, "waste waste", "areas.ripped"},
		{"and not told of", func(_ *cutopt.Job, p *cutopt.Plan) {
			ender(p).Shape[1].X -= 2 * mm
			ender(p).Shape[2].Y += 2 * mm
		}, "fact waste waste", "want parts that reach as far as its shape lacks"},
		{"the corner sawn 50 mm too much", func(_ *cutopt.Job, p *cutopt.Plan) {
			ender(p).Shape[1].X -= 50 * mm
			ender(p).Shape[2].X -= 50 * mm
		}, "cover fact waste waste", "row 1: cover:"},
		{
			"nothing told of the corner", func(_ *cutopt.Job, p *cutopt.Plan) { ender(p).Shaping = nil }, "fact",
			"0 facts " +
				"tell how to saw it; want a fact for each part",
		},
		{"the corner told at the other edge", func(_ *cutopt.Job,
			p *cutopt.Plan,
		) {
			ender(p).Shaping[0].Edge = cutopt.EdgesBack
		}, "fact", "want none of the piece's own shape"},
		{
			"the corner told 1 mm too long", func(_ *cutopt.Job, p *cutopt.Plan) { ender(p).Shaping[0].Length += mm },
			"fact",
			"want none of the piece's own shape",
		},
		{
			"the corner told half as long", func(_ *cutopt.Job, p *cutopt.Plan) { ender(p).Shaping[0].Length /= 2 },
			"fact",
			"want a fact for each part",
		},
		{"the corner told twice", func(_ *cutopt.Job, p *cutopt.Plan) {
			ender(p).Shaping = append(ender(p).Shaping, ender(p).Shaping[0])
		}, "fact", "want what no other fact takes off already"},
		{"a notch for the corner", func(_ *cutopt.Job, p *cutopt.Plan) {
			f := &ender(p).Shaping[0]
			f.Kind, f.At = cutopt.FactNotch, 700*mm-f.Length
		}, "fact", "want none of the piece's own shape"},
		{"the corner scribed, which is true", func(_ *cutopt.Job, p *cutopt.Plan) {
			f := &ender(p).Shaping[0]
			f.Kind, f.At = cutopt.FactScribe, 700*mm-f.Length
		}, "", ""},
		{"the corner scribed within too much", func(_ *cutopt.Job, p *cutopt.Plan) {
			f := &ender(p).Shaping[0]
			f.Kind, f.At, f.Length = cutopt.FactScribe, 700*mm-f.Length-mm, f.Length+mm
		}, "fact", "want the smallest rectangle"},
		{"a gap for the cut wall alone", func(j *cutopt.Job, _ *cutopt.Plan) {
			j.Rooms[0].WallGaps = map[int]measure.Length{2: 10*mm + measure.Millimetre/10}
		}, "gap", "within 10 mm of wall 3; want at least 10.1 mm"},
		{"areas add up with half a square tick to spare", func(_ *cutopt.Job, p *cutopt.Plan) {
			p.Waste.Laid,
				p.Waste.Ripped = p.Waste.Laid+1, p.Waste.Ripped-1
		}, "", ""},
	} {
		t.Run(c.reason, func(t *testing.T) {
			j, p := nook(), nookPlan()
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

// FuzzCheck edits plans made by hand: whatever they then hold, checking them must not panic, and every violation must
// say something. No plan passes that buys planks which are nowhere.
func FuzzCheck(f *testing.F) {
	f.Add([]byte{}, false)
	f.Add([]byte{7, 0, 1, 0, 0, 0, 0, 0, 0, 0, 40, 0, 2, 0, 0, 0, 0, 0, 0, 0}, false)
	f.Add([]byte{99, 1, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x7f}, true)
	f.Fuzz(func(t *testing.T, edits []byte, shaped bool) {
		job, p := parlour(), parlourPlan()
		if shaped {
			job, p = nook(), nookPlan()
		}
		oracle.Edit(p, edits[:min(len(edits), 100)])
		violations := check.Plan(job, p)
		for _, v := range violations {
			if v.Finding.Kind == "" {
				t.Errorf("a violation that says nothing: %v", v)
			}
		}
		if p.Order.Planks > len(p.Planks) && violations == nil {
			t.Error("planks that are nowhere are bought")
		}
	})
}

// A check that is cut short tells nothing of the plan, and the context's error.
func TestPlanContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	if v, err := check.PlanContext(ctx, parlour(), parlourPlan()); v != nil || err != nil {
		t.Errorf("%v, %v", v, err)
	}
	cancel()
	p := parlourPlan()
	p.Order.Boxes = 7
	if v, err := check.PlanContext(ctx, parlour(), p); v != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("cut short: %v, %v", v, err)
	}
}

// TestCrowdedRow: of pieces by the thousand that lie in one place, or each a tick farther than the one before, one
// overlap is told, without measuring them all: that takes memory in proportion to the square of them.
func TestCrowdedRow(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	for _, by := range []measure.Length{0, 1} {
		job, plan := parlour(), parlourPlan()
		row := &plan.Floors[0].Rows[1]
		piece := row.Runs[0].Pieces[0]
		row.Runs = nil
		for range 5_000 {
			piece.From, piece.To = piece.From+by, piece.To+by
			row.Runs = append(row.Runs, cutopt.PlanRun{From: piece.From, To: piece.To, Pieces: []cutopt.Piece{piece}})
		}
		broken, err := check.PlanContext(ctx, job, plan)
		if err != nil {
			t.Fatal(err)
		}
		overlaps := 0
		for _, v := range broken {
			if v.Rule == check.RuleOverlap {
				overlaps++
				if v.Row != 2 || v.Run < 2 {
					t.Errorf("%v: the piece is in the first of the runs, or in none", v)
				}
			}
		}
		if overlaps != 1 {
			t.Errorf("%d overlaps are told of pieces %d ticks apart, want the first alone", overlaps, by)
		}
	}
}
