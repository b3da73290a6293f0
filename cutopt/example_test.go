package cutopt_test

import (
	"context"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// A closet of 60 x 20 in, drawn piece by piece: where each has its corners in the drawing of the room.
func ExampleAxes_ToDrawing() {
	const in = measure.Inch
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitInch), Rooms: []cutopt.Room{{Outline: cutopt.Rectangle(60*in, 20*in)}},
	}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	floor := result.Plan.Floors[0]
	for _, row := range floor.Rows {
		for _, piece := range row.Runs[0].Pieces {
			corners := piece.Shape // nil: the full rectangle of its stretch of the row
			if corners == nil {
				corners = cutopt.RectangleAt(cutopt.Point{X: piece.From, Y: row.From}, piece.Length, row.Width)
			}
			fmt.Printf("plank %d:", piece.Plank)
			for _, c := range corners {
				at := floor.Axes.ToDrawing(c)
				fmt.Printf(" (%s, %s)", at.X.Decimal(job.Unit), at.Y.Decimal(job.Unit))
			}
			fmt.Println()
		}
	}
	// Output:
	// plank 1: (59.75, 0.25) (11.75, 0.25) (11.75, 6.5) (59.75, 6.5)
	// plank 2: (11.75, 0.25) (0.25, 0.25) (0.25, 6.5) (11.75, 6.5)
	// plank 2: (59.75, 6.5) (23.875, 6.5) (23.875, 13.5) (59.75, 13.5)
	// plank 3: (23.875, 6.5) (0.25, 6.5) (0.25, 13.5) (23.875, 13.5)
	// plank 3: (59.75, 13.5) (36, 13.5) (36, 19.75) (59.75, 19.75)
	// plank 4: (36, 13.5) (0.25, 13.5) (0.25, 19.75) (36, 19.75)
}
