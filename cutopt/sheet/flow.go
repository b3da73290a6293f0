package sheet

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"plank.example/cutopt/sheet/internal/draw"
	"plank.example/cutopt/words"
)

// A setting is how pages are made.
type setting struct {
	width, height float64 // points; an endless page has height 0
	margin        float64 // points; what is left free at every side
	trim          bool    // cut pages off below their last line
	upright       bool    // never turn a page on its side
	running       bool    // maps stand within the text where there is room
	dense         float64 // text is set so much smaller; 0 for as usual
}

// A flow sets text and figures one below the other and turns the page when it is full.
type flow struct {
	setting
	look   look
	title  string
	footer func(page int) string
	yield  func(*draw.Drawing) bool

	d       *draw.Drawing // the page at work; nil before the first
	w, h    float64       // its size
	y       float64
	page    int
	stopped bool // nobody takes more pages
	blind   bool // pages are only measured: maps are not drawn
	places  []pocketPlace
}

// left returns the left edge of the text, inner its width.
func (f *flow) left() float64  { return f.margin }
func (f *flow) inner() float64 { return f.w - 2*f.margin }

// bottom returns how far down a page may be used.
func (f *flow) bottom() float64 {
	if f.h == 0 {
		return math.Inf(1)
	}
	return f.h - f.margin
}

// turn ends the page at work and begins a new one.
func (f *flow) turn() { f.begin(f.width, f.height) }

// turnSideways does the same with the new page on its side.
func (f *flow) turnSideways() { f.begin(f.height, f.width) }

func (f *flow) begin(width, height float64) {
	f.finish()
	f.w, f.h = width, height
	f.d = &draw.Drawing{Width: width, Height: height, Title: f.title, Paper: f.look.paper}
	f.y = f.margin
	f.page++
}

// finish hands over the page at work.
func (f *flow) finish() {
	if f.d == nil {
		return
	}
	if f.height == 0 || f.trim {
		f.d.Height = f.y + f.margin
	}
	if f.footer != nil {
		f.d.Write(draw.Text{
			At: draw.Point{X: f.d.Width - f.margin, Y: f.d.Height - f.margin/2}, Str: f.footer(f.page), Size: 7,
			Colour: f.look.soft, Anchor: draw.End,
		})
	}
	if !f.stopped && !f.yield(f.d) {
		f.stopped = true
	}
	f.d = nil
}

// widen makes an endless page at least so wide.
func (f *flow) widen(width float64) {
	f.need(0)
	f.w = max(f.w, width)
	f.d.Width = f.w
}

// need makes sure that h points are left, on a new page if it must be.
func (f *flow) need(h float64) {
	if f.d == nil || f.y+h > f.bottom() && f.y > f.margin {
		f.turn()
	}
}

// skip leaves space, unless at the top of a page.
func (f *flow) skip(h float64) {
	if f.d != nil && f.y > f.margin {
		f.y += h
	}
}

// A font is the look of a paragraph.
type font struct {
	size   float64
	bold   bool
	colour draw.Colour
	indent float64
}

// size returns a size of text as this flow sets it.
func (f *flow) size(usual float64) float64 { return usual * (1 - f.dense) }

func (f *flow) body() font     { return font{size: f.size(9), colour: f.look.ink} }
func (f *flow) small() font    { return font{size: f.size(7.5), colour: f.look.soft} }
func (f *flow) lines() font    { return font{size: 8, colour: f.look.ink} }
func (f *flow) smallInk() font { return font{size: 7.5, colour: f.look.ink} }
func (f *flow) head(size float64) font {
	return font{size: size, bold: true, colour: f.look.ink}
}

// heading sets a heading that stays with the next h points.
func (f *flow) heading(text string, size, h float64) {
	f.skip(size * 0.9)
	f.need(size*1.5 + h)
	f.para(text, f.head(size))
	f.y += size * 0.25
}

// para sets a paragraph.
func (f *flow) para(text string, ft font) {
	for _, line := range wrap(text, ft, f.inner()-ft.indent) {
		f.need(ft.size * 1.35)
		f.y += ft.size * 1.35
		f.d.Write(draw.Text{
			At: draw.Point{
				X: f.left() + ft.indent,
				Y: f.y - ft.size*0.3,
			}, Str: line, Size: ft.size, Bold: ft.bold, Colour: ft.colour,
		})
	}
}

// paraHeight returns how much of a page a paragraph takes.
func (f *flow) paraHeight(text string, ft font) float64 {
	return float64(len(wrap(text, ft, f.inner()-ft.indent))) * ft.size * 1.35
}

// boxed sets a paragraph after a tick box.
func (f *flow) boxed(text string, ft font) {
	f.need(ft.size * 1.35)
	f.d.Rect(
		draw.None,
		draw.Pen{Colour: f.look.ink, Width: 0.8},
		f.left()+ft.indent,
		f.y+ft.size*0.33,
		ft.size*0.8,
		ft.size*0.8,
	)
	ft.indent += ft.size * 1.4
	f.para(text, ft)
}

// wrap breaks a text into lines no wider than width; a word that is wider by itself is broken.
func wrap(text string, ft font, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(text, breaks) {
		next := word
		if line != "" {
			next = line + " " + word
		}
		if draw.Width(next, ft.size, ft.bold) <= width {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for n := fits(word, ft, width); n < len(word); n = fits(word, ft, width) {
			lines, word = append(lines, word[:n]), word[n:]
		}
		line = word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// breaks reports where a line may be broken: at white space, but not within a length.
func breaks(r rune) bool { return unicode.IsSpace(r) && r != words.NoBreak }

// fits returns how many bytes of a word fit into width, at least one character.
func fits(word string, ft font, width float64) int {
	used := 0.0
	for i := 0; i < len(word); {
		_, n := utf8.DecodeRuneInString(word[i:])
		used += draw.Width(word[i:i+n], ft.size, ft.bold)
		if used > width && i > 0 {
			return i
		}
		i += n
	}
	return len(word)
}

// shorten cuts a text to a width, with an ellipsis where it was too long.
func shorten(text string, ft font, width float64) string {
	if draw.Width(text, ft.size, ft.bold) <= width {
		return text
	}
	dots := draw.Width("…", ft.size, ft.bold)
	if width < dots {
		return ""
	}
	return text[:fits(text, ft, width-dots)] + "…"
}
