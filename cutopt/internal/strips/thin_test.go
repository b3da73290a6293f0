package strips_test

import (
	"math/rand/v2"
	"testing"

	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// thin returns how many runs of a floor have a strip narrower than least.
func thin(f *strips.Floor, least measure.Length) (n int) {
	for i := range f.Rows {
		for k, run := range f.Rows[i].Runs {
			if len(f.Strips(i, k, run.From, run.To, least)) > 0 {
				n++
			}
		}
	}
	return n
}

func TestStrips(t *testing.T) {
	door := func(depth measure.Length) strips.Room {
		r := room(in/4, corners(in, 0, 0, 144, 0, 144, 132, 0, 132))
		r.Doorways = []strips.Doorway{
			{Wall: 0, At: 24 * in, Width: 30 * in, Depth: depth, Stop: in / 4, Under: in / 2, Into: -1},
		}
		return r
	}
	for _, row := range []struct {
		name        string
		room        strips.Room
		first       measure.Length // asked for; 0 leaves it open
		width, long measure.Length // of the narrowest strip of all runs; 0 for none
	}{
		{"a plain room", room(in/4, corners(in, 0, 0, 144, 0, 144, 132, 0, 132)), 0, 0, 0},
		{"a last row of half an inch: 131 1/2 less 5 and 18 rows of 7", room(in/4, corners(in, 0, 0, 144, 0, 144, 132, 0,
			132)), 5 * in, in / 2, 143*in + in/2},
		{"a doorway, first row left open", door(9 * in / 2), 0, 0, 0},
		{
			"a first row of 3 in: 7 less 3 of the 4 1/2 in of the doorway go with it, half an inch is left", door(9 * in / 2),
			3 * in, in / 2, 31 * in,
		},
		{"a slot of 3/4 in between two islands and 1/4 in gaps: no place avoids it", room(in/4, corners(in, 0, 0, 144, 0,
			144, 132, 0, 132),
			strips.Island{Outline: corners(in/8, 320, 320, 640, 320, 640, 400, 320, 400), Gap: in / 4},
			strips.Island{Outline: corners(in/8, 320, 410, 640, 410, 640, 490, 320, 490), Gap: in / 4}), 0, 3 * in / 4, 40*in +
			in/2},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := lay(
				t,
				strips.Layout{
					Width:    7 * in,
					Grid:     in / 16,
					Cover:    in / 4,
					FirstRow: row.first,
					MinStrip: in,
					MinRip:   3 * in,
					Length:   48 * in,
				},
				row.room,
			)
			var width, long measure.Length
			for i := range f.Rows {
				for k, run := range f.Rows[i].Runs {
					for _, s := range f.Strips(i, k, run.From, run.To, in) {
						if width == 0 || s.Width < width {
							width, long = s.Width, s.Length
						}
					}
				}
			}
			if width != row.width || long < row.long-2*in || long > row.long+2*in {
				t.Errorf("a strip of %v over %v, want %v over about %v: %s", width, long, row.width, row.long, shape(f, in))
			}
		})
	}
}

// Where the rows that are chosen leave a strip that nobody could hold, every other first row on the grid does so too.
// CUTOPT_SAMPLES tries more rooms.
func TestStripsUnavoidable(t *testing.T) {
	const seed = 15
	n := oracle.Samples(40)
	stated := 0
	for i := range n {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		s := steps(r, in)
		if i%3 == 0 { // out of square by up to 3 in
			k := r.IntN(len(s.outline))
			s.outline[k].Y += measure.Length(r.IntN(49)-24) * in / 8
		}
		rm := s.room(in / 4)
		for range r.IntN(4) {
			w := 2 * r.IntN(len(s.outline)/2)
			if size := max(s.outline[w+1].X-s.outline[w].X, s.outline[w].X-s.outline[w+1].X); size > 36*in {
				rm.Doorways = append(rm.Doorways, strips.Doorway{
					Wall: w, At: measure.Length(r.Int64N(int64(size - 30*in))), Width: 30 * in,
					Depth: measure.Length(r.IntN(56)) * in / 8, Stop: in / 4,
					Under: in / 2, Into: -1,
				})
			}
		}
		l := strips.Layout{
			Width:    measure.Length(4+r.IntN(5)) * in,
			Length:   48 * in,
			Grid:     in / 8,
			Cover:    in / 4,
			Smooth:   in / 8,
			MinStrip: in,
		}
		f, err := strips.Lay([]strips.Room{rm}, &l)
		if err != nil {
			continue
		}
		if thin(f, in) == 0 {
			continue
		}
		stated++
		for l.FirstRow = l.Grid; l.FirstRow <= l.Width; l.FirstRow += l.Grid {
			if g, err := strips.Lay([]strips.Room{rm}, &l); err == nil && thin(g, in) == 0 && l.FirstRow > l.Cover {
				t.Errorf(
					"room %d: %d runs have a strip, and none with a first row of %v: %s",
					i,
					thin(f, in),
					l.FirstRow,
					shape(f, in),
				)
				break
			}
		}
	}
	t.Logf("seed %d: %d rooms, %d with a strip that no first row avoids", seed, n, stated)
}
