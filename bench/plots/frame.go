package main

import (
	"errors"
	"fmt"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"plank.example/bench/tally"
)

// A style is how a strategy is drawn in all pictures. Colours are told apart also without colour vision (Okabe and
// Ito's palette, from memory), marks and dashes also in grey.
type style struct {
	colour color.RGBA
	mark   draw.GlyphDrawer
	dashes []vg.Length
}

var (
	long  = []vg.Length{vg.Points(6), vg.Points(3)}
	short = []vg.Length{vg.Points(2), vg.Points(2)}
)

var styles = map[string]style{
	"library-quick-planks": {color.RGBA{0, 114, 178, 255}, draw.CircleGlyph{}, nil},
	"library-quick":        {color.RGBA{86, 180, 233, 255}, draw.BoxGlyph{}, long},
	"library-normal":       {color.RGBA{0, 0, 0, 255}, draw.CrossGlyph{}, short},
	"carry":                {color.RGBA{213, 94, 0, 255}, draw.TriangleGlyph{}, nil},
	"pile":                 {color.RGBA{0, 158, 115, 255}, draw.SquareGlyph{}, nil},
	"halves":               {color.RGBA{204, 121, 167, 255}, draw.PyramidGlyph{}, long},
	"thirds":               {color.RGBA{230, 159, 0, 255}, draw.RingGlyph{}, long},
	"random":               {color.RGBA{110, 90, 0, 255}, draw.PlusGlyph{}, short},
	"thumb":                {color.RGBA{60, 60, 60, 255}, draw.CrossGlyph{}, long},
}

// styleOf returns the style of a strategy: those of someone else are grey.
func styleOf(name string) style {
	if s, ok := styles[name]; ok {
		return s
	}
	return style{color.RGBA{120, 120, 120, 255}, draw.RingGlyph{}, short}
}

var errNothing = errors.New("the summary holds nothing to draw")

// A picture is a plot with its legend beside it, where no line runs.
type picture struct {
	*plot.Plot
	legend plot.Legend
}

// legendWidth is what a legend takes of the width.
const legendWidth = 6 * vg.Centimeter

func newPicture(title, x, y string) *picture {
	p := &picture{plot.New(), plot.NewLegend()}
	p.Title.Text, p.X.Label.Text, p.Y.Label.Text = title, x, y
	p.Title.Padding = vg.Points(6)
	p.legend.Top, p.legend.Left, p.legend.Padding = true, true, vg.Points(3)
	grid := plotter.NewGrid()
	grid.Vertical.Color, grid.Horizontal.Color = color.Gray{225}, color.Gray{225}
	p.Add(grid)
	p.Y.Tick.Marker = round{}
	return p
}

// save draws the picture as SVG and PNG.
func (p *picture) save(folder, name string) error {
	const width, height = 19 * vg.Centimeter, 10 * vg.Centimeter
	for _, end := range []string{"svg", "png"} {
		c, err := draw.NewFormattedCanvas(width, height, end)
		if err != nil {
			return err
		}
		whole := draw.New(c)
		whole.SetColor(color.White)
		whole.Fill(whole.Rectangle.Path())
		p.Draw(draw.Crop(whole, vg.Points(4), -legendWidth, vg.Points(4), -vg.Points(4)))
		p.legend.Draw(draw.Crop(whole, width-legendWidth+vg.Points(8), 0, 0, -vg.Centimeter))
		f, err := os.Create(filepath.Join(folder, name+"."+end))
		if err != nil {
			return err
		}
		if _, err = c.WriteTo(f); err != nil {
			f.Close()
			return err
		}
		if err := f.Close(); err != nil {
			return err
		}
	}
	return nil
}

// round marks an axis at four to eight round figures: 1, 2 or 5 times a power of ten apart.
type round struct{}

func (round) Ticks(low, high float64) []plot.Tick {
	step := math.Pow10(int(math.Floor(math.Log10((high - low) / 4))))
	for _, k := range []float64{5, 2} {
		if (high-low)/(k*step) >= 4 {
			step *= k
			break
		}
	}
	var out []plot.Tick
	for k := math.Ceil(low/step - 1e-9); k*step <= high+1e-9*step; k++ {
		v := k*step + 0 // no -0
		out = append(out, plot.Tick{Value: v, Label: fmt.Sprintf("%.4g", v)})
	}
	return out
}

