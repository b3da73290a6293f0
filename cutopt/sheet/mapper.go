package sheet

import (
	"math"
	"strconv"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
)

// hatchStep is the distance between hatch lines, in points.
const hatchStep = 4.5

// untitledFrom is how many pieces a plan has before titles for screens would outweigh its maps.
const untitledFrom = 4000

// kindKeys name the kinds in the keys of words.
var kindKeys = [...]string{"whole", "starter", "ender", "only"}

// paint returns how a kind of piece is filled and hatched.
func (l look) paint(k laying.Role) (draw.Colour, draw.Hatch) {
	switch k {
	case laying.RoleStarter:
		return l.starter, draw.HatchRising
	case laying.RoleEnder:
		return l.ender, draw.HatchFalling
	case laying.RoleSingle:
		return l.only, draw.HatchCross
	}
	return l.whole, draw.HatchNone
}

func (b *book) hatchPen() draw.Pen { return draw.Pen{Colour: b.look.hatch, Width: 0.35} }

// A mapper draws one tile of a floor.
type mapper struct {
	*book
	d        *draw.Drawing
	floor    int
	scale    float64    // points a tick
	at       draw.Point // where the tile's corner lies on the page
	tile     tile
	tiles    []tile
	named    map[cutopt.PieceRef]string // the pieces that carry the names of rooms
	untitled bool                       // no titles for screens: they would outweigh a large floor
}

// place maps the floor's own axes onto the page.
func (m *mapper) place(s spot) draw.Point {
	return draw.Point{X: m.at.X + (s.X-m.tile.min.X)*m.scale, Y: m.at.Y + (s.Y-m.tile.min.Y)*m.scale}
}

func (m *mapper) ring(spots []spot) []draw.Point {
	ring := make([]draw.Point, len(spots))
	for i, s := range spots {
		ring[i] = m.place(s)
	}
	return ring
}

// draw draws the tile from the ground up.
func (m *mapper) draw() {
	lo, hi := m.place(m.tile.min), m.place(m.tile.max)
	if len(m.tiles) > 1 {
		m.d.Add(draw.Clip{Min: draw.Point{X: lo.X - rim, Y: lo.Y - rim}, Max: draw.Point{X: hi.X + rim, Y: hi.Y + rim}})
	}
	s := &m.shapes[m.floor]
	m.named = m.roomLabels(m.floor)
	for _, r := range s.rooms {
		m.d.Polygon(m.look.paper, draw.Pen{}, m.ring(r.outline)...)
	}
	for j := m.tile.firstRow; j <= m.tile.lastRow && j < len(m.lay.Floors[m.floor]); j++ {
		m.d.Add(draw.Link{To: rowID(m.floor, j), Name: m.Say("row-link", "row", strconv.Itoa(j+1))})
		m.row(j)
		m.d.Add(draw.Link{})
	}
	for _, r := range s.rooms {
		for k, island := range r.islands {
			m.island(island, r.room.Islands[k].Name)
		}
		for k := range r.pipes {
			m.pipe(&r.pipes[k])
		}
	}
	for i := range s.rooms {
		m.walls(&s.rooms[i])
	}
	m.notesOnMap()
	m.d.Add(draw.Clip{})
	m.wallFigures(lo, hi)
	m.margins(lo, hi)
}

// row draws the pieces of a row: paint first, then borders, then labels.
func (m *mapper) row(j int) {
	row := &m.plan.Floors[m.floor].Rows[j]
	var seen []*laying.Piece
	for _, run := range m.lay.Floors[m.floor][j].Runs {
		for _, p := range run.Pieces {
			if float64(p.To) > m.tile.min.X && float64(p.From) < m.tile.max.X {
				seen = append(seen, p)
			}
		}
	}
	border := draw.Pen{Colour: m.look.ink, Width: 0.5}
	for _, p := range seen {
		fill, hatch := m.look.paintOf(p)
		ring := m.ring(ringOf(row, p.Piece))
		path := draw.Path{Lines: [][]draw.Point{ring}, Closed: true, Fill: fill}
		if !m.untitled {
			path.Title = m.pieceTitle(p)
		}
		m.d.Add(path)
		m.d.Hatch(hatch, m.hatchPen(), hatchStep, ring)
		m.d.Add(draw.Path{Lines: rims(ring), Closed: true, Fill: draw.None, Pen: border})
	}
	for _, p := range seen {
		m.slits(m.d, p.Piece, func(x, y measure.Length) draw.Point {
			return m.place(spot{X: float64(p.From + x), Y: float64(row.From + y)})
		})
	}
	for _, p := range seen {
		m.label(row, p)
	}
}

