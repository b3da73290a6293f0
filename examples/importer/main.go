// Command importer is a module of its own that imports the library: it compares which way the rows should run.
package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

func main() {
	if err := compare(context.Background(), os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "importer:", err)
		os.Exit(1)
	}
}

// compare plans one room with its rows along and across, and prints what each needs.
func compare(ctx context.Context, w io.Writer) error {
	const mm = measure.Millimetre
	for _, direction := range []cutopt.Direction{cutopt.DirectionAlong, cutopt.DirectionAcross} {
		job := &cutopt.Job{
			Unit:  measure.UnitMillimetre,
			Plank: cutopt.Plank{Length: 1220 * mm, Width: 180 * mm},
			Box:   cutopt.Box{Planks: 10},
			Rules: cutopt.DefaultRules(measure.UnitMillimetre),
			Rooms: []cutopt.Room{{
				Name:    "Study",
				Outline: []cutopt.Point{{}, {X: 3300 * mm}, {X: 3300 * mm, Y: 2750 * mm}, {Y: 2750 * mm}},
				Rows:    cutopt.RowRules{Direction: direction},
			}},
		}
		result, err := solve.Job(ctx, job, &solve.Options{Fewest: solve.FewestPlanks})
		if err != nil {
			return fmt.Errorf("rows %v: %w", direction, err)
		}
		plan := result.Plan
		if violations := check.Plan(job, plan); len(violations) > 0 {
			return fmt.Errorf("rows %v: %v", direction, violations[0])
		}
		fmt.Fprintf(w, "rows %v: %d planks, at least %d needed\n", direction, plan.Order.Planks, plan.Bound.Planks)
	}
	return nil
}
