package jobfile_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"plank.example/cutopt/jobfile"
	"plank.example/cutopt/measure"
)

// room reads a job in inches with one room, given by its lines.
func room(lines string) (*jobfile.File, error) {
	return jobfile.Read(strings.NewReader(
		"unit: in\nplank: {length: 48, width: 7}\nbox: {planks: 8}\nrooms:\n  - name: Den\n    "+
			strings.ReplaceAll(lines, "\n", "\n    ")), "walk.yaml")
}

func outlineOf(t *testing.T, lines string) []measure.Point {
	t.Helper()
	f, err := room(lines)
	if err != nil {
		t.Fatal(err)
	}
	return f.Job.Rooms[0].Outline
}

const in = measure.Inch

// The share of each wall, worked by hand.
func TestMisclosureIsSpread(t *testing.T) {
	// Walls 1 and 3 differ by 1/4 in: the walk ends at x = -1/4. Of that, wall 1 takes 100/200.25. The y are exact.
	got := outlineOf(t, `walls: [100 left, 50 left, 100 1/4 left, 50 left]`)
	x := 100*in + measure.Length(math.RoundToEven(0.25*100/200.25*float64(in)))
	want := []measure.Point{{}, {X: x}, {X: x, Y: 50 * in}, {Y: 50 * in}}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("a rectangle, 1/4 in off: %v, want %v", got, want)
	}

	// A regular octagon closes; with 0.4 in more in wall 1 the walk ends at x = 0.4 and wall 1 takes 10.4/80.4 of that.
	got = outlineOf(t, "walls: [10.4 left 45"+strings.Repeat(", 10 left 45", 7)+"]")
	first := 10.4*float64(in) - 0.4*10.4/80.4*float64(in)
	if off := float64(got[1].X) - first; math.Abs(off) > 2 || math.Abs(float64(got[1].Y)) > 2 {
		t.Errorf("an octagon, 0.4 in off: wall 1 ends at %v, want (%.1f, 0)", got[1], first)
	}
	last := -10*float64(in)*math.Sqrt2/2 + 0.4*10/80.4*float64(in) // corner 8 from the start, the other way round
	if off := float64(got[7].X) - last; math.Abs(off) > 3 {
		t.Errorf("an octagon, 0.4 in off: wall 8 begins at %v, want x = %.1f", got[7], last)
	}
}

func TestMisclosureIsReported(t *testing.T) {
	for _, row := range []struct{ walls, want string }{
		{`[100 left, 50 left, 100 left, 50 left]`, ""},
		{`[100 left, 50 left, 100 left, 50]`, ""},
		{`[100 left, 50 left, 100 1/4 left, 50 left]`, "ends 1/4 in from where it began (1/4 in along wall 1, 0 in across " +
			"it)"},
		{`[100 left, 50 left, 100 left, 50 1/2 left]`, "ends 1/2 in from where it began (0 in along wall 1, 1/2 in across " +
			"it)"},
		{`[100 right, 50 right, 100.3 right, 50.4 right]`, "ends 1/2 in from where"}, // 0.3, 0.4, 0.5
		{`[40 left 60, 40 left 120, 40 left 60, 40.1]`, "compass rule"},
	} {
		f, err := room("walls: " + row.walls)
		if err != nil {
			t.Errorf("%s: %v", row.walls, err)
			continue
		}
		got := fmt.Sprint(f.Warnings)
		if row.want == "" && len(f.Warnings) != 0 ||
			row.want != "" && (len(f.Warnings) != 1 || !strings.Contains(got, row.want)) {
			t.Errorf("%s: warnings %v, want %q", row.walls, got, row.want)
		}
		if len(f.Warnings) == 1 && !strings.HasPrefix(got, "[walk.yaml:6:12: rooms[1].walls: the walk ends") {
			t.Errorf("%s: the warning does not say where: %s", row.walls, got)
		}
	}
}

