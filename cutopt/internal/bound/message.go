package bound

import "plank.example/cutopt/measure"

// A span is a stretch of starters, on the grid or not, that a message gives one value.
type span struct {
	lo, hi measure.Length
	value  int64
}

// message lists in e.spans, for the starters within dom of a run with the given joints, the cheapest choice of run a
// that its stagger allows. delta is From of the receiving run less From of a.
func (e *evaluator) message(from *choice, delta measure.Length, dom interval, joints int) {
	e.spans = e.spans[:0]
	e.free = append(e.free[:0], dom)
	last, lastIndex := -infinite, -1
	for taken := 0; len(e.free) > 0; taken++ {
		if taken >= scans && len(from.pieces) > few {
			e.rest(from, last, lastIndex, delta, dom, joints)
			break
		}
		// the cheapest piece not yet taken
		k, cost := -1, infinite
		for i := range from.pieces {
			if c := from.pieces[i].cost; c < cost && (c > last || c == last && i > lastIndex) {
				k, cost = i, c
			}
		}
		if from.single < infinite && from.single <= cost {
			e.give(from.single)
			break
		}
		if k < 0 {
			break
		}
		last, lastIndex = cost, k
		e.assign(&from.pieces[k], delta, dom, joints)
	}
	sortSpans(e.spans)
}

// A message finds its first pieces by a scan each, and the rest too where there are few; else a heap is faster.
const scans, few = 3, 100

// rest goes on with the message from the piece after the one of the given cost and index.
func (e *evaluator) rest(from *choice, last int64, lastIndex int, delta measure.Length, dom interval, joints int) {
	e.heapUp(from.pieces, last, lastIndex)
	for len(e.free) > 0 {
		k, cost := e.pop(from.pieces)
		if from.single < infinite && from.single <= cost {
			e.give(from.single)
			return
		}
		if k < 0 {
			return
		}
		e.assign(&from.pieces[k], delta, dom, joints)
	}
}

// give gives every free starter one cost.
func (e *evaluator) give(cost int64) {
	for _, f := range e.free {
		e.spans = append(e.spans, span{f.lo, f.hi, cost})
	}
}

// heapUp makes a heap of the pieces that can be laid and come after one of the given cost and index.
func (e *evaluator) heapUp(pieces []piece, last int64, lastIndex int) {
	e.heap = e.heap[:0]
	for i := range pieces {
		if c := pieces[i].cost; c < infinite && (c > last || c == last && i > lastIndex) {
			e.heap = append(e.heap, int32(i))
		}
	}
	for i := len(e.heap)/2 - 1; i >= 0; i-- {
		e.sift(pieces, i)
	}
}

// pop takes the cheapest piece from the heap, the first of equal ones, and returns it and its cost, or -1.
func (e *evaluator) pop(pieces []piece) (k int, cost int64) {
	n := len(e.heap) - 1
	if n < 0 {
		return -1, infinite
	}
	k = int(e.heap[0])
	e.heap[0] = e.heap[n]
	e.heap = e.heap[:n]
	if n > 0 {
		e.sift(pieces, 0)
	}
	return k, pieces[k].cost
}

// sift moves entry i of the heap down to where none below it is cheaper.
func (e *evaluator) sift(pieces []piece, i int) {
	h := e.heap
	x := h[i]
	cost := pieces[x].cost
	for {
		c := 2*i + 1
		if c >= len(h) {
			break
		}
		at := pieces[h[c]].cost
		if c+1 < len(h) {
			if r := pieces[h[c+1]].cost; r < at || r == at && h[c+1] < h[c] {
				c, at = c+1, r
			}
		}
		if at > cost || at == cost && h[c] > x {
			break
		}
		h[i] = h[c]
		i = c
	}
	h[i] = x
}

// assign gives the cost of piece p to every free starter that some starter of p is compatible with. All of p is
// forbidden to t exactly when, for some whole m, hi-delta+mL-stagger < t < lo-delta+mL+stagger.
func (e *evaluator) assign(p *piece, delta measure.Length, dom interval, joints int) {
	in := e.table.Instance
	l, d := in.Plank, in.Stagger
	m0 := max((dom.lo-p.lo+delta-d).Div(l)+1, measure.Length(1-joints))
	m1 := min(-(-(dom.hi - p.hi + delta + d)).Div(l)-1, measure.Length(p.joints-1))
	if p.hi-p.lo >= 2*d {
		m1 = m0 - 1
	}
	e.spare = e.spare[:0]
	for _, f := range e.free {
		lo := f.lo
		for m := m0; m <= m1; m++ {
			x, y := max(p.hi-delta+m*l-d+1, lo), min(p.lo-delta+m*l+d-1, f.hi)
			if x > y {
				continue
			}
			if lo < x {
				e.spans = append(e.spans, span{lo, x - 1, p.cost})
			}
			e.spare = append(e.spare, interval{x, y})
			lo = y + 1
		}
		if lo <= f.hi {
			e.spans = append(e.spans, span{lo, f.hi, p.cost})
		}
	}
	e.free, e.spare = e.spare, e.free
}

// sortSpans sorts by insertion: spans are few and nearly in order.
func sortSpans(s []span) {
	for i := 1; i < len(s); i++ {
		for j := i; j > 0 && s[j].lo < s[j-1].lo; j-- {
			s[j], s[j-1] = s[j-1], s[j]
		}
	}
}

// merge appends pieces to the arena, split where e.spans changes and with its values added. Starters outside every span
// are dropped: nothing below goes with them.
func (e *evaluator) merge(pieces []piece) {
	g := e.table.Instance.Grid
	start := len(e.arena)
	k := 0
	for i := range pieces {
		p := pieces[i]
		for k < len(e.spans) && e.spans[k].hi < p.lo {
			k++
		}
		for j := k; j < len(e.spans) && e.spans[j].lo <= p.hi; j++ {
			s := &e.spans[j]
			lo, hi := p.lo, p.hi
			if s.lo > lo {
				lo = (s.lo + g - 1) / g * g
			}
			if s.hi < hi {
				hi = s.hi / g * g
			}
			if lo > hi {
				continue
			}
			cost := p.cost + s.value
			if n := len(e.arena) - 1; n >= start && e.arena[n].cost == cost && e.arena[n].hi+g == lo && !e.narrow {
				e.arena[n].hi = hi
				continue
			}
			e.arena = append(e.arena, piece{lo, hi, cost, p.joints})
		}
	}
}
