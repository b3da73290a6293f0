package sheet_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/sheet/paper"
	"plank.example/cutopt/words"
)

// A document is one thing the package writes.
type document struct {
	name  string
	write func(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, opt *sheet.Options) error
}

func documents() []document {
	docs := []document{
		{"sheet.html", writeHTML},
		{"sheet.pdf", writePDF},
		{"map.txt", writeText},
		{"pocket.html", writePocket},
		{"pocket.pdf", writePocketPDF},
	}
	for _, f := range []sheet.Format{sheet.FormatSVG, sheet.FormatPNG, sheet.FormatPDF} {
		docs = append(docs,
			document{"map." + f.String(), func(w io.Writer, job *cutopt.Job, plan *cutopt.Plan,
				opt *sheet.Options,
			) error {
				return writeMap(w, job, plan, f, opt)
			}},
			document{"planks." + f.String(), func(w io.Writer, job *cutopt.Job, plan *cutopt.Plan,
				opt *sheet.Options,
			) error {
				return writePlanks(w, job, plan, f, opt)
			}})
	}
	for _, f := range []sheet.Format{sheet.FormatCSV, sheet.FormatMarkdown, sheet.FormatText} {
		docs = append(
			docs,
			document{"cuts." + f.String(), func(w io.Writer, job *cutopt.Job, plan *cutopt.Plan,
				opt *sheet.Options,
			) error {
				return writeCuts(w, job, plan, f, opt)
			}},
		)
	}
	return docs
}

func TestFormatOf(t *testing.T) {
	for name, want := range map[string]sheet.Format{
		"a.svg": sheet.FormatSVG, "a.PNG": sheet.FormatPNG, "x/y.pdf": sheet.FormatPDF, "a.b.html": sheet.FormatHTML,
		"a.htm": sheet.FormatHTML, "a.csv": sheet.FormatCSV, "a.md": sheet.FormatMarkdown, "a.txt": sheet.FormatText,
	} {
		if got, err := sheet.FormatOf(name); err != nil || got != want {
			t.Errorf("FormatOf(%q) = %v, %v; want %v", name, got, err, want)
		}
	}
	for _, name := range []string{"", "map", "map.gif", "svg", "map.svg.gz"} {
		if _, err := sheet.FormatOf(name); err == nil || !strings.Contains(err.Error(), strconv.Quote(name)) ||
			!strings.Contains(err.Error(), ".svg") {
			t.Errorf("FormatOf(%q): %v; want an error that quotes the name and lists the endings", name, err)
		}
	}
}

// The same plan gives the same bytes, also when many are written at once.
func TestSameBytes(t *testing.T) {
	job := kitchenJob()
	plan := layOut(job)
	for _, doc := range documents() {
		want := written(t, func(w io.Writer) error { return doc.write(w, job, plan, &sheet.Options{DPI: 40}) })
		if len(want) == 0 {
			t.Errorf("%s is empty", doc.name)
		}
		var wg sync.WaitGroup
		for range 2 {
			wg.Go(func() {
				var buf bytes.Buffer
				if err := doc.write(&buf, job, plan, &sheet.Options{DPI: 40}); err != nil || buf.String() != want {
					t.Errorf("%s: %v, or other bytes than before", doc.name, err)
				}
			})
		}
		wg.Wait()
	}
}

// The list of cuts names every piece of the plan once, with its length, and every offcut.
func TestCutsAreThePlans(t *testing.T) {
	for name, job := range scenes() {
		plan := planOf(name, job)
		text := written(t, func(w io.Writer) error { return writeCuts(w, job, plan, sheet.FormatCSV, nil) })
		lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		var got, want []string
		for _, l := range lines[1:] {
			got = append(got, strings.Join([]string{l[0], l[1], l[3], l[4]}, "/"))
			from, _ := measure.Parse(l[5], job.Unit)
			to, _ := measure.Parse(l[6], job.Unit)
			length, _ := measure.Parse(l[4], job.Unit)
			if off := to - from - length; off < -job.Rules.Grid || off > job.Rules.Grid {
				t.Errorf("%s: %v: from and to do not fit the length", name, l)
			}
		}
		bare := func(l measure.Length) string { return l.Floor(job.Rules.Grid).Compact(job.Unit, job.Rules.Grid) }
		for _, room := range plan.Floors {
			for j, row := range room.Rows {
				for k, run := range row.Runs {
					for n, p := range run.Pieces {
						place := strconv.Itoa(j + 1)
						if len(row.Runs) > 1 {
							place += string(rune('a' + k)) // as in the table of rows on the terminal
						}
						want = append(want, fmt.Sprintf("%d/%s/%s/%s", p.Plank, kindOf(p, n, len(run.Pieces)),
							place, bare(p.Length)))
					}
				}
			}
		}
		for _, use := range plan.Planks {
			for _, o := range use.Left {
				want = append(want, fmt.Sprintf("%d/left over//%s", use.Number, bare(o.To-o.From)))
			}
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s: the list of cuts is\n%v\nthe plan\n%v", name, got, want)
		}
	}
}

