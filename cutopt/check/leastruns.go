package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// How little is sure of where rows and walls lie in a floor of any shape, in ticks: rows may begin, and walls lie, off
// by off, and what is told apart by less than doubt is not told apart.
const (
	off   = 24.0
	doubt = 64.0
)

const (
	// mostCuts bounds the work of cutting a floor into rows again and again, in steps: some tenths of a second.
	mostCuts = 30_000_000
	// mostLeast is the most runs of all placements that are listed of a floor of any shape.
	mostLeast = 6000
)

// A leastGround is a floor of any shape after the gaps, for which runs are not recounted but bounded: least lists, for
// a width of the first row, runs that are no longer than those that the floor has then, and no more.
//
// A layout of longer runs makes one of shorter runs, of no more worth under any prices, where starters may be as short
// as the grid and enders shorter by a step of it: keep each ender, or leave it shorter by less than a step, and take
// what the run is shorter by from its starter and its whole planks; what is no longer than an ender is laid in one
// piece. So a bound of all the lists, without stagger, is one of the rooms.
type leastGround struct {
	cells      []recount.Open // laid beyond doubt, by where they begin across the rows
	all        []recount.Open // that may be laid
	from, to   float64        // of the rooms' floor across the rows, without doorways
	low, high  float64        // doorways and all
	along      [2]float64     // from where to where it reaches along the rows
	wide, grid measure.Length
	hidden     float64        // what the trim hides
	held, edge float64        // the narrowest strip that can be held, and the narrowest edge row
	gap        float64        // what parts two runs beyond doubt is wider
	exact      bool           // the axes are turned by whole quarters
	notch      float64        // a wall between two rooms that is no longer may only notch a row
	floor      *recount.Floor // where there are several rooms
	fit        measure.Length
}

// leastGround measures the floor after the gaps.
func (c *roomChecker) leastGround() (*leastGround, error) {
	c.straightened = 0
	floor := c.floor()
	floor.Sharp = true
	rules := &c.job.Rules
	g := &leastGround{
		wide: c.job.Plank.Width, grid: max(1, rules.Grid), hidden: float64(c.hidden() - 1), exact: floor.Exact,
		held: float64(rules.MinStrip), edge: float64(c.job.LeastRip()), gap: doubt, fit: rules.Fit,
		notch: float64(min(c.job.Plank.Width, rules.MinPiece)),
	}
	if len(floor.Rooms) > 1 {
		g.floor = floor
	}
	if c.straightened > 0 {
		g.gap += 2 * float64(rules.Smooth)
	}
	open := func(f *recount.Floor) ([]recount.Open, error) {
		_, cells, err := recount.MeasureContext(c.ctx, f, nil, nil)
		if err == nil && len(cells) == 0 {
			err = fmt.Errorf("no floor is left of it")
		}
		slices.SortStableFunc(cells, func(a, b recount.Open) int {
			return cmp.Or(cmp.Compare(a.At.Y, b.At.Y), cmp.Compare(a.At.X, b.At.X))
		})
		return cells, err
	}
	var err error
	if g.cells, err = open(floor); err != nil {
		return nil, err
	}
	g.all = g.cells
	if slices.ContainsFunc(floor.Rooms, func(r recount.Room) bool { return len(r.Rounds) > 0 }) {
		if g.cells, err = open(widened(floor)); err != nil {
			return nil, err
		}
	}
	g.low, g.high, g.along[0], g.along[1] = reachOf(g.all)
	shut := recount.Floor{Exact: floor.Exact, Hidden: floor.Hidden, Sharp: true}
	for _, r := range floor.Rooms {
		if r.Doorways = nil; r.Straight != nil {
			r.Outline, r.Straight = *r.Straight, nil
		}
		shut.Rooms = append(shut.Rooms, r)
	}
	if closed, err := open(&shut); err == nil {
		g.from, g.to, _, _ = reachOf(closed)
	} else {
		g.from, g.to = g.low, g.high
	}
	return g, nil
}

// widened returns a floor with wider round things: holes for them are sawn along polygons around the circle.
func widened(f *recount.Floor) *recount.Floor {
	out := *f
	out.Rooms = slices.Clone(f.Rooms)
	for i := range out.Rooms {
		r := &out.Rooms[i]
		r.Rounds = slices.Clone(r.Rounds)
		for k := range r.Rounds {
			p := &r.Rounds[k]
			p.Radius += float64((p.Radius+p.Gap)*0.012) + recount.Slack
		}
	}
	return &out
}

// reachOf returns how far cells reach across the rows, and along them.
func reachOf(cells []recount.Open) (low, high, from, to float64) {
	low, high, from, to = cells[0].At.Y, cells[0].To.Y, cells[0].At.X, cells[0].To.X
	for i := range cells {
		o := &cells[i]
		low, high, from, to = min(low, o.At.Y), max(high, o.To.Y), min(from, o.At.X), max(to, o.To.X)
	}
	return low, high, from, to
}

