package solve

import (
	"fmt"
	"slices"

	"plank.example/cutopt"
)

// mostCounted is more than the planks or boxes of any job, and so few that no sum or price of them overflows.
const mostCounted = 10_000_000

// counted holds that the plan before counts planks and boxes within reason.
func (s *standing) counted() error {
	type count struct {
		field string
		n     int
	}
	counts := []count{{"plan.order.boxes", s.before.Order.Boxes}}
	if site := s.before.Site; site != nil {
		counts = []count{{"plan.site.bought", site.Bought}, {"plan.site.brought", site.Brought}}
		for i, lot := range site.Here {
			field := fmt.Sprintf("plan.site.here[%d]", i+1)
			counts = append(counts, count{field + ".planks", lot.Planks}, count{field + ".boxes", lot.Boxes})
		}
	}
	for _, c := range counts {
		if c.n < 0 || c.n > mostCounted {
			return &cutopt.FieldError{
				Field: c.field, Value: fmt.Sprint(c.n), Rule: "planks and boxes are counted from 0 to 10,000,000",
				Mend: "count what is here again, or give the plan as it was written",
			}
		}
	}
	return nil
}

// stock settles what is here. A plan without a site says nothing of it: then it is what the order says, less the planks
// opened.
func (s *standing) stock() error {
	opened := s.opened()
	if site := s.before.Site; site != nil {
		s.site = cutopt.Site{Bought: site.Bought, Brought: site.Brought, Here: slices.Clone(site.Here), Mixed: site.Mixed}
	} else {
		s.site = cutopt.Site{Bought: s.before.Order.Boxes}
		left := s.site.Bought*s.terms.PerBox - opened
		s.site.Here = []cutopt.Lot{{Planks: left, Boxes: max(left, 0) / s.terms.PerBox}}
	}
	for i, lot := range s.site.Here {
		if lot.Planks < 0 || lot.Boxes < 0 || lot.Boxes*s.terms.PerBox > lot.Planks {
			return &cutopt.FieldError{
				Field: fmt.Sprintf("plan.site.here[%d]", i+1), Value: fmt.Sprintf("%d planks, %d boxes", lot.Planks, lot.Boxes),
				Rule: "planks are here or not, and those of unopened boxes are among them", Mend: "count what is here again",
			}
		}
	}
	whole := cutopt.WholePlanks(s.site.Here)
	if in := s.site.Bought*s.terms.PerBox + s.site.Brought; in != opened+whole {
		return &cutopt.FieldError{
			Field: "plan.site.here", Value: fmt.Sprintf("%d whole planks", whole),
			Rule: fmt.Sprintf("%d planks came and %d of them are opened, which leaves %d", in, opened, in-opened),
			Mend: "count what is here again",
		}
	}
	return nil
}

// opened counts the planks that are opened, but offcuts brought along.
func (s *standing) opened() (n int) {
	for k := range s.uses {
		if s.uses[k].Opened && !s.uses[k].Brought {
			n++
		}
	}
	return n
}

// inUse counts those of the opened planks that pieces are or can still be cut from: all but those lost whole.
func (s *standing) inUse() (n int) {
	for k := range s.uses {
		use := &s.uses[k]
		lies := slices.ContainsFunc(use.Pieces, func(r cutopt.PieceRef) bool { return s.before.Piece(r).Lies })
		onHand := slices.ContainsFunc(s.hand, func(p part) bool { return p.plank == k })
		if use.Opened && !use.Brought && (lies || onHand) {
			n++
		}
	}
	return n
}
