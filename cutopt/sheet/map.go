package sheet

import (
	"fmt"
	"iter"
	"math"
	"strconv"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
	"plank.example/cutopt/words"
)

// A book holds what every document is made from.
type book struct {
	*words.Speech
	job    *cutopt.Job
	plan   *cutopt.Plan
	lay    *laying.Sequence
	opt    Options
	look   look
	shapes []floorShape
	notes  [][]note                 // numbered notes of every floor
	noted  map[cutopt.PieceRef]note // of the pieces that have one
	places []pocketPlace            // of every floor on the printed pocket sheet, where that is HTML
}

// newBook reads a plan and refuses one that does not hold together.
func newBook(job *cutopt.Job, plan *cutopt.Plan, opt *Options) (*book, error) {
	o, err := opt.resolve(job, plan)
	if err != nil {
		return nil, err
	}
	if err := checkJob(job); err != nil {
		return nil, err
	}
	if err := checkRows(plan); err != nil {
		return nil, err
	}
	lay, err := laying.FromPlan(job, plan)
	if err != nil {
		return nil, err
	}
	shapes, err := floorShapes(job, plan)
	if err != nil {
		return nil, err
	}
	b := &book{
		Speech: words.New(o.Language, o.Words, job.Unit, job.Rules.Grid),
		job:    job,
		plan:   plan,
		lay:    lay,
		opt:    o,
		look:   o.Theme.look(),
		shapes: shapes,
	}
	b.notes, b.noted = make([][]note, len(plan.Floors)), make(map[cutopt.PieceRef]note)
	for i := range plan.Floors {
		b.notes[i] = b.shapingNotes(i)
		for _, n := range b.notes[i] {
			for _, p := range n.pieces {
				b.noted[p.Ref] = n
			}
		}
	}
	return b, nil
}

// shared reports whether a plank gives more than one piece.
func (b *book) shared(plank int) bool { return len(b.lay.Planks[plank-1]) > 1 }

// floors lists the floors to draw by index.
func (b *book) floors() []int {
	if b.opt.Floor > 0 {
		return []int{b.opt.Floor - 1}
	}
	list := make([]int, len(b.plan.Floors))
	for i := range list {
		list[i] = i
	}
	return list
}

// fullTitle joins the name of a document and that of the job.
func (b *book) fullTitle(title string) string {
	if b.job.Name == "" {
		return title
	}
	return b.job.Name + " – " + title
}

// floorName returns the heading of a floor.
func (b *book) floorName(i int) string {
	return b.FloorName(b.plan, i)
}

// Sizes of the map, in points.
const (
	paperMargin = 36.0 // unprinted border of a page
	rowLeast    = 9.0  // a printed row is at least this high
	rowMost     = 24.0 // and at most this, so that a small room does not fill the sheet with air
	leftStrip   = 46.0 // depth dimension and row numbers
	rightStrip  = 54.0 // widths of ripped rows
	topStrip    = 42.0 // width dimension, starting wall, laying direction
	bottomStrip = 14.0
)

// mapPages draws every floor.
func (b *book) mapPages(s setting) iter.Seq[*draw.Drawing] {
	return func(yield func(*draw.Drawing) bool) {
		f := b.newFlow(s, b.Say("map"), yield)
		for _, i := range b.floors() {
			if f.stopped {
				return
			}
			b.mapOf(f, i)
			b.mapNotes(f, i)
		}
		if f.d == nil && f.page == 0 {
			f.turn()
			f.para(b.Say("nothing"), f.body())
		}
		f.finish()
	}
}

func (b *book) newFlow(s setting, title string, yield func(*draw.Drawing) bool) *flow {
	f := &flow{setting: s, look: b.look, title: b.fullTitle(title), yield: yield, w: s.width, h: s.height}
	if s.height > 0 {
		f.footer = func(page int) string {
			name := shorten(b.fullTitle(title), f.small(), f.inner()*0.8)
			return name + " · " + b.Say("page", "n", strconv.Itoa(page))
		}
	}
	return f
}

