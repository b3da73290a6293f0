package cutopt

import (
	"fmt"
	"math"
	"math/bits"

	"plank.example/cutopt/measure"
)

const (
	agreement = 5 // percent by which Covers may differ from the nominal area of Planks: labels round, sizes are nominal
	wholeness = 5 // percent of one plank by which Covers may miss a whole number of planks
)

// PlanksPer returns the planks in a box: Planks where it is given, else the whole number of planks nearest to Covers.
//
// The error is a [*FieldError]: the box has neither, Covers is more than 5 % of a plank from a whole number of planks,
// or Planks and Covers are both given and differ by more than 5 % (labels round, and sizes are nominal).
func (b Box) PlanksPer(p Plank) (int, error) { return b.planksPer(p, measure.UnitMillimetre) }

// planksPer is PlanksPer with messages in a unit.
func (b Box) planksPer(p Plank, unit measure.Unit) (int, error) {
	switch {
	case b.Planks < 0 || b.Covers < 0 || b.Planks == 0 && b.Covers == 0:
		return 0, &FieldError{
			Field: "box", Rule: "a box has planks, an area it covers, or both", Mend: "read one of them from the label",
		}
	case b.Covers == 0:
		return b.Planks, nil
	case p.Length <= 0 || p.Length > MaxLength || p.Width <= 0 || p.Width > MaxLength:
		return 0, &FieldError{
			Field: "plank", Rule: "planks are counted from what a box covers by their length and width",
		}
	}
	size := fmt.Sprintf("%s x %s", p.Length.Format(unit, measure.Tick), p.Width.Format(unit, measure.Tick))
	mismatch := func(rule string) error {
		return &FieldError{
			Field: "box.covers", Value: b.Covers.Format(unit), Rule: rule,
			Mend: "count the planks on the label, or check the size of a plank",
		}
	}
	if b.Planks > 0 {
		area, ok := p.times(b.Planks)
		if !ok {
			return 0, tooLarge(b.Planks)
		}
		if off := b.Covers - area; max(off, -off) > area/100*agreement {
			return 0, mismatch(fmt.Sprintf("%d planks of %s are %s, and both must agree within %d %%",
				b.Planks, size, area.Format(unit), agreement))
		}
		return b.Planks, nil
	}
	plank, _ := p.times(1)
	n, rest := b.Covers/plank, b.Covers%plank
	off := rest
	if rest > plank-rest {
		n, off = n+1, plank-rest
	}
	if n < 1 || n > MaxBoxPlanks || off > plank/100*wholeness {
		return 0, mismatch(fmt.Sprintf("it is %.2f planks of %s, and a box holds a whole number, at most 100,000",
			float64(b.Covers)/float64(plank), size))
	}
	return int(n), nil
}

// times returns the area of n planks whose sizes are in range, and whether it fits.
func (p Plank) times(n int) (measure.Area, bool) {
	high, low := bits.Mul64(uint64(p.Length)*uint64(p.Width), uint64(n))
	return measure.Area(low), high == 0 && low <= math.MaxInt64
}

func tooLarge(n int) error {
	return &FieldError{
		Field: "box.planks", Value: fmt.Sprint(n), Rule: "a box of planks of this size covers more than 90 square kilometres",
		Mend: "check the unit of the plank's size",
	}
}
