package cut_test

import (
	"context"
	"fmt"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// The casing of 16 openings, cased on both sides, from 16-ft sticks. Running feet say 34 sticks; 38 are needed.
func ExampleSolve() {
	job := &stock.Job{
		Unit:   measure.UnitInch,
		Sticks: []stock.Stick{{Name: "16 ft", Length: 16 * measure.Foot}},
		Pieces: []stock.Piece{
			{Name: "leg", Length: 84 * measure.Inch, Count: 64},
			{Name: "head", Length: 32 * measure.Inch, Count: 32},
		},
		Kerf: measure.Inch / 8,
	}
	result, err := cut.Solve(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(result.Plan.Sticks, "sticks,", result.Status)
	proven, err := stock.Verify(context.Background(), job, result.Certificate)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("at least", proven.Sticks)
	// Output:
	// 38 sticks, proven
	// at least 38
}
