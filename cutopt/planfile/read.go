package planfile

import (
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/proof"
)

// plan reads a whole file. Whatever holds lengths waits until the unit is known.
func (r *planReader) plan(p *cutopt.Plan) {
	unitKnown := false
	var waiting []func()
	later := func(read func()) func() {
		return func() {
			if unitKnown {
				read()
				return
			}
			if sub := r.set(); sub != nil {
				waiting = append(waiting, func() { r.within(sub, read) })
			}
		}
	}
	r.object([]planField{
		{key: "version", read: func() {
			if p.Version = r.count(); r.err == nil && p.Version != cutopt.PlanVersion {
				r.fail(fmt.Sprint(p.Version), fmt.Sprintf("is not the version read here, which is %d", cutopt.PlanVersion),
					"use the program that wrote the file, or plan the job again")
			}
		}},
		{key: "job", read: func() { p.Job = r.text() }},
		{key: "unit", read: func() { r.name(&p.Unit); r.unit, unitKnown = p.Unit, true }},
		{key: "order", read: func() { r.order(&p.Order) }},
		{key: "bound", read: func() { r.bound(&p.Bound) }},
		{key: "waste", read: later(func() { r.waste(&p.Waste) })},
		{key: "quality", read: later(func() { r.quality(&p.Quality) })},
		{key: "floors", read: later(func() {
			r.list(func() { p.Floors = append(p.Floors, cutopt.PlanFloor{}); r.room(&p.Floors[len(p.Floors)-1]) })
		})},
		{key: "planks", read: later(func() {
			r.list(func() { p.Planks = append(p.Planks, cutopt.PlankUse{}); r.plank(&p.Planks[len(p.Planks)-1]) })
		})},
	})
	r.end()
	for _, read := range waiting {
		read()
	}
}

func (r *planReader) order(o *cutopt.Order) {
	r.object([]planField{
		{key: "planks", read: func() { o.Planks = r.count() }},
		{key: "planks_per_box", read: func() { o.PlanksPerBox = r.count() }},
		{key: "boxes", read: func() { o.Boxes = r.count() }},
		{key: "left", read: func() { o.Left = r.count() }},
		{key: "kept", optional: true, read: func() { o.Kept = r.count() }},
		{key: "reserve", read: func() { o.Reserve = r.count() }},
		{key: "fewest", read: func() { o.Fewest = r.count() }},
		{key: "loss", read: func() { o.Loss = r.number() }},
		{key: "risk_limit", read: func() { o.RiskLimit = r.number() }},
		{key: "risk", read: func() { o.Risk = r.number() }},
		{key: "price", read: func() { o.Price = r.money() }},
		{key: "thumb_boxes", read: func() { o.ThumbBoxes = r.count() }},
	})
}

func (r *planReader) bound(b *cutopt.Bound) {
	r.object([]planField{
		{key: "planks", read: func() { b.Planks = r.count() }},
		{key: "boxes", read: func() { b.Boxes = r.count() }},
		{key: "proven", read: func() { b.Proven = r.flag() }},
		{key: "planks_proven", read: func() { b.PlanksProven = r.flag() }},
		{key: "certificate", optional: true, read: func() {
			b.Certificate = new(proof.Certificate)
			r.decode(b.Certificate)
		}},
	})
}

func (r *planReader) waste(x *cutopt.Waste) {
	r.object([]planField{
		{key: "added_to_floor", read: func() { x.AddedToFloor = r.number() }},
		{key: "share_of_purchase", read: func() { x.ShareOfPurchase = r.number() }},
		{key: "afterwards", read: func() { x.Afterwards = r.number() }},
		{key: "areas", read: func() {
			fields := []planField{{key: "unit", read: func() {
				if s := r.text(); r.err == nil && s != areaUnitName(r.unit) {
					r.fail(fmt.Sprintf("%q", s), fmt.Sprintf("is not the unit of areas in a plan in %v", r.unit),
						fmt.Sprintf("it is %q", areaUnitName(r.unit)))
				}
			}}}
			for _, f := range areasOf(x) {
				fields = append(fields, planField{key: f.key, read: func() { *f.area = r.area() }})
			}
			r.object(fields)
		}},
	})
}

