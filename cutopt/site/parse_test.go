package site_test

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/site"
)

const in = measure.Inch

// rooms is a job and a plan of rooms of so many rows, without any pieces: all that a grammar reads of them.
func rooms(unit measure.Unit, names ...string) *site.Grammar {
	job, plan := &cutopt.Job{Unit: unit}, &cutopt.Plan{}
	for _, name := range names {
		job.Rooms = append(job.Rooms, cutopt.Room{Name: name, Outline: cutopt.Rectangle(144*in, 120*in)})
		plan.Floors = append(plan.Floors, cutopt.PlanFloor{Name: name, Rows: make([]cutopt.PlanRow, 17)})
	}
	return site.NewGrammar(job, plan)
}

var (
	flat = []string{"Kitchen", "Kids", "Bedroom 1", "Bedroom 2", "Box room"}
	text = cmpopts.IgnoreFields(site.Event{}, "Text", "Line", "Column")
)

func TestLines(t *testing.T) {
	one, many := rooms(measure.UnitInch, "Kitchen"), rooms(measure.UnitFoot, flat...)
	metric := rooms(measure.UnitMetre, "Küche")
	for _, c := range []struct {
		g    *site.Grammar
		line string
		want site.Event
	}{
		{one, "8", site.Event{Row: 8}},
		{one, "row 8", site.Event{Row: 8}},
		{one, "Laid to row 8", site.Event{Row: 8}},
		{one, "- kitchen 8 # at noon", site.Event{Row: 8}},
		{one, "all", site.Event{Row: 17}},
		{many, "Kitchen 8", site.Event{Row: 8}},
		{many, "kit 8.", site.Event{Row: 8}},
		{many, "8 Kitchen", site.Event{Row: 8}},
		{many, "kids 8", site.Event{Floor: 1, Row: 8}},
		{many, "Bedroom 2 8", site.Event{Floor: 3, Row: 8}},
		{many, "bed 2 row 8", site.Event{Floor: 3, Row: 8}},
		{many, "room 2 8", site.Event{Floor: 1, Row: 8}},
		{many, "box room 3", site.Event{Floor: 4, Row: 3}},
		{many, "laid box room 3", site.Event{Floor: 4, Row: 3}},
		{many, "Kitchen 9 3 pieces", site.Event{Row: 9, Pieces: 3}},
		{many, "Kitchen 9b, 1 piece", site.Event{Row: 9, Run: 2, Pieces: 1}},
		{many, "Kitchen 9.27", site.Event{Row: 9, Run: 27}},
		{many, "Kitchen 5 starter 14 1/2", site.Event{Kind: site.KindStarter, Row: 5, Length: 14*in + in/2}},
		{many, "lost 31", site.Event{Kind: site.KindLost, Planks: []int{31}}},
		{many, "Plank #31 broken", site.Event{Kind: site.KindLost, Planks: []int{31}}},
		{many, "lost planks 31, 40 and 41", site.Event{Kind: site.KindLost, Planks: []int{31, 40, 41}}},
		{many, "offcut of 12 lost", site.Event{Kind: site.KindOffcuts, Planks: []int{12}}},
		{many, "Lost offcut 12", site.Event{Kind: site.KindOffcuts, Planks: []int{12}}},
		{many, "culled 2", site.Event{Kind: site.KindCulled, Count: 2}},
		{many, "2 boards culled", site.Event{Kind: site.KindCulled, Count: 2}},
		{many, "culled plank 31", site.Event{Kind: site.KindLost, Planks: []int{31}}},
		{many, "miscut 12 left 22", site.Event{
			Kind: site.KindMiscut, Planks: []int{12}, Length: 22 * in, Ends: cutopt.EndsLeft,
		}},
		{many, "miscut 12 22\" right", site.Event{
			Kind: site.KindMiscut, Planks: []int{12}, Length: 22 * in, Ends: cutopt.EndsRight,
		}},
		{many, "offcut 14 1/2 left", site.Event{Kind: site.KindOffcut, Length: 14*in + in/2, Ends: cutopt.EndsLeft}},
		{many, "left offcut 1' 2 1/2\"", site.Event{Kind: site.KindOffcut, Length: 14*in + in/2, Ends: cutopt.EndsLeft}},
		{many, "offcut 14 none", site.Event{Kind: site.KindOffcut, Length: 14 * in}},
		{many, "planks 14", site.Event{Kind: site.KindPlanks, Count: 14}},
		{many, "14 planks, lot B 7", site.Event{Kind: site.KindPlanks, Count: 14, Lot: "B 7"}},
		{many, "box 3 lot B", site.Event{Kind: site.KindBoxes, Count: 3, Lot: "B"}},
		{many, "kitchen lot A", site.Event{Kind: site.KindLot, Lot: "A"}},
		{many, "mix", site.Event{Kind: site.KindMix}},
		{many, "Mixed lots", site.Event{Kind: site.KindMix}},
		{many, "Kitchen from 9 longer 1/2", site.Event{Kind: site.KindLonger, Row: 9, Length: in / 2}},
		{many, "kitchen 9 shorter by 1/2 in", site.Event{Kind: site.KindLonger, Row: 9, Length: -in / 2}},
		{many, "Kitchen 9 is 11' 11 1/2\"", site.Event{Kind: site.KindMeasured, Row: 9, Length: 143*in + in/2}},
		{many, "Kitchen 9 = 143 1/2", site.Event{Kind: site.KindMeasured, Row: 9, Length: 143*in + in/2}},
		{many, "Kitchen last row 4 1/4", site.Event{Kind: site.KindLast, Length: 4*in + in/4}},
		{many, "first row kitchen 3 3/4", site.Event{Kind: site.KindFirst, Length: 3*in + 3*in/4}},
		{many, "Bedroom 1 wall 3 out 1/2", site.Event{Kind: site.KindWall, Room: 2, Wall: 3, Length: in / 2}},
		{one, "wall 3 in 1/2 in", site.Event{Kind: site.KindWall, Wall: 3, Length: -in / 2}},
		{many, "Kids pipe at 40, 12 diameter 2", site.Event{
			Kind: site.KindPipe, Room: 1, At: cutopt.Point{X: 40 * in, Y: 12 * in}, Length: 2 * in,
		}},
		{many, "pipe in the kids at -4, 12 dia 2 in", site.Event{
			Kind: site.KindPipe, Room: 1, At: cutopt.Point{X: -4 * in, Y: 12 * in}, Length: 2 * in,
		}},
		{many, "kitchen island at [40, 12] size 24 x 12", site.Event{
			Kind: site.KindIsland, At: cutopt.Point{X: 40 * in, Y: 12 * in}, Size: cutopt.Point{X: 24 * in, Y: 12 * in},
		}},
		{metric, "küche 5 starter 36.5", site.Event{Kind: site.KindStarter, Row: 5, Length: 365 * measure.Millimetre}},
	} {
		got, err := c.g.Parse(c.line)
		if err != nil {
			t.Errorf("%q: %v", c.line, err)
			continue
		}
		if d := cmp.Diff(c.want, got, text); d != "" {
			t.Errorf("%q (-want +got):\n%s", c.line, d)
		}
		again, err := c.g.Parse(c.g.Format(got))
		if d := cmp.Diff(got, again, text); err != nil || d != "" {
			t.Errorf("%q is written %q, which reads as (-want +got):\n%s%v", c.line, c.g.Format(got), d, err)
		}
	}
}

