package rows_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// fieldOf returns the field of the first error, which must state a rule and carry a hint.
func fieldOf(t *testing.T, err error) string {
	t.Helper()
	var e *rows.Error
	if !errors.As(err, &e) {
		t.Errorf("%v is no *rows.Error", err)
		return ""
	}
	if e.Hint() == "" || e.Rule == "" {
		t.Errorf("%v has no rule or no hint", err)
	}
	return e.Field
}

// plain is an instance of three runs, the first two of which touch.
func plain() *rows.Instance {
	return &rows.Instance{
		Plank: 48, Kerf: 1, MinPiece: 8, Stagger: 6, Grid: 1,
		Runs:    []rows.Run{{Length: 100}, {Length: 90, Beside: []measure.Length{7}}, {Length: 20}},
		Touch:   [][2]int{{0, 1}, {1, 2}},
		Offcuts: []rows.Offcut{{Length: 30, End: rows.EndLeft}},
	}
}

// TestValidate spoils a good instance one field at a time.
func TestValidate(t *testing.T) {
	if err := plain().Validate(); err != nil {
		t.Fatal(err)
	}
	const far = rows.MaxLength
	for _, c := range []struct {
		why   string
		spoil func(*rows.Instance)
		field string
		large bool
	}{
		{"no plank", func(in *rows.Instance) { *in = rows.Instance{Grid: 1, Runs: in.Runs} }, "plank", false},
		{"a plank round the earth", func(in *rows.Instance) { in.Plank = far + 1 }, "plank", false},
		{"a kerf below 0", func(in *rows.Instance) { in.Kerf = -1 }, "kerf", false},
		{"a kerf of a plank", func(in *rows.Instance) { in.Kerf = 48 }, "kerf", false},
		{"a shortest piece below 0", func(in *rows.Instance) { in.MinPiece = -1 }, "min_piece", false},
		{"a shortest piece above a plank", func(in *rows.Instance) { in.MinPiece = 49 }, "min_piece", false},
		{"a shortest ender below 0", func(in *rows.Instance) { in.MinEnder = -1 }, "min_ender", false},
		{"a shortest ender above a plank", func(in *rows.Instance) { in.MinEnder = 49 }, "min_ender", false},
		{"a stagger below 0", func(in *rows.Instance) { in.Stagger = -1 }, "stagger", false},
		{"a stagger beyond sums", func(in *rows.Instance) { in.Stagger = math.MaxInt64 }, "stagger", false},
		{"no grid", func(in *rows.Instance) { in.Grid = 0 }, "grid", false},
		{"a grid above a plank", func(in *rows.Instance) { in.Grid = 49 }, "grid", false},
		{"no runs", func(in *rows.Instance) { in.Runs, in.Touch = nil, nil }, "runs", false},
		{"a run of nothing", func(in *rows.Instance) { in.Runs[1].Length = 0 }, "runs[1].length", false},
		{"a run less than nothing", func(in *rows.Instance) { in.Runs[2].Length = math.MinInt64 }, "runs[2].length", false},
		{"a run round the earth", func(in *rows.Instance) { in.Runs[0].Length = math.MaxInt64 }, "runs[0].length", true},
		{"a run far west", func(in *rows.Instance) { in.Runs[0].From = math.MinInt64 }, "runs[0].from", false},
		{"a joint far east", func(in *rows.Instance) { in.Runs[1].Beside[0] = math.MaxInt64 }, "runs[1].beside[0]", false},
		{"begun before it begins", func(in *rows.Instance) { in.Runs[0].Starter = -1 }, "runs[0].starter", false},
		{"begun with more than a plank", func(in *rows.Instance) { in.Runs[0].Starter = 49 }, "runs[0].starter", false},
		{"begun with all of it", func(in *rows.Instance) { in.Runs[2].Starter = 20 }, "runs[2].starter", false},
		{"begun off the grid", func(in *rows.Instance) { in.Grid, in.Runs[0].Starter = 2, 9 }, "runs[0].starter", false},
		{"a tie to a run below the first", func(in *rows.Instance) { in.Touch[1][0] = -1 }, "touch[1]", false},
		{"a tie beyond the last run", func(in *rows.Instance) { in.Touch[1][1] = 3 }, "touch[1]", false},
		{"a run that touches itself", func(in *rows.Instance) { in.Touch[0] = [2]int{1, 1} }, "touch[0]", false},
		{"the higher run first", func(in *rows.Instance) { in.Touch[0] = [2]int{1, 0} }, "touch[0]", false},
		{"a tie twice", func(in *rows.Instance) { in.Touch = append(in.Touch, [2]int{0, 1}) }, "touch[2]", false},
		{"an offcut of nothing", func(in *rows.Instance) { in.Offcuts[0].Length = 0 }, "offcuts[0].length", false},
		{"an offcut above a plank", func(in *rows.Instance) { in.Offcuts[0].Length = 49 }, "offcuts[0].length", false},
		{"an offcut with two ends", func(in *rows.Instance) { in.Offcuts[0].End = "both" }, "offcuts[0].end", false},
		{
			"more planks than fit in memory", func(in *rows.Instance) { in.Runs[0].Length = 48 * rows.MaxPlanks },
			"number of planks that the runs may take", true,
		},
		{
			"more runs than fit in memory", func(in *rows.Instance) { in.Runs = make([]rows.Run, rows.MaxRuns+1) },
			"number of runs", true,
		},
		{
			"more offcuts than anyone has", func(in *rows.Instance) { in.Offcuts = make([]rows.Offcut, rows.MaxOffcuts+1) },
			"number of offcuts", true,
		},
	} {
		in := plain()
		c.spoil(in)
		err := in.Validate()
		if got := fieldOf(t, err); got != c.field {
			t.Errorf("%s: %v; want an error of %q", c.why, err, c.field)
		}
		if errors.Is(err, rows.ErrTooLarge) != c.large {
			t.Errorf("%s: ErrTooLarge is %v, want %v", c.why, !c.large, c.large)
		}
	}
	all := &rows.Instance{Plank: -1, Kerf: -1, MinPiece: -1, Stagger: -1, Offcuts: []rows.Offcut{{}}}
	if n := strings.Count(all.Validate().Error(), "\n"); n != 8 {
		t.Errorf(
			"%d errors are joined, want all 9: plank, kerf, two of pieces, stagger, grid, runs, length and end of the offcut",
			n+1,
		)
	}
	many := plain()
	many.Offcuts = make([]rows.Offcut, 10_000)
	if n := strings.Count(many.Validate().Error(), "\n"); n > 100 {
		t.Errorf("%d errors are reported", n)
	}
}

