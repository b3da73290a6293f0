package cutopt

import (
	"context"
	"fmt"
	"math/rand/v2"
	"plank.example/cutopt/internal/enum"
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
	// Times is how often the floor is laid, at most MaxLayings; 0 leaves it at the plain binomial chance, which then decides
	// what is recommended.
	Times   int
	Seed    uint64 // of the draws. Same job, plan and breakage: the same verdict
	Workers int    // goroutines; default 1. The verdict does not depend on it
	// Progress, if not nil, is called now and then with how often the floor has been laid, from one goroutine at a time.
	Progress func(times int)
}

// MaxLayings is the largest Breakage.Times.
const MaxLayings = 10_000_000

// screening is how often a floor is laid before the numbers of boxes that are too risky by then are left at that.
const screening = 250

// DefaultBreakage returns a loss of 2 % of the planks, a limit of 2 % and laying the floor 1,000 times. They are assumptions:
// common practice has no source for them.
func DefaultBreakage() Breakage { return Breakage{Loss: 0.02, Limit: 0.02, Times: 1000} }

// A Verdict says of each number of boxes whether it will do.
type Verdict struct {
	// Counts are ascending, without a gap: from the one below the proven minimum, or from the rule of thumb where that is
	// less, to the largest of the plan's boxes, the rule of thumb and what is recommended.
	Counts      []BoxCount
	Recommended int // the fewest boxes whose risk of running short, as counted or else plain, is at most the limit
	// Close says that laying the floor more often might change what is recommended: the limit lies within the interval of
	// the number recommended or of the one below.
	Close    bool
	Lost     float64  // planks lost each time, on average; 0 where the floor is not laid
	Breakage Breakage // as asked for, less Progress
}

// A BoxCount is what buying so many boxes means.
type BoxCount struct {
	Boxes  int
	Enough Enough
	Left   int // whole planks left beyond Order.Kept when none is lost; below 0 so many are missing

	AddedToFloor    float64 // percent bought on top of the net floor area
	ShareOfPurchase float64 // percent of the purchase that is not floor
	Price           Money   // of these boxes; 0 when unknown

	Risk Chance // of running short
}

// Enough says whether a number of boxes holds the planks of a floor laid without a loss, and those kept for repairs.
type Enough uint8

// What a number of boxes may be.
const (
	EnoughNo   Enough = iota // "no": proven too few
	EnoughOpen               // "open": no plan with so few is known, and none is ruled out
	EnoughYes                // "yes": the plan in hand needs no more
)

var enoughNames = []string{"no", "open", "yes"}

// String returns "no", "open" or "yes".
func (e Enough) String() string { return enum.String("Enough", enoughNames, int(e)) }

// Telling returns the counts that a table should not be without: the proven minimum and the one below, the plan's boxes, those
// of the rule of thumb, and those recommended with their neighbours.
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
	Short, Times int     // how often more boxes were needed, of so many times
	Simulated    float64 // Short/Times; 0 where the floor is not laid
	Low, High    float64 // its 95 % confidence interval (Clopper and Pearson, Biometrika 26, 1934); 0 and 1 where it is not laid
	// Plain is the chance that more planks are lost than the boxes hold beyond those of the plan, by the binomial
	// distribution alone: no piece of a lost plank is used, and nothing is planned anew.
	Plain float64
}

// Value returns Simulated where the floor was laid, else Plain.
func (c Chance) Value() float64 {
	if c.Times > 0 {
		return c.Simulated
	}
	return c.Plain
}

// Risk lays the floor of a plan again and again with planks that break, and says of each number of boxes how often it was
// too few. Each plank opened is lost with the chance Breakage.Loss: one laid whole is culled; one to be sawn is culled or,
// as likely, miscut, which spoils its first piece and leaves the rest for use. Lost pieces are replaced from offcuts or new
// planks, and where the plan in hand would take another box the rest of the floor is planned anew round what lies, with the
// offcuts on hand, up to eight times; the floor of a Job.Pattern keeps its joints. A nil breakage is DefaultBreakage.
//
// Numbers of boxes whose whole interval is above the limit after 250 times are counted by those alone. The floor is then
// laid the other times with more boxes, which count the others.
//
// The error is that of the context; of a job that Validate refuses; a *FieldError for a breakage out of range; or says
// what Check finds in the plan. It takes Times times O(planks), and each time that comes to the last box one to eight short
// searches.
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
	if v.Breakage.Times > 0 {
		v.Lost = float64(counts.lost.Load()) / float64(v.Breakage.Times)
	}
	v.count(job, plan, counts)
	v.Breakage.Progress = nil
	return v, nil
}

