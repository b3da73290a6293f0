package walk

import (
	"slices"

	"plank.example/cutopt/measure"
)

// A laid is a run of a stretch laid anew.
type laid struct {
	run     int
	starter measure.Length // 0 in one piece
	left    measure.Length // what it leaves, less than 0 where its end lies beyond its plank
	fresh   bool
}

// An outcome is two stretches laid anew, and what all their links waste but the spare one.
type outcome struct {
	other, last []laid
	waste       measure.Length
}

// anew is a beam over the ways to lay the runs of a pool in two stretches.
type anew struct {
	pool  []int
	ties  [][]poolTie // by index in the pool
	nodes []step
	next  []step
	order []int64
}

// A poolTie binds a run of the pool to another run: one outside the pool has a first joint, one in it an index.
type poolTie struct {
	delta  measure.Length
	at     measure.Length // of the other run: delta + starter
	joints int            // of the other run; 0 for none
	of     int            // index in the pool, or -1
}

// A step lays one more run of the pool.
type step struct {
	mask   uint32 // runs laid
	parent int32
	of     int8 // index in the pool
	last   bool // in the stretch before the spare link
	fresh  bool
	joints int32
	start  measure.Length // starter
	left   measure.Length // what it leaves; less than 0 where its end lies beyond its plank
	waste  measure.Length
}

// lay lays the runs of both stretches to the least waste, at most limit, and reports false where it finds no way.
func (w *links) lay(last, other *stretch, limit measure.Length) (*outcome, bool) {
	b := &w.beam
	b.prepare(w, last, other)
	n := len(b.pool)
	var top step
	if other.exit >= 0 {
		top = step{parent: -1, of: -1, left: w.room[other.entry]}
	} else {
		top = step{parent: -1, of: -1, left: w.room[last.entry], last: true}
	}
	b.nodes = append(b.nodes[:0], top)
	from := 0
	for range n {
		to := len(b.nodes)
		b.next = b.next[:0]
		for k := from; k < to; k++ {
			w.expand(int32(k), limit)
			if node := &b.nodes[k]; !node.last {
				gone := max(node.left, 0) - w.need(other.exit)
				if gone < 0 {
					gone += w.in.Plank
				}
				if node.waste+gone <= limit {
					kept := *node
					node.left, node.waste, node.last = w.room[last.entry], node.waste+gone, true
					w.expand(int32(k), limit)
					*node = kept
				}
			}
		}
		from = to
		b.keep(w.width)
		if len(b.nodes) == from {
			return nil, false
		}
	}
	best := -1
	for k := from; k < len(b.nodes); k++ {
		if node := &b.nodes[k]; node.last && (best < 0 || node.waste < b.nodes[best].waste) {
			best = k
		}
	}
	if best < 0 {
		return nil, false
	}
	return b.outcome(best), true
}

// prepare takes the runs of the stretches as the pool.
func (b *anew) prepare(w *links, last, other *stretch) {
	b.pool = append(append(b.pool[:0], last.runs...), other.runs...)
	for len(b.ties) < len(b.pool) {
		b.ties = append(b.ties, nil)
	}
	for k, i := range b.pool {
		b.ties[k] = b.ties[k][:0]
		if w.loose {
			continue
		}
		for _, t := range w.table.Ties[i] {
			tie := poolTie{delta: t.Delta, of: slices.Index(b.pool, t.Run)}
			if tie.of < 0 {
				tie.at, tie.joints = t.Delta+w.layout[t.Run], w.joints[t.Run]
				if tie.joints == 0 {
					continue
				}
			}
			b.ties[k] = append(b.ties[k], tie)
		}
	}
}

// expand lays every run that a node has not, from what is left, or from a plank of its own where nothing fits.
func (w *links) expand(k int32, limit measure.Length) {
	b := &w.beam
	node := b.nodes[k]
	room := max(node.left, 0)
	for of, i := range b.pool {
		if node.mask>>of&1 == 1 {
			continue
		}
		w.tried++
		// The starters of runs laid in this walk hold those that touch them.
		for t := range b.ties[of] {
			tie := &b.ties[of][t]
			if tie.of >= 0 {
				tie.joints = 0
				if node.mask>>tie.of&1 == 1 {
					at := k
					for int(b.nodes[at].of) != tie.of {
						at = b.nodes[at].parent
					}
					tie.at, tie.joints = tie.delta+b.nodes[at].start, int(b.nodes[at].joints)
				}
			}
		}
		cl := w.table.Of(i)
		if cl.Single {
			w.piece(&node, k, of, cl.Length, limit)
		}
		if s, joints, ok := w.longest(b.ties[of], i, room); ok {
			w.start(&node, k, of, s, joints, false, limit)
		} else if node.waste+room <= limit {
			if s, joints, ok := w.longest(b.ties[of], i, w.in.Plank); ok {
				w.start(&node, k, of, s, joints, true, limit)
			}
		}
	}
}

