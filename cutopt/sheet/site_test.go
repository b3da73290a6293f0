package sheet_test

import (
	"context"
	"io"
	"os"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/planfile"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/sheet/paper"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// secondMorning is the example of a job that is begun.
func secondMorning(t *testing.T) (*cutopt.Job, *cutopt.Plan) {
	t.Helper()
	open := func(name string) *os.File {
		f, err := os.Open("../../examples/" + name)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { f.Close() })
		return f
	}
	file, err := site.Decode(open("site.yaml"), "site.yaml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobfile.Decode(open(file.Job), file.Job)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := planfile.Decode(open(file.Plan))
	if err != nil {
		t.Fatal(err)
	}
	state, err := file.State(site.NewGrammar(job, plan))
	if err != nil {
		t.Fatal(err)
	}
	amended, marked, _, err := file.Apply(job, plan, state)
	if err != nil {
		t.Fatal(err)
	}
	result, err := solve.Continue(context.Background(), amended, marked, nil)
	if err != nil {
		t.Fatal(err)
	}
	return amended, result.Plan
}

// TestSheetOfJobBegun holds that the sheet of a job that is begun opens with whether what is here will do, marks what
// lies, lists every offcut on hand that is long enough for a piece, and copies its ticks only where it is told how.
func TestSheetOfJobBegun(t *testing.T) {
	job, plan := secondMorning(t)
	lines := make([][]string, len(plan.Floors))
	grammar := site.NewGrammar(job, plan)
	for f := range plan.Floors {
		for row := range plan.Floors[f].Rows {
			lines[f] = append(lines[f], grammar.Format(site.Event{Floor: f, Row: row + 1}))
		}
	}
	opt := &sheet.Options{Happened: &sheet.Happened{Head: "job: <j>\n", Indent: "  ", Lines: lines}}
	s, err := sheet.New(job, plan, opt)
	if err != nil {
		t.Fatal(err)
	}
	html := written(t, s.HTML)
	answer := strings.Index(html, "What is here will do")
	if first := strings.Index(html, "<h2"); answer < first || answer > first+400 {
		t.Error("the sheet does not begin with whether what is here will do")
	}
	if n := strings.Count(html, `class="step lies"`); n != 5 {
		t.Errorf("%d rows are marked as lying, want 5", n)
	}
	for _, want := range []string{
		"5 pieces of this row lie already", `data-line="Hall 7"`, `data-head="job: &lt;j&gt;`, `id="copy"`, "lies already",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	lay, err := laying.FromPlan(job, plan)
	if err != nil {
		t.Fatal(err)
	}
	_, hand, _ := strings.Cut(html, `<section id="hand"`)
	hand, _, _ = strings.Cut(hand, "</section>")
	long := 0
	for _, o := range lay.OnHand {
		if o.Next != nil || o.Length() >= job.Rules.MinPiece {
			long++
		}
	}
	if n := strings.Count(hand, "<tr>") - 1; n != long || long == 0 {
		t.Errorf("%d offcuts on hand are listed, want %d", n, long)
	}
	if plain := written(t, must(t, job, plan, nil).HTML); strings.Contains(plain, `id="copy"`) {
		t.Error("ticks are copied though nobody said as what")
	}
}

func must(t *testing.T, job *cutopt.Job, plan *cutopt.Plan, opt *sheet.Options) *sheet.Sheet {
	t.Helper()
	s, err := sheet.New(job, plan, opt)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestDocumentsOfJobBegun writes every document of a job that is begun, in each language and in grey.
func TestDocumentsOfJobBegun(t *testing.T) {
	job, plan := secondMorning(t)
	lie := 0
	for p := range plan.Pieces() {
		if p.Lies {
			lie++
		}
	}
	for _, opt := range []*sheet.Options{nil, {Language: "de"}, {Theme: sheet.GreyTheme()}} {
		s := must(t, job, plan, opt)
		for _, document := range []sheet.Document{sheet.DocumentSheet, sheet.DocumentPocket, sheet.DocumentMap} {
			if err := paper.PDF(io.Discard, s, document); err != nil {
				t.Errorf("%v: %v", document, err)
			}
		}
		for _, write := range []func(io.Writer) error{s.Pocket, s.Planks, s.Text} {
			if len(written(t, write)) == 0 {
				t.Error("a document is empty")
			}
		}
		theme := sheet.LightTheme()
		if opt != nil && opt.Theme != nil {
			theme = opt.Theme
		}
		if n := strings.Count(written(t, s.Map), colour(theme.Lies)); n < lie {
			t.Errorf("%d pieces are drawn as lying, want %d or more", n, lie)
		}
	}
	cuts := written(t, func(w io.Writer) error { return must(t, job, plan, nil).Cuts(w, sheet.FormatText) })
	if strings.Contains(cuts, "undefined") || !strings.Contains(cuts, "lies already") {
		t.Error("the list of cuts does not tell what lies of planks that are still cut from")
	}
}

func colour(c sheet.Colour) string {
	const digits = "0123456789abcdef"
	out := []byte("#000000")
	for i := range 6 {
		out[6-i] = digits[c>>(4*i)&15]
	}
	return string(out)
}
