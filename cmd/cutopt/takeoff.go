package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/takeoff"
	"plank.example/cutopt/words"
)

// orderEndings are those that the file of an order may have.
var orderEndings = []string{".csv", ".html"}

// runTakeoff lists everything to order with a plan, or with the one that it makes of the job.
func runTakeoff(ctx context.Context, e *env, args []string) error {
	jf, sf := newJobFlags(), newSolveFlags()
	hide(sf.set, "relax")
	set := pflag.NewFlagSet("takeoff", pflag.ContinueOnError)
	set.SortFlags = false
	var orders, data []string
	set.Var(&listFlag{&orders, "file"}, "order", "order for the supplier: "+strings.Join(orderEndings, ", "))
	set.Var(&listFlag{&data, "file"}, "json", "list as JSON, with the certificates of how things are cut; lengths are "+
		"in ticks of 1/320 mm, prices in hundredths")
	spoken := languageFlag(set, "what is printed and written")
	rest, done, err := parseFlags(e, "takeoff", args, flagGroup{"What to write:", set}, flagGroup{"The job:", jf.set},
		flagGroup{"The search, where no plan is given:", sf.set})
	if err != nil || done {
		return err
	}
	path, planPath, err := jobAndPlan(jf, "takeoff", rest)
	if err != nil {
		return err
	}
	language, err := spoken()
	if err != nil {
		return err
	}
	outs, err := takeoffOutputs(orders, data, append(jf.outlines, path, planPath))
	if err != nil {
		return err
	}
	opt, err := sf.options()
	if err != nil {
		return err
	}
	src, err := jf.job(e, path)
	if err != nil {
		return err
	}
	s := speak(language, src.job)
	plan, err := planFor(ctx, e, s, src, planPath, opt)
	if err != nil {
		return err
	}
	list, err := takeoff.New(ctx, src.job, plan)
	if err != nil {
		return src.inputError(err)
	}
	return deliverTakeoff(e, src.job, plan, list, outs, language)
}

// deliverTakeoff writes the files asked for, then prints the list.
func deliverTakeoff(e *env, job *cutopt.Job, plan *cutopt.Plan, list *cutopt.Takeoff, outs []output,
	language string,
) error {
	for i := range outs {
		if outs[i].flag == "json" {
			outs[i].write = func(w io.Writer) error { return writeTakeoff(w, list) }
			continue
		}
		format, _ := sheet.FormatOf(outs[i].path) // takeoffOutputs has checked the ending
		outs[i].write = func(w io.Writer) error { return sheet.Order(w, job, list, format, language) }
	}
	if err := writeAll(e.temps, outs); err != nil {
		return err
	}
	return printTakeoff(newReport(e.stdout, language, job, plan), list, outs)
}

// takeoffOutputs lists the files asked for. It refuses an order whose name says nothing of what to write, and a file
// that is read.
func takeoffOutputs(orders, data, inputs []string) ([]output, error) {
	var outs []output
	for _, path := range orders {
		outs = append(outs, output{flag: "order", path: path})
	}
	for _, path := range data {
		outs = append(outs, output{flag: "json", path: path})
	}
	for _, o := range outs {
		switch {
		case o.path == "":
			return nil, usagef("--%s needs a file name", o.flag)
		case o.flag == "order" && !slices.Contains(orderEndings, strings.ToLower(filepath.Ext(o.path))):
			return nil, usagef("--order %q: the name's ending says what to write; it is one of %s", o.path,
				strings.Join(orderEndings, ", "))
		}
	}
	return outs, distinct(outs, inputs)
}

// writeTakeoff writes a list as JSON, as it stands in the library.
func writeTakeoff(w io.Writer, list *cutopt.Takeoff) error {
	out := json.NewEncoder(w)
	out.SetIndent("", " ")
	return out.Encode(list)
}

// planFor reads the plan, or makes one of the job.
func planFor(ctx context.Context, e *env, s *words.Speech, src *jobSource, path string, opt *solve.Options) (
	*cutopt.Plan, error,
) {
	if path != "" {
		return readPlan(path, e.stdin)
	}
	line := newProgressLine(e.stderr, s)
	opt.Progress = line.show
	result, err := solve.Job(ctx, src.job, opt)
	line.clear()
	if err != nil {
		return nil, solveError(ctx, s, src, err)
	}
	return result.Plan, nil
}

// printTakeoff prints the list, how it was reckoned and how things are cut, and which files were written.
func printTakeoff(r *report, list *cutopt.Takeoff, files []output) error {
	s, job := r.speech, r.job
	title := s.Say("takeoff")
	if job.Name != "" {
		title = clean(job.Name) + ": " + title
	}
	for _, line := range wrap(title, r.width, "") {
		fmt.Fprintln(r.w, r.palette.bold(line))
	}
	text := s.Takeoff(job, list)
	if err := r.takeoffTable(text); err != nil {
		return err
	}
	r.heading(s.Say("takeoff.how"))
	for _, line := range text.Reckoned {
		r.item(clean(line))
	}
	r.takeoffCuts(text)
	r.heights(text)
	for _, o := range files {
		fmt.Fprintln(r.w)
		fmt.Fprintln(r.w, s.Say("report.wrote", "file", clean(o.path)))
	}
	return r.w.Flush()
}

// takeoffTable prints the list and its total.
func (r *report) takeoffTable(text *words.Listing) error {
	t := &table{columns: []column{
		{head: text.Head[0], fold: true},
		{head: text.Head[1], fold: true},
		{head: text.Head[2], fold: true},
		{head: text.Head[3], right: true},
	}}
	for _, row := range text.Rows {
		cells := make([]string, len(row))
		for i, cell := range row {
			lines := strings.Split(cell, "\n")
			for k := range lines {
				lines[k] = clean(lines[k])
			}
			cells[i] = strings.Join(lines, "\n")
		}
		t.rows = append(t.rows, cells)
	}
	fits, err := t.write(r.w, r.width, r.palette)
	if err != nil {
		return err
	}
	if !fits { // a narrow page: one line after the other
		for _, row := range t.rows {
			r.item(strings.ReplaceAll(strings.Join(slices.DeleteFunc(row, func(s string) bool { return s == "" }),
				"; "),
				"\n", ", "))
		}
	}
	if text.Total != "" {
		fmt.Fprintln(r.w)
		r.para(text.Total)
	}
	return nil
}

// takeoffCuts prints how sticks and rolls are cut.
func (r *report) takeoffCuts(text *words.Listing) {
	if len(text.Cuts) == 0 {
		return
	}
	r.heading(r.speech.Say("takeoff.cuts"))
	for _, c := range text.Cuts {
		r.para(clean(c.Title) + ". " + c.Proof)
		for _, line := range c.Lines {
			r.item(clean(line))
		}
	}
	r.para(r.speech.Say("takeoff.measure"))
}

// heights prints what doors and appliances clear the floor by.
func (r *report) heights(text *words.Listing) {
	if len(text.Heights) == 0 {
		return
	}
	r.heading(r.speech.Say("takeoff.heights"))
	for _, line := range text.Heights {
		r.item(clean(line))
	}
}

// takeoff prints the list of everything to order within the report of a plan, or why there is none.
func (r *report) takeoff() error {
	if r.list == nil && r.unlisted == "" {
		return nil
	}
	r.heading(r.speech.Say("takeoff"))
	if r.list == nil {
		r.para(clean(r.unlisted))
		return nil
	}
	text := r.speech.Takeoff(r.job, r.list)
	if err := r.takeoffTable(text); err != nil {
		return err
	}
	r.heights(text)
	return nil
}
