package bound

import (
	"slices"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A familyMember is a placement: a bare problem of its own or, where no runs of it are tied, its runs by their length,
// which all placements share.
type familyMember struct {
	whole *Bound // nil where no runs are tied
	runs  []int  // of FamilyTree.lone
	field int    // whole planks that runs are longer by than those of runs, which cost what they are
}

// A loneRun is what a run that is tied to none costs under the prices last asked for.
type loneRun struct {
	by, cutBy *prices
	cost      int64          // infinite where it cannot be laid
	starter   measure.Length // that costs so; 0 for one piece
	cutOf     *cut
}

// list makes members of the placements of a family.
func (t *FamilyTree) list() {
	f := t.family
	var lengths []rows.Run
	index := make(map[measure.Length]int)
	for i := range f.Floors {
		own := make([]familyMember, len(f.Floors[i]))
		for k := range own {
			p, m := &f.Floors[i][k], &own[k]
			if len(p.Touch) > 0 || slices.ContainsFunc(p.Runs, func(r rows.Run) bool { return !r.Plain() }) {
				m.whole = t.bound(p.Runs, p.Touch)
				continue
			}
			for _, r := range p.Runs {
				l := r.Length
				if l > 2*f.Plank { // as many starters go with one that is longer than a plank
					field := (l-1)/f.Plank - 1
					l, m.field = l-field*f.Plank, m.field+int(field)
				}
				if _, ok := index[l]; !ok {
					index[l] = len(lengths)
					lengths = append(lengths, rows.Run{Length: l})
				}
				m.runs = append(m.runs, index[l])
			}
		}
		t.members = append(t.members, own)
	}
	if len(lengths) > 0 {
		t.lengths, t.lone = t.bound(lengths, nil), make([]loneRun, len(lengths))
	}
}

// bound prepares a bare problem under the rules of the family.
func (t *FamilyTree) bound(runs []rows.Run, touch [][2]int) *Bound {
	f := t.family
	table := starters.New(&rows.Instance{
		Plank: f.Plank, Kerf: f.Kerf, MinPiece: f.MinPiece, MinEnder: f.MinEnder, Stagger: f.Stagger, Grid: f.Grid,
		Runs: runs, Touch: touch,
	})
	b := &Bound{
		table: table, eval: newEvaluator(table, 1), thresholds: t.thresholds, parts: 1,
		layout: make(rows.Layout, len(runs)),
	}
	t.bounds = append(t.bounds, b)
	return b
}

// evaluate returns the cost of the cheapest layout of a placement, as that of a Bound does.
func (t *FamilyTree) evaluate(m *familyMember, p *prices) (cost int64, ok bool) {
	if m.whole != nil {
		return m.whole.eval.evaluate(p, nil)
	}
	cost = int64(m.field) * Den
	for _, i := range m.runs {
		if t.lone[i].by != p {
			t.price(i, p)
		}
		if t.lone[i].cost == infinite {
			return 0, false
		}
		cost += t.lone[i].cost
	}
	return cost, true
}

// price finds the cheapest way to lay a run that is tied to none.
func (t *FamilyTree) price(i int, p *prices) {
	r, eval := &t.lone[i], t.lengths.eval
	all := eval.priceClass(eval.table.Of(i), p, t.pieces[:0])
	t.pieces = all.pieces
	eval.work += int64(len(all.pieces))/8 + 1
	r.by, r.cost, r.starter = p, all.single, 0
	for k := range all.pieces {
		if q := &all.pieces[k]; q.cost < r.cost {
			r.cost, r.starter = q.cost, q.lo
		}
	}
}

// cuts yields cuts of the layouts that evaluate found last, which make one together.
func (t *FamilyTree) cuts(m *familyMember, p *prices, yield func(*cut)) {
	if m.whole != nil {
		m.whole.eval.trace(m.whole.layout)
		yield(m.whole.cuts(m.whole.layout, m.whole.placesAt(p))[0])
		return
	}
	yield(&cut{a: float64(m.field)})
	for _, i := range m.runs {
		if r := &t.lone[i]; r.cutBy != p {
			r.cutBy, r.cutOf = p, t.loneCut(i, p)
		}
		yield(t.lone[i].cutOf)
	}
}

// loneCut is the cut of a run by itself, laid as it is cheapest.
func (t *FamilyTree) loneCut(i int, p *prices) *cut {
	in := t.lengths.table.Instance
	out := &cut{}
	add := func(x measure.Length, by float64) {
		if x >= in.Plank {
			out.jumps = append(out.jumps, jump{len(t.thresholds) - 1, by})
		} else if x >= in.Grid {
			out.jumps = append(out.jumps, jump{int(x/in.Grid) - 1, by})
		}
	}
	q, _ := in.Lay(i, t.lone[i].starter)
	out.a = float64(q.Field)
	switch {
	case q.Single == in.Plank:
		out.a++
	case q.Single > 0:
		_, u := t.lengths.eval.singleOf(i, p)
		add(u+q.Single+in.Kerf, 1)
		add(u, -1)
	default:
		out.a++
		add(q.Starter, 1)
		add(in.Plank-in.Kerf-q.Ender, -1)
	}
	return out
}
