package rows_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// fewest is the least number of new planks for a layout, over every way to part its sawn pieces among planks and
// offcuts: best[set] is the least for a set of pieces, and the lowest piece of a set is on the plank taken off it.
func fewest(in *rows.Instance, layout rows.Layout) int {
	type item struct {
		kind   rows.Role
		length measure.Length
	}
	var items []item
	whole := 0
	add := func(kind rows.Role, length measure.Length) {
		if length == in.Plank {
			whole++
		} else if length > 0 {
			items = append(items, item{kind, length})
		}
	}
	for i, s := range layout {
		p, _ := in.Lay(i, s)
		whole += p.Field
		add(rows.RoleStarter, p.Starter)
		add(rows.RoleEnder, p.Ender)
		add(rows.RoleSingle, p.Single)
	}
	n := len(items)
	fits := func(set int, length measure.Length, end rows.End) bool {
		used, starters, enders := -in.Kerf, 0, 0
		for k := range n {
			if set>>k&1 == 0 {
				continue
			}
			used += items[k].length + in.Kerf
			switch items[k].kind {
			case rows.RoleStarter:
				starters++
			case rows.RoleEnder:
				enders++
			}
		}
		return used <= length && starters <= 1 && enders <= 1 &&
			(starters == 0 || end == "both" || end == rows.EndRight) && (enders == 0 || end == "both" ||
			end == rows.EndLeft)
	}
	onPlank := make([]bool, 1<<n)
	best := make([]int, 1<<n)
	for set := 1; set < 1<<n; set++ {
		onPlank[set] = fits(set, in.Plank, "both")
		low := set & -set
		best[set] = n + 1
		for part := set; part > 0; part = (part - 1) & set {
			if part&low != 0 && onPlank[part] {
				best[set] = min(best[set], 1+best[set&^part])
			}
		}
	}
	for _, o := range in.Offcuts { // an offcut takes any set off the rest
		with := make([]int, 1<<n)
		for set := range with {
			with[set] = best[set]
			for part := set; part > 0; part = (part - 1) & set {
				if best[set&^part] < with[set] && fits(part, o.Length, o.End) {
					with[set] = best[set&^part]
				}
			}
		}
		best = with
	}
	return whole + best[1<<n-1]
}

// TestCountIsLeast holds Count against every way to cut the pieces of small layouts with one-piece runs. Without
// offcuts on hand it is equal; with them it is never below, and how often it is above is held too.
func TestCountIsLeast(t *testing.T) {
	const samples = 1000
	above, of := 0, 0
	for seed := range uint64(samples) {
		r := rand.New(rand.NewPCG(seed, 7))
		in, layout := draw(r, true)
		n := min(len(layout), 4)
		in.Runs, layout = in.Runs[:n], layout[:n]
		for range 1 + r.IntN(4) {
			in.Runs, layout = append(in.Runs, rows.Run{Length: measure.Length(1 + r.IntN(int(in.Plank)))}),
				append(layout, 0)
		}
		if seed%4 == 0 {
			drawOffcuts(r, in, 4)
		}
		got, want := in.Count(layout, nil), fewest(in, layout)
		if len(in.Offcuts) == 0 && got != want || got < want {
			t.Errorf("seed %d: %d planks, every way to cut says %d", seed, got, want)
		}
		if fit := in.CountBestFit(layout); fit < got {
			t.Errorf("seed %d: %d planks by best fit, Count says %d", seed, fit, got)
		}
		if len(in.Offcuts) > 0 {
			of++
			if got > want {
				above++
			}
		}
	}
	t.Logf("with offcuts on hand %d of %d layouts need fewer than Count says", above, of)
	if above > of/20 {
		t.Errorf("with offcuts on hand %d of %d layouts need fewer", above, of)
	}
}

