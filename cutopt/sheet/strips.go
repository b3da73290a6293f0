package sheet

import (
	"cmp"
	"iter"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
)

// A segment is a stretch of a plank between two cuts: a piece, or what is left over.
type segment struct {
	from, to measure.Length
	piece    *laying.Piece // nil for what is left over
}

// segments lists a plank's segments from its left end. Sawdust belongs to none.
func (b *book) segments(i int) []segment {
	var list []segment
	left := b.plan.Planks[i].Left
	for _, p := range b.lay.Planks[i] {
		for len(left) > 0 && left[0].From < p.At {
			list, left = append(list, segment{from: left[0].From, to: left[0].To}), left[1:]
		}
		s := segment{from: p.At, to: p.At + p.Length, piece: p}
		if p.AsItComes > 0 && p.Source != nil {
			s.from, s.to = p.Source.From, p.Source.To
		}
		list = append(list, s)
	}
	for _, o := range left {
		list = append(list, segment{from: o.From, to: o.To})
	}
	return list
}

// Sizes of the plank sheet, in points.
const (
	stripHeight = 15.0
	stripPitch  = 36.0
	stripGap    = 22.0  // between the two columns
	stripsHead  = 120.0 // explanation and first strips stay with the heading
)

// stripPages draws the strips in two columns.
func (b *book) stripPages(s setting) iter.Seq[*draw.Drawing] {
	return func(yield func(*draw.Drawing) bool) {
		f := b.newFlow(s, b.Say("strips"), yield)
		f.heading(b.Say("strips"), 13, stripsHead)
		b.strips(f)
		f.finish()
	}
}

// strips sets the explanation and all strips.
func (b *book) strips(f *flow) {
	f.para(b.Say("cuts.order"), f.body())
	f.para(b.Say("strips.read"), f.small())
	f.skip(8)
	column, place := (f.inner()-stripGap)/2, 0
	for i := range b.lay.Planks {
		if f.stopped {
			return
		}
		if b.uncut(i) || b.done(i) {
			continue
		}
		if place%2 == 0 {
			if place > 0 {
				f.y += stripPitch
			}
			f.need(stripPitch)
		}
		b.strip(f.d, i, f.left()+float64(place%2)*(column+stripGap), f.y, column)
		place++
	}
	if place > 0 {
		f.y += stripPitch
	}
	if list, n := b.numbers(b.uncut); n > 0 {
		f.skip(4)
		f.para(b.Count("strips.whole", n)+" "+list+".", f.body())
	}
	b.shapePictures(f)
}

// uncut reports whether a plank is laid at its full length and without a notch.
func (b *book) uncut(i int) bool {
	pieces := b.lay.Planks[i]
	return !b.done(i) && len(pieces) == 1 && pieces[0].Role == laying.RoleWhole && b.shaping(pieces[0]) == ""
}

// strip draws a plank between x and x+width, its number before it and the cuts below it.
func (b *book) strip(d *draw.Drawing, i int, x, y, width float64) {
	const lead = 30.0
	ink := draw.Pen{Colour: b.look.ink, Width: 0.6}
	size := 7.5
	b.badge(d, x, y+stripHeight/2, i+1, size, b.shared(i+1))
	x += lead
	scale := (width - lead) / float64(b.job.Plank.Length)
	at := func(l measure.Length) float64 { return x + float64(l)*scale }
	right := at(b.job.Plank.Length)
	for _, s := range b.segments(i) {
		b.stripSegment(d, s, at(s.from), at(s.to), y)
	}
	d.Rect(draw.None, ink, x, y, right-x, stripHeight)
	// Factory ends: a double line.
	d.Line(draw.Pen{Colour: b.look.ink, Width: 1.6}, draw.Point{X: x, Y: y}, draw.Point{X: x, Y: y + stripHeight})
	d.Line(draw.Pen{Colour: b.look.ink, Width: 1.6}, draw.Point{X: right, Y: y}, draw.Point{X: right, Y: y + stripHeight})
	b.stripCuts(d, i, at, y)
}

