package takeoff_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

func TestTwoMouldings(t *testing.T) {
	a, b := 12*ft+11*in, 8*ft+7*in
	job := bare(cutopt.Room{Outline: cutopt.Rectangle(a, b), Doorways: []cutopt.Doorway{
		{Wall: 2, Width: a}, {Wall: 3, Width: b},
	}})
	item := find(t, reckon(t, job), cutopt.ItemTrim)
	if item.Count != 2 || item.Length != 21*ft+6*in {
		t.Errorf("%d pieces of %v in all, want 2 of 21 ft 6 in", item.Count, item.Length.Format(measure.UnitFoot, in))
	}
}

func TestTransitionsOfTheHall(t *testing.T) {
	job := bare(
		cutopt.Room{Name: "Hall", Outline: cutopt.Rectangle(194*in, 46*in), Doorways: []cutopt.Doorway{
			{Wall: 1, At: 7 * in, Width: 32 * in, Transition: cutopt.TransitionEdge},
			{Wall: 3, At: 8 * in, Width: 28 * in, Transition: cutopt.TransitionEdge},
			{Wall: 0, At: 20 * in, Width: 30 * in, To: "Closet"},
		}},
		cutopt.Room{Name: "Closet", Outline: cutopt.Rectangle(60*in, 30*in), Doorways: []cutopt.Doorway{
			{Wall: 2, At: 10 * in, Width: 30 * in, To: "Hall"},
		}},
	)
	job.Materials.Transitions = []cutopt.Profile{
		{Kind: cutopt.TransitionEdge, Sticks: []cutopt.Stick{{Length: 72 * in, Price: 2450}}},
	}
	list := reckon(t, job)
	var kinds []cutopt.Transition
	for _, item := range list.Items {
		if item.Kind != cutopt.ItemTransition {
			continue
		}
		kinds = append(kinds, item.Transition)
		switch item.Transition {
		case cutopt.TransitionEdge:
			if item.Count != 2 || item.Length != 60*in || len(item.Goods) != 1 || item.Goods[0].Count != 1 {
				t.Errorf("edge profiles: %+v", item)
			}
		case cutopt.TransitionLevel:
			if item.Count != 1 || item.Length != 30*in || item.Goods != nil {
				t.Errorf("between hall and closet: %+v", item)
			}
		}
	}
	if !slices.Equal(kinds, []cutopt.Transition{cutopt.TransitionLevel, cutopt.TransitionEdge}) {
		t.Errorf("transitions %v", kinds)
	}
}

func TestTransitionAtABreak(t *testing.T) {
	job := bare(
		cutopt.Room{
			Name: "Hall", Outline: cutopt.Rectangle(300*in, 100*in), Breaks: []cutopt.Break{{Wall: 0, At: 150 * in}},
			Doorways: []cutopt.Doorway{{Wall: 2, At: 20 * in, Width: 32 * in, Depth: 2 * in, To: "Closet"}},
		},
		cutopt.Room{Name: "Closet", Outline: cutopt.Rectangle(60*in, 40*in)},
	)
	job.Materials.Transitions = []cutopt.Profile{
		{Kind: cutopt.TransitionLevel, Sticks: []cutopt.Stick{{Length: 72 * in, Price: 1890}}},
	}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(result.Plan.Breaks); n != 1 {
		t.Fatalf("%d breaks, want 1", n)
	}
	item := find(t, judged(t, job, result.Plan), cutopt.ItemTransition)
	last := item.Stretches[len(item.Stretches)-1]
	if item.Count != 3 || item.Length != 132*in || last.Length != 100*in || last.Doorway != 0 ||
		item.Goods[0].Count != 2 {
		t.Errorf("transitions %+v, want 32 in and, in two pieces, 100 in of 2 sticks", item)
	}
}

func TestOutsideCorners(t *testing.T) {
	thick := 9 * in / 16
	job := bare(cutopt.Room{Outline: ring(0, 0, 200, 0, 200, 80, 120, 80, 120, 150, 0, 150)})
	job.Materials.Trim = []cutopt.Trim{{Kind: cutopt.TrimBase, Thickness: thick}}
	item := find(t, reckon(t, job), cutopt.ItemTrim)
	var got []measure.Length
	for _, s := range item.Stretches {
		got = append(got, s.Pieces...)
	}
	want := []measure.Length{200 * in, 80 * in, 80*in + thick, 70*in + thick, 120 * in, 150 * in}
	if !slices.Equal(got, want) {
		t.Errorf("pieces of an L %v, want %v", got, want)
	}
	// Walls 3 and 4 meet at the outside corner. Seen from the room it is the left end of wall 3, the right of wall 4.
	if l, r := item.Stretches[2].Outside, item.Stretches[3].Outside; l[0] != thick || l[1] != 0 || r[0] != 0 ||
		r[1] != thick {
		t.Errorf("the mitres are at %v and %v", l, r)
	}
	slices.Reverse(job.Rooms[0].Outline) // the same room drawn clockwise
	again := find(t, reckon(t, job), cutopt.ItemTrim)
	if again.Length != item.Length || again.Count != item.Count {
		t.Errorf("drawn clockwise %v in %d pieces, else %v in %d", again.Length, again.Count, item.Length, item.Count)
	}

	job.Rooms[0].Outline = ring(0, 0, 200, 0, 200, 80, 120, 80, 60, 140, 0, 140) // wall 3 to 4 turns out by 45 degrees
	item = find(t, reckon(t, job), cutopt.ItemTrim)
	add := measure.Length(math.Ceil(float64(thick) * 0.41421356237))
	for _, s := range item.Stretches {
		for _, o := range s.Outside {
			if o != 0 && o != add {
				t.Errorf("wall %d is longer by %d at an outside corner, want %d", s.Wall, o, add)
			}
		}
	}
	if o := item.Stretches[2].Outside[0]; o != add {
		t.Errorf("wall 3 is longer by %d, want %d", o, add)
	}
}