// mapOf draws one floor, in tiles where one page is too small.
func (b *book) mapOf(f *flow, i int) {
	tiles, scale, turn := b.mapPlace(f, i)
	for k, t := range tiles {
		h := topStrip + t.height()*scale + bottomStrip
		if f.height > 0 {
			turn()
		} else {
			f.skip(18)
			f.widen(2*f.margin + leftStrip + rightStrip + t.width()*scale)
		}
		b.mapHead(f, i, tiles, k)
		m := &mapper{book: b, d: f.d, floor: i, scale: scale, tile: t, tiles: tiles}
		m.untitled = len(b.lay.Pieces) > untitledFrom
		m.at = draw.Point{X: f.left() + leftStrip, Y: f.y + topStrip}
		m.draw()
		f.y += h
		b.mapFoot(f, i, scale)
	}
}

// mapPlace finds the tiles and the scale of a floor's map, and how the page is turned before each tile.
func (b *book) mapPlace(f *flow, i int) (tiles []tile, scale float64, turn func()) {
	inner, deep := f.width-2*f.margin, f.height-2*f.margin
	if f.running {
		if tiles, scale, turn = b.mapInText(f, i); tiles != nil {
			return tiles, scale, turn
		}
	}
	tiles, scale = b.tiling(i, inner, deep)
	if f.height > f.width && !f.upright {
		// A page on its side is taken when it needs fewer sheets, or shows the floor larger on as many.
		turned, bigger := b.tiling(i, deep, inner)
		if len(turned) < len(tiles) || len(turned) == len(tiles) && bigger > scale*1.05 {
			return turned, bigger, f.turnSideways
		}
	}
	return tiles, scale, f.turn
}

// Heights of rows on a map within text, in points.
const (
	rowInText = 12.0 // where they are lower, a page of its own, on its side, is tried
	rowBeside = 0.75 // of the height on a fresh page, or more, keeps a map on the page at work
	rowCloser = 0.5  // the same on a page of which less than half is used
)

// mapInText places a map on the page at work or on the next, so that text goes on below it, its remarks first: on the
// same page but where more than half of that would be left empty. It returns nil where the rows would be too low.
func (b *book) mapInText(f *flow, i int) (tiles []tile, scale float64, turn func()) {
	remarks := 0.0
	for _, text := range b.mapRemarks(i) {
		remarks += f.paraHeight(text, f.body()) + 2
	}
	tiles, full := b.tiling(i, f.inner(), f.bottom()-f.margin-remarks)
	if len(tiles) > 1 || full*float64(b.job.Plank.Width) < rowInText {
		return nil, 0, nil
	}
	if f.d == nil {
		return tiles, full, f.turn
	}
	beside := func(left, enough float64) bool {
		if left <= 0 {
			return false
		}
		here, smaller := b.tiling(i, f.inner(), left)
		if len(here) > 1 || smaller < full*enough {
			return false
		}
		tiles, scale = here, smaller
		return true
	}
	left := f.bottom() - f.y - 24
	if beside(left-remarks, rowBeside) || f.y < f.h/2 && (beside(left, rowBeside) || beside(left-remarks, rowCloser)) {
		return tiles, scale, func() { f.skip(12) }
	}
	return tiles, full, f.turn
}

// mapHead sets the title of a floor above its map.
func (b *book) mapHead(f *flow, i int, tiles []tile, k int) {
	floor := &b.plan.Floors[i]
	title := b.floorName(i)
	if b.job.Name != "" && b.job.Name != title {
		title += " · " + b.job.Name
	}
	if len(tiles) > 1 {
		title = b.Say("tile", "k", strconv.Itoa(k+1), "n", strconv.Itoa(len(tiles))) + " · " + title
	}
	f.para(shorten(title, f.head(13), f.inner()), f.head(13))
	size := b.Say("plank-size", "length", b.Length(b.job.Plank.Length), "width", b.Length(b.job.Plank.Width))
	parts := b.Count("rows", len(floor.Rows)) + " · " + size + " · " + b.Say("gap", "gap", b.Length(b.job.Rules.Gap))
	if len(tiles) > 1 {
		t := tiles[k]
		parts += " · " + b.Say("tile-rows", "from", strconv.Itoa(t.firstRow+1), "to", strconv.Itoa(t.lastRow+1))
		if t.columns > 1 {
			parts += " · " + b.Say("tile-part", "k", strconv.Itoa(t.column+1), "n", strconv.Itoa(t.columns))
		}
	}
	if turned := b.turnText(i); turned != "" {
		parts += " · " + turned
	}
	parts += b.lotOf(i)
	f.para(parts, f.small())
	f.y += 4
}

