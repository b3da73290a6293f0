package jobfile_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
)

var update = flag.Bool("update", false, "write the golden files")

// files returns the files that match one of the patterns.
func files(t testing.TB, patterns ...string) []string {
	t.Helper()
	var all []string
	for _, p := range patterns {
		names, err := filepath.Glob(p)
		if err != nil || len(names) == 0 {
			t.Fatalf("no files match %s (%v)", p, err)
		}
		all = append(all, names...)
	}
	all = slices.DeleteFunc(all, func(name string) bool { return filepath.Base(name) == "site.yaml" }) // no job
	return all
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}

// Every bad file gives exactly the errors of its golden file.
func TestBadFiles(t *testing.T) {
	for _, name := range files(t, "testdata/bad/*.yaml", "testdata/bad/*.json") {
		t.Run(filepath.Base(name), func(t *testing.T) {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			f, err := jobfile.Read(bytes.NewReader(data), filepath.Base(name))
			var errs jobfile.Errors
			if f != nil || !errors.As(err, &errs) {
				t.Fatalf("Read returned a file (%v) or no Errors: %v", f != nil, err)
			}
			for _, e := range errs {
				if e.Msg == "" || e.Line > 1+bytes.Count(data, []byte("\n")) || (e.Line > 0) != (e.Column > 0) {
					t.Errorf("error without a message or a place in the file: %+v", e)
				}
			}
			golden(t, name+".txt", err.Error()+"\n")
		})
	}
}

// Every good file is read, written and read back as the same job; the golden file shows what is written.
func TestGoodFiles(t *testing.T) {
	for _, name := range files(t, "testdata/good/*.yaml", "testdata/good/*.json", "../../examples/*.yaml") {
		t.Run(filepath.Base(name), func(t *testing.T) {
			in, err := os.Open(name)
			if err != nil {
				t.Fatal(err)
			}
			defer in.Close()
			f, err := jobfile.Read(in, filepath.Base(name))
			if err != nil {
				t.Fatal(err)
			}
			text := checkReadsBack(t, f.Job)
			if strings.HasPrefix(name, "testdata") {
				var b strings.Builder
				for _, w := range f.Warnings {
					b.WriteString("# " + w.String() + "\n")
				}
				golden(t, name+".txt", b.String()+text)
			}
		})
	}
}

// checkReadsBack writes a job and reads it back, and returns what was written.
func checkReadsBack(t *testing.T, job *cutopt.Job) string {
	t.Helper()
	var out bytes.Buffer
	if err := jobfile.Encode(&out, job); err != nil {
		t.Fatalf("Encode: %v\n%+v", err, job)
	}
	text := out.String()
	back, err := jobfile.Decode(&out, "again.yaml")
	if err != nil {
		t.Fatalf("what Encode wrote cannot be read: %v\n%s", err, text)
	}
	if diff := cmp.Diff(job, back); diff != "" {
		t.Fatalf("the job changed (-written +read):\n%s\n%s", diff, text)
	}
	return text
}

func TestDefaults(t *testing.T) {
	for unit, want := range map[string]cutopt.Rules{
		"in": cutopt.DefaultRules(measure.UnitInch), "ft": cutopt.DefaultRules(measure.UnitFoot),
		"mm": cutopt.DefaultRules(measure.UnitMillimetre), "m": cutopt.DefaultRules(measure.UnitMetre),
	} {
		// The unit counts even where it stands last.
		text := "plank: {length: 1220 mm, width: 180 mm}\nbox: {planks: 10}\nrooms: [{size: 4 m x 3 m}]\nunit: " + unit
		job, err := jobfile.Decode(strings.NewReader(text), "")
		if err != nil {
			t.Fatal(err)
		}
		if job.Rules != want {
			t.Errorf("rules of a file in %s: %+v, want %+v", unit, job.Rules, want)
		}
	}
}

