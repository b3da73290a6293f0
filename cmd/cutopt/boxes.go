package main

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/risk"
	"plank.example/cutopt/solve"
)

// riskFlags say how often the floor is laid to count what planks that break mean. How many break is a rule of the job.
type riskFlags struct {
	set   *pflag.FlagSet
	times int
}

func newRiskFlags() *riskFlags {
	f := &riskFlags{set: pflag.NewFlagSet("risk", pflag.ContinueOnError)}
	usual := risk.BreakageOf(new(cutopt.Job)).Times
	f.set.IntVar(&f.times, "risk", 0, fmt.Sprintf(
		"lay the floor so many `times` with breakage, planning on from what is left, to count the chance of running short; "+
			"alone %d times (0: reckon it plainly)",
		usual,
	))
	f.set.Lookup("risk").NoOptDefVal = fmt.Sprint(usual)
	return f
}

// apart mends "--risk 300", which leaves 300 among the arguments.
func (f *riskFlags) apart(args []string) error {
	for _, arg := range args {
		if _, err := strconv.Atoi(arg); err == nil && f.set.Changed("risk") {
			return usagef("%q is no job file: to lay the floor so many times write --risk=%s", arg, arg)
		}
	}
	return nil
}

// breakage returns what the flags ask for, of a job.
func (f *riskFlags) breakage(job *cutopt.Job, opt *solve.Options) *risk.Breakage {
	b := risk.BreakageOf(job)
	b.Times, b.Seed, b.Workers = f.times, opt.Seed, opt.Workers
	return &b
}

// check refuses numbers of times out of range.
func (f *riskFlags) check() error {
	if f.times < 0 || f.times > risk.MaxLayings {
		return usagef("--risk=%d: the floor is laid 0 to 10,000,000 times", f.times)
	}
	return nil
}

// verdict weighs the numbers of boxes. A simulation that is interrupted leaves it at the plain chance, and a note says
// so.
func verdict(
	ctx context.Context,
	job *cutopt.Job,
	plan *cutopt.Plan,
	b *risk.Breakage,
) (v *cutopt.Verdict, short string, err error) {
	v, err = risk.Assess(ctx, job, plan, b)
	if ctx.Err() != nil {
		plain := *b
		plain.Times = 0
		v, err = risk.Assess(context.WithoutCancel(ctx), job, plan, &plain)
		if b.Times > 0 {
			short = "Interrupted before the floor was laid often enough: the chances of running short are reckoned plainly."
		}
	}
	return v, short, err
}

