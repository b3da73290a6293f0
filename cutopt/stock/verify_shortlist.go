package stock

import "math/big"

const (
	// maxListed is how many patterns a shortlist may have.
	maxListed = 1 << 17
	// maxCounts is how many figures there may be of them at a time: kinds and roundings of each.
	maxCounts = 1 << 24
)

// A listed is a pattern of a shortlist.
type listed struct {
	stick  int
	counts []int64 // by kind, then by rounding
}

// shortlist holds the steps of a leaf whose pieces miss what the sticks allow by the slack.
func (v *verifier) shortlist(n *Node, slack *big.Int) error {
	all := make([]int64, len(v.sizes))
	for i, d := range v.demand {
		all[i] = int64(d)
	}
	list, err := v.list(n, slack)
	if err != nil {
		return err
	}
	for i := range n.Shortlist.Steps {
		s := &n.Shortlist.Steps[i]
		if all, err = v.count(n.Shortlist, len(s.Roundings), all, list); err != nil {
			return err
		}
		if slack, list, err = v.step(s, i, all, list); err != nil || slack.Sign() < 0 {
			return err
		}
	}
	return v.fail("after the last step the pieces are not worth more than the sticks of the claim")
}

// count counts the first n roundings of all pieces and of each pattern, as far as they are not counted yet.
func (v *verifier) count(s *Shortlist, n int, all []int64, list []listed) ([]int64, error) {
	if n > len(s.Roundings) {
		return nil, v.fail("a step subtracts %d roundings, there are %d", n, len(s.Roundings))
	}
	for c := len(all) - len(v.sizes); c < n; c++ {
		r, ok := &s.Roundings[c], false
		if all, ok = r.count(all); !ok {
			return nil, v.fail("rounding %d is out of range", c)
		}
		if len(list)*len(all) > maxCounts {
			return nil, errListed
		}
		if err := v.spend(int64(1 + len(list)*(1+len(r.Of)))); err != nil {
			return nil, err
		}
		for i := range list {
			list[i].counts, _ = r.count(list[i].counts)
		}
	}
	return all, nil
}

// count appends what a pattern counts by the rounding, and reports false where the rounding is out of range.
func (r *Rounding) count(counts []int64) ([]int64, bool) {
	const most = 1 << 40
	sum := int64(0)
	for _, m := range r.Of {
		if m.Kind < 0 || m.Kind >= len(counts) || m.Times < 0 || m.Times > 1<<20 || counts[m.Kind] > most/(1<<20) {
			return counts, false
		}
		if sum += m.Times * counts[m.Kind]; sum > most {
			return counts, false
		}
	}
	if r.By < 1 {
		return counts, false
	}
	return append(counts, sum/r.By), true
}

// list lists the patterns that miss their limits by no more than the slack.
func (v *verifier) list(n *Node, slack *big.Int) ([]listed, error) {
	var out []listed
	m := &multipliers{n.Cost, n.Count, n.Sticks}
	for k, s := range v.usable() {
		limit, limited, err := v.limit(m, k)
		if err != nil {
			return nil, err
		}
		least := big.NewInt(limit)
		if least.Sub(least, slack); !limited || !least.IsInt64() {
			return nil, v.fail("a stick of kind %d limits nothing", k+1)
		}
		p := v.newPatterns(n.Values, s, limit, true)
		if p.cells() <= smallCells {
			if err := v.spend(p.cost()); err != nil {
				return nil, err
			}
			p.fillTable()
		}
		l := lister{p: p, least: least.Int64(), stick: k, counts: make([]int64, len(v.sizes)), out: out}
		if err := l.search(0, p.capacity, 0); err != nil {
			return nil, err
		}
		out = l.out
	}
	return out, nil
}

// A lister lists the patterns of one stick that are worth at least so much.
type lister struct {
	p      *patterns
	least  int64
	stick  int
	counts []int64 // by kind
	out    []listed
}

// search lists those that go on from place q with room r.
func (l *lister) search(q int, r, worth int64) error {
	p := l.p
	if len(p.chosen) > 0 && worth >= l.least && r <= p.spare {
		if len(l.out) >= min(maxListed, maxCounts/len(l.counts)) {
			return errListed
		}
		l.out = append(l.out, listed{l.stick, append([]int64(nil), l.counts...)})
		if err := p.v.spend(int64(len(l.counts))); err != nil {
			return err
		}
	}
	for ; q < len(p.kinds); q++ {
		if err := p.v.spend(int64(8 + len(p.kinds) - q)); err != nil {
			return err
		}
		if p.bound(q, r)+worth < l.least {
			return nil
		}
		kind := p.kinds[q]
		most := min(int64(p.demand[q]), r/p.sizes[q], int64(p.freely(kind)))
		p.chosen = append(p.chosen, kind)
		for t := most; t > 0; t-- {
			l.counts[kind] = t
			if err := l.search(q+1, r-t*p.sizes[q], worth+t*p.values[q]); err != nil {
				return err
			}
		}
		l.counts[kind] = 0
		p.chosen = p.chosen[:len(p.chosen)-1]
	}
	return nil
}

// step holds a step against the patterns that are left, of which it returns those that it leaves.
func (v *verifier) step(s *Step, index int, all []int64, list []listed) (slack *big.Int, left []listed, err error) {
	worth, err := v.worth(s.Values)
	if err != nil {
		return nil, nil, err
	}
	kinds := len(v.sizes)
	rounded := new(big.Int)
	for c, x := range s.Roundings {
		if x < 0 {
			return nil, nil, v.fail("step %d subtracts %d times rounding %d", index, x, c)
		}
		rounded.Add(rounded, new(big.Int).Mul(big.NewInt(x), big.NewInt(all[kinds+c])))
	}
	if rounded.Cmp(big.NewInt(maxWorth)) > 0 {
		return nil, nil, v.fail("the roundings of step %d are worth more than can be added", index)
	}
	m := &multipliers{s.Cost, s.Count, s.Sticks}
	if slack, err = v.allowed(m); err != nil {
		return nil, nil, err
	}
	slack.Sub(slack, worth).Add(slack, rounded)
	if err := v.spend(int64(len(list) * len(all))); err != nil {
		return nil, nil, err
	}
	limits := make([]*int64, len(v.sticks)) // nil where there is none
	for k := range v.sticks {
		limit, limited, err := v.limit(m, k)
		if err != nil {
			return nil, nil, err
		}
		if limited {
			limits[k] = &limit
		}
	}
	for _, p := range list {
		if limits[p.stick] == nil {
			left = append(left, p)
			continue
		}
		short := *limits[p.stick] - p.worth(s, kinds)
		if short < 0 {
			return nil, nil, v.fail("a pattern of step %d on a stick of kind %d is worth %d more than its limit",
				index, p.stick+1, -short)
		}
		if big.NewInt(short).Cmp(slack) <= 0 {
			left = append(left, p)
		}
	}
	return slack, left, nil
}

// worth is what a pattern is worth in a step. It counts no more of anything than all pieces do, so that no sum is above
// what was tested for them.
func (p *listed) worth(s *Step, kinds int) int64 {
	sum := int64(0)
	for i, x := range s.Values {
		sum += x * p.counts[i]
	}
	for c, x := range s.Roundings {
		sum -= x * p.counts[kinds+c]
	}
	return sum
}
