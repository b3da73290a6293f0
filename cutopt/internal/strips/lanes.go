package strips

import (
	"cmp"
	"math"
	"slices"
)

// Where a wall between two rooms stands within a row, the row is no plank wide on either side of it: what lies in front
// of the wall and what lies behind it are laid with planks of their own. Such a row has lanes. In an opening of that
// wall the wider of the two lanes goes on, notched at the jambs, and the other ends at the jamb.

// lanes returns the floor of a row by lanes; nil where no wall between two rooms stands in it.
func (s *strip) lanes(patches []patch) [][]patch {
	if len(s.rooms) < 2 || len(patches) < 2 {
		return nil
	}
	c := &crossSection{strip: s, columns: columns(patches)}
	if !c.compare() {
		return nil
	}
	c.link()
	if c.spread(); c.notched() {
		return nil
	}
	c.follow()
	c.gather()
	c.tips()
	return c.cut(patches)
}

// notch is how long a wall between two rooms may stand in a row that is laid in one all the same.
func notch(l *Layout) int64 { return int64(min(l.Width, l.MinPiece)) }

// A crossSection is the floor of a row as columns, and which of them belong together.
type crossSection struct {
	*strip
	columns []column
	walled  map[[2]int]bool // pairs of columns above each other with a wall between two rooms between them
	above   [][2]int        // all pairs of columns above each other
	left    [][]int         // by column: those that go on in it
	right   [][]int         // by column: those that it goes on in
	lane    []int           // by column: the first column of its lane
}

// compare looks between columns that lie above each other, and reports whether a wall stands between two of them.
func (c *crossSection) compare() bool {
	c.walled = make(map[[2]int]bool)
	for i := range c.columns {
		for j := i + 1; j < len(c.columns) && c.columns[j].from < c.columns[i].to; j++ {
			a, b := &c.columns[i], &c.columns[j]
			x := float64(max(a.from, b.from)+min(a.to, b.to)) / 2
			if a.middle(x) > b.middle(x) {
				a, b = b, a
			}
			c.above = append(c.above, [2]int{i, j})
			if c.divided(x, a.at(x).high, b.at(x).low) {
				c.walled[[2]int{i, j}], c.walled[[2]int{j, i}] = true, true
			}
		}
	}
	return len(c.walled) > 0
}

// A reach is the floor of a column at one abscissa.
type reach struct{ low, high float64 }

func (c *column) at(x float64) reach {
	t := (float64(x) - float64(c.from)) / float64(c.to-c.from) // x may be a product: rounded before it is used
	return reach{c.low0 + float64((c.low1-c.low0)*t), c.high0 + float64((c.high1-c.high0)*t)}
}

func (c *column) middle(x float64) float64 { r := c.at(x); return (r.low + r.high) / 2 }

// divided reports whether a wall between two rooms stands between two places of the floor above each other: they lie in
// two rooms, or what lies between them is in none. An island stands within one room.
func (s *strip) divided(x, low, high float64) bool {
	const inside = 16 // ticks into the floor
	a, b := s.room(x, low-inside), s.room(x, high+inside)
	if a >= 0 && b >= 0 {
		return a != b
	}
	return s.room(x, (low+high)/2) < 0
}

// room returns the room in whose outline a place lies; -1 for none.
func (s *strip) room(x, y float64) int {
	for i, outline := range s.rooms {
		in := false
		for k, p := range outline {
			q := outline[(k+1)%len(outline)]
			if (float64(p.y) > y) == (float64(q.y) > y) {
				continue
			}
			at := float64(p.x) + float64(float64(q.x-p.x)*((y-float64(p.y))/float64(q.y-p.y)))
			in = in != (x < at)
		}
		if in {
			return i
		}
	}
	return -1
}

