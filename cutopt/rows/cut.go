package rows

import (
	"cmp"
	"fmt"
	"slices"

	"plank.example/cutopt/measure"
)

// A Part is a piece of a run as it lies on a plank.
type Part struct {
	Run    int
	Role   Role
	Length measure.Length
}

// A Role says what a part is in its run.
type Role uint8

// The roles.
const (
	RoleStarter Role = iota // "starter": sawn at its left end, or whole
	RoleField               // "field": whole
	RoleEnder               // "ender": sawn at its right end, or whole
	RoleSingle              // "single": a one-piece run
)

var roleNames = [...]string{"starter", "field", "ender", "single"}

// String returns the name of the role.
func (r Role) String() string {
	if int(r) >= len(roleNames) {
		return fmt.Sprintf("Role(%d)", uint8(r))
	}
	return roleNames[r]
}

// A Cutting is every piece of a layout placed on a plank or on an offcut on hand, from its left end to its right end.
type Cutting struct {
	Planks  [][]Part // in the order they are first needed
	Offcuts [][]Part // by index of Instance.Offcuts; empty where one is left over
}

// A board is a plank, or an offcut, being filled: an ender at its left end, singles, a starter at its right end.
type board struct {
	starter, ender int // runs, or -1
	singles        []int
	used           measure.Length // of everything but the ender, one kerf after each piece but the starter
}

// Cut places the pieces of a layout on as few planks as it finds. The layout must pass Check, and packing, where it is
// not nil, CheckPacking.
//
// Without one-piece runs, and with a packing, the number is the least possible: starters and enders are nested (a
// shorter one fits wherever a longer one does), so matching the smallest first is a largest matching. Among largest
// matchings it seeks one that uses an offcut soon after it arises.
//
// With one-piece runs and a nil packing a packing is sought: best fit first, and where that misses the bound (the
// planks without the one-piece runs; all material over a plank's), a search over where each of them goes, longest
// first, cut off by the planks that lie open already. The search is bounded, so the number is least for a few one-piece
// runs or where the bound is met, and an upper bound beyond that. Offcuts on hand take what fits them best and are no
// part of that search.
//
// It takes O(n log n) for n runs and offcuts, a bounded number of exchanges and, for one-piece runs, a bounded search
// and O(n) for each of them.
func (in *Instance) Cut(layout Layout, packing Packing) *Cutting {
	b := in.fewest(layout, packing)
	b.exchange()
	return b.collect()
}

// Count returns the number of new planks of Cut in less time.
func (in *Instance) Count(layout Layout, packing Packing) int {
	return in.fewest(layout, packing).planks()
}

// CountBestFit returns the number of new planks when one-piece runs go, longest first, where they fit best: at least
// Count's, and found without its search, in O(n log n) for n runs and O(n) for each one-piece run.
func (in *Instance) CountBestFit(layout Layout) int {
	b := newCutter(in, layout)
	b.match()
	b.fillSingles()
	return b.planks()
}

// fewest matches the pieces of a layout, with a packing of its own where that is nil.
func (in *Instance) fewest(layout Layout, packing Packing) *cutter {
	b := newCutter(in, layout)
	singles := b.loose
	b.hostSingles(packing)
	b.match()
	b.fillSingles()
	if packing != nil || len(singles) == 0 {
		return b
	}
	if better := b.pack(singles, b.planks()); better != nil {
		c := newCutter(in, layout)
		c.hostSingles(better)
		c.match()
		c.fillSingles()
		if c.planks() < b.planks() {
			return c
		}
	}
	return b
}

type cutter struct {
	in     *Instance
	pieces []Pieces
	heads  []board // boards with a starter or singles
	enders []int   // runs with a cut ender
	mate   []int   // by ender: index in heads, or -1
	hand   []int   // by offcut: index in heads of what is cut from it, or -1
	handE  []int   // by offcut: index in enders of what is cut from it, or -1
	headOf []int   // by run: index in heads, or -1
	whole  int     // whole planks
	loose  []int   // singles not placed by a packing
}

func newCutter(in *Instance, layout Layout) *cutter {
	n := len(layout)
	c := &cutter{
		in: in, pieces: make([]Pieces, n), headOf: make([]int, n), heads: make([]board, 0, n), enders: make([]int, 0, n),
	}
	for i, s := range layout {
		p, _ := in.Lay(i, s)
		c.pieces[i], c.headOf[i] = p, -1
		c.whole += p.Field
		switch {
		case p.Single == in.Plank:
			c.whole++
		case p.Single > 0:
			c.loose = append(c.loose, i)
		default:
			if p.Starter == in.Plank {
				c.whole++
			} else {
				c.headOf[i] = len(c.heads)
				c.heads = append(c.heads, board{starter: i, ender: -1, used: p.Starter})
			}
			if p.Ender == in.Plank {
				c.whole++
			} else {
				c.enders = append(c.enders, i)
			}
		}
	}
	return c
}

