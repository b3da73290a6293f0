package sheet_test

import (
	"bytes"
	"context"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/words"
)

// entryPlan plans a hall with doorways in its starting wall, in the wall opposite and at both ends, whose edge rows
// have strips of their own in the doorways.
func entryPlan(t *testing.T) (*cutopt.Job, *cutopt.Plan) {
	t.Helper()
	const in = measure.Inch
	door := func(wall int, at, width measure.Length) cutopt.Doorway {
		return cutopt.Doorway{Wall: wall, At: at, Width: width, Depth: 9 * in / 2}
	}
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 36 * in, Width: 5 * in}, Box: cutopt.Box{Planks: 20},
		Rules: cutopt.DefaultRules(measure.UnitInch),
		Rooms: []cutopt.Room{{
			Name:    "Entry",
			Outline: []cutopt.Point{{}, {X: 415 * in / 2}, {X: 415 * in / 2, Y: 41 * in}, {Y: 41 * in}},
			Doorways: []cutopt.Doorway{
				door(3, 2*in, 36*in), door(0, 14*in, 28*in), door(0, 108*in, 30*in), door(2, 20*in, 30*in),
				door(1, 4*in, 32*in),
			},
		}},
	}
	result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	return job, result.Plan
}

// TestMarksLeaveLabelsFree: on low rows with many notes no figure on a piece stands on another.
func TestMarksLeaveLabelsFree(t *testing.T) {
	job, plan := entryPlan(t)
	svg := written(t, func(w io.Writer) error { return writeMap(w, job, plan, sheet.FormatSVG, nil) })
	pieces, _, texts := readPicture(t, svg)
	var on []placedText
	for _, text := range texts {
		if slices.ContainsFunc(pieces, func(p box) bool { return p.holds(text.box) }) {
			on = append(on, text)
		}
	}
	notes := 0
	for i, a := range on {
		for _, b := range on[:i] {
			if overlap(a.box, b.box) {
				t.Errorf("%q stands on %q", a.str, b.str)
			}
		}
	}
	for p := range plan.Pieces() {
		if len(p.Shaping) > 0 {
			notes++
		}
	}
	if notes < 8 || len(on) < 60 {
		t.Errorf("only %d pieces with notes and %d texts on pieces", notes, len(on))
	}
}

// TestWallAboveTheBar: where a doorway in the starting wall is shallow, the figures of that wall stand clear of it and
// of the bar that marks it.
func TestWallAboveTheBar(t *testing.T) {
	for _, depth := range []measure.Length{inch / 2, 3 * inch / 2, 3 * inch} {
		job := denJob()
		job.Rooms[0].Doorways = []cutopt.Doorway{{Wall: 0, At: 80 * inch, Width: 60 * inch, Depth: depth}}
		job.Rooms[0].Rows.Start = cutopt.StartNear
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatal(err)
		}
		svg := written(t, func(w io.Writer) error { return writeMap(w, job, result.Plan, sheet.FormatSVG, nil) })
		pieces, _, texts := readPicture(t, svg)
		top := pieces[0].y0
		for _, p := range pieces {
			top = min(top, p.y0)
		}
		found := false
		for _, text := range texts {
			if strings.HasPrefix(text.str, "wall 1 ") {
				found = true
				// the bar is 2 points high and ends 4 above the map, whose edge is a line as thick as itself
				if text.y1 > top-6 {
					t.Errorf("depth %d: the wall's figures end %.1f points above the floor", depth, top-text.y1)
				}
			}
		}
		if !found {
			t.Errorf("depth %d: no figures of wall 1 in %v", depth, texts)
		}
	}
}

