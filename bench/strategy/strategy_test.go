package strategy_test

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"plank.example/bench/sample"
	"plank.example/bench/strategy"
	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/solve"
)

const inch = measure.Inch

// TestMain lets this test binary play the program of someone else behind a pipe.
func TestMain(m *testing.M) {
	says := os.Getenv("BENCH_OUTSIDE")
	if says == "" {
		os.Exit(m.Run())
	}
	os.Exit(outside(says))
}

// outside is a program behind a stream; what it says is "carry", something to go wrong, or a line to answer with.
func outside(says string) int {
	lines := bufio.NewScanner(os.Stdin)
	lines.Buffer(nil, 1<<20)
	for lines.Scan() {
		var task strategy.Task
		if err := json.Unmarshal(lines.Bytes(), &task); err != nil || task.Limit <= 0 || task.Box <= 0 {
			fmt.Fprintln(os.Stderr, "task:", task, err)
			return 1
		}
		switch says {
		case "carry", "once":
			a, err := strategy.Carry{}.Lay(context.Background(), &strategy.Floor{Rows: task.Instance})
			if err != nil {
				return 1
			}
			if err := json.NewEncoder(os.Stdout).Encode(strategy.Reply{Floor: task.Floor, Layout: a.Layout}); err != nil {
				return 1
			}
			if says == "once" {
				return 0
			}
		case "sleep":
			time.Sleep(time.Hour)
		case "fail":
			fmt.Fprintln(os.Stderr, "out of wood")
			return 3
		case "chatter":
			for {
				fmt.Print(strings.Repeat("x", 1<<16))
			}
		default:
			fmt.Println(says)
		}
	}
	return 0
}

func floor(t *testing.T, seed uint64) *strategy.Floor {
	t.Helper()
	rules := sample.Rules()
	room := sample.Draw(sample.MixDwelling, seed)
	job := room.Job(sample.Products()[1], &rules)
	// counted in the boxes of every strategy
	job.Spare = []cutopt.Spare{{}, {Planks: 3}, {Percent: 4}, {BoxPer: 5}}[seed%4]
	f, err := strategy.FloorOf(job, room.Net, seed)
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	return f
}

