package sheet

import (
	"bytes"
	"io"
	"math"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
)

// text draws the floors in box characters.
func (b *book) text(w io.Writer) error {
	t := &terminal{book: b, chars: boxChars}
	if b.opt.ASCII {
		t.chars = asciiChars
	}
	for n, i := range b.floors() {
		if n > 0 {
			t.line("")
		}
		t.floor(i)
		if _, err := t.buf.WriteTo(w); err != nil {
			return err
		}
	}
	t.legend()
	_, err := t.buf.WriteTo(w)
	return err
}

// charSet is what lines and fillings are drawn with.
type charSet struct {
	across, joint, topLeft, topRight, bottomLeft, bottomRight, fixed, arrowRight, arrowLeft, lies rune
}

var (
	boxChars   = charSet{'─', '│', '┌', '┐', '└', '┘', '░', '→', '←', '·'}
	asciiChars = charSet{'-', '|', '+', '+', '+', '+', '#', '>', '<', '.'}
)

// A terminal draws floors line by line.
type terminal struct {
	*book
	chars charSet
	buf   bytes.Buffer
}

// line writes one line without trailing blanks, cut off at the width.
func (t *terminal) line(s string) {
	s = oneLine(s)
	if t.opt.ASCII {
		s = toASCII(s)
	}
	if runes := []rune(s); len(runes) > t.opt.Columns {
		s = string(runes[:t.opt.Columns])
	}
	t.buf.WriteString(strings.TrimRight(s, " ") + "\n")
}

// toASCII spells what has an ASCII spelling and replaces the rest.
func toASCII(s string) string {
	s = strings.NewReplacer("·", "-", "–", "-", "×", "x", "…", "...", "ä", "ae", "ö", "oe", "ü", "ue", "Ä", "Ae", "Ö",
		"Oe", "Ü", "Ue",
		"ß", "ss", "²", "2").
		Replace(s)
	return strings.Map(func(r rune) rune {
		if r > '~' {
			return '?'
		}
		return r
	}, s)
}

// floor draws a floor.
func (t *terminal) floor(i int) {
	floor := &t.plan.Floors[i]
	t.line(t.floorName(i) + " · " + t.Count("rows", len(floor.Rows)))
	if len(floor.Rows) == 0 {
		return
	}
	number := len(strconv.Itoa(len(floor.Rows)))
	rip := 0
	for _, lr := range t.lay.Floors[i] {
		if text := t.ripMark(lr); text != "" {
			rip = max(rip, len([]rune(text))+1)
		}
	}
	width := t.opt.Columns - number - 1 - rip
	if width < 12 {
		width, rip = t.opt.Columns-number-1, 0
	}
	lo, hi := measure.Length(math.MaxInt64), measure.Length(math.MinInt64)
	for _, row := range floor.Rows {
		for _, run := range row.Runs {
			lo, hi = min(lo, run.From), max(hi, run.To)
		}
	}
	if hi <= lo {
		return
	}
	column := func(x measure.Length) int {
		return int(math.Round(float64(x-lo) / float64(hi-lo) * float64(width-1)))
	}
	pad := strings.Repeat(" ", number+1)
	arrow := string(t.chars.arrowRight)
	if floor.LaidFrom == cutopt.HandRight {
		arrow = string(t.chars.arrowLeft)
	}
	t.line(pad + t.Say("starting-wall") + " " + arrow)
	t.line(pad + string(t.edge(floor.Rows[0], width, column, t.chars.topLeft, t.chars.topRight)))
	for j := range floor.Rows {
		label := strconv.Itoa(j + 1)
		text := strings.Repeat(
			" ",
			number-len(label),
		) + label + " " + string(
			t.row(t.lay.Floors[i][j], &floor.Rows[j], width, column),
		)
		if mark := t.ripMark(t.lay.Floors[i][j]); rip > 0 && mark != "" {
			text += " " + mark
		}
		t.line(text)
	}
	t.line(pad + string(t.edge(floor.Rows[len(floor.Rows)-1], width, column, t.chars.bottomLeft, t.chars.bottomRight)))
}

// edge draws the line along the first or the last row.
func (t *terminal) edge(row cutopt.PlanRow, width int, column func(measure.Length) int, left, right rune) []rune {
	cells := blanks(width)
	for _, run := range row.Runs {
		a, b := column(run.From), column(run.To)
		for x := a; x <= b; x++ {
			cells[x] = t.chars.across
		}
		cells[a], cells[b] = left, right
	}
	return cells
}

// row draws the pieces of a row and fills what stands between its runs.
func (t *terminal) row(lr laying.Row, row *cutopt.PlanRow, width int, column func(measure.Length) int) []rune {
	cells := blanks(width)
	for k := 0; k+1 < len(row.Runs); k++ {
		for x := column(row.Runs[k].To); x <= column(row.Runs[k+1].From); x++ {
			cells[x] = t.chars.fixed
		}
	}
	for _, run := range lr.Runs {
		for _, p := range run.Pieces {
			a, b := column(p.From), column(p.To)
			cells[a], cells[b] = t.chars.joint, t.chars.joint
			if p.Lies {
				for x := a + 1; x < b; x++ {
					cells[x] = t.chars.lies
				}
			}
			for _, text := range t.pieceTexts(p) {
				label := []rune(text)
				if free := b - a - 1; len(label) <= free {
					copy(cells[a+1+(free-len(label))/2:], label)
					break
				}
			}
		}
	}
	return cells
}

// pieceTexts lists the label of a piece from the fullest to the shortest.
func (t *terminal) pieceTexts(p *laying.Piece) []string {
	if p.Role == laying.RoleWhole {
		return nil
	}
	letter, length := t.Say("letter."+kindKeys[p.Role]), t.pieceLength(p)
	if t.shared(p.Plank) {
		return []string{letter + " " + length + " #" + strconv.Itoa(p.Plank), letter + " " + length, length, letter}
	}
	return []string{letter + " " + length, length, letter}
}

func blanks(n int) []rune { return []rune(strings.Repeat(" ", n)) }

// legend explains the letters, folded to the width.
func (t *terminal) legend() {
	text := t.Say("legend.text", "unit", t.Say("unit."+t.Unit.String()))
	if t.begun() {
		text += " " + t.Say("legend.text-lies", "mark", string(t.chars.lies))
	}
	if t.opt.ASCII {
		text = toASCII(text)
	}
	for len(text) > 0 {
		runes := []rune(text)
		if len(runes) <= t.opt.Columns {
			t.line(text)
			return
		}
		cut := strings.LastIndex(string(runes[:t.opt.Columns+1]), " ")
		if cut <= 0 {
			cut = len(string(runes[:t.opt.Columns]))
		}
		t.line(text[:cut])
		text = strings.TrimSpace(text[cut:])
	}
}
