package sticks

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"

	"plank.example/cutopt/stock"
)

// ErrLarge says that an arc-flow model would have too many arcs to be of use.
var ErrLarge = errors.New("sticks: the arc-flow model is too large")

// maxArcs is the most that WriteArcFlow writes.
const maxArcs = 100_000

// WriteArcFlow writes the arc-flow model of J. M. Valério de Carvalho (Ann. Oper. Res. 86, 1999) for the least cost, in
// CPLEX-LP format: places on a stick are nodes, a piece is an arc as long as it is and a kerf, a stick a path from 0 to
// its end. Pieces lie on a stick the longest first, each kind within its demand, so that only sums in that order are
// nodes. Sticks of several kinds end at nodes of their own.
func WriteArcFlow(job *stock.Job, w io.Writer) error {
	type kind struct {
		size  int64
		count int
	}
	counts := map[int64]int{}
	for _, p := range job.Pieces {
		counts[int64(p.Length+job.Kerf)] += p.Count
	}
	var kinds []kind
	widest := int64(0)
	for size, n := range counts {
		kinds = append(kinds, kind{size, n})
	}
	slices.SortFunc(kinds, func(a, b kind) int { return int(b.size - a.size) })
	for _, s := range job.Sticks {
		widest = max(widest, int64(s.Usable()+job.Kerf))
	}
	type arc struct {
		from, to int64
		kind     int
	}
	var arcs []arc
	nodes := map[int64]bool{0: true}
	for k, x := range kinds {
		reached := map[int64]int{}
		for v := range nodes {
			reached[v] = 0
		}
		order := make([]int64, 0, len(reached))
		for v := range reached {
			order = append(order, v)
		}
		slices.Sort(order)
		for q := 0; q < len(order); q++ {
			v := order[q]
			if used := reached[v]; used < x.count && v+x.size <= widest {
				to := v + x.size
				arcs = append(arcs, arc{v, to, k})
				if len(arcs) > maxArcs {
					return ErrLarge
				}
				if old, ok := reached[to]; !ok {
					reached[to] = used + 1
					at, _ := slices.BinarySearch(order, to)
					order = slices.Insert(order, at, to)
				} else {
					reached[to] = min(old, used+1)
				}
			}
		}
		for v := range reached {
			nodes[v] = true
		}
	}
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, "Minimize\n obj:")
	for k, c := range job.Costs() {
		fmt.Fprintf(out, " + %d z%d\n", c, k)
	}
	fmt.Fprintln(out, "Subject To")
	rows := map[int64][]string{}
	demand := make([][]string, len(kinds))
	for i, a := range arcs {
		name := fmt.Sprintf("f%d", i)
		rows[a.from] = append(rows[a.from], " - "+name)
		rows[a.to] = append(rows[a.to], " + "+name)
		demand[a.kind] = append(demand[a.kind], " + "+name)
	}
	ends := 0
	for v := range nodes { // what ends here goes to a stick that reaches so far
		for k, s := range job.Sticks {
			if v > 0 && v <= int64(s.Usable()+job.Kerf) {
				name := fmt.Sprintf("e%d_%d", v, k)
				rows[v] = append(rows[v], " - "+name)
				rows[-1-int64(k)] = append(rows[-1-int64(k)], " + "+name)
				ends++
			}
		}
	}
	if ends > maxArcs {
		return ErrLarge
	}
	for k := range job.Sticks {
		rows[0] = append(rows[0], fmt.Sprintf(" + z%d", k))
		rows[-1-int64(k)] = append(rows[-1-int64(k)], fmt.Sprintf(" - z%d", k))
	}
	row := func(terms []string, relation string) {
		for i, t := range terms {
			if fmt.Fprint(out, t); i%8 == 7 {
				fmt.Fprintln(out)
			}
		}
		fmt.Fprintln(out, " "+relation)
	}
	for _, v := range sorted(rows) {
		row(rows[v], "= 0")
	}
	for k, terms := range demand {
		row(terms, fmt.Sprintf(">= %d", kinds[k].count))
	}
	fmt.Fprintln(out, "Bounds")
	for k, s := range job.Sticks {
		if s.Supply > 0 {
			fmt.Fprintf(out, " z%d <= %d\n", k, s.Supply)
		}
	}
	fmt.Fprintln(out, "Generals")
	for i := range arcs {
		fmt.Fprintf(out, " f%d\n", i)
	}
	for k := range job.Sticks {
		fmt.Fprintf(out, " z%d\n", k)
	}
	fmt.Fprintln(out, "End")
	return out.Flush()
}

func sorted(rows map[int64][]string) []int64 {
	var out []int64
	for v := range rows {
		out = append(out, v)
	}
	slices.Sort(out)
	return out
}
