package takeoff_test

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/takeoff"
)

const (
	in = measure.Inch
	ft = measure.Foot
)

// bare returns a job in inches of rooms without products.
func bare(rooms ...cutopt.Room) *cutopt.Job {
	return &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in, Thickness: in / 4},
		Box: cutopt.Box{Planks: 8, Price: 4990}, Rules: oracle.Rules(measure.UnitInch), Rooms: rooms,
	}
}

// ring returns an outline from its coordinates in inches.
func ring(xy ...measure.Length) []cutopt.Point {
	var out []cutopt.Point
	for i := 0; i < len(xy); i += 2 {
		out = append(out, cutopt.Point{X: xy[i] * in, Y: xy[i+1] * in})
	}
	return out
}

// outlinePlan stands for a plan of the job where only the rooms matter: floors with the axes of their drawing.
func outlinePlan(job *cutopt.Job) *cutopt.Plan {
	return &cutopt.Plan{Floors: make([]cutopt.PlanFloor, len(job.Floors()))}
}

// reckon takes off a job of which only the rooms matter, and judges every cutting.
func reckon(t *testing.T, job *cutopt.Job) *cutopt.Takeoff {
	t.Helper()
	return judged(t, job, outlinePlan(job))
}

func judged(t *testing.T, job *cutopt.Job, plan *cutopt.Plan) *cutopt.Takeoff {
	t.Helper()
	list, err := takeoff.New(context.Background(), job, plan)
	if err != nil {
		t.Fatal(err)
	}
	for i := range list.Items {
		judge(t, &list.Items[i])
	}
	return list
}

// judge holds a cutting against stock.Check and stock.Verify, and its pieces against those of the item.
func judge(t *testing.T, item *cutopt.Item) {
	t.Helper()
	c := item.Cutting
	if c == nil {
		return
	}
	if broken := stock.Check(c.Job, c.Plan); broken != nil {
		t.Errorf("%v: the cutting breaks rules: %v", item.Kind, broken)
	}
	bound, err := stock.Verify(context.Background(), c.Job, c.Certificate)
	if err != nil {
		t.Fatalf("%v: the certificate: %v", item.Kind, err)
	}
	if c.Cost && bound.Cost != c.Plan.Cost {
		t.Errorf("%v: said to be proven, but the certificate shows %d of %d", item.Kind, bound.Cost, c.Plan.Cost)
	}
	var pieces []measure.Length
	for _, s := range item.Stretches {
		pieces = append(pieces, s.Pieces...)
	}
	for _, s := range item.Strips {
		pieces = append(pieces, s.Lengths...)
	}
	var cut []measure.Length
	for _, p := range c.Job.Pieces {
		cut = append(cut, p.Length)
	}
	if !slices.Equal(pieces, cut) || item.Count != len(pieces) {
		t.Errorf("%v: pieces %v are cut, %d of %v are needed", item.Kind, cut, item.Count, pieces)
	}
}

// find returns the only item of a kind.
func find(t *testing.T, list *cutopt.Takeoff, kind cutopt.ItemKind) *cutopt.Item {
	t.Helper()
	var found *cutopt.Item
	for i := range list.Items {
		if list.Items[i].Kind == kind {
			if found != nil {
				t.Fatalf("two items are %v", kind)
			}
			found = &list.Items[i]
		}
	}
	if found == nil {
		t.Fatalf("no item is %v", kind)
	}
	return found
}

func den() *cutopt.Job {
	return bare(cutopt.Room{Name: "Den", Outline: cutopt.Rectangle(174*in, 131*in)})
}

