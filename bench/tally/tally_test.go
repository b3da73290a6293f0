package tally_test

import (
	"bytes"
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/bench/sample"
	"plank.example/bench/tally"
	"plank.example/bench/trial"
)

func spec() *trial.Spec {
	return &trial.Spec{
		Mix: sample.MixMixed, Planks: []string{"48x7"}, MinPieces: []string{"8"}, Staggers: []string{"8", "12"},
		Strategies: []string{"thumb", "thirds", "library-quick"},
	}
}

func sum(t *testing.T, from, to uint64) *tally.Summary {
	t.Helper()
	s := tally.New(spec())
	if err := trial.Run(context.Background(), spec(), from, to, nil, s.Add); err != nil {
		t.Fatal(err)
	}
	return s
}

func encode(t *testing.T, s *tally.Summary) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.Encode(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestShards wants shards merged in any order to be the run in one piece, byte for byte.
func TestShards(t *testing.T) {
	const seeds, shards = 12, 5
	whole := encode(t, sum(t, 0, seeds))
	var parts []*tally.Summary
	for i := range shards {
		from, to, err := trial.Shard(0, seeds, i, shards)
		if err != nil {
			t.Fatal(err)
		}
		parts = append(parts, sum(t, from, to))
	}
	for seed := range uint64(10) {
		order := rand.New(rand.NewPCG(seed, 1)).Perm(shards)
		total := tally.New(spec())
		for _, i := range order {
			before := encode(t, parts[i])
			if err := total.Merge(parts[i]); err != nil {
				t.Fatal(err)
			}
			if encode(t, parts[i]) != before {
				t.Fatal("merging changes the part")
			}
		}
		if got := encode(t, total); got != whole {
			t.Errorf("seed %d: shards in order %v give other totals", seed, order)
		}
	}
	read, err := tally.Decode(bytes.NewReader([]byte(whole)))
	if err != nil || encode(t, read) != whole {
		t.Errorf("what was written does not read back: %v", err)
	}
	if len(read.Ranges) != 1 || read.Seeds() != seeds {
		t.Errorf("ranges %v", read.Ranges)
	}
}

// TestMergeRefuses wants no seed counted twice and no two measurements mixed.
func TestMergeRefuses(t *testing.T) {
	a := sum(t, 2, 6)
	before := encode(t, a)
	for _, r := range [][2]uint64{{0, 3}, {5, 7}, {3, 4}, {2, 6}} {
		if err := a.Merge(sum(t, r[0], r[1])); err == nil {
			t.Errorf("seeds %v are counted twice", r)
		}
		if encode(t, a) != before {
			t.Fatalf("a refused merge of %v leaves traces", r)
		}
	}
	other := spec()
	other.Verify = true
	if err := a.Merge(tally.New(other)); !errors.Is(err, tally.ErrSpec) {
		t.Errorf("another spec: %v", err)
	}
	for _, text := range []string{
		``, `{`, `[]`, `{"what": 1}`, `{"ranges": [{"from": 3, "to": 3}]}`,
		`{"ranges": [{"from": 0, "to": 3}, {"from": 2, "to": 4}]}`,
		`{"cells": {"a|b": {}}}`, `{"cells": {"a|b|c": null}}`,
	} {
		if s, err := tally.Decode(bytes.NewReader([]byte(text))); err == nil {
			t.Errorf("%s reads as %+v", text, s)
		}
	}
}

// pair sums two differences.
func pair(a, b int64) tally.Pair { return tally.Pair{N: 2, Sum: a + b, Squares: a*a + b*b} }

// TestAdd sums two rooms by hand. A plank of 2 m2 in boxes of 3 on floors of 10 m2 and 7 m2.
func TestAdd(t *testing.T) {
	const m2 = 1_000_000
	s := tally.New(spec())
	room := func(seed uint64, net int64, strategy, outcome string, planks, boxes, bound, boxBound,
		thumb int,
	) trial.Record {
		return trial.Record{
			Seed: seed, Kind: "bedroom", Shape: "L", Setting: "one", Strategy: strategy, Net: net, Rows: 9, Outcome: outcome,
			Planks: planks, OpenedPile: planks + 1, OpenedLast: planks + 2, Boxes: boxes, Bound: bound, BoxBound: boxBound,
			Thumb: thumb, PerBox: 3, Plank: 2 * m2, Micros: 8, AreaBound: planks - 1,
			Breakings: []trial.Breaking{{Thumb: planks, Advised: boxes, PlainThumb: 5, PlainAdvised: 7}},
		}
	}
	err := errors.Join(
		s.Add(0, []trial.Record{
			room(0, 10*m2, "thirds", trial.Laid, 7, 3, 0, 0, 2),
			room(0, 10*m2, "library-quick", trial.Laid, 6, 2, 5, 2, 2),
		}),
		s.Add(1, []trial.Record{
			room(1, 7*m2, "thirds", trial.None, 0, 0, 0, 0, 2),
			room(1, 7*m2, "library-quick", trial.Laid, 4, 2, 4, 2, 2),
		}),
	)
	if err != nil {
		t.Fatal(err)
	}
	want := &tally.Cell{
		Rooms: 2, Outcomes: map[string]int64{trial.Laid: 2}, Net: 17 * m2, Planks: 10, PlankArea: 20 * m2, Boxes: 4, Bound: 9,
		BoxBound: 4,
		Proven:   2, PlanksProven: 1, AreaProven: 1, // 5 planks are 2 boxes as bought, 3 are 1
		// 12 of 10 m2 is 20 % more, boxes too; 8 of 7 m2 is 14.28 %, 12 of 7 is 71.42 %
		Added: tally.Histogram{200: 1, 142: 1}, BoxAdded: tally.Histogram{200: 1, 714: 1}, Saved: tally.Histogram{0: 2},
		AddedPile: tally.Histogram{400: 1, 428: 1}, AddedLast: tally.Histogram{600: 1, 714: 1}, // 14 and 10 m2, 16 and 12 m2
		PairPlanks: tally.Pair{N: 2}, PairBoxes: tally.Pair{N: 2}, PairAdded: tally.Pair{N: 2}, PairFirst: tally.Pair{N: 2},
		// 2 boxes of 3 hold 6 planks, 6 and 4 are laid. Of 6 any is lost with 1 - 0.98^6 = 0.114158, three or more with
		// 20 p^3 q^3 + 15 p^4 q^2 + ... = 0.000153; with 5 % it is 0.264908 and 0.002230. With a third box for the
		// first floor four or more of 9 are lost with 0.000019 and 0.000643.
		Breakage: []tally.Breakage{
			{Thumb: tally.Pair{N: 2}, Advised: tally.Pair{N: 2}, More: tally.Pair{N: 2}},
			{Thumb: pair(114158, 153), Advised: pair(19, 153), More: pair(1, 0)},
			{Thumb: pair(264908, 2230), Advised: pair(643, 2230), More: pair(1, 0)},
		},
		Breakings: []tally.Breaking{{
			Thumb: pair(6, 4), Advised: pair(2, 2), PlainThumb: pair(5, 5), PlainAdvised: pair(7, 7),
		}},
		Time: tally.Histogram{48: 2}, TimeProven: tally.Histogram{48: 2}, Micros: 16, // 8 microseconds: 16 * 3
	}
	for _, group := range []string{"all", "kind bedroom", "shape L", "rows 8-12"} {
		if diff := cmp.Diff(want, s.Cells["one|library-quick|"+group]); diff != "" {
			t.Errorf("%s: %s", group, diff)
		}
	}
	for group, rooms := range map[string]int64{"size 100-125": 1, "size 75-100": 1} { // 107.6 and 75.3 sq ft
		if c := s.Cells["one|library-quick|"+group]; c == nil || c.Rooms != rooms {
			t.Errorf("%s: %+v", group, c)
		}
	}
	thirds := s.Cells["one|thirds|all"]
	if thirds.Rooms != 2 || thirds.Outcomes[trial.None] != 1 || thirds.PairPlanks != (tally.Pair{
		N: 1, Sum: 1,
		Squares: 1,
	}) ||
		thirds.PairBoxes.Sum != 1 || thirds.Saved[-1] != 1 ||
		thirds.Proven != 0 {
		t.Errorf("thirds: %+v", thirds)
	}
	if c := s.WithoutTimes().Cells["one|thirds|all"]; c.Micros != 0 || c.Time != nil || thirds.Micros != 8 {
		t.Errorf("without times: %+v", c)
	}
}

// TestStatistics holds figures against ones worked out by hand or read in tables.
func TestStatistics(t *testing.T) {
	h := tally.Histogram{10: 1, 20: 2, 70: 1}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"mean of 10 20 20 70", h.Mean(), 30},
		{"quantile 0.25", h.Quantile(0.25), 10},
		{"median", h.Quantile(0.5), 20},
		{"quantile 0.9", h.Quantile(0.9), 70},
		{"share from 15 to 70", h.Share(15, 70), 75},
		{"time step of 1024 microseconds", tally.Milliseconds(160), 1.024},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	// Differences 1 2 3 4 5: mean 3, variance 2.5, t of 4 degrees at 97.5 % is 2.776 (any table of Student's t): 2.776
	// sqrt(2.5/5) = 1.963.
	mean, half := tally.Pair{N: 5, Sum: 15, Squares: 55}.Mean()
	if mean != 3 || math.Abs(half-1.963) > 0.001 {
		t.Errorf("mean %v ± %v, want 3 ± 1.963", mean, half)
	}
	if _, half := (tally.Pair{N: 1, Sum: 3, Squares: 9}).Mean(); !math.IsNaN(half) {
		t.Errorf("one difference has an interval of %v", half)
	}
	// 50 of 100: z 1.96, (50 + 1.92)/(103.84) = 0.5, 1.96 sqrt(0.25/103.84) = 9.62 %.
	if p, half := tally.ShareOf(50, 100); p != 50 || math.Abs(half-9.62) > 0.01 {
		t.Errorf("50 of 100: %v ± %v", p, half)
	}
	if !math.IsNaN((tally.Histogram{}).Mean()) || !math.IsNaN((tally.Histogram{}).Quantile(0.5)) {
		t.Error("nothing has a mean")
	}
}
