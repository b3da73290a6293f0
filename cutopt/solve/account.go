package solve

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/internal/slack"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// asTheyCame keeps starters of the plan before that are laid as their offcuts come, where their planks are cut as
// before and every rule still holds, and reports whether there are any.
func (a *continuation) asTheyCame() (any bool) {
	if a.job.Rules.AsItComes == 0 {
		return false
	}
	kept := a.keptLoose()
	if len(kept) == 0 {
		return false
	}
	p := a.asPlanned(a.starter, &rows.Cutting{Planks: a.allCut()})
	p.Instance, p.Given = a.s.asItLies(a.starter), make([]measure.Length, len(a.places))
	for i := range p.Sawn {
		p.Given[i], p.Sawn[i] = a.s.runs[i].longer, p.Sawn[i] || !kept[i]
	}
	slices.SortStableFunc(p.Order, func(i, j int) int { // what lies comes first
		return min(len(a.s.runs[j].pieces), 1) - min(len(a.s.runs[i].pieces), 1)
	})
	for i, by := range slack.Find(p) {
		if by == 0 || !kept[i] {
			continue
		}
		at := a.places[i]
		pieces := a.plan.Floors[at.room].Rows[at.row].Runs[at.run].Pieces
		starter := &pieces[0]
		if at.mirrored {
			starter = &pieces[len(pieces)-1]
		}
		starter.AsItComes, any = starter.Length+by, true
	}
	return any
}

// A cutPart is a piece as it is planned on a plank.
type cutPart struct {
	run    int
	first  bool // the one laid first of several
	length measure.Length
}

// cutOf lists the pieces of a plank of a plan, but for runs that are no more, in order.
func (a *continuation) cutOf(plan *cutopt.Plan, use *cutopt.PlankUse) (out []cutPart) {
	for _, ref := range use.Pieces {
		i, ok := a.s.at[runKey{ref.Floor, ref.Row, ref.Run}]
		p := plan.Piece(ref)
		if !ok || p == nil {
			continue
		}
		first, n := ref.Piece == 0, len(plan.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run].Pieces)
		if a.places[i].mirrored {
			first = ref.Piece == n-1
		}
		out = append(out, cutPart{i, first && n > 1, p.Length})
	}
	return out
}

// keptLoose returns the runs whose starters the plan before lays as their offcuts come, where all that is cut from
// their planks is cut from one plank still, and nothing of that is gone.
func (a *continuation) keptLoose() map[int]bool {
	now := make(map[int][]cutPart) // by run whose starter it has
	for n := range a.plan.Planks {
		if use := &a.plan.Planks[n]; len(use.Gone) == 0 {
			for _, p := range a.cutOf(a.plan, use) {
				if p.first {
					now[p.run] = a.cutOf(a.plan, use)
				}
			}
		}
	}
	kept := make(map[int]bool)
	for k := range a.s.uses {
		use := &a.s.uses[k]
		was := a.cutOf(a.s.before, use)
		for n, ref := range use.Pieces {
			p := a.s.before.Piece(ref)
			if p.AsItComes == 0 || p.Lies || len(was) != len(use.Pieces) {
				continue
			}
			if slices.Equal(was, now[was[n].run]) {
				kept[was[n].run] = true
			}
		}
	}
	return kept
}

// allCut lists what is cut from each plank of which nothing is gone, lengths as they may come out.
func (a *continuation) allCut() (out [][]rows.Part) {
	for n := range a.plan.Planks {
		use := &a.plan.Planks[n]
		if len(use.Gone) > 0 {
			continue
		}
		var parts []rows.Part
		for _, ref := range use.Pieces {
			p, i := a.piece(ref), a.s.at[runKey{ref.Floor, ref.Row, ref.Run}]
			pieces := len(a.plan.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run].Pieces)
			nth := ref.Piece
			if a.places[i].mirrored {
				nth = pieces - 1 - nth
			}
			part := rows.Part{Run: i, Role: rows.RoleField, Length: p.Length}
			switch {
			case pieces == 1:
				part.Role, part.Length = rows.RoleSingle, p.Length+a.job.Rules.Fit
			case nth == 0:
				part.Role = rows.RoleStarter
			case nth == pieces-1:
				part.Role, part.Length = rows.RoleEnder, p.Length+a.job.Rules.Fit
			}
			parts = append(parts, part)
		}
		slices.SortStableFunc(parts, func(x, y rows.Part) int { return slotOf(x.Role) - slotOf(y.Role) })
		if len(parts) > 0 {
			out = append(out, parts)
		}
	}
	return out
}

