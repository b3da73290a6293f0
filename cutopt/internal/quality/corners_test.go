package quality_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// A run of 185 in planks of 60 has joints at s, s+60 and so on. A corner at 80 leaves a strip beside a joint from 78 to
// 82, but not on it: starters of 18 to 22 but for 20.
func TestJointsKeepAwayFromCorners(t *testing.T) {
	none, inLine := []cutopt.Aim{}, []cutopt.Aim{cutopt.AimHJoints}
	for _, row := range []struct {
		reason   string
		starters []measure.Length // the corner is beside the second of the rows
		aims     []cutopt.Aim
		fixed    bool
		cap      int
		corner   measure.Length
		want     measure.Length // starter of the second
	}{
		{"nothing to mend", []measure.Length{40, 25, 40}, none, false, 12, 20, 25},
		{"onto the corner, the nearest place", []measure.Length{40, 19, 40}, none, false, 12, 20, 20},
		{"a joint of the next row is too near to the corner", []measure.Length{24, 18, 40}, none, false, 12, 20, 17},
		{"a pattern stays", []measure.Length{40, 19, 40}, none, true, 12, 20, 19},
		{"20 is in line with the last row", []measure.Length{50, 19, 50, 22}, inLine, false, 14, 20, 17},
		{"nor is it for no reason where that is no aim", []measure.Length{50, 19, 50, 22}, none, false, 14, 20, 17},
		{
			"15 and 25 are as round as 20; that 18 is not in line with the last row buys no odd figure",
			[]measure.Length{50, 20, 50, 21},
			none, false, 14, 22, 15,
		},
		{"in line with the last row, 18 is better", []measure.Length{50, 20, 50, 21}, inLine, false, 14, 22, 18},
	} {
		p, layout := strip(185, row.starters...)
		p.Instance.Stagger, p.Instance.MinPiece, p.Fixed = 5, 4, row.fixed
		p.Thin = func(i int, s measure.Length) int {
			if off := s - row.corner; i == 1 && off != 0 && -2 <= off && off <= 2 {
				return 1
			}
			return 0
		}
		set := &quality.Settings{Order: row.aims, Cap: row.cap}
		got := quality.Improve(p, layout, p.Instance.Cut(layout, nil), set)
		if s := got.Layout[1]; s != row.want {
			t.Errorf("%s: starter %d, want %d", row.reason, s, row.want)
		}
		if broken := p.Instance.Check(got.Layout); broken != nil {
			t.Errorf("%s: %v", row.reason, broken)
		}
	}
}

// TestCornersAlone improves random floors with corners but without aims: no run is laid otherwise but where fewer
// pieces are thin, all stays where none is, and nearly all pieces of other runs share planks as they did.
func TestCornersAlone(t *testing.T) {
	moved, pairs, parted := 0, 0, 0
	for seed := range uint64(oracle.Samples(200)) {
		r := rand.New(rand.NewPCG(seed, 93))
		p, layout, ok := draw(r)
		if !ok {
			continue
		}
		corners := make([]measure.Length, len(layout))
		for i := range corners {
			corners[i] = measure.Length(r.IntN(4 * int(p.Instance.Plank)))
		}
		p.Thin = func(i int, s measure.Length) int {
			if off := s - corners[i]; off != 0 && max(off, -off) < 3 {
				return 1
			}
			return 0
		}
		cutting := p.Instance.Cut(layout, nil)
		set := &quality.Settings{Order: []cutopt.Aim{}, Cap: len(cutting.Planks) + r.IntN(2), Budget: quick, Seed: seed}
		out := quality.Improve(p, layout, cutting, set)
		if err := p.Instance.Check(out.Layout); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		got, best := len(out.Cutting.Planks), p.Instance.Count(out.Layout, nil)
		if got > set.Cap || got != best {
			t.Errorf("seed %d: %d planks of %d, with as good a pairing as can be %d", seed, got, set.Cap, best)
		}
		complete(t, seed, p.Instance, out)
		stays := func(i int) bool { return out.Layout[i] == layout[i] }
		for i := range layout {
			if stays(i) {
				continue
			}
			moved++
			if p.Thin(i, out.Layout[i]) >= p.Thin(i, layout[i]) {
				t.Errorf("seed %d: run %d went from %d to %d for no reason", seed, i, layout[i], out.Layout[i])
			}
		}
		if diff := cmp.Diff(cutting, out.Cutting); slices.Equal(layout, out.Layout) && diff != "" {
			t.Errorf("seed %d: all runs lie as they lay, but planks are cut otherwise: %s", seed, diff)
		}
		for _, parts := range cutting.Planks {
			if len(parts) > 1 && !slices.ContainsFunc(parts, func(q rows.Part) bool { return !stays(q.Run) }) {
				pairs++
				if !slices.ContainsFunc(out.Cutting.Planks, func(q []rows.Part) bool { return slices.Equal(parts, q) }) {
					parted++
				}
			}
		}
	}
	t.Logf("%d runs moved; %d of %d planks shared by others are cut otherwise", moved, parted, pairs)
	if moved < 20 || 2*parted > moved {
		t.Errorf("%d runs moved, and %d planks that others share are cut otherwise", moved, parted)
	}
}

// TestPartnersArePassedOn gives floors whose enders are all without partners: without aims as many find one as can.
func TestPartnersArePassedOn(t *testing.T) {
	for seed := range uint64(oracle.Samples(100)) {
		p, layout, ok := draw(rand.New(rand.NewPCG(seed, 94)))
		if !ok {
			continue
		}
		best, apart := p.Instance.Cut(layout, nil), new(rows.Cutting)
		for _, parts := range best.Planks {
			if len(parts) > 1 && parts[0].Role == rows.RoleEnder {
				apart.Planks = append(apart.Planks, parts[:1])
				parts = parts[1:]
			}
			apart.Planks = append(apart.Planks, parts)
		}
		out := quality.Improve(p, layout, apart, &quality.Settings{Order: []cutopt.Aim{}, Cap: len(apart.Planks)})
		complete(t, seed, p.Instance, out)
		if got, want := len(out.Cutting.Planks), len(best.Planks); got != want {
			t.Errorf("seed %d: %d planks, want %d of %d", seed, got, want, len(apart.Planks))
		}
	}
}
