package cut

import (
	"math"
	"slices"

	"plank.example/cutopt/internal/simplex"
	"plank.example/cutopt/stock"
)

// A frame says what the rows of a node's linear program mean: a row for each kind that is wanted, then for each kind of
// stick that is limited from above or below, then for the cost where the aim is few sticks. It turns dual values of
// these rows into leaves.
type frame struct {
	e       *engine
	n       *node
	spare   []int64 // by stick
	rows    []int   // by kind: its row, or -1 where none is wanted
	wanted  int     // kinds with a row
	up, low []int   // by stick: its row, or -1
	costRow int     // or -1
	dearest int64   // largest value
	costly  int64   // largest cost
	scale   float64 // what one unit of the program is in a leaf's whole numbers
	largest int64   // that a worth may be

	rhs, logicals []float64 // of the rows: what is wanted, what the logical costs
	column        []simplex.Entry
	leaf          leaf // of round
}

// set makes the frame that of a node. The logical of a row "at most" costs nothing, that of one "at least" missing.
func (f *frame) set(e *engine, n *node, spare []int64) {
	f.e, f.n, f.spare, f.costRow, f.dearest, f.costly = e, n, spare, -1, 1, 0
	f.rows, f.up, f.low = f.rows[:0], f.up[:0], f.low[:0]
	rhs, logicals := f.rhs[:0], f.logicals[:0]
	pieces := 0
	for _, d := range n.demand {
		if pieces += d; d == 0 {
			f.rows = append(f.rows, -1)
			continue
		}
		f.rows = append(f.rows, len(rhs))
		rhs, logicals = append(rhs, float64(d)), append(logicals, missing)
	}
	f.wanted = len(rhs)
	for k, s := range e.sticks {
		f.dearest, f.costly = max(f.dearest, e.value(k)), max(f.costly, s.cost)
		f.up, f.low = append(f.up, -1), append(f.low, -1)
		if n.most[k] >= 0 && n.most[k] < pieces {
			f.up[k] = len(rhs)
			rhs, logicals = append(rhs, float64(n.most[k])), append(logicals, 0)
		}
		if n.least[k] > 0 {
			f.low[k] = len(rhs)
			rhs, logicals = append(rhs, float64(n.least[k])), append(logicals, missing)
		}
	}
	if e.byCount && f.costly > 0 {
		f.costRow = len(rhs)
		rhs, logicals = append(rhs, float64(e.costMost)/float64(f.costly)), append(logicals, 0)
	}
	f.largest = (1 << 58) / int64(max(pieces, 1))
	f.scale = float64(min(1<<40, f.largest/missing))
	if !e.byCount {
		f.scale = math.Max(1, math.Floor(f.scale/float64(f.dearest))) * float64(f.dearest)
	}
	f.rhs, f.logicals = rhs, logicals
}

// copy makes the frame a copy of another.
func (f *frame) copy(from *frame) {
	old := *f
	*f = *from
	f.rows = append(old.rows[:0], from.rows...)
	f.up, f.low = append(old.up[:0], from.up...), append(old.low[:0], from.low...)
	f.rhs, f.logicals = append(old.rhs[:0], from.rhs...), append(old.logicals[:0], from.logicals...)
	f.column, f.leaf = old.column, old.leaf
}

// value is what a pattern on a stick of kind k costs in the program.
func (f *frame) value(k int) float64 { return float64(f.e.value(k)) / float64(f.dearest) }

// entries is the column of a pattern, until the next call.
func (f *frame) entries(p pattern) []simplex.Entry {
	out := f.column[:0]
	for _, t := range p.takes {
		out = append(out, simplex.Entry{Row: f.rows[t.kind], By: float64(t.count)})
	}
	for _, row := range [2]int{f.up[p.stick], f.low[p.stick]} {
		if row >= 0 {
			out = append(out, simplex.Entry{Row: row, By: 1})
		}
	}
	if f.costRow >= 0 && f.e.sticks[p.stick].cost > 0 {
		out = append(out, simplex.Entry{Row: f.costRow, By: float64(f.e.sticks[p.stick].cost) / float64(f.costly)})
	}
	f.column = out
	return out
}

