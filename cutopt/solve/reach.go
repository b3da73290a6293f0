package solve

import (
	"slices"

	"plank.example/cutopt"
)

// needed counts the planks of a plan that are not opened, by lot.
func (s *standing) needed(plan *cutopt.Plan) map[string]int {
	out := make(map[string]int)
	for i := range plan.Planks {
		if use := &plan.Planks[i]; !use.Opened {
			out[use.Lot]++
		}
	}
	return out
}

// short returns how many of so many planks of each lot are not here.
func (s *standing) short(needed map[string]int) (n int) {
	here, all := make(map[string]int), 0
	for _, lot := range s.site.Here {
		here[lot.Name] += lot.Planks
	}
	for lot, k := range needed {
		n += max(0, k-here[lot])
		all += k
	}
	if s.site.Mixed {
		return max(0, all-cutopt.WholePlanks(s.site.Here))
	}
	return n
}

// reaches returns how many rows of each floor can be finished with the planks here, which are used by their numbers.
func (s *standing) reaches(plan *cutopt.Plan) []int {
	here := make(map[string]int)
	for _, lot := range s.site.Here {
		here[s.lotted(lot.Name)] += lot.Planks
	}
	absent := make([]bool, len(plan.Planks))
	for i := range plan.Planks {
		if use := &plan.Planks[i]; !use.Opened {
			here[s.lotted(use.Lot)]--
			absent[i] = here[s.lotted(use.Lot)] < 0
		}
	}
	out := make([]int, len(plan.Floors))
	for i := range plan.Floors {
		rows := plan.Floors[i].Rows
		finished := func(row cutopt.PlanRow) bool {
			for _, run := range row.Runs {
				if slices.ContainsFunc(run.Pieces, func(p cutopt.Piece) bool { return absent[p.Plank-1] }) {
					return false
				}
			}
			return true
		}
		for out[i] < len(rows) && finished(rows[out[i]]) {
			out[i]++
		}
	}
	return out
}

// lotted is the lot that planks are counted by: all are one where lots may be mixed.
func (s *standing) lotted(name string) string {
	if s.site.Mixed {
		return ""
	}
	return name
}

// waits lists the floors each of which lets all others be finished with what is here, if it is left for later.
func (s *standing) waits(plan *cutopt.Plan) (out []int) {
	for i := range plan.Floors {
		needed := make(map[string]int)
		for n := range plan.Planks {
			use := &plan.Planks[n]
			other := slices.ContainsFunc(use.Pieces, func(r cutopt.PieceRef) bool { return r.Floor != i })
			if other && !use.Opened {
				needed[use.Lot]++
			}
		}
		if s.short(needed) == 0 {
			out = append(out, i)
		}
	}
	return out
}
