package words

import "plank.example/cutopt"

// Product says how the planks of a job are joined, laid and measured, as far as the job has that from the product's
// instruction; else it refers to that.
func (s *Speech) Product(job *cutopt.Job) []string {
	from, rows := "product", cutopt.RowRules{}
	if len(job.Rooms) > 0 {
		rows = job.Rooms[0].Rows
	}
	switch {
	case rows.LaidFrom != cutopt.FromUnset && rows.LaidFrom != job.Plank.From:
		from = "asked"
	case job.Plank.From == cutopt.FromUnset:
		from = "unset"
	}
	return []string{
		s.Say("product.ends." + job.Plank.Ends.String()),
		s.Say("product.to-wall." + job.Plank.ToWall.String()),
		s.Say("product.from."+from, "hand", s.Say("hand."+job.LaidFrom(rows).String())),
		s.Say("product.face"),
	}
}
