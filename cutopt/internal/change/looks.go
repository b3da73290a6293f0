package change

import (
	"slices"

	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// mostLooks is how many layouts are looked at for better looks, each some hundred steps.
const mostLooks = 1500

// smooth gives runs that are laid otherwise than before anyway starters with which the floor looks better: two of one
// length change places, which needs the same planks, or one takes another starter where that needs no more.
func (s *searcher) smooth() {
	if s.Looks == nil {
		return
	}
	var runs []int
	for i, x := range s.best.Layout {
		if x != s.Before[i] && s.Instance.Runs[i].Starter == 0 {
			runs = append(runs, i)
		}
	}
	if len(runs) == 0 {
		return
	}
	g := &smoother{searcher: s, layout: slices.Clone(s.best.Layout), packing: s.best.Packing, left: mostLooks}
	if g.looks = s.Looks(g.layout); g.looks == 0 {
		return
	}
	if s.lists == nil {
		s.lists = search.Lattice(s.table, s.Instance.Grid)
	}
	for gained := true; gained && g.looks > 0; {
		gained = false
		for k, i := range runs {
			for _, j := range runs[k+1:] {
				if s.Instance.Runs[i].Length == s.Instance.Runs[j].Length && g.take(i, g.layout[j], j, g.layout[i]) {
					gained = true
				}
			}
		}
		for _, i := range runs {
			for _, x := range s.spread(i, g.layout[i]) {
				if g.take(i, x, i, x) {
					gained = true
				}
			}
		}
	}
	s.best.Layout, s.best.Packing = g.layout, g.packing
}

// A smoother is a layout that is made to look better.
type smoother struct {
	*searcher
	layout  rows.Layout
	packing rows.Packing
	looks   int
	left    int // layouts to look at
}

// take lays runs i and j, which may be the same, with other starters where that is allowed and looks better.
func (g *smoother) take(i int, x measure.Length, j int, y measure.Length) bool {
	switch {
	case g.left <= 0 || g.looks == 0 || g.Stop != nil && g.Stop():
		return false
	case x == g.layout[i] || x == g.Before[i] || y == g.Before[j]:
		return false
	}
	was, and := g.layout[i], g.layout[j]
	g.layout[i], g.layout[j] = x, y
	if g.keeps(i) && g.keeps(j) {
		g.left--
		g.steps += 100
		if n := g.Looks(g.layout); n < g.looks {
			if over, packing := g.over(g.layout, g.packing); over <= 0 {
				g.looks, g.packing = n, packing
				return true
			}
		}
	}
	g.layout[j], g.layout[i] = and, was
	return false
}

// keeps reports whether a run can be laid as it is, with the stagger to those that it touches.
func (g *smoother) keeps(i int) bool {
	in := g.Instance
	p, ok := in.Lay(i, g.layout[i])
	if !ok {
		return false
	}
	for _, tie := range g.table.Ties[i] {
		q, _ := in.Lay(tie.Run, g.layout[tie.Run])
		if in.Clash(in.Runs[i].From+g.layout[i], p.Joints(), in.Runs[tie.Run].From+g.layout[tie.Run], q.Joints()) {
			return false
		}
	}
	return true
}

// spread lists starters of a run: those that matter for the count, some near to the one at hand, and some of all.
func (s *searcher) spread(i int, at measure.Length) []measure.Length {
	const few, near = 16, 4
	list := s.lists[i]
	out := slices.Clone(s.candidates(i))
	k, _ := slices.BinarySearch(list, at)
	for d := 1; d <= near; d++ {
		for _, n := range []int{k - d*len(list)/64, k + d*len(list)/64} {
			if n >= 0 && n < len(list) {
				out = append(out, list[n])
			}
		}
	}
	for n := range few {
		out = append(out, list[n*len(list)/few])
	}
	slices.Sort(out)
	return slices.Compact(out)
}