// piece lays a run of the pool in one piece.
func (w *links) piece(node *step, k int32, of int, x, limit measure.Length) {
	s := step{mask: node.mask | 1<<of, parent: k, of: int8(of), last: node.last, waste: node.waste}
	room := max(node.left, 0)
	if x > room {
		s.fresh = true
		s.waste += room
		room = w.in.Plank
	}
	s.left = room - x - w.in.Kerf
	s.waste += min(s.left, 0)
	if s.waste <= limit {
		w.beam.next = append(w.beam.next, s)
	}
}

// start lays a run of the pool with a starter.
func (w *links) start(
	node *step,
	k int32,
	of int,
	starter measure.Length,
	joints int,
	fresh bool,
	limit measure.Length,
) {
	in := w.in
	s := step{
		mask: node.mask | 1<<of, parent: k, of: int8(of), last: node.last, fresh: fresh,
		joints: int32(joints), start: starter, waste: node.waste + max(node.left, 0) - starter,
	}
	if fresh {
		s.waste += in.Plank
	}
	s.left = starter + measure.Length(joints)*in.Plank - in.Runs[w.beam.pool[of]].Length - in.Kerf
	s.waste += min(s.left, 0)
	if s.waste <= limit {
		w.beam.next = append(w.beam.next, s)
	}
}

// keep appends to the nodes the best of next, of equal ones one.
func (b *anew) keep(width int) {
	b.order = b.order[:0]
	for k := range b.next {
		b.order = append(b.order, int64(b.next[k].waste)<<16|int64(k))
	}
	slices.Sort(b.order)
	first := len(b.nodes)
	for _, o := range b.order {
		s := &b.next[o&(1<<16-1)]
		if b.kept(first, s) {
			continue
		}
		if b.nodes = append(b.nodes, *s); len(b.nodes) == first+width {
			return
		}
	}
}

// kept reports whether one of the nodes from first on, which are in the order of waste, equals a step.
func (b *anew) kept(first int, s *step) bool {
	for k := len(b.nodes) - 1; k >= first && b.nodes[k].waste == s.waste; k-- {
		if n := &b.nodes[k]; n.mask == s.mask && n.last == s.last {
			return true
		}
	}
	return false
}

// outcome reads the walk that ends at a node.
func (b *anew) outcome(k int) *outcome {
	out := &outcome{waste: b.nodes[k].waste}
	for at := int32(k); b.nodes[at].parent >= 0; at = b.nodes[at].parent {
		s := &b.nodes[at]
		l := laid{b.pool[s.of], s.start, s.left, s.fresh}
		if s.last {
			out.last = append(out.last, l)
		} else {
			out.other = append(out.other, l)
		}
	}
	slices.Reverse(out.last)
	slices.Reverse(out.other)
	return out
}

// longest is the longest starter of run i up to r that keeps the stagger to the ties, and its joints.
func (w *links) longest(ties []poolTie, i int, r measure.Length) (measure.Length, int, bool) {
	in, cl := w.in, w.table.Of(i)
	for k := len(cl.Segments) - 1; k >= 0; k-- {
		seg := cl.Segments[k]
		s := seg.Hi
		if r < s {
			s = r - r%in.Grid
		}
		for s >= seg.Lo {
			clear := s
			for t := range ties {
				if tie := &ties[t]; tie.joints > 0 {
					clear = min(clear, keepsClear(in.Plank, in.Stagger, s, seg.Joints(), tie.at, tie.joints))
				}
			}
			if clear == s {
				return s, seg.Joints(), true
			}
			s = clear - clear%in.Grid
		}
	}
	return 0, 0, false
}

// keepsClear is a where its joints keep the stagger d from those of another run, else the longest below it that clears
// the pair of joints nearest to each other.
func keepsClear(l, d, a measure.Length, jointsA int, b measure.Length, jointsB int) measure.Length {
	diff := a - b
	m := min(max(-(diff+l/2).Div(l), measure.Length(1-jointsB)), measure.Length(jointsA-1))
	diff += m * l
	if diff <= -d || diff >= d {
		return a
	}
	return max(a-diff-d, 0)
}
