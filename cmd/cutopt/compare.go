package main

import (
	"context"
	"errors"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

func runCompare(ctx context.Context, e *env, args []string) error {
	jf, sf := newJobFlags(), newSolveFlags()
	sf.set.MarkHidden("fewest")
	sf.set.MarkHidden("relax")
	sf.set.Lookup("effort").Usage = "`steps` to spend on each line: quick, normal or thorough (quick)"
	rest, done, err := parseFlags(e, "compare", args, flagGroup{"The job:", jf.set}, flagGroup{"The search:", sf.set})
	if err != nil || done {
		return err
	}
	for _, name := range []string{"fewest", "relax"} {
		if sf.set.Changed(name) {
			return usagef("compare always looks for the fewest planks and keeps the rules: --%s is for plan", name)
		}
	}
	path, err := jobPath(jf, "compare", rest)
	if err != nil {
		return err
	}
	opt, err := sf.options()
	if err != nil {
		return err
	}
	if !sf.set.Changed("effort") {
		opt.Effort = solve.EffortQuick
	}
	src, err := jf.job(e, path)
	if err != nil {
		return err
	}
	all, err := solve.Compare(ctx, src.job, opt)
	plans, all := finished(all)
	if err != nil && (ctx.Err() == nil || plans == 0) {
		return solveError(ctx, src, err)
	}
	c := newComparison(newReport(e.stdout, "en", src.job, nil), all)
	if err != nil {
		c.short = "Interrupted: these are the lines that were planned so far."
	}
	return c.print()
}

// finished drops the variants that an interrupt came before, and counts those with a plan.
func finished(all []solve.Variant) (plans int, rest []solve.Variant) {
	for _, v := range all {
		if errors.Is(v.Err, context.Canceled) || errors.Is(v.Err, context.DeadlineExceeded) {
			continue
		}
		if rest = append(rest, v); v.Result != nil {
			plans++
		}
	}
	return plans, rest
}

// A comparison prints variants of a job.
type comparison struct {
	*report
	all   []solve.Variant
	short string // says below it what was left undone
}

func newComparison(r *report, all []solve.Variant) *comparison {
	return &comparison{report: r, all: all}
}

func (c *comparison) print() error {
	c.rowsOf("The job and its floor", solve.AspectNone, solve.AspectDirection, solve.AspectStart)
	c.rowsOf("Other first rows", solve.AspectFirstRow)
	c.rowsOf("Other rules", solve.AspectStagger, solve.AspectMinPiece)
	c.rowsOf("Other products", solve.AspectProduct)
	fmt.Fprintln(c.w)
	c.para(
		"* the best that keeps the job's rules: the least money where every box has a price, else the fewest boxes, then " +
			"planks, then cuts. Waste is what is bought on top of the floor area. Edge is the narrowest first or last row; In " +
			"line counts joints in line two rows apart. Each line has the fewest planks that its effort finds; \"plan\" looks " +
			"longer.",
	)
	c.costs()
	if c.short != "" {
		fmt.Fprintln(c.w)
		c.para(c.short)
	}
	return c.w.Flush()
}

// rowsOf prints the variants of some aspects as a table, or one below the other on a page too narrow for it.
func (c *comparison) rowsOf(title string, aspects ...solve.Aspect) {
	t := &table{columns: []column{
		{head: title, fold: true},
		{head: "Boxes", right: true},
		{head: "Planks", right: true},
		{head: "Waste", right: true},
		{head: "Cuts", right: true},
		{head: "Edge", right: true},
		{head: "In line", right: true},
	}}
	var cannot []*solve.Variant
	for i := range c.all {
		v := &c.all[i]
		if !has(aspects, v.Aspect) {
			continue
		}
		if v.Result == nil {
			cannot = append(cannot, v)
			continue
		}
		p := v.Result.Plan
		t.rows = append(t.rows, []string{
			nameOf(v), fmt.Sprint(p.Order.Boxes), fmt.Sprint(p.Order.Planks), fmt.Sprintf("%.1f %%", p.Waste.AddedToFloor),
			fmt.Sprint(p.Quality.Crosscuts), edge(p).Compact(c.job.Unit, c.grid), fmt.Sprint(p.Quality.HJoints),
		})
	}
	if len(t.rows)+len(cannot) == 0 {
		return
	}
	if aspects[0] != solve.AspectNone {
		fmt.Fprintln(c.w)
	}
	if ok, _ := t.write(c.w, c.width, c.palette); !ok {
		c.heading(title)
		for _, row := range t.rows {
			c.item(fmt.Sprintf("%s: boxes %s, planks %s, waste %s, cuts %s, edge %s, in line %s", row[0], row[1], row[2], row[3],
				row[4], row[5], row[6]))
		}
	}
	for _, v := range cannot {
		c.para(nameOf(v) + " cannot be laid: " + whyNot(v.Err))
	}
}

// whyNot says in a few words why a variant cannot be laid; plan tells the rest.
func whyNot(err error) string {
	var no *solve.InfeasibleError
	if !errors.As(err, &no) {
		return err.Error()
	}
	if len(no.Rows) == 0 {
		return no.Rule + " clashes"
	}
	return fmt.Sprintf("%s clashes in %s", no.Rule, no.Rows[len(no.Rows)-1])
}

func has(all []solve.Aspect, a solve.Aspect) bool {
	for _, x := range all {
		if x == a {
			return true
		}
	}
	return false
}

// nameOf names a variant, with a star where it is the best.
func nameOf(v *solve.Variant) string {
	name := clean(v.Change)
	if name == "" {
		name = "as it is"
	}
	if v.Best {
		name += " *"
	}
	return name
}

// edge returns the width of the narrowest first or last row of any room.
func edge(p *cutopt.Plan) measure.Length {
	least := measure.Length(0)
	for i := range p.Floors {
		rows := p.Floors[i].Rows
		for _, w := range []measure.Length{rows[0].Width, rows[len(rows)-1].Width} {
			if least == 0 || w < least {
				least = w
			}
		}
	}
	return least
}

// costs says what each rule costs against the job as it is.
func (c *comparison) costs() {
	base := c.all[0].Result
	if base == nil || c.all[0].Aspect != solve.AspectNone { // the job as it is cannot be laid, or was not reached
		return
	}
	var lines []string
	for i := range c.all {
		v := &c.all[i]
		if v.Aspect != solve.AspectStagger && v.Aspect != solve.AspectMinPiece || v.Result == nil {
			continue
		}
		o, b := v.Result.Plan.Order, base.Plan.Order
		lines = append(
			lines,
			fmt.Sprintf("%s instead of %s %s.", v.Change, v.Instead, difference(o.Planks-b.Planks, o.Boxes-b.Boxes)),
		)
	}
	if len(lines) == 0 {
		return
	}
	c.heading("What the rules cost")
	for _, line := range lines {
		c.item(line)
	}
}

// difference says what so many planks and boxes more are.
func difference(planks, boxes int) string {
	some := func(n int, one, many string) string {
		if n == 0 {
			return "no " + one
		}
		return count(n, one, many)
	}
	switch {
	case planks == 0 && boxes == 0:
		return "costs nothing and saves nothing"
	case planks >= 0 && boxes >= 0:
		return fmt.Sprintf("costs %s and %s", some(planks, "plank", "planks"), some(boxes, "box", "boxes"))
	case planks <= 0 && boxes <= 0:
		return fmt.Sprintf("saves %s and %s", some(-planks, "plank", "planks"), some(-boxes, "box", "boxes"))
	case planks > 0:
		return fmt.Sprintf("costs %s and saves %s", some(planks, "plank", "planks"), some(-boxes, "box", "boxes"))
	}
	return fmt.Sprintf("saves %s and costs %s", some(-planks, "plank", "planks"), some(boxes, "box", "boxes"))
}
