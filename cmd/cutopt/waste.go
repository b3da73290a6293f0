package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/risk"
	"plank.example/cutopt/solve"
)

// runWaste draws up the account of a job that is done.
func runWaste(ctx context.Context, e *env, args []string) error {
	jf := newJobFlags()
	set := pflag.NewFlagSet("waste", pflag.ContinueOnError)
	set.SortFlags = false
	var used risk.Used
	set.IntVar(&used.Boxes, "bought", 0, "`boxes` bought")
	set.IntVar(&used.Lost, "lost", 0, "`planks` that were culled or miscut")
	set.IntVar(&used.Left, "left", 0, "whole `planks` left over, those kept for repairs too")
	spoken := languageFlag(set, "what is printed")
	rest, done, err := parseFlags(e, "waste", args, flagGroup{"What it took:", set}, flagGroup{"The job:", jf.set})
	if err != nil || done {
		return err
	}
	for _, name := range []string{"bought", "lost", "left"} {
		if !set.Changed(name) {
			return usagef("waste needs --%s: cutopt waste JOB --bought 10 --lost 2 --left 5", name)
		}
	}
	path, planPath, err := jobAndPlan(jf, "waste", rest)
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
	// Any plan has the areas of the floor.
	plan, err := planFor(ctx, e, speak(language, src.job), src, planPath, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		return err
	}
	account, err := risk.AccountOf(src.job, plan, used)
	var bad *cutopt.FieldError
	if errors.As(err, &bad) {
		return usagef("--%w", err)
	}
	if err != nil {
		return err
	}
	return newReport(e.stdout, language, src.job, plan).account(account, planPath != "")
}

// account prints what a job took, and what the next may assume; beside the planks of its plan where that was given.
func (r *report) account(a *risk.Account, planned bool) error {
	s := r.speech
	per := s.Count("things.plank", r.plan.Order.PlanksPerBox)
	for _, line := range wrap(s.Count("account.bought", a.Boxes, "planks", per), r.width, "  ") {
		fmt.Fprintln(r.w, r.palette.bold(line))
	}
	if r.plan.Job != "" {
		fmt.Fprintln(r.w, strings.Join(wrap(clean(r.plan.Job), r.width, ""), "\n"))
	}
	text := s.Say("account.opened", "opened", s.Count("things.plank", a.Opened), "left", some(s, "plank", a.Left),
		"lost", some(s, "plank", a.Lost))
	if planned {
		text += " " + s.Say("account.planned", "planks", s.Count("things.plank", r.plan.Order.Planks))
	}
	r.para(text)
	r.meanings([3]float64{a.AddedToFloor, a.ShareOfPurchase, a.Afterwards}, a.Bought, a.Net)
	r.heading(s.Say("account.loss"))
	loss := trimZeros(math.Round(10*a.Loss) / 10)
	r.para(s.Say("account.next", "loss", s.Percent(a.Loss), "plain", loss))
	r.para(s.Say("account.interval", "low", s.Percent(a.LossLow), "high", s.Percent(a.LossHigh)))
	return r.w.Flush()
}
