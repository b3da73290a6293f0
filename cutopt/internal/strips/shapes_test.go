package strips_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// shape prints the rows and runs of a floor in whole units: "0-5: 1-9 12-20; 5-10: ...".
func shape(f *strips.Floor, unit measure.Length) string {
	var rows []string
	for _, r := range f.Rows {
		row := fmt.Sprintf("%v-%v:", float64(r.From)/float64(unit), float64(r.To)/float64(unit))
		for _, run := range r.Runs {
			row += fmt.Sprintf(" %v-%v", float64(run.From)/float64(unit), float64(run.To)/float64(unit))
		}
		rows = append(rows, row)
	}
	return strings.Join(rows, "; ")
}

func TestRuns(t *testing.T) {
	for _, row := range []struct {
		name   string
		room   strips.Room
		layout strips.Layout
		rows   string
		area   measure.Area // square inches
	}{
		{
			// The longest wall is at the bottom of the drawing: whoever faces it has the drawing's left on the right.
			name:   "an L seen from its longest wall: the arm on the drawing's left is on the right",
			room:   room(0, corners(in, 0, 0, 100, 0, 100, 20, 40, 20, 40, 60, 0, 60)),
			layout: strips.Layout{Width: 10 * in},
			rows:   "0-10: 0-100; 10-20: 0-100; 20-30: 60-100; 30-40: 60-100; 40-50: 60-100; 50-60: 60-100",
			area:   2000 + 1600,
		},
		{
			name: "the same L clockwise", area: 2000 + 1600,
			room:   room(0, corners(in, 0, 60, 40, 60, 40, 20, 100, 20, 100, 0, 0, 0)),
			layout: strips.Layout{Width: 10 * in},
			rows:   "0-10: 0-100; 10-20: 0-100; 20-30: 60-100; 30-40: 60-100; 40-50: 60-100; 50-60: 60-100",
		},
		{
			name: "the same L from the far side",
			room: room(0, corners(in, 0, 0, 100, 0, 100, 20, 40, 20, 40, 60, 0, 60)), layout: strips.Layout{
				Width: 10 * in,
				Start: cutopt.StartFar,
			},
			rows: "0-10: 0-40; 10-20: 0-40; 20-30: 0-40; 30-40: 0-40; 40-50: 0-100; 50-60: 0-100", area: 3600,
		},
		{
			// Turning left from the bottom wall one faces the wall on the drawing's right.
			name: "the same L across: rows begin at the right of the drawing",
			room: room(0, corners(in, 0, 0, 100, 0, 100, 20, 40, 20, 40, 60, 0, 60)), layout: strips.Layout{
				Width:     20 * in,
				Direction: cutopt.DirectionAcross,
			},
			rows: "0-20: 40-60; 20-40: 40-60; 40-60: 40-60; 60-80: 0-60; 80-100: 0-60", area: 3600,
		},
		{
			name: "an angle of 0 degrees is along", area: 2000,
			room: room(0, corners(in, 0, 0, 100, 0, 100, 20, 0, 20)), layout: strips.Layout{
				Width:     10 * in,
				Direction: cutopt.DirectionAngle,
			},
			rows: "0-10: 0-100; 10-20: 0-100",
		},
		{
			name: "the gap at every wall, one wall of its own",
			room: func() strips.Room {
				r := room(2*in, corners(in, 0, 0, 100, 0, 100, 24, 0, 24))
				r.Gaps[1] = 5 * in // the drawing's right: x = 100, on the left
				return r
			}(), layout: strips.Layout{Width: 10 * in}, rows: "2-12: 5-98; 12-22: 5-98", area: 93 * 20,
		},
		{
			name:   "a U: arms are two runs, the foot is one",
			room:   room(0, corners(in, 0, 0, 100, 0, 100, 30, 70, 30, 70, 10, 30, 10, 30, 30, 0, 30)),
			layout: strips.Layout{Width: 10 * in},
			rows:   "0-10: 0-100; 10-20: 0-30 70-100; 20-30: 0-30 70-100", area: 100*30 - 40*20,
		},
		{
			name: "an island splits the rows it stands in; it keeps its gap all round",
			room: room(0, corners(in, 0, 0, 100, 0, 100, 30, 0, 30), strips.Island{Outline: corners(in, 42, 12, 42,
				18, 48, 18,
				48, 12), Gap: 2 * in}),
			rows: "0-10: 0-100; 10-20: 0-50 60-100; 20-30: 0-100", area: 3000 - 100,
			layout: strips.Layout{Width: 10 * in},
		},
		{
			name: "an island without a gap against the wall",
			room: room(in, corners(in, 0, 0, 102, 0, 102, 32, 0, 32), strips.Island{Outline: corners(in, 0, 0, 11, 0,
				11, 11, 0,
				11)}),
			rows: "1-11: 1-91; 11-21: 1-101; 21-31: 1-101", area: 3000 - 100, layout: strips.Layout{Width: 10 * in},
		},
		{
			name: "a corner at 45 degrees: runs reach as far as the floor does",
			room: room(0, corners(in, 0, 0, 100, 0, 100, 10, 90, 20, 0, 20)), layout: strips.Layout{Width: 10 * in},
			rows: "0-10: 0-100; 10-20: 0-100", area: 2000 - 50,
		},
		{
			name:   "a neck that the gaps close leaves two runs",
			room:   room(in, corners(in, 0, 0, 40, 0, 40, 10, 42, 10, 42, 0, 102, 0, 102, 12, 0, 12)),
			area:   38*10 + 58*10,
			layout: strips.Layout{Width: 10 * in},
			rows:   "1-11: 1-39 43-101",
		},
		{
			name: "a jog under the tolerance is straightened towards the inside",
			room: room(0, corners(in/8, 0, 0, 400, 0, 400, 1, 800, 1, 800, 161, 0, 161)), layout: strips.Layout{
				Width:  10 * in,
				Smooth: in / 4,
			},
			rows: "0.125-10.125: 0-100; 10.125-20.125: 0-100", area: 2000,
		},
		{
			name: "slivers under the trim are dropped",
			room: room(0, corners(in/8, 0, 0, 800, 0, 800, 161, 0, 161)), layout: strips.Layout{
				Width: 10 * in,
				Cover: in / 4,
			},
			rows: "0-10: 0-100; 10-20: 0-100", area: 2012, // 2012.5 in full
		},
		{
			name: "a doorway in the starting wall: wood to the clear width",
			room: func() strips.Room {
				r := room(in, corners(in, 0, 0, 102, 0, 102, 17, 0, 17))
				r.Doorways = []strips.Doorway{{Wall: 0, At: 11 * in, Width: 30 * in, Depth: 4 * in, Into: -1}}
				return r
			}(), layout: strips.Layout{Width: 10 * in, FirstRow: 10 * in},
			rows: "0-5: 61-91; 5-15: 1-101; 15-20: 1-101", area: 1500 + 30*5,
			// the first row lies along the wall; it is whole
		},
		{
			name: "a doorway in the far wall: metal keeps the gap",
			room: func() strips.Room {
				r := room(in, corners(in, 0, 0, 102, 0, 102, 22, 0, 22))
				r.Doorways = []strips.Doorway{{Wall: 2, At: 11 * in, Width: 30 * in, Depth: 9 * in, Jamb: in, Into: -1}}
				return r
			}(), layout: strips.Layout{Width: 10 * in},
			rows: "1-11: 1-101; 11-21: 1-101; 21-31: 12-40", area: 2000 + 28*10,
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := lay(t, row.layout, row.room)
			if got := shape(f, in); got != row.rows {
				t.Errorf("rows\n%s, want\n%s", got, row.rows)
			}
			if got := f.Area / measure.Area(in*in); got != row.area {
				t.Errorf("area %d sq in, want %d", got, row.area)
			}
		})
	}
}

