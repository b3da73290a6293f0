package cutopt

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"plank.example/cutopt/internal/breakage"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// Breakage says how planks are lost while a floor is laid, and how Risk counts what that means. Start from DefaultBreakage:
// a zero Loss is none.
type Breakage struct {
	Loss  float64 // chance that a plank is culled or miscut, 0 … 0.5
	Limit float64 // greatest chance of running short that is accepted, above 0 and below 1
	// Runs is how many times the floor is laid, at most 10,000,000; 0 leaves it at the plain binomial chance, which then
	// decides what is recommended.
	Runs    int
	Seed    uint64 // of the draws. Same job, plan and breakage: the same verdict
	Workers int    // goroutines; default 1. The verdict does not depend on it
	// Progress, if not nil, is called now and then with the runs done, from one goroutine at a time.
	Progress func(runs int)
}

// first is how many runs are laid before the numbers of boxes that are too risky by then are left at that.
const first = 250

// DefaultBreakage returns a loss of 2 % of the planks, a limit of 2 % and 1,000 runs. They are assumptions: common practice
// has no source for them.
func DefaultBreakage() Breakage { return Breakage{Loss: 0.02, Limit: 0.02, Runs: 1000} }

// A Verdict says of each number of boxes whether it will do.
type Verdict struct {
	Counts      []BoxCount // ascending: from the one below the proven minimum to the rule of thumb and the one recommended
	Recommended int        // the fewest boxes whose risk of running short is at most the limit
	// Close says that more runs might change what is recommended: the limit lies within the interval of the number
	// recommended or of the one below.
	Close    bool
	Lost     float64  // planks lost each time, on average
	Breakage Breakage // as asked for, less Progress
}

// A BoxCount is what buying so many boxes means.
type BoxCount struct {
	Boxes  int
	Enough Enough
	Left   int // whole planks left when no plank is lost, those kept for repairs among them; below 0 so many are missing

	AddedToFloor    float64 // percent bought on top of the net floor area
	ShareOfPurchase float64 // percent of the purchase that is not floor
	Price           Money   // of these boxes; 0 when unknown

	Risk Chance // of running short
}

// Enough says whether a number of boxes holds the planks of a floor laid without a loss.
type Enough uint8

// What a number of boxes may be.
const (
	EnoughNo   Enough = iota // "no": proven too few
	EnoughOpen               // "open": no plan with so few is known, and none is ruled out
	EnoughYes                // "yes": the plan in hand needs no more
)

// Telling returns the counts worth printing: the plan's proven minimum, its own boxes, those of the rule of thumb, those
// recommended, and the neighbours of the first and the last. The others run short nearly always or never.
func (v *Verdict) Telling(plan *Plan) []BoxCount {
	keep := []int{
		plan.Bound.Boxes - 1, plan.Bound.Boxes, plan.Order.Boxes, plan.Order.ThumbBoxes,
		v.Recommended - 1, v.Recommended, v.Recommended + 1,
	}
	var out []BoxCount
	for _, c := range v.Counts {
		if slices.Contains(keep, c.Boxes) {
			out = append(out, c)
		}
	}
	return out
}

// A Chance is a probability counted from a simulation.
type Chance struct {
	Short, Runs int     // runs that needed more boxes, of so many
	Simulated   float64 // Short/Runs; 0 without runs
	Low, High   float64 // its 95 % confidence interval (Clopper and Pearson, Biometrika 26, 1934); 0 and 1 without runs
	// Plain is the chance that more planks are lost than the boxes hold beyond those of the plan, by the binomial
	// distribution alone: no piece of a lost plank is used, and nothing is planned anew.
	Plain float64
}

