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
	base := s["base"]
	boxes, planks := cellOf(
		base,
		baseSetting,
		base.Reference(),
		"all",
	), cellOf(
		base,
		baseSetting,
		base.PlanksReference(),
		"all",
	)
	for _, name := range []string{"base", "factors", "proof", "office", "hall"} {
		out["rooms-"+name] = fmt.Sprint(s[name].Seeds())
	}
	out["least"] = percent(planks.Added)
	out["least-proven"] = tables.Share(planks.PlanksProven, planks.Outcomes[trial.Laid])
	out["boxes-first-proven"] = tables.Share(boxes.PlanksProven, boxes.Outcomes[trial.Laid])
	out["boxes-proven"] = tables.Share(boxes.Proven, boxes.Outcomes[trial.Laid])
	for _, name := range []string{"carry", "pile", "halves", "thirds", "random"} {
		c := cellOf(base, baseSetting, name, "all")
		out[name+"-added"], out[name+"-pile"], out[name+"-last"] = percent(
			c.Added,
		), percent(
			c.AddedPile,
		), percent(
			c.AddedLast,
		)
		out[name+"-points"], out[name+"-planks"] = points(c.PairAdded), tables.Interval(c.PairPlanks.Mean())
		out[name+"-boxes"] = tables.Interval(c.PairBoxes.Mean())
	}
	thumb := cellOf(base, baseSetting, "thumb", "all")
	out["thumb-boxes"] = tables.Interval(thumb.PairBoxes.Mean())
	out["rule-short"] = share(boxes.Saved, math.MinInt64, -1)
	out["rule-more"] = share(boxes.Saved, 1, math.MaxInt64)
	for _, size := range []string{"0-50", "150-200", "250-300"} {
		if c := cellOf(base, baseSetting, base.Reference(), "size "+size); c != nil {
			out["rule-more-"+size] = share(c.Saved, 1, math.MaxInt64)
			out["rule-right-"+size] = share(c.Saved, 0, 0)
		}
	}
	factorFigures(out, s["factors"])
	return out
}

// factorFigures are the fewest planks and the pile habit by stagger, shortest piece and plank length.
func factorFigures(out map[string]string, s *tally.Summary) {
	settings, err := s.Spec.Settings()
	if err != nil {
		return
	}
	for _, set := range settings {
		c, pile := cellOf(s, set.Name, s.PlanksReference(), "all"), cellOf(s, set.Name, habit, "all")
		if c == nil || pile == nil {
			continue
		}
		name := strings.NewReplacer("x7 piece ", "-", " stagger ", "-").Replace(set.Name) // plank-piece-stagger
		out["least-"+name], out["pile-"+name] = percent(c.Added), percent(pile.Added)
		out["above-"+name], out["pile-above-"+name] = points(c.PairFirst), points(pile.PairFirst)
		out["laid-"+name] = tables.Number(100*float64(c.Outcomes[trial.Laid])/float64(c.Rooms), 1)
	}
}

func percent(h tally.Histogram) string { return tables.Number(h.Mean()/10, 1) }

func share(h tally.Histogram, low, high int64) string {
	return tables.Number(h.Share(low, high), 1)
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
