package sheet

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
)

// A step is a row to be laid, in words. Its fields are exported for the template.
type step struct {
	ID     string
	Title  string
	Lines  []string // what to do, in order
	Pile   string   // the offcuts that lie about afterwards
	Pieces int      // laid in this row
	Lies   bool     // all of it lies already
	Line   string   // that tells of it, to plan on; "" for none
}

// hand says a hand.
func (b *book) hand(h cutopt.Hand) string { return b.Say("hand." + h.String()) }

// number writes small numbers out.
func (b *book) number(n int) string {
	words := strings.Fields(b.Say("numbers"))
	if n >= 1 && n <= len(words) {
		return words[n-1]
	}
	return strconv.Itoa(n)
}

// stepOf says how to lay a row.
func (b *book) stepOf(lr laying.Row) step {
	floor := &b.plan.Floors[lr.Floor]
	row := &floor.Rows[lr.Row]
	st := step{
		ID:    rowID(lr.Floor, lr.Row),
		Title: b.Say("step.title", "row", strconv.Itoa(lr.Row+1), "n", strconv.Itoa(len(floor.Rows))),
	}
	switch wall, far := b.wallRow(lr.Floor), b.farRow(lr.Floor); {
	case lr.Row < wall || lr.Row > far:
		st.Title += b.Say("step.doorway")
	case lr.Row == wall:
		st.Title += b.Say("step.first")
	case lr.Row == far && far < len(floor.Rows)-1:
		st.Title += b.Say("step.far")
	case lr.Row == far:
		st.Title += b.Say("step.last")
	}
	if len(lr.Runs) == 1 {
		st.Title += b.Say("step.length", "length", b.Length(row.Runs[0].To-row.Runs[0].From))
	}
	var lines []cutopt.Fact
	for _, f := range floor.Facts {
		if f.Kind.OfLine() && f.Row == lr.Row+1 {
			lines = append(lines, f)
		}
	}
	for _, text := range b.Facts(b.job, lines) {
		st.Lines = append(st.Lines, sentence(text))
	}
	if row.Width < b.job.Plank.Width {
		st.Lines = append(st.Lines, b.ripLine(lr, row.Width))
	}
	st.Lines = append(st.Lines, b.edgeLines(lr)...)
	st.Lines = append(st.Lines, b.doorLines(lr)...)
	for _, run := range lr.Runs {
		if len(lr.Runs) > 1 {
			st.Lines = append(st.Lines, b.stretch(run, row))
		}
		st.Lines = append(st.Lines, b.runLines(run.Pieces)...)
		st.Pieces += len(run.Pieces)
	}
	st.Pile = b.pileText(lr)
	st.Line = b.opt.Happened.line(lr.Floor, lr.Row)
	switch n, all := lying(lr); {
	case all: // its lines are left out, and with them how its edge was sawn
		st.Lies, st.Lines, st.Pile = true, nil, ""
		st.Title += b.Say("step.lies")
	case n > 0:
		st.Lines = append([]string{b.Count("step.in-hand", n)}, st.Lines...)
	}
	return st
}

// ripLine says how the pieces of a row are ripped, and that some have widths of their own.
func (b *book) ripLine(lr laying.Row, width measure.Length) string {
	own := false
	for _, run := range lr.Runs {
		own = own || slices.ContainsFunc(run.Pieces, ownRip)
	}
	key := "step.rip"
	if own {
		key = "step.rip-own"
	}
	return b.Say(key, "width", b.Length(width), "edge", b.ripEdge(lr))
}

// wallRow returns the row that lies along the starting wall, from 0: the first one, but where a doorway in that wall
// has rows of its own before it.
func (b *book) wallRow(floor int) int {
	for _, f := range b.plan.Floors[floor].Facts {
		if f.Kind.OfLine() {
			return max(0, f.Row-1)
		}
	}
	return 0
}

// farRow returns the row that lies along the wall opposite, from 0: the last one, but where doorways in that wall have
// rows of their own beyond it.
func (b *book) farRow(floor int) int {
	rows := b.plan.Floors[floor].Rows
	far := len(rows) - 1
	for far > b.wallRow(floor) && b.inFarDoorways(floor, &rows[far]) {
		far--
	}
	return max(0, far)
}