// work returns about how many steps it takes to cut the floor into rows once: those to find the cells of each row, and
// the square of their number in each, as many again where rows begin elsewhere.
func (g *leastGround) work() float64 {
	rows := (g.high-g.low)/float64(g.wide) + 2
	steps := rows * float64(8+len(g.cells)+len(g.all))
	if steps > mostCuts {
		return steps
	}
	met := make([]float64, int(rows)+1)
	for i := range g.cells {
		from, to := (g.cells[i].At.Y-g.low)/float64(g.wide), (g.cells[i].To.Y-g.low)/float64(g.wide)
		for k := max(0, int(from)); k < len(met) && float64(k) <= to; k++ {
			met[k]++
		}
	}
	for _, k := range met {
		steps += float64(k * k)
	}
	return steps
}

// widths lists all widths of the first row on the grid, and the whole plank; the one that is asked for, if it is.
func (g *leastGround) widths(asked measure.Length) ([]measure.Length, error) {
	lines := 1.0
	if asked == 0 {
		lines += float64((g.wide - 1) / g.grid)
	}
	if float64(lines*g.work()) > mostCuts {
		return nil, fmt.Errorf("it takes too many cuts to look at every first row")
	}
	if asked > 0 {
		return []measure.Length{asked}, nil
	}
	var out []measure.Length
	for w := g.grid; w < g.wide; w += g.grid {
		out = append(out, w)
	}
	return append(out, g.wide), nil
}

// What first rows must keep to count, as the plan's own does.
type fairness uint8

const (
	anyRows   fairness = iota // nothing
	heldRows                  // no strip narrower than can be held
	widerRows                 // nor an edge row narrower than asked
)

// A leastBand is a row between two lines and what of its floor lies there beyond doubt.
type leastBand struct {
	low, high float64
	*band     // nil where the row is too low to be sure of
}

// bands cuts the floor into rows with a first row; they last until the bander lets go of them.
func (g *leastGround) bands(m *bander, first measure.Length) (out []leastBand) {
	y := g.from + min(float64(first), g.to-g.from)
	wide := float64(g.wide)
	for y-wide > g.low {
		y -= wide
	}
	for low := g.low; low < g.high; low, y = y, y+wide {
		b := leastBand{low: low, high: min(y, g.high)}
		if b.high-b.low > 3*off {
			b.band = m.band(g.cells, b.low+off, b.high-off)
		}
		out = append(out, b)
	}
	return out
}

// unfair reports whether a row has beyond doubt a strip narrower than can be held, or is an edge row narrower than
// asked where that counts.
func (g *leastGround) unfair(b *leastBand, keeps fairness) bool {
	if b.band == nil {
		return false
	}
	return g.thin(b.band, b.low, b.high) || keeps == widerRows &&
		(b.low <= g.from+g.hidden-off && g.from+off < b.high && b.narrow(g, g.from, 1) ||
			b.low+off < g.to && g.to <= b.high+g.hidden-off && b.narrow(g, g.to, -1))
}

// thin reports whether a row between two lines has a stretch that is narrower than can be held, all of it higher than
// what the trim hides and longer than a corner. Where it fills the row between a line and a wall along it, its height
// is known: of the first row as it is told, of others but for rounding.
func (g *leastGround) thin(b *band, low, high float64) bool {
	rounded := 4.0
	if low == g.from || g.exact {
		rounded = 0.25
	}
	full := high - low - 2*off
	within := func(s *section) bool {
		h0, h1 := s.height()
		if min(h0, h1) > full-0.5 {
			return high-low-rounded > g.hidden && high-low < g.held-off
		}
		return s.tilt() < 0 && max(h0, h1)+3*off < g.held && float64(min(h0, h1)*s.square()) > g.hidden+doubt
	}
	var before []float64
	for i, slab := range b.slabs {
		here := make([]float64, len(slab))
		for k := range slab {
			if !within(&slab[k]) {
				continue
			}
			here[k] = slab[k].to - slab[k].from
			if len(slab) == 1 && len(before) == 1 && slab[0].meets(&b.slabs[i-1][0]) > 0 {
				here[k] += before[0]
			}
			if here[k] > short+doubt {
				return true
			}
		}
		before = here
	}
	return false
}

