package cut

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"plank.example/cutopt/internal/simplex"
	"plank.example/cutopt/stock"
)

// A shortlist has every pattern that a plan of a node within the target can use, once reduced costs leave few. On it a
// linear program needs no pricing, and takes rows that patterns of a knapsack do not have: roundings (see
// [stock.Rounding]), after the rank-1 cuts of M. Jepsen, B. Petersen, S. Spoorendonk and D. Pisinger (Oper. Res. 56,
// 2008). Each solution shortens the list.
type shortlist struct {
	*frame
	target    int64
	patterns  []*listed
	rows      []*rounding // in the program
	width     int         // of the counts of a pattern
	roundings []stock.Rounding
	steps     []stock.Step
}

// A listed is a pattern of a shortlist.
type listed struct {
	pattern
	counts []int32 // by kind, then by rounding
	column bool    // in the program
}

const (
	// maxListed is how many patterns a shortlist begins with at most.
	maxListed = 1 << 15
	// listWork is how many steps the search for them may take.
	listWork = 1 << 26
	// roundsMost is how often roundings are added, and stallsMost how often without a better bound.
	roundsMost = 40
	stallsMost = 3
	// faces is how many other dual values shorten the list in a round.
	faces = 8
	// sway is how far right-hand sides move to find them.
	sway = 0.05
	// addedMost is how many patterns enter the program at once.
	addedMost = 40
	// countsMost is how many figures a list may have: kinds and roundings of each pattern. stock.Verify takes twice as
	// many.
	countsMost = 1 << 23
	// rowsMost is how many roundings are in the program for each kind of piece.
	rowsMost = 4
)

// newShortlist lists the patterns; nil where they are too many. The master must be priced out.
func newShortlist(m *master, l *leaf, target int64) *shortlist {
	s := &shortlist{frame: m.frame, target: target, width: len(m.n.sizes)}
	slack, small := l.slack(m.frame, target).small()
	if !small || slack < 0 {
		return nil
	}
	p, most := m.e.price, min(maxListed, countsMost/len(m.n.sizes))
	budget := int64(listWork)
	for k, st := range m.e.sticks {
		if !m.usable(k) {
			continue
		}
		p.load(m.n.sizes, m.n.demand, m.n.apart, l.values, st.capacity, m.spare[k])
		list := lister{pricer: p, least: l.limit(m.frame, k) - slack, most: most - len(s.patterns), work: budget}
		list.search(0, st.capacity, 0)
		m.e.meter.spend(budget - list.work)
		if budget = list.work; budget < 0 || list.most < 0 {
			return nil
		}
		for _, takes := range list.found {
			q := &listed{pattern: pattern{k, takes}, counts: make([]int32, len(m.n.sizes))}
			for _, t := range takes {
				q.counts[t.kind] = int32(t.count)
			}
			q.column = m.seen.has(m.columns, &q.pattern)
			s.patterns = append(s.patterns, q)
		}
	}
	return s
}

// A lister lists the patterns of one stick that are worth at least so much.
type lister struct {
	*pricer
	least int64
	most  int   // patterns; below 0 where there are more
	work  int64 // steps left
	found [][]take
}

// search lists those that go on from place q with room r.
func (l *lister) search(q int, r, worth int64) {
	if worth > 0 && worth >= l.least && r <= l.spare {
		if l.most--; l.most < 0 {
			return
		}
		l.found = append(l.found, l.takes(l.counts))
	}
	for ; q < len(l.kinds) && l.most >= 0 && l.work >= 0; q++ {
		if l.work -= int64(8 + len(l.kinds) - q); l.bound(q, r)+worth < l.least {
			return
		}
		for c := min(int64(l.demand[q]), r/l.sizes[q], int64(l.freely(q))); c > 0; c-- {
			l.counts[q] = int(c)
			l.search(q+1, r-c*l.sizes[q], worth+c*l.worths[q])
		}
		l.counts[q] = 0
	}
}

// close adds roundings and shortens the list until the target is refuted, and returns the shortlist of the certificate;
// nil where that comes to a standstill.
func (s *shortlist) close() *stock.Shortlist {
	best, stalls := math.Inf(-1), 0
	for round := range uint64(roundsMost) {
		p := s.program()
		if len(s.patterns)*(len(s.n.sizes)+len(s.roundings)+len(s.rows)) > countsMost || !p.solve() {
			return nil
		}
		if s.shorten(p.Y) {
			return s.certificate()
		}
		z := p.Bound()
		for face := range uint64(faces) {
			if s.e.meter.out() {
				return nil
			}
			if p.turn(rand.New(rand.NewPCG(round, face))) && s.shorten(p.Y) {
				return s.certificate()
			}
		}
		if z > best+1e-5 {
			best, stalls = z, 0
		} else if stalls++; stalls > stallsMost {
			return nil
		}
		p = s.program()
		if !p.solve() {
			return nil
		}
		if !s.separate(p, round) {
			return nil
		}
	}
	return nil
}

func (s *shortlist) certificate() *stock.Shortlist {
	return &stock.Shortlist{Roundings: s.roundings, Steps: s.steps}
}

// A listProgram is the linear program over a shortlist: each kind is cut as often as wanted, neither less nor more.
type listProgram struct {
	*simplex.Program
	s       *shortlist
	first   int       // columns before the patterns
	columns []*listed // column first+i
	rhs     []float64
	base    int // rows before those of the roundings
}

