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
		"lay the floor so many `times` with breakage, planning on from what is left, to count the chance of running "+
			"short; alone %d times (0: reckon it plainly)",
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

// verdict weighs the numbers of boxes. A simulation that is interrupted leaves it at the plain chance, and is reported
// as short.
func verdict(
	ctx context.Context,
	job *cutopt.Job,
	plan *cutopt.Plan,
	b *risk.Breakage,
) (v *cutopt.Verdict, short bool, err error) {
	v, err = risk.Assess(ctx, job, plan, b)
	if ctx.Err() != nil {
		plain := *b
		plain.Times = 0
		v, err = risk.Assess(context.WithoutCancel(ctx), job, plan, &plain)
		short = b.Times > 0
	}
	return v, short, err
}

// boxes prints what each number of boxes means, and which to buy.
func (r *report) boxes() error {
	v, s := r.verdict, r.speech
	if v == nil {
		return nil
	}
	r.heading(s.Say("report.fewer-boxes", "loss", s.Share(v.Loss)))
	t := r.boxTable()
	ok, err := t.write(r.w, r.width, r.palette)
	if err != nil {
		return err
	}
	if !ok {
		for _, row := range t.rows {
			var parts []string
			for i, cell := range row {
				if cell != "" {
					parts = append(parts, r.inLine(t.columns[i].head)+" "+cell)
				}
			}
			r.item(strings.Join(parts, ", "))
		}
	}
	r.para(r.advice())
	beyond := ""
	if kept := r.plan.Order.Kept; kept > 0 {
		beyond = s.Say("report.beyond", "n", strconv.Itoa(kept))
	}
	if floors := s.Floors(v, &r.plan.Bound); floors != "" {
		r.para(floors)
	}
	if told := v.Telling(r.plan); len(told) > 0 && told[0].Enough == cutopt.EnoughNo {
		if r.plan.Bound.Rooms != nil {
			r.para(s.Say("report.no-means-rooms", "whatever", s.Whatever(r.job)))
		} else {
			r.para(s.Say("report.no-means"))
		}
	}
	r.para(s.Say("report.left-means", "beyond", beyond, "percent", s.Percent(r.plan.Waste.Afterwards)))
	return nil
}

// inLine writes a heading of a table within a line.
func (r *report) inLine(head string) string {
	if r.speech.Say("nouns") == "capital" {
		return head
	}
	return strings.ToLower(head)
}

// boxTable has a row for each number of boxes worth telling.
func (r *report) boxTable() *table {
	v, s := r.verdict, r.speech
	t := &table{columns: []column{
		{head: s.Say("risk.boxes"), right: true},
		{head: s.Say("risk.verdict")},
		{head: s.Say("report.left"), right: true},
		{head: s.Say("risk.added"), right: true},
		{head: s.Say("risk.share"), right: true},
	}}
	price, simulated := r.plan.Order.Price > 0, v.Times > 0
	if price {
		t.columns = append(t.columns, column{head: s.Say("report.price"), right: true})
	}
	t.columns = append(t.columns, column{head: s.Say("report.short"), right: true})
	if simulated {
		t.columns = append(t.columns, column{head: s.Say("report.interval"), right: true},
			column{head: s.Say("report.plain"), right: true})
	}
	enough := map[cutopt.Enough]string{
		cutopt.EnoughNo: s.Say("report.no"), cutopt.EnoughOpen: s.Say("risk.open"), cutopt.EnoughYes: s.Say("risk.yes"),
	}
	last := -1
	for _, c := range v.Telling(r.plan) {
		if last >= 0 && c.Boxes > last+1 {
			t.rows = append(t.rows, append([]string{"…"}, make([]string, len(t.columns)-1)...))
		}
		last = c.Boxes
		row := []string{
			fmt.Sprint(c.Boxes), enough[c.Enough], fmt.Sprint(c.Left),
			s.Percent(c.AddedToFloor), s.Percent(c.ShareOfPurchase),
		}
		if price {
			row = append(row, s.Decimal(money(c.Price)))
		}
		switch {
		case c.Enough != cutopt.EnoughYes:
			row = append(row, make([]string, len(t.columns)-len(row))...)
		case simulated:
			between := s.Say("report.from-to", "low", r.chance(c.Risk.Low), "high", r.chance(c.Risk.High))
			row = append(row, r.chance(c.Risk.Simulated), between, r.chance(c.Risk.Plain))
		default:
			row = append(row, r.chance(c.Risk.Plain))
		}
		t.rows = append(t.rows, row)
	}
	return t
}

// advice says which number of boxes to buy, and on what that rests.
func (r *report) advice() string {
	v, s := r.verdict, r.speech
	need := v.Recommended
	for _, c := range v.Counts {
		if c.Enough == cutopt.EnoughYes {
			need = c.Boxes
			break
		}
	}
	limit := s.Share(v.Limit)
	text := s.Count("report.enough", need)
	if v.Recommended > need {
		text = s.Say("report.fewest", "enough", text, "n", strconv.Itoa(v.Recommended), "limit", limit)
	} else {
		text = s.Say("report.if-break", "enough", text, "limit", limit)
	}
	if v.Times == 0 {
		return s.Say("report.reckoned", "advice", text)
	}
	parts := []string{s.Count("report.counted", v.Times, "advice", text)}
	if v.Close {
		parts = append(parts, s.Say("report.close", "limit", limit))
		if more := min(10*v.Times, risk.MaxLayings); more > v.Times {
			parts = append(parts, s.Say("report.more", "n", strconv.Itoa(more)))
		}
	}
	for _, c := range v.Counts {
		if c.Enough == cutopt.EnoughYes && c.Risk.Times < v.Times {
			parts = append(parts, s.Say("report.left-at"))
			break
		}
	}
	return strings.Join(append(parts, s.Say("report.intervals")), " ")
}

// chance writes a probability in percent, with as many figures as tell something.
func (r *report) chance(p float64) string { return r.speech.Decimal(chanceBeside(p, r.verdict.Limit)) }

// chanceBeside writes a probability so that it reads other than a limit that it is not.
func chanceBeside(p, limit float64) string {
	text := chance(p)
	for digits := 2; digits <= 6 && p != limit && text == chance(limit); digits++ {
		if finer := fmt.Sprintf("%.*f %%", digits, 100*p); finer != fmt.Sprintf("%.*f %%", digits, 100*limit) {
			return finer
		}
	}
	return text
}

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
