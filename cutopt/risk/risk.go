package risk

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/mathext"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/breakage"
	"plank.example/cutopt/internal/pool"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Breakage says how planks are lost while a floor is laid, and how [Assess] counts what that means. Start from
// BreakageOf a job: a zero Loss is none.
type Breakage struct {
	Loss  float64 // chance that a plank is culled or miscut, 0 … 0.5
	Limit float64 // greatest chance of running short that is accepted, above 0 and below 1
	// Times is how often the floor is laid, at most MaxLayings; 0 leaves it at the plain binomial chance, which then
	// decides what is recommended: of the plan only the order, the waste and the bound are read then, and not recounted.
	Times   int
	Seed    uint64 // of the draws. Same job, plan and breakage: the same verdict
	Workers int    // goroutines, at most MaxWorkers; default 1. The verdict does not depend on it
	// Progress, if not nil, is called now and then with how often the floor has been laid, from one goroutine at a
	// time.
	Progress func(times int)
}

// MaxLayings is the largest Breakage.Times, and MaxWorkers the largest Breakage.Workers.
const (
	MaxLayings = 10_000_000
	MaxWorkers = 1024
)

// screening is how often a floor is laid before the numbers of boxes that are too risky by then are left at that.
const screening = 250

// BreakageOf returns the loss and the limit that the boxes of a job are bought for, and laying the floor 1,000 times.
func BreakageOf(job *cutopt.Job) Breakage {
	return Breakage{Loss: job.Rules.Loss / 100, Limit: job.Rules.RiskLimit / 100, Times: 1000}
}

// Assess lays the floor of a plan again and again with planks that break, and says of each number of boxes how often it
// was too few. Each plank opened is lost with the chance Breakage.Loss: one laid whole is culled; one to be sawn is
// culled or, as likely, miscut, which spoils its first piece and leaves the rest for use. Lost pieces are replaced from
// offcuts or new planks, and where the plan in hand would take another box the rest of the floor is planned anew round
// what lies, with the offcuts on hand, up to eight times; the floor of a Job.Pattern keeps its joints. A nil breakage
// is BreakageOf the job.
//
// Numbers of boxes whose whole interval is above the limit after 250 times are counted by those alone. The floor is
// then laid the other times with more boxes, which count the others.
//
// The error is that of the context; of a job that Validate refuses; a *FieldError for a breakage out of range or a plan
// that is begun; or says what [check.Plan] finds in the plan, where it is laid. It takes Times times O(planks), and
// each time that comes to the last box one to eight short searches.
func Assess(ctx context.Context, job *cutopt.Job, plan *cutopt.Plan, b *Breakage) (*cutopt.Verdict, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	if plan != nil && plan.Site != nil {
		return nil, &cutopt.FieldError{
			Field: "plan.site", Rule: "the floor of the plan is laid from its first row on, and this one is begun",
			Mend: "Plan.Order.Risk is the chance of running short of what is here and what is to be bought",
		}
	}
	if b == nil {
		usual := BreakageOf(job)
		b = &usual
	}
	if err := b.validate(); err != nil {
		return nil, err
	}
	terms, err := job.Terms()
	if err != nil {
		return nil, err
	}
	counts := &tally{}
	if b.Times > 0 {
		broken, err := check.PlanContext(ctx, job, plan)
		if err != nil {
			return nil, err
		}
		if len(broken) > 0 {
			return nil, fmt.Errorf("risk: the plan cannot be laid: %v", broken[0])
		}
		floor, err := breakable(job, plan)
		if err != nil {
			return nil, err
		}
		floor.Loss, floor.Stop = b.Loss, func() bool { return ctx.Err() != nil }
		counts = b.simulate(ctx, floor, terms.Holding(plan.Order.Planks))
	} else if err := agree(job, plan, terms); err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	v := &cutopt.Verdict{Loss: b.Loss, Limit: b.Limit, Times: b.Times}
	if v.Times > 0 {
		v.Lost = float64(counts.lost.Load()) / float64(v.Times)
	}
	draw(v, terms, plan, counts)
	return v, nil
}

// agree refuses a plan whose order is not one of its planks: what is told of each number of boxes has no end then.
func agree(job *cutopt.Job, plan *cutopt.Plan, terms cutopt.Terms) error {
	o := &plan.Order
	// The rule of thumb buys the allowance on top of the floor, which the planks cover but for gaps and trim.
	thumb := 2*float64(o.Planks)*(1+job.Rules.WasteAllowance/100)/float64(terms.PerBox) + 2
	if o.Planks != len(plan.Planks) || o.Fewest < 0 || o.Fewest > o.Planks || plan.Bound.Planks > o.Planks ||
		o.PlanksPerBox != terms.PerBox || o.Boxes != terms.Boxes(o.Planks) || !(float64(o.ThumbBoxes) <= thumb) {
		return errors.New("risk: the order of the plan does not agree with its planks: check.Plan finds where")
	}
	return nil
}