// inFarDoorways reports whether all of a row lies in doorways of the wall opposite, beyond the face of the wall.
func (b *book) inFarDoorways(floor int, row *cutopt.PlanRow) bool {
	for _, run := range row.Runs {
		in := false
		for _, r := range b.shapes[floor].rooms {
			for i := range r.doors {
				d := &r.doors[i]
				in = in || d.side == sideFar && float64(row.From) >= max(d.near.Y, d.far.Y) &&
					float64(run.From) < max(d.near.X, d.far.X) && float64(run.To) > min(d.near.X, d.far.X)
			}
		}
		if !in {
			return false
		}
	}
	return len(row.Runs) > 0
}

// edgeLines says what is done at the wall that a first or a last row lies along.
func (b *book) edgeLines(lr laying.Row) []string {
	rows, wall := b.plan.Floors[lr.Floor].Rows, b.wallRow(lr.Floor)
	var lines []string
	if lr.Row == wall-1 && len(lr.Runs) > 0 {
		lines = append(lines, b.besideLine(lr.Floor)...)
	}
	profile := b.Say("profile." + b.job.Plank.ToWall.String())
	switch {
	case len(lr.Runs) == 0:
	case lr.Row == wall && wall > 0:
		lines = append(lines, b.Say("step.profile-beside"))
	case lr.Row > 0:
	case rows[0].Width < b.job.Plank.Width:
		lines = append(lines, b.Say("step.profile-ripped", "profile", profile))
	default:
		lines = append(lines, b.Say("step.profile", "profile", profile))
	}
	if lr.Row == b.farRow(lr.Floor) && lr.Row > 0 && len(lr.Runs) > 0 {
		lines = append(lines, b.Say("step.last-row"))
	}
	return lines
}

// besideLine says where the last row in a doorway of the starting wall lies, so that the row along the wall, which
// joins it, ends on its line; nothing where that line slants.
func (b *book) besideLine(floor int) []string {
	for _, f := range b.plan.Floors[floor].Facts {
		if beyond := b.job.Plank.Width - f.Width; f.Kind == cutopt.FactLine && beyond > 0 {
			return []string{b.Say("step.beside-line", "row", strconv.Itoa(f.Row), "beyond", b.Length(beyond))}
		}
	}
	return nil
}

// doorLines says how the last piece in a doorway of the far wall goes in.
func (b *book) doorLines(lr laying.Row) []string {
	var lines []string
	for _, r := range b.shapes[lr.Floor].rooms {
		for i := range r.doors {
			d := &r.doors[i]
			if d.side != sideFar || d.lastRow != lr.Row || d.door.Through || d.door.Depth == 0 {
				continue
			}
			name := d.door.Name
			if name == "" {
				name = b.Say("door-letter") + strconv.Itoa(d.number)
			}
			lines = append(lines, b.Say("step.door-last", "door", name))
		}
	}
	return lines
}

// sentence makes a sentence of what a fact says.
func sentence(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:] + "."
}

// rowID names a row in the page that it is told of.
func rowID(floor, row int) string { return "row-" + strconv.Itoa(floor+1) + "-" + strconv.Itoa(row+1) }

// stretch names a run of a row that has several.
func (b *book) stretch(run *laying.Run, row *cutopt.PlanRow) string {
	at, n := run.Index, len(row.Runs)
	length := b.Length(row.Runs[at].To - row.Runs[at].From)
	switch {
	case n == 2 && at == 0:
		return b.Say("stretch.left", "name", run.Name, "length", length)
	case n == 2:
		return b.Say("stretch.right", "name", run.Name, "length", length)
	}
	return b.Say("stretch.of", "name", run.Name, "k", strconv.Itoa(at+1), "n", strconv.Itoa(n), "length", length)
}

// runLines says how to lay a run. Whole planks in succession that are sawn alike make one line; what else is sawn
// comes after the crosscut, and before the piece is laid.
func (b *book) runLines(run []*laying.Piece) []string {
	var lines []string
	for i := 0; i < len(run); i++ {
		if run[i].Lies {
			continue
		}
		if run[i].Role != laying.RoleWhole {
			lines = append(lines, b.pieceLine(run[i]))
			if n := b.noted[run[i].Ref]; n.number > 0 {
				lines = append(lines, b.Say("step.shape", "notes", strconv.Itoa(n.number), "shaping", b.shaping(run[i])))
			}
			continue
		}
		first, noted, shaping := i, b.noted[run[i].Ref], b.shaping(run[i])
		for i+1 < len(run) && run[i+1].Role == laying.RoleWhole && b.shaping(run[i+1]) == shaping {
			i++
		}
		key := "step.whole"
		if first == 0 {
			key = "step.start-whole"
		}
		n := i - first + 1
		line := b.Say(key + ".one")
		if n > 1 {
			line = b.Say(key+".many", "n", b.number(n))
		}
		if noted.number > 0 {
			line += " " + b.Count("step.shape-whole", n, "notes", strconv.Itoa(noted.number), "shaping", shaping)
		}
		lines = append(lines, line)
	}
	return lines
}

