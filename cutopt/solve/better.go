package solve

import (
	"cmp"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/quality"
	"plank.example/cutopt/measure"
)

// budgets are the steps of quality by effort. On random rooms five times as many better the figures by a few per cent.
var budgets = [...]quality.Budget{
	EffortQuick: {
		PerRun: 100,
		AtMost: 20_000,
	}, EffortNormal: {PerRun: 400, AtMost: 100_000}, EffortThorough: {PerRun: 1600, AtMost: 600_000},
}

// improve makes a floor better within its boxes, or within its planks where these are to be the fewest, and returns the
// quality it had before.
func (c *call) improve(p *problem, floor *floorplan) cutopt.Quality {
	planks := floor.planks()
	floor.least = planks
	q := p.qualities()
	first := quality.Measure(q, floor.layout, floor.cutting)
	first.Crosscuts += p.partings(floor.cutting)
	c.report(Progress{Phase: PhaseQuality, Planks: planks, Bound: floor.certified.planks, Steps: floor.stats.Steps})
	set := &quality.Settings{
		Order:  p.job.Aims,
		Cap:    planks,
		Budget: budgets[c.opt.Effort],
		Seed:   c.opt.Seed,
		Stop:   c.stop,
	}
	if set.Order == nil {
		set.Order = cutopt.DefaultAims()
	}
	if c.opt.Fewest == FewestBoxes {
		set.Cap = p.terms.MostPlanks(p.terms.Boxes(planks))
	}
	better := quality.Improve(q, floor.layout, floor.cutting, set)
	floor.layout, floor.cutting, floor.stats.Better = better.Layout, better.Cutting, better.Steps
	done := !better.Stopped
	if done && slices.Contains(set.Order, cutopt.AimCrosscuts) {
		done = p.clearTrims(floor, c.stop)
	}
	if !done {
		floor.stopped = c.ctx.Err()
	}
	return first
}

// qualities returns what the figures of a floor are measured by.
func (p *problem) qualities() *quality.Problem {
	rules := &p.job.Rules
	return &quality.Problem{
		Instance:  p.instance,
		Row:       rowNumbers(p.places),
		Fit:       rules.Fit,
		InLine:    rules.InLine,
		Prefer:    rules.PreferStagger,
		Round:     rules.Round,
		Fixed:     len(p.job.Pattern) > 0,
		Held:      p.held(),
		Thin:      p.thin,
		AsItComes: rules.AsItComes,
		Sawn:      p.shaped(),
	}
}

// held lists by run where an end joint lets a piece round a fixed thing that would hold it; nil where there is none.
func (p *problem) held() [][]quality.Span {
	out, any := make([][]quality.Span, len(p.places)), false
	for i, at := range p.places {
		f := p.floors[at.room]
		run := f.Rows[at.row].Runs[at.run]
		for _, s := range f.Held(at.row, at.run) {
			span := quality.Span{From: s.From - run.From, To: s.To - run.From}
			if at.mirrored {
				span = quality.Span{From: run.To - s.To, To: run.To - s.From}
			}
			out[i], any = append(out[i], span), true
		}
	}
	if !any {
		return nil
	}
	return out
}

// thin counts the pieces of a run, laid with a starter, that have a strip narrower than can be held. It takes the time
// to clip the pieces of a run beside a fixed thing or a corner; no others are looked at.
func (p *problem) thin(i int, starter measure.Length) int {
	at := p.places[i]
	f := p.floors[at.room]
	run := f.Rows[at.row].Runs[at.run]
	if !p.shaped()[i] {
		return 0
	}
	n, l, length := 0, p.job.Plank.Length, run.To-run.From
	for x, to := measure.Length(0), cmp.Or(starter, length); x < length; x, to = to, to+l {
		to = min(to, length)
		from, end := run.From+x, run.From+to
		if at.mirrored {
			from, end = run.To-to, run.To-x
		}
		if len(f.Strips(at.row, at.run, from, end, p.job.Rules.MinStrip)) > 0 {
			n++
		}
	}
	return n
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