// Plain arithmetic: rolls of 4 x 25 ft butted in a den of 174 x 131 in are 3 along, a strip of 14 1/2 ft from each, and
// 2 across, two strips of 131 in from each. By area 2 would do either way.
func TestUnderlayOfTheDen(t *testing.T) {
	for _, c := range []struct {
		run          cutopt.StripsRun
		rolls, count int
		length       measure.Length
		seams        measure.Length
	}{
		{cutopt.StripsAlong, 3, 3, 174 * in, 2 * 174 * in},
		{cutopt.StripsAcross, 2, 4, 131 * in, 3 * 131 * in},
		{cutopt.StripsEither, 2, 4, 131 * in, 3 * 131 * in},
	} {
		for _, price := range []cutopt.Money{0, 3900} {
			job := den()
			job.Materials.Underlay = cutopt.Underlay{
				Strips: c.run, Rolls: []cutopt.Roll{{Width: 4 * ft, Length: 25 * ft, Price: price}},
			}
			list := reckon(t, job)
			item := find(t, list, cutopt.ItemUnderlay)
			if n := item.Goods[0].Count; n != c.rolls || item.Count != c.count || len(item.Goods) != 1 {
				t.Errorf("%v: %d rolls for %d strips, want %d for %d", c.run, n, item.Count, c.rolls, c.count)
			}
			if got := item.Strips[0]; got.Lengths[0] != c.length || got.Count != c.count {
				t.Errorf("%v: strips %+v, want %d of %v", c.run, got, c.count, c.length)
			}
			if tape := find(t, list, cutopt.ItemTape); tape.Length != c.seams || tape.Named {
				t.Errorf("%v: %v of seams, want %v", c.run, tape.Length, c.seams)
			}
		}
	}
}

// Plain arithmetic: film 10 ft wide with laps of 8 in over 131 in is (131 - 8)/(120 - 8), 2 strips. Turned up by 2 in
// it is still 2, each 4 in longer; over 232 in it is 2 to the inch, and 3 beyond.
func TestFilm(t *testing.T) {
	for _, c := range []struct {
		across, up measure.Length
		count      int
	}{
		{131 * in, 0, 2},
		{131 * in, 2 * in, 2},
		{232 * in, 0, 2},
		{232*in + 1, 0, 3},
		{228 * in, 2 * in, 2},
		{228*in + 1, 2 * in, 3},
		{120 * in, 0, 1},
		{120*in + 1, 0, 2},
	} {
		job := bare(cutopt.Room{Outline: cutopt.Rectangle(300*in, c.across)})
		job.Rooms[0].Rows.Direction = cutopt.DirectionAlong
		job.Materials.Underlay.Attached = true
		job.Materials.Film = cutopt.Film{
			Lap: 8 * in, TurnUp: c.up, Rolls: []cutopt.Roll{{Width: 10 * ft, Length: 100 * ft}},
		}
		list := reckon(t, job)
		if item := find(t, list, cutopt.ItemUnderlay); item.Bought() || item.Strips != nil {
			t.Errorf("attached underlay is bought: %+v", item)
		}
		item := find(t, list, cutopt.ItemFilm)
		strips := item.Strips[0]
		if !strips.Along { // either way may be less material
			continue
		}
		if strips.Count != c.count || strips.Lengths[0] != 300*in+2*c.up {
			t.Errorf("%v across, turned up %v: %+v, want %d strips", c.across, c.up, strips, c.count)
		}
		if want := measure.Length(c.count-1) * (300*in + 2*c.up); strips.Seams != want {
			t.Errorf("%v across: seams %v, want %v", c.across, strips.Seams, want)
		}
	}
}

// OpenStax Prealgebra 2e, "Systems of Measurement": mouldings of 8 ft 7 in and 12 ft 11 in are 21 ft 6 in together.
// Here the other two walls are all doorway.
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

// Plain arithmetic: transitions of 32 and 28 in and a kerf come from one stick of 72 in. A doorway between two rooms
// that both name it is one.
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

// A break is covered by a level transition as long as the room is deep there; where no stick is as long it is of
// several, butted: 72 and 28 in, which with 32 in for the doorway to the closet are two sticks of 72 in.
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

// OpenStax Contemporary Mathematics, "Area": a floor of 29 x 16 ft from boxes that cover 20 sq ft at $50 takes 24
// boxes, $1,200. The book knows no stagger and no loss, and neither does this job.
func TestPriceOfAFloor(t *testing.T) {
	job := bare(cutopt.Room{Outline: cutopt.Rectangle(29*ft, 16*ft)})
	job.Plank = cutopt.Plank{Length: 4 * ft, Width: 6 * in}
	job.Box = cutopt.Box{Covers: 20 * measure.SquareFoot, Price: 5000}
	job.Rules = cutopt.Rules{Grid: in / 16}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	item := find(t, judged(t, job, result.Plan), cutopt.ItemPlanks)
	if g := item.Goods[0]; g.Count != 24 || g.Price() != 1200_00 {
		t.Errorf("%d boxes for %v, the book has 24 for 1200.00", g.Count, g.Price())
	}
}

