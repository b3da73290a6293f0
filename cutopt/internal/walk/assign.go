// Package walk makes layouts of walks over planks: it hands the starters of a walk to runs so that no stagger breaks,
// and lays stretches of a layout's walk anew.
package walk

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"plank.example/cutopt/internal/counts"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/rows"
)

// A hand is a layout whose starters are handed from run to run.
type hand struct {
	table  *starters.Table
	kinds  []counts.Kind
	lots   []counts.Lot
	lotOf  []int // by run
	joints []int // by run
	layout rows.Layout
	kindOf []int // by run
}

// Fit hands the lots of a walk to the runs of their kinds: from run to run alternately a short and a long starter, then
// exchanges until no stagger breaks or the given number of exchanges has been weighed. It returns the layout, what its
// one-piece runs lie beside, and how many staggers are broken.
func Fit(
	t *starters.Table, kinds []counts.Kind, lots []counts.Lot, steps int, rng *rand.Rand,
) (layout rows.Layout, packing rows.Packing, broken int) {
	n := len(t.Instance.Runs)
	h := &hand{
		table: t, kinds: kinds, lots: lots, lotOf: make([]int, n), joints: make([]int, n), layout: make(rows.Layout, n),
		kindOf: make([]int, n),
	}
	h.deal(rng)
	broken = h.exchange(steps, rng)
	packing = make(rows.Packing, n)
	runOf := make([]int, len(lots))
	for i, lot := range h.lotOf {
		packing[i] = -1
		if lot >= 0 {
			runOf[lot] = i
		}
	}
	for lot, i := range runOf {
		if host := lots[lot].Host; host >= 0 {
			packing[i] = runOf[host]
		}
	}
	return h.layout, packing, broken
}

// deal gives each kind's lots to its runs in order: the shortest starter, the middle one, the next shortest, and so on.
func (h *hand) deal(rng *rand.Rand) {
	of := make([][]int, len(h.kinds))
	for lot := range h.lots {
		of[h.lots[lot].Kind] = append(of[h.lots[lot].Kind], lot)
	}
	for i := range h.lotOf {
		h.lotOf[i], h.kindOf[i] = -1, -1
	}
	for k, lots := range of {
		rng.Shuffle(len(lots), func(a, b int) { lots[a], lots[b] = lots[b], lots[a] })
		slices.SortStableFunc(lots, func(a, b int) int { return cmp.Compare(h.lots[a].Starter, h.lots[b].Starter) })
		for m, i := range h.kinds[k].Runs {
			if len(lots) == 0 {
				break // offcuts on hand
			}
			x := m / 2
			if m%2 == 1 {
				x = (len(lots)+1)/2 + m/2
			}
			h.give(i, lots[x])
			h.kindOf[i] = k
		}
	}
}

// give lays run i with a lot.
func (h *hand) give(i, lot int) {
	h.lotOf[i] = lot
	h.layout[i] = h.lots[lot].Starter
	p, _ := h.table.Instance.Lay(i, h.layout[i])
	h.joints[i] = p.Joints()
}

// clashes counts the staggers that run i breaks.
func (h *hand) clashes(i int) int {
	n := 0
	for _, tie := range h.table.Ties[i] {
		if h.table.Instance.Clash(h.layout[i], h.joints[i], tie.Delta+h.layout[tie.Run], h.joints[tie.Run]) {
			n++
		}
	}
	return n
}

// swap exchanges the lots of runs i and j.
func (h *hand) swap(i, j int) {
	h.lotOf[i], h.lotOf[j] = h.lotOf[j], h.lotOf[i]
	h.layout[i], h.layout[j] = h.layout[j], h.layout[i]
	h.joints[i], h.joints[j] = h.joints[j], h.joints[i]
}

// exchange swaps the lot of a run that breaks a stagger with that of another of its kind, the one that mends most, and
// takes what mends nothing too, until nothing is broken or steps are spent; it returns what is left broken.
func (h *hand) exchange(steps int, rng *rand.Rand) int {
	var bad []int
	held := make([]int, len(h.layout)) // until which step a run keeps what it got last
	for step := 1; ; step++ {
		bad = bad[:0]
		broken := 0
		for i := range h.layout {
			if n := h.clashes(i); n > 0 {
				broken += n
				if h.kindOf[i] >= 0 {
					bad = append(bad, i)
				}
			}
		}
		if broken == 0 || step > steps || len(bad) == 0 {
			return broken / 2
		}
		i := bad[rng.IntN(len(bad))]
		best, with, seen := 1<<30, -1, 0
		for _, j := range h.kinds[h.kindOf[i]].Runs {
			if h.layout[i] == h.layout[j] || held[j] > step && held[i] > step {
				continue
			}
			before := h.clashes(i) + h.clashes(j)
			h.swap(i, j)
			d := h.clashes(i) + h.clashes(j) - before
			h.swap(i, j)
			if d < best {
				best, with, seen = d, j, 0
			}
			if d == best {
				if seen++; rng.IntN(seen) == 0 {
					with = j
				}
			}
		}
		if with >= 0 && best <= 1 {
			h.swap(i, with)
			held[i], held[with] = step+5+rng.IntN(5), step+5+rng.IntN(5)
		}
	}
}
