package solve

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/change"
	"plank.example/cutopt/rows"
)

// toldApart reports whether planks of different lots may not lie in one floor.
func (s *standing) toldApart() bool {
	return !s.site.Mixed && (len(s.site.Here) > 1 || len(s.site.Here) == 1 && s.site.Here[0].Name != "")
}

// apart reports whether floors are laid lot by lot: where lots are told apart of what is here, or of what is opened.
func (s *standing) apart() bool {
	return s.toldApart() ||
		!s.site.Mixed && slices.ContainsFunc(s.uses, func(u cutopt.PlankUse) bool { return u.Lot != "" })
}

// mostChoices bounds the choices of lots that are gone through: of check.Plan, which says whether one was as good as
// any.
const mostChoices = 100_000

// An assignment gives each floor its lot.
type assignment struct {
	s      *standing
	layout rows.Layout // of the problem, by which planks are counted
	lots   []string    // to choose from: those here, and "" for planks to be bought
	here   map[string]int
	of     []string // by floor
	free   []int    // floors that may have another
	counts map[counted]int
}

type counted struct {
	lot    string
	floors string // a byte for each floor
}

// assign chooses the lots of the floors: those of which something lies keep theirs, and the others are given those with
// which the fewest planks are missing when all is laid and cut as in a layout of the rest, floors of before kept in
// their lots where that is as good. All choices are gone through where these are few; else floors are given the lot
// that holds most of them, the largest floor first.
func (s *standing) assign(r *rest, layout rows.Layout) []string {
	a := &assignment{
		s: s, layout: make(rows.Layout, len(s.places)), here: make(map[string]int), counts: make(map[counted]int),
		of: make([]string, len(s.floors)),
	}
	for k, i := range r.full {
		a.layout[i] = layout[k]
	}
	for _, lot := range s.site.Here {
		a.here[lot.Name] += lot.Planks
		a.lots = append(a.lots, lot.Name)
	}
	if !slices.Contains(a.lots, "") {
		a.lots = append(a.lots, "")
	}
	choices := 1
	for f := range a.of {
		lot, fixed := s.lotOf(f)
		if a.of[f] = lot; fixed {
			continue
		}
		a.free = append(a.free, f)
		choices = min(choices*len(a.lots), mostChoices+1)
	}
	if choices <= mostChoices/50 {
		a.every()
	} else {
		a.greedy()
	}
	return a.of
}

// lotOf returns the lot of a floor in the plan before, and whether some of it lies or nothing is left to lay, so that
// it stays.
func (s *standing) lotOf(f int) (lot string, fixed bool) {
	lot = s.before.Floors[f].Lot
	left := false
	for i, at := range s.places {
		if at.room != f {
			continue
		}
		left = left || !s.runs[i].all
		for _, p := range s.runs[i].pieces {
			if fixed = true; lot == "" && p.Plank >= 1 && p.Plank <= len(s.uses) {
				lot = s.uses[p.Plank-1].Lot
			}
		}
	}
	return lot, fixed || !left
}

// needs counts the planks of no offcut that the floors of a lot take.
func (a *assignment) needs(lot string) int {
	key := counted{lot: lot}
	in := make([]byte, len(a.of))
	for f := range a.of {
		if a.of[f] == lot {
			in[f] = 1
		}
	}
	key.floors = string(in)
	if n, ok := a.counts[key]; ok {
		return n
	}
	r := a.s.rest(func(f int) bool { return in[f] == 1 }, func(p *part) bool { return a.s.uses[p.plank].Lot == lot })
	layout := make(rows.Layout, len(r.full))
	for k, i := range r.full {
		layout[k] = a.layout[i]
	}
	n := 0
	if len(layout) > 0 {
		n = r.in.CountBestFit(layout) - r.begun
	}
	a.counts[key] = n
	return n
}

