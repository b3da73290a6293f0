package sheet

import (
	"math"
	"sort"
	"strconv"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/sheet/internal/draw"
)

// A slot is a stretch across a shape in which a line of text stands free of its edges.
type slot struct{ from, to, y float64 }

func (s slot) width() float64  { return max(0, s.to-s.from) }
func (s slot) middle() float64 { return (s.from + s.to) / 2 }

// widest returns the widest slot for text of the given half height among five heights of a ring on the page, beside the
// mark of a note, if there is one; one of no width in its middle where there is no such height.
func widest(ring []draw.Point, half float64, note *draw.Point) slot {
	lo, hi := math.Inf(1), math.Inf(-1)
	left, right := lo, hi
	for _, p := range ring {
		lo, hi = min(lo, p.Y), max(hi, p.Y)
		left, right = min(left, p.X), max(right, p.X)
	}
	best := slot{from: (left + right) / 2, to: (left + right) / 2, y: (lo + hi) / 2}
	for _, part := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
		y := lo + (hi-lo)*part
		if y-half < lo || y+half > hi {
			continue
		}
		s := besideNote(commonSpan(ring, y, y-half+0.1, y+half-0.1), half, note)
		if s.width() > best.width()+1 {
			best = s
		}
	}
	return best
}

// commonSpan returns the widest stretch that is inside the ring at all three heights.
func commonSpan(ring []draw.Point, y float64, others ...float64) slot {
	spans := inside(ring, y)
	for _, h := range others {
		var both []slot
		for _, a := range spans {
			for _, b := range inside(ring, h) {
				if s := (slot{max(a.from, b.from), min(a.to, b.to), y}); s.width() > 0 {
					both = append(both, s)
				}
			}
		}
		spans = both
	}
	best := slot{y: y}
	for _, s := range spans {
		if s.width() > best.width() {
			best = s
		}
	}
	return best
}

// inside lists the stretches of a horizontal line within a ring.
func inside(ring []draw.Point, y float64) []slot {
	var cuts []float64
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y < y) != (b.Y < y) {
			cuts = append(cuts, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		}
	}
	sort.Float64s(cuts)
	var spans []slot
	for i := 0; i+1 < len(cuts); i += 2 {
		spans = append(spans, slot{cuts[i], cuts[i+1], y})
	}
	return spans
}

// A word of a label: plain text, or the plank's number in a box.
type labelWord struct {
	text  string
	bold  bool
	box   bool // a box around it
	dark  bool // the box is filled
	faint bool
}

// boxPad is the space inside a box beside its number.
const boxPad = 2.2

func (w labelWord) width(size float64) float64 {
	n := draw.Width(w.text, size, w.bold)
	if w.box {
		n += 2 * boxPad
	}
	return n
}

// labelSizes are the sizes of labels in points, tried from the largest; at 5 points figures can still be read on
// paper.
var labelSizes = []float64{8, 7, 6, 5}

// label sets the label of a piece: as much of it as fits.
func (m *mapper) label(row *cutopt.PlanRow, p *laying.Piece) {
	var note *draw.Point
	if m.noted[p.Ref].number > 0 {
		at := m.noteSpot(row, p)
		note = &at
	}
	all := m.labels(p)
	f, ok := m.fit(all, row, p, note)
	if !ok {
		return
	}
	lines := all[f.label]
	for k, line := range lines {
		at := f.slot
		at.y += (float64(k) - float64(len(lines)-1)/2) * f.size * 1.06
		m.setLabel(line, f.size, at, p)
	}
}

// A fit is how a label stands on a piece.
type fit struct {
	label int // of those of the piece, the fullest first
	size  float64
	slot  slot
}

