package check_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/planfile"
)

// A layer lays plain rectangles the plainest way: starters drawn at random until they keep the rules, a plank of its
// own for each whole plank, and an ender and a starter on one plank where they happen to fit.
type layer struct {
	job  *cutopt.Job
	plan *cutopt.Plan
}

// layRectangle lays the one room of a job, which has its corners as [rectangle] gives them from (0, 0), and whose floor
// is rows planks deep. It returns nil where no starters are found.
func layRectangle(job *cutopt.Job, rows int, r *rand.Rand) *cutopt.Plan {
	outline := job.Rooms[0].Outline
	wide, deep := outline[2].X, outline[2].Y
	l := &layer{job: job, plan: &cutopt.Plan{
		Version: cutopt.PlanVersion, Job: job.Name, Unit: job.Unit,
		Floors: []cutopt.PlanFloor{{
			Name: job.Rooms[0].Name, LaidFrom: job.LaidFrom(job.Rooms[0].Rows), Axes: cutopt.Axes{
				Origin:   cutopt.Point{Y: deep},
				Mirrored: true,
			},
		}},
	}}
	var before []measure.Length
	for i := range rows {
		from := job.Rules.Gap + measure.Length(i)*job.Plank.Width
		row := cutopt.PlanRow{From: from, To: from + job.Plank.Width, Width: job.Plank.Width}
		pieces, joints := l.starter(before, wide, r)
		if pieces == nil {
			return nil
		}
		row.Runs = []cutopt.PlanRun{{From: job.Rules.Gap, To: wide - job.Rules.Gap, Pieces: pieces}}
		l.plan.Floors[0].Rows = append(l.plan.Floors[0].Rows, row)
		before = joints
	}
	l.cut()
	l.figures()
	l.plan.Quality = oracle.Quality(job, l.plan)
	return l.plan
}

// starter draws a row of pieces whose joints keep their distance from those of the row before.
func (l *layer) starter(before []measure.Length, wide measure.Length, r *rand.Rand) ([]cutopt.Piece, []measure.Length) {
	rules, plank := l.job.Rules, l.job.Plank.Length
	from, length := rules.Gap, wide-2*rules.Gap
	for range 200 {
		// The piece laid first is on the grid: the left one, or else the right one.
		first := rules.Grid * measure.Length(1+r.Int64N(int64(plank/rules.Grid)))
		if first == plank-plank%rules.Grid && plank%rules.Grid != 0 {
			continue
		}
		last := (length - first) % plank
		if last == 0 {
			last = plank
		}
		if first > plank || first < rules.MinPiece || last < rules.MinPiece || first+last > length {
			continue
		}
		s := first
		if l.job.Rooms[0].Rows.LaidFrom == cutopt.FromRight {
			s = last
		}
		var joints []measure.Length
		pieces := []cutopt.Piece{{From: from, To: from + s, Length: s, Ends: cutopt.EndsRight}}
		for x := from + s; x < from+length; {
			joints = append(joints, x)
			to := min(x+plank, from+length)
			pieces = append(pieces, cutopt.Piece{From: x, To: to, Length: to - x, Ends: cutopt.EndsLeft})
			x = to
		}
		for i := range pieces {
			if pieces[i].Length == plank {
				pieces[i].Ends = cutopt.EndsBoth
			}
		}
		clash := slices.ContainsFunc(joints, func(x measure.Length) bool {
			return slices.ContainsFunc(before, func(y measure.Length) bool { return max(x-y, y-x) < rules.Stagger })
		})
		if !clash {
			return pieces, joints
		}
	}
	return nil, nil
}

