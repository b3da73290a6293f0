package solve_test

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// carried counts the planks of laying the instance the trade's way: each run starts with the offcut of the one before
// where the rules allow, else with a new plank; what is left of that run's ender is carried on. Enders may come out
// longer or shorter by the fit allowance, and each of two rows may begin that much elsewhere. It is written from the
// plain description, not from the solver, and needs runs longer than a plank.
func carried(job *cutopt.Job, plan *cutopt.Plan) (planks int, ok bool) {
	l, rules := job.Plank.Length, job.Rules
	var before []measure.Length // joints of the row before
	offcut := measure.Length(0)
	for _, row := range plan.Floors[0].Rows {
		if len(row.Runs) != 1 || row.Runs[0].To-row.Runs[0].From <= l {
			return 0, false
		}
		from, w := row.Runs[0].From, row.Runs[0].To-row.Runs[0].From
		starter, joints := measure.Length(0), []measure.Length(nil)
		try := func(most measure.Length) {
			for s := most / rules.Grid * rules.Grid; s >= rules.MinPiece && starter == 0; s -= rules.Grid {
				var x []measure.Length
				at := s
				for ; at < w; at += l {
					x = append(x, from+at)
				}
				if w-(at-l)-rules.Fit >= rules.MinPiece && w-(at-l)+rules.Fit <= l && apart(before, x, rules.Stagger+2*rules.Fit) {
					starter, joints = s, x
				}
			}
		}
		if try(min(offcut, l)); starter == 0 {
			if try(l); starter == 0 {
				return 0, false
			}
			planks++
		}
		planks += len(joints)
		offcut = l - (w - (joints[len(joints)-1] - from)) - rules.Fit - rules.Kerf
		before = joints
	}
	return planks, true
}

func apart(a, b []measure.Length, stagger measure.Length) bool {
	for _, x := range a {
		for _, y := range b {
			if x-y < stagger && y-x < stagger {
				return false
			}
		}
	}
	return true
}

