package strips_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/internal/recount"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// A sample is a random room.
type sample struct {
	outline []measure.Point
	islands [][]measure.Point
}

// steps returns a room with walls in two directions: columns side by side with floors and ceilings of their own that
// share a middle band, in which boxes stand.
func steps(rng *rand.Rand, unit measure.Length) sample {
	n := 1 + rng.IntN(6)
	var low, high []measure.Point
	x := measure.Length(0)
	for range n {
		w := measure.Length(10+rng.IntN(90)) * unit
		bottom, top := measure.Length(rng.IntN(60))*unit, measure.Length(100+rng.IntN(80))*unit
		low = append(low, measure.Point{X: x, Y: bottom}, measure.Point{X: x + w, Y: bottom})
		high = append(high, measure.Point{X: x, Y: top}, measure.Point{X: x + w, Y: top})
		x += w
	}
	slices.Reverse(high)
	s := sample{outline: append(low, high...)}
	for at := measure.Length(0); rng.IntN(3) > 0; {
		at += measure.Length(1+rng.IntN(20)) * unit
		w, h := measure.Length(1+rng.IntN(20))*unit, measure.Length(1+rng.IntN(15))*unit
		if at+w >= x {
			break
		}
		y := measure.Length(62+rng.IntN(20)) * unit
		s.islands = append(
			s.islands,
			[]measure.Point{{X: at, Y: y}, {X: at + w, Y: y}, {X: at + w, Y: y + h}, {X: at, Y: y + h}},
		)
		at += w
	}
	return s
}

// star returns a room with corners all around a middle, in which a slanted island stands.
func star(rng *rand.Rand, unit measure.Length) sample {
	n := 3 + rng.IntN(10)
	var s sample
	at := func(turn, r float64) measure.Point {
		return measure.Point{
			X: measure.Length(r * math.Cos(turn) * float64(unit)),
			Y: measure.Length(r * math.Sin(turn) * float64(unit)),
		}
	}
	for i := range n {
		turn := (float64(i) + 0.1 + 0.8*rng.Float64()) * 2 * math.Pi / float64(n)
		s.outline = append(s.outline, at(turn, 40+100*rng.Float64()))
	}
	if rng.IntN(2) == 0 && n > 5 {
		s.islands = append(s.islands, []measure.Point{at(0.2, 9), at(2, 12), at(4, 15*rng.Float64()+1)})
	}
	return s
}

// turned turns a sample about the origin and moves it, rounding to ticks.
func (s sample) turned(degrees float64) sample {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	turn := func(ring []measure.Point) []measure.Point {
		out := make([]measure.Point, len(ring))
		for i, p := range ring {
			x, y := float64(p.X), float64(p.Y)
			out[i] = measure.Point{
				X: measure.Length(math.Round(x*cos-y*sin)) + 12345,
				Y: measure.Length(math.Round(x*sin+y*cos)) - 54321,
			}
		}
		return out
	}
	out := sample{outline: turn(s.outline)}
	for _, r := range s.islands {
		out.islands = append(out.islands, turn(r))
	}
	return out
}

func (s sample) room(gap measure.Length) strips.Room {
	r := room(gap, s.outline)
	for _, i := range s.islands {
		r.Islands = append(r.Islands, strips.Island{Outline: i, Gap: gap})
	}
	return r
}

// samples yields n seeded random rooms that are simple, or more of them, as [oracle.Samples] says.
func samples(t *testing.T, seed uint64, n int, yield func(rng *rand.Rand, s sample, slanted bool)) {
	t.Helper()
	t.Logf("seed %d", seed)
	for i := range oracle.Samples(n) {
		rng := rand.New(rand.NewPCG(seed, uint64(i)))
		s, slanted := steps(rng, in), false
		switch i % 4 {
		case 1:
			s, slanted = star(rng, in), true
		case 2:
			s = s.turned(90 * float64(rng.IntN(4)))
		case 3:
			s, slanted = s.turned(360*rng.Float64()), true
		}
		if _, ok := outline.Simple(s.outline); ok {
			yield(rng, s, slanted)
		}
		if t.Failed() {
			t.Fatalf("room %d: %v", i, s)
		}
	}
}

