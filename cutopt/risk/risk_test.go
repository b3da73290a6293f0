package risk_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"plank.example/cutopt/internal/oracle"

	"github.com/google/go-cmp/cmp"
	"gonum.org/v1/gonum/stat/distuv"

	"plank.example/cutopt"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/risk"
	"plank.example/cutopt/solve"
)

// example reads and solves a job of the examples.
func example(t testing.TB, name string) (*cutopt.Job, *cutopt.Plan) {
	t.Helper()
	file, err := os.Open("../../examples/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	job, err := jobfile.Decode(file, name)
	if err != nil {
		t.Fatal(err)
	}
	job.Rules.Loss = 0 // the plan leaves little in its boxes
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	return job, result.Plan
}

func verdict(t testing.TB, job *cutopt.Job, plan *cutopt.Plan, b risk.Breakage) *cutopt.Verdict {
	t.Helper()
	v, err := risk.Assess(context.Background(), job, plan, &b)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestRiskSameForAnyWorkers draws the same verdict with 1, 2 and 8 workers, and another with another seed.
func TestRiskSameForAnyWorkers(t *testing.T) {
	job, plan := example(t, "den")
	b := risk.Breakage{Loss: 0.02, Limit: 0.02, Times: 400}
	first := verdict(t, job, plan, b)
	for _, workers := range []int{2, 8} {
		b.Workers = workers
		v := verdict(t, job, plan, b)
		if diff := cmp.Diff(first, v); diff != "" {
			t.Errorf("%d workers: %s", workers, diff)
		}
	}
	b.Seed = 1
	if v := verdict(t, job, plan, b); v.Lost == first.Lost {
		t.Errorf("another seed lost as many planks: %v", v.Lost)
	}
}

// TestRiskWithinItsInterval holds simulations of 250 runs against a long one: what the long one counts lies within
// nearly all of their 95 % intervals, 19 of 20 on average.
func TestRiskWithinItsInterval(t *testing.T) {
	job, plan := example(t, "hall")
	b := risk.Breakage{Loss: 0.02, Limit: 0.02, Times: oracle.Samples(2_000), Seed: 1 << 40, Workers: 2}
	b.Limit = 0.5 // so that all runs count all boxes
	long := verdict(t, job, plan, b).Counts[1].Risk
	within, n := 0, 20
	for seed := range n {
		b.Times, b.Seed = 250, uint64(seed)
		if c := verdict(t, job, plan, b).Counts[1].Risk; c.Low <= long.Simulated && long.Simulated <= c.High {
			within++
		}
	}
	t.Logf("%.4f in %d runs; within the interval of %d of %d simulations of 250", long.Simulated, long.Times, within, n)
	if within < n*85/100 {
		t.Errorf("%.4f lies within the interval of only %d of %d simulations", long.Simulated, within, n)
	}
	if long.Simulated <= 0 || long.Simulated >= long.Plain {
		t.Errorf(
			"simulated %v, plain %v: planning anew saves boxes, and never loses one here",
			long.Simulated,
			long.Plain,
		)
	}
}

// TestRiskFigures draws verdicts of random rooms: each number of boxes is right by the plan's own figures, more boxes
// never run short more often, and the one recommended is the first within the limit.
func TestRiskFigures(t *testing.T) {
	seen := map[cutopt.Enough]int{}
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 31))
		job := oracle.SmallRoom(r)
		job.Box = cutopt.Box{Planks: 2 + r.IntN(8), Price: 4999}
		if seed%4 == 0 {
			job.Pattern = []measure.Length{job.Plank.Length / 2, job.Plank.Length}
			job.Rules.Stagger, job.Rules.MinPiece = 4*measure.Inch, 4*measure.Inch
		}
		result, err := solve.Job(context.Background(), job, nil)
		if errors.Is(err, solve.ErrNoPlan) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		plan := result.Plan
		v := verdict(t, job, plan, risk.Breakage{Loss: 0.05, Limit: 0.05, Times: 300, Seed: seed})
		recommended := 0
		for i, c := range v.Counts {
			seen[c.Enough]++
			if i > 0 &&
				(c.Boxes != v.Counts[i-1].Boxes+1 || c.Risk.Simulated > v.Counts[i-1].Risk.High ||
					c.Risk.Plain > v.Counts[i-1].Risk.Plain) {
				t.Errorf("seed %d: %+v after %+v", seed, c, v.Counts[i-1])
			}
			if (c.Enough == cutopt.EnoughNo) != (c.Boxes < plan.Bound.Boxes) ||
				(c.Enough == cutopt.EnoughYes) != (c.Boxes >= plan.Order.Boxes) {
				t.Errorf(
					"seed %d: %d boxes are enough: %v; bound %d, plan %d",
					seed,
					c.Boxes,
					c.Enough,
					plan.Bound.Boxes,
					plan.Order.Boxes,
				)
			}
			if c.Left != c.Boxes*job.Box.Planks-plan.Order.Planks || c.Price != cutopt.Money(c.Boxes)*4999 {
				t.Errorf("seed %d: %+v", seed, c)
			}
			if c.Boxes == plan.Order.Boxes &&
				(c.AddedToFloor != plan.Waste.AddedToFloor || c.ShareOfPurchase != plan.Waste.ShareOfPurchase) {
				t.Errorf("seed %d: waste %v and %v, the plan's is %v and %v", seed, c.AddedToFloor, c.ShareOfPurchase,
					plan.Waste.AddedToFloor, plan.Waste.ShareOfPurchase)
			}
			if recommended == 0 && c.Enough == cutopt.EnoughYes && c.Risk.Simulated <= 0.05 {
				recommended = c.Boxes
			}
		}
		if v.Recommended != recommended {
			t.Errorf(
				"seed %d: %d boxes are recommended, the first within the limit are %d",
				seed,
				v.Recommended,
				recommended,
			)
		}
		if first, last := v.Counts[0], v.Counts[len(v.Counts)-1]; first.Enough != cutopt.EnoughNo && first.Boxes > 0 ||
			last.Boxes < plan.Order.ThumbBoxes {
			t.Errorf("seed %d: from %d to %d boxes; proven minimum %d, rule of thumb %d", seed, first.Boxes, last.Boxes,
				plan.Bound.Boxes, plan.Order.ThumbBoxes)
		}
	}
	if seen[cutopt.EnoughNo] == 0 || seen[cutopt.EnoughYes] == 0 {
		t.Errorf("seen %v", seen)
	}
}

