package outline_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/measure"
)

func TestEnded(t *testing.T) {
	const box = "0,0 900,0 900,600 0,600"
	for _, row := range []struct {
		name, ring, outer, want string
		most                    measure.Length
		edge                    int
	}{
		{"a cabinet longer than its wall", "-3,0 905,0 905,200 -3,200", box, "0,0 900,0 900,200 0,200", 5, 1},
		{"beyond a corner", "-3,-4 200,-4 200,200 -3,200", box, "0,0 200,0 200,200 0,200", 5, 0},
		// The wall leans in by 6 in 600: at 200 by 2, at a right angle to it.
		{"a wall that leans", "0,0 300,0 300,200 0,200", "0,0 900,0 900,600 6,600", "0,0 300,0 300,200 2,200", 2, 3},
		{"too far", "-11,0 300,0 300,200 -11,200", box, "", 0, 0},
		{"within", "0,0 300,0 300,200 0,200", box, "", 0, 0},
		{"all of it outside", "-5,100 -2,100 -2,200 -5,200", box, "", 0, 0}, // nothing is left of it
		{
			"about a corner that turns in", "395,295 500,295 500,500 395,500",
			"0,0 900,0 900,300 400,300 400,600 0,600", "", 0, 0,
		}, // its far corner is too far out
		{"not simple", "-3,0 300,200 300,0 -3,200", box, "", 0, 0},
		{"beyond all bounds", "-3,0 300,0 300,999999999 0,200", box, "", 0, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			given := ring(t, row.ring)
			got, most, edge, ok := outline.Ended(given, ring(t, row.outer), 10)
			if want := ring(t, row.want); !slices.Equal(got, want) || ok != (row.want != "") {
				t.Errorf("ended %v, %v, want %v", got, ok, want)
			}
			if most != row.most || edge != row.edge {
				t.Errorf("by %d beyond edge %d, want %d and %d", most, edge, row.most, row.edge)
			}
			if !slices.Equal(given, ring(t, row.ring)) {
				t.Errorf("the ring was changed to %v", given)
			}
		})
	}
}

// Cabinets stand in the corners of rooms whose walls lean up to 18 in 1000, whatever way round these are drawn: all end
// at the walls, and no corner moves farther than is told.
func TestEndedRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 12))
	out := func() measure.Length { return measure.Length(r.IntN(19) - 9) }
	n := 0
	for range 2000 {
		room := []measure.Point{
			{X: out(), Y: out()}, {X: 1000 + out(), Y: out()}, {X: 1000 + out(), Y: 1000 + out()}, {X: out(), Y: 1000 + out()},
		}
		w, d := measure.Length(100+r.IntN(800)), measure.Length(100+r.IntN(300))
		cabinet := []measure.Point{{}, {X: w}, {X: w, Y: d}, {Y: d}}
		if r.IntN(2) == 0 {
			slices.Reverse(room)
		}
		_, lies := outline.Within(cabinet, room)
		got, most, _, ok := outline.Ended(cabinet, room, 20)
		if ok == lies {
			t.Fatalf("%v in %v: lies within %v, ended %v", cabinet, room, lies, ok)
		}
		if !ok {
			continue
		}
		n++
		if f, within := outline.Within(got, room); !within {
			t.Fatalf("%v of %v is beyond %v: %v", got, cabinet, room, f)
		}
		for i, p := range got {
			if q := cabinet[i]; max(p.X-q.X, q.X-p.X, p.Y-q.Y, q.Y-p.Y) > most+1 {
				t.Fatalf("%v moved to %v, and by no more than %d was told", q, p, most)
			}
		}
	}
	if n < 500 {
		t.Errorf("only %d cabinets reached beyond the walls", n)
	}
}
