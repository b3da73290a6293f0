package main

import (
	"cmp"
	"fmt"
	"image/color"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"plank.example/bench/tally"
	"plank.example/cutopt/measure"
)

// leastRooms are needed for a point.
const leastRooms = 20

// scope is the first setting of a summary and its strategies.
func scope(s *tally.Summary) (setting string, names []string, err error) {
	settings, err := s.Spec.Settings()
	if err != nil {
		return "", nil, err
	}
	return settings[0].Name, s.Spec.Names(), nil
}

const (
	squareFoot = 92_903.04 // square millimetres
	planksAxis = "planks added to the floor, %"
)

// bySize are the means of a distribution of each class of size, at the mean area of its rooms.
func bySize(s *tally.Summary, setting, name string, of func(*tally.Cell) tally.Histogram) points {
	var out points
	for i := range tally.Sizes {
		group := "size " + tally.Class(tally.Sizes, i)
		c, laid := cell(s, setting, name, group), cell(s, setting, s.Reference(), group)
		if c == nil || laid == nil || of(c).N() < leastRooms {
			continue
		}
		area := float64(laid.Net) / float64(laid.BoxAdded.N()) / squareFoot
		out = append(out, meanOf(area, of(c)))
	}
	return out
}

// waste draws the planks of all strategies that lay, with the middle 80 % of the fewest in their colour, and the boxes
// that are bought.
func waste(s *tally.Summary) (map[string]*picture, error) {
	setting, names, err := scope(s)
	if err != nil {
		return nil, err
	}
	p := newPicture("Planks needed: "+setting, "floor, sq ft", planksAxis)
	q := newPicture("Boxes bought: "+setting, "floor, sq ft", "boxes added to the floor, %")
	for _, pic := range []*picture{p, q} {
		logarithmic(&pic.X, ticks(30, 50, 75, 100, 150, 200, 300, 400))
		pic.Y.Min = 0
	}
	planks := func(c *tally.Cell) tally.Histogram { return c.Added }
	boxes := func(c *tally.Cell) tally.Histogram { return c.BoxAdded }
	var middle points
	for i := range tally.Sizes {
		c := cell(s, setting, s.PlanksReference(), "size "+tally.Class(tally.Sizes, i))
		if c != nil && c.Added.N() >= leastRooms {
			x := float64(c.Net) / float64(c.Added.N()) / squareFoot
			middle = append(middle, point{x, 0, c.Added.Quantile(0.1) / 10, c.Added.Quantile(0.9) / 10})
		}
	}
	if len(middle) < 2 {
		return nil, errNothing
	}
	if err := p.band(middle, color.NRGBA{0, 114, 178, 40}, "middle 80 %"); err != nil {
		return nil, err
	}
	for _, name := range names {
		if c := cell(s, setting, name, "all"); c != nil && c.AddedPile.N() > 0 { // no mere count
			if err := p.add(name, bySize(s, setting, name, planks)); err != nil {
				return nil, err
			}
		}
		if slices.Contains([]string{"thumb", "pile", s.Reference()}, name) {
			if err := q.add(name, bySize(s, setting, name, boxes)); err != nil {
				return nil, err
			}
		}
	}
	last := middle[len(middle)-1].x
	if err := q.level(10, middle[0].x, last, "10 % of the floor"); err != nil {
		return nil, err
	}
	return map[string]*picture{"waste-size": p, "boxes-size": q}, nil
}

// saved draws how many boxes the fewest are below what the rule of thumb buys.
func saved(s *tally.Summary) (map[string]*picture, error) {
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
	p := newPicture("Boxes by the 10 % rule against the fewest: "+setting, "boxes by the rule less the fewest", "rooms, %")
	var shares plotter.Values
	var ends points
	for v := low; v <= high; v++ {
		share, half := tally.ShareOf(c.Saved[v], c.Saved.N())
		shares = append(shares, share)
		ends = append(ends, point{float64(v), share, max(share-half, 0), share + half})
	}
	chart, err := plotter.NewBarChart(shares, vg.Points(24))
	if err != nil {
		return nil, err
	}
	chart.Color, chart.XMin, chart.LineStyle.Width = styleOf(name).colour, float64(low), 0
	bars, err := plotter.NewYErrorBars(ends)
	if err != nil {
		return nil, err
	}
	p.Add(chart, bars)
	p.legend.Add(name, chart)
	p.X.Min, p.X.Max, p.Y.Min = float64(low)-0.6, float64(high)+0.6, 0
	var marks plot.ConstantTicks
	for v := low; v <= high; v++ {
		label := fmt.Sprintf("%+d", v)
		if v == 0 {
			label = "0"
		}
		marks = append(marks, plot.Tick{Value: float64(v), Label: label})
	}
	p.X.Tick.Marker = marks
	return map[string]*picture{"boxes-saved": p}, nil
}

