package oracle

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A spot is an end joint of a plan: in which row it lies, where, and the extent of its run.
type spot struct{ row, x, from, to measure.Length }

// Quality counts the figures of a floor from their description, trying every set of joints.
func Quality(job *cutopt.Job, plan *cutopt.Plan) cutopt.Quality {
	q := cutopt.Quality{LeastStagger: job.Plank.Length}
	for r := range plan.Floors {
		floor := &plan.Floors[r]
		rows := make([][]spot, len(floor.Rows))
		for i := range floor.Rows {
			for _, run := range floor.Rows[i].Runs {
				for k := 1; k < len(run.Pieces); k++ {
					rows[i] = append(rows[i], spot{measure.Length(i), run.Pieces[k].From, run.From, run.To})
				}
				first := run.Pieces[0]
				if floor.LaidFrom == cutopt.HandRight {
					first = run.Pieces[len(run.Pieces)-1]
				}
				if round := job.Rules.Round; len(run.Pieces) > 1 && round > 0 && first.Length != job.Plank.Length &&
					first.Length%round != 0 && first.AsItComes == 0 {
					q.OddStarters++
				}
			}
		}
		countJoints(job, floor, rows, &q)
		countChains(job, floor, &q)
	}
	for _, use := range plan.Planks {
		q.Crosscuts += len(use.Cuts)
	}
	q.OffcutsAtOnce, q.RowsWaited = countKept(plan)
	return q
}

func countJoints(job *cutopt.Job, floor *cutopt.PlanFloor, rows [][]spot, q *cutopt.Quality) {
	abs := func(x measure.Length) measure.Length { return max(x, -x) }
	overlap := func(a, b, c, d measure.Length) bool { return a < d && c < b }
	beside := func(a, b spot) bool {
		return floor.Rows[a.row].To == floor.Rows[b.row].From && overlap(a.from, a.to, b.from, b.to)
	}
	long, tolerance := job.Plank.Length, job.Rules.InLine
	for i := range rows {
		for _, a := range rows[i] {
			if i+1 == len(rows) {
				continue
			}
			for _, b := range rows[i+1] {
				if beside(a, b) {
					q.LeastStagger = min(q.LeastStagger, abs(a.x-b.x))
				}
			}
			if i+2 == len(rows) {
				continue
			}
			for _, c := range rows[i+2] {
				between := false
				for _, run := range floor.Rows[i+1].Runs {
					m := spot{row: a.row + 1, from: run.From, to: run.To}
					between = between || beside(a, m) && beside(m, c)
				}
				if between && abs(a.x-c.x) <= tolerance {
					q.HJoints++
				}
			}
			if i+3 == len(rows) {
				continue
			}
			for _, b := range rows[i+1] {
				if abs(a.x-b.x) > long {
					continue // no steps go so far
				}
				for _, c := range rows[i+2] {
					for _, d := range rows[i+3] {
						if !beside(a, b) || !beside(b, c) || !beside(c, d) {
							continue
						}
						x, y, z := b.x-a.x, c.x-b.x, d.x-c.x
						sameWay := x > 0 && y > 0 && z > 0 || x < 0 && y < 0 && z < 0
						steps := min(abs(x), abs(y), abs(z)) > tolerance && max(abs(x), abs(y), abs(z))*2 < long
						if sameWay && steps && abs(x-y) <= tolerance && abs(y-z) <= tolerance && abs(x-z) <= tolerance {
							q.Staircases++
						}
						if (max(a.x, b.x, c.x, d.x)-min(a.x, b.x, c.x, d.x))*3 <= long {
							q.Clusters++
						}
					}
				}
			}
		}
	}
}

// countChains takes every joint of a run as the end of a chain and goes back row by row, as long as the nearest joint
// of the plank's whole lattice lies on one side.
func countChains(job *cutopt.Job, floor *cutopt.PlanFloor, q *cutopt.Quality) {
	long := job.Plank.Length
	type end struct{ row, run, way int }
	known := make(map[end]int)
	side := func(from, to measure.Length) int {
		left, right := long, long // how far the nearest joint is, on either side
		for by := (to-from)%long - long; by <= long; by += long {
			if by > 0 {
				right = min(right, by)
			} else if by < 0 {
				left = min(left, -by)
			}
			if by == 0 {
				return 0
			}
		}
		switch {
		case right < left:
			return 1
		case left < right:
			return -1
		}
		return 0
	}
	var steps func(e end) int
	steps = func(e end) int {
		if n, ok := known[e]; ok || e.row == 0 {
			return n
		}
		most := 0
		to := floor.Rows[e.row].Runs[e.run]
		for k, from := range floor.Rows[e.row-1].Runs {
			touch := floor.Rows[e.row-1].To == floor.Rows[e.row].From && from.From < to.To && to.From < from.To
			if touch && len(from.Pieces) > 1 && len(to.Pieces) > 1 && side(from.Pieces[0].To, to.Pieces[0].To) == e.way {
				most = max(most, 1+steps(end{e.row - 1, k, e.way}))
			}
		}
		known[e] = most
		return most
	}
	for i := range floor.Rows {
		for k := range floor.Rows[i].Runs {
			for _, way := range []int{1, -1} {
				n := steps(end{i, k, way})
				if q.LongestChain = max(q.LongestChain, n); n > 4 {
					q.Chains++
				}
			}
		}
	}
}

// countKept follows each plank row by row, from that of its first piece to that of its last. Rows are those of all
// rooms that have runs.
func countKept(plan *cutopt.Plan) (atOnce, waited int) {
	type place struct{ room, row int }
	number := make(map[place]int)
	for r := range plan.Floors {
		for i := range plan.Floors[r].Rows {
			if len(plan.Floors[r].Rows[i].Runs) > 0 {
				number[place{r, i}] = len(number)
			}
		}
	}
	kept := make([]int, len(number))
	for _, use := range plan.Planks {
		var rows []int
		for _, p := range use.Pieces {
			rows = append(rows, number[place{p.Floor, p.Row}])
		}
		slices.Sort(rows)
		last := rows[len(rows)-1]
		for n := rows[0]; n < last; n++ {
			if kept[n]++; n > rows[0] {
				waited++
			}
		}
	}
	return slices.Max(kept), waited
}