// Section 09 65 19 of a county's project specifications: attic stock of one box for each 50 or part of them, so one for
// 24 boxes and two for 51. The take-off lists it apart, as unopened boxes.
func TestAtticStock(t *testing.T) {
	for laid, boxes := range map[int]int{24: 1, 50: 1, 51: 2, 101: 3} {
		job := den()
		job.Spare.BoxPer = 50
		plan := outlinePlan(job)
		kept := job.Spare.Kept(laid*8, 8)
		plan.Order = cutopt.Order{Planks: laid * 8, PlanksPerBox: 8, Boxes: laid + boxes, Left: boxes * 8, Kept: kept}
		list := judged(t, job, plan)
		if item := find(t, list, cutopt.ItemKept); item.Count != boxes*8 {
			t.Errorf("%d boxes laid: %d planks kept, want %d boxes of 8", laid, item.Count, boxes)
		}
		if item := find(t, list, cutopt.ItemPlanks); item.Goods[0].Count != laid+boxes {
			t.Errorf("%d boxes are bought for %d", item.Goods[0].Count, laid)
		}
	}
}

// An L whose inner corner turns by 90 degrees: both pieces there are longer by the thickness, tan 45 degrees being 1.
// In a room that turns in by 45 degrees they are longer by the thickness times tan 22.5 degrees, 0.41421.
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

// Stretches end at casings and at fixed things; islands are gone round if asked, but not where they stand at a wall.
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

// A doorway into a room of the job is cut out of that room's trim where the room shows it, or where the floor runs
// through and both are in one drawing; else the take-off says that it is not.
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

// The gap is 1/4 in and 1/4 in beside it may stay open: trim of 3/8 in is 1/8 in too thin, with a shoe before it or a
// narrower cover it is not, and along a wall with a gap of 1/2 in it is 3/8 in too thin.
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

