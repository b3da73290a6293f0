package rows

import (
	"fmt"
	"slices"

	"plank.example/cutopt/measure"
)

// A Packing says, for each run laid in one piece, whose plank its piece comes from: that of the starter, or of the
// one-piece run, Packing[i]; -1 for a plank shared with no such piece, and for every run that is not in one piece. A
// host is not itself packed with another run, and its starter is no whole plank. Whether an ender shares the plank too
// is not for the packing to say: enders are matched with what it makes.
type Packing []int

// CheckPacking reports the first run whose entry the packing may not have, or whose plank is overfull, as an [*Error].
// The layout must pass Check. nil is a packing, which leaves the matter to Cut. It takes O(runs).
func (in *Instance) CheckPacking(layout Layout, packing Packing) error {
	if packing == nil {
		return nil
	}
	if len(packing) != len(layout) {
		return &Error{
			Field: "number of hosts", Value: fmt.Sprint(len(packing)),
			Rule: fmt.Sprintf(
				"a packing has one entry for each of the %d runs",
				len(layout),
			), Mend: "write -1 for a run without a host",
		}
	}
	used := make([]measure.Length, len(layout)) // of the plank of each host
	for i, s := range layout {
		used[i] = s
		if s == 0 {
			used[i] = in.Runs[i].Length
		}
	}
	for i, h := range packing {
		if h == -1 {
			continue
		}
		wrong := &Error{Field: fmt.Sprintf("packing[%d]", i), Value: fmt.Sprint(h), Mend: "write -1 for a plank of its own"}
		switch {
		case layout[i] != 0:
			wrong.Rule = "only a run in one piece has a host"
		case h < 0 || h >= len(layout) || h == i:
			wrong.Rule = fmt.Sprintf("a host is another of the %d runs", len(layout))
		case packing[h] != -1:
			wrong.Rule = "a host has no host itself"
		default:
			if used[h] += in.Kerf + in.Runs[i].Length; used[h] <= in.Plank {
				continue
			}
			wrong.Rule = fmt.Sprintf("the plank of run %d is overfull by %d", h, used[h]-in.Plank)
		}
		return wrong
	}
	return nil
}

// packWork bounds the search for a packing, in boards and enders looked at.
const packWork = 1_000_000

// pack seeks a packing with which the layout needs fewer planks than it is known to, as Cut describes it, and returns
// nil where there is none or the work is spent.
func (c *cutter) pack(singles []int, known int) Packing {
	p := &packer{plank: c.in.Plank, kerf: c.in.Kerf, singles: c.lengths(singles), seen: make(map[visit]struct{})}
	material := measure.Length(0)
	for i := range c.pieces {
		if h := c.headOf[i]; h >= 0 && c.heads[h].starter == i {
			p.heads = append(p.heads, c.pieces[i].Starter)
		}
	}
	for e := range c.enders {
		p.rooms = append(p.rooms, c.roomOf(e))
		material += c.pieces[c.enders[e]].Ender + p.kerf
	}
	for _, x := range slices.Concat(p.heads, p.singles) {
		material += x + p.kerf
	}
	for _, o := range c.in.Offcuts {
		material -= min(material, o.Length+p.kerf)
	}
	slices.Sort(p.heads)
	slices.Sort(p.rooms)
	whole := p.plank + p.kerf
	least := int((material + whole - 1) / whole)
	if len(c.in.Offcuts) == 0 {
		least = max(least, p.count(), p.crowd())
	}
	p.best, p.least = known-c.whole, least
	if len(c.in.Offcuts) > 0 {
		p.best = len(p.heads) + len(p.rooms) + len(p.singles) + 1 // what offcuts hold is not counted here
	}
	if p.best > p.least && len(p.rooms) < packWork/(len(p.heads)+len(p.singles)+1) {
		p.search(0, 0)
	}
	if p.found == nil {
		return nil
	}
	return c.hosts(singles, p)
}

// lengths sorts one-piece runs, longest first, and returns their lengths.
func (c *cutter) lengths(singles []int) []measure.Length {
	slices.SortStableFunc(singles, func(a, b int) int { return int(c.pieces[b].Single - c.pieces[a].Single) })
	out := make([]measure.Length, len(singles))
	for k, i := range singles {
		out[k] = c.pieces[i].Single
	}
	return out
}