// stripCuts draws the saw cuts of a plank with their distance from its left end.
func (b *book) stripCuts(d *draw.Drawing, i int, at func(measure.Length) float64, y float64) {
	const size = 7.5
	left, right, last := at(0), at(b.job.Plank.Length), math.Inf(-1)
	cuts := slices.Clone(b.plan.Planks[i].Cuts)
	slices.SortFunc(cuts, func(a, c cutopt.Cut) int { return cmp.Compare(a.At, c.At) })
	for _, c := range cuts {
		c.At = max(0, c.At) // a kerf may begin before the plank does
		cx := at(c.At)
		d.Line(
			draw.Pen{Colour: b.look.ink, Width: 1.2},
			draw.Point{X: cx, Y: y - 3},
			draw.Point{X: cx, Y: y + stripHeight + 3},
		)
		text := b.Bare(c.At)
		w := draw.Width(text, size, false)
		tx := min(max(cx, left+w/2), right-w/2)
		ty := y + stripHeight + 10
		if tx-w/2 < last+3 {
			ty += 8
		}
		last = tx + w/2
		d.Write(draw.Text{At: draw.Point{X: tx, Y: ty}, Str: text, Size: size, Colour: b.look.ink, Anchor: draw.Middle})
	}
}

// stripSegment draws a piece or an offcut of a plank with its label.
func (b *book) stripSegment(d *draw.Drawing, s segment, x0, x1, y float64) {
	const size = 7.0
	ring := []draw.Point{{X: x0, Y: y}, {X: x1, Y: y}, {X: x1, Y: y + stripHeight}, {X: x0, Y: y + stripHeight}}
	length := b.Bare(s.to - s.from)
	var texts []string
	fill := b.look.paper
	if s.piece == nil {
		d.Polygon(fill, draw.Pen{Colour: b.look.soft, Width: 0.5, Dash: 2}, ring...)
		texts = []string{b.Say("strip.left-over", "length", length), length}
	} else {
		var hatch draw.Hatch
		fill, hatch = b.look.paintOf(s.piece)
		d.Polygon(fill, draw.Pen{Colour: b.look.ink, Width: 0.5}, ring...)
		d.Hatch(hatch, b.hatchPen(), hatchStep, ring)
		texts = b.stripTexts(s.piece, length)
	}
	for _, text := range texts {
		w := draw.Width(text, size, s.piece != nil)
		if w > x1-x0-3 {
			continue
		}
		c := (x0 + x1) / 2
		if s.piece != nil {
			d.Rect(fill, draw.Pen{}, c-w/2-1.5, y+stripHeight/2-4, w+3, 8)
		}
		colour := b.look.ink
		if s.piece == nil {
			colour = b.look.soft
		}
		d.Write(
			draw.Text{
				At:     draw.Point{X: c, Y: y + stripHeight/2 + 2.5},
				Str:    text,
				Size:   size,
				Bold:   s.piece != nil,
				Colour: colour,
				Anchor: draw.Middle,
			},
		)
		return
	}
}

// stripTexts lists the label of a piece on its plank, from the fullest to the shortest.
func (b *book) stripTexts(p *laying.Piece, length string) []string {
	row := p.Run.Name
	full := b.Say("strip.piece", "letter", b.Say("letter."+kindKeys[p.Role]), "length", length, "row", row)
	short := b.Say("strip.row", "letter", b.Say("letter."+kindKeys[p.Role]), "row", row)
	texts := []string{full, short}
	if note := b.cutNote(p); note != "" {
		texts = append([]string{full + " · " + note}, texts...)
	}
	if len(b.plan.Floors) > 1 {
		for i, t := range texts {
			texts[i] = t + " " + b.floorName(p.Ref.Floor)
		}
		texts = append(texts, short)
	}
	return texts
}