// Risk lays the floor of a plan again and again with planks that break, and says of each number of boxes how often it was
// too few. Each plank opened is lost with the chance Breakage.Loss: one laid whole is culled; one to be sawn is culled or,
// as likely, miscut, which spoils its first piece and leaves the rest for use. Lost pieces are replaced from offcuts or new
// planks, and where the plan in hand would take another box the rest of the floor is planned anew round what lies, with the
// offcuts on hand; the floor of a Job.Pattern keeps its joints. A nil breakage is DefaultBreakage.
//
// Numbers of boxes whose whole interval is above the limit after 250 runs are counted by those alone: later runs start
// with more boxes.
//
// The error is that of the context; of a job that Validate refuses; a *FieldError for a breakage out of range; or says
// what Check finds in the plan. It takes Runs times O(planks), and for the runs that come to the last box the time of a
// short search each time a plank is lost.
func Risk(ctx context.Context, job *Job, plan *Plan, b *Breakage) (*Verdict, error) {
	v := &Verdict{Breakage: DefaultBreakage()}
	if b != nil {
		v.Breakage = *b
	}
	if err := v.Breakage.validate(); err != nil {
		return nil, err
	}
	if err := job.Validate(); err != nil {
		return nil, err
	}
	if broken := Check(job, plan); len(broken) > 0 {
		return nil, fmt.Errorf("cutopt: the plan cannot be laid: %v", broken[0])
	}
	floor, err := breakable(job, plan)
	if err != nil {
		return nil, err
	}
	floor.Loss, floor.Stop = v.Breakage.Loss, func() bool { return ctx.Err() != nil }
	counts := v.Breakage.simulate(ctx, floor, plan.Order.Boxes)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if v.Breakage.Runs > 0 {
		v.Lost = float64(counts.lost.Load()) / float64(v.Breakage.Runs)
	}
	v.count(job, plan, counts)
	v.Breakage.Progress = nil
	return v, nil
}

func (b *Breakage) validate() error {
	bad := func(field string, value any, rule string) error {
		return &FieldError{Field: "breakage." + field, Value: fmt.Sprint(value), Rule: rule}
	}
	switch {
	case !(b.Loss >= 0 && b.Loss <= 0.5):
		return bad("loss", b.Loss, "the chance that a plank is lost is 0 to 0.5")
	case !(b.Limit > 0 && b.Limit < 1):
		return bad("limit", b.Limit, "the accepted chance of running short is above 0 and below 1")
	case b.Runs < 0 || b.Runs > 10_000_000:
		return bad("runs", b.Runs, "the floor is laid 0 to 10,000,000 times")
	}
	return nil
}

// breakable takes the bare problem, layout and cutting from a plan that passes Check.
func breakable(job *Job, plan *Plan) (*breakage.Floor, error) {
	in, err := plan.instance(job)
	if err != nil {
		return nil, err
	}
	f := &breakage.Floor{Instance: in, Layout: make(rows.Layout, 0, len(in.Runs)), Fixed: len(job.Pattern) > 0}
	f.Planks = make([][]rows.Part, len(plan.Planks))
	for r := range plan.Rooms {
		room := &plan.Rooms[r]
		for w := range room.Rows {
			for u := range room.Rows[w].Runs {
				pieces := room.Rows[w].Runs[u].Pieces
				if room.From == HandRight {
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
					return nil, fmt.Errorf("cutopt: row %d of %q cannot be laid as the plan has it", w+1, room.Name)
				}
				for k := range pieces {
					part := rows.Part{Run: i, Kind: rows.KindField, Length: in.Plank}
					switch {
					case starter == 0:
						part.Kind, part.Length = rows.KindSingle, p.Single
					case k == 0:
						part.Kind, part.Length = rows.KindStarter, p.Starter
					case k == len(pieces)-1:
						part.Kind, part.Length = rows.KindEnder, p.Ender
					}
					n := pieces[k].Plank - 1
					f.Planks[n] = append(f.Planks[n], part)
				}
			}
		}
	}
	along := [...]int{rows.KindEnder: 0, rows.KindSingle: 1, rows.KindField: 1, rows.KindStarter: 2}
	for _, parts := range f.Planks {
		slices.SortStableFunc(parts, func(a, b rows.Part) int { return along[a.Kind] - along[b.Kind] })
	}
	rows.Sort(f.Planks)
	per, err := job.Box.PlanksPer(job.Plank)
	if err != nil {
		return nil, err
	}
	kept := plan.Order.Kept
	f.Boxes = func(planks int) int { return roundUp(planks+kept, per) }
	return f, nil
}

// A tally holds the outcomes of the runs.
type tally struct {
	needed []int        // boxes, by run
	lost   atomic.Int64 // planks, in all runs
	all    int          // numbers of boxes from this one on are counted by all runs, those below by the first
}

// simulate lays the floor as often as asked for, each time with draws of its own.
func (b *Breakage) simulate(ctx context.Context, floor *breakage.Floor, boxes int) *tally {
	t := &tally{needed: make([]int, b.Runs), all: boxes}
	few := min(first, b.Runs)
	t.lay(ctx, floor, b, 0, few, boxes)
	for few < b.Runs && newChance(short(t.needed[:few], t.all), few).Low > b.Limit {
		t.all++
	}
	t.lay(ctx, floor, b, few, b.Runs, t.all)
	return t
}

