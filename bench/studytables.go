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

// habit is the main habit of the trade in the tables.
const habit = "pile"

func cellOf(s *tally.Summary, setting, strategy, group string) *tally.Cell {
	return s.Cells[tally.Key{Setting: setting, Strategy: strategy, Group: group}.String()]
}

// sumOf adds up the cells of several groups of rooms.
func sumOf(s *tally.Summary, strategy string, groups ...string) *tally.Cell {
	var cells []*tally.Cell
	for _, g := range groups {
		cells = append(cells, cellOf(s, baseSetting, strategy, g))
	}
	return tally.Sum(cells...)
}

// sizeGroups names the classes of sizes from low up to high, in sq ft.
func sizeGroups(low, high int) []string {
	var out []string
	for i, v := range tally.Sizes {
		if low <= v && v < high {
			out = append(out, "size "+tally.Class(tally.Sizes, i))
		}
	}
	return out
}

// sizeGrid is waste, and the rule of thumb, by the size of the floor.
func sizeGrid(s *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: append([]string{"floor, sq ft"}, thumbHead...)}
	for i := range tally.Sizes {
		class := tally.Class(tally.Sizes, i)
		addThumb(g, s, strings.TrimSuffix(class, "-"), "size "+class)
	}
	addThumb(g, s, "all", "all")
	return g, nil
}

// shapeGrid is the same by the shape of the room.
func shapeGrid(s *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: append([]string{"shape"}, thumbHead...)}
	for _, shape := range []string{"rectangle", "L", "U", "alcove", "island", "angled"} {
		addThumb(g, s, shape, "shape "+shape)
	}
	return g, nil
}

// outlineSizes are the classes that published outlines are told apart by, in sq ft.
var outlineSizes = []int{0, 100, 250, 400, math.MaxInt}

// outlineGrid holds published outlines against the rooms drawn.
func outlineGrid(outlines, base *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: append([]string{"floor, sq ft", "outlines"}, thumbHead...)}
	for i, low := range outlineSizes[:len(outlineSizes)-1] {
		high := outlineSizes[i+1]
		name := fmt.Sprintf("%d-%d", low, high)
		if high == math.MaxInt {
			name = fmt.Sprintf("%d and more", low)
		}
		for _, of := range []struct {
			what string
			s    *tally.Summary
		}{{"published", outlines}, {"drawn", base}} {
			lines := &tables.Grid{}
			addThumb(lines, of.s, name, sizeGroups(low, high)...)
			for _, r := range lines.Rows {
				g.Add(append([]string{r[0], of.what}, r[1:]...)...)
			}
		}
	}
	return g, nil
}

var thumbHead = []string{
	"rooms", "fewest planks added %", "10 %", "90 %", "pile habit, planks added %", "opened with a pile %",
	"fewest boxes added %",
	"10 % rule: boxes too few %", "just right %", "one too many %", "more %", "pile habit: boxes too few %",
}

// shareOf is the share of a distribution's values from low to high.
func shareOf(h tally.Histogram, low, high int64) string {
	n := int64(0)
	for v, k := range h {
		if low <= v && v <= high {
			n += k
		}
	}
	return tables.Share(n, h.N())
}

// addThumb adds the line of some groups of rooms together.
func addThumb(g *tables.Grid, s *tally.Summary, label string, groups ...string) {
	boxes, planks := sumOf(s, s.Reference(), groups...), sumOf(s, s.PlanksReference(), groups...)
	pile := sumOf(s, habit, groups...)
	if planks.Added.N() < leastRooms {
		return
	}
	g.Add(
		label,
		fmt.Sprint(planks.Rooms),
		tables.Tenths(planks.Added),
		tables.TenthsAt(planks.Added, 0.1),
		tables.TenthsAt(planks.Added, 0.9),
		tables.Tenths(pile.Added),
		tables.Tenths(pile.AddedPile),
		tables.Tenths(boxes.BoxAdded),
		shareOf(boxes.Saved, math.MinInt64, -1),
		shareOf(boxes.Saved, 0, 0),
		shareOf(boxes.Saved, 1, 1),
		shareOf(boxes.Saved, 2, math.MaxInt64),
		shareOf(pile.Saved, math.MinInt64, -1),
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
		"setting", "rooms laid %", "fewest planks added %", "10 %", "90 %", "points above the first", "planks proven %",
		"pile habit, laid %", "planks added %", "points above the fewest", "carry, points above the fewest",
		"pile opens %",
	}}
	for i, set := range settings {
		c, pile := cellOf(s, set.Name, s.PlanksReference(), "all"), cellOf(s, set.Name, habit, "all")
		carry := cellOf(s, set.Name, "carry", "all")
		if c == nil || pile == nil || carry == nil {
			continue
		}
		laid := c.Outcomes[trial.Laid]
		first := "-"
		if i > 0 {
			first = points(c.PairFirst)
		}
		g.Add(set.Name, tables.Number(100*float64(laid)/float64(c.Rooms), 1), tables.Tenths(c.Added),
			tables.TenthsAt(c.Added, 0.1), tables.TenthsAt(c.Added, 0.9), first,
			tables.Share(c.PlanksProven, laid), tables.Number(100*float64(pile.Outcomes[trial.Laid])/float64(pile.Rooms), 1),
			tables.Tenths(pile.Added), points(pile.PairAdded), points(carry.PairAdded), tables.Tenths(pile.AddedPile))
	}
	return g, nil
}

