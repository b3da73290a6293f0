package main

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
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

// newReport speaks the language and prints lengths on the job's grid, or on 1/16 in or 1 mm where that is finer:
// enders are cut to fit, off any coarser grid.
func newReport(w io.Writer, language string, job *cutopt.Job, plan *cutopt.Plan) *report {
	finest := measure.Sixteenth
	if job.Unit.Metric() {
		finest = measure.Millimetre
	}
	grid := min(max(job.Rules.Grid, measure.Tick), finest)
	return &report{
		w: bufio.NewWriter(w), width: reportWidth(w), palette: paletteFor(w), job: job, plan: plan, grid: grid,
		speech: words.New(language, nil, job.Unit, job.Rules.Grid),
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
func (r *report) bare(l measure.Length) string {
	return r.speech.Decimal(l.Floor(r.grid).Compact(r.plan.Unit, r.grid))
}

// length prints a length with its unit.
func (r *report) length(l measure.Length) string {
	return r.speech.Decimal(l.Format(r.plan.Unit, r.grid))
}

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
	r.heading(r.speech.Say("report.map"))
	s, err := sheet.New(r.job, r.plan, &sheet.Options{Columns: r.width, ASCII: !utf8Locale(), Language: r.speech.Language})
	if err != nil {
		return err
	}
	return s.Text(r.w)
}

// order prints what to buy and the verdict.
func (r *report) order() {
	o, s := r.plan.Order, r.speech
	title := s.Say("report.order")
	if r.plan.Job != "" {
		title = s.Say("report.order-of", "job", clean(r.plan.Job))
	}
	for _, line := range wrap(title, r.width, "") {
		fmt.Fprintln(r.w, r.palette.bold(line))
	}
	text := s.Say("report.buy", "boxes", s.Count("things.box", o.Boxes), "planks", s.Count("things.plank", o.PlanksPerBox))
	if r.job.Plank.Name != "" {
		text += " " + clean(r.job.Plank.Name)
	}
	if o.Price > 0 {
		text += ", " + s.Say("report.in-all", "price", s.Decimal(money(o.Price)))
	}
	r.para(text)
	r.para(s.Say("report.use", "bought", s.Count("things.plank", o.Boxes*o.PlanksPerBox),
		"used", s.Count("things.plank", o.Planks)) + r.spareText())
	r.heading(s.Say("report.verdict"))
	r.para(boxVerdict(s, r.plan, r.job.Rules.WasteAllowance))
	if b := &r.plan.Bound; b.PlanksProven || !b.Proven { // else no fewer planks would change what to buy
		r.para(plankVerdict(s, r.plan))
	}
	if r.plan.StripsServe(r.job.Plank.Width, r.job.Rules.Kerf) {
		r.para(s.Say("report.strips")) // where a strip ripped off one piece could be laid as another
	}
}

// spareText tells what the whole planks left are for.
func (r *report) spareText() string {
	o, s, text := r.plan.Order, r.speech, ""
	say := func(key string, n int) { text += " + " + s.Say("report."+key, "n", strconv.Itoa(n)) }
	if o.Kept > 0 {
		say("kept", o.Kept)
		if r.job.Spare.BoxPer > 0 && o.PlanksPerBox > 0 {
			text += " " + s.Count("report.kept-in", o.Kept/o.PlanksPerBox)
		}
	}
	if o.Reserve > 0 {
		say("reserve", o.Reserve)
	}
	if over := o.Over(); over > 0 || text == "" {
		say("over", over)
	}
	return text
}

// boxVerdict says how the boxes compare with the fewest that could do and with the rule of thumb.
func boxVerdict(s *words.Speech, p *cutopt.Plan, allowance float64) string {
	return fmt.Sprintf("%s; %s; %s.", s.Count("things.box", p.Order.Boxes), fewerBoxes(s, p), thumb(s, p, allowance))
}

// fewerBoxes says what is proven of fewer boxes, whatever breaks, and what rests on the loss assumed.
func fewerBoxes(s *words.Speech, p *cutopt.Plan) string {
	n, bound := p.Order.Boxes, p.Bound.Boxes
	var parts []string
	if bound > 1 {
		parts = append(parts, s.Count("report.too-few", bound-1))
	}
	switch {
	case bound < n && p.Bound.Settled:
		parts = append(parts, s.Say("report.too-risky", "n", strconv.Itoa(n-1)))
	case bound < n:
		parts = append(parts, s.Count("report.may-do", n-1))
	}
	if parts == nil {
		return s.Say("report.nothing-less")
	}
	return strings.Join(parts, ", ")
}

// plankVerdict says how the planks compare with the fewest that could do.
func plankVerdict(s *words.Speech, p *cutopt.Plan) string {
	n := p.Order.Planks
	return fmt.Sprintf("%s; %s.", s.Count("things.plank", n), fewer(s, n, p.Bound.Planks, p.Bound.PlanksProven))
}

// fewer says what is known of buying fewer than n when bound are needed at least.
func fewer(s *words.Speech, n, bound int, proven bool) string {
	switch {
	case proven && n <= 1:
		return s.Say("report.nothing-less")
	case proven:
		return s.Count("report.too-few", n-1)
	case bound >= n-1:
		return s.Count("report.may-do", n-1)
	case bound <= 1:
		return s.Say("report.fewer-from", "n", strconv.Itoa(max(bound, 1)))
	}
	return s.Count("report.only-few", bound-1, "may", s.Count("report.may-do", n-1))
}

// thumb says what the rule of thumb would buy and whether that is enough.
func thumb(s *words.Speech, p *cutopt.Plan, allowance float64) string {
	text := s.Say("report.thumb", "percent", s.Decimal(trimZeros(allowance)), "n", strconv.Itoa(p.Order.ThumbBoxes))
	switch {
	case p.Order.ThumbBoxes < p.Bound.Boxes:
		return s.Say("report.thumb-too-few", "thumb", text)
	case p.Order.ThumbBoxes < p.Order.Boxes:
		return s.Say("report.thumb-fewer", "thumb", text)
	}
	return text
}

// waste prints the three meanings of waste, each with what it is a share of, and where the area goes.
func (r *report) waste() {
	w, s := &r.plan.Waste, r.speech
	area := func(a measure.Area) string { return s.Decimal(a.Format(r.plan.Unit)) }
	r.heading(s.Say("report.waste"))
	for _, line := range []struct {
		percent float64
		text    string
	}{
		{w.AddedToFloor, s.Say("report.added", "bought", area(w.Bought), "net", area(w.Net))},
		{w.ShareOfPurchase, s.Say("report.share")},
		{w.Afterwards, s.Say("report.afterwards")},
	} {
		for i, text := range wrap(line.text, r.width-11, "") {
			head := "         "
			if i == 0 {
				head = s.Decimal(fmt.Sprintf("%7.1f %%", line.percent))
			}
			fmt.Fprintln(r.w, head+"  "+text)
		}
	}
	r.para(s.Say("report.areas", "bought", area(w.Bought), "laid", area(w.Laid), "offcuts", area(w.Offcuts),
		"ripped", area(w.Ripped), "kerf", area(w.Kerf), "whole", area(w.WholeLeft)))
}

// cautions prints what no plan can know.
func (r *report) cautions() {
	r.heading(r.speech.Say("report.before"))
	for _, c := range r.speech.List("report.cautions") {
		r.item(c)
	}
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
