package recount_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/recount"
)

const (
	mm  = 320.0 // ticks
	gap = 10 * mm
)

type spot = recount.Spot

// spots makes corners of coordinates in millimetres.
func spots(xy ...float64) []spot {
	var out []spot
	for i := 0; i < len(xy); i += 2 {
		out = append(out, spot{X: xy[i] * mm, Y: xy[i+1] * mm})
	}
	return out
}

func box(x0, y0, x1, y1 float64) []spot { return spots(x0, y0, x1, y0, x1, y1, x0, y1) }

// ring gives every edge the same gap.
func ring(corners []spot, gap float64) recount.Ring {
	gaps := make([]float64, len(corners))
	for i := range gaps {
		gaps[i] = gap
	}
	return recount.Ring{Corners: corners, Gaps: gaps}
}

func floorOf(outline []spot, islands ...[]spot) *recount.Floor {
	room := recount.Room{Outline: ring(outline, gap)}
	for _, island := range islands {
		room.Islands = append(room.Islands, ring(island, gap))
	}
	return &recount.Floor{Rooms: []recount.Room{room}, Exact: true, Hidden: 5 * mm}
}

// widerGap is a room of 1000 x 200 whose far wall keeps 40 on its right half.
func widerGap() *recount.Floor {
	f := floorOf(spots(0, 0, 1000, 0, 1000, 200, 500, 200, 0, 200))
	f.Rooms[0].Outline.Gaps[2] = 40 * mm
	return f
}

func part(row, run, piece int, corners []spot) recount.Part {
	return recount.Part{Ref: recount.Ref{Row: row, Run: run, Piece: piece}, Corners: corners}
}

// say writes flaws short: "near 0.0.1 edge 2", "uncovered 0", "overlap 0.0.0 0.0.1".
func say(flaws []recount.Flaw) string {
	var out []string
	ref := func(r recount.Ref) string { return fmt.Sprintf("%d.%d.%d", r.Row, r.Run, r.Piece) }
	for _, f := range flaws {
		switch f.Kind {
		case recount.Uncovered:
			out = append(out, fmt.Sprintf("uncovered %d", f.Row))
		case recount.Overlap:
			out = append(out, "overlap "+ref(f.Part)+" "+ref(f.Other))
		case recount.Outside:
			out = append(out, "outside "+ref(f.Part))
		case recount.Near:
			out = append(out, fmt.Sprintf("near %s edge %d", ref(f.Part), f.Edge.Index))
		case recount.Split:
			out = append(out, "split "+ref(f.Part)+" "+ref(f.Other))
		}
	}
	return strings.Join(out, ", ")
}

