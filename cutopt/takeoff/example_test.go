package takeoff_test

import (
	"context"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
	"plank.example/cutopt/takeoff"
	"plank.example/cutopt/words"
)

// A pantry with one door: what to buy besides the planks, and how the base is cut.
func ExampleNew() {
	const in = measure.Inch
	job := &cutopt.Job{
		Unit:  measure.UnitInch,
		Plank: cutopt.Plank{Length: 48 * in, Width: 7 * in, Thickness: in / 4},
		Box:   cutopt.Box{Planks: 8},
		Rules: cutopt.DefaultRules(measure.UnitInch),
		Rooms: []cutopt.Room{{
			Name: "Pantry", Outline: cutopt.Rectangle(90*in, 62*in),
			Doorways: []cutopt.Doorway{{
				Wall: 0, At: 20 * in, Width: 30 * in, Depth: 4 * in,
				Transition: cutopt.TransitionEdge,
			}},
		}},
		Materials: cutopt.Materials{
			Underlay: cutopt.Underlay{Attached: true},
			Trim: []cutopt.Trim{{
				Thickness: in / 2, Casing: 2 * in,
				Sticks: []cutopt.Stick{{Length: 96 * in, Price: 990}, {Length: 144 * in, Price: 1390}},
			}},
		},
	}
	result, err := solve.Job(context.Background(), job, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	list, err := takeoff.New(context.Background(), job, result.Plan)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, item := range list.Items {
		for _, g := range item.Goods {
			fmt.Println(item.Kind, g.Count, g.Unit, g.Length.Format(job.Unit, in), g.Price())
		}
	}
	for _, c := range words.New("en", nil, job.Unit, 0).Takeoff(job, list).Cuts {
		for _, line := range c.Lines {
			fmt.Println(line)
		}
		fmt.Println(c.Proof)
	}
	// Output:
	// planks 3 box 48 in 0.00
	// trim 2 stick 144 in 27.80
	// 1 x 144 in: 90 in (wall 3) + 38 in (wall 1); 15 3/4 in left
	// 1 x 144 in: 62 in (wall 2) + 62 in (wall 4) + 18 in (wall 1); 1 5/8 in left
	// No way to cut these pieces costs less: proven.
}
