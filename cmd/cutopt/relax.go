package main

import (
	"context"
	"errors"
	"fmt"

	"plank.example/cutopt"
)

// relaxed plans a job that cannot be laid with the smallest relaxation of one rule, if --relax asks for that; otherwise it
// adds to the error what would do. It returns the job planned and the note that tops its report.
func (f *solveFlags) relaxed(ctx context.Context, job *cutopt.Job, opt *cutopt.Options, refusal error) (*cutopt.Job, *cutopt.Result, string, error) {
	looser, how, err := cutopt.Relax(ctx, job)
	if errors.Is(err, cutopt.ErrNoPlan) {
		return nil, nil, "", fmt.Errorf("%w\nNo one rule relaxed is enough: change the direction of the rows or the plank", refusal)
	}
	if err != nil {
		return nil, nil, "", err
	}
	what := how.Format(job.Unit, job.Rules.Grid)
	if !f.relax {
		return nil, nil, "", fmt.Errorf("%w\nWith %s it can be laid: --relax plans that", refusal, what)
	}
	result, err := cutopt.Solve(ctx, looser, opt)
	if err != nil {
		return nil, nil, "", err
	}
	return looser, result, fmt.Sprintf("Relaxed: %s, the least that makes a plan. Check that the product's instruction allows it, "+
		"and write it into the job before you check this plan against it.", what), nil
}
