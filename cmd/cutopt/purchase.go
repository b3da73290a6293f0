package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/words"
)

// order prints the boxes to buy before anything else, then why so many.
func (r *report) order() error {
	o, s := &r.plan.Order, r.speech
	planks := s.Count("things.plank", o.PlanksPerBox)
	if r.job.Plank.Name != "" {
		planks += " (" + clean(r.job.Plank.Name) + ")"
	}
	text := s.Say("report.buy", "boxes", some(s, "box", o.Boxes), "planks", planks)
	if o.Price > 0 {
		text += ", " + s.Say("report.in-all", "price", s.Decimal(money(o.Price)))
	}
	for _, line := range wrap(text, r.width, "  ") {
		fmt.Fprintln(r.w, r.palette.bold(line))
	}
	for _, text := range []string{clean(r.plan.Job), r.note} {
		if text != "" {
			fmt.Fprintln(r.w, strings.Join(wrap(text, r.width, ""), "\n"))
		}
	}
	r.heading(s.Say("report.why"))
	why, err := reasons(s, r.job, r.plan)
	if err != nil {
		return err
	}
	if o.Kept == 0 {
		why = append(why, s.Spares(r.job, r.plan))
	}
	for _, text := range why {
		r.item(text)
	}
	if v := r.verdict; v != nil && v.Times > 0 && v.Recommended != o.Boxes {
		r.item(s.Count("why.counted", v.Recommended))
	}
	return nil
}

// reasons say why so many boxes are bought: what is proven of fewer, whatever breaks, and what rests on the loss
// assumed; what the floor takes; what the rest is for; and what the rule of thumb would buy.
func reasons(s *words.Speech, job *cutopt.Job, plan *cutopt.Plan) ([]string, error) {
	terms, err := job.Terms()
	if err != nil {
		return nil, err
	}
	why := fewerBoxes(s, terms, job, plan)
	why = append(why, floorTakes(s, plan), restIsFor(s, job, plan), thumb(s, job, plan, terms))
	if plan.StripsServe(job.Plank.Width, job.Rules.Kerf) {
		why = append(why, s.Say("report.strips")) // where a strip ripped off one piece could be laid as another
	}
	return why, nil
}

// fewerBoxes says what is proven of fewer boxes, and of one box less also what its risk is, or that it is open.
func fewerBoxes(s *words.Speech, t cutopt.Terms, job *cutopt.Job, plan *cutopt.Plan) []string {
	var why []string
	o, b := &plan.Order, &plan.Bound
	open := func(r cutopt.Room) bool { return r.Rows.FirstRow == 0 || r.Rows.Direction == cutopt.DirectionFree }
	switch {
	case b.Boxes <= 1:
	case b.Rooms != nil:
		why = append(why, s.Count("why.too-few-rooms", b.Boxes-1, "whatever", s.Whatever(job)))
	case plan.Site == nil && slices.ContainsFunc(job.Rooms, open):
		why = append(why, s.Count("why.too-few", b.Boxes-1)+" "+s.Say("why.first-open"))
	default:
		why = append(why, s.Count("why.too-few", b.Boxes-1))
	}
	less := o.Boxes - 1
	if b.Boxes > less {
		if why == nil && o.Boxes > 0 {
			why = append(why, s.Say("why.least"))
		}
		return why
	}
	if !b.Settled {
		open := s.Count("why.open", less, "most", s.Count("things.plank", t.MostPlanks(less)))
		if b.Planks > 1 {
			open += s.Count("why.open-from", b.Planks-1)
		}
		return append(why, open+".")
	}
	places := []string{"loss", s.Share(t.Loss), "limit", s.Share(t.Limit)}
	if less >= t.Holding(o.Fewest) {
		return append(why, s.Count("why.too-risky", less, append(places, "chance", chanceOf(s, t, plan, less))...))
	}
	risk := chanceBeside(t.Risk(b.Planks, less), t.Limit)
	return append(why, s.Count("why.risky-at-best", less, append(places, "chance", s.Decimal(risk),
		"planks", s.Count("things.plank", b.Planks))...))
}

