package quality_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/internal/search"
	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// strip is rows of one length under each other with planks of 60, steps of 1 and no kerf.
func strip(length measure.Length, starters ...measure.Length) (*quality.Problem, rows.Layout) {
	p := &quality.Problem{Instance: &rows.Instance{Plank: 60, MinPiece: 1, Grid: 1}, InLine: 2, Prefer: 20, Round: 5}
	for i := range starters {
		p.Instance.Runs = append(p.Instance.Runs, rows.Run{Length: length})
		p.Row = append(p.Row, i)
		if i > 0 {
			p.Instance.Touch = append(p.Instance.Touch, [2]int{i - 1, i})
		}
	}
	return p, starters
}

// figure returns the figure of an aim.
func figure(p *quality.Problem, layout rows.Layout, cutting *rows.Cutting, aim cutopt.Aim) int {
	q := quality.Measure(p, layout, cutting)
	return map[cutopt.Aim]int{
		cutopt.AimHJoints: q.HJoints, cutopt.AimChains: q.Chains, cutopt.AimStaircases: q.Staircases,
		cutopt.AimClusters: q.Clusters,
		cutopt.AimStagger:  int(q.LeastStagger), cutopt.AimCrosscuts: q.Crosscuts, cutopt.AimOffcuts: q.OffcutsAtOnce,
		cutopt.AimWaiting: q.RowsWaited, cutopt.AimFigures: q.OddStarters, cutopt.AimPlanks: len(cutting.Planks),
	}[aim]
}

// quick and normal are as package solve has them.
var (
	quick  = quality.Budget{PerRun: 100, AtMost: 20_000}
	normal = quality.Budget{PerRun: 400, AtMost: 100_000}
)

// TestMeasure counts the figures of small floors by hand.
func TestMeasure(t *testing.T) {
	for _, c := range []struct {
		reason   string
		length   measure.Length
		starters []measure.Length
		aim      cutopt.Aim
		want     int
	}{
		{"in line two rows apart, one joint a row", 100, []measure.Length{50, 80 - 60, 51}, cutopt.AimHJoints, 1},
		{"just in line", 100, []measure.Length{48, 20, 50}, cutopt.AimHJoints, 1},
		{"just not in line", 100, []measure.Length{48, 20, 51}, cutopt.AimHJoints, 0},
		{"two joints a row, both pairs in line", 130, []measure.Length{40, 20, 41}, cutopt.AimHJoints, 2},
		{"joints at 1, 61, 121 and at 59, 119", 130, []measure.Length{1, 30, 59}, cutopt.AimHJoints, 2},
		{"steps of 10, one joint a row", 95, []measure.Length{40, 50, 60, 60}, cutopt.AimStaircases, 0},
		{"four joints, three steps of 6", 95, []measure.Length{38, 44, 50, 56}, cutopt.AimStaircases, 1},
		{"the same to the left", 95, []measure.Length{56, 50, 44, 38}, cutopt.AimStaircases, 1},
		{"steps of 5, 7 and 6 are equal within 2", 95, []measure.Length{38, 43, 50, 56}, cutopt.AimStaircases, 1},
		{"steps of 5, 8 and 5 are not", 95, []measure.Length{38, 43, 51, 56}, cutopt.AimStaircases, 0},
		{"steps of 2 are in line, no staircase", 95, []measure.Length{38, 40, 42, 44}, cutopt.AimStaircases, 0},
		{"steps of half a plank are none either way", 185, []measure.Length{10, 40, 10, 40}, cutopt.AimStaircases, 0},
		{"a staircase past the plank's end: joints 40 100 160, 55 115 175, 10 70 130, 25 85 145", 185, []measure.Length{
			40,
			55, 10, 25,
		}, cutopt.AimStaircases, 2},
		{
			"five rows of four steps are two staircases", 95,
			[]measure.Length{36, 42, 48, 54, 60},
			cutopt.AimStaircases,
			2,
		},
		{
			"five steps to the right, of 3, 9, 1, 20 and 5", 185,
			[]measure.Length{10, 13, 22, 23, 43, 48},
			cutopt.AimChains, 1,
		},
		{
			"past the plank's end: 40, 50, 59, 9 (10 on), 20, 31", 185,
			[]measure.Length{40, 50, 59, 9, 20, 31},
			cutopt.AimChains, 1,
		},
		{"four and one the other way", 185, []measure.Length{10, 13, 22, 23, 43, 38}, cutopt.AimChains, 0},
		{"half a plank goes neither way", 185, []measure.Length{10, 13, 22, 52, 53, 54, 55}, cutopt.AimChains, 0},
		{"in line goes neither way", 185, []measure.Length{10, 13, 22, 22, 23, 24, 25}, cutopt.AimChains, 0},
		{
			"seven to the left end three times", 185,
			[]measure.Length{50, 45, 40, 35, 30, 25, 20, 15},
			cutopt.AimChains,
			3,
		},
		{"within 20", 95, []measure.Length{36, 46, 56, 46}, cutopt.AimClusters, 1},
		{"within 21", 95, []measure.Length{36, 46, 57, 46}, cutopt.AimClusters, 0},
		{"least stagger", 185, []measure.Length{10, 57, 30}, cutopt.AimStagger, 13},
		{"no joints beside each other", 60, []measure.Length{0, 0}, cutopt.AimStagger, 60},
		{"starters of 10, 57 and a whole plank", 185, []measure.Length{10, 57, 60}, cutopt.AimFigures, 1},
		{"each starter and each ender is cut", 185, []measure.Length{10, 57, 30}, cutopt.AimCrosscuts, 6},
		{
			"an ender of 25 and a starter of 35 take one cut: 30 and 30 another", 85,
			[]measure.Length{60, 35},
			cutopt.AimCrosscuts, 2,
		},
		{"whole planks take none", 120, []measure.Length{60, 60}, cutopt.AimCrosscuts, 0},
	} {
		p, layout := strip(c.length, c.starters...)
		if err := p.Instance.Check(layout); err != nil {
			t.Fatalf("%s: %v", c.reason, err)
		}
		if got := figure(p, layout, p.Instance.Cut(layout, nil), c.aim); got != c.want {
			t.Errorf("%s: %d, want %d", c.reason, got, c.want)
		}
	}
}

