package planfile

import (
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
)

// A planFile is a plan that is being read. Whatever holds lengths waits until the unit is known.
type planFile struct {
	*cutopt.Plan
	unitKnown bool
}

// plan reads a whole file.
func (r *planReader) plan(p *cutopt.Plan) {
	object(r, planFields, &planFile{Plan: p})
	r.end()
	r.rest()
}

var planFields = []field[planFile]{
	{key: "version", read: func(r *planReader, p *planFile) {
		if p.Version = r.count(); r.err == nil && p.Version != cutopt.PlanVersion {
			r.fail(fmt.Sprint(p.Version), fmt.Sprintf("is not the version read here, which is %d", cutopt.PlanVersion),
				"use the program that wrote the file, or plan the job again")
		}
	}},
	{key: "job", read: func(r *planReader, p *planFile) { p.Job = r.text() }},
	{key: "unit", read: func(r *planReader, p *planFile) { r.name(&p.Unit); r.unit, p.unitKnown = p.Unit, true }},
	{key: "order", read: func(r *planReader, p *planFile) { object(r, orderFields, &p.Order) }},
	{key: "bound", read: func(r *planReader, p *planFile) {
		r.later(p.unitKnown, func() { object(r, boundFields, &p.Bound) })
	}},
	{key: "waste", read: func(r *planReader, p *planFile) {
		r.later(p.unitKnown, func() { object(r, wasteFields, &p.Waste) })
	}},
	{key: "quality", read: func(r *planReader, p *planFile) {
		r.later(p.unitKnown, func() { object(r, qualityFields, &p.Quality) })
	}},
	{key: "floors", read: func(r *planReader, p *planFile) {
		r.later(p.unitKnown, func() { list(r, &p.Floors, objectOf(floorFields)) })
	}},
	{key: "breaks", optional: true, read: func(r *planReader, p *planFile) {
		r.later(p.unitKnown, func() { list(r, &p.Breaks, objectOf(breakFields)) })
	}},
	{key: "planks", read: func(r *planReader, p *planFile) {
		r.later(p.unitKnown, func() { list(r, &p.Planks, objectOf(plankFields)) })
	}},
	{key: "site", optional: true, read: func(r *planReader, p *planFile) {
		p.Site = new(cutopt.Site)
		r.later(p.unitKnown, func() { object(r, siteFields, p.Site) })
	}},
}

// objectOf returns what reads an item of a list that is an object.
func objectOf[T any](fields []field[T]) func(*planReader, *T) {
	return func(r *planReader, to *T) { object(r, fields, to) }
}

var orderFields = []field[cutopt.Order]{
	{key: "planks", read: func(r *planReader, o *cutopt.Order) { o.Planks = r.count() }},
	{key: "planks_per_box", read: func(r *planReader, o *cutopt.Order) { o.PlanksPerBox = r.count() }},
	{key: "boxes", read: func(r *planReader, o *cutopt.Order) { o.Boxes = r.count() }},
	{key: "left", read: func(r *planReader, o *cutopt.Order) { o.Left = r.count() }},
	{key: "kept", read: func(r *planReader, o *cutopt.Order) { o.Kept = r.count() }},
	{key: "reserve", read: func(r *planReader, o *cutopt.Order) { o.Reserve = r.count() }},
	{key: "fewest", read: func(r *planReader, o *cutopt.Order) { o.Fewest = r.count() }},
	{key: "loss", read: func(r *planReader, o *cutopt.Order) { o.Loss = r.number() }},
	{key: "risk_limit", read: func(r *planReader, o *cutopt.Order) { o.RiskLimit = r.number() }},
	{key: "risk", read: func(r *planReader, o *cutopt.Order) { o.Risk = r.number() }},
	{key: "price", read: func(r *planReader, o *cutopt.Order) { o.Price = r.money() }},
	{key: "thumb_boxes", read: func(r *planReader, o *cutopt.Order) { o.ThumbBoxes = r.count() }},
}