// ruleGrid is how planks, boxes and the rule of thumb move when one rule, the box or the way of the rows is another.
func ruleGrid(s *tally.Summary) (*tables.Grid, error) {
	settings, err := s.Spec.Settings()
	if err != nil {
		return nil, err
	}
	g := &tables.Grid{Head: []string{
		"changed", "rooms laid %", "fewest planks added %", "points above the first", "pile habit, points above the fewest",
		"fewest boxes added %", "10 % rule: boxes too few %", "just right %", "too many %",
	}}
	for i, set := range settings {
		c, pile := cellOf(s, set.Name, s.PlanksReference(), "all"), cellOf(s, set.Name, habit, "all")
		boxes := cellOf(s, set.Name, s.Reference(), "all")
		if c == nil || pile == nil || boxes == nil {
			continue
		}
		name, first := strings.TrimSpace(strings.TrimPrefix(set.Name, baseSetting)), "-"
		if i == 0 {
			name = "nothing"
		} else {
			first = points(c.PairFirst)
		}
		g.Add(name, tables.Number(100*float64(c.Outcomes[trial.Laid])/float64(c.Rooms), 1), tables.Tenths(c.Added), first,
			points(pile.PairAdded), tables.Tenths(boxes.BoxAdded), shareOf(boxes.Saved, math.MinInt64, -1),
			shareOf(boxes.Saved, 0, 0), shareOf(boxes.Saved, 1, math.MaxInt64))
	}
	return g, nil
}

// points prints a difference in tenths of a percent as percentage points.
func points(p tally.Pair) string {
	mean, half := p.Mean()
	return tables.Interval(mean/10, half/10)
}

// breakageGrid is the chance of running short when planks break, by size.
func breakageGrid(s *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: []string{"floor, sq ft", "rooms"}}
	for _, loss := range tally.Losses {
		at := fmt.Sprintf("%g %% lost: ", 100*loss)
		g.Head = append(g.Head, at+"10 % rule runs short %", "recommended boxes run short %", "boxes beyond the rule")
	}
	line := func(label string, c *tally.Cell) {
		if c == nil || len(c.Breakage) == 0 || c.Added.N() < leastRooms {
			return
		}
		row := []string{label, fmt.Sprint(c.Rooms)}
		for _, b := range c.Breakage {
			row = append(row, chanceOf(b.Thumb), chanceOf(b.Advised), tables.Interval(b.More.Mean()))
		}
		g.Add(row...)
	}
	for i := range tally.Sizes {
		class := tally.Class(tally.Sizes, i)
		line(class, cellOf(s, baseSetting, s.PlanksReference(), "size "+class))
	}
	line("all", cellOf(s, baseSetting, s.PlanksReference(), "all"))
	return g, nil
}

// breakingSizes are the classes of floors that are laid with planks that break, in sq ft.
var breakingSizes = []int{0, 100, 150, 250, 400}

// breakingGrid is how often floors laid with planks that break run short, beside the binomial chance.
func breakingGrid(s *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: []string{"floor, sq ft", "rooms"}}
	for _, loss := range trial.Losses {
		at := fmt.Sprintf("%g %% lost: ", loss)
		g.Head = append(g.Head, at+"10 % rule runs short %", "binomial", "recommended boxes run short %", "binomial")
	}
	line := func(label string, groups ...string) {
		c := sumOf(s, s.PlanksReference(), groups...)
		if c.Added.N() < leastRooms {
			return
		}
		row := []string{label, fmt.Sprint(c.Rooms)}
		for _, b := range c.Breakings {
			row = append(row, shortOf(b.Thumb, s.Spec.Layings), chanceOf(b.PlainThumb),
				shortOf(b.Advised, s.Spec.Layings), chanceOf(b.PlainAdvised))
		}
		g.Add(row...)
	}
	for i, low := range breakingSizes[:len(breakingSizes)-1] {
		line(fmt.Sprintf("%d-%d", low, breakingSizes[i+1]), sizeGroups(low, breakingSizes[i+1])...)
	}
	line("all", "all")
	return g, nil
}

