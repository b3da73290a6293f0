package sheet

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
)

// Sizes of the pictures of shaped pieces, in points.
const (
	shapeLead = 34.0 // dimensions across the piece
	shapeMost = 64.0 // height of a piece
	mostMarks = 9    // a curve with more corners than this is told by its corners in words
	markSize  = 7.0  // of their figures
	markStep  = 8.0  // between levels of figures
)

// A shaped is a piece that is no rectangle, with the planks of all those of its note that are as long.
type shaped struct {
	note   int
	piece  *laying.Piece
	planks []string
}

// shapedPieces lists the pieces to draw, each shape and length of a note once.
func (b *book) shapedPieces() []*shaped {
	var all []*shaped
	for _, notes := range b.notes {
		for _, n := range notes {
			var own []*shaped
			for _, p := range n.pieces {
				if len(p.Shape) < 3 {
					continue
				}
				at := slices.IndexFunc(own, func(s *shaped) bool {
					return s.piece.Role == p.Role && s.piece.Length == p.Length
				})
				if at < 0 {
					at, own = len(own), append(own, &shaped{note: n.number, piece: p})
				}
				own[at].planks = append(own[at].planks, strconv.Itoa(p.Plank))
			}
			all = append(all, own...)
		}
	}
	return all
}

// shapePictures draws the pieces that are no rectangles, with the distances of their corners.
func (b *book) shapePictures(f *flow) {
	all := b.shapedPieces()
	if len(all) == 0 {
		return
	}
	column := (f.inner() - stripGap) / 2
	pairHeight := func(i int) float64 {
		height := 0.0
		for _, n := range all[i:min(i+2, len(all))] {
			height = max(height, b.shapeHeight(n, column))
		}
		return height
	}
	f.heading(b.Say("shapes"), 11, pairHeight(0)+f.paraHeight(b.Say("shapes.read"), f.small())+9)
	f.para(b.Say("shapes.read"), f.small())
	f.skip(6)
	for i := 0; i < len(all) && !f.stopped; i += 2 {
		pair := all[i:min(i+2, len(all))]
		height := pairHeight(i)
		f.need(height)
		for k, n := range pair {
			b.shapePicture(f.d, n, f.left()+float64(k)*(column+stripGap), f.y, column)
		}
		f.y += height
	}
}

// shapeScale returns points a tick for a piece in a column.
func (b *book) shapeScale(n *shaped, column float64) float64 {
	row := &b.plan.Floors[n.piece.Ref.Floor].Rows[n.piece.Ref.Row]
	return min((column-shapeLead)/float64(n.piece.Length), shapeMost/float64(row.Width))
}

func (b *book) shapeHeight(n *shaped, column float64) float64 {
	row := &b.plan.Floors[n.piece.Ref.Floor].Rows[n.piece.Ref.Row]
	scale, level := b.shapeScale(n, column), 1
	var xs []measure.Length
	for _, c := range n.piece.Shape {
		xs = append(xs, c.X-n.piece.From)
	}
	for _, m := range b.marksOf(distinct(xs), scale) {
		level = max(level, m.level)
	}
	return float64(row.Width)*scale + 38 + float64(level)*markStep
}

