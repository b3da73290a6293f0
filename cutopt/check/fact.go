package check

import (
	"slices"

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
	c.doorwayRows(floor, told[cutopt.FactDoorwayRow])
	c.firstRow(floor, c.first.Rows.FirstRow)
	c.taper(floor, told[cutopt.FactTaper])
	c.base(told[cutopt.FactBase], told[cutopt.FactBaseAsked])
	c.lines(floor, slices.Concat(told[cutopt.FactLine], told[cutopt.FactLineAt], told[cutopt.FactLineFixed],
		told[cutopt.FactLineFixedAt]))
	c.through(floor, told[cutopt.FactThrough], told[cutopt.FactRoomRows])
	c.breaks(slices.Concat(told[cutopt.FactBreak], told[cutopt.FactBreakOn], told[cutopt.FactBreakDoorway]))
	c.limits()
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
	for _, p := range c.rooms {
		room := p.Room
		for k := range room.Doorways {
			d := &room.Doorways[k]
			jamb := measure.Length(0)
			if d.Casing == cutopt.CasingMetal {
				jamb = c.job.Rules.WallGap(room, d.Wall)
			}
			if d.Width <= 2*jamb {
				shut[[2]int{p.number + 1, p.doorways[k] + 1}] = true
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