// TestMeasure lays one row from 10 to 190 mm in a room of 1000 x 200, unless it says otherwise.
func TestMeasure(t *testing.T) {
	room := box(0, 0, 1000, 200)
	strips := []recount.Strip{{From: 10 * mm, To: 190 * mm}}
	turned := func(corners []spot, degrees float64) []spot {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		out := make([]spot, len(corners))
		for i, p := range corners {
			out[i] = spot{X: math.Round(p.X*cos - p.Y*sin), Y: math.Round(p.X*sin + p.Y*cos)}
		}
		return out
	}
	slanted := spots(0, 0, 1000, 0, 900, 200, 0, 200) // its right wall runs from (1000, 0) to (900, 200)
	// The right wall less the gap: x = 1000 - y/2 - 10 sqrt(1.25), which is 983.82 at 10 and 893.82 at 190.
	for _, c := range []struct {
		reason string
		floor  *recount.Floor
		strips []recount.Strip
		parts  []recount.Part
		want   string
	}{
		{"full cover", floorOf(room), strips, []recount.Part{part(0, 0, 0, box(10, 10, 990, 190))}, ""},
		{"two pieces", floorOf(room), strips, []recount.Part{part(0, 0, 0, box(10, 10, 500, 190)), part(0, 0, 1,
			box(500, 10,
				990, 190))}, ""},
		{
			"corners the other way round", floorOf(spots(0, 0, 0, 200, 1000, 200, 1000, 0)), strips,
			[]recount.Part{part(0, 0,
				0, spots(10, 10, 10, 190, 990, 190, 990, 10))},
			"",
		},
		{
			"repeated corners and corners in line", floorOf(spots(0, 0, 0, 0, 500, 0, 1000, 0, 1000, 200, 0, 200, 0,
				200)),
			strips,
			[]recount.Part{part(0, 0, 0, box(10, 10, 990, 190))},
			"",
		},
		{"nothing laid", floorOf(room), nil, nil, "uncovered 0"},
		{"short by what is hidden", floorOf(room), strips, []recount.Part{part(0, 0, 0, box(14, 10, 985, 190))}, ""},
		{"short by more", floorOf(room), strips, []recount.Part{part(0, 0, 0, box(10, 10, 984, 190))}, "uncovered 0"},
		{"a slit between two pieces", floorOf(room), strips, []recount.Part{
			part(0, 0, 0, box(10, 10, 500, 190)),
			part(0, 0,
				1, box(500.01, 10, 990, 190)),
		}, "uncovered 0"},
		{
			"one tick too near the wall", floorOf(room), strips,
			[]recount.Part{part(0, 0, 0, box(10-1/mm, 10, 990, 190))},
			"near 0.0.0 edge 3",
		},
		{
			"outside", floorOf(room), strips,
			[]recount.Part{part(0, 0, 0, box(-20, 10, 990, 190))},
			"outside 0.0.0, near " +
				"0.0.0 edge 3",
		},
		{"overlap", floorOf(room), strips, []recount.Part{part(0, 0, 0, box(10, 10, 510, 190)), part(0, 0, 1, box(500,
			10,
			990, 190))}, "overlap 0.0.0 0.0.1"},
		{"one piece upon another", floorOf(room), strips, []recount.Part{part(0, 0, 0, box(10, 10, 990, 190)), part(0,
			0, 1,
			box(300, 50, 400, 60))}, "overlap 0.0.0 0.0.1"},

		{"a row cut in two by an island", floorOf(room, box(400, 0, 500, 200)), strips, []recount.Part{part(0, 0, 0,
			box(10,
				10, 390, 190)), part(0, 1, 0, box(510, 10, 990, 190))}, ""},
		{"a piece over the island's gap", floorOf(room, box(400, 0, 500, 200)), strips, []recount.Part{part(0, 0, 0,
			box(10,
				10, 395, 190)), part(0, 1, 0, box(510, 10, 990, 190))}, "near 0.0.0 edge 3"},
		{"two runs that touch", floorOf(room), strips, []recount.Part{part(0, 0, 0, box(10, 10, 500, 190)), part(0, 1,
			0,
			box(500, 10, 990, 190))}, "split 0.0.0 0.1.0"},
		{
			"two runs beside a post that stands in half of the row only: they hang together behind it", floorOf(room,
				box(400,
					0, 500, 100)), strips,
			[]recount.Part{part(0, 0, 0, spots(10, 10, 390, 10, 390, 110, 450, 110, 450, 190, 10, 190)), part(0, 1, 0,
				spots(450, 110, 510, 110, 510, 10, 990, 10, 990, 190, 450, 190))},
			"",
		},
		{"a notch round a post", floorOf(room, box(400, 0, 500, 100)), strips, []recount.Part{part(0, 0, 0, spots(10,
			10,
			390, 10, 390, 110, 510, 110, 510, 10, 990, 10, 990, 190, 10, 190))}, ""},
		{
			"a notch with corners cut off outside the circle of the gap", floorOf(room, box(400, 0, 500, 100)), strips,
			[]recount.Part{part(0, 0, 0, spots(10, 10, 390, 10, 390, 104.143, 395.857, 110, 504.143, 110, 510,
				104.143, 510, 10,
				990, 10, 990, 190, 10, 190))},
			"",
		},
		{
			"a notch cut straight across the corner comes within 7.1 of it", floorOf(room, box(400, 0, 500, 100)),
			strips,
			[]recount.Part{part(0, 0, 0, spots(10, 10, 390, 10, 390, 100, 400, 110, 510, 110, 510, 10, 990, 10, 990,
				190, 10,
				190))},
			"near 0.0.0 edge 3",
		},
		{
			"a notch that leaves 20 open round a post", floorOf(room, box(400, 0, 500, 100)), strips,
			[]recount.Part{part(0, 0, 0, spots(10, 10, 380, 10, 380, 110, 510, 110, 510, 10, 990, 10, 990, 190, 10,
				190))},
			"uncovered 0",
		},

		{
			"a wall with a wider gap beside one with a narrower, floor cut off square", widerGap(), strips,
			[]recount.Part{part(0, 0, 0, spots(10, 10, 990, 10, 990, 160, 500, 160, 500, 190, 10, 190))},
			"",
		},
		{"the same, cut off 6 mm further than is needed", widerGap(), strips, []recount.Part{part(0, 0, 0, spots(10,
			10, 990,
			10, 990, 160, 494, 160, 494, 190, 10, 190))}, "uncovered 0"},
		{"the same, 1 mm beyond", widerGap(), strips, []recount.Part{part(0, 0, 0, spots(10, 10, 990, 10, 990, 160,
			501, 160,
			501, 190, 10, 190))}, "near 0.0.0 edge 2"},

		{"an angled end", floorOf(slanted), strips, []recount.Part{part(0, 0, 0, spots(10, 10, 983.8197, 10, 893.8197,
			190,
			10, 190))}, ""},
		{"an angled end 1 mm too long", floorOf(slanted), strips, []recount.Part{part(0, 0, 0, spots(10, 10, 984.8197,
			10,
			894.8197, 190, 10, 190))}, "near 0.0.0 edge 1"},
		{
			"a square end at an angled wall", floorOf(slanted), strips,
			[]recount.Part{part(0, 0, 0, box(10, 10, 890, 190))},
			"uncovered 0",
		},
		{
			"an open bow tie between two heights where all is covered", floorOf(room), strips,
			[]recount.Part{part(0, 0, 0, spots(10, 10, 500, 10, 480, 100, 500, 190, 10, 190)), part(0, 0, 1, box(500,
				10, 990,
				190))},
			"uncovered 0",
		},
		{
			"edges that cross half way: open above, overlap below", floorOf(room), strips,
			[]recount.Part{part(0, 0, 0, spots(10, 10, 520, 10, 480, 190, 10, 190)), part(0, 0, 1, spots(480, 10, 990,
				10, 990,
				190, 520, 190))},
			"uncovered 0, overlap 0.0.0 0.0.1",
		},
		{
			"a room turned by 30 degrees with the piece turned too, corners rounded",
			&recount.Floor{Rooms: []recount.Room{{Outline: ring(turned(room, 30), gap)}}},
			[]recount.Strip{{From: -1000 * mm, To: 1000 * mm}},
			[]recount.Part{part(0, 0, 0, turned(box(10, 10, 990, 190), 30))},
			"",
		},
		{
			"the same, 1/10 mm too near", &recount.Floor{Rooms: []recount.Room{{Outline: ring(turned(room, 30), gap)}}},
			[]recount.Strip{{From: -1000 * mm, To: 1000 * mm}},
			[]recount.Part{part(0, 0, 0, turned(box(10, 10, 990.1, 190), 30))},
			"near 0.0.0 edge 1",
		},
		{
			"no gap, walls that slant", &recount.Floor{Rooms: []recount.Room{{Outline: ring(turned(room, 30), 0)}}},
			[]recount.Strip{{From: -1000 * mm, To: 1000 * mm}},
			[]recount.Part{part(0, 0, 0, turned(box(0, 0, 1000, 200), 30))},
			"",
		},
	} {
		t.Run(c.reason, func(t *testing.T) {
			got := recount.Measure(c.floor, c.strips, c.parts)
			if say(got) != c.want {
				t.Errorf("found %q, want %q:\n%+v", say(got), c.want, got)
			}
		})
	}
}

