package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/planfile"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/words"
)

// violationsShown is how many violations are listed when not all are asked for: a plan held against another job has
// thousands.
const violationsShown = 40

func runCheck(ctx context.Context, e *env, args []string) error {
	jf := newJobFlags()
	hide(jf.set, "aims", "prefer-stagger")
	set := pflag.NewFlagSet("check", pflag.ContinueOnError)
	all := set.Bool("all", false, fmt.Sprintf("list every violation, not only the first %d", violationsShown))
	happened := ""
	textVar(set, &happened, "site", "file", "", "what happened: the plan goes on from there; no job is given")
	family := ""
	textVar(set, &family, "family", "file", "", "ways for the rows to lie, as bare problems, and the certificate of them "+
		"all: JSON for a verifier of your own")
	spoken := languageFlag(set, "what is printed")
	rest, done, err := parseFlags(e, "check", args, flagGroup{"What to print:", set}, flagGroup{"The job:", jf.set})
	if err != nil || done {
		return err
	}
	if happened != "" {
		if len(rest) != 1 {
			return usagef("check --site %s needs the plan that goes on from there, and no more: its job is named in the file",
				happened)
		}
		language, err := spoken()
		if err != nil {
			return err
		}
		return checkSite(ctx, e, happened, rest[0], language, *all)
	}
	if len(rest) == 0 {
		return usagef("check needs a job and a plan: cutopt check JOB PLAN.json")
	}
	planPath := rest[len(rest)-1]
	jobArgs := rest[:len(rest)-1]
	if len(jobArgs) == 0 && !jf.given() {
		return usagef("check needs the job as well as the plan: cutopt check JOB %s", planPath)
	}
	path, err := jobBeside(jf, "check", jobArgs, planPath)
	if err != nil {
		return err
	}
	language, err := spoken()
	if err != nil {
		return err
	}
	src, err := jf.job(e, path)
	if err != nil {
		return err
	}
	plan, err := readPlan(planPath, e.stdin)
	if err != nil {
		return err
	}
	if family != "" {
		if err := writeFamily(e, family, src.job, plan); err != nil {
			return err
		}
	}
	return reportCheck(ctx, e.stdout, speak(language, src.job), src.job, plan, *all)
}

// writeFamily writes the family of bare problems that a plan's bound of the rooms is one of, and its certificate, as
// testdata/instances/family.py reads them: one line.
func writeFamily(e *env, path string, job *cutopt.Job, plan *cutopt.Plan) error {
	if path == "-" {
		return usagef("check: --family needs the name of a file")
	}
	family, err := check.Family(job, plan)
	if err != nil {
		return err
	}
	return writeAll(e.temps, []output{{"family", path, func(w io.Writer) error {
		return json.NewEncoder(w).Encode(struct {
			ID          string                   `json:"id"`
			Family      *proof.Family            `json:"family"`
			Certificate *proof.FamilyCertificate `json:"certificate"`
		}{plan.Job, family, plan.Bound.Rooms.Certificate})
	}}})
}

// checkSite recounts a plan against the job of a site file, with what was measured anew.
func checkSite(ctx context.Context, e *env, happened, planPath, language string, all bool) error {
	if happened == "-" && planPath == "-" {
		return usagef("check: only one of the site file and the plan can come from standard input")
	}
	src, err := newSiteFlags().begun(e, "check", []string{happened})
	if err != nil {
		return err
	}
	plan, err := readPlan(planPath, e.stdin)
	if err != nil {
		return err
	}
	return reportCheck(ctx, e.stdout, speak(language, src.amended), src.amended, plan, all)
}

// readPlan reads a plan file.
func readPlan(path string, stdin io.Reader) (*cutopt.Plan, error) {
	if path != "-" {
		file, err := os.Open(path)
		if err != nil {
			return nil, notOpened("the plan", path, err)
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
func reportCheck(
	ctx context.Context, w io.Writer, s *words.Speech, job *cutopt.Job, plan *cutopt.Plan, all bool,
) error {
	var b strings.Builder
	p, width := paletteFor(w), reportWidth(w)
	para := func(text string) {
		b.WriteString(strings.Join(wrap(text, width, "  "), "\n") + "\n")
	}
	violations, err := check.PlanContext(ctx, job, plan)
	if err != nil {
		return usagef("%s", s.Say("check.stopped"))
	}
	pieces, runs := 0, 0
	for _, floor := range plan.Floors {
		for _, row := range floor.Rows {
			runs += len(row.Runs)
			for _, run := range row.Runs {
				pieces += len(run.Pieces)
			}
		}
	}
	para(s.Say("check.recounted", "pieces", s.Count("check.pieces", pieces),
		"planks", s.Count("things.plank", len(plan.Planks)), "runs", s.Count("check.runs", runs),
		"floors", s.Count("check.floors", len(plan.Floors))))
	if len(violations) == 0 {
		para(s.Say("check.kept"))
	} else {
		b.WriteString(p.bold(s.Count("check.violations", len(violations))) + "\n")
		shown := violations
		if !all {
			shown = shown[:min(len(shown), violationsShown)]
		}
		for i := range shown {
			para("- " + clean(s.Violation(&shown[i])))
		}
		if n := len(violations) - len(shown); n > 0 {
			para(s.Say("check.more", "n", strconv.Itoa(n)))
		}
	}
	sound := checkProof(ctx, para, s, job, plan)
	if ctx.Err() != nil {
		return usagef("%s", s.Say("check.stopped"))
	}
	if _, err := io.WriteString(readable(w), b.String()); err != nil {
		return err
	}
	if len(violations) > 0 || !sound {
		return &silentError{code: exitViolations}
	}
	return nil
}

// checkProof verifies the plan's certificate and reports whether its claim holds.
func checkProof(ctx context.Context, para func(string), s *words.Speech, job *cutopt.Job, plan *cutopt.Plan) bool {
	if site := plan.Site; site != nil && site.Needed == 0 && plan.Bound.Certificate == nil {
		para(s.Say("site.no-proof"))
		return site.Least == 0
	}
	planks := s.Count("things.plank", plan.Bound.Planks)
	if plan.Bound.Certificate == nil {
		para(s.Say("check.no-proof", "planks", planks))
		return plan.Bound.Planks == 0 && !plan.Bound.Proven
	}
	if err := check.ProofContext(ctx, job, plan); err != nil {
		para(s.Say("check.unsound", "why", clean(err.Error())))
		return false
	}
	para(s.Say("check.sound", "planks", planks, "boxes", s.Count("things.box", plan.Bound.Boxes)))
	if of := plan.Bound.Rooms; of != nil {
		ways, least := 0, false
		floors := job.Fields(plan.Breaks)
		for i, firsts := range of.Firsts {
			rows := &job.Rooms[floors[i].Rooms[0].Number].Rows
			least = least || len(firsts) == 0 && (rows.FirstRow == 0 || rows.Direction == cutopt.DirectionFree)
			ways += max(1, len(firsts))
		}
		if least {
			para(s.Say("check.sound-least"))
		} else {
			para(s.Count("check.sound-rooms", ways))
		}
	}
	if why, err := reasons(s, job, plan); err == nil { // else a violation says so
		for _, text := range why {
			para(text)
		}
	}
	return true
}
