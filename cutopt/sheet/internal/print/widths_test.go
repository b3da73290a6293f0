package print

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"plank.example/cutopt/sheet/internal/draw"
)

var update = flag.Bool("update", false, "write draw/widths.txt anew from the fonts")

// The table of widths that text is measured by, without the fonts, is that of the fonts.
func TestWidthsAreTheFonts(t *testing.T) {
	if *update {
		writeWidths(t)
		return
	}
	for _, bold := range []bool{false, true} {
		for r := rune(0); r <= 0x11000; r++ {
			if got, want := draw.Advance(r, bold), advance(t, face(bold), r); got != want {
				t.Fatalf("%U, bold %v: %d in the table, %d in the font; run go test -update", r, bold, got, want)
			}
		}
	}
}

// advance returns the width of a rune's glyph in font units, as the font has it.
func advance(t *testing.T, f *typeface, r rune) int {
	i, _ := f.glyph(r)
	var buf sfnt.Buffer
	v, err := f.font.GlyphAdvance(&buf, i, fixed.I(draw.FontUnits), font.HintingNone)
	if err != nil {
		t.Fatal(err)
	}
	return v.Round()
}

func writeWidths(t *testing.T) {
	var b strings.Builder
	for i, f := range []*typeface{regular(), bold()} {
		for r := rune(0); r <= 0x11000; r++ {
			if _, own := f.glyph(r); !own {
				continue
			}
			fmt.Fprintf(&b, "%s %x", [2]string{"regular", "bold"}[i], r)
			for ; ; r++ {
				if _, own := f.glyph(r); !own {
					break
				}
				fmt.Fprintf(&b, " %d", advance(t, f, r))
			}
			b.WriteString("\n")
		}
	}
	if err := os.WriteFile("../draw/widths.txt", []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}