// plain is a room of equal runs on a 1 in grid.
func plain(n int, length measure.Length) *strategy.Floor {
	in := &rows.Instance{Plank: 48 * inch, MinPiece: 8 * inch, Stagger: 8 * inch, Grid: inch}
	for i := range n {
		in.Runs = append(in.Runs, rows.Run{Length: length})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	return &strategy.Floor{Rows: in}
}

// ofTheSameRows reports whether an answer lays the rows of the floor: a plan may have them lie elsewhere.
func ofTheSameRows(t *testing.T, f *strategy.Floor, a *strategy.Answer) bool {
	t.Helper()
	if a.Plan == nil {
		return true
	}
	in, err := check.Instance(f.Job, a.Plan)
	if err != nil {
		t.Fatal(err)
	}
	return slices.EqualFunc(in.Runs, f.Rows.Runs, func(a, b rows.Run) bool {
		return a.From == b.From && a.Length == b.Length
	})
}

// TestAll lays sample rooms by every strategy: whatever is returned passes Judge, twice the same, and no layout needs
// fewer planks than a proven bound of the same rows.
func TestAll(t *testing.T) {
	laid := make(map[string]int)
	for seed := range uint64(25) {
		f := floor(t, seed)
		bound, least := 0, 1<<30
		for _, s := range strategy.Known() {
			if strings.Contains(s.Name(), "thorough") || s.Name() == "library-normal-planks" && seed%5 > 0 {
				continue // for the time they take
			}
			a, err := s.Lay(context.Background(), f)
			if errors.Is(err, strategy.ErrNone) {
				continue
			}
			if err != nil {
				t.Fatalf("seed %d: %s: %v", seed, s.Name(), err)
			}
			v, err := strategy.Judge(f, a, true)
			if err != nil {
				t.Fatalf("seed %d: %s: %v", seed, s.Name(), err)
			}
			laid[s.Name()]++
			again, err := s.Lay(context.Background(), f)
			if err != nil || fmt.Sprint(again.Layout) != fmt.Sprint(a.Layout) {
				t.Errorf("seed %d: %s lays another floor the second time: %v", seed, s.Name(), err)
			}
			if a.Layout != nil && ofTheSameRows(t, f, a) {
				bound, least = max(bound, v.Bound), min(least, v.Planks)
			}
			if s.Name() == "area" {
				bound = max(bound, v.Planks)
			}
			if a.Plan != nil && (a.Plan.Order.Boxes != v.Boxes || a.Plan.Bound.Boxes != v.BoxBound) {
				t.Errorf("seed %d: %s: %+v, the plan says %+v %+v", seed, s.Name(), v, a.Plan.Order, a.Plan.Bound)
			}
			if a.Plan != nil {
				thumb, err := strategy.Thumb{}.Lay(context.Background(), f)
				if err != nil || thumb.Buys != a.Plan.Order.ThumbBoxes {
					t.Errorf("seed %d: the rule of thumb buys %v, the plan says %d", seed, thumb, a.Plan.Order.ThumbBoxes)
				}
			}
		}
		if bound > least {
			t.Errorf("seed %d: a bound of %d planks and a layout of %d", seed, bound, least)
		}
	}
	for _, name := range []string{
		"carry", "halves", "thirds", "random", "thumb", "library-quick", "area", "stock", "apart",
		"library-quick-planks",
	} {
		if laid[name] < 15 {
			t.Errorf("%s laid only %d of 25 floors", name, laid[name])
		}
	}
}

// TestByHand holds the habits against layouts worked out by hand: rows of 120 in, planks of 48 in, pieces and staggers
// of 8 in, no kerf.
func TestByHand(t *testing.T) {
	for _, c := range []struct {
		s      strategy.Strategy
		layout string
		planks int
		why    string
	}{
		// Row 1: 48, 48, ender 24, offcut 24. Row 2: starter 24, 48, 48 whole: no offcut. Row 3: 48, 48, 24. Row 4 as row 2.
		{strategy.Carry{}, "48 24 48 24", 10, "offcuts of 24 start every other row"},
		{strategy.Pile{}, "48 24 48 24", 10, "the pile holds one offcut at a time here"},
		// The same by halves: joints at 48, 96 and 24, 72.
		{strategy.Steps{N: 2}, "48 24 48 24", 10, "half a plank is the offcut"},
		// Joints at 48, 96 | 32, 80 | 16, 64, 112: the last ender is 8 in, just long enough. Enders 24, 40, 8; starters 32,
		// 16. Planks: wholes 2 + 1 + 2 + 2, pieces 24 | 32, 40 | 16, 8 | 24: the starter 32 fits with 8, 16 with 24 or so: 4
		// enders, 2 starters, both paired: 4. In all 11.
		{strategy.Steps{N: 3}, "48 32 16 48", 11, "thirds of a plank leave enders that pair less well"},
	} {
		f := plain(4, 120*inch)
		a, err := c.s.Lay(context.Background(), f)
		if err != nil {
			t.Fatal(err)
		}
		var text []string
		for _, s := range a.Layout {
			text = append(text, fmt.Sprint(int64(s/inch)))
		}
		v, err := strategy.Judge(f, a, true)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(text, " "); got != c.layout || v.Planks != c.planks {
			t.Errorf("%s: %s, %d planks; want %s, %d: %s", c.s.Name(), got, v.Planks, c.layout, c.planks, c.why)
		}
	}
}

// TestFits wants every run of a layout to fit where the layout passes Check, and one not to where it does not: of
// layouts of random starters, and of such with one starter moved.
func TestFits(t *testing.T) {
	whole, broken := 0, 0
	for seed := range uint64(40) {
		f := floor(t, seed)
		a, err := strategy.Random{}.Lay(context.Background(), f)
		if err != nil {
			continue
		}
		for k := range len(a.Layout) + 1 {
			layout := slices.Clone(a.Layout)
			if k < len(layout) && layout[k] > 0 {
				layout[k] = (layout[k]+5*inch)%f.Rows.Plank + f.Rows.Grid
			}
			fits := true
			for i := range layout {
				fits = fits && strategy.Fits(f.Rows, layout, i)
			}
			if legal := f.Rows.Check(layout) == nil; fits != legal {
				t.Fatalf("seed %d, run %d moved: fits %v, legal %v", seed, k, fits, legal)
			}
			if fits {
				whole++
			} else {
				broken++
			}
		}
	}
	if whole < 50 || broken < 50 {
		t.Errorf("%d layouts are whole, %d broken: the test sees too little", whole, broken)
	}
}

// TestBaselines holds what counts or searches without a bound against figures worked out by hand and against each
// other.
func TestBaselines(t *testing.T) {
	lay := func(s strategy.Strategy, f *strategy.Floor) *strategy.Verdict {
		t.Helper()
		a, err := s.Lay(context.Background(), f)
		if err != nil {
			t.Fatalf("%s: %v", s.Name(), err)
		}
		v, err := strategy.Judge(f, a, true)
		if err != nil {
			t.Fatalf("%s: %v", s.Name(), err)
		}
		return v
	}
	// 4 rows of 120 in are 10 planks of 48 in, end to end. Rests of 24 in go two on a plank: 4 x 2 + 2. Rows of 124 in are
	// 496 in, 11 planks, but rests of 28 in go one on a plank: 4 x 2 + 4.
	for _, c := range []struct {
		s      strategy.Strategy
		row    measure.Length
		planks int
	}{
		{strategy.Area{}, 120, 10},
		{strategy.Stock{}, 120, 10},
		{strategy.Area{}, 124, 11},
		{strategy.Stock{}, 124, 12},
		{strategy.Area{}, 96, 8},
		{strategy.Stock{}, 96, 8},
	} {
		if v := lay(c.s, plain(4, c.row*inch)); v.Planks != c.planks {
			t.Errorf("%s, rows of %d in: %d planks, want %d", c.s.Name(), c.row, v.Planks, c.planks)
		}
	}
	for seed := range uint64(8) {
		f := floor(t, seed)
		random, best := lay(strategy.Random{}, f), lay(strategy.Draws{N: 20}, f)
		pile, search := lay(strategy.Pile{}, f), lay(strategy.Search{N: 500}, f)
		if best.Planks > random.Planks || search.Planks > pile.Planks {
			t.Errorf("seed %d: random %d, the best of 20 %d; pile %d, searched %d", seed, random.Planks, best.Planks,
				pile.Planks, search.Planks)
		}
	}
	house := sample.Draw(sample.MixHouse, 1)
	rules := sample.Rules()
	f, err := strategy.FloorOf(house.Job(sample.Products()[1], &rules), house.Net, 1)
	if err != nil {
		t.Fatal(err)
	}
	together := lay(strategy.Library{Effort: solve.EffortQuick, Fewest: solve.FewestPlanks}, f)
	apart, bought := lay(strategy.Apart{Effort: solve.EffortQuick}, f), lay(strategy.Apart{
		Effort: solve.EffortQuick, Boxes: true,
	}, f)
	if together.Bound > apart.Planks || apart.Planks != bought.Planks || bought.Boxes < apart.Boxes {
		t.Errorf("together %+v, apart %+v, bought apart %+v", together, apart, bought)
	}
}

// TestOpened holds the planks opened row by row against layouts worked out by hand, and above the planks paired in
// hindsight on sample rooms: whoever sees the future opens no more.
func TestOpened(t *testing.T) {
	for _, c := range []struct {
		why        string
		layout     []measure.Length // in inches, of rows of 120 in on planks of 48 in
		pile, last int
	}{
		{"each offcut of 24 starts the next row", []measure.Length{48, 24, 48, 24}, 10, 10},
		// Row 1 leaves 24. Row 2 starts whole and leaves 24 too. Rows 3 and 4 start with these two: row 3 ends whole, so for
		// the one who keeps the last offcut only nothing is left for row 4.
		{"two offcuts wait", []measure.Length{48, 48, 24, 24}, 10, 11},
		// The starter of 24 is cut off a new plank, whose other half is an ender of row 2.
		{"the other half of a starter's plank", []measure.Length{24, 48}, 5, 5},
		// Rows 1 and 2 start with new planks, which leave 12 and 24 with a left end; row 3 ends with the 24. The 12 would end
		// row 4, for the one who kept it. Rows take 3 + 3 + 2 + 2 planks, and one more without it.
		{"two halves wait", []measure.Length{36, 24, 48, 12}, 10, 11},
	} {
		f := plain(len(c.layout), 120*inch)
		f.Rows.Stagger = 0
		layout := make(rows.Layout, len(c.layout))
		for i, s := range c.layout {
			layout[i] = s * inch
		}
		if err := f.Rows.Check(layout); err != nil {
			t.Fatal(err)
		}
		pile, last := strategy.Opened(f.Rows, layout, true), strategy.Opened(f.Rows, layout, false)
		if pile != c.pile || last != c.last {
			t.Errorf("%s: %d planks with a pile, %d with the last offcut; want %d and %d", c.why, pile, last, c.pile, c.last)
		}
	}
	for seed := range uint64(60) {
		f := floor(t, seed)
		for _, s := range []strategy.Strategy{strategy.Carry{}, strategy.Pile{}, strategy.Steps{N: 3}, strategy.Random{}} {
			a, err := s.Lay(context.Background(), f)
			if err != nil {
				continue
			}
			planks := f.Rows.Count(a.Layout, nil)
			pile, last := strategy.Opened(f.Rows, a.Layout, true), strategy.Opened(f.Rows, a.Layout, false)
			if pile < planks || last < planks {
				t.Errorf(
					"seed %d, %s: %d planks, opened %d with a pile, %d with the last offcut",
					seed,
					s.Name(),
					planks,
					pile,
					last,
				)
			}
		}
	}
}

// TestJudgeRefuses feeds answers that must not count.
func TestJudgeRefuses(t *testing.T) {
	closets := &strategy.Floor{Rows: &rows.Instance{
		Plank: 48 * inch, Grid: inch, Kerf: inch, Runs: []rows.Run{
			{Length: 24 * inch},
			{Length: 23 * inch},
			{Length: 10 * inch},
		},
	}}
	whole := rows.Layout{48 * inch, 24 * inch, 48 * inch}
	step := []proof.Step{{At: 48 * inch, Price: proof.Denominator}}
	for _, c := range []struct {
		why   string
		floor *strategy.Floor
		a     strategy.Answer
	}{
		{"nothing bought or laid", plain(3, 120*inch), strategy.Answer{}},
		{"a run short", plain(3, 120*inch), strategy.Answer{Layout: whole[:2]}},
		{"joints in line", plain(3, 120*inch), strategy.Answer{Layout: rows.Layout{48 * inch, 48 * inch, 24 * inch}}},
		{"off the grid", plain(3, 120*inch), strategy.Answer{Layout: rows.Layout{48 * inch, 24*inch + 1, 48 * inch}}},
		{"24 + 1 + 23 fit, 10 more do not", closets, strategy.Answer{Layout: rows.Layout{0, 0, 0}, Packing: rows.Packing{
			-1,
			0, 0,
		}}},
		{"a plank shared with a guest", closets, strategy.Answer{Layout: rows.Layout{0, 0, 0}, Packing: rows.Packing{
			-1, 0,
			1,
		}}},
		{"a plank shared with itself", closets, strategy.Answer{Layout: rows.Layout{0, 0, 0}, Packing: rows.Packing{
			0, -1,
			-1,
		}}},
		{"beyond the last run", closets, strategy.Answer{Layout: rows.Layout{0, 0, 0}, Packing: rows.Packing{3, -1, -1}}},
		{"a packing too short", closets, strategy.Answer{Layout: rows.Layout{0, 0, 0}, Packing: rows.Packing{-1}}},
		{"8 planks are needed, 9 are not proven", plain(3, 120*inch), strategy.Answer{
			Layout: whole, Certificate: &proof.Certificate{Planks: 9, Tree: proof.Node{Prices: step}},
		}},
	} {
		if v, err := strategy.Judge(c.floor, &c.a, true); err == nil {
			t.Errorf("%s: %+v", c.why, v)
		}
	}
	a := strategy.Answer{Layout: rows.Layout{0, 0, 0}, Packing: rows.Packing{-1, 0, -1}}
	if v, err := strategy.Judge(closets, &a, true); err != nil || v.Planks != 2 {
		t.Errorf("24 + 1 + 23 on one plank and 10 on another: %+v, %v", v, err)
	}
	plan, err := strategy.Library{}.Lay(context.Background(), floor(t, 3))
	if err != nil {
		t.Fatal(err)
	}
	plan.Plan.Order.Planks++
	if _, err := strategy.Judge(floor(t, 3), plan, false); err == nil {
		t.Error("a plan whose order is wrong counts")
	}
}

// TestStream runs this binary as the program of someone else.
func TestStream(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		says string
		none bool
		text string // in the error
	}{
		{"carry", false, ""},
		{"once", false, ""}, // a process that ends after each floor is started again
		{"sleep", true, "stopped after"},
		{"fail", false, "out of wood"},
		{"chatter", false, "writes a line of more than"},
		{`{"floor": 1, "layout": null}`, true, "no layout"},
		{`{"floor": 1, "layout": [1]}`, false, "1 starters for"},
		{`{"floor": 2, "layout": [1]}`, false, "answers floor 2 where 1"},
		{`{"planks": 3}`, false, "unknown field"},
		{`hello`, false, "strategy: guest: invalid character"},
		{` `, false, "strategy: guest: EOF"},
	} {
		t.Setenv("BENCH_OUTSIDE", c.says)
		limit := time.Minute
		if c.says == "sleep" {
			limit = 50 * time.Millisecond
		}
		list, err := strategy.Parse("carry, guest="+self, limit)
		if err != nil {
			t.Fatal(err)
		}
		stream := list[1].(*strategy.Stream)
		for _, seed := range []uint64{4, 5, 6} {
			f := floor(t, seed)
			got, err := stream.Lay(context.Background(), f)
			if c.text != "" {
				if err == nil || errors.Is(err, strategy.ErrNone) != c.none || !strings.Contains(err.Error(), c.text) {
					t.Errorf("%q: %v, %v", c.says, got, err)
				}
				break
			}
			want, werr := list[0].Lay(context.Background(), f)
			if err != nil || werr != nil || fmt.Sprint(got.Layout) != fmt.Sprint(want.Layout) {
				t.Errorf("%q, seed %d: %v %v, %v %v", c.says, seed, got, err, want, werr)
			}
		}
		if err := stream.Close(); err != nil {
			t.Error(err)
		}
	}
}