// TestRowsAlongWalls: where doorways have rows of their own, the rows along the walls are those beside them, each piece
// ripped once, to its own width.
func TestRowsAlongWalls(t *testing.T) {
	job, plan := entryPlan(t)
	rows := plan.Floors[0].Rows
	n := len(rows)
	count := strconv.Itoa(n)
	for _, c := range []struct {
		row        int
		says, lack string
	}{
		{1, "in the doorway", "room to tilt, and"},
		{2, "along the starting wall", "in the doorway,"},
		{n - 1, "along the wall opposite", "in the doorway,"},
		{n - 1, "room to tilt, and close the joints with a pull bar", "the last one"},
		{n, "in the doorway", "room to tilt, and"},
	} {
		text := stepText(t, job, plan, "1", strconv.Itoa(c.row))
		if !strings.Contains(text, c.says) || strings.Contains(text, c.lack) {
			t.Errorf("row %d of %s: want %q and not %q in %q", c.row, count, c.says, c.lack, text)
		}
	}
	speech := words.New("en", nil, job.Unit, job.Rules.Grid)
	for _, f := range plan.Floors[0].Facts {
		if f.Kind == cutopt.FactLine {
			want := "the edge that it joins lies " + speech.Length(job.Plank.Width-f.Width) + " beyond the face of the wall"
			says(t, "the row in the doorway", stepText(t, job, plan, "1", "1"), want)
		}
	}
	text := written(t, func(w io.Writer) error { return writeText(w, job, plan, nil) })
	for row, mark := range map[int]string{1: "rip to", 2: "rip: see notes", n - 1: "rip: see notes", n: "rip to"} {
		if !regexp.MustCompile(`(?m)^ *` + strconv.Itoa(row) + ` .*` + mark).MatchString(text) {
			t.Errorf("row %d: want %q beside it in\n%s", row, mark, text)
		}
	}
	page := htmlOf(t, job, plan)
	for _, at := range []int{1, n - 2} {
		row := &rows[at]
		narrow := row.Width
		for _, p := range row.Runs[0].Pieces {
			for _, f := range p.Shaping {
				if f.Kind == cutopt.FactRip {
					narrow = row.Width - f.Width
				}
			}
		}
		if want := ">" + speech.Range(narrow, row.Width) + "</td>"; narrow == row.Width || !strings.Contains(page, want) {
			t.Errorf("row %d: want %q among the edge rows", at+1, want)
		}
		if want := "rip to " + speech.Length(narrow) + ", off the edge"; !strings.Contains(page, want) {
			t.Errorf("row %d: want %q", at+1, want)
		}
	}
}

// TestRippedOnce: a piece of an edge row that is narrower than its row is ripped to its own width and to no other.
func TestRippedOnce(t *testing.T) {
	job := denJob()
	plan := layOut(job)
	row := &plan.Floors[0].Rows[0]
	row.Width, row.From = 5*inch, row.To-5*inch
	p := &row.Runs[0].Pieces[1]
	p.Shaping = []cutopt.Fact{{Kind: cutopt.FactRip, Edge: cutopt.EdgesFront, Width: 3 * inch / 2}}
	text := stepText(t, job, plan, "1", "1")
	says(t, "the row", text, "to the width that stands at the piece, else to 5 in")
	says(t, "the piece", text, "rip to 3 1/2 in, off the edge toward the starting wall")
	cuts := written(t, func(w io.Writer) error { return writeCuts(w, job, plan, sheet.FormatCSV, nil) })
	if !strings.Contains(cuts, "rip to 5\n") || !strings.Contains(cuts, ",\"rip to 3 1/2 in, off the edge toward") {
		t.Errorf("want pieces of both widths in\n%s", cuts)
	}
	if strings.Contains(cuts, "rip to 5;") {
		t.Errorf("a piece is ripped twice in\n%s", cuts)
	}
}

// TestNotesAreShared: pieces of a run that are sawn alike share a note, and pieces that lie have none.
func TestNotesAreShared(t *testing.T) {
	job := denJob()
	plan := layOut(job)
	pieces := plan.Floors[0].Rows[1].Runs[0].Pieces
	if len(pieces) < 4 {
		t.Fatalf("only %d pieces", len(pieces))
	}
	rip := []cutopt.Fact{{Kind: cutopt.FactRip, Edge: cutopt.EdgesBack, Width: inch}}
	for k := range 3 {
		pieces[k].Shaping = rip
	}
	page := htmlOf(t, job, plan)
	says(t, "three alike", page, "Note 1: Row 2, pieces 1, 2, 3 from the left: rip to 6 in, off the edge away from")
	if strings.Contains(page, "Note 2:") {
		t.Error("three alike: the sheet has a second note")
	}
	says(t, "whole planks", stepText(t, job, plan, "1", "2"), "Saw each before you lay it (note 1 on the map)")
	svg := written(t, func(w io.Writer) error { return writeMap(w, job, plan, sheet.FormatSVG, nil) })
	shown, titles, texts := readPicture(t, svg)
	marks := 0
	for i, p := range shown {
		if strings.HasPrefix(titles[i], "Row 2:") && slices.ContainsFunc(texts, func(text placedText) bool {
			return text.str == "1" && p.holds(text.box)
		}) {
			marks++
		}
	}
	if marks != 3 {
		t.Errorf("%d pieces of row 2 have the mark of note 1, want 3", marks)
	}
	plan.Site = new(cutopt.Site)
	pieces[0].Lies = true
	says(t, "one lies", htmlOf(t, job, plan), "Note 1: Row 2, pieces 2, 3 from the left: rip to 6 in")
}