func (r *planReader) quality(q *cutopt.Quality) {
	fields := []planField{{key: "least_stagger", read: func() { q.LeastStagger = r.length() }}}
	for _, f := range countsOf(q) {
		fields = append(fields, planField{key: f.key, read: func() { *f.count = r.count() }})
	}
	r.object(fields)
}

func (r *planReader) room(room *cutopt.PlanFloor) {
	r.object([]planField{
		{key: "name", read: func() { room.Name = r.text() }},
		{key: "axes", read: func() {
			r.object([]planField{
				{key: "origin", read: func() { room.Axes.Origin = r.point() }},
				{key: "turn", read: func() { room.Axes.Turn = r.number() }},
				{key: "mirrored", read: func() { room.Axes.Mirrored = r.flag() }},
			})
		}},
		{key: "laid_from", read: func() { r.name(&room.From) }},
		{key: "facts", read: func() { room.Facts = r.facts(false) }},
		{key: "rows", read: func() {
			r.list(func() { room.Rows = append(room.Rows, cutopt.PlanRow{}); r.row(&room.Rows[len(room.Rows)-1]) })
		}},
	})
}

func (r *planReader) row(row *cutopt.PlanRow) {
	r.object([]planField{
		{key: "from", read: func() { row.From = r.length() }},
		{key: "to", read: func() { row.To = r.length() }},
		{key: "width", read: func() { row.Width = r.length() }},
		{key: "runs", read: func() {
			r.list(func() { row.Runs = append(row.Runs, cutopt.PlanRun{}); r.run(&row.Runs[len(row.Runs)-1]) })
		}},
	})
}

func (r *planReader) run(run *cutopt.PlanRun) {
	r.object([]planField{
		{key: "from", read: func() { run.From = r.length() }},
		{key: "to", read: func() { run.To = r.length() }},
		{key: "pieces", read: func() {
			r.list(func() { run.Pieces = append(run.Pieces, cutopt.Piece{}); r.piece(&run.Pieces[len(run.Pieces)-1]) })
		}},
	})
}

func (r *planReader) piece(p *cutopt.Piece) {
	r.object([]planField{
		{key: "plank", read: func() { p.Plank = r.count() }},
		{key: "from", read: func() { p.From = r.length() }},
		{key: "to", read: func() { p.To = r.length() }},
		{key: "length", read: func() { p.Length = r.length() }},
		{key: "factory_ends", read: func() { r.name(&p.Ends) }},
		{key: "shape", optional: true, read: func() { r.list(func() { p.Shape = append(p.Shape, r.point()) }) }},
		{key: "shaping", optional: true, read: func() { p.Shaping = r.facts(true) }},
	})
}

func (r *planReader) plank(p *cutopt.PlankUse) {
	r.object([]planField{
		{key: "number", read: func() { p.Number = r.count() }},
		{key: "pieces", read: func() {
			r.list(func() {
				var ref cutopt.PieceRef
				r.object([]planField{
					{key: "floor", read: func() { ref.Floor = r.index() }},
					{key: "row", read: func() { ref.Row = r.index() }},
					{key: "run", read: func() { ref.Run = r.index() }},
					{key: "piece", read: func() { ref.Piece = r.index() }},
				})
				p.Pieces = append(p.Pieces, ref)
			})
		}},
		{key: "cuts", read: func() {
			r.list(func() {
				var cut cutopt.Cut
				r.object([]planField{{key: "at", read: func() { cut.At = r.length() }}})
				p.Cuts = append(p.Cuts, cut)
			})
		}},
		{key: "left", read: func() {
			r.list(func() {
				var o cutopt.Offcut
				r.object([]planField{
					{key: "from", read: func() { o.From = r.length() }},
					{key: "to", read: func() { o.To = r.length() }},
					{key: "factory_ends", read: func() { r.name(&o.Ends) }},
				})
				p.Left = append(p.Left, o)
			})
		}},
	})
}
