package check

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Family recounts from the outlines the family that the bound of a plan for the rooms is one of, see
// [cutopt.RoomBound]: for each floor whose first row the job leaves open one placement for every first row listed, in
// that order, and for others that of the plan. It holds that the lists are whole: every first row on the grid that
// counts, as that type says, gives the runs of a placement listed, and the first listed those of the plan. The errors
// unwrap to proof.ErrUnproven where they are not.
//
// It looks at floors of one room whose walls run along the rows or square to them, without pipes and with no jog
// straightened. Where the axes are turned by other than whole quarters walls are held to 1/40 mm, as Plan holds them.
// There rows change only as a line between them passes a corner, or comes so near to one that the trim hides what lies
// between, and widths beside such places are all that is tried: it takes O(k) cuts of the floor into rows for k
// corners.
func Family(job *cutopt.Job, plan *cutopt.Plan) (*proof.Family, error) {
	of := plan.Bound.Rooms
	if of == nil {
		return nil, fmt.Errorf("cutopt: %w: the plan claims nothing of other first rows", proof.ErrUnproven)
	}
	if plan.Site != nil {
		return nil, fmt.Errorf("cutopt: %w: rows that lie do not move", proof.ErrUnproven)
	}
	if len(of.Firsts) != len(plan.Floors) {
		return nil, fmt.Errorf("cutopt: %w: first rows of %d floors, and the plan has %d", proof.ErrUnproven,
			len(of.Firsts), len(plan.Floors))
	}
	all, err := Instance(job, &cutopt.Plan{})
	if err != nil {
		return nil, err
	}
	f := &proof.Family{
		Plank: all.Plank, Kerf: all.Kerf, MinPiece: all.MinPiece, MinEnder: all.MinEnder, Stagger: all.Stagger,
		Grid: all.Grid,
	}
	c := &checker{ctx: context.Background(), job: job, plan: plan}
	floors, firsts := c.fields()
	if len(floors) != len(plan.Floors) {
		return nil, fmt.Errorf("cutopt: %w: the plan is of other floors than the job", proof.ErrUnproven)
	}
	for i := range plan.Floors {
		room := &roomChecker{
			checker: c, index: i, room: &plan.Floors[i], rooms: floors[i], first: &job.Rooms[firsts[i]], leading: firsts[i],
		}
		own, err := placementOf(plan.Floors[i].Rows, room.room.LaidFrom, job.Rules.Fit)
		if err != nil {
			return nil, err
		}
		placements := []proof.Placement{*own}
		if rows := &room.first.Rows; rows.FirstRow == 0 || rows.Direction == cutopt.DirectionFree {
			if placements, err = room.placements(own, of.Firsts[i]); err != nil {
				return nil, fmt.Errorf("cutopt: floor %d: %w: %w", i+1, proof.ErrUnproven, err)
			}
		} else if len(of.Firsts[i]) > 0 {
			return nil, fmt.Errorf("cutopt: floor %d: %w: the job says how its rows lie", i+1, proof.ErrUnproven)
		}
		f.Floors = append(f.Floors, placements)
	}
	return f, nil
}

// placementOf takes a placement from rows.
func placementOf(list []cutopt.PlanRow, from cutopt.Hand, fit measure.Length) (*proof.Placement, error) {
	in := &rows.Instance{}
	if err := addRuns(&cutopt.PlanFloor{Rows: list, LaidFrom: from}, in, fit); err != nil {
		return nil, err
	}
	return &proof.Placement{Runs: in.Runs, Touch: in.Touch}, nil
}

func same(a, b *proof.Placement) bool {
	equal := func(p, q rows.Run) bool { return p.From == q.From && p.Length == q.Length }
	return slices.EqualFunc(a.Runs, b.Runs, equal) && slices.Equal(a.Touch, b.Touch)
}

