package solve_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// long is 44 ft of corridor where the product allows 30 ft without a break.
const long = `
unit: in
plank: {length: 48, width: 7}
box: {planks: 8}
rules: {gap: 1/4 in, min-piece: 8 in, stagger: 8 in, min-rip: half, kerf: 1/8 in, grid: 1/16 in, fit: 1/8 in,
  smooth: 1/8 in, cover: 1/4 in, max-along: 30 ft, break-width: 1/4 in}
rooms:
  - name: R
    size: 44 ft x 6 ft
`

// TestLongCorridor: two fields of less than 30 ft, their rows beside a gap and half the break, and one proof for both.
// Of 11 rows of 527 1/2 in less the break of 3/4 in, planks of 48 in take 121 at least by their length alone
// (11 * 526.75 / 48 = 120.7).
func TestLongCorridor(t *testing.T) {
	job, err := jobfile.Decode(strings.NewReader(long), "long.yaml")
	if err != nil {
		t.Fatal(err)
	}
	result, err := solve.Job(context.Background(), job, &solve.Options{Fewest: solve.FewestPlanks})
	if err != nil {
		t.Fatal(err)
	}
	plan := result.Plan
	const in = measure.Inch
	if len(plan.Floors) != 2 || len(plan.Breaks) != 1 {
		t.Fatalf("%d fields and %d breaks, want 2 and 1", len(plan.Floors), len(plan.Breaks))
	}
	if b := plan.Breaks[0]; b.Length != 72*in || b.Width != in/4 || b.Asked || b.Doorway != -1 {
		t.Errorf("break %+v", b)
	}
	all := measure.Length(0)
	for i, f := range plan.Floors {
		if f.Field != i+1 {
			t.Errorf("floor %d is field %d", i+1, f.Field)
		}
		run := f.Rows[0].Runs[0]
		if long := run.To - run.From; long > 360*in {
			t.Errorf("field %d: a run of %v", i+1, long.Format(measure.UnitInch, measure.Tick))
		}
		all += run.To - run.From
	}
	if want := 528*in - 2*in/4 - 3*in/4; all != want {
		t.Errorf("the runs of a row are %v ticks long, want %v", all, want)
	}
	if plan.Order.Planks != 121 || !plan.Bound.PlanksProven {
		t.Errorf("%d planks, proven %v; want 121, proven", plan.Order.Planks, plan.Bound.PlanksProven)
	}
	if err := check.Proof(job, plan); err != nil {
		t.Errorf("the one proof over both fields: %v", err)
	}
}

// largeFloor draws rooms that are too long for their limits: rectangles, L-rooms and rooms that doorways join, with
// doorways elsewhere, islands, pipes and breaks asked for.
func largeFloor(r *rand.Rand) *cutopt.Job {
	const in = measure.Inch
	job := joinedRooms(r)
	length := func(low, high int) measure.Length { return measure.Length(low+r.IntN(high-low+1)) * in / 2 }
	point := func(x, y measure.Length) cutopt.Point { return cutopt.Point{X: x, Y: y} }
	if r.IntN(2) == 0 {
		w, h := length(300, 1400), length(140, 500)
		room := cutopt.Room{Name: "Hall", Rows: job.Rooms[0].Rows, Outline: cutopt.Rectangle(w, h)}
		if r.IntN(2) == 0 {
			x, y := w/2+length(0, 100), h/2+length(0, 30)
			room.Outline = []cutopt.Point{{}, point(w, 0), point(w, y), point(x, y), point(x, h), point(0, h)}
		}
		if wall := r.IntN(2); r.IntN(2) == 0 {
			room.Doorways = []cutopt.Doorway{{Wall: wall, At: length(20, 100), Width: 30 * in, Depth: 4 * in}}
		}
		if r.IntN(3) == 0 {
			at := point(length(30, 60), length(30, 60))
			room.Islands = []cutopt.Island{{Name: "chest", Outline: cutopt.RectangleAt(at, 24*in, 18*in)}}
		}
		if r.IntN(4) == 0 {
			room.Pipes = []cutopt.Pipe{{At: point(w/2, h/4), Diameter: 2 * in}}
		}
		if r.IntN(4) == 0 {
			room.Breaks = []cutopt.Break{{Wall: 0, At: w / 3}}
		}
		if r.IntN(4) == 0 {
			sin, cos := math.Sincos(r.Float64() * 2 * math.Pi)
			turned := func(p cutopt.Point) cutopt.Point {
				x, y := float64(p.X), float64(p.Y)
				return point(measure.Length(math.Round(x*cos-y*sin)), measure.Length(math.Round(x*sin+y*cos)))
			}
			for i, p := range room.Outline {
				room.Outline[i] = turned(p)
			}
			for i := range room.Islands {
				for k, p := range room.Islands[i].Outline {
					room.Islands[i].Outline[k] = turned(p)
				}
			}
			for i := range room.Pipes {
				room.Pipes[i].At = turned(room.Pipes[i].At)
			}
		}
		job.Rooms = []cutopt.Room{room}
	}
	job.Rules.BreakWidth = []measure.Length{0, in / 4, in / 2}[r.IntN(3)]
	if r.IntN(4) > 0 {
		job.Rules.MaxAlong = length(200, 400)
	}
	if r.IntN(2) == 0 || job.Rules.MaxAlong == 0 {
		job.Rules.MaxAcross = length(150, 300)
	}
	return job
}

