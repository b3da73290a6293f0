package solve_test

import (
	"context"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

// denJob is a room of 14 ft 6 in x 10 ft 11 in to be laid with planks of 48 x 7 in, eight to a box.
func denJob() *cutopt.Job {
	w, h := 174*measure.Inch, 131*measure.Inch
	return &cutopt.Job{
		Unit:  measure.UnitInch,
		Plank: cutopt.Plank{Length: 48 * measure.Inch, Width: 7 * measure.Inch},
		Box:   cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitInch),
		Rooms: []cutopt.Room{{Name: "Den", Outline: []cutopt.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}}},
	}
}

func ExampleJob() {
	result, err := solve.Job(context.Background(), denJob(), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan := result.Plan
	fmt.Printf(
		"%d boxes, proven: %v; the rule of thumb buys %d\n",
		plan.Order.Boxes,
		plan.Bound.Proven,
		plan.Order.ThumbBoxes,
	)
	// Output: 10 boxes, proven: true; the rule of thumb buys 10
}

func ExampleJob_fewestPlanks() {
	result, err := solve.Job(context.Background(), denJob(), &solve.Options{Fewest: solve.FewestPlanks})
	if err != nil {
		fmt.Println(err)
		return
	}
	plan := result.Plan
	fmt.Printf("%d planks, fewer cannot do: %v\n", plan.Order.Planks, plan.Bound.PlanksProven)
	// Output: 70 planks, fewer cannot do: true
}

func Example_proof() {
	job := denJob()
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(check.Proof(job, result.Plan))
	result.Plan.Bound.Planks++ // claim more than is proven
	fmt.Println(check.Proof(job, result.Plan) != nil)
	// Output:
	// <nil>
	// true
}

func ExamplePlan_Pieces() {
	result, err := solve.Job(context.Background(), denJob(), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	whole := 0
	for piece := range result.Plan.Pieces() {
		if piece.Ends == cutopt.EndsBoth {
			whole++
		}
	}
	fmt.Println(whole > 0, whole < result.Plan.Order.Planks)
	// Output: true true
}

func ExampleInstance() {
	in, err := solve.Instance(denJob())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d runs, %d touching pairs\n", len(in.Runs), len(in.Touch))
	// Output: 19 runs, 18 touching pairs
}

func ExampleRows() {
	// Two touching runs of 100 in from planks of 48 in: any whole numbers of one unit do.
	in := &rows.Instance{
		Plank: 48, MinPiece: 8, Stagger: 8, Grid: 1,
		Runs: []rows.Run{{Length: 100}, {Length: 100}}, Touch: [][2]int{{0, 1}},
	}
	result, err := solve.Rows(context.Background(), in, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(result.Cutting.Planks), "planks, proven:", result.Bound.PlanksProven)
	// Output: 5 planks, proven: true
}

// Half of the floor lies, and the plank that was opened last has broken.
func ExampleContinue() {
	job := denJob()
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	marked, opened := result.Plan.Clone(), 0
	for i := range marked.Floors[0].Rows[:9] {
		for k := range marked.Floors[0].Rows[i].Runs {
			run := &marked.Floors[0].Rows[i].Runs[k]
			for m := range run.Pieces {
				run.Pieces[m].Lies = true
				marked.Planks[run.Pieces[m].Plank-1].Opened = true
			}
		}
	}
	broken := &marked.Planks[len(marked.Planks)-1]
	broken.Opened = true
	broken.Gone = []cutopt.Leftover{{To: job.Plank.Length, Ends: cutopt.EndsBoth}}
	for _, use := range marked.Planks {
		if use.Opened {
			opened++
		}
	}
	left := 80 - opened // of ten boxes
	marked.Site = &cutopt.Site{Bought: 10, Here: []cutopt.Lot{{Planks: left, Boxes: left / 8}}}

	on, err := solve.Continue(context.Background(), job, marked, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	site := on.Plan.Site
	fmt.Printf("%d whole planks are here; the rest takes %d, and fewer than %d cannot do\n", left, site.Needed, site.Least)
	fmt.Printf("%d boxes to buy on top, %d runs start otherwise\n", site.Buy, len(site.Changed))
	// Output:
	// 45 whole planks are here; the rest takes 37, and fewer than 36 cannot do
	// 0 boxes to buy on top, 0 runs start otherwise
}