// Without a gap the floor is the room, and the pieces of all runs add up to it: exactly where walls lie along the rows
// or square to them, else within a tick along each wall.
func TestNoGap(t *testing.T) {
	samples(t, 1, 50, func(rng *rand.Rand, s sample, slanted bool) {
		r := s.room(0)
		l := strips.Layout{
			Width:     measure.Length(3+rng.IntN(8)) * in,
			Grid:      in / 16,
			Direction: cutopt.Direction(rng.IntN(3)),
			Angle:     360 * rng.Float64(),
		}
		slanted = slanted || l.Direction == cutopt.DirectionAngle
		f := lay(t, l, r)
		var clips, pieces measure.Area
		for i := range f.Rows {
			for k, run := range f.Rows[i].Runs {
				_, a := f.Clip(i, k, run.From, run.To)
				clips += a
				for x := run.From; x < run.To; {
					to := min(run.To, x+measure.Length(1+rng.IntN(int(48*in))))
					_, a := f.Clip(i, k, x, to)
					pieces += a
					x = to
				}
			}
		}
		slack := measure.Area(0)
		if slanted {
			slack = measure.Area(in*in) / 100 * 4 // a tick along 300 inches
			slack += 2 * measure.Area(perimeter(s))
		}
		for _, c := range []struct {
			what      string
			got, want measure.Area
		}{{"area", f.Area, f.Net}, {"runs", clips, f.Area}, {"pieces", pieces, f.Area}} {
			if off := c.got - c.want; max(off, -off) > slack {
				t.Errorf("%s: %d, want %d within %d (off %d): %+v; facts %+v", c.what, c.got, c.want, slack, off, l,
					f.Facts)
			}
		}
	})
}

func perimeter(s sample) float64 {
	var sum float64
	for _, r := range append([][]measure.Point{s.outline}, s.islands...) {
		for i, p := range r {
			q := r[(i+1)%len(r)]
			sum += math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y))
		}
	}
	return sum
}

// Turning the drawing by quarters changes nothing but the axes; mirroring it mirrors the runs.
func TestTurnedAndMirrored(t *testing.T) {
	compared := 0
	samples(t, 6, 100, func(rng *rand.Rand, s sample, slanted bool) {
		l := strips.Layout{Width: 7 * in, Grid: in / 16, Cover: in / 4, Direction: cutopt.Direction(rng.IntN(2))}
		if slanted || tied(s) {
			return
		}
		f := lay(t, l, s.room(in/4))
		for _, quarter := range []float64{90, 180, 270} {
			g := lay(t, l, s.turned(quarter).room(in/4))
			if shape(f, 1) != shape(g, 1) || f.Area != g.Area || math.Mod(f.Turn+quarter, 360) != g.Turn {
				t.Errorf("turned by %v: %s, was %s", quarter, shape(g, in), shape(f, in))
			}
		}
		mirror := func(ring []measure.Point) []measure.Point {
			var out []measure.Point
			for _, p := range ring {
				out = append(out, measure.Point{X: -p.X, Y: p.Y})
			}
			return out
		}
		m := sample{outline: mirror(s.outline)}
		for _, i := range s.islands {
			m.islands = append(m.islands, mirror(i))
		}
		if l.Direction == cutopt.DirectionAcross {
			return // turning left meets the other side
		}
		compared++
		g := lay(t, l, m.room(in/4))
		if len(g.Rows) != len(f.Rows) {
			t.Fatalf("mirrored: %d rows, were %d", len(g.Rows), len(f.Rows))
		}
		// A run of the mirrored room lies as far from the right as the same run of the room lay from the left.
		sum := f.Rows[0].Runs[len(f.Rows[0].Runs)-1].To + g.Rows[0].Runs[0].From
		for i, r := range g.Rows {
			for k, run := range r.Runs {
				was := f.Rows[i].Runs[len(r.Runs)-1-k]
				if run.From+was.To != sum || run.To+was.From != sum {
					t.Errorf("row %d run %d: %v, was %v", i+1, k+1, run, was)
				}
			}
		}
	})
	if compared < 20 {
		t.Errorf("only %d rooms compared", compared)
	}
}

