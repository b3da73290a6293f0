package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// solveFlags steer the search.
type solveFlags struct {
	set            *pflag.FlagSet
	fewest, effort string
	seed           uint64
	workers        int
	limit          time.Duration
	relax          bool
}

func newSolveFlags() *solveFlags {
	f := &solveFlags{set: pflag.NewFlagSet("solve", pflag.ContinueOnError)}
	s := f.set
	s.SortFlags = false
	textVar(s, &f.fewest, "fewest", "what", "boxes", "what to have as few as possible of: boxes or planks (boxes)")
	textVar(s, &f.effort, "effort", "steps", "normal", "steps to spend: quick, normal or thorough (normal)")
	s.Uint64Var(&f.seed, "seed", 0, "`number` that the search starts from; the same number gives the same plan (0)")
	s.IntVar(&f.workers, "workers", 0, "`threads`; the plan does not depend on it (all cores)")
	s.DurationVar(&f.limit, "limit", 0, "stop after this `time` with the best plan so far, such as 5s (no limit)")
	takes(s, "fewest", "boxes", "planks")
	takes(s, "effort", "quick", "normal", "thorough")
	s.BoolVar(&f.relax, "relax", false, "when no plan keeps the rules, relax one of them by as little as makes a plan")
	return f
}

// options returns the options of Solve that the flags ask for.
func (f *solveFlags) options() (*solve.Options, error) {
	opt := &solve.Options{Seed: f.seed, Workers: f.workers, Limit: f.limit}
	if f.workers < 0 || f.workers > 1024 {
		return nil, usagef("--workers %d: 1 to 1024 threads, or 0 for one a core", f.workers)
	}
	if f.workers == 0 {
		opt.Workers = runtime.GOMAXPROCS(0)
	}
	if f.limit < 0 {
		return nil, usagef("--limit %v: a limit is 0 or more, such as 5s", f.limit)
	}
	err := oneOf("fewest", f.fewest, []string{"boxes", "planks"}, func(i int) {
		opt.Fewest = []solve.Objective{solve.FewestBoxes, solve.FewestPlanks}[i]
	})
	if err != nil {
		return nil, err
	}
	err = oneOf("effort", f.effort, []string{"quick", "normal", "thorough"}, func(i int) {
		opt.Effort = []solve.Effort{solve.EffortQuick, solve.EffortNormal, solve.EffortThorough}[i]
	})
	return opt, err
}

func runPlan(ctx context.Context, e *env, args []string) error {
	jf, sf, rf, of := newJobFlags(), newSolveFlags(), newRiskFlags(), newOutFlags()
	rest, done, err := parseFlags(e, "plan", args, flagGroup{"The job:", jf.set}, flagGroup{"The search:", sf.set},
		flagGroup{"The risk of running short:", rf.set}, flagGroup{"What to write:", of.set})
	if err != nil || done {
		return err
	}
	if err := rf.apart(rest); err != nil {
		return err
	}
	path, err := jobPath(jf, "plan", rest)
	if err != nil {
		return err
	}
	opt, err := sf.options()
	if err != nil {
		return err
	}
	if err := rf.check(); err != nil {
		return err
	}
	draw, err := of.options(append(jf.outlines, path))
	if err != nil {
		return err
	}
	of.jobPath = path
	src, err := jf.job(e, path)
	if err != nil {
		return err
	}
	speech := speak(draw.Language, src.job)
	line := newProgressLine(e.stderr, speech)
	opt.Progress = line.show
	job := src.job
	sparingly(job)
	result, err := solve.Job(ctx, job, opt)
	if errors.Is(err, solve.ErrNoPlan) {
		job, result, of.note, err = sf.relaxed(ctx, speech, job, opt, err)
	}
	if err == nil {
		breakage := rf.breakage(job, opt)
		if of.onlyJSON() {
			breakage.Times = 0 // nothing that is written tells the chances
		}
		breakage.Progress = line.laying(breakage.Times)
		of.verdict, of.short, err = verdict(ctx, job, result.Plan, breakage)
	}
	line.clear()
	if err != nil {
		return solveError(ctx, speech, src, err)
	}
	if !of.onlyJSON() {
		if err := of.takeOff(src, job, result.Plan, draw); err != nil {
			return err
		}
	}
	return of.deliver(e, job, result, draw)
}

// jobPath returns the job file named by the arguments, or "" for a job given by flags.
func jobPath(jf *jobFlags, c string, args []string) (string, error) {
	if err := positional(c, args, 1, "one job file"); err != nil {
		return "", err
	}
	if len(args) == 1 {
		return args[0], nil
	}
	if !jf.given() {
		return "", usagef("%s needs a job file, or a room given by --room \"14ft 6in x 10ft 11in\" or --outline FILE",
			c)
	}
	return "", nil
}

// jobBeside is jobPath for a command that reads a plan too: both cannot come from standard input.
func jobBeside(jf *jobFlags, c string, args []string, plan string) (string, error) {
	path, err := jobPath(jf, c, args)
	if err == nil && path == "-" && plan == "-" {
		err = usagef("%s: only one of the job and the plan can come from standard input", c)
	}
	return path, err
}

// jobAndPlan parts the arguments of a command that plans the job where no plan is given. A job given by flags needs no
// file: what stands alone beside them is the plan where its name says so, else a job that the flags change.
func jobAndPlan(jf *jobFlags, c string, args []string) (job, plan string, err error) {
	if n := len(args); n > 1 || n == 1 && jf.given() && strings.EqualFold(filepath.Ext(args[0]), ".json") {
		plan, args = args[n-1], args[:n-1]
	}
	job, err = jobBeside(jf, c, args, plan)
	return job, plan, err
}

// solveError sorts the errors of Solve into exit codes: what no rule allows, what was cut short, what is bad input.
func solveError(ctx context.Context, s *words.Speech, src *jobSource, err error) error {
	switch {
	case errors.Is(err, solve.ErrNoPlan):
		return err
	case ctx.Err() != nil && errors.Is(err, context.Canceled):
		return usagef("%s", s.Say("stopped"))
	case errors.Is(err, context.DeadlineExceeded):
		return usagef("%s", s.Say("stopped.limit"))
	}
	return src.inputError(err)
}

// sparingly collects garbage sooner where a floor is large: nearly all that it takes is its plan, which stays to the
// end, and garbage as much again would double that. On a small one collecting sooner is a tenth of the time.
func sparingly(job *cutopt.Job) {
	const large = 50_000 // pieces
	if e, err := solve.EstimateOf(job); err == nil && e.Pieces > large && os.Getenv("GOGC") == "" {
		debug.SetGCPercent(50)
	}
}
