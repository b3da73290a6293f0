package cut

import (
	"cmp"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

// kinds are the different lengths of a job's pieces, the longest first.
type kinds struct {
	lengths []measure.Length
	pieces  [][]int // by kind: the pieces of the job
	counts  []int
	costs   []int64    // of sticks
	work    *workspace // of the engines of the job, one after the other
}

func newKinds(job *stock.Job) *kinds {
	order := make([]int, len(job.Pieces))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(job.Pieces[b].Length, job.Pieces[a].Length) })
	k := &kinds{costs: job.Costs()}
	for _, i := range order {
		p := job.Pieces[i]
		if n := len(k.lengths); n == 0 || k.lengths[n-1] != p.Length {
			k.lengths, k.pieces, k.counts = append(k.lengths, p.Length), append(k.pieces, nil), append(k.counts, 0)
		}
		n := len(k.lengths) - 1
		k.pieces[n] = append(k.pieces[n], i)
		k.counts[n] += p.Count
	}
	return k
}

// engine makes the bare problem, with one more piece for an offcut where it is above 0.
func (k *kinds) engine(job *stock.Job, m *meter, offcut measure.Length) *engine {
	if k.work == nil {
		k.work = workspaces.Get().(*workspace)
		k.work.price.meter, k.work.price.work = m, k.work
	}
	e := &engine{
		meter: m, work: k.work, price: &k.work.price, offcut: offcut,
		sizes: make([]int64, 0, len(k.lengths)+1), demand: make([]int, 0, len(k.lengths)+1),
		sticks: make([]stick, 0, len(job.Sticks)+1),
	}
	for i, l := range k.lengths {
		e.sizes, e.demand = append(e.sizes, int64(l+job.Kerf)), append(e.demand, k.counts[i])
	}
	if offcut > 0 {
		e.sizes, e.demand = append(e.sizes, int64(offcut+job.Kerf)), append(e.demand, 1)
	}
	for _, w := range e.sizes {
		e.unit = gcd(e.unit, w)
	}
	for i := range e.sizes {
		e.sizes[i] /= e.unit
	}
	for i, s := range job.Sticks {
		ticks := int64(s.Usable() + job.Kerf)
		supply := s.Supply
		if supply == 0 {
			supply = -1
		}
		e.sticks = append(e.sticks, stick{ticks: ticks, capacity: ticks / e.unit, cost: k.costs[i], supply: supply})
	}
	return e
}

// without is a packing without the piece that stands for the offcut, nor a stick that holds nothing else.
func (k *kinds) without(p packing) packing {
	var out packing
	for _, b := range p {
		takes := slices.DeleteFunc(slices.Clone(b.takes), func(t take) bool { return t.kind == len(k.lengths) })
		if len(takes) > 0 {
			out = append(out, batch{pattern{b.stick, takes}, b.count})
		}
	}
	return out
}

// plan writes a packing as a plan: equal pieces are given out in the order of the job, cuttings by kind of stick, then
// the fullest first.
func (k *kinds) plan(job *stock.Job, p packing) *stock.Plan {
	left := make([][]int, len(k.pieces))
	for i, pieces := range k.pieces {
		for _, q := range pieces {
			left[i] = append(left[i], job.Pieces[q].Count)
		}
	}
	out := &stock.Plan{}
	costs := job.Costs()
	for _, b := range merged(p) {
		offcut := job.Sticks[b.stick].Usable()
		for _, t := range b.takes {
			offcut -= measure.Length(t.count) * (k.lengths[t.kind] + job.Kerf)
		}
		offcut = max(offcut, 0)
		if offcut >= job.Keep {
			out.Offcut = max(out.Offcut, offcut)
		}
		out.Sticks += b.count
		out.Cost += int64(b.count) * costs[b.stick]
		for count := b.count; count > 0; {
			c := stock.Cutting{Stick: b.stick, Offcut: offcut}
			c.Count, c.Pieces = k.give(b.takes, left, count)
			count -= c.Count
			out.Cuttings = append(out.Cuttings, c)
		}
	}
	return out
}

// give chooses pieces of the job for a pattern and says how often the same choice can be made, up to most.
func (k *kinds) give(takes []take, left [][]int, most int) (int, []stock.Cut) {
	type part struct{ kind, index, count int }
	var parts []part
	for _, t := range takes {
		want := t.count
		for i, n := range left[t.kind] {
			if c := min(n, want); c > 0 {
				parts = append(parts, part{t.kind, i, c})
				want -= c
			}
		}
	}
	times := most
	for _, p := range parts {
		times = min(times, left[p.kind][p.index]/p.count)
	}
	var out []stock.Cut
	for _, p := range parts {
		left[p.kind][p.index] -= times * p.count
		out = append(out, stock.Cut{Piece: k.pieces[p.kind][p.index], Count: p.count})
	}
	return times, out
}

// merged puts equal patterns together and orders them.
func merged(p packing) packing {
	out := slices.Clone(p)
	slices.SortStableFunc(out, func(a, b batch) int {
		return cmp.Or(a.stick-b.stick, slices.CompareFunc(a.takes, b.takes, func(t, u take) int {
			return cmp.Or(t.kind-u.kind, u.count-t.count)
		}))
	})
	n := 0
	for _, b := range out {
		if n > 0 && out[n-1].stick == b.stick && slices.Equal(out[n-1].takes, b.takes) {
			out[n-1].count += b.count
			continue
		}
		out[n] = b
		n++
	}
	return out[:n]
}
