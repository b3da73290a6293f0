package change_test

import (
	"slices"
	"testing"

	"plank.example/cutopt/internal/change"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// TestCutKeeps lays runs of two pieces with planks of 100 and a kerf of 1, so that beside an ender of 60 a starter of
// up to 39 has room.
func TestCutKeeps(t *testing.T) {
	type pair struct{ starter, ender int } // lengths; 0 for none
	four := [][2]int{{24, 60}, {35, 73}, {30, 50}, {45, 49}}
	for _, c := range []struct {
		why     string
		runs    [][2]int // starter and ender of each
		offcuts []rows.Offcut
		before  []pair
		hand    int // number of before that is cut from the offcut; -1 for none
		most    int
		want    []pair
	}{
		{
			"two that lay on planks of their own stay there as long as that is allowed",
			[][2]int{{30, 60}},
			nil,
			[]pair{{30, 0}, {0, 60}},
			-1, 2,
			[]pair{{0, 60}, {30, 0}},
		},
		{
			"and share a plank where it is not",
			[][2]int{{30, 60}},
			nil,
			[]pair{{30, 0}, {0, 60}},
			-1, 1,
			[]pair{{30, 60}},
		},
		{
			"beside an ender of 60, a kerf and 40 have no room",
			[][2]int{{40, 60}},
			nil,
			[]pair{{40, 60}},
			-1, 2,
			[]pair{{0, 60}, {40, 0}},
		},
		{
			"the ender of 73 takes no starter but that of 24, so 24 leaves that of 50; 35 stays with 60, though the smallest " +
				"first would put 30 there",
			four, nil,
			[]pair{{35, 60}, {24, 50}},
			-1, 4,
			[]pair{{24, 73}, {30, 50}, {35, 60}, {45, 49}},
		},
		{
			"with a plank more, both stay", four, nil,
			[]pair{{35, 60}, {24, 50}},
			-1, 5,
			[]pair{{0, 73}, {24, 50}, {30, 49}, {35, 60}, {45, 0}},
		},
		{
			"30 stays on its offcut, though 35 fits on it too, and then 24 may stay", four,
			[]rows.Offcut{{Length: 35, End: rows.EndRight}},
			[]pair{{30, 0}, {24, 50}},
			0, 4,
			[]pair{{0, 73}, {35, 60}, {24, 50}, {45, 49}},
		},
	} {
		in := &rows.Instance{Plank: 100, Kerf: 1, MinPiece: 1, Grid: 1, Offcuts: c.offcuts}
		var layout rows.Layout
		starters, enders := make(map[int]rows.Part), make(map[int]rows.Part)
		for i, r := range c.runs {
			s, e := measure.Length(r[0]), measure.Length(r[1])
			in.Runs, layout = append(in.Runs, rows.Run{Length: s + e}), append(layout, s)
			starters[r[0]] = rows.Part{Run: i, Role: rows.RoleStarter, Length: s}
			enders[r[1]] = rows.Part{Run: i, Role: rows.RoleEnder, Length: e}
		}
		var before []change.Group
		for k, p := range c.before {
			g := change.Group{Hand: -1}
			if k == c.hand {
				g.Hand = 0
			}
			for _, part := range []rows.Part{enders[p.ender], starters[p.starter]} {
				if part.Length > 0 {
					g.Parts = append(g.Parts, part)
				}
			}
			before = append(before, g)
		}
		var got []pair
		for _, parts := range change.Cut(in, layout, nil, before, c.most).Planks {
			var p pair
			for _, part := range parts {
				if part.Role == rows.RoleStarter {
					p.starter = int(part.Length)
				} else {
					p.ender = int(part.Length)
				}
			}
			got = append(got, p)
		}
		for _, list := range [][]pair{got, c.want} {
			slices.SortFunc(list, func(a, b pair) int { return a.ender - b.ender })
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: starters and enders by plank are %v, want %v", c.why, got, c.want)
		}
	}
}
