package main

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
)

// A rowLine is one run of a room as the row table prints it.
type rowLine struct {
	row, width  string
	ripped      bool
	start, from string // the starter and what it is cut from; in a one-piece run its piece
	whole       string
	end, source string // the ender and what it is cut from
	offcuts     []string
}

// room prints a room's rows, its pieces to shape and its notes.
func (r *report) room(rows []laying.Row, index int) error {
	room, s := &r.plan.Floors[index], r.speech
	hand := "left"
	if room.LaidFrom == cutopt.HandRight {
		hand = "right"
	}
	name := clean(s.FloorName(r.plan, index))
	if room.Name == "" && room.Field == 0 {
		name = s.Say("report.room")
	}
	r.heading(s.Say("report.laid."+hand, "room", name, "rows", s.Count("things.row", len(room.Rows))))
	var lines []rowLine
	for _, row := range rows {
		for _, run := range fromLeft(row) {
			if !lies(run) {
				lines = append(lines, r.rowLine(row, run))
			}
		}
	}
	r.lying(rows)
	if len(lines) > 0 {
		r.para(r.legend(room))
		ok, err := r.rowTable(lines).write(r.w, r.width, r.palette)
		if err != nil {
			return err
		}
		if !ok {
			r.stack(lines)
		}
		r.shapes(rows)
	}
	for _, text := range s.Facts(r.job, room.Facts) {
		r.item(s.Say("report.note", "text", clean(text)))
	}
	return nil
}

// laidOf counts the pieces of a run that lie.
func laidOf(run *laying.Run) int {
	n := 0
	for _, p := range run.Pieces {
		if p.Lies {
			n++
		}
	}
	return n
}

// lies reports whether all of a run lies.
func lies(run *laying.Run) bool { return len(run.Pieces) > 0 && laidOf(run) == len(run.Pieces) }

// lying says which rows lie, and how much of the run in hand.
func (r *report) lying(rows []laying.Row) {
	s, all := r.speech, 0
	for all < len(rows) && !slices.ContainsFunc(rows[all].Runs, func(run *laying.Run) bool { return !lies(run) }) &&
		len(rows[all].Runs) > 0 {
		all++
	}
	if all > 0 {
		r.para(s.Count("site.rows-lie", all))
	}
	for _, row := range rows[all:] {
		for _, run := range row.Runs {
			if n := laidOf(run); n > 0 {
				r.para(s.Count("site.of-row-lie", n, "row", run.Name))
			}
		}
	}
}

// fromLeft lists the runs of a row from the left.
func fromLeft(row laying.Row) []*laying.Run {
	return slices.SortedFunc(
		slices.Values(row.Runs),
		func(a, b *laying.Run) int { return cmp.Compare(a.Index, b.Index) },
	)
}

// legend explains the row table.
func (r *report) legend(floor *cutopt.PlanFloor) string {
	s := r.speech
	text := s.Say("report.legend", "least", r.length(r.job.Rules.MinPiece))
	if loose(floor) > 0 {
		text += " " + s.Say("report.as-it-comes")
	}
	for _, row := range floor.Rows {
		if len(row.Runs) > 1 {
			text += " " + s.Say("report.runs")
			break
		}
	}
	unit := ""
	switch r.plan.Unit {
	case measure.UnitInch:
		unit = s.Say("unit.in")
	case measure.UnitMillimetre:
		unit = "mm"
	case measure.UnitCentimetre:
		unit = "cm"
	case measure.UnitMetre:
		unit = "m"
	default: // a length in feet names its units
		return text
	}
	return s.Say("report.lengths", "unit", unit) + " " + text
}

// loose counts the starters that are laid as they come.
func loose(floor *cutopt.PlanFloor) int {
	n := 0
	for _, row := range floor.Rows {
		for _, run := range row.Runs {
			for _, p := range run.Pieces {
				if p.AsItComes > 0 {
					n++
				}
			}
		}
	}
	return n
}

// rowLine describes one run.
func (r *report) rowLine(at laying.Row, run *laying.Run) rowLine {
	row := &r.plan.Floors[at.Floor].Rows[at.Row]
	line := rowLine{row: run.Name, width: r.bare(row.Width), ripped: row.Width < r.job.Plank.Width}
	if len(run.Pieces) == 0 {
		return line
	}
	first, last := run.Pieces[0], run.Pieces[len(run.Pieces)-1]
	line.start, line.from = r.piece(first, &line.offcuts)
	if first == last {
		line.end = r.speech.Say("report.one-piece")
		return line
	}
	line.whole = fmt.Sprint(len(run.Pieces) - 2)
	if n := laidOf(run); n > 0 { // what is left to lay
		line.start, line.from, line.whole = r.speech.Count("row.in-hand", n), "", fmt.Sprint(len(run.Pieces)-1-n)
	}
	line.end, line.source = r.piece(last, &line.offcuts)
	return line
}

