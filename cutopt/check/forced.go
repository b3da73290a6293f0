package check

import (
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
)

// plain reports whether the floor is a rectangle, all of it: then how the rows may lie is plain arithmetic.
func (c *roomChecker) plain() bool {
	for i := range c.room.Rows {
		row := &c.room.Rows[i]
		if len(row.Runs) != 1 || row.Runs[0].From != c.room.Rows[0].Runs[0].From ||
			row.Runs[0].To != c.room.Rows[0].Runs[0].To {
			return false
		}
		for m := range row.Runs[0].Pieces {
			if row.Runs[0].Pieces[m].Shape != nil {
				return false
			}
		}
	}
	return true
}

// forced holds that no position of the rows leaves edge rows so wide: of a plain floor by arithmetic, of one whose
// walls run along the rows or square to them by trying each. Other floors are believed, and those of which some lies:
// that fixes the rows.
func (c *roomChecker) forced(floor *recount.Floor, f *cutopt.Fact, least measure.Length) {
	if c.begun() {
		return
	}
	if !c.plain() {
		if l := c.ledges(floor); l != nil && l.keep(c.job, least) {
			c.unforced(f, least)
		}
		return
	}
	rows := c.room.Rows
	whole := rows[len(rows)-1].To - rows[0].From
	slack := measure.Length(0)
	if slices.ContainsFunc(c.room.Facts, func(f cutopt.Fact) bool { return f.Kind == cutopt.FactSlivers }) {
		slack = c.hidden()
	}
	for _, w := range []measure.Length{whole, whole + slack/2, whole + slack} {
		if !c.placeable(w, least) {
			return
		}
	}
	c.unforced(f, least)
}

func (c *roomChecker) unforced(f *cutopt.Fact, least measure.Length) {
	c.report(c.at(RuleMinRip, 0, 0, 0), "edge-unforced", "first", f.First, "last", f.Last, "least", least)
}

// placeable reports whether some width of the first row on the grid leaves both edge rows of a floor so wide at least
// least. With n rows the first and the last share what n-2 whole ones leave; a last row that the trim hides is none.
func (c *roomChecker) placeable(whole, least measure.Length) bool {
	wide, grid := c.job.Plank.Width, max(c.job.Rules.Grid, 1)
	if whole <= wide {
		return whole >= least
	}
	margin := measure.Length(0)
	if wide/grid > 4096 { // not every position is tried
		margin = wide / 4096
	}
	on := func(low, high measure.Length) bool { // a width of the first row between these
		low, high = max(low, least)+margin, min(high, wide)-margin
		return low <= high && low.Ceil(grid) <= high || margin == 0 && low <= wide && wide <= high
	}
	for n := max(0, whole/wide-2); n <= whole/wide; n++ {
		share := whole - n*wide
		if share > 0 && on(share-wide, share-least) || on(share-wide-(c.hidden()-1), share-wide) {
			return true
		}
	}
	return false
}

// A ledge is a wall along the rows: how far the floor beside it reaches, after the gap, and whether the floor begins
// there, as it does at the starting side, or ends.
type ledge struct {
	at, from, to float64
	begins       bool
}

// ledges are the walls along the rows of a floor whose other walls are square to them.
type ledges []ledge

// ledges lists the walls along the rows; nil where the rows can cut the floor in another way than they tell: where a
// wall slants, a jog was straightened, a pipe stands in the floor, it runs into doorways or several rooms, has or may
// have breaks, or is less
// than two planks wide anywhere.
func (c *roomChecker) ledges(floor *recount.Floor) ledges {
	rules := &c.job.Rules
	if !floor.Exact || len(floor.Rooms) != 1 || len(floor.Rooms[0].Doorways) > 0 || len(floor.Rooms[0].Rounds) > 0 ||
		c.straightened > 0 || rules.MaxAlong > 0 || rules.MaxAcross > 0 {
		return nil
	}
	var out ledges
	room := &floor.Rooms[0]
	for k, ring := range append([]recount.Ring{room.Outline}, room.Islands...) {
		turn := signed(ring.Corners)
		if k > 0 {
			turn = -turn
		}
		for i, a := range ring.Corners {
			b := ring.Corners[(i+1)%len(ring.Corners)]
			switch {
			case a.X != b.X && a.Y != b.Y:
				return nil
			case math.Abs(b.X-a.X) > 0:
				l := ledge{from: min(a.X, b.X), to: max(a.X, b.X), begins: (b.X > a.X) == (turn > 0)}
				if l.at = a.Y + ring.Gaps[i]; !l.begins {
					l.at = a.Y - ring.Gaps[i]
				}
				out = append(out, l)
			}
		}
	}
	for _, a := range out {
		for _, b := range out {
			facing := a.begins && !b.begins && b.at > a.at && min(a.to, b.to) > max(a.from, b.from)
			if facing && b.at-a.at < 2*float64(c.job.Plank.Width) {
				return nil
			}
		}
	}
	return out
}

// signed returns above 0 for corners in counter-clockwise order.
func signed(corners []recount.Spot) (twice float64) {
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		twice += p.X*q.Y - p.Y*q.X
	}
	return twice
}

// keep reports whether some width of the first row, on the grid or a whole plank, leaves both edge rows at least least
// wide, and no strip along any wall that is narrower than one that can be held.
func (all ledges) keep(job *cutopt.Job, least measure.Length) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, l := range all {
		low, high = min(low, l.at), max(high, l.at)
	}
	wide, grid := float64(job.Plank.Width), float64(max(job.Rules.Grid, 1))
	const most = 4096 // widths tried
	step := grid * max(1, math.Floor(wide/grid/most))
	good := func(first float64) bool {
		for _, l := range all {
			past := math.Mod(l.at-low-first+wide*math.Ceil((first+1)/wide), wide) // past the line before it
			strip := wide - past
			if !l.begins && past > 0 {
				strip = past
			}
			need := float64(job.Rules.MinStrip)
			if l.at < low+1 || l.at > high-1 {
				need = max(need, float64(least))
			}
			if strip < need { // one that the trim hides may be none, or part of another
				return false
			}
		}
		return true
	}
	for first := step; first < wide; first += step {
		if good(first) {
			return true
		}
	}
	return good(wide)
}
