package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/planfile"
	"plank.example/cutopt/site"
)

// jobFlags are the flags that describe a job, in full or on top of a job file. Lengths are kept as text until the unit
// is known.
type jobFlags struct {
	set      *pflag.FlagSet
	name     string
	unit     string
	rooms    []string
	outlines []string
	plank    string
	planks   int
	covers   string
	price    string
	spare    string
	rules    []*ruleFlag
	dir      string
	start    string
	from     string
	firstRow string
	aims     string
	pattern  string
}

// A ruleFlag sets one rule.
type ruleFlag struct {
	rule cutopt.Rule
	text string
}

// usage says what a rule is, and its defaults.
func (f *ruleFlag) usage() string {
	defaults := f.rule.Default
	if f.rule.MetricDefault != defaults {
		defaults += " | " + f.rule.MetricDefault
	}
	return f.rule.Help + " (" + defaults + ")"
}

func newJobFlags() *jobFlags {
	f := &jobFlags{set: pflag.NewFlagSet("job", pflag.ContinueOnError)}
	s := f.set
	s.SortFlags = false
	textVar(s, &f.name, "name", "text", "", "heading of the plan")
	textVar(s, &f.unit, "unit", "unit", "", "unit of bare numbers and of the plan: in, ft, mm, cm or m (in)")
	s.Var(
		&listFlag{&f.rooms, "size"},
		"room",
		"length x width of a room: \"14ft 6in x 10ft 11in\", or with its name: \"Den=174x131\"; may be repeated",
	)
	s.Var(&listFlag{&f.outlines, "file"}, "outline", "a room's outline: GeoJSON, WKT or DXF; may be repeated")
	textVar(s, &f.plank, "plank", "size", "", "length x width of a plank: 48x7, or with its thickness: 48x7x1/4")
	s.IntVar(&f.planks, "box-planks", 0, "`planks` in a box")
	textVar(s, &f.covers, "box-covers", "area", "", "area that a box covers, in sq ft or m2")
	textVar(s, &f.price, "price", "amount", "", "price of a box")
	textVar(
		s,
		&f.spare,
		"spare",
		"planks",
		"",
		"whole planks to keep back for repairs: 4, \"3 %\" of those laid, or \"1 box per 50\" (0)",
	)
	for _, rule := range cutopt.RuleTable() {
		r := &ruleFlag{rule: rule}
		f.rules = append(f.rules, r)
		textVar(s, &r.text, rule.Key, rule.Kind(), "", r.usage())
	}
	textVar(
		s,
		&f.pattern,
		"pattern",
		"starters",
		"",
		"joints that repeat from row to row: halves, thirds, quarters, or starters such as \"16, 1/3 plank, "+
			"plank\" (irregular)",
	)
	textVar(
		s,
		&f.aims,
		"aims",
		"list",
		"",
		"what to improve within the boxes, most important first, such as h-joints,crosscuts; or none",
	)
	textVar(
		s,
		&f.dir,
		"direction",
		"way",
		"",
		"way the rows run: along or across the longest wall, free, diagonal, or degrees (along)",
	)
	textVar(s, &f.start, "start", "side", "", "side of the first row: near, far or the number of a wall (near)")
	textVar(s, &f.from, "from", "hand", "", "hand that rows are laid from: left or right (left)")
	textVar(s, &f.firstRow, "first-row", "width", "", "width of the first row, or auto: the planner's choice (auto)")
	takes(s, "unit", "in", "ft", "mm", "cm", "m")
	takes(s, "direction", "along", "across", "free", "diagonal")
	takes(s, "start", "near", "far")
	takes(s, "from", "left", "right")
	takes(s, "pattern", "irregular", "halves", "thirds", "quarters")
	return f
}

// given reports whether the flags describe rooms, so that no job file is needed.
func (f *jobFlags) given() bool { return len(f.rooms)+len(f.outlines) > 0 }

