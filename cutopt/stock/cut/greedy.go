package cut

import (
	"math/bits"
	"slices"
)

// stockLeft is what a packing may still cut from.
type stockLeft struct {
	most []int // by stick; -1: any number
	cost int64 // what may be spent; -1: anything
}

func (e *engine) stockLeft() stockLeft {
	s := stockLeft{cost: -1}
	for _, k := range e.sticks {
		s.most = append(s.most, k.supply)
	}
	if e.byCount {
		s.cost = e.costMost
	}
	return s
}

// take uses n sticks of kind k and reports false where there are not so many.
func (s *stockLeft) take(e *engine, k, n int) bool {
	cost := e.sticks[k].cost * int64(n)
	if s.most[k] >= 0 && s.most[k] < n || s.cost >= 0 && s.cost < cost {
		return false
	}
	if s.most[k] >= 0 {
		s.most[k] -= n
	}
	if s.cost >= 0 {
		s.cost -= cost
	}
	return true
}

// decreasing packs what is wanted stick after stick, the longest piece that still fits next; of the kinds of sticks it
// takes that which costs least for its length. It looks at no clock, so that there is a plan to fall back on: it takes
// O(kinds) for each different pattern. It returns nil where the sticks do not do.
func (e *engine) decreasing(demand []int, left stockLeft) packing {
	demand = slices.Clone(demand)
	var out packing
	for i := 0; i < len(demand); {
		if demand[i] == 0 {
			i++
			continue
		}
		best := -1
		for k, s := range e.sticks {
			if s.capacity >= e.sizes[i] && left.affords(e, k) &&
				(best < 0 || compareProducts(s.cost, e.sticks[best].capacity, e.sticks[best].cost, s.capacity) < 0) {
				best = k
			}
		}
		if best < 0 {
			return nil
		}
		p := pattern{stick: best}
		room := e.sticks[best].capacity
		for q := i; q < len(demand); q++ {
			if c := min(int64(demand[q]), room/e.sizes[q]); c > 0 {
				p.takes = append(p.takes, take{q, int(c)})
				room -= c * e.sizes[q]
			}
		}
		out = append(out, e.cutOff(p, demand, &left))
	}
	e.downsize(out, left)
	return out
}

// cutOff takes a pattern out of what is wanted as often as it is and as there are sticks.
func (e *engine) cutOff(p pattern, demand []int, left *stockLeft) batch {
	n := e.times(p.takes, demand)
	for !left.take(e, p.stick, n) {
		n--
	}
	for _, t := range p.takes {
		demand[t.kind] -= n * t.count
	}
	return batch{p, n}
}

// fullest packs what is wanted by filling stick after stick as far as it goes, each with the longest piece left on it
// (J. N. D. Gupta and J. C. Ho, Prod. Plan. Control 10, 1999, begin with the longest piece too). Of the kinds of sticks
// it takes that which costs least for what is filled; at the end each pattern goes to the cheapest stick that holds it.
// It returns nil where the sticks do not do or the effort is spent.
func (e *engine) fullest(demand []int, left stockLeft) packing {
	demand = slices.Clone(demand)
	var out packing
	for i := 0; i < len(demand); {
		if demand[i] == 0 {
			i++
			continue
		}
		best, bestFill := pattern{stick: -1}, int64(0)
		var reach *reachable
		for k, s := range e.sticks {
			if s.capacity < e.sizes[i] || !left.affords(e, k) {
				continue
			}
			if reach == nil {
				reach = e.reach(demand, i)
			}
			takes := e.fillUp(demand, i, s.capacity, reach)
			fill := e.fill(e.sizes, takes)
			// Less for its fill: value(k)/fill < value(best)/bestFill; a stick that is free by its waste.
			if best.stick < 0 || e.better(k, fill, best.stick, bestFill) {
				best, bestFill = pattern{k, takes}, fill
			}
		}
		if best.stick < 0 {
			return nil
		}
		out = append(out, e.cutOff(best, demand, &left))
		e.meter.spend(int64(len(demand)))
		if e.meter.out() {
			return nil
		}
	}
	e.downsize(out, left)
	return out
}

func (s *stockLeft) affords(e *engine, k int) bool {
	return s.most[k] != 0 && (s.cost < 0 || s.cost >= e.sticks[k].cost)
}

// better reports whether filling a stick of kind a by f is worth more than one of kind b by g.
func (e *engine) better(a int, f int64, b int, g int64) bool {
	va, vb := e.sticks[a].cost, e.sticks[b].cost
	if va == 0 && vb == 0 || e.byCount && e.costMost < 0 {
		return e.sticks[a].capacity-f < e.sticks[b].capacity-g
	}
	return compareProducts(va, g, vb, f) < 0
}

// times is how often a pattern can be cut within the demand.
func (e *engine) times(takes []take, demand []int) int {
	n := 1 << 30
	for _, t := range takes {
		n = min(n, demand[t.kind]/t.count)
	}
	return n
}