// TestRiskPlain sums the binomial distribution term by term, and compares the closed forms for no plank to spare and
// one.
func TestRiskPlain(t *testing.T) {
	job, plan := example(t, "den")
	const p = 0.02
	v := verdict(t, job, plan, risk.Breakage{Loss: p, Limit: 0.02})
	for _, c := range v.Counts {
		hold, spare := c.Boxes*plan.Order.PlanksPerBox, c.Left
		want := 1.0
		if spare >= 0 {
			term := math.Pow(1-p, float64(hold))
			want -= term
			for k := 1; k <= spare; k++ {
				term *= float64(hold-k+1) / float64(k) * p / (1 - p)
				want -= term
			}
		}
		if math.Abs(c.Risk.Plain-want) > 1e-12 {
			t.Errorf("%d boxes, %d to spare: %v, term by term %v", c.Boxes, spare, c.Risk.Plain, want)
		}
		if c.Risk.Times != 0 || c.Risk.Low != 0 || c.Risk.High != 1 {
			t.Errorf("without runs nothing is known of %+v", c.Risk)
		}
	}
	if want := 10; v.Recommended != want {
		t.Errorf(
			"%d boxes are recommended, by the binomial it is %d: 9 are short in 17 of 100, 10 in none",
			v.Recommended,
			want,
		)
	}
}

