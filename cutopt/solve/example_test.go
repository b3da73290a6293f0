package solve_test

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/planfile"
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
	fmt.Printf("%d boxes hold the floor; fewer cannot do: %v\n", plan.Bound.Boxes, plan.Bound.Proven)
	fmt.Printf("buy %d, since planks break; fewer would not do for any layout: %v\n", plan.Order.Boxes, plan.Bound.Settled)
	fmt.Printf("the rule of thumb buys %d\n", plan.Order.ThumbBoxes)
	// Output:
	// 9 boxes hold the floor; fewer cannot do: true
	// buy 10, since planks break; fewer would not do for any layout: true
	// the rule of thumb buys 10
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

// A handler that plans the job of a stranger: what is wrong, too large, impossible or too slow gets an answer of its
// own.
func Example_server() {
	handler := func(w http.ResponseWriter, r *http.Request) {
		file, err := jobfile.Read(r.Body, "job")
		if err == nil {
			var result *solve.Result
			result, err = solve.Job(r.Context(), file.Job, &solve.Options{Limit: 5 * time.Second})
			if err == nil {
				err = planfile.Encode(w, result.Plan)
			}
		}
		var stopped *solve.StoppedError
		switch {
		case err == nil:
		case errors.Is(err, cutopt.ErrTooLarge):
			http.Error(w, err.Error(), http.StatusRequestEntityTooLarge)
		case errors.Is(err, solve.ErrNoPlan):
			http.Error(w, err.Error(), http.StatusUnprocessableEntity)
		case errors.As(err, &stopped):
			http.Error(w, err.Error(), http.StatusServiceUnavailable)
		default:
			http.Error(w, err.Error(), http.StatusBadRequest)
		}
	}
	for _, rooms := range []string{
		`[{size: 14' 6" x 10' 11"}]`, `[{size: 14' 6"}]`, `[{size: 900 m x 900 m}]`, `[{size: 49 x 60, rows: across}]`,
	} {
		job := "unit: in\nplank: {length: 48, width: 7}\nbox: {planks: 8}\nrules: {min-piece: 26}\nrooms: " + rooms
		answer := httptest.NewRecorder()
		handler(answer, httptest.NewRequest("POST", "/plan", strings.NewReader(job)))
		fmt.Println(rooms, http.StatusText(answer.Code))
	}
	// Output:
	// [{size: 14' 6" x 10' 11"}] OK
	// [{size: 14' 6"}] Bad Request
	// [{size: 900 m x 900 m}] Request Entity Too Large
	// [{size: 49 x 60, rows: across}] Unprocessable Entity
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
	fmt.Println("the certificate, verified without the solver:", result.Bound.Certificate.Verify(in))
	// Output:
	// 5 planks, proven: true
	// the certificate, verified without the solver: <nil>
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
