package main

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// A report prints a plan for reading.
type report struct {
	w       *bufio.Writer
	width   int
	palette palette
	job     *cutopt.Job
	plan    *cutopt.Plan
	grid    measure.Length // lengths are printed on
	speech  *words.Speech

	irregular *solve.Irregular // what a pattern is compared with
	verdict   *cutopt.Verdict  // on numbers of boxes
	note      string           // tops the report
}

// below prints the report below a note, if there is one.
func (r *report) below(note string) *report {
	r.note = note
	return r
}

// weighing adds the verdict on numbers of boxes.
func (r *report) weighing(v *cutopt.Verdict) *report {
	r.verdict = v
	return r
}

// newReport prints lengths on the job's grid, or on 1/16 in or 1 mm where that is finer: enders are cut to fit, off any
// coarser grid.
func newReport(w io.Writer, job *cutopt.Job, plan *cutopt.Plan) *report {
	finest := measure.Sixteenth
	if job.Unit.Metric() {
		finest = measure.Millimetre
	}
	grid := min(max(job.Rules.Grid, measure.Tick), finest)
	return &report{
		w: bufio.NewWriter(w), width: reportWidth(w), palette: paletteFor(w), job: job, plan: plan, grid: grid,
		speech: words.New("en", nil, job.Unit, job.Rules.Grid),
	}
}

// heading starts a part of the report.
func (r *report) heading(text string) {
	fmt.Fprintln(r.w)
	for _, line := range wrap(text, r.width, "") {
		fmt.Fprintln(r.w, r.palette.bold(line))
	}
}

// para prints text indented by two columns, later lines by four.
func (r *report) para(text string) {
	for _, line := range wrap(text, r.width-2, "  ") {
		fmt.Fprintln(r.w, "  "+line)
	}
}

// item prints text as an item of a list.
func (r *report) item(text string) {
	for i, line := range wrap(text, r.width-4, "") {
		mark := "    "
		if i == 0 {
			mark = "  - "
		}
		fmt.Fprintln(r.w, mark+line)
	}
}

// bare prints a length without its unit; what is cut to fit is rounded down.
func (r *report) bare(l measure.Length) string { return l.Floor(r.grid).Compact(r.plan.Unit, r.grid) }

// print writes the whole report.
func (r *report) print() error {
	if r.note != "" {
		for _, line := range wrap(r.note, r.width, "") {
			fmt.Fprintln(r.w, line)
		}
		fmt.Fprintln(r.w)
	}
	r.order()
	if err := r.boxes(); err != nil {
		return err
	}
	r.waste()
	r.quality()
	lay, err := laying.FromPlan(r.job, r.plan)
	if err != nil {
		return err
	}
	for i, rows := range lay.Floors {
		if err := r.room(rows, i); err != nil {
			return err
		}
	}
	if err := r.terminalMap(); err != nil {
		return err
	}
	r.cautions()
	return r.w.Flush()
}

// A plan of more rows than mapRows is not drawn on the terminal, nor one on a page narrower than mapColumns: --map
// draws it better.
const (
	mapRows    = 60
	mapColumns = 40
)

// terminalMap draws small floors in box characters, or in ASCII where the locale has no others.
func (r *report) terminalMap() error {
	rows := 0
	for _, room := range r.plan.Floors {
		rows += len(room.Rows)
	}
	if rows > mapRows || r.width < mapColumns {
		return nil
	}
	r.heading("Map")
	s, err := sheet.New(r.job, r.plan, &sheet.Options{Columns: r.width, ASCII: !utf8Locale()})
	if err != nil {
		return err
	}
	return s.Text(r.w)
}

// order prints what to buy and the verdict.
func (r *report) order() {
	o := r.plan.Order
	title := "Order"
	if r.plan.Job != "" {
		title = clean(r.plan.Job) + ": order"
	}
	for _, line := range wrap(title, r.width, "") {
		fmt.Fprintln(r.w, r.palette.bold(line))
	}
	text := fmt.Sprintf("%s of %s", count(o.Boxes, "box", "boxes"), count(o.PlanksPerBox, "plank", "planks"))
	if r.job.Plank.Name != "" {
		text += " " + clean(r.job.Plank.Name)
	}
	if o.Price > 0 {
		text += ", " + money(o.Price) + " in all"
	}
	r.para(text)
	r.para(fmt.Sprintf("%s bought = %s to cut and lay%s", count(o.Boxes*o.PlanksPerBox, "plank", "planks"),
		count(o.Planks, "plank", "planks"), r.spareText()))
	r.heading("Verdict")
	r.para(boxVerdict(r.plan, r.job.Rules.WasteAllowance))
	if b := &r.plan.Bound; b.PlanksProven || !b.Proven { // else no fewer planks would change what to buy
		r.para(plankVerdict(r.plan))
	}
	if r.plan.StripsServe(r.job.Plank.Width, r.job.Rules.Kerf) {
		r.para(fullWidth)
	}
}

// fullWidth qualifies what is proven where a strip ripped off one piece could be laid as another.
const fullWidth = "What is proven is so with each piece taking a plank's full width: here a strip ripped off one " +
	"piece may serve as another."

