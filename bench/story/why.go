package story

import (
	"context"

	"plank.example/cutopt/solve"
)

// A Cause says what a story owes it to that more planks were used than by one of the habits.
type Cause string

// The causes, in the order in which they are looked for: with that measure known at first no more are used, or without
// losses too.
const (
	CauseMeasure Cause = "a measure that changed when planks were cut by the old one"
	CauseLoss    Cause = "planks lost for which others were cut"
	CausePlan    Cause = "the plan"
)

// Why tells a story again that came to an outcome: first with all measures known when it is planned, then without
// losses too, until no more planks are used than by either habit, which knows nothing but the run in hand. A plan of
// the fewest planks for what is known has cut planks for each other that something later parts.
func (s *Story) Why(ctx context.Context, o *Outcome, opt *solve.Options) (Cause, error) {
	again := *s
	again.Job, again.ChangeRow = o.Laid, 0
	for _, try := range []struct {
		cause Cause
		loss  float64
	}{{CauseMeasure, s.Loss}, {CauseLoss, 0}} {
		if again.Loss = try.loss; again.Loss == 0 {
			again.Mixed = 0
		}
		if try.cause == CauseMeasure && o.Walls == 0 {
			continue
		}
		o, err := again.Tell(ctx, opt, false)
		if err != nil {
			return "", err
		}
		if o.Habit > 0 && o.Used <= min(o.Habit, o.Careful) {
			return try.cause, nil
		}
	}
	return CausePlan, nil
}