// program makes the linear program of the patterns that are in it, in the rows of the frame and the roundings.
func (s *shortlist) program() *listProgram {
	rhs, logicals := slices.Clone(s.rhs), slices.Clone(s.logicals)
	p := &listProgram{s: s, base: len(rhs)}
	for _, r := range s.rows {
		rhs, logicals = append(rhs, float64(r.all)), append(logicals, 0)
	}
	p.rhs = rhs
	p.Program = simplex.NewProgram(rhs, logicals)
	for row := range s.wanted {
		p.Add(missing, []simplex.Entry{{Row: row, By: -1}})
	}
	p.first = s.wanted
	for _, row := range s.low {
		if row >= 0 {
			p.Add(0, []simplex.Entry{{Row: row, By: -1}})
			p.first++
		}
	}
	for _, q := range s.patterns {
		if q.column {
			p.add(q)
		}
	}
	return p
}

func (p *listProgram) add(q *listed) {
	entries := p.s.entries(q.pattern)
	for i, r := range p.s.rows {
		if c := q.counts[r.at]; c > 0 {
			entries = append(entries, simplex.Entry{Row: p.base + i, By: float64(c)})
		}
	}
	q.column = true
	p.columns = append(p.columns, q)
	p.Add(p.s.value(q.stick), entries)
}

// reduced is the reduced cost of a pattern.
func (p *listProgram) reduced(q *listed) float64 {
	f := p.s.frame
	x := f.value(q.stick)
	for _, t := range q.takes {
		x -= float64(float64(t.count) * p.Y[f.rows[t.kind]])
	}
	for _, row := range [2]int{f.up[q.stick], f.low[q.stick]} {
		if row >= 0 {
			x -= p.Y[row]
		}
	}
	if f.costRow >= 0 {
		x -= float64(float64(f.e.sticks[q.stick].cost) / float64(f.costly) * p.Y[f.costRow])
	}
	for i, r := range p.s.rows {
		if c := q.counts[r.at]; c > 0 {
			x -= float64(float64(c) * p.Y[p.base+i])
		}
	}
	return x
}

// solve solves the program over the whole list.
func (p *listProgram) solve() bool {
	type candidate struct {
		q       *listed
		reduced float64
	}
	rows := int64(len(p.rhs))
	for !p.s.e.meter.out() {
		before := p.Pivots
		ok := p.Solve(pivotsMost)
		p.s.e.meter.spend(int64(p.Pivots-before)*(rows*rows+int64(8*len(p.columns))) + int64(len(p.s.patterns))*8)
		if !ok {
			return false
		}
		var out []candidate
		for _, q := range p.s.patterns {
			if !q.column {
				if x := p.reduced(q); x < -1e-7 {
					out = append(out, candidate{q, x})
				}
			}
		}
		if len(out) == 0 {
			return true
		}
		slices.SortStableFunc(out, func(a, b candidate) int { return cmp.Compare(a.reduced, b.reduced) })
		for _, c := range out[:min(len(out), addedMost)] {
			p.add(c.q)
		}
	}
	return false
}

// turn moves the right-hand sides at random, for dual values of another vertex near by.
func (p *listProgram) turn(rng *rand.Rand) bool {
	for row, x := range p.rhs {
		by := 0.5 - float64(rng.Float64())
		if row >= p.base {
			by += 0.5
		}
		p.SetRHS(row, float64(x*(1+float64(sway*by))))
	}
	return p.solve()
}

// shorten rounds dual values to a step, and strikes off the patterns that miss their limits by more than the slack. It
// reports whether the step refutes the target. A step that strikes nothing off is forgotten.
func (s *shortlist) shorten(duals []float64) bool {
	l, by, ok := s.round(duals)
	if !ok {
		return false
	}
	most := make([]int64, len(s.e.sticks))
	for k := range most {
		most[k] = none
	}
	worths := make([]int64, len(s.patterns))
	for i, q := range s.patterns {
		for _, t := range q.takes {
			worths[i] += l.values[t.kind] * int64(t.count)
		}
		for c, r := range s.rows {
			worths[i] -= by[c] * int64(q.counts[r.at])
		}
		most[q.stick] = max(most[q.stick], worths[i])
	}
	s.e.meter.spend(int64(len(s.patterns) * (8 + len(s.rows))))
	l.settle(s.frame, most)
	slack := l.slack(s.frame, s.target)
	for c, r := range s.rows {
		slack = slack.plus(times(by[c], r.all))
	}
	left := s.patterns[:0]
	for i, q := range s.patterns {
		if miss := l.limit(s.frame, q.stick) - worths[i]; !slack.less(times(miss, 1)) {
			left = append(left, q)
		}
	}
	done := slack.negative()
	if done || len(left) < len(s.patterns) {
		s.steps = append(s.steps, s.step(l, by))
	}
	s.patterns = left
	return done
}

// round takes whole numbers for dual values: of the rows of the frame, and of the roundings.
func (s *shortlist) round(duals []float64) (l *leaf, by []int64, ok bool) {
	l = s.frame.round(duals)
	for i, row := range s.frame.rows {
		if row >= 0 {
			l.values[i] = max(min(int64(duals[row]*s.scale), s.largest), -s.largest)
		}
	}
	by = make([]int64, len(s.rows))
	base, sum := len(duals)-len(s.rows), 0.0
	for c, r := range s.rows {
		x := math.Max(0, -duals[base+c]) * s.scale
		if sum += float64(x * float64(r.all)); sum > 1<<58 {
			return nil, nil, false
		}
		by[c] = int64(math.Ceil(x))
	}
	return l, by, true
}

// step writes a step as the certificate has it.
func (s *shortlist) step(l *leaf, by []int64) stock.Step {
	n := l.node()
	out := stock.Step{Values: n.Values, Cost: n.Cost, Count: n.Count, Sticks: n.Sticks}
	for c, x := range by {
		if x == 0 {
			continue
		}
		r := s.rows[c]
		s.keep(r)
		for len(out.Roundings) < r.index {
			out.Roundings = append(out.Roundings, 0)
		}
		out.Roundings[r.index-1] = x
	}
	return out
}