// shapePicture draws one piece as it lies, its edge towards the starting wall at the top.
func (b *book) shapePicture(d *draw.Drawing, n *shaped, x, y, column float64) {
	p := n.piece
	row := &b.plan.Floors[p.Ref.Floor].Rows[p.Ref.Row]
	scale := b.shapeScale(n, column)
	title := b.Say(
		"shapes.title",
		"n",
		strconv.Itoa(n.note),
		"row",
		strconv.Itoa(p.Ref.Row+1),
		"kind",
		b.Say("kind."+kindKeys[p.Role]),
		"plank",
		strings.Join(n.planks, ", "),
	)
	if len(b.plan.Floors) > 1 {
		title += " · " + b.floorName(p.Ref.Floor)
	}
	ft := font{size: 7.5, bold: true}
	d.Write(
		draw.Text{
			At:     draw.Point{X: x, Y: y + 8},
			Str:    shorten(title, ft, column),
			Size:   ft.size,
			Bold:   true,
			Colour: b.look.ink,
		},
	)
	x, y = x+shapeLead, y+14
	at := func(c cutopt.Point) draw.Point {
		return draw.Point{X: x + float64(c.X-p.From)*scale, Y: y + float64(c.Y-row.From)*scale}
	}
	corner, far := at(cutopt.Point{X: p.From, Y: row.From}), at(cutopt.Point{X: p.To, Y: row.To})
	d.Rect(
		draw.None,
		draw.Pen{Colour: b.look.soft, Width: 0.5, Dash: 2},
		corner.X,
		corner.Y,
		far.X-corner.X,
		far.Y-corner.Y,
	)
	ring := make([]draw.Point, len(p.Shape))
	var xs, ys []measure.Length
	for i, c := range p.Shape {
		ring[i] = at(c)
		xs, ys = append(xs, c.X-p.From), append(ys, c.Y-row.From)
	}
	fill, hatch := b.look.paintOf(p)
	d.Polygon(fill, draw.Pen{}, ring...)
	d.Hatch(hatch, b.hatchPen(), hatchStep, ring)
	d.Add(draw.Path{Lines: rims(ring), Closed: true, Fill: draw.None, Pen: draw.Pen{Colour: b.look.ink, Width: 0.9}})
	b.slits(d, p.Piece, func(x, y measure.Length) draw.Point {
		return at(cutopt.Point{X: p.From + x, Y: row.From + y})
	})
	b.marksBelow(d, b.marksOf(distinct(xs), scale), corner.X, far.Y)
	b.marksBeside(d, b.marksOf(distinct(ys), scale), corner.X, corner.Y)
}

// distinct sorts lengths and drops repeats.
func distinct(list []measure.Length) []measure.Length {
	slices.Sort(list)
	return slices.Compact(list)
}

// A mark is a distance of corners beside a piece: what it says and how far along it stands, in points.
type mark struct {
	text  string
	at    float64
	level int // how far out, below the piece
}

// marksOf returns the distances of corners, each figure once; crowded ones below a piece step outwards. There are none
// of a shape with very many corners.
func (b *book) marksOf(list []measure.Length, scale float64) []mark {
	if len(list) > mostMarks {
		return nil
	}
	var marks []mark
	var ends []float64 // of the figures of each level
	for _, l := range list {
		m := mark{text: b.Bare(l), at: float64(l) * scale}
		if n := len(marks); n > 0 && marks[n-1].text == m.text {
			continue
		}
		w := draw.Width(m.text, markSize, false)
		for m.level < len(ends) && m.at-w/2 < ends[m.level]+3 {
			m.level++
		}
		if m.level == len(ends) {
			ends = append(ends, 0)
		}
		ends[m.level] = m.at + w/2
		marks = append(marks, m)
	}
	return marks
}

// marksBelow writes distances along the lower side of a piece.
func (b *book) marksBelow(d *draw.Drawing, marks []mark, left, base float64) {
	for _, m := range marks {
		x, down := left+m.at, float64(m.level)*markStep
		d.Line(draw.Pen{Colour: b.look.soft, Width: 0.4}, draw.Point{X: x, Y: base + 1}, draw.Point{X: x, Y: base + 4 + down})
		d.Write(draw.Text{
			At: draw.Point{X: x, Y: base + 11 + down}, Str: m.text, Size: markSize, Colour: b.look.ink, Anchor: draw.Middle,
		})
	}
}

// marksBeside writes distances along the left side of a piece, those that have room.
func (b *book) marksBeside(d *draw.Drawing, marks []mark, left, top float64) {
	last := math.Inf(-1)
	for _, m := range marks {
		y := top + m.at
		if y-last < markSize {
			continue
		}
		last = y
		d.Line(draw.Pen{Colour: b.look.soft, Width: 0.4}, draw.Point{X: left - 4, Y: y}, draw.Point{X: left - 1, Y: y})
		d.Write(draw.Text{
			At: draw.Point{X: left - 6, Y: y + markSize*0.36}, Str: m.text, Size: markSize, Colour: b.look.ink, Anchor: draw.End,
		})
	}
}
