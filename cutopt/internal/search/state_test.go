package search

import (
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// TestFigures makes random moves on slanted floors, some of whose runs may be of one piece, and counts anew: the
// figures kept move by move are those counted from scratch, and the stretch found short is a longest one above 0.
func TestFigures(t *testing.T) {
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 17))
		in := &rows.Instance{Plank: 120, Kerf: 1, MinPiece: 16, Stagger: 16, Grid: 1}
		slant, length := measure.Length(r.IntN(30)-15), measure.Length(150+r.IntN(250))
		for i := range 10 {
			run := rows.Run{From: slant * measure.Length(i), Length: length}
			if r.IntN(4) == 0 {
				run.Length = measure.Length(20 + r.IntN(90))
			}
			in.Runs = append(in.Runs, run)
			if i > 0 {
				in.Touch = append(in.Touch, [2]int{i - 1, i})
			}
		}
		table := starters.New(in)
		layout, ok := Carry(table)
		if !ok {
			continue
		}
		st := newState(NewDomain(table, Lattice(table, 1)), layout, nil, 20)
		a := &annealer{state: st, rng: rand.NewPCG(seed, 3), temp: 30}
		for range 3_000 {
			a.move(a.pick(len(a.options)))
			if first, last := a.short(a.pick(len(a.g))); first == 0 {
				if slices.Max(a.g[1:]) > 0 {
					t.Fatalf("seed %d: nothing is found short in %v", seed, a.g)
				}
			} else if slices.Min(a.g[first:last+1]) <= 0 || first > 1 && a.g[first-1] > 0 || last+1 < len(a.g) &&
				a.g[last+1] > 0 {
				t.Fatalf("seed %d: thresholds %d to %d are found short in %v", seed, first, last, a.g)
			}
		}
		for i, s := range a.starters {
			if at := in.Runs[i].From + a.option(i).starter; s != a.option(i).starter || (at-a.joints[i])%in.Plank != 0 {
				t.Fatalf(
					"seed %d: run %d starts with %d, joints at %d; kept are %d and %d",
					seed,
					i,
					a.option(i).starter,
					at,
					s,
					a.joints[i],
				)
			}
		}
		energy, clashes := a.energy, a.clashes
		if a.recount(20); a.energy != energy || a.clashes != clashes {
			t.Errorf(
				"seed %d: energy %d and %d clashes were kept, %d and %d are there",
				seed,
				energy,
				clashes,
				a.energy,
				a.clashes,
			)
		}
	}
}

// TestCrossed: with offcuts of either end on hand the planks of a layout are those that Count finds with its packing.
func TestCrossed(t *testing.T) {
	for seed := range uint64(80) {
		r := rand.New(rand.NewPCG(seed, 18))
		in := &rows.Instance{Plank: 60, Kerf: measure.Length(r.IntN(2)), MinPiece: 6, Grid: 1}
		for i := range 1 + r.IntN(8) {
			run := rows.Run{Length: measure.Length(61 + r.IntN(150))}
			switch {
			case i == 0 && r.IntN(2) == 0:
				run.Starter = in.Plank
			case seed%2 == 0 && r.IntN(2) == 0:
				run.Length = measure.Length(6 + r.IntN(54))
			}
			in.Runs = append(in.Runs, run)
		}
		for i := range 2 + r.IntN(8) {
			end := []rows.End{rows.EndLeft, rows.EndRight, rows.EndNone}[min(i, r.IntN(3))]
			in.Offcuts = append(in.Offcuts, rows.Offcut{Length: measure.Length(1 + r.IntN(59)), End: end})
		}
		in.Offcuts = append(in.Offcuts, rows.Offcut{Length: 30, End: rows.EndRight})
		table := starters.New(in)
		layout, ok := Carry(table)
		if !ok {
			continue
		}
		st := newState(NewDomain(table, Lattice(table, 1)), layout, nil, 20)
		a := &annealer{state: st, rng: rand.NewPCG(seed, 3), temp: 30}
		for range 200 {
			a.move(a.pick(len(a.options)))
			layout, packing := a.layout()
			if got, want := a.planks(), in.Count(layout, packing); got != want {
				t.Fatalf("seed %d: %v, %v of %+v: %d planks, Count has %d", seed, layout, packing, in, got, want)
			}
		}
	}
}
