package main

import (
	"cmp"
	"errors"
	"fmt"
	"image/color"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"plank.example/bench/tally"
	"plank.example/cutopt/measure"
)

// colours gives each strategy one colour in all pictures, told apart also without colour vision (Okabe and Ito's
// palette, from memory).
var colours = map[string]color.RGBA{
	"library-quick-planks": {0, 114, 178, 255},
	"library-quick":        {86, 180, 233, 255},
	"library-normal":       {0, 0, 0, 255},
	"carry":                {213, 94, 0, 255},
	"pile":                 {0, 158, 115, 255},
	"halves":               {204, 121, 167, 255},
	"thirds":               {230, 159, 0, 255},
	"random":               {240, 228, 66, 255},
}

// colourOf returns the colour of a strategy: those of someone else are grey.
func colourOf(name string) color.Color {
	if c, ok := colours[name]; ok {
		return c
	}
	return color.RGBA{120, 120, 120, 255}
}

var errNothing = errors.New("the summary holds nothing to draw")

// scope is the first setting of a summary and its strategies.
func scope(s *tally.Summary) (setting string, names []string, err error) {
	settings, err := s.Spec.Settings()
	if err != nil {
		return "", nil, err
	}
	return settings[0].Name, s.Spec.Names(), nil
}

func newPlot(title, x, y string) *plot.Plot {
	p := plot.New()
	p.Title.Text, p.X.Label.Text, p.Y.Label.Text = title, x, y
	p.Legend.Top = true
	p.Add(plotter.NewGrid())
	return p
}

// powers marks the powers of ten.
var powers = plot.LogTicks{Prec: -1}

// logarithmic gives an axis a scale of powers.
func logarithmic(a *plot.Axis, marks plot.Ticker) { a.Scale, a.Tick.Marker = plot.LogScale{}, marks }

// cell returns what a strategy came to in a group of rooms; nil where there is nothing.
func cell(s *tally.Summary, setting, strategy, group string) *tally.Cell {
	return s.Cells[tally.Key{Setting: setting, Strategy: strategy, Group: group}.String()]
}

// headroom leaves a quarter of the height above the lines, for the legend.
func headroom(p *plot.Plot) { p.Y.Max = p.Y.Min + 1.33*(p.Y.Max-p.Y.Min) }

// A point is a mean with half its 95 % interval.
type point struct{ x, mean, half float64 }

// bars are points with bars of their intervals.
type bars []point

func (b bars) Len() int                       { return len(b) }
func (b bars) XY(i int) (x, y float64)        { return b[i].x, b[i].mean }
func (b bars) YError(i int) (low, up float64) { return b[i].half, b[i].half }

// addMeans draws a line with marks and bars.
func addMeans(p *plot.Plot, name string, points bars) error {
	var line plotter.XYs
	for _, q := range points {
		line = append(line, plotter.XY{X: q.x, Y: q.mean})
	}
	if len(line) < 2 {
		return nil
	}
	errs, err := plotter.NewYErrorBars(points)
	if err != nil {
		return err
	}
	errs.Color = colourOf(name)
	p.Add(errs)
	return add(p, name, line)
}

// meanOf is the mean of a distribution in tenths, with half the width of its interval (normal).
func meanOf(x float64, h tally.Histogram) point {
	mean, n, squares := h.Mean(), float64(h.N()), 0.0
	for v, k := range h {
		squares += float64(k) * (float64(v) - mean) * (float64(v) - mean)
	}
	return point{x, mean / 10, 1.96 * math.Sqrt(squares/(n-1)/n) / 10}
}

// add draws a line with marks. Fewer than two points are left out.
func add(p *plot.Plot, name string, points plotter.XYs) error {
	if len(points) < 2 {
		return nil
	}
	line, marks, err := plotter.NewLinePoints(points)
	if err != nil {
		return err
	}
	line.Color, line.Width = colourOf(name), vg.Points(1.5)
	marks.Color, marks.Shape, marks.Radius = line.Color, draw.CircleGlyph{}, vg.Points(2)
	p.Add(line, marks)
	p.Legend.Add(name, line, marks)
	return nil
}

