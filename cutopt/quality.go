package cutopt

import (
	"context"
	"time"

	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Quality is how good a floor looks and how easy it is to lay: figures that no product's instruction fixes, each by the
// tolerances of Rules. All but LeastStagger are the better the lower. What counts as a staircase and as a cluster is common
// practice put into figures here; there is no published number.
type Quality struct {
	// HJoints counts pairs of end joints two rows apart that lie at most Rules.InLine from each other, in runs that a run
	// of the row between touches both.
	HJoints int
	// Staircases counts sets of four joints in four successive rows, each in a run that touches the next, with three equal
	// steps the same way: each more than Rules.InLine and less than half a plank, no two more than Rules.InLine apart. A
	// longer staircase counts once for each four joints of it.
	Staircases int
	// Clusters counts sets of four joints in four successive rows, each in a run that touches the next, that lie within a
	// third of a plank.
	Clusters int
	// LeastStagger is the least distance between end joints of touching runs in neighbouring rows, as planned; a plank's
	// length where none are nearer.
	LeastStagger measure.Length
	// Crosscuts counts the saw cuts across planks.
	Crosscuts int
	// OffcutsAtOnce is the most offcuts that are kept for a later row at the end of any row.
	OffcutsAtOnce int
	// RowsWaited adds up, over all planks and rooms, the rows that are laid between that of a plank's first piece and that
	// of its last: 0 where every offcut is used in its own row or the next.
	RowsWaited int
	// OddStarters counts sawn starters that are no multiple of Rules.Round.
	OddStarters int
}

// An Aim is a figure of a floor to improve.
type Aim uint8

// The aims, in the order of DefaultAims.
const (
	AimHJoints    Aim = iota // "h-joints": fewest Quality.HJoints
	AimStaircases            // "staircases": fewest Quality.Staircases
	AimClusters              // "clusters": fewest Quality.Clusters
	AimStagger               // "stagger": largest Quality.LeastStagger, up to Rules.PreferStagger
	AimCrosscuts             // "crosscuts": fewest Quality.Crosscuts
	AimOffcuts               // "offcuts": fewest Quality.OffcutsAtOnce, down to the one in hand
	AimWaiting               // "waiting": fewest Quality.RowsWaited
	AimFigures               // "figures": fewest Quality.OddStarters
	AimPlanks                // "planks": fewest Order.Planks
)

// DefaultAims returns all aims: first what is seen for years, then what is sawn and carried once, then planks.
func DefaultAims() []Aim {
	return []Aim{
		AimHJoints, AimStaircases, AimClusters, AimStagger, AimCrosscuts, AimOffcuts, AimWaiting, AimFigures, AimPlanks,
	}
}

// betterFloor improves the minimum within its boxes, or within its planks where these are to be the fewest, and returns the
// quality it had before.
func betterFloor(ctx context.Context, job *Job, opt *Options, in *rows.Instance, places []place, out *minimum, began time.Time) Quality {
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

func qualityOf(v quality.Values) Quality {
	return Quality{
		HJoints: v[quality.HJoints], Staircases: v[quality.Staircases], Clusters: v[quality.Clusters],
		LeastStagger: measure.Length(v[quality.Stagger]), Crosscuts: v[quality.Crosscuts], OffcutsAtOnce: v[quality.Offcuts],
		RowsWaited: v[quality.Waiting], OddStarters: v[quality.Figures],
	}
}

// aims returns the aims of the job.
func aims(job *Job) []Aim {
	if job.Aims == nil {
		return DefaultAims()
	}
	return job.Aims
}
