package sheet

import (
	"strconv"
	"strings"

	"plank.example/cutopt/sheet/internal/draw"
)

// A note is a numbered remark on a piece of a map.
type note struct {
	number  int
	piece   *laid
	shaping string // how to saw it
}

// shapingNotes lists how the pieces of a floor that are no full rectangles are sawn.
func (b *book) shapingNotes(floor int) []note {
	var notes []note
	for _, row := range b.rows[floor] {
		for _, run := range row.runs {
			for _, p := range run {
				if text := b.shaping(p); text != "" {
					notes = append(notes, note{number: len(notes) + 1, piece: p, shaping: text})
				}
			}
		}
	}
	return notes
}

// noteText says a note in full.
func (b *book) noteText(n note) string {
	return b.say("note", "row", strconv.Itoa(n.piece.ref.Row+1), "piece", b.pieceName(n.piece), "shaping", n.shaping)
}

// shaping says how to saw the shape of a piece: in the plan's words where they are in the language, else by its corners.
func (b *book) shaping(p *laid) string {
	if len(p.Shaping) > 0 && b.language == "en" {
		return strings.Join(p.Shaping, "; ")
	}
	if len(p.Shape) < 3 {
		return strings.Join(p.Shaping, "; ")
	}
	row := &b.plan.Rooms[p.ref.Room].Rows[p.ref.Row]
	var corners []string
	for _, c := range p.Shape {
		corners = append(corners, b.bare(c.X-p.From)+" | "+b.bare(c.Y-row.From))
	}
	return b.say("corners", "unit", b.unit.String(), "corners", strings.Join(corners, ", "))
}

// notesOnMap marks the pieces that have notes.
func (m *mapper) notesOnMap() {
	const size = 6.5
	for _, n := range m.notes[m.floor] {
		p := n.piece
		if p.ref.Row < m.tile.firstRow || p.ref.Row > m.tile.lastRow {
			continue
		}
		row := &m.plan.Rooms[m.floor].Rows[p.ref.Row]
		s := widest(m.ring(ringOf(row, &p.Piece)), size*0.5)
		c := draw.Point{X: s.to - 6, Y: s.y}
		if s.width() < 12 {
			c.X = s.middle()
		}
		m.d.Circle(m.look.paper, draw.Pen{Colour: m.look.ink, Width: 0.6}, c, 4.6)
		m.d.Write(draw.Text{At: draw.Point{X: c.X, Y: c.Y + 2.3}, Str: strconv.Itoa(n.number), Size: size, Bold: true, Colour: m.look.ink, Anchor: draw.Middle})
	}
}