func TestSamplesParse(t *testing.T) {
	g := rooms(measure.UnitInch, flat...)
	kinds := make(map[site.Kind]bool)
	for _, s := range site.Lines() {
		e, err := g.Parse(s.Line)
		if err != nil {
			t.Errorf("%q: %v", s.Line, err)
		}
		kinds[e.Kind] = true
		if got := g.Format(e); e.Kind.String() != "wall" && e.Kind.String() != "pipe" && e.Kind.String() != "island" &&
			got != s.Line {
			t.Errorf("%q is written %q", s.Line, got)
		}
	}
	for k := site.KindLaid; k <= site.KindPipe; k++ {
		if !kinds[k] {
			t.Errorf("the table has no line of kind %v", k)
		}
	}
}

func TestBadLines(t *testing.T) {
	one, many := rooms(measure.UnitInch, "Kitchen"), rooms(measure.UnitInch, flat...)
	for _, c := range []struct {
		g          *site.Grammar
		line       string
		column     int
		value, msg string // parts of what is said
	}{
		{many, "kitchn 8", 1, "kitchn", "did you mean Kitchen?"},
		{many, "8", 1, "8", "which room?"},
		{many, "bedroom 8", 1, "bedroom", "Bedroom 1 or Bedroom 2"},
		{many, "ki 8", 1, "ki", "Kitchen or Kids"},
		{many, "kitchen 18", 9, "18", "1 to 17"},
		{many, "kitchen 0", 9, "0", "1 to 17"},
		{many, "room 9 3", 6, "9", "1 to 5"},
		{many, "lsot 31", 1, "lsot", "did you mean lost?"},
		{many, "lost", 5, "lost", "number of the plank"},
		{many, "lost thirty", 6, "thirty", "number of the plank"},
		{many, "lost 2 planks", 6, "2", "culled 2"},
		{many, "culled", 7, "culled", "how many"},
		{many, "miscut 12", 10, "miscut 12", "how long"},
		{many, "miscut 12 22", 13, "miscut", "left or right"},
		{many, "miscut 12 none 22", 11, "none", "how long the part is"},
		{many, "offcut 14 1/2", 14, "offcut", "left, right or none"},
		{many, "offcut 14,5 left", 10, ",", "use a point for decimals"},
		{many, "offcut 1_4 left", 9, "_", "which of its ends"},
		{many, "kitchen 5 starter 3/0", 19, "3/0", "divides by zero"},
		{many, "kitchen 9 3", 12, "kitchen", "write 3 pieces"},
		{many, "kitchen 9 longer", 17, "kitchen", "by how much"},
		{many, "kitchen wall 3 1/2", 16, "1/2", "out 1/2"},
		{many, "kitchen pipe at 40 diameter 2", 20, "diameter", "40, 12"},
		{many, "kitchen pipe at 40 12 2", 17, "40 12 2", "pipe at 40, 12 diameter 2"},
		{many, "kitchen island at 6' 5' 24 x 12", 22, "6' 5' 24", "island at 40, 12 size 24 x 12"},
		{many, "kitchen 8 lost 3 extra", 16, "3", "too much"},
		{many, "mix it", 5, "it", "too much"},
		{many, "planks 14 bananas", 11, "bananas", "too much"},
		{many, "lot B", 1, "lot", "a lot of what?"},
		{one, "", 1, "", "says nothing"},
		{one, "hello", 1, "hello", "unknown word"},
		{one, strings.Repeat("8", 500), 1, "8888", "too long"},
		{one, "Kit\xe0en lot Kit", 4, "Kit", "not in UTF-8"},
		{one, "9 longer 99999999999 ft", 10, "", "longer than a kilometre"},
	} {
		e, err := c.g.Parse(c.line)
		var wrong *site.Error
		if !errors.As(err, &wrong) {
			t.Errorf("%q was read as %+v", c.line, e)
			continue
		}
		if wrong.Column != c.column || !strings.Contains(wrong.Value, c.value) || !strings.Contains(err.Error(), c.msg) {
			t.Errorf("%q: column %d, value %q: %v; want column %d, value %q, %q", c.line, wrong.Column, wrong.Value, err,
				c.column, c.value, c.msg)
		}
	}
}