// job reads the job file, "-" for standard input and "" for none, lays the flags over it and validates the whole.
func (f *jobFlags) job(e *env, path string) (*jobSource, error) {
	src := &jobSource{job: new(cutopt.Job), flags: f}
	if path != "" {
		file, err := readJob(path, e.stdin)
		if err != nil {
			return nil, err
		}
		for _, w := range file.Warnings {
			fmt.Fprintf(e.stderr, "cutopt: note: %s\n", clean(w.String()))
		}
		src.file, src.job = file, file.Job
	}
	job := src.job
	if f.unit != "" {
		u, err := measure.ParseUnit(f.unit)
		if err != nil {
			return nil, flagError("unit", err)
		}
		job.Unit = u
	}
	if path == "" {
		job.Rules = cutopt.DefaultRules(job.Unit)
	}
	roomList := func(job *cutopt.Job) error { return f.roomList(job, path != "") }
	for _, step := range []func(*cutopt.Job) error{f.product, f.ruleList, roomList, f.rowRules} {
		if err := step(job); err != nil {
			return nil, err
		}
	}
	if f.set.Changed("name") {
		job.Name = f.name
	}
	if path == "" {
		if err := f.missing(job); err != nil {
			return nil, err
		}
	}
	if err := job.Validate(); err != nil {
		return nil, src.inputError(err)
	}
	for _, d := range job.Doubts() {
		if flag := f.sets(d.Field); flag != "" { // those of the file are told
			fmt.Fprintf(e.stderr, "cutopt: note: --%s: %s\n", flag, clean(d.Error()))
		}
	}
	return src, nil
}

// readJob reads a job file.
func readJob(path string, stdin io.Reader) (*jobfile.File, error) {
	name := path
	if path == "-" {
		name = "standard input"
	} else {
		file, err := os.Open(path)
		if err != nil {
			return nil, notOpened("the job file", path, err)
		}
		defer file.Close()
		stdin = file
	}
	file, err := jobfile.Read(stdin, name)
	var wrong jobfile.Errors
	switch {
	case errors.As(err, &wrong):
		if other := otherKind(path); other != "" {
			return nil, usagef("%s is %s; a job file, which \"cutopt new\" writes, comes first", path, other)
		}
		return nil, &usageError{err}
	case err != nil:
		return nil, usagef("the job file cannot be read: %w", err)
	}
	return file, nil
}

// otherKind says what a file is that is no job: a plan, or what happened on site; "" for neither.
func otherKind(path string) string {
	read := func(decode func(io.Reader) error) bool {
		file, err := os.Open(path)
		if err != nil {
			return false
		}
		defer file.Close()
		return decode(io.LimitReader(file, jobfile.MaxSize)) == nil
	}
	switch {
	case read(func(r io.Reader) error { _, err := planfile.Decode(r); return err }):
		return "a plan"
	case read(func(r io.Reader) error { _, err := site.Decode(r, path); return err }):
		return "a file of what happened on site, for \"cutopt continue\""
	}
	return ""
}

// missing reports what a job given by flags alone lacks.
func (f *jobFlags) missing(job *cutopt.Job) error {
	switch {
	case len(job.Rooms) == 0:
		return usagef(
			"no job file and no room: name a job file, or give --room \"14ft 6in x 10ft 11in\" or --outline FILE",
		)
	case job.Plank.Length == 0:
		return usagef("--plank is missing: give the plank's length and width, such as --plank 48x7")
	case job.Box.Planks == 0 && job.Box.Covers == 0:
		return usagef("--box-planks is missing: give the planks in a box, or with --box-covers the area it covers")
	}
	return nil
}

// product sets the plank and the box.
func (f *jobFlags) product(job *cutopt.Job) error {
	if f.plank != "" {
		sizes, err := measure.ParseSize(f.plank, job.Unit)
		if err != nil {
			return flagError("plank", err)
		}
		job.Plank.Length, job.Plank.Width = sizes[0], sizes[1]
		if len(sizes) == 3 {
			job.Plank.Thickness = sizes[2]
		}
	}
	if f.set.Changed("box-planks") || f.covers != "" {
		job.Box.Planks, job.Box.Covers = 0, 0
	}
	if f.set.Changed("box-planks") {
		if f.planks <= 0 {
			return usagef("--box-planks %d: a box holds at least one plank", f.planks)
		}
		job.Box.Planks = f.planks
	}
	if f.covers != "" {
		area, err := measure.ParseArea(f.covers, job.Unit)
		if err != nil {
			return flagError("box-covers", err)
		}
		job.Box.Covers = area
	}
	if f.price != "" {
		price, err := cutopt.ParseMoney(f.price)
		if err != nil {
			return flagError("price", err)
		}
		job.Box.Price = price
	}
	if f.set.Changed("spare") {
		spare, err := cutopt.ParseSpare(f.spare)
		if err != nil {
			return flagError("spare", err)
		}
		job.Spare = spare
	}
	return nil
}

