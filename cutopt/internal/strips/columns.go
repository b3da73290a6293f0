package strips

import (
	"cmp"
	"math"
	"slices"
)

// A column is floor of a row between two abscissas and between two straight edges, which are given where it begins and
// ends.
type column struct {
	from, to     int64
	low0, low1   float64
	high0, high1 float64
}

func (c *column) height0() float64 { return c.high0 - c.low0 }
func (c *column) height1() float64 { return c.high1 - c.low1 }

// mostCrossed is the most patches that are cut into columns by looking at all of them beside each corner.
const mostCrossed = 12

// columns cuts patches that do not overlap into columns, from left to right and from the lowest up. Patches that share
// a stretch of a level boundary give one column there. It takes O(k log k) steps for k patches.
func columns(patches []patch) []column {
	if len(patches) == 1 && !patches[0].slanted() {
		p := &patches[0]
		low, high := float64(p.low), float64(p.high)
		return []column{{p.left0, p.right0, low, low, high, high}}
	}
	if len(patches) > mostCrossed {
		return swept(patches)
	}
	if len(patches) > 1 {
		patches = slices.Clone(patches)
		slices.SortFunc(patches, func(a, b patch) int { return cmp.Compare(a.left(), b.left()) })
	}
	var few [4 * mostCrossed]int64
	xs := few[:0]
	for i := range patches {
		p := &patches[i]
		xs = append(xs, p.left0, p.left1, p.right0, p.right1)
	}
	slices.Sort(xs)
	xs = slices.Compact(xs)
	out, here := make([]column, 0, len(xs)+len(patches)), make([]int, 0, len(patches))
	next := 0
	for i := 0; i+1 < len(xs); i++ {
		a, b := xs[i], xs[i+1]
		here = slices.DeleteFunc(here, func(k int) bool { return patches[k].right() <= a })
		for ; next < len(patches) && patches[next].left() <= a; next++ {
			here = append(here, next)
		}
		first := len(out)
		for _, k := range here {
			if c, ok := patches[k].column(a, b); ok {
				out = append(out, c)
			}
		}
		out = stacked(out, first)
	}
	return out
}

// swept cuts patches into columns by a sweep along the row instead of across it: quick where many lie above each other.
func swept(patches []patch) []column {
	polygons := make([][]point, len(patches))
	for i := range patches {
		polygons[i] = straight(patches[i].corners())
	}
	rings := trace(polygons)
	for _, ring := range rings {
		for i, p := range ring {
			ring[i] = point{p.y, p.x}
		}
		slices.Reverse(ring)
	}
	reg := sweep(rings)
	var out []column
	for i := range reg.cells {
		c := &reg.cells[i]
		at := func(s int32, x int64) float64 { return reg.sides[s].at(x).float() }
		col := column{c.from, c.to, at(c.left, c.from), at(c.left, c.to), at(c.right, c.from), at(c.right, c.to)}
		if c.to > c.from && col.height0()+col.height1() > 0 {
			out = append(out, col)
		}
	}
	slices.SortFunc(out, func(a, b column) int {
		return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.low0+a.low1, b.low0+b.low1), cmp.Compare(a.to, b.to))
	})
	return out
}

// column returns the part of a patch between two abscissas, between which none of its corners lies.
func (p *patch) column(from, to int64) (column, bool) {
	c := column{from, to, float64(p.low), float64(p.low), float64(p.high), float64(p.high)}
	// What lies right of the line from x0 at the lower end to x1 at the upper, or left of it.
	side := func(x0, x1 int64, right bool) bool {
		if from >= max(x0, x1) {
			return right
		}
		if to <= min(x0, x1) {
			return !right
		}
		at := func(x int64) float64 {
			return float64(p.low) + float64(p.high-p.low)*float64(x-x0)/float64(x1-x0)
		}
		if (x0 < x1) == right {
			c.high0, c.high1 = min(c.high0, at(from)), min(c.high1, at(to))
		} else {
			c.low0, c.low1 = max(c.low0, at(from)), max(c.low1, at(to))
		}
		return true
	}
	ok := side(p.left0, p.left1, true) && side(p.right0, p.right1, false)
	return c, ok && c.height0()+c.height1() > 0
}

