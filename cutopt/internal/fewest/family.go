package fewest

import (
	"slices"

	"plank.example/cutopt/internal/bound"
	"plank.example/cutopt/proof"
)

// A Known is what is known of one placement of each floor of a family.
type Known struct {
	Choice      []int              // the placement, by floor; nil for none: then none is solved by itself
	Certificate *proof.Certificate // of their bare problem
	Prices      []proof.Step       // that it rests on, or that come near
}

// A Verdict is what became of a family: a proof that no placements do with target planks or fewer, placements that do,
// or neither, where the budget was spent.
type Verdict struct {
	Certificate *proof.FamilyCertificate // nil where there is no proof
	Better      []int                    // placements, by floor, of a layout of target planks or fewer; nil for none
	Spent       bool                     // neither, since the budget was spent
	Steps       int64                    // as in Budget
}

// Family tries to prove that no placements of a family need target planks or fewer, which those known do not. It takes
// about set.Budget.Branch steps, and where prices do not decide on some placements, at most those of a short Solve of
// each of a few of them.
func Family(f *proof.Family, known *Known, target int, set *Settings) *Verdict {
	budget := Normal
	if set.Budget != nil {
		budget = *set.Budget
	}
	t := bound.RefuteFamily(f, target, known.Prices)
	out := &Verdict{}
	for alone := 0; ; {
		stuck, complete := t.Grow(2*int64(budget.Branch) - t.Work())
		switch {
		case complete:
			out.Steps += t.Work()
			out.Certificate = t.Proof()
			return out
		case stuck == nil || set.Stop != nil && set.Stop():
			out.Steps += t.Work()
			out.Spent = stuck == nil
			return out
		case slices.Equal(stuck, known.Choice) && known.Certificate.Planks > target:
			t.Close(known.Certificate)
			continue
		case alone == mostAlone || known.Choice == nil:
			out.Steps += t.Work()
			return out
		}
		alone++
		own := *set
		own.Budget, own.Report = &Quick, nil
		own.Enough = func(planks, bound int) bool { return planks <= target || bound > target }
		one, err := Solve(f.Instance(stuck), &own)
		if err != nil { // one that cannot be laid has no price above the target, and no certificate
			out.Steps += t.Work()
			return out
		}
		out.Steps += one.Steps
		switch {
		case one.Bound > target:
			t.Close(one.Certificate)
		case one.Planks <= target:
			out.Steps += t.Work()
			out.Better = stuck
			return out
		default:
			out.Steps += t.Work()
			return out
		}
	}
}

// mostAlone is how many placements are solved by themselves.
const mostAlone = 8