// TestMeasureKept follows offcuts by hand.
func TestMeasureKept(t *testing.T) {
	p, layout := strip(80, 55, 30, 40, 30) // enders of 25, 50, 40 and 50
	p.Instance.Plank = 90
	part := func(run int, k rows.Role, x measure.Length) rows.Part { return rows.Part{Run: run, Role: k, Length: x} }
	cutting := &rows.Cutting{Planks: [][]rows.Part{
		{part(0, rows.RoleEnder, 25), part(3, rows.RoleStarter, 30)},
		{part(0, rows.RoleStarter, 55)},
		{part(1, rows.RoleEnder, 50)},
		{part(2, rows.RoleEnder, 40), part(2, rows.RoleStarter, 40)},
		{part(1, rows.RoleStarter, 30)},
		{part(3, rows.RoleEnder, 50)},
	}}
	got := quality.Measure(p, layout, cutting)
	if got.OffcutsAtOnce != 1 || got.RowsWaited != 2 {
		t.Errorf("one from row 0 to row 3: %d at once, %d rows waited; want 1 and 2", got.OffcutsAtOnce, got.RowsWaited)
	}
	cutting.Planks = [][]rows.Part{
		{part(0, rows.RoleEnder, 25), part(3, rows.RoleStarter, 30)},
		{part(0, rows.RoleStarter, 55)},
		{part(1, rows.RoleEnder, 50), part(2, rows.RoleStarter, 40)},
		{part(2, rows.RoleEnder, 40), part(1, rows.RoleStarter, 30)},
		{part(3, rows.RoleEnder, 50)},
	}
	got = quality.Measure(p, layout, cutting)
	if got.OffcutsAtOnce != 3 || got.RowsWaited != 2 {
		t.Errorf(
			"one from row 0 to row 3, two from row 1 to row 2: %d at once, %d rows waited; want 3 and 2",
			got.OffcutsAtOnce,
			got.RowsWaited,
		)
	}
}