// TestRoundTrip writes random events and reads them again.
func TestRoundTrip(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 1))
	for _, g := range []*site.Grammar{
		rooms(measure.UnitInch, ""), rooms(measure.UnitFoot, flat...),
		rooms(measure.UnitMillimetre, "Lost room", "2", "Row 8"),
	} {
		for range 400 {
			e := random(r)
			line := g.Format(e)
			if strings.HasPrefix(line, "room 4") || strings.HasPrefix(line, "room 5") {
				continue // which a plan of fewer rooms does not have
			}
			got, err := g.Parse(line)
			if d := cmp.Diff(e, got, text); err != nil || d != "" {
				t.Fatalf("%q (-want +got):\n%s%v", line, d, err)
			}
		}
	}
}

// random draws an event of five rooms of 17 rows.
func random(r *rand.Rand) site.Event {
	length := func() measure.Length { return measure.Length(1+r.IntN(2000)) * in / 16 }
	e := site.Event{Kind: site.Kind(r.IntN(18))}
	switch k := e.Kind; k {
	case site.KindWall, site.KindIsland, site.KindPipe:
		e.Length = length()
		if k == site.KindWall {
			e.Wall = 1 + r.IntN(9)
		} else {
			e.At = cutopt.Point{X: length() - 60*in, Y: length()}
		}
		if k == site.KindIsland {
			e.Size, e.Length = cutopt.Point{X: length(), Y: length()}, 0
		}
	case site.KindLost, site.KindOffcuts:
		e.Planks = []int{1 + r.IntN(99), 1 + r.IntN(99)}
	case site.KindMiscut, site.KindOffcut:
		e.Length, e.Ends = length(), cutopt.Ends(1+r.IntN(2))
		if k == site.KindMiscut {
			e.Planks = []int{1 + r.IntN(99)}
		}
	case site.KindPlanks, site.KindBoxes, site.KindCulled:
		e.Count = 1 + r.IntN(30)
		if k != site.KindCulled && r.IntN(2) == 0 {
			e.Lot = "K-7 no. 31"
		}
	case site.KindMix:
	default:
		if k != site.KindLot && k != site.KindFirst && k != site.KindLast {
			e.Row = 1 + r.IntN(17)
		}
		if k != site.KindLaid && k != site.KindLot {
			e.Length = length()
		}
		if k == site.KindLot {
			e.Lot = "B"
		}
		if k == site.KindLonger && r.IntN(2) == 0 {
			e.Length = -e.Length
		}
		if k == site.KindLaid && r.IntN(2) == 0 {
			e.Run, e.Pieces = 1+r.IntN(40), 1+r.IntN(4)
		}
	}
	return e
}

func FuzzParse(f *testing.F) {
	for _, s := range site.Lines() {
		f.Add(s.Line)
	}
	f.Add("Kit\xe0en lot Kit") // a broken byte would be written as another character
	one, many := rooms(measure.UnitInch, "Kitchen"), rooms(measure.UnitFoot, flat...)
	f.Fuzz(func(t *testing.T, line string) {
		for _, g := range []*site.Grammar{one, many} {
			e, err := g.Parse(line)
			if err != nil {
				continue
			}
			again, err := g.Parse(g.Format(e))
			if d := cmp.Diff(e, again, text); err != nil || d != "" {
				t.Fatalf("%q is written %q, which reads as (-want +got):\n%s%v", line, g.Format(e), d, err)
			}
		}
	})
}
