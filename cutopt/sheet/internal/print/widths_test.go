package print

import (
	"flag"
	"fmt"
	"go/format"
	"os"
	"strings"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"plank.example/cutopt/sheet/internal/draw"
)

var update = flag.Bool("update", false, "write draw/widths.go anew from the fonts")

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
	b.WriteString(
		"package draw\n\n// The advances of the Go fonts, in font units. Package print holds them against the fonts, and " +
			"writes them anew with -update.\nvar (\n",
	)
	for i, f := range []*typeface{regular(), bold()} {
		fmt.Fprintf(&b, "%s = []widths{\n", [2]string{"regularWidths", "boldWidths"}[i])
		for r := rune(0); r <= 0x11000; r++ {
			if _, own := f.glyph(r); !own {
				continue
			}
			fmt.Fprintf(&b, "{%#x, []uint16{", r)
			for n := 0; ; n++ {
				if _, own := f.glyph(r); !own {
					break
				}
				if n%18 == 0 {
					b.WriteString("\n")
				}
				fmt.Fprintf(&b, "%d, ", advance(t, f, r))
				r++
			}
			b.WriteString("\n}},\n")
		}
		b.WriteString("}\n")
	}
	b.WriteString(")\n")
	out, err := format.Source([]byte(b.String()))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("../draw/widths.go", out, 0o644); err != nil {
		t.Fatal(err)
	}
}