var boundFields = []field[cutopt.Bound]{
	{key: "planks", read: func(r *planReader, b *cutopt.Bound) { b.Planks = r.count() }},
	{key: "boxes", read: func(r *planReader, b *cutopt.Bound) { b.Boxes = r.count() }},
	{key: "proven", read: func(r *planReader, b *cutopt.Bound) { b.Proven = r.flag() }},
	{key: "settled", read: func(r *planReader, b *cutopt.Bound) { b.Settled = r.flag() }},
	{key: "planks_proven", read: func(r *planReader, b *cutopt.Bound) { b.PlanksProven = r.flag() }},
	{key: "certificate", optional: true, read: func(r *planReader, b *cutopt.Bound) {
		b.Certificate = new(proof.Certificate)
		r.decode(b.Certificate)
	}},
	{key: "rooms", optional: true, read: func(r *planReader, b *cutopt.Bound) {
		b.Rooms = new(cutopt.RoomBound)
		object(r, roomBoundFields, b.Rooms)
	}},
}

var firstRowFields = []field[cutopt.FirstRow]{
	{key: "width", read: func(r *planReader, f *cutopt.FirstRow) { f.Width = r.length() }},
	{key: "turned", optional: true, read: func(r *planReader, f *cutopt.FirstRow) { f.Turned = r.flag() }},
}

var roomBoundFields = []field[cutopt.RoomBound]{
	{key: "planks", read: func(r *planReader, b *cutopt.RoomBound) { b.Planks = r.count() }},
	{key: "firsts", read: func(r *planReader, b *cutopt.RoomBound) {
		list(r, &b.Firsts, func(r *planReader, to *[]cutopt.FirstRow) { list(r, to, objectOf(firstRowFields)) })
	}},
	{key: "certificate", read: func(r *planReader, b *cutopt.RoomBound) {
		b.Certificate = new(proof.FamilyCertificate)
		r.decode(b.Certificate)
	}},
}

var wasteFields = []field[cutopt.Waste]{
	{key: "added_to_floor", read: func(r *planReader, x *cutopt.Waste) { x.AddedToFloor = r.number() }},
	{key: "share_of_purchase", read: func(r *planReader, x *cutopt.Waste) { x.ShareOfPurchase = r.number() }},
	{key: "afterwards", read: func(r *planReader, x *cutopt.Waste) { x.Afterwards = r.number() }},
	{key: "areas", read: func(r *planReader, x *cutopt.Waste) {
		fields := []field[cutopt.Waste]{{key: "unit", read: func(r *planReader, _ *cutopt.Waste) {
			if s := r.text(); r.err == nil && s != areaUnitName(r.unit) {
				r.fail(fmt.Sprintf("%q", s), fmt.Sprintf("is not the unit of areas in a plan in %v", r.unit),
					fmt.Sprintf("it is %q", areaUnitName(r.unit)))
			}
		}}}
		for _, f := range areasOf(x) {
			fields = append(fields, field[cutopt.Waste]{
				key: f.key, optional: f.ofSite, read: func(r *planReader, _ *cutopt.Waste) { *f.area = r.area() },
			})
		}
		object(r, fields, x)
	}},
}

var qualityFields = func() []field[cutopt.Quality] {
	fields := []field[cutopt.Quality]{
		{key: "least_stagger", read: func(r *planReader, q *cutopt.Quality) { q.LeastStagger = r.length() }},
	}
	for i, f := range countsOf(new(cutopt.Quality)) {
		fields = append(fields, field[cutopt.Quality]{key: f.key, read: func(r *planReader, q *cutopt.Quality) {
			*countsOf(q)[i].count = r.count()
		}})
	}
	return fields
}()

var floorFields = []field[cutopt.PlanFloor]{
	{key: "name", read: func(r *planReader, f *cutopt.PlanFloor) { f.Name = r.text() }},
	{key: "field", optional: true, read: func(r *planReader, f *cutopt.PlanFloor) { f.Field = r.count() }},
	{key: "axes", read: func(r *planReader, f *cutopt.PlanFloor) { object(r, axesFields, &f.Axes) }},
	{key: "laid_from", read: func(r *planReader, f *cutopt.PlanFloor) { r.name(&f.LaidFrom) }},
	{key: "lot", optional: true, read: func(r *planReader, f *cutopt.PlanFloor) { f.Lot = r.text() }},
	{key: "facts", read: func(r *planReader, f *cutopt.PlanFloor) { r.facts(&f.Facts, false) }},
	{key: "rows", read: func(r *planReader, f *cutopt.PlanFloor) { list(r, &f.Rows, objectOf(rowFields)) }},
}

