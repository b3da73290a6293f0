// Package floor turns outlines into rows and runs: inset by the gap, turned into the room's own axes, sliced into rows,
// each row into runs with the exact shape of every stretch.
package floor

import "plank.example/cutopt/measure"

// A Floor is a region cut into rows, in its own axes: x along the rows to the right, y across them from the starting
// side, seen facing the starting wall.
type Floor struct {
	Name     string
	Origin   measure.Point // the drawing's point that is (0, 0) in the floor's own axes
	Turn     float64       // degrees
	Mirrored bool
	Net      measure.Area // outline less islands
	Area     measure.Area // what is to be covered, after the gaps
	Rows     []Row
	Notes    []string // what was smoothed, dropped, or asks for a break
}

// A Row is a strip of the floor, from the starting side.
type Row struct {
	From, To measure.Length // y; To-From is the laid width
	Runs     []Run          // from left to right
}

// A Run is a maximal stretch of a row. From and To are the outermost x the floor reaches in the strip.
type Run struct {
	From, To measure.Length
}

// Clip returns the part of run (row, run) between x = from and x = to: its corners and its area. The corners are nil
// where it is the full rectangle of the row's strip.
func (f *Floor) Clip(row, run int, from, to measure.Length) ([]measure.Point, measure.Area) {
	return nil, 0
}
