package draw

import (
	"bufio"
	"io"
	"strconv"
	"strings"
)

// fontFamily names what a screen sets the text in. Every text carries its measured length, so it fits whatever font
// is found.
const fontFamily = "Go,'Segoe UI',Roboto,Helvetica,Arial,sans-serif"

// SVG writes the drawing as a complete file.
func (d *Drawing) SVG(w io.Writer) error {
	out := &svgWriter{b: bufio.NewWriter(w)}
	out.str(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	d.svg(out, `width="`+figure(d.Width)+`pt" height="`+figure(d.Height)+`pt" `)
	return out.b.Flush()
}

// InlineSVG writes the drawing as an element for an HTML page, as wide as its container lets it. The prefix keeps the
// names of its clips apart from those of other drawings on the page.
func (d *Drawing) InlineSVG(w io.Writer, prefix string) error {
	out := &svgWriter{b: bufio.NewWriter(w), prefix: prefix, inline: true}
	d.svg(out, "")
	return out.b.Flush()
}

type svgWriter struct {
	b      *bufio.Writer
	prefix string
	clips  int
	open   bool // a clip group is open
	linked bool // a link is open
	inline bool // within a page, where links have somewhere to lead to
}

func (out *svgWriter) str(s string) { out.b.WriteString(s) }

func (d *Drawing) svg(out *svgWriter, size string) {
	out.str(
		`<svg xmlns="http://www.w3.org/2000/svg" ` + size + `viewBox="0 0 ` + figure(d.Width) + " " + figure(d.Height) +
			`" role="img" font-family="` + fontFamily + `">` + "\n<title>" + escape(d.Title) + "</title>\n",
	)
	if d.Paper != None {
		out.str(`<path fill="` + d.Paper.hex() + `" d="M0 0H` + figure(d.Width) + "V" + figure(d.Height) +
			`H0Z"/>` + "\n")
	}
	for _, s := range d.Shapes {
		switch s := s.(type) {
		case Path:
			out.path(s)
		case Text:
			out.text(s)
		case Clip:
			out.clip(s)
		case Link:
			out.link(s)
		}
	}
	out.clip(Clip{})
	out.str("</svg>\n")
}

func (out *svgWriter) path(p Path) {
	out.str(`<path fill="` + p.Fill.hex() + `"`)
	if p.Pen.Width > 0 && p.Pen.Colour != None {
		out.str(` stroke="` + p.Pen.Colour.hex() + `" stroke-width="` + figure(p.Pen.Width) + `"`)
		if p.Pen.Dash > 0 {
			out.str(` stroke-dasharray="` + figure(p.Pen.Dash) + `"`)
		}
	}
	out.str(` d="`)
	for _, line := range p.Lines {
		for i, pt := range line {
			out.str([]string{"M", "L"}[min(i, 1)] + figure(pt.X) + " " + figure(pt.Y))
		}
		if p.Closed {
			out.str("Z")
		}
	}
	if p.Title == "" {
		out.str("\"/>\n")
		return
	}
	out.str(`"><title>` + escape(p.Title) + "</title></path>\n")
}

func (out *svgWriter) text(t Text) {
	at := t.Origin()
	out.str(`<text x="` + figure(at.X) + `" y="` + figure(at.Y) + `" font-size="` + figure(t.Size) + `" textLength="` +
		figure(t.Width()) + `" lengthAdjust="spacingAndGlyphs" fill="` + t.Colour.hex() + `"`)
	if t.Bold {
		out.str(` font-weight="700"`)
	}
	if t.Up {
		out.str(` transform="rotate(-90 ` + figure(at.X) + " " + figure(at.Y) + `)"`)
	}
	out.str(">" + escape(t.Str) + "</text>\n")
}

func (out *svgWriter) link(l Link) {
	if out.linked {
		out.str("</a>\n")
		out.linked = false
	}
	if l == (Link{}) || !out.inline {
		return
	}
	out.str(`<a href="#` + escape(l.To) + `" aria-label="` + escape(l.Name) + "\">\n")
	out.linked = true
}

func (out *svgWriter) clip(c Clip) {
	out.link(Link{})
	if out.open {
		out.str("</g>\n")
		out.open = false
	}
	if c == (Clip{}) {
		return
	}
	out.clips++
	id := out.prefix + "clip" + strconv.Itoa(out.clips)
	out.str(
		`<clipPath id="` + id + `"><path d="M` + figure(c.Min.X) + " " + figure(c.Min.Y) + "H" + figure(c.Max.X) + "V" +
			figure(c.Max.Y) + "H" + figure(c.Min.X) + `Z"/></clipPath><g clip-path="url(#` + id + ")\">\n",
	)
	out.open = true
}

// hex returns the colour as SVG spells it.
func (c Colour) hex() string {
	if c == None {
		return "none"
	}
	s := strconv.FormatUint(uint64(c), 16)
	return "#" + strings.Repeat("0", max(0, 6-len(s))) + s
}

// figure prints a coordinate to a hundredth of a point.
func figure(v float64) string {
	s := strconv.FormatFloat(v, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

// escape makes any string safe inside an element or an attribute; what XML does not allow becomes U+FFFD.
func escape(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case r < ' ' || r == 0x7f || r == 0xfffe || r == 0xffff:
			return '\ufffd'
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	return escaper.Replace(s)
}
