package sample

import (
	"hash/fnv"
	"math/bits"
	"math/rand/v2"

	"plank.example/cutopt/measure"
)

// draws is the stream of one seed.
type draws struct{ *rand.PCG }

// newDraws seeds the stream by the mix and the seed, so that mixes share no rooms.
func newDraws(mix Mix, seed uint64) *draws {
	h := fnv.New64a()
	h.Write([]byte(mix))
	return &draws{rand.NewPCG(seed, h.Sum64())}
}

// below returns a whole number from 0 to n-1: the high half of a 64-bit draw times n. Its bias is below n/2^64.
func (d *draws) below(n int) int {
	hi, _ := bits.Mul64(d.Uint64(), uint64(n))
	return int(hi)
}

// between returns a length from low to high in whole sixteenths of an inch.
func (d *draws) between(low, high measure.Length) measure.Length {
	if high <= low {
		return low
	}
	return low + measure.Length(d.below(int((high-low)/measure.Sixteenth)+1))*measure.Sixteenth
}

// share returns a length between two percentages of a whole, in whole sixteenths.
func (d *draws) share(of measure.Length, low, high int) measure.Length {
	return d.between(
		(of / 100 * measure.Length(low)).Floor(measure.Sixteenth),
		(of / 100 * measure.Length(high)).Floor(measure.Sixteenth),
	)
}

// span is the shortest and the longest of something.
type span [2]measure.Length

// side is the mean of two even draws.
func (d *draws) side(s span) measure.Length {
	return ((d.between(s[0], s[1]) + d.between(s[0], s[1])) / 2).Floor(measure.Sixteenth)
}

// sizes are those of the package comment.
var sizes = map[Kind]struct{ long, short span }{
	KindBedroom: {feet(9, 17), feet(7, 14)},
	KindLiving:  {feet(12, 24), feet(10, 18)},
	KindKitchen: {feet(8, 18), feet(7, 14)},
	KindUtility: {feet(5, 10), span{54 * measure.Inch, 96 * measure.Inch}},
	KindPassage: {feet(6, 24), span{36 * measure.Inch, 54 * measure.Inch}},
	KindOffice:  {feet(9, 18), feet(8, 14)},
	KindOpen:    {feet(24, 64), feet(16, 40)},
	KindHall:    {feet(24, 80), feet(18, 50)},
}

func feet(low, high measure.Length) span { return span{low * measure.Foot, high * measure.Foot} }

// kind draws what the room is.
func (d *draws) kind(mix Mix) Kind {
	at := d.below(100)
	if mix == MixMixed {
		mix = MixDwelling
		switch part := d.below(100); {
		case part >= 95:
			mix = MixHall
		case part >= 80:
			mix = MixOffice
		}
	}
	switch mix {
	case MixHall:
		return KindHall
	case MixOffice:
		if at < 60 {
			return KindOffice
		}
		return KindOpen
	}
	switch {
	case at < 35:
		return KindBedroom
	case at < 60:
		return KindLiving
	case at < 80:
		return KindKitchen
	case at < 90:
		return KindUtility
	}
	return KindPassage
}

// shape draws the outline's shape; a room too small for it is a rectangle.
func (d *draws) shape(w, h measure.Length) Shape {
	const ft = measure.Foot
	at := d.below(100)
	switch {
	case at < 50:
	case at < 70:
		if h >= 7*ft {
			return ShapeL
		}
	case at < 76:
		if w >= 12*ft && h >= 8*ft {
			return ShapeU
		}
	case at < 84:
		if h >= 7*ft {
			return ShapeAlcove
		}
	case at < 92:
		if h >= 10*ft {
			return ShapeIsland
		}
	case h >= 7*ft:
		return ShapeAngled
	}
	return ShapeRectangle
}
