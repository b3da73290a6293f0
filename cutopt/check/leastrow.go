package check

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt/measure"
)

// mostAtoms is the most parts of floor in a row of which it is not sure which make one run that all ways to join them
// are listed of; of more only the longest is a run.
const mostAtoms = 5

// An atom is floor of a row that lies in one run beyond doubt.
type atom struct {
	from, to, low, high float64
	slabs               [2]int // from its first to its last, inclusive
}

// A leastRow takes the runs of a row apart.
type leastRow struct {
	*leastGround
	band  *band
	ends  []float64   // where corners lie along the row, wherever its lines may be
	kept  [][]section // by slab: what no trim hides, where it is laid beyond doubt; empty sections are none
	root  [][]int     // by slab and section: an atom of atoms
	atoms []atom
	of    []int // by atom: the one that it was joined to
}

// row lists what the runs of a row may be at least: one list of lengths for each way that its floor may fall into runs.
func (g *leastGround) row(b *leastBand) [][]measure.Length {
	r := &leastRow{leastGround: g, band: b.band}
	r.ends = slices.Clone(r.band.places)
	r.gather()
	ways := [][]measure.Length{nil}
	for _, span := range r.spans(b.low-off, b.high+off) {
		ways = crossed(ways, r.ways(span))
	}
	return ways
}

// spans returns the extents along the row of floor between two lines that is parted from other floor there by no floor
// at all, all across the row.
func (r *leastRow) spans(low, high float64) [][2]float64 {
	var out [][2]float64
	for i := range r.all {
		if r.all[i].At.Y >= high {
			break
		}
		if r.all[i].To.Y <= low {
			continue
		}
		if c, ok := cutOf(&r.all[i], low, high); ok {
			out = append(out, [2]float64{min(c.left0, c.left1), max(c.right0, c.right1)})
			r.ends = append(r.ends, c.left0, c.left1, c.right0, c.right1)
		}
	}
	slices.SortFunc(out, func(a, b [2]float64) int { return slices.Compare(a[:], b[:]) })
	n := 0
	for _, s := range out {
		if n > 0 && s[0] <= out[n-1][1]+r.gap {
			out[n-1][1] = max(out[n-1][1], s[1])
			continue
		}
		out[n] = s
		n++
	}
	return out[:n]
}

// keep returns the part of a section that no trim hides: higher than that, or between edges that are not parallel.
func (r *leastRow) keep(s *section) section {
	if s.tilt() > 0 {
		return *s
	}
	part, ok := s.above((r.hidden + doubt) / s.square())
	if !ok {
		return section{}
	}
	return part
}

// gather joins sections that go on in each other into atoms.
func (r *leastRow) gather() {
	several := r.walled()
	for i, slab := range r.band.slabs {
		kept, roots := make([]section, len(slab)), make([]int, len(slab))
		for k := range slab {
			kept[k], roots[k] = r.keep(&slab[k]), -1
			if p := &kept[k]; p.to > p.from {
				roots[k] = len(r.atoms)
				r.atoms = append(r.atoms, atom{
					p.from, p.to, min(p.low0, p.low1), max(p.high0, p.high1), [2]int{i, i},
				})
				r.of = append(r.of, roots[k])
			}
		}
		if r.kept, r.root = append(r.kept, kept), append(r.root, roots); i == 0 {
			continue
		}
		before := r.kept[i-1]
		goes := func(j, k int) bool {
			a, b := &before[j], &kept[k]
			return r.root[i-1][j] >= 0 && roots[k] >= 0 && a.to == b.from && b.meets(a) > r.hidden+doubt
		}
		met := func(of func(n int) bool, n int) (count int) {
			for m := range n {
				if of(m) {
					count++
				}
			}
			return count
		}
		for j := range before {
			for k := range kept {
				if !goes(j, k) {
					continue
				}
				touch := func(a, b *section) bool { return b.meets(a) > -2 }
				forked := met(func(m int) bool { return touch(&r.band.slabs[i-1][j], &slab[m]) }, len(slab)) > 1 ||
					met(func(m int) bool { return touch(&r.band.slabs[i-1][m], &slab[k]) }, len(before)) > 1
				if !several || !forked {
					r.join(r.root[i-1][j], roots[k])
				}
			}
		}
	}
}

