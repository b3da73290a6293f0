package bound

import (
	"cmp"
	"math"
	"slices"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
)

// A Relief makes starters and enders up to a length cost nothing, and with them offcuts on hand that are no longer and
// serve as nothing else worth nothing, as package proof has it: where such offcuts are left over, what they are worth
// would be subtracted for nothing. Multipliers of a branch stay. The zero value is none.
type Relief struct{ Starter, Ender measure.Length }

// frees reports whether an offcut on hand is worth nothing. Only what is shorter than every one-piece run serves as a
// starter or an ender alone.
func (r Relief) frees(h starters.Hand, shortest, plank, kerf measure.Length) bool {
	switch {
	case h.From == 0: // of those without a factory end none is so short
		return h.To < shortest && h.To <= r.Starter
	default:
		x := plank - kerf - h.From
		return x < shortest && x <= r.Ender
	}
}

// relieve makes what the relief frees cost nothing.
func (p *prices) relieve(kerf measure.Length) {
	l := p.c.steps[len(p.c.steps)-1].At
	if a := p.relief.Starter; a > 0 {
		steps := []proof.Step{{At: a + 1, Price: p.c.at(a + 1)}}
		for _, s := range p.c.steps {
			if s.At > a+1 {
				steps = append(steps, s)
			}
		}
		p.starter = curve{steps: steps}
	}
	if b := p.relief.Ender; b > 0 {
		from := l - kerf - b // rooms of free enders
		out := curve{start: p.ender.start}
		for _, s := range p.ender.steps {
			if s.At < from {
				out.steps = append(out.steps, s)
			}
		}
		out.steps = append(out.steps, proof.Step{At: from})
		p.ender = out
	}
}

// LeftOver returns the relief that a layout calls for: of the longest offcuts of each end that nothing is cut from, of
// those that count, and of those that could change places with them. What a longest matching could do without on one of
// its ends is worth nothing under the best prices of a layout; all such are reached by alternating paths, along which
// only how far starters and enders are reached counts, since shorter ones fit wherever longer ones do. It takes the
// time of Instance.Cut and O(pieces) for each offcut reached.
func LeftOver(in *rows.Instance, layout rows.Layout, packing rows.Packing) Relief {
	var r Relief
	cut := in.Cut(layout, packing)
	for _, o := range counting(in) {
		if off := &in.Offcuts[o]; len(cut.Offcuts[o]) == 0 && off.Length < in.Plank {
			switch off.End {
			case rows.EndRight:
				r.Starter = max(r.Starter, off.Length)
			case rows.EndLeft:
				r.Ender = max(r.Ender, off.Length)
			}
		}
	}
	starters, enders := r.Starter, r.Ender // that are reached
	reach := func(to *measure.Length, x measure.Length) bool {
		grows := x > *to && x < in.Plank
		if grows {
			*to = x
		}
		return grows
	}
	for again := r != (Relief{}); again; {
		again = false
		for o, parts := range cut.Offcuts {
			off := &in.Offcuts[o]
			for _, p := range parts {
				switch {
				case p.Role == rows.RoleStarter && starters > 0 && p.Length <= starters && reach(&r.Starter, off.Length):
					reach(&starters, off.Length)
					again = true
				case p.Role == rows.RoleEnder && enders > 0 && p.Length <= enders && reach(&r.Ender, off.Length):
					reach(&enders, off.Length)
					again = true
				}
			}
		}
		for _, parts := range cut.Planks {
			s, e := measure.Length(0), measure.Length(0)
			for _, p := range parts {
				switch p.Role {
				case rows.RoleStarter:
					s = p.Length
				case rows.RoleEnder:
					e = p.Length
				}
			}
			if s > 0 && e > 0 && s <= starters && reach(&starters, in.Plank-in.Kerf-e) {
				again = true
			}
			if s > 0 && e > 0 && e <= enders && reach(&enders, in.Plank-in.Kerf-s) {
				again = true
			}
		}
	}
	return r
}

// counting lists the offcuts that count, as package proof has it: of each end as many of the longest as there are
// pieces that one each could be.
func counting(in *rows.Instance) (out []int) {
	most := map[rows.End]int{rows.EndLeft: len(in.Runs)}
	for i := range in.Runs {
		if in.Runs[i].Starter != in.Plank {
			most[rows.EndRight]++
		}
	}
	for o := range in.Offcuts {
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(in.Offcuts[b].Length, in.Offcuts[a].Length) })
	return slices.DeleteFunc(out, func(o int) bool {
		end := in.Offcuts[o].End
		most[end]--
		return most[end] < 0
	})
}

// mostReliefs bounds how many reliefs are tried at a node after the layouts passed, mostExact how many at all.
const mostReliefs, mostExact = 2, 6

// relieve returns the node, not begun, with the relief that its cheapest layout calls for, if that is another one; nil
// where it is not, or enough have been tried.
func (b *Bound) relieve() *Bound {
	in := b.table.Instance
	if len(in.Offcuts) == 0 || len(b.relieved) >= mostReliefs || in.Check(b.layout) != nil {
		return nil
	}
	r := LeftOver(in, b.layout, nil)
	if r == b.relief || slices.Contains(b.relieved, r) {
		return nil
	}
	return b.under(r)
}