// Two rooms side by side, a wall of 4 in between them with a passage of 30 in.
func TestPassage(t *testing.T) {
	west := room(in, corners(in, 0, 0, 102, 0, 102, 42, 0, 42))
	east := room(in, corners(in, 106, 0, 158, 0, 158, 42, 106, 42))
	west.Doorways = []strips.Doorway{{Wall: 1, At: 6 * in, Width: 30 * in, Depth: 4 * in, Into: 1}}
	l := strips.Layout{Width: 10 * in}
	f := lay(t, l, west, east)
	const want = "1-11: 1-51 57-157; 11-21: 1-157; 21-31: 1-157; 31-41: 1-157"
	// The passage reaches from 6 to 36 in: the first row meets 5 in of it and is one run.
	if got := shape(f, in); got != strings.Replace(want, "1-51 57-157", "1-157", 1) {
		t.Errorf("rows %s", got)
	}
	if got := f.Area / measure.Area(in*in); got != 100*40+50*40+30*6 {
		t.Errorf("area %d", got)
	}
	if f.Net != measure.Area(in*in)*(102*42+52*42) || f.Name != "Den + Den" {
		t.Errorf("net %d, name %s", f.Net, f.Name)
	}
	east.Doorways = []strips.Doorway{{Wall: 3, At: 6 * in, Width: 30 * in, Depth: 4 * in, Into: 0}}
	if g := lay(t, l, west, east); shape(g, in) != shape(f, in) || g.Area != f.Area {
		t.Errorf("said from both sides: %s, area %d", shape(g, in), g.Area)
	}
}

