package print

import (
	"fmt"
	"io"
	"iter"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"plank.example/cutopt/sheet/internal/draw"
)

// PDF writes one page a drawing. The pages' contents are held in memory until the last one is drawn, because the fonts
// are cut down to the glyphs in use.
func PDF(w io.Writer, title, lang string, pages iter.Seq[*draw.Drawing]) error {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: 612, Ht: 792}})
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCompression(true)
	f.SetCatalogSort(true)
	f.SetCreationDate(epoch)
	f.SetModificationDate(epoch)
	f.SetProducer("cutopt", true)
	f.SetTitle(settable(title), true)
	f.SetLang(lang)
	f.AddUTF8FontFromBytes("Go", "", regular().data)
	f.AddUTF8FontFromBytes("Go", "B", bold().data)
	for d := range pages {
		f.AddPageFormat("P", fpdf.SizeType{Wd: d.Width, Ht: d.Height})
		p := &pdfPage{f: f}
		if d.Paper != draw.None && d.Paper != 0xffffff {
			p.path(
				draw.Path{
					Lines:  [][]draw.Point{{{X: 0, Y: 0}, {X: d.Width, Y: 0}, {X: d.Width, Y: d.Height}, {X: 0, Y: d.Height}}},
					Closed: true,
					Fill:   d.Paper,
				},
			)
		}
		for _, s := range d.Shapes {
			switch s := s.(type) {
			case draw.Path:
				p.path(s)
			case draw.Text:
				p.text(s)
			case draw.Clip:
				p.clip(s)
			}
		}
		p.clip(draw.Clip{})
	}
	if err := f.Output(w); err != nil {
		return fmt.Errorf("writing PDF: %w", err)
	}
	return nil
}

// epoch stands in every file instead of the time it was written, so that the same plan gives the same bytes.
var epoch = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// A pdfPage draws on the current page.
type pdfPage struct {
	f       *fpdf.Fpdf
	clipped bool
}

func (p *pdfPage) clip(c draw.Clip) {
	if p.clipped {
		p.f.ClipEnd()
		p.clipped = false
	}
	if c != (draw.Clip{}) {
		p.f.ClipRect(c.Min.X, c.Min.Y, c.Max.X-c.Min.X, c.Max.Y-c.Min.Y, false)
		p.clipped = true
	}
}

func (p *pdfPage) path(s draw.Path) {
	f := p.f
	style := ""
	if s.Fill != draw.None {
		r, g, b := s.Fill.RGB()
		f.SetFillColor(int(r), int(g), int(b))
		style = "F"
	}
	if s.Pen.Width > 0 && s.Pen.Colour != draw.None {
		r, g, b := s.Pen.Colour.RGB()
		f.SetDrawColor(int(r), int(g), int(b))
		f.SetLineWidth(s.Pen.Width)
		if s.Pen.Dash > 0 {
			f.SetDashPattern([]float64{s.Pen.Dash}, 0)
			defer f.SetDashPattern(nil, 0)
		}
		style += "D"
	}
	if style == "" {
		return
	}
	for _, line := range s.Lines {
		for i, q := range line {
			if i == 0 {
				f.MoveTo(q.X, q.Y)
			} else {
				f.LineTo(q.X, q.Y)
			}
		}
		if s.Closed {
			f.ClosePath()
		}
	}
	f.DrawPath(style)
}

func (p *pdfPage) text(t draw.Text) {
	f, at := p.f, t.Origin()
	style := ""
	if t.Bold {
		style = "B"
	}
	f.SetFont("Go", style, t.Size)
	r, g, b := t.Colour.RGB()
	f.SetTextColor(int(r), int(g), int(b))
	if t.Up {
		f.TransformBegin()
		f.TransformRotate(90, at.X, at.Y)
		defer f.TransformEnd()
	}
	f.Text(at.X, at.Y, settable(t.Str))
}
