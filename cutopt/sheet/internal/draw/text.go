package draw

import (
	_ "embed"
	"sort"
	"strconv"
	"strings"
	"sync"
)

// FontUnits is the size of the em square of the Go fonts.
const FontUnits = 2048

// substitute stands for what the fonts have no glyph for.
const substitute = '\ufffd'

// widthsText holds the advances of the Go fonts in font units, a line for each stretch of successive runes: which of
// the fonts, the first rune in hexadecimal, and the advances. Package print holds it against the fonts and writes it
// anew with -update.
//
//go:embed widths.txt
var widthsText string

// widths are the advances of successive runes.
type widths struct {
	first    rune
	advances []uint16
}

// tables returns the widths of the regular and of the bold font, by first rune.
var tables = sync.OnceValue(func() (out [2][]widths) {
	for line := range strings.Lines(widthsText) {
		words := strings.Fields(line)
		first, _ := strconv.ParseInt(words[1], 16, 32)
		w := widths{first: rune(first), advances: make([]uint16, len(words)-2)}
		for i, word := range words[2:] {
			n, _ := strconv.ParseUint(word, 10, 16)
			w.advances[i] = uint16(n)
		}
		font := 0
		if words[0] == "bold" {
			font = 1
		}
		out[font] = append(out[font], w)
	}
	return out
})

// Advance returns the width of a rune in the Go fonts, in font units; of the substitute where they have no glyph for
// it.
func Advance(r rune, bold bool) int {
	table := tables()[0]
	if bold {
		table = tables()[1]
	}
	for {
		i := sort.Search(len(table), func(i int) bool { return table[i].first > r }) - 1
		if i >= 0 && int(r-table[i].first) < len(table[i].advances) {
			return int(table[i].advances[r-table[i].first])
		}
		if r == substitute {
			return FontUnits / 2
		}
		r = substitute
	}
}

// Width returns how wide a line of text is, in points, without kerning.
func Width(s string, size float64, bold bool) float64 {
	units := 0
	for _, r := range s {
		units += Advance(r, bold)
	}
	return float64(units) * size / FontUnits
}

// Width returns how wide the text is, in points.
func (t Text) Width() float64 { return Width(t.Str, t.Size, t.Bold) }

// Ascent is how far capitals and figures of the Go fonts rise above the base line, as a part of the size.
const Ascent = 0.73

// Origin returns where the text begins on its base line.
func (t Text) Origin() Point {
	shift := 0.0
	switch t.Anchor {
	case Middle:
		shift = t.Width() / 2
	case End:
		shift = t.Width()
	}
	if t.Up {
		return Point{t.At.X, t.At.Y + shift}
	}
	return Point{t.At.X - shift, t.At.Y}
}
