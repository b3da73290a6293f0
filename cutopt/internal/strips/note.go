package strips

import (
	"fmt"

	"plank.example/cutopt/measure"
)

// counted spells a count.
func counted(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// quoted names a room.
func quoted(name string) string {
	if name == "" {
		return "the room"
	}
	return name
}

// judge notes edge rows that are too narrow.
func (f *Floor) judge(s score, minRip, from int64, l *Layout) {
	text := func(v int64) string { return measure.Length(v).Format(l.Unit, max(l.Grid, measure.Tick)) }
	least := measure.Length(minRip)
	first, last := f.Rows[0].To-f.Rows[0].From, f.Rows[len(f.Rows)-1].To-f.Rows[len(f.Rows)-1].From
	f.NarrowEdge = first < least || last < least
	const why = "no place of the rows keeps every edge row at"
	switch {
	case f.NarrowEdge && l.FirstRow > 0:
		f.note("with a first row of %s the edge rows are %s and %s wide; the least is %s", text(int64(l.FirstRow)), text(int64(first)),
			text(int64(last)), text(minRip))
	case f.NarrowEdge:
		f.note("%s %s: the first row is %s wide and the last %s", why, text(minRip), text(int64(first)), text(int64(last)))
	}
	if s.walls > 0 && !f.NarrowEdge {
		f.note("%s %s: %s further in is met by a strip of %s, %s from the starting side", why, text(minRip), counted(s.walls, "wall"),
			text(s.narrow), text(s.where-from))
	}
}

// breaks asks for breaks of floors longer than the limits.
func (f *Floor) breaks(l *Layout) {
	text := func(v measure.Length) string { return v.Format(l.Unit, max(l.Grid, measure.Tick)) }
	rows := f.Rows
	if size := rows[len(rows)-1].To - rows[0].From; l.MaxAcross > 0 && size > l.MaxAcross {
		parts := (size + l.MaxAcross - 1) / l.MaxAcross
		for k := measure.Length(1); k < parts; k++ {
			at := rows[0].From + size*k/parts
			row := 0
			for row+1 < len(rows) && rows[row].To < at {
				row++
			}
			if rows[row].To-rows[0].From > k*l.MaxAcross && row > 0 {
				row--
			}
			f.note("the floor is %s across the rows and the most is %s: put a break after row %d, %s from the starting side", text(size),
				text(l.MaxAcross), row+1, text(rows[row].To-rows[0].From))
		}
	}
	if l.MaxAlong <= 0 {
		return
	}
	var longest Run
	at := 0
	for i := range rows {
		for _, r := range rows[i].Runs {
			if r.To-r.From > longest.To-longest.From {
				longest, at = r, i
			}
		}
	}
	if size := longest.To - longest.From; size > l.MaxAlong {
		parts := (size + l.MaxAlong - 1) / l.MaxAlong
		for k := measure.Length(1); k < parts; k++ {
			f.note("row %d is %s long without a break and the most is %s: put a break %s from its left end", at+1, text(size),
				text(l.MaxAlong), text((size * k / parts).Floor(l.Grid)))
		}
	}
}
