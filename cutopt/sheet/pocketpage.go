package sheet

import (
	"fmt"
	"iter"
	"strings"

	"plank.example/cutopt/sheet/internal/draw"
)

// Sizes of the pocket sheet, in points.
const (
	pocketMargin = 30.0
	pocketTitle  = 10.0 // size of a floor's heading
	pocketLine   = 7.2  // size of the lines
	pocketSpace  = 1.6  // below each
	pocketRow    = 6.0  // a row on the map is at least this high
	pocketMost   = 18.0 // and at most this
	pocketShare  = 0.55 // of a page, for the rows of a map whose lines take more than the page
)

// pocketPages sets the pocket sheet.
func (b *book) pocketPages(s setting) iter.Seq[*draw.Drawing] {
	s.margin = pocketMargin
	return func(yield func(*draw.Drawing) bool) {
		f := b.newFlow(s, b.Say("pocket"), yield)
		b.pocketText(f, 0)
		f.finish()
	}
}

// pocketText sets the pocket sheet, with so much space more below its head.
func (b *book) pocketText(f *flow, space float64) {
	f.need(60)
	f.para(b.fullTitle(b.Say("pocket")), f.head(12))
	f.y += space
	for _, k := range b.pocketOrder() {
		ft := f.lines()
		ft.bold = k.Strong
		f.para(k.Text, ft)
	}
	for _, k := range b.pocketReading() {
		f.para(k.Text, f.small())
	}
	for first := 0; first < len(b.plan.Floors) && !f.stopped; {
		first = b.pocketPage(f, first)
	}
}

// A pocketPart is a floor with its lines broken.
type pocketPart struct {
	floor   int
	lines   *tabulation
	remarks string
	fixed   float64 // height of all but the rows of the map
}

func (b *book) pocketPart(f *flow, i int) pocketPart {
	table := b.pocketTable(i)
	p := pocketPart{floor: i, remarks: b.pocketRemarks(i)}
	p.lines = f.tabulate(table.Head, table.Rows, pocketLine, pocketSpace)
	p.fixed = pocketTitle*2.1 + topStrip + bottomStrip + p.lines.height() + 4
	if p.remarks != "" {
		p.fixed += f.paraHeight(p.remarks, f.smallInk())
	}
	return p
}

// pocketPage sets floors from the first one given, as many as the page holds with their rows at least pocketRow high,
// all maps then with rows as high as it holds; one whose lines do not fit on a page goes on on the next. It returns the
// first floor that is not set yet.
func (b *book) pocketPage(f *flow, first int) int {
	var parts []pocketPart
	rest := f.bottom() - f.y
	for i := first; i < len(b.plan.Floors); i++ {
		p := b.pocketPart(f, i)
		need := p.fixed + b.pocketMap(f, i, pocketRow)
		if len(parts) == 0 && need > rest && first > 0 && f.y > f.margin {
			f.turn()
			rest = f.bottom() - f.y
		}
		if rest -= need; rest < 0 && len(parts) > 0 {
			break
		}
		parts = append(parts, p)
	}
	fits := func(row float64) bool {
		sum := 0.0
		for _, p := range parts {
			sum += p.fixed + b.pocketMap(f, p.floor, row)
		}
		return sum <= f.bottom()-f.y
	}
	if !fits(pocketRow) { // the lines go on on the next page, which has some of them
		fits = func(row float64) bool { return b.pocketMap(f, first, row) <= (f.bottom()-f.y)*pocketShare }
	}
	row := pocketMost
	for row > pocketRow && !fits(row) {
		row -= 0.25
	}
	for _, p := range parts {
		b.pocketFloorOn(f, p, row)
	}
	return first + len(parts)
}

// pocketMap returns how high the rows of a floor's map are together, where one is so high.
func (b *book) pocketMap(f *flow, i int, row float64) float64 {
	return (b.shapes[i].max.Y - b.shapes[i].min.Y) * b.pocketScale(i, f.inner(), row)
}