// ruleList sets the rules that are given, the pattern and the aims.
func (f *jobFlags) ruleList(job *cutopt.Job) (err error) {
	for _, r := range f.rules {
		if r.text == "" {
			continue
		}
		if err := r.rule.Parse(&job.Rules, r.text, job.Unit); err != nil {
			return flagError(r.rule.Key, err)
		}
	}
	if f.pattern != "" {
		if job.Pattern, err = cutopt.ParsePattern(f.pattern, job.Unit, job.Plank.Length, job.Rules.Grid); err != nil {
			return flagError("pattern", err)
		}
	}
	if f.aims != "" {
		if job.Aims, err = cutopt.ParseAims(f.aims); err != nil {
			return flagError("aims", err)
		}
	}
	return nil
}

// roomList replaces the rooms of the job file by those of the flags.
func (f *jobFlags) roomList(job *cutopt.Job, fromFile bool) error {
	if !f.given() {
		return nil
	}
	job.Rooms = nil
	for i, text := range f.rooms {
		name, size, named := strings.Cut(text, "=")
		if !named {
			name, size = fmt.Sprintf("Room %d", i+1), text
		}
		sides, err := measure.ParseSize(size, job.Unit)
		if err != nil {
			return flagError("room", err)
		}
		if len(sides) != 2 {
			return usagef(
				"--room %q: a room is given as length x width, such as \"14ft 6in x 10ft 11in\"; other shapes go "+
					"into a job file",
				text,
			)
		}
		x, y := sides[0], sides[1]
		job.Rooms = append(job.Rooms, cutopt.Room{
			Name:    name,
			Outline: []cutopt.Point{{X: 0, Y: 0}, {X: x, Y: 0}, {X: x, Y: y}, {X: 0, Y: y}},
		})
	}
	unit := &job.Unit
	if !fromFile && f.unit == "" {
		unit = nil // nobody has stated one
	}
	for _, path := range f.outlines {
		rooms, err := readOutline(path, unit)
		if err != nil {
			return err
		}
		job.Rooms = append(job.Rooms, rooms...)
	}
	return nil
}

// rowRules sets how the rows of every room lie.
func (f *jobFlags) rowRules(job *cutopt.Job) error {
	for i := range job.Rooms {
		r := &job.Rooms[i].Rows
		for _, set := range []func(*cutopt.RowRules) error{f.direction, f.side, f.hand} {
			if err := set(r); err != nil {
				return err
			}
		}
		if f.firstRow != "" {
			width, err := cutopt.ParseFirstRow(f.firstRow, job.Unit)
			if err != nil {
				return flagError("first-row", err)
			}
			r.FirstRow = width
		}
	}
	return nil
}

func (f *jobFlags) direction(r *cutopt.RowRules) error {
	if f.dir == "" {
		return nil
	}
	if err := r.ParseDirection(f.dir); err != nil {
		return flagError("direction", err)
	}
	return nil
}

func (f *jobFlags) side(r *cutopt.RowRules) error {
	if wall, err := strconv.Atoi(f.start); err == nil {
		if wall < 1 {
			return usagef("--start %d: walls are numbered from 1", wall)
		}
		r.StartWall, r.Start, r.Direction, r.Angle = wall, cutopt.StartNear, cutopt.DirectionAlong, 0
		return nil
	}
	if f.start != "" {
		r.StartWall = 0
	}
	return oneOf("start", f.start, []string{"near", "far"}, func(i int) { r.Start = cutopt.Start(i) })
}

func (f *jobFlags) hand(r *cutopt.RowRules) error {
	return oneOf(
		"from",
		f.from,
		[]string{"left", "right"},
		func(i int) { r.LaidFrom = cutopt.FromLeft + cutopt.From(i) },
	)
}

// oneOf calls set with the index of text among the words, unless text is empty.
func oneOf(flag, text string, words []string, set func(int)) error {
	if text == "" {
		return nil
	}
	i := slices.Index(words, text)
	if i < 0 {
		return usagef("--%s %q: one of %s%s", flag, text, strings.Join(words, ", "), didYouMean(text, words))
	}
	set(i)
	return nil
}

// flagError puts the name of the flag before an error about its value.
func flagError(flag string, err error) error {
	var field *cutopt.FieldError
	if errors.As(err, &field) {
		text := fmt.Sprintf("--%s %q: %s", flag, field.Value, field.Rule)
		if field.Mend != "" {
			text += "; " + field.Mend
		}
		return usagef("%s", text)
	}
	return usagef("--%s: %s", flag, strings.TrimPrefix(err.Error(), "cutopt: "))
}
