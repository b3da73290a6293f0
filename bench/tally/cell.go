package tally

import (
	"math"
	"strings"

	"plank.example/bench/trial"
)

// A Cell sums the rooms of one key.
type Cell struct {
	Rooms    int64            `json:"rooms"`
	Outcomes map[string]int64 `json:"outcomes"` // rooms by trial.Record.Outcome

	// Sums over the rooms laid or counted; net and boxes also over those whose boxes are only bought.
	Net          int64 `json:"net"`    // square millimetres
	Planks       int64 `json:"planks"` //
	PlankArea    int64 `json:"plank_area"`
	Boxes        int64 `json:"boxes"`
	Bound        int64 `json:"bound"`
	BoxBound     int64 `json:"box_bound"`
	Proven       int64 `json:"proven"`        // rooms whose boxes are proven the fewest
	PlanksProven int64 `json:"planks_proven"` // rooms whose planks are
	// AreaProven counts the rooms whose boxes are proven by dividing lengths alone: trial.Record.AreaBound fills them.
	AreaProven int64 `json:"area_proven"`
	Steps      int64 `json:"steps"`

	// Distributions over the rooms laid (or bought, where boxes alone count).
	Added    Histogram `json:"added"`     // planks needed, added to the floor, in tenths of a percent
	BoxAdded Histogram `json:"box_added"` // boxes bought, added to the floor, in tenths of a percent
	Saved    Histogram `json:"saved"`     // boxes by the rule of thumb less boxes
	// Planks opened when the runs are laid one after the other, added to the floor, in tenths of a percent: with a pile of
	// all offcuts, and with the last one of each factory end only.
	AddedPile Histogram `json:"added_pile"`
	AddedLast Histogram `json:"added_last"`

	// Compared with the reference strategy on rooms that both laid: difference, this less the reference.
	PairPlanks Pair `json:"pair_planks"`
	PairBoxes  Pair `json:"pair_boxes"`
	// PairAdded is the same in tenths of a percent of the floor, PairFirst is Added less that of the same strategy under
	// the first setting, on rooms that are laid under both.
	PairAdded Pair `json:"pair_added"`
	PairFirst Pair `json:"pair_first"`

	// Breakage says what lost planks mean, by Losses.
	Breakage []Breakage `json:"breakage,omitempty"`

	// Breakings are by trial.Losses, of floors laid with planks that break.
	Breakings []Breaking `json:"breakings,omitempty"`

	// Times depend on the machine: they are no part of Equal. In steps of a sixteenth of a doubling, 4.4 %.
	Time Histogram `json:"time,omitempty"`
	// TimeProven is of rooms whose planks, or boxes where that was the aim, are proven.
	TimeProven Histogram `json:"time_proven,omitempty"`
	Micros     int64     `json:"micros,omitempty"`
}

// A Pair sums differences.
type Pair struct {
	N       int64 `json:"n"`
	Sum     int64 `json:"sum"`
	Squares int64 `json:"squares"`
}

func (p *Pair) add(d int64) { p.N, p.Sum, p.Squares = p.N+1, p.Sum+d, p.Squares+d*d }

func (p *Pair) merge(q Pair) { p.N, p.Sum, p.Squares = p.N+q.N, p.Sum+q.Sum, p.Squares+q.Squares }

// A Histogram counts whole numbers.
type Histogram map[int64]int64

func (h *Histogram) add(value, n int64) {
	if *h == nil {
		*h = make(Histogram)
	}
	(*h)[value] += n
}

// references are the records that one is compared with, nil where those strategies laid nothing, and what breakage
// means for it.
type references struct {
	boxes, planks, first *trial.Record
	chances              []chance
}

// added is the planks of a record on top of the floor, in tenths of a percent.
func added(r *trial.Record) int64 { return tenths(int64(r.Planks)*r.Plank, r.Net) }

