package sheet

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt/laying"
)

// The pocket sheet is what a layer takes along: what to buy, the map, and a line for each row. A floor of up to some
// 28 rows is on one page, one of 40 on two.

// mark names a piece by its run and its part, "5 S": what is written on the offcut that it is cut from, so that it is
// found when its row is laid. One that comes from another floor has the name of its own before it.
func (b *book) mark(p *laying.Piece) string {
	text := b.Say("mark", "row", p.Run.Name, "letter", b.Say("letter."+kindKeys[p.Role]))
	if p.Source != nil && p.Source.Of != nil && p.Source.Of.Ref.Floor != p.Ref.Floor {
		text = b.floorName(p.Ref.Floor) + " " + text
	}
	return text
}

// runsFromLeft lists the runs of a row from the left.
func runsFromLeft(row laying.Row) []*laying.Run {
	byIndex := func(a, b *laying.Run) int { return cmp.Compare(a.Index, b.Index) }
	return slices.SortedFunc(slices.Values(row.Runs), byIndex)
}

// pocketHead returns the headings of the lines of a floor.
func (b *book) pocketHead() []string {
	var head []string
	for _, key := range []string{"row", "starter", "from", "whole", "ender", "from", "keep", "then"} {
		head = append(head, b.Say("pocket."+key))
	}
	return head
}

// pocketTable returns a line for each run of a floor.
func (b *book) pocketTable(floor int) block {
	table := block{Head: b.pocketHead()}
	for _, row := range b.lay.Floors[floor] {
		for k, run := range runsFromLeft(row) {
			id := ""
			if k == 0 {
				id = rowID(row.Floor, row.Row)
			}
			table.IDs, table.Rows = append(table.IDs, id), append(table.Rows, b.pocketLine(row, run))
		}
	}
	return table
}

// pocketLine says a run in the cells of a line.
func (b *book) pocketLine(row laying.Row, run *laying.Run) []string {
	if len(run.Pieces) == 0 {
		return []string{run.Name, "", "", "", "", "", "", ""}
	}
	first, last := run.Pieces[0], run.Pieces[len(run.Pieces)-1]
	if first.Lies && last.Lies {
		return []string{run.Name, b.Say("legend.lies"), "", "", "", "", "", ""}
	}
	whole, lie := 0, 0 // those left to lay, and what lies
	for k, p := range run.Pieces {
		switch {
		case p.Lies:
			lie++
		case k > 0 && k < len(run.Pieces)-1 && p.Role == laying.RoleWhole:
			whole++
		}
	}
	starter, source := b.pocketPiece(first)
	if lie > 0 {
		starter, source = b.Count("row.in-hand", lie), ""
	}
	cells := []string{run.Name, starter, source, strconv.Itoa(whole), "", "", b.pocketKeep(run), b.pocketThen(row, run)}
	if first == last {
		cells[3], cells[4] = "", b.Say("pocket.alone")
	} else {
		cells[4], cells[5] = b.pocketPiece(last)
	}
	return cells
}

// pocketPiece says how long a piece is and what it is cut from.
func (b *book) pocketPiece(p *laying.Piece) (length, source string) {
	switch {
	case p.Role == laying.RoleWhole:
		return b.Say("pocket.plank"), ""
	case p.Source == nil:
		return b.Bare(p.Length), b.Say("pocket.new")
	case p.AsItComes > 0:
		return b.BareRange(p.Length, p.AsItComes), b.Say("pocket.as-it-comes")
	case !p.SawLeft && !p.SawRight:
		return b.Bare(p.Length), b.Say("pocket.ready")
	}
	return b.Bare(p.Length), b.Say("pocket.offcut", "length", b.Bare(p.Source.Length()))
}

// pocketKeep lists the offcuts that a run leaves for others, each with the mark of its piece.
func (b *book) pocketKeep(run *laying.Run) string {
	var kept []string
	for _, p := range run.Pieces {
		for _, o := range p.Offcuts {
			if o.Next != nil {
				mark := b.mark(o.Next)
				kept = append(kept, b.Say("pocket.kept", "length", b.Bare(o.Length()), "mark", mark))
			}
		}
	}
	return strings.Join(kept, "; ")
}

