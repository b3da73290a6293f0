package solve_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/solve"
)

// TestForgedFacts plans rooms with jogs, slivers and narrow edge rows, and forges what the plans tell: each figure of
// each fact, a fact left out, one told twice. Check finds every one.
func TestForgedFacts(t *testing.T) {
	const mm = measure.Millimetre
	kinds := []cutopt.FactKind{
		cutopt.FactJogs, cutopt.FactSlivers, cutopt.FactEdgeAsked, cutopt.FactEdgeForced, cutopt.FactStrip,
		cutopt.FactBase,
	}
	forged := make(map[cutopt.FactKind]int)
	for seed := range uint64(oracle.Samples(12)) {
		r := rand.New(rand.NewPCG(seed, 41))
		size := func(low, high int) measure.Length { return measure.Length(low+r.IntN(high-low)) * mm }
		job := metric(1220*mm, 180*mm, cutopt.Room{Name: "Room"})
		w, h, jog, step, deep := size(2000, 3000), size(1500, 2500), size(1, 3), size(4, 30), size(5, 11)
		job.Rooms[0].Outline = []cutopt.Point{
			{},
			{X: w / 2},
			{X: w / 2, Y: -jog},
			{X: w, Y: -jog},
			{X: w, Y: h / 2},
			{X: w + step, Y: h / 2},
			{X: w + step, Y: h},
			{X: w / 2, Y: h},
			{X: w / 2, Y: h + deep},
			{X: w / 3, Y: h + deep},
			{X: w / 3, Y: h},
			{Y: h},
		}
		if seed%2 == 0 { // the last row is so narrow that the trim hides it, or 12 mm wider
			h = 2*job.Rules.Gap + 10*180*mm + size(1, 11) + measure.Length(seed%4)*6*mm - jog
			job.Rooms[0].Rows.FirstRow = 180 * mm
			job.Rooms[0].Outline = []cutopt.Point{
				{}, {X: w / 2}, {X: w / 2, Y: -jog}, {X: w, Y: -jog}, {X: w, Y: h}, {Y: h},
			}
		}
		job.Rules.Smooth, job.Rules.Cover = 3*mm, 12*mm
		if seed%3 == 0 {
			job.Rules.MinRip = 178 * mm
		}
		result, err := solve.Job(t.Context(), job, &solve.Options{Effort: solve.EffortQuick})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		plan := result.Plan
		facts := plan.Floors[0].Facts
		try := func(kind cutopt.FactKind, what string, with []cutopt.Fact) {
			plan.Floors[0].Facts = with
			forged[kind]++
			if check.Plan(job, plan) == nil {
				t.Errorf("seed %d: %v %s is not found in %v", seed, kind, what, facts)
			}
		}
		for i, f := range facts {
			if !slices.Contains(kinds, f.Kind) {
				continue
			}
			if f.Kind != cutopt.FactBase { // it need not be told
				try(f.Kind, "left out", slices.Delete(slices.Clone(facts), i, i+1))
			}
			try(f.Kind, "told twice", append(slices.Clone(facts), f))
			for _, field := range f.Kind.Fields() {
				for _, up := range []bool{false, true} {
					if f.Kind == cutopt.FactSlivers && field == cutopt.FieldCount && up && seed%2 == 1 {
						continue // at the alcove a sliver is no rectangle: it may count as several that touch
					}
					with := slices.Clone(facts)
					forge(&with[i], field, up)
					try(f.Kind, string(field), with)
				}
			}
		}
	}
	for _, kind := range kinds {
		if forged[kind] < 8 {
			t.Errorf("only %d facts of kind %v were forged", forged[kind], kind)
		}
	}
}

// forge makes a figure of a fact a little larger or smaller.
func forge(f *cutopt.Fact, field cutopt.FactField, up bool) {
	sign := -1
	if up {
		sign = 1
	}
	switch v := f.Field(field).(type) {
	case *int:
		*v += sign
	case *measure.Length:
		*v += measure.Length(sign) * measure.Millimetre / 10
	case *measure.Area:
		*v += measure.Area(sign) * measure.Area(measure.Millimetre) * measure.Area(measure.Millimetre) / 10
	case *cutopt.Ends:
		*v ^= cutopt.EndsBoth
	case *cutopt.Edges:
		*v ^= cutopt.EdgesBoth
	}
}

// TestForgedForced lays rooms whose corners are square with a first row too narrow, as another job asks, and tells that
// it is forced, where the planner keeps both edge rows as wide as they must be. Check finds it but where walls lie less
// than two planks apart, or the trim hides a strip in the only positions that do; it never refuses the planner's own.
func TestForgedForced(t *testing.T) {
	const mm = measure.Millimetre
	forged, found, forced := 0, 0, 0
	for seed := range uint64(oracle.Samples(20)) {
		r := rand.New(rand.NewPCG(seed, 42))
		size := func(low, high int) measure.Length { return measure.Length(low+r.IntN(high-low)) * mm }
		job := metric(1220*mm, 180*mm, cutopt.Room{Name: "Room"})
		w, h, a, b := size(2000, 4000), size(1500, 3500), size(500, 1500), size(400, 1000)
		job.Rooms[0].Outline = []cutopt.Point{{}, {X: w}, {X: w, Y: h - b}, {X: a, Y: h - b}, {X: a, Y: h}, {Y: h}}
		job.Rooms[0].Islands = []cutopt.Island{{Outline: []cutopt.Point{
			{X: w / 5, Y: h / 5}, {X: w/5 + 90*mm, Y: h / 5}, {X: w/5 + 90*mm, Y: h/5 + 60*mm}, {X: w / 5, Y: h/5 +
				60*mm},
		}}}
		job.Rules.MinRip, job.Rules.MinStrip = size(60, 170), size(0, 40)
		plan := func(first measure.Length) *cutopt.Plan {
			asks := job.Clone()
			asks.Rooms[0].Rows.FirstRow = first
			result, err := solve.Job(t.Context(), asks, &solve.Options{Effort: solve.EffortQuick})
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			return result.Plan
		}
		if count(plan(0), cutopt.FactEdgeForced) > 0 {
			forced++
			continue
		}
		other := plan(size(30, 59))
		for i := range other.Floors[0].Facts {
			if f := &other.Floors[0].Facts[i]; f.Kind == cutopt.FactEdgeAsked {
				f.Kind = cutopt.FactEdgeForced
				if forged++; check.Plan(job, other) != nil {
					found++
				}
			}
		}
	}
	if forged < 8 || 2*found < forged || forced == 0 {
		t.Errorf("%d of %d forged facts are found; %d rooms force an edge row", found, forged, forced)
	}
	t.Logf("%d of %d forged facts are found; %d rooms force an edge row", found, forged, forced)
}
