package check

import (
	"cmp"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// mostAtop is how many pieces of a row may lie on one another anywhere. Measuring them takes memory in proportion to
// how many do, for each: in a file of thousands that all lie in one place, more than a machine has.
const mostAtop = 64

// crowded reports an overlap, and true, where more pieces of a row than mostAtop lie on one another. It takes
// O(n log n) for the n pieces of rows that do not go from left to right.
func (c *roomChecker) crowded() bool {
	for i := range c.room.Rows {
		if c.crowd(i) {
			return true
		}
	}
	return false
}

// A lying piece is where it stands in its row.
type lying struct {
	from, to   measure.Length
	run, piece int
}

func (c *roomChecker) crowd(i int) bool {
	row := &c.room.Rows[i]
	var list []lying
	sorted := true
	for k := range row.Runs {
		for m := range row.Runs[k].Pieces {
			if p := &row.Runs[k].Pieces[m]; p.To > p.From {
				sorted = sorted && (len(list) == 0 || p.From >= list[len(list)-1].to)
				list = append(list, lying{p.From, p.To, k, m})
			}
		}
	}
	if sorted {
		return false
	}
	slices.SortStableFunc(list, func(a, b lying) int { return cmp.Compare(a.from, b.from) })
	ends := make([]measure.Length, len(list))
	for k := range list {
		ends[k] = list[k].to
	}
	slices.Sort(ends)
	ended := 0
	for k, p := range list {
		for ends[ended] <= p.from {
			ended++
		}
		if k+1-ended <= mostAtop {
			continue
		}
		// Of those that began before at least one reaches beyond where this one begins.
		under := k - 1
		for list[under].to <= p.from {
			under--
		}
		on := &list[under]
		over := min(p.to, on.to) - p.from
		c.report(c.at(RuleOverlap, i+1, p.run+1, p.piece+1), "overlap", "row", i+1, "run", on.run+1, "piece", on.piece+1,
			"at", cutopt.Point{X: p.from, Y: row.From}, "area", measure.Area(over)*measure.Area(row.To-row.From))
		return true
	}
	return false
}
