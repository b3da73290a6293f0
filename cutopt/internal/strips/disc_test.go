package strips_test

import (
	"math"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// pipe places a pipe in eighths of an inch.
func pipe(x, y, diameter, gap measure.Length) strips.Pipe {
	const eighth = in / 8
	return strips.Pipe{At: measure.Point{X: x * eighth, Y: y * eighth}, Diameter: diameter * eighth, Gap: gap * eighth}
}

// Two rows of 10 in, 100 in long; facing the starting wall, at the bottom of the drawing, x runs to the left. Each
// piece is cut at 40 in. The pipes are an inch across with a gap of 1/4 in, so that a line within 0.559 in of the
// middle, the root of 0.75² - 0.5², lets them in.
func TestPipes(t *testing.T) {
	slit := func(edge cutopt.Edges, end cutopt.Ends, at, across, length, width measure.Length) cutopt.Fact {
		return cutopt.Fact{
			Kind: cutopt.FactSlit, Edge: edge, End: end, At: at, Across: across, Length: length, Width: width,
		}
	}
	const radius = 3 * in / 4
	for _, row := range []struct {
		name  string
		pipe  strips.Pipe
		facts [4]int // holes and round notches of the pieces of rows 1 and 2 before and after 40 in
		slits []cutopt.Fact
	}{
		{
			"in the middle of a piece, nearer to the back edge", pipe(640, 48, 8, 2),
			[4]int{1, 0, 0, 0},
			[]cutopt.Fact{slit(cutopt.EdgesBack, 0, 20*in-radius, 6*in, 2*radius, 4*in)},
		},
		{
			"as near to both edges: the back one is open while the piece goes in", pipe(640, 40, 8, 2),
			[4]int{1, 0, 0, 0},
			[]cutopt.Fact{slit(cutopt.EdgesBack, 0, 20*in-radius, 5*in, 2*radius, 5*in)},
		},
		{
			"nearer to the front edge", pipe(640, 16, 8, 2),
			[4]int{1, 0, 0, 0},
			[]cutopt.Fact{slit(cutopt.EdgesFront, 0, 20*in-radius, 0, 2*radius, 2*in)},
		},
		{
			"nearer to the right end", pipe(488, 40, 8, 2),
			[4]int{1, 0, 0, 0},
			[]cutopt.Fact{slit(0, cutopt.EndsRight, 39*in, 5*in-radius, in, 2*radius)},
		},
		{
			"nearer to the left end", pipe(472, 40, 8, 2),
			[4]int{0, 1, 0, 0},
			[]cutopt.Fact{slit(0, cutopt.EndsLeft, 0, 5*in-radius, in, 2*radius)},
		},
		{"on the edge of a row: notches in both pieces", pipe(640, 80, 8, 2), [4]int{1, 0, 1, 0}, nil},
		{"next to it, so that the notch still lets the pipe in", pipe(640, 76, 8, 2), [4]int{1, 0, 1, 0}, nil},
		{
			"a little farther: the opening is narrower than the pipe", pipe(640, 75, 8, 2),
			[4]int{1, 0, 1, 0},
			[]cutopt.Fact{slit(cutopt.EdgesBack, 0, 20*in-radius, 75*in/8, 2*radius, 5*in/8)},
		},
		{"on an end joint", pipe(480, 40, 8, 2), [4]int{1, 1, 0, 0}, nil},
		{"where four pieces meet", pipe(480, 80, 8, 2), [4]int{1, 1, 1, 1}, nil},
		{
			"tight: without a gap any opening is too narrow", pipe(640, 79, 8, 0),
			[4]int{1, 0, 1, 0},
			[]cutopt.Fact{slit(cutopt.EdgesBack, 0, 39*in/2, 79*in/8, in, in/8)},
		},
		{"tight and on the edge of a row", pipe(640, 80, 8, 0), [4]int{1, 0, 1, 0}, nil},
		{"a column over both rows takes the ends of both runs off", pipe(640, 80, 176, 2), [4]int{}, nil},
	} {
		t.Run(row.name, func(t *testing.T) {
			den := room(0, corners(in, 0, 0, 100, 0, 100, 20, 0, 20))
			den.Pipes = []strips.Pipe{row.pipe}
			f := lay(t, strips.Layout{Width: 10 * in}, den)
			if row.pipe.Diameter > 20*in {
				if len(f.Rows[0].Runs) != 2 || len(f.Rows[1].Runs) != 2 {
					t.Fatalf("rows %s", shape(f, in))
				}
				return
			}
			var rounds [4]int
			var slits []cutopt.Fact
			for k := range 4 {
				from, to := measure.Length(k%2)*40*in, measure.Length(40+k%2*60)*in
				for _, fact := range f.Shaping(k/2, 0, from, to) {
					switch fact.Kind {
					case cutopt.FactHole, cutopt.FactRound:
						rounds[k]++
						if want := row.pipe.Diameter + 2*row.pipe.Gap; fact.Diameter != want {
							t.Errorf("a circle of %d, want %d", fact.Diameter, want)
						}
					case cutopt.FactSlit:
						slits = append(slits, fact)
					default:
						t.Errorf("a fact %v", fact)
					}
				}
			}
			if rounds != row.facts || !slices.Equal(slits, row.slits) {
				t.Errorf("holes and notches %v, slits %v; want %v, %v", rounds, slits, row.facts, row.slits)
			}
		})
	}
}

// The hole covers the circle, which is pi/4 d² (plain geometry), by less than 2 % of its area.
func TestPipeArea(t *testing.T) {
	for _, diameter := range []measure.Length{in / 2, 3 * in, 40 * in} {
		den := room(0, corners(in, 0, 0, 200, 0, 200, 100, 0, 100))
		den.Pipes = []strips.Pipe{{At: measure.Point{X: 100*in + 1, Y: 50 * in}, Diameter: diameter, Gap: in / 4}}
		f := lay(t, strips.Layout{Width: 10 * in}, den)
		hole := float64(200*100*in*in - measure.Length(f.Area))
		circle := math.Pi / 4 * float64(diameter+in/2) * float64(diameter+in/2)
		if hole < circle || hole > 1.02*circle {
			t.Errorf("a pipe of %d takes %.0f, its circle is %.0f", diameter, hole, circle)
		}
		if f.Net != measure.Area(200*100*in*in) {
			t.Errorf("net %d: a pipe takes nothing off the net area", f.Net)
		}
	}
}

// What of a hole reaches over the edge of a row by less than 1/32 in is left to the gap: found at random, where Check
// took a circle's part of 4 ticks for a rectangle.
func TestPipeOverAnEdgeByATrifle(t *testing.T) {
	for _, over := range []measure.Length{4, cutopt.Trifle, cutopt.Trifle + 1} {
		den := room(0, corners(in, 0, 0, 100, 0, 100, 20, 0, 20))
		den.Pipes = []strips.Pipe{{At: measure.Point{X: 50 * in, Y: 10*in + 3*in/4 - over}, Diameter: in, Gap: in / 4}}
		f := lay(t, strips.Layout{Width: 10 * in}, den)
		first, second := f.Shaping(0, 0, 0, 100*in), f.Shaping(1, 0, 0, 100*in)
		if want := min(1, max(0, int(over-cutopt.Trifle))); len(first) != want {
			t.Errorf("over by %d: facts of the first row %+v, want %d", over, first, want)
		}
		if len(second) != 2 || second[0].Kind != cutopt.FactRound || second[1].Kind != cutopt.FactSlit {
			t.Errorf("over by %d: facts of the second row %+v, want a round notch and its slit", over, second)
		}
	}
}
