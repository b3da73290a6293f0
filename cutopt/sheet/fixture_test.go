package sheet_test

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
)

const inch = measure.Inch

// rect is a rectangle in a room's drawing, y upwards, in inches.
func rect(x0, y0, x1, y1 float64) []cutopt.Point {
	at := func(v float64) measure.Length { return measure.Length(v * float64(inch)) }
	return []cutopt.Point{{X: at(x0), Y: at(y0)}, {X: at(x1), Y: at(y0)}, {X: at(x1), Y: at(y1)}, {X: at(x0), Y: at(y1)}}
}

// jobOf returns a job of 48 x 7 in planks for rooms of the scenario.
func jobOf(name string, rooms ...cutopt.Room) *cutopt.Job {
	return &cutopt.Job{
		Name: name, Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * inch, Width: 7 * inch},
		Box: cutopt.Box{Planks: 8, Price: 4990}, Rules: oracle.Rules(measure.UnitInch), Rooms: rooms,
	}
}

// denJob is a plain room of 14' 6" x 11' 2" with a doorway in its far wall.
func denJob() *cutopt.Job {
	return jobOf("Wren Cottage", cutopt.Room{
		Name: "Den", Outline: rect(0, 0, 174, 134),
		Doorways: []cutopt.Doorway{
			{Name: "Hall door", Wall: 0, At: 20 * inch, Width: 32 * inch, Depth: 3 * inch, To: "Hall"},
		},
	})
}

// kitchenJob is a room with an island in it.
func kitchenJob() *cutopt.Job {
	return jobOf("Wren Cottage", cutopt.Room{
		Name: "Kitchen", Outline: rect(0, 0, 196, 158),
		Islands: []cutopt.Island{{Name: "Island", Outline: rect(60, 60, 120, 90)}},
		Doorways: []cutopt.Doorway{
			{Name: "Garden door", Wall: 1, At: 40 * inch, Width: 36 * inch, Depth: 4 * inch, Casing: cutopt.CasingMetal},
		},
	})
}

// snugJob is a small metric room with a corner cut off at 45 degrees and a pipe in its way.
func snugJob() *cutopt.Job {
	const mm = measure.Millimetre
	at := func(x, y measure.Length) cutopt.Point { return cutopt.Point{X: x * mm, Y: y * mm} }
	return &cutopt.Job{
		Name: "Heron Loft", Unit: measure.UnitMillimetre, Plank: cutopt.Plank{
			Name: "Ash Grey", Length: 1220 * mm,
			Width: 180 * mm,
		},
		Box: cutopt.Box{Planks: 6}, Rules: oracle.Rules(measure.UnitMillimetre), Spare: cutopt.Spare{Planks: 1},
		Rooms: []cutopt.Room{{Name: "Snug", Outline: []cutopt.Point{at(0, 0), at(2900, 0), at(2900, 1900), at(0, 1900)}}},
	}
}

// planOf lays out a scene; in the snug it notches a piece and cuts another at an angle, as its pipe and corner want it.
func planOf(name string, job *cutopt.Job) *cutopt.Plan {
	plan := layOut(job)
	if name != "snug" {
		return plan
	}
	const mm = measure.Millimetre
	rows := plan.Floors[0].Rows
	p, row := &rows[2].Runs[0].Pieces[1], &rows[2]
	a, b := p.From+300*mm, p.From+380*mm
	p.Shape = []cutopt.Point{
		{X: p.From, Y: row.From},
		{X: a, Y: row.From},
		{X: a, Y: row.From + 60*mm},
		{X: b, Y: row.From + 60*mm},
		{X: b, Y: row.From},
		{X: p.To, Y: row.From},
		{X: p.To, Y: row.To},
		{X: p.From, Y: row.To},
	}
	p.Shaping = []cutopt.Fact{
		{Kind: cutopt.FactNotch, Edge: cutopt.EdgesFront, At: 300 * mm, Length: 80 * mm, Width: 60 * mm},
	}
	last := len(rows) - 1
	e := &rows[last].Runs[0].Pieces[len(rows[last].Runs[0].Pieces)-1]
	e.Shape = []cutopt.Point{
		{X: e.From, Y: rows[last].From},
		{X: e.To, Y: rows[last].From},
		{X: e.To, Y: rows[last].To - 90*mm},
		{X: e.To - 90*mm, Y: rows[last].To},
		{X: e.From, Y: rows[last].To},
	}
	e.Shaping = []cutopt.Fact{
		{Kind: cutopt.FactCornerCut, End: cutopt.EndsRight, Edge: cutopt.EdgesBack, Length: 90 * mm, Width: 90 * mm},
	}
	plan.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactJogs, Count: 1, Most: 2 * mm}}
	return plan
}

