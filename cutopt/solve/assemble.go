package solve

import (
	"math/big"
	"slices"
	"strconv"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// assembler builds a plan from a layout and its cutting.
type assembler struct {
	*problem
	floor *floorplan
	plan  *cutopt.Plan
	slack measure.Length // of all offcuts that are laid as they come
}

// assemble lays the pieces of a floor into the rooms and numbers its planks.
func (p *problem) assemble(floor *floorplan, bound cutopt.Bound) *cutopt.Plan {
	a := &assembler{problem: p, floor: floor, plan: &cutopt.Plan{
		Version: cutopt.PlanVersion, Job: p.job.Name, Unit: p.job.Unit, Bound: bound,
		Quality: quality.Measure(p.qualities(), floor.layout, floor.cutting),
	}}
	a.rooms()
	a.pieces()
	a.ends()
	a.strips()
	a.asTheyCome()
	a.planks()
	a.order()
	return a.plan
}

// rooms copies the rows and runs.
func (a *assembler) rooms() {
	a.plan.Breaks = slices.Clone(a.breaks)
	for i, f := range a.floors {
		room := cutopt.PlanFloor{
			Name: f.Name, Axes: cutopt.Axes{Origin: f.Origin, Turn: f.Turn, Mirrored: f.Mirrored},
			LaidFrom: f.LaidFrom, Facts: slices.Clone(f.Facts),
		}
		for _, r := range f.Rows {
			row := cutopt.PlanRow{From: r.From, To: r.To, Width: r.To - r.From}
			for _, run := range r.Runs {
				row.Runs = append(row.Runs, cutopt.PlanRun{From: run.From, To: run.To})
			}
			room.Rows = append(room.Rows, row)
		}
		if a.fields[i].Parts > 1 {
			room.Field = a.fields[i].Part
		}
		a.plan.Floors = append(a.plan.Floors, room)
	}
}

// ends tells of the breaks at which fields end.
func (a *assembler) ends() {
	for i := range a.fields {
		var ends []int
		for k := range a.fields[i].Rooms {
			ends = append(ends, a.fields[i].Rooms[k].Ends...)
		}
		slices.Sort(ends)
		for _, n := range slices.Compact(ends) {
			floor := &a.plan.Floors[i]
			floor.Facts = append(floor.Facts, a.plan.Breaks[n].Fact())
		}
	}
}

// sources are the planks that a cutting takes the pieces of each run from, one for each piece in the order laid.
type sources map[source][]int

type source struct {
	run  int
	role rows.Role
}

// note adds the number of a plank for each of the parts cut from it.
func (f sources) note(number int, parts []rows.Part) {
	for _, p := range parts {
		s := source{p.Run, p.Role}
		f[s] = append(f[s], number)
	}
}

// next takes the plank of the next piece.
func (f sources) next(run int, role rows.Role) int {
	s := source{run, role}
	number := f[s][0]
	f[s] = f[s][1:]
	return number
}

// pieces lays every run, each piece from the next plank that the cutting gives it.
func (a *assembler) pieces() {
	from := make(sources)
	for n, parts := range a.floor.cutting.Planks {
		from.note(n+1, parts)
	}
	for i, at := range a.places {
		a.layRun(i, 0, a.floor.layout[i], from)
		if at.mirrored {
			slices.Reverse(a.plan.Floors[at.room].Rows[at.row].Runs[at.run].Pieces)
		}
	}
}

// layRun lays run i on from x, in the order laid: from its beginning with a starter, or in one piece where that is 0,
// and from a joint with whole planks and the ender.
func (a *assembler) layRun(i int, x, starter measure.Length, from sources) {
	at := a.places[i]
	run := &a.plan.Floors[at.room].Rows[at.row].Runs[at.run]
	l, length := a.job.Plank.Length, run.To-run.From
	most := (length - x - starter + l - 1) / l // pieces, but for the starter
	run.Pieces = slices.Grow(run.Pieces, int(most)+1)
	lay := func(role rows.Role, size measure.Length, ends cutopt.Ends) {
		piece := cutopt.Piece{
			Plank: from.next(i, role), From: run.From + x, To: run.From + x + size, Length: size, Ends: ends,
		}
		if size == l {
			piece.Ends = cutopt.EndsBoth
		}
		if at.mirrored {
			piece.From, piece.To = run.To-x-size, run.To-x
			piece.Ends = mirrored(piece.Ends)
		}
		a.shape(&piece, at)
		run.Pieces = append(run.Pieces, piece)
		x += size
	}
	switch {
	case x == 0 && starter == 0:
		lay(rows.RoleSingle, length, cutopt.EndsNone)
		return
	case x == 0:
		lay(rows.RoleStarter, starter, cutopt.EndsRight)
	}
	for length-x > l {
		lay(rows.RoleField, l, cutopt.EndsBoth)
	}
	lay(rows.RoleEnder, length-x, cutopt.EndsLeft)
}

// mirrored exchanges left and right.
func mirrored(e cutopt.Ends) cutopt.Ends { return e&1<<1 | e>>1 }

// shape records how a piece differs from the full rectangle of its row, and counts what of it is laid.
func (a *assembler) shape(p *cutopt.Piece, at place) {
	f := a.floors[at.room]
	shape, area := f.Clip(at.row, at.run, p.From, p.To)
	if shape != nil {
		p.Shape = shape
		p.Shaping = f.Shaping(at.row, at.run, p.From, p.To)
	}
	a.plan.Waste.Laid += area
}

// strips tells of edge rows that are narrower than asked, where they are narrowest, of the pieces that have a strip
// which is hard to hold, with the narrowest of each, and of narrow rows in doorways.
func (a *assembler) strips() {
	rules := &a.job.Rules
	for r, f := range a.floors {
		floor := &a.plan.Floors[r]
		edges := cutopt.Fact{
			Kind:  cutopt.FactEdgeForced,
			First: a.job.Plank.Width,
			Last:  a.job.Plank.Width,
			Least: a.job.LeastRip(),
		}
		if a.fields[r].lie.FirstRow > 0 {
			edges.Kind = cutopt.FactEdgeAsked
		}
		var strips []cutopt.Fact
		for i := range floor.Rows {
			for k := range floor.Rows[i].Runs {
				for m := range floor.Rows[i].Runs[k].Pieces {
					p := &floor.Rows[i].Runs[k].Pieces[m]
					first, last := f.EdgeWidths(i, k, p.From, p.To)
					edges.First, edges.Last = min(edges.First, first), min(edges.Last, last)
					if found := f.Strips(i, k, p.From, p.To, rules.MinStrip); len(found) > 0 {
						s := &found[0]
						strips = append(strips, cutopt.Fact{
							Kind: cutopt.FactStrip, Row: i + 1, Run: k + 1, Piece: m + 1, At: s.At, Across: s.Across,
							Length: s.Length,
							Width:  s.Width,
							Least:  rules.MinStrip,
						})
					}
				}
			}
		}
		if min(edges.First, edges.Last) < edges.Least {
			floor.Facts = append(floor.Facts, edges)
		}
		floor.Facts = append(floor.Facts, strips...)
		least := a.job.LeastDoorwayRow()
		for i := range floor.Rows {
			if w := floor.Rows[i].To - floor.Rows[i].From; w >= rules.MinStrip && w < least && f.InDoorways(i) {
				floor.Facts = append(floor.Facts, cutopt.Fact{
					Kind: cutopt.FactDoorwayRow, Row: i + 1, Width: w, Least: least,
				})
			}
		}
	}
}

// thumb returns the boxes that the rule of thumb buys for a floor: its area and the allowance, by the area that the
// label says a box covers, or else by that of its planks.
func thumb(job *cutopt.Job, net, planks measure.Area) int {
	box := planks
	if job.Box.Covers > 0 {
		box = job.Box.Covers
	}
	need, _ := new(big.Rat).SetString(strconv.FormatFloat(job.Rules.WasteAllowance, 'f', -1, 64))
	need.Add(need, big.NewRat(100, 1))
	need.Mul(need, big.NewRat(int64(net), 100))
	need.Quo(need, big.NewRat(int64(box), 1))
	boxes, rest := new(big.Int).DivMod(need.Num(), need.Denom(), new(big.Int))
	return int(boxes.Int64()) + rest.Sign()
}

// order counts planks, boxes, money and waste.
func (a *assembler) order() {
	job, plan := a.job, a.plan
	per := a.terms.PerBox
	plank := measure.Area(job.Plank.Length) * measure.Area(job.Plank.Width)
	planks := len(plan.Planks)
	boxes := a.terms.Boxes(planks)
	w := &plan.Waste
	w.Net = a.net
	plan.Order = cutopt.Order{
		Planks: planks, PlanksPerBox: per, Boxes: boxes, Left: boxes*per - planks,
		Kept: a.terms.Kept(planks), Reserve: a.terms.Reserve(planks), Price: cutopt.Money(boxes) * a.terms.Price,
		Fewest: min(
			a.floor.least,
			planks,
		), Loss: job.Rules.Loss, RiskLimit: job.Rules.RiskLimit, Risk: a.terms.Risk(planks, boxes),
		ThumbBoxes: thumb(job, w.Net, plank*measure.Area(per)),
	}
	var pieces measure.Area
	for p := range plan.Pieces() {
		pieces += measure.Area(p.Length) * measure.Area(job.Plank.Width)
	}
	for _, use := range plan.Planks {
		for _, o := range use.Left {
			w.Offcuts += measure.Area(o.To-o.From) * measure.Area(job.Plank.Width)
		}
	}
	w.Offcuts += measure.Area(a.slack) * measure.Area(job.Plank.Width)
	w.Bought = measure.Area(boxes*per) * plank
	w.WholeLeft = measure.Area(plan.Order.Left) * plank
	w.Ripped = pieces - w.Laid
	used := measure.Area(planks) * plank
	w.Kerf = used - pieces - w.Offcuts
	w.AddedToFloor = (w.Bought - w.Net).PercentOf(w.Net)
	w.ShareOfPurchase = (w.Bought - w.Net).PercentOf(w.Bought)
	w.Afterwards = (used - w.Laid).PercentOf(used)
}
