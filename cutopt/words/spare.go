package words

import "plank.example/cutopt"

// Spares says how many whole planks are kept for repairs, and where none is, what keeping one costs. It is "" for a job
// without boxes.
func (s *Speech) Spares(job *cutopt.Job, plan *cutopt.Plan) string {
	o := &plan.Order
	if o.Kept > 0 {
		return s.Count("spares.kept", o.Kept)
	}
	terms, err := job.Terms()
	if err != nil {
		return ""
	}
	terms.Spare = cutopt.Spare{Planks: 1}
	more := terms.Boxes(o.Fewest) - o.Boxes
	if more <= 0 {
		return s.Say("spares.free")
	}
	text := s.Count("spares.costs", more)
	if terms.Price > 0 {
		price := cutopt.Money(more) * terms.Price
		text += s.Say("spares.price", "price", s.Decimal(price.String()))
	}
	return text + "."
}