// cut cuts the pieces from planks. An ender waits for a starter that fits beside it.
func (l *layer) cut() {
	plank, kerf := l.job.Plank.Length, l.job.Rules.Kerf
	p := l.plan
	waiting := -1 // number of a plank with an ender alone
	for i := range p.Floors[0].Rows {
		pieces := p.Floors[0].Rows[i].Runs[0].Pieces
		for m := range pieces {
			piece := &pieces[m]
			ref := cutopt.PieceRef{Row: i, Piece: m}
			if piece.Ends == cutopt.EndsRight && waiting > 0 {
				use := &p.Planks[waiting-1]
				if left := use.Left[0]; left.To-left.From >= piece.Length {
					piece.Plank = waiting
					use.Pieces = append(use.Pieces, ref)
					use.Left = l.between(left.From, plank-piece.Length, use)
					waiting = -1
					continue
				}
			}
			use := cutopt.PlankUse{Number: len(p.Planks) + 1, Pieces: []cutopt.PieceRef{ref}}
			piece.Plank = use.Number
			switch piece.Ends {
			case cutopt.EndsRight:
				use.Cuts = []cutopt.Cut{{At: plank - piece.Length - kerf}}
				if left := plank - piece.Length - kerf; left > 0 {
					use.Left = []cutopt.Leftover{{To: left, Ends: cutopt.EndsLeft}}
				}
			case cutopt.EndsLeft:
				use.Cuts = []cutopt.Cut{{At: piece.Length}}
				if at := piece.Length + kerf; at < plank {
					use.Left = []cutopt.Leftover{{From: at, To: plank, Ends: cutopt.EndsRight}}
					waiting = use.Number
				}
			}
			p.Planks = append(p.Planks, use)
		}
	}
}

// between returns what is left between an ender's kerf and a starter, and adds the cut before the starter where there
// is one.
func (l *layer) between(from, to measure.Length, use *cutopt.PlankUse) []cutopt.Leftover {
	if to == from {
		return nil // the ender's kerf is the starter's
	}
	at := to - l.job.Rules.Kerf
	use.Cuts = append(use.Cuts, cutopt.Cut{At: at})
	if at <= from {
		return nil
	}
	return []cutopt.Leftover{{From: from, To: at}}
}

// figures adds up the order and the waste.
func (l *layer) figures() {
	p, job := l.plan, l.job
	n, per := len(p.Planks), job.Box.Planks
	kept := oracle.Kept(job.Spare, n, per)
	boxes := (n + kept + per - 1) / per
	one := measure.Area(job.Plank.Length * job.Plank.Width)
	w := &p.Waste
	outline := job.Rooms[0].Outline
	w.Net, w.Bought = measure.Area(outline[2].X*outline[2].Y), measure.Area(boxes*per)*one
	w.WholeLeft = measure.Area(boxes*per-n) * one
	for _, row := range p.Floors[0].Rows {
		w.Laid += measure.Area((row.Runs[0].To - row.Runs[0].From) * row.Width)
	}
	for _, use := range p.Planks {
		for _, o := range use.Left {
			w.Offcuts += measure.Area((o.To - o.From) * job.Plank.Width)
		}
	}
	w.Kerf = w.Bought - w.WholeLeft - w.Laid - w.Offcuts
	w.AddedToFloor = float64(w.Bought-w.Net) / float64(w.Net) * 100
	w.ShareOfPurchase = float64(w.Bought-w.Net) / float64(w.Bought) * 100
	used := measure.Area(n) * one
	w.Afterwards = float64(used-w.Laid) / float64(used) * 100
	thumb := (w.Net*11 + one*measure.Area(per)*10 - 1) / (one * measure.Area(per) * 10)
	p.Order = cutopt.Order{
		Planks: n, Fewest: n, PlanksPerBox: per, Boxes: boxes, Left: boxes*per - n,
		Kept: kept, Price: cutopt.Money(boxes) * job.Box.Price,
		ThumbBoxes: int(thumb),
	}
	p.Bound = cutopt.Bound{Planks: n, Boxes: boxes, Proven: true, Settled: true, PlanksProven: true}
}

