package search

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/starters"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// TestFitting walks a floor of many runs, some of which may be of one piece: listed by their starters they fit offcuts
// as they do scanned.
func TestFitting(t *testing.T) {
	const plank, n = 640, fewestListed + 100
	r := rand.New(rand.NewPCG(1, 17))
	in := &rows.Instance{Plank: plank, Kerf: 1, MinPiece: 16, Stagger: 16, Grid: 1}
	for i := range n {
		in.Runs = append(in.Runs, rows.Run{Length: measure.Length(100 + r.IntN(2000))})
		if i > 0 {
			in.Touch = append(in.Touch, [2]int{i - 1, i})
		}
	}
	table := starters.New(in)
	layout, ok := Carry(table)
	if !ok {
		t.Fatal("cannot be laid")
	}
	a := &annealer{state: newState(NewDomain(table, Lattice(table, 1)), layout, nil, 20), rng: rand.NewPCG(1, 3), temp: 30}
	lists, found := a.lists, 0
	if lists == nil {
		t.Fatal("not listed")
	}
	for range 3_000 {
		a.move(a.pick(n))
		i, room := a.pick(n), measure.Length(a.pick(plank+1))
		got := a.fitting(i, room)
		a.lists = nil
		want := a.fitting(i, room)
		if a.lists = lists; got != want {
			t.Fatalf("beside %d with %d: run %d, want %d", i, room, got, want)
		}
		if want >= 0 {
			found++
		}
	}
	if found < 1_000 {
		t.Errorf("%d found", found)
	}
}
