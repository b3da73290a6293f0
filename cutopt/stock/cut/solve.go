package cut

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"plank.example/cutopt/stock"
)

// ErrNoPlan says that the sticks do not do for the pieces.
var ErrNoPlan = errors.New("cut: the sticks do not do")

// An InternalError is a plan of ours that breaks the rules: a fault of this package.
type InternalError struct{ Violations []stock.Violation }

// Error names the first violation.
func (e *InternalError) Error() string {
	return fmt.Sprintf("cut: internal error: the plan breaks %d rules, first: %v", len(e.Violations), e.Violations[0])
}

// Solve plans how sticks are cut: at the least cost, with the fewest sticks, leaving the largest single offcut, as far
// as options ask for; nil options are the defaults. A job or options out of range give errors that join one
// *[stock.FieldError] each (errors.Is finds stock.ErrTooLarge where a job is too large); sticks that do not do give
// [ErrNoPlan]. When ctx is cancelled or the limit passes with a plan in hand, the plan is returned and its Status says
// so, else the context's error. Both are looked at about every millisecond.
//
// Cost: kinds² of memory for the simplex method, and at most the steps of the effort for each aim.
func Solve(ctx context.Context, job *stock.Job, options *Options) (*Result, error) {
	if options == nil {
		options = &Options{}
	}
	if err := options.validate(); err != nil {
		return nil, err
	}
	if err := job.Validate(); err != nil {
		return nil, err
	}
	clock := ctx
	if options.Limit > 0 {
		var stop context.CancelFunc
		clock, stop = context.WithTimeout(ctx, options.Limit)
		defer stop()
	}
	s := &solver{job: job, options: options, meter: &meter{ctx: clock}, out: &Result{Certificate: &stock.Certificate{}}}
	err := s.solve()
	if s.kinds.work != nil {
		s.kinds.work.release()
	}
	if err != nil {
		if ctx.Err() != nil {
			return nil, context.Cause(ctx)
		}
		return nil, err
	}
	s.out.Stats.Steps = s.meter.steps
	s.out.Status = s.status(ctx)
	if found := stock.Check(job, s.out.Plan); found != nil {
		return nil, &InternalError{found}
	}
	return s.out, nil
}

// A solver takes one aim after the other.
type solver struct {
	job     *stock.Job
	options *Options
	meter   *meter
	out     *Result
	kinds   *kinds
	best    packing   // in the kinds of the job
	pool    []pattern // generated, in the kinds of the job
}

func (s *solver) status(ctx context.Context) Status {
	p := s.out.Proven
	switch {
	case p.Cost && (p.Sticks || s.options.Aim == AimCost) && (p.Offcut || s.options.Aim != AimOffcut):
		return StatusProven
	case errors.Is(ctx.Err(), context.Canceled):
		return StatusCancelled
	case ctx.Err() != nil, s.meter.err != nil:
		return StatusLimit
	}
	return StatusExhausted
}

func (s *solver) solve() error {
	s.kinds = newKinds(s.job)
	if err := s.cost(); err != nil {
		return err
	}
	s.out.Plan = s.kinds.plan(s.job, s.best)
	s.out.Bound.Sticks = 1
	if s.options.Aim == AimCost {
		return nil
	}
	s.sticks()
	s.out.Plan = s.kinds.plan(s.job, s.best)
	s.out.Proven.Cost = s.out.Plan.Cost == s.out.Bound.Cost // fewer sticks may cost less too
	if s.options.Aim == AimSticks {
		return nil
	}
	s.offcut()
	s.out.Plan = s.kinds.plan(s.job, s.best)
	return nil
}

// refill gives the next aim the effort's steps.
func (s *solver) refill() { s.meter.budget = s.meter.steps + s.options.Effort.steps() }

// run starts a run with the patterns known.
func (s *solver) run(e *engine) *run {
	r := newRun(e)
	r.pool = s.pool
	return r
}

// take notes what a run did.
func (s *solver) take(r *run) {
	s.pool = s.pool[:0] // which r.pool may begin with
	for _, p := range r.pool {
		if p.takes[len(p.takes)-1].kind < len(s.kinds.lengths) {
			s.pool = append(s.pool, p)
		}
	}
	if r.proof != nil {
		s.out.Certificate.Refutations = append(s.out.Certificate.Refutations, r.proof)
	}
	s.out.Stats.Dives += r.dives
	s.out.Stats.Nodes += r.nodes
	s.out.Stats.Patterns += r.e.patterns
}

// cost brings the cost down.
func (s *solver) cost() error {
	s.refill()
	e := s.kinds.engine(s.job, s.meter, 0)
	r := newRun(e)
	r.offer(e.decreasing(e.demand, e.stockLeft()))
	r.offer(e.fullest(e.demand, e.stockLeft()))
	if r.best == nil {
		first, err := s.supply()
		if err != nil {
			return err
		}
		r.offer(first)
	}
	r.begin()
	r.solve()
	s.take(r)
	s.best = r.best
	s.out.Bound.Cost, s.out.Proven.Cost = r.lower, r.lower == r.upper
	return nil
}

// supply looks for any plan where filling sticks greedily finds none: sticks that there are not may be cut at a great
// cost, which is brought down.
func (s *solver) supply() (packing, error) {
	e := s.kinds.engine(s.job, s.meter, 0)
	real := len(e.sticks)
	widest, all := 0, int64(0)
	for k, t := range e.sticks {
		if t.ticks > e.sticks[widest].ticks {
			widest = k
		}
	}
	for _, d := range e.demand {
		all += int64(d)
	}
	// More than all real sticks together, so that one more real stick is always better.
	phantom := e.sticks[widest]
	phantom.supply, phantom.cost = -1, all+1
	for k := range e.sticks {
		e.sticks[k].cost = 1
	}
	e.sticks = append(e.sticks, phantom)
	r := newRun(e)
	r.offer(e.decreasing(e.demand, e.stockLeft()))
	r.wanted = all // any plan of real sticks will do
	r.begin()
	r.solve()
	switch {
	case r.best != nil && r.upper <= all:
		for _, b := range r.best {
			if b.stick >= real {
				return nil, ErrNoPlan
			}
		}
		return r.best, nil
	case s.meter.err != nil:
		return nil, s.meter.err
	case r.lower > all:
		return nil, fmt.Errorf("%w: their supply is too small for all pieces, which is proven", ErrNoPlan)
	}
	return nil, fmt.Errorf("%w: no plan was found within the effort, which is no proof that there is none", ErrNoPlan)
}

// sticks brings the number of sticks down at the plan's cost.
func (s *solver) sticks() {
	s.refill()
	e := s.kinds.engine(s.job, s.meter, 0)
	_, cost := e.total(s.best)
	n := int64(0)
	for _, b := range s.best {
		n += int64(b.count)
	}
	floor := int64(1)
	if dearest := slices.Max(s.kinds.costs); dearest > 0 && s.out.Proven.Cost {
		floor = max(1, (cost+dearest-1)/dearest)
	}
	if floor < n {
		e.byCount, e.costMost = true, cost
		r := s.run(e)
		r.offer(s.best)
		r.begin()
		if r.lower < floor {
			r.lower, r.proof = floor, nil
		}
		r.solve()
		s.take(r)
		s.best, n, floor = r.best, r.upper, r.lower
	}
	s.out.Bound.Sticks, s.out.Proven.Sticks = int(floor), floor == n
}