// downsize moves patterns to sticks that cost less and hold them.
func (e *engine) downsize(p packing, left stockLeft) {
	for i := range p {
		b := &p[i]
		fill := e.fill(e.sizes, b.takes)
		for k, s := range e.sticks {
			if s.capacity >= fill && s.cost < e.sticks[b.stick].cost && (left.most[k] < 0 || left.most[k] >= b.count) {
				if left.most[k] >= 0 {
					left.most[k] -= b.count
				}
				if left.most[b.stick] >= 0 {
					left.most[b.stick] += b.count
				}
				b.stick = k
			}
		}
	}
}

// reachable has, for small capacities, the sums that pieces from each kind on can reach, a bit each.
type reachable struct {
	from  int
	words int
	sums  [][]uint64 // by kind - from, with one more at the end
}

// bitsMost is the largest capacity that sums are kept for.
const bitsMost = 1 << 14

// reach computes the sums of pieces from kind i on, one of kind i being on the stick already.
func (e *engine) reach(demand []int, i int) *reachable {
	widest := int64(0)
	for _, s := range e.sticks {
		widest = max(widest, s.capacity)
	}
	if widest > bitsMost {
		return &reachable{}
	}
	r := &reachable{from: i, words: int(widest)/64 + 1}
	n := len(demand) - i
	cells := make([]uint64, (n+1)*r.words)
	for q := range n + 1 {
		r.sums = append(r.sums, cells[q*r.words:(q+1)*r.words])
	}
	r.sums[n][0] = 1
	for q := n - 1; q >= 0; q-- {
		copy(r.sums[q], r.sums[q+1])
		count := demand[i+q]
		if q == 0 {
			count--
		}
		w := e.sizes[i+q]
		for left, m := min(count, int(widest/w)), 1; left > 0; m *= 2 {
			m = min(m, left)
			left -= m
			shiftOr(r.sums[q], int(w)*m)
		}
		e.meter.spend(int64(4 * r.words))
	}
	return r
}

// shiftOr sets s |= s << by.
func shiftOr(s []uint64, by int) {
	words, rest := by/64, uint(by%64)
	for j := len(s) - 1; j >= words; j-- {
		x := s[j-words] << rest
		if rest > 0 && j-words > 0 {
			x |= s[j-words-1] >> (64 - rest)
		}
		s[j] |= x
	}
}

// at reports whether a sum can be reached by pieces from kind q on.
func (r *reachable) at(q int, sum int64) bool {
	return r.sums[q-r.from][sum/64]>>(uint(sum)%64)&1 == 1
}

// largestTo returns the largest sum of pieces from kind q on that is at most room.
func (r *reachable) largestTo(q int, room int64) int64 {
	s := r.sums[q-r.from]
	w := s[room/64] & (1<<(uint(room)%64)<<1 - 1)
	for j := room / 64; ; {
		if w != 0 {
			return j*64 + int64(bits.Len64(w)) - 1
		}
		j--
		w = s[j]
	}
}

// fillUp puts a piece of kind i on a stick and fills it as far as it goes, with long pieces where it can choose.
func (e *engine) fillUp(demand []int, i int, capacity int64, r *reachable) []take {
	room := capacity - e.sizes[i]
	if r.sums == nil {
		f := filler{e: e, demand: demand, first: i, counts: make([]int, len(demand))}
		f.counts[i], f.best = 1, -1
		f.search(i, room, 0)
		return f.takes()
	}
	sum := r.largestTo(i, room)
	var out []take
	for q := i; q < len(demand); q++ {
		count, w := 0, e.sizes[q]
		free := demand[q]
		if q == i {
			count, free = 1, free-1
		}
		for t := 0; t < free && w <= sum; t++ {
			// As many as leave a sum that the rest can reach.
			if !e.reaches(r, q, sum-w, free-t-1) {
				break
			}
			sum -= w
			count++
		}
		if count > 0 {
			out = append(out, take{q, count})
		}
	}
	return out
}

// reaches reports whether pieces of later kinds and at most more of kind q make the sum.
func (e *engine) reaches(r *reachable, q int, sum int64, more int) bool {
	for t := int64(0); t <= int64(more) && t*e.sizes[q] <= sum; t++ {
		if r.at(q+1, sum-t*e.sizes[q]) {
			return true
		}
	}
	return false
}

// A filler looks for the fullest stick by depth first search with few nodes, where sums are too many to keep.
type filler struct {
	e      *engine
	demand []int
	first  int
	counts []int
	best   int64
	found  []int
	nodes  int
}

// fillerNodes is how many nodes a filler takes.
const fillerNodes = 2000

func (f *filler) search(q int, room, sum int64) {
	f.nodes++
	if sum > f.best {
		f.best, f.found = sum, append(f.found[:0], f.counts...)
	}
	for ; q < len(f.demand); q++ {
		if f.nodes > fillerNodes || room == 0 {
			return
		}
		w := f.e.sizes[q]
		own := 0
		if q == f.first {
			own = 1
		}
		for c := min(int64(f.demand[q]-own), room/w); c > 0; c-- {
			f.counts[q] = own + int(c)
			f.search(q+1, room-c*w, sum+c*w)
			if f.best == sum+room {
				return
			}
		}
		f.counts[q] = own
	}
}

func (f *filler) takes() []take {
	f.e.meter.spend(int64(f.nodes) * 4)
	var out []take
	for q, c := range f.found {
		if c > 0 {
			out = append(out, take{q, c})
		}
	}
	return out
}
