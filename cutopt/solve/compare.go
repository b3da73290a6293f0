package solve

import (
	"context"
	"math"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/internal/pool"
	"plank.example/cutopt/measure"
)

// A Variant is a job with one thing changed, and what it then needs. What is changed is the one thing of its aspect in
// which Job differs from the job compared: the rows of its rooms, a rule, the plank and its box.
type Variant struct {
	Aspect Aspect
	Job    *cutopt.Job // shares outlines with the job compared
	Result *Result     // nil when it cannot be laid
	// why not: an *InfeasibleError, an error about a field, or that of the context where it came first
	Err error
	// Best marks one of the variants that keep the job's own rules, min-rip and the pattern among them: that of the
	// least money, else of the fewest boxes, then planks, then crosscuts.
	Best bool
}

// An Aspect says what a Variant changes.
type Aspect uint8

// The aspects, in the order Compare lists them.
const (
	AspectNone      Aspect = iota // "none": the job as it is
	AspectDirection               // "direction": which way the rows run
	AspectStart                   // "start": where they start: the side of the room, the end of the rows
	AspectFirstRow                // "first-row": how wide the first row is
	AspectStagger                 // "stagger"
	AspectMinPiece                // "min-piece"
	AspectProduct                 // "product": another of Job.Products
)

var aspectNames = []string{"none", "direction", "start", "first-row", "stagger", "min-piece", "product"}

