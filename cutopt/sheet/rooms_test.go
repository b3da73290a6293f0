package sheet_test

import (
	"io"
	"regexp"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet"
)

var tag = regexp.MustCompile(`<[^>]*>`)

// stepText returns the text of one row's step.
func stepText(t *testing.T, job *cutopt.Job, plan *cutopt.Plan, room, row string) string {
	t.Helper()
	for _, m := range stepHead.FindAllStringSubmatch(htmlOf(t, job, plan), -1) {
		if m[1] == room && m[2] == row {
			return strings.Join(strings.Fields(tag.ReplaceAllString(m[3], " ")), " ")
		}
	}
	t.Fatalf("no step for row %s of room %s", row, room)
	return ""
}

// Offcuts go from room to room, and say so by name.
func TestRoomsShareOffcuts(t *testing.T) {
	job := jobOf("Wren Cottage",
		cutopt.Room{Name: "Hall", Outline: rect(0, 0, 130.5, 28)},
		cutopt.Room{Name: "Pantry", Outline: rect(0, 0, 100.5, 28)})
	plan := layOut(job)
	// By hand: the hall's runs are 130 in; the fixture starts row 3 with 14 in, two whole planks and an ender of 20 in
	// follow, which leaves 48 - 20 - 1/8 = 27 7/8 in. Row 4 has 44 + 48 + 38 in and leaves 9 7/8 in.
	third, last := stepText(t, job, plan, "1", "3"), stepText(t, job, plan, "1", "4")
	first := stepText(t, job, plan, "2", "1")
	for _, c := range []struct{ text, want string }{
		{third, "Keep the right-hand part, 27 7/8 in: write “Pantry 1 S” on it, it goes to the start of row 1 " +
			"of Pantry."},
		{last, "Keep the right-hand part, 9 7/8 in: write “Pantry 2 S” on it, it goes to the start of row 2 " +
			"of Pantry."},
		{last, "Offcuts to keep now: “Pantry 1 S” 27 7/8 in; “Pantry 2 S” 9 7/8 in."},
		{first, "Start with the offcut marked “Pantry 1 S” from row 3 of Hall, 27 7/8 in, as it is"},
		{first, "Offcuts to keep now: “Pantry 2 S” 9 7/8 in;"},
	} {
		if !strings.Contains(c.text, c.want) {
			t.Errorf("%q is not said: %s", c.want, c.text)
		}
	}
	one := written(t, func(w io.Writer) error { return writeText(w, job, plan, &sheet.Options{Floor: 2}) })
	if strings.Contains(one, "Hall") || !strings.Contains(one, "Pantry") {
		t.Errorf("Options.Room 2 draws\n%s", one)
	}
}

// Laid from the right the same pieces come in the other order, and change their parts: what was the ender starts.
func TestLaidFromTheRight(t *testing.T) {
	job := jobOf("Wren Cottage", cutopt.Room{Name: "Hall", Outline: rect(0, 0, 130.5, 28)})
	plan := layOut(job)
	left := stepText(t, job, plan, "1", "1")
	plan.Floors[0].LaidFrom = cutopt.HandRight
	right := stepText(t, job, plan, "1", "1")
	// By hand: 24 + 48 + 48 + 10 = 130.
	for _, c := range []struct{ text, want string }{
		{left, "Start with 24 in from new plank 1, measured from its right-hand end"},
		{left, "to fit, about 10 in, measured from its left-hand end"},
		{right, "Start with 10 in from new plank 4, measured from its left-hand end"},
		{right, "to fit, about 24 in, measured from its right-hand end"},
	} {
		if !strings.Contains(c.text, c.want) {
			t.Errorf("%q is not said: %s", c.want, c.text)
		}
	}
	text := written(t, func(w io.Writer) error { return writeText(w, job, plan, nil) })
	if !strings.Contains(text, "Starting wall ←") {
		t.Errorf("the arrow of the laying direction does not turn:\n%s", text)
	}
}