// tied reports whether two walls of a room are the longest.
func tied(s sample) bool {
	var sizes []float64
	var straight []measure.Point
	for i, p := range s.outline {
		before, after := s.outline[(i+len(s.outline)-1)%len(s.outline)], s.outline[(i+1)%len(s.outline)]
		if (p.X-before.X)*(after.Y-p.Y) != (p.Y-before.Y)*(after.X-p.X) {
			straight = append(straight, p)
		}
	}
	for i, p := range straight {
		q := straight[(i+1)%len(straight)]
		sizes = append(sizes, math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)))
	}
	slices.Sort(sizes)
	n := len(sizes)
	return n < 3 || sizes[n-1] == sizes[n-2]
}

// A larger gap never gives more floor.
func TestLargerGap(t *testing.T) {
	samples(t, 2, 8, func(_ *rand.Rand, s sample, _ bool) {
		last := measure.Area(math.MaxInt64)
		for gap := measure.Length(0); gap < 3*in; gap += in / 4 {
			r := s.room(gap)
			f, err := strips.Lay([]strips.Room{r}, &strips.Layout{Width: 7 * in, Grid: in / 16})
			if err != nil {
				break
			}
			if f.Area > last {
				t.Errorf("gap %d: area %d after %d", gap, f.Area, last)
			}
			last = f.Area
		}
	})
}

// The measurement that plans are checked with finds nothing wrong with pieces clipped from the runs: they keep the gap,
// cover the floor, and runs that the floor joins are one.
func TestRecount(t *testing.T) {
	samples(t, 3, 40, func(rng *rand.Rand, s sample, _ bool) {
		gap := measure.Length(rng.IntN(5)) * in / 8
		l := strips.Layout{
			Width: measure.Length(3+rng.IntN(8)) * in, Grid: in / 16, Cover: in / 4, Smooth: in / 8,
			Direction: cutopt.Direction(rng.IntN(3)), Angle: 360 * rng.Float64(), Start: cutopt.Start(rng.IntN(2)),
		}
		r := s.room(gap)
		if rng.IntN(2) == 0 {
			for i := range r.Gaps {
				r.Gaps[i] = measure.Length(rng.IntN(9)) * in / 8
			}
		}
		f, err := strips.Lay([]strips.Room{r}, &l)
		if err != nil {
			return
		}
		for _, finding := range recounted(f, &l, 36*in, r) {
			t.Errorf("%+v: gap %d, layout %+v", finding, gap, l)
		}
	})
}

// recounted measures pieces of the given length cut from all runs of a floor.
func recounted(f *strips.Floor, l *strips.Layout, plank measure.Length, rooms ...strips.Room) []recount.Flaw {
	axes := cutopt.Axes{Origin: f.Origin, Turn: f.Turn, Mirrored: f.Mirrored}
	ring := func(points []measure.Point, gap func(int) measure.Length) recount.Ring {
		var r recount.Ring
		for i, p := range points {
			x, y := axes.FromDrawing(p)
			r.Corners, r.Gaps = append(r.Corners, recount.Spot{X: x, Y: y}), append(r.Gaps, float64(gap(i)))
		}
		return r
	}
	floor := &recount.Floor{Exact: math.Mod(f.Turn, 90) == 0, Hidden: float64(l.Cover + l.Smooth)}
	for _, r := range rooms {
		out := recount.Room{Outline: ring(r.Outline, func(i int) measure.Length { return r.Gaps[i] })}
		for _, i := range r.Islands {
			out.Islands = append(out.Islands, ring(i.Outline, func(int) measure.Length { return i.Gap }))
		}
		for _, d := range r.Doorways {
			out.Doorways = append(out.Doorways, recount.Doorway{
				Wall: d.Wall, At: float64(d.At), Width: float64(d.Width), Depth: float64(d.Depth), Gap: float64(d.Jamb),
				Into: d.Into,
			})
		}
		floor.Rooms = append(floor.Rooms, out)
	}
	var rows []recount.Strip
	var parts []recount.Part
	for i, row := range f.Rows {
		rows = append(rows, recount.Strip{From: float64(row.From), To: float64(row.To)})
		for k, run := range row.Runs {
			for n, x := 0, run.From; x < run.To; n, x = n+1, x+plank {
				to := min(run.To, x+plank)
				corners, area := f.Clip(i, k, x, to)
				if corners == nil && area > 0 {
					corners = []measure.Point{{X: x, Y: row.From}, {X: to, Y: row.From}, {X: to, Y: row.To}, {
						X: x,
						Y: row.To,
					}}
				}
				p := recount.Part{Ref: recount.Ref{Row: i, Run: k, Piece: n}}
				for _, c := range corners {
					p.Corners = append(p.Corners, recount.Spot{X: float64(c.X), Y: float64(c.Y)})
				}
				parts = append(parts, p)
			}
		}
	}
	return recount.Measure(floor, rows, parts)
}

