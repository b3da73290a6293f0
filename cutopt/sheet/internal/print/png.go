package print

import (
	"image"
	"image/color"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"plank.example/cutopt/sheet/internal/draw"
)

// The largest picture that PNG paints; a larger one is painted at fewer dots per inch.
const (
	MaxPixels = 40_000_000
	MaxSide   = 50_000
)

// mostDashes bounds the dashes of one line; a longer one is drawn solid.
const mostDashes = 10_000

// PNG writes a drawing at the given dots per inch. It holds the picture in memory, 4 bytes a pixel.
func PNG(w io.Writer, d *draw.Drawing, dpi float64) error {
	scale := dpi / 72
	if n := d.Width * d.Height * scale * scale; n > MaxPixels {
		scale *= math.Sqrt(MaxPixels / n)
	}
	scale = min(scale, MaxSide/max(1, d.Width), MaxSide/max(1, d.Height))
	img := image.NewRGBA(image.Rect(0, 0, max(1, int(math.Ceil(d.Width*scale))), max(1, int(math.Ceil(d.Height*scale)))))
	p := &painter{img: img, scale: scale, clip: img.Bounds()}
	paper := d.Paper
	if paper == draw.None {
		paper = 0xffffff
	}
	r, g, b := paper.RGB()
	for i := 0; i < len(img.Pix); i += 4 {
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = r, g, b, 255
	}
	for _, s := range d.Shapes {
		switch s := s.(type) {
		case draw.Path:
			p.path(s)
		case draw.Text:
			p.text(s)
		case draw.Clip:
			p.setClip(s)
		}
	}
	enc := png.Encoder{CompressionLevel: png.DefaultCompression}
	return enc.Encode(w, img)
}

// A painter fills paths in a picture.
type painter struct {
	img   *image.RGBA
	scale float64
	clip  image.Rectangle
	ras   vector.Rasterizer
	buf   sfnt.Buffer
}

func (p *painter) setClip(c draw.Clip) {
	p.clip = p.img.Bounds()
	if c != (draw.Clip{}) {
		p.clip = p.clip.Intersect(image.Rect(int(math.Round(c.Min.X*p.scale)), int(math.Round(c.Min.Y*p.scale)),
			int(math.Round(c.Max.X*p.scale)), int(math.Round(c.Max.Y*p.scale))))
	}
}

func (p *painter) path(s draw.Path) {
	if s.Fill != draw.None {
		p.fill(s.Fill, s.Lines)
	}
	if s.Pen.Width <= 0 || s.Pen.Colour == draw.None {
		return
	}
	var quads [][]draw.Point
	for _, line := range s.Lines {
		if s.Closed && len(line) > 0 {
			line = append(append([]draw.Point(nil), line...), line[0])
		}
		quads = stroke(quads, line, s.Pen, s.Closed)
	}
	p.fill(s.Pen.Colour, quads)
}

// stroke appends a rectangle for every segment of a line, all turning the same way. Where segments meet the ends are
// drawn out by half the width, which closes right-angled corners.
func stroke(quads [][]draw.Point, line []draw.Point, pen draw.Pen, closed bool) [][]draw.Point {
	half := pen.Width / 2
	for i := 0; i+1 < len(line); i++ {
		a, b := line[i], line[i+1]
		n := math.Hypot(b.X-a.X, b.Y-a.Y)
		if n == 0 {
			continue
		}
		u := draw.Point{X: (b.X - a.X) / n, Y: (b.Y - a.Y) / n}
		from, to := 0.0, n
		if closed || i > 0 {
			from = -half
		}
		if closed || i+2 < len(line) {
			to = n + half
		}
		if pen.Dash <= 0 || n > mostDashes*pen.Dash {
			quads = append(quads, quad(a, u, from, to, half))
			continue
		}
		for t := 0.0; t < n; t += 2 * pen.Dash {
			quads = append(quads, quad(a, u, t, min(t+pen.Dash, n), half))
		}
	}
	return quads
}

// quad is the rectangle from distance s to t along direction u from a.
func quad(a, u draw.Point, s, t, half float64) []draw.Point {
	at := func(along, across float64) draw.Point {
		return draw.Point{X: a.X + along*u.X - across*u.Y, Y: a.Y + along*u.Y + across*u.X}
	}
	return []draw.Point{at(s, -half), at(t, -half), at(t, half), at(s, half)}
}

