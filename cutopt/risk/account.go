package risk

import (
	"errors"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Used is what a job really took, counted when the floor is down.
type Used struct {
	Boxes int // bought
	Lost  int // planks that were culled or miscut, whether some of each was laid or not
	Left  int // whole planks left over, those kept for repairs among them
}

// An Account is the real waste of a job, in the three meanings the word has, and its loss.
type Account struct {
	Used
	Opened int // planks that were cut, laid or lost: those bought that are not left

	AddedToFloor    float64 // percent bought on top of the net floor area
	ShareOfPurchase float64 // percent of the purchase that is not floor
	Afterwards      float64 // percent of the planks opened that is not laid

	Net, Bought, Laid measure.Area // floor area: outline less islands; planks of all boxes; pieces as they lie

	// Loss is the percent of the planks opened that were lost: what [cutopt.Rules] takes as the loss of the next job.
	// LossLow and LossHigh are its 95 % confidence interval (Clopper and Pearson, Biometrika 26, 1934).
	Loss, LossLow, LossHigh float64
}

// AccountOf draws up the account of a job that was laid by a plan. Of the plan only the areas are read, which do not
// depend on how its planks are cut: any plan of the same floor gives the same account.
//
// The error is that of a job that Validate refuses, or a *cutopt.FieldError that names bought, lost or left: at least
// one box is bought and at most [cutopt.MaxPieces] planks, no more is left than was bought, the planks opened cover
// what is laid, and at most half of them are lost, which is the most that a job may assume. It takes constant time but
// for Validate.
func AccountOf(job *cutopt.Job, plan *cutopt.Plan, used Used) (*Account, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	if plan == nil {
		return nil, errors.New("risk: the plan is nil: give one of the floor that was laid")
	}
	terms, err := job.Terms()
	if err != nil {
		return nil, err
	}
	plank := measure.Area(job.Plank.Length) * measure.Area(job.Plank.Width)
	if err := used.validate(terms.PerBox, plan.Waste.Laid, plank); err != nil {
		return nil, err
	}
	planks := used.Boxes * terms.PerBox
	a := &Account{
		Used: used, Opened: planks - used.Left,
		Net: plan.Waste.Net, Bought: measure.Area(planks) * plank, Laid: plan.Waste.Laid,
	}
	opened := measure.Area(a.Opened) * plank
	a.AddedToFloor = (a.Bought - a.Net).PercentOf(a.Net)
	a.ShareOfPurchase = (a.Bought - a.Net).PercentOf(a.Bought)
	a.Afterwards = (opened - a.Laid).PercentOf(opened)
	lost := newChance(used.Lost, a.Opened)
	a.Loss, a.LossLow, a.LossHigh = 100*lost.Simulated, 100*lost.Low, 100*lost.High
	return a, nil
}

// validate holds the counts against each other and against the floor that is laid of planks of an area.
func (u *Used) validate(perBox int, laid, plank measure.Area) error {
	bad := func(field string, value int, rule, mend string) error {
		return &cutopt.FieldError{Field: field, Value: fmt.Sprint(value), Rule: rule, Mend: mend}
	}
	most := cutopt.MaxPieces / max(perBox, 1)
	if u.Boxes < 1 || u.Boxes > most {
		return bad("bought", u.Boxes, fmt.Sprintf("the boxes bought are 1 to %d", most), "")
	}
	planks := u.Boxes * perBox
	if u.Left < 0 || u.Left > planks {
		return bad("left", u.Left, fmt.Sprintf("the whole planks left are at least 0 and at most those bought, %d", planks),
			"count whole planks, those in unopened boxes too")
	}
	if u.Lost < 0 || u.Lost > planks-u.Left {
		return bad("lost", u.Lost,
			fmt.Sprintf("the planks lost are at least 0 and at most those opened, %d", planks-u.Left), "")
	}
	least := int((laid + plank - 1) / plank)
	if opened := planks - u.Left; opened < least {
		return bad("left", u.Left, fmt.Sprintf("the planks opened, %d, cover the floor: it takes at least %d", opened, least),
			"count the boxes and the whole planks left again")
	}
	if 2*u.Lost > planks-u.Left {
		return bad("lost", u.Lost, fmt.Sprintf("at most half of the planks opened, %d, are lost", planks-u.Left),
			"count only planks that others took the place of")
	}
	return nil
}