// pieceTitle says what a piece is.
func (b *book) pieceTitle(p *laying.Piece) string {
	length := b.Length(p.Length)
	if p.AsItComes > 0 {
		length = b.Say("as-it-comes", "range", b.Range(p.Length, p.AsItComes))
	}
	return b.Say("piece-title", "row", strconv.Itoa(p.Ref.Row+1), "kind", b.Say("kind."+kindKeys[p.Role]),
		"length", length, "plank", strconv.Itoa(p.Plank))
}

// island draws a fixed thing with a cross over its extent and its name.
func (m *mapper) island(outline []spot, name string) {
	if len(outline) < 3 {
		return
	}
	ring := m.ring(outline)
	m.d.Polygon(m.look.fixed, draw.Pen{Colour: m.look.ink, Width: 1}, ring...)
	m.d.Hatch(draw.HatchUpright, draw.Pen{Colour: m.look.paper, Width: 0.6}, 3, ring)
	slot := widest(ring, 4, nil)
	ft := font{size: 8, bold: true}
	for ft.size > 5 && draw.Width(name, ft.size, true) > slot.width()-4 {
		ft.size--
	}
	text := shorten(name, ft, slot.width()-4)
	if text == "" {
		return
	}
	w := draw.Width(text, ft.size, true)
	m.d.Rect(m.look.paper, draw.Pen{}, slot.middle()-w/2-2, slot.y-5, w+4, 10)
	m.d.Write(draw.Text{
		At: draw.Point{
			X: slot.middle(),
			Y: slot.y + 3,
		}, Str: text, Size: ft.size, Bold: true, Colour: m.look.ink, Anchor: draw.Middle,
	})
}

// pipe draws a round thing, at least so large that it is seen, and its name beside it where there is room within.
func (m *mapper) pipe(p *pipeShape) {
	radius := max(p.radius*m.scale, 1)
	c := m.place(p.middle)
	m.d.Circle(m.look.fixed, draw.Pen{Colour: m.look.ink, Width: 0.8}, c, radius)
	ft := font{size: 7, bold: true}
	if text := shorten(p.name, ft, 2*radius-4); text != "" && text == p.name {
		w := draw.Width(text, ft.size, true)
		m.d.Rect(m.look.paper, draw.Pen{}, c.X-w/2-2, c.Y-5, w+4, 10)
		m.d.Write(draw.Text{
			At: draw.Point{X: c.X, Y: c.Y + 2.5}, Str: text, Size: ft.size, Bold: true, Colour: m.look.ink,
			Anchor: draw.Middle,
		})
	}
}

// slits draws the two cuts of each slit of a piece; at maps places from the piece's left end and its front edge.
func (b *book) slits(d *draw.Drawing, p *cutopt.Piece, at func(x, y measure.Length) draw.Point) {
	pen := draw.Pen{Colour: b.look.accent, Width: 1}
	for i := range p.Shaping {
		f := &p.Shaping[i]
		if f.Kind != cutopt.FactSlit {
			continue
		}
		x0, y0, x1, y1 := f.At, f.Across, f.At+f.Length, f.Across+f.Width
		if f.Edge == cutopt.EdgesFront || f.Edge == cutopt.EdgesBack {
			d.Line(pen, at(x0, y0), at(x0, y1))
			d.Line(pen, at(x1, y0), at(x1, y1))
		} else {
			d.Line(pen, at(x0, y0), at(x1, y0))
			d.Line(pen, at(x0, y1), at(x1, y1))
		}
	}
}

// margins draws what stands around a tile: row numbers, ripped widths, the starting wall and the laying direction.
func (m *mapper) margins(lo, hi draw.Point) {
	rows := m.plan.Floors[m.floor].Rows
	rowHeight := float64(m.job.Plank.Width) * m.scale
	every := max(1, int(math.Ceil(7/rowHeight)))
	size := min(8, max(6, rowHeight*0.5))
	for j := m.tile.firstRow; j <= m.tile.lastRow && j < len(rows); j++ {
		y := m.place(spot{Y: (float64(rows[j].From) + float64(rows[j].To)) / 2}).Y + size*0.36
		if (j+1)%every == 0 || j == 0 {
			m.d.Write(
				draw.Text{
					At:     draw.Point{X: lo.X - 18, Y: y},
					Str:    strconv.Itoa(j + 1),
					Size:   size,
					Bold:   true,
					Colour: m.look.ink,
					Anchor: draw.End,
				},
			)
		}
		if text := m.ripMark(m.lay.Floors[m.floor][j]); text != "" {
			m.d.Write(
				draw.Text{
					At:     draw.Point{X: hi.X + 18, Y: y},
					Str:    text,
					Size:   min(size, 7),
					Colour: m.look.ink,
				},
			)
		}
	}
	m.startingWall(lo, hi)
	m.sketchArrow(hi, lo.Y)
	m.dimensions(lo, hi)
}