// walled reports whether a wall between two rooms may stand in the row.
func (r *leastRow) walled() bool {
	if r.floor == nil {
		return false
	}
	const inside = 16 // ticks into the floor
	for _, slab := range r.band.slabs {
		for k := 1; k < len(slab); k++ {
			p, q := &slab[k-1], &slab[k]
			x := (p.from + p.to) / 2
			a := roomAt(r.floor, x, (p.high0+p.high1)/2-inside)
			if b := roomAt(r.floor, x, (q.low0+q.low1)/2+inside); a < 0 || a != b {
				return true
			}
		}
	}
	return false
}

func (r *leastRow) first(i int) int {
	for r.of[i] != i {
		r.of[i] = r.of[r.of[i]]
		i = r.of[i]
	}
	return i
}

// join makes two atoms one.
func (r *leastRow) join(i, j int) {
	i, j = r.first(i), r.first(j)
	if i == j {
		return
	}
	a, b := &r.atoms[i], &r.atoms[j]
	a.from, a.to, a.low, a.high = min(a.from, b.from), max(a.to, b.to), min(a.low, b.low), max(a.high, b.high)
	a.slabs = [2]int{min(a.slabs[0], b.slabs[0]), max(a.slabs[1], b.slabs[1])}
	r.of[j] = i
}

// ways lists the lengths of the runs of what lies in a span, one list for each way in which it may fall into runs.
func (r *leastRow) ways(span [2]float64) [][]measure.Length {
	var here []int
	for i := range r.atoms {
		a := &r.atoms[i]
		if r.of[i] == i && a.from >= span[0]-1 && a.to <= span[1]+1 &&
			a.to-a.from > r.hidden+doubt && a.high-a.low > r.hidden+doubt {
			here = append(here, i)
		}
	}
	if len(here) == 0 {
		return [][]measure.Length{nil}
	}
	parted := r.parted(here)
	if !r.walled() { // in one room what lies beside each other across the row is one run
		slices.SortFunc(here, func(i, j int) int { return cmp.Compare(r.atoms[i].from, r.atoms[j].from) })
		for x := 1; x < len(here); x++ {
			last := r.first(here[x-1])
			if a, b := &r.atoms[last], &r.atoms[here[x]]; min(a.to, b.to)-b.from > doubt {
				r.join(last, here[x])
				here[x] = last
			}
		}
		here = slices.Compact(here)
	}
	if len(here) > mostAtoms {
		longest := 0
		for x, i := range here {
			if a, b := &r.atoms[i], &r.atoms[here[longest]]; a.to-a.from > b.to-b.from {
				longest = x
			}
		}
		here = here[longest : longest+1]
	}
	var out [][]measure.Length
	block := make([]int, len(here))
	var part func(k, blocks int)
	part = func(k, blocks int) {
		if k == len(here) {
			out = append(out, r.lengths(here, block, blocks))
			return
		}
	next:
		for b := range blocks + 1 {
			for j := range k {
				if block[j] == b && parted[[2]int{here[j], here[k]}] {
					continue next
				}
			}
			block[k] = b
			part(k+1, max(blocks, b+1))
		}
	}
	part(0, 0)
	return fewestWays(out)
}

// lengths returns those of the runs that some atoms make, each block of them one, the longest first.
func (r *leastRow) lengths(atoms, block []int, blocks int) []measure.Length {
	var out []measure.Length
	for b := range blocks {
		from, to := math.Inf(1), math.Inf(-1)
		for k, i := range atoms {
			if block[k] == b {
				from, to = min(from, r.atoms[i].from), max(to, r.atoms[i].to)
			}
		}
		if l := r.length(from, to); l > 0 {
			out = append(out, l)
		}
	}
	slices.SortFunc(out, longerFirst)
	return out
}

func longerFirst(a, b measure.Length) int { return int(min(max(b-a, -1), 1)) }

// length returns how long a run is at least that reaches from wall to wall between two places.
func (r *leastRow) length(from, to float64) measure.Length {
	long := to - from - 2*off
	if !r.upright(from, from+r.hidden+doubt) {
		long -= r.hidden + doubt
	}
	if !r.upright(to-r.hidden-doubt, to) {
		long -= r.hidden + doubt
	}
	step := max(r.grid, 32)
	// Walls lie at whole ticks and halves of them: what is rounded elsewhere by a bit is not cut off there.
	return (measure.Length(math.Floor(long-0.25)) + r.fit) / step * step
}

