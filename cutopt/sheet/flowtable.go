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

// table sets a table whose head is repeated on every page.
func (f *flow) table(head []string, rows [][]string) {
	const size, pad = 7.5, 8.0
	bold, plain := font{size: size, bold: true, colour: f.look.ink}, font{size: size, colour: f.look.ink}
	widths := columnWidths(head, rows, bold, plain, f.inner()-pad*float64(len(head)-1))
	line := func(cells []string, ft font) (lines [][]string, height float64) {
		for k, c := range cells {
			lines = append(lines, wrap(c, ft, widths[k]))
			height = max(height, float64(len(lines[k]))*size*1.3)
		}
		return lines, height + 3
	}
	put := func(lines [][]string, height float64, ft font, rule float64) {
		x := f.left()
		for k, cell := range lines {
			for n, text := range cell {
				f.d.Write(
					draw.Text{
						At:     draw.Point{X: x, Y: f.y + float64(n+1)*size*1.3},
						Str:    text,
						Size:   size,
						Bold:   ft.bold,
						Colour: ft.colour,
					},
				)
			}
			x += widths[k] + pad
		}
		f.y += height
		f.d.Line(
			draw.Pen{Colour: f.look.soft, Width: rule},
			draw.Point{X: f.left(), Y: f.y},
			draw.Point{X: f.left() + f.inner(), Y: f.y},
		)
	}
	headLines, headHeight := line(head, bold)
	page := -1
	for _, row := range rows {
		lines, height := line(row, plain)
		if page < 0 {
			f.need(headHeight + height)
		} else {
			f.need(height)
		}
		if f.page != page {
			put(headLines, headHeight, bold, 0.9)
			page = f.page
		}
		put(lines, height, plain, 0.3)
	}
	f.skip(4)
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
