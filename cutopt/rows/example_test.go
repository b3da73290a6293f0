package rows_test

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"plank.example/cutopt/rows"
)

// hall is three runs of 130 in on planks of 48 in, on a grid of whole inches: pieces of at least 8 in, joints of
// neighbours 12 in apart, a kerf left out.
func hall() *rows.Instance {
	return &rows.Instance{
		Name: "three runs", Plank: 48, MinPiece: 8, Stagger: 12, Grid: 1,
		Runs:  []rows.Run{{Length: 130}, {Length: 130}, {Length: 130}},
		Touch: [][2]int{{0, 1}, {1, 2}},
	}
}

func ExampleDecode() {
	const text = `{"plank": 48, "kerf": 0, "min_piece": 8, "stagger": 12, "grid": 1,
		"runs": [{"from": 0, "length": 130}, {"from": 0, "length": 130}], "touch": [[0, 1]]}`
	in, err := rows.Decode(strings.NewReader(text))
	if err != nil {
		fmt.Println(err)
		return
	}
	layout := rows.Layout{17, 40}
	fmt.Println(len(in.Runs), "runs:", in.Check(layout), in.Count(layout, nil), "planks")
	// Output: 2 runs: <nil> 6 planks
}

// What is too large is told apart from what is wrong.
func ExampleDecode_tooLarge() {
	const text = `{"plank": 1, "kerf": 0, "min_piece": 0, "stagger": 0, "grid": 1,
		"runs": [{"from": 0, "length": 320000000}], "touch": []}`
	_, err := rows.Decode(strings.NewReader(text))
	fmt.Println(errors.Is(err, rows.ErrTooLarge))
	fmt.Println(strings.ReplaceAll(err.Error(), ": ", ":\n"))
	// Output:
	// true
	// rows:
	// number of planks that the runs may take is 320000002:
	// at most 20000000; check the unit of the plank's length, or part the floor into several instances
}

func ExampleInstance_Validate() {
	in := hall()
	in.Kerf = 48
	err := in.Validate()
	var wrong *rows.Error
	if errors.As(err, &wrong) {
		fmt.Println("field:", wrong.Field)
		fmt.Println("value:", wrong.Value)
		fmt.Println("rule: ", wrong.Rule)
		fmt.Println("hint: ", wrong.Hint())
	}
	// Output:
	// field: kerf
	// value: 48
	// rule:  a kerf is at least 0 and less than the plank
	// hint:  give the width of one saw cut, 0 for none
}