func TestStretches(t *testing.T) {
	room := cutopt.Room{
		Outline:  cutopt.Rectangle(200*in, 100*in),
		Doorways: []cutopt.Doorway{{Wall: 0, At: 50 * in, Width: 30 * in}},
		Islands: []cutopt.Island{
			{Name: "Cabinet", Outline: cutopt.RectangleAt(cutopt.Point{X: 120 * in, Y: 76 * in}, 40*in, 24*in)},
			{Name: "Column", Outline: cutopt.RectangleAt(cutopt.Point{X: 80 * in, Y: 40 * in}, 10*in, 10*in)},
		},
	}
	job := bare(room)
	job.Materials.Trim = []cutopt.Trim{
		{Kind: cutopt.TrimBase, Thickness: in, Casing: 2 * in},
		{Kind: cutopt.TrimShoe, Thickness: in, Islands: true},
	}
	list := reckon(t, job)
	type stretch struct {
		island, wall int
		at, length   measure.Length
		outside      [2]measure.Length
	}
	stretches := func(kind cutopt.TrimKind) (all []stretch) {
		for _, item := range list.Items {
			if item.Kind == cutopt.ItemTrim && item.Trim == kind {
				for _, s := range item.Stretches {
					all = append(all, stretch{s.Island, s.Wall, s.At / in, s.Length / in, [2]measure.Length{
						s.Outside[0] / in, s.Outside[1] / in,
					}})
				}
			}
		}
		return all
	}
	both := [2]measure.Length{1, 1}
	base := []stretch{
		{0, 1, 0, 48, [2]measure.Length{}},
		{0, 1, 82, 118, [2]measure.Length{}},
		{0, 2, 0, 100, [2]measure.Length{}},
		{0, 3, 0, 40, [2]measure.Length{}},
		{0, 3, 80, 120, [2]measure.Length{}},
		{0, 4, 0, 100, [2]measure.Length{}},
	}
	if diff := cmp.Diff(base, stretches(cutopt.TrimBase), cmp.AllowUnexported(stretch{})); diff != "" {
		t.Errorf("base (-want +got):\n%s", diff)
	}
	shoe := append(slices.Clone(base),
		stretch{1, 1, 0, 40, both},                    // the front of the cabinet
		stretch{1, 2, 0, 24, [2]measure.Length{1, 0}}, // its sides end at the wall
		stretch{1, 4, 0, 24, [2]measure.Length{0, 1}},
		stretch{2, 1, 0, 10, both}, stretch{2, 2, 0, 10, both}, stretch{2, 3, 0, 10, both}, stretch{2, 4, 0, 10, both})
	shoe[0], shoe[1] = stretch{0, 1, 0, 50, [2]measure.Length{}}, stretch{
		0, 1, 80, 120,
		[2]measure.Length{},
	} // no casing
	if diff := cmp.Diff(shoe, stretches(cutopt.TrimShoe), cmp.AllowUnexported(stretch{})); diff != "" {
		t.Errorf("shoe (-want +got):\n%s", diff)
	}
}

func TestDoorwaysBetweenRooms(t *testing.T) {
	door := cutopt.Doorway{Wall: 1, At: 20 * in, Width: 30 * in, Depth: 4 * in, To: "Den"}
	rooms := func() *cutopt.Job {
		return bare(
			cutopt.Room{Name: "Hall", Outline: cutopt.Rectangle(100*in, 80*in), Doorways: []cutopt.Doorway{door}},
			cutopt.Room{Name: "Den", Outline: cutopt.RectangleAt(cutopt.Point{X: 104 * in}, 120*in, 80*in)},
		)
	}
	const walls = 2*(100+80)*in + 2*(120+80)*in
	job := rooms()
	item := find(t, reckon(t, job), cutopt.ItemTrim)
	if item.Unseen != 1 || item.Length != walls-30*in {
		t.Errorf("shown in one room: %v of trim, %d unseen", item.Length/in, item.Unseen)
	}
	job = rooms()
	job.Rooms[1].Doorways = []cutopt.Doorway{{Wall: 3, At: 30 * in, Width: 30 * in, To: "Hall"}}
	if item = find(t, reckon(t, job), cutopt.ItemTrim); item.Unseen != 0 || item.Length != walls-60*in {
		t.Errorf("shown in both: %v of trim, %d unseen", item.Length/in, item.Unseen)
	}
	job = rooms()
	job.Rooms[0].Doorways[0].Through = true
	if item = find(t, reckon(t, job), cutopt.ItemTrim); item.Unseen != 0 || item.Length != walls-60*in {
		t.Errorf("run through: %v of trim, %d unseen", item.Length/in, item.Unseen)
	}
	for _, item := range reckon(t, job).Items {
		if item.Kind == cutopt.ItemTransition {
			t.Errorf("a floor that runs through has a transition: %+v", item)
		}
	}
}

