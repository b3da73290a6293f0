package sheet

import (
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
)

// A note is a numbered remark on a piece of a map.
type note struct {
	number  int
	piece   *laying.Piece
	shaping string // how to saw it
}

// shapingNotes lists how the pieces of a floor that are no full rectangles are sawn.
func (b *book) shapingNotes(floor int) []note {
	var notes []note
	for _, row := range b.lay.Floors[floor] {
		for _, run := range row.Runs {
			for _, p := range run.Pieces {
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
	return b.Say("note", "row", strconv.Itoa(n.piece.Ref.Row+1), "piece", b.pieceName(n.piece), "shaping", n.shaping)
}

// shaping says how to saw the shape of a piece: by what the plan says of it, else by its corners.
func (b *book) shaping(p *laying.Piece) string {
	if len(p.Shaping) > 0 {
		said := make([]string, len(p.Shaping))
		for i := range p.Shaping {
			said[i] = b.Fact(b.job, &p.Shaping[i])
		}
		return strings.Join(said, "; ")
	}
	row := &b.plan.Floors[p.Ref.Floor].Rows[p.Ref.Row]
	if len(p.Shape) < 3 || b.straight(row, p) {
		return ""
	}
	var corners []string
	for _, c := range p.Shape {
		corners = append(corners, b.Bare(c.X-p.From)+" | "+b.Bare(c.Y-row.From))
	}
	return b.Say("corners", "unit", b.Unit.String(), "corners", strings.Join(corners, ", "))
}

// straight reports whether a shape is the full rectangle as far as the graduation can tell, as the pieces of a turned
// room often are: no corner is farther than one step inside the rectangle's border, and none of its four corners is
// missing.
func (b *book) straight(row *cutopt.PlanRow, p *laying.Piece) bool {
	near := func(a, c measure.Length) bool { return max(a-c, c-a) <= b.Grid }
	var found [4]bool
	for _, c := range p.Shape {
		left, right, upper, lower := near(c.X, p.From), near(c.X, p.To), near(c.Y, row.From), near(c.Y, row.To)
		if !left && !right && !upper && !lower {
			return false
		}
		for i, at := range []bool{left && upper, right && upper, right && lower, left && lower} {
			found[i] = found[i] || at
		}
	}
	return found == [4]bool{true, true, true, true}
}

// noteRoom is what the mark of a note takes at the right end of a piece, in points.
const noteRoom = 11.0

// notesOnMap marks the pieces that have notes.
func (m *mapper) notesOnMap() {
	const size = 6.5
	for _, n := range m.notes[m.floor] {
		p := n.piece
		if p.Ref.Row < m.tile.firstRow || p.Ref.Row > m.tile.lastRow {
			continue
		}
		row := &m.plan.Floors[m.floor].Rows[p.Ref.Row]
		s := widest(m.ring(ringOf(row, &p.Piece)), size*0.5)
		c := draw.Point{X: s.to - 6, Y: s.y}
		if s.width() < 12 {
			c.X = s.middle()
		}
		m.d.Circle(m.look.paper, draw.Pen{Colour: m.look.ink, Width: 0.6}, c, 4.6)
		m.d.Write(
			draw.Text{
				At:     draw.Point{X: c.X, Y: c.Y + 2.3},
				Str:    strconv.Itoa(n.number),
				Size:   size,
				Bold:   true,
				Colour: m.look.ink,
				Anchor: draw.Middle,
			},
		)
	}
}
