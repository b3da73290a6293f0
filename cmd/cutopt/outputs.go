package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/planfile"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/sheet/paper"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/takeoff"
	"plank.example/cutopt/words"
)

// outFlags name the files to write.
type outFlags struct {
	verdict *cutopt.Verdict // on numbers of boxes, for the report
	note    string          // tops the report
	jobPath string          // of the job that the plan is of
	remarks []string        // on how it stands
	extra   []output        // files that are no drawing of the plan
	// unlisted says why there is no list of what else to order
	unlisted string
	// unwritten says why a file that is asked for is not written
	unwritten string
	short     bool // an interrupt left chances uncounted
	set       *pflag.FlagSet
	files     []*fileFlag
	paper     string
	spoken    func() (language string, err error)
}

// A fileFlag asks for one file.
type fileFlag struct {
	name, usage string
	endings     []string // that the file's name may have; nil for any
	write       func(w io.Writer, d *drawing) error
	path        string
}

// A drawing is what is written, in which form.
type drawing struct {
	job    *cutopt.Job
	plan   *cutopt.Plan
	format sheet.Format
	opt    *sheet.Options
	// files of the job and the plan, for going on from it, and the folder of this one
	jobPath, planPath, dir string
}

func newOutFlags() *outFlags {
	f := &outFlags{set: pflag.NewFlagSet("out", pflag.ContinueOnError)}
	s := f.set
	s.SortFlags = false
	f.files = []*fileFlag{
		{
			name: "json", usage: "plan as JSON; - is standard output, and then nothing else is printed there",
			write: writeJSON,
		},
		{name: "map", usage: "map of the floor", endings: []string{".svg", ".png", ".pdf"}, write: writeMap},
		{name: "sheet", usage: "sheet to work from", endings: []string{".html", ".pdf"}, write: writeSheet},
		{
			name: "pocket", usage: "pocket sheet: map, a line for each row, what to buy",
			endings: []string{".html", ".pdf"}, write: writePocket,
		},
		{name: "order", usage: "order for the supplier", endings: orderEndings, write: writeOrder},
		{name: "cuts", usage: "list of cuts by plank", endings: []string{".csv", ".md", ".txt"}, write: writeCuts},
	}
	for _, file := range f.files {
		usage := file.usage
		if len(file.endings) > 0 {
			usage += ": " + strings.Join(file.endings, ", ")
		}
		s.Var(&outFile{f, file}, file.name, usage)
	}
	textVar(s, &f.paper, "paper", "size", "",
		"size of printed pages: a4 or letter (letter for inches and feet, else a4)")
	f.spoken = languageFlag(s, "the report, maps, sheets and lists")
	takes(s, "paper", "a4", "letter")
	return f
}

// An outFile is the flag of a file to write. Given again, it asks for one more: a sheet for the phone and one for
// paper.
type outFile struct {
	out   *outFlags
	first *fileFlag
}

func (o *outFile) String() string { return o.first.path }
func (o *outFile) Type() string   { return "file" }

func (o *outFile) Set(path string) error {
	if o.first.path == "" {
		o.first.path = path
		return nil
	}
	more := *o.first
	more.path = path
	o.out.files = append(o.out.files, &more)
	return nil
}

func writeJSON(w io.Writer, d *drawing) error { return planfile.Encode(w, d.plan) }

func writeOrder(w io.Writer, d *drawing) error {
	list := d.opt.Takeoff
	if d.plan.Site != nil {
		list = takeoff.OnTop(d.job, d.plan)
	}
	return sheet.Order(w, d.job, list, d.format, d.opt.Language)
}

func writeMap(w io.Writer, d *drawing) error {
	s, err := sheet.New(d.job, d.plan, d.opt)
	switch {
	case err != nil:
		return err
	case d.format == sheet.FormatPDF:
		return paper.PDF(w, s, sheet.DocumentMap)
	case d.format == sheet.FormatPNG:
		return paper.PNG(w, s, sheet.DocumentMap)
	}
	return s.Map(w)
}

func writeSheet(w io.Writer, d *drawing) error {
	opt := *d.opt
	opt.Happened = d.happened()
	s, err := sheet.New(d.job, d.plan, &opt)
	switch {
	case err != nil:
		return err
	case d.format == sheet.FormatPDF:
		return paper.PDF(w, s, sheet.DocumentSheet)
	}
	return s.HTML(w)
}

func writePocket(w io.Writer, d *drawing) error {
	s, err := sheet.New(d.job, d.plan, d.opt)
	switch {
	case err != nil:
		return err
	case d.format == sheet.FormatPDF:
		return paper.PDF(w, s, sheet.DocumentPocket)
	}
	return s.Pocket(w)
}

func writeCuts(w io.Writer, d *drawing) error {
	s, err := sheet.New(d.job, d.plan, d.opt)
	if err != nil {
		return err
	}
	return s.Cuts(w, d.format)
}

