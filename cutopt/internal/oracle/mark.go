package oracle

import (
	"math/rand/v2"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Mark returns a plan as it stands when it is laid to a random row of each floor, with a run in hand, and with losses
// that leave the rest of it as it is: planks culled and miscut, offcuts that nothing is cut from lost, others brought
// along. Stock and lots are drawn too. Losses in percent, as the job assumes them, leave chances that only Terms tells.
func Mark(job *cutopt.Job, plan *cutopt.Plan, r *rand.Rand) *cutopt.Plan {
	m := &marker{job: job, plan: plan.Clone(), r: r}
	for m.lay(); m.outOfOrder(); m.lay() {
		m.plan = plan.Clone()
	}
	m.lose()
	m.stock()
	m.figures()
	return m.plan
}

type marker struct {
	job  *cutopt.Job
	plan *cutopt.Plan
	r    *rand.Rand
}

// lay marks what lies.
func (m *marker) lay() {
	for i := range m.plan.Floors {
		floor := &m.plan.Floors[i]
		done := m.r.IntN(len(floor.Rows) + 1)
		for j := range floor.Rows {
			for k := range floor.Rows[j].Runs {
				pieces := floor.Rows[j].Runs[k].Pieces
				n := 0
				if j < done {
					n = len(pieces)
				} else if j == done {
					n = m.r.IntN(len(pieces) + 1)
				}
				for p := range n {
					if floor.LaidFrom == cutopt.HandRight {
						p = len(pieces) - 1 - p
					}
					pieces[p].Lies = true
					m.plan.Planks[pieces[p].Plank-1].Opened = true
				}
			}
		}
	}
}

// outOfOrder reports whether a starter lies as it came of an offcut that is still to be sawn off: it cannot.
func (m *marker) outOfOrder() bool {
	for p := range m.plan.Pieces() {
		if !p.Lies || p.AsItComes == 0 {
			continue
		}
		for _, ref := range m.plan.Planks[p.Plank-1].Pieces {
			if !m.plan.Piece(ref).Lies {
				return true
			}
		}
	}
	return false
}

// lose opens planks for nothing, loses offcuts and brings some along.
func (m *marker) lose() {
	long, kerf := m.job.Plank.Length, m.job.Rules.Kerf
	for i := range m.plan.Planks {
		if use := &m.plan.Planks[i]; use.Opened && len(use.Left) > 0 && m.r.IntN(3) == 0 {
			k := m.r.IntN(len(use.Left))
			gone := use.Left[k]
			if first := use.Pieces[0]; len(use.Pieces) > 1 && gone.From == m.plan.Piece(first).Length+kerf &&
				m.plan.Piece(use.Pieces[1]).Ends == cutopt.EndsNone { // then with the cut of the piece beyond
				use.Cuts = slices.DeleteFunc(use.Cuts, func(c cutopt.Cut) bool { return c.At == gone.To })
				gone.To += kerf
			}
			use.Gone = []cutopt.Leftover{gone}
			use.Left = append(use.Left[:k:k], use.Left[k+1:]...)
		}
	}
	add := func(use cutopt.PlankUse) {
		use.Number, use.Opened = len(m.plan.Planks)+1, true
		m.plan.Planks = append(m.plan.Planks, use)
	}
	for range m.r.IntN(3) { // culled
		add(cutopt.PlankUse{Gone: []cutopt.Leftover{{To: long, Ends: cutopt.EndsBoth}}})
	}
	for range m.r.IntN(2) { // miscut
		at := measure.Length(1 + m.r.Int64N(int64(long-kerf-1)))
		add(cutopt.PlankUse{
			Gone: []cutopt.Leftover{{From: at, To: at + kerf}},
			Left: []cutopt.Leftover{{To: at, Ends: cutopt.EndsLeft}, {From: at + kerf, To: long, Ends: cutopt.EndsRight}},
		})
	}
	for range m.r.IntN(2) { // brought along
		at := measure.Length(1 + m.r.Int64N(int64(long-1)))
		add(cutopt.PlankUse{
			Brought: true, Gone: []cutopt.Leftover{{To: at, Ends: cutopt.EndsLeft}},
			Left: []cutopt.Leftover{{From: at, To: long, Ends: cutopt.EndsRight}},
		})
	}
}

// stock draws what is here, in one lot or two, and hands lots to floors and planks.
func (m *marker) stock() {
	opened, needed := 0, 0
	for i := range m.plan.Planks {
		switch use := &m.plan.Planks[i]; {
		case !use.Opened:
			needed++
		case !use.Brought:
			opened++
		}
	}
	per := m.plan.Order.PlanksPerBox
	lot := func(name string) cutopt.Lot {
		n := m.r.IntN(needed + 2*per + 1)
		return cutopt.Lot{Name: name, Planks: n, Boxes: m.r.IntN(n/per + 1)}
	}
	s := &cutopt.Site{Needed: needed, Least: m.r.IntN(needed + 1)}
	switch m.r.IntN(3) {
	case 0:
		s.Here = []cutopt.Lot{lot("")}
	case 1:
		s.Here, s.Mixed = []cutopt.Lot{lot("A"), lot("B")}, true
	default:
		s.Here = []cutopt.Lot{lot("A"), lot("B")}
		name := []string{"A", "B", ""}[m.r.IntN(3)]
		for i := range m.plan.Floors {
			m.plan.Floors[i].Lot = name
		}
		for i := range m.plan.Planks {
			m.plan.Planks[i].Lot = name
		}
	}
	s.Bought, s.Brought = (opened+cutopt.WholePlanks(s.Here))/per, (opened+cutopt.WholePlanks(s.Here))%per
	m.plan.Site = s
}

// taken returns of how many planks of each lot the rest is cut, and how many are missing, in all and for the planks
// that ok admits.
func (m *marker) taken(ok func(*cutopt.PlankUse) bool) (taken []int, short int) {
	s := m.plan.Site
	taken = make([]int, len(s.Here))
planks:
	for i := range m.plan.Planks {
		use := &m.plan.Planks[i]
		if use.Opened || !ok(use) {
			continue
		}
		for k := range s.Here {
			if taken[k] < s.Here[k].Planks && (s.Mixed || s.Here[k].Name == use.Lot) {
				taken[k]++
				continue planks
			}
		}
		short++
	}
	return taken, short
}

// figures recounts what follows from marks and stock.
func (m *marker) figures() {
	s, o := m.plan.Site, &m.plan.Order
	terms, _ := m.job.Terms()
	taken, short := m.taken(func(*cutopt.PlankUse) bool { return true })
	here, inUse := cutopt.WholePlanks(s.Here), m.plan.InUse()
	s.Short, s.Buy = short, terms.OnTop(s.Needed, inUse, short, here)
	own := 0
	for i := range m.plan.Planks {
		if !m.plan.Planks[i].Brought {
			own++
		}
	}
	opened := own - s.Needed
	o.Planks, o.Fewest, o.Boxes = own, own, s.Bought+s.Buy
	o.Left, o.Kept, o.Reserve = here+s.Buy*terms.PerBox-s.Needed, terms.Kept(inUse), terms.Reserve(s.Needed)
	o.Price = cutopt.Money(o.Boxes) * terms.Price
	o.Risk = cutopt.Terms{PerBox: 1, Loss: terms.Loss, Limit: terms.Limit}.Risk(s.Needed, s.Needed+o.Left-o.Kept)
	s.Returns = terms.Returns(s.Here, taken, o.Left-o.Kept-o.Reserve, inUse)
	m.whatWaits()
	holding := func(n int) int {
		free := cutopt.Terms{PerBox: terms.PerBox, Spare: terms.Spare}
		return s.Bought + free.OnTop(n, inUse-s.Needed+n, max(0, n-here), here)
	}
	m.plan.Bound = cutopt.Bound{
		Planks: opened + s.Least, Boxes: holding(s.Least), PlanksProven: s.Least == s.Needed,
		Proven:  holding(s.Least) == holding(s.Needed),
		Settled: terms.OnTop(s.Least, inUse-s.Needed+s.Least, max(0, s.Least-here), here) == s.Buy,
	}
	s.Assigned = true
	if !s.Mixed && len(s.Here) > 1 && short > 0 {
		s.Assigned = m.noBetterLot(short)
	}
	m.areas(own)
	m.plan.Quality.Crosscuts = 0
	for i := range m.plan.Planks {
		m.plan.Quality.Crosscuts += len(m.plan.Planks[i].Cuts)
	}
}

// whatWaits finds how far the stock reaches, plank by plank, and which floors can wait.
func (m *marker) whatWaits() {
	s := m.plan.Site
	if s.Short == 0 {
		return
	}
	for i := range m.plan.Floors {
		rows := 0
	rows:
		for j := range m.plan.Floors[i].Rows {
			for _, run := range m.plan.Floors[i].Rows[j].Runs {
				for _, p := range run.Pieces {
					use := &m.plan.Planks[p.Plank-1]
					_, before := m.taken(func(u *cutopt.PlankUse) bool { return u.Number < use.Number })
					_, with := m.taken(func(u *cutopt.PlankUse) bool { return u.Number <= use.Number })
					if with > before {
						break rows
					}
				}
			}
			rows++
		}
		s.Reaches = append(s.Reaches, rows)
		if _, short := m.taken(func(u *cutopt.PlankUse) bool {
			for _, ref := range u.Pieces {
				if ref.Floor != i {
					return true
				}
			}
			return false
		}); short == 0 {
			s.Waits = append(s.Waits, i)
		}
	}
}

// noBetterLot reports whether the one lot of all floors cannot be chosen better, or some of them lies.
func (m *marker) noBetterLot(short int) bool {
	for p := range m.plan.Pieces() {
		if p.Lies {
			return true
		}
	}
	for i := range m.plan.Planks {
		if use := &m.plan.Planks[i]; use.Opened && len(use.Pieces) > 0 {
			return true
		}
	}
	for _, l := range m.plan.Site.Here {
		if max(0, m.plan.Site.Needed-l.Planks) < short {
			return false
		}
	}
	return true
}

// areas adds up the waste.
func (m *marker) areas(own int) {
	w, s, wide := &m.plan.Waste, m.plan.Site, measure.Area(m.job.Plank.Width)
	one := measure.Area(m.job.Plank.Length) * wide
	w.Offcuts, w.Lost, w.Brought = 0, 0, measure.Area(s.Brought)*one
	var offcuts measure.Area
	for i := range m.plan.Planks {
		use := &m.plan.Planks[i]
		for _, o := range use.Left {
			w.Offcuts += measure.Area(o.To-o.From) * wide
		}
		for _, o := range use.Gone {
			w.Lost += measure.Area(o.To-o.From) * wide
		}
		if use.Brought {
			gone := measure.Area(use.Gone[0].To) * wide
			w.Lost -= gone
			w.Brought += one - gone
			offcuts += one - gone
		}
	}
	w.Bought = measure.Area(m.plan.Order.Boxes*m.plan.Order.PlanksPerBox) * one
	w.WholeLeft = measure.Area(m.plan.Order.Left) * one
	w.Kerf = w.Bought + w.Brought - w.Laid - w.Offcuts - w.Ripped - w.Lost - w.WholeLeft
	w.AddedToFloor = (w.Bought - w.Net).PercentOf(w.Net)
	w.ShareOfPurchase = (w.Bought - w.Net).PercentOf(w.Bought)
	used := measure.Area(own)*one + offcuts
	w.Afterwards = (used - w.Laid).PercentOf(used)
}

// SpoilMark changes one mark, or one figure of the site, that a plan which Mark made cannot do without, and says what;
// it returns "" where the plan has nothing of the kind that was drawn.
func SpoilMark(p *cutopt.Plan, r *rand.Rand) string {
	s := p.Site
	use := &p.Planks[r.IntN(len(p.Planks))]
	figures := map[string]*int{
		"bought": &s.Bought, "brought": &s.Brought, "needed": &s.Needed, "least": &s.Least, "short": &s.Short, "buy": &s.Buy,
		"planks here": &s.Here[r.IntN(len(s.Here))].Planks, "order.planks": &p.Order.Planks, "order.boxes": &p.Order.Boxes,
		"order.left": &p.Order.Left, "order.kept": &p.Order.Kept, "order.reserve": &p.Order.Reserve,
		"bound.planks": &p.Bound.Planks, "bound.boxes": &p.Bound.Boxes,
	}
	names := []string{
		"bought", "brought", "needed", "least", "short", "buy", "planks here", "order.planks", "order.boxes", "order.left",
		"order.kept", "order.reserve", "bound.planks", "bound.boxes",
	}
	by := 1 - 2*r.IntN(2)
	switch r.IntN(10) {
	case 0, 1, 2:
		name := names[r.IntN(len(names))]
		*figures[name] += by
		return name + " misstated"
	case 3:
		if use.Opened && len(use.Gone) > 0 {
			use.Gone = nil
			return "what is gone forgotten"
		}
	case 4:
		if len(use.Gone) > 0 {
			use.Gone[0].Ends = (use.Gone[0].Ends + 1) % 4
			return "the ends of what is gone changed"
		}
	case 5:
		if len(use.Gone) > 0 {
			use.Gone[0].To += measure.Length(by)
			return "what is gone of another size"
		}
	case 6:
		if !use.Opened {
			use.Opened = true
			return "a whole plank opened"
		}
		use.Opened = false
		return "an opened plank whole"
	case 7:
		for _, ref := range use.Pieces {
			if p.Piece(ref).Lies = !use.Opened; !use.Opened {
				return "a piece of a whole plank lies"
			}
		}
		if len(use.Gone) == 0 {
			return "an opened plank of which nothing lies"
		}
	case 8:
		use.Brought = !use.Brought
		return "brought along, or not"
	default:
		return spoilSite(p, r)
	}
	return ""
}

// spoilSite changes a list or a flag of the site.
func spoilSite(p *cutopt.Plan, r *rand.Rand) string {
	s := p.Site
	switch r.IntN(7) {
	case 0:
		s.Assigned = !s.Assigned
		return "assigned misstated"
	case 1:
		s.Returns = append(s.Returns, cutopt.Lot{Planks: 8, Boxes: 1})
		return "a box more goes back"
	case 2:
		s.Waits = append(s.Waits, 0)
		return "a floor more can wait"
	case 3:
		s.Reaches = append(s.Reaches, 3)
		return "the stock reaches further"
	case 4:
		s.Changed = append(s.Changed, cutopt.RunChange{Was: 5, Is: 7})
		return "a change that is none"
	case 5:
		s.Here = append(s.Here, s.Here[0])
		return "a lot twice"
	default:
		l := &s.Here[r.IntN(len(s.Here))]
		l.Boxes = l.Planks/p.Order.PlanksPerBox + 1
		return "a box more than there are planks"
	}
}
