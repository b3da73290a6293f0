package solve

import (
	"context"
	"time"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// betterFloor improves the minimum within its boxes, or within its planks where these are to be the fewest, and returns the
// quality it had before.
func betterFloor(ctx context.Context, job *cutopt.Job, opt *Options, in *rows.Instance, places []place, out *minimum, began time.Time) cutopt.Quality {
	rules, planks := &job.Rules, len(out.cutting.Planks)
	p := &quality.Problem{
		Instance: in, Row: rowNumbers(places), Fit: rules.Fit, InLine: rules.InLine, Prefer: rules.PreferStagger, Round: rules.Round,
		Fixed: len(job.Pattern) > 0,
	}
	first := qualityOf(quality.Measure(p, out.layout, out.cutting))
	set := &quality.Settings{
		Cap: planks, Effort: opt.Effort.level(), Seed: opt.Seed,
		Stop: func() bool { return ctx.Err() != nil || opt.Limit > 0 && time.Since(began) > opt.Limit },
	}
	for _, a := range aims(job) {
		set.Order = append(set.Order, quality.Aim(a))
	}
	if perBox, err := job.Box.PlanksPer(job.Plank); err == nil && opt.Fewest == FewestBoxes {
		set.Cap = job.Spare.MostPlanks(job.Spare.Boxes(planks, perBox), perBox)
	}
	better := quality.Improve(p, out.layout, out.cutting, set)
	out.layout, out.cutting, out.stats.Better = better.Layout, better.Cutting, better.Steps
	switch {
	case better.Stopped && ctx.Err() != nil:
		out.status = StatusCancelled
	case better.Stopped:
		out.status = StatusLimit
	}
	out.bound.PlanksProven = out.bound.Planks == len(out.cutting.Planks)
	out.quality = qualityOf(quality.Measure(p, out.layout, out.cutting))
	return first
}

// rowNumbers numbers the rows of all rooms and returns that of each run.
func rowNumbers(places []place) []int {
	out := make([]int, len(places))
	for i := 1; i < len(places); i++ {
		out[i] = out[i-1]
		if places[i].room != places[i-1].room || places[i].row != places[i-1].row {
			out[i]++
		}
	}
	return out
}

func qualityOf(v quality.Values) cutopt.Quality {
	return cutopt.Quality{
		HJoints: v[quality.HJoints], Staircases: v[quality.Staircases], Clusters: v[quality.Clusters],
		LeastStagger: measure.Length(v[quality.Stagger]), Crosscuts: v[quality.Crosscuts], OffcutsAtOnce: v[quality.Offcuts],
		RowsWaited: v[quality.Waiting], OddStarters: v[quality.Figures],
	}
}

// aims returns the aims of the job.
func aims(job *cutopt.Job) []cutopt.Aim {
	if job.Aims == nil {
		return cutopt.DefaultAims()
	}
	return job.Aims
}
