// Package counts finds how few planks the runs of an instance need when no stagger binds them: a shortest path over how
// many runs of each length are laid.
//
// # The walk
//
// Take the pieces of a layout in an order in which every run starts with what the run before left. A point of this walk is
// (p, r): p planks opened, and what the last of them still leaves for a starter, r. A run of length W laid with starter
// s <= r and n whole planks goes on to (p+n+1, s+(n+1)L-W-kerf), and one laid in one piece, W <= r, to (p, r-W-kerf), what
// is left being at least 0. Where nothing fits, a plank is opened: (p+1, L). Material used, pL - r, grows by W + kerf
// and by what is dropped, so from a point the longest starter that fits is best, and of two points the one with fewer
// planks, or with as many and the larger r, can do all that the other can.
//
// Every layout is a set of rings and of chains: rings, whose last run leaves what the first one started with, and chains,
// whose first starter opens a plank. All starters of a ring may grow together until one is at the end of a stretch of
// starters of its run, so a ring is found from the few starters at such ends.
//
// So best[v], the fewest planks for the runs of a count vector v, comes from one pass over all vectors, with one point
// for each way a ring may have begun: time and memory are proportional to the vectors times the stretches, times the
// lengths for time. It is exact without stagger, and a lower bound with it.
package counts

import (
	"cmp"
	"slices"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Kind is all runs of one class: they have one length and the same starters.
type Kind struct {
	Length   measure.Length
	Segments []starters.Segment // ascending
	Single   bool               // may be laid in one piece
	Runs     []int
	hand     rows.End // of offcuts on hand, whose number is that of Runs; else empty
}

// A Table holds the best points of all count vectors.
type Table struct {
	in     *rows.Instance
	Kinds  []Kind
	starts []start
	stride []int // by kind
	size   int   // vectors
	whole  int   // runs as long as a plank, laid in one piece, unless an offcut on hand is as long
	base   int64 // planks that points are counted from, so that they stay positive where offcuts are on hand
	best   []int32
	points []point // by vector and start
}

// A start is how a ring begins: with a run of a kind and a starter at the end of a stretch; the first of all is none, a
// chain.
type start struct {
	kind    int // -1 for a chain
	starter measure.Length
	next    point // from (0, starter), after the run
}

// A point is p<<32 less r: the less the better.
type point int64

const never point = 1 << 62

func at(p int64, r measure.Length) point { return point(p<<32 - int64(max(r, 0))) }

func (x point) planks() int64 { return (int64(x) + 1<<32 - 1) >> 32 }

func (x point) left() measure.Length { return measure.Length(x.planks()<<32 - int64(x)) }

// New makes the table, or returns nil when it would have more than the given number of points, or when a run cannot be
// laid.
func New(t *starters.Table, most int) *Table {
	in := t.Instance
	if in.Plank >= 1<<32 {
		return nil
	}
	c := &Table{in: in, size: 1, base: int64(len(in.Offcuts))}
	if !c.sort(t) {
		return nil
	}
	c.starts = append(c.starts, start{kind: -1})
	for k := range c.Kinds {
		for _, seg := range c.Kinds[k].Segments {
			if next := c.after(k, seg, at(0, seg.Hi)); seg.Hi < in.Plank-in.Kerf {
				c.starts = append(c.starts, start{k, seg.Hi, next})
			}
		}
	}
	for k := range c.Kinds {
		c.stride = append(c.stride, c.size)
		if c.size *= len(c.Kinds[k].Runs) + 1; c.size > most/len(c.starts) {
			return nil
		}
	}
	c.fill()
	return c
}

// sort groups the runs by what they admit and the offcuts by end and length.
func (c *Table) sort(t *starters.Table) bool {
	in := t.Instance
	kindOf := make([]int, len(t.Classes))
	for k := range t.Classes {
		cl := &t.Classes[k]
		kindOf[k] = slices.IndexFunc(c.Kinds, func(d Kind) bool { return d.Length == cl.Length && slices.Equal(d.Segments, cl.Segments) })
		if kindOf[k] < 0 {
			kindOf[k] = len(c.Kinds)
			c.Kinds = append(c.Kinds, Kind{Length: cl.Length, Segments: cl.Segments, Single: cl.Single})
		}
		if len(cl.Segments) == 0 && !cl.Single {
			return false
		}
	}
	wholeOnHand := slices.ContainsFunc(in.Offcuts, func(o rows.Offcut) bool { return o.Length == in.Plank })
	for i, k := range t.ClassOf {
		if in.Runs[i].Length == in.Plank && !wholeOnHand {
			c.whole++
			continue
		}
		c.Kinds[kindOf[k]].Runs = append(c.Kinds[kindOf[k]].Runs, i)
	}
	for o, off := range in.Offcuts {
		k := slices.IndexFunc(c.Kinds, func(d Kind) bool { return d.hand == off.End && d.Length == off.Length })
		if k < 0 {
			k = len(c.Kinds)
			c.Kinds = append(c.Kinds, Kind{Length: off.Length, hand: off.End})
		}
		c.Kinds[k].Runs = append(c.Kinds[k].Runs, o)
	}
	c.Kinds = slices.DeleteFunc(c.Kinds, func(k Kind) bool { return len(k.Runs) == 0 })
	slices.SortStableFunc(c.Kinds, func(a, b Kind) int { return cmp.Compare(len(b.Runs), len(a.Runs)) })
	return true
}

// after is where a run of kind k leads from x with the longest starter of the stretch that fits, or never.
func (c *Table) after(k int, seg starters.Segment, x point) point {
	in := c.in
	r := x.left()
	if r < seg.Lo {
		return never
	}
	s := c.longest(seg, r)
	n := int64(seg.Field) + 1
	return at(x.planks()+n, s+measure.Length(n)*in.Plank-c.Kinds[k].Length-in.Kerf)
}

// step is the best point that a run of kind k leads to from x.
func (c *Table) step(k int, x point) point {
	in, kind := c.in, &c.Kinds[k]
	if kind.hand != "" {
		return c.useOffcut(kind, x)
	}
	if r := x.left(); kind.Single && kind.Length <= r {
		return at(x.planks(), r-kind.Length-in.Kerf)
	}
	if seg := c.segment(kind, x.left()); seg != nil {
		return c.after(k, *seg, x)
	}
	p := x.planks() + 1
	if kind.Single {
		return at(p, in.Plank-kind.Length-in.Kerf)
	}
	last := len(kind.Segments) - 1
	return c.after(k, kind.Segments[last], at(p, in.Plank))
}

// useOffcut takes an offcut on hand into the walk. One with a right factory end is a point that leaves its length. One
// with a left end spares the plank of the last ender where that is short enough; it is taken for more than it is where
// it is not, so that fewer planks or more left stay better, and so is one without a factory end: the count stays a bound.
func (c *Table) useOffcut(kind *Kind, x point) point {
	p, r := x.planks(), x.left()
	if lost := c.in.Plank - kind.Length; kind.hand == rows.EndLeft && r >= lost-c.in.Kerf {
		return at(p-1, r-lost)
	}
	return min(x, at(p, kind.Length))
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
				if digits[k]++; digits[k] <= len(c.Kinds[k].Runs) {
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

// close is the number of planks of a walk that ends at x: a ring whose last run does not leave the first starter needs
// one more.
func (c *Table) close(j int, x point) int64 {
	p := x.planks()
	if c.starts[j].kind >= 0 && x.left() < c.starts[j].starter {
		p++
	}
	return p
}

// Planks is the fewest planks without stagger.
func (c *Table) Planks() int {
	return int(int64(c.best[c.size-1])-c.base) + c.whole
}

// Size is the number of points.
func (c *Table) Size() int { return len(c.points) }