// TestDoorways opens the near wall of a room of 1000 x 200 from 300 to 500, 50 deep.
func TestDoorways(t *testing.T) {
	door := func(d recount.Doorway) *recount.Floor {
		f := floorOf(box(0, 0, 1000, 200))
		f.Rooms[0].Doorways = []recount.Doorway{d}
		return f
	}
	wood := recount.Doorway{Wall: 0, At: 300 * mm, Width: 200 * mm, Depth: 50 * mm, Into: -1}
	metal := wood
	metal.Gap = gap
	stopped, under := wood, wood
	stopped.Stop, under.Under = gap, 12*mm
	strips := []recount.Strip{{From: -50 * mm, To: 10 * mm}, {From: 10 * mm, To: 190 * mm}}
	main := part(1, 0, 0, box(10, 10, 990, 190))
	beyond := recount.Room{Outline: ring(box(0, -250, 1000, -50), gap)}
	through := wood
	through.Into = 1
	two := door(through)
	two.Rooms = append(two.Rooms, beyond)
	deep := append([]recount.Strip{{From: -240 * mm, To: -50 * mm}}, strips...)
	for _, c := range []struct {
		reason string
		floor  *recount.Floor
		strips []recount.Strip
		parts  []recount.Part
		want   string
	}{
		{"floor into the opening", door(wood), strips, []recount.Part{part(0, 0, 0, box(300, -50, 500, 10)), main}, ""},
		{"floor that stops at the gap", door(wood), strips, []recount.Part{main}, "uncovered 0"},
		{
			"floor beside the casing", door(wood), strips,
			[]recount.Part{part(0, 0, 0, box(290, -50, 500, 10)), main},
			"outside 0.0.0, near 0.0.0 edge 0",
		},
		{
			"floor beyond its depth", door(wood),
			[]recount.Strip{{From: -60 * mm, To: 10 * mm}, strips[1]},
			[]recount.Part{part(0, 0, 0, box(300, -60, 500, 10)), main},
			"outside 0.0.0",
		},
		{
			"floor under a metal casing", door(metal), strips,
			[]recount.Part{part(0, 0, 0, box(300, -50, 500, 10)), main},
			"near 0.0.0 edge 0",
		},
		{"an opening without depth is none: the floor keeps the gap", door(recount.Doorway{
			Wall: 0, At: 300 * mm,
			Width: 200 * mm, Into: -1,
		}), strips, []recount.Part{main}, ""},
		{
			"floor into an opening without depth", door(recount.Doorway{
				Wall: 0, At: 300 * mm, Width: 200 * mm,
				Into: -1,
			}),
			[]recount.Strip{{From: 0, To: 10 * mm}, strips[1]},
			[]recount.Part{part(0, 0, 0, box(300, 0, 500, 10)), main},
			"near 0.0.0 edge 0",
		},
		{"floor up to a transition that keeps a gap", door(stopped), strips, []recount.Part{part(0, 0, 0, box(300,
			-50, 500,
			10)), main}, "outside 0.0.0"},
		{
			"floor short of it by the gap", door(stopped), strips,
			[]recount.Part{part(0, 0, 0, box(300, -40, 500, 10)), main},
			"",
		},
		{"floor beneath the casing on both sides", door(under), strips, []recount.Part{
			part(0, 0, 0, box(288, -50, 512, 10)),
			main,
		}, ""},
		{"floor farther beneath it than asked", door(under), strips, []recount.Part{
			part(0, 0, 0, box(287, -50, 512, 10)),
			main,
		}, "outside 0.0.0, near 0.0.0 edge 0"},
		{
			"floor not beneath it at all", door(under), strips,
			[]recount.Part{part(0, 0, 0, box(304, -50, 500, 10)), main},
			"uncovered 0",
		},
		{"floor round a metal casing", door(metal), strips, []recount.Part{
			part(0, 0, 0, box(310, -50, 490, 10)),
			main,
		}, ""},
		{"floor round a wooden casing", door(wood), strips, []recount.Part{
			part(0, 0, 0, box(310, -50, 490, 10)),
			main,
		}, ""},
		{
			"through to the next room", two, deep,
			[]recount.Part{part(0, 0, 0, box(10, -240, 990, -60)), part(0, 0, 1, box(300, -60, 500, -50)), part(1, 0, 0,
				box(300, -50, 500, 10)), part(2, 0, 0, box(10, 10, 990, 190))},
			"",
		},
		{
			"through to the next room, the rows there left open", two, deep,
			[]recount.Part{part(1, 0, 0, box(300, -50, 500, 10)), part(2, 0, 0, box(10, 10, 990, 190))},
			"uncovered 0",
		},
	} {
		t.Run(c.reason, func(t *testing.T) {
			got := recount.Measure(c.floor, c.strips, c.parts)
			if say(got) != c.want {
				t.Errorf("found %q, want %q:\n%+v", say(got), c.want, got)
			}
		})
	}
}

