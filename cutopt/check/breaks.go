package check

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// limits holds the field against the longest floor without a break.
func (c *roomChecker) limits() {
	rows := c.room.Rows
	if len(rows) == 0 {
		return
	}
	rules := &c.job.Rules
	if size := rows[len(rows)-1].To - rows[0].From; rules.MaxAcross > 0 && size > rules.MaxAcross {
		c.report(c.at(RuleBreak, 0, 0, 0), "field-long-across", "length", size, "most", rules.MaxAcross)
	}
	from, to, none := measure.Length(0), measure.Length(0), true
	for i := range rows {
		for _, r := range rows[i].Runs {
			if none {
				from, to, none = r.From, r.To, false
			}
			from, to = min(from, r.From), max(to, r.To)
		}
	}
	if rules.MaxAlong > 0 && to-from > rules.MaxAlong {
		c.report(c.at(RuleBreak, 0, 0, 0), "field-long-along", "length", to-from, "most", rules.MaxAlong)
	}
}

// breaks holds that the floor tells of the breaks at which it ends, each once, and of no others.
func (c *roomChecker) breaks(facts []*cutopt.Fact) {
	var ends []int
	for _, p := range c.rooms {
		ends = append(ends, p.ends...)
	}
	slices.Sort(ends)
	ends = slices.Compact(ends)
	want := make([]cutopt.Fact, len(ends))
	for i, n := range ends {
		b := &c.plan.Breaks[n]
		f := cutopt.Fact{Kind: cutopt.FactBreakOn, Room: b.Room + 1, Length: b.Length, Width: b.Width}
		if b.Doorway >= 0 {
			f.Kind, f.Doorway = cutopt.FactBreakDoorway, b.Doorway+1
		} else if b.Wall >= 0 {
			f.Kind, f.Wall, f.At = cutopt.FactBreak, b.Wall+1, b.At
		}
		want[i] = f
	}
	for _, f := range facts {
		k := slices.Index(want, *f)
		if k < 0 {
			c.untrue(f, "break-other")
			continue
		}
		want, ends = slices.Delete(want, k, k+1), slices.Delete(ends, k, k+1)
	}
	for _, n := range ends {
		c.report(c.at(RuleFact, 0, 0, 0), "break-untold", "n", n+1)
	}
}

// field holds the number that the plan gives the field within its floor.
func (c *roomChecker) field(firsts []int) {
	n, all := 0, 0
	for i, f := range firsts {
		if f == firsts[c.index] {
			all++
			if i <= c.index {
				n++
			}
		}
	}
	if all == 1 {
		n = 0
	}
	if c.room.Field != n {
		c.report(c.at(RulePlan, 0, 0, 0), "figure-off", "field", "field", "got", c.room.Field, "want", n)
	}
}
