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
	note      string           // stands below what to buy
	remarks   []string         // on how a job stands that is begun
	list      *cutopt.Takeoff  // of everything to order
	unlisted  string           // why there is none
}

// noting says how the plan came about, if there is anything to say.
func (r *report) noting(note string) *report {
	r.note = note
	return r
}

// remarking adds what is to be noted of a job that is begun.
func (r *report) remarking(remarks []string) *report {
	r.remarks = remarks
	return r
}

// listing adds everything to order, or why there is no list of it.
func (r *report) listing(list *cutopt.Takeoff, unlisted string) *report {
	r.list, r.unlisted = list, unlisted
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
		w: bufio.NewWriter(readable(w)), width: reportWidth(w), palette: paletteFor(w), job: job, plan: plan,
		grid:   grid,
		speech: speak(language, job),
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
	first := r.order
	if r.plan.Site != nil {
		first = r.site
	}
	if err := first(); err != nil {
		return err
	}
	if err := r.boxes(); err != nil {
		return err
	}
	if err := r.takeoff(); err != nil {
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
	opt := &sheet.Options{
		Columns: r.width, ASCII: !utf8Locale(), Language: r.speech.Language,
		Words: readableWords(r.speech.Language),
	}
	s, err := sheet.New(r.job, r.plan, opt)
	if err != nil {
		return err
	}
	return s.Text(r.w)
}

// waste prints the three meanings of waste, each with what it is a share of, and where the area goes.
func (r *report) waste() {
	w, s := &r.plan.Waste, r.speech
	area := func(a measure.Area) string { return s.Decimal(a.Format(r.plan.Unit)) }
	r.meanings([3]float64{w.AddedToFloor, w.ShareOfPurchase, w.Afterwards}, w.Bought, w.Net)
	if w.Lost > 0 || w.Brought > 0 {
		brought := ""
		if w.Brought > 0 {
			brought = s.Say("report.areas-brought", "brought", area(w.Brought))
		}
		r.para(s.Say("report.areas-begun", "bought", area(w.Bought), "brought", brought, "laid", area(w.Laid),
			"offcuts", area(w.Offcuts), "ripped", area(w.Ripped), "kerf", area(w.Kerf), "lost", area(w.Lost),
			"whole", area(w.WholeLeft)))
		return
	}
	r.para(s.Say("report.areas", "bought", area(w.Bought), "laid", area(w.Laid), "offcuts", area(w.Offcuts),
		"ripped", area(w.Ripped), "kerf", area(w.Kerf), "whole", area(w.WholeLeft)))
}

// meanings prints the three meanings of waste: added to the floor, share of the purchase, measured afterwards.
func (r *report) meanings(percent [3]float64, bought, net measure.Area) {
	s := r.speech
	area := func(a measure.Area) string { return s.Decimal(a.Format(r.plan.Unit)) }
	r.heading(s.Say("report.waste"))
	for k, text := range []string{
		s.Say("report.added", "bought", area(bought), "net", area(net)), s.Say("report.share"), s.Say("report.afterwards"),
	} {
		for i, line := range wrap(text, r.width-11, "") {
			head := "         "
			if i == 0 {
				head = s.Decimal(fmt.Sprintf("%7.1f %%", percent[k]))
			}
			fmt.Fprintln(r.w, head+"  "+line)
		}
	}
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
