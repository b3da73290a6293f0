package counts

import (
	"cmp"
	"slices"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A Kind is all runs of one length with the same starters. Where nothing is on hand, no run is begun and none may be
// one piece, only whole steps of the grid in what a run leaves are of use, and how many whole planks it has more than
// another is all the same: then a kind is all runs that leave as many steps for the same starters, and its length is
// that of one of them.
type Kind struct {
	Length   measure.Length
	Segments []starters.Segment // ascending
	Single   bool               // may be laid in one piece
	Runs     []int
	hand     rows.End // of offcuts on hand, whose number is that of Runs; else empty
	opened   point    // from (0, L), what a plank just opened leaves
	next     []point  // by grid lines in r: from (0, r), unless in one piece
}

// Floor is the runs of an instance by kind, and the moves of walks over planks that lay them.
type Floor struct {
	in     *rows.Instance
	grid   uint32
	Kinds  []Kind // the most runs first
	starts []start
	whole  int   // planks counted apart: runs as long as a plank, whole planks of runs beyond those of their kind
	base   int64 // planks that points are counted from, so that they stay positive where offcuts are on hand
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

// mostKinds bounds the kinds, so that what is done for each grid line of each stays short.
const mostKinds = 40

// Sort groups the runs of a table by kind, or returns nil where these are more than forty, planks are too long to count
// with, an offcut on hand is as long as a plank or a run cannot be laid.
func Sort(t *starters.Table) *Floor {
	in := t.Instance
	if in.Plank >= 1<<32 || in.Plank/in.Grid > 1<<14 {
		return nil
	}
	f := &Floor{in: in, grid: uint32(in.Grid), base: int64(len(in.Offcuts))}
	if !f.sort(t) {
		return nil
	}
	for k := range f.Kinds {
		f.Kinds[k].tabulate(in)
	}
	f.starts = append(f.starts, start{kind: -1})
	for k := range f.Kinds {
		for _, seg := range f.Kinds[k].Segments {
			if next := f.Kinds[k].after(in, seg, at(0, seg.Hi)); seg.Hi < in.Plank-in.Kerf {
				f.starts = append(f.starts, start{k, seg.Hi, next})
			}
		}
	}
	return f
}

// sort groups the runs by what they admit and the offcuts by end and length.
func (f *Floor) sort(t *starters.Table) bool {
	in := t.Instance
	kindOf := make([]int, len(t.Classes))
	bySteps := len(in.Offcuts) == 0 && !slices.ContainsFunc(in.Runs, func(r rows.Run) bool {
		return r.Length <= in.Plank || r.Starter > 0
	})
	for k := range t.Classes {
		cl := &t.Classes[k]
		kindOf[k] = slices.IndexFunc(f.Kinds, func(d Kind) bool {
			return d.Length == cl.Length && d.Single == cl.Single && slices.Equal(d.Segments, cl.Segments) ||
				bySteps && d.leavesAs(in, cl)
		})
		if kindOf[k] < 0 {
			if kindOf[k] = len(f.Kinds); kindOf[k] == mostKinds {
				return false
			}
			f.Kinds = append(f.Kinds, Kind{Length: cl.Length, Segments: cl.Segments, Single: cl.Single})
		}
		if len(cl.Segments) == 0 && !cl.Single {
			return false
		}
	}
	if slices.ContainsFunc(in.Offcuts, func(o rows.Offcut) bool { return o.Length == in.Plank }) {
		return false // a whole plank on hand is no offcut
	}
	for i, k := range t.ClassOf {
		if in.Runs[i].Length == in.Plank && in.MayBeSingle(i) {
			f.whole++
			continue
		}
		kind := &f.Kinds[kindOf[k]]
		kind.Runs = append(kind.Runs, i)
		if own := t.Classes[k].Segments; len(own) > 0 {
			f.whole += own[0].Field - kind.Segments[0].Field
		}
	}
	for o, off := range in.Offcuts {
		k := slices.IndexFunc(f.Kinds, func(d Kind) bool { return d.hand == off.End && d.Length == off.Length })
		if k < 0 {
			if k = len(f.Kinds); k == mostKinds {
				return false
			}
			f.Kinds = append(f.Kinds, Kind{Length: off.Length, hand: off.End})
		}
		f.Kinds[k].Runs = append(f.Kinds[k].Runs, o)
	}
	f.Kinds = slices.DeleteFunc(f.Kinds, func(k Kind) bool { return len(k.Runs) == 0 })
	slices.SortStableFunc(f.Kinds, func(a, b Kind) int { return cmp.Compare(len(b.Runs), len(a.Runs)) })
	return true
}

// leavesAs reports whether a class leaves as many steps of the grid as the kind for the same starters, with as many
// whole planks more or less for each.
func (k *Kind) leavesAs(in *rows.Instance, cl *starters.Class) bool {
	return slices.EqualFunc(k.Segments, cl.Segments, func(a, b starters.Segment) bool {
		more := b.Field - a.Field
		steps := func(seg starters.Segment, length measure.Length) measure.Length {
			return (seg.Hi + measure.Length(seg.Field+1)*in.Plank - length - in.Kerf).Div(in.Grid)
		}
		return a.Lo == b.Lo && a.Hi == b.Hi && more == cl.Segments[0].Field-k.Segments[0].Field &&
			steps(a, k.Length) == steps(b, cl.Length)
	})
}

// after is where a run leads from x with the longest starter of the stretch that fits, or never.
func (k *Kind) after(in *rows.Instance, seg starters.Segment, x point) point {
	r := x.left()
	if r < seg.Lo {
		return never
	}
	s := longest(in, seg, r)
	n := int64(seg.Field) + 1
	return at(x.planks()+n, s+measure.Length(n)*in.Plank-k.Length-in.Kerf)
}

// segment is the stretch with the longest starter up to r, or nil.
func (k *Kind) segment(r measure.Length) *starters.Segment {
	for n := len(k.Segments) - 1; n >= 0; n-- {
		if k.Segments[n].Lo <= r {
			return &k.Segments[n]
		}
	}
	return nil
}

// longest is the longest starter of the stretch up to r.
func longest(in *rows.Instance, seg starters.Segment, r measure.Length) measure.Length {
	if r < seg.Hi {
		return r - r%in.Grid
	}
	return seg.Hi
}

// tabulate fills opened and next: where a starter may be sawn depends on the grid lines in r only.
func (k *Kind) tabulate(in *rows.Instance) {
	if k.hand != "" {
		return
	}
	if k.Single {
		k.opened = at(0, in.Plank-k.Length-in.Kerf)
	} else {
		k.opened = k.after(in, k.Segments[len(k.Segments)-1], at(0, in.Plank))
	}
	k.next = make([]point, in.Plank/in.Grid+1)
	for line := range k.next {
		r := min(measure.Length(line)*in.Grid, in.Plank-1)
		if seg := k.segment(r); seg != nil {
			k.next[line] = k.after(in, *seg, at(0, r))
		} else {
			k.next[line] = k.opened + 1<<32
		}
	}
}

// step is the best point that a run of kind k leads to from x.
func (f *Floor) step(k int, x point) point {
	kind := &f.Kinds[k]
	if kind.hand != "" {
		return f.useOffcut(kind, x)
	}
	p, r := x.planks(), x.left()
	switch {
	case kind.Single && kind.Length <= r:
		return at(p, r-kind.Length-f.in.Kerf)
	case r >= f.in.Plank:
		return kind.opened + point(p<<32)
	}
	return kind.next[uint32(r)/f.grid] + point(p<<32)
}

// useOffcut takes an offcut on hand into the walk. One with a right factory end is a point that leaves its length. One
// with a left end spares the plank of the last ender where that is short enough; it is taken for more than it is where
// it is not, so that fewer planks or more left stay better, and so is one without a factory end: the count stays a
// bound.
func (f *Floor) useOffcut(kind *Kind, x point) point {
	p, r := x.planks(), x.left()
	if lost := f.in.Plank - kind.Length; kind.hand == rows.EndLeft && r >= lost-f.in.Kerf {
		return at(p-1, r-lost)
	}
	return min(x, at(p, kind.Length))
}

// close is the number of planks of a walk that ends at x: a ring whose last run does not leave the first starter needs
// one more.
func (f *Floor) close(j int, x point) int64 {
	p := x.planks()
	if f.starts[j].kind >= 0 && x.left() < f.starts[j].starter {
		p++
	}
	return p
}
