package story

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"time"

	"plank.example/bench/strategy"
	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/laying"
	"plank.example/cutopt/planfile"
	"plank.example/cutopt/rows"
	"plank.example/cutopt/site"
	"plank.example/cutopt/solve"
)

// An Outcome is what came of a story.
type Outcome struct {
	Seed    uint64
	Runs    int // of the floor
	Planned int // planks of the plan that was made first
	Used    int // planks opened until the floor was down
	Lost    int // of these, those culled or miscut
	Habit   int // planks opened by the trade's habit, with the same luck; 0 where it found no starter
	Careful int // the same by one who cuts last pieces from offcuts too
	Known   int // planks of a plan that knew all measures, and the planks lost on the way to so many sound ones

	Events  int // plans that were made on the way
	Proven  int // of these, those whose further planks are proven the fewest
	Changed int // runs that a plan on the way starts otherwise than the one before, added up
	Walls   int // measures that turned out to be others
	Refused int // of these, those that no plan on the way could take in
	ToFit   int // of these, those within the fit allowance that were cut to fit, since a plan of them took more planks
	Offcuts int // offcuts that were gone when their turn came

	Longest time.Duration // that planning on took

	Laid *cutopt.Job // with all measures as they turned out

	Rest []*rows.Instance // the bare problems of what was left, if they are kept
}

// A teller is in the middle of a story.
type teller struct {
	*Story
	ctx    context.Context
	opt    *solve.Options
	keep   bool
	job    *cutopt.Job  // with all measures that are known
	plan   *cutopt.Plan // the latest
	opened int          // planks
	sawn   int          // planks
	turns  int          // of offcuts
	wall   bool         // the change is known
	asked  bool         // what-ifs are
	out    *Outcome
}

// mostEvents bounds the work on one story.
const mostEvents = 500

// Tell plans the job, lays it and plans on at each event, to the end. Options are those of every plan; keep keeps the
// bare problems of what is left. The error says which plan on the way does not hold, and why.
func (s *Story) Tell(ctx context.Context, opt *solve.Options, keep bool) (*Outcome, error) {
	first, err := solve.Job(ctx, s.Job, opt)
	if err != nil {
		return nil, err
	}
	t := &teller{
		Story: s, ctx: ctx, opt: opt, keep: keep, job: s.Job, plan: first.Plan,
		out: &Outcome{Seed: s.Seed, Planned: first.Plan.Order.Planks, Runs: len(first.Instance.Runs)},
	}
	if err := t.nothing(); err != nil {
		return nil, err
	}
	for t.out.Events < mostEvents {
		done, err := t.lay()
		if err != nil {
			return nil, fmt.Errorf("event %d: %w", t.out.Events+1, err)
		}
		if done {
			return t.out, t.end()
		}
	}
	return nil, fmt.Errorf("the story has no end after %d events", mostEvents)
}

// nothing holds that a plan to which nothing happened stays as it is, byte for byte.
func (t *teller) nothing() error {
	job, marked, _, err := site.Apply(t.job, t.plan, &site.State{})
	if err != nil {
		return err
	}
	again, err := solve.Continue(t.ctx, job, marked, t.opt)
	if err != nil {
		return err
	}
	var before, after bytes.Buffer
	if err := planfile.Encode(&before, t.plan); err != nil {
		return err
	}
	if err := planfile.Encode(&after, again.Plan); err != nil {
		return err
	}
	if !bytes.Equal(before.Bytes(), after.Bytes()) {
		return fmt.Errorf("nothing happened, and the plan is another")
	}
	return nil
}

// lay lays piece after piece until something happens, and plans on; it reports whether the floor is down.
func (t *teller) lay() (done bool, err error) {
	seq, err := laying.FromPlan(t.job, t.plan)
	if err != nil {
		return false, err
	}
	opened := make([]bool, len(t.plan.Planks))
	for i := range t.plan.Planks {
		opened[i] = t.plan.Planks[i].Opened
	}
	var last *laying.Piece
	for _, p := range seq.Pieces {
		if p.Lies {
			last = p
			continue
		}
		if !t.asked && float64(p.Order) >= t.Aside*float64(len(seq.Pieces)) {
			t.asked = true
			if err := t.asides(last); err != nil {
				return false, err
			}
		}
		if e := t.meets(p, opened[p.Plank-1]); e != nil {
			return false, t.goOn(last, *e)
		}
		opened[p.Plank-1], last = true, p
	}
	return true, t.goOn(last)
}