// spareText tells what the whole planks left are for.
func (r *report) spareText() string {
	o, text := r.plan.Order, ""
	if o.Kept > 0 {
		text += fmt.Sprintf(" + %d kept for repairs", o.Kept)
		if r.job.Spare.BoxPer > 0 && o.PlanksPerBox > 0 {
			text += " in " + count(o.Kept/o.PlanksPerBox, "unopened box", "unopened boxes")
		}
	}
	if o.Reserve > 0 {
		text += fmt.Sprintf(" + %d in reserve if planks break", o.Reserve)
	}
	if over := o.Over(); over > 0 || text == "" {
		text += fmt.Sprintf(" + %d over", over)
	}
	return text
}

// boxVerdict says how the boxes compare with the fewest that could do and with the rule of thumb.
func boxVerdict(p *cutopt.Plan, allowance float64) string {
	o := p.Order
	return fmt.Sprintf("%s; %s; %s.", count(o.Boxes, "box", "boxes"), fewerBoxes(p),
		thumb(p, allowance))
}

// fewerBoxes says what is proven of fewer boxes, whatever breaks, and what rests on the loss assumed.
func fewerBoxes(p *cutopt.Plan) string {
	n, bound := p.Order.Boxes, p.Bound.Boxes
	var parts []string
	if bound > 1 {
		parts = append(parts, fmt.Sprintf("%d %s proven too few", bound-1, plural(bound-1, "is", "are")))
	}
	if bound < n {
		word := "may do: not proven"
		if p.Bound.Settled {
			word = "too risky if planks break"
		}
		parts = append(parts, fmt.Sprintf("%d %s", n-1, word))
	}
	if parts == nil {
		return "nothing less will do"
	}
	return strings.Join(parts, ", ")
}

// plankVerdict says how the planks compare with the fewest that could do.
func plankVerdict(p *cutopt.Plan) string {
	n := p.Order.Planks
	return fmt.Sprintf("%s; %s.", count(n, "plank", "planks"), fewer(n, p.Bound.Planks, p.Bound.PlanksProven))
}

// fewer says what is known of buying fewer than n when bound are needed at least.
func fewer(n, bound int, proven bool) string {
	switch {
	case proven && n <= 1:
		return "nothing less will do"
	case proven:
		return fmt.Sprintf("%d %s proven too few", n-1, plural(n-1, "is", "are"))
	case bound >= n-1:
		return fmt.Sprintf("%d may do: not proven", n-1)
	case bound <= 1:
		return fmt.Sprintf("fewer may do, from %d on: not proven", max(bound, 1))
	}
	return fmt.Sprintf("%d may do: not proven, only %d %s proven too few", n-1, bound-1, plural(bound-1, "is", "are"))
}

// thumb says what the rule of thumb would buy and whether that is enough.
func thumb(p *cutopt.Plan, allowance float64) string {
	text := fmt.Sprintf("the %s %% rule would buy %d", trimZeros(allowance), p.Order.ThumbBoxes)
	switch {
	case p.Order.ThumbBoxes < p.Bound.Boxes:
		text += ", too few"
	case p.Order.ThumbBoxes < p.Order.Boxes:
		text += ", fewer than this plan needs"
	}
	return text
}

// waste prints the three meanings of waste, each with what it is a share of, and where the area goes.
func (r *report) waste() {
	w := &r.plan.Waste
	area := func(a measure.Area) string { return a.Format(r.plan.Unit) }
	r.heading("Waste, in the three meanings of the word")
	for _, line := range []struct {
		percent float64
		text    string
	}{
		{w.AddedToFloor, fmt.Sprintf("added to the floor: %s bought for %s of floor", area(w.Bought), area(w.Net))},
		{w.ShareOfPurchase, "share of the purchase: the part of what is bought that is not floor"},
		{w.Afterwards, "measured afterwards: the part of the opened planks that is not laid"},
	} {
		for i, s := range wrap(line.text, r.width-11, "") {
			head := "         "
			if i == 0 {
				head = fmt.Sprintf("%7.1f %%", line.percent)
			}
			fmt.Fprintln(r.w, head+"  "+s)
		}
	}
	r.para(fmt.Sprintf("%s bought = %s laid + %s offcuts + %s ripped off + %s sawdust + %s in whole planks",
		area(w.Bought), area(w.Laid), area(w.Offcuts), area(w.Ripped), area(w.Kerf), area(w.WholeLeft)))
}

// cautions prints what no plan can know.
func (r *report) cautions() {
	r.heading("Before you cut")
	for _, c := range []string{
		"The product's own instruction overrides every rule here; local codes come first.",
		"Measure again before each last piece: walls are seldom straight, and the ender is cut to fit.",
		"Buy one lot: the next one may differ in shade.",
		"A resilient floor laid no later than 1980 may hold asbestos, and paint before 1978 lead: test before you " +
			"disturb either (29 CFR 1926.1101; EPA RRP rule).",
	} {
		r.item(c)
	}
}

// count writes a number with its noun.
func count(n int, one, many string) string { return fmt.Sprintf("%d %s", n, plural(n, one, many)) }

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// money writes an amount without a currency.
func money(m cutopt.Money) string { return fmt.Sprintf("%d.%02d", m/100, m%100) }

// trimZeros writes a percentage without needless decimals.
func trimZeros(f float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", f), "0"), ".")
}

// clean replaces control characters in a name, so that no name can steer the terminal.
func clean(s string) string {
	return strings.Map(func(c rune) rune {
		if !unicode.IsPrint(c) {
			return '\uFFFD'
		}
		return c
	}, s)
}
