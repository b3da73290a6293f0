package check

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A roomChecker checks one floor of a plan.
type roomChecker struct {
	*checker
	index int
	room  *cutopt.PlanFloor
	rooms []int // the rooms of the job that make it up; nil when the job has none
}

// at returns a violation of a place in the room, counted from 1.
func (c *roomChecker) at(rule Rule, row, run, piece int) Violation {
	return Violation{Rule: rule, Floor: c.index + 1, Name: c.room.Name, Row: row, Run: run, Piece: piece}
}

func (c *roomChecker) report(v Violation, got, want string) {
	v.Got, v.Want = got, want
	c.add(v)
}

func (c *roomChecker) run(ctx context.Context) error {
	c.asked()
	for i := range c.room.Rows {
		c.row(i)
	}
	c.pattern()
	for i := 1; i < len(c.room.Rows); i++ {
		c.stagger(i)
	}
	return c.cover(ctx)
}

// row checks one row, its runs and their pieces. A row that is ripped lies at an edge: it is the first or the last, or
// no floor lies between it and the row beside it. That none does is for the measurement to say.
func (c *roomChecker) row(i int) {
	rows := c.room.Rows
	row := &rows[i]
	at := c.at(RuleRows, i+1, 0, 0)
	wide := c.job.Plank.Width
	if row.Width != row.To-row.From {
		c.report(
			at,
			fmt.Sprintf("it lies from %s to %s and says it is %s wide", c.text(row.From), c.text(row.To), c.text(row.Width)),
			c.text(row.To-row.From),
		)
	}
	edge := i == 0 || i == len(rows)-1 || row.From > rows[i-1].To || row.To < rows[i+1].From
	switch w := row.To - row.From; {
	case w <= 0 || w > wide:
		c.report(at, "it is "+c.text(w)+" wide", "more than 0 and at most a plank, "+c.text(wide))
	case w < wide && !edge:
		c.report(at, "it is "+c.text(w)+" wide with rows on both sides", "a whole plank, "+c.text(wide))
	}
	if i > 0 && row.From < rows[i-1].To {
		c.report(at, "it begins at "+c.text(row.From), "no less than "+c.text(rows[i-1].To)+", where the row before it ends")
	}
	for k := range row.Runs {
		if k > 0 && row.Runs[k].From < row.Runs[k-1].From {
			c.report(c.at(RuleRun, i+1, k+1, 0), "it begins at "+c.text(row.Runs[k].From),
				"runs from left to right: the one before it begins at "+c.text(row.Runs[k-1].From))
		}
		c.pieces(i, k)
	}
}

// pieces checks how the pieces of a run follow each other, and each of them.
func (c *roomChecker) pieces(i, k int) {
	run := &c.room.Rows[i].Runs[k]
	at := c.at(RuleRun, i+1, k+1, 0)
	if run.To <= run.From {
		c.report(at, fmt.Sprintf("it goes from %s to %s", c.text(run.From), c.text(run.To)), "a length above 0")
	}
	if len(run.Pieces) == 0 {
		c.report(at, "it has no piece", "pieces from end to end")
		return
	}
	end, before := run.From, "the run begins"
	for m := range run.Pieces {
		p := &run.Pieces[m]
		at := c.at(RuleRun, i+1, k+1, m+1)
		if p.From != end {
			c.report(at, "it begins at "+c.text(p.From), c.text(end)+", where "+before)
		}
		end, before = p.To, "the piece before it ends"
		at.Rule = RuleLength
		if p.Length != p.To-p.From {
			c.report(
				at,
				fmt.Sprintf("it lies from %s to %s and says it is %s long", c.text(p.From), c.text(p.To), c.text(p.Length)),
				c.text(p.To-p.From),
			)
		}
		if w := p.To - p.From; w <= 0 || w > c.job.Plank.Length {
			c.report(at, "it is "+c.text(w)+" long", "more than 0 and at most a plank, "+c.text(c.job.Plank.Length))
			continue
		}
		c.ends(at, run, m)
		c.shape(at, &c.room.Rows[i], p)
		c.shaping(at, &c.room.Rows[i], p)
	}
	if end != run.To {
		c.report(at, "its last piece ends at "+c.text(end), c.text(run.To)+", where the run ends")
	}
}