// pocketScale returns the scale of a floor's map where a row is so high, less where the floor is then too wide.
func (b *book) pocketScale(i int, width, row float64) float64 {
	s := &b.shapes[i]
	return min(row/float64(b.job.Plank.Width), (width-leftStrip-rightStrip-2*rim)/max(1, s.max.X-s.min.X))
}

// pocketFloorOn sets a floor. A map that is higher than a page is drawn smaller.
func (b *book) pocketFloorOn(f *flow, p pocketPart, row float64) {
	title := f.head(pocketTitle)
	f.skip(title.size * 0.7)
	scale, deep := b.pocketScale(p.floor, f.inner(), row), max(1, b.shapes[p.floor].max.Y-b.shapes[p.floor].min.Y)
	scale = min(scale, (f.bottom()-f.margin-topStrip-bottomStrip-60)/deep)
	f.need(title.size*1.4 + topStrip + deep*scale + bottomStrip)
	page := f.page
	f.para(shorten(b.pocketTitle(p.floor), title, f.inner()), title)
	b.wholeMap(f, p.floor, scale)
	f.tabulated(p.lines)
	if p.remarks != "" {
		f.para(p.remarks, f.smallInk())
	}
	f.places = append(f.places, pocketPlace{scale, page, f.page})
}

// wholeMap draws a floor at a scale, without title and legend.
func (b *book) wholeMap(f *flow, i int, scale float64) {
	s := &b.shapes[i]
	whole := tile{min: s.min, max: s.max, lastRow: len(b.plan.Floors[i].Rows) - 1}
	f.need(topStrip + whole.height()*scale + bottomStrip)
	m := &mapper{book: b, d: f.d, floor: i, scale: scale, tile: whole, tiles: []tile{whole}}
	m.untitled = len(b.lay.Pieces) > untitledFrom
	m.at = draw.Point{X: f.left() + leftStrip, Y: f.y + topStrip}
	if !f.blind {
		m.draw()
	}
	f.y += topStrip + whole.height()*scale + bottomStrip
}

// A pocketPlace is where a floor stands on the pocket sheet.
type pocketPlace struct {
	scale       float64 // of its map
	first, last int     // pages
}

// Sizes of the printed HTML pocket sheet, in points. The browser sets it, nearly as the PDF is set: what it may need
// more is left free.
const (
	htmlMargin = 23.0 // 8 mm, at every side
	htmlSpare  = 0.04 // of a page
	htmlHead   = 12.0 // what the head takes more
)

// pocketPlaces measures where each floor stands when the HTML pocket sheet is printed.
func (b *book) pocketPlaces() []pocketPlace {
	width, height := b.opt.Paper.size()
	f := b.newFlow(setting{
		width: width, height: height - htmlSpare*(height-2*htmlMargin), margin: htmlMargin, upright: true,
	}, "", func(*draw.Drawing) bool { return true })
	f.blind = true
	b.pocketText(f, htmlHead)
	return f.places
}

// pocketOnScreen draws the map of a floor as the HTML pocket sheet has it, at the scale at which it is printed.
func (b *book) pocketOnScreen(f *flow, i int) { b.wholeMap(f, i, b.places[i].scale) }

// pocketStyle sizes the maps of the printed HTML pocket sheet, and turns its pages where the measured ones are turned.
func (b *book) pocketStyle() string {
	var rules strings.Builder
	for i, place := range b.places {
		s := &b.shapes[i]
		height := topStrip + (s.max.Y-s.min.Y)*place.scale + bottomStrip
		fmt.Fprintf(&rules, "#floor-%d .picture>figure svg{height:%.1fpt}", i+1, height)
		if i > 0 && place.first > b.places[i-1].last {
			fmt.Fprintf(&rules, "#floor-%d{break-before:page}", i+1)
		}
	}
	return "@media print{.pocket .picture>figure svg{width:auto!important;max-width:100%;margin:0 auto 0 0}" +
		rules.String() + "}\n"
}