// factors draws, for plank length, stagger and shortest piece, the settings that differ from the first in that alone.
func factors(s *tally.Summary) (map[string]*picture, error) {
	settings, err := s.Spec.Settings()
	if err != nil {
		return nil, err
	}
	base := settings[0]
	out := make(map[string]*picture)
	for _, f := range []struct {
		file, x string
		value   func(i int) measure.Length
	}{
		{"waste-plank", "length of a plank, in", func(i int) measure.Length { return settings[i].Product.Plank.Length }},
		{"waste-stagger", "stagger, in", func(i int) measure.Length { return settings[i].Rules.Stagger }},
		{"waste-piece", "shortest piece, in", func(i int) measure.Length { return settings[i].Rules.MinPiece }},
	} {
		p := newPicture("Planks needed, other rules as in "+base.Name, f.x, planksAxis)
		p.Y.Min = 0
		var at plot.ConstantTicks
		for _, name := range s.Spec.Names() {
			if name == s.Reference() && s.PlanksReference() != name {
				continue // its planks are no minimum
			}
			var of points
			for i, set := range settings {
				same := set.Product.Name == base.Product.Name && set.Rules == base.Rules
				if !same && f.value(i) == f.value(0) {
					continue
				}
				c := cell(s, set.Name, name, "all")
				if c != nil && c.Added.N() >= leastRooms {
					q := meanOf(float64(f.value(i))/float64(measure.Inch), c.Added)
					of, at = append(of, q), append(at, plot.Tick{Value: q.x, Label: fmt.Sprint(q.x)})
				}
			}
			slices.SortFunc(of, func(a, b point) int { return cmp.Compare(a.x, b.x) })
			if len(of) > 1 {
				out[f.file] = p
			}
			if err := p.add(name, of); err != nil {
				return nil, err
			}
		}
		slices.SortFunc(at, func(a, b plot.Tick) int { return cmp.Compare(a.Value, b.Value) })
		p.X.Tick.Marker = slices.Compact(at)
	}
	if len(out) == 0 {
		return nil, errNothing
	}
	return out, nil
}

// proof draws the share of rooms proven within a time, with the band of its interval.
func proof(s *tally.Summary) (map[string]*picture, error) {
	setting, names, err := scope(s)
	if err != nil {
		return nil, err
	}
	p := newPicture("Time to proof: "+setting, "milliseconds of one core", "rooms proven, %")
	logarithmic(&p.X, powers{})
	drawn := false
	for _, name := range names {
		c := cell(s, setting, name, "all")
		if c == nil || !strings.HasPrefix(name, "library") || len(c.TimeProven) < 2 {
			continue
		}
		var steps []int64
		for v := range c.TimeProven {
			steps = append(steps, v)
		}
		slices.Sort(steps)
		var of points
		sum := int64(0)
		for _, v := range steps {
			sum += c.TimeProven[v]
			share, half := tally.ShareOf(sum, c.Rooms)
			of = append(of, point{tally.Milliseconds(float64(v) + 0.5), share, max(share-half, 0), min(share+half, 100)})
		}
		line, err := plotter.NewLine(of)
		if err != nil {
			return nil, err
		}
		look := styleOf(name)
		faint := color.NRGBA{look.colour.R, look.colour.G, look.colour.B, 40}
		if err := p.band(of, faint, ""); err != nil {
			return nil, err
		}
		line.Color, line.Width, line.Dashes = look.colour, vg.Points(1.5), look.dashes
		p.Add(line)
		p.legend.Add(name, line)
		drawn = true
	}
	if !drawn {
		return nil, errNothing
	}
	p.Y.Min, p.Y.Max = 0, 100
	return map[string]*picture{"time-to-proof": p}, nil
}

// cost draws the median time against rows.
func cost(s *tally.Summary) (map[string]*picture, error) {
	setting, names, err := scope(s)
	if err != nil {
		return nil, err
	}
	p := newPicture("Median time of "+string(s.Spec.Mix)+" rooms: "+setting, "rows", "milliseconds of one core")
	logarithmic(&p.X, ticks(8, 12, 16, 20, 24, 32, 48, 64, 96))
	logarithmic(&p.Y, powers{})
	drawn := false
	for _, name := range names {
		var of points
		for i := range tally.Depths {
			c := cell(s, setting, name, "rows "+tally.Class(tally.Depths, i))
			if c == nil || c.Time.N() < leastRooms || c.AddedPile.N() == 0 {
				continue
			}
			at, low, high := c.Time.QuantileInterval(0.5)
			of = append(of, point{
				middle(tally.Depths, i), tally.Milliseconds(at), tally.Milliseconds(low), tally.Milliseconds(high),
			})
		}
		drawn = drawn || len(of) > 1
		if err := p.add(name, of); err != nil {
			return nil, err
		}
	}
	if !drawn {
		return nil, errNothing
	}
	return map[string]*picture{"cost-rows": p}, nil
}

// middle is where a class is drawn: its geometric middle.
func middle(classes []int, i int) float64 {
	low := math.Max(float64(classes[i]), float64(classes[1])/2)
	if i == len(classes)-1 {
		return low * 1.4
	}
	return math.Sqrt(low * float64(classes[i+1]))
}
