package stock

import "plank.example/cutopt/measure"

// A Job is what is wanted and what it may be cut from. Its zero values: no kerf, every offcut worth keeping.
type Job struct {
	Unit   measure.Unit   // that messages print lengths in
	Sticks []Stick        // kinds of sticks
	Pieces []Piece        // kinds of pieces
	Kerf   measure.Length // width of a saw cut
	Keep   measure.Length // shortest offcut worth keeping
}

// A Stick is a kind of stick that can be bought, or lies on hand.
type Stick struct {
	Name   string // may be empty
	Length measure.Length
	Waste  measure.Length // lost at each of both ends
	// Price in the smallest unit of money, such as cents. Where no stick to buy has a price, each costs its length in
	// ticks, so that the least length is bought.
	Price  int64
	Supply int  // how many there are; 0: any number
	OnHand bool // costs nothing; Supply says how many
}

// A Piece is a kind of piece.
type Piece struct {
	Name   string // may be empty
	Length measure.Length
	Count  int
	Ends   [2]End // the default is square
}

// An End is how a piece is cut at one end.
type End struct {
	Mitre int // hundredths of a degree off square, 0 … 8999; the piece's length is that to the long point
}

// Usable is the length of a stick without what is lost at its ends.
func (s *Stick) Usable() measure.Length { return s.Length - 2*s.Waste }

// Priced reports whether a stick to buy has a price.
func (j *Job) Priced() bool {
	for _, s := range j.Sticks {
		if !s.OnHand && s.Price > 0 {
			return true
		}
	}
	return false
}

// Costs returns what a stick of each kind costs: its price, or its length in ticks where there are no prices; 0 on
// hand.
func (j *Job) Costs() []int64 {
	priced := j.Priced()
	out := make([]int64, len(j.Sticks))
	for k, s := range j.Sticks {
		switch {
		case s.OnHand:
		case priced:
			out[k] = s.Price
		default:
			out[k] = int64(s.Length)
		}
	}
	return out
}
