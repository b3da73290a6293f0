package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
)

// A block is a rectangle of floor.
type block struct{ x0, x1, y0, y1 measure.Length }

// A levelGround is a floor whose walls run along the rows or square to them, as blocks that do not overlap.
type levelGround struct {
	blocks        []block
	from, to      measure.Length // of the rooms' floor across the rows, without doorways
	low, high     measure.Length // doorways and all
	wide, grid    measure.Length
	least, hidden measure.Length                // an edge row, and what the trim hides at most
	held          measure.Length                // the narrowest strip that can be held
	walls         []measure.Length              // places of walls along the rows, ascending
	cut           map[[2]measure.Length]*cutRow // rows laid so far
	shortest      measure.Length                // a strip no longer is a corner
}

// ground measures the floor after the gaps.
func (c *roomChecker) ground() (*levelGround, error) {
	floor := c.floor()
	if len(c.rooms) != 1 || len(floor.Rooms) != 1 || c.straightened > 0 || len(floor.Rooms[0].Rounds) > 0 {
		return nil, fmt.Errorf("it is not one room with walls along its rows or square to them")
	}
	if !floor.Exact {
		upright(&floor.Rooms[0])
		floor.Exact = true
	}
	for k, ring := range append([]recount.Ring{floor.Rooms[0].Outline}, floor.Rooms[0].Islands...) {
		for i, a := range ring.Corners {
			if b := ring.Corners[(i+1)%len(ring.Corners)]; a.X != b.X && a.Y != b.Y {
				return nil, fmt.Errorf("a wall of ring %d slants", k)
			}
		}
	}
	open := func() ([]block, error) {
		_, cells, err := recount.MeasureContext(c.ctx, floor, nil, nil)
		var out []block
		for i := range cells {
			o := &cells[i]
			b := block{about(o.At.X), about(o.To.X), about(o.At.Y), about(o.To.Y)}
			if float64(b.x1-b.x0)*float64(b.y1-b.y0) != o.Area {
				return nil, fmt.Errorf("its floor is no rectangles")
			}
			out = append(out, b)
		}
		if len(out) == 0 && err == nil {
			err = fmt.Errorf("no floor is left of it")
		}
		return out, err
	}
	g := &levelGround{
		wide: c.job.Plank.Width, grid: max(1, c.job.Rules.Grid), least: c.job.LeastRip(), hidden: c.hidden() - 1,
		held:     c.job.Rules.MinStrip,
		shortest: measure.Length(short),
	}
	var err error
	if g.blocks, err = open(); err != nil {
		return nil, err
	}
	g.low, g.high = extent(g.blocks)
	g.found()
	floor.Rooms[0].Doorways = nil
	if closed, err := open(); err == nil {
		g.from, g.to = extent(closed)
	} else {
		g.from, g.to = g.low, g.high
	}
	return g, nil
}

// upright puts the corners of a room whose axes are turned back on them, where rounding has left walls off: places
// within Slack of each other become one.
func upright(room *recount.Room) {
	rings := append([]recount.Ring{room.Outline}, room.Islands...)
	snap := func(of func(*recount.Spot) *float64) {
		var all []*float64
		for _, ring := range rings {
			for i := range ring.Corners {
				all = append(all, of(&ring.Corners[i]))
			}
		}
		slices.SortStableFunc(all, func(a, b *float64) int { return cmp.Compare(*a, *b) })
		for i := 0; i < len(all); {
			j := i + 1
			for j < len(all) && *all[j]-*all[j-1] <= recount.Slack {
				j++
			}
			middle := math.Round((*all[i] + *all[j-1]) / 2)
			for _, v := range all[i:j] {
				*v = middle
			}
			i = j
		}
	}
	snap(func(s *recount.Spot) *float64 { return &s.X })
	snap(func(s *recount.Spot) *float64 { return &s.Y })
}