// TestDecodeRefuses holds what is wrong with a text, and the place that is named.
func TestDecodeRefuses(t *testing.T) {
	const good = `{"plank": 48, "kerf": 0, "min_piece": 8, "stagger": 8, "grid": 1, "runs": [{"from": 0, "length": ` +
		`100}], "touch": []}`
	if _, err := rows.Decode(strings.NewReader(good + " \n")); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		why, text, want string
		large           bool
	}{
		{"nothing", "", "rows: the file is empty", false},
		{"half a text", good[:60], "rows: the text ends", false},
		{"no JSON", "plank: 48", "rows: byte 1: invalid character", false},
		{"a list", "[]", "byte 1: an object is due", false},
		{"two instances", good + good, "there is more text behind the instance, which ends at byte 117", false},
		{"text behind", good + " // rows", "there is more text behind", false},
		{"a field of another format", `{"planks": 3}`, `"planks": an instance has no such field`, false},
		{"a field of a run", strings.Replace(good, `"from"`, `"start"`, 1), `"start": an instance has no such field`, false},
		{"a text for a length", `{"plank": "48"}`, "plank is a JSON string: byte 14: a whole number is due", false},
		{"a number for the runs", `{"runs": 3}`, "runs is a JSON number: byte 10: a list is due", false},
		{"half a tick", `{"plank": 48.5}`, "plank is a JSON number 48.5", false},
		{"beyond 64 bits", `{"plank": 1e30}`, "plank is a JSON number 1e30", false},
		{
			"a tie of three", strings.Replace(good, `[]}`, `[[0,1,2]]}`, 1), `touch is "[0,1,2]": a tie is a list of two runs`,
			false,
		},
		{"a tie of one", strings.Replace(good, `[]}`, `[[0]]}`, 1), "a tie is a list of two runs", false},
		{"a tie of halves", strings.Replace(good, `[]}`, `[[0,0.5]]}`, 1), "JSON number 0.5", false},
		{"no runs", `{"plank": 48, "grid": 1, "runs": [], "touch": []}`, "runs: an instance has at least one run", false},
		{"out of range", strings.Replace(good, "48", "-48", 1), "plank is -48: a plank is longer than 0", false},
		{
			"a plank of one tick, a run of a kilometre", `{"plank": 1, "kerf": 0, "min_piece": 0, "stagger": 0, "grid": 1,
			"runs": [{"from": 0, "length": 320000000}], "touch": []}`,
			"number of planks that the runs may take is 320000002: at most 20000000", true,
		},
		{"deeper than JSON may go", strings.Repeat(`{"runs":[`, 20_000), "rows: ", false},
	} {
		in, err := rows.Decode(strings.NewReader(c.text))
		if in != nil || err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v; want an error with %q", c.why, err, c.want)
			continue
		}
		fieldOf(t, err)
		if errors.Is(err, rows.ErrTooLarge) != c.large {
			t.Errorf("%s: ErrTooLarge is %v", c.why, !c.large)
		}
	}
	if _, err := rows.Decode(iotest.ErrReader(io.ErrClosedPipe)); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("the error of the reader becomes %v", err)
	}
}