// level draws a dashed line across.
func level(p *plot.Plot, y, from, to float64, name string) error {
	line, err := plotter.NewLine(plotter.XYs{{X: from, Y: y}, {X: to, Y: y}})
	if err != nil {
		return err
	}
	line.Dashes, line.Color = []vg.Length{vg.Points(4), vg.Points(3)}, color.Black
	p.Add(line)
	p.Legend.Add(name, line)
	return nil
}

// middle is where a class is drawn: its geometric middle.
func middle(classes []int, i int) float64 {
	low := math.Max(float64(classes[i]), float64(classes[1])/2)
	if i == len(classes)-1 {
		return low * 1.4
	}
	return math.Sqrt(low * float64(classes[i+1]))
}

// leastRooms are needed for a point.
const leastRooms = 20

// waste draws means of all strategies that lay, and the middle 80 % of the fewest planks.
func waste(s *tally.Summary) (map[string]*plot.Plot, error) {
	setting, names, err := scope(s)
	if err != nil {
		return nil, err
	}
	p := newPlot("Planks needed, added to the floor area: "+setting, "floor, sq ft", "added, %")
	logarithmic(&p.X, ticks(tally.Sizes[1:]))
	p.Y.Min = 0
	from, to := math.Inf(1), math.Inf(-1)
	for _, name := range names {
		var mean bars
		var low, high plotter.XYs
		for i := range tally.Sizes {
			c := cell(s, setting, name, "size "+tally.Class(tally.Sizes, i))
			if c == nil || c.Added.N() < leastRooms {
				continue
			}
			x := middle(tally.Sizes, i)
			from, to = math.Min(from, x), math.Max(to, x)
			mean = append(mean, meanOf(x, c.Added))
			low = append(low, plotter.XY{X: x, Y: c.Added.Quantile(0.1) / 10})
			high = append(high, plotter.XY{X: x, Y: c.Added.Quantile(0.9) / 10})
		}
		if len(mean) < 2 {
			continue
		}
		if name == s.PlanksReference() {
			slices.Reverse(high)
			band, err := plotter.NewPolygon(append(slices.Clone(low), high...))
			if err != nil {
				return nil, err
			}
			band.Color, band.LineStyle.Width = color.NRGBA{80, 80, 80, 50}, 0
			p.Add(band)
			p.Legend.Add("middle 80 % of "+name, band)
		}
		if err := addMeans(p, name, mean); err != nil {
			return nil, err
		}
	}
	if from > to {
		return nil, errNothing
	}
	headroom(p)
	return map[string]*plot.Plot{"waste-size": p}, level(p, 10, from, to, "the 10 % rule")
}

// saved draws how many boxes the fewest are below what the rule of thumb buys.
func saved(s *tally.Summary) (map[string]*plot.Plot, error) {
	setting, _, err := scope(s)
	if err != nil {
		return nil, err
	}
	name := s.Reference()
	c := cell(s, setting, name, "all")
	if c == nil || c.Saved.N() == 0 {
		return nil, errNothing
	}
	low, high := int64(math.MaxInt64), int64(math.MinInt64)
	for v := range c.Saved {
		low, high = min(low, v), max(high, v)
	}
	var shares plotter.Values
	var labels []string
	for v := low; v <= high; v++ {
		shares = append(shares, c.Saved.Share(v, v))
		labels = append(labels, fmt.Sprintf("%+d", v))
	}
	p := newPlot(
		fmt.Sprintf("Boxes saved against the 10 %% rule by %s: %s", name, setting),
		"boxes by the rule less boxes needed",
		"rooms, %",
	)
	chart, err := plotter.NewBarChart(shares, vg.Points(24))
	if err != nil {
		return nil, err
	}
	chart.Color = colourOf(name)
	p.Add(chart)
	p.NominalX(labels...)
	return map[string]*plot.Plot{"boxes-saved": p}, nil
}