// TestRandomRooms plans random rectangles and L-rooms: every plan passes Check, its certificate verifies, its bound is
// not above its planks, and carrying the offcut row by row never needs fewer. CUTOPT_SAMPLES makes
// them more.
func TestRandomRooms(t *testing.T) {
	n := oracle.Samples(60)
	planned, compared, proven, boxesProven, saved, carriedPlanks := 0, 0, 0, 0, 0, 0
	var thumb thumbTally
	for seed := range uint64(n) {
		job := oracle.PlainRoom(rand.New(rand.NewPCG(seed, 21)))
		job.Aims = []cutopt.Aim{} // this is about planks, and better floors may take all of the boxes
		result, err := solve.Job(context.Background(), job, nil)
		if errors.Is(err, solve.ErrNoPlan) {
			continue
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		planned++
		plan := result.Plan
		thumb.add(t, job, plan)
		if v := check.Plan(job, plan); v != nil {
			t.Errorf("seed %d: %v", seed, v)
		}
		if err := check.Proof(job, plan); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if plan.Bound.Planks > plan.Order.Planks {
			t.Errorf("seed %d: bound %d above %d planks", seed, plan.Bound.Planks, plan.Order.Planks)
		}
		if plan.Bound.Proven {
			boxesProven++
		}
		if plan.Bound.PlanksProven {
			proven++
		}
		if habit, ok := carried(job, plan); ok {
			compared++
			saved += habit - plan.Order.Planks
			carriedPlanks += habit
			if plan.Order.Planks > habit {
				t.Errorf("seed %d: %d planks, carrying the offcut needs %d", seed, plan.Order.Planks, habit)
			}
		}
	}
	t.Logf("%d rooms: %d planned, boxes proven in %d, planks in %d (stopping once boxes are settled); "+
		"in %d compared rooms %d of %d planks saved against carrying the offcut",
		n, planned, boxesProven, proven, compared, saved, carriedPlanks)
	t.Log(&thumb)
	if planned < n*9/10 || compared < n/4 {
		t.Errorf("only %d planned and %d compared", planned, compared)
	}
}

// TestVerifyRefuses raises a plan's claims: the certificate must not follow.
func TestVerifyRefuses(t *testing.T) {
	job := oracle.PlainRoom(rand.New(rand.NewPCG(1, 21)))
	result, err := solve.Job(context.Background(), job, &solve.Options{Fewest: solve.FewestPlanks})
	if err != nil {
		t.Fatal(err)
	}
	plan := result.Plan
	if !plan.Bound.PlanksProven {
		t.Fatalf("the test wants a room that is proven, got %+v", plan.Bound)
	}
	plan.Bound.Planks++
	if check.Proof(job, plan) == nil {
		t.Error("a bound above the certificate's claim verifies")
	}
	plan.Bound.Certificate.Planks++
	if check.Proof(job, plan) == nil {
		t.Error("a claim above the optimum verifies")
	}
	plan.Bound.Certificate = nil
	if check.Proof(job, plan) == nil {
		t.Error("a plan without a certificate verifies")
	}
}

// TestSame plans one job again, with other numbers of workers.
func TestSame(t *testing.T) {
	job := oracle.PlainRoom(rand.New(rand.NewPCG(3, 21)))
	first := ""
	for _, workers := range []int{0, 1, 2, 8} {
		result, err := solve.Job(context.Background(), job, &solve.Options{Fewest: solve.FewestPlanks, Workers: workers})
		if err != nil {
			t.Fatal(err)
		}
		text := string(oracle.Encode(t, result.Plan))
		if first == "" {
			first = text
		}
		if text != first {
			t.Errorf("%d workers give another plan", workers)
		}
	}
}

// TestNoPlan wants the row and the rule where none can be kept.
func TestNoPlan(t *testing.T) {
	job := oracle.PlainRoom(rand.New(rand.NewPCG(2, 21)))
	job.Rules.Stagger = 30 * measure.Inch
	job.Plank.Length = 48 * measure.Inch
	_, err := solve.Job(context.Background(), job, nil)
	var no *solve.InfeasibleError
	if !errors.As(err, &no) || no.Rule != "stagger" || len(no.Rows) == 0 || !errors.Is(err, solve.ErrNoPlan) {
		t.Errorf("stagger 30 in on 48 in planks: %v", err)
	}
}

// The rule of thumb divides by what the label says a box covers: 10 planks of 48 x 7 in are 23 1/3 sq ft, the label
// says 23.33. A floor of 254.525 sq ft and 10 % are 12.0007 times the one and 11.9990 times the other.
func TestThumbByLabel(t *testing.T) {
	const in = measure.Inch
	job := &cutopt.Job{
		Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Rules: oracle.Rules(measure.UnitInch),
		Rooms: []cutopt.Room{{Outline: []cutopt.Point{
			{}, {X: 210 * in}, {X: 210 * in, Y: 174*in + 34*measure.SixtyFourth}, {Y: 174*in + 34*measure.SixtyFourth},
		}}},
	}
	for boxes, box := range map[int]cutopt.Box{
		12: {Planks: 10}, 13: {Covers: 2333 * (measure.SquareFoot / 100)},
	} {
		job.Box = box
		result, err := solve.Job(context.Background(), job, nil)
		if err != nil {
			t.Fatal(err)
		}
		if got := result.Plan.Order.ThumbBoxes; got != boxes {
			t.Errorf("%+v: the rule buys %d boxes, want %d", box, got, boxes)
		}
	}
}

// TestBoxOfTiles is "Area" in OpenStax Contemporary Mathematics: a floor of 29 x 16 ft is 464 sq ft, and boxes that
// cover 20 sq ft at $50 make 24 boxes, $1,200. The book allows nothing for waste.
func TestBoxOfTiles(t *testing.T) {
	job := &cutopt.Job{
		Unit: measure.UnitFoot, Plank: cutopt.Plank{Length: 5 * measure.Foot, Width: 6 * measure.Inch},
		Box: cutopt.Box{Covers: 20 * measure.SquareFoot, Price: 5000}, Rules: oracle.Rules(measure.UnitFoot),
		Rooms: []cutopt.Room{{Outline: []cutopt.Point{
			{}, {X: 29 * measure.Foot}, {X: 29 * measure.Foot, Y: 16 * measure.Foot}, {Y: 16 * measure.Foot},
		}}},
	}
	job.Rules.WasteAllowance = 0
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	plan := result.Plan
	if plan.Waste.Net != 464*measure.SquareFoot || plan.Order.ThumbBoxes != 24 || job.Box.Price*24 != 120000 {
		t.Errorf("net %v, %d boxes", plan.Waste.Net.Format(job.Unit), plan.Order.ThumbBoxes)
	}
	if plan.Order.Boxes < 24 {
		t.Errorf("%d boxes cover less than the floor", plan.Order.Boxes)
	}
}

// BenchmarkDen plans the first example of the README, from the job file's bytes to a checked plan.
func BenchmarkDen(b *testing.B) {
	data, err := os.ReadFile("../../examples/den.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		job, err := jobfile.Decode(bytes.NewReader(data), "den.yaml")
		if err != nil {
			b.Fatal(err)
		}
		if _, err := solve.Job(context.Background(), job, nil); err != nil {
			b.Fatal(err)
		}
	}
}