// TestRiskInterval holds the confidence interval against its definition by gonum's binomial distribution: at the low
// end so many short runs or more come about in 2.5 %, at the high end so many or fewer. With none short, the high end
// is 1 - 0.025^(1/n) in closed form.
func TestRiskInterval(t *testing.T) {
	job, plan := example(t, "hall")
	for seed := range uint64(10) {
		v := verdict(t, job, plan, risk.Breakage{Loss: 0.04, Limit: 0.5, Times: 100, Seed: seed})
		for _, c := range v.Counts {
			n, k := float64(c.Risk.Times), float64(c.Risk.Short)
			if c.Risk.Short > 0 {
				if tail := (distuv.Binomial{N: n, P: c.Risk.Low}).Survival(k - 1); math.Abs(tail-0.025) > 1e-6 {
					t.Errorf("%v short of %v: at %v so many or more in %v", k, n, c.Risk.Low, tail)
				}
			}
			switch c.Risk.Short {
			case 0:
				if want := 1 - math.Pow(0.025, 1/n); c.Risk.Low != 0 || math.Abs(c.Risk.High-want) > 1e-9 {
					t.Errorf("none short of %v: %v to %v, closed form %v", n, c.Risk.Low, c.Risk.High, want)
				}
			case c.Risk.Times:
				if c.Risk.High != 1 {
					t.Errorf("all short: up to %v", c.Risk.High)
				}
			default:
				if tail := (distuv.Binomial{N: n, P: c.Risk.High}).CDF(k); math.Abs(tail-0.025) > 1e-6 {
					t.Errorf("%v short of %v: at %v so many or fewer in %v", k, n, c.Risk.High, tail)
				}
			}
		}
	}
}

// TestMeaningsOfWaste is a floor of 16 x 18 ft: "one fifth for waste" is 345.6 sq ft to the one who adds a fifth to the
// floor and 360 sq ft to the one whose waste is a fifth of the purchase; both readings are in use. A tenth added to the
// floor is 9.0909 % of the purchase (10/110). A width of 7.2 in is no whole number of ticks, hence the tolerance.
func TestMeaningsOfWaste(t *testing.T) {
	w, h := 18*measure.Foot, 16*measure.Foot
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * measure.Inch, Width: 7*measure.Inch + measure.Inch/5},
		Box: cutopt.Box{Planks: 2}, Rules: oracle.Rules(measure.UnitInch),
		Rooms: []cutopt.Room{{Name: "Weaving room", Outline: []cutopt.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}}},
	}
	job.Rules.WasteAllowance = 25
	result, err := solve.Job(context.Background(), job, &solve.Options{Effort: solve.EffortQuick})
	if err != nil {
		t.Fatal(err)
	}
	want := map[int][2]float64{ // boxes of 4.8 sq ft: 316.8, 345.6 and 360 sq ft
		66: {10, 100.0 / 11},
		72: {20, 100.0 / 6},
		75: {25, 20},
	}
	for _, c := range verdict(t, job, result.Plan, risk.Breakage{Loss: 0.02, Limit: 0.02}).Counts {
		is, ok := want[c.Boxes]
		if !ok {
			continue
		}
		delete(want, c.Boxes)
		if math.Abs(c.AddedToFloor-is[0]) > 0.002 || math.Abs(c.ShareOfPurchase-is[1]) > 0.002 {
			t.Errorf(
				"%d boxes: %v %% added, %v %% of the purchase; want %v",
				c.Boxes,
				c.AddedToFloor,
				c.ShareOfPurchase,
				is,
			)
		}
		if math.Abs(c.ShareOfPurchase-100*c.AddedToFloor/(100+c.AddedToFloor)) > 1e-9 {
			t.Errorf("%d boxes: %v %% added is not %v %% of the purchase", c.Boxes, c.AddedToFloor, c.ShareOfPurchase)
		}
	}
	if len(want) > 0 {
		t.Errorf("not in the verdict: %v", want)
	}
}

// TestRiskScreens counts numbers of boxes that are clearly too risky by the first 250 times, the others by the later
// times, and all of them by all times where none is.
func TestRiskScreens(t *testing.T) {
	job, plan := example(t, "den")
	v := verdict(t, job, plan, risk.Breakage{Loss: 0.02, Limit: 0.02, Times: 1000, Workers: 2})
	for i, want := range []int{250, 250, 750} { // 8 boxes are too few, 9 run short in one of six
		if got := v.Counts[i].Risk.Times; got != want {
			t.Errorf("%d boxes are counted by %d times, want %d", v.Counts[i].Boxes, got, want)
		}
	}
	if v.Lost < 1 || v.Lost > 1.8 {
		t.Errorf("%v planks lost each time, of 70 and a few by 2 %%", v.Lost)
	}
	if v.Close {
		t.Errorf("9 boxes run short in %v, 10 in %v: nothing is close to 2 %%", v.Counts[1].Risk, v.Counts[2].Risk)
	}
	v = verdict(t, job, plan, risk.Breakage{Loss: 0.02, Limit: v.Counts[1].Risk.Simulated, Times: 1000, Workers: 2})
	if !v.Close {
		t.Errorf("9 boxes run short in %+v, the limit is within: that is close", v.Counts[1].Risk)
	}
	for _, c := range v.Counts {
		if c.Enough == cutopt.EnoughYes && c.Risk.Times != 1000 {
			t.Errorf("%d boxes are counted by %d times, and none is too risky", c.Boxes, c.Risk.Times)
		}
	}
}

