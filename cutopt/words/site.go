package words

import (
	"strconv"
	"strings"

	"plank.example/cutopt"
)

// A SiteReport says how a job stands that is begun, in the order in which a layer asks: will what is here do, what to
// buy, what stands behind it.
type SiteReport struct {
	Will    string   // whether what is here will do, and by how many planks
	Buy     string   // what to buy on top, or that nothing is
	Stands  []string // what is here, what the rest takes, what is proven, what can go back
	Changed string   // how many runs that are not laid start otherwise than before
}

// Site says how a job stands that is begun; nil for a plan from scratch.
func (s *Speech) Site(job *cutopt.Job, plan *cutopt.Plan) *SiteReport {
	if plan.Site == nil {
		return nil
	}
	r := &SiteReport{Will: s.siteWill(plan), Buy: s.siteBuy(job, plan), Changed: s.siteChanged(plan)}
	r.Stands = append(r.Stands, s.siteHere(plan), s.siteRest(plan))
	if rest := s.siteLeft(plan); rest != "" {
		r.Stands = append(r.Stands, rest)
	}
	r.Stands = append(append(r.Stands, s.siteLots(plan)...), s.siteReaches(plan)...)
	for _, l := range plan.Site.Returns {
		lot := ""
		if l.Name != "" {
			lot = s.Say("site.of-lot", "lot", l.Name)
		}
		r.Stands = append(r.Stands, s.Count("site.returns", l.Boxes, "of", lot))
	}
	return r
}

// siteWill says whether what is here will do.
func (s *Speech) siteWill(plan *cutopt.Plan) string {
	site := plan.Site
	here := cutopt.WholePlanks(site.Here)
	if site.Short > 0 {
		text := s.Count("site.short", site.Short)
		if fewest := plan.Order.Fewest - opened(plan) - here; fewest > 0 && fewest < site.Short && site.Assigned {
			text += s.Count("site.short-fewest", fewest)
			if site.Least-here == fewest {
				text += s.Say("site.short-fewest-proven")
			}
			return text
		}
		switch least := site.Least - here; {
		case site.Needed == 0 || least == site.Short && site.Assigned:
			return text + s.Say("site.short-proven")
		case least > 0:
			return text + s.Count("site.short-least", least)
		}
		return text + s.Say("site.short-open")
	}
	if over := here - site.Needed; over > 0 {
		return s.Count("site.will", over)
	}
	return s.Say("site.will-just")
}

// opened counts the planks of a plan that are no whole planks of the stock any more.
func opened(plan *cutopt.Plan) (n int) {
	for i := range plan.Planks {
		if plan.Planks[i].Opened && !plan.Planks[i].Brought {
			n++
		}
	}
	return n
}

// siteBuy says what to buy on top, and what for.
func (s *Speech) siteBuy(job *cutopt.Job, plan *cutopt.Plan) string {
	site, o := plan.Site, &plan.Order
	if site.Buy == 0 {
		return s.Say("site.buy-none")
	}
	key := "site.buy"
	if site.Short == 0 {
		key = "site.safe"
	}
	text := s.Count(key, site.Buy, "planks", s.Count("things.plank", site.Buy*o.PlanksPerBox))
	if job.Box.Price > 0 {
		text += ", " + s.Say("report.in-all", "price", s.Decimal((cutopt.Money(site.Buy)*job.Box.Price).String()))
	}
	var parts []string
	if site.Short > 0 {
		parts = append(parts, s.Count("site.for-missing", site.Short))
	}
	if o.Kept > 0 {
		parts = append(parts, s.Say("report.kept", "n", strconv.Itoa(o.Kept)))
	}
	if o.Reserve > 0 {
		parts = append(parts, s.Say("report.reserve", "n", strconv.Itoa(o.Reserve)))
	}
	if over := o.Over(); over > 0 {
		parts = append(parts, s.Say("report.over", "n", strconv.Itoa(over)))
	}
	if len(parts) > 0 {
		text += ": " + strings.Join(parts, ", ")
	}
	return text
}

