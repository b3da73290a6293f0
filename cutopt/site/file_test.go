package site_test

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/site"
)

func TestDecode(t *testing.T) {
	block := "job: flat.yaml\nplan: flat.json\nhappened: |\n  Kitchen 8   \n\n  # the cat\n  lost 31\n"
	list := "plan: flat.json\njob: flat.yaml\nhappened:\n  - Kitchen 8\n  - \"lost 31\"\n"
	for _, c := range []struct {
		text   string
		places [][2]int
	}{{block, [][2]int{{4, 3}, {7, 3}}}, {list, [][2]int{{4, 5}, {5, 6}}}} {
		f, err := site.Decode(strings.NewReader(c.text), "site.yaml")
		if err != nil {
			t.Fatal(err)
		}
		if f.Job != "flat.yaml" || f.Plan != "flat.json" || len(f.Lines) != 2 {
			t.Fatalf("%+v", f)
		}
		for i, want := range []string{"Kitchen 8", "lost 31"} {
			got := f.Lines[i]
			if got.Text != want || got.Line != c.places[i][0] || got.Column != c.places[i][1] {
				t.Errorf("line %d is %+v, want %q at %v", i, got, want, c.places[i])
			}
		}
		var b bytes.Buffer
		if err := site.Encode(&b, f); err != nil {
			t.Fatal(err)
		}
		again, err := site.Decode(&b, "site.yaml")
		if err != nil || again.Lines[1].Text != "lost 31" || again.Job != f.Job || again.Plan != f.Plan {
			t.Errorf("%+v, %v", again, err)
		}
		g := rooms(measure.UnitInch, flat...)
		s, err := f.State(g)
		if err != nil {
			t.Fatal(err)
		}
		var copied bytes.Buffer
		if err := site.Encode(&copied, site.FileOf(f.Job, f.Plan, g, s)); err != nil {
			t.Fatal(err)
		}
		if want := "job: flat.yaml\nplan: flat.json\nhappened: |\n  Kitchen 8\n  lost 31\n"; copied.String() != want {
			t.Error(cmp.Diff(want, copied.String()))
		}
	}
}

func TestDecodeNothing(t *testing.T) {
	for _, text := range []string{"job: a\nplan: b\n", "job: a\nplan: b\nhappened:\n", "job: a\nplan: b\nhappened: |\n"} {
		f, err := site.Decode(strings.NewReader(text), "")
		if err != nil || len(f.Lines) != 0 {
			t.Errorf("%q: %+v, %v", text, f, err)
		}
	}
}

func TestDecodeRefuses(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "s.yaml: the file is empty"},
		{"plan: b\n", "s.yaml:1:1: the key job is missing"},
		{"job: a\nplan: b\nhapened: |\n  1\n", `s.yaml:3:1: "hapened": unknown key; did you mean happened?`},
		{"job: a\njob: a\nplan: b\n", `s.yaml:2:1: "job": this key is there twice`},
		{"job: [a]\nplan: b\n", "s.yaml:1:6: this should be the name of a file"},
		{"job: a\nplan: b\nhappened: >\n  1\n  2\n", "joins its lines"},
		{"job: a\nplan: b\nhappened: {a: b}\n", "s.yaml:3:11: this should be lines"},
		{"job: a\nplan: b\nhappened:\n - a: b\n", "s.yaml:4:4: this should be a line"},
		{"job: a\n\tplan: b\n", "no YAML"},
		{"- a\n", "s.yaml:1:1: this should be a mapping"},
		{"job: a\nplan: b\n---\njob: c\n", "a second document"},
		{
			"job: a\nplan: b\nhappened: |\n  Kit\xe0en lot B\n",
			`s.yaml:4:6: "Kit\xe0en lot B": the file is not in UTF-8; save the file as text in UTF-8`,
		},
		{"job: a\nplan: b\nx: " + strings.Repeat("y", 1<<20), "larger than a megabyte"},
	} {
		_, err := site.Decode(strings.NewReader(c.text), "s.yaml")
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%.40q: %v, want %s", c.text, err, c.want)
		}
	}
}

