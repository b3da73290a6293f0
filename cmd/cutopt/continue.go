package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// siteFlags tell what happened to a job since it was planned: lines of a state, in the order given.
type siteFlags struct {
	set   *pflag.FlagSet
	lines []site.Line
	from  []string // the flag that each comes from
}

// frequent are the flags that stand for the frequent lines.
var frequent = []struct{ name, kind, usage string }{
	{"laid", "row", "rows that lie: \"Kitchen 8\", or \"Kitchen 9 3 pieces\""},
	{"lost", "plank", "number of a plank that is lost, whole or what does not lie of it: 31"},
	{"miscut", "cut", "plank sawn in the wrong place: \"12 left 22\" leaves 22 with its left end"},
	{"culled", "planks", "how many whole planks are of no use: 2"},
	{"offcut", "offcut", "offcut from elsewhere, with its factory end: \"14 1/2 left\""},
	{"planks", "count", "whole planks here out of their boxes: 14, or \"14 lot B\""},
	{"boxes", "count", "unopened boxes here: 3, or \"3 lot B\""},
	{"longer", "row", "from that row on, rows end so much farther: \"Kitchen 9 1/2\""},
	{"shorter", "row", "from that row on, rows end so much nearer: \"Kitchen 9 1/2\""},
	{"happened", "lines", "any other line, or several; \"cutopt help site\" lists them"},
}

func newSiteFlags() *siteFlags {
	f := &siteFlags{set: pflag.NewFlagSet("site", pflag.ContinueOnError)}
	f.set.SortFlags = false
	for _, flag := range frequent {
		usage := flag.usage
		if flag.name == "laid" || flag.name == "lost" {
			usage += "; may be repeated, as those below"
		}
		f.set.Var(&lineFlag{f, flag.name, flag.kind}, flag.name, usage)
	}
	mix := f.set.VarPF(&lineFlag{f, "mix", "bool"}, "mix", "", "a floor may be laid of several lots")
	mix.NoOptDefVal = "true"
	return f
}

// A lineFlag adds a line to the state.
type lineFlag struct {
	flags      *siteFlags
	name, kind string
}

func (l *lineFlag) String() string { return "" }
func (l *lineFlag) Type() string   { return l.kind }

// Set adds the line that the flag and its value stand for.
func (l *lineFlag) Set(value string) error {
	text := l.name + " " + value
	switch l.name {
	case "happened": // lines of a file, as $(cat happened.txt) gives them
		for line := range strings.SplitSeq(value, "\n") {
			if !site.Blank(line) || !strings.Contains(value, "\n") {
				l.add(strings.TrimSpace(line))
			}
		}
		return nil
	case "mix":
		text = "mix"
		if value != "true" {
			return errors.New("it takes no value")
		}
	}
	l.add(text)
	return nil
}

func (l *lineFlag) add(text string) {
	l.flags.lines = append(l.flags.lines, site.Line{Text: text})
	l.flags.from = append(l.flags.from, l.name)
}

// A siteSource is a job that is begun with its plan, and what happened.
type siteSource struct {
	*jobSource
	plan      *cutopt.Plan
	paths     []string // of what was read
	jobPath   string
	planPath  string
	state     *site.State
	amended   *cutopt.Job  // the job with what was measured anew
	marked    *cutopt.Plan // the plan with what happened
	remarks   []cutopt.Finding
	remeasure bool // the job is amended
}

// begun reads what happened, from files and flags, and works it into job and plan. The arguments are JOB PLAN, JOB
// PLAN SITE, or SITE.
func (f *siteFlags) begun(e *env, c string, args []string) (*siteSource, error) {
	var file *site.File
	var err error
	src := new(siteSource)
	switch len(args) {
	case 1, 3:
		if file, err = readSite(args[len(args)-1], e.stdin); err != nil {
			return nil, mistaken(c, args[len(args)-1], err)
		}
		src.paths = append(src.paths, args[len(args)-1])
	case 0:
		return nil, usagef("%s needs a job and its plan, or a file that tells of both: cutopt %s JOB PLAN.json", c, c)
	}
	if len(args) > 3 {
		return nil, usagef("%s takes JOB PLAN.json, then a site file; %q is one too many", c, args[3])
	}
	if len(args) > 1 {
		src.jobPath, src.planPath = args[0], args[1]
	} else {
		dir := filepath.Dir(args[0])
		src.jobPath, src.planPath = beside(dir, file.Job), beside(dir, file.Plan)
	}
	src.paths = append(src.paths, src.jobPath, src.planPath)
	if slices.Contains(src.paths, "-") && countOf(src.paths, "-") > 1 {
		return nil, usagef("%s: only one file can come from standard input", c)
	}
	quiet := *e // what is to be noted of the job was said when it was planned
	quiet.stderr = io.Discard
	if src.jobSource, err = newJobFlags().job(&quiet, src.jobPath); err != nil {
		return nil, mistaken(c, src.jobPath, err)
	}
	if src.plan, err = readPlan(src.planPath, e.stdin); err != nil {
		return nil, mistaken(c, src.planPath, err)
	}
	if file == nil {
		file = new(site.File)
	}
	return src, f.work(src, file)
}

