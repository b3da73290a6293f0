package cut

import "slices"

// A node is a problem of the tree: the kinds of the root, of which some pieces are glued to kinds of their own behind
// them, kinds that keep apart, and how many sticks of each kind are cut.
type node struct {
	sizes  []int64
	demand []int
	apart  [][]int // by kind: the kinds it keeps apart from
	least  []int   // by stick
	most   []int   // by stick; -1: any number
	parts  [][2]int
	roots  int // kinds of the root; parts has what later ones are glued of
}

func (e *engine) root() *node {
	n := newNode(e.sizes, e.demand, len(e.sticks))
	n.roots = len(e.sizes)
	for k, s := range e.sticks {
		n.most[k] = s.supply
	}
	return n
}

// newNode is a node with copies of the lists, whose counts share one piece of memory.
func newNode(sizes []int64, demand []int, sticks int) *node {
	kinds := len(demand)
	ints := make([]int, kinds+2*sticks)
	n := &node{sizes: slices.Clone(sizes), apart: make([][]int, kinds)}
	n.demand, n.least, n.most = ints[:kinds:kinds], ints[kinds:kinds+sticks:kinds+sticks], ints[kinds+sticks:]
	copy(n.demand, demand)
	return n
}

func (n *node) clone() *node {
	c := newNode(n.sizes, n.demand, len(n.most))
	c.parts, c.roots = slices.Clone(n.parts), n.roots
	copy(c.least, n.least)
	copy(c.most, n.most)
	for i, list := range n.apart {
		c.apart[i] = slices.Clone(list)
	}
	return c
}

// glued is the node where a piece of kind a and one of kind b are one piece.
func (n *node) glued(a, b int) *node {
	c := n.clone()
	c.demand[a]--
	c.demand[b]--
	g := len(c.sizes)
	c.sizes, c.demand = append(c.sizes, c.sizes[a]+c.sizes[b]), append(c.demand, 1)
	c.apart, c.parts = append(c.apart, nil), append(c.parts, [2]int{a, b})
	from := append(slices.Clone(c.apart[a]), c.apart[b]...)
	slices.Sort(from)
	for _, x := range slices.Compact(from) {
		c.keepApart(g, x)
	}
	return c
}

// parted is the node where kinds a and b keep apart.
func (n *node) parted(a, b int) *node {
	c := n.clone()
	c.keepApart(a, b)
	return c
}

func (n *node) keepApart(a, b int) {
	n.apart[a] = append(n.apart[a], b)
	if a != b {
		n.apart[b] = append(n.apart[b], a)
	}
}

// allows reports whether a pattern has kinds of the node only, keeps apart what it must and takes no more than is
// wanted.
func (n *node) allows(takes []take) bool {
	for i, t := range takes {
		if t.kind >= len(n.demand) || t.count > n.demand[t.kind] {
			return false
		}
		for _, x := range n.apart[t.kind] {
			if x == t.kind && t.count > 1 {
				return false
			}
			for _, u := range takes[i+1:] {
				if u.kind == x {
					return false
				}
			}
		}
	}
	return true
}

// pieces writes a pattern in the kinds of the root.
func (n *node) pieces(takes []take) []take {
	if len(n.sizes) == n.roots {
		return takes
	}
	counts := map[int]int{}
	var open func(kind, count int)
	open = func(kind, count int) {
		if kind < n.roots {
			counts[kind] += count
			return
		}
		open(n.parts[kind-n.roots][0], count)
		open(n.parts[kind-n.roots][1], count)
	}
	for _, t := range takes {
		open(t.kind, t.count)
	}
	var out []take
	for k, c := range counts {
		out = append(out, take{k, c})
	}
	slices.SortFunc(out, func(a, b take) int { return a.kind - b.kind })
	return out
}

// left reports whether any piece is wanted.
func (n *node) left() bool {
	return slices.ContainsFunc(n.demand, func(d int) bool { return d > 0 })
}
