package bound

import (
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// deepest is how many splits lie on one way from the root; proof.Verify takes a few more.
const deepest = 900

// fewRuns is up to how many runs single ones are split on first: sums over few runs say little.
const fewRuns = 12

// A Tree is a proof by cases, under way, that every layout needs more than Target planks. It is grown node by node and
// may be grown on later. It is not safe for concurrent use.
type Tree struct {
	Target    int
	RunsFirst bool // split on single runs before sums
	Nodes     int  // looked at so far
	top       *vertex
	open      []*vertex // to be looked at
	next      *vertex   // of open, to be looked at next; nil for the one with the least bound
	stuck     bool
}

// A vertex is a node of the tree: open, split, or closed by a leaf.
type vertex struct {
	node      *Bound // while it is open; nil for one with nothing to lay
	value     int64  // bound of its parent
	depth     int
	split     *proof.Split
	low, high *vertex
	leaf      *proof.Node
}

// Refute begins a proof that every layout of the node needs more than target planks.
func (b *Bound) Refute(target int) *Tree {
	t := &Tree{Target: target, RunsFirst: len(b.layout) <= fewRuns}
	t.top = &vertex{node: b, value: b.value}
	t.open = []*vertex{t.top}
	return t
}

// Grow looks at so many more nodes, with at most the given number of paths at each, and returns the paths used and
// whether the proof is complete. visit is called with every layout passed and ends the work by reporting true. A node
// is split as soon as its master shows that no prices lift it above the target. Of the two sides of a split that with
// more of the mixture of cheap layouts comes next, which finds layouts that fit the target; else the open node with the
// least bound.
func (t *Tree) Grow(nodes, paths int, visit Visit) (used int, complete bool) {
	stop := false
	for ; nodes > 0 && len(t.open) > 0 && !t.stuck && !stop; nodes-- {
		used += t.look(t.take(), paths, func(l rows.Layout, p rows.Packing) bool {
			stop = visit(l, p)
			return stop
		})
		t.Nodes++
	}
	return used, len(t.open) == 0 && !t.stuck && !stop
}

// Stuck reports whether a node was met that can be neither closed nor split.
func (t *Tree) Stuck() bool { return t.stuck }

// take takes the node to look at next from the open ones.
func (t *Tree) take() *vertex {
	best := 0
	for k, v := range t.open {
		if v == t.next {
			best = k
			break
		}
		if v.value < t.open[best].value {
			best = k
		}
	}
	v := t.open[best]
	t.open = append(t.open[:best], t.open[best+1:]...)
	t.next = nil
	return v
}

// look improves the bound of an open node, then closes or splits it.
func (t *Tree) look(v *vertex, paths int, visit Visit) (used int) {
	b := v.node
	if b.master == nil || b.inherited != nil {
		if !b.begin() {
			v.leaf, v.node = b.nothing(), nil
			return 0
		}
	}
	stopped := false
	for {
		n, above := b.Raise(t.Target, paths, func(l rows.Layout, p rows.Packing) bool {
			stopped = visit(l, p)
			return stopped
		})
		used += n
		if above {
			v.leaf, v.node = b.Leaf(), nil
			return used
		}
		if stopped {
			t.open = append(t.open, v)
			return used
		}
		if other := b.relieve(); other != nil && other.start(other.center) {
			v.node, b = other, other
			continue
		}
		split, low := b.choose(t.RunsFirst)
		if split != nil && v.depth < deepest {
			t.split(v, split, low)
			return used
		}
		b.eager = false
		if used <= 40*paths && (!b.done || b.Refine()) {
			continue
		}
		if other := b.relieveExact(); other != nil && other.start(other.center) {
			v.node, b = other, other
			continue
		}
		if split, low = b.chooseApart(); split != nil && v.depth < deepest {
			t.split(v, split, low)
			return used
		}
		t.stuck = true
		t.open = append(t.open, v)
		return used
	}
}

// split makes the two sides of a node.
func (t *Tree) split(v *vertex, split *proof.Split, low bool) {
	b := v.node
	side := func(low bool) *vertex {
		s := &vertex{node: b.child(*split, low), value: b.value, depth: v.depth + 1}
		if s.node == nil {
			s.leaf = b.nothing() // of a split on a run, which bears no multiplier
			return s
		}
		t.open = append(t.open, s)
		return s
	}
	v.split, v.node = split, nil
	v.low, v.high = side(true), side(false)
	t.next = v.high
	if low {
		t.next = v.low
	}
}

// Proof returns the finished proof.
func (t *Tree) Proof() *proof.Node { return t.top.proof() }

func (v *vertex) proof() *proof.Node {
	if v.split == nil {
		return v.leaf
	}
	return &proof.Node{Split: v.split, Low: v.low.proof(), High: v.high.proof()}
}
