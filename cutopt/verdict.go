package cutopt

import (
	"slices"

	"plank.example/cutopt/internal/enum"
)

// A Verdict says of each number of boxes whether it will do.
type Verdict struct {
	// Counts are ascending, without a gap: from the most that are proven too few, or from the rule of thumb where
	// that is less, to the largest of the order's boxes, the rule of thumb and what is recommended.
	Counts      []BoxCount
	Recommended int // the fewest boxes whose risk of running short, as counted or else plain, is at most the limit
	// Close says that laying the floor more often might change what is recommended: the limit lies within the
	// interval of the number recommended or of the one below.
	Close bool
	Lost  float64 // planks lost each time, on average; 0 where the floor is not laid

	Loss  float64 // chance that a plank is lost, as assumed
	Limit float64 // greatest chance of running short that is accepted
	Times int     // how often the floor was laid; 0 where Recommended rests on the binomial chance
}

// A BoxCount is what buying so many boxes means.
type BoxCount struct {
	Boxes  int
	Enough Enough
	// Planks are those of the floor that it is reckoned of: the plan's, or where the floor is not laid with breakage
	// and these are fewer boxes than the order's, the floor of fewest planks, which fewer boxes would be bought for.
	Planks int
	Left   int // whole planks left beyond those kept for repairs when none is lost; below 0 so many are missing

	AddedToFloor    float64 // percent bought on top of the net floor area
	ShareOfPurchase float64 // percent of the purchase that is not floor
	Price           Money   // of these boxes; 0 when unknown

	Risk Chance // of running short
}

// Enough says whether a number of boxes holds the planks of a floor laid without a loss, and those kept for repairs.
type Enough uint8

// What a number of boxes may be.
const (
	EnoughNo   Enough = iota // "no": proven too few
	EnoughOpen               // "open": no plan with so few is known, and none is ruled out
	// "yes": the plan in hand needs no more, nor the floor of fewest planks where the floor is not laid
	EnoughYes
)

var enoughNames = []string{"no", "open", "yes"}

// String returns "no", "open" or "yes".
func (e Enough) String() string { return enum.String("Enough", enoughNames, int(e)) }

// Telling returns the counts that a table should not be without: the most that are proven too few and the next, the
// fewest that are enough where none breaks, those of the order and of the rule of thumb, and those recommended with
// their neighbours. That no box at all is too few is left out.
func (v *Verdict) Telling(plan *Plan) []BoxCount {
	keep := []int{plan.Order.Boxes, plan.Order.ThumbBoxes, v.Recommended - 1, v.Recommended, v.Recommended + 1}
	for k, c := range v.Counts {
		if k > 0 && c.Enough != v.Counts[k-1].Enough {
			keep = append(keep, c.Boxes)
			if c.Enough != EnoughYes || v.Counts[k-1].Enough == EnoughNo {
				keep = append(keep, c.Boxes-1)
			}
		}
	}
	var out []BoxCount
	for _, c := range v.Counts {
		if slices.Contains(keep, c.Boxes) && (c.Boxes > 0 || c.Enough != EnoughNo) {
			out = append(out, c)
		}
	}
	return out
}

// A Chance is a probability counted from a simulation.
type Chance struct {
	Short, Times int     // how often more boxes were needed, of so many times
	Simulated    float64 // Short/Times; 0 where the floor is not laid
	// its 95 % confidence interval (Clopper and Pearson, Biometrika 26, 1934); 0 and 1 where it is not laid
	Low, High float64
	// Plain is the chance that more planks are lost than the boxes hold beyond those of the plan, by the binomial
	// distribution alone: no piece of a lost plank is used, and nothing is planned anew.
	Plain float64
}

// Value returns Simulated where the floor was laid, else Plain.
func (c Chance) Value() float64 {
	if c.Times > 0 {
		return c.Simulated
	}
	return c.Plain
}
