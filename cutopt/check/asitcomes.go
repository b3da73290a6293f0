package check

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Starters that are laid as their offcuts come, without a saw cut, may turn out at any length from the planned one to
// Piece.AsItComes. What follows in their runs moves as far: end joints, and the ender, which is so much shorter.

// first returns the index of the piece of a run that is laid first, of so many.
func first(floor *cutopt.PlanFloor, pieces int) int {
	if floor.LaidFrom == cutopt.HandRight {
		return pieces - 1
	}
	return 0
}

// longer returns how much longer than planned the piece of a run that is laid first may turn out.
func longer(floor *cutopt.PlanFloor, run *cutopt.PlanRun) measure.Length {
	if len(run.Pieces) == 0 {
		return 0
	}
	p := &run.Pieces[first(floor, len(run.Pieces))]
	return max(0, p.AsItComes-(p.To-p.From))
}

// asItComes checks the interval of one piece by itself.
func (c *roomChecker) asItComes(at Violation, run *cutopt.PlanRun, m int) {
	p, length := &run.Pieces[m], run.Pieces[m].To-run.Pieces[m].From
	at.Rule = RuleAsItComes
	switch long := c.job.Plank.Length; {
	case p.AsItComes == 0:
		return
	case len(run.Pieces) == 1 || m != first(c.room, len(run.Pieces)) || length == long:
		c.report(at, "loose-no-starter")
	case p.AsItComes <= length || p.AsItComes > long:
		c.report(at, "loose-interval", "length", length, "longest", p.AsItComes, "most", long)
	case len(c.job.Pattern) > 0:
		c.report(at, "loose-pattern")
	}
	if last := &run.Pieces[len(run.Pieces)-1-m]; last.To-last.From == c.job.Plank.Length && len(run.Pieces) > 1 {
		c.report(at, "loose-whole", "n", len(run.Pieces)-m)
	}
	for i := range run.Pieces {
		if run.Pieces[i].Shape != nil && !begun(run) { // what lies may be beside a wall that was measured anew
			c.report(at, "loose-shape", "n", i+1)
			return
		}
	}
}

// looseOn returns the index of the piece of the plank that is laid as it comes, or -1.
func (c *plankChecker) looseOn() int {
	for i, p := range c.pieces {
		if p.AsItComes > 0 {
			return i
		}
	}
	return -1
}

// loose holds the starter that lies at an end of the plank against the longest that its offcut may come: with all that
// is laid before it as short as it may come out. It is so where the starter is laid as it comes, and where no cut is
// planned for it because the offcut is planned to come to its length.
func (c *plankChecker) loose() {
	at := c.looseOn()
	offcut := c.job.Plank.Length // as planned, and as long as it may come
	var may measure.Length
	last := -1 // of the pieces, that which is laid last
	for i, ref := range c.use.Pieces {
		if last < 0 || c.before(c.use.Pieces[last], ref) {
			last = i
		}
	}
	for i, p := range c.pieces {
		if i == last {
			continue
		}
		ref := c.use.Pieces[i]
		floor := &c.plan.Floors[ref.Floor]
		run := &floor.Rows[ref.Row].Runs[ref.Run]
		offcut -= p.To - p.From + c.job.Rules.Kerf
		if c.laidLast(ref) {
			may += c.job.Rules.Fit
			if len(run.Pieces) > 1 {
				may += longer(floor, run)
			}
		}
	}
	if c.pieces[last].Lies {
		return // so do all: it was laid as it came
	}
	length := c.pieces[last].To - c.pieces[last].From
	longest := offcut + may
	switch {
	case at < 0 && offcut != length: // it is sawn
	case at < 0 && longest > length:
		c.report(RuleAsItComes, "offcut-longer", "length", length, "longest", longest)
	case at < 0:
		ref := c.use.Pieces[last]
		run := &c.plan.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run]
		if less := longer(&c.plan.Floors[ref.Floor], run); less > 0 && c.laidLast(ref) && len(run.Pieces) > 1 {
			c.report(RuleAsItComes, "ender-shorter", "length", length, "least", length-less)
		}
	case at != last || len(c.pieces) < 2:
		c.report(RuleAsItComes, "loose-new", "n", at+1)
	case len(c.use.Left) > 0:
		c.report(RuleAsItComes, "loose-leaves", "from", c.use.Left[0].From, "to", c.use.Left[0].To)
	case offcut > length+c.job.Rules.AsItComes:
		c.report(RuleAsItComes, "loose-long", "length", length, "offcut", offcut, "most", length+c.job.Rules.AsItComes)
	case longest > c.pieces[at].AsItComes:
		c.report(RuleAsItComes, "loose-beyond", "length", length, "longest", longest, "most", c.pieces[at].AsItComes)
	}
}

// before reports whether a piece is laid before another.
func (c *checker) before(a, b cutopt.PieceRef) bool {
	if lies := c.plan.Piece(a).Lies; lies != c.plan.Piece(b).Lies {
		return lies
	}
	switch backwards := c.plan.Floors[a.Floor].LaidFrom == cutopt.HandRight; {
	case a.Floor != b.Floor:
		return a.Floor < b.Floor
	case a.Row != b.Row:
		return a.Row < b.Row
	case a.Run != b.Run:
		return a.Run < b.Run != backwards
	default:
		return a.Piece < b.Piece != backwards
	}
}
