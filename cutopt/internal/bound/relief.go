package bound

import (
	"cmp"
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

// mostReliefs bounds how many reliefs are tried at a node.
const mostReliefs = 2

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
	return &Bound{
		table: b.table, eval: b.eval, thresholds: b.thresholds, stride: b.stride, constraints: b.constraints,
		domains: b.domains, center: slices.Clone(b.center), eager: b.eager, relief: r,
		relieved: append(slices.Clip(b.relieved), b.relief),
	}
}