// powers marks the powers of ten, 0.01 and 1000 as such, and what lies between without figures.
type powers struct{}

func (powers) Ticks(low, high float64) []plot.Tick {
	var out []plot.Tick
	for e := int(math.Floor(math.Log10(low))); e <= int(math.Ceil(math.Log10(high))); e++ {
		for k := 1.0; k < 10; k++ {
			v := k * math.Pow10(e)
			if v < low*(1-1e-9) || v > high*(1+1e-9) {
				continue
			}
			t := plot.Tick{Value: v}
			if k == 1 {
				t.Label = fmt.Sprintf("%.9g", v)
			}
			out = append(out, t)
		}
	}
	return out
}

// logarithmic gives an axis a scale of powers.
func logarithmic(a *plot.Axis, marks plot.Ticker) { a.Scale, a.Tick.Marker = plot.LogScale{}, marks }

// ticks labels round figures.
func ticks(at ...int) plot.ConstantTicks {
	var out plot.ConstantTicks
	for _, v := range at {
		out = append(out, plot.Tick{Value: float64(v), Label: fmt.Sprint(v)})
	}
	return out
}

// A point is a figure with the ends of its 95 % interval.
type point struct{ x, y, low, high float64 }

// points are drawn as a line with marks and bars.
type points []point

func (p points) Len() int                       { return len(p) }
func (p points) XY(i int) (x, y float64)        { return p[i].x, p[i].y }
func (p points) YError(i int) (low, up float64) { return p[i].y - p[i].low, p[i].high - p[i].y }

// add draws the points of a strategy. Fewer than two are left out.
func (p *picture) add(name string, of points) error {
	if len(of) < 2 {
		return nil
	}
	line, marks, err := plotter.NewLinePoints(of)
	if err != nil {
		return err
	}
	errs, err := plotter.NewYErrorBars(of)
	if err != nil {
		return err
	}
	s := styleOf(name)
	line.Color, line.Width, line.Dashes = s.colour, vg.Points(1.5), s.dashes
	marks.Color, marks.Shape, marks.Radius = s.colour, s.mark, vg.Points(3)
	errs.Color, errs.Width = s.colour, vg.Points(0.8)
	p.Add(line, errs, marks)
	p.legend.Add(name, line, marks)
	return nil
}

// band fills what lies between the ends of the points' intervals.
func (p *picture) band(of points, colour color.Color, name string) error {
	var around plotter.XYs
	for _, q := range of {
		around = append(around, plotter.XY{X: q.x, Y: q.low})
	}
	for _, q := range slices.Backward(of) {
		around = append(around, plotter.XY{X: q.x, Y: q.high})
	}
	fill, err := plotter.NewPolygon(around)
	if err != nil {
		return err
	}
	fill.Color, fill.LineStyle.Width = colour, 0
	p.Add(fill)
	if name != "" {
		p.legend.Add(name, fill)
	}
	return nil
}

// level draws a dashed line across.
func (p *picture) level(y, from, to float64, name string) error {
	line, err := plotter.NewLine(plotter.XYs{{X: from, Y: y}, {X: to, Y: y}})
	if err != nil {
		return err
	}
	line.Dashes, line.Color = []vg.Length{vg.Points(4), vg.Points(3)}, color.Black
	p.Add(line)
	p.legend.Add(name, line)
	return nil
}

// cell returns what a strategy came to in a group of rooms; nil where there is nothing.
func cell(s *tally.Summary, setting, strategy, group string) *tally.Cell {
	return s.Cells[tally.Key{Setting: setting, Strategy: strategy, Group: group}.String()]
}

// meanOf is the mean of a distribution in tenths.
func meanOf(x float64, h tally.Histogram) point {
	mean, half := h.MeanInterval()
	return point{x, mean / 10, (mean - half) / 10, (mean + half) / 10}
}