func TestWalkIsRefused(t *testing.T) {
	for _, row := range []struct{ lines, want, hint string }{
		{
			`walls: [100 left, 50 left, 100 9/16 left, 50 left]`,
			"ends 9/16 in from where it began (9/16 in along wall 1, 0 in across it): more than the misclosure of 1/2 in",
			"run like wall 1",
		},
		{`walls: [100 left, 50 left, 100 left, 60 left]`, "ends 10 in from where it began", "run across wall 1"},
		{`walls: [100 left, 50 left, 100.4 left, 50.4 left]`, "more than the misclosure", "measure again"},
		// each within, not both
		{"walls: [100 left, 50 left, 100 1/4 left, 50]\nmisclosure: 1/8", "more than the misclosure of 1/8 in", ""},
		{"walls: [100 left, 50 left, 100 1/4 left, 50]\nmisclosure: 0", "more than the misclosure of 0 in", ""},
		{`walls: [100 left, 50 left, 100 left, 50 right]`, "the turns add up to 180 degrees", "has its turn"},
		{`walls: [40 left 60, 40 left 120, 40 left 60, 40 left 100]`, "the turns add up to 340 degrees", "has its turn"},
		{`walls: [100 left, 50, 100 left, 50]`, "only the last wall may leave out its turn", ""},
		{`walls: [100 left, 50 left, 2 km left, 50]`, "unknown unit", ""},
		{`walls: [1001 m left, 50 left, 1001 m left, 50]`, "at most 1 km", ""},
		{`walls: [100 left, 50 left 0, 100 left, 50]`, "this is no turn", ""},
		{`walls: [100 left, 50 left 180, 100 left, 50]`, "this is no turn", ""},
		{`walls: [100 left, 50 left 1e1, 100 left, 50]`, "this is no turn", ""},
		{`walls: [{length: 100, turn: 90}, 50 left, 100 left, 50]`, "this is no turn", "left or right"},
		{`walls: [100 left, 0 left, 100 right, 50 left]`, "", ""},
		// It closes, but the walls cross.
		{`walls: [60 left, 60 left, 20 left, 80 left, 40 right, 20 right, 80 right]`, "", ""},
	} {
		_, err := room(row.lines)
		var errs jobfile.Errors
		if !errors.As(err, &errs) || !strings.Contains(err.Error(), row.want) || !strings.Contains(err.Error(), row.hint) {
			t.Errorf("%s: %v, want %q and %q", row.lines, err, row.want, row.hint)
		}
	}
}

// histogram returns a random room whose walls all lie along the axes: a base wall and columns of different heights.
func histogram(rng *rand.Rand) []measure.Point {
	columns := 1 + rng.IntN(6)
	width := measure.Length(0)
	var top []measure.Point
	last := measure.Length(0)
	for range columns {
		height := last
		for height == last {
			height = measure.Length(40+rng.IntN(200)) * in / 2
		}
		top = append(top, measure.Point{X: width, Y: height})
		width += measure.Length(20+rng.IntN(200)) * in / 2
		top = append(top, measure.Point{X: width, Y: height})
		last = height
	}
	ring := []measure.Point{{}, {X: width}}
	for i := len(top) - 1; i >= 0; i-- {
		ring = append(ring, top[i])
	}
	return ring
}

// walkOf returns the lengths and turns of a room with walls along the axes, walked in its order.
func walkOf(ring []measure.Point) (lengths []measure.Length, turns []string) {
	for i, a := range ring {
		b, c := ring[(i+1)%len(ring)], ring[(i+2)%len(ring)]
		lengths = append(lengths, max(b.X-a.X, a.X-b.X, b.Y-a.Y, a.Y-b.Y))
		turn := "right"
		if (b.X-a.X)*(c.Y-b.Y)-(b.Y-a.Y)*(c.X-b.X) > 0 {
			turn = "left"
		}
		turns = append(turns, turn)
	}
	return lengths, turns
}

func walls(lengths []measure.Length, turns []string) string {
	items := make([]string, len(lengths))
	for i, l := range lengths {
		items[i] = fmt.Sprintf("{length: %s, turn: %s}", l.Compact(measure.UnitInch, measure.Tick), turns[i])
	}
	return "walls: [" + strings.Join(items, ", ") + "]"
}

// A walk that closes gives the room back exactly. One that does not keeps every corner square, moves no wall by more
// than its share and a tick, and closes.
func TestRandomSquareWalks(t *testing.T) {
	const seed = 31
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	for range 400 {
		ring := histogram(rng)
		lengths, turns := walkOf(ring)
		if got := outlineOf(t, walls(lengths, turns)); fmt.Sprint(got) != fmt.Sprint(ring) {
			t.Fatalf("%v was walked and became %v", ring, got)
		}
		var off [2]measure.Length
		var total [2]measure.Length
		for i := range lengths {
			change := measure.Length(rng.IntN(201) - 100)
			lengths[i] += change
			off[i%2] += max(change, -change)
			total[i%2] += lengths[i]
		}
		got := outlineOf(t, walls(lengths, turns))
		if len(got) != len(ring) || got[0] != (measure.Point{}) {
			t.Fatalf("%v became %v", ring, got)
		}
		for i, a := range got {
			b := got[(i+1)%len(got)]
			dx, dy := b.X-a.X, b.Y-a.Y
			along, across := max(dx, -dx), max(dy, -dy)
			if i%2 == 1 {
				along, across = across, along
			}
			share := off[i%2]*lengths[i]/total[i%2] + 2
			if across != 0 || max(along-lengths[i], lengths[i]-along) > share {
				t.Fatalf(
					"wall %d of %d ticks became %d along and %d across; its share is at most %d",
					i+1,
					lengths[i],
					along,
					across,
					share,
				)
			}
		}
	}
}

