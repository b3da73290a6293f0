package strips_test

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// TestFirstRowsAreAll lays rooms with corners and an island with every first row on a grid: what a floor lists as the
// ways for its rows to lie are those of the rows so laid that leave no narrow strip and no narrow edge, and where there
// are none of the others, none missing and none beside them.
func TestFirstRowsAreAll(t *testing.T) {
	ctx, several := context.Background(), 0
	for seed := range uint64(oracle.Samples(25)) {
		r := rand.New(rand.NewPCG(seed, 19))
		inch := func(low, high int) measure.Length {
			return measure.Length(low*8+r.IntN((high-low)*8+1)) * measure.Inch / 8
		}
		w, h := inch(80, 140), inch(50, 90)
		x, y := w/2+inch(0, 20), h/2+inch(0, 14)
		outline := []cutopt.Point{{}, {X: w}, {X: w, Y: y}, {X: x, Y: y}, {X: x, Y: h}, {Y: h}}
		gaps := make([]measure.Length, len(outline))
		for i := range gaps {
			gaps[i] = measure.Inch / 4
		}
		room := strips.Room{Name: "Cellar", Outline: outline, Gaps: gaps}
		if r.IntN(2) == 0 {
			x, y := inch(10, 20), inch(8, 16)
			to := cutopt.Point{X: x + inch(4, 12), Y: y + inch(4, 12)}
			room.Islands = []strips.Island{{
				Outline: []cutopt.Point{{X: x, Y: y}, {X: to.X, Y: y}, to, {X: x, Y: to.Y}}, Gap: measure.Inch / 4,
			}}
		}
		layout := strips.Layout{
			Width: 6 * measure.Inch, Length: 48 * measure.Inch, Grid: measure.Inch / 8, MinStrip: measure.Inch,
			MinPiece: 8 * measure.Inch, Cover: measure.Inch / 4,
		}
		floor, err := strips.Lay([]strips.Room{room}, &layout)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		list, fair, ok := floor.FirstRows(ctx, 0, 1000)
		if !ok {
			t.Fatalf("seed %d: the ways are not listed", seed)
		}
		seen := make([]bool, len(list))
		for first := layout.Grid; first <= layout.Width; first += layout.Grid {
			asked := layout
			asked.FirstRow = first
			laid, err := strips.Lay([]strips.Room{room}, &asked)
			if err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
			alone, how, ok := laid.FirstRows(ctx, first, 1000)
			if !ok || len(alone) != 1 || !alone[0].Alike(laid.Rows) {
				t.Fatalf("seed %d: first row %v lists %d ways", seed, first, len(alone))
			}
			k := slices.IndexFunc(list, func(f strips.FirstRow) bool { return f.Alike(laid.Rows) })
			switch {
			case how > fair:
				t.Errorf("seed %d: first row %v is fairer than all that are listed: %d, not %d", seed, first, how, fair)
			case how == fair && k < 0:
				t.Errorf("seed %d: first row %v gives rows that are not listed", seed, first)
			case k >= 0 && how == fair:
				seen[k] = true
			}
		}
		if slices.Contains(seen, false) {
			t.Errorf("seed %d: of %d ways listed some are given by no first row: %v", seed, len(list), seen)
		}
		if len(list) > 1 {
			several++
		}
	}
	if several == 0 {
		t.Error("no floor may lie in several ways")
	}
}

// TestFirstRowsNotListed: where a wall slants the ways are not known to be all.
func TestFirstRowsNotListed(t *testing.T) {
	const in = measure.Inch
	room := strips.Room{
		Name: "Attic", Outline: []cutopt.Point{{}, {X: 120 * in}, {X: 120 * in, Y: 80 * in}, {Y: 74 * in}},
		Gaps: make([]measure.Length, 4),
	}
	floor, err := strips.Lay([]strips.Room{room}, &strips.Layout{Width: 7 * in, Length: 48 * in, Grid: in / 16})
	if err != nil {
		t.Fatal(err)
	}
	if _, _, ok := floor.FirstRows(context.Background(), 0, 1000); ok {
		t.Error("the ways of a floor with a slanted wall are listed")
	}
}

// TestFairerRowsAreLaidSo: the rows listed of a floor whose walls slant are those it has with that first row, no listed
// one is listed twice, and with its own first row the floor is as it was.
func TestFairerRowsAreLaidSo(t *testing.T) {
	ctx, listed := context.Background(), 0
	for seed := range uint64(oracle.Samples(5)) {
		r := rand.New(rand.NewPCG(seed, 23))
		inch := func(low, high int) measure.Length {
			return measure.Length(low*8+r.IntN((high-low)*8+1)) * measure.Inch / 8
		}
		w, h := inch(80, 140), inch(40, 70)
		room := strips.Room{
			Name: "Attic", Outline: []cutopt.Point{{X: inch(0, 20)}, {X: w}, {X: w, Y: h - inch(0, 9)}, {Y: h}},
			Gaps:  make([]measure.Length, 4),
			Pipes: []strips.Pipe{{At: cutopt.Point{X: w / 2, Y: h / 2}, Diameter: measure.Inch}},
		}
		layout := strips.Layout{
			Width: 6 * measure.Inch, Length: 48 * measure.Inch, Grid: measure.Inch / 8, MinStrip: measure.Inch,
			MinPiece: 8 * measure.Inch, Cover: measure.Inch / 4,
		}
		floor, err := strips.Lay([]strips.Room{room}, &layout)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		same, err := floor.With(ctx, floor.First)
		if err != nil || !slices.EqualFunc(same.Rows, floor.Rows, alikeRow) || !slices.Equal(same.Facts, floor.Facts) {
			t.Errorf("seed %d: with its own first row the floor is another: %v", seed, err)
		}
		list, err := floor.Fairer(ctx, floor)
		if err != nil {
			t.Fatal(err)
		}
		for i, first := range list {
			laid, err := floor.With(ctx, first.Width)
			if err != nil || !first.Alike(laid.Rows) {
				t.Errorf("seed %d: with a first row of %v the rows are not those listed: %v", seed, first.Width, err)
			}
			for _, other := range list[:i] {
				if first.Alike(other.Rows) {
					t.Errorf("seed %d: rows of %v are listed twice", seed, first.Width)
				}
			}
		}
		listed += len(list)
	}
	if listed == 0 {
		t.Error("nothing is listed")
	}
}

func alikeRow(a, b strips.Row) bool {
	return a.From == b.From && a.To == b.To && slices.Equal(a.Runs, b.Runs)
}