func kindOf(p cutopt.Piece, n, of int) string {
	switch {
	case p.Ends == cutopt.EndsBoth:
		return "whole plank"
	case of == 1:
		return "single piece"
	case n == 0:
		return "starter"
	}
	return "ender"
}

// htmlOf returns the HTML sheet with plain spaces in its lengths.
func htmlOf(t *testing.T, job *cutopt.Job, plan *cutopt.Plan) string {
	t.Helper()
	return strings.ReplaceAll(written(t, func(w io.Writer) error { return writeHTML(w, job, plan, nil) }), "\u00a0",
		" ")
}

var stepHead = regexp.MustCompile(`(?s)<article class="step" id="row-(\d+)-(\d+)">(.*?)</article>`)

// Every length in the steps of a row is a length of the plan: of a piece or an offcut of one of the row's planks, or
// the row's width. And every sawn piece is told with its length.
func TestStepsAreThePlans(t *testing.T) {
	lengths := regexp.MustCompile(`(\d+(?: \d+/\d+)?|\d+/\d+) (?:in|mm)\b`)
	for name, job := range scenes() {
		plan := planOf(name, job)
		page := htmlOf(t, job, plan)
		text := func(l measure.Length) string { return l.Floor(job.Rules.Grid).Format(job.Unit, job.Rules.Grid) }
		steps := stepHead.FindAllStringSubmatch(page, -1)
		if len(steps) != len(plan.Floors[0].Rows) {
			t.Fatalf("%s: %d steps for %d rows", name, len(steps), len(plan.Floors[0].Rows))
		}
		for _, m := range steps {
			j, _ := strconv.Atoi(m[2])
			row := plan.Floors[0].Rows[j-1]
			body, _, _ := strings.Cut(m[3], `<p class="pile">`)
			allowed := map[string]bool{text(row.Width): true}
			for _, run := range row.Runs {
				allowed[text(run.To-run.From)] = true
				for n, p := range run.Pieces {
					if kind := kindOf(p, n, len(run.Pieces)); kind != "whole plank" && !strings.Contains(body,
						text(p.Length)) {
						t.Errorf("%s row %d: %s of %s is not told", name, j, kind, text(p.Length))
					}
					for l := range partsOf(job, plan, p.Plank) {
						allowed[text(l)] = true
					}
					for i := range p.Shaping {
						speech := words.New("en", nil, job.Unit, job.Rules.Grid)
						body = strings.ReplaceAll(body, speech.Fact(job, &p.Shaping[i]), "")
					}
				}
			}
			for _, l := range lengths.FindAllString(body, -1) {
				if !allowed[l] {
					t.Errorf("%s row %d tells %s, which is no length of its planks", name, j, l)
				}
			}
		}
	}
}

// partsOf returns all lengths that can come off a plank: between any two of its ends and cuts.
func partsOf(job *cutopt.Job, plan *cutopt.Plan, number int) map[measure.Length]bool {
	use := plan.Planks[number-1]
	left, right := []measure.Length{0}, []measure.Length{job.Plank.Length}
	for _, c := range use.Cuts {
		left, right = append(left, c.At+job.Rules.Kerf), append(right, c.At)
	}
	parts := make(map[measure.Length]bool)
	for _, ref := range use.Pieces {
		l := plan.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run].Pieces[ref.Piece].Length
		parts[l], parts[job.Plank.Length-job.Rules.Kerf-l] = true, true
	}
	for _, a := range left {
		for _, b := range right {
			if b > a {
				parts[b-a] = true
			}
		}
	}
	return parts
}