func TestTrimHidesTheGap(t *testing.T) {
	for _, c := range []struct {
		change func(*cutopt.Job)
		bare   measure.Length
	}{
		{func(*cutopt.Job) {}, in / 8},
		{func(j *cutopt.Job) {
			j.Materials.Trim = append(j.Materials.Trim, cutopt.Trim{Kind: cutopt.TrimShoe, Thickness: in / 2})
		}, 0},
		{func(j *cutopt.Job) { j.Rules.Cover = in / 8 }, 0},
		{func(j *cutopt.Job) { j.Rooms[0].WallGaps = map[int]measure.Length{2: in / 2} }, 3 * in / 8},
	} {
		job := den()
		job.Rules.Gap, job.Rules.Cover = in/4, in/4
		job.Materials.Trim = []cutopt.Trim{{Thickness: 3 * in / 8}}
		c.change(job)
		for _, item := range reckon(t, job).Items {
			if item.Kind == cutopt.ItemTrim && item.Bare != c.bare {
				t.Errorf("%v trim, gap %v, cover %v: %v too thin, want %v", item.Trim, job.Rules.Gap, job.Rules.Cover,
					item.Bare,
					c.bare)
			}
		}
	}
}

func TestSplices(t *testing.T) {
	for _, c := range []struct {
		wall measure.Length
		want []measure.Length
	}{
		{192 * in, []measure.Length{192 * in}},
		{214 * in, []measure.Length{192 * in, 22*in + in/2}},
		{196 * in, []measure.Length{98*in + in/4, 98*in + in/4}},
		{196*in + in/16, []measure.Length{98*in + 5*in/16, 98*in + in/4}}, // a tape shows no 9/32
		{400 * in, []measure.Length{192 * in, 192 * in, 17 * in}},
	} {
		job := bare(cutopt.Room{Outline: cutopt.Rectangle(c.wall, 60*in)})
		job.Materials.Trim = []cutopt.Trim{{Thickness: in / 2, Sticks: []cutopt.Stick{{Length: 16 * ft}}}}
		item := find(t, reckon(t, job), cutopt.ItemTrim)
		if got := item.Stretches[0].Pieces; !slices.Equal(got, c.want) {
			t.Errorf("a wall of %v: pieces %v, want %v", c.wall/in, got, c.want)
		}
	}
}

// A cabinet in the corner of walls 4 and 1 that stands off both by no more than its gap and the wall's, 1/4 in each,
// has no floor behind it: nothing hides a gap there. Farther off it has.
func TestNoTrimWithoutFloor(t *testing.T) {
	for _, row := range []struct {
		name   string
		off    measure.Length
		door   measure.Length // from the corner of walls 1 and 2 to a doorway in wall 2; 0 for none
		pieces int
		length measure.Length
	}{
		{"in the corner", 0, 0, 6, (200 + 100 + 200 + 100) * in},
		{"off by 1/4 in", in / 4, 0, 6, (200+100+200+100)*in - in/2},
		{"off by both gaps", in / 2, 0, 6, (200+100+200+100)*in - in},
		{"off by more", in, 0, 8, 2 * (200 + 100 + 40 + 24) * in},
		{"a doorway by the corner", 0, in / 2, 7, (200 + 100 + 200 + 70) * in}, // the jamb is a corner of the floor
	} {
		t.Run(row.name, func(t *testing.T) {
			room := cutopt.Room{Outline: cutopt.Rectangle(200*in, 100*in), Islands: []cutopt.Island{
				{Outline: cutopt.RectangleAt(cutopt.Point{X: row.off, Y: row.off}, 40*in, 24*in)},
			}}
			if row.door > 0 {
				room.Doorways = []cutopt.Doorway{{Wall: 1, At: row.door, Width: 30 * in}}
			}
			job := bare(room)
			job.Rules.Gap = in / 4
			job.Materials.Trim = []cutopt.Trim{{Kind: cutopt.TrimShoe, Thickness: in / 2, Islands: true}}
			item := find(t, reckon(t, job), cutopt.ItemTrim)
			length := measure.Length(0)
			for _, s := range item.Stretches {
				length += s.Length
			}
			if item.Count != row.pieces || length != row.length {
				t.Errorf("%d pieces, %v in all, want %d and %v: %+v", item.Count, length, row.pieces, row.length,
					item.Stretches)
			}
		})
	}
}
