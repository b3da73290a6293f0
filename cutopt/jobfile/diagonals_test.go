package jobfile_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
)

// measured reads a job of one room from its keys.
func measured(unit, room string) (*jobfile.File, error) {
	return jobfile.Read(
		strings.NewReader("unit: "+unit+"\nplank: {length: 48 in, width: 7 in}\nbox: {planks: 8}\nrooms:\n  - {"+room+"}\n"),
		"room.yaml",
	)
}

func outline(t *testing.T, unit, room string) []measure.Point {
	t.Helper()
	f, err := measured(unit, room)
	if err != nil {
		t.Fatalf("%s: %v", room, err)
	}
	return f.Job.Rooms[0].Outline
}

// near fails unless a figure is within so much of what it should be.
func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %v, want %v within %v", what, got, want, within)
	}
}

func distance(ring []measure.Point, i, j int, unit measure.Length) float64 {
	return math.Hypot(float64(ring[j].X-ring[i].X), float64(ring[j].Y-ring[i].Y)) / float64(unit)
}

func TestDiagonalsOfARectangle(t *testing.T) {
	// A 3-4-5 triangle is square: the corners are exact.
	ring := outline(t, "m", "walls: [4, 3, 4, 3], diagonals: [[1, 3, 5]]")
	if want := fmt.Sprint([]measure.Point{
		{},
		{X: 4 * measure.Metre},
		{X: 4 * measure.Metre, Y: 3 * measure.Metre},
		{Y: 3 * measure.Metre},
	}); fmt.Sprint(
		ring,
	) != want {
		t.Errorf("corners %v, want %v", ring, want)
	}
	ring = outline(t, "m", "walls: [4, 3, 4, 3], diagonals: [[4, 2, 5]], clockwise: true")
	if want := fmt.Sprint([]measure.Point{
		{},
		{X: 4 * measure.Metre},
		{X: 4 * measure.Metre, Y: -3 * measure.Metre},
		{Y: -3 * measure.Metre},
	}); fmt.Sprint(
		ring,
	) != want {
		t.Errorf("clockwise: corners %v, want %v", ring, want)
	}
}

// The cosine law, plain arithmetic: with u = 8, v = 11 and w = 7 the third corner lies at x = (u² + v² - w²)/2u = 8.5
// and y = sqrt(v² - x²). A triangle needs no diagonal.
func TestDiagonalsCosineLaw(t *testing.T) {
	ring := outline(t, "m", "walls: [8, 7, 11], diagonals: []")
	near(t, "x", float64(ring[2].X)/float64(measure.Metre), 8.5, 1e-5)
	near(t, "y", float64(ring[2].Y)/float64(measure.Metre), math.Sqrt(121-8.5*8.5), 1e-5)
}

// Four sides of 14, 22, 7 and 16 yards do not fix a plot, and of the two diagonals given as 20 and 22 yards the second
// does not agree with the first (The Math Doctors, "Area of a plot of land"). In feet, which the tape has.
func TestDiagonalsThatDisagree(t *testing.T) {
	const walls = "walls: [42, 66, 21, 48]"
	if _, err := measured("ft", walls); err == nil || !strings.Contains(err.Error(), "or measure diagonals") {
		t.Errorf("four sides alone: %v", err)
	}
	if _, err := measured("ft", walls+", diagonals: []"); err == nil ||
		!strings.Contains(err.Error(), "a room of 4 corners is fixed by 1 diagonals") {
		t.Errorf("four sides and no diagonal: %v", err)
	}
	ring := outline(t, "ft", walls+", diagonals: [[1, 3, 60]]")
	// By the cosine law at corner 1: the angles of the triangles 42, 66, 60 and 48, 21, 60 add up.
	angle := math.Acos((42*42+60*60-66*66)/(2*42*60.)) + math.Acos((48*48+60*60-21*21)/(2*48*60.))
	second := math.Sqrt(42*42 + 48*48 - 2*42*48*math.Cos(angle))
	near(t, "the second diagonal", distance(ring, 1, 3, measure.Foot), second, 1e-4)
	if math.Abs(second-66) < 1 {
		t.Errorf("the second diagonal is %v: the example says that it differs from 66", second)
	}
	_, err := measured("ft", walls+", diagonals: [[1, 3, 60], [2, 4, 66]]")
	if err == nil || !strings.Contains(err.Error(), `more than the misclosure of 1/2"`) ||
		!strings.Contains(err.Error(), "allow more with misclosure") {
		t.Errorf("both diagonals: %v", err)
	}
}

