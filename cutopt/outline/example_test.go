package outline_test

import (
	"errors"
	"fmt"
	"strings"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/outline"
)

// A room with a stove in it, in metres.
func ExampleRead() {
	const wkt = "POLYGON ((0 0, 5.2 0, 5.2 3.6, 0 3.6, 0 0), (1 1, 1.9 1, 1.9 1.9, 1 1.9, 1 1))"
	metres := measure.UnitMetre
	rooms, err := outline.Read(strings.NewReader(wkt), &outline.Options{Unit: &metres, Name: "Wren Cottage, den"})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, room := range rooms {
		fmt.Println(room.Name, len(room.Outline), "corners", len(room.Islands), "island")
		fmt.Println("opposite corner:", room.Outline[2].X.Decimal(metres), room.Outline[2].Y.Decimal(metres))
	}
	// Output:
	// Wren Cottage, den 4 corners 1 island
	// opposite corner: 5.2 3.6
}

// A survey 4,800 km north of its origin is moved as a whole.
func ExampleRead_survey() {
	const geojson = `{"type": "Polygon", "coordinates":
		[[[512000, 4800000], [512004, 4800000], [512004, 4800003], [512000, 4800003], [512000, 4800000]]]}`
	metres := measure.UnitMetre
	rooms, err := outline.Read(strings.NewReader(geojson), &outline.Options{Unit: &metres})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range rooms[0].Outline {
		fmt.Print(c.X.Decimal(metres), " ", c.Y.Decimal(metres), "  ")
	}
	// Output: 0 0  4 0  4 3  0 3
}

// A bay of half a circle: the side from the second vertex has bulge 1.
func ExampleRead_arc() {
	const dxf = "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n6\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n" +
		"10\n0\n20\n0\n10\n4\n20\n0\n42\n1\n10\n4\n20\n2\n10\n0\n20\n2\n0\nENDSEC\n0\nEOF\n"
	for _, sagitta := range []measure.Length{10 * measure.Millimetre, measure.Millimetre} {
		rooms, err := outline.Read(strings.NewReader(dxf), &outline.Options{Sagitta: sagitta})
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(len(rooms[0].Outline), "corners")
	}
	// Output:
	// 15 corners
	// 39 corners
}

func ExampleError() {
	_, err := outline.Read(strings.NewReader("POLYGON ((0 0, 4 0, 4 3, 0 0))"), nil)
	var wrong *outline.Error
	if errors.As(err, &wrong) {
		fmt.Println(wrong.Format, "-", wrong.Msg, "-", wrong.Hint())
	}
	fmt.Println(errors.Is(err, outline.ErrNoUnit))
	// Output:
	// WKT - the file states no unit - state the unit of its coordinates
	// true
}
