// Package change finds, among the layouts that need no more planks than allowed, one that changes as little as it can
// of a layout before: the starters of few runs, and of few of those for which pieces are sawn already.
//
// Where the layout before still keeps the rules and needs no more, it is the answer. Else a layout that does is shrunk
// towards it: parts of what it changes, halves at first and single runs in the end, are laid as before again, while
// walks of package search mend the rest, in which only the runs that are changed anyway may move. Besides, every run by
// itself is tried with every starter that matters, and pairs of runs are as far as the budget goes, so a change of one
// run is missed only where a floor is large. In the end what is changed anyway is laid so that the floor looks better.
package change

import (
	"math/rand/v2"
	"slices"

	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// None is the starter before of a run that had none.
const None measure.Length = -1

// A Problem is a layout before and what may be needed now.
type Problem struct {
	Instance *rows.Instance
	Before   rows.Layout // by run: its starter before, or None; it need not keep the rules
	Cost     []int       // by run: of another starter, 1 or more; not read where there was none before
	Groups   []Group     // what was cut together before
	Cap      int         // planks that may be used, as Instance.Count counts them, or cut as before
	Layout   rows.Layout // one that keeps the rules and needs no more
	Packing  rows.Packing
	Looks    func(rows.Layout) int // how bad a layout looks, 0 or more; nil where that does not matter
	Steps    int64                 // about so many moves of walks, and of what takes as long
	Seed     uint64
	Stop     func() bool
}

// An Outcome is the layout found.
type Outcome struct {
	Layout  rows.Layout
	Packing rows.Packing // nil where Instance.Count finds one as good, or Cut does with what was cut together before
	Cost    int          // of the runs changed
	Steps   int64
}

// Least finds the layout. The same problem gives the same outcome, unless stopped.
func Least(p *Problem) *Outcome {
	s := &searcher{Problem: p, table: starters.New(p.Instance)}
	s.best = Outcome{Layout: slices.Clone(p.Layout), Packing: p.Packing, Cost: s.cost(p.Layout)}
	s.forced()
	if !s.try(s.base, nil) && s.best.Cost > s.least && !s.stays() {
		s.search()
	}
	s.smooth()
	s.best.Steps = s.steps
	return &s.best
}

// search changes less and less.
func (s *searcher) search() {
	s.lists = search.Lattice(s.table, s.Instance.Grid)
	s.mend()
	s.shrink(nil)
	if s.again(); s.best.Cost > s.least {
		s.single()
		s.pairs()
	}
}

// A searcher is a search under way.
type searcher struct {
	*Problem
	table *starters.Table
	base  rows.Layout // as before where that is allowed, else as in Layout
	free  []bool      // by run: it is not laid as before, since it cannot be or was not there
	least int         // the cost of those: no layout has less
	lists [][]measure.Length
	best  Outcome
	steps int64
	tries uint64
}

// spent reports whether the search is at an end.
func (s *searcher) spent() bool {
	return s.steps >= s.Steps || s.best.Cost == s.least || s.Stop != nil && s.Stop()
}

// cost adds up the runs that a layout changes.
func (s *searcher) cost(layout rows.Layout) (n int) {
	for i, x := range layout {
		if s.Before[i] != None && s.Before[i] != x {
			n += s.Cost[i]
		}
	}
	return n
}

// forced finds the runs that cannot be laid as before.
func (s *searcher) forced() {
	s.base, s.free = slices.Clone(s.Before), make([]bool, len(s.Before))
	for i, x := range s.Before {
		if x != None {
			if _, ok := s.Instance.Lay(i, x); ok {
				continue
			}
			s.least += s.Cost[i]
		}
		s.base[i], s.free[i] = s.Layout[i], true
	}
}

// try takes a layout if it keeps the rules, needs no more than allowed and changes less than the best.
func (s *searcher) try(layout rows.Layout, packing rows.Packing) bool {
	cost := s.cost(layout)
	if cost >= s.best.Cost || s.Instance.Check(layout) != nil {
		return false
	}
	s.steps += int64(len(layout))
	packing, ok := s.packed(layout, packing)
	if !ok {
		return false
	}
	s.best = Outcome{Layout: slices.Clone(layout), Packing: slices.Clone(packing), Cost: cost}
	return true
}

// packed returns the packing with which a layout needs no more than allowed, if there is one: nil where the planner's
// own finds one as good. A search for it takes as long as a thousand layouts, so it is made where little is missing.
func (s *searcher) packed(layout rows.Layout, packing rows.Packing) (rows.Packing, bool) {
	const search, little = 20_000, 1 // steps, planks
	over, packing := s.over(layout, packing)
	if over <= 0 || over > little || !slices.Contains(layout, 0) {
		return packing, over <= 0
	}
	s.steps += search
	return nil, s.Instance.Count(layout, nil) <= s.Cap
}

// over returns by how many planks more than allowed a layout needs, at most, and with which packing: that given, or
// nil.
func (s *searcher) over(layout rows.Layout, packing rows.Packing) (int, rows.Packing) {
	over := s.Instance.CountBestFit(layout) - s.Cap
	// A packing of another layout may name a run that has no board.
	if over > 0 && packing != nil && s.Instance.CheckPacking(layout, packing) == nil &&
		s.Instance.Count(layout, packing) <= s.Cap {
		return 0, packing
	}
	return over, nil
}

// stays takes the layout before where it is cut as before with no more planks than allowed: Instance.Count may know of
// no such cutting, where one-piece runs share planks and offcuts with others.
func (s *searcher) stays() bool {
	if s.Groups == nil || s.Instance.Check(s.base) != nil || staying(s.Instance, s.base, s.Groups, s.Cap) == nil {
		return false
	}
	s.best = Outcome{Layout: slices.Clone(s.base), Cost: s.least}
	return true
}

// walk looks for a layout in which only some runs are laid other than as before, from a start, and takes it if it is
// better than the best.
func (s *searcher) walk(may []bool, start rows.Layout, steps int) bool {
	if s.spent() {
		return false
	}
	domain := make([][]measure.Length, len(start))
	held := slices.Clone(start)
	setup := 16 * len(start) // what it takes to begin, eight starters a step
	listed := make([]bool, len(s.table.Classes))
	for i := range domain {
		if may[i] || s.free[i] {
			domain[i] = s.lists[i]
			if c := s.table.ClassOf[i]; !listed[c] {
				listed[c] = true
				setup += len(domain[i]) / 8
			}
			continue
		}
		held[i] = s.base[i]
		domain[i] = held[i : i+1 : i+1]
	}
	s.tries++
	a := search.Attempt{
		Domain: search.NewDomain(s.table, domain), Start: slices.Clone(held), Packing: s.best.Packing,
		Target: s.Cap, Steps: steps, Seed: s.Seed + s.tries, Stop: func() bool { return s.Stop != nil && s.Stop() },
	}
	layout, packing, n, ok := a.Run()
	s.steps += int64(n + setup)
	return ok && s.try(layout, packing)
}

// changed lists the runs that the best layout changes though it need not, the cheapest first.
func (s *searcher) changed() (list []int) {
	for i, x := range s.best.Layout {
		if !s.free[i] && s.Before[i] != x {
			list = append(list, i)
		}
	}
	s.dearest(list)
	return list
}

// dearest puts the dearest runs last.
func (s *searcher) dearest(list []int) {
	slices.SortStableFunc(list, func(a, b int) int { return s.Cost[a] - s.Cost[b] })
}

// perWalk bounds the moves of a walk by the runs that may move.
func perWalk(runs int) int { return 1500 + 150*runs }

// mend walks from the layout before: first with the runs free that clash or cannot be laid as before, and those that
// touch them, then with all.
func (s *searcher) mend() {
	n := len(s.base)
	may := make([]bool, n)
	any := slices.Contains(s.free, true)
	for _, t := range s.Instance.Touch {
		a, b := t[0], t[1]
		p, _ := s.Instance.Lay(a, s.base[a])
		q, _ := s.Instance.Lay(b, s.base[b])
		in := s.Instance
		if s.free[a] || s.free[b] || in.Clash(in.Runs[a].From+s.base[a], p.Joints(), in.Runs[b].From+s.base[b], q.Joints()) {
			may[a], may[b], any = true, true, true
		}
	}
	if any {
		s.walk(may, s.base, perWalk(n))
	}
	all := slices.Repeat([]bool{true}, n)
	for range 2 {
		s.walk(all, s.base, 4*perWalk(n))
	}
}

// shrink lays parts of what the best layout changes as before, while the rest of it is mended: the dearest first, or
// in an order that is drawn.
func (s *searcher) shrink(rng *rand.Rand) {
	for size := (len(s.changed()) + 1) / 2; size > 0; {
		gained := false
		list := s.changed()
		if rng != nil {
			rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
			s.dearest(list)
		}
		for end := len(list); end > 0 && !s.spent(); end -= size {
			may := make([]bool, len(s.base))
			for _, i := range list {
				may[i] = true
			}
			layout := slices.Clone(s.best.Layout)
			for _, i := range list[max(0, end-size):end] {
				may[i], layout[i] = false, s.base[i]
			}
			if s.try(layout, s.best.Packing) || s.walk(may, layout, perWalk(len(list))) {
				gained = true
				break
			}
		}
		switch {
		case s.spent():
			return
		case gained:
			size = min(size, max(1, (len(s.changed())+1)/2))
		default:
			size /= 2
		}
	}
}

// again shrinks other layouts that need no more, in other orders: those that walks from the layout before end at with
// other seeds. Where what may be used is so tight that none ends, as with not a plank over, it is the layout given.
func (s *searcher) again() {
	const rounds, tight = 3, 8
	all := slices.Repeat([]bool{true}, len(s.base))
	ends := true
	for n := range tight {
		if ends && n == rounds || s.spent() {
			return
		}
		kept := s.best
		s.best.Cost = 1 << 40
		if ends = ends && s.walk(all, s.base, 4*perWalk(len(s.base))); !ends {
			s.best = Outcome{Layout: s.Layout, Packing: s.Problem.Packing, Cost: s.cost(s.Layout)}
		}
		if s.shrink(rand.New(rand.NewPCG(s.Seed, uint64(n)))); kept.Cost <= s.best.Cost {
			s.best = kept
		}
	}
}

// single tries every run by itself, with the starters at which the count of planks may change: those that fit just
// beside an ender or on an offcut, whose enders leave just what a starter takes, at the ends of its stretches, and
// those that just keep the stagger.
func (s *searcher) single() {
	layout := slices.Clone(s.base)
	for _, i := range s.order() {
		if s.Cost[i]+s.least >= s.best.Cost {
			continue
		}
		for _, x := range s.candidates(i) {
			if s.spent() {
				return
			}
			s.steps++
			if layout[i] = x; s.try(layout, nil) {
				break
			}
		}
		layout[i] = s.base[i]
	}
}

// order lists the runs that need not change, the cheapest first.
func (s *searcher) order() (list []int) {
	for i := range s.base {
		if !s.free[i] {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return s.Cost[a] - s.Cost[b] })
	return list
}

// candidates lists starters of run i that matter for the count or the stagger, in no more than its domain.
func (s *searcher) candidates(i int) []measure.Length {
	const few = 64
	list := s.lists[i]
	if len(list) <= few {
		return list
	}
	in, l := s.Instance, s.Instance.Plank
	var wanted []measure.Length
	starter := func(x measure.Length) { wanted = append(wanted, x) }
	ender := func(e measure.Length) { // the starter that leaves it
		x := ((in.Runs[i].Length-e)%l + l) % l
		wanted = append(wanted, x, x+in.Grid)
	}
	for j, x := range s.base {
		p, _ := in.Lay(j, x)
		if p.Single > 0 || j == i {
			continue
		}
		starter(l - in.Kerf - p.Ender)
		ender(l - in.Kerf - p.Starter)
	}
	for _, o := range in.Offcuts {
		starter(o.Length)
		ender(o.Length)
	}
	for _, tie := range s.table.Ties[i] {
		x := ((tie.Delta+s.base[tie.Run])%l + l) % l
		wanted = append(wanted, (x+in.Stagger+in.Grid-1)%l, (x-in.Stagger+l)%l)
	}
	for _, seg := range s.table.Of(i).Segments {
		wanted = append(wanted, seg.Lo, seg.Hi)
	}
	wanted = append(wanted, list[0], list[len(list)-1])
	var out []measure.Length
	for _, x := range wanted { // the longest of the domain up to each
		k, found := slices.BinarySearch(list, x)
		if !found && k > 0 {
			k--
		}
		out = append(out, list[min(k, len(list)-1)])
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// pairs lets two runs change, touching ones and others, as long as the budget lasts.
func (s *searcher) pairs() {
	list := s.order()
	for apart := 1; apart < len(list); apart++ {
		for k := apart; k < len(list); k++ {
			a, b := list[k-apart], list[k]
			if s.Cost[a]+s.Cost[b]+s.least >= s.best.Cost {
				continue
			}
			if s.spent() {
				return
			}
			may := make([]bool, len(s.base))
			may[a], may[b] = true, true
			s.walk(may, s.base, 1000)
		}
	}
}
