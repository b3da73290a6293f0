package sheet

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet/internal/draw"
)

// A note is a numbered remark on pieces of one run that are sawn alike.
type note struct {
	number int
	pieces []*laying.Piece // from the left, at least one
}

// shapingNotes lists how the pieces of a floor that are no full rectangles and do not lie yet are sawn.
func (b *book) shapingNotes(floor int) []note {
	var notes []note
	for _, row := range b.lay.Floors[floor] {
		for _, run := range row.Runs {
			said := make(map[string]int) // where among the notes
			for _, p := range run.Pieces {
				text := b.shaping(p)
				if p.Lies || text == "" {
					continue
				}
				at, ok := said[text]
				if !ok {
					at = len(notes)
					said[text], notes = at, append(notes, note{number: at + 1})
				}
				notes[at].pieces = append(notes[at].pieces, p)
			}
		}
	}
	for _, n := range notes {
		slices.SortFunc(n.pieces, func(p, q *laying.Piece) int { return cmp.Compare(p.Ref.Piece, q.Ref.Piece) })
	}
	return notes
}

// noteText says a note in full.
func (b *book) noteText(n note) string {
	p := n.pieces[0]
	numbers := make([]string, len(n.pieces))
	for i, piece := range n.pieces {
		numbers[i] = strconv.Itoa(piece.Ref.Piece + 1)
	}
	places := []string{"n", strings.Join(numbers, ", ")}
	key := "piece.in-row"
	if runs := len(b.plan.Floors[p.Ref.Floor].Rows[p.Ref.Row].Runs); runs > 1 {
		key = "piece.in-run"
		places = append(places, "k", strconv.Itoa(p.Ref.Run+1), "runs", strconv.Itoa(runs))
	}
	if len(numbers) > 1 {
		key += ".many"
	}
	row := strconv.Itoa(p.Ref.Row + 1)
	return b.Say("note", "row", row, "piece", b.Say(key, places...), "shaping", b.shaping(p))
}

// shaping says how to saw the shape of a piece: by what the plan says of it, else by its corners.
func (b *book) shaping(p *laying.Piece) string {
	row := &b.plan.Floors[p.Ref.Floor].Rows[p.Ref.Row]
	if len(p.Shaping) > 0 {
		return b.Speech.Shaping(b.job, row.Width, p.Piece)
	}
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

// Sizes of the mark of a note, in points: its figure, its radius, and the same with what stays free round it.
const (
	noteSize   = 6.5
	noteRadius = 4.6
	noteReach  = 5.6
)

// noteSpot returns where the mark of a note stands on a piece: at the right end of the part where it fits best; or half
// over the end at which the piece meets a wall, in the middle or in a corner, where that leaves more of its label.
func (m *mapper) noteSpot(row *cutopt.PlanRow, p *laying.Piece) draw.Point {
	ring := m.ring(ringOf(row, p.Piece))
	s := widest(ring, noteSize*0.5, nil)
	best := draw.Point{X: s.to - 6, Y: s.y}
	if s.width() < 12 {
		best.X = s.middle()
	}
	run := &row.Runs[p.Ref.Run]
	if s.width() == 0 || p.From != run.From && p.To != run.To {
		return best
	}
	low, high := s.y, s.y
	for _, at := range ring {
		low, high = min(low, at.Y+noteReach), max(high, at.Y-noteReach)
	}
	labels := m.labels(p)
	most, _ := m.fit(labels, row, p, &best)
	for _, y := range []float64{s.y, low, high} {
		end := commonSpan(ring, y)
		at := draw.Point{X: end.to + 1, Y: y}
		if p.From == run.From {
			at.X = end.from - 1
		}
		if f, _ := m.fit(labels, row, p, &at); f.label < most.label && !m.overDoor(at) {
			best, most = at, f
		}
	}
	return best
}

// overDoor reports whether the mark of a note would stand over that of a doorway.
func (m *mapper) overDoor(at draw.Point) bool {
	for _, r := range m.shapes[m.floor].rooms {
		for i := range r.doors {
			if c := m.doorSpot(&r.doors[i]); math.Hypot(c.X-at.X, c.Y-at.Y) < doorRadius+noteReach {
				return true
			}
		}
	}
	return false
}

// besideNote returns the wider part of a slot for text of the given half height that the mark of a note leaves free.
func besideNote(s slot, half float64, note *draw.Point) slot {
	if note == nil || max(note.Y-s.y, s.y-note.Y) >= half+noteReach {
		return s
	}
	left, right := s, s
	left.to, right.from = min(s.to, note.X-noteReach), max(s.from, note.X+noteReach)
	if right.width() > left.width() {
		return right
	}
	return left
}

// notesOnMap marks the pieces that have notes.
func (m *mapper) notesOnMap() {
	for _, n := range m.notes[m.floor] {
		at := n.pieces[0].Ref.Row
		if at < m.tile.firstRow || at > m.tile.lastRow {
			continue
		}
		for _, p := range n.pieces {
			c := m.noteSpot(&m.plan.Floors[m.floor].Rows[at], p)
			m.d.Circle(m.look.paper, draw.Pen{Colour: m.look.ink, Width: 0.6}, c, noteRadius)
			m.d.Write(draw.Text{
				At: draw.Point{X: c.X, Y: c.Y + 2.3}, Str: strconv.Itoa(n.number), Size: noteSize, Bold: true,
				Colour: m.look.ink, Anchor: draw.Middle,
			})
		}
	}
}