// Regular polygons of any number of walls close to within the rounding of their corners, either way round.
func TestRegularPolygonsClose(t *testing.T) {
	for _, n := range []int{3, 4, 5, 6, 8, 9, 10, 12, 15, 18, 20, 24, 36, 40, 45, 60, 72, 90, 120, 180, 360} {
		for _, hand := range []string{"left", "right"} {
			item := fmt.Sprintf("100 %s %g", hand, 360/float64(n))
			ring := outlineOf(t, "walls: ["+item+strings.Repeat(", "+item, n-1)+"]\nmisclosure: 1/64")
			radius := 50 / math.Sin(math.Pi/float64(n)) * float64(in)
			for i, p := range ring {
				// The centre is radius away from the first wall's ends, on the hand of the walk.
				cy := math.Sqrt(radius*radius - 2500*float64(in)*float64(in))
				if hand == "right" {
					cy = -cy
				}
				r := math.Hypot(float64(p.X)-50*float64(in), float64(p.Y)-cy)
				if math.Abs(r-radius) > float64(n)/2+2 {
					t.Fatalf("corner %d of a %d-gon is %.1f ticks from its circle", i+1, n, r-radius)
				}
			}
		}
	}
}

func ExampleRead() {
	f, err := jobfile.Read(strings.NewReader(`
unit: ft
plank: {length: 48 in, width: 7 in}
box: {planks: 8, price: 49.90}
rooms:
  - name: Hall
    walls: [16' 2" left, 3' 10" left, 16' 2 1/4" left, 3' 10"]
`), "hall.yaml")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, w := range f.Warnings {
		before, after, _ := strings.Cut(w.String(), " (")
		fmt.Println(before)
		fmt.Println("(" + strings.Replace(after, ": ", ":\n", 1))
	}
	width := f.Job.Rooms[0].Outline[1].X
	fmt.Println("the hall is", width.Format(f.Job.Unit, measure.Sixteenth), "wide")
	// Output:
	// hall.yaml:7:12: rooms[1].walls: the walk ends 1/4" from where it began
	// (1/4" along wall 1, 0" across it):
	// spread over the walls, each wall by its length along its own axis (transit rule), corners kept square
	// the hall is 16' 2 1/8" wide
}

func ExampleDecode() {
	_, err := jobfile.Decode(strings.NewReader(`
unit: in
plank: {length: 48 inhc, width: 7}
box: {planks: 8}
rules: {min_piece: 8}
rooms: [{size: 14' 6" x}]
`), "den.yaml")
	fmt.Println(err)
	// Output:
	// den.yaml:3:20: plank.length "48 inhc": unknown unit: "inhc" at character 4; use in, ft, mm, cm or m
	// den.yaml:5:9: rules.min_piece: unknown key; did you mean min-piece?
	// den.yaml:6:16: rooms[1].size "14' 6" x": a size is two lengths with x between them; write it as 14' 6" x 11' 2"
}

// A published traverse adjusted by the compass rule (lecture notes "Adjustment of a closed traverse, compass rule"; the
// rule is also in NAVEDTRA 14071 ch. 7): AB 80.40 N76E, BC 46.30 S36E, CD 72.80 S61W, DA 68.00 N38W. Adjusted latitudes
// and, of the departures, their corrections are as printed there. The walk begins along AB, so its axes are turned by
// that bearing.
func TestPublishedTraverse(t *testing.T) {
	const text = `unit: ft
plank: {length: 4, width: 0.5}
box: {planks: 8}
rooms: [{walls: [80.40 right 68, 46.30 right 97, 72.80 right 81, 68.00 right 114], misclosure: 1}]
`
	job, err := jobfile.Decode(strings.NewReader(text), "")
	if err != nil {
		t.Fatal(err)
	}
	ring := job.Rooms[0].Outline
	sin, cos := math.Sincos(76 * math.Pi / 180)
	for i, want := range []struct{ latitude, departure float64 }{
		{19.3653, 78.012 + 0.0935}, {-37.5063, 27.214 + 0.0538}, {-35.3716, -63.672 + 0.0846}, {53.5126, -41.865 + 0.0791},
	} {
		from, to := ring[i], ring[(i+1)%4]
		x, y := float64(to.X-from.X)/float64(measure.Foot), float64(to.Y-from.Y)/float64(measure.Foot)
		if latitude := x*cos + y*sin; math.Abs(latitude-want.latitude) > 0.001 {
			t.Errorf("latitude of wall %d is %.4f, want %.4f", i+1, latitude, want.latitude)
		}
		if departure := x*sin - y*cos; math.Abs(departure-want.departure) > 0.002 {
			t.Errorf("departure of wall %d is %.4f, want %.4f", i+1, departure, want.departure)
		}
	}
}
