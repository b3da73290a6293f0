package outline_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/outline"
)

const mm = measure.Millimetre

func in(u measure.Unit) *outline.Options { return &outline.Options{Unit: &u} }

// square returns the corners of an axis-parallel square, in millimetres.
func square(x, y, side measure.Length) []measure.Point {
	x, y, side = x*mm, y*mm, side*mm
	return []measure.Point{{X: x, Y: y}, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}}
}

// dxf writes a drawing of closed polylines from lines of "x y [bulge]"; polylines are parted by empty lines.
func dxf(units string, polylines ...string) string {
	var b strings.Builder
	b.WriteString("0\nSECTION\n2\nHEADER\n")
	if units != "" {
		b.WriteString("9\n$INSUNITS\n70\n" + units + "\n")
	}
	b.WriteString("0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n1\n20\n2\n11\n3\n21\n4\n")
	for _, p := range polylines {
		b.WriteString("0\nLWPOLYLINE\n8\nwalls\n70\n1\n")
		for _, line := range strings.Split(p, ";") {
			f := strings.Fields(line)
			b.WriteString("10\n" + f[0] + "\n20\n" + f[1] + "\n")
			if len(f) > 2 {
				b.WriteString("42\n" + f[2] + "\n")
			}
		}
	}
	b.WriteString("0\nENDSEC\n0\nEOF\n")
	return b.String()
}