// TestStreamManyAtOnce lays floors at the same time: each worker has a process of its own.
func TestStreamManyAtOnce(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	t.Setenv("BENCH_OUTSIDE", "carry")
	s := &strategy.Stream{Label: "guest", Command: []string{self}}
	defer s.Close()
	var group sync.WaitGroup
	for seed := range uint64(20) {
		f := floor(t, seed)
		group.Go(func() {
			got, err := s.Lay(context.Background(), f)
			want, werr := strategy.Carry{}.Lay(context.Background(), f)
			if err != nil || werr != nil || fmt.Sprint(got.Layout) != fmt.Sprint(want.Layout) {
				t.Errorf("seed %d: %v %v, %v %v", seed, got, err, want, werr)
			}
		})
	}
	group.Wait()
}

// TestParse refuses names it does not know.
func TestParse(t *testing.T) {
	for _, s := range strategy.Known() {
		got, err := strategy.Parse(s.Name(), 0)
		if err != nil || len(got) != 1 || got[0] != s {
			t.Errorf("%s: %v, %v", s.Name(), got, err)
		}
	}
	for _, list := range []string{"", "carry,", "carry,carry", "Carry", "=x", "x=", "library"} {
		if got, err := strategy.Parse(list, 0); err == nil {
			t.Errorf("%q: %v", list, got)
		}
	}
}

// BenchmarkStrategies lays one dwelling room by each strategy.
func BenchmarkStrategies(b *testing.B) {
	rules := sample.Rules()
	room := sample.Draw(sample.MixDwelling, 3)
	f, err := strategy.FloorOf(room.Job(sample.Products()[1], &rules), room.Net, 3)
	if err != nil {
		b.Fatal(err)
	}
	for _, s := range strategy.Known() {
		b.Run(s.Name(), func(b *testing.B) {
			for b.Loop() {
				if _, err := s.Lay(context.Background(), f); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
