package sheet

import (
	"iter"
	"slices"
	"strconv"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
)

// forSheet returns the book as the job sheet has it: with all floors, and lengths that hold together where lines are
// broken.
func (b *book) forSheet() *book {
	whole := b.glued()
	whole.opt.Floor = 0
	return whole
}

// glued returns the book with lengths that hold together where lines are broken.
func (b *book) glued() *book {
	same, speech := *b, *b.Speech
	speech.Glued = true
	same.Speech = &speech
	return &same
}

// A section is a part of the job sheet. HTML and PDF set the same sections. Its fields are exported for the template.
type section struct {
	ID     string
	Title  string
	Blocks iter.Seq[block]
}

// A block is one of: a paragraph, a list, a list to tick, a table, a row to lay, or a picture.
type block struct {
	Text   string
	Strong bool
	Items  []string
	Ticks  bool
	Head   []string
	Rows   [][]string
	IDs    []string // of the rows of a table that links lead to, "" for others; or nil
	Step   *step
	Form   int // lines to write on
	// Happened is what ticks are copied as; nil where they are not
	Happened *Happened
	picture  picture
	floor    int // of the picture
}

// A picture is a kind of picture within the sheet.
type picture uint8

const (
	pictureNone picture = iota
	pictureMap
	pictureStrips
	picturePocket
)

// Kind names what a block is, for the template.
func (k block) Kind() string {
	switch {
	case k.Step != nil:
		return "step"
	case k.picture != pictureNone:
		return "picture"
	case k.Head != nil:
		return "table"
	case k.Form > 0:
		return "form"
	case k.Ticks:
		return "ticks"
	case k.Items != nil:
		return "list"
	}
	return "text"
}

// RowID returns the name of a table's row for links, "" for none.
func (k block) RowID(row int) string {
	if row < len(k.IDs) {
		return k.IDs[row]
	}
	return ""
}

// some yields blocks that are at hand.
func some(blocks ...block) iter.Seq[block] {
	return func(yield func(block) bool) {
		for _, k := range blocks {
			if !yield(k) {
				return
			}
		}
	}
}

// sections lists the parts of the job sheet in the order they are needed.
func (b *book) sections() []section {
	list := []section{{"order", b.Say("sheet.order"), some(b.orderBlocks()...)}}
	if b.begun() {
		list = []section{
			{"order", b.Say("sheet.site"), some(b.siteBlocks()...)},
			{"hand", b.Say("sheet.hand"), some(b.handBlocks()...)},
			b.formSection(), // which fills the page before the map
		}
	}
	list = append(list, b.takeoffSections()...)
	if !b.begun() {
		list = append(list, section{"before", b.Say("sheet.before"), some(block{Items: b.checksBefore(), Ticks: true})})
	}
	list = append(
		list,
		section{"map", b.Say("map"), b.mapBlocks},
		section{"steps", b.Say("sheet.steps"), b.stepBlocks},
	)
	if edges := b.edgeRows(); len(edges) > 0 {
		list = append(
			list,
			section{
				"edges",
				b.Say("sheet.edges"),
				some(block{Text: b.Say("edges.intro")}, block{Head: b.edgeHead(), Rows: edges}),
			},
		)
	}
	if doors := b.doorRows(); len(doors) > 0 {
		list = append(
			list,
			section{
				"doorways",
				b.Say("sheet.doorways"),
				some(block{Head: b.doorHead(), Rows: doors}, block{Items: b.List("doors.how")}),
			},
		)
	}
	list = append(
		list,
		section{"strips", b.Say("strips"), some(block{picture: pictureStrips})},
		section{"cuts", b.Say("cuts"), b.cutBlocks},
		section{"broken", b.Say("sheet.broken"), some(block{Items: b.brokenItems()})},
	)
	if !b.begun() {
		list = append(list, b.formSection())
	}
	return append(
		list,
		section{"during", b.Say("sheet.during"), some(block{Items: b.List("checks.during")})},
		section{"after", b.Say("sheet.after"), some(block{Items: b.checksAfter(), Ticks: true})},
		section{
			"cautions",
			b.Say("sheet.cautions"),
			some(block{Text: b.Say("cautions.intro")}, block{Items: b.cautionItems()}),
		},
	)
}