// begin resets the rasteriser to the pixels around the rings and reports whether any are visible.
func (p *painter) begin(lo, hi draw.Point) (image.Rectangle, bool) {
	lo = draw.Point{X: max(lo.X*p.scale, -1e6), Y: max(lo.Y*p.scale, -1e6)}
	hi = draw.Point{X: min(hi.X*p.scale, 1e6), Y: min(hi.Y*p.scale, 1e6)}
	box := image.Rect(int(math.Floor(lo.X)), int(math.Floor(lo.Y)), int(math.Ceil(hi.X))+1, int(math.Ceil(hi.Y))+1)
	box = box.Intersect(p.clip)
	if box.Empty() {
		return box, false
	}
	p.ras.Reset(box.Dx(), box.Dy())
	return box, true
}

func (p *painter) fill(c draw.Colour, rings [][]draw.Point) {
	lo, hi := draw.Point{X: math.Inf(1), Y: math.Inf(1)}, draw.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, ring := range rings {
		for _, q := range ring {
			lo, hi = draw.Point{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}, draw.Point{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
		}
	}
	if !(lo.X <= hi.X && lo.Y <= hi.Y) {
		return
	}
	box, ok := p.begin(lo, hi)
	if !ok {
		return
	}
	for _, ring := range rings {
		for i, q := range ring {
			x, y := float32(q.X*p.scale-float64(box.Min.X)), float32(q.Y*p.scale-float64(box.Min.Y))
			if i == 0 {
				p.ras.MoveTo(x, y)
			} else {
				p.ras.LineTo(x, y)
			}
		}
		p.ras.ClosePath()
	}
	p.paint(c, box)
}

func (p *painter) paint(c draw.Colour, box image.Rectangle) {
	r, g, b := c.RGB()
	p.ras.Draw(p.img, box, image.NewUniform(color.RGBA{r, g, b, 255}), image.Point{})
}

// text fills the outlines of the glyphs, unhinted.
func (p *painter) text(t draw.Text) {
	f, at := face(t.Bold), t.Origin()
	pen := 0.0
	for _, r := range t.Str {
		p.glyph(f, r, t, at, pen)
		pen += float64(draw.Advance(r, t.Bold)) * t.Size / draw.FontUnits
	}
}

func (p *painter) glyph(f *typeface, r rune, t draw.Text, at draw.Point, pen float64) {
	i, _ := f.glyph(r)
	segments, err := f.font.LoadGlyph(&p.buf, i, fixed.I(draw.FontUnits), nil)
	if err != nil || len(segments) == 0 {
		return
	}
	place := func(q fixed.Point26_6) draw.Point {
		x, y := pen+float64(q.X)/64*t.Size/draw.FontUnits, float64(q.Y)/64*t.Size/draw.FontUnits
		if t.Up {
			return draw.Point{X: at.X + y, Y: at.Y - x}
		}
		return draw.Point{X: at.X + x, Y: at.Y + y}
	}
	b := segments.Bounds()
	c1, c2 := place(b.Min), place(b.Max)
	box, ok := p.begin(
		draw.Point{X: min(c1.X, c2.X), Y: min(c1.Y, c2.Y)},
		draw.Point{X: max(c1.X, c2.X), Y: max(c1.Y, c2.Y)},
	)
	if !ok {
		return
	}
	xy := func(q fixed.Point26_6) (float32, float32) {
		v := place(q)
		return float32(v.X*p.scale - float64(box.Min.X)), float32(v.Y*p.scale - float64(box.Min.Y))
	}
	for _, s := range segments {
		ax, ay := xy(s.Args[0])
		bx, by := xy(s.Args[1])
		cx, cy := xy(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			p.ras.ClosePath()
			p.ras.MoveTo(ax, ay)
		case sfnt.SegmentOpLineTo:
			p.ras.LineTo(ax, ay)
		case sfnt.SegmentOpQuadTo:
			p.ras.QuadTo(ax, ay, bx, by)
		case sfnt.SegmentOpCubeTo:
			p.ras.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	p.ras.ClosePath()
	p.paint(t.Colour, box)
}