// randomJob is a rectangle whose floor is a whole number of rows deep.
func randomJob(r *rand.Rand, unit measure.Unit) (*cutopt.Job, int) {
	u := unit.Size()
	if unit == measure.UnitInch {
		u /= 16
	}
	length := func(low, high int64) measure.Length { return u * measure.Length(low+r.Int64N(high-low+1)) }
	job := &cutopt.Job{
		Name: "Barn", Unit: unit, Spare: []cutopt.Spare{{}, {Planks: 3}, {Percent: 2.5}, {BoxPer: 2}}[r.IntN(4)],
		Plank: cutopt.Plank{Length: length(600, 1300), Width: length(90, 230)},
		Box:   cutopt.Box{Planks: 1 + r.IntN(12), Price: cutopt.Money(r.IntN(10_000))},
		Rules: cutopt.Rules{
			Gap: length(
				0,
				15,
			),
			MinPiece:       length(50, 200),
			Stagger:        length(0, 150),
			Kerf:           length(0, 4),
			Grid:           length(1, 5),
			Cover:          length(0, 10),
			Smooth:         length(0, 5),
			WasteAllowance: 10,
		},
	}
	rows := 1 + r.IntN(9)
	deep := job.Plank.Width*measure.Length(rows) + 2*job.Rules.Gap
	wide := 2*job.Plank.Length + length(0, 3000)
	job.Rooms = []cutopt.Room{{
		Name: "Barn", Outline: []cutopt.Point{{}, {X: wide}, {X: wide, Y: deep}, {Y: deep}},
		Rows: cutopt.RowRules{LaidFrom: cutopt.FromLeft + cutopt.From(r.IntN(2)), Start: cutopt.StartFar},
	}}
	return job, rows
}

// TestCheckRandomPlans lays random rectangles. Each plan passes; with any one thing changed it does not.
func TestCheckRandomPlans(t *testing.T) {
	const jobs, changes = 250, 12
	laid := 0
	for seed := range uint64(jobs) {
		r := rand.New(rand.NewPCG(seed, 2))
		unit := measure.UnitMillimetre
		if seed%2 == 1 {
			unit = measure.UnitInch
		}
		job, rows := randomJob(r, unit)
		plan := layRectangle(job, rows, r)
		if plan == nil {
			continue
		}
		laid++
		if v := check.Plan(job, plan); v != nil {
			t.Fatalf("seed %d: a plan that keeps every rule breaks %v", seed, v)
		}
		for range changes {
			q := oracle.Clone(t, plan)
			if what := oracle.Spoil(q, r); check.Plan(job, q) == nil {
				t.Fatalf("seed %d: %s, and nothing was found", seed, what)
			}
		}
	}
	if laid < jobs/2 {
		t.Errorf("only %d of %d jobs were laid", laid, jobs)
	}
}

// BenchmarkCheck checks halls of 25 m with many rows.
func BenchmarkCheck(b *testing.B) {
	for _, rows := range []int{50, 500, 5000} {
		job := parlour()
		job.Plank.Width = 100 * mm
		deep := measure.Length(rows)*100*mm + 20*mm
		job.Rooms[0].Outline = []cutopt.Point{{}, {X: 25_020 * mm}, {X: 25_020 * mm, Y: deep}, {Y: deep}}
		job.Rules.Grid = 50 * mm
		if deep > 25_020*mm {
			job.Rooms[0].Rows = cutopt.RowRules{Direction: cutopt.DirectionAcross}
		}
		plan := layRectangle(job, rows, rand.New(rand.NewPCG(1, 3)))
		if plan == nil {
			b.Fatal("no starters were found")
		}
		b.Run(fmt.Sprintf("rows=%d", rows), func(b *testing.B) {
			for b.Loop() {
				if v := check.Plan(job, plan); v != nil {
					b.Fatal(v[0])
				}
			}
		})
	}
}

func BenchmarkPlanFile(b *testing.B) {
	job := parlour()
	deep := measure.Length(500)*200*mm + 20*mm
	job.Rooms[0].Outline = []cutopt.Point{{}, {X: 25_020 * mm}, {X: 25_020 * mm, Y: deep}, {Y: deep}}
	job.Rules.Grid = 50 * mm
	data := oracle.Encode(b, layRectangle(job, 500, rand.New(rand.NewPCG(1, 3))))
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := planfile.Decode(bytes.NewReader(data)); err != nil {
			b.Fatal(err)
		}
	}
}