// TestBreaks: random floors beyond their limits are planned in fields within them, of which Check finds nothing wrong
// and whose one proof verifies; a break that is left out or moved is found.
func TestBreaks(t *testing.T) {
	planned, broken, doorways := 0, 0, 0
	n := uint64(oracle.Samples(5))
	for seed := range n {
		r := rand.New(rand.NewPCG(seed, 78))
		job := largeFloor(r)
		result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
		var field *cutopt.FieldError
		switch {
		case errors.As(err, &field), errors.Is(err, solve.ErrNoPlan):
			t.Logf("seed %d: %v", seed, err)
			continue
		case err != nil:
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		planned++
		plan := result.Plan
		if v := check.Plan(job, plan); v != nil {
			t.Errorf("seed %d: %v", seed, v)
		}
		if err := check.Proof(job, plan); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if len(plan.Breaks) == 0 {
			continue
		}
		broken++
		if plan.Breaks[len(plan.Breaks)-1].Doorway >= 0 {
			doorways++
		}
		q := oracle.Clone(t, plan)
		q.Breaks = q.Breaks[1:]
		if check.Plan(job, q) == nil {
			t.Errorf("seed %d: a break is left out, and nothing was found", seed)
		}
		q = oracle.Clone(t, plan)
		b := &q.Breaks[r.IntN(len(q.Breaks))]
		by := job.Rules.Gap + measure.Inch
		b.From.X, b.From.Y, b.To.X, b.To.Y = b.From.X+by, b.From.Y+by, b.To.X+by, b.To.Y+by
		if check.Plan(job, q) == nil {
			t.Errorf("seed %d: a break is moved, and nothing was found", seed)
		}
	}
	t.Logf("%d of %d planned, %d with breaks, %d of these in doorways", planned, n, broken, doorways)
	if uint64(planned) < n/2 || broken < planned/2 || doorways == 0 && n > 20 {
		t.Errorf("%d of %d planned, %d with breaks, %d in doorways", planned, n, broken, doorways)
	}
}

// A break asked for in a doorway that the floor runs through: from one room or from both it is one, midway between the
// walls; two rooms are two fields, and rooms that other doorways join in a ring stay one. Check finds a break that is
// left out, one that is not told to be asked for, and one that nobody asks for.
func TestBreakInDoorway(t *testing.T) {
	const in = measure.Inch
	room := func(name string, x0, y0, x1, y1 measure.Length, doors ...cutopt.Doorway) cutopt.Room {
		return cutopt.Room{Name: name, Doorways: doors, Outline: []cutopt.Point{
			{X: x0 * in, Y: y0 * in}, {X: x1 * in, Y: y0 * in}, {X: x1 * in, Y: y1 * in}, {X: x0 * in, Y: y1 * in},
		}}
	}
	door := func(wall int, at measure.Length, to string, broken bool) cutopt.Doorway {
		return cutopt.Doorway{
			Wall: wall, At: at * in, Width: 32 * in, Depth: 5 * in, To: to, Through: true, Break: broken,
		}
	}
	job := func(rooms ...cutopt.Room) *cutopt.Job {
		return &cutopt.Job{
			Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 10},
			Rules: cutopt.DefaultRules(measure.UnitInch), Rooms: rooms,
		}
	}
	for _, c := range []struct {
		reason         string
		job            *cutopt.Job
		breaks, floors int
	}{
		{"from one room", job(room("A", 0, 0, 120, 100, door(1, 30, "B", true)), room("B", 125, 0, 240, 100)), 1, 2},
		{"from both", job(room("A", 0, 0, 120, 100, door(1, 30, "B", true)),
			room("B", 125, 0, 240, 100, door(3, 38, "A", true))), 1, 2},
		{"from the one behind, the other lists it too", job(room("A", 0, 0, 120, 100, door(1, 30, "B", false)),
			room("B", 125, 0, 240, 100, door(3, 38, "A", true))), 1, 2},
		{"in a ring", job(room("A", 0, 0, 120, 100, door(1, 30, "B", true), door(2, 30, "C", false)),
			room("B", 125, 0, 240, 100, door(2, 30, "C", false)), room("C", 0, 105, 240, 180)), 1, 1},
		{"none", job(room("A", 0, 0, 120, 100, door(1, 30, "B", false)), room("B", 125, 0, 240, 100)), 0, 1},
	} {
		result, err := solve.Job(t.Context(), c.job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Errorf("%s: %v", c.reason, err)
			continue
		}
		plan := result.Plan
		if len(plan.Breaks) != c.breaks || len(plan.Floors) != c.floors {
			t.Errorf("%s: %d breaks and %d floors, want %d and %d", c.reason, len(plan.Breaks), len(plan.Floors), c.breaks,
				c.floors)
			continue
		}
		if c.breaks == 0 {
			continue
		}
		if b := plan.Breaks[0]; !b.Asked || b.Length != 32*in || b.From.X != 122*in+in/2 || b.To.X != b.From.X {
			t.Errorf("%s: %+v, want 32 in midway between 120 and 125 in", c.reason, b)
		}
		spoiled := plan.Clone()
		spoiled.Breaks[0].Asked = false
		open := plan.Clone()
		open.Breaks = nil
		other := c.job.Clone()
		for i := range other.Rooms {
			for k := range other.Rooms[i].Doorways {
				other.Rooms[i].Doorways[k].Break = false
			}
		}
		for what, v := range map[string][]check.Violation{
			"not told to be asked for": check.Plan(c.job, spoiled), "left out": check.Plan(c.job, open),
			"not asked for": check.Plan(other, plan),
		} {
			if len(v) == 0 {
				t.Errorf("%s: a break %s is not found", c.reason, what)
			}
		}
	}
}