func (c *Cell) add(r *trial.Record, with *references) {
	c.Rooms++
	c.Outcomes[r.Outcome]++
	if r.Outcome == trial.None || r.Outcome == trial.Broken {
		return
	}
	c.Net += r.Net
	c.Boxes += int64(r.Boxes)
	c.BoxAdded.add(tenths(int64(r.Boxes)*int64(r.PerBox)*r.Plank, r.Net), 1)
	c.Saved.add(int64(r.Thumb-r.Boxes), 1)
	if with.boxes != nil {
		c.PairBoxes.add(int64(r.Boxes - with.boxes.Boxes))
	}
	if r.Micros > 0 {
		c.addTime(r)
	}
	if r.Planks == 0 {
		return
	}
	c.Planks += int64(r.Planks)
	c.PlankArea += int64(r.Planks) * r.Plank
	c.Bound += int64(r.Bound)
	c.BoxBound += int64(r.BoxBound)
	c.Steps += r.Steps
	c.Added.add(added(r), 1)
	c.breakage(with.chances)
	c.breakings(r.Breakings)
	if r.Outcome == trial.Laid {
		c.AddedPile.add(tenths(int64(r.OpenedPile)*r.Plank, r.Net), 1)
		c.AddedLast.add(tenths(int64(r.OpenedLast)*r.Plank, r.Net), 1)
	}
	if with.planks != nil {
		c.PairPlanks.add(int64(r.Planks - with.planks.Planks))
		c.PairAdded.add(added(r) - added(with.planks))
	}
	if with.first != nil {
		c.PairFirst.add(added(r) - added(with.first))
	}
	if boxesProven(r) {
		c.Proven++
	}
	if r.Bound > 0 && r.Bound == r.Planks {
		c.PlanksProven++
	}
	if r.PerBox > 0 && (r.AreaBound+r.PerBox-1)/r.PerBox == r.Boxes {
		c.AreaProven++
	}
}

func boxesProven(r *trial.Record) bool { return r.Bound > 0 && r.BoxBound == r.Boxes }

// stepsPerDoubling is how many steps of Cell.Time double it.
const stepsPerDoubling = 16

func (c *Cell) addTime(r *trial.Record) {
	c.Micros += r.Micros
	step := int64(math.Round(stepsPerDoubling * math.Log2(float64(r.Micros))))
	c.Time.add(step, 1)
	if boxesProven(r) && (r.Bound == r.Planks || !strings.HasSuffix(r.Strategy, fewestPlanks)) {
		c.TimeProven.add(step, 1)
	}
}

// tenths is what is bought on top of net, in tenths of a percent, rounded down.
func tenths(bought, net int64) int64 {
	if net <= 0 {
		return 0
	}
	t := (bought - net) * 1000
	if t < 0 {
		return -((-t + net - 1) / net)
	}
	return t / net
}

// Sum adds up cells of rooms apart from each other; nil ones are passed over.
func Sum(cells ...*Cell) *Cell {
	sum := &Cell{Outcomes: make(map[string]int64)}
	for _, c := range cells {
		if c != nil {
			sum.merge(c)
		}
	}
	return sum
}

func (c *Cell) merge(o *Cell) {
	c.Rooms += o.Rooms
	for k, n := range o.Outcomes {
		c.Outcomes[k] += n
	}
	for _, p := range [][2]*int64{
		{&c.Net, &o.Net},
		{&c.Planks, &o.Planks},
		{&c.PlankArea, &o.PlankArea},
		{&c.Boxes, &o.Boxes},
		{&c.Bound, &o.Bound},
		{&c.BoxBound, &o.BoxBound},
		{&c.Proven, &o.Proven},
		{&c.PlanksProven, &o.PlanksProven},
		{&c.AreaProven, &o.AreaProven},
		{&c.Steps, &o.Steps},
		{&c.Micros, &o.Micros},
	} {
		*p[0] += *p[1]
	}
	for _, p := range [][2]*Histogram{
		{&c.Added, &o.Added},
		{&c.BoxAdded, &o.BoxAdded},
		{&c.Saved, &o.Saved},
		{&c.AddedPile, &o.AddedPile},
		{&c.AddedLast, &o.AddedLast},
		{&c.Time, &o.Time},
		{&c.TimeProven, &o.TimeProven},
	} {
		for value, n := range *p[1] {
			p[0].add(value, n)
		}
	}
	c.mergeBreakage(o.Breakage)
	c.mergeBreakings(o.Breakings)
	c.PairPlanks.merge(o.PairPlanks)
	c.PairBoxes.merge(o.PairBoxes)
	c.PairAdded.merge(o.PairAdded)
	c.PairFirst.merge(o.PairFirst)
}
