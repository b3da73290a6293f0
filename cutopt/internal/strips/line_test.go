package strips_test

import (
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

// Planks 7 in wide with a gap of 1/4 in. The room is 174 x 131 in, and in the last row wall 3 is nearer by
// 3/2 in at its end: facing wall 3 that is on the left.
func TestLines(t *testing.T) {
	square := corners(in, 0, 0, 174, 0, 174, 131, 0, 131)
	taper := corners(in/2, 0, 0, 348, 0, 348, 262, 0, 259)
	line := func(row, wall int, width measure.Length) cutopt.Fact {
		return cutopt.Fact{Kind: cutopt.FactLine, Row: row, Room: 1, Wall: wall, Width: width}
	}
	at := func(at, width measure.Length) cutopt.Fact {
		return cutopt.Fact{Kind: cutopt.FactLineAt, Row: 1, Room: 1, Wall: 3, At: at, Width: width}
	}
	base := func(wall, count int, length measure.Length) cutopt.Fact {
		return cutopt.Fact{Kind: cutopt.FactBase, Room: 1, Wall: wall, Count: count, Length: length}
	}
	asked := cutopt.Fact{Kind: cutopt.FactBaseAsked, Room: 1, Wall: 2}
	// From wall 3 the first row is 5 in wide where it is widest, on the right: the line is 5 1/4 in off there, and
	// nearer by 3/2 in at the other end, 174 in away.
	slope := func(x measure.Length) measure.Length { return 15*in/4 + x*3/2/174 }
	for _, row := range []struct {
		name    string
		outline []measure.Point
		layout  strips.Layout
		want    []cutopt.Fact
	}{
		{"a rectangle", square, strips.Layout{}, []cutopt.Fact{base(1, 2, 174*in), line(1, 1, 6*in)}},
		{"the first row as asked", square, strips.Layout{FirstRow: 5 * in}, []cutopt.Fact{
			base(1, 2, 174*in), line(1, 1, 21*in/4),
		}},
		{"from the wall opposite", square, strips.Layout{Start: cutopt.StartFar}, []cutopt.Fact{
			base(1, 2, 174*in), line(1, 3, 6*in),
		}},
		{"across", square, strips.Layout{Direction: cutopt.DirectionAcross, FirstRow: 7 * in}, []cutopt.Fact{
			base(1, 2, 174*in), line(1, 2, 29*in/4),
		}},
		{"from wall 2, as asked", square, strips.Layout{StartWall: 2, FirstRow: 7 * in}, []cutopt.Fact{
			asked, line(1, 2, 29*in/4),
		}},
		{"a wall that is not parallel", taper, strips.Layout{Start: cutopt.StartFar, FirstRow: 5 * in}, []cutopt.Fact{
			base(1, 2, 174*in),
			at(0, slope(0)), at(48*in, slope(48*in)), at(96*in, slope(96*in)), at(144*in, slope(144*in)),
			at(174*in, slope(174*in)),
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			l := row.layout
			l.Width, l.Grid, l.Cover, l.MinStrip, l.MinRip = 7*in, in/16, in/4, in, 7*in/2
			den := room(in/4, row.outline)
			den.Number = 1
			f := lay(t, l, den)
			near := func(a, b cutopt.Fact) bool { // but for rounding along a slanted wall
				off := a.Width - b.Width
				a.Width, b.Width = 0, 0
				return a == b && max(off, -off) <= 24
			}
			if !slices.EqualFunc(f.Facts, row.want, near) {
				t.Errorf("facts %+v, want %+v", f.Facts, row.want)
			}
		})
	}
}

func TestStartWallMustBeStraight(t *testing.T) {
	jog := corners(in/16, 0, 0, 1600, 0, 1600, 801, 800, 801, 800, 800, 0, 800)
	l := strips.Layout{Width: 7 * in, Smooth: in / 8, StartWall: 4}
	if _, err := strips.Lay([]strips.Room{room(0, jog)}, &l); err == nil {
		t.Error("rows begin at a jog that is straightened away")
	}
}

// The room is 174 in long and tapers by 3/2 in, and cabinets stand along its wall 3, from which the rows begin: places
// behind them are not told, and where they hide all of the wall the line is measured from them.
func TestLinesBeforeFloor(t *testing.T) {
	taper := corners(in/2, 0, 0, 348, 0, 348, 262, 0, 259)
	for _, row := range []struct {
		name    string
		cabinet []measure.Point
		kind    cutopt.FactKind
		want    []measure.Length // places from the left end of wall 3, or of the cabinets
	}{
		{
			"on the right", corners(in, 74, 100, 174, 100, 174, 131, 74, 130), cutopt.FactLineAt,
			[]measure.Length{0, 48 * in, 295 * in / 4},
		},
		{"in the middle", corners(in, 54, 100, 100, 100, 100, 131, 54, 130), cutopt.FactLineAt, []measure.Length{
			0, 48 * in, 215 * in / 4, 401 * in / 4, 144 * in, 174 * in,
		}},
		{"along the wall", corners(in/2, 0, 200, 348, 200, 348, 262, 0, 259), cutopt.FactLineFixed, []measure.Length{0}},
		{
			"along the wall and aslant", corners(in/2, 0, 200, 348, 202, 348, 262, 0, 259), cutopt.FactLineFixedAt,
			[]measure.Length{0, 48 * in, 96 * in, 144 * in, 174 * in},
		},
		{
			"an L along two walls", corners(in/2, 0, 0, 60, 0, 60, 200, 348, 200, 348, 262, 0, 259), cutopt.FactLineFixed,
			[]measure.Length{0},
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			den := room(in/4, taper)
			den.Number = 1
			den.Islands = []strips.Island{{Outline: row.cabinet, Gap: in / 4}}
			f := lay(t, strips.Layout{
				Start: cutopt.StartFar, FirstRow: 5 * in, Width: 7 * in, Grid: in / 16, Cover: in / 4, MinStrip: in,
			}, den)
			var got []measure.Length
			for _, fact := range f.Facts {
				if fact.Kind.OfLine() {
					if got = append(got, fact.At); fact.Kind != row.kind {
						t.Errorf("%+v, want %v", fact, row.kind)
					}
				}
			}
			if !slices.EqualFunc(got, row.want, func(a, b measure.Length) bool { return max(a-b, b-a) <= in/64 }) {
				t.Errorf("places %v, want %v", got, row.want)
			}
		})
	}
}
