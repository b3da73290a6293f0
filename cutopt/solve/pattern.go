package solve

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Irregular is what the job needs when its joints follow no pattern: the best layout found, with which a pattern is
// compared.
type Irregular struct {
	Planks int
	Boxes  int
	More   int // planks that the pattern needs more; the plan may use others that its boxes hold, for its quality
}

// A joiner lays runs so that their joints follow the job's pattern.
type joiner struct {
	job    *cutopt.Job
	in     *rows.Instance
	places []place
	from   []measure.Length // by room: where its leftmost run begins
}

// patterned returns the layout that the job's pattern gives, or an *InfeasibleError that says which rule it breaks
// where.
func (p *problem) patterned() (rows.Layout, error) {
	j := &joiner{job: p.job, in: p.instance, places: p.places}
	for i, at := range p.places {
		from := p.instance.Runs[i].From
		if at.room == len(j.from) {
			j.from = append(j.from, from)
		}
		j.from[at.room] = min(j.from[at.room], from)
	}
	layout, clash := j.lay(0)
	if clash == nil {
		return layout, nil
	}
	clash.Mend = []cutopt.Finding{j.mend()}
	return nil, clash
}

// starter returns the starter of run i with which its joints lie where those of the room's pattern do, to the grid,
// with all of the pattern moved by shift; 0 where it is laid in one piece because no joint of the pattern leaves two
// that are long enough.
func (j *joiner) starter(i int, shift measure.Length) (measure.Length, bool) {
	p, l := j.places[i], j.in.Plank
	s := j.job.Pattern[p.row%len(j.job.Pattern)] + shift + j.from[p.room] - j.in.Runs[i].From
	s = ((s-1)%l + l) % l // from 0 to l-1
	if s++; s < l {
		if s = s.Floor(j.in.Grid); s == 0 {
			s = l
		}
	}
	if _, ok := j.in.Lay(i, s); ok {
		return s, true
	}
	return 0, j.in.Runs[i].Length <= l
}

// lay lays all runs with the pattern moved by shift, or says what the first clash is.
func (j *joiner) lay(shift measure.Length) (rows.Layout, *InfeasibleError) {
	layout := make(rows.Layout, len(j.in.Runs))
	for i := range layout {
		s, ok := j.starter(i, shift)
		if !ok {
			return nil, j.tooShort(i, shift)
		}
		layout[i] = s
	}
	for _, t := range j.in.Touch {
		a, _ := j.in.Lay(t[0], layout[t[0]])
		b, _ := j.in.Lay(t[1], layout[t[1]])
		if j.in.Clash(j.in.Runs[t[0]].From+layout[t[0]], a.Joints(), j.in.Runs[t[1]].From+layout[t[1]], b.Joints()) {
			return nil, j.tooClose(t, layout)
		}
	}
	return layout, nil
}

// tooShort says which starter and ender the pattern gives run i, and that it cannot have them.
func (j *joiner) tooShort(i int, shift measure.Length) *InfeasibleError {
	p, l, rules := j.places[i], j.in.Plank, &j.job.Rules
	ref := cutopt.RowRef{Room: p.name, Row: p.row + 1}
	s := j.job.Pattern[p.row%len(j.job.Pattern)] + shift + j.from[p.room] - j.in.Runs[i].From
	s = ((s-1)%l+l)%l + 1
	what := cutopt.Find("pattern-beyond", "row", ref, "starter", s)
	if rest := j.in.Runs[i].Length - rules.Fit - s; rest > 0 {
		what = cutopt.Find("pattern-pieces", "row", ref, "starter", s, "ender", (rest-1)%l+1)
	}
	least := cutopt.Find("least-piece", "least", rules.MinPiece)
	if rules.Fit > 0 {
		least = cutopt.Find("least-piece-with-fit", "least", rules.MinPiece, "fit", rules.Fit)
	}
	return &InfeasibleError{
		Rule: "min-piece", Rows: []cutopt.RowRef{ref}, Why: []cutopt.Finding{what, least}, Unit: j.job.Unit,
		floor: p.room,
	}
}

// tooClose says that the pattern brings the joints of two runs too close.
func (j *joiner) tooClose(t [2]int, layout rows.Layout) *InfeasibleError {
	a, b := j.places[t[0]], j.places[t[1]]
	refs := []cutopt.RowRef{{Room: a.name, Row: a.row + 1}, {Room: b.name, Row: b.row + 1}}
	l := j.in.Plank
	d := (j.in.Runs[t[0]].From + layout[t[0]] - j.in.Runs[t[1]].From - layout[t[1]]) % l
	d = max(d, -d)
	d = min(d, l-d)
	least := cutopt.Find("least-stagger", "stagger", j.job.Rules.Stagger)
	if fit := j.job.Rules.Fit; fit > 0 {
		least = cutopt.Find("least-stagger-with-fit", "stagger", j.job.Rules.Stagger, "fit", fit)
	}
	near := cutopt.Find("pattern-near", "row", refs[0], "other", refs[1].Row, "distance", d)
	return &InfeasibleError{
		Rule: "stagger", Rows: refs, Why: []cutopt.Finding{near, least}, Unit: j.job.Unit, floor: a.room,
	}
}

// mend looks for a shift of the whole pattern that keeps the rules, the smallest first.
func (j *joiner) mend() cutopt.Finding {
	const tries = 2048
	l, grid := j.in.Plank, j.in.Grid
	step := max(1, l/grid/tries) * grid
	for by := step; by <= l/2; by += step {
		for _, shift := range []measure.Length{by, -by} {
			if _, clash := j.lay(shift); clash != nil {
				continue
			}
			var moved []measure.Length
			for _, s := range j.job.Pattern {
				moved = append(moved, (((s+shift-1)%l+l)%l + 1).Floor(grid))
			}
			return cutopt.Find("pattern-moved", "by", by, "starters", moved)
		}
	}
	return cutopt.Find("pattern-unmoved")
}

// follow puts the layout of the pattern in place of the floor's own, which needs no more, and notes what that is. The
// bound is of all layouts, and so holds for the pattern's too. With the starters given there is nothing left to search,
// but for the packing of one-piece runs.
func (f *floorplan) follow(p *problem, pattern rows.Layout) {
	least := f.planks()
	f.layout, f.cutting = pattern, p.instance.Cut(pattern, nil)
	least = min(least, f.planks())
	f.irregular = &Irregular{Planks: least, Boxes: p.terms.Boxes(least), More: f.planks() - least}
}

// packed reports whether some run is laid in one piece, so that the planks depend on how such pieces are packed.
func (f *floorplan) packed() bool { return slices.Contains(f.layout, 0) }
