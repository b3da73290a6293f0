package solve

import (
	"context"

	"plank.example/cutopt"
)

// Floors cuts the rooms of a job into rows and runs, as its plan will have them, without a piece laid: where each row
// and run lies, what is told of the floors, and the breaks between them. Errors are those of [Job].
func Floors(ctx context.Context, job *cutopt.Job) ([]cutopt.PlanFloor, []cutopt.PlanBreak, error) {
	ground, err := layOut(ctx, job)
	if err != nil {
		return nil, nil, err
	}
	a := &assembler{problem: &problem{job: job, ground: ground}, plan: new(cutopt.Plan)}
	a.rooms()
	return a.plan.Floors, a.plan.Breaks, nil
}