// The order tells the planks kept for repairs from those that are over.
func TestOrderTellsSpares(t *testing.T) {
	for _, c := range []struct {
		spare    cutopt.Spare
		language string
		want     []string
	}{
		// The den takes 80 planks, 8 to a box.
		{cutopt.Spare{}, "en", []string{
			"The floor takes 80. Whole planks left over: 0.",
			"No plank is there for one that breaks",
		}},
		{cutopt.Spare{Planks: 3}, "en", []string{
			"The floor takes 80. Whole planks kept for repairs: 3. Whole planks left over: 5.",
			"5 whole planks are there for those that break.",
			"3 whole planks are kept for repairs",
		}},
		{cutopt.Spare{Percent: 10}, "de", []string{
			"Ganze Dielen als Vorrat für Reparaturen: 8. Ganze Dielen übrig: 0.",
			"8 ganze Dielen gehören zum Vorrat",
		}},
		{cutopt.Spare{BoxPer: 50}, "en", []string{
			"Buy 11 boxes.",
			"Planks kept for repairs, in unopened boxes: 8. Whole " +
				"planks left over: 0.",
		}},
		{
			cutopt.Spare{BoxPer: 50},
			"de",
			[]string{"Dielen als Vorrat für Reparaturen, in ungeöffneten Paketen: 8. Ganze " +
				"Dielen übrig: 0."},
		},
	} {
		job := denJob()
		job.Spare = c.spare
		var out bytes.Buffer
		if err := writeHTML(&out, job, layOut(job), &sheet.Options{Language: c.language}); err != nil {
			t.Fatal(err)
		}
		for _, want := range c.want {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%v, %s: the sheet does not say %q", c.spare, c.language, want)
			}
		}
	}
}

// The order weighs numbers of boxes where the verdict is given: each figure is the verdict's, and what to buy is what
// it recommends.
func TestOrderTellsRisk(t *testing.T) {
	job := denJob()
	plan := planOf("den", job)
	o := plan.Order
	v := &cutopt.Verdict{
		Recommended: o.Boxes + 1, Loss: 0.03, Limit: 0.04, Times: 123,
		Counts: []cutopt.BoxCount{
			{Boxes: plan.Bound.Boxes - 1, Enough: cutopt.EnoughNo, Left: -7},
			{
				Boxes:           o.Boxes,
				Enough:          cutopt.EnoughYes,
				Left:            2,
				AddedToFloor:    6.25,
				ShareOfPurchase: 5.75,
				Risk:            cutopt.Chance{Simulated: 0.188, Plain: 0.21},
			},
			{Boxes: o.Boxes + 1, Enough: cutopt.EnoughYes, Left: 10, Risk: cutopt.Chance{
				Simulated: 0.011,
				Plain:     0.012,
			}},
		},
	}
	takes := fmt.Sprintf("%d boxes are enough if no plank breaks.", o.Boxes)
	for _, c := range []struct {
		language string
		runs     int
		best     int
		want     []string
		not      string
	}{
		{"en", 123, o.Boxes + 1, []string{
			takes, fmt.Sprintf("Buy %d boxes: if 3 %% of the planks break", o.Boxes+1), "short of 4 % or less",
			"laying the " +
				"floor 123 times",
			"proven too few", "-7", "6.2 %", "5.8 %", "18.8 %", "1.1 %",
		}, "21.0 %"},
		{
			"en", 0, o.Boxes + 1,
			[]string{takes, "21.0 %", "1.2 %", "as if every broken plank cost a whole one"},
			"18.8 %",
		},
		{"en", 123, o.Boxes, []string{
			fmt.Sprintf("Buy %d boxes.", o.Boxes),
			fmt.Sprintf("the chance that %d boxes run "+
				"short is 4 %% or less", o.Boxes),
		}, takes},
		{"de", 123, o.Boxes + 1, []string{
			fmt.Sprintf("%d Pakete kaufen: Wenn 3 %% der Dielen brechen", o.Boxes+1),
			"bewiesen zu wenige", "18,8 %",
		}, takes},
	} {
		v.Times, v.Recommended = c.runs, c.best
		for i := range v.Counts {
			v.Counts[i].Risk.Times = c.runs
		}
		var b bytes.Buffer
		if err := writeHTML(&b, job, plan, &sheet.Options{Language: c.language, Verdict: v}); err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(b.String(), "\u00a0", " ")
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s, %d runs: %q is missing", c.language, c.runs, want)
			}
		}
		if strings.Contains(text, c.not) {
			t.Errorf("%s, %d runs: %q is there", c.language, c.runs, c.not)
		}
	}
}