// TestRiskSpares keeps a box of planks back: every number of boxes is then worth what one box fewer was.
func TestRiskSpares(t *testing.T) {
	job, plan := example(t, "den")
	b := risk.Breakage{Loss: 0.03, Limit: 0.02, Times: 400}
	without := verdict(t, job, plan, b)
	job.Spare.Planks = plan.Order.PlanksPerBox
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	with := verdict(t, job, result.Plan, b)
	if with.Recommended != without.Recommended+1 {
		t.Errorf("with a box kept back %d boxes are recommended, without %d", with.Recommended, without.Recommended)
	}
	compared := 0
	for _, c := range with.Counts {
		for _, d := range without.Counts {
			if c.Boxes == d.Boxes+1 {
				compared++
				if c.Enough != d.Enough || c.Left != d.Left || c.Risk != d.Risk {
					t.Errorf("%+v with a box kept back, %+v without", c, d)
				}
			}
		}
	}
	if compared < 2 {
		t.Errorf("only %d compared", compared)
	}
}

// TestRiskFromTheRight lays a plain room from the other hand: nothing changes but the hand.
func TestRiskFromTheRight(t *testing.T) {
	job := oracle.SmallRoom(rand.New(rand.NewPCG(5, 31)))
	job.Box.Planks = 2
	b := risk.Breakage{Loss: 0.1, Limit: 0.05, Times: 300}
	var verdicts []*cutopt.Verdict
	for _, hand := range []cutopt.From{cutopt.FromLeft, cutopt.FromRight} {
		job.Rooms[0].Rows.LaidFrom = hand
		result, err := solve.Job(context.Background(), job, nil)
		if err != nil {
			t.Fatal(err)
		}
		verdicts = append(verdicts, verdict(t, job, result.Plan, b))
	}
	if diff := cmp.Diff(verdicts[0], verdicts[1]); diff != "" {
		t.Error(diff)
	}
}

// TestRiskOfSingles lays a room with closets whose runs are one piece each: a lost plank costs at most one, so no
// number of boxes runs short more often than by the plain count.
func TestRiskOfSingles(t *testing.T) {
	job := oracle.SmallRoom(rand.New(rand.NewPCG(6, 31)))
	job.Box.Planks = 3
	for i := range 3 {
		w := measure.Length(11+i) * measure.Inch
		job.Rooms = append(job.Rooms, cutopt.Room{
			Name: fmt.Sprintf(
				"Closet %d",
				i+1,
			), Outline: []cutopt.Point{{}, {X: w}, {X: w, Y: 60 * measure.Inch}, {Y: 60 * measure.Inch}},
			Rows: cutopt.RowRules{Direction: cutopt.DirectionAcross},
		})
	}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	v := verdict(t, job, result.Plan, risk.Breakage{Loss: 0.05, Limit: 0.3, Times: min(240, oracle.Samples(15))})
	singles := 0
	for p := range result.Plan.Pieces() {
		if p.Ends != cutopt.EndsBoth && p.Length < 15*measure.Inch {
			singles++
		}
	}
	if singles < 10 {
		t.Fatalf("only %d short pieces", singles)
	}
	for _, c := range v.Counts {
		if c.Risk.Low > c.Risk.Plain {
			t.Errorf("%d boxes run short in %v to %v, plainly in %v", c.Boxes, c.Risk.Low, c.Risk.High, c.Risk.Plain)
		}
	}
}

