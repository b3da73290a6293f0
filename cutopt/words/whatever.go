package words

import (
	"slices"

	"plank.example/cutopt"
)

// Whatever says what of how the rows may lie a bound of the rooms holds for: every first row, and where the job leaves
// the direction of some rows open, both. It stands within a sentence.
func (s *Speech) Whatever(job *cutopt.Job) string {
	if slices.ContainsFunc(job.Rooms, func(r cutopt.Room) bool { return r.Rows.Direction == cutopt.DirectionFree }) {
		return s.Say("whatever.free")
	}
	return s.Say("whatever.first")
}
