package sheet_test

import (
	"bytes"
	"encoding/xml"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/words"
)

var update = flag.Bool("update", false, "write the golden files anew; read the difference before you commit it")

// golden compares text with a file of testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v: run go test with -update", err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}

// written returns what a function writes.
func written(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var buf bytes.Buffer
	if err := write(&buf); err != nil {
		t.Fatal(err)
	}
	return buf.String()
}

// scenes are the fixtures of the golden files.
func scenes() map[string]*cutopt.Job {
	return map[string]*cutopt.Job{"den": denJob(), "kitchen": kitchenJob(), "snug": snugJob()}
}

func TestGoldenText(t *testing.T) {
	for name, job := range scenes() {
		plan := planOf(name, job)
		for kind, opt := range map[string]*sheet.Options{
			"wide": {Columns: 100}, "narrow": {Columns: 48}, "ascii": {ASCII: true, Language: "de"},
		} {
			golden(t, name+"-"+kind+".txt", written(t, func(w io.Writer) error { return writeText(w, job, plan, opt) }))
		}
		golden(
			t,
			name+"-cuts.txt",
			written(t, func(w io.Writer) error { return writeCuts(w, job, plan, sheet.FormatText, nil) }),
		)
		golden(
			t,
			name+"-cuts.md",
			written(t, func(w io.Writer) error { return writeCuts(w, job, plan, sheet.FormatMarkdown, nil) }),
		)
		golden(
			t,
			name+"-cuts.csv",
			written(t, func(w io.Writer) error { return writeCuts(w, job, plan, sheet.FormatCSV, nil) }),
		)
	}
}

// The golden files of pictures hold what is in them, not where: texts in order, and paths by their paint.
func TestGoldenPictures(t *testing.T) {
	for name, job := range scenes() {
		plan := planOf(name, job)
		golden(
			t,
			name+"-map.outline",
			outlineOf(t, written(t, func(w io.Writer) error { return writeMap(w, job, plan, sheet.FormatSVG, nil) })),
		)
		golden(
			t,
			name+"-planks.outline",
			outlineOf(t, written(t, func(w io.Writer) error { return writePlanks(w, job, plan, sheet.FormatSVG, nil) })),
		)
	}
}

// The golden files of the job sheet hold its text, element by element.
func TestGoldenSheet(t *testing.T) {
	for name, job := range scenes() {
		plan := planOf(name, job)
		for _, language := range words.Languages() {
			page := written(t, func(w io.Writer) error { return writeHTML(w, job, plan, &sheet.Options{Language: language}) })
			golden(t, name+"-sheet."+language+".outline", pageOutline(page))
		}
	}
}

// outlineOf lists the texts of an SVG file and counts its paths by paint.
func outlineOf(t *testing.T, svg string) string {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(svg))
	counts := make(map[string]int)
	var out strings.Builder
	inside := ""
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			inside = tok.Name.Local
			if inside == "path" {
				counts[attr(tok, "fill")+" "+attr(tok, "stroke")+" "+attr(tok, "stroke-width")]++
			}
		case xml.EndElement:
			inside = ""
		case xml.CharData:
			if inside == "text" || inside == "title" {
				fmt.Fprintf(&out, "%s: %s\n", inside, tok)
			}
		}
	}
	var lines []string
	for paint, n := range counts {
		lines = append(lines, fmt.Sprintf("%d paths: %s\n", n, paint))
	}
	sort.Strings(lines)
	return out.String() + strings.Join(lines, "")
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return "-"
}

// pageOutline strips a page of its pictures, style and script, and gives every element a line.
func pageOutline(page string) string {
	for _, cut := range [][2]string{{"<style>", "</style>"}, {"<script>", "</script>"}, {"<svg ", "</svg>"}} {
		for {
			from := strings.Index(page, cut[0])
			if from < 0 {
				break
			}
			to := strings.Index(page[from:], cut[1])
			page = page[:from] + page[from+to+len(cut[1]):]
		}
	}
	page = strings.NewReplacer("><", ">\n<", "<li>", "\n<li>").Replace(page)
	var lines []string
	for _, line := range strings.Split(page, "\n") {
		if line = strings.TrimSpace(line); line != "" && !strings.Contains(line, "Content-Security-Policy") {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n") + "\n"
}
