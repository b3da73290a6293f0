package cutopt

import "sort"

// Terms say how the planks of a job are bought: what [Job.Terms] makes once of a job that Validate accepts. They are
// plain data.
type Terms struct {
	PerBox int   // planks in a box, at least 1
	Price  Money // of a box; 0 when unknown
	Spare  Spare
	Loss   float64 // chance that a plank is culled or miscut
	Limit  float64 // chance of running short that is accepted; not read where Loss is 0
}

// Terms returns how the planks of the job are bought. The error is that of [Box.PlanksPer].
func (j *Job) Terms() (Terms, error) {
	per, err := j.Box.PlanksPer(j.Plank)
	return Terms{
		PerBox: per, Price: j.Box.Price, Spare: j.Spare, Loss: j.Rules.Loss / 100, Limit: j.Rules.RiskLimit / 100,
	}, err
}

// Kept returns how many whole planks are kept for repairs where so many are cut or laid.
func (t Terms) Kept(planks int) int { return t.Spare.Kept(planks, t.PerBox) }

// Reserve returns how many planks to have beyond those to cut or lay, so that the chance that more are lost is at most
// Limit: the fewest r for which more than r of planks + r are lost with at most that chance, by the binomial
// distribution, each lost plank replaced by a whole one. It never falls as planks grow, and takes time in the order of
// r and its spread.
func (t Terms) Reserve(planks int) int {
	if t.Loss <= 0 {
		return 0
	}
	return newLottery(planks, t.Loss).reserve(t.Limit)
}

// Boxes returns how many boxes to buy for so many planks: those that hold them, those kept for repairs and the reserve.
// It never falls as planks grow.
func (t Terms) Boxes(planks int) int {
	return roundUp(planks+t.Kept(planks)+t.Reserve(planks), max(t.PerBox, 1))
}

// Holding returns how many boxes hold so many planks and those kept for repairs: enough where none is lost.
func (t Terms) Holding(planks int) int { return t.Spare.Boxes(planks, t.PerBox) }

// MostPlanks returns the most planks that can be laid from so many boxes: the largest n with Boxes(n) <= boxes. It is
// below 0 where the boxes do not even hold what is kept.
func (t Terms) MostPlanks(boxes int) int {
	most := t.Spare.MostPlanks(boxes, t.PerBox)
	if t.Loss <= 0 || most <= 0 {
		return most
	}
	return sort.Search(most, func(n int) bool { return t.Boxes(n+1) > boxes })
}

// Risk returns the chance that so many boxes run short: that more planks are lost than they hold beyond those to cut or
// lay and those kept, 1 where they do not hold these. It is the binomial distribution's, as in Reserve: no piece of a
// lost plank is used and nothing is planned anew, so it is no less than the chance on site.
func (t Terms) Risk(planks, boxes int) float64 {
	return t.Risks(planks)(boxes)
}

// Risks returns Risk of any number of boxes for so many planks. It takes the time of one call of Risk, and its function
// constant time.
func (t Terms) Risks(planks int) func(boxes int) float64 {
	var l *lottery
	if t.Loss > 0 {
		l = newLottery(planks, t.Loss)
	}
	return func(boxes int) float64 {
		spare := boxes*t.PerBox - t.Kept(planks) - planks
		switch {
		case spare < 0:
			return 1
		case l == nil:
			return 0
		}
		return l.above(spare)
	}
}

// RiskBeyond returns the chance that more than spare planks are lost of so many and of those that replace them, 1 where
// spare is below 0: that a rest of so many planks runs short with spare planks more.
func (t Terms) RiskBeyond(planks, spare int) float64 {
	switch {
	case spare < 0:
		return 1
	case t.Loss <= 0:
		return 0
	}
	return newLottery(planks, t.Loss).above(spare)
}