// measured takes the places of walls from the rows of the plan, which are held against the outline elsewhere, where
// they are within Slack: in rooms whose axes are turned, rounding may have moved either.
func (g *levelGround) measured(rows []cutopt.PlanRow, first measure.Length) {
	const slack = measure.Length(recount.Slack)
	var ends []measure.Length
	for i := range rows {
		for _, r := range rows[i].Runs {
			ends = append(ends, r.From, r.To)
		}
	}
	near := func(x *measure.Length) {
		best, off := *x, slack+1
		for _, e := range ends {
			if d := max(e-*x, *x-e); d < off {
				best, off = e, d
			}
		}
		*x = best
	}
	// The line that the first row ends at lies a whole number of planks from every other line of the plan.
	by := measure.Length(0)
	if len(rows) > 1 {
		by = ((rows[0].To-g.from-first)%g.wide + g.wide) % g.wide
		if by > g.wide/2 {
			by -= g.wide
		}
		if max(by, -by) > slack {
			by = 0
		}
	}
	for i := range g.blocks {
		b := &g.blocks[i]
		near(&b.x0)
		near(&b.x1)
		b.y0, b.y1 = b.y0+by, b.y1+by
	}
	g.from, g.to, g.low, g.high = g.from+by, g.to+by, g.low+by, g.high+by
	g.found()
}

// found lists the walls along the rows and forgets what was cut.
func (g *levelGround) found() {
	g.cut = make(map[[2]measure.Length]*cutRow)
	g.walls = nil
	for _, b := range g.blocks {
		g.walls = append(g.walls, b.y0, b.y1)
	}
	slices.Sort(g.walls)
	g.walls = slices.Compact(g.walls)
}

func extent(blocks []block) (low, high measure.Length) {
	low, high = blocks[0].y0, blocks[0].y1
	for _, b := range blocks {
		low, high = min(low, b.y0), max(high, b.y1)
	}
	return low, high
}

// along returns from where to where the floor reaches along the rows.
func (g *levelGround) along() [2]float64 {
	from, to := g.blocks[0].x0, g.blocks[0].x1
	for _, b := range g.blocks {
		from, to = min(from, b.x0), max(to, b.x1)
	}
	return [2]float64{float64(from), float64(to)}
}

