package main

import (
	"context"
	"fmt"
	"math"
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
)

// riskFlags say how many planks break, and how often the floor is laid to count what that means.
type riskFlags struct {
	set         *pflag.FlagSet
	loss, limit float64 // percent
	runs        int
}

func newRiskFlags() *riskFlags {
	f := &riskFlags{set: pflag.NewFlagSet("risk", pflag.ContinueOnError)}
	b := cutopt.DefaultBreakage()
	s := f.set
	s.SortFlags = false
	s.Float64Var(&f.loss, "loss", 100*b.Loss, "`percent` of the planks that are culled or miscut: an assumption (2)")
	s.Float64Var(&f.limit, "risk-limit", 100*b.Limit, "`percent`: the chance of running short that you accept (2)")
	s.IntVar(&f.runs, "risk", 0, fmt.Sprintf(
		"lay the floor so many `times` with breakage, planning on from what is left, to count the chance of running short; alone %d times (0: reckon it plainly)", b.Runs))
	s.Lookup("risk").NoOptDefVal = fmt.Sprint(b.Runs)
	return f
}

// breakage returns what the flags ask for.
func (f *riskFlags) breakage(seed uint64, workers int) (*cutopt.Breakage, error) {
	switch {
	case !(f.loss >= 0 && f.loss <= 50):
		return nil, usagef("--loss %g: 0 to 50 percent of the planks are lost", f.loss)
	case !(f.limit > 0 && f.limit < 100):
		return nil, usagef("--risk-limit %g: a percentage above 0 and below 100", f.limit)
	case f.runs < 0 || f.runs > 10_000_000:
		return nil, usagef("--risk %d: the floor is laid 0 to 10,000,000 times", f.runs)
	}
	return &cutopt.Breakage{Loss: f.loss / 100, Limit: f.limit / 100, Runs: f.runs, Seed: seed, Workers: workers}, nil
}

// verdict weighs the numbers of boxes. An interrupted simulation leaves it at the plain binomial.
func verdict(ctx context.Context, job *cutopt.Job, plan *cutopt.Plan, b *cutopt.Breakage) (*cutopt.Verdict, error) {
	v, err := cutopt.Risk(ctx, job, plan, b)
	if ctx.Err() != nil {
		plain := *b
		plain.Runs = 0
		return cutopt.Risk(context.WithoutCancel(ctx), job, plan, &plain)
	}
	return v, err
}

// boxes prints what each number of boxes means, and which to buy.
func (r *report) boxes() error {
	v := r.verdict
	if v == nil {
		return nil
	}
	b := &v.Breakage
	r.heading(fmt.Sprintf("Will fewer boxes do, if %s %% of the planks break?", trimZeros(100*b.Loss)))
	t := table{columns: []column{
		{head: "Boxes", right: true},
		{head: "Enough"},
		{head: "Left", right: true},
		{head: "Added", right: true},
		{head: "Share", right: true},
	}}
	price, simulated := r.plan.Order.Price > 0, b.Runs > 0
	if price {
		t.columns = append(t.columns, column{head: "Price", right: true})
	}
	t.columns = append(t.columns, column{head: "Short", right: true})
	if simulated {
		t.columns = append(t.columns, column{head: "Interval", right: true}, column{head: "Plain", right: true})
	}
	for _, c := range v.Telling(r.plan) {
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
			row = append(row, chance(c.Risk.Simulated), fmt.Sprintf("%s to %s", chance(c.Risk.Low), chance(c.Risk.High)), chance(c.Risk.Plain))
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
	among := ""
	if kept := r.plan.Order.Kept; kept > 0 {
		among = fmt.Sprintf(", the %d kept for repairs among them", kept)
	}
	r.para(fmt.Sprintf("Left: whole planks left if none breaks"+among+". Added, share: the first two meanings of waste below; the third, "+
		"%.1f %%, is the same for any number of boxes.", r.plan.Waste.Afterwards))
	return nil
}

// advice says which number of boxes to buy, and on what that rests.
func (r *report) advice() string {
	v := r.verdict
	b := &v.Breakage
	need, limit := r.plan.Order.Boxes, trimZeros(100*b.Limit)
	text := fmt.Sprintf("The %s will do: short in at most %s of 100 such jobs", count(need, "box", "boxes"), limit)
	if v.Recommended > need {
		text = fmt.Sprintf("The floor takes %s if nothing breaks. Buy %d: the fewest that run short in at most %s of 100 such jobs",
			count(need, "box", "boxes"), v.Recommended, limit)
	}
	if b.Runs == 0 {
		text += ", if every lost plank costs a whole one. --risk lays the floor with breakage instead, and plans on from what is left."
	} else {
		text += fmt.Sprintf(". Counted by laying the floor %d times with breakage and planning on from what was left; the interval "+
			"holds in 95 of 100 counts, and plain is the chance if every lost plank costs a whole one.", b.Runs)
	}
	if v.Close {
		text += fmt.Sprintf(" It is close: the limit lies within the interval. --risk=%d tells more.", 10*b.Runs)
	}
	return text + " How many planks break is an assumption: --loss sets it."
}

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