// ends checks the factory ends of a piece, the least length of starters and enders, and the grid.
func (c *roomChecker) ends(at Violation, run *cutopt.PlanRun, m int) {
	p, last := &run.Pieces[m], len(run.Pieces)-1
	length := p.To - p.From
	at.Rule = RuleEnds
	switch whole := length == c.job.Plank.Length; {
	case whole && p.Ends != cutopt.EndsBoth:
		c.report(at, fmt.Sprintf("a piece as long as a plank has its factory ends: %v", p.Ends), "both")
	case !whole && p.Ends == cutopt.EndsBoth:
		c.report(
			at,
			fmt.Sprintf("a piece of %s has both factory ends", c.text(length)),
			"a whole plank, "+c.text(c.job.Plank.Length),
		)
	case last == 0 || whole:
	case m == 0 && p.Ends != cutopt.EndsRight:
		c.report(at, fmt.Sprintf("a sawn starter has its factory ends: %v", p.Ends), "right, where the next plank locks in")
	case m == last && p.Ends != cutopt.EndsLeft:
		c.report(
			at,
			fmt.Sprintf("a sawn ender has its factory ends: %v", p.Ends),
			"left, where it locks into the plank before it",
		)
	case 0 < m && m < last:
		c.report(at, fmt.Sprintf("a field plank is %s long", c.text(length)), "a whole plank, "+c.text(c.job.Plank.Length))
	}
	if last == 0 || 0 < m && m < last {
		return
	}
	first := 0
	if c.room.LaidFrom == cutopt.HandRight {
		first = last
	}
	kind := "a starter"
	if m == last {
		kind = "an ender"
	}
	rules := &c.job.Rules
	least, slack := rules.MinPiece, ""
	if m != first && rules.Fit > 0 {
		least += rules.Fit
		slack = ", the shortest piece and the fit allowance"
	}
	if length < least {
		at.Rule = RuleMinPiece
		c.report(at, fmt.Sprintf("%s of %s", kind, c.text(length)), "at least "+c.text(least)+slack)
	}
	if grid := c.job.Rules.Grid; m == first && length < c.job.Plank.Length && length%grid != 0 {
		at.Rule = RuleGrid
		c.report(at, "the piece laid first is "+c.text(length)+" long", "a multiple of "+c.text(grid))
	}
}

// A joint is where two pieces of a run meet.
type joint struct {
	x          measure.Length
	run, piece int // the piece on its left
	from, to   measure.Length
}

// joints lists the end joints of a row from left to right.
func joints(r *cutopt.PlanRow) []joint {
	var out []joint
	for k := range r.Runs {
		run := &r.Runs[k]
		for m := range max(0, len(run.Pieces)-1) {
			out = append(out, joint{run.Pieces[m].To, k, m, run.From, run.To})
		}
	}
	slices.SortStableFunc(out, func(a, b joint) int { return cmp.Compare(a.x, b.x) })
	return out
}

// stagger holds every joint of row i against the joints of the row before it, and reports for each the nearest one that
// is too near.
func (c *roomChecker) stagger(i int) {
	least := c.job.Rules.Stagger
	if least == 0 {
		return
	}
	least += 2 * c.job.Rules.Fit // both rows may begin elsewhere
	before := joints(&c.room.Rows[i-1])
	low := 0
	for _, a := range joints(&c.room.Rows[i]) {
		for low < len(before) && before[low].x <= a.x-least {
			low++
		}
		nearest, which := least, -1
		for j := low; j < len(before) && before[j].x < a.x+least; j++ {
			b := before[j]
			touch := min(a.to, b.to) > max(a.from, b.from)
			if d := max(a.x-b.x, b.x-a.x); touch && d < nearest {
				nearest, which = d, j
			}
		}
		if which >= 0 {
			b := before[which]
			c.report(
				c.at(RuleStagger, i+1, a.run+1, a.piece+1),
				fmt.Sprintf(
					"the joint at its right end, at %s, is %s from the one at %s of row %d run %d",
					c.text(a.x),
					c.text(nearest),
					c.text(b.x),
					i,
					b.run+1,
				),
				"at least "+c.text(least),
			)
		}
	}
}