// turning lists widths of the first row on the grid, ascending: those at which rows may turn to others, the next ones
// after each, which stand for all up to the next such place, and the whole plank.
func (g *levelGround) turning() []measure.Length {
	heights := append([]measure.Length{g.from, g.to, g.from + g.least, g.to - g.least}, g.walls...)
	var at []measure.Length
	for _, y := range heights {
		for _, d := range []measure.Length{-g.hidden - 1, -g.hidden, 0, g.hidden, g.hidden + 1, -g.held, g.held} {
			at = append(at, ((y+d-g.from)%g.wide+g.wide)%g.wide)
		}
	}
	out := []measure.Length{g.wide}
	add := func(w measure.Length) {
		if 0 < w && w < g.wide {
			out = append(out, w)
		}
	}
	add(g.grid)
	for _, m := range at {
		on := (m + g.grid - 1) / g.grid * g.grid
		if add(on); on == m {
			add(on + g.grid)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// thin reports whether a first row leaves a strip narrower than can be held.
func (g *levelGround) thin(first measure.Length) bool {
	y := g.from + min(first, g.to-g.from)
	for y -= (y - g.low + g.wide - 1) / g.wide * g.wide; y < g.high; y += g.wide {
		if g.row(max(y, g.low), min(y+g.wide, g.high)).thin {
			return true
		}
	}
	return false
}

// narrow reports whether floor that hangs together in a row has a strip narrower than can be held: a part lower than
// that over more than a short length, which no trim hides, or all of it where that is smaller either way.
func (g *levelGround) narrow(part []block) bool {
	x0, x1 := part[0].x0, part[0].x1
	for _, b := range part {
		x0, x1 = min(x0, b.x0), max(x1, b.x1)
	}
	if y0, y1 := extent(part); x1-x0 < g.held || y1-y0 < g.held {
		return true
	}
	if len(part) == 1 {
		return false
	}
	for _, chain := range strung(columns(part)) {
		for from, to := 0, 0; from < len(chain); from = max(to, from+1) {
			tall := measure.Length(0)
			for to = from; to < len(chain) && chain[to].y1-chain[to].y0 < g.held; to++ {
				tall = max(tall, chain[to].y1-chain[to].y0)
			}
			if to > from && chain[to-1].x1-chain[from].x0 > g.shortest && tall > g.hidden {
				return true
			}
		}
	}
	return false
}

// keeps reports whether a first row leaves both edge rows as wide as asked, or leaves one of them to the trim.
func (g *levelGround) keeps(first measure.Length) bool {
	good := func(w measure.Length) bool { return w >= g.least || w <= g.hidden }
	whole := g.to - g.from
	if first >= whole {
		return good(whole)
	}
	last := (whole - first) % g.wide
	return good(first) && (last == 0 || good(last))
}

// rows lays the rows with a first row at the starting side of the rooms, the others a plank wide, both ways. Rows
// without floor at the two ends are left out.
func (g *levelGround) rows(first measure.Length) []cutopt.PlanRow {
	y := g.from + min(first, g.to-g.from)
	y -= (y - g.low + g.wide - 1) / g.wide * g.wide // at or before the lowest floor
	var out []cutopt.PlanRow
	for ; y < g.high; y += g.wide {
		row := cutopt.PlanRow{From: max(y, g.low), To: min(y+g.wide, g.high)}
		if row.To > row.From {
			row.Runs = g.runs(row.From, row.To)
			out = append(out, row)
		}
	}
	for len(out) > 0 && len(out[0].Runs) == 0 {
		out = out[1:]
	}
	for len(out) > 0 && len(out[len(out)-1].Runs) == 0 {
		out = out[:len(out)-1]
	}
	return out
}

// A cutRow is what is laid between two lines, by what hangs together, and whether it has a strip that cannot be held.
type cutRow struct {
	parts [][]block
	thin  bool
}

// row cuts the floor between two lines, rows of full width between the same two walls once.
func (g *levelGround) row(low, high measure.Length) *cutRow {
	key := [2]measure.Length{low, high}
	if k, on := slices.BinarySearch(g.walls, low); high-low == g.wide {
		if !on {
			k--
		}
		if k >= 0 && (k+1 == len(g.walls) || high <= g.walls[k+1]) {
			key = [2]measure.Length{g.walls[k], -1}
		}
	}
	out, ok := g.cut[key]
	if !ok {
		out = &cutRow{parts: g.between(low, high)}
		out.thin = slices.ContainsFunc(out.parts, g.narrow)
		g.cut[key] = out
	}
	return out
}

// between returns the floor between two lines that is laid: all but strips and pieces that the trim hides.
func (g *levelGround) between(low, high measure.Length) [][]block {
	var in []block
	for _, b := range g.blocks {
		b.y0, b.y1 = max(b.y0, low), min(b.y1, high)
		if b.y0 < b.y1 {
			in = append(in, b)
		}
	}
	parts := hanging(in)
	if slices.ContainsFunc(parts, func(part []block) bool { return len(part) > 1 }) {
		var bare []block
		for _, part := range parts {
			bare = append(bare, g.bared(part)...)
		}
		parts = hanging(bare)
	}
	var out [][]block
	for _, part := range parts {
		x0, x1 := part[0].x0, part[0].x1
		for _, b := range part {
			x0, x1 = min(x0, b.x0), max(x1, b.x1)
		}
		if y0, y1 := extent(part); x1-x0 > g.hidden && y1-y0 > g.hidden {
			out = append(out, part)
		}
	}
	return out
}

// runs returns the runs between two lines: what is laid there, parts that overlap along the row as one.
func (g *levelGround) runs(low, high measure.Length) []cutopt.PlanRun {
	var out []cutopt.PlanRun
	for _, part := range g.row(low, high).parts {
		r := cutopt.PlanRun{From: part[0].x0, To: part[0].x1}
		for _, b := range part {
			r.From, r.To = min(r.From, b.x0), max(r.To, b.x1)
		}
		out = append(out, r)
	}
	slices.SortFunc(out, func(a, b cutopt.PlanRun) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To))
	})
	n := 0
	for _, r := range out {
		if n > 0 && r.From < out[n-1].To {
			out[n-1].To = max(out[n-1].To, r.To)
			continue
		}
		out[n] = r
		n++
	}
	return out[:n]
}

