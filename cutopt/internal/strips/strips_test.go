package strips_test

import (
	"context"
	"errors"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/strips"
	"plank.example/cutopt/measure"
)

const (
	mm = measure.Millimetre
	in = measure.Inch
)

func corners(unit measure.Length, xy ...measure.Length) []measure.Point {
	var out []measure.Point
	for i := 0; i < len(xy); i += 2 {
		out = append(out, measure.Point{X: xy[i] * unit, Y: xy[i+1] * unit})
	}
	return out
}

func room(gap measure.Length, outline []measure.Point, islands ...strips.Island) strips.Room {
	gaps := make([]measure.Length, len(outline))
	for i := range gaps {
		gaps[i] = gap
	}
	return strips.Room{Name: "Den", Outline: outline, Gaps: gaps, Islands: islands}
}

func lay(t testing.TB, l strips.Layout, rooms ...strips.Room) *strips.Floor {
	t.Helper()
	f, err := strips.Lay(rooms, &l)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func widths(f *strips.Floor, unit measure.Length) []float64 {
	var out []float64
	for _, r := range f.Rows {
		out = append(out, float64(r.To-r.From)/float64(unit))
	}
	return out
}

func TestEdgeRows(t *testing.T) {
	for _, row := range []struct {
		name          string
		long, across  measure.Length
		width, grid   measure.Length
		rows          int
		first, last   measure.Length
		narrow        bool
		minRip, asked measure.Length
		edges         cutopt.EdgeRows
	}{
		// NAVEDTRA 14044, p. 7-23, half-module rule: border = (leftover + module)/2; figures by arithmetic.
		{
			name: "N2: 100 in, 9 in: 5 in at each end, 10 full", long: 200 * in, across: 100 * in, width: 9 * in, grid: in / 16,
			rows: 12, first: 5 * in, last: 5 * in,
		},
		{
			name: "N3: 2984 mm, 192 mm: 148 mm at each end, 14 full", long: 4000 * mm, across: 2984 * mm, width: 192 * mm,
			grid: mm, rows: 16, first: 148 * mm, last: 148 * mm,
		},
		{
			name: "N2, the first row whole where the last is then half a plank: 9 and 9 x 10 leave 1 in, too little: both 5",
			long: 200 * in, across: 100 * in, width: 9 * in, grid: in / 16, rows: 12, first: 5 * in, last: 5 * in,
			edges: cutopt.EdgeRowsWholeFirst,
		},
		{
			name: "15 x 9 and 6 in: whole first, 6 in last", long: 200 * in, across: 141 * in, width: 9 * in, grid: in / 16,
			rows: 16, first: 9 * in, last: 6 * in, edges: cutopt.EdgeRowsWholeFirst,
		},
		{
			name: "the same balanced: (6 + 9)/2", long: 200 * in, across: 141 * in, width: 9 * in, grid: in / 16, rows: 16,
			first: 15 * in / 2, last: 15 * in / 2,
		},
		{
			name: "whole rows fit: none is ripped", long: 4000 * mm, across: 15 * 192 * mm, width: 192 * mm, grid: mm, rows: 15,
			first: 192 * mm, last: 192 * mm,
		},
		{
			name: "one row", long: 4000 * mm, across: 120 * mm, width: 192 * mm, grid: mm, rows: 1, first: 120 * mm,
			last: 120 * mm,
		},
		{
			name: "one narrow row", long: 4000 * mm, across: 90 * mm, width: 192 * mm, grid: mm, rows: 1, first: 90 * mm,
			last: 90 * mm, narrow: true,
		},
		{
			name: "asked for: the last row is what is left", long: 4000 * mm, across: 1000 * mm, width: 200 * mm, grid: mm,
			rows: 6, first: 150 * mm, last: 50 * mm, narrow: true, asked: 150 * mm,
		},
		{
			name: "two rows that cannot both be wide", long: 4000 * mm, across: 300 * mm, width: 200 * mm, grid: mm, rows: 2,
			first: 150 * mm, last: 150 * mm, narrow: true, minRip: 180 * mm,
		},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := lay(
				t,
				strips.Layout{Width: row.width, Grid: row.grid, FirstRow: row.asked, MinRip: row.minRip, Edges: row.edges},
				room(0, corners(1, 0, 0, row.long, 0, row.long, row.across, 0, row.across)),
			)
			n, least := len(f.Rows), row.minRip
			if least == 0 {
				least = row.width / 2
			}
			if n != row.rows || f.Rows[0].To-f.Rows[0].From != row.first || f.Rows[n-1].To-f.Rows[n-1].From != row.last ||
				narrow(f, least) != row.narrow {
				t.Errorf("%d rows, narrow %v: %v ticks", n, narrow(f, least), widths(f, 1))
			}
			for i := range f.Rows {
				if i > 0 && f.Rows[i].From != f.Rows[i-1].To {
					t.Errorf("row %d does not follow row %d", i+1, i)
				}
			}
		})
	}
}

// What is too large is refused before it is stored, by what it would take.
func TestTooLarge(t *testing.T) {
	const m = measure.Metre
	teeth := []measure.Point{{X: 0, Y: 100 * m}}
	for i := range measure.Length(2001) {
		teeth = append(teeth, measure.Point{X: i * 50 * mm, Y: i % 2 * 99 * m})
	}
	teeth = append(teeth, measure.Point{X: 100 * m, Y: 100 * m})
	square := corners(m, 0, 0, 900, 0, 900, 900, 0, 900)
	for _, row := range []struct {
		name   string
		layout strips.Layout
		room   strips.Room
		fits   bool
	}{
		{"54 million small planks", strips.Layout{Width: 50 * mm, Length: 300 * mm}, room(6*mm, square), false},
		{"rows of 1/100 mm", strips.Layout{Width: mm / 100}, room(6*mm, square), false},
		{"1,000 runs in each of 10,000 rows", strips.Layout{
			Width: 10 * mm, Length: m, Direction: cutopt.DirectionAcross,
		}, room(0,
			teeth), false},
		{"a hall of 1.2 million planks", strips.Layout{Width: 180 * mm, Length: 1200 * mm}, room(6*mm, corners(m, 0, 0, 508,
			0, 508, 508, 0, 508)), true},
		{"a limit of its own", strips.Layout{Width: 180 * mm, Length: 1200 * mm, MaxPieces: 1000}, room(6*mm, corners(m, 0,
			0, 20, 0, 20, 20, 0, 20)), false},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.layout.Grid = mm
			_, err := strips.Lay([]strips.Room{row.room}, &row.layout)
			if errors.Is(err, strips.ErrTooLarge) == row.fits {
				t.Errorf("error %v", err)
			}
		})
	}
}

func TestLayCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	l := strips.Layout{Width: 7 * in, Grid: in / 16}
	if f, err := strips.LayContext(ctx, []strips.Room{room(0, round(2000, 5000))}, &l); f != nil ||
		!errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}

// narrow reports whether an edge row is narrower than a width where it is narrowest.
func narrow(f *strips.Floor, least measure.Length) bool {
	for i := range f.Rows {
		for k, run := range f.Rows[i].Runs {
			if first, last := f.EdgeWidths(i, k, run.From, run.To); min(first, last) < least {
				return true
			}
		}
	}
	return false
}
