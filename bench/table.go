package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

func tableCommand(_ context.Context, args []string, out, errw io.Writer) error {
	f := newFlags("table", errw)
	group := f.String("group", "all", `rooms to count: "all", "kind bedroom", "shape L", "size 100-125" (sq ft), "rows 16-20"`)
	if err := parse(f, args, 1, -1); err != nil {
		return err
	}
	s, err := readSummaries(f.Args())
	if err != nil {
		return err
	}
	return writeGroup(out, s, *group)
}

// A grid is a table to print.
type grid struct {
	head []string
	rows [][]string
}

func (g *grid) add(cells ...string) { g.rows = append(g.rows, cells) }

// text prints the first column flush left and the others flush right.
func (g *grid) text(w io.Writer) error {
	width := make([]int, len(g.head))
	for _, r := range append([][]string{g.head}, g.rows...) {
		for i, c := range r {
			width[i] = max(width[i], utf8.RuneCountInString(c))
		}
	}
	for _, r := range append([][]string{g.head}, g.rows...) {
		var line strings.Builder
		for i, c := range r {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(c))
			if i == 0 {
				line.WriteString(c + pad)
			} else {
				line.WriteString("  " + pad + c)
			}
		}
		if _, err := fmt.Fprintln(w, strings.TrimRight(line.String(), " ")); err != nil {
			return err
		}
	}
	return nil
}

// markdown writes the table for RESULTS.md and STUDY.md.
func (g *grid) markdown(w io.Writer) {
	fmt.Fprintf(w, "| %s |\n|---|%s\n", strings.Join(g.head, " | "), strings.Repeat("--:|", len(g.head)-1))
	for _, r := range g.rows {
		fmt.Fprintf(w, "| %s |\n", strings.Join(r, " | "))
	}
}

// writeTables prints the table of all rooms.
func writeTables(w io.Writer, s *tally.Summary) error { return writeGroup(w, s, "all") }

func writeGroup(w io.Writer, s *tally.Summary, group string) error {
	settings, err := s.Spec.Settings()
	if err != nil {
		return err
	}
	found := false
	for _, set := range settings {
		g, err := strategyGrid(s, set.Name, group)
		if err != nil {
			return err
		}
		if len(g.rows) == 0 {
			continue
		}
		found = true
		fmt.Fprintf(w, "%s, rooms: %s %s\n", set.Name, s.Spec.Mix, group)
		if err := g.text(w); err != nil {
			return err
		}
		fmt.Fprintln(w)
	}
	if !found {
		return fmt.Errorf("no room of the summary is of group %q", group)
	}
	_, err = fmt.Fprintf(w, "added: bought on top of the floor area, by planks needed and by whole boxes; proven: rooms whose boxes are proven "+
		"the fewest;\nagainst %s: mean difference a room with its %.0f %% interval, over rooms that both laid; ms: half the rooms take less\n",
		s.Reference(), 100*tally.Confidence)
	return err
}

// strategyGrid is the table of one setting.
func strategyGrid(s *tally.Summary, setting, group string) (*grid, error) {
	names, err := s.Spec.Names()
	if err != nil {
		return nil, err
	}
	g := &grid{head: []string{
		"strategy", "rooms", "laid %", "planks added %", "median", "90 %", "boxes added %", "planks against", "boxes against", "proven %", "ms",
	}}
	for _, name := range names {
		c := s.Cells[tally.Key{Setting: setting, Strategy: name, Group: group}.String()]
		if c == nil {
			continue
		}
		laid, bought := c.Outcomes[trial.Laid], c.Outcomes[trial.Bought]
		row := []string{name, fmt.Sprint(c.Rooms), "-", "-", "-", "-", "-", "-", "-", "-", "-"}
		if laid > 0 {
			row[2] = number(100*float64(laid)/float64(c.Rooms), 1)
			row[3], row[4], row[5] = number(c.Added.Mean()/10, 1), number(c.Added.Quantile(0.5)/10, 1), number(c.Added.Quantile(0.9)/10, 1)
			row[7] = interval(c.PairPlanks.Mean())
			row[9] = number(100*float64(c.Proven)/float64(laid), 1)
		}
		if laid+bought > 0 {
			row[6] = number(c.BoxAdded.Mean()/10, 1)
			row[8] = interval(c.PairBoxes.Mean())
		}
		if c.Time.N() > 0 {
			row[10] = number(tally.Milliseconds(c.Time.Quantile(0.5)), 2)
		}
		g.add(row...)
	}
	return g, nil
}

// number prints with so many decimals; NaN is a dash.
func number(x float64, decimals int) string {
	if math.IsNaN(x) {
		return "-"
	}
	return fmt.Sprintf("%.*f", decimals, x)
}

// interval prints a mean with the half width of its interval.
func interval(mean, half float64) string {
	if math.IsNaN(mean) {
		return "-"
	}
	return fmt.Sprintf("%+.2f ± %.2f", mean, half)
}