func TestShaping(t *testing.T) {
	for _, row := range []struct {
		name     string
		outline  []measure.Point // corners in quarters of an inch, in the drawing; longest wall at the bottom
		islands  []strips.Island
		from, to measure.Length // quarters of an inch from the left, facing the bottom wall
		shaping  []cutopt.Fact
		corners  int
		start    cutopt.Start // the longest wall is at the top
		area     measure.Area // sixteenths of a square inch
	}{
		{
			name: "a full rectangle", outline: corners(in/4, 0, 0, 200, 0, 200, 40, 0, 40), from: 0, to: 80,
			area: 80 * 40,
		},
		{
			name: "a notch at a front corner: the drawing's right is the left", start: cutopt.StartFar,
			from: 0, to: 80, corners: 6,
			area:    80*40 - 9*6,
			outline: corners(in/4, 0, 0, 191, 0, 191, 6, 200, 6, 200, 40, 0, 40),
			shaping: []cutopt.Fact{{
				Kind: cutopt.FactNotch, End: cutopt.EndsLeft, Edge: cutopt.EdgesFront, Length: 9 * in / 4,
				Width: 6 * in / 4,
			}},
		},
		{
			name: "an end out of square", from: 0, to: 80, corners: 4, area: 80*40 - 10*40/2,
			outline: corners(in/4, 0, 0, 200, 0, 190, 40, 0, 40), shaping: []cutopt.Fact{{
				Kind: cutopt.FactEndCut,
				End:  cutopt.EndsLeft, Front: 20 * in, Back: 70 * in / 4,
			}},
		},
		{
			name: "a diagonal: what comes off is as large as what stays", from: 0, to: 80, corners: 3,
			area:    80 * 40 / 2,
			outline: corners(in/4, 0, 0, 200, 0, 120, 40, 0, 40), shaping: []cutopt.Fact{{
				Kind: cutopt.FactEndCut,
				End:  cutopt.EndsLeft, Front: 20 * in,
			}},
		},
		{
			name: "an edge from a corner to the middle of an end", from: 0, to: 80, corners: 4, area: 80*40 - 80*20/2,
			outline: corners(in/4, 0, 0, 200, 0, 200, 20, 120, 40, 0, 40),
			shaping: []cutopt.Fact{{Kind: cutopt.FactEdgeCut, Edge: cutopt.EdgesBack, Left: 5 * in, Right: 10 * in}},
		},
		{
			name: "an end out of square by a quarter", from: 0, to: 80, corners: 4, area: 80*40 - 40/2,
			outline: corners(in/4, 0, 0, 200, 0, 199, 40, 0, 40), shaping: []cutopt.Fact{{
				Kind: cutopt.FactEndCut,
				End:  cutopt.EndsLeft, Front: 20 * in, Back: 79 * in / 4,
			}},
		},
		{
			name: "a corner at an angle", from: 120, to: 200, corners: 5, area: 80*40 - 10*10/2,
			outline: corners(in/4, 0, 0, 200, 0, 200, 40, 10, 40, 0, 30), shaping: []cutopt.Fact{{
				Kind: cutopt.FactCornerCut,
				End:  cutopt.EndsRight, Edge: cutopt.EdgesBack, Length: 5 * in / 2, Width: 5 * in / 2,
			}},
		},
		{
			name: "a column within a piece", from: 0, to: 80, corners: 10, area: 80*40 - 8*8,
			outline: corners(in/4, 0, 0, 200, 0, 200, 40, 0, 40), islands: []strips.Island{{Outline: corners(in/4,
				180, 20, 188,
				20, 188, 28, 180, 28)}},
			shaping: []cutopt.Fact{
				{Kind: cutopt.FactCutOut, At: 3 * in, Across: 5 * in, Length: 2 * in, Width: 2 * in},
				{
					Kind: cutopt.FactSlit, Edge: cutopt.EdgesBack, At: 3 * in, Across: 7 * in, Length: 2 * in,
					Width: 3 * in,
				},
			},
		},
		{
			name: "a jamb beside a wall: two steps of the back edge", from: 0, to: 80, corners: 6,
			area:    80*40 - 40*10 - 40*4,
			outline: corners(in/4, 0, 0, 200, 0, 200, 30, 160, 30, 160, 36, 120, 36, 120, 40, 0, 40),
			shaping: []cutopt.Fact{
				{
					Kind: cutopt.FactNotch, End: cutopt.EndsLeft, Edge: cutopt.EdgesBack, Across: 15 * in / 2,
					Length: 10 * in, Width: 5 * in / 2,
				},
				{
					Kind: cutopt.FactNotch, End: cutopt.EndsRight, Edge: cutopt.EdgesBack, At: 10 * in, Across: 9 * in,
					Length: 10 * in, Width: in,
				},
			},
		},
		{
			name: "steps that reach an end from the front on only", from: 0, to: 80, corners: 12,
			area:    80*40 - 10*20 - 10*10,
			outline: corners(in/4, 0, 0, 200, 0, 200, 40, 0, 40), islands: []strips.Island{{Outline: corners(in/4,
				200, 10, 200, 30, 190, 30, 190, 25, 180, 25, 180, 15, 190, 15, 190, 10)}},
			shaping: []cutopt.Fact{
				{
					Kind: cutopt.FactNotch, End: cutopt.EndsLeft, Across: 5 * in / 2, Length: 5 * in / 2,
					Width: 5 * in / 4,
				},
				{
					Kind: cutopt.FactNotch, End: cutopt.EndsLeft, Across: 15 * in / 4, Length: 5 * in, Width: 5 * in / 2,
				},
				{
					Kind: cutopt.FactNotch, End: cutopt.EndsLeft, Across: 25 * in / 4, Length: 5 * in / 2,
					Width: 5 * in / 4,
				},
			},
		},
		{
			name: "a notch in the back edge and one at each end", from: 20, to: 100, corners: 8, area: 80*40 - 8*20,
			outline: corners(in/4, 0, 0, 200, 0, 200, 40, 0, 40), islands: []strips.Island{{Outline: corners(in/4,
				140, 20, 148,
				20, 148, 40, 140, 40)}},
			shaping: []cutopt.Fact{{
				Kind: cutopt.FactNotch, Edge: cutopt.EdgesBack, At: 8 * in, Across: 5 * in, Length: 2 * in,
				Width: 5 * in,
			}},
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := lay(t, strips.Layout{Width: 10 * in, Start: row.start}, room(0, row.outline, row.islands...))
			if len(f.Rows) != 1 || len(f.Rows[0].Runs) != 1 {
				t.Fatalf("rows %s", shape(f, in))
			}
			got, area := f.Clip(0, 0, row.from*in/4, row.to*in/4)
			if len(got) != row.corners || area != row.area*measure.Area(in*in/16) {
				t.Errorf("corners %v, area %d of %d", got, area, row.area*measure.Area(in*in/16))
			}
			if facts := f.Shaping(0, 0, row.from*in/4, row.to*in/4); !slices.Equal(facts, row.shaping) {
				t.Errorf("shaping %+v, want %+v", facts, row.shaping)
			}
		})
	}
}

