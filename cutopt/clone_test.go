package cutopt_test

import (
	"fmt"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// TestClone changes everything that a clone could share with its job, found by reflection, and wants the job as it was.
func TestClone(t *testing.T) {
	const in = measure.Inch
	job := func() *cutopt.Job {
		return &cutopt.Job{
			Name: "Mill", Pattern: []measure.Length{in}, Aims: cutopt.DefaultAims(), Products: []cutopt.Product{{}},
			Rooms: []cutopt.Room{{
				Outline: cutopt.Rectangle(
					90*in,
					60*in,
				), WallGaps: map[int]measure.Length{1: in}, Doorways: []cutopt.Doorway{{Width: in}},
				Islands: []cutopt.Island{{Outline: cutopt.RectangleAt(cutopt.Point{X: in, Y: in}, in, in)}},
			}},
			Materials: wren().Materials,
		}
	}
	a := job()
	b := a.Clone()
	if diff := cmp.Diff(a, b); diff != "" {
		t.Fatalf("the clone is another: %s", diff)
	}
	if n := scribble(reflect.ValueOf(b).Elem()); n < 20 {
		t.Errorf("only %d fields were changed", n)
	}
	if diff := cmp.Diff(job(), a); diff != "" {
		t.Errorf("the job changed with its clone: %s", diff)
	}
	if (*cutopt.Job)(nil).Clone() != nil {
		t.Error("a clone of nothing")
	}
}

// TestPlanClone does the same with a plan that has something in every list.
func TestPlanClone(t *testing.T) {
	plan := func() *cutopt.Plan {
		return &cutopt.Plan{
			Breaks: []cutopt.PlanBreak{{}}, Floors: []cutopt.PlanFloor{{
				Facts: []cutopt.Fact{{}}, Rows: []cutopt.PlanRow{{Runs: []cutopt.PlanRun{{
					Pieces: []cutopt.Piece{{Shape: []cutopt.Point{{}}, Shaping: []cutopt.Fact{{}}}},
				}}}},
			}},
			Planks: []cutopt.PlankUse{{
				Pieces: []cutopt.PieceRef{{}}, Cuts: []cutopt.Cut{{}}, Left: []cutopt.Leftover{{}},
				Gone: []cutopt.Leftover{{}},
			}},
			Site: &cutopt.Site{
				Here: []cutopt.Lot{{}}, Returns: []cutopt.Lot{{}}, Reaches: []int{1}, Waits: []int{2},
				Changed: []cutopt.RunChange{{}},
			},
		}
	}
	a := plan()
	b := a.Clone()
	if diff := cmp.Diff(a, b); diff != "" {
		t.Fatalf("the clone is another: %s", diff)
	}
	if n := scribble(reflect.ValueOf(b).Elem()); n < 100 {
		t.Errorf("only %d fields were changed", n)
	}
	if diff := cmp.Diff(plan(), a); diff != "" {
		t.Errorf("the plan changed with its clone: %s", diff)
	}
	if (*cutopt.Plan)(nil).Clone() != nil {
		t.Error("a clone of nothing")
	}
}

// scribble changes every number and text that a value reaches, and returns how many.
func scribble(v reflect.Value) (n int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			n += scribble(v.Field(i))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			n += scribble(v.Elem())
		}
	case reflect.Bool:
		v.SetBool(!v.Bool())
		n++
	case reflect.Slice:
		for i := range v.Len() {
			n += scribble(v.Index(i))
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			v.SetMapIndex(k, reflect.Zero(v.Type().Elem()))
			n++
		}
	case reflect.Int, reflect.Int64:
		v.SetInt(v.Int() + 7)
		n++
	case reflect.Uint8:
		v.SetUint(v.Uint() + 7)
		n++
	case reflect.Float64:
		v.SetFloat(v.Float() + 7)
		n++
	case reflect.String:
		v.SetString(v.String() + "7")
		n++
	}
	return n
}

func ExampleRectangle() {
	room := cutopt.Room{Name: "Den", Outline: cutopt.Rectangle(174*measure.Inch, 131*measure.Inch)}
	for _, p := range room.Outline {
		fmt.Println(p.X.Format(measure.UnitInch, measure.Inch), p.Y.Format(measure.UnitInch, measure.Inch))
	}
	// Output:
	// 0 in 0 in
	// 174 in 0 in
	// 174 in 131 in
	// 0 in 131 in
}