// placements returns those of the first rows listed, once it is sure that no other first row gives another.
func (c *roomChecker) placements(own *proof.Placement, firsts []cutopt.FirstRow) ([]proof.Placement, error) {
	grounds, err := c.grounds()
	if err != nil {
		return nil, err
	}
	if g := grounds[false]; len(firsts) > 0 && !c.room.Axes.Square() {
		g.measured(c.room.Rows, firsts[0].Width)
	}
	at := func(f cutopt.FirstRow) (*proof.Placement, error) {
		g := grounds[f.Turned]
		if g == nil {
			return nil, fmt.Errorf("its rows do not turn")
		}
		if w := f.Width; w <= 0 || w > g.wide || w < g.wide && w%g.grid != 0 && w != c.first.Rows.FirstRow {
			return nil, fmt.Errorf("a first row of %d is not on the grid", w)
		}
		return placementOf(g.rows(f.Width), c.room.LaidFrom, c.job.Rules.Fit)
	}
	var out []proof.Placement
	for i, f := range firsts {
		p, err := at(f)
		if err != nil {
			return nil, err
		}
		if i == 0 && (f.Turned || !same(p, own)) {
			return nil, fmt.Errorf("the first row listed first gives other rows than the plan has")
		}
		out = append(out, *p)
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("no first row is listed")
	}
	for _, f := range c.fair(grounds) {
		p, err := at(f)
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(out, func(q proof.Placement) bool { return same(p, &q) }) {
			return nil, fmt.Errorf("a first row of %d gives rows that are not listed", f.Width)
		}
	}
	return out, nil
}

// grounds measures the floor as its rows run in the plan, and where the job leaves that open, also the other way.
func (c *roomChecker) grounds() (map[bool]*levelGround, error) {
	own, err := c.ground()
	if err != nil || c.first.Rows.Direction != cutopt.DirectionFree {
		return map[bool]*levelGround{false: own}, err
	}
	if rules := &c.job.Rules; rules.MaxAlong > 0 || rules.MaxAcross > 0 || len(c.plan.Breaks) > 0 {
		return nil, fmt.Errorf("rows that run otherwise may ask for other breaks")
	}
	if !c.room.Axes.Square() {
		return nil, fmt.Errorf("rows of a room that lies askew in the drawing are recounted one way only")
	}
	w, far := c.baseWall(c.first), 0.0
	if c.first.Rows.Start == cutopt.StartFar {
		far = 180
	}
	quarter := -90.0 // across the wall the rows run turned to the left from along it
	if math.Abs(math.Remainder(c.room.Axes.Turn-w.along()-far, 360)) < 1 {
		quarter = 90
	}
	turned, room := *c, *c.room
	room.Axes.Turn = math.Mod(room.Axes.Turn+quarter+360, 360)
	turned.room, turned.straightened = &room, 0
	other, err := turned.ground()
	return map[bool]*levelGround{false: own, true: other}, err
}

// fair lists the first rows that count: without a strip that is too narrow to be held, and with edge rows as wide as
// asked; where there are none, those without a strip; where there are none, all.
func (c *roomChecker) fair(grounds map[bool]*levelGround) []cutopt.FirstRow {
	var all, whole, rip []cutopt.FirstRow
	for _, turned := range []bool{false, true} {
		g := grounds[turned]
		if g == nil {
			continue
		}
		widths := []measure.Length{c.first.Rows.FirstRow}
		if widths[0] == 0 {
			widths = g.turning()
		}
		for _, w := range widths {
			f := cutopt.FirstRow{Width: w, Turned: turned}
			if all = append(all, f); g.thin(w) {
				continue
			}
			if whole = append(whole, f); g.keeps(w) {
				rip = append(rip, f)
			}
		}
	}
	switch {
	case len(rip) > 0:
		return rip
	case len(whole) > 0:
		return whole
	}
	return all
}

// A block is a rectangle of floor.
type block struct{ x0, x1, y0, y1 measure.Length }

// A levelGround is a floor whose walls run along the rows or square to them, as blocks that do not overlap.
type levelGround struct {
	blocks        []block
	from, to      measure.Length // of the rooms' floor across the rows, without doorways
	low, high     measure.Length // doorways and all
	wide, grid    measure.Length
	least, hidden measure.Length // an edge row, and what the trim hides at most
	held          measure.Length // the narrowest strip that can be held
	shortest      measure.Length // a strip no longer is a corner
	// Rows a plank wide that lie between the same two heights of corners, one after the other, are alike.
	heights []measure.Length // where blocks begin or end, ascending
	level   []levelRow       // by the height below
}

// A levelRow is what is known of whole rows between two heights of corners.
type levelRow struct {
	seen, cut bool // for a strip, for runs
	thin      bool
	runs      []cutopt.PlanRun
}

// between returns what is known of rows like that between two lines; of one beside a corner, or less than a plank wide,
// nothing is.
func (g *levelGround) between(low, high measure.Length) *levelRow {
	if g.heights == nil {
		for _, b := range g.blocks {
			g.heights = append(g.heights, b.y0, b.y1)
		}
		slices.Sort(g.heights)
		g.heights = slices.Compact(g.heights)
		g.level = make([]levelRow, len(g.heights))
	}
	k, ok := slices.BinarySearch(g.heights, low)
	if !ok {
		k--
	}
	if high-low != g.wide || k < 0 || k+1 >= len(g.heights) || high > g.heights[k+1] {
		return &levelRow{}
	}
	return &g.level[k]
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
}