// shortOf prints a mean count of so many layings as percent.
func shortOf(p tally.Pair, layings int) string {
	mean, half := p.Mean()
	f := 100 / float64(layings)
	return fmt.Sprintf("%.2f ± %.2f", mean*f, half*f)
}

// chanceOf prints a mean of chances in millionths as percent.
func chanceOf(p tally.Pair) string {
	mean, half := p.Mean()
	if half == 0 {
		return tables.Number(mean/1e4, 2)
	}
	return fmt.Sprintf("%.2f ± %.2f", mean/1e4, max(half/1e4, 0.01))
}

// baselineGrid compares the fewest planks with what is found without a bound, and with counts that lay nothing.
func baselineGrid(s *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: []string{
		"baseline", "rooms", "planks added %", "planks against the fewest", "ms, mean", "median",
	}}
	for _, name := range s.Spec.Names() {
		c := cellOf(s, baseSetting, name, "all")
		if c == nil || c.Added.N() == 0 {
			continue
		}
		against := "-"
		if name != s.PlanksReference() {
			against = tables.Interval(c.PairPlanks.Mean())
		}
		g.Add(name, fmt.Sprint(c.Rooms), tables.Tenths(c.Added), against,
			tables.TwoFigures(float64(c.Micros)/float64(c.Time.N())/1000), tables.Time(c.Time.Quantile(0.5)))
	}
	return g, nil
}

// houseGrid compares five rooms planned and bought together with each for itself.
func houseGrid(s *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: []string{
		"way", "houses", "planks added %", "planks against", "boxes added %", "boxes against", "planks proven %",
	}}
	for _, of := range [][2]string{
		{"thumb", "rule of thumb for the whole area"},
		{"pile", "pile habit, room after room"},
		{"apart-boxes", "fewest planks of each room, boxes for each"},
		{"apart", "fewest planks of each room, boxes together"},
		{"library-quick", "planned together for the fewest boxes"},
		{"library-quick-planks", "planned together for the fewest planks"},
	} {
		c := cellOf(s, baseSetting, of[0], "all")
		if c == nil {
			continue
		}
		row := []string{of[1], fmt.Sprint(c.Rooms), "-", "-", tables.Tenths(c.BoxAdded), "-", "-"}
		if c.Added.N() > 0 {
			row[2] = tables.Tenths(c.Added)
		}
		if of[0] != s.PlanksReference() && c.Added.N() > 0 {
			row[3] = tables.Interval(c.PairPlanks.Mean())
		}
		if of[0] != s.Reference() {
			row[5] = tables.Interval(c.PairBoxes.Mean())
		}
		if c.Bound > 0 {
			row[6] = tables.Share(c.PlanksProven, c.Outcomes[trial.Laid])
		}
		g.Add(row...)
	}
	return g, nil
}

// proofGrid is what is proven, by what, and how fast.
func proofGrid(s *tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: []string{
		"strategy", "rooms", "boxes proven by dividing lengths %", "by certificate %", "planks proven %",
		"planks above the bound", "ms, median", "95 %", "99 %", "mean",
	}}
	for _, name := range s.Spec.Names() {
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
			row = append(row, tables.TimeAt(c.Time, q))
		}
		g.Add(append(row, tables.TwoFigures(float64(c.Micros)/float64(c.Time.N())/1000))...)
	}
	return g, nil
}

// largeGrid is offices and halls.
func largeGrid(summaries ...*tally.Summary) (*tables.Grid, error) {
	g := &tables.Grid{Head: append([]string{"rooms of", "boxes proven %", "planks proven %", "ms, median"}, thumbHead...)}
	for _, s := range summaries {
		c, planks := cellOf(s, baseSetting, s.Reference(), "all"), cellOf(s, baseSetting, s.PlanksReference(), "all")
		if c == nil || planks == nil {
			continue
		}
		one := &tables.Grid{}
		addThumb(one, s, string(s.Spec.Mix), "all")
		for _, r := range one.Rows {
			lead := []string{
				r[0], tables.Share(c.Proven, c.Outcomes[trial.Laid]),
				tables.Share(planks.PlanksProven, planks.Outcomes[trial.Laid]), tables.Time(planks.Time.Quantile(0.5)),
			}
			g.Add(append(lead, r[1:]...)...)
		}
	}
	return g, nil
}