// TestManySingles holds that packing many one-piece runs is bounded, and that the count is never below the
// material over that of a plank.
func TestManySingles(t *testing.T) {
	for seed := range uint64(20) {
		r := rand.New(rand.NewPCG(seed, 8))
		in := &rows.Instance{Plank: 1000, Kerf: 3, MinPiece: 100, Grid: 1}
		var layout rows.Layout
		material := measure.Length(0)
		for i := range 300 {
			in.Runs = append(in.Runs, rows.Run{Length: measure.Length(100 + r.IntN(700))})
			layout = append(layout, 0)
			if i%3 > 0 { // a starter of 100 to 799 and an ender of 100 to 799
				layout[i] = measure.Length(100 + r.IntN(700))
				in.Runs[i].Length += layout[i]
			}
		}
		if err := in.Check(layout); err != nil {
			t.Fatal(err)
		}
		for i, s := range layout {
			p, _ := in.Lay(i, s)
			for _, x := range []measure.Length{p.Starter, p.Ender, p.Single, measure.Length(p.Field) * in.Plank} {
				if x > 0 {
					material += x + in.Kerf
				}
			}
		}
		if got, least := in.Count(layout, nil), int((material+1002)/1003); got < least {
			t.Errorf("seed %d: %d planks, the material alone is %d", seed, got, least)
		}
	}
}

// TestOnlySingles packs 40 one-piece runs of different lengths, with no ender to look at. Where three do not fit on a
// plank pairs are the best there is; what cannot be told so soon ends with the work allowed.
func TestOnlySingles(t *testing.T) {
	for _, plank := range []measure.Length{4_800, 9_000} {
		in := &rows.Instance{Plank: plank, Kerf: 3, MinPiece: 100, Grid: 1}
		for i := range measure.Length(40) {
			in.Runs = append(in.Runs, rows.Run{Length: 1_740 + 7*i})
		}
		n := in.Count(make(rows.Layout, len(in.Runs)), nil)
		if plank == 4_800 && n != 20 || n > 20 || n < 8 {
			t.Errorf("plank of %d: %d planks", plank, n)
		}
	}
}

// TestCheckPacking refuses packings by the name of their entry.
func TestCheckPacking(t *testing.T) {
	in := &rows.Instance{
		Plank:    48,
		Kerf:     1,
		MinPiece: 8,
		Grid:     1,
		Runs:     []rows.Run{{Length: 24}, {Length: 23}, {Length: 10}, {Length: 60}},
	}
	layout := rows.Layout{0, 0, 0, 12}
	for _, c := range []struct {
		why     string
		packing rows.Packing
		field   string // of the error; empty where it fits
	}{
		{"none", nil, ""},
		{"each on its own", rows.Packing{-1, -1, -1, -1}, ""},
		{"24 + 1 + 23 fill a plank of 48", rows.Packing{-1, 0, -1, -1}, ""},
		{"12 + 1 + 24 + 1 + 10 fill one with a starter", rows.Packing{3, -1, 3, -1}, ""},
		{"10 more do not fit beside 24 and 23", rows.Packing{-1, 0, 0, -1}, "packing[2]"},
		{"too short", rows.Packing{-1}, "number of hosts"},
		{"a host of its own", rows.Packing{0, -1, -1, -1}, "packing[0]"},
		{"beyond the last run", rows.Packing{4, -1, -1, -1}, "packing[0]"},
		{"below the first", rows.Packing{-2, -1, -1, -1}, "packing[0]"},
		{"a host with a host", rows.Packing{1, 2, -1, -1}, "packing[0]"},
		{"a run with a starter", rows.Packing{-1, -1, -1, 0}, "packing[3]"},
	} {
		err := in.CheckPacking(layout, c.packing)
		if c.field == "" && err != nil || c.field != "" && fieldOf(t, err) != c.field {
			t.Errorf("%s: %v, want an error of %q", c.why, err, c.field)
		}
		if err == nil {
			if n := in.Count(layout, c.packing); n < fewest(in, layout) {
				t.Errorf("%s: %d planks are fewer than the least", c.why, n)
			}
		}
	}
}

// TestPackingOfStarterOfAWholePlank: a whole starter is a plank of its own and hosts nothing.
func TestPackingOfStarterOfAWholePlank(t *testing.T) {
	in := &rows.Instance{Plank: 48, MinPiece: 8, Grid: 1, Runs: []rows.Run{{Length: 60}, {Length: 10}}}
	if err := in.CheckPacking(rows.Layout{48, 0}, rows.Packing{-1, 0}); err == nil {
		t.Error("a piece is packed on a whole plank")
	}
}