// mapBlocks are the maps of all floors.
func (b *book) mapBlocks(yield func(block) bool) {
	for i := range b.plan.Floors {
		if !yield(block{picture: pictureMap, floor: i}) {
			return
		}
		if notes := b.mapRemarks(i); len(notes) > 0 && !yield(block{Items: notes}) {
			return
		}
	}
}

// mapRemarks lists the notes of a floor.
func (b *book) mapRemarks(i int) []string {
	var items []string
	for _, n := range b.notes[i] {
		items = append(items, b.Say("note.numbered", "n", strconv.Itoa(n.number), "text", b.noteText(n)))
	}
	return append(items, b.Facts(b.job, b.plan.Floors[i].Facts)...)
}

// stepBlocks are the rows in the order of laying.
func (b *book) stepBlocks(yield func(block) bool) {
	if !yield(block{Items: append(b.List("steps.intro"), b.Product(b.job)...)}) {
		return
	}
	for i, rows := range b.lay.Floors {
		if len(b.lay.Floors) > 1 && !yield(block{Text: b.floorName(i) + b.lotOf(i), Strong: true}) {
			return
		}
		for _, lr := range rows {
			st := b.stepOf(lr)
			if !yield(block{Step: &st}) {
				return
			}
		}
	}
}

// cutRowsAtOnce is how many planks share a table, so that tables stay small.
const cutRowsAtOnce = 200

// cutBlocks are the tables of cuts.
func (b *book) cutBlocks(yield func(block) bool) {
	if !yield(block{Text: b.Say("cuts.order")}) {
		return
	}
	var rows [][]string
	planks := 0
	for i := range b.lay.Planks {
		if b.plain(i) || b.done(i) {
			continue
		}
		for _, line := range b.cutLines(i) {
			rows = append(rows, line.cells())
		}
		if planks++; planks%cutRowsAtOnce == 0 {
			if !yield(block{Head: b.cutHead(), Rows: rows}) {
				return
			}
			rows = nil
		}
	}
	if len(rows) > 0 && !yield(block{Head: b.cutHead(), Rows: rows}) {
		return
	}
	if list, n := b.numbers(b.plain); n > 0 {
		yield(block{Text: b.Count("cuts.whole", n) + " " + list + "."})
	}
}

func (b *book) edgeHead() []string {
	return []string{b.Say("edges.room"), b.Say("cuts.row"), b.Say("edges.width"), b.Say("edges.edge")}
}

// edgeRows lists the rows along the starting wall and the wall opposite of every floor, the first and the last row
// where doorways have rows of their own, and every other row that is ripped.
func (b *book) edgeRows() [][]string {
	var rows [][]string
	for i, list := range b.lay.Floors {
		for _, lr := range list {
			least, most := b.widths(lr)
			edges := []int{0, b.wallRow(i), b.farRow(i), len(list) - 1}
			if least == b.job.Plank.Width && !slices.Contains(edges, lr.Row) {
				continue
			}
			width, edge := b.Length(least), b.Say("edges.full")
			if least < most {
				width = b.Range(least, most)
			}
			if least < b.job.Plank.Width {
				edge = b.Say("edge.off", "edge", b.Say("edge."+b.wallEdge(lr).String()))
			}
			rows = append(rows, []string{b.floorName(i), strconv.Itoa(lr.Row + 1), width, edge})
		}
	}
	return rows
}

// wallEdge returns the long edge of a row along a wall that faces that wall.
func (b *book) wallEdge(lr laying.Row) cutopt.Edges {
	if lr.Row <= b.wallRow(lr.Floor) {
		return cutopt.EdgesFront
	}
	return cutopt.EdgesBack
}