// meets returns what happens before a piece is laid; nil for nothing.
func (t *teller) meets(p *laying.Piece, opened bool) *site.Event {
	rows := t.plan.Floors[p.Ref.Floor].Rows
	from := int(t.ChangeRow * float64(len(rows)))
	if p == p.Run.Pieces[0] && t.ChangeRow > 0 && !t.wall && p.Ref.Row >= from {
		t.wall = true
		if len(rows[p.Ref.Row].Runs) == 1 { // else the wall is another's
			t.out.Walls++
			return &site.Event{Kind: site.KindLonger, Floor: p.Ref.Floor, Row: p.Ref.Row + 1, Length: t.Change}
		}
	}
	if opened {
		if t.turns++; t.Gone(t.turns - 1) {
			t.out.Offcuts++
			return &site.Event{Kind: site.KindLost, Planks: []int{p.Plank}}
		}
		return nil
	}
	if t.opened++; t.Culled(t.opened - 1) {
		t.out.Lost++
		return &site.Event{Kind: site.KindCulled, Count: 1}
	}
	if p.Role == laying.RoleWhole {
		return nil
	}
	t.sawn++
	if at := t.Miscut(t.sawn - 1); at > 0 {
		t.out.Lost++
		return &site.Event{Kind: site.KindMiscut, Planks: []int{p.Plank}, Length: at, Ends: cutopt.EndsLeft}
	}
	return nil
}

// down are the events that say what lies when a piece does, and all before it.
func (t *teller) down(last *laying.Piece) (events []site.Event) {
	if last == nil {
		return nil
	}
	for f := range last.Ref.Floor {
		events = append(events, site.Event{Kind: site.KindLaid, Floor: f, Row: len(t.plan.Floors[f].Rows)})
	}
	pieces := 0
	for i, p := range last.Run.Pieces {
		if p == last {
			pieces = i + 1
		}
	}
	return append(events, site.Event{
		Kind: site.KindLaid, Floor: last.Ref.Floor, Row: last.Ref.Row + 1, Run: last.Ref.Run + 1, Pieces: pieces,
	})
}

// goOn plans on when so much lies and something has happened.
func (t *teller) goOn(last *laying.Piece, events ...site.Event) error {
	state := &site.State{Events: append(t.down(last), events...)}
	job, plan, err := t.next(state)
	var refused site.Errors
	switch {
	case errors.As(err, &refused) && len(events) == 1 && events[0].Kind == site.KindLonger:
		t.out.Refused++ // the layer lets it be, as if the wall stood where it was measured
		if last == nil {
			return nil
		}
		return t.goOn(last)
	case err != nil:
		return fmt.Errorf("%v: %w", state.Events, err)
	}
	if job, plan, err = t.toFit(state, job, plan); err != nil {
		return fmt.Errorf("%v, cut to fit: %w", state.Events, err)
	}
	t.job, t.plan = job, plan
	t.out.Events++
	if plan.Bound.PlanksProven {
		t.out.Proven++
	}
	t.out.Changed += len(plan.Site.Changed)
	return nil
}

// toFit lets the layer cut to fit what differs by no more than the fit allowance, where planning on from the new length
// takes more planks than that.
func (t *teller) toFit(state *site.State, job *cutopt.Job, plan *cutopt.Plan) (*cutopt.Job, *cutopt.Plan, error) {
	other, some, err := site.ToFit(t.job, t.plan, state)
	if err != nil || !some || plan.Order.Planks <= t.plan.Order.Planks {
		return job, plan, err
	}
	job2, plan2, err := t.next(other)
	if err != nil || plan2.Order.Planks >= plan.Order.Planks {
		return job, plan, err
	}
	t.out.ToFit++
	return job2, plan2, nil
}

// next plans on from a state, and holds the plan against the rules and its proof.
func (t *teller) next(state *site.State) (*cutopt.Job, *cutopt.Plan, error) {
	job, marked, _, err := site.Apply(t.job, t.plan, state)
	if err != nil {
		return nil, nil, err
	}
	begin := time.Now()
	result, err := solve.Continue(t.ctx, job, marked, t.opt)
	if err != nil {
		return nil, nil, err
	}
	t.out.Longest = max(t.out.Longest, time.Since(begin))
	plan := result.Plan
	if broken := check.Plan(job, plan); len(broken) > 0 {
		return nil, nil, fmt.Errorf("the plan breaks %d rules, first: %v", len(broken), broken[0])
	}
	if err := check.Proof(job, plan); err != nil {
		return nil, nil, err
	}
	if plan.Site == nil {
		return nil, nil, fmt.Errorf("the plan says nothing of the site")
	}
	if t.keep {
		in, err := check.Instance(job, plan)
		if err != nil {
			return nil, nil, err
		}
		t.out.Rest = append(t.out.Rest, in)
	}
	return job, plan, nil
}

