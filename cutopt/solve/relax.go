package solve

import (
	"context"
	"errors"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A Relaxation is one rule of a job made looser; "relaxed" is its key in package words.
type Relaxation struct {
	Rule     string // key of the rule in a job file: "stagger", "min-piece" or "fit"
	From, To measure.Length
}

// relaxable lists the rules that Relax may loosen, in the order it prefers where two are loosened by the same share.
var relaxable = []struct {
	key string
	of  func(*cutopt.Rules) *measure.Length
}{
	{"fit", func(r *cutopt.Rules) *measure.Length { return &r.Fit }},
	{"stagger", func(r *cutopt.Rules) *measure.Length { return &r.Stagger }},
	{"min-piece", func(r *cutopt.Rules) *measure.Length { return &r.MinPiece }},
}

// Relax finds the smallest relaxation with which a job can be laid that [Job] refuses with an *InfeasibleError. It
// loosens one rule, the stagger, the shortest piece or the fit allowance, in steps of Rules.Grid, and returns a copy of
// the job with it; of several rules that would do, the one that keeps the greatest share of its value. A job that can
// be laid as it is comes back with a zero Relaxation. Where no one rule is enough, and where the rooms cannot be laid
// out at all, the error is that of [Job]. The rooms are shared with the job, which is only read.
//
// Feasibility is monotone in each rule, so each is bisected: O(log(rule/grid)) searches for a first layout, each with
// any first row that the job leaves open.
func Relax(ctx context.Context, job *cutopt.Job) (*cutopt.Job, Relaxation, error) {
	refusal := layable(ctx, job)
	var no *InfeasibleError
	if !errors.As(refusal, &no) {
		return job, Relaxation{}, refusal
	}
	var best *cutopt.Job
	var how Relaxation
	for _, rule := range relaxable {
		now, to, err := loosen(ctx, job, rule.of)
		if err != nil {
			return nil, Relaxation{}, err
		}
		// to/from is the share kept: compare as fractions, exactly
		if from := *rule.of(&job.Rules); now != nil && (best == nil || to*how.From > how.To*from) {
			best, how = now, Relaxation{rule.key, from, to}
		}
	}
	if best == nil {
		return nil, Relaxation{}, refusal
	}
	return best, how, nil
}

// loosen returns the job with the largest value of one rule below its own, on the grid, with which it can be laid, or
// nil when none does.
func loosen(
	ctx context.Context,
	job *cutopt.Job,
	of func(*cutopt.Rules) *measure.Length,
) (*cutopt.Job, measure.Length, error) {
	from, grid := *of(&job.Rules), job.Rules.Grid
	with := func(value measure.Length) *cutopt.Job {
		j := *job
		*of(&j.Rules) = value
		return &j
	}
	var failed error
	can := func(value measure.Length) bool {
		if failed != nil {
			return false
		}
		err := layable(ctx, with(value))
		if err != nil && !errors.Is(err, ErrNoPlan) {
			failed = err
		}
		return err == nil
	}
	if from <= 0 || !can(0) {
		return nil, 0, failed
	}
	// low*grid can be laid, high*grid cannot, or is not below the rule
	low, high := measure.Length(0), (from+grid-1)/grid
	for high-low > 1 {
		if mid := low + (high-low)/2; can(mid * grid) {
			low = mid
		} else {
			high = mid
		}
	}
	if failed != nil {
		return nil, 0, failed
	}
	return with(low * grid), low * grid, nil
}