// under returns the node, not begun, with another relief.
func (b *Bound) under(r Relief) *Bound {
	return &Bound{
		table: b.table, eval: b.eval, thresholds: b.thresholds, stride: b.stride, constraints: b.constraints,
		domains: b.domains, center: slices.Clone(b.center), eager: b.eager, relief: r,
		relieved: append(slices.Clip(b.relieved), b.relief), stood: slices.Clip(b.stood), even: b.even, evens: b.evens,
		parts: b.parts,
	}
}

// relieveExact returns the node, not begun, with the relief and the prices under which the layout that its mixture
// comes down to counts in full, where that is another relief than those tried; nil where it is not, or enough have been
// tried. The layout is noted in stood.
func (b *Bound) relieveExact() *Bound {
	layout := b.heaviest()
	if len(b.table.Hands) == 0 || b.table.Instance.Check(layout) != nil {
		return nil
	}
	b.stood = append(b.stood, layout)
	a, e := b.cover(layout)
	r := Relief{Starter: a - 1, Ender: e - 1}
	if r == b.relief || slices.Contains(b.relieved, r) || len(b.relieved) >= mostExact {
		return nil
	}
	n := b.under(r)
	clear(n.center)
	n.evens.center = 0
	n.center[max(b.steps(a), 1)-1] = 1
	return n
}

// cover returns the lengths from which on starters and enders of a layout cost a plank each, where those below cost
// nothing, so that the whole costs the most: by Kőnig's theorem as many planks as it needs, where no run is one piece.
// A starter and an ender that fit on a plank never both cost one. It takes O(n^2) for n runs and offcuts.
func (b *Bound) cover(layout rows.Layout) (starter, ender measure.Length) {
	in := b.table.Instance
	var starters, enders, right, left []measure.Length
	for i, s := range layout {
		if p, _ := in.Lay(i, s); p.Single == 0 {
			starters = append(starters, p.Starter)
			enders = append(enders, p.Ender)
		}
	}
	for _, h := range b.table.Hands {
		if h.From == 0 {
			right = append(right, h.To)
		} else {
			left = append(left, in.Plank-in.Kerf-h.From)
		}
	}
	worth := func(pieces, hands []measure.Length, from measure.Length) (n int) {
		for _, x := range pieces {
			n += one(x >= from)
		}
		for _, x := range hands {
			n -= one(x >= from)
		}
		return n
	}
	from := func(lists ...[]measure.Length) (out []measure.Length) { // where what they are worth changes
		for _, list := range lists {
			for _, x := range list {
				out = append(out, x, x+1)
			}
		}
		slices.Sort(out)
		return slices.Compact(out)
	}
	best := math.MinInt
	ends := from(enders, left)
	worths := make([]int, len(ends))
	for k, e := range ends {
		worths[k] = worth(enders, left, e)
	}
	for _, a := range append(from(starters, right), in.Grid) {
		if a = (a + in.Grid - 1) / in.Grid * in.Grid; a < in.Grid || a > in.Plank { // where prices may step
			continue
		}
		n, least := worth(starters, right, a), max(in.Plank-in.Kerf-a+1, 1)
		if v := n + worth(enders, left, least); v > best {
			best, starter, ender = v, a, least
		}
		for k, e := range ends {
			if v := n + worths[k]; e > least && e <= in.Plank && v > best {
				best, starter, ender = v, a, e
			}
		}
	}
	return starter, ender
}

// chooseApart splits between layouts that the node came down to under different reliefs: on the starter in which two
// of them differ most, else beside that of the last one.
func (b *Bound) chooseApart() (split *proof.Split, low bool) {
	last := len(b.stood) - 1
	if last < 0 {
		return nil, false
	}
	most := measure.Length(0)
	for i, s := range b.stood[last] {
		for _, other := range b.stood[:last] {
			if gap := max(s-other[i], other[i]-s); gap > most {
				most = gap
				split, low = &proof.Split{Of: proof.OfStarter, Run: i, Value: int(min(s, other[i]) + gap/2)}, s < other[i]
			}
		}
	}
	if split != nil {
		return split, low
	}
	for i, s := range b.stood[last] {
		parts := b.domain(i).parts
		switch {
		case len(parts) == 0 || s == 0:
		case parts[0].Lo < s:
			return &proof.Split{Of: proof.OfStarter, Run: i, Value: int(s - 1)}, false
		case parts[len(parts)-1].Hi > s:
			return &proof.Split{Of: proof.OfStarter, Run: i, Value: int(s)}, true
		}
	}
	return nil, false
}

// heaviest returns the layout of the mixture with the most weight, part by part.
func (b *Bound) heaviest() rows.Layout {
	heaviest := make([]int, b.parts) // cuts
	for p := range heaviest {
		heaviest[p] = slices.IndexFunc(b.master.cuts, func(c *cut) bool { return c.part == p })
	}
	for k, c := range b.master.cuts {
		if b.master.weight(k) > b.master.weight(heaviest[c.part]) {
			heaviest[c.part] = k
		}
	}
	out := make(rows.Layout, len(b.layout))
	for i := range out {
		out[i] = b.master.cuts[heaviest[b.part(i)]].layout[i]
	}
	return out
}
