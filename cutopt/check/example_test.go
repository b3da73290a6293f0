package check_test

import (
	"bytes"
	"fmt"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/planfile"
	"plank.example/cutopt/words"
)

// Someone sawed a starter at the wrong end.
func ExamplePlan() {
	job, plan := parlour(), parlourPlan()
	plan.Floors[0].Rows[1].Runs[0].Pieces[0].Ends = cutopt.EndsNone
	english := words.New("en", nil, job.Unit, job.Rules.Grid)
	broken := check.Plan(job, plan)
	for i := range broken {
		fmt.Println(english.Violation(&broken[i]))
	}
	fmt.Println(broken[0]) // as a log has it
	// Output:
	// Parlour row 2 run 1 piece 1: ends: a sawn starter has its factory ends: none; want right, for the next plank
	// plank 4: ends: its piece 2 ends at the right end and has its factory ends: none; want the right one
	// Parlour row 2 run 1 piece 1: ends: starter-ends: ends none
}

func Example_planFile() {
	plan := &cutopt.Plan{
		Version: cutopt.PlanVersion, Job: "Porch", Unit: measure.UnitInch,
		Floors: []cutopt.PlanFloor{{
			Name: "Porch", Axes: cutopt.Axes{Mirrored: true},
			Rows: []cutopt.PlanRow{{To: 7 * measure.Inch, Width: 7 * measure.Inch, Runs: []cutopt.PlanRun{{
				To: 20 * measure.Inch,
				Pieces: []cutopt.Piece{{
					Plank: 1, To: 20 * measure.Inch, Length: 20 * measure.Inch,
					Ends: cutopt.EndsLeft,
				}},
			}}}},
		}},
	}
	var file bytes.Buffer
	if err := planfile.Encode(&file, plan); err != nil {
		fmt.Println(err)
		return
	}
	for line := range strings.Lines(file.String()) {
		if strings.Contains(line, "factory_ends") {
			fmt.Print(strings.TrimSpace(line))
		}
	}
	// Output: {"plank": 1, "from": 0, "to": 20, "length": 20, "factory_ends": "left"}]}]}]}],
}

func Example_readBack() {
	_, err := planfile.Decode(strings.NewReader(`{"version": 2, "unit": "in",
 "order": {"planks": 41.5}}`))
	fmt.Println(err)
	// Output: line 2, column 22: order.planks: 41.5 is no whole number, or too large a one
}
