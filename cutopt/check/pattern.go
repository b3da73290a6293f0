package check

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// pattern holds the joints of a room against the job's pattern, seen from the side that is laid first: the joints of
// row k lie a starter of the pattern, and then every plank's length, from where the leftmost run of the room begins,
// each run's to the grid. A run that this would leave a piece too short is laid in one, and one that is begun goes
// on as it lies.
func (c *roomChecker) pattern() {
	starters := c.job.Pattern
	if len(starters) == 0 {
		return
	}
	begin := func(run *cutopt.PlanRun) measure.Length {
		if c.room.LaidFrom == cutopt.HandRight {
			return -run.To
		}
		return run.From
	}
	first := farthest
	for i := range c.room.Rows {
		for k := range c.room.Rows[i].Runs {
			first = min(first, begin(&c.room.Rows[i].Runs[k]))
		}
	}
	for i := range c.room.Rows {
		for k := range c.room.Rows[i].Runs {
			run := &c.room.Rows[i].Runs[k]
			if len(run.Pieces) == 0 || begun(run) {
				continue
			}
			want := c.patternStarter(first+starters[i%len(starters)]-begin(run), run.To-run.From)
			p := &run.Pieces[0]
			if c.room.LaidFrom == cutopt.HandRight {
				p = &run.Pieces[len(run.Pieces)-1]
			}
			at := c.at(RulePattern, i+1, k+1, 0)
			switch {
			case want == 0 && len(run.Pieces) > 1:
				c.report(at, "pattern-one-piece")
			case want > 0 && (len(run.Pieces) == 1 || p.To-p.From != want):
				c.report(at, "pattern-starter", "got", p.To-p.From, "want", want)
			}
		}
	}
}

// patternStarter returns the starter of a run whose first joint lies at x, or whole planks before or after that; 0
// where that leaves a piece too short or too long to be cut to fit, and the run may be laid in one.
func (c *checker) patternStarter(x, long measure.Length) measure.Length {
	plank, rules := c.job.Plank.Length, &c.job.Rules
	for x > plank {
		x -= plank * max(1, x/plank-1)
	}
	for x <= 0 {
		x += plank * max(1, -x/plank)
	}
	if x < plank {
		if x -= x % rules.Grid; x == 0 {
			x = plank
		}
	}
	ender := long - x
	for ender > plank {
		ender -= plank * max(1, ender/plank-1)
	}
	if long+rules.Fit <= plank &&
		(x < rules.MinPiece || ender < max(1, rules.MinPiece+rules.Fit) || ender+rules.Fit > plank) {
		return 0
	}
	return x
}