// cost is what a choice is judged by: planks missing, floors in another lot than before, planks needed.
func (a *assignment) cost() [3]int {
	var c [3]int
	for _, lot := range a.lots {
		n := a.needs(lot)
		c[0] += max(0, n-a.here[lot])
		c[2] += n
	}
	for _, f := range a.free {
		if a.of[f] != a.s.before.Floors[f].Lot {
			c[1]++
		}
	}
	return c
}

// every goes through all choices.
func (a *assignment) every() {
	best, cost := slices.Clone(a.of), a.cost()
	var choose func(k int)
	choose = func(k int) {
		if k == len(a.free) {
			if c := a.cost(); slices.Compare(c[:], cost[:]) < 0 {
				best, cost = slices.Clone(a.of), c
			}
			return
		}
		for _, lot := range a.lots {
			a.of[a.free[k]] = lot
			choose(k + 1)
		}
	}
	choose(0)
	a.of = best
}

// greedy gives the floors their lots one by one.
func (a *assignment) greedy() {
	const none = "\x00" // of floors whose turn is yet to come
	size := make(map[int]int)
	for i, at := range a.s.places {
		size[at.room] += int(a.s.instance.Runs[i].Length / a.s.instance.Plank)
	}
	order := slices.Clone(a.free)
	slices.SortStableFunc(order, func(f, g int) int { return size[g] - size[f] })
	for _, f := range order {
		a.of[f] = none
	}
	for _, f := range order {
		var best string
		var cost [3]int
		for k, lot := range a.lots {
			a.of[f] = lot
			if c := a.cost(); k == 0 || slices.Compare(c[:], cost[:]) < 0 {
				best, cost = lot, c
			}
		}
		a.of[f] = best
	}
}

// byLot lays and cuts the floors of each lot by themselves, and puts them together as one layout and cutting of the
// rest. Planks that need not be kept or in reserve may be spent on changing little, lot by lot.
func (c *call) byLot(s *standing, out *restplan) error {
	out.lots = s.assign(out.rest, out.layout)
	spare := 0
	if c.opt.Fewest == FewestBoxes {
		spare = out.terms.most(out.fewest) - out.fewest
	}
	to := make(map[int]int, len(out.full))
	for k, i := range out.full {
		to[i] = k
	}
	hand := make(map[int]int, len(out.hand))
	for o, k := range out.hand {
		hand[k] = o
	}
	merged := &rows.Cutting{Offcuts: make([][]rows.Part, len(out.hand))}
	layout := slices.Clone(out.layout)
	fewest := out.begun
	for _, lot := range lotsOf(out.lots) {
		r := s.rest(
			func(f int) bool { return out.lots[f] == lot }, func(p *part) bool { return s.uses[p.plank].Lot == lot })
		if len(r.full) == 0 {
			continue
		}
		least, err := c.minimise(r.in, func(planks, bound int) bool { return planks <= bound }, s.startersBefore(r))
		if err != nil {
			return err
		}
		n := len(least.cutting.Planks)
		most := n
		if here := s.hereOf(lot) + r.begun; n < here {
			most = min(n+spare, here)
		}
		found, cutting, err := c.changeLittle(s, r, least, most)
		if err != nil {
			return err
		}
		spare -= max(0, len(cutting.Planks)+r.begun-n)
		fewest += n - r.begun
		out.stats.Steps += least.stats.Steps
		out.stats.Better += found.Steps
		for k, i := range r.full {
			layout[to[i]] = found.Layout[k]
		}
		of := func(parts []rows.Part) (list []rows.Part) {
			for _, p := range parts {
				p.Run = to[r.full[p.Run]]
				list = append(list, p)
			}
			return list
		}
		for _, parts := range cutting.Planks {
			merged.Planks = append(merged.Planks, of(parts))
		}
		for o, parts := range cutting.Offcuts {
			merged.Offcuts[hand[r.hand[o]]] = of(parts)
		}
	}
	out.layout, out.cutting, out.fewest = layout, merged, fewest
	return nil
}

// lotsOf lists lots once each, in the order of the floors.
func lotsOf(floors []string) (out []string) {
	for _, lot := range floors {
		if !slices.Contains(out, lot) {
			out = append(out, lot)
		}
	}
	return out
}

