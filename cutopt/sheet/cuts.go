package sheet

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
)

// A cutLine is one part of a plank: a piece, or what is left over.
type cutLine struct {
	plank, what, room, row, length, from, to, sawn, note string
}

// cells returns the line as a row of a table.
func (c cutLine) cells() []string {
	return []string{c.plank, c.what, c.room, c.row, c.length, c.from, c.to, c.sawn, c.note}
}

// cutHead returns the headings of a cut line.
func (b *book) cutHead() []string {
	var head []string
	for _, key := range []string{"plank", "part", "room", "row", "length", "from", "to", "sawn", "note"} {
		head = append(head, b.Say("cuts."+key, "unit", b.Unit.String()))
	}
	return head
}

// cutLines lists the parts of a plank from its left end.
func (b *book) cutLines(i int) []cutLine {
	number := strconv.Itoa(i + 1)
	var lines []cutLine
	for _, c := range b.segments(i) {
		line := cutLine{plank: number, length: b.Bare(c.to - c.from), from: b.Bare(c.from), to: b.Bare(c.to)}
		if c.piece == nil {
			line.what = b.Say("kind.left-over")
			lines = append(lines, line)
			continue
		}
		p := c.piece
		line.what, line.room = b.Say("kind."+kindKeys[p.Role]), b.floorName(p.Ref.Floor)
		line.row = p.Run.Name
		line.sawn = b.Say("sawn." + p.Ends.String())
		line.note = b.cutNote(p)
		lines = append(lines, line)
	}
	return lines
}

// cutNote says what is done to a piece after its crosscut.
func (b *book) cutNote(p *laying.Piece) string {
	if p.Lies {
		return b.Say("legend.lies")
	}
	var notes []string
	if p.AsItComes > 0 {
		notes = append(notes, b.Say("no-cut", "range", b.BareRange(p.Length, p.AsItComes)))
	}
	row := &b.plan.Floors[p.Ref.Floor].Rows[p.Ref.Row]
	if row.Width < b.job.Plank.Width && !ownRip(p) {
		notes = append(notes, b.Say("rip-mark", "width", b.Bare(row.Width)))
	}
	if text := b.shaping(p); text != "" {
		notes = append(notes, text)
	}
	return strings.Join(notes, "; ")
}

// ownRip reports whether a piece is ripped otherwise than its row, at the same edge: then it is ripped once, to its own
// width.
func ownRip(p *laying.Piece) bool {
	edge := rippedEdge(p.Ref.Row)
	return slices.ContainsFunc(p.Shaping, func(f cutopt.Fact) bool {
		return (f.Kind == cutopt.FactRip || f.Kind == cutopt.FactEdgeCut) && f.Edge == edge
	})
}

// allOwn reports whether every piece of a run is ripped to its own width.
func allOwn(run *laying.Run) bool {
	return !slices.ContainsFunc(run.Pieces, func(p *laying.Piece) bool { return !ownRip(p) })
}

// numbers lists the planks that keep a condition, runs of numbers as "3–7", and counts them.
func (b *book) numbers(keep func(i int) bool) (list string, n int) {
	var parts []string
	for i := 0; i < len(b.lay.Planks); i++ {
		if !keep(i) {
			continue
		}
		first := i
		for i+1 < len(b.lay.Planks) && keep(i+1) {
			i++
		}
		n += i - first + 1
		part := strconv.Itoa(first + 1)
		if i > first {
			part += "–" + strconv.Itoa(i+1)
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, ", "), n
}

// plain reports whether a plank is laid as it comes out of the box.
func (b *book) plain(i int) bool {
	pieces := b.lay.Planks[i]
	return !b.done(i) && len(pieces) == 1 && pieces[0].Role == laying.RoleWhole && b.cutNote(pieces[0]) == ""
}

func (b *book) cutsCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	if err := out.Write(b.cutHead()); err != nil {
		return err
	}
	for i := range b.lay.Planks {
		for _, line := range b.cutLines(i) {
			cells := line.cells()
			for k, c := range cells {
				cells[k] = noFormula(c)
			}
			if err := out.Write(cells); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}

// noFormula keeps a spreadsheet from running a cell.
func noFormula(cell string) string {
	if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return "'" + cell
	}
	return cell
}

func (b *book) cutsMarkdown(w io.Writer) error {
	var buf bytes.Buffer
	fmt.Fprintf(&buf, "# %s\n\n%s\n\n", markdownText(b.fullTitle(b.Say("cuts"))), b.Say("cuts.order"))
	head := b.cutHead()
	for i, h := range head {
		head[i] = markdownText(h)
	}
	fmt.Fprintf(&buf, "| %s |\n|%s\n", strings.Join(head, " | "), strings.Repeat(" --- |", len(head)))
	for i := range b.lay.Planks {
		if b.plain(i) || b.done(i) {
			continue
		}
		for _, line := range b.cutLines(i) {
			cells := line.cells()
			for k, c := range cells {
				cells[k] = markdownText(c)
			}
			fmt.Fprintf(&buf, "| %s |\n", strings.Join(cells, " | "))
		}
	}
	if list, n := b.numbers(b.plain); n > 0 {
		fmt.Fprintf(&buf, "\n%s %s.\n", b.Count("cuts.whole", n), list)
	}
	_, err := w.Write(buf.Bytes())
	return err
}

var markdownEscaper = strings.NewReplacer(
	"\\",
	"\\\\",
	"|",
	"\\|",
	"<",
	"&lt;",
	">",
	"&gt;",
	"&",
	"&amp;",
	"*",
	"\\*",
	"_",
	"\\_",
	"`",
	"\\`",
	"[",
	"\\[",
	"\n",
	" ",
	"\r",
	" ",
)

// markdownText makes any text a cell of a table: no mark-up, no line breaks.
func markdownText(s string) string { return markdownEscaper.Replace(s) }

// cutsText writes aligned columns.
func (b *book) cutsText(w io.Writer) error {
	lines := [][]string{b.cutHead()}
	for i := range b.lay.Planks {
		if b.plain(i) || b.done(i) {
			continue
		}
		for _, line := range b.cutLines(i) {
			lines = append(lines, line.cells())
		}
	}
	widths := make([]int, len(lines[0]))
	for _, cells := range lines {
		for k, c := range cells {
			widths[k] = max(widths[k], len([]rune(c)))
		}
	}
	var buf bytes.Buffer
	fmt.Fprintf(&buf, "%s\n\n%s\n\n", oneLine(b.fullTitle(b.Say("cuts"))), b.Say("cuts.order"))
	for _, cells := range lines {
		var text strings.Builder
		for k, c := range cells {
			c = oneLine(c)
			text.WriteString(c + strings.Repeat(" ", widths[k]-len([]rune(c))+2))
		}
		fmt.Fprintln(&buf, strings.TrimRight(text.String(), " "))
	}
	if list, n := b.numbers(b.plain); n > 0 {
		fmt.Fprintf(&buf, "\n%s %s.\n", b.Count("cuts.whole", n), list)
	}
	_, err := w.Write(buf.Bytes())
	return err
}

// oneLine replaces what would move a terminal's cursor.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 {
			return '\ufffd'
		}
		return r
	}, s)
}
