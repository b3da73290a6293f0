package cutopt_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
)

const (
	inch   = measure.Inch
	planks = 8
)

// den returns a valid job with one room of 100 x 80 in.
func den() *cutopt.Job {
	return &cutopt.Job{
		Unit:  measure.UnitInch,
		Plank: cutopt.Plank{Length: 48 * inch, Width: 7 * inch},
		Box:   cutopt.Box{Planks: planks},
		Rules: oracle.Rules(measure.UnitInch),
		Rooms: []cutopt.Room{{Name: "Den", Outline: rect(0, 0, 100, 80)}},
	}
}

// rect returns a rectangle in inches.
func rect(x, y, width, depth measure.Length) []cutopt.Point {
	return corners(x, y, x+width, y, x+width, y+depth, x, y+depth)
}

// corners returns points from their coordinates in inches.
func corners(xy ...measure.Length) []cutopt.Point {
	var ring []cutopt.Point
	for i := 0; i < len(xy); i += 2 {
		ring = append(ring, cutopt.Point{X: xy[i] * inch, Y: xy[i+1] * inch})
	}
	return ring
}

// fields returns the fields that Validate complains of.
func fields(t *testing.T, job *cutopt.Job) (list []string) {
	t.Helper()
	err := job.Validate()
	if err == nil {
		return nil
	}
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		t.Fatalf("Validate returned %T, which joins nothing", err)
	}
	for _, e := range joined.Unwrap() {
		var fe *cutopt.FieldError
		if !errors.As(e, &fe) || fe.Rule == "" || !strings.HasPrefix(e.Error(), fe.Field) {
			t.Fatalf("error without a field or a rule: %#v", e)
		}
		list = append(list, fe.Field)
	}
	return list
}