func TestRead(t *testing.T) {
	metres, millimetres := in(measure.UnitMetre), in(measure.UnitMillimetre)
	room := func(name string, outline []measure.Point, islands ...[]measure.Point) cutopt.Room {
		r := cutopt.Room{Name: name, Outline: outline}
		for _, i := range islands {
			r.Islands = append(r.Islands, cutopt.Island{Outline: i})
		}
		return r
	}
	for _, c := range []struct {
		why  string
		text string
		opt  *outline.Options
		want []cutopt.Room
	}{
		{
			"a GeoJSON polygon with a hole, in metres; the last corner repeats the first; heights are ignored",
			`{"type": "Polygon", "coordinates": [[[0,0,9],[4,0,9],[4,4,9],[0,4,9],[0,0,9]], [[1,1],[2,1],[2,2],[1,2],[1,1]]]}`,
			metres,
			[]cutopt.Room{room("Room", square(0, 0, 4000), square(1000, 1000, 1000))},
		},
		{
			"a collection of features: names, a point that is passed over, a name used twice",
			`{"type": "FeatureCollection", "features": [
				{"type": "Feature", "properties": {"name": "Den"}, "geometry":
				{"type": "Polygon", "coordinates": [[[0,0],[4,0],[4,4],[0,4],[0,0]]]}},
				{"type": "Feature", "properties": null, "geometry": {"type": "Point", "coordinates": [1, 1]}},
				{"type": "Feature", "properties": {"name": "Den"}, "geometry":
				{"type": "MultiPolygon", "coordinates": [[[[5,0],[9,0],[9,4],[5,4],[5,0]]]]}}]}`,
			metres,
			[]cutopt.Room{room("Den", square(0, 0, 4000)), room("Den 2", square(5000, 0, 4000))},
		},
		{
			"digits are read exactly: 0.1 mm is 32 ticks; an exponent",
			`{"type": "Polygon", "coordinates": [[[0.1,0],[1e3,0],[1000,1000],[0.1,1000]]]}`,
			millimetres,
			[]cutopt.Room{room("Room", []measure.Point{{X: 32}, {X: 1000 * mm}, {X: 1000 * mm, Y: 1000 * mm}, {
				X: 32,
				Y: 1000 * mm,
			}})},
		},
		{
			"WKT with a hole, an SRID, a Z and a number without a digit before its point",
			"SRID=0;Polygon Z ((0 0 1, 4 .0 1, +4.0 4 1, 0 4. 1, 0 0 1), (1 1 0, 2 1 0, 2 2 0, 1 2 0, 1 1 0))",
			metres,
			[]cutopt.Room{room("Room", square(0, 0, 4000), square(1000, 1000, 1000))},
		},
		{
			"a WKT multipolygon and another polygon after it",
			"MULTIPOLYGON (((0 0, 4 0, 4 4, 0 4, 0 0)), ((5 0, 9 0, 9 4, 5 4, 5 0)));\nPOLYGON ((0 5, 4 5, 4 9, 0 9, 0 " +
				"5))\nPOLYGON EMPTY",
			metres,
			[]cutopt.Room{room("Room", square(0, 0, 4000)), room("Room 2", square(5000, 0, 4000)), room("Room 3", square(0, 5000,
				4000))},
		},
		{
			"a survey far from its origin is moved: 512 km east",
			"POLYGON ((512000 4800000, 512004 4800000, 512004 4800004, 512000 4800004, 512000 4800000))",
			metres,
			[]cutopt.Room{room("Room", square(0, 0, 4000))},
		},
		{
			"DXF in metres by its header, whatever is stated; what lies in an outline is its island, whatever the order",
			dxf("6", "1 1;2 1;2 2;1 2", "0 0;4 0;4 4;0 4", "5 0;9 0;9 4;5 4"),
			in(measure.UnitInch),
			[]cutopt.Room{room("Room", square(0, 0, 4000), square(1000, 1000, 1000)), room("Room 2", square(5000, 0, 4000))},
		},
		{
			"DXF without a unit takes the stated one",
			dxf("0", "0 0;4 0;4 4;0 4"), metres,
			[]cutopt.Room{room("Room", square(0, 0, 4000))},
		},
		{
			"an old POLYLINE whose vertices are entities, not flagged closed but back at its start",
			"0\nSECTION\n2\nENTITIES\n0\nPOLYLINE\n66\n1\n10\n0.0\n20\n0.0\n70\n0\n" +
				"0\nVERTEX\n10\n0\n20\n0\n0\nVERTEX\n10\n4\n20\n0\n" +
				"0\nVERTEX\n10\n4\n20\n4\n0\nVERTEX\n10\n0\n20\n4\n0\nVERTEX\n10\n0\n20\n0\n0\nSEQEND\n0\nENDSEC\n0\nEOF\n",
			metres,
			[]cutopt.Room{room("Room", square(0, 0, 4000))},
		},
		{
			"line ends of another system, a byte order mark",
			"\ufeff" + strings.ReplaceAll(dxf("4", "0 0;4000 0;4000 4000;0 4000"), "\n", "\r\n"),
			nil,
			[]cutopt.Room{room("Room", square(0, 0, 4000))},
		},
	} {
		got, err := outline.Read(strings.NewReader(c.text), c.opt)
		if err != nil || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s:\n got %v, %v\nwant %v", c.why, got, err, c.want)
		}
	}
}

// TestArc reads a room that ends in half a circle: bulge 1 from (4, 0) to (4, 4), radius 2 m. The area must be that of
// the square and the half disc, 16 + 2π m² (Prealgebra), less at most the sagitta along the arc's length 2π m; and
// every corner of the arc lies on it.
func TestArc(t *testing.T) {
	for _, sagitta := range []measure.Length{mm / 2, 10 * mm} {
		opt := in(measure.UnitMetre)
		opt.Sagitta = sagitta
		rooms, err := outline.Read(strings.NewReader(dxf("", "0 0;4 0 1;4 4;0 4")), opt)
		if err != nil || len(rooms) != 1 {
			t.Fatalf("Read: %v, %v", rooms, err)
		}
		ring := rooms[0].Outline
		twice := 0.0
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			twice += float64(a.X)*float64(b.Y) - float64(b.X)*float64(a.Y)
			if r := math.Hypot(float64(a.X)-4000*float64(mm), float64(a.Y)-2000*float64(mm)); a.X > 4000*mm &&
				math.Abs(r-2000*float64(mm)) > 1 {
				t.Errorf("sagitta %v: corner %v lies %.0f ticks off the arc", sagitta, a, r-2000*float64(mm))
			}
		}
		area, want := twice/2/float64(measure.SquareMetre), 16+2*math.Pi
		if least := want - 2*math.Pi*float64(sagitta)/float64(measure.Metre); area > want+1e-6 || area < least {
			t.Errorf("sagitta %v: area %.6f m2, want %.6f to %.6f", sagitta, area, least, want)
		}
	}
}