// A packer searches for the boards that one-piece runs go to. A board is known by how much of it is used; equal ones
// need not be told apart.
type packer struct {
	plank, kerf measure.Length
	singles     []measure.Length // longest first
	heads       []measure.Length // used of each board without its ender, ascending
	rooms       []measure.Length // beside each ender, ascending
	choice      []measure.Length // by single placed: what was used of its board before; 0 for an empty one
	found       []measure.Length // the best choice
	best, least int              // planks
	work        int
	seen        map[visit]struct{}
}

// A visit is how many singles are placed and a hash of the boards.
type visit struct {
	placed int
	boards uint64
}

// count returns the planks of the boards and enders at hand: all of them, less a largest matching.
func (p *packer) count() int {
	k := 0
	for _, room := range p.rooms {
		if k < len(p.heads) && p.heads[k] <= room {
			k++
		}
	}
	p.work += 1 + len(p.rooms)
	return len(p.heads) + len(p.rooms) - k
}

// crowd returns a bound on the planks: a plank holds at most k pieces longer than its (k+1)th part, each with its kerf.
func (p *packer) crowd() int {
	whole, least := p.plank+p.kerf, 0
	for k := 1; k < 10; k++ {
		long, part := 0, whole/measure.Length(k+1)
		for _, x := range slices.Concat(p.heads, p.singles) {
			if x+p.kerf > part {
				long++
			}
		}
		for _, room := range p.rooms { // a plank less the ender and its kerf
			if p.plank-room > part {
				long++
			}
		}
		least = max(least, (long+k-1)/k)
	}
	return least
}

// search places the singles from the k-th on. The planks at hand are a bound: each single makes a board longer, or one
// more.
func (p *packer) search(k int, boards uint64) {
	if p.work > packWork {
		return
	}
	if k == len(p.singles) {
		if n := p.count(); n < p.best {
			p.best, p.found = n, slices.Clone(p.choice)
		}
		return
	}
	v := visit{k, boards}
	if _, ok := p.seen[v]; ok {
		return
	}
	p.seen[v] = struct{}{}
	type option struct {
		before, after measure.Length
		planks        int
	}
	p.work += len(p.heads) / 8 // to go through them takes less than to count, and boards are kept in order
	var options []option
	x := p.singles[k]
	fits, _ := slices.BinarySearch(p.heads, p.plank-p.kerf-x+1) // boards with room for it
	for h := fits; h >= 0; h-- {
		o := option{0, x, 0}
		if h > 0 {
			before := p.heads[h-1]
			o = option{before, before + p.kerf + x, 0}
			if h < fits && p.heads[h] == before {
				continue
			}
		}
		p.move(o.before, o.after)
		o.planks = p.count()
		p.move(o.after, o.before)
		if o.planks < p.best {
			options = append(options, o)
		}
	}
	slices.SortStableFunc(options, func(a, b option) int { return a.planks - b.planks }) // and the fullest board first
	for _, o := range options {
		if o.planks >= p.best || p.best <= p.least || p.work > packWork {
			return
		}
		p.move(o.before, o.after)
		p.choice = append(p.choice, o.before)
		p.search(k+1, boards-mix(o.before)+mix(o.after))
		p.choice = p.choice[:k]
		p.move(o.after, o.before)
	}
}

// move replaces a board by a longer or shorter one; 0 stands for none.
func (p *packer) move(from, to measure.Length) {
	if from > 0 {
		i, _ := slices.BinarySearch(p.heads, from)
		p.heads = slices.Delete(p.heads, i, i+1)
	}
	if to > 0 {
		i, _ := slices.BinarySearch(p.heads, to)
		p.heads = slices.Insert(p.heads, i, to)
	}
}

// mix spreads a length over 64 bits (the finaliser of SplitMix64), so that sums tell boards apart.
func mix(l measure.Length) uint64 {
	if l == 0 {
		return 0
	}
	z := uint64(l) * 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// hosts turns what the search found into runs.
func (c *cutter) hosts(singles []int, p *packer) Packing {
	packing := make(Packing, len(c.pieces))
	at := make(map[measure.Length][]int) // hosts of boards by what is used of them
	for i := range packing {
		packing[i] = -1
		if h := c.headOf[i]; h >= 0 && c.heads[h].starter == i {
			at[c.pieces[i].Starter] = append(at[c.pieces[i].Starter], i)
		}
	}
	for k, i := range singles {
		before, after := p.found[k], c.pieces[i].Single
		host := i
		if before > 0 {
			last := len(at[before]) - 1
			host = at[before][last]
			at[before] = at[before][:last]
			packing[i], after = host, before+p.kerf+after
		}
		at[after] = append(at[after], host)
	}
	return packing
}