// piece describes a starter or an ender, and adds what becomes of its offcuts, but for those too short to be a piece.
func (r *report) piece(p *laying.Piece, offcuts *[]string) (length, from string) {
	if p.Role == laying.RoleWhole {
		return r.speech.Say("report.whole"), r.speech.Say("report.new")
	}
	for _, o := range p.Offcuts {
		if o.Next != nil || o.Length() >= r.job.Rules.MinPiece {
			*offcuts = append(*offcuts, r.becomes(o))
		}
	}
	length = r.bare(p.Length)
	if p.AsItComes > 0 {
		length = r.speech.Say("report.range", "from", length, "to", r.bare(p.AsItComes))
	}
	if p.Source == nil {
		return length, r.speech.Say("report.new")
	}
	if p.Source.Of == nil {
		return length, r.speech.Say("place.plank", "plank", fmt.Sprint(p.Source.Plank))
	}
	return length, r.placeOf(p.Source.Of, p)
}

// becomes says what becomes of an offcut.
func (r *report) becomes(o *laying.Offcut) string {
	if o.Next == nil {
		return r.speech.Say("becomes.over", "length", r.bare(o.Length()))
	}
	role := map[laying.Role]string{
		laying.RoleStarter: "starter", laying.RoleEnder: "ender", laying.RoleSingle: "only",
	}[o.Next.Role]
	place := o.Next.Run.Name
	if o.Next.Ref.Floor != o.Of.Ref.Floor {
		place = r.placeOf(o.Next, o.Of)
	}
	return r.speech.Say("becomes."+role, "length", r.bare(o.Length()), "place", place)
}

// placeOf names the run that a piece lies in, seen from another piece.
func (r *report) placeOf(p, from *laying.Piece) string {
	if p.Ref.Floor != from.Ref.Floor {
		return r.speech.Say("report.row-of", "room", clean(r.speech.FloorName(r.plan, p.Ref.Floor)), "row", p.Run.Name)
	}
	return r.speech.Say("report.row", "row", p.Run.Name)
}

// rowTable arranges the lines in columns.
func (r *report) rowTable(lines []rowLine) *table {
	s := r.speech
	t := &table{columns: []column{
		{head: s.Say("report.head.row"), right: true},
		{head: s.Say("report.head.width")},
		{head: s.Say("report.head.starter"), right: true},
		{head: s.Say("report.head.from"), fold: true},
		{head: s.Say("report.head.whole"), right: true},
		{head: s.Say("report.head.ender"), right: true},
		{head: s.Say("report.head.from"), fold: true},
		{head: s.Say("report.head.offcut"), fold: true},
	}}
	for _, l := range lines {
		width := l.width
		if l.ripped {
			width = s.Say("report.rip", "width", width)
		}
		t.rows = append(t.rows, []string{
			l.row, width, l.start, l.from, l.whole, l.end, l.source, strings.Join(l.offcuts, "\n"),
		})
	}
	return t
}

// stack prints the lines one below the other, for a page too narrow for the table.
func (r *report) stack(lines []rowLine) {
	s := r.speech
	for _, l := range lines {
		key := "stack.row"
		if l.ripped {
			key = "stack.row-ripped"
		}
		r.para(s.Say(key, "row", l.row, "width", l.width))
		start := r.sourceText(strings.ReplaceAll(l.start, "\n", " "), l.from)
		if l.whole == "" { // one piece fills the run
			r.item(s.Say("stack.one-piece", "piece", start))
		} else {
			r.item(s.Say("stack.starter", "piece", start))
			r.item(s.Say("stack.whole", "n", l.whole))
			r.item(s.Say("stack.ender", "piece", r.sourceText(l.end, l.source)))
		}
		for _, o := range l.offcuts {
			r.item(s.Say("stack.offcut", "offcut", o))
		}
	}
}

// sourceText says a length and what it is cut from.
func (r *report) sourceText(length, from string) string {
	if from == r.speech.Say("report.new") {
		return r.speech.Say("stack.new", "length", length)
	}
	return r.speech.Say("stack.from", "length", length, "from", from)
}

// shapes lists the pieces that are more than crosscut, those of a run that are sawn alike together.
func (r *report) shapes(rows []laying.Row) {
	first := true
	for _, row := range rows {
		for _, run := range fromLeft(row) {
			laid := &r.plan.Floors[row.Floor].Rows[row.Row]
			pieces := laid.Runs[run.Index].Pieces
			numbers := make(map[string][]string)
			var said []string
			for k := range pieces {
				text := r.speech.Shaping(r.job, laid.Width, &pieces[k])
				if text == "" || pieces[k].Lies {
					continue
				}
				if numbers[text] == nil {
					said = append(said, text)
				}
				numbers[text] = append(numbers[text], strconv.Itoa(k+1))
			}
			for _, text := range said {
				if first {
					r.para(r.speech.Say("report.shapes"))
					first = false
				}
				key := "report.shape"
				if len(numbers[text]) > 1 {
					key = "report.shape.many"
				}
				r.item(r.speech.Say(key, "row", run.Name, "k", strings.Join(numbers[text], ", "),
					"n", strconv.Itoa(len(pieces)), "shaping", text))
			}
		}
	}
}
