package draw

import (
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// fontUnits is the size of the em square of the Go fonts.
const fontUnits = 2048

// A typeface is one of the Go fonts, parsed, with its glyphs' advances in font units.
type typeface struct {
	data []byte
	font *sfnt.Font

	mu       sync.Mutex // guards what follows
	buf      sfnt.Buffer
	advances map[rune]int
}

var (
	regular = sync.OnceValue(func() *typeface { return parseFont(goregular.TTF) })
	bold    = sync.OnceValue(func() *typeface { return parseFont(gobold.TTF) })
)

func face(isBold bool) *typeface {
	if isBold {
		return bold()
	}
	return regular()
}

func parseFont(data []byte) *typeface {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic("draw: the built-in font is broken: " + err.Error())
	}
	return &typeface{data: data, font: f, advances: make(map[rune]int)}
}

// substitute stands for what the fonts have no glyph for.
const substitute = '\ufffd'

// glyph returns the index of the glyph for a rune, or that of the substitute.
func (t *typeface) glyph(r rune) (i sfnt.GlyphIndex, own bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	i, err := t.font.GlyphIndex(&t.buf, r)
	if err == nil && i != 0 {
		return i, true
	}
	i, _ = t.font.GlyphIndex(&t.buf, substitute)
	return i, false
}

// advance returns the width of a rune's glyph in font units.
func (t *typeface) advance(r rune) int {
	t.mu.Lock()
	a, ok := t.advances[r]
	t.mu.Unlock()
	if ok {
		return a
	}
	i, _ := t.glyph(r)
	t.mu.Lock()
	defer t.mu.Unlock()
	a = fontUnits / 2
	if v, err := t.font.GlyphAdvance(&t.buf, i, fixed.I(fontUnits), font.HintingNone); err == nil {
		a = v.Round()
	}
	t.advances[r] = a
	return a
}

// Has reports whether the fonts have a glyph for the rune.
func Has(r rune) bool {
	_, own := regular().glyph(r)
	return own
}

// settable replaces what the fonts cannot set.
func settable(s string) string {
	return strings.Map(func(r rune) rune {
		if Has(r) {
			return r
		}
		return substitute
	}, s)
}

// Width returns how wide a line of text is, in points, without kerning.
func Width(s string, size float64, isBold bool) float64 {
	t, units := face(isBold), 0
	for _, r := range s {
		units += t.advance(r)
	}
	return float64(units) * size / fontUnits
}

// Width returns how wide the text is, in points.
func (t Text) Width() float64 { return Width(t.Str, t.Size, t.Bold) }

// Ascent is how far capitals and figures of the Go fonts rise above the base line, as a part of the size.
const Ascent = 0.73

// origin returns where the text begins on its base line.
func (t Text) origin() Point {
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
