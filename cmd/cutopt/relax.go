package main

import (
	"context"
	"errors"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// relaxed plans a job that cannot be laid with the smallest relaxation of one rule, if --relax asks for that; otherwise
// it adds to the error what would do. It returns the job planned and the note that tops its report.
func (f *solveFlags) relaxed(
	ctx context.Context,
	s *words.Speech,
	job *cutopt.Job,
	opt *solve.Options,
	refusal error,
) (*cutopt.Job, *solve.Result, string, error) {
	looser, how, err := solve.Relax(ctx, job)
	if errors.Is(err, solve.ErrNoPlan) {
		return nil, nil, "", &spokenError{refused(s, refusal) + "\n" + s.Say("relaxed.none"), refusal}
	}
	if err != nil {
		return nil, nil, "", err
	}
	if how.Rule == "" { // some other search finds a plan: nothing is to be relaxed
		return nil, nil, "", &spokenError{refused(s, refusal), refusal}
	}
	what := s.Say("relaxed", "rule", how.Rule, "to", s.Exact(how.To), "from", s.Exact(how.From))
	if !f.relax {
		return nil, nil, "", &spokenError{refused(s, refusal) + "\n" + s.Say("relaxed.offer", "what", what), refusal}
	}
	result, err := solve.Job(ctx, looser, opt)
	if err != nil {
		return nil, nil, "", err
	}
	return looser, result, s.Say("relaxed.note", "what", what), nil
}

// refused says why no plan keeps the rules, and what would do.
func refused(s *words.Speech, refusal error) string {
	var no *solve.InfeasibleError
	if !errors.As(refusal, &no) {
		return refusal.Error()
	}
	return s.Say("refused", "why", clean(s.Findings(slices.Concat(no.Why, no.Mend))))
}