// widths returns how wide the pieces of a row are ripped, from the narrowest to the widest: of a row along a wall each
// to its own width; of others the row's.
func (b *book) widths(lr laying.Row) (least, most measure.Length) {
	row, edge := &b.plan.Floors[lr.Floor].Rows[lr.Row], b.wallEdge(lr)
	if lr.Row != b.wallRow(lr.Floor) && lr.Row != b.farRow(lr.Floor) {
		return row.Width, row.Width
	}
	least, most = row.Width, 0
	for _, run := range lr.Runs {
		for _, p := range run.Pieces {
			narrow, wide := row.Width, row.Width
			for i := range p.Shaping {
				switch f := &p.Shaping[i]; {
				case f.Edge != edge:
				case f.Kind == cutopt.FactRip:
					narrow, wide = narrow-f.Width, wide-f.Width
				case f.Kind == cutopt.FactEdgeCut:
					narrow, wide = min(f.Left, f.Right), max(f.Left, f.Right)
				}
			}
			least, most = min(least, narrow), max(most, wide)
		}
	}
	return least, max(least, most)
}

// ripMark says in few words how the pieces of a row are ripped: to its width, or each as its note says; "" for a row of
// full width.
func (b *book) ripMark(lr laying.Row) string {
	row := &b.plan.Floors[lr.Floor].Rows[lr.Row]
	switch least, _ := b.widths(lr); {
	case least < row.Width:
		return b.Say("rip-mark-notes")
	case row.Width < b.job.Plank.Width:
		return b.Say("rip-mark", "width", b.Bare(row.Width))
	}
	return ""
}

func (b *book) doorHead() []string {
	return []string{
		b.Say("doors.number"),
		b.Say("doors.name"),
		b.Say("doors.wall"),
		b.Say("doors.width"),
		b.Say("doors.depth"),
		b.Say("doors.casing"),
		b.Say("doors.rows"),
		b.Say("doors.to"),
	}
}

// doorRows lists the doorways of every floor.
func (b *book) doorRows() [][]string {
	var rows [][]string
	for i := range b.shapes {
		for _, r := range b.shapes[i].rooms {
			for k := range r.doors {
				rows = append(rows, b.doorRow(i, &r.doors[k]))
			}
		}
	}
	return rows
}

func (b *book) doorRow(floor int, d *doorShape) []string {
	number := b.Say("door-letter") + strconv.Itoa(d.number)
	if len(b.shapes) > 1 {
		number += ", " + b.floorName(floor)
	}
	span := "–"
	if d.firstRow >= 0 {
		span = strconv.Itoa(d.firstRow + 1)
		if d.lastRow > d.firstRow {
			span += "–" + strconv.Itoa(d.lastRow+1)
		}
	}
	to, kind := d.door.To, b.Say("transition."+d.door.Transition.String())
	switch named := d.door.Transition != cutopt.TransitionOpen; {
	case d.door.Through:
		to = b.Say("doors.through", "to", to)
	case named && to == "":
		to = kind
	case named:
		to = b.Say("doors.kind-to", "kind", kind, "to", to)
	case to == "":
		to = b.Say("doors.transition")
	default:
		to = b.Say("doors.transition-to", "to", to)
	}
	return []string{
		number, d.door.Name, b.Say("side." + sideKeys[d.side]), b.Length(d.door.Width), b.Length(d.door.Depth),
		b.Say("casing." + d.door.Casing.String()), span, to,
	}
}

var sideKeys = [...]string{"start", "far", "left", "right"}

// onPaper draws a picture block for the PDF sheet, on pages of its own for maps.
func (b *book) onPaper(f *flow, k block) {
	switch k.picture {
	case pictureMap:
		b.mapOf(f, k.floor)
	case picturePocket:
		b.pocketOnScreen(f, k.floor)
	default:
		b.strips(f)
	}
}

// drawings yields the drawings of a picture block for a screen.
func (b *book) drawings(k block) iter.Seq[*draw.Drawing] {
	return func(yield func(*draw.Drawing) bool) {
		title := b.Say("strips")
		if k.picture != pictureStrips {
			title = b.Say("map") + ": " + b.floorName(k.floor)
		}
		screen := screenSetting
		if k.picture == pictureStrips {
			screen.height /= 3 // so that printed they fill up pages
		}
		f := b.newFlow(screen, title, yield)
		f.footer = nil
		b.onPaper(f, k)
		f.finish()
	}
}

// screenSetting makes pictures that fit a printed page inside its margins and are cut off below their last line.
var screenSetting = setting{width: 540, height: 690, margin: 3, trim: true, upright: true}
