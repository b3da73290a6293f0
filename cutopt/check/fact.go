package check

import (
	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
)

// facts recounts what the plan says of the floor: each fact by a method of its own, and whether one is missing.
func (c *roomChecker) facts(floor *recount.Floor) {
	if len(c.rooms) == 0 || len(c.room.Rows) == 0 {
		return
	}
	told := make(map[cutopt.FactKind][]*cutopt.Fact)
	for i := range c.room.Facts {
		f := &c.room.Facts[i]
		if f.Kind.Fields() == nil || f.Kind.OfShape() || *f != f.Own() {
			c.untrue(f, "fact-alien", "n", i+1)
			continue
		}
		told[f.Kind] = append(told[f.Kind], f)
	}
	c.doorways(told[cutopt.FactDoorway])
	c.jogs(told[cutopt.FactJogs])
	c.edges(floor, append(told[cutopt.FactEdgeAsked], told[cutopt.FactEdgeForced]...))
	c.strips(told[cutopt.FactStrip])
	c.firstRow(floor, c.job.Rooms[c.rooms[0]].Rows.FirstRow)
	c.taper(floor, told[cutopt.FactTaper])
	c.base(told[cutopt.FactBase], told[cutopt.FactBaseAsked])
	c.lines(floor, told[cutopt.FactLine], told[cutopt.FactLineAt])
	c.breaksAcross(told[cutopt.FactBreakAcross])
	c.breaksAlong(told[cutopt.FactBreakAlong])
}

// untrue reports a fact that is not so.
func (c *roomChecker) untrue(f *cutopt.Fact, kind string, figures ...any) {
	c.report(c.at(RuleFact, 0, 0, 0), kind, append([]any{"fact", *f}, figures...)...)
}

// once reports all facts of a kind but the first, which it returns; nil for none.
func (c *roomChecker) once(facts []*cutopt.Fact) *cutopt.Fact {
	if len(facts) == 0 {
		return nil
	}
	for _, f := range facts[1:] {
		c.untrue(f, "fact-again")
	}
	return facts[0]
}

// doorways holds that doorways are told of just where the gaps at their sides leave no floor.
func (c *roomChecker) doorways(facts []*cutopt.Fact) {
	shut := make(map[[2]int]bool)
	for _, r := range c.rooms {
		room := &c.job.Rooms[r]
		for k := range room.Doorways {
			d := &room.Doorways[k]
			jamb := measure.Length(0)
			if d.Casing == cutopt.CasingMetal {
				jamb = c.wallGap(room, d.Wall)
			}
			if d.Width <= 2*jamb {
				shut[[2]int{r + 1, k + 1}] = true
			}
		}
	}
	for _, f := range facts {
		key := [2]int{f.Room, f.Doorway}
		if !shut[key] || c.job.Rooms[f.Room-1].Doorways[f.Doorway-1].Wall != f.Wall-1 {
			c.untrue(f, "doorway-open")
		}
		delete(shut, key)
	}
	for key := range shut {
		c.report(c.at(RuleFact, 0, 0, 0), "doorway-untold", "doorway", key[1], "room", key[0])
		break
	}
}

func (c *roomChecker) wallGap(room *cutopt.Room, wall int) measure.Length {
	if gap, ok := room.WallGaps[wall]; ok {
		return gap
	}
	return c.job.Rules.Gap
}

// breaksAcross holds that breaks lie between rows and leave no part of the floor wider than allowed.
func (c *roomChecker) breaksAcross(facts []*cutopt.Fact) {
	rows := c.room.Rows
	from, most := rows[0].From, c.job.Rules.MaxAcross
	whole := rows[len(rows)-1].To - from
	at, row := measure.Length(0), 0
	single := func(to int) bool { return to-row == 1 } // a row wider than allowed is what the job asks for
	for _, f := range facts {
		if most == 0 || whole <= most || f.Most != most || f.Length != whole || f.Row < 1 || f.Row >= len(rows) ||
			f.Across != rows[f.Row-1].To-from {
			c.untrue(f, "break-across-other", "length", whole, "most", most)
			return
		}
		if !single(f.Row) {
			c.within("unbroken-across", f.Across-at, most)
		}
		at, row = f.Across, f.Row
	}
	if most > 0 && !single(len(rows)) {
		c.within("unbroken-across", whole-at, most)
	}
}

// within reports a stretch of floor that is too long without a break.
func (c *roomChecker) within(kind string, size, most measure.Length) {
	if size > most || size <= 0 {
		c.report(c.at(RuleFact, 0, 0, 0), kind, "length", size, "most", most)
	}
}

// breaksAlong holds that breaks part the longest run, if it is too long.
func (c *roomChecker) breaksAlong(facts []*cutopt.Fact) {
	most := c.job.Rules.MaxAlong
	longest := measure.Length(0)
	for i := range c.room.Rows {
		for _, r := range c.room.Rows[i].Runs {
			longest = max(longest, r.To-r.From)
		}
	}
	at := measure.Length(0)
	for _, f := range facts {
		ok := most > 0 && longest > most && f.Most == most && f.Length == longest &&
			f.Row >= 1 && f.Row <= len(c.room.Rows) && f.Run >= 1 && f.Run <= len(c.room.Rows[f.Row-1].Runs)
		if ok {
			run := c.room.Rows[f.Row-1].Runs[f.Run-1]
			ok = run.To-run.From == longest
		}
		if !ok {
			c.untrue(f, "break-along-other", "length", longest, "most", most)
			return
		}
		c.within("unbroken-along", f.At-at, most)
		at = f.At
	}
	if most > 0 {
		c.within("unbroken-along", longest-at, most)
	}
}