func TestOptionsAreChecked(t *testing.T) {
	job := denJob()
	plan := layOut(job)
	for _, c := range []struct {
		opt  sheet.Options
		want string
	}{
		{sheet.Options{Paper: 9}, "Options.Paper is Paper(9)"},
		{sheet.Options{Language: "tlh"}, `Options.Language is "tlh"`},
		{sheet.Options{Words: map[string]string{"nonsense": "x"}}, `Options.Words is keyed by "nonsense"`},
		{sheet.Options{Floor: 2}, "Options.Room is 2"},
		{sheet.Options{Floor: -1}, "Options.Room is -1"},
		{sheet.Options{DPI: 5}, "Options.DPI is 5"},
		{sheet.Options{Columns: 10}, "Options.Columns is 10"},
	} {
		for _, doc := range documents() {
			var buf bytes.Buffer
			err := doc.write(&buf, job, plan, &c.opt)
			if err == nil || !strings.Contains(err.Error(), c.want) || buf.Len() > 0 {
				t.Errorf("%s: %v and %d bytes, want an error with %q and nothing written", doc.name, err, buf.Len(),
					c.want)
			}
		}
	}
	var buf bytes.Buffer
	for _, err := range []error{
		writeMap(&buf, job, plan, sheet.FormatHTML, nil), writePlanks(&buf, job, plan, sheet.FormatCSV, nil),
		writeCuts(&buf, job, plan, sheet.FormatPDF, nil),
	} {
		if err == nil || buf.Len() > 0 {
			t.Errorf("a wrong format: %v, %d bytes", err, buf.Len())
		}
	}
}

func TestWordsReplace(t *testing.T) {
	job := denJob()
	text := written(t, func(w io.Writer) error {
		return writeText(w, job, layOut(job), &sheet.Options{Words: map[string]string{"starting-wall": "Window side"}})
	})
	if !strings.Contains(text, "Window side") || strings.Contains(text, "Starting wall") {
		t.Errorf("the word was not replaced:\n%s", text)
	}
}

// Whatever the width, no line is wider, every row has its line, and where a piece is wide enough its length is told.
func TestTextAdapts(t *testing.T) {
	job := kitchenJob()
	job.Rooms[0].Name = strings.Repeat("Long Name ", 40)
	plan := layOut(job)
	for columns := 20; columns <= 200; columns += 7 {
		for _, ascii := range []bool{false, true} {
			text := written(t, func(w io.Writer) error {
				return writeText(w, job, plan, &sheet.Options{Columns: columns, ASCII: ascii})
			})
			rows := 0
			for _, line := range strings.Split(text, "\n") {
				if n := len([]rune(line)); n > columns {
					t.Errorf("%d columns: a line of %d: %s", columns, n, line)
				}
				for _, r := range line {
					if ascii && r > '~' {
						t.Errorf("the ASCII map has %q", r)
					}
				}
				if regexp.MustCompile(`^ *\d+ .*[|│]`).MatchString(line) {
					rows++
				}
			}
			if rows != len(plan.Floors[0].Rows) {
				t.Errorf("%d columns: %d rows drawn of %d", columns, rows, len(plan.Floors[0].Rows))
			}
			if columns > 120 && !strings.Contains(text, "E 27 1/2") && !strings.Contains(text, "E 27") {
				t.Errorf("%d columns do not tell the first ender:\n%s", columns, text)
			}
		}
	}
}

// The pictures within the sheet set their text in lines of the page's width, not a letter at a time.
func TestSheetPicturesHaveLines(t *testing.T) {
	for name, job := range scenes() {
		page := htmlOf(t, job, planOf(name, job))
		_, strips, _ := strings.Cut(page, `<section id="strips"`)
		if !strings.Contains(strips, ">Crosscut first, rip afterwards: only the piece") {
			t.Errorf("%s: the plank sheet's explanation is not set in lines", name)
		}
	}
}

// The names of formats, papers and documents read back, and what is no picture is refused.
func TestNames(t *testing.T) {
	for f := sheet.FormatSVG; f <= sheet.FormatText; f++ {
		var back sheet.Format
		if text, err := f.MarshalText(); err != nil || back.UnmarshalText(text) != nil || back != f {
			t.Errorf("%v reads back as %v, %v", f, back, err)
		}
	}
	for p := sheet.PaperAuto; p <= sheet.PaperLetter; p++ {
		var back sheet.Paper
		if text, err := p.MarshalText(); err != nil || back.UnmarshalText(text) != nil || back != p {
			t.Errorf("%v reads back as %v, %v", p, back, err)
		}
	}
	for d := sheet.DocumentSheet; d <= sheet.DocumentPlanks; d++ {
		var back sheet.Document
		if text, err := d.MarshalText(); err != nil || back.UnmarshalText(text) != nil || back != d {
			t.Errorf("%v reads back as %v, %v", d, back, err)
		}
	}
	job := kitchenJob()
	s, err := sheet.New(job, layOut(job), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range []sheet.Document{sheet.DocumentSheet, 9} {
		var b bytes.Buffer
		if err := paper.PNG(&b, s, d); err == nil || b.Len() > 0 {
			t.Errorf("%v is painted as a picture", d)
		}
	}
	if err := paper.PDF(new(bytes.Buffer), s, 9); err == nil {
		t.Error("a document that is none is printed")
	}
}
