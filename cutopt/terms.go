package cutopt

// Terms say how the planks of a job are bought: what [Job.Terms] makes once of a job that Validate accepts. They are plain
// data.
type Terms struct {
	PerBox int   // planks in a box, at least 1
	Price  Money // of a box; 0 when unknown
	Spare  Spare
}

// Terms returns how the planks of the job are bought. The error is that of [Box.PlanksPer].
func (j *Job) Terms() (Terms, error) {
	per, err := j.Box.PlanksPer(j.Plank)
	return Terms{PerBox: per, Price: j.Box.Price, Spare: j.Spare}, err
}

// Kept returns how many whole planks are kept for repairs where so many are cut or laid.
func (t Terms) Kept(planks int) int { return t.Spare.Kept(planks, t.PerBox) }

// Boxes returns how many boxes to buy for so many planks. It never falls as planks grow.
func (t Terms) Boxes(planks int) int { return t.Spare.Boxes(planks, t.PerBox) }

// MostPlanks returns the most planks that can be laid from so many boxes: the largest n with Boxes(n) <= boxes. It is below 0
// where the boxes do not even hold what is kept.
func (t Terms) MostPlanks(boxes int) int { return t.Spare.MostPlanks(boxes, t.PerBox) }
