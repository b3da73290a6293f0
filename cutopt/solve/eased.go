package solve

import (
	"context"

	"plank.example/cutopt"
)

// Eased plans on as [Continue] does: with the job's rules, then with one of them eased at a time, the stagger and the
// shortest piece 4 in or 100 mm less. It tells what that would save where what is here falls short; whether it may be
// is for the product's instruction to say. Variants that cannot be laid or that are no other than the job are left out.
// With FewestPlanks each has the fewest planks missing that opt's effort finds. Options.Limit is that of all together.
//
// Errors are those of Continue for the job as it is marked, and that of the context.
func Eased(ctx context.Context, job *cutopt.Job, marked *cutopt.Plan, opt *Options) ([]Variant, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	ask := new(Options)
	if opt != nil {
		*ask = *opt
	}
	if ask.Limit > 0 {
		var end context.CancelFunc
		ctx, end = context.WithTimeout(ctx, ask.Limit)
		defer end()
		ask.Limit = 0
	}
	var out []Variant
	for _, v := range append([]Variant{{Job: job}}, ruled(job, -1)...) {
		v.Result, v.Err = Continue(ctx, v.Job, marked, ask)
		if err := ctx.Err(); err != nil {
			return out, err
		}
		switch {
		case v.Err == nil:
			out = append(out, v)
		case v.Aspect == AspectNone:
			return nil, v.Err
		}
	}
	return out, nil
}
