package change_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt/internal/change"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// tiny draws a floor of a few runs, some of it laid, with offcuts on hand.
func tiny(r *rand.Rand) *rows.Instance {
	in := &rows.Instance{
		Plank: measure.Length(8 + r.IntN(7)), Kerf: measure.Length(r.IntN(2)), MinPiece: measure.Length(1 + r.IntN(3)),
		Stagger: measure.Length(r.IntN(3)), Grid: 1,
	}
	w := measure.Length(9 + r.IntN(20))
	for i := range 2 + r.IntN(3) {
		in.Runs = append(in.Runs, rows.Run{From: measure.Length(r.IntN(3)), Length: max(w+measure.Length(r.IntN(5)-2), 1)})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	for range r.IntN(4) {
		in.Offcuts = append(in.Offcuts, rows.Offcut{
			Length: 1 + measure.Length(r.IntN(int(in.Plank)-1)), End: []rows.End{rows.EndLeft, rows.EndRight}[r.IntN(2)],
		})
	}
	if r.IntN(2) == 0 {
		oracle.Begin(r, in)
	}
	return in
}

// leastChange goes through all layouts that need no more planks than most, and returns the least that one changes.
func leastChange(in *rows.Instance, before rows.Layout, cost []int, most int) int {
	best := -1
	layout := make(rows.Layout, len(in.Runs))
	var lay func(i, sum int)
	lay = func(i, sum int) {
		if best >= 0 && sum >= best {
			return
		}
		if i == len(layout) {
			if in.Check(layout) == nil && in.Count(layout, nil) <= most {
				best = sum
			}
			return
		}
		for s := range in.Plank + 1 {
			if _, ok := in.Lay(i, s); ok {
				layout[i] = s
				more := 0
				if before[i] != change.None && before[i] != s {
					more = cost[i]
				}
				lay(i+1, sum+more)
			}
		}
	}
	lay(0, 0)
	return best
}

// TestLeastAgainstBruteForce: on tiny floors no layout that needs no more changes less.
func TestLeastAgainstBruteForce(t *testing.T) {
	n, equal, all := uint64(oracle.Samples(80)), 0, 0
	for seed := range n {
		r := rand.New(rand.NewPCG(seed, 51))
		in := tiny(r)
		out, err := fewest.Solve(in, &fewest.Settings{Workers: 1, Stop: func() bool { return false }})
		if err != nil {
			continue
		}
		before, cost := make(rows.Layout, len(in.Runs)), make([]int, len(in.Runs))
		for i := range before {
			before[i], cost[i] = change.None, 1+5*r.IntN(2)
			if r.IntN(8) > 0 {
				before[i] = measure.Length(r.IntN(int(in.Plank) + 1))
			}
			if in.Runs[i].Starter > 0 {
				before[i] = in.Runs[i].Starter
			}
		}
		most := out.Planks + r.IntN(2)
		got := change.Least(&change.Problem{
			Instance: in, Before: before, Cost: cost, Cap: most, Layout: out.Layout, Packing: out.Packing, Steps: 760_000,
			Stop: func() bool { return false },
		})
		if err := in.Check(got.Layout); err != nil || in.Count(got.Layout, got.Packing) > most {
			t.Fatalf("seed %d: %d planks, %d allowed: %v", seed, in.Count(got.Layout, got.Packing), most, err)
		}
		all++
		switch want := leastChange(in, before, cost, most); {
		case got.Cost == want:
			equal++
		case got.Cost < want:
			t.Fatalf("seed %d: changes of %d, none can have fewer than %d", seed, got.Cost, want)
		default:
			t.Logf("seed %d: changes of %d, %d would do", seed, got.Cost, want)
		}
	}
	t.Logf("%d of %d floors are changed least", equal, all)
	if equal < all*98/100 {
		t.Errorf("%d of %d floors are changed least", equal, all)
	}
}

// TestLooks: a floor that looks better is changed as little, keeps the rules and needs no more; what is laid as before
// stays.
func TestLooks(t *testing.T) {
	better, all := 0, 0
	for seed := range uint64(oracle.Samples(80)) {
		r := rand.New(rand.NewPCG(seed, 53))
		in := tiny(r)
		out, err := fewest.Solve(in, &fewest.Settings{Workers: 1, Stop: func() bool { return false }})
		if err != nil {
			continue
		}
		before, cost := make(rows.Layout, len(in.Runs)), slices.Repeat([]int{1}, len(in.Runs))
		for i := range before {
			if before[i] = in.Runs[i].Starter; before[i] == 0 {
				before[i] = measure.Length(r.IntN(int(in.Plank) + 1))
			}
		}
		p := &change.Problem{
			Instance: in, Before: before, Cost: cost, Cap: out.Planks + r.IntN(2), Layout: out.Layout, Packing: out.Packing,
			Steps: 760_000, Stop: func() bool { return false },
		}
		plain := change.Least(p)
		odd := func(layout rows.Layout) (n int) {
			for _, x := range layout {
				n += int(x % 3)
			}
			return n
		}
		p.Looks = odd
		got := change.Least(p)
		if err := in.Check(got.Layout); err != nil || in.Count(got.Layout, got.Packing) > p.Cap || got.Cost != plain.Cost {
			t.Fatalf("seed %d: %+v, without looks %+v: %v", seed, got, plain, err)
		}
		for i, x := range got.Layout {
			if x != plain.Layout[i] && plain.Layout[i] == before[i] {
				t.Errorf("seed %d: run %d was laid as before, and is not for looks", seed, i)
			}
		}
		if odd(got.Layout) > odd(plain.Layout) {
			t.Errorf("seed %d: looks of %d, and %d where they are not heeded", seed, odd(got.Layout), odd(plain.Layout))
		}
		if all++; odd(got.Layout) < odd(plain.Layout) {
			better++
		}
	}
	t.Logf("%d of %d floors look better", better, all)
	if better*4 < all {
		t.Errorf("%d of %d floors look better", better, all)
	}
}

// TestCut holds cuttings of random floors: every piece once, each board within its length and with one piece at each
// end, no more planks than allowed, and what was cut together stays so where that needs no more.
func TestCut(t *testing.T) {
	for seed := range uint64(oracle.Samples(60)) {
		r := rand.New(rand.NewPCG(seed, 52))
		in := tiny(r)
		if seed%3 == 0 {
			for i := range in.Runs {
				if in.Runs[i].Starter == 0 && r.IntN(2) == 0 {
					in.Runs[i].Length = measure.Length(1 + r.IntN(int(in.Plank)))
				}
			}
		}
		out, err := fewest.Solve(in, &fewest.Settings{Workers: 1, Stop: func() bool { return false }})
		if err != nil {
			continue
		}
		begun := 0
		for _, run := range in.Runs {
			if run.Starter == in.Plank {
				begun++
			}
		}
		most := out.Planks + r.IntN(2)
		first := change.Cut(in, out.Layout, out.Packing, nil, most)
		held(t, seed, in, out.Layout, first, most-begun)
		var before []change.Group
		for o, parts := range first.Offcuts {
			before = append(before, change.Group{Hand: o, Parts: parts})
		}
		for _, parts := range first.Planks {
			before = append(before, change.Group{Hand: -1, Parts: parts})
		}
		again := change.Cut(in, out.Layout, out.Packing, before, most)
		held(t, seed, in, out.Layout, again, most-begun)
		if len(again.Planks) != len(first.Planks) {
			t.Fatalf("seed %d: %d planks, before %d", seed, len(again.Planks), len(first.Planks))
		}
		for o := range first.Offcuts {
			if !slices.Equal(first.Offcuts[o], again.Offcuts[o]) {
				t.Fatalf("seed %d: offcut %d: %v, before %v", seed, o, again.Offcuts[o], first.Offcuts[o])
			}
		}
		for k := range first.Planks {
			if !slices.Equal(first.Planks[k], again.Planks[k]) {
				t.Fatalf("seed %d: plank %d: %v, before %v", seed, k, again.Planks[k], first.Planks[k])
			}
		}
	}
}

// held holds a cutting of a layout.
func held(t *testing.T, seed uint64, in *rows.Instance, layout rows.Layout, cut *rows.Cutting, most int) {
	t.Helper()
	want := make(map[rows.Part]int)
	for i, s := range layout {
		p, _ := in.Lay(i, s)
		if in.Runs[i].Starter != in.Plank && p.Starter > 0 {
			want[rows.Part{Run: i, Role: rows.RoleStarter, Length: p.Starter}]++
		}
		if p.Ender > 0 {
			want[rows.Part{Run: i, Role: rows.RoleEnder, Length: p.Ender}]++
		}
		if p.Single > 0 {
			want[rows.Part{Run: i, Role: rows.RoleSingle, Length: p.Single}]++
		}
		if p.Field > 0 {
			want[rows.Part{Run: i, Role: rows.RoleField, Length: in.Plank}] += p.Field
		}
	}
	board := func(parts []rows.Part, length measure.Length, starter, ender bool) {
		sum, roles := -in.Kerf, [4]int{}
		for _, p := range parts {
			want[p]--
			sum += p.Length + in.Kerf
			roles[p.Role]++
		}
		if sum > length || roles[rows.RoleStarter] > 1 || roles[rows.RoleEnder] > 1 ||
			roles[rows.RoleStarter] > 0 && !starter || roles[rows.RoleEnder] > 0 && !ender {
			t.Fatalf("seed %d: %v do not come from %d", seed, parts, length)
		}
	}
	for _, parts := range cut.Planks {
		board(parts, in.Plank, true, true)
	}
	for o, parts := range cut.Offcuts {
		board(parts, in.Offcuts[o].Length, in.Offcuts[o].End == rows.EndRight, in.Offcuts[o].End == rows.EndLeft)
	}
	for p, n := range want {
		if n != 0 {
			t.Fatalf("seed %d: %+v is cut %d times too few", seed, p, n)
		}
	}
	if len(cut.Planks) > most {
		t.Fatalf("seed %d: %d planks are cut, %d allowed", seed, len(cut.Planks), most)
	}
}

// The rest of a hall for which just as many planks are here as the fewest that will do, one run in hand: walks from the
// layout before end nowhere, so what changes little is found from the layout of fewest planks alone. Costs are those of
// pieces that are sawn already.
func TestNotAPlankOver(t *testing.T) {
	run := func(from, length measure.Length) rows.Run { return rows.Run{From: from, Length: length} }
	in := &rows.Instance{
		Plank: 292608, Kerf: 1016, MinPiece: 65024, MinEnder: 73152, Stagger: 56896, Grid: 508,
		Runs: []rows.Run{
			{From: 1070864, Length: 580135, Starter: 292608},
			{Length: 1650999, Beside: []measure.Length{193040, 485648, 778256, 1070864}},
			run(36576, 1583943), run(572678, 454875), run(572678, 454875), run(572678, 454875), run(572678, 454875),
			run(2032, 503936), run(2032, 503936), run(2032, 503936), run(2032, 503936), run(2032, 503936),
		},
		Touch: [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 4}, {4, 5}, {5, 6}, {7, 8}, {8, 9}, {9, 10}, {10, 11}},
		Offcuts: []rows.Offcut{
			{Length: 509, End: rows.EndNone},
			{Length: 67565, End: rows.EndRight},
			{Length: 5081, End: rows.EndNone},
			{Length: 5081, End: rows.EndNone},
			{Length: 14225, End: rows.EndRight},
			{Length: 185928, End: rows.EndLeft},
			{Length: 15240, End: rows.EndLeft},
			{Length: 98552, End: rows.EndLeft},
			{Length: 268224, End: rows.EndLeft},
			{Length: 23368, End: rows.EndRight},
		},
	}
	before := rows.Layout{292608, 292608, 180848, 65024, 276352, 170688, 65024, 97536, 211328, 80264, 292608, 138176}
	cost := []int{1, 1, 1, 1, 14, 1, 27, 1, 1, 1, 1, 1}
	out, err := fewest.Solve(in, &fewest.Settings{
		Workers: 1, Budget: &fewest.Site, Start: before, Stop: func() bool { return false },
	})
	if err != nil {
		t.Fatal(err)
	}
	for seed := range uint64(2) {
		got := change.Least(&change.Problem{
			Instance: in, Before: before, Cost: cost, Cap: in.Count(out.Layout, out.Packing), Layout: out.Layout,
			Packing: out.Packing, Steps: 760_000, Seed: seed,
		})
		if in.Check(got.Layout) != nil || got.Cost > 13 {
			t.Errorf("seed %d: what changes costs %d, want runs alone that are not sawn: %v", seed, got.Cost, got.Layout)
		}
	}
}