// bared takes from floor that hangs together the stretches along the row that the trim hides: no higher than that over
// more than a short length.
func (g *levelGround) bared(part []block) []block {
	if y0, y1 := extent(part); y1-y0 <= g.hidden || len(part) == 1 {
		return part
	}
	var out []block
	for _, chain := range strung(columns(part)) {
		for from := 0; from < len(chain); {
			to := from
			for to < len(chain) && chain[to].y1-chain[to].y0 <= g.hidden {
				to++
			}
			if to > from && chain[to-1].x1-chain[from].x0 > g.shortest {
				from = to
				continue
			}
			to = max(to, from+1)
			out = append(out, chain[from:to]...)
			from = to
		}
	}
	return out
}

// strung gathers columns that go on in each other along the row, each in the first that it meets.
func strung(upright []block) [][]block {
	var out [][]block
	for i, done := 0, make([]bool, len(upright)); i < len(upright); i++ {
		if done[i] {
			continue
		}
		chain := []block{upright[i]}
		for k := i + 1; k < len(upright); k++ {
			last, next := &chain[len(chain)-1], &upright[k]
			if !done[k] && next.x0 == last.x1 && min(last.y1, next.y1) > max(last.y0, next.y0) {
				chain, done[k] = append(chain, *next), true
			}
		}
		out = append(out, chain)
	}
	return out
}

// columns cuts blocks into columns between all their ends, from left to right and upwards; those above each other that
// touch are one.
func columns(blocks []block) []block {
	var xs []measure.Length
	for _, b := range blocks {
		xs = append(xs, b.x0, b.x1)
	}
	slices.Sort(xs)
	xs = slices.Compact(xs)
	var out []block
	for i := range len(xs) - 1 {
		first := len(out)
		for _, b := range blocks {
			if b.x0 <= xs[i] && xs[i+1] <= b.x1 {
				out = append(out, block{xs[i], xs[i+1], b.y0, b.y1})
			}
		}
		here := out[first:]
		slices.SortFunc(here, func(a, b block) int { return cmp.Compare(a.y0, b.y0) })
		n := first
		for _, b := range here {
			if n > first && out[n-1].y1 == b.y0 {
				out[n-1].y1 = b.y1
				continue
			}
			out[n] = b
			n++
		}
		out = out[:n]
	}
	return out
}

// hanging gathers the blocks that hang together: that share a stretch of a side.
func hanging(blocks []block) [][]block {
	root := make([]int, len(blocks))
	find := func(i int) int {
		for root[i] != i {
			i = root[i]
		}
		return i
	}
	for i, a := range blocks {
		root[i] = i
		for k, b := range blocks[:i] {
			x, y := min(a.x1, b.x1)-max(a.x0, b.x0), min(a.y1, b.y1)-max(a.y0, b.y0)
			if min(x, y) >= 0 && max(x, y) > 0 {
				root[find(k)] = find(i)
			}
		}
	}
	var out [][]block
	at := make(map[int]int)
	for i, b := range blocks {
		r := find(i)
		if _, ok := at[r]; !ok {
			at[r] = len(out)
			out = append(out, nil)
		}
		out[at[r]] = append(out[at[r]], b)
	}
	return out
}