// draw makes a floor of several runs a row, some too short for a joint, with a layout as the trade lays it.
func draw(r *rand.Rand) (*quality.Problem, rows.Layout, bool) {
	in := &rows.Instance{
		Plank: measure.Length(
			40 + r.IntN(40),
		), Kerf: measure.Length(r.IntN(2)), MinPiece: measure.Length(4 + r.IntN(5)), Grid: measure.Length(1 +
			r.IntN(2)),
	}
	in.Stagger = in.MinPiece
	p := &quality.Problem{Instance: in, InLine: measure.Length(r.IntN(4)), Prefer: 2 * in.Stagger, Round: 5}
	if r.IntN(2) == 0 {
		p.Fit = 1
		in.MinEnder = in.MinPiece + 2
	}
	var before []int
	for row := range 3 + r.IntN(12) {
		var here []int
		x := measure.Length(r.IntN(10))
		for range 1 + r.IntN(2) {
			run := rows.Run{From: x, Length: measure.Length(20 + r.IntN(200))}
			x += run.Length + measure.Length(1+r.IntN(30))
			i := len(in.Runs)
			in.Runs, p.Row, here = append(in.Runs, run), append(p.Row, row), append(here, i)
			for _, j := range before {
				if o := in.Runs[j]; o.From < run.From+run.Length && run.From < o.From+o.Length {
					in.Touch = append(in.Touch, [2]int{j, i})
				}
			}
		}
		before = here
	}
	layout, ok := search.Carry(starters.New(in))
	return p, layout, ok && in.Check(layout) == nil
}

// TestImprove improves random floors in random orders of aims: rules and planks are kept, all pieces are cut, the first
// figure that differs is better, and it does the same again.
func TestImprove(t *testing.T) {
	improved := 0
	for seed := range uint64(oracle.Samples(200)) {
		r := rand.New(rand.NewPCG(seed, 91))
		p, layout, ok := draw(r)
		if !ok {
			continue
		}
		cutting := p.Instance.Cut(layout, nil)
		order := slices.Clone(allAims)
		r.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		set := &quality.Settings{
			Order:  order[:1+r.IntN(len(order))],
			Cap:    len(cutting.Planks) + r.IntN(4),
			Budget: quick,
			Seed:   seed,
		}
		p.Fixed = r.IntN(8) == 0
		out := quality.Improve(p, layout, cutting, set)
		if err := p.Instance.Check(out.Layout); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		if p.Fixed && !slices.Equal(out.Layout, layout) {
			t.Errorf("seed %d: starters that are fixed have moved", seed)
		}
		if got := len(out.Cutting.Planks); got > set.Cap {
			t.Errorf("seed %d: %d planks of %d", seed, got, set.Cap)
		}
		complete(t, seed, p.Instance, out)
		for _, a := range set.Order {
			x, y := figure(p, layout, cutting, a), figure(p, out.Layout, out.Cutting, a)
			switch a {
			case cutopt.AimStagger:
				x, y = -min(x, int(p.Prefer), int(p.Instance.Plank)/2), -min(y, int(p.Prefer), int(p.Instance.Plank)/2)
			case cutopt.AimOffcuts:
				x, y = max(x, 1), max(y, 1)
			}
			if y > x {
				t.Errorf("seed %d: %v of %v went from %d to %d", seed, a, set.Order, x, y)
			}
			if y < x {
				improved++
			}
			if y != x {
				break
			}
		}
		if diff := cmp.Diff(out, quality.Improve(p, layout, cutting, set)); diff != "" {
			t.Errorf("seed %d: the second time: %s", seed, diff)
		}
	}
	if improved < 150 {
		t.Errorf("only %d floors were improved", improved)
	}
}

