package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

func runCompare(ctx context.Context, e *env, args []string) error {
	jf, sf := newJobFlags(), newSolveFlags()
	set := pflag.NewFlagSet("compare", pflag.ContinueOnError)
	spoken := languageFlag(set, "what is printed")
	sf.set.MarkHidden("fewest")
	sf.set.MarkHidden("relax")
	sf.set.Lookup("effort").Usage = "`steps` to spend on each line: quick, normal or thorough (quick)"
	rest, done, err := parseFlags(e, "compare", args, flagGroup{"The job:", jf.set}, flagGroup{"The search:", sf.set},
		flagGroup{"What to print:", set})
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
	language, err := spoken()
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
		return solveError(ctx, speak(language, src.job), src, err)
	}
	c := newComparison(newReport(e.stdout, language, src.job, nil), all)
	c.short = err != nil
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
	short bool // an interrupt left lines unplanned
}

func newComparison(r *report, all []solve.Variant) *comparison {
	return &comparison{report: r, all: all}
}

func (c *comparison) print() error {
	c.rowsOf(c.speech.Say("compare.job"), solve.AspectNone, solve.AspectDirection, solve.AspectStart)
	c.rowsOf(c.speech.Say("compare.first-rows"), solve.AspectFirstRow)
	c.rowsOf(c.speech.Say("compare.rules"), solve.AspectStagger, solve.AspectMinPiece)
	c.rowsOf(c.speech.Say("compare.products"), solve.AspectProduct)
	fmt.Fprintln(c.w)
	c.para(c.speech.Say("compare.legend"))
	c.costs()
	if c.short {
		fmt.Fprintln(c.w)
		c.para(c.speech.Say("compare.interrupted"))
	}
	return c.w.Flush()
}

// rowsOf prints the variants of some aspects as a table, or one below the other on a page too narrow for it.
func (c *comparison) rowsOf(title string, aspects ...solve.Aspect) {
	s := c.speech
	t := &table{columns: []column{
		{head: title, fold: true},
		{head: s.Say("risk.boxes"), right: true},
		{head: s.Say("compare.planks"), right: true},
		{head: s.Say("compare.waste"), right: true},
		{head: s.Say("compare.cuts"), right: true},
		{head: s.Say("compare.edge"), right: true},
		{head: s.Say("compare.in-line"), right: true},
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
			c.nameOf(v), fmt.Sprint(p.Order.Boxes), fmt.Sprint(p.Order.Planks), s.Percent(p.Waste.AddedToFloor),
			fmt.Sprint(p.Quality.Crosscuts), s.Decimal(edge(p).Compact(c.job.Unit, c.grid)),
			fmt.Sprint(p.Quality.HJoints),
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
			var parts []string
			for i, cell := range row[1:] {
				parts = append(parts, c.inLine(t.columns[i+1].head)+" "+cell)
			}
			c.item(row[0] + ": " + strings.Join(parts, ", "))
		}
	}
	for _, v := range cannot {
		c.para(s.Say("compare.cannot", "name", c.nameOf(v), "why", c.whyNot(v.Err)))
	}
}

// whyNot says in a few words why a variant cannot be laid; plan tells the rest.
func (c *comparison) whyNot(err error) string {
	var no *solve.InfeasibleError
	if !errors.As(err, &no) {
		return err.Error()
	}
	if len(no.Rows) == 0 {
		return c.speech.Say("refused.clash-anywhere", "rule", no.Rule)
	}
	return c.speech.Say("refused.clash", "rule", no.Rule, "row", c.speech.Row(no.Rows[len(no.Rows)-1]))
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
func (c *comparison) nameOf(v *solve.Variant) string {
	if v.Best {
		return c.change(v) + " *"
	}
	return c.change(v)
}

// change says what a variant changes in the job.
func (c *comparison) change(v *solve.Variant) string {
	s, rows := c.speech, v.Job.Rooms[0].Rows
	switch v.Aspect {
	case solve.AspectDirection:
		return s.Say("compare.rows." + rows.Direction.String())
	case solve.AspectStart:
		if rows.Start != c.job.Rooms[0].Rows.Start {
			return s.Say("compare.other-side")
		}
		return s.Say("compare.other-end")
	case solve.AspectFirstRow:
		return s.Say("compare.first-row", "width", s.Exact(rows.FirstRow))
	case solve.AspectStagger:
		return s.Say("compare.stagger", "length", c.ruled(v.Job.Rules.Stagger))
	case solve.AspectMinPiece:
		return s.Say("compare.min-piece", "length", c.ruled(v.Job.Rules.MinPiece))
	case solve.AspectProduct:
		if v.Job.Plank.Name != "" {
			return clean(v.Job.Plank.Name)
		}
		return s.Say("compare.product", "n", strconv.Itoa(1+slices.IndexFunc(c.job.Products,
			func(p cutopt.Product) bool {
				return p.Plank == v.Job.Plank && p.Box == v.Job.Box
			})))
	}
	return s.Say("compare.as-it-is")
}

// ruled prints a length that a rule names.
func (c *comparison) ruled(l measure.Length) string {
	return c.speech.Decimal(l.Format(c.job.Unit, c.job.Rules.Grid))
}

// edge returns the width of the narrowest edge row of any room: where the plan tells of one that is narrower than asked
// it is that, along the walls; else of the first and the last row.
func edge(p *cutopt.Plan) measure.Length {
	least := measure.Length(0)
	for i := range p.Floors {
		rows := p.Floors[i].Rows
		widths := []measure.Length{rows[0].Width, rows[len(rows)-1].Width}
		for _, f := range p.Floors[i].Facts {
			if f.Kind == cutopt.FactEdgeAsked || f.Kind == cutopt.FactEdgeForced {
				widths = []measure.Length{f.First, f.Last}
			}
		}
		for _, w := range widths {
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
		before := c.job.Rules.Stagger
		if v.Aspect == solve.AspectMinPiece {
			before = c.job.Rules.MinPiece
		}
		o, b := v.Result.Plan.Order, base.Plan.Order
		what := c.speech.Say("compare.instead", "change", c.change(v), "before", c.ruled(before))
		lines = append(lines, difference(c.speech, what, o.Planks-b.Planks, o.Boxes-b.Boxes))
	}
	if len(lines) == 0 {
		return
	}
	c.heading(c.speech.Say("compare.costs"))
	for _, line := range lines {
		c.item(line)
	}
}

// difference says that a change costs so many planks and boxes.
func difference(s *words.Speech, what string, planks, boxes int) string {
	say := func(key string) string {
		return s.Say("compare."+key, "what", what, "planks", some(s, "plank", max(planks, -planks)),
			"boxes", some(s, "box", max(boxes, -boxes)))
	}
	switch {
	case planks == 0 && boxes == 0:
		return say("costs-nothing")
	case planks >= 0 && boxes >= 0:
		return say("costs-both")
	case planks <= 0 && boxes <= 0:
		return say("saves-both")
	case planks > 0:
		return say("costs-planks")
	}
	return say("saves-planks")
}