// boxes prints what each number of boxes means, and which to buy.
func (r *report) boxes() error {
	v := r.verdict
	if v == nil {
		return nil
	}
	r.heading(fmt.Sprintf("Will fewer boxes do, if %s of the planks break?", share(v.Loss)))
	t := table{columns: []column{
		{head: "Boxes", right: true},
		{head: "Enough"},
		{head: "Left", right: true},
		{head: "Added", right: true},
		{head: "Share", right: true},
	}}
	price, simulated := r.plan.Order.Price > 0, v.Times > 0
	if price {
		t.columns = append(t.columns, column{head: "Price", right: true})
	}
	t.columns = append(t.columns, column{head: "Short", right: true})
	if simulated {
		t.columns = append(t.columns, column{head: "Interval", right: true}, column{head: "Plain", right: true})
	}
	last := -1
	for _, c := range v.Telling(r.plan) {
		if last >= 0 && c.Boxes > last+1 {
			t.rows = append(t.rows, append([]string{"…"}, make([]string, len(t.columns)-1)...))
		}
		last = c.Boxes
		row := []string{
			fmt.Sprint(c.Boxes), map[cutopt.Enough]string{
				cutopt.EnoughNo: "proven too few", cutopt.EnoughOpen: "not known", cutopt.EnoughYes: "yes",
			}[c.Enough], fmt.Sprint(c.Left), fmt.Sprintf("%.1f %%", c.AddedToFloor), fmt.Sprintf("%.1f %%", c.ShareOfPurchase),
		}
		if price {
			row = append(row, money(c.Price))
		}
		switch {
		case c.Enough != cutopt.EnoughYes:
			row = append(row, make([]string, len(t.columns)-len(row))...)
		case simulated:
			row = append(
				row,
				chance(c.Risk.Simulated),
				fmt.Sprintf("%s to %s", chance(c.Risk.Low), chance(c.Risk.High)),
				chance(c.Risk.Plain),
			)
		default:
			row = append(row, chance(c.Risk.Plain))
		}
		t.rows = append(t.rows, row)
	}
	ok, err := t.write(r.w, r.width, r.palette)
	if err != nil {
		return err
	}
	if !ok {
		for _, row := range t.rows {
			var parts []string
			for i, cell := range row {
				if cell != "" {
					parts = append(parts, strings.ToLower(t.columns[i].head)+" "+cell)
				}
			}
			r.item(strings.Join(parts, ", "))
		}
	}
	r.para(r.advice())
	beyond := ""
	if kept := r.plan.Order.Kept; kept > 0 {
		beyond = fmt.Sprintf(", beyond the %d kept for repairs", kept)
	}
	r.para(
		fmt.Sprintf(
			"Left: whole planks left if none breaks"+beyond+". Added, share: the first two meanings of waste below; the third, "+
				"%.1f %%, is the same for any number of boxes.",
			r.plan.Waste.Afterwards,
		),
	)
	return nil
}

// advice says which number of boxes to buy, and on what that rests.
func (r *report) advice() string {
	v := r.verdict
	need := v.Recommended
	for _, c := range v.Counts {
		if c.Enough == cutopt.EnoughYes {
			need = c.Boxes
			break
		}
	}
	text := fmt.Sprintf("%s %s enough if nothing breaks", count(need, "box", "boxes"), plural(need, "is", "are"))
	if v.Recommended > need {
		text += fmt.Sprintf(". Buy %d: the fewest with", v.Recommended)
	} else {
		text += ", and if planks break have"
	}
	text += fmt.Sprintf(" a chance of running short of %s or less", share(v.Limit))
	if v.Times == 0 {
		return text + ", reckoned as if every lost plank cost a whole one. --risk lays the floor with breakage instead, " +
			"and plans on from what is left. How many planks break is an assumption: --loss sets it."
	}
	text += fmt.Sprintf(
		", counted by laying the floor %s with breakage and planning on from what was left.",
		count(v.Times, "time", "times"),
	)
	if v.Close {
		text += fmt.Sprintf(" It is close: %s lies within an interval.", share(v.Limit))
		if more := min(10*v.Times, risk.MaxLayings); more > v.Times {
			text += fmt.Sprintf(" --risk=%d tells more.", more)
		}
	}
	for _, c := range v.Counts {
		if c.Enough == cutopt.EnoughYes && c.Risk.Times < v.Times {
			text += " Boxes that were clearly too few or too risky early on were left at that."
			break
		}
	}
	return text + " An interval holds in 95 of 100 counts; plain is the chance if every lost plank costs a whole one. " +
		"How many planks break is an assumption: --loss sets it."
}

// share writes a part of one in percent, as it was given.
func share(p float64) string { return strconv.FormatFloat(100*p, 'g', 6, 64) + " %" }

// chance writes a probability in percent, with as many figures as tell something.
func chance(p float64) string {
	switch percent := 100 * p; {
	case percent == 0 || percent == 100:
		return fmt.Sprintf("%.0f %%", percent)
	case percent < 0.1:
		return "< 0.1 %"
	case percent > 99.9:
		return "> 99.9 %"
	case percent < 10 || percent > 99:
		return fmt.Sprintf("%.1f %%", percent)
	default:
		return fmt.Sprintf("%.0f %%", math.Round(percent))
	}
}
