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
	"rooms", "fewest planks added %", "10 to 90 %", "pile habit, planks added %", "opened with a pile %",
	"fewest boxes added %",
	"10 % rule: boxes too few %", "just right %", "one too many %", "more %", "pile habit: boxes too few %",
}

// habit is the main habit of the trade in the tables.
const habit = "pile"

func addThumb(g *tables.Grid, s *tally.Summary, group, label string) {
	boxes, planks := cellOf(s, baseSetting, s.Reference(), group), cellOf(s, baseSetting, s.PlanksReference(), group)
	pile := cellOf(s, baseSetting, habit, group)
	if boxes == nil || planks == nil || pile == nil || planks.Added.N() < leastRooms {
		return
	}
	rule := func(low, high int64) string {
		n := int64(0)
		for v, k := range boxes.Saved {
			if low <= v && v <= high {
				n += k
			}
		}
		return tables.Share(n, boxes.Saved.N())
	}
	few := int64(0)
	for v, k := range pile.Saved {
		if v < 0 {
			few += k
		}
	}
	g.Add(
		label,
		fmt.Sprint(planks.Rooms),
		tables.Number(planks.Added.Mean()/10, 1),
		tables.Number(planks.Added.Quantile(0.1)/10, 1)+" to "+tables.Number(planks.Added.Quantile(0.9)/10, 1),
		tables.Number(
			pile.Added.Mean()/10,
			1,
		),
		tables.Number(pile.AddedPile.Mean()/10, 1),
		tables.Number(boxes.BoxAdded.Mean()/10, 1),
		rule(math.MinInt64, -1),
		rule(0, 0),
		rule(1, 1),
		rule(2, math.MaxInt64),
		tables.Share(few, pile.Saved.N()),
	)
}

// factorGrid is waste by plank length, stagger and shortest piece, from plans with the fewest planks. Differences are
// of the same rooms.
func factorGrid(s *tally.Summary) (*tables.Grid, error) {
	settings, err := s.Spec.Settings()
	if err != nil {
		return nil, err
	}
	g := &tables.Grid{Head: []string{
		"setting", "rooms laid %", "fewest planks added %", "10 to 90 %", "points above the first", "planks proven %",
		"pile habit, laid %", "planks added %", "points above the fewest", "opened with a pile %",
	}}
	for i, set := range settings {
		c, pile := cellOf(s, set.Name, s.PlanksReference(), "all"), cellOf(s, set.Name, habit, "all")
		if c == nil || pile == nil {
			continue
		}
		laid := c.Outcomes[trial.Laid]
		first := "-"
		if i > 0 {
			first = points(c.PairFirst)
		}
		g.Add(set.Name, tables.Number(100*float64(laid)/float64(c.Rooms), 1), tables.Number(c.Added.Mean()/10, 1),
			tables.Number(c.Added.Quantile(0.1)/10, 1)+" to "+tables.Number(c.Added.Quantile(0.9)/10, 1), first,
			tables.Share(c.PlanksProven, laid), tables.Number(100*float64(pile.Outcomes[trial.Laid])/float64(pile.Rooms), 1),
			tables.Number(pile.Added.Mean()/10, 1), points(pile.PairAdded), tables.Number(pile.AddedPile.Mean()/10, 1))
	}
	return g, nil
}

// points prints a difference in tenths of a percent as percentage points.
func points(p tally.Pair) string {
	mean, half := p.Mean()
	return tables.Interval(mean/10, half/10)
}

// proofGrid is what is proven, by what, and how fast.
func proofGrid(s *tally.Summary) (*tables.Grid, error) {
	names := s.Spec.Names()
	g := &tables.Grid{Head: []string{
		"strategy", "rooms", "boxes proven by dividing lengths %", "by certificate %", "planks proven %",
		"planks above the bound", "ms, median", "95 %", "99 %",
	}}
	for _, name := range names {
		c := cellOf(s, baseSetting, name, "all")
		if c == nil {
			continue
		}
		laid := c.Outcomes[trial.Laid]
		row := []string{name, fmt.Sprint(c.Rooms), tables.Share(c.AreaProven, laid), "-", "-", "-"}
		if c.Bound > 0 {
			row[3], row[4] = tables.Share(c.Proven, laid), tables.Share(c.PlanksProven, laid)
			row[5] = tables.Number(100*float64(c.Planks-c.Bound)/float64(c.Bound), 3) + " %"
		}
		for _, q := range []float64{0.5, 0.95, 0.99} {
			row = append(row, tables.Time(c.Time.Quantile(q)))
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
			lead := []string{r[0], tables.Share(c.Proven, c.Outcomes[trial.Laid]), tables.Time(c.Time.Quantile(0.5))}
			g.Add(append(lead, r[1:]...)...)
		}
	}
	return g, nil
}
