package sheet_test

import (
	"context"
	"fmt"
	"os"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/solve"
)

// The list of cuts of a small store, as a table in Markdown.
func Example() {
	const in = measure.Inch
	rules := cutopt.DefaultRules(measure.UnitInch)
	rules.Fit = in / 8 // walls known to an eighth
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in},
		Box: cutopt.Box{Planks: 8}, Rules: rules,
		Rooms: []cutopt.Room{
			{Name: "Store", Outline: []cutopt.Point{{}, {X: 96 * in}, {X: 96 * in, Y: 28 * in}, {Y: 28 * in}}},
		},
	}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := sheet.New(job, result.Plan, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	if err := s.Cuts(os.Stdout, sheet.FormatMarkdown); err != nil {
		fmt.Println(err)
	}
	// Output:
	// # List of cuts
	//
	// Crosscut first, rip afterwards: only the piece that needs it is ripped, and the offcut keeps its full width.
	//
	// | Plank | Part | Room | Row | Length (in) | From left end | To | Factory ends | Then |
	// | --- | --- | --- | --- | --- | --- | --- | --- | --- |
	// | 1 | ender | Store | 1 | 36 1/2 | 0 | 36 1/2 | left | rip to 6 3/4 |
	// | 1 | left over |  |  | 1/4 | 36 5/8 | 36 7/8 |  |  |
	// | 1 | starter | Store | 1 | 11 | 37 | 48 | right | rip to 6 3/4 |
	// | 2 | whole plank | Store | 1 | 48 | 0 | 48 | both | rip to 6 3/4 |
	// | 3 | ender | Store | 2 | 15 1/2 | 0 | 15 1/2 | left |  |
	// | 3 | left over |  |  | 1/4 | 15 5/8 | 15 7/8 |  |  |
	// | 3 | starter | Store | 2 | 32 | 16 | 48 | right |  |
	// | 6 | ender | Store | 3 | 47 1/2 | 0 | 47 1/2 | left |  |
	// | 6 | left over |  |  | 3/8 | 47 5/8 | 48 |  |  |
	// | 7 | ender | Store | 4 | 24 1/2 | 0 | 24 1/2 | left | rip to 6 3/4 |
	// | 7 | left over |  |  | 1/4 | 24 5/8 | 24 7/8 |  |  |
	// | 7 | starter | Store | 4 | 23 | 25 | 48 | right | rip to 6 3/4 |
	// | 8 | whole plank | Store | 4 | 48 | 0 | 48 | both | rip to 6 3/4 |
	//
	// 2 planks are laid whole: numbers 4–5.
}
