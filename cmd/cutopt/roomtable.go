package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
)

// A rowLine is one run of a room as the row table prints it.
type rowLine struct {
	row, width  string
	start, from string // the starter and what it is cut from; in a one-piece run its piece
	whole       string
	end, source string // the ender and what it is cut from
	offcuts     []string
}

// room prints a room's rows, its pieces to shape and its notes.
func (r *report) room(rows []laying.Row, index int) error {
	room := &r.plan.Floors[index]
	hand := "left to right"
	if room.LaidFrom == cutopt.HandRight {
		hand = "right to left"
	}
	name := clean(room.Name)
	if name == "" {
		name = "Room"
	}
	r.heading(fmt.Sprintf("%s: %s from the starting wall, each laid %s", name, count(len(room.Rows), "row", "rows"), hand))
	r.para(r.legend(room))
	var lines []rowLine
	for _, row := range rows {
		for _, run := range fromLeft(row) {
			lines = append(lines, r.rowLine(row, run))
		}
	}
	ok, err := rowTable(lines).write(r.w, r.width, r.palette)
	if err != nil {
		return err
	}
	if !ok {
		r.stack(lines)
	}
	r.shapes(rows)
	for i := range room.Facts {
		r.item("Note: " + clean(r.speech.Fact(r.job, &room.Facts[i])))
	}
	return nil
}

// fromLeft lists the runs of a row from the left.
func fromLeft(row laying.Row) []*laying.Run {
	return slices.SortedFunc(slices.Values(row.Runs), func(a, b *laying.Run) int { return cmp.Compare(a.Index, b.Index) })
}

// legend explains the row table.
func (r *report) legend(room *cutopt.PlanFloor) string {
	text := "From new: cut from a new plank; from row 5: from the offcut kept from row 5. Offcut: what is kept, and " +
		"which row it starts or ends; what is over and below " + r.job.Rules.MinPiece.Format(
		r.plan.Unit,
		r.grid,
	) + " is not listed."
	for _, row := range room.Rows {
		if len(row.Runs) > 1 {
			text += " Where a row is interrupted, its runs are a, b and so on from the left."
			break
		}
	}
	if words := map[measure.Unit]string{
		measure.UnitInch: "inches", measure.UnitMillimetre: "mm", measure.UnitCentimetre: "cm", measure.UnitMetre: "m",
	}[r.plan.Unit]; words != "" {
		text = "Lengths in " + words + ". " + text
	}
	return text
}

// rowLine describes one run.
func (r *report) rowLine(at laying.Row, run *laying.Run) rowLine {
	row := &r.plan.Floors[at.Floor].Rows[at.Row]
	line := rowLine{row: run.Name, width: r.bare(row.Width)}
	if row.Width < r.job.Plank.Width {
		line.width = "rip " + line.width
	}
	if len(run.Pieces) == 0 {
		return line
	}
	first, last := run.Pieces[0], run.Pieces[len(run.Pieces)-1]
	line.start, line.from = r.piece(first, &line.offcuts)
	if first == last {
		line.end = "one piece"
		return line
	}
	line.whole = fmt.Sprint(len(run.Pieces) - 2)
	line.end, line.source = r.piece(last, &line.offcuts)
	return line
}

// piece describes a starter or an ender, and adds what becomes of its offcuts, but for those too short to be a piece.
func (r *report) piece(p *laying.Piece, offcuts *[]string) (length, from string) {
	if p.Role == laying.RoleWhole {
		return "whole", "new"
	}
	for _, o := range p.Offcuts {
		if o.Next != nil || o.Length() >= r.job.Rules.MinPiece {
			*offcuts = append(*offcuts, r.becomes(o))
		}
	}
	if p.Source == nil {
		return r.bare(p.Length), "new"
	}
	return r.bare(p.Length), r.placeOf(p.Source.Of, p)
}

// becomes says what becomes of an offcut.
func (r *report) becomes(o *laying.Offcut) string {
	if o.Next == nil {
		return r.bare(o.Length()) + " over"
	}
	verb := map[laying.Role]string{laying.RoleStarter: "starts", laying.RoleEnder: "ends", laying.RoleSingle: "lies " +
		"in"}[o.Next.Role]
	place := o.Next.Run.Name
	if o.Next.Ref.Floor != o.Of.Ref.Floor {
		place = r.placeOf(o.Next, o.Of)
	}
	return r.bare(o.Length()) + " " + verb + " " + place
}

// placeOf names the run that a piece lies in, seen from another piece.
func (r *report) placeOf(p, from *laying.Piece) string {
	if p.Ref.Floor != from.Ref.Floor {
		return clean(r.plan.Floors[p.Ref.Floor].Name) + " row " + p.Run.Name
	}
	return "row " + p.Run.Name
}

// rowTable arranges the lines in columns.
func rowTable(lines []rowLine) *table {
	t := &table{columns: []column{
		{head: "Row", right: true},
		{head: "Width"},
		{head: "Starter", right: true},
		{head: "from", fold: true},
		{head: "Whole", right: true},
		{head: "Ender", right: true},
		{head: "from", fold: true},
		{head: "Offcut", fold: true},
	}}
	for _, l := range lines {
		t.rows = append(t.rows, []string{
			l.row, l.width, l.start, l.from, l.whole, l.end, l.source, strings.Join(l.offcuts, "\n"),
		})
	}
	return t
}

// stack prints the lines one below the other, for a page too narrow for the table.
func (r *report) stack(lines []rowLine) {
	for _, l := range lines {
		r.para(fmt.Sprintf("Row %s, %s wide:", l.row, l.width))
		var parts []string
		if l.end == "one piece" {
			parts = append(parts, "one piece "+l.start+sourceText(l.from))
		} else {
			parts = append(parts, "starter "+l.start+sourceText(l.from), "whole "+l.whole, "ender "+l.end+sourceText(l.source))
		}
		for _, o := range l.offcuts {
			parts = append(parts, "offcut "+o)
		}
		for _, part := range parts {
			r.item(part)
		}
	}
}

func sourceText(from string) string {
	if from == "new" {
		return ", new"
	}
	return ", from " + from
}

// shapes lists the pieces that are more than crosscut.
func (r *report) shapes(rows []laying.Row) {
	first := true
	for _, row := range rows {
		for _, run := range fromLeft(row) {
			pieces := r.plan.Floors[row.Floor].Rows[row.Row].Runs[run.Index].Pieces
			for k := range pieces {
				if len(pieces[k].Shaping) == 0 {
					continue
				}
				if first {
					r.para("Pieces to shape, numbered from the left of their row:")
					first = false
				}
				r.item(fmt.Sprintf("row %s, piece %d of %d: %s", run.Name, k+1, len(pieces), r.shaping(&pieces[k])))
			}
		}
	}
}

// shaping says how to saw the shape of a piece.
func (r *report) shaping(p *cutopt.Piece) string {
	said := make([]string, len(p.Shaping))
	for i := range p.Shaping {
		said[i] = r.speech.Fact(r.job, &p.Shaping[i])
	}
	return strings.Join(said, "; ")
}
