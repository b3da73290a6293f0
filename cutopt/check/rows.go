package check

import (
	"cmp"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A roomChecker checks one floor of a plan.
type roomChecker struct {
	*checker
	index int
	room  *cutopt.PlanFloor
	rooms []*part      // the rooms of the job that make it up, or parts of them; nil when the job has none
	first *cutopt.Room // of the whole floor
	// leading is its index in the job.
	leading int

	straightened int // jogs, counted again with the floor
	// placed are the pipes of these rooms in the floor's own axes; nil until pipes lists them.
	placed []pipe

	joints [2][]joint // of two rows, reused
}

// at returns a violation of a place in the room, counted from 1.
func (c *roomChecker) at(rule Rule, row, run, piece int) Violation {
	return Violation{Rule: rule, Floor: c.index + 1, Name: c.room.Name, Row: row, Run: run, Piece: piece}
}

func (c *roomChecker) run() error {
	c.asked()
	for i := range c.room.Rows {
		if c.row(i); c.over() {
			return c.ctx.Err()
		}
	}
	c.pattern()
	for i := 1; i < len(c.room.Rows); i++ {
		c.stagger(i)
	}
	return c.cover()
}

// row checks one row, its runs and their pieces. A row that is ripped lies at an edge: it is the first or the last, or
// no floor lies between it and the row beside it. That none does is for the measurement to say.
func (c *roomChecker) row(i int) {
	rows := c.room.Rows
	row := &rows[i]
	at := c.at(RuleRows, i+1, 0, 0)
	wide := c.job.Plank.Width
	if row.Width != row.To-row.From {
		c.report(at, "row-width", "from", row.From, "to", row.To, "got", row.Width, "want", row.To-row.From)
	}
	edge := i == 0 || i == len(rows)-1 || row.From > rows[i-1].To || row.To < rows[i+1].From
	switch w := row.To - row.From; {
	case w <= 0 || w > wide:
		c.report(at, "row-wide", "width", w, "most", wide)
	case w < wide && !edge:
		c.report(at, "row-inner", "width", w, "want", wide)
	}
	if i > 0 && row.From < rows[i-1].To {
		c.report(at, "row-begins", "at", row.From, "least", rows[i-1].To)
	}
	for k := range row.Runs {
		if k > 0 && row.Runs[k].From < row.Runs[k-1].From {
			c.report(c.at(RuleRun, i+1, k+1, 0), "runs-order", "at", row.Runs[k].From, "before", row.Runs[k-1].From)
		}
		c.pieces(i, k)
	}
}

// pieces checks how the pieces of a run follow each other, and each of them.
func (c *roomChecker) pieces(i, k int) {
	run := &c.room.Rows[i].Runs[k]
	at := c.at(RuleRun, i+1, k+1, 0)
	if run.To <= run.From {
		c.report(at, "run-empty", "from", run.From, "to", run.To)
	}
	if len(run.Pieces) == 0 {
		c.report(at, "run-bare")
		return
	}
	end, kind := run.From, "run-begins"
	for m := range run.Pieces {
		p := &run.Pieces[m]
		at := c.at(RuleRun, i+1, k+1, m+1)
		if p.From != end {
			c.report(at, kind, "at", p.From, "want", end)
		}
		end, kind = p.To, "piece-begins"
		at.Rule = RuleLength
		if p.Length != p.To-p.From {
			c.report(at, "piece-length", "from", p.From, "to", p.To, "got", p.Length, "want", p.To-p.From)
		}
		if w := p.To - p.From; w <= 0 || w > c.job.Plank.Length {
			c.report(at, "piece-long", "length", w, "most", c.job.Plank.Length)
			continue
		}
		c.ends(at, run, m)
		c.lies(at, run, m)
		c.asItComes(at, run, m)
		c.shape(at, &c.room.Rows[i], p)
		c.shaping(at, &c.room.Rows[i], p)
	}
	if end != run.To {
		c.report(at, "run-ends", "at", end, "want", run.To)
	}
}

// ends checks the factory ends of a piece, the least length of starters and enders, and the grid.
func (c *roomChecker) ends(at Violation, run *cutopt.PlanRun, m int) {
	p, last := &run.Pieces[m], len(run.Pieces)-1
	length := p.To - p.From
	at.Rule = RuleEnds
	switch whole := length == c.job.Plank.Length; {
	case whole && p.Ends != cutopt.EndsBoth:
		c.report(at, "whole-ends", "ends", p.Ends)
	case !whole && p.Ends == cutopt.EndsBoth:
		c.report(at, "sawn-ends", "length", length, "want", c.job.Plank.Length)
	case last == 0 || whole:
	case m == 0 && p.Ends != cutopt.EndsRight:
		c.report(at, "starter-ends", "ends", p.Ends)
	case m == last && p.Ends != cutopt.EndsLeft:
		c.report(at, "ender-ends", "ends", p.Ends)
	case 0 < m && m < last:
		c.report(at, "field-sawn", "length", length, "want", c.job.Plank.Length)
	}
	if last == 0 || 0 < m && m < last || begun(run) {
		return
	}
	first := first(c.room, len(run.Pieces))
	kind := "starter-short"
	if m == last {
		kind = "ender-short"
	}
	rules := &c.job.Rules
	least := rules.MinPiece
	if m != first && rules.Fit > 0 {
		least += rules.Fit
		kind += "-with-fit"
	}
	if more := longer(c.room, run); m != first && more > 0 {
		least += more
		kind = "ender-short-as-it-comes"
	}
	if length < least {
		at.Rule = RuleMinPiece
		c.report(at, kind, "length", length, "least", least)
	}
	if grid := c.job.Rules.Grid; m == first && length < c.job.Plank.Length && length%grid != 0 {
		at.Rule = RuleGrid
		c.report(at, "off-grid", "length", length, "grid", grid)
	}
}

// A joint is where two pieces of a run meet.
type joint struct {
	x          measure.Length
	left       measure.Length // how far to the left it may come to lie, where offcuts are laid as they come
	right      measure.Length // to the right
	run, piece int            // the piece on its left
	from, to   measure.Length
	begun      bool // some of its run lies
}

// joints lists the end joints of a row from left to right, in the memory of out.
func joints(out []joint, floor *cutopt.PlanFloor, i int) []joint {
	out = out[:0]
	for k := range floor.Rows[i].Runs {
		run := &floor.Rows[i].Runs[k]
		left, right := measure.Length(0), longer(floor, run)
		if floor.LaidFrom == cutopt.HandRight {
			left, right = right, left
		}
		for m := range max(0, len(run.Pieces)-1) {
			out = append(out, joint{run.Pieces[m].To, left, right, k, m, run.From, run.To, begun(run)})
		}
	}
	slices.SortStableFunc(out, func(a, b joint) int { return cmp.Compare(a.x, b.x) })
	return out
}

// nearest returns how near two joints may come to each other.
func nearest(a, b joint) measure.Length {
	if a.x > b.x {
		a, b = b, a
	}
	return max(0, b.x-b.left-a.x-a.right)
}

// stagger holds every joint of row i against the joints of the row before it, and reports for each the one that comes
// nearest, if it comes too near.
func (c *roomChecker) stagger(i int) {
	least := c.job.Rules.Stagger
	if least == 0 {
		return
	}
	least += 2 * c.job.Rules.Fit // both rows may begin elsewhere
	before, here := joints(c.joints[0], c.room, i-1), joints(c.joints[1], c.room, i)
	c.joints = [2][]joint{before, here}
	within := least // beyond that as planned no two come too near
	for _, all := range [][]joint{before, here} {
		most := measure.Length(0)
		for _, j := range all {
			most = max(most, j.left, j.right)
		}
		within += most
	}
	low := 0
	for _, a := range here {
		for low < len(before) && before[low].x <= a.x-within {
			low++
		}
		near, which := least, -1
		for j := low; j < len(before) && before[j].x < a.x+within; j++ {
			b := before[j]
			touch := min(a.to, b.to) > max(a.from, b.from)
			if d := nearest(a, b); touch && d < near && !(a.begun && b.begun) {
				near, which = d, j
			}
		}
		if which < 0 {
			continue
		}
		b := before[which]
		kind := "joints-near"
		if max(a.x-b.x, b.x-a.x) > near {
			kind = "joints-come-near"
		}
		c.report(c.at(RuleStagger, i+1, a.run+1, a.piece+1), kind, "at", a.x, "distance", near,
			"other", b.x, "row", i, "run", b.run+1, "least", least)
	}
}
