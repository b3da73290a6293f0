package sheet_test

import (
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet"
)

// A box is a rectangle on a page.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) holds(c box) bool {
	const slack = 0.6
	return c.x0 >= b.x0-slack && c.x1 <= b.x1+slack && c.y0 >= b.y0-slack && c.y1 <= b.y1+slack
}

// A placedText is a text of a picture with the box its letters take.
type placedText struct {
	str string
	box
}

// readPicture returns the pieces, which carry titles, and the texts of an SVG map.
func readPicture(t *testing.T, svg string) (pieces []box, titles []string, texts []placedText) {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(svg))
	numbers := regexp.MustCompile(`-?\d+(\.\d+)?`)
	var path box
	var text placedText
	inside := ""
	value := func(e xml.StartElement, name string) float64 {
		v, _ := strconv.ParseFloat(attr(e, name), 64)
		return v
	}
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return pieces, titles, texts
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			switch tok.Name.Local {
			case "path":
				path = box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
				for i, s := range numbers.FindAllString(attr(tok, "d"), -1) {
					v, _ := strconv.ParseFloat(s, 64)
					if i%2 == 0 {
						path.x0, path.x1 = min(path.x0, v), max(path.x1, v)
					} else {
						path.y0, path.y1 = min(path.y0, v), max(path.y1, v)
					}
				}
				inside = "path"
			case "title":
				inside += " title"
			case "text":
				inside = "text"
				x, y, size := value(tok, "x"), value(tok, "y"), value(tok, "font-size")
				text.box = box{x, y - 0.73*size, x + value(tok, "textLength"), y}
				if attr(tok, "transform") != "-" { // it reads upwards
					text.box = box{x - 0.73*size, y - value(tok, "textLength"), x, y}
				}
			default:
				inside = ""
			}
		case xml.CharData:
			switch inside {
			case "path title":
				pieces, titles = append(pieces, path), append(titles, string(tok))
			case "text":
				text.str = string(tok)
				texts = append(texts, text)
			}
		case xml.EndElement:
			inside = ""
		}
	}
}

// Every label stands within the piece it belongs to, and what it says is that piece's: the letter, the length and the
// number of the plank that the piece's title tells too.
func TestLabelsFit(t *testing.T) {
	title := regexp.MustCompile(`^Row (\d+): (.*), (.*), plank (\d+)$`)
	letters := map[string]string{"whole plank": "", "starter": "S", "ender": "E", "single piece": "O"}
	for name, job := range scenes() {
		plan := planOf(name, job)
		pieces, titles, texts := readPicture(
			t,
			written(t, func(w io.Writer) error { return writeMap(w, job, plan, sheet.FormatSVG, nil) }),
		)
		count := 0
		for range plan.Pieces() {
			count++
		}
		if len(pieces) != count {
			t.Fatalf("%s: the map has %d pieces, the plan %d", name, len(pieces), count)
		}
		labelled := 0
		for i, p := range pieces {
			m := title.FindStringSubmatch(titles[i])
			length := strings.TrimSuffix(m[3], " "+job.Unit.String())
			number := false
			for _, text := range texts {
				if !overlap(p, text.box) {
					continue
				}
				if !p.holds(text.box) && isLabel(text.str) {
					t.Errorf("%s: %q stands across the edge of %q", name, text.str, titles[i])
				}
				switch text.str {
				case m[4]:
					number = true
				case letters[m[2]], length, "1", "2": // 1 and 2 are notes in the snug
				default:
					t.Errorf("%s: %q stands on %q", name, text.str, titles[i])
				}
			}
			if number {
				labelled++
			}
		}
		if labelled < count*9/10 {
			t.Errorf("%s: only %d of %d pieces show their plank", name, labelled, count)
		}
	}
}

func overlap(a, b box) bool {
	return b.x0 < a.x1-0.5 && b.x1 > a.x0+0.5 && b.y0 < a.y1-0.5 && b.y1 > a.y0+0.5
}

func isLabel(s string) bool { return s != "1" && s != "2" }

// hallJob is a hall of so many rows of 7 in, 100 ft wide.
func hallJob(rows int) *cutopt.Job {
	return jobOf("Grain Hall", cutopt.Room{Name: "Hall", Outline: rect(0, 0, 1200, float64(7*rows))})
}

