package cut

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// A pricer finds patterns of great worth. Where kinds times capacity is small it fills a table, whose rows are the most
// that later kinds are worth in every room; else it branches and bounds in the order of worth by size, so that its work
// does not depend on the capacity. With kinds that keep apart it searches, bounded by the table if there is one.
type pricer struct {
	meter *meter
	work  *workspace
	cells []int64
	table [][]int64
	// Of the call: kinds in the order they are tried in.
	kinds    []int
	sizes    []int64
	worths   []int64
	demand   []int
	rest     []int64 // by place: what this and later kinds count together
	apart    [][]int
	spare    int64
	tabled   bool
	conflict bool
	// Of the search.
	counts []int // by place
	best   int64
	found  []int // counts of the best
	spent  int   // by the search, in steps
	list   [][]take
	taken  []take // scratch
}

const (
	// smallCells is the largest table of wide sticks, whose patterns are sooner searched, and maxCells that of sticks
	// up to narrow, where pieces of near sizes abound.
	smallCells = 1 << 15
	maxCells   = 1 << 19
	narrow     = 4096
	// maxWork is how many steps one search may take before it gives up on being exact.
	maxWork = 1 << 20
	// none is the worth of a pattern that there is not.
	none = math.MinInt64 / 4
)

// A priced is the outcome for one stick: no pattern is worth more than most, and patterns has some of the best, one for
// each kind that comes first on it.
type priced struct {
	most     int64
	patterns [][]take // until the next call
}

// load prepares for pieces with the given worths. Room left on a stick of the capacity may be up to spare.
func (p *pricer) load(sizes []int64, demand []int, apart [][]int, worths []int64, capacity, spare int64) {
	p.kinds, p.conflict, p.apart = p.kinds[:0], false, apart
	for i, w := range sizes {
		if demand[i] > 0 && w <= capacity && (worths[i] > 0 || spare < capacity) {
			p.kinds = append(p.kinds, i)
			p.conflict = p.conflict || len(apart) > 0 && len(apart[i]) > 0
		}
	}
	p.spare = spare
	n := len(p.kinds)
	cells := int64(n+1) * (capacity + 1)
	p.tabled = cells <= smallCells || cells <= maxCells && capacity <= narrow
	if p.tabled {
		slices.SortFunc(p.kinds, func(a, b int) int { return cmp.Or(cmp.Compare(sizes[b], sizes[a]), a-b) })
	} else {
		slices.SortFunc(p.kinds, func(a, b int) int {
			return cmp.Or(compareProducts(worths[b], sizes[a], worths[a], sizes[b]), a-b)
		})
	}
	p.sizes, p.worths, p.demand = p.sizes[:0], p.worths[:0], p.demand[:0]
	for _, i := range p.kinds {
		p.sizes, p.worths, p.demand = append(p.sizes, sizes[i]), append(p.worths, worths[i]), append(p.demand,
			demand[i])
	}
	p.rest = zeros(p.rest, n+1)
	for q := n - 1; q >= 0; q-- {
		p.rest[q] = p.rest[q+1] + p.sizes[q]*int64(p.demand[q])
	}
	p.counts = slices.Grow(p.counts[:0], n)[:n]
	clear(p.counts)
	if p.tabled {
		p.fillTable(int(capacity))
	}
}

func compareProducts(a, b, c, d int64) int {
	high, low := bits.Mul64(uint64(a), uint64(b))
	high2, low2 := bits.Mul64(uint64(c), uint64(d))
	return cmp.Or(cmp.Compare(high, high2), cmp.Compare(low, low2))
}

// fillTable fills the rows from the last kind to the first, each demand in powers of two.
func (p *pricer) fillTable(capacity int) {
	n, width := len(p.kinds), capacity+1
	if need := (n + 1) * width; len(p.cells) < need {
		p.cells = make([]int64, need)
	}
	p.table = p.table[:0]
	for q := range n + 1 {
		p.table = append(p.table, p.cells[q*width:(q+1)*width:(q+1)*width])
	}
	for r := range p.table[n] {
		p.table[n][r] = 0
		if int64(r) > p.spare {
			p.table[n][r] = none
		}
	}
	work := width
	for q := n - 1; q >= 0; q-- {
		row := p.table[q]
		copy(row, p.table[q+1])
		w := int(p.sizes[q])
		left := min(p.demand[q], capacity/w)
		for m := 1; left > 0; m *= 2 {
			m = min(m, left)
			left -= m
			worth, size := int64(m)*p.worths[q], m*w
			from := row[:max(width-size, 0)]
			to := row[min(size, width):]
			for r := len(from) - 1; r >= 0; r-- {
				to[r] = max(to[r], from[r]+worth)
			}
			work += len(from)
		}
		work += width
	}
	p.meter.spend(int64(work))
}

// bound is the most that kinds from place q on can be worth in room r.
func (p *pricer) bound(q int, r int64) int64 {
	if p.tabled {
		return p.table[q][r]
	}
	if r-p.rest[q] > p.spare {
		return none
	}
	sum := int64(0)
	for ; q < len(p.kinds); q++ {
		p.spent++
		w := p.sizes[q]
		t := min(int64(p.demand[q]), r/w)
		sum += t * p.worths[q]
		if r -= t * w; t < int64(p.demand[q]) {
			high, low := bits.Mul64(uint64(r), uint64(p.worths[q]))
			part, _ := bits.Div64(high, low, uint64(w)) // r < w
			return sum + int64(part)
		}
	}
	return sum
}