// options checks the flags and returns those of the sheet. It refuses a name whose ending says nothing of what to
// write, one file given twice, and one that is among the inputs.
func (f *outFlags) options(inputs []string) (*sheet.Options, error) {
	var outs []output
	for _, file := range f.files {
		if file.path == "" {
			if f.set.Changed(file.name) {
				return nil, usagef("--%s needs a file name", file.name)
			}
			continue
		}
		if file.endings != nil && !slices.Contains(file.endings, strings.ToLower(filepath.Ext(file.path))) {
			return nil, usagef("--%s %q: the name's ending says what to write; it is one of %s",
				file.name, file.path, strings.Join(file.endings, ", "))
		}
		outs = append(outs, output{flag: file.name, path: file.path})
	}
	if err := distinct(outs, inputs); err != nil {
		return nil, err
	}
	opt := new(sheet.Options)
	err := oneOf("paper", f.paper, []string{"a4", "letter"}, func(i int) {
		opt.Paper = []sheet.Paper{sheet.PaperA4, sheet.PaperLetter}[i]
	})
	if err != nil {
		return nil, err
	}
	opt.Language, err = f.spoken()
	return opt, err
}

// deliver writes the files asked for, then the report.
func (f *outFlags) deliver(e *env, job *cutopt.Job, result *solve.Result, opt *sheet.Options) error {
	plan := result.Plan
	opt.Verdict = f.verdict
	files, stdout := f.outputs(job, plan, opt)
	if err := writeAll(e.temps, files); err != nil {
		return err
	}
	told := e.stdout
	if stdout != nil {
		told = e.stderr
		if err := stdout(e.stdout); err != nil {
			return err
		}
	} else if err := newReport(e.stdout, opt.Language, job,
		plan).against(result.Irregular).weighing(f.verdict).noting(f.note).remarking(f.remarks).listing(opt.Takeoff,
		f.unlisted).print(); err != nil {
		return err
	}
	lines := f.closing(speak(opt.Language, job), result, files)
	if f.note != "" && stdout != nil {
		lines = append([]string{f.note}, lines...)
	}
	if len(lines) > 0 && stdout == nil {
		lines = append([]string{""}, lines...)
	}
	for _, line := range lines {
		if _, err := fmt.Fprintln(readable(told), line); err != nil {
			return err
		}
	}
	return nil
}

// withdraw takes back that a file is asked for, and returns its path; "" for none.
func (f *outFlags) withdraw(name string) string {
	path := f.path(name)
	for _, file := range f.files {
		if file.name == name {
			file.path = ""
		}
	}
	return path
}

// path returns the file that is asked for by a flag; "" for none.
func (f *outFlags) path(name string) string {
	for _, file := range f.files {
		if file.name == name {
			return file.path
		}
	}
	return ""
}

// distinct refuses files that are among the inputs or asked for twice, those that are no drawing among them.
func (f *outFlags) distinct(inputs []string) error {
	outs := slices.Clone(f.extra)
	for _, file := range f.files {
		if file.path != "" {
			outs = append(outs, output{flag: file.name, path: file.path})
		}
	}
	return distinct(outs, inputs)
}

// onlyJSON reports whether no report, no sheet and no order is asked for.
func (f *outFlags) onlyJSON() bool {
	stdout, more := false, false
	for _, file := range f.files {
		stdout = stdout || file.path == "-"
		more = more || file.path != "" && slices.Contains([]string{"sheet", "pocket", "order"}, file.name)
	}
	return stdout && !more
}

// takeOff lists everything to order, for the report and what is written. What keeps a product from being cut is told
// in the report, but refused where an order is asked for. It is bounded, so an interrupt does not cut it short.
func (f *outFlags) takeOff(src *jobSource, job *cutopt.Job, plan *cutopt.Plan, opt *sheet.Options) (err error) {
	opt.Takeoff, err = takeoff.New(context.Background(), job, plan)
	var wrong *cutopt.FieldError
	if !errors.As(err, &wrong) {
		return err
	}
	for _, file := range f.files {
		if file.name == "order" && file.path != "" {
			return src.inputError(err)
		}
	}
	f.unlisted = src.inputError(err).Error()
	return nil
}

// outputs returns the files asked for, and what standard output is asked for in place of the report.
func (f *outFlags) outputs(
	job *cutopt.Job,
	plan *cutopt.Plan,
	opt *sheet.Options,
) (files []output, stdout func(io.Writer) error) {
	for _, file := range f.files {
		if file.path == "" {
			continue
		}
		d := &drawing{job: job, plan: plan, opt: opt, jobPath: f.jobPath, planPath: f.path("json")}
		d.dir = filepath.Dir(file.path)
		if file.endings != nil {
			d.format, _ = sheet.FormatOf(file.path) // options has checked the ending
		}
		write := func(w io.Writer) error { return file.write(w, d) }
		if file.path == "-" {
			stdout = write
			continue
		}
		files = append(files, output{file.name, file.path, write})
	}
	return append(files, f.extra...), stdout
}

// closing tells why the search stopped, when it stopped short, and which files were written.
func (f *outFlags) closing(s *words.Speech, result *solve.Result, files []output) []string {
	var lines []string
	switch result.Status {
	case solve.StatusExhausted:
		lines = append(lines, s.Say("report.exhausted"))
	case solve.StatusLimit:
		lines = append(lines, s.Say("report.limit"))
	case solve.StatusCancelled:
		lines = append(lines, s.Say("report.cancelled"))
	}
	if result.Curtailed && !result.Status.Early() {
		lines = append(lines, s.Say("report.curtailed"))
	}
	if f.short {
		lines = append(lines, s.Say("report.not-counted"))
	}
	if f.unwritten != "" {
		lines = append(lines, f.unwritten)
	}
	for _, o := range files {
		lines = append(lines, s.Say("report.wrote", "file", clean(o.path)))
	}
	return lines
}