// narrow reports whether the row along a wall at the end of the floor is narrower than asked, beyond doubt: all along
// that wall, as far as it runs along the rows. Way is 1 for the starting side and -1 for the other.
func (b *band) narrow(g *leastGround, end, way float64) bool {
	w := wallSide{ground: g}
	for _, slab := range b.slabs {
		if len(slab) != 1 { // where the wall goes on is not followed
			w = wallSide{ground: g, unsure: true}
			continue
		}
		s := slab[0]
		if way < 0 {
			s = section{s.from, s.to, -s.high0, -s.high1, -s.low0, -s.low1}
		}
		up, down := s.slopes()
		switch level := angle(math.Abs(down), 1); {
		case level == 0:
			w = wallSide{ground: g, unsure: true}
			continue
		case level > 0 || w.long > 0 && math.Abs(s.low0-w.last) > 4:
			if w.narrow() {
				return true
			}
			w = wallSide{ground: g}
			if level > 0 {
				continue
			}
		}
		if w.long == 0 {
			w.near, w.least = math.Inf(1), math.Inf(1)
		}
		w.long, w.last = w.long+s.to-s.from, s.low1
		w.near = min(w.near, min(s.low0, s.low1)-float64(way*end))
		switch angle(math.Abs(up), 1) {
		case 0:
			w.unsure = true
		case -1:
			h0, h1 := s.height()
			w.least = min(w.least, h0, h1)
		}
	}
	return w.narrow()
}

// A wallSide is a stretch of the lower side of a row that runs along it.
type wallSide struct {
	ground      *leastGround
	unsure      bool    // it may be longer, or measured otherwise
	long, last  float64 // its length, and where it ends across the row
	near, least float64 // how near it comes to the end of the floor, and how narrow the row is there
}

func (w *wallSide) narrow() bool {
	g := w.ground
	return !w.unsure && w.long > short+doubt && w.near <= g.hidden-off && w.least > g.hidden+g.hidden+doubt &&
		w.least+3*off < g.edge
}

// lists returns, of all first rows on the grid that count, or the one asked for, the lists of runs that they have at
// least.
func (g *leastGround) lists(asked measure.Length, keeps fairness) (all [][]measure.Length, err error) {
	widths, err := g.widths(asked)
	m := &bander{}
	for _, w := range widths {
		m.free()
		rows := g.bands(m, w)
		if keeps > anyRows && slices.ContainsFunc(rows, func(b leastBand) bool { return g.unfair(&b, keeps) }) {
			continue
		}
		ways := [][]measure.Length{nil}
		for i := range rows {
			if rows[i].band != nil {
				ways = crossed(ways, g.row(&rows[i]))
			}
		}
		all = append(all, ways...)
	}
	return all, err
}

// leastPlacements lists placements that need no more planks than those of all first rows that count, see leastGround:
// none that another is within, and where these are many runs one for several first rows.
func (c *roomChecker) leastPlacements() ([]proof.Placement, error) {
	keeps := widerRows
	for i := range c.room.Facts {
		switch c.room.Facts[i].Kind {
		case cutopt.FactStrip:
			keeps = anyRows
		case cutopt.FactEdgeAsked, cutopt.FactEdgeForced:
			keeps = min(keeps, heldRows)
		}
	}
	grounds := make([]*leastGround, 1, 2)
	var err error
	if grounds[0], err = c.leastGround(); err != nil {
		return nil, err
	}
	if c.first.Rows.Direction == cutopt.DirectionFree {
		turned := c.otherWay()
		if c.breaksTurned(grounds[0].along, [2]float64{grounds[0].low, grounds[0].high}) {
			return nil, fmt.Errorf("rows that run otherwise may ask for other breaks")
		}
		other, err := turned.leastGround()
		if err != nil {
			return nil, err
		}
		grounds = append(grounds, other)
	}
	var all [][]measure.Length
	for _, g := range grounds {
		lists, err := g.lists(c.first.Rows.FirstRow, keeps)
		if err != nil {
			return nil, err
		}
		all = append(all, lists...)
	}
	var out []proof.Placement
	for _, list := range fewestWays(shared(all)) {
		if len(list) == 0 {
			return nil, fmt.Errorf("of some first row no run is sure")
		}
		var p proof.Placement
		for _, l := range list {
			p.Runs = append(p.Runs, rows.Run{Length: l})
		}
		out = append(out, p)
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("no first row counts")
	}
	return out, nil
}

// shared makes one list of two that follow each other, again and again, until they are no more runs than are listed of
// a floor.
func shared(all [][]measure.Length) [][]measure.Length {
	for {
		runs := 0
		for _, list := range all {
			runs += len(list)
		}
		if runs <= mostLeast || len(all) < 2 {
			return all
		}
		half := make([][]measure.Length, 0, len(all)/2+1)
		for i := 0; i+1 < len(all); i += 2 {
			half = append(half, lesser(all[i], all[i+1]))
		}
		if len(all)%2 == 1 {
			half = append(half, all[len(all)-1])
		}
		all = half
	}
}