// remaining counts the cuts of a floor but those of starters that are laid as their offcuts come.
func remaining(p *quality.Problem, layout rows.Layout, cutting *rows.Cutting) int {
	in, n := p.Instance, figure(p, layout, cutting, cutopt.AimCrosscuts)
	for _, parts := range cutting.Planks {
		last := parts[len(parts)-1]
		if len(parts) < 2 || parts[0].Role != rows.RoleEnder || last.Role != rows.RoleStarter || p.Sawn[last.Run] ||
			p.Row[last.Run] > p.Row[parts[0].Run]+1 {
			continue
		}
		longer, laidLast := in.Plank-last.Length, true
		for _, part := range parts[:len(parts)-1] {
			longer -= part.Length - p.Fit + in.Kerf
			laidLast = laidLast && part.Run < last.Run
		}
		ender := in.Runs[last.Run].Length - 2*p.Fit - layout[last.Run] - longer // as short as it may come out
		for ender > in.Plank-2*p.Fit {
			ender -= in.Plank
		}
		if laidLast && longer > 0 && longer <= p.AsItComes && ender+p.Fit >= max(in.MinPiece, in.MinEnder) {
			n--
		}
	}
	return n
}

// TestAsItComes improves the cuts that remain: they never get more, and where offcuts hardly longer than their starters
// need none, floors end with fewer.
func TestAsItComes(t *testing.T) {
	sawn, loose := 0, 0
	for seed := range uint64(oracle.Samples(60)) {
		r := rand.New(rand.NewPCG(seed, 92))
		p, layout, ok := draw(r)
		if !ok {
			continue
		}
		cutting := p.Instance.Cut(layout, nil)
		set := &quality.Settings{
			Order: []cutopt.Aim{cutopt.AimCrosscuts}, Cap: len(cutting.Planks), Budget: quick, Seed: seed,
		}
		all := quality.Improve(p, layout, cutting, set)
		p.AsItComes, p.Sawn = 1+measure.Length(r.IntN(6)), make([]bool, len(layout))
		p.Sawn[r.IntN(len(layout))] = true
		out := quality.Improve(p, layout, cutting, set)
		if x, y := remaining(p, layout, cutting), remaining(p, out.Layout, out.Cutting); y > x {
			t.Errorf("seed %d: cuts that remain went from %d to %d", seed, x, y)
		}
		sawn += remaining(p, all.Layout, all.Cutting)
		loose += remaining(p, out.Layout, out.Cutting)
	}
	if loose >= sawn {
		t.Errorf("%d cuts remain, %d where all starters are sawn while they are improved", loose, sawn)
	}
}

// complete checks that the planks hold every piece of the layout once, in an order and of a length that fits.
func complete(t *testing.T, seed uint64, in *rows.Instance, out *quality.Outcome) {
	t.Helper()
	got, want := make(map[rows.Part]int), make(map[rows.Part]int)
	for _, parts := range out.Cutting.Planks {
		used := -in.Kerf
		for k, p := range parts {
			used += p.Length + in.Kerf
			got[p]++
			if p.Length < in.Plank && (p.Role == rows.RoleEnder && k > 0 || p.Role == rows.RoleStarter &&
				k < len(parts)-1) {
				t.Errorf("seed %d: an end of the wrong hand: %v", seed, parts)
			}
		}
		if used > in.Plank {
			t.Errorf("seed %d: %v take %d of %d", seed, parts, used, in.Plank)
		}
	}
	for i, s := range out.Layout {
		p, _ := in.Lay(i, s)
		if p.Single > 0 {
			want[rows.Part{Run: i, Role: rows.RoleSingle, Length: p.Single}]++
			continue
		}
		want[rows.Part{Run: i, Role: rows.RoleStarter, Length: p.Starter}]++
		want[rows.Part{Run: i, Role: rows.RoleEnder, Length: p.Ender}]++
		if p.Field > 0 {
			want[rows.Part{Run: i, Role: rows.RoleField, Length: in.Plank}] += p.Field
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("seed %d: pieces: %s", seed, diff)
	}
}