// work reads the lines for the plan and applies them.
func (f *siteFlags) work(src *siteSource, file *site.File) error {
	grammar := site.NewGrammar(src.job, src.plan)
	var err error
	if src.state, err = file.State(grammar); err != nil {
		return usagef("%w", err)
	}
	for i, line := range f.lines {
		event, err := grammar.Parse(line.Text)
		if err != nil {
			return usagef("--%s: %w", f.from[i], err)
		}
		src.state.Events = append(src.state.Events, event)
	}
	src.amended, src.marked, src.remarks, err = file.Apply(src.job, src.plan, src.state)
	if err != nil {
		return usagef("%w", err)
	}
	for _, event := range src.state.Events {
		src.remeasure = src.remeasure || event.Kind.Remeasures()
	}
	return nil
}

// mistaken returns what a file is that cannot be read as what its place asks for, where it is another of those that the
// command takes; else the error of reading it.
func mistaken(c, path string, err error) error {
	if path == "-" {
		return err
	}
	is := ""
	if _, err := readJob(path, nil); err == nil {
		is = "a job"
	} else if _, err := readPlan(path, nil); err == nil {
		is = "a plan"
	} else if _, err := readSite(path, nil); err == nil {
		is = "a file of what happened"
	}
	if is == "" {
		return err
	}
	return usagef("%s is %s; %s takes a job, its plan and what happened, in that order: cutopt %s JOB PLAN.json [SITE], "+
		"or a file of what happened alone; cutopt plan JOB --json PLAN.json writes a plan", path, is, c, c)
}

func countOf(list []string, what string) (n int) {
	for _, s := range list {
		if s == what {
			n++
		}
	}
	return n
}

// beside returns the path of a file that is named from a folder.
func beside(dir, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(dir, filepath.FromSlash(name))
}

// readSite reads a file of what happened.
func readSite(path string, stdin io.Reader) (*site.File, error) {
	name := path
	if path != "-" {
		file, err := os.Open(path)
		if err != nil {
			return nil, notOpened("what happened", path, err)
		}
		defer file.Close()
		stdin = file
	} else {
		name = "standard input"
	}
	file, err := site.Decode(stdin, name)
	if err != nil {
		return nil, usagef("%w", err)
	}
	return file, nil
}

func runContinue(ctx context.Context, e *env, args []string) error {
	hf, of := newSiteFlags(), newOutFlags()
	of.set.Lookup("order").Usage = "order for the supplier of what to buy on top: " + strings.Join(orderEndings, ", ")
	jobOut := ""
	textVar(of.set, &jobOut, "job", "file", "", "job with what was measured anew, to go on from: .yaml")
	sf := newSolveFlags()
	sf.set.Lookup("fewest").Usage = "`what` the rest has as few as possible of: boxes or planks (boxes)"
	sf.set.MarkHidden("relax")
	rest, done, err := parseFlags(e, "continue", args, flagGroup{"What happened:", hf.set},
		flagGroup{"What to write:", of.set}, flagGroup{"The search:", sf.set})
	if err != nil || done {
		return err
	}
	if sf.set.Changed("relax") {
		return usagef("continue keeps the rules, and says what easing one would save; --relax is for plan")
	}
	opt, err := sf.options()
	if err != nil {
		return err
	}
	src, err := hf.begun(e, "continue", rest)
	if err != nil {
		return err
	}
	draw, err := of.options(src.paths)
	if err != nil {
		return err
	}
	if jobOut != "" {
		of.extra = append(of.extra, output{"job", jobOut, func(w io.Writer) error {
			return jobfile.Encode(w, src.amended)
		}})
		if err := of.distinct(src.paths); err != nil {
			return err
		}
	}
	speech := speak(draw.Language, src.amended)
	line := newProgressLine(e.stderr, speech)
	opt.Progress = line.show
	started := time.Now()
	result, err := solve.Continue(ctx, src.amended, src.marked, opt)
	line.clear()
	if err != nil {
		amended := *src.jobSource
		if src.remeasure {
			amended.file = nil // whose places are those of the job as it was
		}
		return solveError(ctx, speech, &amended, err)
	}
	if opt.Limit > 0 { // what is left of it
		opt.Limit = max(1, opt.Limit-time.Since(started))
	}
	of.remarks = append(of.remarks, eased(ctx, speech, src, result.Plan, opt)...)
	of.remarks = append(of.remarks, toFit(ctx, speech, src, result.Plan, opt)...)
	for i := range src.remarks {
		of.remarks = append(of.remarks, clean(speech.Finding(&src.remarks[i])))
	}
	if src.remeasure && jobOut == "" {
		of.remarks = append(of.remarks, speech.Say("site.amended"))
	}
	if site := result.Plan.Site; site == nil || site.Buy == 0 {
		if path := of.withdraw("order"); path != "" {
			of.unwritten = speech.Say("site.order-none", "file", clean(path))
		}
	}
	if of.jobPath = jobOut; jobOut == "" {
		of.jobPath = src.jobPath
	}
	return of.deliver(e, src.amended, result, draw)
}