func (b *Breakage) validate() error {
	bad := func(field string, value any, rule, hint string) error {
		return &FieldError{Field: "breakage." + field, Value: fmt.Sprint(value), Rule: rule, Hint: hint}
	}
	switch {
	case !(b.Loss >= 0 && b.Loss <= 0.5):
		return bad("loss", b.Loss, "the chance that a plank is lost is 0 to 0.5", "write 2 % as 0.02")
	case !(b.Limit > 0 && b.Limit < 1):
		return bad("limit", b.Limit, "the accepted chance of running short is above 0 and below 1", "write 2 % as 0.02")
	case b.Times < 0 || b.Times > MaxLayings:
		return bad("times", b.Times, "the floor is laid 0 to 10,000,000 times", "1,000 times tell a risk of 2 % to about 1 %")
	}
	return nil
}

// breakable takes the bare problem, layout and cutting from a plan that passes Check.
func breakable(job *Job, plan *Plan) (*breakage.Floor, error) {
	in, err := PlanInstance(job, plan)
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
	kept := Spare{Planks: plan.Order.Kept}
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
	for range min(max(b.Workers, 1), to-from) {
		wg.Go(func() {
			for k := int(next.Add(1)) - 1; k < to && ctx.Err() == nil; k = int(next.Add(1)) - 1 {
				out := floor.Lay(rand.New(rand.NewPCG(b.Seed, uint64(k))), t.open)
				t.needed[k] = out.Boxes
				t.lost.Add(int64(out.Lost))
				report()
			}
		})
	}
	wg.Wait()
}

// chance returns how often so many boxes were too few. Only the first times tried to do with those that are too risky, and
// where there are such, only the later times began with the others.
func (t *tally) chance(boxes int) Chance {
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

// count draws up the verdict on each number of boxes.
func (v *Verdict) count(job *Job, plan *Plan, t *tally) {
	order, w := &plan.Order, &plan.Waste
	box := w.Bought / measure.Area(max(order.Boxes, 1))
	from, to := max(min(plan.Bound.Boxes-1, order.ThumbBoxes), 0), max(order.ThumbBoxes, order.Boxes)
	for boxes := from; boxes <= to || v.Recommended == 0; boxes++ {
		c := BoxCount{Boxes: boxes, Price: Money(boxes) * job.Box.Price, Enough: EnoughOpen}
		c.Left = boxes*order.PlanksPerBox - order.Kept - order.Planks
		switch {
		case boxes < plan.Bound.Boxes:
			c.Enough = EnoughNo
		case boxes >= order.Boxes:
			c.Enough = EnoughYes
		}
		bought := box * measure.Area(boxes)
		c.AddedToFloor, c.ShareOfPurchase = (bought - w.Net).PercentOf(w.Net), (bought - w.Net).PercentOf(bought)
		c.Risk = t.chance(boxes)
		c.Risk.Plain = runsOut(order.Planks, boxes*order.PlanksPerBox-order.Kept, v.Breakage.Loss)
		v.Counts = append(v.Counts, c)
		if v.Recommended == 0 && boxes >= order.Boxes && c.Risk.Value() <= v.Breakage.Limit {
			v.Recommended = boxes
		}
	}
	for _, c := range v.Counts {
		if v.Breakage.Times > 0 && c.Enough == EnoughYes && (c.Boxes == v.Recommended || c.Boxes == v.Recommended-1) {
			v.Close = v.Close || c.Risk.Low <= v.Breakage.Limit && v.Breakage.Limit < c.Risk.High
		}
	}
}

// newChance returns how often the floor ran short of so many times, with the interval: the chances at which so many or more,
// and so many or fewer, come about in 2.5 of 100 simulations.
func newChance(short, times int) Chance {
	c := Chance{Short: short, Times: times, High: 1}
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

// runsOut returns the chance that of so many planks held more are lost than a floor of the given planks leaves, when each
// is lost with the chance loss: 1 where they hold too few.
func runsOut(planks, held int, loss float64) float64 {
	if held < planks {
		return 1
	}
	return distuv.Binomial{N: float64(held), P: loss}.Survival(float64(held - planks))
}