// Doorways and passages measure right too: two rooms side by side, joined in the band that all columns share, with
// other openings in their walls.
func TestRecountDoorways(t *testing.T) {
	const seed = 4
	t.Logf("seed %d", seed)
	for i := range oracle.Samples(30) {
		rng := rand.New(rand.NewPCG(seed, uint64(i)))
		west, east := steps(rng, in), steps(rng, in)
		width := west.outline[len(west.outline)/2].X
		for _, ring := range append(east.islands, east.outline) {
			for k := range ring {
				ring[k].X += width + measure.Length(i%7)*in
			}
		}
		turn := 90 * float64(rng.IntN(4))
		if i%2 == 0 {
			turn = 360 * rng.Float64()
		}
		gap := measure.Length(1+rng.IntN(5)) * in / 8
		rooms := []strips.Room{west.turned(turn).room(gap), east.turned(turn).room(gap)}
		wall := len(west.outline)/2 - 1 // the drawing's right
		low := west.outline[wall].Y
		rooms[0].Doorways = []strips.Doorway{{Wall: wall, At: 62*in - low, Width: 33 * in, Depth: 4 * in, Into: 1}}
		for k := range rooms {
			s := []sample{west, east}[k]
			for n := range 3 {
				w := 2 * rng.IntN(len(s.outline)/4) // a wall at the bottom
				long := s.outline[w+1].X - s.outline[w].X
				if n > 0 && rooms[k].Doorways != nil &&
					slices.ContainsFunc(rooms[k].Doorways, func(d strips.Doorway) bool { return d.Wall == w }) ||
					long < 9*in {
					continue
				}
				d := strips.Doorway{
					Wall: w, At: long / 4, Width: long / 2, Depth: measure.Length(rng.IntN(9)) * in,
					Into: -1,
				}
				if rng.IntN(2) == 0 {
					d.Jamb = gap
				}
				rooms[k].Doorways = append(rooms[k].Doorways, d)
			}
		}
		l := strips.Layout{
			Width:     measure.Length(3+rng.IntN(8)) * in,
			Grid:      in / 16,
			Cover:     in / 4,
			Smooth:    in / 8,
			Direction: cutopt.Direction(rng.IntN(2)),
		}
		f := lay(t, l, rooms...)
		for _, finding := range recounted(f, &l, 36*in, rooms...) {
			if runs := f.Rows[finding.Part.Row].Runs; finding.Kind == recount.Split {
				a, b := runs[finding.Part.Run], runs[finding.Other.Run]
				if min(a.To, b.To) > max(a.From, b.From) {
					continue // beside each other across the row: a wall parts them, but for the opening where one ends
				}
			}
			t.Errorf("room %d: %+v: gap %d, layout %+v, rooms %+v", i, finding, gap, l, rooms)
		}
		if t.Failed() {
			return
		}
	}
}
