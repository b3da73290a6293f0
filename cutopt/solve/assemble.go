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
			room := &a.plan.Floors[i]
			room.Facts = append(room.Facts, a.plan.Breaks[n].Fact())
		}
	}
}

// pieces lays every run, each piece from the next plank that the cutting gives it.
func (a *assembler) pieces() {
	type source struct {
		run  int
		kind rows.Role
	}
	from := make(map[source][]int)
	for n, parts := range a.floor.cutting.Planks {
		for _, p := range parts {
			s := source{p.Run, p.Role}
			from[s] = append(from[s], n+1)
		}
	}
	l := a.job.Plank.Length
	for i, at := range a.places {
		run := &a.plan.Floors[at.room].Rows[at.row].Runs[at.run]
		length := run.To - run.From
		x := measure.Length(0)
		lay := func(kind rows.Role, size measure.Length, ends cutopt.Ends) {
			s := source{i, kind}
			piece := cutopt.Piece{
				Plank: from[s][0], From: run.From + x, To: run.From + x + size, Length: size,
				Ends: ends,
			}
			from[s] = from[s][1:]
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
		if s := a.floor.layout[i]; s == 0 {
			lay(rows.RoleSingle, length, cutopt.EndsNone)
		} else {
			lay(rows.RoleStarter, s, cutopt.EndsRight)
			for length-x > l {
				lay(rows.RoleField, l, cutopt.EndsBoth)
			}
			lay(rows.RoleEnder, length-x, cutopt.EndsLeft)
		}
		if at.mirrored {
			slices.Reverse(run.Pieces)
		}
	}
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

// strips tells of edge rows that are narrower than asked, where they are narrowest, and of the pieces that have a strip
// which is hard to hold, with the narrowest of each.
func (a *assembler) strips() {
	rules := &a.job.Rules
	for r, f := range a.floors {
		room := &a.plan.Floors[r]
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
		for i := range room.Rows {
			for k := range room.Rows[i].Runs {
				for m := range room.Rows[i].Runs[k].Pieces {
					p := &room.Rows[i].Runs[k].Pieces[m]
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
			room.Facts = append(room.Facts, edges)
		}
		room.Facts = append(room.Facts, strips...)
	}
}

// planks records how every plank is cut. Pieces are referred to by the plank number they carry.
func (a *assembler) planks() {
	refs := make([][]cutopt.PieceRef, len(a.floor.cutting.Planks))
	for r, room := range a.plan.Floors {
		for w, row := range room.Rows {
			for u, run := range row.Runs {
				for p, piece := range run.Pieces {
					refs[piece.Plank-1] = append(refs[piece.Plank-1], cutopt.PieceRef{
						Floor: r, Row: w, Run: u,
						Piece: p,
					})
				}
			}
		}
	}
	for n := range refs {
		a.plan.Planks = append(a.plan.Planks, a.plank(n+1, refs[n]))
	}
}

func (a *assembler) piece(r cutopt.PieceRef) *cutopt.Piece {
	return &a.plan.Floors[r.Floor].Rows[r.Row].Runs[r.Run].Pieces[r.Piece]
}

// plank lays out one plank: the piece with the left factory end first, the one with the right factory end last, what is
// left over between them; crosscuts are in the order in which their pieces are laid.
func (a *assembler) plank(number int, refs []cutopt.PieceRef) cutopt.PlankUse {
	l, k := a.job.Plank.Length, a.job.Rules.Kerf
	use := cutopt.PlankUse{Number: number}
	slices.SortStableFunc(
		refs,
		func(x, y cutopt.PieceRef) int { return side(a.piece(x).Ends) - side(a.piece(y).Ends) },
	)
	use.Pieces = refs
	apart := a.apart(refs)
	at, ends := measure.Length(0), cutopt.EndsLeft
	offcut := func(to measure.Length, right cutopt.Ends) {
		if to > at {
			use.Left = append(use.Left, cutopt.Leftover{From: at, To: to, Ends: ends | right})
		}
	}
	for _, ref := range refs {
		p := a.piece(ref)
		if p.Ends == cutopt.EndsBoth {
			return use
		}
		if p.Ends == cutopt.EndsRight { // it ends the plank
			from := l - p.Length
			switch {
			case p.AsItComes > 0:
				a.uncut(from - at)
			case a.piece(refs[0]).AsItComes > 0: // from the left end to the cut of this piece
				a.uncut(from - k - at)
				use.Cuts = append(use.Cuts, cutopt.Cut{At: from - k})
			case from > at:
				offcut(from-k, cutopt.EndsNone)
				use.Cuts = append(use.Cuts, cutopt.Cut{At: from - k})
			}
			a.sequence(&use, refs)
			return use
		}
		if p.AsItComes > 0 {
			at = p.Length
			continue
		}
		if p.Ends == cutopt.EndsNone && at == 0 { // a one-piece run
			p.Ends = cutopt.EndsLeft
		}
		if at += p.Length; at == l {
			p.Ends |= cutopt.EndsRight
		}
		if at < l {
			use.Cuts = append(use.Cuts, cutopt.Cut{At: at})
		}
		at, ends = at+k, cutopt.EndsNone
		if apart > 0 {
			offcut(at+apart, cutopt.EndsNone)
			use.Cuts = append(use.Cuts, cutopt.Cut{At: at + apart})
			at, apart = at+apart+k, 0
		}
	}
	offcut(l, cutopt.EndsRight)
	a.sequence(&use, refs)
	return use
}

// apart returns how much is left over between an ender and a one-piece run that is sawn off the plank before it: as
// much as the fit allowance, with a kerf, so that the ender can still come out so much longer. It is 0 where there is
// no such piece, and where what the plank has over comes with its starter.
func (a *assembler) apart(refs []cutopt.PieceRef) measure.Length {
	first, last := a.piece(refs[0]), a.piece(refs[len(refs)-1])
	if first.Ends != cutopt.EndsLeft || last.AsItComes > 0 ||
		a.plan.Floors[refs[0].Floor].LaidFrom == cutopt.HandRight ||
		!slices.ContainsFunc(refs, func(r cutopt.PieceRef) bool {
			return a.piece(r).Ends == cutopt.EndsNone && before(r, refs[0])
		}) {
		return 0
	}
	over := a.job.Plank.Length - a.job.Rules.Kerf*measure.Length(len(refs)-1)
	for _, r := range refs {
		over -= a.piece(r).Length
	}
	gap, cuts := a.spread(over)
	a.plan.Quality.Crosscuts += cuts
	return gap
}

// spread says how much of what a plank has over is left beside its ender where a one-piece run comes before that, and
// how many cuts more that takes. The one-piece run is cut to fit too, so there must be enough for both.
func (p *problem) spread(over measure.Length) (gap measure.Length, cuts int) {
	kerf, fit := p.job.Rules.Kerf, p.job.Rules.Fit
	if fit <= kerf || over < 2*fit {
		return 0, 0
	}
	return fit - kerf, 1
}

// spreads counts the cuts that apart adds to a floor whose starters are all sawn.
func (p *problem) spreads(cutting *rows.Cutting) (cuts int) {
	for _, parts := range cutting.Planks {
		ender, single := -1, len(p.places)
		over := p.job.Plank.Length - p.job.Rules.Kerf*measure.Length(len(parts)-1)
		for _, part := range parts {
			over -= part.Length
			switch part.Role {
			case rows.RoleEnder:
				ender = part.Run
			case rows.RoleSingle:
				single = min(single, part.Run)
			default:
				continue
			}
			over += p.job.Rules.Fit
		}
		if ender >= 0 && single < ender && !p.places[ender].mirrored {
			_, more := p.spread(over)
			cuts += more
		}
	}
	return cuts
}

// uncut counts an offcut that is laid as it comes, so much longer than planned: it is not sawn to its starter.
func (a *assembler) uncut(longer measure.Length) {
	a.slack += longer
	if longer > 0 {
		a.plan.Quality.Crosscuts--
	}
}

// side orders pieces along a plank by their factory end.
func side(e cutopt.Ends) int {
	return [...]int{cutopt.EndsNone: 1, cutopt.EndsLeft: 0, cutopt.EndsRight: 2, cutopt.EndsBoth: 1}[e]
}

// sequence puts the cut of the starter first where the starter is laid before the rest of the plank.
func (a *assembler) sequence(use *cutopt.PlankUse, refs []cutopt.PieceRef) {
	last := len(refs) - 1
	if last < 1 || a.piece(refs[last]).Ends != cutopt.EndsRight || !before(refs[last], refs[0]) {
		return
	}
	n := len(use.Cuts)
	use.Cuts = append([]cutopt.Cut{use.Cuts[n-1]}, use.Cuts[:n-1]...)
}

func before(a, b cutopt.PieceRef) bool {
	return slices.Compare([]int{a.Floor, a.Row, a.Run}, []int{b.Floor, b.Row, b.Run}) < 0
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