// leastTold is how long a part that is left over must be to be told of: a shorter one is of no use to anybody.
const leastTold = measure.Inch

// pieceLine says where a cut piece comes from, how long it is, and what becomes of the rest.
func (b *book) pieceLine(p *laying.Piece) string {
	key := "step." + kindKeys[p.Role]
	places := []string{"length", b.Length(p.Length), "plank", strconv.Itoa(p.Plank), "hand", b.hand(b.keptHand(p))}
	switch {
	case p.Source == nil:
		key += ".new"
	default:
		key += ".offcut"
		if !p.SawLeft && !p.SawRight {
			key = "step." + kindKeys[p.Role] + ".ready"
		}
		if p.AsItComes > 0 {
			key = "step." + kindKeys[p.Role] + ".as-it-comes"
			places = append(places, "range", b.Range(p.Length, p.AsItComes))
		}
		places = append(places, "have", b.Length(p.Source.Length()), "mark", b.mark(p),
			"origin", b.origin(p))
	}
	text := b.Say(key, places...)
	for _, o := range p.Offcuts {
		hand := cutopt.HandLeft
		if o.From > p.At {
			hand = cutopt.HandRight
		}
		if o.Next == nil && o.Length() < leastTold {
			continue
		}
		if o.Next == nil {
			text += " " + b.Say("step.left-over", "hand", b.hand(hand), "length", b.Length(o.Length()))
			continue
		}
		text += " " + b.Say("step.keep", "hand", b.hand(hand), "length", b.Length(o.Length()),
			"mark", b.mark(o.Next), "use", b.use(o.Next, p.Ref.Floor))
	}
	return text
}

// keptHand is the end of the plank that a piece is measured from: its factory end, or the left one of two sawn ends.
func (b *book) keptHand(p *laying.Piece) cutopt.Hand {
	if p.Ends == cutopt.EndsRight {
		return cutopt.HandRight
	}
	return cutopt.HandLeft
}

// place names the row of a piece, seen from a floor.
func (b *book) place(p *laying.Piece, floor int) string {
	if p.Ref.Floor == floor {
		return b.Say("place.row", "row", p.Run.Name)
	}
	return b.Say("place.room", "row", p.Run.Name, "room", b.floorName(p.Ref.Floor))
}

// origin names where the offcut lies that a piece is cut from: the row of the piece that left it, or its plank where
// no piece did.
func (b *book) origin(p *laying.Piece) string {
	if p.Source.Of == nil {
		return b.Say("place.plank", "plank", strconv.Itoa(p.Source.Plank))
	}
	return b.place(p.Source.Of, p.Ref.Floor)
}

// use says what an offcut is kept for, seen from a floor.
func (b *book) use(p *laying.Piece, floor int) string {
	return b.Say("use."+kindKeys[p.Role], "place", b.place(p, floor))
}

// ripEdge says from which long edge a row is ripped: the one at the wall.
func (b *book) ripEdge(lr laying.Row) string {
	return b.Say("edge.off", "edge", b.Say("edge."+rippedEdge(lr.Row).String()))
}

// rippedEdge returns the edge at the wall of a row that is ripped.
func rippedEdge(row int) cutopt.Edges {
	if row == 0 {
		return cutopt.EdgesFront
	}
	return cutopt.EdgesBack
}

// pileText lists the offcuts that lie about when a row has been laid.
func (b *book) pileText(lr laying.Row) string {
	pile := b.lay.Pile(lr.Laid)
	if len(pile) == 0 {
		return b.Say("pile.empty")
	}
	items := make([]string, len(pile))
	for i, o := range pile {
		items[i] = b.Say("pile.item", "mark", b.mark(o.Next), "length", b.Length(o.Length()))
	}
	return b.Say("pile", "items", strings.Join(items, "; "))
}
