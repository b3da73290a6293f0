package sheet

import (
	"slices"
	"strconv"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
)

// Sizes of the pictures of shaped pieces, in points.
const (
	shapeLead = 34.0 // dimensions across the piece
	shapeMost = 64.0 // height of a piece
	mostMarks = 9    // a curve with more corners than this is told by its corners in words
)

// shapePictures draws every piece that is no rectangle, with the distances of its corners.
func (b *book) shapePictures(f *flow) {
	var all []note
	for _, notes := range b.notes {
		for _, n := range notes {
			if len(n.piece.Shape) > 2 {
				all = append(all, n)
			}
		}
	}
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
func (b *book) shapeScale(n note, column float64) float64 {
	row := &b.plan.Floors[n.piece.Ref.Floor].Rows[n.piece.Ref.Row]
	return min((column-shapeLead)/float64(n.piece.Length), shapeMost/float64(row.Width))
}

func (b *book) shapeHeight(n note, column float64) float64 {
	row := &b.plan.Floors[n.piece.Ref.Floor].Rows[n.piece.Ref.Row]
	return float64(row.Width)*b.shapeScale(n, column) + 46
}

// shapePicture draws one piece as it lies, its edge towards the starting wall at the top.
func (b *book) shapePicture(d *draw.Drawing, n note, x, y, column float64) {
	const size = 7.0
	p := n.piece
	row := &b.plan.Floors[p.Ref.Floor].Rows[p.Ref.Row]
	scale := b.shapeScale(n, column)
	title := b.Say(
		"shapes.title",
		"n",
		strconv.Itoa(n.number),
		"row",
		strconv.Itoa(p.Ref.Row+1),
		"kind",
		b.Say("kind."+kindKeys[p.Role]),
		"plank",
		strconv.Itoa(p.Plank),
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
	b.slits(d, &p.Piece, func(x, y measure.Length) draw.Point {
		return at(cutopt.Point{X: p.From + x, Y: row.From + y})
	})
	b.shapeMarks(d, distinct(xs), corner.X, far.Y, scale, size, false)
	b.shapeMarks(d, distinct(ys), corner.Y, corner.X, scale, size, true)
}

// distinct sorts lengths and drops repeats.
func distinct(list []measure.Length) []measure.Length {
	slices.Sort(list)
	return slices.Compact(list)
}

// shapeMarks writes the distances of corners along the lower or the left side of a piece; crowded ones step outwards.
func (b *book) shapeMarks(d *draw.Drawing, list []measure.Length, from, base, scale, size float64, upright bool) {
	if len(list) > mostMarks {
		return
	}
	pen := draw.Pen{Colour: b.look.soft, Width: 0.4}
	last, level := -1e9, 0.0
	for _, l := range list {
		text := b.Bare(l)
		c := from + float64(l)*scale
		if upright {
			if c-last < size {
				continue
			}
			last = c
			d.Line(pen, draw.Point{X: base - 4, Y: c}, draw.Point{X: base - 1, Y: c})
			d.Write(
				draw.Text{
					At:     draw.Point{X: base - 6, Y: c + size*0.36},
					Str:    text,
					Size:   size,
					Colour: b.look.ink,
					Anchor: draw.End,
				},
			)
			continue
		}
		w := draw.Width(text, size, false)
		if c-w/2 < last+3 {
			level = size + 1 - level
		} else {
			level = 0
		}
		last = c + w/2
		d.Line(pen, draw.Point{X: c, Y: base + 1}, draw.Point{X: c, Y: base + 4 + level})
		d.Write(
			draw.Text{
				At:     draw.Point{X: c, Y: base + 11 + level},
				Str:    text,
				Size:   size,
				Colour: b.look.ink,
				Anchor: draw.Middle,
			},
		)
	}
}
