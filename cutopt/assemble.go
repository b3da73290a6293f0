package cutopt

import (
	"math"
	"slices"

	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// instanceOf lists the runs of all floors, room by room and row by row from the starting side, and ties runs of
// neighbouring rows that touch: whose extents along the rows overlap. Rooms laid from the right are mirrored, so that in
// the instance every run is laid from the left; all rooms of a job are laid from one side.
//
// The fit allowance enters exactly. What differs is a run's length, by at most fit, at either of its ends; its starter is
// sawn to its figure and its ender to what is then left. So a run is as long here as it may come out, which makes its
// ender as long as it may have to be: what fits on a plank here fits whatever the wall does. An ender that may come out
// twice fit shorter than that must still be a piece, hence MinEnder; and where a run begins may differ, by fit on each
// side of a joint, hence the wider stagger.
func instanceOf(job *Job, floors []*strips.Floor) (*rows.Instance, []place) {
	fit := job.Rules.Fit
	in := &rows.Instance{
		Name: job.Name, Plank: job.Plank.Length, Kerf: job.Rules.Kerf, MinPiece: job.Rules.MinPiece,
		Stagger: job.Rules.Stagger, Grid: job.Rules.Grid,
	}
	if fit > 0 {
		in.MinEnder = in.MinPiece + 2*fit
		if in.Stagger > 0 {
			in.Stagger += 2 * fit
		}
	}
	var places []place
	for f, fl := range floors {
		mirrored := fl.From == uint8(HandRight)
		before := [2]int{}
		for r := range fl.Rows {
			row := &fl.Rows[r]
			here := [2]int{len(in.Runs), len(in.Runs) + len(row.Runs)}
			for k, run := range row.Runs {
				from := run.From
				if mirrored {
					from = -run.To
				}
				in.Runs = append(in.Runs, rows.Run{From: from, Length: run.To - run.From + fit, Name: fl.Name})
				places = append(places, place{fl.Name, f, r, k, mirrored})
			}
			if r > 0 && fl.Rows[r-1].To == row.From {
				in.Touch = append(in.Touch, touching(in, fit, before, here)...)
			}
			before = here
		}
	}
	return in, places
}

// touching pairs the runs of two neighbouring rows whose extents overlap, as measured: without the fit allowance.
func touching(in *rows.Instance, fit measure.Length, a, b [2]int) [][2]int {
	var out [][2]int
	for i := a[0]; i < a[1]; i++ {
		for j := b[0]; j < b[1]; j++ {
			p, q := in.Runs[i], in.Runs[j]
			if p.From < q.From+q.Length-fit && q.From < p.From+p.Length-fit {
				out = append(out, [2]int{i, j})
			}
		}
	}
	return out
}

// assembler builds a plan from a layout and its cutting.
type assembler struct {
	job    *Job
	floors []*strips.Floor
	places []place
	out    *minimum
	plan   *Plan
}

// assemble lays the pieces of the minimum into the rooms and numbers its planks.
func assemble(job *Job, floors []*strips.Floor, places []place, out *minimum) *Plan {
	a := &assembler{
		job: job, floors: floors, places: places, out: out,
		plan: &Plan{Version: PlanVersion, Job: job.Name, Unit: job.Unit, Bound: out.bound, Quality: out.quality},
	}
	a.rooms()
	a.pieces()
	a.planks()
	a.order()
	return a.plan
}

// rooms copies the rows and runs.
func (a *assembler) rooms() {
	for _, f := range a.floors {
		room := PlanRoom{
			Name: f.Name, Axes: Axes{Origin: f.Origin, Turn: f.Turn, Mirrored: f.Mirrored},
			From: Hand(f.From), Notes: slices.Clone(f.Notes), NarrowEdge: f.NarrowEdge,
		}
		for _, r := range f.Rows {
			row := PlanRow{From: r.From, To: r.To, Width: r.To - r.From}
			for _, run := range r.Runs {
				row.Runs = append(row.Runs, PlanRun{From: run.From, To: run.To})
			}
			room.Rows = append(room.Rows, row)
		}
		a.plan.Rooms = append(a.plan.Rooms, room)
	}
}

// pieces lays every run, each piece from the next plank that the cutting gives it.
func (a *assembler) pieces() {
	type source struct {
		run  int
		kind rows.Kind
	}
	from := make(map[source][]int)
	for n, parts := range a.out.cutting.Planks {
		for _, p := range parts {
			s := source{p.Run, p.Kind}
			from[s] = append(from[s], n+1)
		}
	}
	l := a.job.Plank.Length
	for i, at := range a.places {
		run := &a.plan.Rooms[at.room].Rows[at.row].Runs[at.run]
		length := run.To - run.From
		x := measure.Length(0)
		lay := func(kind rows.Kind, size measure.Length, ends Ends) {
			s := source{i, kind}
			piece := Piece{Plank: from[s][0], From: run.From + x, To: run.From + x + size, Length: size, Ends: ends}
			from[s] = from[s][1:]
			if size == l {
				piece.Ends = EndsBoth
			}
			if at.mirrored {
				piece.From, piece.To = run.To-x-size, run.To-x
				piece.Ends = mirrored(piece.Ends)
			}
			a.shape(&piece, at)
			run.Pieces = append(run.Pieces, piece)
			x += size
		}
		if s := a.out.layout[i]; s == 0 {
			lay(rows.KindSingle, length, EndsNone)
		} else {
			lay(rows.KindStarter, s, EndsRight)
			for length-x > l {
				lay(rows.KindField, l, EndsBoth)
			}
			lay(rows.KindEnder, length-x, EndsLeft)
		}
		if at.mirrored {
			slices.Reverse(run.Pieces)
		}
	}
}

// mirrored exchanges left and right.
func mirrored(e Ends) Ends { return e&1<<1 | e>>1 }

// shape records how a piece differs from the full rectangle of its row, and counts what of it is laid.
func (a *assembler) shape(p *Piece, at place) {
	f := a.floors[at.room]
	shape, area := f.Clip(at.row, at.run, p.From, p.To)
	if shape != nil {
		p.Shape = shape
		p.Shaping = f.Shaping(at.row, at.run, p.From, p.To, a.job.Unit, a.job.Rules.Grid)
	}
	a.plan.Waste.Laid += area
}

// planks records how every plank is cut. Pieces are referred to by the plank number they carry.
func (a *assembler) planks() {
	refs := make([][]PieceRef, len(a.out.cutting.Planks))
	for r, room := range a.plan.Rooms {
		for w, row := range room.Rows {
			for u, run := range row.Runs {
				for p, piece := range run.Pieces {
					refs[piece.Plank-1] = append(refs[piece.Plank-1], PieceRef{r, w, u, p})
				}
			}
		}
	}
	for n := range refs {
		a.plan.Planks = append(a.plan.Planks, a.plank(n+1, refs[n]))
	}
}

func (a *assembler) piece(r PieceRef) *Piece {
	return &a.plan.Rooms[r.Room].Rows[r.Row].Runs[r.Run].Pieces[r.Piece]
}

// plank lays out one plank: the piece with the left factory end first, the one with the right factory end last, what is
// left over between them; crosscuts are in the order in which their pieces are laid.
func (a *assembler) plank(number int, refs []PieceRef) PlankUse {
	l, k := a.job.Plank.Length, a.job.Rules.Kerf
	use := PlankUse{Number: number}
	slices.SortStableFunc(refs, func(x, y PieceRef) int { return side(a.piece(x).Ends) - side(a.piece(y).Ends) })
	use.Pieces = refs
	at, ends := measure.Length(0), EndsLeft
	offcut := func(to measure.Length, right Ends) {
		if to > at {
			use.Left = append(use.Left, Offcut{From: at, To: to, Ends: ends | right})
		}
	}
	for _, ref := range refs {
		p := a.piece(ref)
		if p.Ends == EndsBoth {
			return use
		}
		if p.Ends == EndsRight { // it ends the plank
			from := l - p.Length
			if from > at {
				offcut(from-k, EndsNone)
				use.Cuts = append(use.Cuts, Cut{At: max(from-k, 0)})
			}
			a.sequence(&use, refs)
			return use
		}
		if p.Ends == EndsNone && at == 0 { // a one-piece run
			p.Ends = EndsLeft
		}
		if at += p.Length; at == l {
			p.Ends |= EndsRight
		}
		if at < l {
			use.Cuts = append(use.Cuts, Cut{At: at})
		}
		at, ends = at+k, EndsNone
	}
	offcut(l, EndsRight)
	a.sequence(&use, refs)
	return use
}

// side orders pieces along a plank by their factory end.
func side(e Ends) int { return [...]int{EndsNone: 1, EndsLeft: 0, EndsRight: 2, EndsBoth: 1}[e] }

// sequence puts the cut of the starter first where the starter is laid before the rest of the plank.
func (a *assembler) sequence(use *PlankUse, refs []PieceRef) {
	last := len(refs) - 1
	if last < 1 || a.piece(refs[last]).Ends != EndsRight || !before(refs[last], refs[0]) {
		return
	}
	n := len(use.Cuts)
	use.Cuts = append([]Cut{use.Cuts[n-1]}, use.Cuts[:n-1]...)
}

func before(a, b PieceRef) bool {
	return slices.Compare([]int{a.Room, a.Row, a.Run}, []int{b.Room, b.Row, b.Run}) < 0
}

// order counts planks, boxes, money and waste.
func (a *assembler) order() {
	job, plan := a.job, a.plan
	per, _ := job.Box.PlanksPer(job.Plank)
	perArea, _ := job.Box.AreaPer(job.Plank)
	plank := measure.Area(job.Plank.Length) * measure.Area(job.Plank.Width)
	planks := len(plan.Planks)
	boxes := job.Spare.Boxes(planks, per)
	w := &plan.Waste
	for _, f := range a.floors {
		w.Net += f.Net
	}
	plan.Order = Order{
		Planks: planks, PlanksPerBox: per, Boxes: boxes, SparePlanks: boxes*per - planks,
		Kept: job.Spare.Kept(planks, per), Price: Money(boxes) * job.Box.Price,
		ThumbBoxes: int(math.Ceil(float64(w.Net) * (1 + job.Rules.WasteAllowance/100) / float64(perArea) * (1 - 1e-12))),
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
	w.Bought = measure.Area(boxes*per) * plank
	w.WholeLeft = measure.Area(plan.Order.SparePlanks) * plank
	w.Ripped = pieces - w.Laid
	used := measure.Area(planks) * plank
	w.Kerf = used - pieces - w.Offcuts
	w.AddedToFloor = (w.Bought - w.Net).PercentOf(w.Net)
	w.ShareOfPurchase = (w.Bought - w.Net).PercentOf(w.Bought)
	w.Afterwards = (used - w.Laid).PercentOf(used)
}