// TestMeasureAgainstDefinition lays random rooms with one island in random strips of random parts, and holds what is
// found against the definition, place by place: a place that is open and farther from every wall than what is hidden
// must lie in a flaw of uncovered floor, and one on a part that is nearer to a wall than the gap in a flaw of
// that part.
func TestMeasureAgainstDefinition(t *testing.T) {
	const rooms = 300
	for seed := range uint64(rooms) {
		r := rand.New(rand.NewPCG(seed, 1))
		outline := star(r, 500, 500, 450, 5+r.IntN(12))
		island := star(r, 500, 500, 60, 3+r.IntN(5))
		f := floorOf(outline, island)
		var strips []recount.Strip
		var parts []recount.Part
		for y := 0.0; y < 1000; y += 120 {
			strips = append(strips, recount.Strip{From: y * mm, To: (y + 120) * mm})
			x := 0.0
			for k := 0; x < 1000; k++ {
				w := 50 + 300*r.Float64()
				if r.IntN(5) > 0 {
					parts = append(parts, part(len(strips)-1, 0, k, box(x, y, x+w-r.Float64(), y+120)))
				}
				x += w
			}
		}
		checkAgainstDefinition(t, seed, f, recount.Measure(f, strips, parts), parts, r)
	}
}

func checkAgainstDefinition(
	t *testing.T,
	seed uint64,
	f *recount.Floor,
	flaws []recount.Flaw,
	parts []recount.Part,
	r *rand.Rand,
) {
	t.Helper()
	rings := []recount.Ring{f.Rooms[0].Outline, f.Rooms[0].Islands[0]}
	const margin = 1.5 * mm // Slack, and the chords of rounded corners
	for range oracle.Samples(500) {
		p := spot{X: 1000 * mm * r.Float64(), Y: 1000 * mm * r.Float64()}
		inside := within(p, rings[0].Corners) && !within(p, rings[1].Corners)
		distance := min(farFrom(p, rings[0].Corners), farFrom(p, rings[1].Corners))
		on := slices.IndexFunc(parts, func(q recount.Part) bool { return within(p, q.Corners) })
		edge := math.Inf(1)
		for _, q := range parts {
			edge = min(edge, farFrom(p, q.Corners))
		}
		found := func(kind recount.FlawKind) bool {
			return slices.ContainsFunc(flaws, func(x recount.Flaw) bool {
				if kind == recount.Uncovered {
					return x.Kind == kind && x.At.X <= p.X && p.X <= x.To.X && x.At.Y <= p.Y && p.Y <= x.To.Y
				}
				return x.Kind == kind && x.Part == parts[on].Ref
			})
		}
		switch {
		case on < 0 && inside && distance > 2.25*(gap+f.Hidden+recount.Slack)+margin && edge > margin:
			if !found(recount.Uncovered) {
				t.Fatalf("seed %d: %v is open, %v mm from a wall, and was not found", seed, p, distance/mm)
			}
		case on >= 0 && !inside && distance > margin && edge > margin:
			if !found(recount.Outside) {
				t.Fatalf("seed %d: %v is outside on part %v, and was not found", seed, p, parts[on].Ref)
			}
		case on >= 0 && inside && distance < 0.95*gap-margin && edge > margin:
			if !found(recount.Near) {
				t.Fatalf("seed %d: %v is %v mm from a wall on part %v, and was not found", seed, p, distance/mm,
					parts[on].Ref)
			}
		}
	}
	for _, x := range flaws {
		if x.Kind == recount.Overlap {
			t.Fatalf("seed %d: overlap where there is none: %+v", seed, x)
		}
	}
}