var breakFields = []field[cutopt.PlanBreak]{
	{key: "room", read: func(r *planReader, b *cutopt.PlanBreak) { b.Room = r.index() }},
	{key: "wall", read: func(r *planReader, b *cutopt.PlanBreak) { b.Wall = r.count() - 1 }},
	{key: "at", read: func(r *planReader, b *cutopt.PlanBreak) { b.At = r.length() }},
	{key: "doorway", read: func(r *planReader, b *cutopt.PlanBreak) { b.Doorway = r.count() - 1 }},
	{key: "from", read: func(r *planReader, b *cutopt.PlanBreak) { r.point(&b.From) }},
	{key: "to", read: func(r *planReader, b *cutopt.PlanBreak) { r.point(&b.To) }},
	{key: "length", read: func(r *planReader, b *cutopt.PlanBreak) { b.Length = r.length() }},
	{key: "width", read: func(r *planReader, b *cutopt.PlanBreak) { b.Width = r.length() }},
	{key: "asked", read: func(r *planReader, b *cutopt.PlanBreak) { b.Asked = r.flag() }},
}

var axesFields = []field[cutopt.Axes]{
	{key: "origin", read: func(r *planReader, a *cutopt.Axes) { r.point(&a.Origin) }},
	{key: "turn", read: func(r *planReader, a *cutopt.Axes) { a.Turn = r.number() }},
	{key: "mirrored", read: func(r *planReader, a *cutopt.Axes) { a.Mirrored = r.flag() }},
}

var rowFields = []field[cutopt.PlanRow]{
	{key: "from", read: func(r *planReader, row *cutopt.PlanRow) { row.From = r.length() }},
	{key: "to", read: func(r *planReader, row *cutopt.PlanRow) { row.To = r.length() }},
	{key: "width", read: func(r *planReader, row *cutopt.PlanRow) { row.Width = r.length() }},
	{key: "runs", read: func(r *planReader, row *cutopt.PlanRow) { list(r, &row.Runs, objectOf(runFields)) }},
}

var runFields = []field[cutopt.PlanRun]{
	{key: "from", read: func(r *planReader, run *cutopt.PlanRun) { run.From = r.length() }},
	{key: "to", read: func(r *planReader, run *cutopt.PlanRun) { run.To = r.length() }},
	{key: "pieces", read: func(r *planReader, run *cutopt.PlanRun) { list(r, &run.Pieces, objectOf(pieceFields)) }},
}

var pieceFields = []field[cutopt.Piece]{
	{key: "plank", read: func(r *planReader, p *cutopt.Piece) { p.Plank = r.count() }},
	{key: "from", read: func(r *planReader, p *cutopt.Piece) { p.From = r.length() }},
	{key: "to", read: func(r *planReader, p *cutopt.Piece) { p.To = r.length() }},
	{key: "length", read: func(r *planReader, p *cutopt.Piece) { p.Length = r.length() }},
	{key: "as_it_comes", optional: true, read: func(r *planReader, p *cutopt.Piece) { p.AsItComes = r.length() }},
	{key: "factory_ends", read: func(r *planReader, p *cutopt.Piece) { r.name(&p.Ends) }},
	{
		key:      "shape",
		optional: true,
		read:     func(r *planReader, p *cutopt.Piece) { list(r, &p.Shape, (*planReader).point) },
	},
	{key: "shaping", optional: true, read: func(r *planReader, p *cutopt.Piece) { r.facts(&p.Shaping, true) }},
	{key: "lies", optional: true, read: func(r *planReader, p *cutopt.Piece) { p.Lies = r.flag() }},
}