// String returns "none", "direction", "start", "first-row", "stagger", "min-piece" or "product".
func (a Aspect) String() string { return enum.String("Aspect", aspectNames, int(a)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (a Aspect) MarshalText() ([]byte, error) { return enum.MarshalText("Aspect", aspectNames, int(a)) }

// UnmarshalText reads what MarshalText writes.
func (a *Aspect) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Aspect", aspectNames, text, a)
}

// Compare plans a job as it is and with one thing changed at a time: rows along, across and diagonal; starting at the
// other side and at the other end; first rows of up to eight widths, in whole inches or steps of 25 mm, that keep
// min-rip; stagger and shortest piece 4 in or 100 mm more and less; and each of Job.Products. All variants have as few
// planks as opt's effort finds, whatever opt says of boxes; nil opt is a quick effort, and at that effort variants of
// more than 60 runs get one round of search only. opt.Workers variants are planned at once; the result does not depend
// on it, and opt.Progress is not called.
//
// A variant that cannot be laid says why. The error is that of a job that Validate refuses; or that of the context, and
// then the variants planned so far are returned with it.
func Compare(ctx context.Context, job *cutopt.Job, opt *Options) ([]Variant, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	if opt == nil {
		opt = &Options{Effort: EffortQuick}
	}
	ask, err := opt.checked()
	if err != nil {
		return nil, err
	}
	ask.brief = ask.Effort == EffortQuick
	workers := ask.Workers
	ask.Fewest, ask.Workers, ask.Progress = FewestPlanks, 1, nil
	out := variants(job)
	pool.Each(len(out), workers, func(k int) { out[k].Result, out[k].Err = Job(ctx, out[k].Job, ask) })
	if err := ctx.Err(); err != nil {
		for k := range out {
			if r := out[k].Result; r == nil && out[k].Err == nil || r != nil && r.Status == StatusCancelled {
				out[k].Result, out[k].Err = nil, err
			}
		}
		markBest(job, out)
		return out, err
	}
	markBest(job, out)
	return out, nil
}

// markBest marks the first of the best variants that keep the job's rules.
func markBest(job *cutopt.Job, all []Variant) {
	priced := true
	for i := range all {
		priced = priced && all[i].Job.Box.Price > 0
	}
	best, rank := -1, [4]int64{}
	for i := range all {
		v := &all[i]
		if v.Result == nil || !keeps(v, job) {
			continue
		}
		o := v.Result.Plan.Order
		r := [4]int64{0, int64(o.Boxes), int64(o.Planks), int64(v.Result.Plan.Quality.Crosscuts)}
		if priced {
			r[0] = int64(o.Price)
		}
		if best < 0 || slices.Compare(r[:], rank[:]) < 0 {
			best, rank = i, r
		}
	}
	if best >= 0 {
		all[best].Best = true
	}
}

// keeps reports whether a variant keeps the rules of the job that it varies.
func keeps(v *Variant, job *cutopt.Job) bool {
	for i := range v.Result.Plan.Floors {
		for _, f := range v.Result.Plan.Floors[i].Facts {
			switch f.Kind {
			case cutopt.FactEdgeAsked: // against min-rip
				return false
			}
		}
	}
	return v.Job.Rules.Stagger >= job.Rules.Stagger && v.Job.Rules.MinPiece >= job.Rules.MinPiece &&
		(len(job.Pattern) == 0 || len(v.Job.Pattern) > 0)
}

// firstRows lists widths of a first row that keep min-rip: whole inches, or steps of 25 mm, wider steps where there
// would be more than eight, and the whole plank.
func firstRows(job *cutopt.Job) []measure.Length {
	step, least := measure.Inch, job.Rules.MinRip
	if job.Unit.Metric() {
		step = 25 * measure.Millimetre
	}
	if least == 0 {
		least = (job.Plank.Width + 1) / 2
	}
	const most = 8
	for (job.Plank.Width-least)/step >= most {
		step *= 2
	}
	var widths []measure.Length
	for w := (least + step - 1) / step * step; w < job.Plank.Width; w += step {
		if w > 0 {
			widths = append(widths, w)
		}
	}
	return append(widths, job.Plank.Width)
}

// variants lists the job and its changes, none of them twice.
func variants(job *cutopt.Job) []Variant {
	out := []Variant{{Job: job}}
	rows := func(aspect Aspect, set func(*cutopt.RowRules)) {
		j := *job
		j.Rooms = slices.Clone(job.Rooms)
		changed := false
		for i := range j.Rooms {
			before := j.Rooms[i].Rows
			set(&j.Rooms[i].Rows)
			changed = changed || before != j.Rooms[i].Rows
		}
		if changed {
			out = append(out, Variant{Aspect: aspect, Job: &j})
		}
	}
	direction := func(d cutopt.Direction, angle float64) {
		rows(AspectDirection, func(r *cutopt.RowRules) { r.Direction, r.Angle = d, angle })
	}
	direction(cutopt.DirectionAlong, 0)
	direction(cutopt.DirectionAcross, 0)
	direction(cutopt.DirectionAngle, diagonal(job.Rooms[0].Outline))
	rows(AspectStart, func(r *cutopt.RowRules) { r.StartWall = 0; r.Start ^= cutopt.StartNear ^ cutopt.StartFar })
	if job.Plank.From == cutopt.FromUnset { // else the product decides
		other := cutopt.FromRight
		if job.LaidFrom(job.Rooms[0].Rows) == cutopt.HandRight {
			other = cutopt.FromLeft
		}
		rows(AspectStart, func(r *cutopt.RowRules) { r.LaidFrom = other })
	}
	for _, width := range firstRows(job) {
		rows(AspectFirstRow, func(r *cutopt.RowRules) { r.FirstRow = width })
	}
	out = append(out, ruled(job, -1, 1)...)
	for _, p := range job.Products {
		j := *job
		j.Plank, j.Box, j.Pattern = p.Plank, p.Box, nil
		out = append(out, Variant{Aspect: AspectProduct, Job: &j})
	}
	return out
}

// RuleStep returns by how much Compare and Eased change stagger and shortest piece: 4 in, or 100 mm in a job that is
// written in metric units.
func RuleStep(unit measure.Unit) measure.Length {
	if unit.Metric() {
		return 100 * measure.Millimetre
	}
	return 4 * measure.Inch
}

// ruled lists the job with another stagger and another shortest piece, more or less by each of the signs.
func ruled(job *cutopt.Job, signs ...measure.Length) (out []Variant) {
	step := RuleStep(job.Unit)
	for _, rule := range []struct {
		aspect Aspect
		of     func(*cutopt.Rules) *measure.Length
	}{
		{AspectStagger, func(r *cutopt.Rules) *measure.Length { return &r.Stagger }},
		{AspectMinPiece, func(r *cutopt.Rules) *measure.Length { return &r.MinPiece }},
	} {
		for _, sign := range signs {
			j := *job
			x := rule.of(&j.Rules)
			before := *x
			*x = max(before+sign*step, 0)
			if *x == before || j.Validate() != nil {
				continue
			}
			out = append(out, Variant{Aspect: rule.aspect, Job: &j})
		}
	}
	return out
}

// diagonal is the direction halfway between the longest wall of an outline and the square to it, in degrees from the
// drawing's x axis.
func diagonal(outline []cutopt.Point) float64 {
	longest, angle := 0.0, 0.0
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		dx, dy := float64(q.X-p.X), float64(q.Y-p.Y)
		if l := math.Hypot(dx, dy); l > longest {
			longest, angle = l, math.Atan2(dy, dx)*180/math.Pi
		}
	}
	return math.Mod(math.Round(angle*1000)/1000+45+360, 180)
}
