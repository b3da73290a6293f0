package walk

import "slices"

// deal gives the starters of each band to its runs so that, as far as may be, none is nearer than the stagger to that
// of a neighbour: from the largest gap of the circle on, in turn the next of the first half and of the second. The walk
// stays as it is, but for which of the band's runs it lays where.
func (a *annealing) deal() {
	to := make([]int, len(a.layout))
	for i := range to {
		to[i] = i
	}
	for k := range a.bands.all {
		x := &a.bands.all[k]
		order := a.mended(x, a.alternate(x))
		if !a.mayStart(x, order) {
			continue
		}
		for place, i := range order {
			to[i] = int(x.runs[place])
		}
	}
	layout, before, after, fresh := slices.Clone(a.layout), slices.Clone(a.before), slices.Clone(a.after),
		slices.Clone(a.fresh)
	for i, j := range to {
		a.layout[j], a.before[j], a.after[j], a.fresh[j] = layout[i], to[before[i]], to[after[i]], fresh[i]
	}
	a.spare = to[a.spare]
	for k := range a.bands.all {
		for _, run := range a.bands.all[k].runs {
			i := int(run)
			p, _ := a.in.Lay(i, a.layout[i])
			a.joints[i] = p.Joints()
			a.end(i, a.in.Plank-a.in.Kerf-p.Ender)
		}
	}
}

// alternate orders the starters of a band one short, one long, by the runs that have them; of two such orders, and each
// the other way around, the one that breaks fewest staggers.
func (a *annealing) alternate(x *band) (order []int32) {
	b := a.bands
	places := b.order(x)
	m := len(places)
	gap, from := int32(-1), 0
	for k, at := range places {
		d := at - places[(k+m-1)%m]
		if k == 0 {
			d += b.circle
		}
		if d > gap {
			gap, from = d, k
		}
	}
	by := slices.Clone(x.runs)
	slices.SortStableFunc(by, func(i, j int32) int { return int(b.at[i] - b.at[j]) })
	by = slices.Concat(by[from:], by[:from])
	least := -1
	for _, half := range [2]int{m / 2, (m + 1) / 2} {
		low, high := by[:half], by[half:]
		if len(low) <= len(high) {
			low, high = high, low
		}
		try := make([]int32, 0, m)
		for k := range low {
			try = append(try, low[k])
			if k < len(high) {
				try = append(try, high[k])
			}
		}
		for range 2 {
			if n := a.brokenBy(x, try); least < 0 || n < least {
				least, order = n, slices.Clone(try)
			}
			slices.Reverse(try)
		}
	}
	return order
}

// brokenBy counts the staggers that an order breaks.
func (a *annealing) brokenBy(x *band, order []int32) (n int) {
	for k := range order {
		n += a.pair(x, order, k) + a.ends(x, order, k)
	}
	return n
}

// pair is 1 where places k and k + 1 of a band clash in an order, and 0 else or where there are none.
func (a *annealing) pair(x *band, order []int32, k int) int {
	if k < 0 || k+1 >= len(order) {
		return 0
	}
	i, j := x.runs[k], x.runs[k+1]
	delta := a.in.Runs[j].From - a.in.Runs[i].From
	if a.in.Clash(a.layout[order[k]], a.joints[i], delta+a.layout[order[k+1]], a.joints[j]) {
		return 1
	}
	return 0
}

// mayStart reports whether all runs of a band may start as an order has it: they are as long within a step of the grid,
// so that one may perhaps not start with the longest or the shortest starter of another.
func (a *annealing) mayStart(x *band, order []int32) bool {
	for k, i := range x.runs {
		if _, ok := a.in.Lay(int(i), a.layout[order[k]]); !ok {
			return false
		}
	}
	return true
}

// ends counts the staggers to runs outside the band that place k breaks in an order, and one more where its run may not
// start so.
func (a *annealing) ends(x *band, order []int32, k int) (n int) {
	i := x.runs[k]
	if _, ok := a.in.Lay(int(i), a.layout[order[k]]); !ok {
		n++
	}
	for _, tie := range a.outer[i] {
		if a.in.Clash(a.layout[order[k]], a.joints[i], tie.Delta+a.layout[tie.Run], a.joints[tie.Run]) {
			n++
		}
	}
	return n
}

// mended exchanges two starters of an order, or turns a stretch of it around, whatever breaks fewest staggers, until
// none is broken or as often as there are mends.
func (a *annealing) mended(x *band, order []int32) []int32 {
	const mends = 100
	m := len(order)
	turned := func(p, q int) int {
		return a.pair(x, order, p-1) + a.pair(x, order, q) + a.ends(x, order, p) + a.ends(x, order, q)
	}
	exchanged := func(p, q int) int {
		n := turned(p, q) + a.pair(x, order, p)
		if q-1 > p {
			n += a.pair(x, order, q-1)
		}
		return n
	}
	for range mends {
		var bad []int
		for k := range m {
			if a.pair(x, order, k-1)+a.pair(x, order, k)+a.ends(x, order, k) > 0 {
				bad = append(bad, k)
			}
		}
		if len(bad) == 0 {
			break
		}
		k := bad[a.pick(len(bad))]
		best, with, turn, seen := m, -1, false, 0
		weigh := func(rise, j int, t bool) {
			if rise < best {
				best, with, turn, seen = rise, j, t, 1
			} else if rise == best {
				if seen++; a.pick(seen) == 0 {
					with, turn = j, t
				}
			}
		}
		for j := range m {
			if j == k {
				continue
			}
			p, q := min(j, k), max(j, k)
			before, beforeTurn := exchanged(p, q), turned(p, q)
			order[p], order[q] = order[q], order[p]
			weigh(exchanged(p, q)-before, j, false)
			weigh(turned(p, q)-beforeTurn, j, true)
			order[p], order[q] = order[q], order[p]
		}
		p, q := min(with, k), max(with, k)
		if turn {
			slices.Reverse(order[p : q+1])
		} else {
			order[p], order[q] = order[q], order[p]
		}
	}
	return order
}
