package main

import (
	"fmt"
	"strings"

	"plank.example/cutopt"
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
func (r *report) room(lay *laying, index int) error {
	room := &r.plan.Rooms[index]
	hand := "left to right"
	if room.From == cutopt.HandRight {
		hand = "right to left"
	}
	name := clean(room.Name)
	if name == "" {
		name = "Room"
	}
	r.heading(fmt.Sprintf("%s: %s from the starting wall, each laid %s", name, count(len(room.Rows), "row", "rows"), hand))
	r.para(r.legend(room))
	var lines []rowLine
	for i := range room.Rows {
		for j := range room.Rows[i].Runs {
			lines = append(lines, r.rowLine(lay, cutopt.PieceRef{Room: index, Row: i, Run: j}))
		}
	}
	ok, err := rowTable(lines).write(r.w, r.width, r.palette)
	if err != nil {
		return err
	}
	if !ok {
		r.stack(lines)
	}
	r.shapes(lay, index)
	for _, note := range room.Notes {
		r.item("Note: " + clean(note))
	}
	return nil
}

// legend explains the row table.
func (r *report) legend(room *cutopt.PlanRoom) string {
	text := "From new: cut from a new plank; from row 5: from the offcut kept from row 5. Offcut: what is kept, and which " +
		"row it starts or ends; what is over and below " + r.job.Rules.MinPiece.Format(r.plan.Unit, r.grid) + " is not listed."
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
func (r *report) rowLine(lay *laying, at cutopt.PieceRef) rowLine {
	room := &r.plan.Rooms[at.Room]
	row := &room.Rows[at.Row]
	line := rowLine{row: lay.row(at), width: r.bare(row.Width)}
	if row.Width < r.job.Plank.Width {
		line.width = "rip " + line.width
	}
	pieces := row.Runs[at.Run].Pieces
	if len(pieces) == 0 {
		return line
	}
	first, last := 0, len(pieces)-1
	if room.From == cutopt.HandRight {
		first, last = last, first
	}
	at.Piece = first
	line.start, line.from = r.piece(lay, at, &line.offcuts)
	if first == last {
		line.end = "one piece"
		return line
	}
	line.whole = fmt.Sprint(len(pieces) - 2)
	at.Piece = last
	line.end, line.source = r.piece(lay, at, &line.offcuts)
	return line
}

// piece describes a starter or an ender, and adds what becomes of its offcuts, but for those too short to be a piece.
func (r *report) piece(lay *laying, ref cutopt.PieceRef, offcuts *[]string) (length, from string) {
	p := lay.piece(ref)
	if p.Ends == cutopt.EndsBoth {
		return "whole", "new"
	}
	if src := lay.pieces[ref]; src != nil {
		for _, rest := range src.rests {
			if rest.next != nil || rest.length >= r.job.Rules.MinPiece {
				*offcuts = append(*offcuts, lay.becomes(rest, ref.Room, r.bare))
			}
		}
	}
	return r.bare(p.Length), lay.from(ref)
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
func (r *report) shapes(lay *laying, index int) {
	room := &r.plan.Rooms[index]
	first := true
	for i := range room.Rows {
		for j := range room.Rows[i].Runs {
			pieces := room.Rows[i].Runs[j].Pieces
			for k := range pieces {
				if len(pieces[k].Shaping) == 0 {
					continue
				}
				if first {
					r.para("Pieces to shape, numbered from the left of their row:")
					first = false
				}
				ref := cutopt.PieceRef{Room: index, Row: i, Run: j, Piece: k}
				r.item(fmt.Sprintf("row %s, piece %d of %d: %s", lay.row(ref), k+1, len(pieces), strings.Join(pieces[k].Shaping, "; ")))
			}
		}
	}
}