// Areas of quadrilaterals from their sides and one diagonal: simplefeatures, a general geometry library, and Heron's
// rule for the two triangles agree.
func TestDiagonalsArea(t *testing.T) {
	heron := func(a, b, c float64) float64 {
		s := (a + b + c) / 2
		return math.Sqrt(s * (s - a) * (s - b) * (s - c))
	}
	for _, q := range [][5]float64{{14, 22, 7, 16, 20}, {4, 3, 4, 3, 5}, {5.2, 3.1, 4.9, 3.4, 6.05}, {
		9, 2.5, 8.75, 2.6,
		9.2,
	}} {
		ring := outline(t, "m", fmt.Sprintf("walls: [%v, %v, %v, %v], diagonals: [[1, 3, %v]]", q[0], q[1], q[2], q[3], q[4]))
		var xy []float64
		for _, p := range append(ring, ring[0]) {
			xy = append(xy, float64(p.X)/float64(measure.Metre), float64(p.Y)/float64(measure.Metre))
		}
		polygon := geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))})
		if err := polygon.Validate(); err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("the area of %v", q), polygon.Area(), heron(q[0], q[1], q[4])+heron(q[2], q[3], q[4]), 1e-3)
	}
}

// An L-room by three diagonals; the corner that turns in must be named.
func TestDiagonalsThatTurnIn(t *testing.T) {
	const walls = "walls: [6, 3, 2, 1, 4, 4], " // corners (0,0) (6,0) (6,3) (4,3) (4,4) (0,4); the fourth turns in
	const fan = "diagonals: [[1, 4, 5], [2, 4, 3.6056], [1, 5, 5.6569]]"
	ring := outline(t, "m", walls+fan+", inward: [4]")
	for i, want := range [][2]float64{{0, 0}, {6, 0}, {6, 3}, {4, 3}, {4, 4}, {0, 4}} {
		near(t, fmt.Sprintf("x of corner %d", i+1), float64(ring[i].X)/float64(measure.Metre), want[0], 1e-3)
		near(t, fmt.Sprintf("y of corner %d", i+1), float64(ring[i].Y)/float64(measure.Metre), want[1], 1e-3)
	}
	for keys, want := range map[string]string{
		fan:                                      "corner 4 turns in by these measures and is not named under inward",
		fan + ", inward: [3, 4]":                 "turns out by these measures and is named under inward",
		fan + ", inward: [7]":                    "the room has corners 1 to 6",
		"diagonals: [[1, 4, 5], [2, 4, 3.6056]]": "is fixed by 3 diagonals",
		"diagonals: [[1, 4, 5], [1, 3, 6.7082], [1, 5, 5.6569]], inward: [4]": "",
		"diagonals: [[1, 4, 5], [2, 4, 3.6056], [1, 2, 6]], inward: [4]":      "this is a wall",
		"diagonals: [[1, 4, 5], [2, 4, 3.6056], [4, 1, 5]], inward: [4]":      "given before",
		"diagonals: [[1, 4, 5], [2, 4, 3.6056], [1, 5, 56]], inward: [4]":     "corner 5 cannot lie",
		"diagonals: [[1, 4, 5], [2, 4, 3.6056], [1, 5, 0]], inward: [4]":      "a diagonal is longer than 0",
		"diagonals: [[1, 4, 5], [2, 4, 3.6056], [1, 9, 5]], inward: [4]":      "joins two of the corners 1 to 6",
		"diagonals: [[1, 4], [2, 4, 3.6056], [1, 5, 5]], inward: [4]":         "a diagonal is two corners and a length",
		"diagonals: [[1, 3, 6.7082], [3, 6, 6.0828], [1, 4, 5]], inward: [4]": "leave corner 5 loose",
		fan + ", inward: [4], size: 3 x 4":                                    "only one of",
	} {
		_, err := measured("m", walls+keys)
		if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%s: %v, want %q", keys, err, want)
		}
	}
	// Walls named with turns, and keys without their like.
	for room, want := range map[string]string{
		"walls: [4 left, 3, 4, 3], diagonals: [[1, 3, 5]]": "turns of its walls or diagonals, not both",
		"size: 4 x 3, diagonals: [[1, 3, 5]]":              "only a room given by walls has diagonals",
		"walls: [4 left, 3 left, 4 left, 3], inward: [2]": "inward and clockwise are for a room given by walls and " +
			"diagonals",
	} {
		if _, err := measured("m", room); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", room, err, want)
		}
	}
}