// link finds which columns go on in which along the row.
func (c *crossSection) link() {
	n := len(c.columns)
	c.left, c.right = make([][]int, n), make([][]int, n)
	from := make(map[int64][]int)
	for i := range c.columns {
		from[c.columns[i].from] = append(from[c.columns[i].from], i)
	}
	for i := range c.columns {
		for _, j := range from[c.columns[i].to] {
			if c.columns[i].joins(&c.columns[j]) {
				c.right[i], c.left[j] = append(c.right[i], j), append(c.left[j], i)
			}
		}
	}
}

// beside yields the pairs of columns above each other that a pair goes on in, to the right or to the left.
func (c *crossSection) beside(pair [2]int, yield func([2]int)) {
	for _, on := range [2][][]int{c.left, c.right} {
		for _, i := range append(slices.Clone(on[pair[0]]), pair[0]) {
			for _, j := range append(slices.Clone(on[pair[1]]), pair[1]) {
				if i != j && [2]int{i, j} != pair {
					yield([2]int{i, j})
				}
			}
		}
	}
}

// spread takes a wall on to where what lies between two columns runs out beside it: the tip of a jamb may lie within a
// room's outline.
func (c *crossSection) spread() {
	above := make(map[[2]int]bool, 2*len(c.above))
	for _, p := range c.above {
		above[p], above[[2]int{p[1], p[0]}] = true, true
	}
	var next [][2]int
	for _, p := range c.above {
		if c.walled[p] {
			next = append(next, p)
		}
	}
	for len(next) > 0 {
		p := next[0]
		next = next[1:]
		c.beside(p, func(q [2]int) {
			if above[q] && !c.walled[q] {
				c.walled[q], c.walled[[2]int{q[1], q[0]}] = true, true
				next = append(next, q)
			}
		})
	}
}

// notched drops walls that only notch the floor, and reports whether none is left: those no longer along the row than
// the shortest piece or a plank's width, beside one end of which the floor goes on. No joint falls there.
func (c *crossSection) notched() bool {
	seen := make(map[[2]int]bool)
	for _, p := range c.above {
		if !c.walled[p] || seen[p] {
			continue
		}
		seen[p], seen[[2]int{p[1], p[0]}] = true, true
		chain := [][2]int{p}
		from, to, forked := int64(math.MaxInt64), int64(math.MinInt64), false
		for k := 0; k < len(chain); k++ {
			a, b := &c.columns[chain[k][0]], &c.columns[chain[k][1]]
			from, to = min(from, max(a.from, b.from)), max(to, min(a.to, b.to))
			for _, on := range [2][][]int{c.left, c.right} {
				forked = forked || slices.ContainsFunc(on[chain[k][0]], func(i int) bool {
					return slices.Contains(on[chain[k][1]], i)
				})
			}
			c.beside(chain[k], func(q [2]int) {
				if c.walled[q] && !seen[q] {
					seen[q], seen[[2]int{q[1], q[0]}] = true, true
					chain = append(chain, q)
				}
			})
		}
		if forked && to-from <= c.notch {
			for _, q := range chain {
				delete(c.walled, q)
				delete(c.walled, [2]int{q[1], q[0]})
			}
		}
	}
	return len(c.walled) == 0
}

// follow joins columns that go on in each other along the row. Where one goes on in two that a wall parts, or two in
// one, it is the highest of the two that goes on.
func (c *crossSection) follow() {
	c.lane = make([]int, len(c.columns))
	for i := range c.lane {
		c.lane[i] = i
	}
	height := func(i int) float64 { return c.columns[i].height0() + c.columns[i].height1() }
	passed := func(i int, among []int) bool { // another that a wall parts from it goes on in its place
		return slices.ContainsFunc(among, func(k int) bool {
			return c.walled[[2]int{i, k}] && (height(k) > height(i) || height(k) == height(i) && k < i)
		})
	}
	for i := range c.columns {
		for _, j := range c.right[i] {
			if !passed(i, c.left[j]) && !passed(j, c.right[i]) && !c.parted()[[2]int{c.first(i), c.first(j)}] {
				c.join(i, j)
			}
		}
	}
}

