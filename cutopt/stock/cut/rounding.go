package cut

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"plank.example/cutopt/stock"
)

// A rounding is a row of a shortlist's program: floor((sum of multiples) / by) of each pattern, which adds up to no
// more over a plan than it is of all pieces.
type rounding struct {
	of    []multiple
	by    int64
	all   int64 // of all pieces
	at    int   // in the counts of a pattern
	index int   // in the certificate, from 1; 0 where it is not needed so far
}

// A multiple takes a kind of piece, or an earlier rounding, so many times.
type multiple struct {
	kind    int
	earlier *rounding // or nil
	times   int64
}

// count is what a pattern counts.
func (r *rounding) count(q *listed) int64 {
	sum := int64(0)
	for _, m := range r.of {
		at := m.kind
		if m.earlier != nil {
			at = m.earlier.at
		}
		sum += m.times * int64(q.counts[at])
	}
	return sum / r.by
}

// keep takes a rounding, and those it rests on, into the certificate.
func (s *shortlist) keep(r *rounding) {
	if r.index > 0 {
		return
	}
	out := stock.Rounding{By: r.by}
	for _, m := range r.of {
		kind := m.kind
		if m.earlier != nil {
			s.keep(m.earlier)
			kind = len(s.n.sizes) + m.earlier.index - 1
		}
		out.Of = append(out.Of, stock.Multiple{Kind: kind, Times: m.times})
	}
	s.roundings = append(s.roundings, out)
	r.index = len(s.roundings)
}

// A separator looks for roundings that a solution of the program breaks.
type separator struct {
	s       *shortlist
	p       *listProgram
	used    []*listed // patterns in the solution
	x       []float64 // how much of each
	kinds   []int     // that have a row, in the order of the rows
	seen    map[string]bool
	found   []broken
	counted []float64 // scratch
}

// A broken rounding, with what the patterns of the solution count.
type broken struct {
	r      *rounding
	counts []float64
	length float64 // of counts
	depth  float64 // by how much it is broken, for its length
}

const (
	// least is by how much a rounding is broken to be of use.
	least = 0.02
	// broadest is the largest divisor that is tried.
	broadest = 16
	// chosenMost is how many roundings are added in a round, none so near another as alike, a cosine.
	chosenMost = 20
	alike      = 0.85
	// shuffles is how often rows are eliminated in another order.
	shuffles = 6
)

// separate adds roundings that the solution breaks, and reports whether there are any.
func (s *shortlist) separate(p *listProgram, seed uint64) bool {
	a := &separator{s: s, p: p, seen: map[string]bool{}}
	for q, v := range p.Vars {
		if v >= p.first && p.X[q] > 1e-5 {
			a.used, a.x = append(a.used, p.columns[v-p.first]), append(a.x, p.X[q])
		}
	}
	for i, row := range s.frame.rows {
		if row >= 0 {
			a.kinds = append(a.kinds, i)
		}
	}
	a.tableau()
	rng := rand.New(rand.NewPCG(seed, 11))
	for _, k := range []int{2, 3, 5} {
		for range shuffles {
			a.eliminate(k, rng)
		}
	}
	return s.adopt(p, a.choose())
}

// adopt makes rows of roundings, in the place of rows that do not hold the program where these are many.
func (s *shortlist) adopt(p *listProgram, chosen []*rounding) bool {
	kept, free := s.rows, []int(nil)
	if len(s.rows)+len(chosen) > rowsMost*s.wanted {
		kept = nil
		for c, r := range s.rows {
			if p.Y[p.base+c] < -1e-7 {
				kept = append(kept, r)
			} else {
				free = append(free, r.at)
			}
		}
	}
	counts := make([]int32, len(chosen))
	for _, q := range s.patterns {
		for i, r := range chosen {
			counts[i] = int32(r.count(q)) // all of them first: they may rest on rows that go
		}
		q.counts = q.counts[:s.width]
		for i, c := range counts {
			if i < len(free) {
				q.counts[free[i]] = c
			} else {
				q.counts = append(q.counts, c)
			}
		}
	}
	for i, r := range chosen {
		if i < len(free) {
			r.at = free[i]
			continue
		}
		r.at = s.width
		s.width++
	}
	s.rows = append(kept, chosen...)
	s.e.meter.spend(int64(len(s.patterns) * len(chosen) * 8))
	return len(chosen) > 0
}

// of lists multiples by row of the program: kinds first, then roundings.
func (a *separator) of(times func(row int) int64) []multiple {
	var out []multiple
	for row, kind := range a.kinds {
		if t := times(row); t != 0 {
			out = append(out, multiple{kind: kind, times: t})
		}
	}
	for c, r := range a.s.rows {
		if t := times(a.p.base + c); t != 0 {
			out = append(out, multiple{earlier: r, times: t})
		}
	}
	return out
}