// fit finds the fullest label of a piece that fits beside the mark of its note, if it has one.
func (m *mapper) fit(labels [][][]labelWord, row *cutopt.PlanRow, p *laying.Piece, note *draw.Point) (fit, bool) {
	ring := m.ring(ringOf(row, p.Piece))
	height := float64(row.Width) * m.scale
	for k, lines := range labels {
		for _, size := range labelSizes {
			half := size * (0.4 + 0.53*float64(len(lines)-1))
			if height < 2*half+float64(len(lines)) {
				continue
			}
			for _, s := range []slot{besideNote(widest(ring, half, nil), half, note), widest(ring, half, note)} {
				// A tile shows a part of the piece: the label goes there.
				s.from, s.to = max(s.from, m.place(m.tile.min).X), min(s.to, m.place(m.tile.max).X)
				if labelWidth(lines, size) <= s.width()-3 {
					return fit{k, size, s}, true
				}
			}
		}
	}
	return fit{label: len(labels)}, false
}

// pieceLength says how long a piece is, without its unit: from one length to another where it is laid as it comes.
func (b *book) pieceLength(p *laying.Piece) string {
	if p.AsItComes > 0 {
		return b.BareRange(p.Length, p.AsItComes)
	}
	return b.Bare(p.Length)
}

// labels lists the label of a piece, in one line or two, from the fullest to the shortest.
func (m *mapper) labels(p *laying.Piece) [][][]labelWord {
	type line = []labelWord
	number := strconv.Itoa(p.Plank)
	if name := m.named[p.Ref]; name != "" {
		return [][]line{{{{text: number, faint: true}, {text: name, bold: true}}}, {{{text: name, bold: true}}}}
	}
	if p.Role == laying.RoleWhole {
		return [][]line{{{{text: number, faint: true}}}}
	}
	letter := labelWord{text: m.Say("letter." + kindKeys[p.Role]), bold: true}
	length := labelWord{text: m.pieceLength(p)}
	box := labelWord{text: number, bold: true, box: true, dark: m.shared(p.Plank)}
	return [][]line{
		{{letter, length, box}},
		{{letter, length}, {box}},
		{{length}, {letter, box}},
		{{length, box}},
		{{length}, {box}},
		{{letter, box}},
		{{box}},
		{{letter}},
	}
}

func labelWidth(lines [][]labelWord, size float64) float64 {
	w := 0.0
	for _, line := range lines {
		w = max(w, lineWidth(line, size))
	}
	return w
}

func lineWidth(line []labelWord, size float64) float64 {
	w := 0.0
	for i, word := range line {
		if i > 0 {
			w += size * 0.35
		}
		w += word.width(size)
	}
	return w
}

// setLabel sets the words of a label in the middle of a slot, on a ground that keeps the hatching away.
func (m *mapper) setLabel(line []labelWord, size float64, s slot, p *laying.Piece) {
	w := lineWidth(line, size)
	x, base := s.middle()-w/2, s.y+size*draw.Ascent/2
	if p.Role != laying.RoleWhole && !p.Lies {
		fill, _ := m.look.paint(p.Role)
		m.d.Rect(fill, draw.Pen{}, x-1, s.y-size*0.5, w+2, size)
	}
	for _, word := range line {
		if word.box {
			x += m.badgeText(m.d, x, s.y, word, size)
		} else {
			colour := m.look.ink
			if word.faint {
				colour = m.look.soft
			}
			m.d.Write(draw.Text{
				At: draw.Point{X: x, Y: base}, Str: word.text, Size: size, Bold: word.bold,
				Colour: colour,
			})
			x += word.width(size)
		}
		x += size * 0.35
	}
}

// badgeText draws a number in a box and returns the box's width.
func (b *book) badgeText(d *draw.Drawing, x, y float64, word labelWord, size float64) float64 {
	w := word.width(size)
	fill, text := b.look.paper, b.look.ink
	if word.dark {
		fill, text = b.look.ink, b.look.paper
	}
	d.Rect(fill, draw.Pen{Colour: b.look.ink, Width: 0.5}, x, y-size*0.5, w, size)
	d.Write(
		draw.Text{
			At:     draw.Point{X: x + boxPad, Y: y + size*draw.Ascent/2},
			Str:    word.text,
			Size:   size,
			Bold:   word.bold,
			Colour: text,
		},
	)
	return w
}

// badge draws the box of a plank's number and returns its width.
func (b *book) badge(d *draw.Drawing, x, y float64, number int, size float64, dark bool) float64 {
	return b.badgeText(d, x, y, labelWord{text: strconv.Itoa(number), bold: true, box: true, dark: dark}, size)
}