// stacked joins the columns from an index on, which lie above each other, where they touch.
func stacked(columns []column, first int) []column {
	if len(columns)-first < 2 {
		return columns
	}
	slices.SortFunc(columns[first:], func(a, b column) int { return cmp.Compare(a.low0+a.low1, b.low0+b.low1) })
	n := first
	for i := first + 1; i < len(columns); i++ {
		a, b := &columns[n], &columns[i]
		if b.low0-a.high0 <= rough && b.low1-a.high1 <= rough {
			a.high0, a.high1 = b.high0, b.high1
			continue
		}
		n++
		columns[n] = *b
	}
	return columns[:n+1]
}

// level reports whether the lower side runs along the row, within 10 degrees.
func (c *column) level() bool { return math.Abs(c.low1-c.low0) <= parallel*float64(c.to-c.from) }

// mirrored turns a column upside down.
func (c *column) mirrored() column {
	return column{c.from, c.to, -c.high0, -c.high1, -c.low0, -c.low1}
}

// joins reports whether a column goes on in one that begins where it ends.
func (c *column) joins(next *column) bool {
	return c.to == next.from && min(c.high1, next.high0) > max(c.low1, next.low0)
}

// chains links columns, each to one that goes on where it ends: floor that is followed along the row.
func chains(columns []column) [][]column {
	var out [][]column
	var open []int // chains that may go on
	for i := range columns {
		c := &columns[i]
		open = slices.DeleteFunc(open, func(k int) bool { return out[k][len(out[k])-1].to < c.from })
		k := slices.IndexFunc(open, func(k int) bool { return out[k][len(out[k])-1].joins(c) })
		if k < 0 {
			open = append(open, len(out))
			out = append(out, append(make([]column, 0, min(len(columns)-i, 8)), *c))
		} else {
			out[open[k]] = append(out[open[k]], *c)
		}
	}
	return out
}

// A narrow is a stretch of a row whose two edges are within 10 degrees of parallel and nearer to each other than some
// distance.
type narrow struct {
	columns []column
	width   float64 // between its edges where it is narrowest
}

func (n *narrow) from() int64 { return n.columns[0].from }
func (n *narrow) to() int64   { return n.columns[len(n.columns)-1].to }

// tallest returns the height of a stretch where it is highest.
func (n *narrow) tallest() (height float64) {
	for i := range n.columns {
		height = max(height, n.columns[i].height0(), n.columns[i].height1())
	}
	return height
}

// parallel is the tangent of 10 degrees, and a little for what rounding may turn a wall: two edges that differ by no
// more count as parallel.
var parallel = math.Tan(10.01 * math.Pi / 180)

// narrows returns the stretches of a chain that are narrower than a width over more than a length.
func narrows(chain []column, width float64, long int64) []narrow {
	var out []narrow
	var n narrow
	closed := func() {
		if len(n.columns) > 0 && n.to()-n.from() > long {
			out = append(out, n)
		}
		n = narrow{}
	}
	for i := range chain {
		c, w, ok := chain[i].narrow(width)
		if !ok || len(n.columns) > 0 && n.to() != c.from {
			closed()
		}
		if !ok {
			continue
		}
		if len(n.columns) == 0 {
			n.width = w
		}
		n.columns, n.width = append(n.columns, c), min(n.width, w)
	}
	closed()
	return out
}

// narrow returns the part of a column that is narrower than a width, measured square to its edges, and its least width.
func (c *column) narrow(width float64) (part column, least float64, ok bool) {
	long := float64(c.to - c.from)
	up, down := (c.high1-c.high0)/long, (c.low1-c.low0)/long
	if along := 1 + float64(up*down); along <= 0 || math.Abs(up-down) > parallel*along {
		return column{}, 0, false
	}
	slope := (up + down) / 2
	square := 1 / math.Sqrt(1+float64(slope*slope)) // what a height measures square to the edges
	h0, h1 := float64(c.height0()*square), float64(c.height1()*square)
	from, to := c.from, c.to
	switch {
	case h0 >= width && h1 >= width:
		return column{}, 0, false
	case h0 >= width:
		from = c.from + int64(float64((h0-width)/(h0-h1)*long))
	case h1 >= width:
		to = c.from + int64(float64((width-h0)/(h1-h0)*long))
	}
	return c.between(from, to), min(h0, h1), true
}

// between returns the part of a column between two abscissas.
func (c *column) between(from, to int64) column {
	at := func(y0, y1 float64, x int64) float64 { return y0 + (y1-y0)*float64(x-c.from)/float64(c.to-c.from) }
	return column{
		from, to, at(c.low0, c.low1, from), at(c.low0, c.low1, to), at(c.high0, c.high1, from), at(c.high0, c.high1, to),
	}
}