// asides asks what if: with all laid as planned the plan stays; with a box more here, or an offcut, no more is needed.
func (t *teller) asides(last *laying.Piece) error {
	if last == nil {
		return nil
	}
	state := &site.State{Events: t.down(last)}
	_, same, err := t.next(state)
	if err != nil {
		return fmt.Errorf("laid as planned: %w", err)
	}
	if what := otherwise(t.plan, same); what != "" {
		return fmt.Errorf("laid as planned: %s is another", what)
	}
	for name, e := range map[string]site.Event{
		"a box more":         {Kind: site.KindBoxes, Count: 1 + t.boxes(same)},
		"an offcut to end":   {Kind: site.KindOffcut, Length: t.Job.Plank.Length * 2 / 3, Ends: cutopt.EndsLeft},
		"an offcut to start": {Kind: site.KindOffcut, Length: t.Job.Plank.Length * 2 / 3, Ends: cutopt.EndsRight},
	} {
		more := &site.State{Events: append(t.down(last), e)}
		if e.Kind == site.KindBoxes {
			loose := same.Site.Here[0].Planks - t.boxes(same)*same.Order.PlanksPerBox
			more.Events = append(more.Events, site.Event{Kind: site.KindPlanks, Count: loose})
		}
		_, plan, err := t.next(more)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if plan.Bound.PlanksProven && plan.Site.Needed > same.Site.Needed || plan.Order.Boxes > same.Order.Boxes {
			return fmt.Errorf("with %s %d planks are needed and %d boxes, without it %d and %d", name, plan.Site.Needed,
				plan.Order.Boxes, same.Site.Needed, same.Order.Boxes)
		}
	}
	return nil
}

// boxes returns the unopened boxes that are here.
func (t *teller) boxes(plan *cutopt.Plan) (n int) {
	for _, lot := range plan.Site.Here {
		n += lot.Boxes
	}
	return n
}

// otherwise names the first thing that is laid or cut otherwise in two plans; "" for nothing.
func otherwise(a, b *cutopt.Plan) string {
	if len(a.Planks) != len(b.Planks) {
		return fmt.Sprintf("the number of planks (%d, %d)", len(a.Planks), len(b.Planks))
	}
	for i := range a.Floors {
		for j := range a.Floors[i].Rows {
			for k := range a.Floors[i].Rows[j].Runs {
				x, y := a.Floors[i].Rows[j].Runs[k].Pieces, b.Floors[i].Rows[j].Runs[k].Pieces
				for m := range x {
					if len(x) != len(y) || x[m].From != y[m].From || x[m].To != y[m].To || x[m].Plank != y[m].Plank ||
						x[m].AsItComes != y[m].AsItComes {
						return fmt.Sprintf("floor %d row %d run %d piece %d", i+1, j+1, k+1, m+1)
					}
				}
			}
		}
	}
	return ""
}

// end counts what was used, and what others would have.
func (t *teller) end() error {
	out := t.out
	for p := range t.plan.Pieces() {
		if !p.Lies {
			return fmt.Errorf("the floor is down, and a piece does not lie")
		}
	}
	out.Used, out.Laid = t.plan.Order.Planks, t.job
	if s := t.plan.Site; s.Needed != 0 || s.Short != 0 || s.Buy != 0 {
		return fmt.Errorf("the floor is down, and %d planks are needed", s.Needed)
	}
	bare := t.plan.Clone() // the rows as they came to lie
	bare.Site = nil
	in, err := check.Instance(t.job, bare)
	if err != nil {
		return err
	}
	if out.Habit, err = strategy.OpenedWithLosses(in, t.Story, false); err != nil && err != strategy.ErrNone {
		return err
	}
	if out.Careful, err = strategy.OpenedWithLosses(in, t.Story, true); err != nil && err != strategy.ErrNone {
		return err
	}
	out.Known, err = t.known(in)
	return err
}

// known returns how many planks a layer opens who knows measures and losses beforehand: of the planks opened the sound
// ones, and the parts of those miscut, do for a plan of fewest planks. As many are miscut as were on the way.
func (t *teller) known(in *rows.Instance) (int, error) {
	with, miscut := *in, 0
	for n := range t.sawn {
		if at := t.Miscut(n); at > 0 {
			with.Offcuts = append(with.Offcuts[:len(with.Offcuts):len(with.Offcuts)],
				rows.Offcut{Length: at, End: rows.EndLeft}, rows.Offcut{Length: in.Plank - in.Kerf - at, End: rows.EndRight})
			miscut++
		}
	}
	result, err := solve.Rows(t.ctx, &with, t.opt)
	if err != nil {
		return 0, err
	}
	for n, sound := 0, 0; ; n++ {
		if sound >= len(result.Cutting.Planks)+miscut {
			return n, nil
		}
		if !t.Culled(n) {
			sound++
		}
	}
}