// star is a random simple outline round a place, in millimetres.
func star(r *rand.Rand, x, y, reach float64, n int) []spot {
	var out []spot
	for i := range n {
		angle := 2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n)
		d := reach * (0.4 + 0.6*r.Float64())
		out = append(out, spot{X: math.Round((x + d*math.Cos(angle)) * mm), Y: math.Round((y +
			d*math.Sin(angle)) * mm)})
	}
	return out
}

// within counts the edges to the right of a place.
func within(p spot, corners []spot) bool {
	in := false
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// farFrom returns the distance from the nearest edge.
func farFrom(p spot, corners []spot) float64 {
	far := math.Inf(1)
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		vx, vy, wx, wy := b.X-a.X, b.Y-a.Y, p.X-a.X, p.Y-a.Y
		t := min(1, max(0, (vx*wx+vy*wy)/(vx*vx+vy*vy)))
		far = min(far, math.Hypot(wx-t*vx, wy-t*vy))
	}
	return far
}

// A survey that is given up says so and finds nothing.
func TestCancelled(t *testing.T) {
	var outline []spot
	for i := range 10_000 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 10_000)
		outline = append(outline, spot{X: math.Round(5000 * mm * cos), Y: math.Round(5000 * mm * sin)})
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if found, _, err := recount.MeasureContext(ctx, floorOf(outline), nil, nil); !errors.Is(err, context.Canceled) ||
		found != nil {
		t.Errorf("found %v, error %v", found, err)
	}
}