// Walls out of square by no more than the trim covers are told as the notch that is sawn, others as what to scribe.
func TestNotchAslant(t *testing.T) {
	walls := func(slant measure.Length) []measure.Point { // a breast in a back corner, its side aslant
		return corners(in/16, 0, 0, 800, 0, 800, 160, 200+slant, 160, 200, 100, 0, 100)
	}
	island := func(slant measure.Length) []strips.Island { // a post askew
		return []strips.Island{{Outline: corners(in/16, 300, 60, 340, 60+slant, 340-slant, 100, 300, 100-slant)}}
	}
	box := corners(in/16, 0, 0, 800, 0, 800, 160, 0, 160)
	for _, row := range []struct {
		name    string
		outline []measure.Point
		islands []strips.Island
		cover   measure.Length
		kinds   []cutopt.FactKind
		told    [2]measure.Length // sixteenths
	}{
		{"a side that is square", walls(0), nil, in / 4, []cutopt.FactKind{cutopt.FactNotch}, [2]measure.Length{200, 60}},
		{"a side 1/16 in aslant", walls(1), nil, in / 4, []cutopt.FactKind{cutopt.FactNotch}, [2]measure.Length{201, 60}},
		{"the other way", walls(-1), nil, in / 4, []cutopt.FactKind{cutopt.FactNotch}, [2]measure.Length{200, 60}},
		{
			"1/2 in: the trim does not cover that", walls(8), nil, in / 4,
			[]cutopt.FactKind{cutopt.FactScribe},
			[2]measure.Length{208, 60},
		},
		{"no trim covers 1/16 in", walls(1), nil, 0, []cutopt.FactKind{cutopt.FactScribe}, [2]measure.Length{201, 60}},
		{
			"a post askew by 1/8 in", box, island(2), in / 4,
			[]cutopt.FactKind{cutopt.FactCutOut, cutopt.FactSlit},
			[2]measure.Length{40, 40},
		},
		{
			"a post askew by 3/4 in", box, island(12), in / 4,
			[]cutopt.FactKind{cutopt.FactScribe, cutopt.FactSlit},
			[2]measure.Length{40, 40},
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := lay(t, strips.Layout{Width: 10 * in, Cover: row.cover}, room(0, row.outline, row.islands...))
			facts := f.Shaping(0, 0, 0, 50*in)
			var kinds []cutopt.FactKind
			for i := range facts {
				kinds = append(kinds, facts[i].Kind)
			}
			if !slices.Equal(kinds, row.kinds) {
				t.Fatalf("told %+v, want %v", facts, row.kinds)
			}
			if got := [2]measure.Length{facts[0].Length, facts[0].Width}; got != [2]measure.Length{
				row.told[0] * in / 16, row.told[1] * in / 16,
			} {
				t.Errorf("%v x %v comes off, want %v sixteenths", got[0], got[1], row.told)
			}
		})
	}
}

