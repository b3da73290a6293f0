package main

import (
	"io"
	"strings"
)

// A column is one column of a table.
type column struct {
	head  string
	right bool // align to the right
	fold  bool // may be folded into several lines
}

// A table prints rows of cells in as many columns as the page is wide, folding the cells that may be folded. A line
// break in a cell stays one.
type table struct {
	columns []column
	rows    [][]string
}

// write prints the table in at most width columns, or reports false when it cannot be made to fit.
func (t *table) write(w io.Writer, width int, p palette) (bool, error) {
	widths, gap, ok := t.fit(width)
	if !ok {
		return false, nil
	}
	var b strings.Builder
	heads := make([]string, len(t.columns))
	for i, c := range t.columns {
		heads[i] = c.head
	}
	t.writeRow(&b, heads, widths, gap, p.bold)
	for _, row := range t.rows {
		t.writeRow(&b, row, widths, gap, nil)
	}
	_, err := io.WriteString(w, b.String())
	return true, err
}

// fit returns the width of each column and the gap between them: as wide as its widest cell and two, else one; or for
// columns that fold, narrowed one by one where that adds the fewest lines, the widest of equals first, down to their
// longest word.
func (t *table) fit(width int) (widths []int, gap int, ok bool) {
	widths = make([]int, len(t.columns))
	least := make([]int, len(t.columns))
	for i, c := range t.columns {
		widths[i], least[i] = columns(c.head), longestWord(c.head)
		for _, row := range t.rows {
			for line := range strings.SplitSeq(row[i], "\n") {
				widths[i] = max(widths[i], columns(line))
			}
			least[i] = max(least[i], longestWord(row[i]))
		}
		if !c.fold {
			least[i] = widths[i]
		}
	}
	total := 0
	for _, n := range widths {
		total += n
	}
	gap = 2
	if total+gap*(len(widths)-1) > width {
		gap = 1
	}
	total += gap * (len(widths) - 1)
	for ; total > width; total-- {
		at, fewest := -1, 0
		for i := range widths {
			if widths[i] == least[i] {
				continue
			}
			widths[i]--
			lines := t.lines(widths)
			widths[i]++
			if at < 0 || lines < fewest || lines == fewest && widths[i] > widths[at] {
				at, fewest = i, lines
			}
		}
		if at < 0 {
			return nil, 0, false
		}
		widths[at]--
	}
	return widths, gap, true
}

// weighed is how many rows of a table decide which columns are folded: more would look no better.
const weighed = 100

// lines counts the lines that the rows take in columns of such widths.
func (t *table) lines(widths []int) int {
	n := 0
	for _, row := range t.rows[:min(len(t.rows), weighed)] {
		most := 1
		for i, cell := range row {
			if !t.columns[i].fold {
				continue
			}
			lines := 0
			for line := range strings.SplitSeq(cell, "\n") {
				lines += len(wrap(line, widths[i], ""))
			}
			most = max(most, lines)
		}
		n += most
	}
	return n
}

func (t *table) writeRow(b *strings.Builder, cells []string, widths []int, gap int, style func(string) string) {
	folded, lines := make([][]string, len(cells)), 1
	for i, cell := range cells {
		for line := range strings.SplitSeq(cell, "\n") {
			folded[i] = append(folded[i], wrap(line, widths[i], "")...)
		}
		lines = max(lines, len(folded[i]))
	}
	for line := range lines {
		var s strings.Builder
		for i := range cells {
			text := ""
			if line < len(folded[i]) {
				text = folded[i][line]
			}
			pad := strings.Repeat(" ", max(0, widths[i]-columns(text)))
			if i > 0 {
				s.WriteString(strings.Repeat(" ", gap))
			}
			if t.columns[i].right {
				s.WriteString(pad + text)
			} else {
				s.WriteString(text + pad)
			}
		}
		text := strings.TrimRight(s.String(), " ")
		if style != nil {
			text = style(text)
		}
		b.WriteString(text + "\n")
	}
}

func longestWord(s string) int {
	n := 0
	for _, word := range unbroken(s) {
		n = max(n, columns(word))
	}
	return n
}