// factors draws, for plank length, stagger and shortest piece, the settings that differ from the first in that alone.
func factors(s *tally.Summary) (map[string]*plot.Plot, error) {
	settings, err := s.Spec.Settings()
	if err != nil {
		return nil, err
	}
	_, names, err := scope(s)
	if err != nil {
		return nil, err
	}
	base := settings[0]
	out := make(map[string]*plot.Plot)
	for _, f := range []struct {
		file, x string
		value   func(i int) measure.Length
	}{
		{"waste-plank", "length of a plank, " +
			"in", func(i int) measure.Length { return settings[i].Product.Plank.Length }},
		{"waste-stagger", "stagger, in", func(i int) measure.Length { return settings[i].Rules.Stagger }},
		{"waste-piece", "shortest piece, in", func(i int) measure.Length { return settings[i].Rules.MinPiece }},
	} {
		p := newPlot("Planks needed, added to the floor area", f.x, "added, %")
		p.Y.Min = 0
		drawn := false
		var at plot.ConstantTicks
		for _, name := range names {
			if name == "library-quick" && s.PlanksReference() != name {
				continue // its planks are no minimum
			}
			var points bars
			for i, set := range settings {
				same := set.Product.Name == base.Product.Name && set.Rules == base.Rules
				if !same && f.value(i) == f.value(0) {
					continue
				}
				c := cell(s, set.Name, name, "all")
				if c != nil && c.Added.N() >= leastRooms {
					q := meanOf(float64(f.value(i))/float64(measure.Inch), c.Added)
					points, at = append(points, q), append(at, plot.Tick{Value: q.x, Label: fmt.Sprint(q.x)})
				}
			}
			slices.SortFunc(points, func(a, b point) int { return cmp.Compare(a.x, b.x) })
			drawn = drawn || len(points) > 1
			if err := addMeans(p, name, points); err != nil {
				return nil, err
			}
		}
		p.X.Tick.Marker = at
		if drawn {
			headroom(p)
			out[f.file] = p
		}
	}
	if len(out) == 0 {
		return nil, errNothing
	}
	return out, nil
}

// proof draws the share of rooms proven within a time.
func proof(s *tally.Summary) (map[string]*plot.Plot, error) {
	setting, names, err := scope(s)
	if err != nil {
		return nil, err
	}
	p := newPlot("Time to proof: "+setting, "milliseconds, one core", "rooms proven, %")
	logarithmic(&p.X, powers)
	p.Legend.Top = false
	p.Y.Min, p.Y.Max = 0, 100
	drawn := false
	for _, name := range names {
		c := cell(s, setting, name, "all")
		if c == nil || !strings.HasPrefix(name, "library") {
			continue
		}
		var steps []int64
		for v := range c.TimeProven {
			steps = append(steps, v)
		}
		slices.Sort(steps)
		var points plotter.XYs
		sum := int64(0)
		for _, v := range steps {
			sum += c.TimeProven[v]
			points = append(
				points,
				plotter.XY{X: tally.Milliseconds(float64(v) + 0.5), Y: 100 * float64(sum) / float64(c.Rooms)},
			)
		}
		drawn = drawn || len(points) > 1
		if err := add(p, name, points); err != nil {
			return nil, err
		}
	}
	if !drawn {
		return nil, errNothing
	}
	return map[string]*plot.Plot{"time-to-proof": p}, nil
}

// cost draws the median time against rows.
func cost(s *tally.Summary) (map[string]*plot.Plot, error) {
	setting, names, err := scope(s)
	if err != nil {
		return nil, err
	}
	p := newPlot("Median time: "+setting+", rooms: "+string(s.Spec.Mix), "rows", "milliseconds, one core")
	logarithmic(&p.X, ticks(tally.Depths[1:]))
	logarithmic(&p.Y, powers)
	p.Legend.Left = true
	drawn := false
	for _, name := range names {
		var points plotter.XYs
		for i := range tally.Depths {
			c := cell(s, setting, name, "rows "+tally.Class(tally.Depths, i))
			if c != nil && c.Time.N() >= leastRooms {
				points = append(points, plotter.XY{
					X: middle(tally.Depths, i),
					Y: tally.Milliseconds(c.Time.Quantile(0.5)),
				})
			}
		}
		drawn = drawn || len(points) > 1
		if err := add(p, name, points); err != nil {
			return nil, err
		}
	}
	if !drawn {
		return nil, errNothing
	}
	return map[string]*plot.Plot{"cost-rows": p}, nil
}

// ticks labels the limits of classes.
func ticks(at []int) plot.ConstantTicks {
	var out plot.ConstantTicks
	for _, v := range at {
		out = append(out, plot.Tick{Value: float64(v), Label: fmt.Sprint(v)})
	}
	return out
}
