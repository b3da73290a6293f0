package cutopt_test

import (
	"errors"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// TestThroughIsDrawn: a floor runs through rooms drawn in one drawing that share the doorway, and through no others.
func TestThroughIsDrawn(t *testing.T) {
	const in = measure.Inch
	box := func(x0, y0, x1, y1 measure.Length) []cutopt.Point {
		return []cutopt.Point{
			{X: x0 * in, Y: y0 * in}, {X: x1 * in, Y: y0 * in}, {X: x1 * in, Y: y1 * in}, {X: x0 * in, Y: y1 * in},
		}
	}
	door := func(wall int, at, width measure.Length) cutopt.Doorway {
		return cutopt.Doorway{Wall: wall, At: at * in, Width: width * in, Depth: 5 * in, To: "B", Through: true}
	}
	metal := door(1, 20, 32)
	metal.Casing, metal.Width = cutopt.CasingMetal, in/2
	for _, test := range []struct {
		reason string
		door   cutopt.Doorway
		b      cutopt.Room
		says   string // of the refusal; "" where there is none
	}{
		{"a wall of 5 in between them", door(1, 20, 32), cutopt.Room{Outline: box(125, 0, 225, 120)}, ""},
		{"walls drawn in common", door(1, 20, 32), cutopt.Room{Outline: box(120, 0, 225, 120)}, ""},
		{"as wide as the room behind", door(1, 20, 32), cutopt.Room{Outline: box(125, 20, 225, 52)}, ""},
		{"both given by size", door(1, 20, 32), cutopt.Room{Outline: box(0, 0, 120, 120)}, "lies over"},
		{"the one within the other", door(1, 20, 32), cutopt.Room{Outline: box(20, 20, 80, 80)}, "lies over"},
		{"drawn overlapping", door(1, 20, 32), cutopt.Room{Outline: box(110, 0, 225, 120)}, "lies over"},
		{"280 in apart", door(1, 20, 32), cutopt.Room{Outline: box(400, 0, 500, 120)}, "meet one wall"},
		{"on the other side", door(3, 20, 32), cutopt.Room{Outline: box(125, 0, 225, 120)}, "meet one wall"},
		{"half the opening is shared", door(1, 20, 32), cutopt.Room{Outline: box(125, 40, 225, 160)}, "meet one wall"},
		{"no wider than its gaps", metal, cutopt.Room{Outline: box(125, 0, 225, 120)}, "wider than the gaps"},
		{"a bath in front of it", door(1, 20, 32), cutopt.Room{
			Outline: box(125, 0, 225, 120),
			Islands: []cutopt.Island{{Name: "bath", Outline: box(125, 10, 155, 40)}},
		}, `island "bath"`},
	} {
		test.b.Name = "B"
		a := cutopt.Room{Name: "A", Outline: box(0, 0, 120, 120), Doorways: []cutopt.Doorway{test.door}}
		job := den()
		job.Rooms = []cutopt.Room{a, test.b}
		err := job.Validate()
		var field *cutopt.FieldError
		switch {
		case test.says == "" && err != nil:
			t.Errorf("%s: %v", test.reason, err)
		case test.says != "" && (!errors.As(err, &field) || field.Field != "rooms[1].doorways[1].through" ||
			!strings.Contains(field.Rule, test.says) || field.Mend == ""):
			t.Errorf("%s: %v; want it to say %q, with a mend", test.reason, err, test.says)
		}
	}
	job := den()
	job.Rooms = []cutopt.Room{
		{Name: "A", Outline: box(0, 0, 120, 120), Doorways: []cutopt.Doorway{door(1, 20, 32)}},
		{Name: "C", Outline: box(125, 0, 225, 58)},
		{Name: "B", Outline: box(125, 62, 225, 120)},
	}
	job.Rooms[2].Doorways = []cutopt.Doorway{{Wall: 0, At: 20 * in, Width: 32 * in, To: "C", Through: true}}
	if err := job.Validate(); err == nil || !strings.Contains(err.Error(), `this one opens on "C"`) {
		t.Errorf("it opens on another room: %v", err)
	}
}