func ExampleInstance_Encode() {
	in := &rows.Instance{Plank: 48, MinPiece: 8, Grid: 1, Runs: []rows.Run{{Length: 20}}}
	if err := in.Encode(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// {
	//  "plank": 48,
	//  "kerf": 0,
	//  "min_piece": 8,
	//  "stagger": 0,
	//  "grid": 1,
	//  "runs": [
	//   {
	//    "from": 0,
	//    "length": 20
	//   }
	//  ],
	//  "touch": null
	// }
}

func ExampleInstance_Lay() {
	in := hall()
	for _, starter := range []rows.Layout{{17}, {34}, {48}, {0}} {
		pieces, ok := in.Lay(0, starter[0])
		fmt.Println(starter[0], ok, pieces.Starter, pieces.Field, pieces.Ender)
	}
	// Output:
	// 17 true 17 2 17
	// 34 true 34 1 48
	// 48 true 48 1 34
	// 0 false 0 0 0
}

func ExamplePieces_Joints() {
	pieces, _ := hall().Lay(0, 17) // joints at 17, 65 and 113
	fmt.Println(pieces.Joints())
	// Output: 3
}

func ExampleInstance_Clash() {
	in := hall()
	// Joints at 17, 65, 113 against 40 and 88, and against 28, 76, 124.
	fmt.Println(in.Clash(17, 3, 40, 2), in.Clash(17, 3, 28, 3))
	// Output: false true
}

func ExampleInstance_Check() {
	in := hall()
	fmt.Println(in.Check(rows.Layout{17, 40, 17}))
	err := in.Check(rows.Layout{17, 24, 17})
	fmt.Println(strings.NewReplacer(": ", ":\n", "touches; ", "touches;\n").Replace(err.Error()))
	// Output:
	// <nil>
	// rows:
	// layout[1] is 24:
	// a joint of run 1 lies nearer than the stagger 12 to one of run 0, which it touches;
	// choose another starter for one of the two; run 0 has 17
}

// Starters and enders of 17 share planks; a starter of 40 and an ender of 42 take one each, and five planks stay whole.
func ExampleInstance_Count() {
	in := hall()
	fmt.Println(in.Count(rows.Layout{17, 40, 17}, nil))
	// Output: 9
}

func ExampleInstance_Cut() {
	in := hall()
	for k, plank := range in.Cut(rows.Layout{17, 40, 17}, nil).Planks {
		fmt.Print(k+1, ":")
		for _, part := range plank {
			fmt.Printf("  %v %d of run %d", part.Role, part.Length, part.Run)
		}
		fmt.Println()
	}
	// Output:
	// 1:  ender 17 of run 0  starter 17 of run 0
	// 2:  field 48 of run 0
	// 3:  field 48 of run 0
	// 4:  starter 40 of run 1
	// 5:  field 48 of run 1
	// 6:  ender 42 of run 1
	// 7:  ender 17 of run 2  starter 17 of run 2
	// 8:  field 48 of run 2
	// 9:  field 48 of run 2
}

// Two closets of 24 and 23 come from one plank, with a kerf of 1 between them; a third of 10 is on a plank of its own.
func ExamplePacking() {
	in := &rows.Instance{Plank: 48, Kerf: 1, Grid: 1, Runs: []rows.Run{{Length: 24}, {Length: 23}, {Length: 10}}}
	layout := rows.Layout{0, 0, 0}
	for _, packing := range []rows.Packing{{-1, 0, -1}, {-1, -1, -1}, {-1, 0, 0}} {
		if err := in.CheckPacking(layout, packing); err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(in.Count(layout, packing), "planks")
	}
	// Output:
	// 2 planks
	// 3 planks
	// rows: packing[2] is 0: the plank of run 0 is overfull by 11; write -1 for a plank of its own
}

func ExampleInstance_CheckPacking() {
	in := &rows.Instance{Plank: 48, Grid: 1, Runs: []rows.Run{{Length: 24}, {Length: 23}}}
	fmt.Println(in.CheckPacking(rows.Layout{0, 0}, rows.Packing{-1, 0}))
	fmt.Println(in.CheckPacking(rows.Layout{0, 0}, rows.Packing{1, 0}))
	// Output:
	// <nil>
	// rows: packing[0] is 1: a host has no host itself; write -1 for a plank of its own
}

func ExampleSort() {
	planks := [][]rows.Part{
		{{Run: 2, Role: rows.RoleEnder, Length: 9}},
		{{Run: 1, Role: rows.RoleEnder, Length: 9}, {Run: 0, Role: rows.RoleStarter, Length: 30}},
		{{Run: 0, Role: rows.RoleField, Length: 48}},
	}
	rows.Sort(planks)
	for _, p := range planks {
		fmt.Println(p)
	}
	// Output:
	// [{1 ender 9} {0 starter 30}]
	// [{0 field 48}]
	// [{2 ender 9}]
}

func ExampleInstance_WriteLP() {
	in := &rows.Instance{Plank: 4, MinPiece: 1, Grid: 2, Runs: []rows.Run{{Length: 6}}}
	if err := in.WriteLP(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// \ plank rows, compact model: 1 runs, plank 4, kerf 0, shortest piece 1, stagger 0, grid 2
	// Minimize
	//  planks
	// Subject To
	//  run_0: + x_0_1
	//  + x_0_L
	//  = 1
	//  hall_0: planks
	//  - 2 x_0_1
	//  - 1 x_0_L
	//  >= 0
	//  hall_1: planks
	//  - 2 x_0_1
	//  - 1 x_0_L
	//  >= 0
	//  hall_2: planks
	//  - 1 x_0_1
	//  - 2 x_0_L
	//  >= 0
	// Binaries
	//  x_0_1
	//  x_0_L
	// Generals
	//  planks
	// End
}

func ExampleInstance_WriteStepLP() {
	in := &rows.Instance{Plank: 4, MinPiece: 1, Grid: 2, Runs: []rows.Run{{Length: 6}, {Length: 3}}}
	fmt.Println(in.WriteLP(os.Stdout))
	if err := in.WriteStepLP(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// rows: runs[1].length is 3: the compact model lays every run with a starter and an ender; write the step model
	// \ plank rows, step model: 2 runs, plank 4, kerf 0, shortest piece 1, stagger 0, grid 2
	// Minimize
	//  planks
	// Subject To
	//  place_0: + z - a_3_0 - f_0 = 0
	//  place_1: - u_1 + f_0 - a_3_1 - f_1 = -1
	//  place_2: - 2 y_0_1 + u_1 + f_1 - f_2 = 0
	//  place_3: + a_3_0 + f_2 - f_3 = 0
	//  pieces_3: - u_1 + a_3_0 + a_3_1 = 0
	//  count: - y_0_1 - u_1 + z - planks = -3
	// Binaries
	//  y_0_1
	//  u_1
	// Generals
	//  z
	//  a_3_0
	//  a_3_1
	//  planks
	// End
}