// slotOf orders the parts of a plank from its left end, as laid from the left.
func slotOf(r rows.Role) int {
	return [...]int{rows.RoleStarter: 2, rows.RoleField: 1, rows.RoleEnder: 0, rows.RoleSingle: 1}[r]
}

// figures counts the figures of the floor, what lies included.
func (a *continuation) figures() {
	p := a.qualities()
	p.Instance = a.s.asItLies(a.starter)
	q := quality.Looks(p, a.starter)
	for n := range a.plan.Planks {
		q.Crosscuts += len(a.plan.Planks[n].Cuts)
	}
	q.OffcutsAtOnce, q.RowsWaited = a.carried()
	for i, at := range a.places {
		pieces := a.plan.Floors[at.room].Rows[at.row].Runs[at.run].Pieces
		if len(pieces) < 2 {
			continue
		}
		first := &pieces[0]
		if at.mirrored {
			first = &pieces[len(pieces)-1]
		}
		s, round := a.starter[i], a.job.Rules.Round
		if first.AsItComes == 0 && round > 0 && s < a.job.Plank.Length && s%round != 0 {
			q.OddStarters++
		}
	}
	a.plan.Quality = q
}

// carried returns the most planks under way from one row to a later one, and the rows that they wait between.
func (a *continuation) carried() (atOnce, waited int) {
	rows := rowNumbers(a.places)
	change := make([]int, len(rows)+1)
	for n := range a.plan.Planks {
		first, last := len(rows), -1
		for _, ref := range a.plan.Planks[n].Pieces {
			row := rows[a.s.at[runKey{ref.Floor, ref.Row, ref.Run}]]
			first, last = min(first, row), max(last, row)
		}
		if first < last {
			change[first]++
			change[last]--
			waited += last - first - 1
		}
	}
	now := 0
	for _, d := range change {
		now += d
		atOnce = max(atOnce, now)
	}
	return atOnce, waited
}

// account settles the stock, what the rest takes of it, and the figures of the order.
func (a *continuation) account() {
	s, r, plan := a.s, a.r, a.plan
	per := max(a.terms.PerBox, 1)
	site := s.site
	opened, inUse := s.opened(), plan.InUse()
	site.Needed, site.Least, site.Assigned = len(r.cutting.Planks), r.least(), s.assigned(plan)
	taken, need := make([]int, len(site.Here)), s.needed(plan)
	site.Short = s.short(need)
	left := site.Needed
	for i, lot := range site.Here {
		if taken[i] = min(lot.Planks, need[lot.Name]); site.Mixed {
			taken[i] = min(lot.Planks, left)
			left -= taken[i]
		}
	}
	here := cutopt.WholePlanks(site.Here)
	site.Buy = a.terms.OnTop(site.Needed, inUse, site.Short, here)
	o := &plan.Order
	*o = cutopt.Order{
		Planks: opened + site.Needed, PlanksPerBox: per, Boxes: site.Bought + site.Buy,
		Left: here + site.Buy*per - site.Needed, Kept: a.terms.Kept(inUse), Reserve: a.terms.Reserve(site.Needed),
		Fewest: opened + min(r.fewest-r.begun, site.Needed), Loss: a.job.Rules.Loss, RiskLimit: a.job.Rules.RiskLimit,
	}
	o.Price = cutopt.Money(o.Boxes) * a.terms.Price
	o.Risk = a.terms.RiskBeyond(site.Needed, o.Left-o.Kept)
	site.Returns = a.terms.Returns(site.Here, taken, o.Left-o.Kept-o.Reserve, inUse)
	if site.Short > 0 {
		site.Reaches, site.Waits = s.reaches(plan), s.waits(plan)
	}
	site.Changed = a.changed()
	plan.Site = &site
	a.bound(opened, inUse, here)
	a.waste(per)
}