// The floor of a doorway square to a wall that is 1/8 in out over 10 in ends in a line that is 1/16 in out: the end of
// the run is cut square where the wall is nearest, between two notches at the jambs.
func TestDoorwayOutOfSquare(t *testing.T) {
	outline := corners(in/64, 0, 0, 3200, 0, 3198, 160, 3454, 163, 3450, 483, 3194, 480, 3192, 640, 0, 640)
	f := lay(t, strips.Layout{Width: 10 * in, Cover: in / 4}, room(0, outline))
	run := f.Rows[0].Runs[0]
	if long := (run.To - run.From) / (in / 64); long != 3450 {
		t.Errorf("the run is %d/64 in long, want 3450", long)
	}
	facts := f.Shaping(0, 0, run.From, run.From+20*in)
	if len(facts) != 2 || facts[0].Kind != cutopt.FactNotch || facts[1].Kind != cutopt.FactNotch {
		t.Errorf("told %+v, want two notches", facts)
	}
}

// An edge row that ends at a slanted wall is sawn by straight cuts, the end first: the figures of the end are those of
// the full width, before the rip.
func TestStraightCuts(t *testing.T) {
	// The wall at the back comes into the row; one at 45 degrees is at the left facing the bottom wall, the drawing's
	// right.
	for _, row := range []struct {
		name    string
		outline []measure.Point // quarters
		shaping []cutopt.Fact
	}{
		{
			"a back edge ripped, the end aslant",
			corners(in/4, 0, 0, 200, 0, 170, 30, 100, 30, 100, 40, 0, 40),
			[]cutopt.Fact{
				{Kind: cutopt.FactEndCut, End: cutopt.EndsLeft, Front: 20 * in, Back: 10 * in},
				{Kind: cutopt.FactRip, Edge: cutopt.EdgesBack, Width: 10 * in / 4},
			},
		},
		{
			"a back edge aslant, the end too", corners(in/4, 0, 0, 200, 0, 176, 24, 112, 40, 0, 40),
			[]cutopt.Fact{
				{Kind: cutopt.FactEndCut, End: cutopt.EndsLeft, Front: 20 * in, Back: 10 * in},
				{Kind: cutopt.FactEdgeCut, Edge: cutopt.EdgesBack, Left: 18 * in / 4, Right: 38 * in / 4},
			},
		},
		{
			// bent inwards: no straight cut goes right across
			"a back edge with a bend towards the floor",
			corners(in/4, 0, 0, 200, 0, 200, 30, 160, 20, 120, 30, 100, 30, 100, 40, 0, 40),
			[]cutopt.Fact{{
				Kind: cutopt.FactScribe, End: cutopt.EndsBoth, Edge: cutopt.EdgesBack, Across: 5 * in, Length: 20 * in,
				Width: 5 * in,
			}},
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := lay(t, strips.Layout{Width: 10 * in, FirstRow: 10 * in}, room(0, row.outline))
			if got := f.Shaping(0, 0, 0, 20*in); !slices.Equal(got, row.shaping) {
				t.Errorf("shaping %+v, want %+v", got, row.shaping)
			}
		})
	}
}

func TestErrors(t *testing.T) {
	box := corners(in, 0, 0, 100, 0, 100, 20, 0, 20)
	for _, gap := range []measure.Length{10 * in, 50 * in, 1000 * measure.Metre} {
		_, err := strips.Lay([]strips.Room{room(gap, box)}, &strips.Layout{Width: 10 * in})
		if e, ok := err.(*strips.Error); !ok || e.Room != "Den" || !strings.Contains(e.Reason, "gap") {
			t.Errorf("gap %d: error %v", gap, err)
		}
	}
	for _, outline := range [][]measure.Point{nil, corners(in, 0, 0, 1, 1), corners(in, 0, 0, 5, 0, 9, 0)} {
		if _, err := strips.Lay([]strips.Room{room(0, outline)}, &strips.Layout{Width: 10 * in}); err == nil {
			t.Errorf("outline %v: no error", outline)
		}
	}
}
