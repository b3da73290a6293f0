package sticks

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"

	"plank.example/cutopt/stock"
)

// ErrLarge says that an arc-flow model would have too many arcs to be of use.
var ErrLarge = errors.New("sticks: the arc-flow model is too large")

// maxArcs is the most that WriteArcFlow writes.
const maxArcs = 100_000

// An arcFlow is the graph of the model: places on a stick are nodes, a piece is an arc as long as it is and a kerf.
type arcFlow struct {
	job    *stock.Job
	sizes  []int64 // by kind, the longest first
	counts []int
	arcs   []arc
	nodes  map[int64]bool
}

type arc struct {
	from, to int64
	kind     int
}

// newArcFlow lays pieces on a stick the longest first, each kind within its demand: only sums in that order are nodes.
func newArcFlow(job *stock.Job) (*arcFlow, error) {
	g := &arcFlow{job: job, nodes: map[int64]bool{0: true}}
	counts := map[int64]int{}
	for _, p := range job.Pieces {
		counts[int64(p.Length+job.Kerf)] += p.Count
	}
	g.sizes = slices.SortedFunc(maps.Keys(counts), func(a, b int64) int { return int(b - a) })
	widest := int64(0)
	for k := range job.Sticks {
		widest = max(widest, g.capacity(k))
	}
	for k, size := range g.sizes {
		g.counts = append(g.counts, counts[size])
		used := map[int64]int{} // by node: the fewest pieces of this kind on the way to it
		for v := range g.nodes {
			used[v] = 0
		}
		order := slices.Sorted(maps.Keys(g.nodes))
		for q := 0; q < len(order); q++ {
			v, to := order[q], order[q]+size
			if used[v] == counts[size] || to > widest {
				continue
			}
			if g.arcs = append(g.arcs, arc{v, to, k}); len(g.arcs) > maxArcs {
				return nil, ErrLarge
			}
			old, seen := used[to]
			if !seen {
				at, _ := slices.BinarySearch(order, to)
				order = slices.Insert(order, at, to)
				old = counts[size]
			}
			used[to] = min(old, used[v]+1)
		}
		for v := range used {
			g.nodes[v] = true
		}
	}
	return g, nil
}

func (g *arcFlow) capacity(stick int) int64 { return int64(g.job.Sticks[stick].Usable() + g.job.Kerf) }

// WriteArcFlow writes the arc-flow model of J. M. Valério de Carvalho (Ann. Oper. Res. 86, 1999) for the least cost, in
// CPLEX-LP format. A stick is a path from 0 to where it ends; sticks of several kinds end at nodes of their own.
func WriteArcFlow(job *stock.Job, w io.Writer) error {
	g, err := newArcFlow(job)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, "Minimize\n obj:")
	for k, c := range job.Costs() {
		fmt.Fprintf(out, " + %d z%d\n", c, k)
	}
	fmt.Fprintln(out, "Subject To")
	rows, demand := g.rows()
	for _, v := range slices.Sorted(maps.Keys(rows)) {
		writeRow(out, rows[v], "= 0")
	}
	for k, terms := range demand {
		writeRow(out, terms, fmt.Sprintf(">= %d", g.counts[k]))
	}
	fmt.Fprintln(out, "Bounds")
	for k, s := range job.Sticks {
		if s.Supply > 0 {
			fmt.Fprintf(out, " z%d <= %d\n", k, s.Supply)
		}
	}
	fmt.Fprintln(out, "Generals")
	for i := range g.arcs {
		fmt.Fprintf(out, " f%d\n", i)
	}
	for k := range job.Sticks {
		fmt.Fprintf(out, " z%d\n", k)
	}
	fmt.Fprintln(out, "End")
	return out.Flush()
}

// rows lists the terms of each node's row, of each kind of stick's at -1-k, and of each kind of piece's demand.
func (g *arcFlow) rows() (rows map[int64][]string, demand [][]string) {
	rows, demand = map[int64][]string{}, make([][]string, len(g.sizes))
	add := func(row int64, sign, name string) { rows[row] = append(rows[row], " "+sign+" "+name) }
	for i, a := range g.arcs {
		name := fmt.Sprintf("f%d", i)
		add(a.from, "-", name)
		add(a.to, "+", name)
		demand[a.kind] = append(demand[a.kind], " + "+name)
	}
	for k := range g.job.Sticks {
		for _, v := range slices.Sorted(maps.Keys(g.nodes)) {
			if v > 0 && v <= g.capacity(k) {
				name := fmt.Sprintf("e%d_%d", v, k)
				add(v, "-", name)
				add(-1-int64(k), "+", name)
			}
		}
		add(0, "+", fmt.Sprintf("z%d", k))
		add(-1-int64(k), "-", fmt.Sprintf("z%d", k))
	}
	return rows, demand
}

// writeRow writes a row, eight terms a line.
func writeRow(out io.Writer, terms []string, relation string) {
	for i, t := range terms {
		if fmt.Fprint(out, t); i%8 == 7 {
			fmt.Fprintln(out)
		}
	}
	fmt.Fprintln(out, " "+relation)
}
