package trial

import (
	"context"

	"plank.example/bench/strategy"
	"plank.example/cutopt"
	"plank.example/cutopt/risk"
)

// Losses are the chances, in percent, that a plank is culled or miscut, with which floors are laid again and again.
var Losses = []float64{2, 5}

// A Breaking is what laying a floor again and again came to under one loss: how often, of Spec.Layings times, the boxes
// of the rule of thumb ran short and those that are recommended did; and the chances that the binomial distribution
// gives, in millionths.
type Breaking struct {
	Thumb        int   `json:"thumb"`
	Advised      int   `json:"advised"`
	PlainThumb   int64 `json:"plain_thumb"`
	PlainAdvised int64 `json:"plain_advised"`
}

// breakings plans the floor for each loss and lays it so often; nil from strategies that make no plan.
func breakings(ctx context.Context, s strategy.Strategy, floor *strategy.Floor, times int) ([]Breaking, error) {
	var out []Breaking
	for _, loss := range Losses {
		job, risky := *floor.Job, *floor
		job.Rules.Loss = loss
		risky.Job = &job
		a, err := s.Lay(ctx, &risky)
		if err != nil || a.Plan == nil {
			return nil, err
		}
		terms, err := job.Terms()
		if err != nil {
			return nil, err
		}
		with := risk.BreakageOf(&job)
		with.Times, with.Seed = times, floor.Seed
		verdict, err := risk.Assess(ctx, &job, a.Plan, &with)
		if err != nil {
			return nil, err
		}
		order := a.Plan.Order
		plain := func(boxes int) int64 { return int64(1e6*terms.Risk(order.Planks, boxes) + 0.5) }
		out = append(out, Breaking{
			Thumb: short(verdict, order.ThumbBoxes, times), Advised: short(verdict, order.Boxes, times),
			PlainThumb: plain(order.ThumbBoxes), PlainAdvised: plain(order.Boxes),
		})
	}
	return out, nil
}

// short is how often, of so many times, a number of boxes ran short. A number whose chance was counted by fewer times
// is scaled.
func short(v *cutopt.Verdict, boxes, times int) int {
	for _, c := range v.Counts {
		if c.Boxes == boxes && c.Risk.Times > 0 {
			return (c.Risk.Short*times + c.Risk.Times/2) / c.Risk.Times
		}
	}
	return 0
}