// TestMarksOfThinPieces draws a room that ends in tips too thin for a label: the marks of their notes stay on the
// floor.
func TestMarksOfThinPieces(t *testing.T) {
	const in = measure.Inch
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: oracle.Rules(measure.UnitInch),
		Rooms: []cutopt.Room{{Name: "Prow", Outline: []cutopt.Point{
			{}, {X: 300 * in}, {X: 310 * in, Y: 120 * in}, {X: 160 * in, Y: 211 * in}, {X: 150 * in, Y: 211 * in}, {
				X: 10 * in,
				Y: 120 * in,
			},
		}}},
	}
	result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := writeMap(&b, job, result.Plan, sheet.FormatSVG, nil); err != nil {
		t.Fatal(err)
	}
	texts := regexp.MustCompile(`<text x="(-?[\d.]+)"`).FindAllStringSubmatch(b.String(), -1)
	if len(texts) < 50 {
		t.Fatalf("only %d texts", len(texts))
	}
	for _, m := range texts {
		if x, err := strconv.ParseFloat(m[1], 64); err != nil || x < 30 {
			t.Errorf("a text at x = %s, beyond the margin", m[1])
		}
	}
}

// TestNotesLeaveLabels draws a room whose rows run aslant, so that most cut pieces bear a note: short ones show the
// number of their plank all the same.
func TestNotesLeaveLabels(t *testing.T) {
	const in = measure.Inch
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: oracle.Rules(measure.UnitInch),
		Rooms: []cutopt.Room{{
			Name: "Kitchen", Outline: cutopt.RectangleAt(cutopt.Point{}, 78*in, 98*in),
			Rows: cutopt.RowRules{Direction: cutopt.DirectionAngle, Angle: 46},
		}},
	}
	result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	pieces, titles, texts := readPicture(t, written(t, func(w io.Writer) error {
		return writeMap(w, job, result.Plan, sheet.FormatSVG, nil)
	}))
	short := 0
	for i, p := range pieces {
		number := titles[i][strings.LastIndex(titles[i], " ")+1:]
		if p.x1-p.x0 > 40 || p.x1-p.x0 < 20 {
			continue
		}
		short++
		if !slices.ContainsFunc(texts, func(s placedText) bool { return s.str == number && overlap(p, s.box) }) {
			t.Errorf("%q does not show its plank", titles[i])
		}
	}
	if short < 4 {
		t.Fatalf("only %d short pieces", short)
	}
}

// TestNotesKeepOffDoors draws a hallway with doorways on both sides whose rows run aslant: no mark of a note stands
// over that of a doorway.
func TestNotesKeepOffDoors(t *testing.T) {
	const mm = measure.Millimetre
	job := &cutopt.Job{
		Unit: measure.UnitMillimetre, Plank: cutopt.Plank{Length: 1285 * mm, Width: 192 * mm}, Box: cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitMillimetre), Aims: []cutopt.Aim{},
		Rooms: []cutopt.Room{{
			Name: "Hallway", Outline: cutopt.RectangleAt(cutopt.Point{}, 6420*mm, 1480*mm),
			Rows: cutopt.RowRules{Direction: cutopt.DirectionAngle, Angle: 46},
		}},
	}
	for k := range 6 {
		job.Rooms[0].Doorways = append(job.Rooms[0].Doorways, cutopt.Doorway{
			Wall: k % 2 * 2, At: measure.Length(500+900*k) * mm, Width: 820 * mm, Depth: 110 * mm,
		})
	}
	result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	_, _, texts := readPicture(t, written(t, func(w io.Writer) error {
		return writeMap(w, job, result.Plan, sheet.FormatSVG, nil)
	}))
	doors := 0
	for _, d := range texts {
		if len(d.str) != 2 || d.str[0] != 'D' {
			continue
		}
		doors++
		for _, n := range texts {
			if _, err := strconv.Atoi(n.str); err != nil {
				continue
			}
			if x, y := (d.x0+d.x1-n.x0-n.x1)/2, (d.y0+d.y1-n.y0-n.y1)/2; math.Hypot(x, y) < 11 {
				t.Errorf("%s stands over %s", n.str, d.str)
			}
		}
	}
	if doors != len(job.Rooms[0].Doorways) {
		t.Fatalf("%d doorways are marked", doors)
	}
}