// layOut lays the rooms of a job in the plainest way that keeps the hands of the ends: every offcut that can start a
// row does. It knows rectangles only; it is a fixture, and no plan of Solve.
func layOut(job *cutopt.Job) *cutopt.Plan {
	f := &fixture{job: job, plan: &cutopt.Plan{Version: cutopt.PlanVersion, Job: job.Name, Unit: job.Unit}}
	for i := range job.Rooms {
		f.room(i)
	}
	f.finish()
	return f.plan
}

type fixture struct {
	job  *cutopt.Job
	plan *cutopt.Plan
	pool []int // planks whose right end is still whole
	left []measure.Length
}

func (f *fixture) room(i int) {
	r, rules, plank := &f.job.Rooms[i], f.job.Rules, f.job.Plank
	w, h := r.Outline[2].X, r.Outline[2].Y
	room := cutopt.PlanFloor{Name: r.Name, Axes: cutopt.Axes{Origin: cutopt.Point{Y: h}, Mirrored: true}}
	f.plan.Floors = append(f.plan.Floors, room)
	deep := h - 2*rules.Gap
	n := (deep + plank.Width - 1) / plank.Width
	edge := (deep - (n-2)*plank.Width) / 2
	y := rules.Gap
	for j := range n {
		to := y + plank.Width
		switch j {
		case 0:
			to = y + edge
		case n - 1:
			to = h - rules.Gap
		}
		row := cutopt.PlanRow{From: y, To: to, Width: to - y}
		f.plan.Floors[i].Rows = append(f.plan.Floors[i].Rows, row)
		from := rules.Gap
		for _, island := range r.Islands {
			o := island.Outline
			if h-o[2].Y-rules.Gap < to && h-o[0].Y+rules.Gap > y {
				f.run(i, int(j), from, o[0].X-rules.Gap)
				from = o[2].X + rules.Gap
			}
		}
		f.run(i, int(j), from, w-rules.Gap)
		y = to
	}
}

