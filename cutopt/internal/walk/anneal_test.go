package walk_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/internal/walk"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// TestAnneal anneals the walks of layouts laid the trade's way, of floors whose rows are all of another length, some
// with runs in one piece, towards the planks that the material alone takes: what is said to reach them keeps every rule
// by the checks of package rows, every run is laid as it may be even where not, the moves are kept to, the same seed
// does alike, and most floors are reached.
func TestAnneal(t *testing.T) {
	const moves = 300_000
	floors, reached, banded := 0, 0, 0
	for seed := range uint64(oracle.Samples(24)) {
		r := rand.New(rand.NewPCG(seed, 61))
		in, way := longSlanted(r), walk.Course{Moves: moves, Most: moves}
		if seed%2 == 1 {
			in, way.Bands = alike(r), true
		}
		table := starters.New(in)
		start, ok := search.Carry(table)
		if !ok {
			continue
		}
		target := materialAndKerfs(in)
		if in.Count(start, nil) <= target {
			continue
		}
		floors++
		anneal := func() (rows.Layout, rows.Packing, int, bool) {
			return walk.Anneal(table, start, nil, target, way, rand.NewPCG(seed, 67), func() bool { return false })
		}
		got, beside, done, ok := anneal()
		if again, _, doneAgain, okAgain := anneal(); ok != okAgain || done != doneAgain || !slices.Equal(got, again) {
			t.Errorf("seed %d: %v after %d moves, then %v after %d", seed, ok, done, okAgain, doneAgain)
		}
		annealed(t, seed, in, got, done, moves)
		if !ok {
			continue
		}
		reached++
		if way.Bands {
			banded++
		}
		keeps(t, seed, in, got, beside, target)
	}
	t.Logf("%d of %d floors reach the planks that their material takes", reached, floors)
	if floors < 12 || 2*reached < floors || banded == 0 {
		t.Errorf("%d of %d floors reach the planks that their material takes", reached, floors)
	}
}

// materialAndKerfs is the planks that all runs take, each with a kerf, if nothing else is wasted.
func materialAndKerfs(in *rows.Instance) int {
	sum := measure.Length(0)
	for _, run := range in.Runs {
		sum += run.Length + in.Kerf
	}
	return int((sum + in.Plank - 1) / in.Plank)
}

// annealed holds what an annealing ended at against what is so even where it reaches nothing: it keeps to its moves,
// and every run is laid as it may be.
func annealed(t *testing.T, seed uint64, in *rows.Instance, layout rows.Layout, done, moves int) {
	t.Helper()
	if done > moves {
		t.Errorf("seed %d: %d moves of %d", seed, done, moves)
	}
	for i, s := range layout {
		if _, may := in.Lay(i, s); !may {
			t.Errorf("seed %d: run %d may not start with %d", seed, i, s)
		}
	}
}

// alike draws a floor of two stretches of rows that are as long within a step, and a few of other lengths between.
func alike(r *rand.Rand) *rows.Instance {
	in := longSlanted(r)
	in.Grid, in.Runs, in.Touch = 2, nil, nil
	in.Plank += in.Plank % 2
	for _, n := range []int{20 + r.IntN(20), 5 + r.IntN(10), 20 + r.IntN(20)} {
		w := 600 + 2*measure.Length(r.IntN(150))
		for range n {
			if n < 20 {
				w = measure.Length(600 + r.IntN(300))
			}
			if k := len(in.Runs); k > 0 {
				in.Touch = append(in.Touch, [2]int{k - 1, k})
			}
			in.Runs = append(in.Runs, rows.Run{Length: w + measure.Length(r.IntN(2))})
		}
	}
	return in
}

// TestBanded counts the rows of floors that are in bands: of neighbours that are alike eight or more.
func TestBanded(t *testing.T) {
	for _, row := range []struct {
		name    string
		lengths []measure.Length
		counts  []int
		want    int
	}{
		{"all alike", []measure.Length{500}, []int{12}, 12},
		{"too few", []measure.Length{500}, []int{7}, 0},
		{"two bands, some rows of one a plank longer", []measure.Length{500, 510, 610}, []int{9, 3, 8}, 20},
		{"parted by a row that turns else", []measure.Length{500, 511, 500}, []int{7, 1, 7}, 0},
		{"too short for joints of all rows to repeat", []measure.Length{190}, []int{12}, 0},
	} {
		in := &rows.Instance{Plank: 100, MinPiece: 10, Stagger: 20, Grid: 1}
		for k, n := range row.counts {
			for range n {
				if i := len(in.Runs); i > 0 {
					in.Touch = append(in.Touch, [2]int{i - 1, i})
				}
				in.Runs = append(in.Runs, rows.Run{Length: row.lengths[k]})
			}
		}
		table := starters.New(in)
		layout, ok := search.Carry(table)
		if !ok {
			t.Fatalf("%s: no layout", row.name)
		}
		if got := walk.Banded(table, layout); got != row.want {
			t.Errorf("%s: %d rows in bands, want %d", row.name, got, row.want)
		}
	}
}

