package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/planfile"
	"plank.example/cutopt/words"
)

// violationsShown is how many violations are listed when not all are asked for: a plan held against another job has
// thousands.
const violationsShown = 40

func runCheck(_ context.Context, e *env, args []string) error {
	jf := newJobFlags()
	hide(jf.set, "aims", "prefer-stagger")
	set := pflag.NewFlagSet("check", pflag.ContinueOnError)
	all := set.Bool("all", false, fmt.Sprintf("list every violation, not only the first %d", violationsShown))
	rest, done, err := parseFlags(e, "check", args, flagGroup{"What to print:", set}, flagGroup{"The job:", jf.set})
	if err != nil || done {
		return err
	}
	if len(rest) == 0 {
		return usagef("check needs a job and a plan: cutopt check JOB PLAN.json")
	}
	planPath := rest[len(rest)-1]
	jobArgs := rest[:len(rest)-1]
	if len(jobArgs) == 0 && !jf.given() {
		return usagef("check needs the job as well as the plan: cutopt check JOB %s", planPath)
	}
	path, err := jobPath(jf, "check", jobArgs)
	if err != nil {
		return err
	}
	if path == "-" && planPath == "-" {
		return usagef("check: only one of the job and the plan can come from standard input")
	}
	src, err := jf.job(e, path)
	if err != nil {
		return err
	}
	plan, err := readPlan(planPath, e.stdin)
	if err != nil {
		return err
	}
	return reportCheck(e.stdout, src.job, plan, *all)
}

// readPlan reads a plan file.
func readPlan(path string, stdin io.Reader) (*cutopt.Plan, error) {
	if path != "-" {
		file, err := os.Open(path)
		if err != nil {
			return nil, usagef("the plan cannot be read: %w", err)
		}
		defer file.Close()
		stdin = file
	} else {
		path = "standard input"
	}
	plan, err := planfile.Decode(stdin)
	if err != nil {
		return nil, usagef("%s:\n%w", path, err)
	}
	return plan, nil
}

// reportCheck recounts the plan and verifies its certificate, and says what it did and found.
func reportCheck(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, all bool) error {
	var b strings.Builder
	p, width := paletteFor(w), reportWidth(w)
	para := func(text string) {
		b.WriteString(strings.Join(wrap(text, width, "  "), "\n") + "\n")
	}
	violations := check.Plan(job, plan)
	pieces, runs := 0, 0
	for _, room := range plan.Floors {
		for _, row := range room.Rows {
			runs += len(row.Runs)
			for _, run := range row.Runs {
				pieces += len(run.Pieces)
			}
		}
	}
	para(fmt.Sprintf("Recounted %s from %s in %s of %s.", count(pieces, "piece", "pieces"),
		count(len(plan.Planks), "plank", "planks"), count(runs, "run", "runs"), count(len(plan.Floors), "floor", "floors")))
	if len(violations) == 0 {
		para("Every rule is kept; planks, boxes and waste add up.")
	} else {
		b.WriteString(p.bold(count(len(violations), "violation", "violations")+":") + "\n")
		shown := violations
		if !all {
			shown = shown[:min(len(shown), violationsShown)]
		}
		for _, v := range shown {
			para("- " + clean(v.String()))
		}
		if n := len(violations) - len(shown); n > 0 {
			para(fmt.Sprintf("and %d more; --all lists them", n))
		}
	}
	sound := checkProof(para, job, plan)
	if _, err := io.WriteString(w, b.String()); err != nil {
		return err
	}
	if len(violations) > 0 || !sound {
		return &silentError{code: exitViolations}
	}
	return nil
}

// checkProof verifies the plan's certificate and reports whether its claim holds.
func checkProof(para func(string), job *cutopt.Job, plan *cutopt.Plan) bool {
	if plan.Bound.Certificate == nil {
		para(fmt.Sprintf("The plan carries no certificate, so its claim that at least %s are needed is not verified.",
			count(plan.Bound.Planks, "plank", "planks")))
		return plan.Bound.Planks == 0 && !plan.Bound.Proven
	}
	if err := check.Proof(job, plan); err != nil {
		para("The certificate does not hold: " + clean(err.Error()))
		return false
	}
	para(fmt.Sprintf("The certificate holds: no layout of these rows needs fewer than %s or %s.",
		count(plan.Bound.Planks, "plank", "planks"), count(plan.Bound.Boxes, "box", "boxes")))
	s := words.New("en", nil, job.Unit, job.Rules.Grid)
	para(boxVerdict(s, plan, job.Rules.WasteAllowance))
	para(plankVerdict(s, plan))
	if plan.StripsServe(job.Plank.Width, job.Rules.Kerf) {
		para(s.Say("report.strips"))
	}
	return true
}
