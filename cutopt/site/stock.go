package site

import (
	"slices"

	"plank.example/cutopt"
)

// counted reports whether a state counts what is here.
func counted(s *State) bool {
	return slices.ContainsFunc(s.Events, func(e Event) bool { return e.Kind == KindPlanks || e.Kind == KindBoxes })
}

// stock says what is here: what is counted, else what the plan says less what was opened.
func (a *application) stock(s *State) {
	site := &cutopt.Site{Bought: a.was.Order.Boxes}
	if was := a.was.Site; was != nil {
		site.Brought, site.Mixed = was.Brought, was.Mixed
	}
	a.plan.Site = site
	last := &s.Events[len(s.Events)-1]
	if counted(s) {
		site.Here = a.count(s)
	} else if site.Here = a.byPlan(last); len(a.errs) > 0 {
		return
	}
	a.balance(site)
	a.lots(s, site)
}

// count adds up what is counted, lot by lot in the order told; a later count of a lot replaces an earlier one.
func (a *application) count(s *State) (here []cutopt.Lot) {
	per := max(1, a.was.Order.PlanksPerBox)
	loose := make(map[string]int)
	for i := range s.Events {
		e := &s.Events[i]
		if e.Kind != KindPlanks && e.Kind != KindBoxes {
			continue
		}
		k := slices.IndexFunc(here, func(l cutopt.Lot) bool { return l.Name == e.Lot })
		if k < 0 {
			k, here = len(here), append(here, cutopt.Lot{Name: e.Lot})
		}
		if e.Kind == KindBoxes {
			here[k].Boxes = e.Count
		} else {
			loose[e.Lot] = e.Count
		}
		here[k].Planks = here[k].Boxes*per + loose[e.Lot]
	}
	if over := cutopt.WholePlanks(here); over > mostPlanks {
		a.refuse(&s.Events[0], "count again", "%d whole planks are more than a job takes", over)
	}
	return here
}

// byPlan returns what is here by the plan.
func (a *application) byPlan(last *Event) []cutopt.Lot {
	per := max(1, a.was.Order.PlanksPerBox)
	if was := a.was.Site; was != nil && slices.ContainsFunc(was.Here, func(l cutopt.Lot) bool { return l.Name != "" }) {
		return a.lotsLeft(was)
	}
	n := a.unopened()
	if n < 0 {
		a.refuse(last, "count what is here: planks 4, boxes 1", "%d planks more were opened than were bought", -n)
		return nil
	}
	return []cutopt.Lot{{Planks: n, Boxes: n / per}}
}

// lotsLeft returns what is left of the lots that were here, less the planks opened since. Boxes that were still to be
// bought are not here, since nobody said of which lot they are.
func (a *application) lotsLeft(was *cutopt.Site) []cutopt.Lot {
	per := max(1, a.was.Order.PlanksPerBox)
	a.plan.Site.Bought = was.Bought
	here := slices.Clone(was.Here)
	for i := range a.plan.Planks {
		use := &a.plan.Planks[i]
		if !use.Opened || use.Brought || i < len(a.was.Planks) && a.was.Planks[i].Opened {
			continue
		}
		k := slices.IndexFunc(here, func(l cutopt.Lot) bool { return l.Name == use.Lot && l.Planks > 0 })
		if k < 0 { // a plank that was culled has no lot
			k = slices.IndexFunc(here, func(l cutopt.Lot) bool { return l.Planks > 0 })
		}
		if k >= 0 {
			here[k].Planks--
			here[k].Boxes = min(here[k].Boxes, here[k].Planks/per)
		}
	}
	return here
}

// balance makes boxes bought and planks brought add up to what was opened and what is here. Planks beyond came from
// elsewhere; of those missing whole boxes were not bought, and the rest is lost.
func (a *application) balance(site *cutopt.Site) {
	per := max(1, a.was.Order.PlanksPerBox)
	more := opened(a.plan) + cutopt.WholePlanks(site.Here) - site.Bought*per - site.Brought
	if more > 0 {
		site.Brought += more
		a.remark("planks-brought", "n", more)
		return
	}
	if boxes := min(site.Bought, -more/per); boxes > 0 {
		site.Bought -= boxes
		more += boxes * per
		a.remark("boxes-missing", "n", boxes)
	}
	if more < 0 {
		from := min(site.Brought, -more)
		site.Brought -= from
		if more += from; more == 0 {
			return
		}
		a.remark("planks-missing", "n", -more)
		for ; more < 0; more++ {
			a.plan.Planks = append(a.plan.Planks, cutopt.PlankUse{
				Number: len(a.plan.Planks) + 1, Opened: true, Gone: []cutopt.Leftover{a.part(0, a.long)},
			})
		}
	}
}

// lots gives floors that lie, and the planks opened for them, the lot that is told.
func (a *application) lots(s *State, site *cutopt.Site) {
	told := make(map[int]bool)
	for i := range s.Events {
		switch e := &s.Events[i]; e.Kind {
		case KindMix:
			site.Mixed = true
		case KindLot:
			a.plan.Floors[e.Floor].Lot = e.Lot
			told[e.Floor] = true
		}
	}
	apart := slices.ContainsFunc(site.Here, func(l cutopt.Lot) bool { return l.Name != "" })
	for i := range a.plan.Planks {
		use := &a.plan.Planks[i]
		for _, ref := range use.Pieces {
			if p := a.plan.Piece(ref); p.Lies && use.Lot == "" {
				use.Lot = a.plan.Floors[ref.Floor].Lot
			}
		}
	}
	last := &s.Events[len(s.Events)-1]
	for f := range a.plan.Floors {
		if floor := &a.plan.Floors[f]; apart && !site.Mixed && floor.Lot == "" && begun(floor) {
			a.refuse(last, "write "+floor.Name+" lot and its name, or mix",
				"of which lot is what lies in %q? The planks here are told apart", floor.Name)
		}
	}
	if site.Mixed {
		for f := range a.plan.Floors {
			a.plan.Floors[f].Lot = ""
		}
	}
}

// begun reports whether something lies of a floor.
func begun(floor *cutopt.PlanFloor) bool {
	for r := range floor.Rows {
		for k := range floor.Rows[r].Runs {
			for _, p := range floor.Rows[r].Runs[k].Pieces {
				if p.Lies {
					return true
				}
			}
		}
	}
	return false
}
