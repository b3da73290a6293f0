package strips_test

import (
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// Areas of OpenStax, Prealgebra 2e, "Rectangles, Triangles, Trapezoids": with no gap the
// floor is the outline, whichever wall the rows follow.
func TestPublishedAreas(t *testing.T) {
	const half = measure.Inch / 2
	for _, row := range []struct {
		name    string
		outline []measure.Point
		want    measure.Area
	}{
		{
			"a rectangle of 15 x 14 ft is 210 sq ft",
			[]measure.Point{{}, {X: 15 * measure.Foot}, {X: 15 * measure.Foot, Y: 14 * measure.Foot}, {Y: 14 * measure.Foot}},
			210 * measure.SquareFoot,
		},
		{
			"a trapezoid with sides of 62 and 50 in, 18.5 in apart, is 1036 sq in",
			[]measure.Point{{}, {X: 124 * half}, {X: 112 * half, Y: 37 * half}, {X: 12 * half, Y: 37 * half}},
			1036 * measure.Area(measure.Inch) * measure.Area(measure.Inch),
		},
	} {
		for _, direction := range []cutopt.Direction{cutopt.DirectionAlong, cutopt.DirectionAcross} {
			room := strips.Room{Name: row.name, Outline: row.outline, Gaps: make([]measure.Length, len(row.outline))}
			f, err := strips.Lay([]strips.Room{room}, &strips.Layout{Direction: direction, Width: 7 * measure.Inch})
			if err != nil {
				t.Fatal(err)
			}
			if f.Area != row.want {
				t.Errorf("%s: got %d square ticks, want %d", row.name, f.Area, row.want)
			}
		}
	}
}