// upright reports whether no corner lies between two places along the row, and no edge there slants: a run that ends
// beside one is not cut square farther in.
func (r *leastRow) upright(from, to float64) bool {
	for _, x := range r.ends {
		if x > from+0.5 && x < to-0.5 {
			return false
		}
	}
	level := func(a, b float64) bool { return math.Abs(a-b) <= 0.5 }
	for _, slab := range r.band.slabs {
		for i := range slab {
			if s := &slab[i]; s.from < to-0.5 && s.to > from+0.5 && !(level(s.low0, s.low1) && level(s.high0, s.high1)) {
				return false
			}
		}
	}
	return true
}

// parted returns the pairs of atoms between which a wall between two rooms stands beyond doubt, both ways round.
func (r *leastRow) parted(atoms []int) map[[2]int]bool {
	if r.floor == nil {
		return nil
	}
	out := make(map[[2]int]bool)
	long := make(map[[2]int]float64) // up to the slab before
	for i, slab := range r.band.slabs {
		here := make(map[[2]int]float64)
		for k := range slab {
			for j := range k {
				if r.root[i][j] < 0 || r.root[i][k] < 0 {
					continue
				}
				a, b := r.first(r.root[i][j]), r.first(r.root[i][k])
				if a == b || !slices.Contains(atoms, a) || !slices.Contains(atoms, b) {
					continue
				}
				p, q := &slab[j], &slab[k]
				x := (p.from + p.to) / 2
				if _, _, walled := wallBetween(r.floor, x, (p.high0+p.high1)/2, (q.low0+q.low1)/2); !walled {
					continue
				}
				pair := [2]int{min(a, b), max(a, b)}
				if here[pair] = long[pair] + p.to - p.from; here[pair] > r.notch+doubt {
					out[pair], out[[2]int{pair[1], pair[0]}] = true, true
				}
			}
		}
		long = here
	}
	return out
}

// crossed joins each list with each of others, and makes them one list that is no longer anywhere where they are many.
// The memory of lists is used again: a hall has a list of as many runs as it has rows.
func crossed(lists, others [][]measure.Length) [][]measure.Length {
	if len(others) == 1 && len(others[0]) == 0 {
		return lists
	}
	if len(lists) == 1 && len(others) == 1 {
		for _, x := range others[0] {
			k, _ := slices.BinarySearchFunc(lists[0], x, longerFirst)
			lists[0] = slices.Insert(lists[0], k, x)
		}
		return lists
	}
	out := make([][]measure.Length, 0, len(lists)*len(others))
	for _, a := range lists {
		for _, b := range others {
			both := append(slices.Clone(a), b...)
			slices.SortFunc(both, longerFirst)
			out = append(out, both)
		}
	}
	if out = fewestWays(out); len(out) > mostWays {
		for _, a := range out[1:] {
			out[0] = lesser(out[0], a)
		}
		out = out[:1]
	}
	return out
}

// mostWays is the most ways for the floor of one first row to fall into runs that are told apart.
const mostWays = 16

// lesser returns the least of two lists, place by place, the longest first.
func lesser(a, b []measure.Length) []measure.Length {
	out := slices.Clone(a[:min(len(a), len(b))])
	for i := range out {
		out[i] = min(out[i], b[i])
	}
	return out
}

// within reports whether a list is nowhere longer than another, and has no more: any layout of the other is worth as
// much at least.
func within(a, b []measure.Length) bool {
	if len(a) > len(b) {
		return false
	}
	for i := range a {
		if a[i] > b[i] {
			return false
		}
	}
	return true
}

// fewestWays leaves out lists that another is within.
func fewestWays(lists [][]measure.Length) [][]measure.Length {
	if len(lists) < 2 {
		return lists
	}
	var out [][]measure.Length
	for i, a := range lists {
		beaten := func(k int, b []measure.Length) bool { return within(b, a) && (k < i || !within(a, b)) }
		drop := false
		for k, b := range lists {
			if drop = k != i && beaten(k, b); drop {
				break
			}
		}
		if !drop {
			out = append(out, a)
		}
	}
	return out
}
