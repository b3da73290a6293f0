package check

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
)

// hidden is the width up to which floor is left to the trim.
func (c *roomChecker) hidden() measure.Length { return max(c.job.Rules.Cover, 9) }

// jogs holds what is told of jogs against their count.
func (c *roomChecker) jogs(facts []*cutopt.Fact) {
	f, smooth := c.once(facts), c.job.Rules.Smooth
	switch jogs := c.straightened; {
	case f == nil && jogs > 0:
		c.report(c.at(RuleFact, 0, 0, 0), "jogs-untold", "count", jogs, "most", smooth)
	case f != nil && (f.Count != jogs || f.Most != smooth):
		c.untrue(f, "jogs-other", "most", smooth, "count", jogs)
	}
}

// An openArea is what lies open of a floor after the gaps: how much, what of that slivers need not be, and in how many
// pieces.
type openArea struct {
	area       float64
	other      float64 // at most so much of it is no sliver: beyond straight cuts, and rounding
	least      int     // pieces, those that touch counted as one
	most       int     // pieces
	unreliable bool    // some lies open that may not
}

// slivers holds what is told to be left to the trim against what lies open. Where walls run along the rows or square to
// them, that is just the slivers; what is cut off straight along slanted walls is no sliver, and only bounded.
func (c *roomChecker) slivers(o *openArea) {
	var facts []*cutopt.Fact
	for i := range c.room.Facts {
		if f := &c.room.Facts[i]; f.Kind == cutopt.FactSlivers && *f == f.Own() {
			facts = append(facts, f)
		}
	}
	const round = 1 // square ticks: area in a row is rounded down
	slack := round * float64(1+len(c.room.Rows))
	least, most := math.Floor(o.area-o.other-slack), math.Ceil(o.area+slack)
	f := c.once(facts)
	switch {
	case f == nil:
		if least > 0 && !o.unreliable {
			c.report(c.at(RuleFact, 0, 0, 0), "slivers-untold", "area", measure.Area(least))
		}
	case f.Most != c.hidden():
		c.untrue(f, "slivers-width", "most", c.hidden())
	case float64(f.Area) > most || f.Area < 0, !o.unreliable && float64(f.Area) < least:
		c.untrue(f, "slivers-area", "least", measure.Area(max(0, least)), "most", measure.Area(most))
	case f.Count < 1, !o.unreliable && (f.Count < o.least || f.Count > o.most):
		c.untrue(f, "slivers-count", "least", max(1, o.least), "most", o.most)
	}
}

// open adds up what lies open. Holes says that some of it is not hidden, which is reported by itself.
func (c *roomChecker) open(floor *recount.Floor, cells []recount.Open, holes bool) *openArea {
	o := &openArea{unreliable: holes}
	for i := range cells {
		o.area += cells[i].Area
	}
	o.other = c.slanted(floor)
	if o.least, o.most = 1, max(1, len(cells)); o.other == 0 {
		o.least, o.most = c.parts(cells)
	}
	return o
}

// slanted returns how much of the floor may lie open beyond straight cuts along walls that run neither along the rows
// nor square to them, round pipes, and by rounding along walls that the axes are only turned to.
func (c *roomChecker) slanted(floor *recount.Floor) float64 {
	const near = 4.0 // ticks that rounding may turn a wall by
	round, reach := 2*recount.Slack+2, floor.Hidden+2*recount.Slack+float64(c.widestGap())
	sum := 0.0
	wall := func(r *recount.Ring, i int) (loose bool) {
		a, b := r.Corners[i], r.Corners[(i+1)%len(r.Corners)]
		dx, dy := math.Abs(b.X-a.X), math.Abs(b.Y-a.Y)
		switch {
		case floor.Exact && min(dx, dy) == 0:
			return false
		case min(dx, dy) <= near:
			sum += round * (dx + dy + 2*reach)
		default:
			sum += reach * (math.Hypot(dx, dy) + 4*reach)
		}
		return true
	}
	for i := range floor.Rooms {
		room := &floor.Rooms[i]
		for k := range room.Outline.Corners {
			wall(&room.Outline, k)
		}
		for k := range room.Islands {
			for m := range room.Islands[k].Corners {
				wall(&room.Islands[k], m)
			}
		}
		for _, d := range room.Doorways {
			if wall(&room.Outline, d.Wall) {
				sum += reach * (2*d.Depth + d.Width + 8*reach)
			}
		}
		for _, p := range room.Rounds {
			sum += 2 * math.Pi * (p.Radius + p.Gap + reach) * reach
		}
	}
	return sum
}

// mostTouching bounds the work of finding which cells of a row touch.
const mostTouching = 4000

// parts returns how many pieces lie open at least, with cells of a row that touch as one, and at most: where such a
// piece is no rectangle, or goes through rows that are not laid, each of its cells may be one.
func (c *roomChecker) parts(cells []recount.Open) (least, most int) {
	cells = slices.Clone(cells)
	slices.SortStableFunc(cells, func(a, b recount.Open) int { return cmp.Compare(a.Row, b.Row) })
	for from := 0; from < len(cells); {
		to := from + 1
		for to < len(cells) && cells[to].Row == cells[from].Row {
			to++
		}
		row := cells[from:to]
		if from = to; len(row) > mostTouching {
			least, most = least+1, most+len(row)
			continue
		}
		for _, part := range touching(row) {
			least++
			most++
			if !part.whole() || part.to.Y-part.at.Y > float64(c.job.Plank.Width) {
				most += part.cells + int((part.to.Y-part.at.Y)/float64(c.job.Plank.Width))
			}
		}
	}
	return max(1, least), max(1, most)
}

// An openPart is cells that hang together: their extent and area.
type openPart struct {
	at, to recount.Spot
	area   float64
	cells  int
}

// whole reports whether the cells fill their extent.
func (p *openPart) whole() bool { return p.area >= (p.to.X-p.at.X)*(p.to.Y-p.at.Y)-1 }

// touching joins cells that share a stretch of their sides.
func touching(cells []recount.Open) []*openPart {
	root := make([]int, len(cells))
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for i := range cells {
		root[i] = i
		for k := range i {
			a, b := &cells[i], &cells[k]
			x, y := min(a.To.X, b.To.X)-max(a.At.X, b.At.X), min(a.To.Y, b.To.Y)-max(a.At.Y, b.At.Y)
			if min(x, y) >= 0 && max(x, y) > 0 {
				root[find(k)] = find(i)
			}
		}
	}
	parts := make(map[int]*openPart)
	var out []*openPart
	for i := range cells {
		o := &cells[i]
		p, ok := parts[find(i)]
		if !ok {
			p = &openPart{at: o.At, to: o.To}
			parts[find(i)] = p
			out = append(out, p)
		}
		p.at = recount.Spot{X: min(p.at.X, o.At.X), Y: min(p.at.Y, o.At.Y)}
		p.to = recount.Spot{X: max(p.to.X, o.To.X), Y: max(p.to.Y, o.To.Y)}
		p.area += o.Area
		p.cells++
	}
	return out
}