// TestRiskRefuses gives breakages out of range, a plan of another job, and a cancelled context.
func TestRiskRefuses(t *testing.T) {
	job, plan := example(t, "den")
	for _, c := range []struct {
		field string
		b     risk.Breakage
	}{
		{"loss", risk.Breakage{Loss: 0.6, Limit: 0.02, Times: 1}},
		{"limit", risk.Breakage{Loss: 0.02, Times: 1}},
		{"times", risk.Breakage{Loss: 0.02, Limit: 0.02, Times: -1}},
		{"workers", risk.Breakage{Loss: 0.02, Limit: 0.02, Times: 1, Workers: -1}},
		{"workers", risk.Breakage{Loss: 0.02, Limit: 0.02, Times: 1, Workers: risk.MaxWorkers + 1}}, // a goroutine each
	} {
		field, b := c.field, c.b
		var bad *cutopt.FieldError
		if _, err := risk.Assess(context.Background(), job, plan, &b); !errors.As(err, &bad) ||
			bad.Field != "breakage."+field {
			t.Errorf("%s: %v", field, err)
		}
	}
	b := risk.Breakage{Loss: math.NaN(), Limit: 0.02}
	if _, err := risk.Assess(context.Background(), job, plan, &b); err == nil {
		t.Error("a loss of NaN is accepted")
	}
	other := *job
	other.Plank.Length -= measure.Inch
	if _, err := risk.Assess(context.Background(), &other, plan, nil); err == nil ||
		!strings.Contains(err.Error(), "cannot be laid") {
		t.Errorf("a plan of another job: %v", err)
	}
	ended, end := context.WithCancel(context.Background())
	end()
	if _, err := risk.Assess(ended, &other, plan, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("a plan of another job, whose recount is cut short: %v", err)
	}
	begun := plan.Clone()
	begun.Site = &cutopt.Site{Bought: plan.Order.Boxes}
	var bad *cutopt.FieldError
	if _, err := risk.Assess(context.Background(), job, begun, nil); !errors.As(err, &bad) || bad.Field != "plan.site" {
		t.Errorf("a plan that is begun: %v", err)
	}
	b = risk.Breakage{Loss: 0.02, Limit: 0.02}
	for what, change := range map[string]func(o *cutopt.Order){
		"as it is":      func(*cutopt.Order) {},
		"planks":        func(o *cutopt.Order) { o.Planks = math.MaxInt },
		"fewest":        func(o *cutopt.Order) { o.Fewest = -1 },
		"fewest above":  func(o *cutopt.Order) { o.Fewest = o.Planks + 1 },
		"boxes":         func(o *cutopt.Order) { o.Boxes = math.MaxInt },
		"thumb_boxes":   func(o *cutopt.Order) { o.ThumbBoxes = math.MaxInt },
		"planks_in_box": func(o *cutopt.Order) { o.PlanksPerBox = 1 },
	} {
		odd := *plan
		change(&odd.Order)
		if _, err := risk.Assess(context.Background(), job, &odd, &b); (err == nil) != (what == "as it is") {
			t.Errorf("an order that is not the plan's, %s, read and not laid: %v", what, err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := risk.Assess(ctx, job, plan, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// BenchmarkRisk lays the den 100 times.
func BenchmarkRisk(b *testing.B) {
	job, plan := example(b, "den")
	for b.Loop() {
		verdict(b, job, plan, risk.Breakage{Loss: 0.02, Limit: 0.02, Times: 100})
	}
}

func ExampleAssess() {
	file, _ := os.Open("../../examples/den.yaml")
	defer file.Close()
	job, _ := jobfile.Decode(file, "den.yaml")
	result, _ := solve.Job(context.Background(), job, nil)

	breakage := risk.BreakageOf(job)
	breakage.Loss = 0.01
	verdict, err := risk.Assess(context.Background(), job, result.Plan, &breakage)
	if err != nil {
		panic(err)
	}
	for _, c := range verdict.Counts {
		fmt.Printf("%d boxes, enough: %v, %d planks left, short in %.0f %% of the jobs\n",
			c.Boxes, c.Enough, c.Left, 100*c.Risk.Simulated)
	}
	fmt.Println("buy", verdict.Recommended)
	// Output:
	// 8 boxes, enough: no, -8 planks left, short in 100 % of the jobs
	// 9 boxes, enough: yes, 0 planks left, short in 4 % of the jobs
	// 10 boxes, enough: yes, 8 planks left, short in 0 % of the jobs
	// buy 10
}