// Lengths are exact: the hand-computed job of the first example.
func TestDecodedJob(t *testing.T) {
	const text = `
unit: in
plank: {length: 48, width: 7, thickness: 1/4}
box: {planks: 8, price: 49.90}
rooms:
  - name: Den
    size: 14' 6" x 10' 11 1/2"
    islands: [{at: [12, 1 1/2'], size: 2' x 30"}]
    doorways: [{wall: 2, at: 7, width: 2' 8", depth: 4 1/2}]
`
	const in = measure.Inch
	want := &cutopt.Job{
		Unit:  measure.UnitInch,
		Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in, Thickness: in / 4},
		Box:   cutopt.Box{Planks: 8, Price: 4990},
		Rules: cutopt.DefaultRules(measure.UnitInch),
		Rooms: []cutopt.Room{{
			Name:    "Den",
			Outline: []cutopt.Point{{}, {X: 174 * in}, {X: 174 * in, Y: 263 * in / 2}, {Y: 263 * in / 2}},
			Islands: []cutopt.Island{{Outline: []cutopt.Point{
				{X: 12 * in, Y: 18 * in}, {X: 36 * in, Y: 18 * in}, {X: 36 * in, Y: 48 * in}, {X: 12 * in, Y: 48 * in},
			}}},
			Doorways: []cutopt.Doorway{{Wall: 1, At: 7 * in, Width: 32 * in, Depth: 9 * in / 2}},
		}},
	}
	got, err := jobfile.Decode(strings.NewReader(text), "den.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// Junk of any size gives one clear error.
func TestJunk(t *testing.T) {
	for _, row := range []struct {
		name string
		data io.Reader
		msg  string
	}{
		{"10 MB of blanks", strings.NewReader(strings.Repeat(" ", 10<<20)), "at most 4 MB"},
		{"10 MB of zeros", bytes.NewReader(make([]byte, 10<<20)), "at most 4 MB"},
		{"zeros", bytes.NewReader(make([]byte, 1<<20)), "no YAML"},
		{"brackets", strings.NewReader(strings.Repeat("[", 4<<20)), "max depth"},
		{"block lists", strings.NewReader(strings.Repeat("- ", 2<<20)), "max depth"},
		{"braces", strings.NewReader(strings.Repeat("{a: ", 1<<20)), "max depth"},
		{"one long word", strings.NewReader(strings.Repeat("a", 4<<20)), "this should be a mapping"},
		{"one long length", strings.NewReader("unit: " + strings.Repeat("9", 4_000_000)), "it is too long"},
	} {
		_, err := jobfile.Read(row.data, "junk")
		var errs jobfile.Errors
		if !errors.As(err, &errs) || !strings.Contains(err.Error(), row.msg) || len(err.Error()) > 2000 {
			t.Errorf("%s: %.200v, want a short error with %q", row.name, err, row.msg)
		}
	}
}

// At most 100 errors are listed, and the rest counted.
func TestManyErrors(t *testing.T) {
	var b strings.Builder
	b.WriteString("unit: in\nplank: {length: 48, width: 7}\nbox: {planks: 8}\nrooms:\n")
	for i := range 5000 {
		fmt.Fprintf(&b, " - {name: room %d, size: 9 x}\n", i)
	}
	var errs jobfile.Errors
	_, err := jobfile.Read(strings.NewReader(b.String()), "")
	if !errors.As(err, &errs) || len(errs) != 101 || errs[100].Msg != "and 4900 more errors" {
		t.Errorf("5000 errors: %d are listed, the last %v", len(errs), errs[len(errs)-1])
	}
	for i, e := range errs[:100] {
		if e.Line != 5+i {
			t.Errorf("error %d is at line %d: not from top to bottom", i, e.Line)
		}
	}
}

// A few aliases of aliases stand for more rooms than a file may hold.
func TestAliasBomb(t *testing.T) {
	var b strings.Builder
	b.WriteString("unit: in\nplank: {length: 48, width: 7}\nbox: {planks: 8}\nrooms:\n - corners: &c\n")
	for i := range 30_000 {
		b.WriteString(strings.Repeat(" ", 4) + "- [" + strings.Repeat("1", 1+i%3) + ", 2]\n")
	}
	for range 30_000 {
		b.WriteString(" - {corners: *c}\n")
	}
	_, err := jobfile.Read(strings.NewReader(b.String()), "bomb")
	var errs jobfile.Errors
	if !errors.As(err, &errs) || !strings.Contains(err.Error(), "the aliases of this file expand to too much") ||
		len(errs) != 1 {
		t.Errorf("%.300v, want one error that names the aliases", err)
	}
	if !errors.Is(err, cutopt.ErrTooLarge) {
		t.Error("the bomb is not too large")
	}
}

// What a server answers differently: a file or a job that is too large, and one that is wrong.
func TestTooLarge(t *testing.T) {
	const head = "unit: in\nplank: {length: 48, width: 7}\nbox: {planks: 8}\n"
	for _, row := range []struct {
		name, file string
		large      bool
	}{
		{"more than a file may have", strings.Repeat("#", jobfile.MaxSize+1), true},
		{"a list longer than a job may have", head + "rooms: [{size: 90 x 90}]\npattern: [" +
			strings.Repeat("16, ", cutopt.MaxPattern) + "16]\n", true},
		{"a misspelt key", head + "rooms: [{sise: 90 x 90}]\n", false},
		{"no rooms", head + "rooms: []\n", false},
	} {
		_, err := jobfile.Decode(strings.NewReader(row.file), "")
		if err == nil || errors.Is(err, cutopt.ErrTooLarge) != row.large {
			t.Errorf("%s: %.200v, want too large: %v", row.name, err, row.large)
		}
	}
}

// Planks far below the rules are a wrong unit: the error of each rule tells their size and to look at it.
func TestPlankOfAWrongUnit(t *testing.T) {
	_, err := jobfile.Decode(strings.NewReader("unit: mm\nplank: {length: 48, width: 7}\nbox: {planks: 8}\n"+
		"rooms: [{size: 3 m x 4 m}]\n"), "")
	for _, want := range []string{
		"rules.min-piece: it is 200 mm", "at most the plank's length, 48 mm",
		"that is the default: check the sizes of the plank and their unit",
	} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

type failingReader struct{}

func (failingReader) Read([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestReaderError(t *testing.T) {
	if _, err := jobfile.Read(failingReader{}, "pipe"); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("error %v, want that of the reader", err)
	}
}

// Spares are a number, a percentage or boxes; whatever else stands there is refused with its place.
func TestSpare(t *testing.T) {
	const text = `unit: in
plank: {length: 48, width: 7}
box: {planks: 8}
spare: %s
rooms: [{size: 100 x 100}]
`
	for _, c := range []struct {
		text string
		want cutopt.Spare
	}{
		{"0", cutopt.Spare{}},
		{"4", cutopt.Spare{Planks: 4}},
		{"'4'", cutopt.Spare{Planks: 4}},
		{"3 %", cutopt.Spare{Percent: 3}},
		{`"0.1%"`, cutopt.Spare{Percent: 0.1}},
		{"0 %", cutopt.Spare{}},
		{"1 box per 50", cutopt.Spare{BoxPer: 50}},
	} {
		data := fmt.Sprintf(text, c.text)
		job, err := jobfile.Decode(strings.NewReader(data), "")
		if err != nil {
			t.Errorf("spare: %s: %v", c.text, err)
			continue
		}
		if job.Spare != c.want {
			t.Errorf("spare: %s reads as %+v, want %+v", c.text, job.Spare, c.want)
		}
		checkReadsBack(t, job)
		if err := validate(compileSchema(t), []byte(data)); err != nil {
			t.Errorf("spare: %s: the schema refuses it: %v", c.text, err)
		}
	}
	const forms = "spares are a number of planks, a percentage of those laid, or whole boxes; write them as 4, 3 % or 1 " +
		"box per 50"
	for _, c := range []struct{ text, want string }{
		{"-1", `den.yaml:4:8: spare "-1": ` + forms},
		{"2.5", `den.yaml:4:8: spare "2.5": ` + forms},
		{"1,5 %", `den.yaml:4:8: spare "1,5 %": ` + forms},
		{"2 boxes per 50", `den.yaml:4:8: spare "2 boxes per 50": ` + forms},
		{"  1e3", `den.yaml:4:10: spare "1e3": ` + forms},
		{"[4]", "den.yaml:4:8: spare: this should be a single value; write planks such as 4, a share such as 3 %, or 1 box " +
			"per 50"},
		{"", "den.yaml:4:7: spare: this key has no value; give it one, or drop the key"},
		{"1000001", `den.yaml:4:8: spare "1000001": spare planks are at least 0 and at most 1,000,000`},
		{
			"99999999999999999999",
			`den.yaml:4:8: spare "99999999999999999999": spare planks are at least 0 and at most 1,000,000`,
		},
		{"1000.5 %", `den.yaml:4:8: spare "1000.5 %": spare planks are at least 0 % and at most 1000 % of those laid`},
		{
			"1 box per 0",
			`den.yaml:4:8: spare "1 box per 0": one box is kept for each 1 to 1,000,000 boxes laid; ` +
				"write 1 box per 50, or 0 to keep none",
		},
	} {
		_, err := jobfile.Decode(strings.NewReader(fmt.Sprintf(text, c.text)), "den.yaml")
		if err == nil || err.Error() != c.want {
			t.Errorf("spare: %s: %v\nwant %s", c.text, err, c.want)
		}
	}
}

// A job changed after reading keeps its places, so that later errors point into the file.
func TestLocate(t *testing.T) {
	const text = `unit: in
plank: {length: 48, width: 7}
box: {planks: 8}
rooms:
  - name: Den
    size: 100 x 100
`
	f, err := jobfile.Read(strings.NewReader(text), "den.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f.Job.Plank.Width = -1
	f.Job.Rules.Kerf = -1
	f.Job.Rooms[0].Outline = f.Job.Rooms[0].Outline[:2]
	var errs jobfile.Errors
	if err := f.Locate(f.Job.Validate()); !errors.As(err, &errs) || len(errs) != 3 {
		t.Fatalf("%v, want three errors", err)
	}
	for i, want := range []jobfile.Error{
		{Key: "plank.width", Line: 2, Column: 28},
		{Key: "rules.kerf", Line: 1, Column: 1},     // the file has no rules: the whole file is meant
		{Key: "rooms[1].size", Line: 6, Column: 11}, // which its corners come from
	} {
		if got := *errs[i]; got.File != "den.yaml" || got.Key != want.Key || got.Line != want.Line ||
			got.Column != want.Column {
			t.Errorf("error %d is %+v, want %+v", i, got, want)
		}
	}
	var single *jobfile.Error
	if !errors.As(errs, &single) || single != errs[0] {
		t.Errorf("Errors do not unwrap to their parts: %v", single)
	}
	if err := f.Locate(io.ErrClosedPipe); err != io.ErrClosedPipe {
		t.Errorf("an error without a field became %v", err)
	}
	if err := f.Locate(nil); err != nil {
		t.Errorf("nil became %v", err)
	}
}