var plankFields = []field[cutopt.PlankUse]{
	{key: "number", read: func(r *planReader, p *cutopt.PlankUse) { p.Number = r.count() }},
	{key: "pieces", read: func(r *planReader, p *cutopt.PlankUse) { list(r, &p.Pieces, objectOf(refFields)) }},
	{key: "cuts", read: func(r *planReader, p *cutopt.PlankUse) { list(r, &p.Cuts, objectOf(cutFields)) }},
	{key: "left", read: func(r *planReader, p *cutopt.PlankUse) { list(r, &p.Left, objectOf(offcutFields)) }},
	{key: "opened", optional: true, read: func(r *planReader, p *cutopt.PlankUse) { p.Opened = r.flag() }},
	{key: "gone", optional: true, read: func(r *planReader, p *cutopt.PlankUse) {
		list(r, &p.Gone, objectOf(offcutFields))
	}},
	{key: "brought", optional: true, read: func(r *planReader, p *cutopt.PlankUse) { p.Brought = r.flag() }},
	{key: "lot", optional: true, read: func(r *planReader, p *cutopt.PlankUse) { p.Lot = r.text() }},
}

var refFields = []field[cutopt.PieceRef]{
	{key: "floor", read: func(r *planReader, ref *cutopt.PieceRef) { ref.Floor = r.index() }},
	{key: "row", read: func(r *planReader, ref *cutopt.PieceRef) { ref.Row = r.index() }},
	{key: "run", read: func(r *planReader, ref *cutopt.PieceRef) { ref.Run = r.index() }},
	{key: "piece", read: func(r *planReader, ref *cutopt.PieceRef) { ref.Piece = r.index() }},
}

var cutFields = []field[cutopt.Cut]{
	{key: "at", read: func(r *planReader, c *cutopt.Cut) { c.At = r.length() }},
}

var offcutFields = []field[cutopt.Leftover]{
	{key: "from", read: func(r *planReader, o *cutopt.Leftover) { o.From = r.length() }},
	{key: "to", read: func(r *planReader, o *cutopt.Leftover) { o.To = r.length() }},
	{key: "factory_ends", read: func(r *planReader, o *cutopt.Leftover) { r.name(&o.Ends) }},
}

// A factFile is a fact that is being read: which of its keys are given.
type factFile struct {
	cutopt.Fact
	given []cutopt.FactField
}

var factFields = func() []field[factFile] {
	fields := []field[factFile]{{key: "kind", read: func(r *planReader, f *factFile) { r.name(&f.Kind) }}}
	for _, name := range cutopt.FactFields() {
		fields = append(
			fields,
			field[factFile]{key: string(name), optional: true, read: func(r *planReader, f *factFile) {
				f.given = append(f.given, name)
				switch v := f.Field(name).(type) {
				case *int:
					*v = r.count()
				case *cutopt.Ends:
					r.name(v)
				case *cutopt.Edges:
					r.name(v)
				case *measure.Length:
					*v = r.length()
				case *measure.Area:
					*v = r.area()
				}
			}},
		)
	}
	return fields
}()

// facts reads a list of facts, about shapes of pieces or about floors. The keys of a fact are those of its kind, which
// may come anywhere among them.
func (r *planReader) facts(to *[]cutopt.Fact, ofShape bool) {
	list(r, to, func(r *planReader, to *cutopt.Fact) {
		f := new(factFile)
		at := object(r, factFields, f)
		*to = f.Fact
		if r.err != nil {
			return
		}
		has := f.Kind.Fields()
		if f.Kind.OfShape() != ofShape {
			r.failAt(
				at,
				"",
				fmt.Sprintf("a fact of kind %q does not belong here", f.Kind),
				"shaping tells of pieces, facts of floors",
			)
		}
		for _, name := range f.given {
			if !slices.Contains(has, name) {
				r.failAt(at, "", fmt.Sprintf("a fact of kind %q has no key %q", f.Kind, name), "")
			}
		}
		for _, name := range has {
			if !slices.Contains(f.given, name) {
				r.failAt(at, "", fmt.Sprintf("the key %q is missing", name), "")
			}
		}
	})
}
