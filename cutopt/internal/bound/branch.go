package bound

import (
	"math"

	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// Raise improves the bound of the node until it is above target planks, or cannot be, or paths are spent. It calls
// visit, if not nil, with every layout passed, and stops when visit reports true. It returns the paths used and whether
// every layout of the node needs more than target planks.
func (b *Bound) Raise(target, paths int, visit func(rows.Layout) bool) (used int, above bool) {
	layout := make(rows.Layout, len(b.layout))
	for used < paths && b.proven() <= int64(target)*Den && !b.hopeless(target) && b.Next(layout) {
		used++
		if visit != nil && visit(layout) {
			break
		}
	}
	return used, b.proven() > int64(target)*Den
}

// hopeless reports whether the master proves that no prices in use lift the node above target.
func (b *Bound) hopeless(target int) bool {
	return b.done && ceilDen(int64((b.theta-1e-7)*Den)) <= int64(target)
}

// Branch splits the node on the figure whose mean over the master's mixture of layouts is nearest to a half, and
// returns both sides. It reports false when no figure is fractional.
func (b *Bound) Branch() (split *proof.Split, low, high *Bound, ok bool) {
	split = b.choose()
	if split == nil {
		return nil, nil, nil, false
	}
	above := *split
	above.Value++
	return split, b.child(proof.Constraint{Split: *split, AtMost: true}), b.child(proof.Constraint{Split: above}), true
}

// child is the node with one more constraint, starting from this node's prices.
func (b *Bound) child(c proof.Constraint) *Bound {
	n := &Bound{table: b.table, eval: b.eval, thresholds: b.thresholds, stride: b.stride}
	n.constraints = append(append(n.constraints, b.constraints...), c)
	n.start(b.center)
	return n
}

// choose finds the split. Thresholds tried are those where the best or the master's prices step.
func (b *Bound) choose() *proof.Split {
	var best *proof.Split
	score := 0.02
	try := func(f proof.Split, weight float64) {
		mean := 0.0
		for i, c := range b.master.cuts {
			if w := b.master.weight(i); w > 1e-9 {
				mean += float64(w * float64(figure(b.table.Instance, c.layout, f)))
			}
		}
		low := math.Floor(mean)
		if s := weight * min(mean-low, low+1-mean); s > score {
			score = s
			f.Value = int(low)
			best = &f
		}
	}
	try(proof.Split{Of: proof.OfStarted}, 2)
	for t, x := range b.thresholds {
		if b.center[t] < 0.01 && b.optimum[t] < 0.01 || t == len(b.thresholds)-1 {
			continue
		}
		for _, of := range []proof.Figure{proof.OfDeficit, proof.OfStarters, proof.OfEnders} {
			try(proof.Split{Of: of, Below: x}, 1)
		}
	}
	return best
}
