package main

import (
	"fmt"
	"math"
	"strings"

	"plank.example/bench/tables"
	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

// baseSetting is the setting of the study's parts that vary nothing.
const baseSetting = "48x7 piece 8 stagger 8"

// leastRooms are needed for a line of a table.
const leastRooms = 20

func cellOf(s *tally.Summary, setting, strategy, group string) *tally.Cell {
	return s.Cells[tally.Key{Setting: setting, Strategy: strategy, Group: group}.String()]
}

// sizeGrid is waste, and the rule of thumb, by the size of the floor.
func sizeGrid(s *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: append([]string{"floor, sq ft"}, thumbHead...)}
	for i := range tally.Sizes {
		class := tally.Class(tally.Sizes, i)
		addThumb(g, s, "size "+class, strings.TrimSuffix(class, "-"))
	}
	addThumb(g, s, "all", "all")
	return g, nil
}

// shapeGrid is the same by the shape of the room.
func shapeGrid(s *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: append([]string{"shape"}, thumbHead...)}
	for _, shape := range []string{"rectangle", "L", "U", "alcove", "island", "angled"} {
		addThumb(g, s, "shape "+shape, shape)
	}
	return g, nil
}

var thumbHead = []string{
	"rooms", "planks added %", "10 to 90 %", "boxes added %", "carried, planks added %", "10 % rule: boxes too few %", "just right %", "one too many %", "more %",
	"carried: too few %",
}

func addThumb(g *tables.Grid, s *tally.Summary, group, label string) {
	c, habit := cellOf(s, baseSetting, s.Reference(), group), cellOf(s, baseSetting, "carry", group)
	if c == nil || habit == nil || c.Added.N() < leastRooms {
		return
	}
	g.Add(label, fmt.Sprint(c.Rooms), tables.Number(c.Added.Mean()/10, 1),
		tables.Number(c.Added.Quantile(0.1)/10, 1)+" to "+tables.Number(c.Added.Quantile(0.9)/10, 1), tables.Number(c.BoxAdded.Mean()/10, 1),
		tables.Number(habit.Added.Mean()/10, 1), tables.Number(c.Saved.Share(math.MinInt64, -1), 1), tables.Number(c.Saved.Share(0, 0), 1), tables.Number(c.Saved.Share(1, 1), 1),
		tables.Number(c.Saved.Share(2, math.MaxInt64), 1), tables.Number(habit.Saved.Share(math.MinInt64, -1), 1))
}

// factorGrid is waste by plank length, stagger and shortest piece.
func factorGrid(s *tally.Summary) (*tables.Grid, error) {
	settings, err := s.Spec.Settings()
	if err != nil {
		return nil, err
	}
	g := &tables.Grid{Head: []string{
		"setting", "rooms laid %", "planks added %", "10 to 90 %", "carried, laid %", "carried, planks added %", "carried, planks more", "boxes proven %",
	}}
	for _, set := range settings {
		c, habit := cellOf(s, set.Name, s.Reference(), "all"), cellOf(s, set.Name, "carry", "all")
		if c == nil || habit == nil {
			continue
		}
		laid := c.Outcomes[trial.Laid]
		g.Add(set.Name, tables.Number(100*float64(laid)/float64(c.Rooms), 1), tables.Number(c.Added.Mean()/10, 1),
			tables.Number(c.Added.Quantile(0.1)/10, 1)+" to "+tables.Number(c.Added.Quantile(0.9)/10, 1),
			tables.Number(100*float64(habit.Outcomes[trial.Laid])/float64(c.Rooms), 1), tables.Number(habit.Added.Mean()/10, 1),
			tables.Interval(habit.PairPlanks.Mean()), tables.Number(100*float64(c.Proven)/float64(laid), 1))
	}
	return g, nil
}

// proofGrid is what is proven, by what, and how fast.
func proofGrid(s *tally.Summary) (*tables.Grid, error) {
	names := s.Spec.Names()
	g := &tables.Grid{Head: []string{
		"strategy", "rooms", "boxes proven by dividing lengths %", "by certificate %", "planks proven %", "planks above the bound", "ms, median", "95 %", "99 %",
	}}
	for _, name := range names {
		c := cellOf(s, baseSetting, name, "all")
		if c == nil {
			continue
		}
		laid := c.Outcomes[trial.Laid]
		row := []string{name, fmt.Sprint(c.Rooms), tables.Number(100*float64(c.AreaProven)/float64(laid), 1), "-", "-", "-"}
		if c.Bound > 0 {
			row[3], row[4] = tables.Number(100*float64(c.Proven)/float64(laid), 2), tables.Number(100*float64(c.PlanksProven)/float64(laid), 2)
			row[5] = tables.Number(100*float64(c.Planks-c.Bound)/float64(c.Bound), 3) + " %"
		}
		for _, q := range []float64{0.5, 0.95, 0.99} {
			row = append(row, tables.Number(tally.Milliseconds(c.Time.Quantile(q)), 2))
		}
		g.Add(row...)
	}
	return g, nil
}

// largeGrid is offices and halls.
func largeGrid(summaries ...*tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: append([]string{"rooms of", "boxes proven %", "ms, median"}, thumbHead...)}
	for _, s := range summaries {
		c := cellOf(s, baseSetting, s.Reference(), "all")
		if c == nil {
			continue
		}
		one := &tables.Grid{}
		addThumb(one, s, "all", string(s.Spec.Mix))
		for _, r := range one.Rows {
			lead := []string{r[0], tables.Number(100*float64(c.Proven)/float64(c.Outcomes[trial.Laid]), 1), tables.Number(tally.Milliseconds(c.Time.Quantile(0.5)), 1)}
			g.Add(append(lead, r[1:]...)...)
		}
	}
	return g, nil
}
