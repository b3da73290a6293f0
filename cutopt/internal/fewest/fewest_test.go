package fewest_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

func settings() *fewest.Settings {
	return &fewest.Settings{Enough: func(planks, bound int) bool { return planks <= bound }}
}

// tiny draws two to four runs on a grid of a few lines a plank: plain, stepped, or two runs in a row; some with joints
// laid beside them; no one-piece runs unless a run is shorter than a plank.
func tiny(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(8 + r.IntN(7)), Kerf: measure.Length(r.IntN(2)), MinPiece: measure.Length(1 + r.IntN(3)),
		Stagger: measure.Length(r.IntN(4)), Grid: 1,
	}
	w := measure.Length(6 + r.IntN(30))
	for i := range 2 + r.IntN(3) {
		run := rows.Run{From: measure.Length(r.IntN(3)), Length: max(w+measure.Length(r.IntN(5)-2), 1)}
		if r.IntN(3) == 0 {
			for range 1 + r.IntN(2) {
				run.Beside = append(run.Beside, measure.Length(r.IntN(int(w)+4)-2))
			}
		}
		in.Runs = append(in.Runs, run)
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	if len(in.Runs) == 4 && r.IntN(2) == 0 { // runs 1 and 2 stand in one row between 0 and 3
		in.Touch = [][2]int{{0, 1}, {0, 2}, {1, 3}, {2, 3}}
	}
	return in
}

// TestAgainstBruteForce solves tiny instances of every kind: the planks are those of trying everything, the bound is
// not above them, and the certificate verifies for its claim and for no more.
func TestAgainstBruteForce(t *testing.T) {
	n := uint64(oracle.Samples(200))
	solved, best, proven := 0, 0, 0
	for seed := range n {
		r := rand.New(rand.NewPCG(seed, 41))
		in := tiny(r)
		if seed%2 == 1 {
			oracle.Begin(r, in)
		}
		if seed%4 > 1 { // more offcuts than are of use
			for range 1 + r.IntN(6) {
				in.Offcuts = append(in.Offcuts, rows.Offcut{
					Length: 1 + measure.Length(r.IntN(int(in.Plank)-1)), End: []rows.End{rows.EndLeft, rows.EndRight}[r.IntN(2)],
				})
			}
		}
		want := oracle.Fewest(in)
		out, err := fewest.Solve(in, settings())
		if err != nil {
			if want >= 0 {
				t.Errorf("seed %d: %v, but %d planks do", seed, err, want)
			}
			continue
		}
		solved++
		if want < 0 || in.Check(out.Layout) != nil {
			t.Fatalf("seed %d: a layout that breaks the rules", seed)
		}
		if n := len(in.Cut(out.Layout, out.Packing).Planks); n != out.Planks {
			t.Fatalf("seed %d: %d planks are cut, %d counted", seed, n, out.Planks)
		}
		if out.Planks < want || out.Bound > want {
			t.Fatalf("seed %d: %d planks, bound %d, the optimum is %d", seed, out.Planks, out.Bound, want)
		}
		if out.Planks == want {
			best++
		}
		if out.Bound == want {
			proven++
		}
		if err := out.Certificate.Verify(in); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		out.Certificate.Planks = want + 1
		if out.Certificate.Verify(in) == nil {
			t.Errorf("seed %d: a certificate of %d planks verifies where %d do", seed, want+1, want)
		}
	}
	t.Logf("%d of %d instances can be laid; the optimum was found in %d and proven in %d", solved, n, best, proven)
	if best < solved*99/100 || proven < solved*95/100 {
		t.Errorf("%d optima found and %d proven of %d", best, proven, solved)
	}
}

// TestRooms solves rooms of usual size: bound at most planks, certificates verify, never more planks than carrying the
// offcut, and the same result for any number of workers.
func TestRooms(t *testing.T) {
	for seed := range uint64(15) {
		in := room(seed)
		var first *fewest.Outcome
		for _, workers := range []int{1, 2, 8} {
			set := settings()
			set.Budget, set.Workers = &fewest.Quick, workers
			out, err := fewest.Solve(in, set)
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			if first == nil {
				first = out
			}
			if diff := cmp.Diff(first, out); diff != "" {
				t.Errorf("seed %d: %d workers differ: %s", seed, workers, diff)
			}
		}
		if err := in.Check(first.Layout); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if err := first.Certificate.Verify(in); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if first.Bound > first.Planks {
			t.Errorf("seed %d: bound %d above %d planks", seed, first.Bound, first.Planks)
		}
		if carried, ok := search.Carry(starters.New(in)); ok && first.Planks > in.Count(carried, nil) {
			t.Errorf("seed %d: %d planks, carrying the offcut needs %d", seed, first.Planks, in.Count(carried, nil))
		}
	}
}

