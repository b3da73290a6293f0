package laying_test

import (
	"context"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// What to saw next, from what, and what to keep.
func Example() {
	const in = measure.Inch
	rules := cutopt.DefaultRules(measure.UnitInch)
	rules.Fit = in / 8 // walls known to an eighth
	job := &cutopt.Job{
		Unit: measure.UnitInch, Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in}, Box: cutopt.Box{Planks: 8},
		Rules: rules,
		Rooms: []cutopt.Room{
			{Name: "Store", Outline: []cutopt.Point{{}, {X: 96 * in}, {X: 96 * in, Y: 28 * in}, {Y: 28 * in}}},
		},
	}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	seq, err := laying.FromPlan(job, result.Plan)
	if err != nil {
		fmt.Println(err)
		return
	}
	text := func(l measure.Length) string { return l.Format(job.Unit, job.Rules.Grid) }
	for _, p := range seq.Pieces {
		if p.Role == laying.RoleWhole {
			continue
		}
		from := fmt.Sprintf("new plank %d", p.Plank)
		if p.Source != nil {
			from = fmt.Sprintf("the offcut of plank %d", p.Plank)
		}
		fmt.Printf("row %s: %v of %s from %s\n", p.Run.Name, p.Role, text(p.Length), from)
		for _, o := range p.Offcuts {
			if o.Next != nil {
				fmt.Printf("  keep %s for row %s\n", text(o.Length()), o.Next.Run.Name)
			}
		}
	}
	// Output:
	// row 1: starter of 11 in from new plank 1
	//   keep 36 7/8 in for row 1
	// row 1: ender of 36 1/2 in from the offcut of plank 1
	// row 2: starter of 32 in from new plank 3
	//   keep 15 7/8 in for row 2
	// row 2: ender of 15 1/2 in from the offcut of plank 3
	// row 3: ender of 47 1/2 in from new plank 6
	// row 4: starter of 23 in from new plank 7
	//   keep 24 7/8 in for row 4
	// row 4: ender of 24 1/2 in from the offcut of plank 7
}