// tableau takes the multipliers of R. E. Gomory (1958) from the rows of the inverse where the solution is broken, in
// the fractions that are nearest.
func (a *separator) tableau() {
	for q, v := range a.p.Vars {
		if f := a.p.X[q] - math.Floor(a.p.X[q]); v < a.p.first || f < 0.01 || f > 0.99 {
			continue
		}
		for _, sign := range []float64{1, -1, 2, -2, 3, -3} {
			for by := 2; by <= broadest; by++ {
				a.try(a.of(func(row int) int64 {
					y := float64(sign * a.p.Inverse[q][row])
					y -= math.Floor(y + 1e-9)
					return int64(math.Round(float64(y*float64(by)))) % int64(by)
				}), int64(by))
			}
		}
	}
}

// eliminate looks for sums of rows that are 0 modulo k in all patterns of the solution but not on the right: k-1 there
// breaks the rounding most (A. Caprara, M. Fischetti and A. N. Letchford, Math. Program. 87, 2000). The patterns used
// most come first, so that sums that leave some of the others are broken too.
func (a *separator) eliminate(k int, rng *rand.Rand) {
	order := make([]int, len(a.used))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(a.x[j], a.x[i]) })
	rows, width := a.modular(k, order)
	rng.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
	m := width - len(order) - 1 // multipliers, then patterns, then the right
	for j := range order {
		lead := slices.IndexFunc(rows, func(row []uint8) bool { return row != nil && row[m+j] != 0 })
		if lead < 0 {
			continue
		}
		cancel(rows, lead, m+j, k)
		rows[lead] = nil
		a.s.e.meter.spend(int64(len(rows) * width))
		if 3*j < len(order) {
			continue
		}
		for _, row := range rows {
			if row == nil || row[width-1] == 0 {
				continue
			}
			f := 1
			for f*int(row[width-1])%k != k-1 {
				f++
			}
			a.try(a.of(func(r int) int64 { return int64(f * int(row[r]) % k) }), int64(k))
		}
	}
}

// modular lists the rows that hold the solution, modulo k: the row's own multiplier, what it counts of each pattern in
// the order, its right-hand side.
func (a *separator) modular(k int, order []int) (rows [][]uint8, width int) {
	m := len(a.p.rhs)
	width = m + len(order) + 1
	add := func(row int, at int, all int64) {
		out := make([]uint8, width)
		sum := 0.0
		for j, i := range order {
			c := a.used[i].counts[at]
			out[m+j] = uint8(int(c) % k)
			sum += float64(float64(c) * a.x[i])
		}
		if sum < float64(all)-1e-5 {
			return
		}
		out[row], out[width-1] = 1, uint8(all%int64(k))
		rows = append(rows, out)
	}
	for row, kind := range a.kinds {
		add(row, kind, int64(a.s.n.demand[kind]))
	}
	for c, r := range a.s.rows {
		add(a.p.base+c, r.at, r.all)
	}
	return rows, width
}

// cancel subtracts multiples of the leading row from all others, so that they are 0 at the place modulo k.
func cancel(rows [][]uint8, lead, at, k int) {
	p := rows[lead]
	inverse := 1
	for inverse*int(p[at])%k != 1 {
		inverse++
	}
	for i, row := range rows {
		if i == lead || row == nil || row[at] == 0 {
			continue
		}
		f := uint8(k - int(row[at])*inverse%k)
		for j, x := range p {
			if x != 0 {
				row[j] = uint8((int(row[j]) + int(f)*int(x)) % k)
			}
		}
	}
}

// try takes a rounding that the solution breaks.
func (a *separator) try(of []multiple, by int64) {
	r := &rounding{of: of, by: by}
	for _, m := range of {
		if m.earlier != nil {
			r.all += m.times * m.earlier.all
		} else {
			r.all += m.times * int64(a.s.n.demand[m.kind])
		}
	}
	if r.all%by == 0 {
		return // sums of floors are no more than their sum
	}
	r.all /= by
	a.counted = a.counted[:0]
	sum, square := 0.0, 0.0
	for i, q := range a.used {
		c := float64(r.count(q))
		a.counted = append(a.counted, c)
		sum += float64(c * a.x[i])
		square += float64(c * c)
	}
	a.s.e.meter.spend(int64(len(of) * len(a.used)))
	over := sum - float64(r.all)
	if over < least || math.IsNaN(over) {
		return
	}
	if key := r.key(); !a.seen[key] {
		a.seen[key] = true
		length := math.Sqrt(square)
		a.found = append(a.found, broken{r, slices.Clone(a.counted), length, over / length})
	}
}

func (r *rounding) key() string {
	key := []byte{byte(r.by)}
	for _, m := range r.of {
		at := m.kind
		if m.earlier != nil {
			at = m.earlier.at
		}
		key = append(key, byte(at), byte(at>>8), byte(m.times))
	}
	return string(key)
}

// choose takes the roundings that are broken most, of those that are alike one.
func (a *separator) choose() []*rounding {
	slices.SortStableFunc(a.found, func(b, c broken) int { return cmp.Compare(c.depth, b.depth) })
	var chosen []broken
	var out []*rounding
	for _, b := range a.found {
		if len(chosen) == chosenMost {
			break
		}
		if !slices.ContainsFunc(chosen, func(c broken) bool {
			dot := 0.0
			for i, x := range b.counts {
				dot += float64(x * c.counts[i])
			}
			return dot > alike*b.length*c.length
		}) {
			chosen, out = append(chosen, b), append(out, b.r)
		}
	}
	return out
}