// chanceOf says how likely so many boxes run short: of the floor of fewest planks found, and where one of fewer may
// exist, the range from the chance of as few as the bound allows to that.
func chanceOf(s *words.Speech, t cutopt.Terms, plan *cutopt.Plan, boxes int) string {
	found := s.Decimal(chanceBeside(t.Risk(plan.Order.Fewest, boxes), t.Limit))
	least := s.Decimal(chanceBeside(t.Risk(plan.Bound.Planks, boxes), t.Limit))
	if least == found {
		return found
	}
	return s.Say("why.chance-between", "least", least, "found", found)
}

// floorTakes says how many planks are laid, how many of them for looks, and whether fewer could do where that is known.
func floorTakes(s *words.Speech, plan *cutopt.Plan) string {
	o := &plan.Order
	text := s.Say("why.floor", "planks", s.Count("things.plank", o.Planks))
	if more := o.Planks - o.Fewest; more > 0 {
		key := "why.looks"
		if o.Fewest > plan.Bound.Planks { // a floor of fewer may exist
			key = "why.found"
		}
		text += s.Count(key, more)
	}
	if plan.Bound.PlanksProven && o.Planks > 1 {
		text += s.Count("why.floor-least", o.Planks-1)
	}
	return text + "."
}

// restIsFor says what the planks are for that the floor does not take.
func restIsFor(s *words.Speech, job *cutopt.Job, plan *cutopt.Plan) string {
	o := &plan.Order
	if o.Left <= 0 {
		return s.Say("why.none-left")
	}
	var parts []string
	if o.Kept > 0 {
		kept := s.Say("report.kept", "n", strconv.Itoa(o.Kept))
		if job.Spare.BoxPer > 0 && o.PlanksPerBox > 0 {
			kept += " " + s.Count("report.kept-in", o.Kept/o.PlanksPerBox)
		}
		parts = append(parts, kept)
	}
	if o.Reserve > 0 {
		parts = append(parts, s.Say("report.reserve", "n", strconv.Itoa(o.Reserve)))
	}
	if over := o.Over(); over > 0 {
		parts = append(parts, s.Say("report.over", "n", strconv.Itoa(over)))
	}
	bought := strconv.Itoa(o.Boxes * o.PlanksPerBox)
	return s.Count("why.rest", o.Left, "bought", bought, "parts", strings.Join(parts, ", "))
}

// thumb says what the rule of thumb would buy, what that costs, and whether it is enough.
func thumb(s *words.Speech, job *cutopt.Job, plan *cutopt.Plan, t cutopt.Terms) string {
	o := &plan.Order
	rule := s.Say("why.thumb", "percent", s.Decimal(trimZeros(job.Rules.WasteAllowance)))
	more := o.ThumbBoxes - o.Boxes
	if more == 0 {
		return rule + s.Say("why.thumb-same")
	}
	key, apart := "more", more
	if more < 0 {
		key, apart = "fewer", -more
	}
	buys := s.Count("things.box", o.ThumbBoxes)
	difference := s.Decimal(strconv.Itoa(apart))
	if t.Price > 0 {
		buys = s.Say("why.for", "boxes", buys, "price", s.Decimal(money(cutopt.Money(o.ThumbBoxes)*t.Price)))
		difference = s.Decimal(money(cutopt.Money(apart) * t.Price))
	}
	text := rule + s.Say("why.thumb-"+key, "boxes", buys, "difference", difference)
	switch {
	case more > 0:
		return text + "."
	case o.ThumbBoxes < plan.Bound.Boxes && plan.Bound.Rooms != nil:
		return text + s.Say("why.thumb-too-few-rooms", "whatever", s.Whatever(job))
	case o.ThumbBoxes < plan.Bound.Boxes:
		return text + s.Say("why.thumb-too-few")
	case o.ThumbBoxes >= t.Holding(o.Fewest):
		return text + s.Say("why.thumb-risk", "chance", chanceOf(s, t, plan, o.ThumbBoxes))
	}
	return text + s.Say("why.thumb-short")
}