// A closet narrower than a plank is laid in single pieces.
func TestSinglePieces(t *testing.T) {
	job := jobOf("Wren Cottage", cutopt.Room{Name: "Closet", Outline: rect(0, 0, 40.5, 28)})
	plan := layOut(job)
	text := stepText(t, job, plan, "1", "1")
	if !strings.Contains(text, "One piece fills this run: cut about 40 in from new plank 1") {
		t.Errorf("a single piece is told so: %s", text)
	}
	if drawn := written(t, func(w io.Writer) error { return writeText(w, job, plan, nil) }); !strings.Contains(
		drawn,
		"O 40",
	) {
		t.Errorf("a single piece is drawn so:\n%s", drawn)
	}
}

// Two doorways, one of them open to the next room, in a job of two rooms that are one floor.
func TestJoinedRooms(t *testing.T) {
	job := jobOf("Wren Cottage",
		cutopt.Room{Name: "Hall", Outline: rect(0, 0, 60, 70), Doorways: []cutopt.Doorway{
			{Name: "Arch", Wall: 1, At: 20 * inch, Width: 30 * inch, Depth: 4 * inch, To: "Pantry", Through: true},
			{Name: "Front door", Wall: 0, At: 10 * inch, Width: 36 * inch, Depth: 3 * inch},
		}},
		cutopt.Room{Name: "Pantry", Outline: rect(64, 0, 140, 70)})
	if err := writeMap(io.Discard, job, &cutopt.Plan{Floors: make([]cutopt.PlanFloor, 2)}, sheet.FormatSVG,
		nil); err == nil {
		t.Error("rooms joined by an open doorway were taken for two floors")
	}
	plan := layOut(jobOf("Wren Cottage", cutopt.Room{Name: "Hall + Pantry", Outline: rect(0, 0, 140, 70)}))
	page := htmlOf(t, job, plan)
	for _, want := range []string{"not: it runs on into Pantry", "at a transition", "Front door", "Arch"} {
		if !strings.Contains(page, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	svg := written(t, func(w io.Writer) error { return writeMap(w, job, plan, sheet.FormatSVG, nil) })
	if strings.Count(svg, `stroke-dasharray="3"`) != 1 {
		t.Errorf(
			"%d transition lines are drawn, want one: the other doorway is open",
			strings.Count(svg, `stroke-dasharray="3"`),
		)
	}
}

// A turned room gives pieces whose corners are off the rectangle by less than the graduation: they need no sawing. A
// corner cut off by more does, and so does a notch in an edge.
func TestNotesNeedAStep(t *testing.T) {
	for _, c := range []struct {
		why  string
		dent measure.Length // how far the left upper corner is moved to the right
		deep measure.Length // depth of a notch in the upper edge
		want bool
	}{
		{"a tick", 1, 0, false},
		{"one step of the graduation", measure.Sixteenth, 0, false},
		{"two steps", 2 * measure.Sixteenth, 0, true},
		{"a notch of one step", 0, measure.Sixteenth, false},
		{"a notch of two", 0, 2 * measure.Sixteenth, true},
	} {
		job := denJob()
		plan := layOut(job)
		row := &plan.Floors[0].Rows[4]
		p := &row.Runs[0].Pieces[1]
		p.Shape = []cutopt.Point{
			{X: p.From + c.dent, Y: row.From},
			{X: p.From + 10*inch, Y: row.From},
			{X: p.From + 10*inch, Y: row.From + c.deep},
			{X: p.From + 14*inch, Y: row.From + c.deep},
			{X: p.From + 14*inch, Y: row.From},
			{X: p.To, Y: row.From},
			{X: p.To, Y: row.To},
			{X: p.From, Y: row.To},
		}
		if got := strings.Contains(stepText(t, job, plan, "1", "5"), "before you lay"); got != c.want {
			t.Errorf("%s: told to saw is %v, want %v", c.why, got, c.want)
		}
	}
}