// hostSingles puts singles on the boards the packing names.
func (c *cutter) hostSingles(packing Packing) {
	if packing == nil {
		return
	}
	for _, i := range c.loose {
		if packing[i] < 0 {
			c.headOf[i] = len(c.heads)
			c.heads = append(c.heads, board{starter: -1, ender: -1, singles: []int{i}, used: c.pieces[i].Single})
		}
	}
	for _, i := range c.loose {
		if h := packing[i]; h >= 0 {
			b := &c.heads[c.headOf[h]]
			b.singles = append(b.singles, i)
			b.used += c.pieces[i].Single + c.in.Kerf
		}
	}
	c.loose = nil
}

// match pairs as many enders as possible with heads, smallest first.
func (c *cutter) match() {
	in := c.in
	c.mate = make([]int, len(c.enders))
	heads := order(len(c.heads), func(h int) measure.Length { return c.heads[h].used })
	// rooms are offered in ascending order: those of enders, and right-ended offcuts on hand
	byRoom := order(len(c.enders), func(e int) measure.Length { return c.roomOf(e) })
	k := 0
	c.hand, c.handE = make([]int, len(in.Offcuts)), make([]int, len(in.Offcuts))
	for o := range c.hand {
		c.hand[o], c.handE[o] = -1, -1
	}
	if len(in.Offcuts) > 0 {
		c.matchOffcuts(heads, byRoom)
		return
	}
	for _, e := range byRoom {
		c.mate[e] = -1
		if k < len(heads) && c.heads[heads[k]].used <= c.roomOf(e) {
			c.mate[e] = heads[k]
			c.heads[heads[k]].ender = c.enders[e]
			k++
		}
	}
}

func (c *cutter) roomOf(e int) measure.Length {
	return c.in.Plank - c.in.Kerf - c.pieces[c.enders[e]].Ender
}

func order(n int, key func(int) measure.Length) []int {
	idx := make([]int, n)
	for i := range idx {
		idx[i] = i
	}
	slices.SortStableFunc(idx, func(a, b int) int { return cmp.Compare(key(a), key(b)) })
	return idx
}

// a place is where a single may go, and the longest that fits there.
type place struct {
	fits measure.Length
	kind uint8 // placeHead, placeLone or placeHand
	at   int   // index in heads, enders or offcuts
}

// The kinds of places, in the order in which one is taken of two that fit as well.
const (
	placeHead uint8 = iota // beside a head
	placeLone              // beside an ender without a head
	placeHand              // an offcut on hand that nothing is cut from
)

func comparePlaces(a, b place) int {
	return cmp.Or(cmp.Compare(a.fits, b.fits), cmp.Compare(a.kind, b.kind), cmp.Compare(a.at, b.at))
}

// fillSingles places loose singles, longest first, where they leave the least, else on a plank of their own. Places are
// kept in order, so that each is found by halving; those too short for any single are left out.
func (c *cutter) fillSingles() {
	if len(c.loose) == 0 {
		return
	}
	in := c.in
	slices.SortStableFunc(c.loose, func(a, b int) int { return cmp.Compare(c.pieces[b].Single, c.pieces[a].Single) })
	shortest := c.pieces[c.loose[len(c.loose)-1]].Single
	places := slices.DeleteFunc(c.places(), func(p place) bool { return p.fits < shortest })
	slices.SortFunc(places, comparePlaces)
	for _, i := range c.loose {
		x := c.pieces[i].Single
		k, _ := slices.BinarySearchFunc(places, x, func(p place, x measure.Length) int {
			return cmp.Compare(p.fits,
				x)
		})
		left := place{in.Plank - x - in.Kerf, placeHead, len(c.heads)}
		if k == len(places) {
			c.heads = append(c.heads, board{starter: -1, ender: -1, singles: []int{i}, used: x})
		} else {
			left = c.put(i, places[k])
			places = slices.Delete(places, k, k+1)
		}
		if left.fits >= shortest {
			k, _ := slices.BinarySearchFunc(places, left, comparePlaces)
			places = slices.Insert(places, k, left)
		}
	}
	c.loose = nil
}