// eased says what easing a rule would save where planks are missing.
func eased(ctx context.Context, s *words.Speech, src *siteSource, plan *cutopt.Plan, opt *solve.Options) []string {
	if plan.Site == nil || plan.Site.Short == 0 {
		return nil
	}
	ask := *opt
	ask.Fewest, ask.Progress = solve.FewestPlanks, nil
	all, err := solve.Eased(ctx, src.amended, src.marked, &ask)
	if err != nil { // the plan in hand is worth more than what it is compared with
		return nil
	}
	var out []string
	least := all[0].Result.Plan.Site.Short // by the job's own rules
	for _, v := range all[1:] {
		rule := s.Say("site.eased-stagger", "length", s.Length(v.Job.Rules.Stagger))
		if v.Aspect == solve.AspectMinPiece {
			rule = s.Say("site.eased-min-piece", "length", s.Length(v.Job.Rules.MinPiece))
		}
		switch site := v.Result.Plan.Site; {
		case site.Short >= least:
		case site.Short == 0:
			out = append(out, s.Say("site.eased-enough", "rule", rule))
		default:
			out = append(out, s.Count("site.eased", site.Short, "rule", rule))
		}
	}
	if len(out) == 0 && least > 0 {
		out = append(out, s.Say("site.eased-none", "by", s.Length(solve.RuleStep(src.amended.Unit))))
	}
	return out
}

// toFit says what is saved where lengths that differ by no more than the fit allowance are cut to fit.
func toFit(ctx context.Context, s *words.Speech, src *siteSource, plan *cutopt.Plan, opt *solve.Options) []string {
	if plan.Site == nil || plan.Order.Planks <= src.plan.Order.Planks {
		return nil
	}
	state, some, err := site.ToFit(src.job, src.plan, src.state)
	if err != nil || !some {
		return nil
	}
	job, marked, _, err := site.Apply(src.job, src.plan, state)
	if err != nil {
		return nil
	}
	ask := *opt
	ask.Progress = nil
	other, err := solve.Continue(ctx, job, marked, &ask)
	if err != nil { // the plan in hand is worth more than what it is compared with
		return nil
	}
	fewer := plan.Order.Planks - other.Plan.Order.Planks
	if opt.Fewest == solve.FewestBoxes && plan.Order.Boxes == other.Plan.Order.Boxes || fewer <= 0 {
		return nil
	}
	return []string{s.Count("site.to-fit", fewer, "fit", s.Length(job.Rules.Fit))}
}

// siteHelp explains the lines that tell what happened.
func siteHelp(w io.Writer) error {
	p := &page{width: reportWidth(w)}
	for i, text := range strings.Split(helpText("site"), "\n\n") {
		if i > 0 {
			p.WriteString("\n")
		}
		if strings.HasPrefix(text, "  ") {
			p.WriteString(text + "\n")
			continue
		}
		p.paragraph(text, "")
	}
	p.heading("Lines:")
	for _, s := range site.Lines() {
		p.entry(s.Line, s.Means)
	}
	_, err := fmt.Fprint(w, p.String())
	return err
}

// happened returns what the ticks of a sheet are copied as: a site file of the job and the plan.
func (d *drawing) happened() *sheet.Happened {
	plan := d.planPath
	if plan == "" || plan == "-" { // which is to be written still
		plan = strings.TrimSuffix(filepath.Base(d.jobPath), filepath.Ext(d.jobPath)) + ".json"
	}
	file := &site.File{Job: d.from(d.jobPath), Plan: d.from(plan)}
	if file.Job == "" {
		file.Job = "job.yaml"
	}
	var head strings.Builder
	if err := site.Encode(&head, file); err != nil {
		return nil
	}
	grammar := site.NewGrammar(d.job, d.plan)
	h := &sheet.Happened{Head: head.String(), Indent: "  ", Lines: make([][]string, len(d.plan.Floors))}
	for f := range d.plan.Floors {
		for row := range d.plan.Floors[f].Rows {
			h.Lines[f] = append(h.Lines[f], grammar.Format(site.Event{Kind: site.KindLaid, Floor: f, Row: row + 1}))
		}
	}
	return h
}

// from returns the path of a file as seen from the folder of what is written.
func (d *drawing) from(path string) string {
	if path == "" || path == "-" {
		return ""
	}
	if rel, err := filepath.Rel(d.dir, path); err == nil {
		path = rel
	}
	return filepath.ToSlash(path)
}
