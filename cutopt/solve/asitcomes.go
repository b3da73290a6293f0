package solve

import (
	"cmp"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/internal/slack"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// shaped returns by run whether some of its pieces are no full rectangles, wherever its joints lie.
func (p *problem) shaped() []bool {
	if p.shapes == nil {
		p.shapes = make([]bool, len(p.places))
		for i, at := range p.places {
			f := p.floors[at.room]
			run := &f.Rows[at.row].Runs[at.run]
			shape, _ := f.Clip(at.row, at.run, run.From, run.To)
			p.shapes[i] = shape != nil
		}
	}
	return p.shapes
}

// asPlanned is the question which starters of a floor are laid as their offcuts come. Runs of shaped pieces are not
// among them, as shapes are measured from the ends of planned pieces, nor those of a pattern.
func (p *problem) asPlanned(layout rows.Layout, cutting *rows.Cutting) *slack.Problem {
	rules := &p.job.Rules
	s := &slack.Problem{
		Instance: p.instance, Layout: layout, Planks: cutting.Planks, Order: make([]int, len(layout)),
		Fit: rules.Fit, Most: rules.AsItComes, Sawn: slices.Clone(p.shaped()),
	}
	for i := range s.Order {
		s.Order[i] = i
		s.Sawn[i] = s.Sawn[i] || len(p.job.Pattern) > 0
	}
	for _, parts := range s.Planks {
		// Laid from the right, a one-piece run lies beside the starter on its plank.
		if last := parts[len(parts)-1]; len(parts) > 1 && parts[len(parts)-2].Role == rows.RoleSingle {
			s.Sawn[last.Run] = s.Sawn[last.Run] || p.places[last.Run].mirrored
		}
	}
	slices.SortStableFunc(s.Order, func(i, j int) int {
		x, y := p.places[i], p.places[j]
		if c := cmp.Or(cmp.Compare(x.room, y.room), cmp.Compare(x.row, y.row)); c != 0 || !x.mirrored {
			return c
		}
		return cmp.Compare(y.run, x.run)
	})
	return s
}

// asTheyCome lets starters be laid as their offcuts come where every rule holds whatever these come out at, and takes
// them from the figures of the floor.
func (a *assembler) asTheyCome() {
	rules := &a.job.Rules
	if rules.AsItComes == 0 {
		return
	}
	for i, longer := range slack.Find(a.asPlanned(a.floor.layout, a.floor.cutting)) {
		if longer == 0 {
			continue
		}
		at := a.places[i]
		pieces := a.plan.Floors[at.room].Rows[at.row].Runs[at.run].Pieces
		starter := &pieces[0]
		if at.mirrored {
			starter = &pieces[len(pieces)-1]
		}
		starter.AsItComes = starter.Length + longer
		if rules.Round > 0 && starter.Length%rules.Round != 0 {
			a.plan.Quality.OddStarters--
		}
	}
}

// clearTrims shortens starters that have to be sawn although their offcuts are hardly longer, to round figures: so
// little is not sawn off cleanly, and a knife cannot take it off at all. It is done where no figure of the floor gets
// worse, and as no more offcuts are sawn. It takes O(runs) for each such starter and length tried, a few millions of
// steps at most, and reports false where it was stopped before.
func (p *problem) clearTrims(floor *floorplan, stop func() bool) bool {
	const most = 4_000_000 // runs looked at
	rules := &p.job.Rules
	if rules.AsItComes == 0 || len(p.job.Pattern) > 0 || floor.cutting == nil {
		return true
	}
	t := &trims{problem: p, layout: slices.Clone(floor.layout), planks: slices.Clone(floor.cutting.Planks)}
	t.find()
	for tries := most / (8 * max(len(t.layout), 1)); tries > 0 && !stop(); {
		small := slices.Clone(t.small)
		before := len(small)
		for _, i := range small {
			for k := measure.Length(0); k < 3 && tries > 0 && !stop(); k++ {
				if tries--; t.shorten(i, k) {
					break
				}
			}
		}
		if len(t.small) >= before {
			break
		}
	}
	floor.layout, floor.cutting = t.layout, &rows.Cutting{Planks: t.planks, Offcuts: floor.cutting.Offcuts}
	return !stop()
}

// trims is a floor whose small trims are cleared.
type trims struct {
	*problem
	layout  rows.Layout
	planks  [][]rows.Part
	starter []int            // by run: the plank of its starter
	ender   []int            // by run: the plank of its ender
	trim    []measure.Length // by run: what is planned to be sawn off the offcut of its starter; 0 for none
	small   []int            // the runs whose trims are small
	loose   int              // starters that are laid as they come
	figures cutopt.Quality
}

// find looks for the planks, trims and figures.
func (t *trims) find() {
	n := len(t.layout)
	t.starter, t.ender, t.trim = make([]int, n), make([]int, n), make([]measure.Length, n)
	t.small, t.loose = nil, 0
	cutting := &rows.Cutting{Planks: t.planks}
	s := t.asPlanned(t.layout, cutting)
	longer := slack.Find(s)
	rank := make([]int, n)
	for k, i := range s.Order {
		rank[i] = k
	}
	for k, parts := range t.planks {
		last := parts[len(parts)-1]
		trim := t.instance.Plank - last.Length
		for _, part := range parts {
			switch part.Role {
			case rows.RoleStarter:
				t.starter[part.Run] = k
			case rows.RoleEnder:
				t.ender[part.Run] = k
			}
		}
		offcut := len(parts) > 1 && last.Role == rows.RoleStarter
		for _, part := range parts[:len(parts)-1] {
			trim -= part.Length - s.Fit + t.instance.Kerf
			offcut = offcut && rank[part.Run] < rank[last.Run]
		}
		switch i := last.Run; {
		case !offcut:
		case longer[i] > 0:
			t.loose++
		case trim > 0 && trim < s.Most && !t.shaped()[i]:
			t.trim[i] = trim
			t.small = append(t.small, i)
		}
	}
	t.figures = quality.Measure(t.qualities(), t.layout, cutting)
}

// shorten lays run i with a starter so much shorter that more than a small trim is sawn off, to the k-th round figure
// below that, and reports whether the floor is then better. Else all stays.
func (t *trims) shorten(i int, k measure.Length) bool {
	rules, in := &t.job.Rules, t.instance
	step := max(rules.Round, in.Grid)
	from := t.layout[i]
	s := (from+t.trim[i]-rules.AsItComes)/step*step - k*step
	s -= s % in.Grid
	was, _ := in.Lay(i, from)
	now, ok := in.Lay(i, s)
	if !ok || t.trim[i] == 0 || now.Field != was.Field || now.Ender > in.Plank {
		return false
	}
	before, head, tail := *t, t.starter[i], t.ender[i] // the planks of its starter and its ender
	first, last := t.planks[head], t.planks[tail]
	t.layout[i] = s
	t.put(head, rows.Part{Run: i, Role: rows.RoleStarter, Length: now.Starter})
	t.put(tail, rows.Part{Run: i, Role: rows.RoleEnder, Length: now.Ender})
	if t.fits(t.ender[i]) && in.Check(t.layout) == nil {
		t.find()
		if len(t.small) < len(before.small) && t.loose >= before.loose && noWorse(rules, &t.figures, &before.figures) {
			return true
		}
	}
	*t = before
	t.layout[i], t.planks[tail], t.planks[head] = from, last, first
	return false
}

// put replaces the part of a run on a plank.
func (t *trims) put(plank int, part rows.Part) {
	t.planks[plank] = slices.Clone(t.planks[plank])
	for k, p := range t.planks[plank] {
		if p.Run == part.Run && p.Role == part.Role {
			t.planks[plank][k] = part
		}
	}
}

// fits reports whether the parts of a plank fit on it.
func (t *trims) fits(plank int) bool {
	left := t.instance.Plank + t.instance.Kerf
	for _, part := range t.planks[plank] {
		left -= part.Length + t.instance.Kerf
	}
	return left >= 0
}

// noWorse reports whether no figure of a floor is worse than before.
func noWorse(rules *cutopt.Rules, now, before *cutopt.Quality) bool {
	return now.HJoints <= before.HJoints && now.Chains <= before.Chains && now.Staircases <= before.Staircases &&
		now.Clusters <= before.Clusters && now.Crosscuts <= before.Crosscuts &&
		now.OffcutsAtOnce <= before.OffcutsAtOnce && now.RowsWaited <= before.RowsWaited &&
		now.OddStarters <= before.OddStarters &&
		(now.LeastStagger >= before.LeastStagger || now.LeastStagger >= rules.PreferStagger)
}