// A wall of 214 in from sticks of 192 in: one whole stick and the rest, each joint taking the thickness of the trim. Of
// 196 in the rest would be shorter than 16 in, so the two share.
func TestSplices(t *testing.T) {
	for _, c := range []struct {
		wall measure.Length
		want []measure.Length
	}{
		{192 * in, []measure.Length{192 * in}},
		{214 * in, []measure.Length{192 * in, 22*in + in/2}},
		{196 * in, []measure.Length{98*in + in/4, 98*in + in/4}},
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

// What stands on the floor of a doorway is covered too: strips that meet a doorway reach into it, and a doorway beyond
// the strips takes a short one of its own.
func TestUnderlayInDoorways(t *testing.T) {
	job := bare(cutopt.Room{Outline: cutopt.Rectangle(174*in, 131*in), Doorways: []cutopt.Doorway{
		{Wall: 1, At: 10 * in, Width: 32 * in, Depth: 4 * in}, // in the right wall, at the first strip along
		{Wall: 2, At: 20 * in, Width: 30 * in, Depth: 5 * in}, // in the far wall, beyond the last strip
	}})
	job.Materials.Underlay = cutopt.Underlay{
		Strips: cutopt.StripsAlong, Rolls: []cutopt.Roll{{Width: 4 * ft, Length: 25 * ft}},
	}
	item := find(t, reckon(t, job), cutopt.ItemUnderlay)
	if want := []measure.Length{178 * in, 174 * in, 174 * in, 30 * in}; !slices.Equal(item.Strips[0].Lengths, want) {
		t.Errorf("strips %v, want %v", item.Strips[0].Lengths, want)
	}
}

// Heights: a plank of 1/4 in on underlay of 1/8 in.
func TestHeights(t *testing.T) {
	job := den()
	job.Rooms[0].Doorways = []cutopt.Doorway{
		{Wall: 0, At: 9 * in, Width: 30 * in, Clearance: in / 2},
		{Wall: 1, At: 9 * in, Width: 30 * in, Clearance: in / 4},
		{Wall: 2, At: 9 * in, Width: 30 * in},
	}
	job.Materials.Underlay.Thickness = in / 8
	job.Materials.Appliances = []cutopt.Appliance{{Name: "Dishwasher", Opening: 34 * in, Height: 33*in + 3*in/4}}
	want := []cutopt.HeightCheck{
		{Room: 1, Doorway: 1, Under: in / 2, Left: in / 8},
		{Room: 1, Doorway: 2, Under: in / 4, Left: -in / 8},
		{Appliance: 1, Under: 34 * in, Height: 33*in + 3*in/4, Left: -in / 8},
	}
	if diff := cmp.Diff(want, reckon(t, job).Heights); diff != "" {
		t.Errorf("heights (-want +got):\n%s", diff)
	}
	job.Plank.Thickness = 0
	if got := reckon(t, job).Heights; got != nil {
		t.Errorf("heights of a floor of unknown thickness: %v", got)
	}
}

// Spacers: 174 in is 8 spans of at most 24 in, 9 spacers; 131 in is 6, 7 spacers.
func TestSpacers(t *testing.T) {
	job := den()
	job.Materials.Spacers = cutopt.Spacers{Pack: 20, Price: 590}
	item := find(t, reckon(t, job), cutopt.ItemSpacers)
	if item.Count != 2*9+2*7 || item.Length != 610*in || item.Goods[0].Count != 2 || item.Goods[0].Price() != 1180 {
		t.Errorf("spacers %+v", item)
	}
}

// The total is to the cent, and counts what has no price.
func TestTotal(t *testing.T) {
	job := den()
	plan := outlinePlan(job)
	plan.Order = cutopt.Order{Boxes: 10, PlanksPerBox: 8, Planks: 73}
	list := judged(t, job, plan)
	if sum, open := list.Total(); sum != 499_00 || open != 2 { // spacers and base: this plan knows no area
		t.Errorf("%v, %d items open; want 499.00 and 2", sum, open)
	}
	job.Materials.Underlay.Attached = true
	job.Materials.Spacers = cutopt.Spacers{Pack: 40, Price: 595}
	job.Materials.Trim = []cutopt.Trim{{Thickness: in / 2, Sticks: []cutopt.Stick{{Length: 16 * ft, Price: 1999}}}}
	list = judged(t, job, plan)
	if sum, open := list.Total(); sum != 499_00+5_95+4*19_99 || open != 0 {
		t.Errorf("%v, %d items open; want 584.91 and none", sum, open)
	}
}

// What cannot be done is refused with its place; nothing hangs or takes memory without limit.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		name        string
		change      func(*cutopt.Job)
		field, says string
		large       bool
	}{
		{"too little on hand", func(j *cutopt.Job) {
			j.Materials.Trim = []cutopt.Trim{{Thickness: in, Sticks: []cutopt.Stick{{Length: 16 * ft, OnHand: 2}}}}
		}, "trim[1].sticks", "does not do", false},
		{"a roll of next to nothing", func(j *cutopt.Job) {
			j.Materials.Underlay.Rolls = []cutopt.Roll{{Width: 1, Length: 2}}
		}, "underlay.rolls", "at most 10000 pieces", true},
		{"strips a tick wide", func(j *cutopt.Job) {
			j.Materials.Film.Rolls = []cutopt.Roll{{Width: 2, Length: 100 * ft}}
		}, "film.rolls", "at most 10000 pieces", true},
		{"sticks a trifle longer than their mitres", func(j *cutopt.Job) {
			j.Materials.Trim = []cutopt.Trim{{Thickness: 1, Sticks: []cutopt.Stick{{Length: 3}}}}
		}, "trim[1].sticks", "at most 10000 pieces", true},
		{"not valid", func(j *cutopt.Job) { j.Plank.Length = 0 }, "plank.length", "longer than 0", false},
	} {
		job := den()
		plan := outlinePlan(job)
		c.change(job)
		list, err := takeoff.New(context.Background(), job, plan)
		var wrong *cutopt.FieldError
		if list != nil || !errors.As(err, &wrong) || wrong.Field != c.field || !strings.Contains(err.Error(), c.says) ||
			errors.Is(err, cutopt.ErrTooLarge) != c.large {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	job := den()
	if _, err := takeoff.New(context.Background(), job, new(cutopt.Plan)); err == nil {
		t.Error("a plan of another job is taken")
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := takeoff.New(ctx, job, outlinePlan(job)); !errors.Is(err, context.Canceled) {
		t.Errorf("a cancelled context: %v", err)
	}
}

// Every wall is covered by a stretch, a casing or a fixed thing, in random rooms drawn either way round, mirrored and
// turned by a quarter; and these change nothing.
func TestRandomRooms(t *testing.T) {
	const seed = 18
	rng := rand.New(rand.NewPCG(seed, 1))
	for n := range oracle.Samples(60) {
		job := oracle.PlainRoom(rng)
		room := &job.Rooms[0]
		perimeter, doors := measure.Length(0), measure.Length(0)
		for i, a := range room.Outline {
			b := room.Outline[(i+1)%len(room.Outline)]
			wall := max(a.X-b.X, b.X-a.X, a.Y-b.Y, b.Y-a.Y)
			perimeter += wall
			if rng.IntN(2) == 0 && wall > 40*in {
				d := cutopt.Doorway{Wall: i, At: 4 * in, Width: measure.Length(20+rng.IntN(16)) * in}
				room.Doorways, doors = append(room.Doorways, d), doors+d.Width
			}
		}
		job.Materials.Underlay.Rolls = []cutopt.Roll{{Width: 48 * in, Length: 300 * in}}
		job.Materials.Trim = []cutopt.Trim{{Thickness: in / 2, Sticks: []cutopt.Stick{{Length: 192 * in}}}}
		list := reckon(t, job)
		covered := measure.Length(0)
		for _, s := range find(t, list, cutopt.ItemTrim).Stretches {
			covered += s.Length
		}
		if covered != perimeter-doors {
			t.Fatalf("seed %d, room %d: stretches cover %v, the walls without doorways are %v", seed, n, covered,
				perimeter-doors)
		}
		area := 0.0
		for _, s := range find(t, list, cutopt.ItemUnderlay).Strips {
			for _, l := range s.Lengths {
				area += float64(l) * float64(s.Width)
			}
		}
		if floor := oracleArea(room.Outline); area < floor {
			t.Fatalf("seed %d, room %d: strips cover %v of %v", seed, n, area, floor)
		}
		mirrored := job.Clone()
		for i, p := range mirrored.Rooms[0].Outline {
			mirrored.Rooms[0].Outline[i] = cutopt.Point{X: -p.X, Y: p.Y}
		}
		if diff := cmp.Diff(summary(list), summary(reckon(t, mirrored))); diff != "" {
			t.Fatalf("seed %d, room %d mirrored: %s", seed, n, diff)
		}
	}
}

// oracleArea is the area of a ring by the shoelace formula.
func oracleArea(ring []cutopt.Point) float64 {
	sum := 0.0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += float64(a.X)*float64(b.Y) - float64(b.X)*float64(a.Y)
	}
	return math.Abs(sum) / 2
}

// summary lists what does not depend on how a room is drawn.
func summary(list *cutopt.Takeoff) (out []any) {
	for _, item := range list.Items {
		out = append(out, item.Kind, item.Count, item.Length, item.Area, item.Goods)
	}
	return out
}

// A list written as JSON reads back the same, so that anyone can verify the certificates in it.
func TestListAsJSON(t *testing.T) {
	job := den()
	job.Materials.Trim = []cutopt.Trim{{Thickness: in / 2, Sticks: []cutopt.Stick{{Length: 16 * ft, Price: 1999}}}}
	job.Materials.Underlay.Rolls = []cutopt.Roll{{Width: 4 * ft, Length: 25 * ft}}
	list := reckon(t, job)
	text, err := json.Marshal(list)
	if err != nil {
		t.Fatal(err)
	}
	var again cutopt.Takeoff
	if err := json.Unmarshal(text, &again); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(list, &again, cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("(-written +read):\n%s", diff)
	}
	for i := range again.Items {
		judge(t, &again.Items[i])
	}
}