// lay lays runs from … to-1, starting with so many boxes.
func (t *tally) lay(ctx context.Context, floor *breakage.Floor, b *Breakage, from, to, boxes int) {
	var next atomic.Int64
	next.Store(int64(from))
	var wg sync.WaitGroup
	var mu sync.Mutex
	done := from
	report := func() {
		mu.Lock()
		defer mu.Unlock()
		if done++; done%25 == 0 && b.Progress != nil {
			b.Progress(done)
		}
	}
	for range max(b.Workers, 1) {
		wg.Go(func() {
			for run := int(next.Add(1)) - 1; run < to && ctx.Err() == nil; run = int(next.Add(1)) - 1 {
				out := floor.Lay(rand.New(rand.NewPCG(b.Seed, uint64(run))), boxes)
				t.needed[run] = out.Boxes
				t.lost.Add(int64(out.Lost))
				report()
			}
		})
	}
	wg.Wait()
}

// chance returns how often so many boxes were too few.
func (t *tally) chance(boxes int) Chance {
	runs := t.needed
	if boxes < t.all {
		runs = runs[:min(first, len(runs))]
	}
	return newChance(short(runs, boxes), len(runs))
}

// short counts the runs that needed more boxes.
func short(needed []int, boxes int) int {
	n := 0
	for _, k := range needed {
		if k > boxes {
			n++
		}
	}
	return n
}

// count draws up the verdict on each number of boxes.
func (v *Verdict) count(job *Job, plan *Plan, t *tally) {
	order, w := &plan.Order, &plan.Waste
	box := w.Bought / measure.Area(max(order.Boxes, 1))
	from, to := max(min(plan.Bound.Boxes-1, order.ThumbBoxes), 0), max(order.ThumbBoxes, order.Boxes)
	for boxes := from; boxes <= to || v.Recommended == 0; boxes++ {
		c := BoxCount{Boxes: boxes, Price: Money(boxes) * job.Box.Price, Enough: EnoughOpen}
		c.Left = boxes*order.PlanksPerBox - order.Planks
		switch {
		case boxes < plan.Bound.Boxes:
			c.Enough = EnoughNo
		case boxes >= order.Boxes:
			c.Enough = EnoughYes
		}
		bought := box * measure.Area(boxes)
		c.AddedToFloor, c.ShareOfPurchase = percent(bought-w.Net, w.Net), percent(bought-w.Net, bought)
		c.Risk = t.chance(boxes)
		c.Risk.Plain = runsOut(order.Planks, boxes*order.PlanksPerBox-order.Kept, v.Breakage.Loss)
		v.Counts = append(v.Counts, c)
		risk := c.Risk.Simulated
		if v.Breakage.Runs == 0 {
			risk = c.Risk.Plain
		}
		if v.Recommended == 0 && boxes >= order.Boxes && risk <= v.Breakage.Limit {
			v.Recommended = boxes
		}
	}
	for _, c := range v.Counts {
		if v.Breakage.Runs > 0 && c.Enough == EnoughYes && (c.Boxes == v.Recommended || c.Boxes == v.Recommended-1) {
			v.Close = v.Close || c.Risk.Low <= v.Breakage.Limit && v.Breakage.Limit < c.Risk.High
		}
	}
}

// newChance returns how often short runs of so many were, with the interval: the chances at which so many or more, and so
// many or fewer, come about in 2.5 of 100 simulations.
func newChance(short, runs int) Chance {
	c := Chance{Short: short, Runs: runs, High: 1}
	if runs == 0 {
		return c
	}
	k, n := float64(short), float64(runs)
	c.Simulated = k / n
	if short > 0 {
		c.Low = mathext.InvRegIncBeta(k, n-k+1, 0.025)
	}
	if short < runs {
		c.High = mathext.InvRegIncBeta(k+1, n-k, 0.975)
	}
	return c
}

// runsOut returns the chance that of so many planks held more are lost than a floor of the given planks leaves, when each
// is lost with the chance loss: 1 where they hold too few.
func runsOut(planks, held int, loss float64) float64 {
	if held < planks {
		return 1
	}
	return distuv.Binomial{N: float64(held), P: loss}.Survival(float64(held - planks))
}