// pocketThen says what is done besides the crosscuts: the rip, and the notes of the pieces.
func (b *book) pocketThen(row laying.Row, run *laying.Run) string {
	var then []string
	if w := b.plan.Floors[row.Floor].Rows[row.Row].Width; w < b.job.Plank.Width && !allOwn(run) {
		then = append(then, b.Say("rip-mark", "width", b.Bare(w)))
	}
	var numbers []string
	for _, n := range b.notes[row.Floor] {
		if n.pieces[0].Run == run {
			numbers = append(numbers, strconv.Itoa(n.number))
		}
	}
	if len(numbers) > 0 {
		then = append(then, b.Count("pocket.note", len(numbers), "numbers", strings.Join(numbers, ", ")))
	}
	return strings.Join(then, "; ")
}

// pocketOrder says what to buy, in the fewest words.
func (b *book) pocketOrder() []block {
	if b.begun() {
		r := b.Site(b.job, b.plan)
		return []block{
			{Text: r.Will + " " + r.Buy, Strong: true}, {Text: strings.Join(r.Stands, " ")}, {Text: b.pocketHand()},
		}
	}
	o, r := &b.plan.Order, &b.job.Rules
	use := b.Say("pocket.use", "bought", strconv.Itoa(o.Boxes*o.PlanksPerBox), "used", strconv.Itoa(o.Planks))
	for _, part := range []struct {
		key string
		n   int
	}{{"pocket.kept-planks", o.Kept}, {"pocket.reserve", o.Reserve}, {"pocket.over", o.Over()}} {
		if part.n > 0 {
			use += b.Say(part.key, "n", strconv.Itoa(part.n), "loss", b.Share(o.Loss/100))
		}
	}
	plank := b.Say("rules.plank", "length", b.Length(b.job.Plank.Length), "width", b.Length(b.job.Plank.Width))
	if b.job.Plank.Name != "" {
		plank = b.job.Plank.Name + ": " + plank
	}
	blocks := []block{
		{Text: b.buyText(), Strong: true},
		{Text: use + ". " + b.Say("order.lot")},
		{Text: plank + " " + b.Say("pocket.rules", "gap", b.Length(r.Gap), "piece", b.Length(r.MinPiece), "stagger",
			b.Length(r.Stagger), "kerf", b.Length(r.Kerf))},
	}
	return append(blocks, b.pocketTakeoff()...)
}

// pocketHand lists the offcuts on hand that go somewhere.
func (b *book) pocketHand() string {
	var items []string
	for _, o := range b.onHand() {
		if o.Next != nil {
			items = append(items, b.Say("pocket.kept", "length", b.Bare(o.Length()), "mark", b.mark(o.Next)))
		}
	}
	if len(items) == 0 {
		return b.Say("sheet.hand") + ": " + b.Say("hand.nothing")
	}
	return b.Say("sheet.hand") + ": " + strings.Join(items, "; ") + "."
}

// pocketFloor is a floor of the pocket sheet: the map, a line for each run, and the notes.
func (b *book) pocketFloor(i int) section {
	blocks := []block{{picture: picturePocket, floor: i}, b.pocketTable(i)}
	if remarks := b.pocketRemarks(i); remarks != "" {
		blocks = append(blocks, block{Text: remarks})
	}
	return section{ID: "floor-" + strconv.Itoa(i+1), Title: b.pocketTitle(i), Blocks: some(blocks...)}
}

// pocketRemarks says the notes of a floor and what the plan says of it, one after the other.
func (b *book) pocketRemarks(i int) string {
	var said []string
	for _, n := range b.notes[i] {
		said = append(said, "("+strconv.Itoa(n.number)+") "+b.noteText(n)+".")
	}
	for _, text := range b.Facts(b.job, b.plan.Floors[i].Facts) {
		said = append(said, "– "+text+".")
	}
	return strings.Join(said, " ")
}

// pocketTitle is the heading of a floor.
func (b *book) pocketTitle(i int) string {
	title := b.floorName(i) + " · " + b.Count("rows", len(b.plan.Floors[i].Rows))
	if turned := b.turnText(i); turned != "" {
		title += " · " + turned
	}
	return title
}

// pocketSections lists the parts of the pocket sheet.
func (b *book) pocketSections() []section {
	order := append(b.pocketOrder(), b.pocketReading()...)
	list := []section{{"order", b.Say("sheet.order"), some(order...)}}
	for i := range b.plan.Floors {
		list = append(list, b.pocketFloor(i))
	}
	return list
}

// pocketReading explains the lines, and says what must not be left unsaid.
func (b *book) pocketReading() []block {
	return []block{
		{Text: b.Say("pocket.read", "unit", b.Say("unit."+b.Unit.String()))},
		{Text: b.Say("pocket.cautions")},
	}
}