func (b *Breakage) validate() error {
	bad := func(field string, value any, rule, hint string) error {
		return &cutopt.FieldError{Field: "breakage." + field, Value: fmt.Sprint(value), Rule: rule, Mend: hint}
	}
	switch {
	case !(b.Loss >= 0 && b.Loss <= 0.5):
		return bad("loss", b.Loss, "the chance that a plank is lost is 0 to 0.5", "write 2 % as 0.02")
	case !(b.Limit > 0 && b.Limit < 1) && b.Loss > 0 || b.Limit < 0 || b.Limit >= 1:
		return bad("limit", b.Limit, "the accepted chance of running short is above 0 and below 1", "write 2 % as 0.02")
	case b.Times < 0 || b.Times > MaxLayings:
		return bad("times", b.Times, "the floor is laid 0 to 10,000,000 times",
			"1,000 times tell a risk of 2 % to about 1 %")
	case b.Workers < 0 || b.Workers > MaxWorkers:
		return bad("workers", b.Workers, fmt.Sprintf("the goroutines are 1 to %d, or 0 for one", MaxWorkers), "")
	}
	return nil
}

// breakable takes the bare problem, layout and cutting from a plan that passes [check.Plan].
func breakable(job *cutopt.Job, plan *cutopt.Plan) (*breakage.Floor, error) {
	in, err := check.Instance(job, plan)
	if err != nil {
		return nil, err
	}
	f := &breakage.Floor{Instance: in, Layout: make(rows.Layout, 0, len(in.Runs)), Fixed: len(job.Pattern) > 0}
	f.Planks = make([][]rows.Part, len(plan.Planks))
	for r := range plan.Floors {
		floor := &plan.Floors[r]
		for w := range floor.Rows {
			for u := range floor.Rows[w].Runs {
				pieces := floor.Rows[w].Runs[u].Pieces
				if floor.LaidFrom == cutopt.HandRight {
					pieces = slices.Clone(pieces)
					slices.Reverse(pieces)
				}
				starter := pieces[0].Length
				if len(pieces) == 1 {
					starter = 0
				}
				i := len(f.Layout)
				f.Layout = append(f.Layout, starter)
				p, ok := in.Lay(i, starter)
				if !ok {
					return nil, fmt.Errorf("risk: row %d of %q cannot be laid as the plan has it", w+1, floor.Name)
				}
				for k := range pieces {
					part := rows.Part{Run: i, Role: rows.RoleField, Length: in.Plank}
					switch {
					case starter == 0:
						part.Role, part.Length = rows.RoleSingle, p.Single
					case k == 0:
						part.Role, part.Length = rows.RoleStarter, p.Starter
					case k == len(pieces)-1:
						part.Role, part.Length = rows.RoleEnder, p.Ender
					}
					n := pieces[k].Plank - 1
					f.Planks[n] = append(f.Planks[n], part)
				}
			}
		}
	}
	along := [...]int{rows.RoleEnder: 0, rows.RoleSingle: 1, rows.RoleField: 1, rows.RoleStarter: 2}
	for _, parts := range f.Planks {
		slices.SortStableFunc(parts, func(a, b rows.Part) int { return along[a.Role] - along[b.Role] })
	}
	rows.Sort(f.Planks)
	per, err := job.Box.PlanksPer(job.Plank)
	if err != nil {
		return nil, err
	}
	kept := cutopt.Spare{Planks: plan.Order.Kept}
	f.Boxes = func(planks int) int { return kept.Boxes(planks, per) }
	return f, nil
}

// A tally holds how laying the floor came out.
type tally struct {
	needed []int        // boxes, by the time
	lost   atomic.Int64 // planks, all times together
	from   int          // the plan's boxes
	open   int          // numbers of boxes from this one on are not yet too risky after the first times
}

// simulate lays the floor as often as asked for, each time with draws of its own.
func (b *Breakage) simulate(ctx context.Context, floor *breakage.Floor, boxes int) *tally {
	t := &tally{needed: make([]int, b.Times), from: boxes, open: boxes}
	few := min(screening, b.Times)
	t.lay(ctx, floor, b, 0, few)
	for few < b.Times && newChance(short(t.needed[:few], t.open), few).Low > b.Limit {
		t.open++
	}
	t.lay(ctx, floor, b, few, b.Times)
	return t
}