// mapFoot sets the legend and the scale bar.
func (b *book) mapFoot(f *flow, i int, scale float64) {
	x, y := f.left()+leftStrip, f.y+6
	d, size := f.d, 7.0
	for _, k := range []laying.Role{laying.RoleWhole, laying.RoleStarter, laying.RoleEnder, laying.RoleSingle} {
		fill, hatch := b.look.paint(k)
		ring := []draw.Point{{X: x, Y: y}, {X: x + 20, Y: y}, {X: x + 20, Y: y + 10}, {X: x, Y: y + 10}}
		d.Polygon(fill, draw.Pen{}, ring...)
		d.Hatch(hatch, b.hatchPen(), hatchStep, ring)
		d.Polygon(draw.None, draw.Pen{Colour: b.look.ink, Width: 0.5}, ring...)
		text := b.Say("legend." + kindKeys[k])
		d.Write(draw.Text{At: draw.Point{X: x + 24, Y: y + 7.6}, Str: text, Size: size, Colour: b.look.ink})
		x += 24 + draw.Width(text, size, false) + 12
	}
	if b.begun() {
		d.Rect(b.look.lies, draw.Pen{Colour: b.look.ink, Width: 0.5}, x, y, 20, 10)
		d.Write(draw.Text{At: draw.Point{X: x + 24, Y: y + 7.6}, Str: b.Say("legend.lies"), Size: size, Colour: b.look.ink})
	}
	f.y = y + 14
	x, y = f.left()+leftStrip, f.y
	x += b.badge(d, x, y+5, 7, 7, true) + 4
	text := b.Say("legend.shared", "unit", b.Say("unit."+b.Unit.String()))
	d.Write(draw.Text{At: draw.Point{X: x, Y: y + 7.6}, Str: text, Size: size, Colour: b.look.ink})
	f.y = y + 16
	b.scaleBar(d, f.left()+leftStrip, f.y, scale)
	f.y += 20
}

// mapNotes sets the numbered notes and the planner's remarks below a map.
func (b *book) mapNotes(f *flow, i int) {
	b = b.glued()
	for _, n := range b.notes[i] {
		f.para(fmt.Sprintf("%d  %s", n.number, b.noteText(n)), font{size: 8, colour: b.look.ink, indent: leftStrip})
	}
	for _, text := range b.Facts(b.job, b.plan.Floors[i].Facts) {
		f.para("– "+text, font{size: 8, colour: b.look.ink, indent: leftStrip})
	}
}

// scaleBar draws a bar of a round length.
func (b *book) scaleBar(d *draw.Drawing, x, y, scale float64) {
	unit, name := float64(measure.Foot), " ft"
	if b.Unit.Metric() {
		unit, name = float64(measure.Metre), " m"
	}
	steps := []float64{1, 2, 3, 5, 10, 20, 50, 100, 200, 500}
	n := steps[0]
	for _, s := range steps {
		if s*unit*scale <= 160 {
			n = s
		}
	}
	w := n * unit * scale
	for k := range 4 {
		fill := b.look.ink
		if k%2 == 1 {
			fill = b.look.paper
		}
		d.Rect(fill, draw.Pen{Colour: b.look.ink, Width: 0.5}, x+float64(k)*w/4, y, w/4, 4)
	}
	d.Write(draw.Text{At: draw.Point{X: x, Y: y + 12}, Str: "0", Size: 7, Colour: b.look.soft})
	d.Write(
		draw.Text{
			At:     draw.Point{X: x + w, Y: y + 12},
			Str:    strconv.Itoa(int(math.Round(n))) + name,
			Size:   7,
			Colour: b.look.soft,
			Anchor: draw.Middle,
		},
	)
}