// A hall too large for one sheet is tiled; the row numbers of the tiles run on without a gap, and every piece is shown.
func TestTiles(t *testing.T) {
	job := hallJob(150)
	plan := layOut(job)
	var all []string
	for _, m := range regexp.MustCompile(`Sheet (\d+) of (\d+)`).FindAllStringSubmatch(pdfText(t,
		func(w io.Writer) error {
			return writeMap(w, job, plan, sheet.FormatPDF, nil)
		}), -1) {
		all = append(all, m[1]+"/"+m[2])
	}
	if len(all) < 4 {
		t.Fatalf("tiles %v, want four or more", all)
	}
	for i, s := range all {
		if s != strconv.Itoa(i+1)+"/"+strconv.Itoa(len(all)) {
			t.Errorf("tile %d is called %s", i+1, s)
		}
	}
}

// A room that is drawn turned and mirrored keeps its pieces within its outline. The drawing of the den is turned by 30
// degrees about a far point; the axes of the plan turn it back.
func TestAxes(t *testing.T) {
	job := denJob()
	plan := layOut(job)
	straight := written(t, func(w io.Writer) error { return writeMap(w, job, plan, sheet.FormatSVG, nil) })
	sin, cos := math.Sincos(30 * math.Pi / 180)
	turn := func(p cutopt.Point) cutopt.Point {
		x, y := float64(p.X), float64(p.Y)
		return cutopt.Point{
			X: measure.Length(math.Round(x*cos-y*sin)) + 5*measure.Metre,
			Y: measure.Length(math.Round(x*sin+y*cos)) - 3*measure.Metre,
		}
	}
	room := &job.Rooms[0]
	for i, p := range room.Outline {
		room.Outline[i] = turn(p)
	}
	axes := &plan.Floors[0].Axes
	axes.Turn, axes.Origin = 30, turn(axes.Origin)
	turned := written(t, func(w io.Writer) error { return writeMap(w, job, plan, sheet.FormatSVG, nil) })
	a, titles, _ := readPicture(t, straight)
	b, others, texts := readPicture(t, turned)
	if !slices.Equal(titles, others) {
		t.Fatal("turned by 30 degrees the map has other pieces")
	}
	for i := range a {
		for _, off := range []float64{a[i].x0 - b[i].x0, a[i].y0 - b[i].y0, a[i].x1 - b[i].x1, a[i].y1 - b[i].y1} {
			if math.Abs(off) > 0.011 { // a hundredth of a point is the last figure printed
				t.Fatalf("turned by 30 degrees %q lies %v off", titles[i], off)
			}
		}
	}
	said := false
	for _, text := range texts {
		said = said || strings.HasSuffix(text.str, "turned 30° to the right against the sketch")
	}
	if !said || strings.Contains(straight, "against the sketch") {
		t.Error("only the turned map says that it is turned")
	}
}

// The map says of every wall its number in the job and its length, and of a floor of several rooms their names.
func TestMapTellsWallsAndRooms(t *testing.T) {
	job := jobOf("Wren Cottage",
		cutopt.Room{Name: "Parlour", Outline: rect(0, 0, 150, 70), Doorways: []cutopt.Doorway{
			{Name: "Arch", Wall: 1, At: 14 * inch, Width: 42 * inch, Depth: 5 * inch, To: "Study", Through: true},
		}},
		cutopt.Room{Name: "Study", Outline: rect(155, 0, 255, 63)})
	joined := cutopt.Room{Name: "Parlour + Study", Outline: rect(0, 0, 255, 70)}
	plan := layOut(jobOf("Wren Cottage", joined))
	svg := written(t, func(w io.Writer) error { return writeMap(w, job, plan, sheet.FormatSVG, nil) })
	_, _, texts := readPicture(t, svg)
	var all []string
	for _, text := range texts {
		all = append(all, text.str)
	}
	// Walls between the two rooms have their number alone: the other room lies behind.
	for _, want := range []string{
		"Parlour", "Study", "wall 1 · 150 in", "wall 3 · 150 in", "wall 4 · 70 in", "wall 1 · 100 in",
		"wall 3 · 100 in",
		"wall 2 · 63 in", "2", "4",
	} {
		if !slices.Contains(all, want) {
			t.Errorf("the map does not say %q: %q", want, all)
		}
	}
}