// TestArcOtherWay bulges into the room: the area is less by the half disc.
func TestArcOtherWay(t *testing.T) {
	rooms, err := outline.Read(strings.NewReader(dxf("6", "0 0;4 0 -1;4 4;0 4")), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range rooms[0].Outline {
		if c.X > 4000*mm {
			t.Errorf("corner %v lies outside the square", c)
		}
	}
}

func TestErrors(t *testing.T) {
	metres := in(measure.UnitMetre)
	for _, c := range []struct {
		why, text string
		opt       *outline.Options
		want      string
	}{
		{"nothing", " \n", nil, "outline: the file is empty"},
		{"a picture", "\x89PNG", nil, "neither GeoJSON, nor WKT, nor ASCII DXF"},
		{"GeoJSON has no unit", `{"type": "Polygon", "coordinates": []}`, nil, "GeoJSON: the file states no unit"},
		{"WKT has no unit", "POLYGON ((0 0, 1 0, 1 1))", nil, "WKT: the file states no unit"},
		{"arcs without a unit", dxf("", "0 0;4 0 1;4 4;0 4"), nil, "DXF: the file states no unit"},
		{"light years", dxf("19", "0 0;4 0;4 4"), nil, `DXF, line 7: $INSUNITS is "19"`},
		{"half a JSON text", `{"type": "Polygon"`, metres, "GeoJSON, byte 18: unexpected end"},
		{"a type of its own", `{"type": "Room"}`, metres, `GeoJSON: the type "Room" is none of GeoJSON`},
		{
			"a position of one number", `{"type": "Polygon", "coordinates": [[[0],[1,0],[1,1]]]}`, metres,
			"coordinates[0][0]: a position has at least two",
		},
		{
			"a line for a ring", `{"type": "Polygon", "coordinates": [[[0,0],[1,0],[0,0]]]}`, metres,
			"coordinates[0]: a ring has at least three corners",
		},
		{"no polygon", `{"type": "Point", "coordinates": [0, 0]}`, metres, "there is no polygon in it"},
		{"another geometry", "LINESTRING (0 0, 1 1)", metres, `WKT, line 1: "LINESTRING" is neither`},
		{"a bracket left open", "POLYGON ((0 0, 1 0,\n 1 1", metres, `WKT, line 2: "" where a comma or ) is due`},
		{"a word for a number", "POLYGON ((0 0, one 0, 1 1))", metres, `"one" is no coordinate`},
		{"beyond limits", "POLYGON ((0 0, 1e40 0, 1 1))", metres, `"1e40" is no coordinate within 14 billion km`},
		{"longer than a kilometre", "POLYGON ((0 0, 1001 0, 1 1))", metres, "more than 1 km long or wide"},
		{
			"GeoJSON with a text of digits", `{"type": "Polygon", "coordinates": [[["5",0],[6,0],[6,1]]]}`, metres,
			`GeoJSON, coordinates: "5" is no number; a position is a list of numbers`,
		},
		{
			"GeoJSON with true", `{"type": "MultiPolygon", "coordinates": [[[[true,0],[6,0],[6,1]]]]}`, metres,
			"true is no number",
		},
		{"GeoJSON with nothing", `{"type": "Polygon", "coordinates": [[[null,0],[6,0],[6,1]]]}`, metres, "null is no number"},
		{"GeoJSON with a name for its type", `{"type": 5}`, metres, "byte 10: type is a JSON number"},
		{"nine collections deep", strings.Repeat(`{"type": "GeometryCollection", "geometries": [`, 10) + strings.Repeat("]}",
			10), metres, "nested more than 8 deep"},
		{"binary DXF", "12345678Binary DXF\r\n\x1a\x00", nil, "DXF: this is a binary DXF drawing; save the drawing as " +
			"ASCII DXF"},
		{"another binary file that begins with a letter", "PK\x03\x04\x00\x00", metres, "outline: this is a binary file"},
		{
			"beyond the solar system", "POLYGON ((0 0, 4e13 0, 4e13 4))", metres,
			`"4e13" is no coordinate within 14 billion km`,
		},
		{"a line that is no group code", "0\nSECTION\nfoo\n1\n", nil, `DXF, line 3: "foo" is no group code`},
		{"cut off", "0\nSECTION\n2", nil, "DXF, line 3: a value is missing"},
		{
			"three deep", dxf("6", "0 0;9 0;9 9;0 9", "1 1;8 1;8 8;1 8", "2 2;7 2;7 7;2 7"), nil,
			"lies within one that lies within a third",
		},
		{
			"a vertex without y", "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n10\n1\n10\n2\n0\nEOF\n", metres,
			"DXF, line 9: (\"1\", \"\") is no vertex",
		},
		{"a bulge of words", dxf("6", "0 0 round;4 0;4 4"), nil, `the bulge "round" is no number`},
		{"only lines", dxf("6"), nil, "DXF: there is no polygon in it"},
		{"junk", strings.Repeat("[{", 5<<20), nil, "neither GeoJSON"},
		{"zeros", strings.Repeat("\x00", 33<<20), nil, "larger than 32 MB"},
	} {
		rooms, err := outline.Read(strings.NewReader(c.text), c.opt)
		var e *outline.Error
		if !errors.As(err, &e) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %d rooms, %v; want an error with %q", c.why, len(rooms), err, c.want)
		} else if e.Hint() == "" {
			t.Errorf("%s: %v has no hint", c.why, err)
		}
	}
}