// bound states what is proven of the rest, as a bound of the whole.
func (a *continuation) bound(opened, inUse, here int) {
	site, o, per := a.plan.Site, &a.plan.Order, max(a.terms.PerBox, 1)
	holding := func(n int) int {
		kept := a.terms.Kept(a.s.inUseWith(inUse, site.Needed, n))
		return site.Bought + (max(0, n+kept-here, n-here)+per-1)/per
	}
	onTop := func(n int) int {
		return a.terms.OnTop(n, a.s.inUseWith(inUse, site.Needed, n), max(0, n-here), here)
	}
	b := cutopt.Bound{
		Planks: opened + site.Least, Certificate: a.r.proven.certificate,
		PlanksProven: site.Least == site.Needed, Boxes: holding(site.Least),
	}
	b.Proven = b.Boxes == holding(o.Fewest-opened)
	b.Settled = onTop(site.Least) == site.Buy
	a.plan.Bound = b
}

// inUseWith returns how many planks would be in use if the rest took n in place of needed.
func (s *standing) inUseWith(inUse, needed, n int) int { return inUse - needed + n }

// waste counts the areas, which add up exactly.
func (a *continuation) waste(per int) {
	plan, w, o := a.plan, &a.plan.Waste, &a.plan.Order
	width := measure.Area(a.job.Plank.Width)
	plank := measure.Area(a.job.Plank.Length) * width
	w.Net = a.net
	o.ThumbBoxes = thumb(a.job, w.Net, plank*measure.Area(per))
	var pieces, brought measure.Area
	for p := range plan.Pieces() {
		pieces += measure.Area(p.Length) * width
	}
	for i := range plan.Planks {
		use := &plan.Planks[i]
		for _, left := range use.Left {
			w.Offcuts += measure.Area(left.To-left.From) * width
		}
		gone := measure.Length(0)
		for _, g := range use.Gone {
			gone += g.To - g.From
		}
		if use.Brought {
			brought += measure.Area(a.job.Plank.Length-gone) * width
		} else {
			w.Lost += measure.Area(gone) * width
		}
	}
	w.Offcuts += measure.Area(a.slack) * width
	w.Bought = measure.Area(o.Boxes*per) * plank
	w.Brought = measure.Area(plan.Site.Brought)*plank + brought
	w.WholeLeft = measure.Area(o.Left) * plank
	w.Ripped = pieces - w.Laid
	used := measure.Area(o.Planks)*plank + brought
	w.Kerf = used - pieces - w.Offcuts - w.Lost
	w.AddedToFloor = (w.Bought - w.Net).PercentOf(w.Net)
	w.ShareOfPurchase = (w.Bought - w.Net).PercentOf(w.Bought)
	w.Afterwards = (used - w.Laid).PercentOf(used)
}

// changed lists the runs that are not begun and start otherwise than before, in laying order: by a step of the tape at
// least, as less is only where their ends come to lie.
func (a *continuation) changed() (out []cutopt.RunChange) {
	order := a.asPlanned(a.starter, &rows.Cutting{}).Order
	for _, i := range order {
		run, at := &a.s.runs[i], a.places[i]
		if len(run.pieces) > 0 {
			continue
		}
		pieces := a.plan.Floors[at.room].Rows[at.row].Runs[at.run].Pieces
		is, was := pieces[0].Length, measure.Length(0)
		if at.mirrored {
			is = pieces[len(pieces)-1].Length
		}
		if len(run.was) > 0 {
			was = run.was[0]
		}
		if d := was - is; was == 0 || max(d, -d) >= a.s.job.Rules.Grid {
			out = append(out, cutopt.RunChange{Floor: at.room, Row: at.row, Run: at.run, Was: was, Is: is})
		}
	}
	return out
}