// A server tells a state that is too large from one that is wrong, and both from a request that breaks off.
func TestDecodeErrorKinds(t *testing.T) {
	lines := "job: a\nplan: b\nhappened: |\n" + strings.Repeat("  lost 1\n", 10_001)
	for _, c := range []struct {
		why  string
		r    io.Reader
		kind error
	}{
		{"a megabyte", strings.NewReader(strings.Repeat("#", 1<<20+1)), cutopt.ErrTooLarge},
		{"too many lines", strings.NewReader(lines), cutopt.ErrTooLarge},
		{"the reader fails", iotest.ErrReader(io.ErrUnexpectedEOF), io.ErrUnexpectedEOF},
	} {
		if _, err := site.Decode(c.r, "s.yaml"); !errors.Is(err, c.kind) {
			t.Errorf("%s: %v, want %v", c.why, err, c.kind)
		}
	}
	if _, err := site.Decode(strings.NewReader("- a\n"), ""); err == nil || errors.Is(err, cutopt.ErrTooLarge) {
		t.Errorf("a file that is wrong, not large: %v", err)
	}
}

// A file in UTF-16 is YAML too: some editors save so.
func TestDecodeUTF16(t *testing.T) {
	var b bytes.Buffer
	for _, c := range utf16.Encode([]rune("\ufeffjob: a\nplan: b\nhappened: |\n  Küche 8\n")) {
		b.Write([]byte{byte(c), byte(c >> 8)})
	}
	f, err := site.Decode(&b, "")
	if err != nil || len(f.Lines) != 1 || f.Lines[0].Text != "Küche 8" {
		t.Errorf("%+v, %v", f, err)
	}
}

// What is no line of text is not written.
func TestEncodeRefuses(t *testing.T) {
	for _, text := range []string{"Kit\xe0en 8", "Kitchen 8\nlost 3"} {
		var b bytes.Buffer
		err := site.Encode(&b, &site.File{Job: "a", Plan: "b", Lines: []site.Line{{Text: "lost 1"}, {Text: text}}})
		if err == nil || b.Len() > 0 || !strings.Contains(err.Error(), "no line of text") {
			t.Errorf("%q: %v, %q is written", text, err, b.String())
		}
	}
}

// TestStateTellsAll holds that every line that cannot be read is told, with its place in the file.
func TestStateTellsAll(t *testing.T) {
	const text = "job: a\nplan: b\nhappened: |\n  Kitchen 8\n  Kitchen 99\n  lsot 3\n"
	f, err := site.Decode(strings.NewReader(text), "s.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, err = f.State(rooms(measure.UnitInch, flat...))
	want := `s.yaml:5:11: "99": the rows have the numbers 1 to 17; count from the starting wall` + "\n" +
		`s.yaml:6:3: "lsot": unknown word; did you mean lost?`
	if err == nil || err.Error() != want {
		t.Error(cmp.Diff(want, err.Error()))
	}
}

func FuzzDecode(f *testing.F) {
	f.Add("job: a\nplan: b\nhappened: |\n  Kitchen 8\n")
	f.Add("job: a\nplan: b\nhappened:\n- \"lost 31\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		file, err := site.Decode(strings.NewReader(text), "")
		if err != nil {
			return
		}
		var b, again bytes.Buffer
		if err := site.Encode(&b, file); err != nil {
			t.Fatal(err)
		}
		read, err := site.Decode(bytes.NewReader(b.Bytes()), "")
		if err != nil {
			t.Fatalf("%q is written %q: %v", text, b.String(), err)
		}
		if err := site.Encode(&again, read); err != nil || again.String() != b.String() {
			t.Fatalf("%q, then %q: %v", b.String(), again.String(), err)
		}
	})
}