// siteHere says what lies and what is here.
func (s *Speech) siteHere(plan *cutopt.Plan) string {
	var lots []string
	for _, l := range plan.Site.Here {
		text := s.Count("things.plank", l.Planks)
		if l.Name != "" {
			text += s.Say("site.of-lot", "lot", l.Name)
		}
		if l.Boxes > 0 {
			text += s.Count("site.in-boxes", l.Boxes)
		}
		lots = append(lots, text)
	}
	if len(lots) == 0 {
		lots = []string{s.Say("things.plank.none")}
	}
	return s.Count("site.opened", opened(plan)) + s.Say("site.here", "planks", strings.Join(lots, "; "))
}

// siteRest says how many planks the rest takes, and what is proven of fewer.
func (s *Speech) siteRest(plan *cutopt.Plan) string {
	site := plan.Site
	if site.Needed == 0 {
		return s.Say("site.rest-none")
	}
	text := s.Say("site.rest", "planks", s.Count("things.plank", site.Needed))
	switch {
	case site.Least == site.Needed:
		text += s.Say("site.rest-proven")
	case site.Least > 0 && site.Least == plan.Order.Fewest-opened(plan):
		text += s.Count("site.rest-fewest", site.Least)
	case site.Least > 1:
		text += s.Count("site.rest-least", site.Least-1)
	}
	return text + "."
}

// siteLeft says what the planks are for that the rest does not take, where none are to be bought.
func (s *Speech) siteLeft(plan *cutopt.Plan) string {
	o := &plan.Order
	if plan.Site.Buy > 0 || o.Left <= 0 {
		return ""
	}
	var parts []string
	if o.Kept > 0 {
		parts = append(parts, s.Say("report.kept", "n", strconv.Itoa(o.Kept)))
	}
	if o.Reserve > 0 {
		parts = append(parts, s.Say("report.reserve", "n", strconv.Itoa(o.Reserve)))
	}
	if over := o.Over(); over > 0 {
		parts = append(parts, s.Say("report.over", "n", strconv.Itoa(over)))
	}
	return s.Count("site.left", o.Left, "parts", strings.Join(parts, ", "))
}

// siteLots says which floors are laid from which lot, where lots are told apart.
func (s *Speech) siteLots(plan *cutopt.Plan) (out []string) {
	of := make(map[string][]string) // names of floors
	var lots []string
	for f := range plan.Floors {
		lot := plan.Floors[f].Lot
		if lot == "" {
			continue
		}
		if of[lot] == nil {
			lots = append(lots, lot)
		}
		of[lot] = append(of[lot], s.FloorName(plan, f))
	}
	for _, lot := range lots {
		out = append(out, s.Say("site.lot", "lot", lot, "floors", strings.Join(of[lot], ", ")))
	}
	if plan.Site.Mixed {
		out = append(out, s.Say("site.mixed"))
		return out
	}
	if site := plan.Site; len(lots) > 0 && site.Least > 0 && site.Least < site.Needed {
		out = append(out, s.Count("site.lots-bound", site.Least))
	}
	if len(lots) > 1 && !plan.Site.Assigned {
		out = append(out, s.Say("site.lots-open"))
	}
	return out
}

// siteReaches says how far what is here reaches, and which floors could wait.
func (s *Speech) siteReaches(plan *cutopt.Plan) (out []string) {
	site := plan.Site
	for f, rows := range site.Reaches {
		if f >= len(plan.Floors) {
			break
		}
		all := len(plan.Floors[f].Rows)
		name := s.FloorName(plan, f)
		switch {
		case rows >= all:
			out = append(out, s.Say("site.reaches-all", "floor", name))
		case rows == 0:
			out = append(out, s.Say("site.reaches-none", "floor", name))
		default:
			out = append(out, s.Say("site.reaches", "floor", name, "row", strconv.Itoa(rows), "rows", strconv.Itoa(all)))
		}
	}
	for _, f := range site.Waits {
		if f >= 0 && f < len(plan.Floors) && len(plan.Floors) > 1 {
			out = append(out, s.Say("site.waits", "floor", s.FloorName(plan, f)))
		}
	}
	return out
}

// siteChanged says how many runs that are not laid start otherwise than before.
func (s *Speech) siteChanged(plan *cutopt.Plan) string {
	n := len(plan.Site.Changed)
	if n == 0 {
		return s.Say("site.changed-none")
	}
	return s.Count("site.changed", n)
}
