// Package counts finds how few planks the runs of an instance need when no stagger binds them: a shortest path over how
// many runs of each length are laid.
//
// # The walk
//
// Take the pieces of a layout in an order in which every run starts with what the run before left. A point of this walk
// is (p, r): p planks opened, and what the last of them still leaves for a starter, r. A run of length W laid with
// starter s <= r and n whole planks goes on to (p+n+1, s+(n+1)L-W-kerf), and one laid in one piece, W <= r, to (p,
// r-W-kerf), what is left being at least 0. Where nothing fits, a plank is opened: (p+1, L). Material used, pL - r,
// grows by W + kerf and by what is dropped, so from a point the longest starter that fits is best, and of two points
// the one with fewer planks, or with as many and the larger r, can do all that the other can.
//
// Every layout is a set of rings and of chains: rings, whose last run leaves what the first one started with, and
// chains, whose first starter opens a plank. All starters of a ring may grow together until one is at the end of a
// stretch of starters of its run, so a ring is found from the few starters at such ends.
//
// So best[v], the fewest planks for the runs of a count vector v, comes from one pass over all vectors, with one point
// for each way a ring may have begun: time and memory are proportional to the vectors times the stretches, times the
// lengths for time. It is exact without stagger, and a lower bound with it.
package counts

// A Table holds the best points of all count vectors of a floor's core: as many runs of each kind, most evenly, as the
// table has room for, at best all of them.
type Table struct {
	*Floor
	Exact  bool  // the core is the floor
	core   []int // by kind: runs
	stride []int // by kind
	size   int   // vectors
	best   []int32
	points []point // by vector and start
}

// New makes the table of at most the given number of points, or returns nil where not even offcuts on hand and a run of
// each kind have room.
func New(f *Floor, most int) *Table {
	c := &Table{Floor: f, Exact: true}
	for k := range f.Kinds {
		c.core = append(c.core, len(f.Kinds[k].Runs))
	}
	for !c.fits(most) {
		c.Exact = false
		large := -1
		for k, n := range c.core {
			if f.Kinds[k].hand == "" && n > 1 && (large < 0 || n > c.core[large]) {
				large = k
			}
		}
		if large < 0 {
			return nil
		}
		c.core[large]--
	}
	c.size = 1
	for _, n := range c.core {
		c.stride = append(c.stride, c.size)
		c.size *= n + 1
	}
	c.fill()
	return c
}

// Fits reports whether a table of at most the given number of points is exact.
func Fits(f *Floor, most int) bool {
	c := &Table{Floor: f}
	for k := range f.Kinds {
		c.core = append(c.core, len(f.Kinds[k].Runs))
	}
	return c.fits(most)
}

// fits reports whether the core has at most so many points.
func (c *Table) fits(most int) bool {
	size := len(c.starts)
	for _, n := range c.core {
		if size *= n + 1; size > most {
			return false
		}
	}
	return true
}

// fill makes the points, vector by vector in mixed radix, each kind's count a digit.
func (c *Table) fill() {
	ways := len(c.starts)
	c.best = make([]int32, c.size)
	c.points = make([]point, c.size*ways)
	digits := make([]int, len(c.Kinds))
	for v := range c.size {
		if v > 0 {
			for k := 0; ; k++ {
				if digits[k]++; digits[k] <= c.core[k] {
					break
				}
				digits[k] = 0
			}
		}
		here := c.points[v*ways : (v+1)*ways]
		for j := range here {
			here[j] = never
		}
		if v == 0 {
			here[0] = at(c.base, 0)
			c.best[0] = int32(c.base)
			continue
		}
		for k, n := range digits {
			if n == 0 {
				continue
			}
			for j, x := range c.points[(v-c.stride[k])*ways : (v-c.stride[k]+1)*ways] {
				if x < never {
					here[j] = min(here[j], c.step(k, x))
				}
			}
		}
		best := int64(1) << 31
		for j, s := range c.starts {
			if s.kind >= 0 && digits[s.kind] > 0 {
				here[j] = min(here[j], s.next+point(int64(c.best[v-c.stride[s.kind]])<<32))
			}
			if here[j] < never {
				best = min(best, c.close(j, here[j]))
			}
		}
		c.best[v] = int32(best)
		here[0] = min(here[0], at(best, 0))
	}
}

// Planks is the fewest planks for the core without stagger: for all runs, where the table is exact.
func (c *Table) Planks() int {
	return int(int64(c.best[c.size-1])-c.base) + c.whole
}

// Size is the number of points.
func (c *Table) Size() int { return len(c.points) }