func extent(blocks []block) (low, high measure.Length) {
	low, high = blocks[0].y0, blocks[0].y1
	for _, b := range blocks {
		low, high = min(low, b.y0), max(high, b.y1)
	}
	return low, high
}

// turning lists widths of the first row on the grid, and the whole plank: where the rows may turn to others, the one on
// either side and one more; all of them where they are few.
func (g *levelGround) turning() []measure.Length {
	on := map[measure.Length]bool{g.wide: true}
	add := func(w measure.Length) {
		if 0 < w && w < g.wide {
			on[w] = true
		}
	}
	lines := (g.wide - 1) / g.grid
	heights := []measure.Length{g.from, g.to, g.from + g.least, g.to - g.least}
	for _, b := range g.blocks {
		heights = append(heights, b.y0, b.y1)
	}
	if lines <= 64 {
		for n := range lines {
			add((n + 1) * g.grid)
		}
	}
	for _, y := range heights {
		for _, d := range []measure.Length{-g.hidden - 1, -g.hidden, 0, g.hidden, g.hidden + 1, -g.held, g.held} {
			w := (y + d - g.from) % g.wide
			w = (w + g.wide) % g.wide / g.grid * g.grid
			add(w - g.grid)
			add(w)
			add(w + g.grid)
		}
	}
	add(g.grid)
	add(lines * g.grid)
	var out []measure.Length
	for w := range on {
		out = append(out, w)
	}
	slices.Sort(out)
	return out
}

// thin reports whether a first row leaves a strip narrower than can be held: part of a row that is lower than that over
// more than a short length, and no trim hides, or a piece of floor that is smaller either way.
func (g *levelGround) thin(first measure.Length) bool {
	y := g.from + min(first, g.to-g.from)
	for y -= (y - g.low + g.wide - 1) / g.wide * g.wide; y < g.high; y += g.wide {
		row := g.between(y, y+g.wide)
		if !row.seen {
			row.seen, row.thin = true, g.thinRow(y, y+g.wide)
		}
		if row.thin {
			return true
		}
	}
	return false
}

// thinRow reports whether the row between two lines has such a strip.
func (g *levelGround) thinRow(low, high measure.Length) bool {
	for _, part := range g.laid(low, high) {
		x0, x1 := part[0].x0, part[0].x1
		for _, b := range part {
			x0, x1 = min(x0, b.x0), max(x1, b.x1)
		}
		if y0, y1 := extent(part); x1-x0 < g.held || y1-y0 < g.held {
			return true
		}
		if tall(part, g.held) {
			continue
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
			alike := g.between(row.From, row.To)
			if !alike.cut {
				alike.cut, alike.runs = true, g.runs(row.From, row.To)
			}
			row.Runs = slices.Clone(alike.runs)
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

// laid returns the floor between two lines that is laid, by what hangs together: all but strips and pieces that the
// trim hides.
func (g *levelGround) laid(low, high measure.Length) [][]block {
	in := make([]block, 0, len(g.blocks))
	for _, b := range g.blocks {
		b.y0, b.y1 = max(b.y0, low), min(b.y1, high)
		if b.y0 < b.y1 {
			in = append(in, b)
		}
	}
	parts := hanging(in)
	if slices.ContainsFunc(parts, g.veiled) {
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
	for _, part := range g.laid(low, high) {
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

// veiled reports whether floor that hangs together may have stretches that the trim hides.
func (g *levelGround) veiled(part []block) bool {
	y0, y1 := extent(part)
	return y1-y0 > g.hidden && len(part) > 1 && !tall(part, g.hidden+1)
}

// bared takes from floor that hangs together the stretches along the row that the trim hides: no higher than that over
// more than a short length.
func (g *levelGround) bared(part []block) []block {
	if !g.veiled(part) {
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

// tall reports whether all blocks are so high: then their columns are no less.
func tall(blocks []block, high measure.Length) bool {
	return !slices.ContainsFunc(blocks, func(b block) bool { return b.y1-b.y0 < high })
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
	if len(blocks) == 1 {
		return [][]block{blocks}
	}
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
	at := make([]int, len(blocks)) // by root: one more than the place of its part
	for i, b := range blocks {
		r := find(i)
		if at[r] == 0 {
			out = append(out, nil)
			at[r] = len(out)
		}
		out[at[r]-1] = append(out[at[r]-1], b)
	}
	return out
}
