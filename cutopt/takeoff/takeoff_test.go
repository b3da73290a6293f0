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
// Plain arithmetic: film 10 ft wide with laps of 8 in over 131 in is (131 - 8)/(120 - 8), 2 strips. Turned up by 2 in
// it is still 2, each 4 in longer; over 232 in it is 2 to the inch, and 3 beyond.
// OpenStax Prealgebra 2e, "Systems of Measurement": mouldings of 8 ft 7 in and 12 ft 11 in are 21 ft 6 in together.
// Here the other two walls are all doorway.
// Plain arithmetic: transitions of 32 and 28 in and a kerf come from one stick of 72 in. A doorway between two rooms
// that both name it is one.
// A break is covered by a level transition as long as the room is deep there; where no stick is as long it is of
// several, butted: 72 and 28 in, which with 32 in for the doorway to the closet are two sticks of 72 in.
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
// Stretches end at casings and at fixed things; islands are gone round if asked, but not where they stand at a wall.
// A doorway into a room of the job is cut out of that room's trim where the room shows it, or where the floor runs
// through and both are in one drawing; else the take-off says that it is not.
// The gap is 1/4 in and 1/4 in beside it may stay open: trim of 3/8 in is 1/8 in too thin, with a shoe before it or a
// narrower cover it is not, and along a wall with a gap of 1/2 in it is 3/8 in too thin.
// A wall of 214 in from sticks of 192 in: one whole stick and the rest, each joint taking the thickness of the trim. Of
// 196 in the rest would be shorter than 16 in, so the two share.
// What stands on the floor of a doorway is covered too: strips that meet a doorway reach into it, and a doorway beyond
// the strips takes a short one of its own.
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
	if _, err := takeoff.New(context.Background(), job, nil); err == nil {
		t.Error("no plan is taken")
	}
	nowhere := outlinePlan(job)
	nowhere.Floors[0].Axes.Turn = math.NaN()
	_, err := takeoff.New(context.Background(), job, nowhere)
	if err == nil || !strings.Contains(err.Error(), "floors[1]") {
		t.Errorf("a floor that lies nowhere: %v", err)
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
