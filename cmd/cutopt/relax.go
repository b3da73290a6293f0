package main

import (
	"context"
	"errors"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/solve"
)

// relaxed plans a job that cannot be laid with the smallest relaxation of one rule, if --relax asks for that; otherwise
// it adds to the error what would do. It returns the job planned and the note that tops its report.
func (f *solveFlags) relaxed(
	ctx context.Context,
	job *cutopt.Job,
	opt *solve.Options,
	refusal error,
) (*cutopt.Job, *solve.Result, string, error) {
	looser, how, err := solve.Relax(ctx, job)
	if errors.Is(err, solve.ErrNoPlan) {
		return nil, nil, "", fmt.Errorf(
			"%w\nNo one rule relaxed is enough: change the direction of the rows or the plank",
			refusal,
		)
	}
	if err != nil {
		return nil, nil, "", err
	}
	if how.Rule == "" { // some other search finds a plan: nothing is to be relaxed
		return nil, nil, "", refusal
	}
	what := how.Format(job.Unit, job.Rules.Grid)
	if !f.relax {
		return nil, nil, "", fmt.Errorf("%w\nWith %s it can be laid: --relax plans that", refusal, what)
	}
	result, err := solve.Job(ctx, looser, opt)
	if err != nil {
		return nil, nil, "", err
	}
	return looser, result, fmt.Sprintf(
		"Relaxed: %s, the least that makes a plan. Check that the product's instruction allows it, "+
			"and write it into the job before you check this plan against it.",
		what,
	), nil
}