func (c *crossSection) first(i int) int {
	for c.lane[i] != i {
		c.lane[i] = c.lane[c.lane[i]]
		i = c.lane[i]
	}
	return i
}

func (c *crossSection) join(i, j int) {
	a, b := c.first(i), c.first(j)
	c.lane[max(a, b)] = min(a, b)
}

// gather joins lanes that lie above each other with no wall between them, as beside an island, unless a wall parts them
// elsewhere.
func (c *crossSection) gather() {
	parted := c.parted()
	for _, pair := range c.above {
		a, b := c.first(pair[0]), c.first(pair[1])
		if a != b && !c.walled[pair] && !parted[[2]int{a, b}] {
			c.join(a, b)
			parted = c.parted()
		}
	}
}

// parted returns the pairs of lanes that a wall parts somewhere.
func (c *crossSection) parted() map[[2]int]bool {
	out := make(map[[2]int]bool)
	for pair := range c.walled {
		out[[2]int{c.first(pair[0]), c.first(pair[1])}] = true
	}
	return out
}

// tips leaves what would be a lane no longer than what the trim hides to the lane that it hangs together with: at the
// end of a jamb no trim hides it.
func (c *crossSection) tips() {
	type extent struct{ from, to int64 }
	long := make(map[int]extent)
	for i := range c.columns {
		e, ok := long[c.first(i)]
		if !ok {
			e = extent{c.columns[i].from, c.columns[i].to}
		}
		long[c.first(i)] = extent{min(e.from, c.columns[i].from), max(e.to, c.columns[i].to)}
	}
	for i := range c.columns {
		lane := c.first(i)
		if e := long[lane]; e.to-e.from > c.hidden {
			continue
		}
		for _, j := range append(slices.Clone(c.left[i]), c.right[i]...) {
			if c.first(j) != lane {
				c.join(i, j)
				break
			}
		}
	}
}

// cut cuts the patches of the row into lanes, from left to right and from the starting side.
func (c *crossSection) cut(patches []patch) [][]patch {
	polygons := make(map[int][][]point)
	var order []int
	for i := range c.columns {
		col, lane := &c.columns[i], c.first(i)
		for k := range patches {
			p := patches[k].between(col.from, col.to)
			if len(p) < 3 || !col.holds(p) {
				continue
			}
			if polygons[lane] == nil {
				order = append(order, lane)
			}
			polygons[lane] = append(polygons[lane], p)
		}
	}
	slices.SortFunc(order, func(a, b int) int {
		x, y := &c.columns[a], &c.columns[b]
		return cmp.Or(cmp.Compare(x.from, y.from), cmp.Compare(x.low0+x.low1, y.low0+y.low1))
	})
	var out [][]patch
	for _, lane := range order {
		if in := sweep(trace(polygons[lane])).patches(); len(in) > 0 {
			out = append(out, in)
		}
	}
	return out
}

// holds reports whether a convex ring between the ends of a column lies in it, and not above or below.
func (c *column) holds(ring []point) bool {
	x, y := 0.0, 0.0
	for _, p := range ring {
		x, y = x+float64(p.x), y+float64(p.y)
	}
	x, y = x/float64(len(ring)), y/float64(len(ring))
	r := c.at(math.Min(math.Max(x, float64(c.from)), float64(c.to)))
	return r.low-rough <= y && y <= r.high+rough
}

// parts gathers the floor of a row, lane by lane, and says whether it has lanes.
func (s *strip) parts(patches []patch) (parts, dropped []part, laned bool) {
	lanes := s.lanes(patches)
	if lanes == nil {
		parts, dropped = gather(patches, s.hidden)
		return parts, dropped, false
	}
	for _, lane := range lanes {
		in, out := gather(lane, s.hidden)
		parts, dropped = append(parts, in...), append(dropped, out...)
	}
	slices.SortStableFunc(parts, func(a, b part) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.low, b.low), cmp.Compare(a.to, b.to))
	})
	return parts, dropped, true
}
