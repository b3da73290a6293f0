// Command ordering asks the library how many boxes to buy for one room.
package main

import (
	"context"
	"fmt"
	"log"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

func main() {
	const in = measure.Inch
	job := &cutopt.Job{
		Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitInch),
		Rooms: []cutopt.Room{{Outline: []cutopt.Point{{}, {X: 174 * in}, {X: 174 * in, Y: 131 * in}, {Y: 131 * in}}}},
	}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		log.Fatal(err)
	}
	plan := result.Plan
	fmt.Println("buy", plan.Order.Boxes, "boxes, proven the fewest at the loss assumed:", plan.Bound.Settled)
	fmt.Println(plan.Bound.Boxes, "hold the floor, proven the fewest:", plan.Bound.Proven)
}
