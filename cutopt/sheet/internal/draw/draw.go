// Package draw is a small drawing model with a writer for SVG; package print writes its drawings as PNG and PDF.
//
// A [Drawing] is one page: paths and lines of text in points (1/72 in), x to the right and y down from the top left
// corner. Hatching and arrows are plain paths, so that the writers cannot disagree about them. Text is set in the Go
// fonts, and [Width] measures it with the same figures that the writers use. What is written depends on the drawing
// alone: it carries no date and no name of a machine.
package draw

import "math"

// A Point is a place on the page, in points.
type Point struct{ X, Y float64 }

// A Colour is 0xRRGGBB, or None.
type Colour int32

// None paints nothing.
const None Colour = -1

// RGB returns the three components, 0 to 255.
func (c Colour) RGB() (r, g, b uint8) { return uint8(c >> 16), uint8(c >> 8), uint8(c) }

// A Pen draws lines.
type Pen struct {
	Colour Colour
	Width  float64 // points; 0 draws nothing
	Dash   float64 // length of dashes and of the space between them; 0 for a solid line
}

// A Path is a set of open or closed lines that share paint. The rings of a filled path do not overlap.
type Path struct {
	Lines  [][]Point
	Closed bool
	Fill   Colour
	Pen    Pen
	Title  string // what the path stands for, told by screens; may be empty
}

// An Anchor says which part of a text lies at its point.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// A Text is one line of text. Its point lies on the base line.
type Text struct {
	At     Point
	Str    string
	Size   float64 // points
	Bold   bool
	Colour Colour
	Anchor Anchor
	Up     bool // turned a quarter to the left, reading upwards
}

// A Clip limits what follows to a rectangle, until the next Clip; the zero Clip lifts the limit.
type Clip struct{ Min, Max Point }

// A Link makes what follows a link on a page for screens, until the next Link or Clip; the zero Link ends it. Pictures
// and printed pages have none.
type Link struct {
	To   string // name of an element of the page
	Name string // what it leads to, for those who do not see the picture
}

// A Shape is a Path, a Text, a Clip or a Link.
type Shape interface{ shape() }

func (Path) shape() {}
func (Text) shape() {}
func (Clip) shape() {}
func (Link) shape() {}

// A Drawing is one page.
type Drawing struct {
	Width, Height float64 // points
	Title         string
	Paper         Colour
	Shapes        []Shape
}

// Add appends shapes.
func (d *Drawing) Add(s ...Shape) { d.Shapes = append(d.Shapes, s...) }

// Line draws a line through points.
func (d *Drawing) Line(pen Pen, pts ...Point) {
	d.Add(Path{Lines: [][]Point{pts}, Fill: None, Pen: pen})
}

// Polygon draws a closed ring.
func (d *Drawing) Polygon(fill Colour, pen Pen, ring ...Point) {
	d.Add(Path{Lines: [][]Point{ring}, Closed: true, Fill: fill, Pen: pen})
}

// Rect draws a rectangle.
func (d *Drawing) Rect(fill Colour, pen Pen, x, y, w, h float64) {
	d.Polygon(fill, pen, Point{x, y}, Point{x + w, y}, Point{x + w, y + h}, Point{x, y + h})
}

// Circle draws a circle as a polygon of 32 corners.
func (d *Drawing) Circle(fill Colour, pen Pen, centre Point, radius float64) {
	ring := make([]Point, 32)
	for i := range ring {
		sin, cos := math.Sincos(float64(i) * math.Pi / 16)
		ring[i] = Point{centre.X + radius*cos, centre.Y + radius*sin}
	}
	d.Polygon(fill, pen, ring...)
}

// Arrow draws a line with a filled head of the given length at its last point.
func (d *Drawing) Arrow(pen Pen, head float64, from, to Point) {
	dx, dy := to.X-from.X, to.Y-from.Y
	n := math.Hypot(dx, dy)
	if n == 0 {
		return
	}
	dx, dy = dx/n, dy/n
	neck := Point{to.X - head*dx, to.Y - head*dy}
	d.Line(pen, from, neck)
	half := head * 0.36
	d.Polygon(pen.Colour, Pen{}, to, Point{neck.X - half*dy, neck.Y + half*dx},
		Point{neck.X + half*dy, neck.Y - half*dx})
}

// Write sets a line of text.
func (d *Drawing) Write(t Text) {
	if t.Str != "" {
		d.Add(t)
	}
}
