package bound

import (
	"slices"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
)

// A domain is what a node of the proof leaves of one run.
type domain struct {
	parts       []starters.Segment // starters, ascending; within segments of the run's class
	single      bool               // in one piece
	first, last measure.Length     // places of that piece on its plank
}

// whole is the domain of run i at the root.
func (e *evaluator) whole(i int) *domain {
	cl := e.table.Of(i)
	return &domain{parts: cl.Segments, single: cl.Single, last: e.table.Instance.Plank}
}

// empty reports whether nothing is left.
func (d *domain) empty() bool { return !d.single && len(d.parts) == 0 }

// holds reports whether the domain admits a starter, or for 0 one piece at the given place.
func (d *domain) holds(s, place measure.Length) bool {
	if s == 0 {
		return d.single && d.first <= place && place <= d.last
	}
	for _, p := range d.parts {
		if p.Lo <= s && s <= p.Hi {
			return true
		}
	}
	return false
}

// split returns the part of the domain on one side of a split on the run.
func (d *domain) split(f proof.Split, low bool, grid measure.Length) *domain {
	at := measure.Length(f.Value)
	out := &domain{single: d.single, first: d.first, last: d.last}
	switch {
	case f.Of == proof.OfPlace && low:
		out.parts, out.last = d.parts, min(d.last, at)
		out.single = d.single && out.first <= out.last
	case f.Of == proof.OfPlace:
		out.first = max(d.first, at+1)
		out.single = d.single && out.first <= out.last
	case low:
		out.parts = within(d.parts, 0, at, grid)
	default:
		out.single = false
		out.parts = within(d.parts, at+1, measure.Length(1)<<62, grid)
	}
	return out
}

// within returns what of the parts lies within lo … hi.
func within(parts []starters.Segment, lo, hi, grid measure.Length) []starters.Segment {
	var out []starters.Segment
	for _, p := range parts {
		if p.Lo < p.Hi { // on the grid
			p.Lo, p.Hi = max(p.Lo, (lo+grid-1)/grid*grid), min(p.Hi, hi/grid*grid)
		}
		if p.Lo <= p.Hi && lo <= p.Lo && p.Hi <= hi {
			out = append(out, p)
		}
	}
	return out
}

// hold is the domain of one starter, or of one piece for 0.
func (d *domain) hold(s measure.Length) *domain {
	if s == 0 {
		return &domain{single: d.single, first: d.first, last: d.last}
	}
	out := &domain{}
	for _, p := range d.parts {
		if p.Lo <= s && s <= p.Hi {
			out.parts = append(out.parts, starters.Segment{Lo: s, Hi: s, Field: p.Field})
		}
	}
	return out
}

// restrict gives run i a domain and takes from the runs that it is tied to by ties left out of the forest every starter
// that nothing in it goes with, and so on from run to run. It returns the domains that have changed, which are new, and
// false when a run has nothing left.
func (e *evaluator) restrict(domains []*domain, i int, d *domain) (changed []int, ok bool) {
	domains[i] = d
	changed = []int{i}
	if d.empty() {
		return changed, false
	}
	for queue := []int{i}; len(queue) > 0; queue = queue[1:] {
		a := queue[0]
		for _, tie := range e.left[a] {
			b := tie.Run
			left := e.narrowed(domains[b], domains[a], b, tie.Delta)
			if left == nil {
				continue
			}
			domains[b] = left
			changed = append(changed, b)
			if left.empty() {
				return changed, false
			}
			if !slices.Contains(queue[1:], b) {
				queue = append(queue, b)
			}
		}
	}
	return changed, true
}

// narrowed returns the domain of run b less every starter that nothing in the domain of a tied run goes with, or nil
// when it keeps all. delta is From of b less From of the other.
func (e *evaluator) narrowed(d, other *domain, b int, delta measure.Length) *domain {
	if other.single {
		return nil
	}
	in := e.table.Instance
	for _, p := range other.parts {
		if p.Hi-p.Lo >= 2*in.Stagger {
			return nil
		}
	}
	if d == nil {
		d = e.whole(b)
	}
	out := &domain{single: d.single, first: d.first, last: d.last}
	all := true
	for _, p := range d.parts {
		open := false // the last of out's parts ends just before s
		for s := p.Lo; s <= p.Hi; s += in.Grid {
			if !e.goes(s+delta, p.Joints(), other.parts) {
				all, open = false, false
				continue
			}
			if n := len(out.parts) - 1; open {
				out.parts[n].Hi = s
			} else {
				out.parts = append(out.parts, starters.Segment{Lo: s, Hi: s, Field: p.Field})
			}
			open = true
		}
	}
	if all {
		return nil
	}
	return out
}

// goes reports whether some starter of the parts has all its joints at least Stagger from the joints x, x+plank, …
func (e *evaluator) goes(x measure.Length, joints int, parts []starters.Segment) bool {
	g := e.table.Instance.Grid
	ok := false
	for _, p := range parts {
		e.spare = e.allowed(e.spare[:0], &piece{lo: p.Lo, hi: p.Hi, joints: p.Joints()}, x, joints)
		for _, w := range e.spare {
			ok = ok || p.Lo == p.Hi || (w.lo+g-1)/g*g <= w.hi
		}
	}
	return ok
}

// own is the cost of run i by itself: by class, or what its domain leaves of that.
func (e *evaluator) own(i int, p *prices) choice {
	b := &e.base[e.table.ClassOf[i]]
	if e.domains == nil || e.domains[i] == nil {
		return *b
	}
	d := e.domains[i]
	out := choice{single: infinite}
	if d.single {
		out.single, _ = e.singleOf(i, p)
	}
	k := 0
	start := len(e.arena)
	for _, w := range d.parts {
		for k < len(b.pieces) && b.pieces[k].hi < w.Lo {
			k++
		}
		for j := k; j < len(b.pieces) && b.pieces[j].lo <= w.Hi; j++ {
			q := b.pieces[j]
			q.lo, q.hi = max(q.lo, w.Lo), min(q.hi, w.Hi)
			e.arena = append(e.arena, q)
		}
	}
	out.pieces = e.arena[start:len(e.arena):len(e.arena)]
	return out
}

// singleOf is the price of run i laid in one piece, and the u that gives it.
func (e *evaluator) singleOf(i int, p *prices) (price int64, u measure.Length) {
	in := e.table.Instance
	first, last := measure.Length(0), in.Plank
	if e.domains != nil && e.domains[i] != nil {
		first, last = e.domains[i].first, e.domains[i].last
	}
	if x := in.Runs[i].Length; x < in.Plank {
		return p.single(x, in.Kerf, first, last)
	}
	if first > 0 {
		return infinite, 0
	}
	return Den, -in.Kerf
}
