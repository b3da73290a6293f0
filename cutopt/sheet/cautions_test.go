package sheet_test

import (
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// told returns what the job sheet of a job says, with plain spaces.
func told(t *testing.T, job *cutopt.Job) string {
	t.Helper()
	return strings.NewReplacer("&#39;", "'", "&#34;", `"`).Replace(htmlOf(t, job, layOut(job)))
}

func says(t *testing.T, why, page, want string) {
	t.Helper()
	if !strings.Contains(page, want) {
		t.Errorf("%s: the sheet does not say %q", why, want)
	}
}

// The den of 14' 6" x 10' 11" with a doorway of 32 in has 2 (174 + 131) - 32 = 578 in of base; 3 1/2 in x 578 in =
// 2023 sq in = 14.05 sq ft, more than the 6 sq ft a room of the lead rule (40 CFR 745.83, as reported).
func TestLeadAreaOfRooms(t *testing.T) {
	den := denJob()
	den.Rooms[0].Outline = rect(0, 0, 174, 131)
	says(t, "the den", told(t, den), "Base boards 3 1/2 in high along 578 in of wall in Den: 14.05 sq ft, more "+
		"than 6 sq ft.")

	// 2 (50 + 40) = 180 in: 630 sq in = 4.375 sq ft.
	closet := jobOf("Wren Cottage", cutopt.Room{Name: "Closet", Outline: rect(0, 0, 50, 40)})
	says(t, "a closet", told(t, closet), "along 180 in of wall in Closet: 4.38 sq ft, no more than 6 sq ft")

	many := jobOf("Wren Cottage")
	for range 13 {
		many.Rooms = append(many.Rooms, cutopt.Room{Outline: rect(0, 0, 50, 40)})
	}
	many.Rooms[4].Outline = rect(0, 0, 174, 131)
	says(t, "thirteen rooms", told(t, many), "Base boards 3 1/2 in high are more than 6 sq ft in one of 13 rooms.")
}

// ASTM F2170, as reported: 3 tests for the first 1,000 sq ft and one for each further 1,000.
func TestMoistureTests(t *testing.T) {
	for _, c := range []struct {
		feet float64 // of a room 10 ft deep
		want string
	}{
		{10, "with 3 tests"},
		{100, "with 3 tests"},
		{100.5, "with 4 tests"},
		{200, "with 4 tests"},
		{250, "with 5 tests"},
	} {
		job := jobOf("Hall", cutopt.Room{Outline: rect(0, 0, 12*c.feet, 120)})
		plan := layOut(job)
		plan.Waste.Net = measure.Area(c.feet*10*100) * measure.SquareFoot / 100
		says(t, c.want, htmlOf(t, job, plan), c.want)
	}
}

// F2170 is a method; the limits are F710's. Whoever nails, saws, sweeps or drills is told first what may be there.
func TestCautionsAreTold(t *testing.T) {
	page := told(t, denJob())
	for _, want := range []string{
		"by ASTM F2170, which is the method", "The limits are those of ASTM F710, as reported",
		"adhesives and mastics", "dry sweep, drill", "Wires and pipes",
		"before anything is nailed, drilled or undercut",
		"Heating cables", "Appliances under counters", "Local codes", "licensed", "pull bar", "room to tilt",
		"loses its profile",
	} {
		// The den's first row is ripped: its profile goes with the strip.
		if want == "loses its profile" {
			want = "The profile (tongue or groove) of that edge goes with the strip"
		}
		says(t, "the den", page, want)
	}
	whole := denJob()
	whole.Rooms[0].Outline = rect(0, 0, 174, 7*10+0.5)
	says(t, "a whole first row", told(t, whole), "loses its profile (tongue or groove): saw it off")
}

// Where the floor ends at a stair the sheet says how its nosing is fastened and that the top step grows, and the table
// of doorways names what the floor ends at.
func TestStairIsTold(t *testing.T) {
	job := denJob()
	if page := told(t, job); strings.Contains(page, "nosing") {
		t.Error("the den has no stair, and its sheet tells of a nosing")
	}
	job.Rooms[0].Doorways[0].Transition = cutopt.TransitionNosing
	page := told(t, job)
	says(t, "a stair", page, "fastened to the stair as its instruction says, never to the floating floor")
	says(t, "a stair", page, "Stair nosing, to Hall")
	if strings.Contains(page, "top step of the stair") {
		t.Error("a plank of unknown thickness: the sheet says how much the top step grows")
	}
	job.Plank.Thickness = inch / 4
	says(t, "a stair", told(t, job), "the top step of the stair 1/4 in higher")
}

// What is said of spares agrees with what the job keeps; where it keeps none, the cost of keeping one is that of the
// boxes that hold one plank more.
func TestSparesAgree(t *testing.T) {
	job := denJob() // its plan fills 10 boxes of 8 planks at 49.90
	plan := layOut(job)
	o := &plan.Order
	if o.Planks != 80 || o.Boxes != 10 {
		t.Fatalf("the den takes %d planks in %d boxes", o.Planks, o.Boxes)
	}
	o.Fewest = o.Planks
	job.Rules.Loss = 0
	page := htmlOf(t, job, plan)
	says(t, "full boxes", page, "No whole plank is kept for repairs; keeping one (spare: 1) costs one box more, 49.90.")
	says(t, "full boxes", page, "no whole plank is left for repairs")
	o.Planks, o.Fewest, o.Left = 79, 79, 1
	says(t, "one over", htmlOf(t, job, plan), "keeping one (spare: 1) costs no more boxes")
	job.Spare, o.Kept = cutopt.Spare{Planks: 1}, 1
	page = htmlOf(t, job, plan)
	says(t, "one kept", page, "The whole plank kept for repairs stored flat in the house, with the lot number.")
	if strings.Contains(page, "No whole plank is kept") {
		t.Error("one kept: the sheet says that none is")
	}
}

// Where a doorway in the starting wall has a row of its own, the row along the wall is the second: it loses its profile
// at the wall and keeps it in the doorway.
func TestDoorwayBeforeTheFirstRow(t *testing.T) {
	job := denJob()
	plan := layOut(job)
	plan.Floors[0].Facts = []cutopt.Fact{{Kind: cutopt.FactLine, Row: 2, Room: 1, Wall: 3, Width: 10 * inch}}
	says(t, "a strip in the doorway", stepText(t, job, plan, "1", "1"), "Row 1 of 20, in the doorway")
	second := stepText(t, job, plan, "1", "2")
	says(t, "the row along the wall", second, "Row 2 of 20, along the starting wall")
	says(t, "the row along the wall", second, "in the doorway it keeps it")
}
