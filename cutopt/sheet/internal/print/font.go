// Package print paints drawings as PNG and PDF, set in the Go fonts. It is apart from package draw so that programs
// which write SVG and HTML alone link no fonts.
package print

import (
	"strings"
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// A typeface is one of the Go fonts, parsed.
type typeface struct {
	data []byte
	font *sfnt.Font

	mu  sync.Mutex // guards what follows
	buf sfnt.Buffer
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
	return &typeface{data: data, font: f}
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