// endless is blanks without end.
type endless struct{}

func (endless) Read(p []byte) (int, error) { return copy(p, bytes.Repeat([]byte{' '}, len(p))), nil }

// TestDecodeBounded holds that a file without end is left alone at the limit, and that what asks for too much is
// refused before it is allocated.
func TestDecodeBounded(t *testing.T) {
	if os.Getenv("CUTOPT_SAMPLES") != "" { // the decoder takes ten seconds to read that many blanks
		if _, err := rows.Decode(endless{}); !errors.Is(err, rows.ErrTooLarge) {
			t.Errorf("a file without end: %v", err)
		}
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	text := `{"plank": 1, "kerf": 0, "min_piece": 0, "stagger": 0, "grid": 1, "runs": [{"from": 0, "length": ` +
		`320000000}], "touch": []}`
	if _, err := rows.Decode(strings.NewReader(text)); !errors.Is(err, rows.ErrTooLarge) {
		t.Errorf("320 million planks: %v", err)
	}
	runtime.ReadMemStats(&after)
	if n := after.TotalAlloc - before.TotalAlloc; n > 1<<20 {
		t.Errorf("%d bytes are allocated to refuse 320 million planks", n)
	}
}

// joints lists the end joints of a run, one by one.
func joints(in *rows.Instance, i int, s measure.Length) []measure.Length {
	var list []measure.Length
	if s == 0 {
		return nil
	}
	for x := s; x < in.Runs[i].Length; x += in.Plank {
		list = append(list, in.Runs[i].From+x)
	}
	return list
}

// keeps decides the rules from the package's text alone, joint by joint.
func keeps(in *rows.Instance, layout rows.Layout) bool {
	near := func(a, b []measure.Length) bool {
		for _, x := range a {
			for _, y := range b {
				if x-y < in.Stagger && y-x < in.Stagger {
					return true
				}
			}
		}
		return false
	}
	for i, s := range layout {
		w := in.Runs[i].Length
		if s == 0 {
			if w > in.Plank || in.Runs[i].Starter > 0 {
				return false
			}
			continue
		}
		at := joints(in, i, s)
		if begun := in.Runs[i].Starter; begun > 0 {
			if s != begun {
				return false
			}
			continue
		}
		if len(at) == 0 || s > in.Plank || s < in.MinPiece || s < 1 || s != in.Plank && s%in.Grid != 0 {
			return false
		}
		ender := in.Runs[i].From + w - at[len(at)-1]
		if ender < in.MinPiece || ender < in.MinEnder || near(at, in.Runs[i].Beside) {
			return false
		}
	}
	for _, t := range in.Touch {
		if near(joints(in, t[0], layout[t[0]]), joints(in, t[1], layout[t[1]])) {
			return false
		}
	}
	return true
}

// TestCheckAgainstJoints holds Check, and with it Lay and Clash, against every joint of small random layouts.
func TestCheckAgainstJoints(t *testing.T) {
	kept := 0
	const samples = 60_000
	for seed := range uint64(samples) {
		r := rand.New(rand.NewPCG(seed, 9))
		in := &rows.Instance{
			Plank: measure.Length(5 + r.IntN(20)), MinPiece: measure.Length(r.IntN(4)), MinEnder: measure.Length(r.IntN(5)),
			Stagger: measure.Length(r.IntN(6)), Grid: measure.Length(1 + r.IntN(3)),
		}
		layout := make(rows.Layout, 1+r.IntN(3))
		for i := range layout {
			run := rows.Run{From: measure.Length(r.IntN(60) - 30), Length: measure.Length(1 + r.IntN(70))}
			for range r.IntN(2) {
				run.Beside = append(run.Beside, measure.Length(r.IntN(120)-60))
			}
			in.Runs = append(in.Runs, run)
			layout[i] = min(measure.Length(r.IntN(int(in.Plank)+2)), in.Plank)
			if on := layout[i] == in.Plank || layout[i]%in.Grid == 0; on && layout[i] < run.Length && r.IntN(4) == 0 {
				in.Runs[i].Starter = layout[i]
			}
			if i > 0 {
				in.Touch = append(in.Touch, [2]int{i - 1, i})
			}
		}
		want := keeps(in, layout)
		err := in.Check(layout)
		if (err == nil) != want {
			t.Fatalf("seed %d: Check says %v of %v in %+v, the joints say %v", seed, err, layout, in, want)
		}
		if want {
			kept++
		} else {
			fieldOf(t, err)
		}
	}
	if kept < samples/50 {
		t.Errorf("only %d of %d layouts keep the rules: the test shows little", kept, samples)
	}
}

// TestCheckSaysWhy holds the reason for each rule that a run can break, and its field.
func TestCheckSaysWhy(t *testing.T) {
	in := &rows.Instance{
		Plank: 48, Kerf: 1, MinPiece: 8, MinEnder: 10, Stagger: 6, Grid: 4,
		Runs: []rows.Run{
			{Length: 100},
			{Length: 90, Beside: []measure.Length{70}},
			{Length: 20},
			{Length: 44, Beside: []measure.Length{4}, Starter: 4}, // begun: neither pieces nor joints beside are asked
		},
		Touch: [][2]int{{0, 1}, {1, 2}},
	}
	for _, c := range []struct {
		layout rows.Layout
		want   string // empty where it keeps the rules
	}{
		{rows.Layout{40, 32, 0, 4}, ""},
		{rows.Layout{36, 28, 8, 4}, ""},
		{rows.Layout{40, 32}, "number of starters is 2: a layout has one for each of the 4 runs"},
		{rows.Layout{0, 32, 0, 4}, "layout[0] is 0: the run is 100 long, more than a plank of 48"},
		{rows.Layout{4, 32, 0, 4}, "layout[0] is 4: a starter has at least 8"},
		{rows.Layout{-8, 32, 0, 4}, "layout[0] is -8: a starter has at least 8"},
		{rows.Layout{52, 32, 0, 4}, "layout[0] is 52: a starter has at least 8 and at most a plank, 48"},
		{rows.Layout{41, 32, 0, 4}, "layout[0] is 41: a starter is a multiple of the grid 4"},
		{rows.Layout{44, 32, 0, 4}, "layout[0] is 44: the ender would be 8, shorter than 10"},
		{rows.Layout{40, 32, 20, 4}, "layout[2] is 20: the run is 20 long and a starter leaves room for an ender"},
		{rows.Layout{40, 24, 0, 4}, "layout[1] is 24: a joint lies nearer than the stagger 6 to one that is laid already"},
		{rows.Layout{48, 32, 0, 4}, "layout[0] is 48: the ender would be 4, shorter than 10"},
		{rows.Layout{40, 32, 0, 8}, "layout[3] is 8: the run is begun with a starter of 4"},
		{rows.Layout{40, 32, 0, 0}, "layout[3] is 0: the run is begun with a starter of 4"},
		{rows.Layout{40, 44, 0, 4}, "layout[1] is 44: a joint of run 1 lies nearer than the stagger 6 to one of run 0"},
	} {
		err := in.Check(c.layout)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%v: %v; want %q", c.layout, err, c.want)
		}
		if err != nil {
			fieldOf(t, err)
		}
	}
}

// TestNothingIsKept holds that no function changes what it is given.
func TestNothingIsKept(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 10))
		in, layout := draw(r, true)
		drawOffcuts(r, in, 5)
		if len(layout) == 0 {
			continue
		}
		in.Touch = nil
		text := func() string { return fmt.Sprintf("%+v %v", *in, layout) }
		want := text()
		first := in.Cut(layout, nil)
		_ = in.Validate()
		_ = in.Check(layout)
		_ = in.Count(layout, nil)
		if err := in.Encode(io.Discard); err != nil {
			t.Fatal(err)
		}
		if text() != want {
			t.Fatalf("seed %d: %s became %s", seed, want, text())
		}
		if diff := cmp.Diff(first, in.Cut(layout, nil)); diff != "" {
			t.Fatalf("seed %d: cut again: %s", seed, diff)
		}
	}
}