func (f *fixture) run(i, j int, from, to measure.Length) {
	row := &f.plan.Floors[i].Rows[j]
	row.Runs = append(row.Runs, cutopt.PlanRun{From: from, To: to})
	k, l, w := len(row.Runs)-1, f.job.Plank.Length, to-from
	add := func(plank int, length measure.Length, ends cutopt.Ends) cutopt.PieceRef {
		run := &row.Runs[k]
		run.Pieces = append(run.Pieces, cutopt.Piece{Plank: plank, From: from, To: from + length, Length: length, Ends: ends})
		from += length
		return cutopt.PieceRef{Floor: i, Row: j, Run: k, Piece: len(run.Pieces) - 1}
	}
	if w <= l {
		n := f.open(l - w - f.job.Rules.Kerf)
		f.front(n, add(n, w, cutopt.EndsLeft))
		return
	}
	starter := []measure.Length{24, 34, 14, 44, 20, 30}[j%6] * 508 * measure.Millimetre / 20 // inches, in either system
	ends := func(s measure.Length) measure.Length { return w - s - (w-s-1)/l*l }
	at := slices.IndexFunc(f.pool, func(p int) bool {
		s := f.left[p-1].Floor(f.job.Rules.Grid)
		return s >= f.job.Rules.MinPiece && ends(s) >= f.job.Rules.MinPiece
	})
	if at >= 0 {
		n := f.pool[at]
		f.pool = slices.Delete(f.pool, at, at+1)
		starter = f.left[n-1].Floor(f.job.Rules.Grid)
		f.left[n-1] -= starter
		f.back(n, add(n, starter, cutopt.EndsRight))
	} else {
		for ends(starter) < f.job.Rules.MinPiece {
			starter += 100 * measure.Millimetre
		}
		n := f.open(l - starter)
		f.pool = f.pool[:len(f.pool)-1]
		f.back(n, add(n, starter, cutopt.EndsRight))
	}
	for to-from >= l {
		n := f.open(0)
		f.front(n, add(n, l, cutopt.EndsBoth))
	}
	if rest := to - from; rest > 0 {
		n := f.open(l - rest - f.job.Rules.Kerf)
		f.front(n, add(n, rest, cutopt.EndsLeft))
	}
}

// open takes a new plank, with so much left on its right end when the coming piece is sawn off.
func (f *fixture) open(left measure.Length) int {
	n := len(f.plan.Planks) + 1
	f.plan.Planks = append(f.plan.Planks, cutopt.PlankUse{Number: n})
	f.left, f.pool = append(f.left, left), append(f.pool, n)
	return n
}

func (f *fixture) front(n int, ref cutopt.PieceRef) {
	f.plan.Planks[n-1].Pieces = slices.Insert(f.plan.Planks[n-1].Pieces, 0, ref)
}

func (f *fixture) back(n int, ref cutopt.PieceRef) {
	f.plan.Planks[n-1].Pieces = append(f.plan.Planks[n-1].Pieces, ref)
}

// finish records the cuts and offcuts of the planks and the order.
func (f *fixture) finish() {
	l, kerf := f.job.Plank.Length, f.job.Rules.Kerf
	for i := range f.plan.Planks {
		use := &f.plan.Planks[i]
		at := measure.Length(0)
		for _, ref := range use.Pieces {
			p := f.plan.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run].Pieces[ref.Piece]
			if p.Ends == cutopt.EndsRight && p.Length < l {
				if gap := l - p.Length - kerf; gap > at {
					ends := cutopt.EndsNone
					if at == 0 {
						ends = cutopt.EndsLeft
					}
					use.Left = append(use.Left, cutopt.Leftover{From: at, To: gap, Ends: ends})
					use.Cuts = append(use.Cuts, cutopt.Cut{At: gap})
				}
				at = l
				continue
			}
			at += p.Length
			if at < l {
				use.Cuts = append(use.Cuts, cutopt.Cut{At: at})
				at += kerf
			}
		}
		if at < l {
			use.Left = append(use.Left, cutopt.Leftover{From: at, To: l, Ends: cutopt.EndsRight})
		}
	}
	o := &f.plan.Order
	o.Planks, o.PlanksPerBox = len(f.plan.Planks), f.job.Box.Planks
	o.Boxes, o.Kept = f.job.Spare.Boxes(o.Planks, o.PlanksPerBox), f.job.Spare.Kept(o.Planks, o.PlanksPerBox)
	o.Left, o.Price = o.Boxes*o.PlanksPerBox-o.Planks, cutopt.Money(o.Boxes)*f.job.Box.Price
	o.ThumbBoxes = o.Boxes + 1
	f.plan.Bound = cutopt.Bound{Planks: o.Planks, Boxes: o.Boxes, Proven: true, Settled: true, PlanksProven: true}
	f.plan.Waste = cutopt.Waste{AddedToFloor: 7.5, ShareOfPurchase: 7, Afterwards: 3.25}
}