// More diagonals than n - 3 are adjusted. Of a rectangle with one diagonal read 3 mm too long the corners shear until
// both are too long by 1.5 mm. What remains is shared: with sides longer by 0.8 t and 0.6 t the diagonals are longer by
// t, and 2 t² + 2 (1.5 - t)² is least at t = 0.75.
func TestDiagonalsAdjusted(t *testing.T) {
	f, err := measured("mm", "walls: [4000, 3000, 4000, 3000], diagonals: [[1, 3, 5003], [2, 4, 5000]]")
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Warnings) != 1 || !strings.Contains(f.Warnings[0].Text, "least squares, from corner to corner: 1-2 ") {
		t.Errorf("warnings %v, want one with the residuals", f.Warnings)
	}
	// Walls 2 and 4, 0.45 mm off, are not: a tape does not show it.
	text := f.Warnings[0].Text
	if strings.Contains(text, "2-3 ") || !strings.HasSuffix(text, "the others by less than 1 mm") {
		t.Errorf("%q, want no residual of wall 2", text)
	}
	tenth, err := measured("mm", "walls: [4000, 3000, 4000, 3000], diagonals: [[1, 3, 5000.4], [2, 4, 5000]]")
	if err != nil || len(tenth.Warnings) != 1 ||
		!strings.HasSuffix(tenth.Warnings[0].Text, "by least squares, none by as much as 1 mm") {
		t.Errorf("%v, %v; want that no residual is as much as 1 mm", tenth, err)
	}
	ring := f.Job.Rooms[0].Outline
	near(t, "the long diagonal", distance(ring, 0, 2, measure.Millimetre), 5003-0.75, 0.01)
	near(t, "the other diagonal", distance(ring, 1, 3, measure.Millimetre), 5000-0.75, 0.01)
	near(t, "wall 1", distance(ring, 0, 1, measure.Millimetre), 4000.6, 0.01)
	near(t, "wall 2", distance(ring, 1, 2, measure.Millimetre), 3000.45, 0.01)
	// The same measures with a smaller misclosure are refused, and the message names the measure and the key.
	_, err = measured("mm", "walls: [4000, 3000, 4000, 3000], diagonals: [[1, 3, 5003], [2, 4, 5000]], misclosure: 0.1")
	if err == nil || !strings.Contains(err.Error(), "the way from corner") ||
		!strings.Contains(err.Error(), "allow more with misclosure") {
		t.Errorf("%v", err)
	}
}

// Rooms at random, convex and with a corner that turns in, all their diagonals read with an error of up to 2 mm: the
// corners are those of the least sum of squares, which no small move of a corner betters.
func TestDiagonalsLeastSquares(t *testing.T) {
	const seed = 31
	rng := rand.New(rand.NewPCG(seed, 1))
	for n := range 60 {
		true_ := [][2]float64{{0, 0}, {5000, 0}, {5000, 3000}, {3000, 3000}, {3000, 4500}, {0, 4500}}
		inward := "[4]"
		if n%2 == 0 {
			true_, inward = [][2]float64{{0, 0}, {5000, 0}, {5600, 2500}, {3000, 4000}, {-300, 3000}}, "[]"
		}
		for i := range true_ {
			true_[i][0] += rng.Float64() * 200
			true_[i][1] += rng.Float64() * 200
		}
		long := func(i, j int) float64 { return math.Hypot(true_[j][0]-true_[i][0], true_[j][1]-true_[i][1]) }
		read := func(i, j int) float64 { return math.Round((long(i, j)+rng.Float64()*4-2)*10) / 10 }
		type pair struct {
			i, j int
			l    float64
		}
		var all []pair
		var walls, diagonals []string
		corners := len(true_)
		for i := range corners {
			p := pair{i, (i + 1) % corners, read(i, (i+1)%corners)}
			all, walls = append(all, p), append(walls, fmt.Sprint(p.l))
		}
		for i := range corners {
			for j := i + 2; j < corners && (i > 0 || j < corners-1); j++ {
				if n%2 == 1 && (i == 2 && j == 4) {
					continue // it lies outside the room
				}
				p := pair{i, j, read(i, j)}
				all = append(all, p)
				diagonals = append(diagonals, fmt.Sprintf("[%d, %d, %v]", i+1, j+1, p.l))
			}
		}
		ring := outline(
			t,
			"mm",
			fmt.Sprintf(
				"walls: [%s], diagonals: [%s], inward: %s",
				strings.Join(walls, ", "),
				strings.Join(diagonals, ", "),
				inward,
			),
		)
		sum := func() (s float64) {
			for _, p := range all {
				r := distance(ring, p.i, p.j, measure.Millimetre) - p.l
				s += r * r
			}
			return s
		}
		best := sum()
		for i := range ring {
			for _, move := range []measure.Point{{X: 16}, {X: -16}, {Y: 16}, {Y: -16}} { // 1/20 mm
				ring[i].X, ring[i].Y = ring[i].X+move.X, ring[i].Y+move.Y
				if s := sum(); s < best-1e-4 {
					t.Errorf("seed %d, room %d: moving corner %d by %v betters %v to %v", seed, n, i+1, move, best, s)
				}
				ring[i].X, ring[i].Y = ring[i].X-move.X, ring[i].Y-move.Y
			}
		}
	}
}
