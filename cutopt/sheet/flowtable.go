package sheet

import (
	"slices"

	"plank.example/cutopt/sheet/internal/draw"
)

// item sets a paragraph after a mark.
func (f *flow) item(mark, text string, ft font) {
	f.need(ft.size * 1.35)
	f.d.Write(
		draw.Text{
			At:     draw.Point{X: f.left() + ft.indent, Y: f.y + ft.size*1.05},
			Str:    mark,
			Size:   ft.size,
			Colour: ft.colour,
		},
	)
	ft.indent += ft.size
	f.para(text, ft)
}

// A tabulation is a table broken into lines.
type tabulation struct {
	size   float64
	widths []float64
	head   tableRow
	rows   []tableRow
}

// A tableRow is the lines of each cell of a row.
type tableRow struct {
	cells  [][]string
	height float64
}

// tablePad is the space between columns.
const tablePad = 8.0

// tabulate breaks a table into lines for the width of a page, with space below each row.
func (f *flow) tabulate(head []string, rows [][]string, size, space float64) *tabulation {
	bold, plain := font{size: size, bold: true, colour: f.look.ink}, font{size: size, colour: f.look.ink}
	t := &tabulation{size: size}
	t.widths = columnWidths(head, rows, bold, plain, f.inner()-tablePad*float64(len(head)-1))
	line := func(cells []string, ft font) (row tableRow) {
		for k, c := range cells {
			row.cells = append(row.cells, wrap(c, ft, t.widths[k]))
			row.height = max(row.height, float64(len(row.cells[k]))*size*1.3)
		}
		row.height += space
		return row
	}
	t.head = line(head, bold)
	for _, cells := range rows {
		t.rows = append(t.rows, line(cells, plain))
	}
	return t
}

// height returns how much of a page the table takes.
func (t *tabulation) height() float64 {
	h := t.head.height
	for _, row := range t.rows {
		h += row.height
	}
	return h
}

// table sets a table whose head is repeated on every page.
func (f *flow) table(head []string, rows [][]string) {
	f.tabulated(f.tabulate(head, rows, f.size(7.5), 3))
}

// tabulated sets a table that is broken into lines.
func (f *flow) tabulated(t *tabulation) {
	page := -1
	for _, row := range t.rows {
		if page < 0 {
			f.need(t.head.height + row.height)
		} else {
			f.need(row.height)
		}
		if f.page != page {
			f.tableRow(t, t.head, true)
			page = f.page
		}
		f.tableRow(t, row, false)
	}
	f.skip(4)
}

// tableRow sets a row, or the head, and the rule below it.
func (f *flow) tableRow(t *tabulation, row tableRow, head bool) {
	x := f.left()
	for k, cell := range row.cells {
		for n, text := range cell {
			f.d.Write(draw.Text{
				At: draw.Point{X: x, Y: f.y + float64(n+1)*t.size*1.3}, Str: text, Size: t.size, Bold: head,
				Colour: f.look.ink,
			})
		}
		x += t.widths[k] + tablePad
	}
	f.y += row.height
	rule := 0.3
	if head {
		rule = 0.9
	}
	f.d.Line(
		draw.Pen{Colour: f.look.soft, Width: rule},
		draw.Point{X: f.left(), Y: f.y},
		draw.Point{X: f.left() + f.inner(), Y: f.y},
	)
}

// columnWidths shares the room of a table among its columns: what they need, and where that is too much the wide ones
// give way to a common limit.
func columnWidths(head []string, rows [][]string, bold, plain font, room float64) []float64 {
	widths := make([]float64, len(head))
	for k, h := range head {
		widths[k] = draw.Width(h, bold.size, true)
	}
	for _, row := range rows {
		for k, c := range row {
			widths[k] = max(widths[k], draw.Width(c, plain.size, false))
		}
	}
	sorted := slices.Clone(widths)
	slices.Sort(sorted)
	rest := room
	for i, w := range sorted {
		if share := rest / float64(len(sorted)-i); w > share {
			for k := range widths {
				widths[k] = min(widths[k], share)
			}
			break
		}
		rest -= w
	}
	return widths
}