// places lists where singles may go.
func (c *cutter) places() []place {
	in := c.in
	var out []place
	limit := make([]measure.Length, len(c.heads)) // that a head's used may grow to
	for h := range limit {
		limit[h] = in.Plank
	}
	onHand := make(map[int]bool)
	for o, h := range c.hand {
		if h >= 0 {
			limit[h] = in.Offcuts[o].Length
		}
		if e := c.handE[o]; e >= 0 {
			onHand[e] = true
		}
		if h < 0 && c.handE[o] < 0 {
			out = append(out, place{in.Offcuts[o].Length, placeHand, o})
		}
	}
	for e, h := range c.mate {
		if h >= 0 {
			limit[h] = c.roomOf(e)
		} else if !onHand[e] {
			out = append(out, place{c.roomOf(e), placeLone, e})
		}
	}
	for h := range c.heads {
		out = append(out, place{limit[h] - c.heads[h].used - in.Kerf, placeHead, h})
	}
	return out
}

// put cuts single i at a place and returns what is left of that.
func (c *cutter) put(i int, p place) place {
	x := c.pieces[i].Single
	left := place{p.fits - x - c.in.Kerf, placeHead, p.at}
	if p.kind == placeHead {
		b := &c.heads[p.at]
		b.singles, b.used = append(b.singles, i), b.used+x+c.in.Kerf
		return left
	}
	left.at = len(c.heads)
	b := board{starter: -1, ender: -1, singles: []int{i}, used: x}
	if p.kind == placeLone {
		b.ender, c.mate[p.at] = c.enders[p.at], left.at
	} else {
		c.hand[p.at] = left.at
	}
	c.heads = append(c.heads, b)
	return left
}

// planks counts new planks.
func (c *cutter) planks() int {
	n := c.whole + len(c.heads)
	for _, h := range c.mate {
		if h < 0 {
			n++
		}
	}
	for o := range c.hand {
		if c.hand[o] >= 0 {
			n--
		}
		if c.handE[o] >= 0 && c.mate[c.handE[o]] < 0 {
			n--
		}
	}
	return n
}

// collect lists the planks.
func (c *cutter) collect() *Cutting {
	in := c.in
	out := &Cutting{Offcuts: make([][]Part, len(in.Offcuts))}
	taken := make([]bool, len(c.heads))
	for o, h := range c.hand {
		if h >= 0 {
			taken[h] = true
			out.Offcuts[o] = c.parts(&c.heads[h])
		}
	}
	onHand := make([]bool, len(c.enders))
	for o, e := range c.handE {
		if e >= 0 {
			onHand[e] = true
			i := c.enders[e]
			out.Offcuts[o] = []Part{{i, RoleEnder, c.pieces[i].Ender}}
		}
	}
	out.Planks = make([][]Part, 0, max(0, c.planks()))
	slab := make([]Part, 0, c.whole)
	add := func(parts ...Part) { out.Planks = append(out.Planks, parts) }
	whole := func(run int, role Role) {
		slab = append(slab, Part{run, role, in.Plank})
		out.Planks = append(out.Planks, slab[len(slab)-1:len(slab):len(slab)])
	}
	for h := range c.heads {
		if !taken[h] {
			add(c.parts(&c.heads[h])...)
		}
	}
	for e, h := range c.mate {
		if h < 0 && !onHand[e] {
			i := c.enders[e]
			add(Part{i, RoleEnder, c.pieces[i].Ender})
		}
	}
	for i, p := range c.pieces {
		if p.Single == in.Plank {
			whole(i, RoleSingle)
		}
		if p.Starter == in.Plank {
			whole(i, RoleStarter)
		}
		for range p.Field {
			whole(i, RoleField)
		}
		if p.Ender == in.Plank {
			whole(i, RoleEnder)
		}
	}
	Sort(out.Planks)
	return out
}

// Sort orders planks by when they are first needed: by their first run, and in one run by what they serve in it.
func Sort(planks [][]Part) {
	first := func(parts []Part) int {
		run := parts[0].Run
		for _, p := range parts {
			run = min(run, p.Run)
		}
		return run
	}
	slices.SortStableFunc(planks, func(a, b []Part) int {
		x, y := first(a), first(b)
		return cmp.Or(cmp.Compare(x, y), cmp.Compare(rank(a, x), rank(b, y)))
	})
}

// rank orders the planks of one run by what they first serve in it.
func rank(parts []Part, run int) Role {
	k := RoleSingle
	for _, p := range parts {
		if p.Run == run {
			k = min(k, p.Role)
		}
	}
	return k
}

// parts lists a board from its left end: the ender keeps the plank's left end, the starter its right end.
func (c *cutter) parts(b *board) []Part {
	var out []Part
	if b.ender >= 0 {
		out = append(out, Part{b.ender, RoleEnder, c.pieces[b.ender].Ender})
	}
	for _, i := range b.singles {
		out = append(out, Part{i, RoleSingle, c.pieces[i].Single})
	}
	if b.starter >= 0 {
		out = append(out, Part{b.starter, RoleStarter, c.pieces[b.starter].Starter})
	}
	return out
}