// TestNarrow holds the count of narrow stretches against all orders of a band's starters: where there is none, some
// order has no two neighbours nearer than the stagger if the circle has a gap as wide; where there are some, none has.
func TestNarrow(t *testing.T) {
	const circle, stagger = 60, 14
	may, not := 0, 0
	for seed := range uint64(oracle.Samples(1500)) {
		r := rand.New(rand.NewPCG(seed, 79))
		at := make([]int32, 2+r.IntN(6))
		for i := range at {
			at[i] = int32(r.IntN(circle - stagger))
		}
		dealt := ordered(at, 0, func(a, b int32) bool {
			d := max(a-b, b-a)
			return min(d, circle-d) >= stagger
		})
		if narrow := walk.Narrow(circle, stagger, slices.Clone(at)); (narrow == 0) != dealt {
			t.Errorf("seed %d: %d narrow stretches of %v, an order keeps the stagger: %v", seed, narrow, at, dealt)
		}
		if dealt {
			may++
		} else {
			not++
		}
	}
	if may == 0 || not == 0 {
		t.Errorf("%d bands can be dealt, %d not", may, not)
	}
}

// TestNarrowMoved holds the count after moves against that of a band that lies so from the start: many starters at
// either end of about a stagger, on circles whose sectors are one step, several and not all as long.
func TestNarrowMoved(t *testing.T) {
	narrow := 0
	for seed := range uint64(oracle.Samples(1500)) {
		r := rand.New(rand.NewPCG(seed, 83))
		circle := [...]int32{60, 576, 577, 1000}[seed%4]
		stagger := circle/5 + int32(r.IntN(20))
		cluster, about := int32(r.IntN(int(circle))), stagger-3+int32(r.IntN(5)) // as wide as the stagger, about
		place := func() int32 {
			if r.IntN(3) == 0 {
				return int32(r.IntN(int(circle + 1)))
			}
			return (cluster + int32(r.IntN(2))*about) % circle
		}
		at := make([]int32, 2+r.IntN(40))
		for i := range at {
			at[i] = place()
		}
		moved, moves := slices.Clone(at), make([][2]int32, r.IntN(60))
		for k := range moves {
			moves[k] = [2]int32{int32(r.IntN(len(at))), place()}
			moved[moves[k][0]] = moves[k][1]
		}
		got, want := walk.Narrow(circle, stagger, at, moves...), 0
		sorted := slices.Sorted(slices.Values(moved))
		m := len(sorted)
		for j, from := range sorted {
			to := slices.Concat(sorted, sorted)[j+m/2]
			if j+m/2 >= m {
				to += circle
			}
			if to-from < stagger {
				want++
			}
		}
		if m%2 == 1 && want > 0 {
			want--
		}
		if got != want {
			t.Errorf("seed %d: %d narrow stretches of %v, want %d", seed, got, sorted, want)
		}
		narrow += want
	}
	if narrow == 0 {
		t.Error("no stretch is narrow")
	}
}

// ordered reports whether some order of what follows the first n keeps every neighbour apart.
func ordered(at []int32, n int, apart func(a, b int32) bool) bool {
	if n == len(at) {
		return true
	}
	for k := n; k < len(at); k++ {
		at[n], at[k] = at[k], at[n]
		ok := (n == 0 || apart(at[n-1], at[n])) && ordered(at, n+1, apart)
		at[n], at[k] = at[k], at[n]
		if ok {
			return true
		}
	}
	return false
}

// longSlanted draws a floor of 40 to 80 rows that grow and shift, a few with a run in one piece beside them.
func longSlanted(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(150 + r.IntN(150)), Kerf: measure.Length(r.IntN(2)), MinPiece: 20,
		Stagger: measure.Length(20 + r.IntN(10)), Grid: 1,
	}
	w, from, grow := measure.Length(500+r.IntN(300)), measure.Length(0), measure.Length(1+r.IntN(9))
	for i := range 40 + r.IntN(40) {
		in.Runs = append(in.Runs, rows.Run{From: from, Length: w})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
		w, from = w+grow, from-measure.Length(r.IntN(4))
	}
	for range r.IntN(4) {
		in.Runs = append(in.Runs, rows.Run{Length: measure.Length(30 + r.IntN(int(in.Plank)-29))})
	}
	return in
}
