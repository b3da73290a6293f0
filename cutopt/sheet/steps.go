package sheet

import (
	"strconv"
	"strings"

	"plank.example/cutopt"
)

// A step is a row to be laid, in words. Its fields are exported for the template.
type step struct {
	ID     string
	Title  string
	Lines  []string // what to do, in order
	Pile   string   // the offcuts that lie about afterwards
	Pieces int      // laid in this row
}

// hand says a hand.
func (s *speech) hand(h cutopt.Hand) string { return s.say("hand." + h.String()) }

// number writes small numbers out.
func (s *speech) number(n int) string {
	words := strings.Fields(s.say("numbers"))
	if n >= 1 && n <= len(words) {
		return words[n-1]
	}
	return strconv.Itoa(n)
}

// stepOf says how to lay a row.
func (b *book) stepOf(lr laidRow) step {
	room := &b.plan.Rooms[lr.room]
	row := &room.Rows[lr.row]
	st := step{ID: "row-" + strconv.Itoa(lr.room+1) + "-" + strconv.Itoa(lr.row+1), Title: b.say("step.title", "row", strconv.Itoa(lr.row+1), "n", strconv.Itoa(len(room.Rows)))}
	switch lr.row {
	case 0:
		st.Title += b.say("step.first")
	case len(room.Rows) - 1:
		st.Title += b.say("step.last")
	}
	if len(lr.runs) == 1 {
		st.Title += b.say("step.length", "length", b.length(row.Runs[0].To-row.Runs[0].From))
	}
	// What is sawn besides the crosscuts comes first: read in order, it must not come after the laying.
	if row.Width < b.job.Plank.Width {
		st.Lines = append(st.Lines, b.say("step.rip", "width", b.length(row.Width), "edge", b.ripEdge(lr)))
	}
	st.Lines = append(st.Lines, b.shapeLines(lr)...)
	last := -1
	for k, run := range lr.runs {
		if len(lr.runs) > 1 {
			st.Lines = append(st.Lines, b.stretch(k, lr))
		}
		st.Lines = append(st.Lines, b.runLines(run)...)
		st.Pieces += len(run)
		if len(run) > 0 {
			last = run[len(run)-1].order
		}
	}
	st.Pile = b.pileText(last, lr.room)
	return st
}

// stretch names a run of a row that has several, in the order of laying.
func (b *book) stretch(k int, lr laidRow) string {
	room := &b.plan.Rooms[lr.room]
	n := len(lr.runs)
	at := fromHand(n, room.From)[k]
	run := &room.Rows[lr.row].Runs[at]
	length := b.length(run.To - run.From)
	switch {
	case n == 2 && at == 0:
		return b.say("stretch.left", "length", length)
	case n == 2:
		return b.say("stretch.right", "length", length)
	}
	return b.say("stretch.of", "k", strconv.Itoa(at+1), "n", strconv.Itoa(n), "length", length)
}

// runLines says how to lay a run. Whole planks in succession make one line.
func (b *book) runLines(run []*laid) []string {
	var lines []string
	for i := 0; i < len(run); i++ {
		if run[i].kind != kindWhole {
			lines = append(lines, b.pieceLine(run[i], i == 0))
			continue
		}
		first := i
		for i+1 < len(run) && run[i+1].kind == kindWhole {
			i++
		}
		key := "step.whole"
		if first == 0 {
			key = "step.start-whole"
		}
		n := i - first + 1
		if n == 1 {
			lines = append(lines, b.say(key+".one"))
		} else {
			lines = append(lines, b.say(key+".many", "n", b.number(n)))
		}
	}
	return lines
}

// pieceLine says where a cut piece comes from, how long it is, and what becomes of the rest.
func (b *book) pieceLine(p *laid, first bool) string {
	key := "step." + kindKeys[p.kind]
	places := []string{"length", b.length(p.Length), "plank", strconv.Itoa(p.Plank), "hand", b.hand(b.keptHand(p))}
	switch {
	case p.source == nil:
		key += ".new"
	default:
		key += ".offcut"
		if !p.sawLeft && !p.sawRight {
			key = "step." + kindKeys[p.kind] + ".ready"
		}
		places = append(places, "have", b.length(p.source.length()), "origin", b.place(p.source.born, p.ref.Room))
	}
	text := b.say(key, places...)
	for _, q := range p.parts() {
		hand := cutopt.HandLeft
		if q == p.right {
			hand = cutopt.HandRight
		}
		if q.next == nil {
			text += " " + b.say("step.left-over", "hand", b.hand(hand), "length", b.length(q.length()))
			continue
		}
		text += " " + b.say("step.keep", "hand", b.hand(hand), "length", b.length(q.length()), "plank", strconv.Itoa(p.Plank),
			"use", b.use(q.next, p.ref.Room))
	}
	return text
}

// keptHand is the end of the plank that a piece is measured from: its factory end, or the left one of two sawn ends.
func (b *book) keptHand(p *laid) cutopt.Hand {
	if p.Ends == cutopt.EndsRight {
		return cutopt.HandRight
	}
	return cutopt.HandLeft
}

// place names the row of a piece, seen from a floor.
func (b *book) place(p *laid, floor int) string {
	row := strconv.Itoa(p.ref.Row + 1)
	if p.ref.Room == floor {
		return b.say("place.row", "row", row)
	}
	return b.say("place.room", "row", row, "room", b.floorName(p.ref.Room))
}

// use says what an offcut is kept for, seen from a floor.
func (b *book) use(p *laid, floor int) string {
	return b.say("use."+kindKeys[p.kind], "place", b.place(p, floor))
}

// ripEdge says from which long edge a row is ripped: the one at the wall.
func (b *book) ripEdge(lr laidRow) string {
	if lr.row == 0 {
		return b.say("edge.start")
	}
	return b.say("edge.far")
}

// shapeLines says how the pieces of a row that are no rectangles are sawn.
func (b *book) shapeLines(lr laidRow) []string {
	var lines []string
	for _, n := range b.notes[lr.room] {
		if n.piece.ref.Row == lr.row {
			lines = append(lines, b.say("step.shape", "piece", b.pieceName(n.piece), "shaping", n.shaping))
		}
	}
	return lines
}

// pieceName names a piece within its row.
func (b *book) pieceName(p *laid) string {
	n := strconv.Itoa(p.ref.Piece + 1)
	if runs := len(b.plan.Rooms[p.ref.Room].Rows[p.ref.Row].Runs); runs > 1 {
		return b.say("piece.in-run", "n", n, "k", strconv.Itoa(p.ref.Run+1), "runs", strconv.Itoa(runs))
	}
	return b.say("piece.in-row", "n", n)
}

// pileText lists the offcuts that lie about after a piece has been laid.
func (b *book) pileText(order, floor int) string {
	pile := b.pileAfter(order)
	if len(pile) == 0 {
		return b.say("pile.empty")
	}
	items := make([]string, len(pile))
	for i, q := range pile {
		items[i] = b.say("pile.item", "plank", strconv.Itoa(q.plank), "length", b.length(q.length()), "use", b.use(q.next, floor))
	}
	return b.say("pile", "items", strings.Join(items, "; "))
}