// BenchmarkProof solves and proves a plain room of 19 rows.
func BenchmarkProof(b *testing.B) {
	in := room(0)
	for b.Loop() {
		if _, err := fewest.Solve(in, settings()); err != nil {
			b.Fatal(err)
		}
	}
}

// fourRows is a floor on a grid of 14 lines a plank.
func fourRows() *rows.Instance {
	return &rows.Instance{
		Plank: 14, Kerf: 1, MinPiece: 3, Stagger: 3, Grid: 1,
		Runs: []rows.Run{{Length: 33}, {Length: 34}, {Length: 33}, {Length: 32}}, Touch: [][2]int{{0, 1}, {1, 2}, {
			2,
			3,
		}},
	}
}

// BenchmarkTiny solves and proves a floor of four short rows; BenchmarkTinyNaive tries every layout of it, and every
// way to cut each.
func BenchmarkTiny(b *testing.B) {
	in := fourRows()
	for b.Loop() {
		if _, err := fewest.Solve(in, settings()); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTinyNaive(b *testing.B) {
	in := fourRows()
	for b.Loop() {
		oracle.Fewest(in)
	}
}

// longOpen is a floor of three runs that four planks lay and whose bound stays at three until dozens of cases are told
// apart.
func longOpen() *rows.Instance {
	var out [][][2]measure.Length
	for _, b := range []struct{ from, length int }{{160, 1088}, {320, 834}, {320, 834}} {
		from := measure.Length(b.from) * measure.Sixteenth
		out = append(out, [][2]measure.Length{{from, from + measure.Length(b.length)*measure.Sixteenth}})
	}
	return instance(out, 60*in, in/8, 8*in, 8*in, measure.Sixteenth)
}

// TestEnds holds why the work ends: the bound is met, nothing better was found for long, or Stop says so; and that the
// budget's patience is kept to.
func TestEnds(t *testing.T) {
	open := longOpen()
	for _, test := range []struct {
		name string
		in   *rows.Instance
		set  fewest.Settings
		want fewest.End
	}{
		{"met", fourRows(), fewest.Settings{}, fewest.EndSettled},
		{"nothing better", open, fewest.Settings{Budget: &fewest.Budget{
			Paths: 300, Walk: 1000, Rounds: 9,
			Patience: 100_000,
		}}, fewest.EndStalled},
		{"spent", open, fewest.Settings{Budget: &fewest.Budget{Paths: 300, Walk: 1000, Rounds: 1}}, fewest.EndSpent},
		{"stopped", open, fewest.Settings{Stop: func() bool { return true }}, fewest.EndStopped},
	} {
		out, err := fewest.Solve(test.in, &test.set)
		if err != nil || out.End != test.want {
			t.Errorf("%s: %v, %v; want %v", test.name, out.End, err, test.want)
		}
		if test.want == fewest.EndStalled && out.Steps > 1_000_000 {
			t.Errorf("%s: %d steps", test.name, out.Steps)
		}
	}
}

// TestOdd solves instances at the edges of what can be asked.
func TestOdd(t *testing.T) {
	none := &rows.Instance{Plank: 10, Grid: 1}
	out, err := fewest.Solve(none, settings())
	if err != nil || out.Planks != 0 || out.Bound != 0 || len(out.Layout) != 0 {
		t.Errorf("no runs: %+v, %v", out, err)
	}
	fine := fourRows()
	fine.Plank = 100_000_000
	for i := range fine.Runs {
		fine.Runs[i].Length = 250_000_000
	}
	if _, err := fewest.Solve(fine, settings()); !errors.Is(err, rows.ErrTooLarge) {
		t.Errorf("a plank of 100,000,000 grid lines: %v", err)
	}
	// 50L serves the ender of one run and 50R the starter of another; the third offcut has no factory end, and no run
	// is one piece: 2 x 250 of new planks, one of them for 50 + 50 beside what the offcuts give.
	idle := &rows.Instance{
		Plank: 100, MinPiece: 20, Stagger: 20, Grid: 1, Runs: []rows.Run{{Length: 250}, {Length: 250}},
		Touch: [][2]int{{
			0,
			1,
		}},
		Offcuts: []rows.Offcut{
			{Length: 50, End: rows.EndLeft},
			{Length: 50, End: rows.EndRight},
			{Length: 100, End: rows.EndNone},
		},
	}
	out, err = fewest.Solve(idle, settings())
	if err != nil || out.Planks != 4 || out.Bound != 4 {
		t.Errorf("an offcut that no run can use: %+v, %v", out, err)
	}
	if err := out.Certificate.Verify(idle); err != nil {
		t.Error(err)
	}
}

// TestLeftOver closes by few cases what is left of a slanted room with offcuts on hand: the cheapest layouts leave
// different ones over, and each counts in full only where what it leaves is worth nothing.
func TestLeftOver(t *testing.T) {
	in := &rows.Instance{
		Plank: 390_400, Kerf: 1016, MinPiece: 65_024, MinEnder: 73_152, Stagger: 73_152, Grid: 508,
		Runs: []rows.Run{
			{From: 108_585, Length: 1_566_636, Beside: []measure.Length{328_988, 719_388, 1_109_788, 1_500_188}},
			{From: 164_534, Length: 1_510_282},
			{From: 220_483, Length: 1_453_929},
			{From: 276_432, Length: 1_397_576},
			{From: 332_381, Length: 1_341_139},
		},
		Touch: [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 4}},
	}
	for _, x := range []measure.Length{74_424, 84_076, 161_800, 275_592, 312_320} {
		in.Offcuts = append(in.Offcuts, rows.Offcut{Length: x, End: rows.EndLeft})
	}
	for _, x := range []measure.Length{73_579, 77_064, 83_695, 109_736, 213_947} {
		in.Offcuts = append(in.Offcuts, rows.Offcut{Length: x, End: rows.EndRight})
	}
	out, err := fewest.Solve(in, settings())
	if err != nil {
		t.Fatal(err)
	}
	if out.Planks != 16 || out.Bound != 16 || out.Steps > 1_000_000 || out.Leaves > 20 { // 16 is CBC's optimum too
		t.Errorf("%d planks, bound %d, %d steps, %d leaves", out.Planks, out.Bound, out.Steps, out.Leaves)
	}
	if err := out.Certificate.Verify(in); err != nil {
		t.Error(err)
	}
}

// TestSlantedHall lays 300 rows of which each is a little longer than the one before. No walk reaches the bound; what
// walks gain on the way must be kept: carrying the offcut is 0.4 % above the bound.
func TestSlantedHall(t *testing.T) {
	var out [][][2]measure.Length
	for i := range 300 {
		w := 600*in + measure.Length(i)*3*measure.Sixteenth
		out = append(out, [][2]measure.Length{{0, w}})
	}
	hall := instance(out, 48*in, in/8, 8*in, 8*in, measure.Sixteenth)
	result, err := fewest.Solve(hall, &fewest.Settings{Budget: &fewest.Brief})
	if err != nil {
		t.Fatal(err)
	}
	if gap := result.Planks - result.Bound; gap > result.Bound/1000 {
		t.Errorf("%d planks, bound %d", result.Planks, result.Bound)
	}
}

// TestFirstBoundLeavesSteps lays a hall of equal rows with fewer steps than its first bound would take: what settles it
// comes after that, and has half of them.
func TestFirstBoundLeavesSteps(t *testing.T) {
	const mm = measure.Millimetre
	out := make([][][2]measure.Length, 1_000)
	for i := range out {
		out[i] = [][2]measure.Length{{0, 60_000 * mm}}
	}
	budget := fewest.Normal
	budget.Steps = 50_000
	hall := instance(out, 1220*mm, 3*mm, 200*mm, 200*mm, mm)
	result, err := fewest.Solve(hall, &fewest.Settings{Budget: &budget})
	if err != nil {
		t.Fatal(err)
	}
	if result.End != fewest.EndSettled {
		t.Errorf("%d planks, bound %d, %d steps, end %d", result.Planks, result.Bound, result.Steps, result.End)
	}
}
