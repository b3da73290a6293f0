package counts

import (
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
)

// A network is the price functions C of package proof, seen as potentials: a run of kind k is worth y[k] at most when,
// for each of its starters s with n whole planks and r left by its ender, C(r) <= C(s) + n + 1 - y[k], and, in one
// piece x, C(u) <= C(u+x+kerf) - y[k] for all u. C never falls and rises by 1 in all. These are arcs between the grid
// lines in a plank, and worths y have a C exactly when no cycle of arcs is below 0. A cycle is a ring or a chain of
// runs that takes fewer planks than they are worth together.
type network struct {
	floor *Floor
	last  int32     // the line at the plank's length
	arcs  []arc     // by kind
	cost  []float64 // by arc: its planks less what its run is worth there
	dist  []float64
	by    []int32 // by line: the arc that it is reached by last, or one of the marks below
	seen  []int32
	work  int64 // arcs looked at
}

// An arc allows dist[to] up to dist[from] + planks - y[kind].
type arc struct {
	from, to int32
	planks   int32
	kind     int32
}

const (
	byNone = -1 - iota
	byFall // from the line above, for nothing
	byRise // from line 0, a plank
)

func newNetwork(f *Floor) *network {
	in := f.in
	w := &network{floor: f, last: int32((in.Plank + in.Grid - 1) / in.Grid)}
	line := func(x measure.Length) int32 {
		if x >= in.Plank {
			return w.last
		}
		return int32(max(x, 0) / in.Grid)
	}
	for k := range f.Kinds {
		kind := &f.Kinds[k]
		if kind.hand != "" {
			continue
		}
		for _, seg := range kind.Segments {
			n := seg.Field + 1
			for s := seg.Lo; s <= seg.Hi; s += in.Grid {
				r := s + measure.Length(n)*in.Plank - kind.Length - in.Kerf
				w.arcs = append(w.arcs, arc{line(s), line(r), int32(n), int32(k)})
			}
		}
		if !kind.Single {
			continue
		}
		w.arcs = append(w.arcs, arc{line(kind.Length), 0, 0, int32(k)})
		for u := measure.Length(0); u+kind.Length+in.Kerf <= in.Plank; u += in.Grid {
			w.arcs = append(w.arcs, arc{line(u + kind.Length + in.Kerf), line(u), 0, int32(k)})
		}
	}
	w.cost = make([]float64, len(w.arcs))
	w.dist, w.by, w.seen = make([]float64, w.last+1), make([]int32, w.last+1), make([]int32, w.last+1)
	return w
}

// settle finds potentials for the worths of rows, or cycles below 0, by the method of Bellman and Ford: passes over all
// arcs until nothing changes or the arcs last used close a cycle. It takes O(arcs * passes).
func (w *network) settle(y []float64, windows []window) (ok bool, cycles [][]int32) {
	const tiny, mostPasses, look = 1e-10, 2000, 4
	for t := range w.dist {
		w.dist[t], w.by[t] = 1, byRise
	}
	w.dist[0], w.by[0] = 0, byNone
	for i := range w.arcs {
		w.cost[i] = float64(w.arcs[i].planks) - y[w.arcs[i].kind]
	}
	for k := range windows {
		for _, i := range windows[k].arcs {
			w.cost[i] -= y[len(w.floor.Kinds)+k]
		}
	}
	for pass := 1; pass <= mostPasses; pass++ {
		changed := false
		w.work += int64(len(w.arcs))
		for i := range w.arcs {
			a := &w.arcs[i]
			if d := w.dist[a.from] + w.cost[i]; d < w.dist[a.to]-tiny {
				w.dist[a.to], w.by[a.to] = d, int32(i)
				changed = true
			}
		}
		for t := w.last; t > 0; t-- {
			if w.dist[t] < w.dist[t-1]-tiny {
				w.dist[t-1], w.by[t-1] = w.dist[t], byFall
				changed = true
			}
		}
		if d := w.dist[0] + 1; d < w.dist[w.last]-tiny {
			w.dist[w.last], w.by[w.last] = d, byRise
			changed = true
		}
		if !changed {
			return true, nil
		}
		if pass%look == 0 {
			if cycles = w.cycles(); len(cycles) > 0 {
				return false, cycles
			}
		}
	}
	return false, nil
}

// cycles lists the cycles that the arcs last used close, each by its arcs.
func (w *network) cycles() (out [][]int32) {
	clear(w.seen)
	for start := range w.by {
		mark := int32(start + 1)
		t := int32(start)
		for w.seen[t] == 0 && w.by[t] != byNone {
			w.seen[t] = mark
			t = w.before(t)
		}
		if w.seen[t] != mark {
			continue
		}
		var arcs []int32
		for end := t; ; {
			if w.by[t] >= 0 || w.by[t] == byRise {
				arcs = append(arcs, w.by[t])
			}
			if t = w.before(t); t == end {
				break
			}
		}
		out = append(out, arcs)
	}
	return out
}

func (w *network) before(t int32) int32 {
	switch w.by[t] {
	case byFall:
		return t + 1
	case byRise:
		return 0
	}
	return w.arcs[w.by[t]].from
}

// steps is the price function of potentials.
func (w *network) steps(dist []float64) (out []proof.Step) {
	price := int64(0)
	for t := int32(1); t < w.last; t++ {
		if p := min(int64(dist[t]*proof.Denominator), proof.Denominator); p > price {
			price = p
			out = append(out, proof.Step{At: measure.Length(t) * w.floor.in.Grid, Price: price})
		}
	}
	return append(out, proof.Step{At: w.floor.in.Plank, Price: proof.Denominator})
}