// TestManyEntities reads ten thousand closed polylines, and refuses one more.
func TestManyEntities(t *testing.T) {
	var polylines []string
	for i := range outline.MaxRings {
		x, y := i%100*5, i/100*5
		polylines = append(polylines, fmt.Sprintf("%d %d;%d %d;%d %d", x, y, x+4, y, x+4, y+4))
	}
	rooms, err := outline.Read(strings.NewReader(dxf("6", polylines...)), nil)
	if err != nil || len(rooms) != outline.MaxRings {
		t.Errorf("%d rooms, %v; want %d", len(rooms), err, outline.MaxRings)
	}
	_, err = outline.Read(strings.NewReader(dxf("6", append(polylines, "0 900;1 900;1 901")...)), nil)
	if !errors.Is(err, cutopt.ErrTooLarge) || !strings.Contains(err.Error(), "more than 10000 closed polylines") {
		t.Errorf("one more: %v", err)
	}
}

// FuzzRead holds that nothing makes Read panic, and that what it reads is within its limits.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{
		`{"type": "Polygon", "coordinates": [[[0,0],[4,0],[4,4],[0,4],[0,0]]]}`,
		`{"type": "GeometryCollection", "geometries": [{"type": "GeometryCollection", "geometries": []}]}`,
		"POLYGON ((0 0, 4 0, 4 4, 0 4, 0 0))", "MULTIPOLYGON Z (((0 0 0, 4 0 0, 4 4 0)))", "POLYGON((. ., -. 1e-9",
		dxf("6", "0 0;4 0 1;4 4;0 4"), dxf("1", "0 0 1000000;1 1 -0.0001;0 1"),
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rooms, err := outline.Read(strings.NewReader(text), in(measure.UnitMetre))
		if err != nil {
			return
		}
		for _, r := range rooms {
			if r.Name == "" || len(r.Outline) < 3 {
				t.Errorf("room %q has %d corners", r.Name, len(r.Outline))
			}
			for _, c := range r.Outline {
				if c.X < -2*cutopt.MaxLength || c.X > 2*cutopt.MaxLength || c.Y < -2*cutopt.MaxLength || c.Y > 2*cutopt.MaxLength {
					t.Errorf("corner %v is out of range", c)
				}
			}
		}
	})
}