// lay lays the floor for the times from … to-1, from the first boxes that are not too risky.
func (t *tally) lay(ctx context.Context, floor *breakage.Floor, b *Breakage, from, to int) {
	var mu sync.Mutex
	done := from
	report := func() {
		mu.Lock()
		defer mu.Unlock()
		if done++; done%25 == 0 && b.Progress != nil {
			b.Progress(done)
		}
	}
	pool.Each(to-from, b.Workers, func(k int) {
		if ctx.Err() != nil {
			return
		}
		k += from
		out := floor.Lay(rand.New(rand.NewPCG(b.Seed, uint64(k))), t.open)
		t.needed[k] = out.Boxes
		t.lost.Add(int64(out.Lost))
		report()
	})
}

// chance returns how often so many boxes were too few. Only the first times tried to do with those that are too risky,
// and where there are such, only the later times began with the others.
func (t *tally) chance(boxes int) cutopt.Chance {
	few := min(screening, len(t.needed))
	times := t.needed
	switch {
	case boxes < t.open:
		times = times[:few]
	case t.open > t.from:
		times = times[few:]
	}
	return newChance(short(times, boxes), len(times))
}

// short counts the times that needed more boxes.
func short(needed []int, boxes int) int {
	n := 0
	for _, k := range needed {
		if k > boxes {
			n++
		}
	}
	return n
}

// draw draws up the verdict on each number of boxes.
func draw(v *cutopt.Verdict, terms cutopt.Terms, plan *cutopt.Plan, t *tally) {
	order, w := &plan.Order, &plan.Waste
	terms.Loss = v.Loss
	least, need := terms.Holding(plan.Bound.Planks), terms.Holding(order.Planks)
	box := w.Bought / measure.Area(max(order.Boxes, 1))
	from, to := max(min(least-1, order.ThumbBoxes), 0), max(order.ThumbBoxes, order.Boxes)
	chances := map[int]func(boxes int) float64{
		order.Planks: terms.Risks(order.Planks), order.Fewest: terms.Risks(order.Fewest),
	}
	for boxes := from; boxes <= to || v.Recommended == 0; boxes++ {
		c := cutopt.BoxCount{Boxes: boxes, Price: cutopt.Money(boxes) * terms.Price, Enough: cutopt.EnoughOpen}
		// Fewer boxes than are bought would be bought for the floor of fewest planks.
		planks := order.Planks
		if v.Times == 0 && boxes < order.Boxes {
			planks = order.Fewest
		}
		c.Planks = planks
		c.Left = boxes*order.PlanksPerBox - terms.Kept(planks) - planks
		switch {
		case boxes < least:
			c.Enough = cutopt.EnoughNo
		case boxes >= need, v.Times == 0 && boxes >= terms.Holding(order.Fewest):
			c.Enough = cutopt.EnoughYes
		}
		bought := box * measure.Area(boxes)
		c.AddedToFloor, c.ShareOfPurchase = (bought - w.Net).PercentOf(w.Net), (bought - w.Net).PercentOf(bought)
		c.Risk = t.chance(boxes)
		c.Risk.Plain = chances[planks](boxes)
		v.Counts = append(v.Counts, c)
		if v.Recommended == 0 && boxes >= need && c.Risk.Value() <= v.Limit*(1+1e-9) {
			v.Recommended = boxes
		}
	}
	for _, c := range v.Counts {
		if v.Times > 0 && c.Enough == cutopt.EnoughYes && (c.Boxes == v.Recommended || c.Boxes == v.Recommended-1) {
			v.Close = v.Close || c.Risk.Low <= v.Limit && v.Limit < c.Risk.High
		}
	}
}

// newChance returns how often the floor ran short of so many times, with the interval: the chances at which so many or
// more, and so many or fewer, come about in 2.5 of 100 simulations.
func newChance(short, times int) cutopt.Chance {
	c := cutopt.Chance{Short: short, Times: times, High: 1}
	if times == 0 {
		return c
	}
	k, n := float64(short), float64(times)
	c.Simulated = k / n
	if short > 0 {
		c.Low = mathext.InvRegIncBeta(k, n-k+1, 0.025)
	}
	if short < times {
		c.High = mathext.InvRegIncBeta(k+1, n-k, 0.975)
	}
	return c
}