func (f *frame) usable(k int) bool { return f.spare[k] >= 0 && f.n.most[k] != 0 }

// A leaf is a leaf of the certificate in the making.
type leaf struct {
	values      []int64
	cost, count int64
	sticks      []int64
}

// round takes whole numbers for dual values. The leaf is good until the next call.
func (f *frame) round(duals []float64) *leaf {
	l := &f.leaf
	l.values, l.sticks = zeros(l.values, len(f.n.sizes)), zeros(l.sticks, len(f.e.sticks))
	l.cost, l.count = 0, 0
	for i, row := range f.rows {
		if row >= 0 {
			// At least 1, so that the pricer knows patterns from none.
			l.values[i] = min(int64(math.Max(0, duals[row])*f.scale)+1, f.largest)
		}
	}
	for k := range l.sticks {
		if row := f.up[k]; row >= 0 {
			l.sticks[k] += int64(math.Ceil(math.Max(0, -duals[row]) * f.scale))
		}
		if row := f.low[k]; row >= 0 {
			l.sticks[k] -= int64(math.Max(0, duals[row]) * f.scale)
		}
	}
	if f.e.byCount {
		l.count = int64(f.scale)
		if f.costRow >= 0 {
			l.cost = int64(math.Round(math.Max(0, -duals[f.costRow]) * f.scale / float64(f.costly)))
		}
	} else {
		l.cost = int64(f.scale) / f.dearest
	}
	return l
}

// zeros is a list of so many, in the memory of another.
func zeros(list []int64, n int) []int64 {
	list = slices.Grow(list[:0], n)[:n]
	clear(list)
	return list
}

func (l *leaf) clone() *leaf {
	return &leaf{slices.Clone(l.values), l.cost, l.count, slices.Clone(l.sticks)}
}

// limit is what a pattern on a stick of kind k may be worth.
func (l *leaf) limit(f *frame, k int) int64 {
	return l.cost*f.e.sticks[k].cost + l.count + l.sticks[k]
}

// settle raises the multipliers until no pattern is worth more than its limit, and returns the bound they give.
func (l *leaf) settle(f *frame, most []int64) float64 {
	for k, s := range f.e.sticks {
		over := most[k] - l.limit(f, k)
		if !f.usable(k) || over <= 0 {
			continue
		}
		switch {
		case f.e.byCount:
			l.count += over
		case s.cost == 0:
			l.sticks[k] += over
		default:
			l.cost += (over + s.cost - 1) / s.cost
		}
	}
	worth, rest := f.sums(l)
	x := worth.minus(rest).float()
	if f.e.byCount {
		return x / float64(l.count)
	}
	return x / float64(max(l.cost, 1))
}

// sums returns what all pieces are worth and what the sticks allow apart from the aim's own multiplier.
func (f *frame) sums(l *leaf) (worth, rest wide) {
	sum := int64(0)
	for i, x := range l.values {
		sum += x * int64(f.n.demand[i]) // below 2^58
	}
	for k, x := range l.sticks {
		if x > 0 {
			rest = rest.plus(times(x, int64(f.n.most[k])))
		} else if x < 0 {
			rest = rest.plus(times(x, int64(f.n.least[k])))
		}
	}
	if f.e.byCount {
		rest = rest.plus(times(l.cost, f.e.costMost))
	}
	return times(sum, 1), rest
}

// slack is what the sticks of a plan within the target allow more than all pieces are worth; below 0 where the leaf
// refutes the target.
func (l *leaf) slack(f *frame, target int64) wide {
	worth, rest := f.sums(l)
	if f.e.byCount {
		rest = rest.plus(times(l.count, target))
	} else {
		rest = rest.plus(times(l.cost, target))
	}
	return rest.minus(worth)
}

// node writes the leaf as the certificate has it.
func (l *leaf) node() *stock.Node {
	trim := func(list []int64) []int64 {
		for len(list) > 0 && list[len(list)-1] == 0 {
			list = list[:len(list)-1]
		}
		return slices.Clone(list)
	}
	return &stock.Node{Values: trim(l.values), Cost: l.cost, Count: l.count, Sticks: trim(l.sticks)}
}
