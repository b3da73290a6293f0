package solve

import (
	"context"
	"errors"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/change"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Continue plans on a job that has been begun. Marked is a plan of the job with what happened marked in it: the pieces
// that lie, as they lie, the planks that are opened and what of them is gone, offcuts brought along, and in Plan.Site
// what is here. A plan without a site has the planks of its order. The job may be another than that plan's as far as it
// is not yet laid: measures that differ, new things in the way.
//
// The new plan has what lies as it lies. It says how many whole planks the rest takes, proves how few could do, and
// what to buy on top at the accepted risk: [cutopt.Site]. Among plans that ask for no more boxes, or with FewestPlanks
// no more planks, it is one that changes little of the plan before: first of the pieces that are sawn already, then of
// the starters of runs; pieces come from the planks and offcuts they came from where that costs no more. Opened planks
// keep their numbers. Where nothing has happened the plan comes back as it was, and where all happened as planned so
// does its floor. What is laid otherwise anyway is laid so that the floor looks better; what is marked is worth
// more than that. The figures of the floor count what lies too.
//
// Errors are those of [Job], and a *cutopt.FieldError of the plan for marks that contradict each other, the job or the
// stock. Context, limit and steps are as for Job.
func Continue(ctx context.Context, job *cutopt.Job, marked *cutopt.Plan, opt *Options) (*Result, error) {
	c, end, err := begin(ctx, opt)
	if err != nil {
		return nil, err
	}
	defer end()
	c.opt.onSite = true
	if marked == nil {
		return nil, &cutopt.FieldError{Field: "plan", Rule: "there is a plan to go on from", Mend: "plan the job first"}
	}
	p, err := c.prepare(job)
	if err != nil {
		return nil, err
	}
	whole := c.ctx
	defer c.leave(p.writing())()
	if p, err = c.asBefore(p, marked); err != nil {
		return nil, err
	}
	s, err := standingOf(p, marked)
	if err != nil {
		return nil, err
	}
	if same := c.unchanged(whole, s); same != nil {
		return same, nil
	}
	return c.goOn(whole, s)
}

// unchanged returns the plan before where nothing has happened and it still is a plan of the job; else nil.
func (c *call) unchanged(ctx context.Context, s *standing) *Result {
	if s.begun() || s.site.Bought != s.before.Order.Boxes || s.site.Brought > 0 || len(s.site.Here) != 1 ||
		s.site.Here[0].Name != "" {
		return nil
	}
	plan := s.before.Clone()
	plan.Site = nil
	if recounted(ctx, s.problem, plan) != nil {
		return nil
	}
	r := &Result{Plan: plan, Instance: s.instance, Before: plan.Quality, Status: StatusExhausted}
	if b := &plan.Bound; b.PlanksProven || c.opt.Fewest == FewestBoxes && b.Settled {
		r.Status = StatusProven
	}
	return r
}

// goOn plans the rest in these steps: the fewest planks that it takes, with a bound; a layout that changes little and
// asks for no more; a cutting that keeps what was cut together; and the plan of it all, recounted.
func (c *call) goOn(ctx context.Context, s *standing) (*Result, error) {
	out, err := c.layRest(s)
	if err != nil {
		return nil, err
	}
	c.report(Progress{
		Phase: PhaseCheck, Planks: s.opened() + out.terms.needed(out.planks()), Bound: s.opened() + out.least(),
		Steps: out.stats.Steps,
	})
	result := &Result{Status: out.status(c), Stats: out.stats, Instance: out.rest.in}
	for _, loose := range []bool{true, false} {
		result.Plan = s.assembleRest(out, loose)
		if err = recounted(ctx, s.problem, result.Plan); err == nil {
			break
		}
		var ours *InternalError
		if !errors.As(err, &ours) {
			return nil, err
		}
	}
	if err != nil {
		return nil, err
	}
	result.Before = result.Plan.Quality
	return result, nil
}

// A restplan is the rest as it is laid and cut.
type restplan struct {
	*rest
	terms   onward
	layout  rows.Layout
	cutting *rows.Cutting
	fewest  int // planks of the layout of fewest planks found, as counted for the rest
	proven  certified
	stats   Stats
	stopped error
	fixed   bool     // the layout could not have been another
	lots    []string // by floor; nil where lots are not told apart
}

// planks counts the planks of the rest as rows.Instance.Count does.
func (r *restplan) planks() int { return len(r.cutting.Planks) + r.begun }

// least is the fewest whole planks that the rest could possibly take.
func (r *restplan) least() int { return max(0, r.proven.planks-r.begun) }

// status says why the call stopped.
func (r *restplan) status(c *call) Status {
	settled := c.opt.Fewest == FewestBoxes && r.terms.Boxes(r.proven.planks) == r.terms.Boxes(r.planks())
	switch {
	case errors.Is(r.stopped, context.Canceled):
		return StatusCancelled
	case r.stopped != nil:
		return StatusLimit
	case r.fixed, settled, r.proven.planks == r.planks():
		return StatusProven
	}
	return StatusExhausted
}

// settled returns when a layout is as good as a bound: where the boxes to buy are settled, if what is here will do; how
// many planks are missing is settled to the plank.
func (c *call) settled(terms *onward) func(planks, bound int) bool {
	enough := c.enough(terms)
	return func(planks, bound int) bool { return planks <= bound || terms.do(planks) && enough(planks, bound) }
}

// layRest lays and cuts the rest.
func (c *call) layRest(s *standing) (*restplan, error) {
	out := &restplan{rest: s.rest(nil, nil)}
	out.terms = onward{terms: s.terms, inUse: s.inUse(), here: cutopt.WholePlanks(s.site.Here), begun: out.begun}
	if len(out.in.Runs) == 0 {
		if s.apart() {
			out.lots = s.assign(out.rest, nil)
		}
		out.cutting = &rows.Cutting{Offcuts: make([][]rows.Part, len(out.in.Offcuts))}
		out.fixed = true
		return out, nil
	}
	if err := graduated("rules.grid", out.in); err != nil {
		return nil, err
	}
	least, err := c.minimise(out.in, c.settled(&out.terms), s.startersBefore(out.rest))
	if err != nil {
		places := make([]place, len(out.full))
		for k, i := range out.full {
			places[k] = s.places[i]
		}
		return nil, fitToo(s.job, explain(s.job, asMeasured(s.job, out.in), places, err))
	}
	out.proven, out.stats, out.stopped = least.certified, least.stats, least.stopped
	if out.proven.planks < out.begun { // then nothing is proven of the rest: what lies does without a certificate
		out.proven.certificate = nil
	}
	out.fewest = len(least.cutting.Planks)
	out.fixed = len(s.job.Pattern) > 0
	if s.apart() {
		out.layout = least.layout
		return out, c.byLot(s, out)
	}
	most := out.fewest
	if c.opt.Fewest == FewestBoxes {
		most = out.terms.most(out.fewest)
	}
	found, cutting, err := c.changeLittle(s, out.rest, least, most)
	if err != nil {
		return nil, err
	}
	out.layout, out.cutting, out.stats.Better = found.Layout, cutting, found.Steps
	if out.fewest = min(out.fewest, out.planks()); out.fixed {
		out.fewest = out.planks()
	}
	return out, nil
}

// changeSteps are what the search for little change may spend: a third of a second for a few dozen runs where little is
// over.
func changeSteps(runs int) int64 { return int64(min(700_000+5_000*runs, 2_000_000)) }

// startersBefore returns the starters that the plan before gives the rest.
func (s *standing) startersBefore(r *rest) rows.Layout {
	out := make(rows.Layout, len(r.full))
	for k, i := range r.full {
		switch out[k] = s.runs[i].old; {
		case r.in.Runs[k].Starter > 0:
			out[k] = r.in.Runs[k].Starter
		case out[k] < 0:
			out[k] = change.None
		}
	}
	return out
}

// costs returns what it costs to start each run of the rest otherwise: more than all runs together for every offcut on
// hand that a piece of it is to be cut from.
func (s *standing) costs(r *rest) []int {
	out := slices.Repeat([]int{1}, len(r.full))
	to := make(map[int]int, len(r.full))
	for k, i := range r.full {
		to[i] = k
	}
	for _, k := range r.hand {
		for _, p := range s.hand[k].destined {
			if j, ok := to[p.Run]; ok {
				out[j] += len(r.full) + 1
			}
		}
	}
	return out
}

// groups returns what the plan before cuts together for the rest, with lengths as in the bare problem.
func (s *standing) groups(r *rest) (out []change.Group) {
	to := make(map[int]int, len(r.full))
	for k, i := range r.full {
		to[i] = k
	}
	add := func(hand int, parts []rows.Part) {
		g := change.Group{Hand: hand}
		for _, p := range parts {
			k, ok := to[p.Run]
			if !ok {
				continue
			}
			if p.Run = k; p.Role != rows.RoleStarter && p.Role != rows.RoleField {
				p.Length += s.job.Rules.Fit
			}
			g.Parts = append(g.Parts, p)
		}
		if len(g.Parts) > 0 {
			out = append(out, g)
		}
	}
	for o, k := range r.hand {
		add(o, s.hand[k].destined)
	}
	for _, parts := range s.whole {
		add(-1, parts)
	}
	return out
}

// patternedRest returns the layout of the rest by the job's pattern, or an *InfeasibleError where that does not go with
// what lies.
func (s *standing) patternedRest(r *rest) (rows.Layout, error) {
	all, err := s.patterned()
	if err != nil {
		return nil, err
	}
	layout := make(rows.Layout, len(r.full))
	for k, i := range r.full {
		if layout[k] = all[i]; r.in.Runs[k].Starter > 0 {
			layout[k] = r.in.Runs[k].Starter
		}
		if _, ok := r.in.Lay(k, layout[k]); !ok {
			return nil, s.offPattern(i, r.in.Stagger)
		}
	}
	for _, t := range r.in.Touch {
		a, _ := r.in.Lay(t[0], layout[t[0]])
		b, _ := r.in.Lay(t[1], layout[t[1]])
		if r.in.Clash(r.in.Runs[t[0]].From+layout[t[0]], a.Joints(), r.in.Runs[t[1]].From+layout[t[1]], b.Joints()) {
			return nil, s.offPattern(r.full[t[1]], r.in.Stagger)
		}
	}
	return layout, nil
}

// offPattern refuses a run whose joints by the pattern come too near to what lies.
func (s *standing) offPattern(i int, stagger measure.Length) error {
	ref := cutopt.RowRef{Room: s.places[i].name, Row: s.places[i].row + 1}
	return &InfeasibleError{
		Rule: "stagger", Rows: []cutopt.RowRef{ref}, Unit: s.job.Unit, floor: -1,
		Why: []cutopt.Finding{cutopt.Find("no-joints", "row", ref, "stagger", stagger, "least", s.job.Rules.MinPiece,
			"plank", s.job.Plank.Length)},
	}
}