// startingWall names the wall at the top and shows which way rows are laid.
func (m *mapper) startingWall(lo, hi draw.Point) {
	y := lo.Y - 17
	accent := m.look.accent
	if m.tile.firstRow == 0 {
		m.d.Rect(accent, draw.Pen{}, lo.X, lo.Y-6, hi.X-lo.X, 2)
	}
	ft := font{size: 7.5, bold: true}
	text := m.Say("starting-wall")
	if m.tile.firstRow > 0 {
		text = m.Say("towards-start")
	}
	text = shorten(text, ft, (hi.X-lo.X)*0.6)
	m.d.Write(
		draw.Text{
			At:     draw.Point{X: (lo.X + hi.X) / 2, Y: y},
			Str:    text,
			Size:   ft.size,
			Bold:   true,
			Colour: accent,
			Anchor: draw.Middle,
		},
	)
	half, gap := draw.Width(text, ft.size, true)/2, 8.0
	length := min(60, (hi.X-lo.X)/2-half-gap)
	if length < 12 {
		return
	}
	pen := draw.Pen{Colour: accent, Width: 1.4}
	from, to := (lo.X+hi.X)/2+half+gap, (lo.X+hi.X)/2+half+gap+length
	if m.plan.Floors[m.floor].LaidFrom == cutopt.HandRight {
		from, to = (lo.X+hi.X)/2-half-gap, (lo.X+hi.X)/2-half-gap-length
	}
	m.d.Arrow(pen, 7, draw.Point{X: from, Y: y - 2.7}, draw.Point{X: to, Y: y - 2.7})
}

// dimensions draws the extent of the floor across the top and down the left side.
func (m *mapper) dimensions(lo, hi draw.Point) {
	s := &m.shapes[m.floor]
	first, last := s.extent()
	pen := draw.Pen{Colour: m.look.soft, Width: 0.5}
	text := func(v float64) string { return m.Length(roundTicks(v)) }
	y := lo.Y - 29
	m.d.Line(pen, draw.Point{X: lo.X, Y: y}, draw.Point{X: hi.X, Y: y})
	m.tick(pen, m.place(first).X, y, lo.X, hi.X, true)
	m.tick(pen, m.place(last).X, y, lo.X, hi.X, true)
	m.gapText(text(last.X-first.X), draw.Point{X: (lo.X + hi.X) / 2, Y: y}, false)
	x := lo.X - 36
	m.d.Line(pen, draw.Point{X: x, Y: lo.Y}, draw.Point{X: x, Y: hi.Y})
	m.tick(pen, x, m.place(first).Y, lo.Y, hi.Y, false)
	m.tick(pen, x, m.place(last).Y, lo.Y, hi.Y, false)
	m.gapText(text(last.Y-first.Y), draw.Point{X: x, Y: (lo.Y + hi.Y) / 2}, true)
}

// tick ends a dimension line, where its end is on this tile.
func (m *mapper) tick(pen draw.Pen, x, y, lo, hi float64, across bool) {
	v := y
	if across {
		v = x
	}
	if v < lo-1 || v > hi+1 {
		return
	}
	m.d.Line(pen, draw.Point{X: x - 2.5, Y: y + 2.5}, draw.Point{X: x + 2.5, Y: y - 2.5})
}

// gapText sets a dimension's figure in a gap of its line.
func (m *mapper) gapText(text string, c draw.Point, up bool) {
	const size = 7.5
	w := draw.Width(text, size, false)
	t := draw.Text{At: draw.Point{X: c.X, Y: c.Y + 2.6}, Str: text, Size: size, Colour: m.look.ink, Anchor: draw.Middle}
	if up {
		m.d.Rect(m.look.paper, draw.Pen{}, c.X-5, c.Y-w/2-3, 10, w+6)
		t.At, t.Up = draw.Point{X: c.X + 2.6, Y: c.Y}, true
	} else {
		m.d.Rect(m.look.paper, draw.Pen{}, c.X-w/2-3, c.Y-5, w+6, 10)
	}
	m.d.Write(t)
}