func TestValidateAccepts(t *testing.T) {
	for name, change := range map[string]func(j *cutopt.Job){
		"the plain job":   func(*cutopt.Job) {},
		"no rules at all": func(j *cutopt.Job) { j.Rules = cutopt.Rules{Grid: 1} },
		"covers for planks": func(j *cutopt.Job) {
			j.Box = cutopt.Box{Covers: measure.Area(planks*48*7) * measure.SquareFoot / 144}
		},
		"both, a bit rounded": func(j *cutopt.Job) { j.Box.Covers = 187 * measure.SquareFoot / 10 },
		"the longest plank":   func(j *cutopt.Job) { j.Plank.Length = cutopt.MaxLength },
		"clockwise":           func(j *cutopt.Job) { j.Rooms[0].Outline = corners(0, 0, 0, 80, 100, 80, 100, 0) },
		"corners repeated and in line": func(j *cutopt.Job) {
			j.Rooms[0].Outline = corners(0, 0, 0, 0, 50, 0, 100, 0, 100, 80, 0, 80, 0, 0)
		},
		"the ends of the earth": func(j *cutopt.Job) {
			far := cutopt.MaxLength
			j.Rooms[0].Outline = []cutopt.Point{{X: -far, Y: -far}, {X: far, Y: -far}, {X: far, Y: far}, {X: -far, Y: far}}
		},
		"a gap for a wall": func(j *cutopt.Job) { j.Rooms[0].WallGaps = map[int]measure.Length{0: 0, 3: inch} },
		"islands at walls and at each other": func(j *cutopt.Job) {
			j.Rooms[0].Islands = []cutopt.Island{
				{Outline: rect(0, 0, 24, 30)},
				{Outline: rect(24, 0, 24, 30), Gap: cutopt.GapNone},
				{Outline: rect(48, 30, 24, 50), Gap: inch},
				{Outline: corners(60, 0, 70, 0, 65, 30)}, // its tip touches the one before
			}
		},
		"doorways side by side": func(j *cutopt.Job) {
			j.Rooms[0].Doorways = []cutopt.Doorway{
				{Wall: 0, At: 0, Width: 50 * inch},
				{Wall: 0, At: 50 * inch, Width: 50 * inch, To: "the garden"},
				{Wall: 3, At: 0, Width: 80 * inch, Depth: inch},
			}
		},
		"a doorway through to another room": func(j *cutopt.Job) {
			j.Rooms = append(j.Rooms, cutopt.Room{Name: "Hall", Outline: rect(100, 0, 40, 80)})
			j.Rooms[0].Doorways = []cutopt.Doorway{{Wall: 1, At: inch, Width: 32 * inch, Depth: inch, To: "Hall", Through: true}}
		},
		"rows at an angle": func(j *cutopt.Job) {
			j.Rooms[0].Rows = cutopt.RowRules{Direction: cutopt.DirectionAngle, Angle: -360, FirstRow: 7 * inch}
		},
		"an angle that no direction reads": func(j *cutopt.Job) { j.Rooms[0].Rows.Angle = math.NaN() },
	} {
		job := den()
		change(job)
		if err := job.Validate(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestValidateRefuses(t *testing.T) {
	bowTie := corners(0, 0, 100, 80, 100, 0, 0, 80)
	for _, row := range []struct {
		name   string
		change func(j *cutopt.Job)
		field  string
		says   string // in the message
	}{
		{"no unit", func(j *cutopt.Job) { j.Unit = 9 }, "unit", "Unit(9)"},
		{"no length", func(j *cutopt.Job) { j.Plank.Length = 0 }, "plank.length", "0 in"},
		{"negative width", func(j *cutopt.Job) { j.Plank.Width = -inch }, "plank.width", "-1 in"},
		{"longer than a kilometre", func(j *cutopt.Job) { j.Plank.Length = cutopt.MaxLength + 1 }, "plank.length", "at " +
			"most 1 km long; check its unit"},
		{"negative thickness", func(j *cutopt.Job) { j.Plank.Thickness = -1 }, "plank.thickness", ""},
		{"no box", func(j *cutopt.Job) { j.Box = cutopt.Box{} }, "box", "planks, an area it covers, or both"},
		{"negative planks", func(j *cutopt.Job) { j.Box.Planks = -1 }, "box.planks", "-1"},
		{"too many planks", func(j *cutopt.Job) { j.Box.Planks = 100_001 }, "box.planks", "100001"},
		{"negative covers", func(j *cutopt.Job) { j.Box.Covers = -measure.SquareFoot }, "box.covers", "-1.0 sq ft"},
		{"covers at odds", func(j *cutopt.Job) { j.Box.Covers = 20 * measure.SquareFoot }, "box.covers", "8 planks of 48 " +
			"in x 7 in are 18.7 sq ft"},
		{
			"no whole planks", func(j *cutopt.Job) { j.Box = cutopt.Box{Covers: 20 * measure.SquareFoot} }, "box.covers",
			"8.57 planks",
		},
		{"less than a plank", func(j *cutopt.Job) { j.Box = cutopt.Box{Covers: 1} }, "box.covers", "0.00 planks"},
		{"negative price", func(j *cutopt.Job) { j.Box.Price = -1 }, "box.price", "-0.01"},
		{"negative spare", func(j *cutopt.Job) { j.Spare = cutopt.Spare{Planks: -1} }, "spare", "-1: spare planks are at " +
			"least 0"},
		{"endless spare", func(j *cutopt.Job) { j.Spare.Planks = 1_000_001 }, "spare", "at most 1,000,000"},
		{"negative percentage to spare", func(j *cutopt.Job) { j.Spare = cutopt.Spare{Percent: -0.5} }, "spare", "-0.5 %"},
		{"endless percentage to spare", func(j *cutopt.Job) { j.Spare = cutopt.Spare{Percent: math.Inf(1)} }, "spare", "at " +
			"most 1000 %"},
		{"no percentage to spare", func(j *cutopt.Job) { j.Spare = cutopt.Spare{Percent: math.NaN()} }, "spare", "NaN %"},
		{"a box for no boxes", func(j *cutopt.Job) { j.Spare = cutopt.Spare{BoxPer: -50} }, "spare", "1 box per -50: one " +
			"box is kept for each 1 to"},
		{
			"a box for endless boxes", func(j *cutopt.Job) { j.Spare = cutopt.Spare{BoxPer: math.MaxInt} }, "spare",
			"1,000,000 boxes laid",
		},
		{"two ways to spare", func(j *cutopt.Job) { j.Spare = cutopt.Spare{Planks: 4, Percent: 3} }, "spare", "4 and 3 %"},
		{"negative gap", func(j *cutopt.Job) { j.Rules.Gap = -1 }, "rules.gap", ""},
		{"endless gap", func(j *cutopt.Job) { j.Rules.Gap = math.MaxInt64 }, "rules.gap", "check its unit"},
		{"no rules", func(j *cutopt.Job) { j.Rules = cutopt.Rules{} }, "rules", "begin with DefaultRules"},
		{"min piece above the plank", func(j *cutopt.Job) { j.Rules.MinPiece = 49 * inch }, "rules.min-piece", "49 in"},
		{"stagger of a plank", func(j *cutopt.Job) { j.Rules.Stagger = 48 * inch }, "rules.stagger", "less than the " +
			"plank's length"},
		{"kerf of a plank", func(j *cutopt.Job) { j.Rules.Kerf = 48 * inch }, "rules.kerf", "less than the plank's length"},
		{"negative kerf", func(j *cutopt.Job) { j.Rules.Kerf = -1 }, "rules.kerf", ""},
		{"rip wider than a plank", func(j *cutopt.Job) { j.Rules.MinRip = 7*inch + 1 }, "rules.min-rip", ""},
		{"starter of no length", func(j *cutopt.Job) { j.Pattern = []measure.Length{0} }, "pattern[1]", "longer than 0"},
		{
			"starter above the plank", func(j *cutopt.Job) { j.Pattern = []measure.Length{48 * inch, 49 * inch} }, "pattern[2]",
			"at most the plank, 48 in",
		},
		{"starter off the grid", func(j *cutopt.Job) { j.Pattern = []measure.Length{20*inch + 1} }, "pattern[1]", "write " +
			"20 in"},
		{"starter below the shortest piece", func(j *cutopt.Job) { j.Pattern = []measure.Length{inch} }, "pattern[1]", "at " +
			"least min-piece"},
		{"endless pattern", func(j *cutopt.Job) { j.Pattern = make([]measure.Length, 1001) }, "pattern", "at most 1,000"},
		{"no aim", func(j *cutopt.Job) { j.Aims = []cutopt.Aim{99} }, "aims[1]", "an aim is one of h-joints"},
		{
			"an aim twice", func(j *cutopt.Job) { j.Aims = []cutopt.Aim{cutopt.AimPlanks, cutopt.AimPlanks} }, "aims[2]",
			"each aim comes once",
		},
		{"in line beyond the plank", func(j *cutopt.Job) { j.Rules.InLine = 49 * inch }, "rules.in-line", "at most the " +
			"plank's length"},
		{"negative preferred stagger", func(j *cutopt.Job) { j.Rules.PreferStagger = -1 }, "rules.prefer-stagger", ""},
		{"negative round figure", func(j *cutopt.Job) { j.Rules.Round = -1 }, "rules.round", "at least 0"},
		{"negative fit", func(j *cutopt.Job) { j.Rules.Fit = -1 }, "rules.fit", "at least 0"},
		{
			"fit and shortest piece above the plank", func(j *cutopt.Job) { j.Rules.Fit, j.Rules.MinPiece = inch, 47*inch },
			"rules.fit", "shortest piece, 47 in",
		},
		{
			"fit and stagger above the plank", func(j *cutopt.Job) { j.Rules.Fit, j.Rules.Stagger = inch, 46*inch },
			"rules.fit", "stagger, 46 in",
		},
		{"no grid", func(j *cutopt.Job) { j.Rules.Grid = 0 }, "rules.grid", "above 0"},
		{"negative grid", func(j *cutopt.Job) { j.Rules.Grid = -1 }, "rules.grid", ""},
		{"grid above the plank", func(j *cutopt.Job) { j.Rules.Grid = 49 * inch }, "rules.grid", ""},
		{"negative smoothing", func(j *cutopt.Job) { j.Rules.Smooth = -1 }, "rules.smooth", ""},
		{"negative cover", func(j *cutopt.Job) { j.Rules.Cover = -1 }, "rules.cover", ""},
		{"line break in a name", func(j *cutopt.Job) { j.Name = "two\nlines" }, "name", "this one has U+000A"},
		{"tab in a name", func(j *cutopt.Job) { j.Plank.Name = "a\tb" }, "plank.name", "U+0009"},
		{"name that turns what follows", func(j *cutopt.Job) { j.Rooms[0].Name = "Den\u202etxt" }, "rooms[1].name", "U+202E"},
		{"mark of an order of bytes", func(j *cutopt.Job) { j.Name = "\ufeffDen" }, "name", "U+FEFF"},
		{"line separator", func(j *cutopt.Job) { j.Name = "\u2028" }, "name", "U+2028"},
		{"name that is no UTF-8", func(j *cutopt.Job) { j.Name = "\xff" }, "name", "UTF-8"},
		{"name of 201 characters", func(j *cutopt.Job) { j.Name = strings.Repeat("ö", 201) }, "name", "at most 200"},
		{"negative limit along", func(j *cutopt.Job) { j.Rules.MaxAlong = -1 }, "rules.max-along", ""},
		{"negative limit across", func(j *cutopt.Job) { j.Rules.MaxAcross = -1 }, "rules.max-across", ""},
		{"no number", func(j *cutopt.Job) { j.Rules.WasteAllowance = math.NaN() }, "rules.waste-allowance", "NaN"},
		{"negative allowance", func(j *cutopt.Job) { j.Rules.WasteAllowance = -1 }, "rules.waste-allowance", "-1 %"},
		{"endless allowance", func(j *cutopt.Job) { j.Rules.WasteAllowance = math.Inf(1) }, "rules.waste-allowance", ""},
		{"no rooms", func(j *cutopt.Job) { j.Rooms = nil }, "rooms", "at least 1 room"},
		{"a name twice", func(j *cutopt.Job) { j.Rooms = append(j.Rooms, j.Rooms[0]) }, "rooms[2].name", `"Den"`},
		{"no name among several", func(j *cutopt.Job) {
			j.Rooms = append(j.Rooms, j.Rooms[0])
			j.Rooms[1].Name = ""
		}, "rooms[2].name", "give it one"},
		{"no outline", func(j *cutopt.Job) { j.Rooms[0].Outline = nil }, "rooms[1].corners", "at least three"},
		{"two corners", func(j *cutopt.Job) { j.Rooms[0].Outline = corners(0, 0, 9, 9) }, "rooms[1].corners", "a list of 2"},
		{"one place", func(j *cutopt.Job) { j.Rooms[0].Outline = corners(1, 1, 1, 1, 1, 1) }, "rooms[1].corners", "three " +
			"different"},
		{"no area", func(j *cutopt.Job) { j.Rooms[0].Outline = corners(0, 0, 9, 0, 20, 0) }, "rooms[1].corners", "runs " +
			"back over"},
		{"crossed", func(j *cutopt.Job) { j.Rooms[0].Outline = bowTie }, "rooms[1].corners", "wall 1 crosses wall 3 near " +
			"(50 in, 40 in)"},
		{
			"touching", func(j *cutopt.Job) { j.Rooms[0].Outline = corners(0, 0, 100, 0, 100, 80, 50, 0, 0, 80) },
			"rooms[1].corners", "corner 4 touches wall 1 at (50 in, 0 in)",
		},
		{"far away", func(j *cutopt.Job) { j.Rooms[0].Outline[2].X = math.MaxInt64 }, "rooms[1].corners[3]", "within 1 km"},
		{"far below", func(j *cutopt.Job) { j.Rooms[0].Outline[2].Y = math.MinInt64 }, "rooms[1].corners[3]", "within 1 km"},
		{"too many corners", func(j *cutopt.Job) { j.Rooms[0].Outline = make([]cutopt.Point, 50_001) }, "rooms[1]", "at " +
			"most 50,000"},
		{
			"no such wall", func(j *cutopt.Job) { j.Rooms[0].WallGaps = map[int]measure.Length{4: 0} }, "rooms[1].gaps[5]",
			"walls 1 to 4",
		},
		{
			"negative gap of a wall", func(j *cutopt.Job) { j.Rooms[0].WallGaps = map[int]measure.Length{0: -1} },
			"rooms[1].gaps[1]", "",
		},
		{"no direction", func(j *cutopt.Job) { j.Rooms[0].Rows.Direction = 7 }, "rooms[1].rows.direction", "Direction(7)"},
		{"no start", func(j *cutopt.Job) { j.Rooms[0].Rows.Start = 7 }, "rooms[1].rows.start", ""},
		{"no hand", func(j *cutopt.Job) { j.Rooms[0].Rows.LaidFrom = 7 }, "rooms[1].rows.from", ""},
		{
			"no angle", func(j *cutopt.Job) {
				j.Rooms[0].Rows = cutopt.RowRules{Direction: cutopt.DirectionAngle, Angle: math.NaN()}
			}, "rooms[1].rows.direction", "NaN",
		},
		{
			"first row wider than a plank", func(j *cutopt.Job) { j.Rooms[0].Rows.FirstRow = 8 * inch }, "rooms[1].rows.first",
			"",
		},
	} {
		checkRefused(t, row.name, row.change, row.field, row.says)
	}
}

func TestValidateRefusesIslandsAndDoorways(t *testing.T) {
	islands := func(rings ...[]cutopt.Point) func(*cutopt.Job) {
		return func(j *cutopt.Job) {
			for _, r := range rings {
				j.Rooms[0].Islands = append(j.Rooms[0].Islands, cutopt.Island{Outline: r})
			}
		}
	}
	doors := func(list ...cutopt.Doorway) func(*cutopt.Job) {
		return func(j *cutopt.Job) { j.Rooms[0].Doorways = list }
	}
	first, second := "rooms[1].islands[1].corners", "rooms[1].islands[2].corners"
	for _, row := range []struct {
		name   string
		change func(j *cutopt.Job)
		field  string
		says   string
	}{
		{"outside", islands(rect(200, 0, 10, 10)), first, "outside the room at (205 in, 0 in)"},
		{"outside at a wall", islands(rect(100, 0, 10, 10)), first, "outside the room"},
		{"through a wall", islands(rect(95, 5, 10, 10)), first, "edge 1 crosses wall 2 near (100 in, 5 in)"},
		{"around the room", islands(rect(-5, -5, 200, 200)), first, "outside the room"},
		{"over another", islands(rect(10, 10, 20, 20), rect(20, 20, 20, 20)), second, "over islands[1] near"},
		{"in another", islands(rect(10, 10, 20, 20), rect(15, 15, 5, 5)), second, "over islands[1] near"},
		{"around another", islands(rect(15, 15, 5, 5), rect(10, 10, 20, 20)), second, "over islands[1] near"},
		{"the same twice", islands(rect(15, 15, 5, 5), rect(15, 15, 5, 5)), second, "over islands[1] near"},
		{"crossed itself", islands(corners(10, 10, 20, 20, 20, 10, 10, 20)), first, "edge 1 crosses edge 3"},
		{"no corners", islands(nil), first, "at least three"},
		{
			"negative gap", func(j *cutopt.Job) {
				j.Rooms[0].Islands = []cutopt.Island{{Outline: rect(10, 10, 5, 5), Gap: -2}}
			}, "rooms[1].islands[1].gap", "",
		},
		{"far away", islands(rect(0, 0, 10_000_000, 5)), "rooms[1].islands[1].corners[2]", "within 1 km"},

		{"beyond its wall", doors(cutopt.Doorway{Wall: 1, At: 60 * inch, Width: 21 * inch}), "rooms[1].doorways[1]", "from " +
			"60 in to 81 in: it lies within wall 2, which is 80 in long"},
		{"on no wall", doors(cutopt.Doorway{Wall: 4, Width: inch}), "rooms[1].doorways[1].wall", "at wall 5"},
		{"before the first wall", doors(cutopt.Doorway{Wall: -1, Width: inch}), "rooms[1].doorways[1].wall", "at wall 0"},
		{"no width", doors(cutopt.Doorway{}), "rooms[1].doorways[1].width", "wider than 0"},
		{"before its wall", doors(cutopt.Doorway{At: -1, Width: inch}), "rooms[1].doorways[1].at", ""},
		{"negative depth", doors(cutopt.Doorway{Width: inch, Depth: -1}), "rooms[1].doorways[1].depth", ""},
		{"no casing", doors(cutopt.Doorway{Width: inch, Casing: 7}), "rooms[1].doorways[1].casing", "wood or metal"},
		{
			"overlapping", doors(cutopt.Doorway{At: 30 * inch, Width: 30 * inch}, cutopt.Doorway{
				At:    10 * inch,
				Width: 30 * inch,
			}),
			"rooms[1].doorways[1].at", "doorways[2] of the same wall reaches to 40 in",
		},
		{"into its own room", doors(cutopt.Doorway{Width: inch, To: "Den"}), "rooms[1].doorways[1].to", "own room"},
		{"through to nowhere", doors(cutopt.Doorway{Width: inch, Through: true}), "rooms[1].doorways[1].to", "another room"},
		{
			"through to a stranger", doors(cutopt.Doorway{Width: inch, Through: true, To: "Hal"}), "rooms[1].doorways[1].to",
			`"Hal"`,
		},
	} {
		checkRefused(t, row.name, row.change, row.field, row.says)
	}
}

func checkRefused(t *testing.T, name string, change func(*cutopt.Job), field, says string) {
	t.Helper()
	job := den()
	change(job)
	if got := fields(t, job); len(got) != 1 || got[0] != field {
		t.Errorf("%s: errors in %v, want one in %s\n%v", name, got, field, job.Validate())
		return
	}
	if err := job.Validate(); !strings.Contains(err.Error(), says) {
		t.Errorf("%s: %v, want %q in it", name, err, says)
	}
}

// All errors come at once, in the order of the fields; a wrong plank does not make every rule wrong.
func TestValidateReportsAllAtOnce(t *testing.T) {
	job := den()
	job.Plank = cutopt.Plank{Length: -1, Width: 7 * inch}
	job.Box.Planks = -1
	job.Rules.Grid = 0
	job.Rules.WasteAllowance = -1
	job.Rooms[0].Outline = corners(0, 0, 9, 9)
	job.Rooms[0].Doorways = []cutopt.Doorway{{Wall: 0, Width: -1}}
	want := []string{
		"plank.length", "box.planks", "rules.grid", "rules.waste-allowance", "rooms[1].corners", "rooms[1].doorways[1].width",
	}
	if got := fields(t, job); fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("errors in %v, want %v", got, want)
	}
}

// Validate only reads.
func TestValidateLeavesTheJobAlone(t *testing.T) {
	job := den()
	job.Rooms[0].Doorways = []cutopt.Doorway{{At: 30 * inch, Width: inch}, {At: 10 * inch, Width: inch}}
	job.Rooms[0].Outline = corners(0, 0, 0, 0, 100, 0, 100, 80, 0, 80, 0, 0)
	before := fmt.Sprintf("%+v", job)
	if err := job.Validate(); err == nil {
		t.Error("a doorway on a wall without length was accepted")
	}
	if after := fmt.Sprintf("%+v", job); after != before {
		t.Errorf("the job changed from %s to %s", before, after)
	}
}

func TestFieldErrorText(t *testing.T) {
	for _, row := range []struct {
		err  cutopt.FieldError
		want string
	}{
		{cutopt.FieldError{Field: "spare", Value: "-1", Rule: "it is at least 0", Mend: "drop it"}, "spare is -1: it is at " +
			"least 0; drop it"},
		{cutopt.FieldError{Field: "box", Rule: "it has planks"}, "box: it has planks"},
	} {
		if got := row.err.Error(); got != row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
}

func ExampleJob_Validate() {
	job := &cutopt.Job{
		Unit:  measure.UnitInch,
		Plank: cutopt.Plank{Length: 48 * measure.Inch, Width: 7 * measure.Inch},
		Box:   cutopt.Box{Covers: 20 * measure.SquareFoot},
		Rules: oracle.Rules(measure.UnitInch),
	}
	all, _ := job.Validate().(interface{ Unwrap() []error })
	for _, err := range all.Unwrap() {
		var wrong *cutopt.FieldError
		if errors.As(err, &wrong) {
			fmt.Printf("%s is %s: %s\n", wrong.Field, wrong.Value, wrong.Hint())
		}
	}
	// Output:
	// box.covers is 20.0 sq ft: count the planks on the label, or check the size of a plank
	// rooms is a list of 0: measure a room
}

// No value of any field makes Validate panic or pass a job that another field spoils.
func TestValidateExtremes(t *testing.T) {
	const seed = 13
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	whole := []int64{
		math.MinInt64,
		math.MinInt64 + 1,
		-1 << 32,
		-1,
		0,
		1,
		2,
		1 << 20,
		1 << 40,
		math.MaxInt64 - 1,
		math.MaxInt64,
	}
	floats := []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, 5e-324}
	var spoil func(v reflect.Value)
	spoil = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				spoil(v.Field(i))
			}
		case reflect.Slice:
			for i := range v.Len() {
				spoil(v.Index(i))
			}
		case reflect.Map:
			if rng.IntN(3) == 0 && v.CanSet() {
				m := map[int]measure.Length{int(whole[rng.IntN(len(whole))]): measure.Length(whole[rng.IntN(len(whole))])}
				v.Set(reflect.ValueOf(m))
			}
		case reflect.Int, reflect.Int64:
			if rng.IntN(12) == 0 {
				v.SetInt(whole[rng.IntN(len(whole))])
			}
		case reflect.Uint8:
			if rng.IntN(12) == 0 {
				v.SetUint(uint64(rng.IntN(256)))
			}
		case reflect.Float64:
			if rng.IntN(3) == 0 {
				v.SetFloat(floats[rng.IntN(len(floats))])
			}
		}
	}
	refused := 0
	for range 5_000 {
		job := den()
		job.Box.Covers = 56 * measure.SquareFoot / 3
		job.Rooms[0].Islands = []cutopt.Island{{Outline: rect(10, 10, 10, 10)}, {Outline: rect(30, 10, 10, 10)}}
		job.Rooms[0].Doorways = []cutopt.Doorway{{Width: 30 * inch}, {Wall: 1, Width: 30 * inch, To: "Hall", Through: true}}
		job.Rooms = append(job.Rooms, cutopt.Room{Name: "Hall", Outline: rect(100, 0, 50, 80)})
		spoil(reflect.ValueOf(job).Elem())
		if fields(t, job) != nil {
			refused++
		}
	}
	if refused < 4_000 {
		t.Errorf("only %d of 5000 spoilt jobs are refused", refused)
	}
}
