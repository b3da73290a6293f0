package check

import (
	"slices"
)

// absent returns, by plank, whether it is not opened and not here: of each lot the planks that are here come first by
// number.
func (s *stock) absent() []bool {
	out, used, all := make([]bool, len(s.plan.Planks)), make(map[string]int), 0
	for i := range s.plan.Planks {
		use := &s.plan.Planks[i]
		if use.Opened {
			continue
		}
		used[use.Lot]++
		all++
		out[i] = used[use.Lot] > s.of[use.Lot]
		if s.Mixed {
			out[i] = all > s.here
		}
	}
	return out
}

// reaches recounts how many rows of each floor can be finished with what is here.
func (s *stock) reaches() {
	var want []int
	if s.missing(s.needed) > 0 {
		absent := s.absent()
		for i := range s.plan.Floors {
			want = append(want, s.finished(i, absent))
		}
	}
	if !slices.Equal(s.Reaches, want) {
		for i := range max(len(s.Reaches), len(want)) {
			if i >= len(s.Reaches) || i >= len(want) || s.Reaches[i] != want[i] {
				s.report(Violation{Rule: RuleSite}, "reaches-other", "n", i+1, "got", at(s.Reaches, i), "want", at(want, i))
				return
			}
		}
	}
}

// at returns an item of a list, -1 where it has none.
func at(list []int, i int) int {
	if i < len(list) {
		return list[i]
	}
	return -1
}

// finished counts the rows of a floor before the first that takes a plank which is not here.
func (s *stock) finished(floor int, absent []bool) int {
	rows := s.plan.Floors[floor].Rows
	for j := range rows {
		for k := range rows[j].Runs {
			for m := range rows[j].Runs[k].Pieces {
				if n := rows[j].Runs[k].Pieces[m].Plank; n < 1 || n > len(absent) || absent[n-1] {
					return j
				}
			}
		}
	}
	return len(rows)
}

// waits recounts which floors let all others be finished if they are left for later.
func (s *stock) waits() {
	var want []int
	if s.missing(s.needed) > 0 {
		for i := range s.plan.Floors {
			needed := make(map[string]int)
			for n := range s.plan.Planks {
				use := &s.plan.Planks[n]
				other := false
				for _, ref := range use.Pieces {
					other = other || ref.Floor != i
				}
				if other && !use.Opened {
					needed[use.Lot]++
				}
			}
			if s.missing(needed) == 0 {
				want = append(want, i)
			}
		}
	}
	if !slices.Equal(s.Waits, want) {
		s.report(Violation{Rule: RuleSite}, "waits-other", "got", len(s.Waits), "want", len(want))
	}
}

// mostChoices bounds the work of trying every lot for every floor.
const mostChoices = 100_000

// assigned recounts whether no other choice of lots leaves fewer planks missing, with planks cut as they are: floors
// that share a plank which does not lie altogether are of one lot, and stay so where such a plank is opened.
func (s *stock) assigned() {
	want := true
	if !s.Mixed && (len(s.Here) > 1 || len(s.Here) == 1 && s.Here[0].Name != "") {
		want = s.cannotDoBetter()
	}
	if s.Assigned != want {
		s.off("site.assigned", s.Assigned, want)
	}
}

// A group is floors that share planks.
type group struct {
	fixed bool // some of its planks are opened
	lot   string
	needs int // planks not opened
}

func (s *stock) cannotDoBetter() bool {
	groups := s.groups()
	lots := []string{""}
	for _, l := range s.Here {
		if l.Name != "" {
			lots = append(lots, l.Name)
		}
	}
	needed := make(map[string]int)
	var free []group
	choices := 1
	for _, g := range groups {
		if g.fixed {
			needed[g.lot] += g.needs
			continue
		}
		free = append(free, g)
		if choices *= len(lots); choices > mostChoices {
			return false
		}
	}
	short := s.missing(s.needed)
	for n := range choices {
		all := make(map[string]int, len(lots))
		for lot, k := range needed {
			all[lot] = k
		}
		for _, g := range free {
			all[lots[n%len(lots)]] += g.needs
			n /= len(lots)
		}
		if s.missing(all) < short {
			return false
		}
	}
	return true
}

// groups joins the floors that share a plank some of which is planned.
func (s *stock) groups() (out []group) {
	root := make([]int, len(s.plan.Floors))
	find := func(i int) int {
		for root[i] != i {
			i = root[i]
		}
		return i
	}
	for i := range root {
		root[i] = i
	}
	planned := func(n int) (floors []int) {
		for _, ref := range s.plan.Planks[n].Pieces {
			if p := s.plan.Piece(ref); p != nil && !p.Lies {
				floors = append(floors, ref.Floor)
			}
		}
		return floors
	}
	for n := range s.plan.Planks {
		if floors := planned(n); len(floors) > 1 {
			for _, f := range floors[1:] {
				a, b := find(floors[0]), find(f)
				root[max(a, b)] = min(a, b)
			}
		}
	}
	all := make([]group, len(root))
	for i := range all {
		all[i].lot = s.plan.Floors[i].Lot
	}
	for n := range s.plan.Planks {
		use := &s.plan.Planks[n]
		if floors := planned(n); len(floors) > 0 {
			if g := &all[find(floors[0])]; use.Opened {
				g.fixed = true
			} else {
				g.needs++
			}
		}
	}
	for i := range root {
		for j := range s.plan.Floors[i].Rows { // a floor that is begun keeps its lot
			for k := range s.plan.Floors[i].Rows[j].Runs {
				if begun(&s.plan.Floors[i].Rows[j].Runs[k]) {
					all[find(i)].fixed = true
				}
			}
		}
	}
	for i := range root {
		if find(i) == i {
			out = append(out, all[i])
		}
	}
	return out
}
