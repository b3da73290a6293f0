package main

import (
	"fmt"
	"math"
	"strings"

	"plank.example/bench/tables"
	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

// figures are those that the prose of the study quotes, by name. Each is printed as it stands in the text.
func figures(s map[string]*tally.Summary) map[string]string {
	out := make(map[string]string)
	for name, part := range s {
		out["rooms-"+name] = thousandsOf(part.Seeds())
	}
	base := s["base"]
	boxes := cellOf(base, baseSetting, base.Reference(), "all")
	planks := cellOf(base, baseSetting, base.PlanksReference(), "all")
	out["least"] = tables.Tenths(planks.Added)
	out["least-proven"] = tables.Share(planks.PlanksProven, planks.Outcomes[trial.Laid])
	out["boxes-first-proven"] = tables.Share(boxes.PlanksProven, boxes.Outcomes[trial.Laid])
	out["boxes-proven"] = tables.Share(boxes.Proven, boxes.Outcomes[trial.Laid])
	for _, name := range []string{"carry", "pile", "halves", "thirds", "random"} {
		c := cellOf(base, baseSetting, name, "all")
		out[name+"-added"], out[name+"-points"] = tables.Tenths(c.Added), points(c.PairAdded)
		out[name+"-pile"], out[name+"-last"] = tables.Tenths(c.AddedPile), tables.Tenths(c.AddedLast)
		out[name+"-planks"] = tables.Interval(c.PairPlanks.Mean())
		out[name+"-boxes"] = tables.Interval(c.PairBoxes.Mean())
	}
	out["planned-last"] = tables.Tenths(planks.AddedLast)
	out["thumb-boxes"] = tables.Interval(cellOf(base, baseSetting, "thumb", "all").PairBoxes.Mean())
	thumbFigures(out, "", boxes)
	for _, size := range []string{"150-200", "250-300"} {
		if c := cellOf(base, baseSetting, base.Reference(), "size "+size); c != nil {
			thumbFigures(out, "-"+size, c)
		}
	}
	for name, of := range map[string]*tally.Summary{"drawn": base, "outlines": s["outlines"]} {
		thumbFigures(out, "-"+name, sumOf(of, of.Reference(), sizeGroups(250, 400)...))
	}
	breakageFigures(out, "", planks)
	breakageFigures(out, "-150-200", cellOf(base, baseSetting, base.PlanksReference(), "size 150-200"))
	factorFigures(out, s["factors"])
	ruleFigures(out, s["rules"])
	baselineFigures(out, s["baselines"])
	houseFigures(out, s["house"])
	return out
}

// thumbFigures are how often the rule of thumb is right.
func thumbFigures(out map[string]string, of string, boxes *tally.Cell) {
	out["rule-rooms"+of] = thousandsOf(uint64(boxes.Saved.N()))
	out["rule-short"+of] = shareOf(boxes.Saved, math.MinInt64, -1)
	out["rule-right"+of] = shareOf(boxes.Saved, 0, 0)
	out["rule-one"+of] = shareOf(boxes.Saved, 1, 1)
	out["rule-more"+of] = shareOf(boxes.Saved, 1, math.MaxInt64)
}

// breakageFigures are the chances of running short when planks break.
func breakageFigures(out map[string]string, of string, c *tally.Cell) {
	if c == nil {
		return
	}
	for i, b := range c.Breakage {
		loss := fmt.Sprintf("-%g", 100*tally.Losses[i])
		out["short"+loss+of], out["advised"+loss+of] = chanceOf(b.Thumb), chanceOf(b.Advised)
		out["beyond"+loss+of] = tables.Interval(b.More.Mean())
	}
}

// factorFigures are the fewest planks and the habits by stagger, shortest piece and plank length.
func factorFigures(out map[string]string, s *tally.Summary) {
	settings, err := s.Spec.Settings()
	if err != nil {
		return
	}
	for _, set := range settings {
		c := cellOf(s, set.Name, s.PlanksReference(), "all")
		name := strings.NewReplacer("x7 piece ", "-", " stagger ", "-").Replace(set.Name) // plank-piece-stagger
		for _, way := range []string{"pile", "carry"} {
			if w := cellOf(s, set.Name, way, "all"); w != nil {
				out[way+"-"+name], out[way+"-above-"+name] = tables.Tenths(w.Added), points(w.PairFirst)
			}
		}
		if c != nil {
			out["least-"+name], out["above-"+name] = tables.Tenths(c.Added), changed(c.PairFirst)
			out["laid-"+name] = tables.Number(100*float64(c.Outcomes[trial.Laid])/float64(c.Rooms), 1)
			out["proven-"+name] = tables.Share(c.PlanksProven, c.Outcomes[trial.Laid])
		}
	}
}

// changed prints percentage points for a sentence: 0 where no room differs.
func changed(p tally.Pair) string {
	if p.Squares == 0 {
		return "0"
	}
	return points(p)
}

// ruleFigures are what another rule, box or way of the rows changes, by "key=value".
func ruleFigures(out map[string]string, s *tally.Summary) {
	for _, vary := range s.Spec.Vary {
		set := baseSetting + " " + strings.Replace(vary, "=", " ", 1)
		if c := cellOf(s, set, s.PlanksReference(), "all"); c != nil {
			out["above-"+vary], out["least-"+vary] = changed(c.PairFirst), tables.Tenths(c.Added)
		}
		if c := cellOf(s, set, s.Reference(), "all"); c != nil {
			out["boxes-"+vary] = tables.Tenths(c.BoxAdded)
		}
	}
}

// baselineFigures are what is found without a bound, in planks a room above the fewest, and its time.
func baselineFigures(out map[string]string, s *tally.Summary) {
	for _, name := range s.Spec.Names() {
		if c := cellOf(s, baseSetting, name, "all"); c != nil && c.Time.N() > 0 {
			out["baseline-"+name] = tables.Interval(c.PairPlanks.Mean())
			out["ms-"+name] = tables.TwoFigures(float64(c.Micros) / float64(c.Time.N()) / 1000)
		}
	}
}

// houseFigures are what rooms planned and bought apart cost a house.
func houseFigures(out map[string]string, s *tally.Summary) {
	for _, name := range s.Spec.Names() {
		if c := cellOf(s, baseSetting, name, "all"); c != nil {
			out["house-planks-"+name] = tables.Interval(c.PairPlanks.Mean())
			out["house-boxes-"+name] = tables.Interval(c.PairBoxes.Mean())
		}
	}
}

// thousandsOf prints a whole number with commas.
func thousandsOf(n uint64) string {
	digits := fmt.Sprint(n)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}

// fillFigures writes the figures of the prose between their marks. A name that is not known, and a mark that is not
// closed, is an error.
func fillFigures(text string, by map[string]string) (string, error) {
	const begin, middle, end = "<!--", "-->", "<!--/-->"
	var out strings.Builder
	for {
		at := strings.Index(text, begin)
		if at < 0 {
			out.WriteString(text)
			return out.String(), nil
		}
		close := strings.Index(text[at:], middle)
		if close < 0 {
			return "", fmt.Errorf("a mark %.30q is not closed", text[at:])
		}
		name := text[at+len(begin) : at+close]
		out.WriteString(text[:at+close+len(middle)])
		text = text[at+close+len(middle):]
		if strings.HasPrefix(name, " ") || name == "/" { // a table, or the end of a figure
			continue
		}
		value, ok := by[name]
		to := strings.Index(text, end)
		if !ok || to < 0 || to > 40 {
			return "", fmt.Errorf("the text quotes the figure %q, which is none, or its end %q is missing", name, end)
		}
		out.WriteString(value)
		text = text[to:]
	}
}
