package strips_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/recount"

	"plank.example/cutopt/internal/outline"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// jogged returns a room whose walls are broken by jogs: at a place of its own each goes on a little further in or out,
// and need not go on parallel.
func jogged(rng *rand.Rand, s sample, deep float64) []measure.Point {
	var out []measure.Point
	for i, p := range s.outline {
		q := s.outline[(i+1)%len(s.outline)]
		out = append(out, p)
		v := measure.Point{X: q.X - p.X, Y: q.Y - p.Y}
		size := math.Hypot(float64(v.X), float64(v.Y))
		if size < 100*deep || rng.IntN(3) == 0 {
			continue
		}
		at := 0.2 + 0.6*rng.Float64()
		place := func(along, across float64) measure.Point {
			return measure.Point{
				X: p.X + measure.Length(math.Round(float64(v.X)*along-float64(v.Y)/size*across)),
				Y: p.Y + measure.Length(math.Round(float64(v.Y)*along+float64(v.X)/size*across)),
			}
		}
		lean := deep * (2*rng.Float64() - 1)
		if rng.IntN(2) == 0 {
			lean = 0
		}
		out = append(out, place(at, lean), place(at+deep*(rng.Float64()-0.3)/size, lean+deep*(2*rng.Float64()-1)))
	}
	return out
}

// Straightening jogs only ever loses floor, but for the rounding of corners to ticks, and never more than the tolerance
// along the walls.
func TestSmoothNeverGains(t *testing.T) {
	smooth := in / 8
	rooms, straightened := 0, 0
	samples(t, 11, 50, func(rng *rand.Rand, s sample, _ bool) {
		corners := jogged(rng, s, 1.2*float64(smooth))
		if _, ok := outline.Simple(corners); !ok {
			return
		}
		rooms++
		l := strips.Layout{Width: 7 * in, Grid: in / 16}
		as := lay(t, l, room(0, corners))
		l.Smooth = smooth
		f := lay(t, l, room(0, corners))
		round := measure.Area(4 * perimeter(sample{outline: corners}))
		if f.Area > as.Area+round {
			t.Errorf("%d square ticks of floor are gained, rounding %d: %v", f.Area-as.Area, round, corners)
		}
		if most := measure.Area(float64(smooth)*perimeter(sample{outline: corners})) + round; as.Area-f.Area > most {
			t.Errorf("%d square ticks of floor are lost, at most %d: %v", as.Area-f.Area, most, corners)
		}
		if len(f.Facts) > 0 {
			straightened++
		}
	})
	if 10*straightened < rooms {
		t.Errorf("only %d of %d rooms had jogs that were straightened", straightened, rooms)
	}
}

// A jog between two walls that are not parallel, the outer one of which would cross the line of the other.
func TestSmoothRefuses(t *testing.T) {
	for _, row := range []struct {
		name   string
		smooth measure.Length
		room   strips.Room
	}{
		{"millimetres", 3 * mm, room(6*mm, corners(mm, 0, 0, 2000, 0, 2000, 2, 4000, -10, 4000, 3000, 0, 3000))},
		{"sixteenths", in / 8, room(in/4, corners(in/16, 0, 0, 1280, 0, 1280, 1, 2560, -4, 2560, 1920, 0, 1920))},
	} {
		t.Run(row.name, func(t *testing.T) {
			l := strips.Layout{Width: 180 * mm, Grid: mm, Smooth: row.smooth, Cover: 2 * row.smooth}
			f := lay(t, l, row.room)
			for _, finding := range recounted(f, &l, 1220*mm, row.room) {
				t.Errorf("%+v", finding)
			}
		})
	}
}

// Check counts jogs by their definition: on rings with jogs alone, in clusters and on stairs, in walls of several gaps
// and either way round, it counts as many as were straightened.
func TestJogsAreRecounted(t *testing.T) {
	const seed = 12
	rings, straightened := 0, 0
	for i := range oracle.Samples(40) {
		rng := rand.New(rand.NewPCG(seed, uint64(i)))
		corners := ragged(rng)
		if _, ok := outline.Simple(corners); !ok {
			continue
		}
		rings++
		smooth := in/8 + measure.Length(rng.IntN(3))*in/8
		r := room(0, corners)
		if rng.IntN(3) == 0 {
			r.Gaps[rng.IntN(len(r.Gaps))] = in / 4
		}
		f := lay(t, strips.Layout{Width: 7 * in, Grid: in / 16, Smooth: smooth}, r)
		told := 0
		for _, fact := range f.Facts {
			if fact.Kind == cutopt.FactJogs {
				told = fact.Count
			}
		}
		straightened += told
		if _, got := recount.Straighten(corners, func(w int) measure.Length { return r.Gaps[w] }, false,
			smooth); got != told {
			t.Errorf("seed %d, ring %d: %d jogs are recounted, %d were straightened: %v", seed, i, got, told,
				corners)
		}
	}
	if straightened < rings {
		t.Errorf("only %d jogs in %d rings", straightened, rings)
	}
}

// ragged returns a ring of long and short walls: each side of a rectangle, slanted or not, goes on a little in or out
// every so often, after as little as a jog's own length.
func ragged(rng *rand.Rand) []measure.Point {
	size := func(low, high int) measure.Length { return measure.Length(low+rng.IntN(high-low)) * in / 16 }
	wide, deep := size(700, 2000), size(500, 1500)
	box := []measure.Point{{}, {X: wide}, {X: wide, Y: deep}, {Y: deep}}
	var out []measure.Point
	for i, p := range box {
		q := box[(i+1)%4]
		d := measure.Point{X: q.X - p.X, Y: q.Y - p.Y}
		long := max(d.X, -d.X, d.Y, -d.Y)
		d = measure.Point{X: d.X / long, Y: d.Y / long}
		at, off := measure.Length(0), measure.Length(0)
		for at < long-in {
			out = append(out, measure.Point{X: p.X + d.X*at - d.Y*off, Y: p.Y + d.Y*at + d.X*off})
			if at += size(1, 20); rng.IntN(3) == 0 {
				at += size(40, 400)
			}
			if rng.IntN(4) == 0 {
				off += size(0, 9) - in/4
			}
			if at < long-in && rng.IntN(2) == 0 {
				out = append(out, measure.Point{X: p.X + d.X*at - d.Y*off, Y: p.Y + d.Y*at + d.X*off})
				if off += size(0, 9) - in/4; rng.IntN(4) == 0 {
					at += measure.Length(rng.IntN(60))
				}
			}
		}
	}
	if rng.IntN(2) == 0 {
		slices.Reverse(out)
	}
	return out
}
