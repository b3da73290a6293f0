package check

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// begun reports whether some of a run lies: then it goes on as it lies.
func begun(run *cutopt.PlanRun) bool {
	for i := range run.Pieces {
		if run.Pieces[i].Lies {
			return true
		}
	}
	return false
}

// begun reports whether some of the floor lies.
func (c *roomChecker) begun() bool {
	for i := range c.room.Rows {
		for k := range c.room.Rows[i].Runs {
			if begun(&c.room.Rows[i].Runs[k]) {
				return true
			}
		}
	}
	return false
}

// lies holds that a piece that lies follows one that lies, from the end that is laid first, and is of an opened plank
// of a job that is begun.
func (c *roomChecker) lies(at Violation, run *cutopt.PlanRun, m int) {
	p := &run.Pieces[m]
	if !p.Lies {
		return
	}
	at.Rule = RuleSite
	before := m - 1
	if c.room.LaidFrom == cutopt.HandRight {
		before = m + 1
	}
	switch {
	case c.plan.Site == nil:
		c.report(at, "lies-nowhere")
	case before >= 0 && before < len(run.Pieces) && !run.Pieces[before].Lies:
		c.report(at, "lies-alone", "n", before+1)
	case p.Plank < 1 || p.Plank > len(c.plan.Planks) || !c.plan.Planks[p.Plank-1].Opened:
		c.report(at, "lies-whole", "plank", p.Plank)
	}
}

// marked holds the marks of a plank against each other and against its pieces; it returns false where the plank cannot
// be cut up by them.
func (c *plankChecker) marked() bool {
	use := c.use
	ok := c.gone()
	lies := false
	for _, p := range c.pieces {
		lies = lies || p.Lies
		if !p.Lies && p.AsItComes > 0 && len(use.Gone) > 0 {
			c.report(RuleAsItComes, "loose-of-rest")
		}
	}
	switch {
	case c.plan.Site == nil && (use.Opened || use.Brought || len(use.Gone) > 0 || use.Lot != ""):
		c.report(RuleSite, "marks-nowhere")
	case !use.Opened && (use.Brought || len(use.Gone) > 0):
		c.report(RuleSite, "gone-of-whole")
	case use.Opened && !lies && len(use.Gone) == 0:
		c.report(RuleSite, "opened-whole")
	case use.Brought && len(use.Gone) == 0:
		c.report(RuleSite, "brought-whole")
	}
	c.oneLot()
	return ok
}

// gone holds that the parts that are gone follow each other on the plank, and their ends. One of no length is a cut
// without a kerf, within the plank.
func (c *plankChecker) gone() bool {
	long, at := c.job.Plank.Length, measure.Length(0)
	for _, part := range c.use.Gone {
		inside := part.From > 0 && part.To < long
		if part.From < at || part.To > long || part.To < part.From || part.To == part.From && !inside {
			c.report(RuleSite, "gone-astray", "from", part.From, "to", part.To)
			return false
		}
		if want := endsOf(part, long); part.Ends != want {
			c.report(RuleSite, "gone-ends", "from", part.From, "to", part.To, "got", part.Ends, "want", want)
		}
		at = part.To
	}
	return true
}

// endsOf returns the factory ends of a part of a plank.
func endsOf(part cutopt.Leftover, long measure.Length) (ends cutopt.Ends) {
	if part.From == 0 {
		ends |= cutopt.EndsLeft
	}
	if part.To == long {
		ends |= cutopt.EndsRight
	}
	return ends
}

// oneLot holds that what is planned of the plank is of the lot of its floors.
func (c *plankChecker) oneLot() {
	if c.plan.Site == nil || c.plan.Site.Mixed || len(c.pieces) < len(c.use.Pieces) {
		return
	}
	for i, p := range c.pieces {
		floor := c.use.Pieces[i].Floor
		if want := c.plan.Floors[floor].Lot; !p.Lies && c.use.Lot != want {
			v := c.at
			v.Rule, v.Floor, v.Name = RuleSite, floor+1, c.plan.Floors[floor].Name
			c.checker.report(v, "lot-other", "got", c.use.Lot, "want", want)
			return
		}
	}
}