// beats reports whether the bound is above a figure. It divides by sizes only where it must.
func (p *pricer) beats(q int, r, figure int64) bool {
	if p.tabled {
		return p.table[q][r] > figure
	}
	if !atLeast(r, p.worths[q], p.sizes[q], figure+1) || r-p.rest[q] > p.spare {
		return false
	}
	for ; q < len(p.kinds) && figure >= 0; q++ {
		p.spent++
		w := p.sizes[q]
		if all := p.rest[q] - p.rest[q+1]; all <= r {
			r -= all
			figure -= int64(p.demand[q]) * p.worths[q]
			continue
		}
		t := r / w
		return atLeast(r-t*w, p.worths[q], w, figure-t*p.worths[q]+1)
	}
	return figure < 0
}

// atLeast reports whether a b/c, rounded down, is at least d.
func atLeast(a, b, c, d int64) bool {
	if d <= 0 {
		return true
	}
	high, low := bits.Mul64(uint64(a), uint64(b))
	high2, low2 := bits.Mul64(uint64(c), uint64(d))
	return high > high2 || high == high2 && low >= low2
}

// patterns returns, for room r, the best pattern for each kind that comes first on it, as far as it is worth more than
// over. With one only the best of all is sought.
func (p *pricer) patterns(r, over int64, one bool) priced {
	out := priced{most: over, patterns: p.list[:0]}
	for q := range p.kinds {
		if !p.beats(q, r, over) {
			break // bounds fall from place to place
		}
		if p.sizes[q] > r {
			continue
		}
		if p.meter.out() {
			out.most = max(out.most, p.bound(q, r))
			break
		}
		threshold := over
		if one {
			threshold = out.most
		}
		takes, most := p.starting(q, r, threshold)
		out.most = max(out.most, most)
		if takes != nil {
			out.patterns = append(out.patterns, takes)
		}
	}
	p.list = out.patterns
	return out
}

// starting finds the best pattern whose first kind is at place q, if it is worth more than over, and the most that any
// such pattern can be worth, at least over.
func (p *pricer) starting(q int, r, over int64) (takes []take, most int64) {
	p.best, p.spent = over, 0
	clear(p.counts)
	if p.tabled && !p.conflict {
		t, best := 0, over
		for c := 1; c <= p.demand[q] && int64(c)*p.sizes[q] <= r; c++ {
			if x := int64(c)*p.worths[q] + p.table[q+1][r-int64(c)*p.sizes[q]]; x > best {
				t, best = c, x
			}
		}
		if t == 0 {
			return nil, over
		}
		p.counts[q] = t
		p.trace(q+1, r-int64(t)*p.sizes[q])
		return p.takes(p.counts), best
	}
	ceiling := p.bound(q, r)
	free := p.freely(q)
	for c := min(int64(p.demand[q]), r/p.sizes[q], int64(free)); c > 0; c-- {
		p.counts[q] = int(c)
		p.search(q+1, r-c*p.sizes[q], c*p.worths[q])
	}
	p.counts[q] = 0
	p.meter.spend(int64(p.spent))
	if p.best > over {
		takes = p.takes(p.found)
	}
	if p.spent > maxWork {
		return takes, max(ceiling, over)
	}
	return takes, p.best
}

// trace follows the table to the counts that give its worth.
func (p *pricer) trace(q int, r int64) {
	for ; q < len(p.kinds); q++ {
		want := p.table[q][r]
		if want == p.table[q+1][r] {
			continue
		}
		for c := int64(1); ; c++ {
			if c*p.worths[q]+p.table[q+1][r-c*p.sizes[q]] == want {
				p.counts[q] = int(c)
				r -= c * p.sizes[q]
				break
			}
		}
	}
}

// search improves p.best by patterns that go on from place q with room r.
func (p *pricer) search(q int, r, worth int64) {
	p.spent += 8
	if worth > p.best && r <= p.spare {
		p.best = worth
		p.found = append(p.found[:0], p.counts...)
	}
	for ; q < len(p.kinds); q++ {
		if p.spent > maxWork || !p.beats(q, r, p.best-worth) {
			return
		}
		most := min(int64(p.demand[q]), r/p.sizes[q])
		if most > 0 && p.conflict {
			most = min(most, int64(p.freely(q)))
		}
		for c := most; c > 0; c-- {
			p.counts[q] = int(c)
			p.search(q+1, r-c*p.sizes[q], worth+c*p.worths[q])
		}
		p.counts[q] = 0
	}
}

// freely is how many pieces of the kind at place q may join those before it.
func (p *pricer) freely(q int) int {
	if !p.conflict {
		return math.MaxInt
	}
	most := math.MaxInt
	for _, x := range p.apart[p.kinds[q]] {
		if x == p.kinds[q] {
			most = 1
			continue
		}
		for b := range q {
			if p.counts[b] > 0 && p.kinds[b] == x {
				return 0
			}
		}
	}
	return most
}

// takes writes counts by place as a pattern has them.
func (p *pricer) takes(counts []int) []take {
	out := p.taken[:0]
	for q, c := range counts {
		if c > 0 {
			out = append(out, take{p.kinds[q], c})
		}
	}
	slices.SortFunc(out, func(a, b take) int { return a.kind - b.kind })
	p.taken = out
	return p.work.keep(out)
}
