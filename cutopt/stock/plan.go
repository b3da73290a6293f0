package stock

import "plank.example/cutopt/measure"

// A Plan says how each stick is cut. Indices count from 0.
type Plan struct {
	Cuttings []Cutting
	Cost     int64          // of all sticks, as [Job.Costs] has it
	Sticks   int            // how many are cut
	Offcut   measure.Length // the longest single offcut, 0 where none is worth keeping
}

// A Cutting is a number of sticks that are cut alike.
type Cutting struct {
	Stick  int // of Job.Sticks
	Count  int // sticks cut so, 1 or more
	Pieces []Cut
	Offcut measure.Length // that each leaves, worth keeping or not
}

// A Cut is a number of equal pieces on one stick.
type Cut struct {
	Piece int // of Job.Pieces
	Count int
}
