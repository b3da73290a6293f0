package sheet_test

import (
	"flag"
	"io"
	"os"
	"path/filepath"
	"testing"

	"plank.example/cutopt/sheet"
)

var lookDir = flag.String("look", "", "folder to write the pictures and sheets of the fixtures to, for looking at")

// TestLook writes every document of the fixtures to a folder when one is named: go test -run Look -look DIR.
func TestLook(t *testing.T) {
	if *lookDir == "" {
		t.Skip("no -look folder given")
	}
	jobs := scenes()
	jobs["hall"] = hallJob(60)
	for name, job := range jobs {
		plan := planOf(name, job)
		for _, f := range []sheet.Format{sheet.FormatSVG, sheet.FormatPNG, sheet.FormatPDF} {
			toFile(t, name+"-map."+f.String(), func(w io.Writer) error { return writeMap(w, job, plan, f, nil) })
			toFile(t, name+"-planks."+f.String(), func(w io.Writer) error { return writePlanks(w, job, plan, f, nil) })
		}
		for _, f := range []sheet.Format{sheet.FormatCSV, sheet.FormatMarkdown, sheet.FormatText} {
			toFile(t, name+"-cuts."+f.String(), func(w io.Writer) error { return writeCuts(w, job, plan, f, nil) })
		}
		grey := &sheet.Options{Theme: sheet.GreyTheme()}
		toFile(t, name+"-grey.png", func(w io.Writer) error { return writeMap(w, job, plan, sheet.FormatPNG, grey) })
		german := &sheet.Options{Language: "de", Paper: sheet.PaperA4}
		toFile(t, name+"-de.pdf", func(w io.Writer) error { return writePDF(w, job, plan, german) })
		toFile(t, name+".html", func(w io.Writer) error { return writeHTML(w, job, plan, nil) })
		toFile(t, name+".pdf", func(w io.Writer) error { return writePDF(w, job, plan, nil) })
		toFile(t, name+".txt", func(w io.Writer) error { return writeText(w, job, plan, nil) })
	}
}

func toFile(t *testing.T, name string, write func(io.Writer) error) {
	t.Helper()
	f, err := os.Create(filepath.Join(*lookDir, name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := write(f); err != nil {
		t.Errorf("%s: %v", name, err)
	}
}
