package sheet_test

import (
	"io"
	"regexp"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/takeoff"
	"plank.example/cutopt/words"
)

func writePocket(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, opt *sheet.Options) error {
	s, err := sheet.New(job, plan, opt)
	if err != nil {
		return err
	}
	return s.Pocket(w)
}

func writePocketPDF(w io.Writer, job *cutopt.Job, plan *cutopt.Plan, opt *sheet.Options) error {
	return writePicture(w, sheet.DocumentPocket, job, plan, sheet.FormatPDF, opt)
}

func TestGoldenPocket(t *testing.T) {
	for name, job := range scenes() {
		plan := planOf(name, job)
		for _, language := range words.Languages() {
			opt := &sheet.Options{Language: language}
			page := written(t, func(w io.Writer) error { return writePocket(w, job, plan, opt) })
			golden(t, name+"-pocket."+language+".outline", pageOutline(page))
		}
	}
}

// roomOf is a room of so many rows of 7 in.
func roomOf(rows int) *cutopt.Job {
	return jobOf("Wren Cottage", cutopt.Room{
		Name: "Room", Outline: rect(0, 0, 187, float64(7*rows)),
		Doorways: []cutopt.Doorway{{Name: "Door", Wall: 0, At: 20 * inch, Width: 32 * inch, Depth: 3 * inch}},
	})
}

// The pocket sheet is a document like the others, and no picture.
func TestPocketIsADocument(t *testing.T) {
	var back sheet.Document
	if err := back.UnmarshalText([]byte("pocket")); err != nil || back != sheet.DocumentPocket {
		t.Errorf("pocket reads back as %v, %v", back, err)
	}
	job := denJob()
	s, err := sheet.New(job, layOut(job), &sheet.Options{Language: "de"})
	if err != nil {
		t.Fatal(err)
	}
	if title := s.Title(sheet.DocumentPocket); title != "Wren Cottage – Taschenblatt" {
		t.Errorf("it is called %q", title)
	}
	if _, err := s.Pages(sheet.DocumentPocket, false); err == nil {
		t.Error("it is drawn as a picture")
	}
}

// Up to 28 rows the pocket sheet is one page, with all there is to order, up to 40 two, on either paper and in every
// language.
func TestPocketPages(t *testing.T) {
	for rows, most := range map[int]int{3: 1, 12: 1, 20: 1, 28: 1, 33: 2, 40: 2} {
		job := roomOf(rows)
		furnish(job)
		plan := layOut(job)
		list, err := takeoff.New(t.Context(), job, plan)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(plan.Floors[0].Rows); n < rows || n > rows+1 {
			t.Fatalf("the room of %d rows has %d", rows, n)
		}
		for _, paper := range []sheet.Paper{sheet.PaperA4, sheet.PaperLetter} {
			for _, language := range words.Languages() {
				opt := &sheet.Options{Paper: paper, Language: language, Takeoff: list}
				if n := pagesOf(t, job, plan, opt); n > most {
					t.Errorf("%d rows on %v in %q: %d pages, want at most %d", rows, paper, language, n, most)
				}
			}
		}
	}
}

// Two small floors share a page; no page is left with a heading alone.
func TestPocketSharesPages(t *testing.T) {
	job := denJob()
	job.Rooms[0].Outline = rect(0, 0, 150, 60)
	job.Rooms = append(job.Rooms, cutopt.Room{Name: "Closet", Outline: rect(0, 0, 62, 40)})
	if n := pagesOf(t, job, layOut(job), nil); n != 1 {
		t.Errorf("%d pages for two floors of 9 and 6 rows, want 1", n)
	}
}

// A floor that begins on a page of its own has all of it for its map.
func TestPocketFillsPages(t *testing.T) {
	job := roomOf(28)
	job.Rooms[0].Outline = rect(0, 0, 150, 196)
	job.Rooms = append(job.Rooms, cutopt.Room{Name: "Study", Outline: rect(0, 0, 150, 84)})
	s, err := sheet.New(job, layOut(job), nil)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := s.Pages(sheet.DocumentPocket, true)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for d := range pages {
		if n++; n == 2 && lowest(d) < d.Height/2 {
			t.Errorf("the second page is used down to %.0f of %.0f points", lowest(d), d.Height)
		}
	}
	if n != 2 {
		t.Errorf("%d pages, want 2", n)
	}
}

func pagesOf(t *testing.T, job *cutopt.Job, plan *cutopt.Plan, opt *sheet.Options) int {
	t.Helper()
	s, err := sheet.New(job, plan, opt)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := s.Pages(sheet.DocumentPocket, true)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for d := range pages {
		n++
		if len(d.Shapes) < 40 {
			t.Errorf("page %d holds %d shapes: next to nothing", n, len(d.Shapes))
		}
	}
	return n
}

// Every run has a line, and each mark that is to be written on an offcut is that of a line which takes an offcut.
func TestPocketMarks(t *testing.T) {
	job := kitchenJob()
	plan := layOut(job)
	page := written(t, func(w io.Writer) error { return writePocket(w, job, plan, nil) })
	lay, err := laying.FromPlan(job, plan)
	if err != nil {
		t.Fatal(err)
	}
	cells := make(map[string][]string)
	for _, line := range regexp.MustCompile(`<tr[^>]*>(<td.*)</tr>`).FindAllStringSubmatch(page, -1) {
		var row []string
		for _, cell := range regexp.MustCompile(`<td[^>]*>([^<]*)</td>`).FindAllStringSubmatch(line[1], -1) {
			row = append(row, strings.NewReplacer("&#34;", `"`, "\u00a0", " ").Replace(cell[1]))
		}
		cells[row[0]] = row
	}
	for _, p := range lay.Pieces {
		line := cells[p.Run.Name]
		if len(line) != 8 {
			t.Fatalf("run %s has the line %q", p.Run.Name, line)
		}
		for _, o := range p.Offcuts {
			if o.Next == nil {
				continue
			}
			const grid = measure.Inch / 16
			taken := cells[o.Next.Run.Name]
			letter, source := "S", taken[2]
			if o.Next.Role == laying.RoleEnder {
				letter, source = "E", taken[5]
			}
			mark := o.Next.Run.Name + " " + letter
			if want := o.Length().Floor(grid).Compact(job.Unit, grid) + ": " + mark; !strings.Contains(line[6], want) {
				t.Errorf("run %s keeps %q, want %q in it", p.Run.Name, line[6], want)
			}
			if !strings.Contains(source, "offcut") {
				t.Errorf("the offcut marked %s is not asked for: %q", mark, taken)
			}
		}
	}
}
