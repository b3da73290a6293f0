package stock

import (
	"cmp"
	"errors"
	"fmt"
	"iter"
	"math"
	"math/big"
	"math/bits"
	"slices"
)

const (
	// maxCells is the largest table of a leaf: beyond it patterns are searched by branch and bound.
	maxCells = 4 << 20
	// smallCells is the largest table that is filled without a search before it.
	smallCells = 1 << 15
)

// errLong is a search that has taken longer than filling the table would.
var errLong = errors.New("a long search")

// errListed is a shortlist that is too long.
var errListed = fmt.Errorf("%w: a shortlist has more than %d patterns or %d figures", ErrTooLarge, maxListed,
	maxCounts)

// none is the worth of a pattern that there is not.
const none = math.MinInt64 / 4

// patterns holds every pattern of a leaf against the limit of its stick.
func (v *verifier) patterns(n *Node) error {
	m := &multipliers{n.Cost, n.Count, n.Sticks}
	for k, s := range v.usable() {
		limit, limited, err := v.limit(m, k)
		if err != nil {
			return err
		}
		if !limited {
			continue
		}
		p := v.newPatterns(n.Values, s, limit, s.spare < s.capacity || limit < 0)
		err = p.hold()
		if err == errRange {
			return v.fail("a pattern of a stick of kind %d is worth %d, the limit is %v", k+1, p.found, limit)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// usable yields the kinds of sticks that the node can cut, with what each may waste within it.
func (v *verifier) usable() iter.Seq2[int, stickState] {
	together, limited := v.together()
	return func(yield func(int, stickState) bool) {
		for k, s := range v.sticks {
			if limited {
				s.limitSpare(together, 1)
			}
			if s.spare >= 0 && s.most != 0 && !yield(k, s) {
				return
			}
		}
	}
}

// hold looks for a pattern worth more than the limit: by the table where it is small; else by a search, and where that
// takes long, by the table.
func (p *patterns) hold() error {
	if p.cells() > smallCells {
		if p.patience = math.MaxInt64; p.cells() <= maxCells {
			p.patience = p.cost()
		}
		if err := p.search(0, p.capacity, 0); err != errLong {
			return err
		}
		p.chosen = p.chosen[:0]
	}
	if err := p.v.spend(p.cost()); err != nil {
		return err
	}
	p.fillTable()
	if !p.conflicts && p.bound(0, p.capacity) <= p.limit {
		return nil
	}
	p.patience = math.MaxInt64
	return p.search(0, p.capacity, 0)
}

// together is what all sticks of the node can waste, where each kind has a largest number.
func (v *verifier) together() (*big.Int, bool) {
	sum := new(big.Int)
	for _, s := range v.sticks {
		if s.most < 0 {
			return nil, false
		}
		sum.Add(sum, new(big.Int).Mul(big.NewInt(s.capacity), big.NewInt(int64(s.most))))
	}
	return sum.Sub(sum, v.pieces), true
}

// patterns are those of one stick at one leaf.
type patterns struct {
	v         *verifier
	kinds     []int // of the node, in the order they are tried in
	sizes     []int64
	values    []int64
	demand    []int
	rest      []int64 // by place in kinds: what this and all later kinds count together
	capacity  int64
	spare     int64
	limit     int64
	conflicts bool
	// by place, by room left: the most that this and later kinds are worth; nil where it would be large
	table    [][]int64
	chosen   []int // kinds on the pattern that is being built
	patience int64 // steps that a search may take
	found    int64
}

// newPatterns leaves out kinds that are worth nothing unless all matter, and divides by the common measure.
func (v *verifier) newPatterns(values []int64, s stickState, limit int64, all bool) *patterns {
	p := &patterns{v: v, limit: limit}
	g := int64(0)
	for i, w := range v.sizes {
		if v.demand[i] > 0 && w <= s.capacity && (all || at(values, i) > 0) {
			p.kinds = append(p.kinds, i)
			g = gcd(g, w)
		}
	}
	g = max(g, 1)
	p.capacity, p.spare = s.capacity/g, s.capacity/g
	if s.spare < s.capacity {
		if p.spare = -1; s.spare >= s.capacity%g {
			p.spare = (s.spare - s.capacity%g) / g
		}
	}
	slices.SortFunc(p.kinds, func(a, b int) int {
		return cmp.Or(compareProducts(at(values, b), v.sizes[a], at(values, a), v.sizes[b]), cmp.Compare(a, b))
	})
	for _, i := range p.kinds {
		p.sizes, p.values = append(p.sizes, v.sizes[i]/g), append(p.values, at(values, i))
		p.demand = append(p.demand, v.demand[i])
		p.conflicts = p.conflicts || len(v.apart[i]) > 0
	}
	p.rest = make([]int64, len(p.kinds)+1)
	for q := len(p.kinds) - 1; q >= 0; q-- {
		p.rest[q] = p.rest[q+1] + p.sizes[q]*int64(p.demand[q])
	}
	return p
}

// compareProducts compares a b with c d, none of them below 0.
func compareProducts(a, b, c, d int64) int {
	high, low := bits.Mul64(uint64(a), uint64(b))
	high2, low2 := bits.Mul64(uint64(c), uint64(d))
	return cmp.Or(cmp.Compare(high, high2), cmp.Compare(low, low2))
}

// cells is the size of the table.
func (p *patterns) cells() int64 { return int64(len(p.kinds)+1) * (p.capacity + 1) }

// cost is the work of fillTable.
func (p *patterns) cost() int64 {
	sum := p.capacity + 1
	for q, w := range p.sizes {
		sum += (p.capacity + 1) * (1 + min(int64(p.demand[q]), p.capacity/w))
	}
	return sum
}

// fillTable computes the table: table[q][r] is the largest of t values[q] + table[q+1][r - t sizes[q]] over t up to the
// demand, from 0 where the room left may be wasted and none where not.
func (p *patterns) fillTable() {
	n := len(p.kinds)
	p.table = make([][]int64, n+1)
	p.table[n] = make([]int64, p.capacity+1)
	for r := range p.table[n] {
		if int64(r) > p.spare {
			p.table[n][r] = none
		}
	}
	for q := n - 1; q >= 0; q-- {
		row, below := slices.Clone(p.table[q+1]), p.table[q+1]
		w, value := p.sizes[q], p.values[q]
		for t := int64(1); t <= int64(p.demand[q]) && t*w <= p.capacity; t++ {
			for r := t * w; r <= p.capacity; r++ {
				if x := below[r-t*w]; x > none && x+t*value > row[r] {
					row[r] = x + t*value
				}
			}
		}
		p.table[q] = row
	}
}

// bound is the most that kinds from place q on can be worth in room r: by the table, else by filling the room in the
// order of value by size and cutting the last piece (G. B. Dantzig, Oper. Res. 5, 1957).
func (p *patterns) bound(q int, r int64) int64 {
	if p.table != nil {
		return p.table[q][r]
	}
	if r-p.rest[q] > p.spare {
		return none
	}
	sum := int64(0)
	for ; q < len(p.kinds); q++ {
		w := p.sizes[q]
		t := min(int64(p.demand[q]), r/w)
		sum += t * p.values[q]
		if r -= t * w; t < int64(p.demand[q]) {
			high, low := bits.Mul64(uint64(r), uint64(p.values[q]))
			part, _ := bits.Div64(high, low, uint64(w)) // r < w
			return sum + int64(part)
		}
	}
	return sum
}

// search looks for a pattern worth more than the limit among those that go on from place q with room r, and reports it
// by errRange. It passes over what the bound rules out.
func (p *patterns) search(q int, r, worth int64) error {
	if worth > p.limit && r <= p.spare && len(p.chosen) > 0 {
		p.found = worth
		return errRange
	}
	for ; q < len(p.kinds); q++ {
		steps := int64(8 + len(p.v.apart[p.kinds[q]])*(1+len(p.chosen)))
		if p.table == nil {
			steps += int64(len(p.kinds) - q)
		}
		if p.patience -= steps; p.patience < 0 {
			return errLong
		}
		if err := p.v.spend(steps); err != nil {
			return err
		}
		if p.bound(q, r)+worth <= p.limit {
			return nil
		}
		most := min(int64(p.demand[q]), r/p.sizes[q], int64(p.freely(p.kinds[q])))
		p.chosen = append(p.chosen, p.kinds[q])
		for t := most; t > 0; t-- {
			if err := p.search(q+1, r-t*p.sizes[q], worth+t*p.values[q]); err != nil {
				return err
			}
		}
		p.chosen = p.chosen[:len(p.chosen)-1]
	}
	return nil
}

// freely is how many pieces of a kind may join those chosen.
func (p *patterns) freely(kind int) int {
	most := math.MaxInt
	for _, x := range p.v.apart[kind] {
		if x == kind {
			most = 1
		}
		if slices.Contains(p.chosen, x) {
			return 0
		}
	}
	return most
}