// hereOf returns the whole planks of a lot that are here.
func (s *standing) hereOf(lot string) (n int) {
	for _, l := range s.site.Here {
		if l.Name == lot {
			n += l.Planks
		}
	}
	return n
}

// changeLittle returns a layout of a rest that changes little of the plan before, with no more planks than most, and
// its cutting. Where the job has a pattern it is that of the pattern, or the error says why it cannot be.
func (c *call) changeLittle(
	s *standing, r *rest, least *floorplan, most int,
) (*change.Outcome, *rows.Cutting, error) {
	if len(s.job.Pattern) > 0 {
		layout, err := s.patternedRest(r)
		if err != nil {
			return nil, nil, err
		}
		cutting := change.Cut(r.in, layout, nil, s.groups(r), r.in.Count(layout, nil))
		return &change.Outcome{Layout: layout}, cutting, nil
	}
	groups := s.groups(r)
	found := change.Least(&change.Problem{
		Instance: r.in, Before: s.startersBefore(r), Cost: s.costs(r), Groups: groups, Cap: most, Layout: least.layout,
		Packing: least.packing, Looks: s.looks(r), Steps: changeSteps(len(r.in.Runs)), Seed: c.opt.Seed, Stop: c.stop,
	})
	return found, change.Cut(r.in, found.Layout, found.Packing, groups, most), nil
}

// A lotGroup is floors that share planks.
type lotGroup struct {
	fixed bool // it has pieces from opened planks
	lot   string
	needs int // planks that are not opened
}

// assigned reports whether no other lot for any floors that share planks leaves fewer planks missing, with planks cut
// as they are; false too where there are too many choices to say.
func (s *standing) assigned(plan *cutopt.Plan) bool {
	if !s.toldApart() {
		return true
	}
	lots := []string{""}
	for _, l := range s.site.Here {
		if l.Name != "" {
			lots = append(lots, l.Name)
		}
	}
	needed := make(map[string]int)
	var free []lotGroup
	choices := 1
	for _, g := range lotGroups(plan) {
		if g.fixed {
			needed[g.lot] += g.needs
			continue
		}
		free = append(free, g)
		if choices *= len(lots); choices > mostChoices {
			return false
		}
	}
	short := s.short(s.needed(plan))
	for n := range choices {
		all := make(map[string]int, len(lots))
		for lot, k := range needed {
			all[lot] = k
		}
		for _, g := range free {
			all[lots[n%len(lots)]] += g.needs
			n /= len(lots)
		}
		if s.short(all) < short {
			return false
		}
	}
	return true
}

// lotGroups joins the floors that share a plank some of which is planned.
func lotGroups(plan *cutopt.Plan) (out []lotGroup) {
	root := make([]int, len(plan.Floors))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			i = root[i]
		}
		return i
	}
	planned := func(use *cutopt.PlankUse) (floors []int) {
		for _, ref := range use.Pieces {
			if !plan.Piece(ref).Lies {
				floors = append(floors, ref.Floor)
			}
		}
		return floors
	}
	for n := range plan.Planks {
		if floors := planned(&plan.Planks[n]); len(floors) > 1 {
			for _, f := range floors[1:] {
				a, b := find(floors[0]), find(f)
				root[max(a, b)] = min(a, b)
			}
		}
	}
	all := make([]lotGroup, len(root))
	for n := range plan.Planks {
		use := &plan.Planks[n]
		floors := planned(use)
		if len(floors) == 0 {
			continue
		}
		g := &all[find(floors[0])]
		if use.Opened {
			g.fixed = true
		} else {
			g.needs++
		}
	}
	for i := range plan.Floors {
		if lastLying(&plan.Floors[i]) >= 0 { // what is begun keeps its lot
			all[find(i)].fixed = true
		}
	}
	for i, g := range all {
		if find(i) == i {
			g.lot = plan.Floors[i].Lot
			out = append(out, g)
		}
	}
	return out
}
