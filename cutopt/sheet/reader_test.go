package sheet_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/sheet/internal/draw"
	"plank.example/cutopt/takeoff"
	"plank.example/cutopt/words"
)

// poppler runs a program of poppler-utils, a PDF reader that shares no code with the writer.
func poppler(t *testing.T, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		t.Skipf("%s of poppler-utils is not installed", program)
	}
	var errs bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil || errs.Len() > 0 {
		t.Fatalf("%s: %v %s", program, err, errs.String())
	}
	return string(out)
}

// pdfFile writes a PDF to a file.
func pdfFile(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "a.pdf")
	if err := os.WriteFile(file, []byte(written(t, write)), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// pdfText returns the text of a PDF as poppler reads it.
func pdfText(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	return poppler(t, "pdftotext", "-layout", pdfFile(t, write), "-")
}

func TestPDFIsRead(t *testing.T) {
	for name, job := range scenes() {
		plan := planOf(name, job)
		file := pdfFile(t, func(w io.Writer) error { return writePDF(w, job, plan, nil) })
		info := poppler(t, "pdfinfo", file)
		size := "612 x 792 pts (letter)"
		if job.Unit.Metric() {
			size = "595.28 x 841.89 pts (A4)"
		}
		for _, want := range []string{job.Name, size, "Producer:        cutopt"} {
			if !strings.Contains(info, want) {
				t.Errorf("%s: pdfinfo does not tell %q:\n%s", name, want, info)
			}
		}
		text := strings.Join(strings.Fields(poppler(t, "pdftotext", "-layout", file, "-")), " ")
		for i := range plan.Floors[0].Rows {
			if want := "Row " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(plan.Floors[0].Rows)); !strings.Contains(
				text,
				want,
			) {
				t.Errorf("%s: the text lacks %q", name, want)
			}
		}
		for _, want := range []string{"Starting wall", "What to buy", "List of cuts", "Cautions", "29 CFR 1926.1101"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the text lacks %q", name, want)
			}
		}
	}
}

// Where qpdf is installed it checks the file's structure.
func TestPDFStructure(t *testing.T) {
	if _, err := exec.LookPath("qpdf"); err != nil {
		t.Skip("qpdf is not installed")
	}
	job := kitchenJob()
	file := pdfFile(t, func(w io.Writer) error { return writePDF(w, job, layOut(job), nil) })
	if out, err := exec.Command("qpdf", "--check", file).CombinedOutput(); err != nil {
		t.Errorf("qpdf: %v\n%s", err, out)
	}
}

// The plank sheet as PNG and the first page of the same as PDF, painted by poppler, are one picture. Poppler thickens
// the thin lines of hatches to a whole pixel, which is most of the difference.
func TestPDFAgreesWithPNG(t *testing.T) {
	job := kitchenJob()
	plan := layOut(job)
	a := decode(t, []byte(written(t, func(w io.Writer) error {
		return writePlanks(w, job, plan, sheet.FormatPNG,
			nil)
	})))
	file := pdfFile(t, func(w io.Writer) error { return writePlanks(w, job, plan, sheet.FormatPDF, nil) })
	poppler(
		t,
		"pdftoppm",
		"-r",
		"144",
		"-png",
		"-f",
		"1",
		"-l",
		"1",
		"-singlefile",
		file,
		strings.TrimSuffix(file, ".pdf"),
	)
	data, err := os.ReadFile(strings.TrimSuffix(file, ".pdf") + ".png")
	if err != nil {
		t.Fatal(err)
	}
	b := decode(t, data)
	r := image.Rect(0, 0, a.Bounds().Dx(), 1300) // above the end of the page, where the PDF turns it
	if mean := greyDifference(a, b, r); mean > 4 {
		t.Errorf("the plank sheet differs by %.2f of 255 on average, want at most 4", mean)
	}
	other := decode(t, []byte(written(t, func(w io.Writer) error {
		return writeMap(w, job, plan, sheet.FormatPNG,
			nil)
	})))
	if mean := greyDifference(other, b, r.Intersect(other.Bounds())); mean < 12 {
		t.Errorf("the floor map differs by %.2f only: this comparison sees nothing", mean)
	}
}

func decode(t *testing.T, data []byte) image.Image {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func greyDifference(a, b image.Image, r image.Rectangle) float64 {
	sum := 0.0
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			p := color.GrayModel.Convert(a.At(x, y)).(color.Gray).Y
			q := color.GrayModel.Convert(b.At(x, y)).(color.Gray).Y
			sum += math.Abs(float64(p) - float64(q))
		}
	}
	return sum / float64(r.Dx()*r.Dy())
}

// No page of the job sheet is one of a few lines, the last one neither: each is used down to a quarter of it.
func TestNoPageOfFewLines(t *testing.T) {
	jobs := scenes()
	jobs["kitchen and closet"] = jobOf("Wren Cottage", kitchenJob().Rooms[0],
		cutopt.Room{Name: "Closet", Outline: rect(0, 0, 62, 40)})
	for name, job := range jobs {
		plan := planOf(name, job)
		var list *cutopt.Takeoff
		if name != "snug" {
			var err error
			furnish(job)
			if list, err = takeoff.New(t.Context(), job, plan); err != nil {
				t.Fatal(err)
			}
		}
		for _, paper := range []sheet.Paper{sheet.PaperA4, sheet.PaperLetter} {
			for _, language := range words.Languages() {
				s, err := sheet.New(job, plan, &sheet.Options{Paper: paper, Language: language, Takeoff: list})
				if err != nil {
					t.Fatal(err)
				}
				pages, err := s.Pages(sheet.DocumentSheet, true)
				if err != nil {
					t.Fatal(err)
				}
				n := 0
				for d := range pages {
					n++
					if used := lowest(d); used < d.Height/4 {
						t.Errorf("%s, %v, %s: page %d is used down to %.0f of %.0f points", name, paper, language, n,
							used, d.Height)
					}
				}
			}
		}
	}
}

// lowest returns how far down a page there is text, its footer aside.
func lowest(d *draw.Drawing) float64 {
	low := 0.0
	for _, s := range d.Shapes {
		if text, ok := s.(draw.Text); ok && text.At.Y < d.Height-30 {
			low = max(low, text.At.Y)
		}
	}
	return low
}
