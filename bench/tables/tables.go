// Package tables prints tables of measurements.
package tables

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

// A Grid is a table to print.
type Grid struct {
	Head []string
	Rows [][]string
}

// Add adds a row.
func (g *Grid) Add(cells ...string) { g.Rows = append(g.Rows, cells) }

// Text prints the first column flush left and the others flush right.
func (g *Grid) Text(w io.Writer) error {
	width := make([]int, len(g.Head))
	for _, r := range append([][]string{g.Head}, g.Rows...) {
		for i, c := range r {
			width[i] = max(width[i], utf8.RuneCountInString(c))
		}
	}
	for _, r := range append([][]string{g.Head}, g.Rows...) {
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

// Markdown writes the table for RESULTS.md and STUDY.md.
func (g *Grid) Markdown(w io.Writer) {
	fmt.Fprintf(w, "| %s |\n|---|%s\n", strings.Join(g.Head, " | "), strings.Repeat("--:|", len(g.Head)-1))
	for _, r := range g.Rows {
		fmt.Fprintf(w, "| %s |\n", strings.Join(r, " | "))
	}
}

// Strategies is the table of one setting over a group of rooms.
func Strategies(s *tally.Summary, setting, group string) *Grid {
	g := &Grid{Head: []string{
		"strategy", "rooms", "laid %", "planks added %", "median", "90 %", "opened with a pile %",
		"with the last offcuts %", "boxes added %", "planks against", "boxes against", "planks proven %",
		"boxes proven %", "ms, median", "mean",
	}}
	for _, name := range s.Spec.Names() {
		c := s.Cells[tally.Key{Setting: setting, Strategy: name, Group: group}.String()]
		if c == nil {
			continue
		}
		row := append([]string{name, fmt.Sprint(c.Rooms)}, slices.Repeat([]string{"-"}, len(g.Head)-2)...)
		laid := c.Outcomes[trial.Laid]
		if laid > 0 {
			row[2] = Number(100*float64(laid)/float64(c.Rooms), 1)
			row[6], row[7] = Tenths(c.AddedPile), Tenths(c.AddedLast)
			if c.Bound > 0 {
				row[11], row[12] = Share(c.PlanksProven, laid), Share(c.Proven, laid)
			}
		}
		if c.Added.N() > 0 {
			row[3], row[4], row[5] = Tenths(c.Added), TenthsAt(c.Added, 0.5), TenthsAt(c.Added, 0.9)
			row[9] = against(name, s.PlanksReference(), c.PairPlanks)
		}
		if c.BoxAdded.N() > 0 {
			row[8] = Tenths(c.BoxAdded)
			row[10] = against(name, s.Reference(), c.PairBoxes)
		}
		if c.Time.N() > 0 {
			row[13] = Time(c.Time.Quantile(0.5))
			row[14] = TwoFigures(float64(c.Micros) / float64(c.Time.N()) / 1000)
		}
		g.Add(row...)
	}
	return g
}

// against is the difference from the reference, which has none from itself.
func against(name, reference string, p tally.Pair) string {
	if name == reference {
		return "-"
	}
	return Interval(p.Mean())
}

// Number prints with so many decimals; NaN is a dash.
func Number(x float64, decimals int) string {
	if math.IsNaN(x) {
		return "-"
	}
	return fmt.Sprintf("%.*f", decimals, x)
}

// Share prints a count's share of n in percent with the half width of its interval.
func Share(count, n int64) string {
	share, half := tally.ShareOf(count, n)
	if math.IsNaN(share) {
		return "-"
	}
	return fmt.Sprintf("%.*f ± %.*f", digits(half, 1), share, digits(half, 1), half)
}

// Tenths prints the mean of a distribution in tenths with the half width of its interval.
func Tenths(h tally.Histogram) string {
	mean, half := h.MeanInterval()
	if math.IsNaN(mean) {
		return "-"
	}
	return fmt.Sprintf("%.*f ± %.*f", digits(half/10, 1), mean/10, digits(half/10, 1), half/10)
}

// TenthsAt prints a quantile of a distribution in tenths and the larger half of its interval, which is no finer than a
// tenth.
func TenthsAt(h tally.Histogram, p float64) string {
	at, low, high := h.QuantileInterval(p)
	if math.IsNaN(at) {
		return "-"
	}
	return fmt.Sprintf("%.1f ± %.1f", at/10, max(at-low, high-at, 1)/10)
}

// Time prints a time step in milliseconds, to two figures: steps are 4.4 % apart.
func Time(step float64) string { return TwoFigures(tally.Milliseconds(step)) }

// TimeAt prints a quantile of a distribution of time steps in milliseconds, and the ends of its interval.
func TimeAt(h tally.Histogram, p float64) string {
	at, low, high := h.QuantileInterval(p)
	if h.N() == 0 {
		return "-"
	}
	if Time(low) == Time(high) {
		return Time(at)
	}
	return fmt.Sprintf("%s (%s to %s)", Time(at), Time(low), Time(high))
}

// TwoFigures prints a time to two figures, and less than a tenth as such.
func TwoFigures(ms float64) string {
	switch {
	case math.IsNaN(ms):
		return "-"
	case ms < 0.095:
		return "< 0.1"
	case ms < 9.5:
		return fmt.Sprintf("%.1f", ms)
	case ms < 95:
		return fmt.Sprintf("%.0f", ms)
	}
	unit := math.Pow10(int(math.Log10(ms)) - 1)
	return fmt.Sprintf("%.0f", math.Round(ms/unit)*unit)
}

// Interval prints a mean difference with the half width of its interval. Where no two differ it says so: an interval of
// nothing is none.
func Interval(mean, half float64) string {
	switch {
	case math.IsNaN(mean):
		return "-"
	case mean == 0 && half == 0:
		return "none differs"
	}
	return fmt.Sprintf("%+.*f ± %.*f", digits(half, 2), mean, digits(half, 2), half)
}

// digits is how many decimals show a half width: at least so many, and more where it would print as 0.
func digits(half float64, least int) int {
	for half > 0 && half < 0.5*math.Pow10(-least) {
		least++
	}
	return least
}
