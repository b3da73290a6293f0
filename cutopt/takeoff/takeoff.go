// Package takeoff lists everything else to order with a floor: trim, transitions, underlay, film, tape, spacers; and
// what stands by: planks kept for repairs, the volume to dispose of, heights of doors and appliances.
//
//	list, err := takeoff.New(ctx, job, plan)
//
// It reckons from the outline of the rooms, the plan and the products of [cutopt.Materials]. A product with sizes on
// sale is cut from them by package plank.example/cutopt/stock/cut, with the cut list and its proof; one without is
// quantity only.
//
// # How it is reckoned
//
//   - Trim: a piece for each stretch of wall between doorways and fixed things, longer by the thickness of the trim
//     times tan(turn/2) at each outside corner, which is its long point; at inside corners to the wall. It is
//     spliced, on a mitre of 45 degrees, only where no stick on sale is as long. Corners that turn by less than 3
//     degrees are bent.
//   - Transitions: one for each doorway that no floor runs through, as long as the opening is wide, and a level one for
//     each break of the plan, of several pieces where no stick is as long. A doorway between two rooms that both name
//     it is one.
//   - Underlay and film: in each room n = ceil((W - o)/(w - o)) strips of width w with overlap o side by side over its
//     extent W, from wall to wall, along the rows or across them, whichever costs less over all rooms, or is less
//     material where no prices are known. All rooms are tried alike, and then every choice of up to three rooms, or
//     each of up to 20 turned by itself, unless the pieces are over 500. Doorways lengthen the strips that meet them,
//     and take strips of their own beyond the first and the last. A strip is made of several end to end only where it
//     is longer than a roll.
//   - Spacers: one at each end of a stretch of wall or of a fixed thing, and between them so that none is farther from
//     the next than asked.
//
// Lengths are exact where walls are parallel to the axes of the drawing, else rounded to the nearest tick; pieces to
// cut are rounded up to the graduation of the job.
package takeoff

import (
	"context"
	"errors"
	"fmt"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// New reckons what is to be ordered with a plan of the job. The job must be valid; the error is that of Validate
// otherwise, or a *cutopt.FieldError that names the product whose sticks on hand do not do or whose pieces are too many
// to be cut at once (errors.Is finds cutopt.ErrTooLarge), or that of ctx, or says how the plan cannot be one of the
// job. New gives the same list on any machine.
//
// Cost: O(walls x edges of fixed things) for each room, and that of cutting each product.
func New(ctx context.Context, job *cutopt.Job, plan *cutopt.Plan) (*cutopt.Takeoff, error) {
	if err := job.Validate(); err != nil {
		return nil, err
	}
	if plan == nil {
		return nil, errors.New("takeoff: the plan is nil: give the one made from the job")
	}
	r := &reckoner{ctx: ctx, job: job, plan: plan, list: &cutopt.Takeoff{
		Job: job.Name, Unit: job.Unit,
		Rise: job.Rise(),
	}}
	r.axes = make([]cutopt.Axes, len(job.Rooms))
	fields := job.Fields(plan.Breaks)
	if len(fields) != len(plan.Floors) {
		return nil, fmt.Errorf("takeoff: the plan has %d floors and the job %d: give the plan made from the job",
			len(plan.Floors), len(fields))
	}
	for i := range fields {
		if a := plan.Floors[i].Axes; !a.Finite() {
			return nil, fmt.Errorf("takeoff: floors[%d] of the plan is turned by %v degrees about %d, %d ticks, which is no "+
				"place of a room: give the plan made from the job", i+1, a.Turn, a.Origin.X, a.Origin.Y)
		}
		for k := range fields[i].Rooms { // all fields of a floor lie the same way
			r.axes[fields[i].Rooms[k].Number] = plan.Floors[i].Axes
		}
	}
	if err := r.survey(); err != nil {
		return nil, err
	}
	r.planks()
	for _, step := range []func() error{r.underlay, r.film} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	r.tape()
	r.spacers()
	if err := r.trim(); err != nil {
		return nil, err
	}
	if err := r.transitions(); err != nil {
		return nil, err
	}
	r.disposal()
	r.heights()
	return r.list, nil
}

// A reckoner fills a list item by item.
type reckoner struct {
	ctx   context.Context
	job   *cutopt.Job
	plan  *cutopt.Plan
	list  *cutopt.Takeoff
	rooms []room
	axes  []cutopt.Axes  // of the rows of each room
	seams measure.Length // of underlay and film that take tape
}

func (r *reckoner) add(item cutopt.Item) { r.list.Items = append(r.list.Items, item) }

// OnTop lists what a job that is begun needs besides what was bought: whole boxes of planks; nothing where none are to
// be bought. All other goods go with the first order.
func OnTop(job *cutopt.Job, plan *cutopt.Plan) *cutopt.Takeoff {
	list := &cutopt.Takeoff{Job: job.Name, Unit: job.Unit, Rise: job.Rise()}
	if s := plan.Site; s != nil && s.Buy > 0 {
		list.Items = append(list.Items, planks(job, plan, s.Buy))
	}
	return list
}

// planks is so many boxes of the job's planks, for what the plan lays.
func planks(job *cutopt.Job, plan *cutopt.Plan, boxes int) cutopt.Item {
	o, plank := &plan.Order, &job.Plank
	return cutopt.Item{
		Kind: cutopt.ItemPlanks, Name: plank.Name, Named: true, Thickness: plank.Thickness, Count: o.Planks,
		Spare: o.Reserve, Over: o.Over(),
		Goods: []cutopt.Goods{{
			Unit: cutopt.GoodsBox, Count: boxes, Each: job.Box.Price, Length: plank.Length, Width: plank.Width,
			Holds: o.PlanksPerBox,
		}},
	}
}

// planks lists what the plan orders, and what it keeps.
func (r *reckoner) planks() {
	o := &r.plan.Order
	r.add(planks(r.job, r.plan, o.Boxes))
	if o.Kept > 0 {
		r.add(cutopt.Item{Kind: cutopt.ItemKept, Named: true, Count: o.Kept})
	}
}

// disposal lists what of the planks is thrown away.
func (r *reckoner) disposal() {
	w := &r.plan.Waste
	r.add(cutopt.Item{
		Kind: cutopt.ItemDisposal, Area: w.Offcuts + w.Ripped + w.Kerf, Thickness: r.job.Plank.Thickness,
	})
}

// tape closes the seams of underlay and film.
func (r *reckoner) tape() {
	t := &r.job.Materials.Tape
	if r.seams == 0 {
		return
	}
	item := cutopt.Item{
		Kind: cutopt.ItemTape, Name: t.Name, Named: *t != (cutopt.Tape{}), Length: r.seams,
	}
	if t.Length > 0 {
		item.Goods = []cutopt.Goods{{
			Unit: cutopt.GoodsRoll, Count: roundUp(r.seams, t.Length), Each: t.Price, Length: t.Length,
		}}
	}
	r.add(item)
}

// spacers stand along walls and fixed things.
func (r *reckoner) spacers() {
	s := &r.job.Materials.Spacers
	item := cutopt.Item{
		Kind: cutopt.ItemSpacers, Named: *s != (cutopt.Spacers{}), Every: r.job.Spacing(), Thickness: r.job.Rules.Gap,
	}
	for i := range r.rooms {
		for _, span := range r.rooms[i].spans(0, true) {
			item.Length += span.length
			item.Count += roundUp(span.length, item.Every) + 1
		}
	}
	if s.Pack > 0 {
		item.Goods = []cutopt.Goods{{
			Unit: cutopt.GoodsPack, Count: (item.Count + s.Pack - 1) / s.Pack, Each: s.Price, Holds: s.Pack,
		}}
	}
	r.add(item)
}

// heights holds the rise of the floor against doors and appliances.
func (r *reckoner) heights() {
	rise := r.list.Rise
	if rise == 0 {
		return
	}
	for i := range r.job.Rooms {
		for k, d := range r.job.Rooms[i].Doorways {
			if d.Clearance > 0 {
				r.list.Heights = append(r.list.Heights, cutopt.HeightCheck{
					Room: i + 1, Doorway: k + 1, Under: d.Clearance, Left: d.Clearance - rise,
				})
			}
		}
	}
	for i, a := range r.job.Materials.Appliances {
		r.list.Heights = append(r.list.Heights, cutopt.HeightCheck{
			Appliance: i + 1, Under: a.Opening, Height: a.Height, Left: a.Opening - a.Height - rise,
		})
	}
}

// roundUp returns l/by, rounded up.
func roundUp(l, by measure.Length) int { return int((l + by - 1) / by) }

// graduation is what pieces are cut on: the job's, but at least 1/16 in or 1 mm.
func (r *reckoner) graduation() measure.Length {
	if r.job.Unit.Metric() {
		return max(r.job.Rules.Grid, measure.Millimetre)
	}
	return max(r.job.Rules.Grid, measure.Sixteenth)
}

// A size is a stick or a roll on sale, or on hand.
type size struct {
	length measure.Length
	price  cutopt.Money
	onHand int
}

func sizesOf(sticks []cutopt.Stick) []size {
	list := make([]size, len(sticks))
	for i, s := range sticks {
		list[i] = size{s.Length, s.Price, s.OnHand}
	}
	return list
}

// longest returns the longest that can be bought, or that lies on hand where none is sold.
func longest(sizes []size) measure.Length {
	bought, any := measure.Length(0), measure.Length(0)
	for _, s := range sizes {
		if any = max(any, s.length); s.onHand == 0 {
			bought = max(bought, s.length)
		}
	}
	if bought > 0 {
		return bought
	}
	return any
}

// maxPieces is the most pieces of one product that are cut at once: some seconds of work.
const maxPieces = 10_000

// cut cuts pieces from sizes at the least cost, and best in what comes after it up to the aim; field names the
// product's sizes in errors. Nil is for no pieces, or no sizes.
func (r *reckoner) cut(field string, sizes []size, kerf measure.Length, pieces []stock.Piece, aim cut.Aim) (
	*cutopt.Cutting, error,
) {
	if len(pieces) == 0 || len(sizes) == 0 {
		return nil, nil
	}
	if len(pieces) > maxPieces {
		return nil, tooMany(field)
	}
	job := &stock.Job{Unit: r.job.Unit, Pieces: pieces, Kerf: kerf}
	for _, s := range sizes {
		job.Sticks = append(job.Sticks, stock.Stick{
			Length: s.length, Price: int64(s.price), Supply: s.onHand, OnHand: s.onHand > 0,
		})
	}
	result, err := cut.Solve(r.ctx, job, &cut.Options{Effort: cut.EffortQuick, Aim: aim})
	if err != nil {
		return nil, r.cutError(field, len(pieces), err)
	}
	return &cutopt.Cutting{
		Job: job, Plan: result.Plan, Cost: result.Proven.Cost, Sticks: result.Proven.Sticks,
		Certificate: result.Certificate,
	}, nil
}

// cutError says what in the job no plan of cuts can do, or passes on what is not the job's.
func (r *reckoner) cutError(field string, pieces int, err error) error {
	switch {
	case errors.Is(err, cut.ErrNoPlan):
		return &cutopt.FieldError{
			Field: field, Value: fmt.Sprintf("a list for %d pieces", pieces), Rule: "what lies on hand does not do",
			Mend: "add a size to buy",
		}
	case errors.Is(err, stock.ErrTooLarge):
		return tooMany(field)
	}
	return err
}

// tooMany refuses more pieces, or more different ones, than are cut at once.
func tooMany(field string) error {
	return &cutopt.FieldError{
		Field: field, Rule: fmt.Sprintf("at most %d pieces of %d lengths are cut at once", maxPieces,
			stock.MaxKinds),
		Mend: "take off a part of the rooms at a time, or name no sizes", Err: cutopt.ErrTooLarge,
	}
}

// goods lists what a cutting takes of the sizes that are bought, in the order of the sizes.
func goods(c *cutopt.Cutting, unit cutopt.GoodsUnit, width measure.Length) []cutopt.Goods {
	if c == nil {
		return nil
	}
	used := make([]int, len(c.Job.Sticks))
	for _, k := range c.Plan.Cuttings {
		used[k.Stick] += k.Count
	}
	var list []cutopt.Goods
	for k, s := range c.Job.Sticks {
		if used[k] > 0 && !s.OnHand {
			list = append(list, cutopt.Goods{
				Unit: unit, Count: used[k], Each: cutopt.Money(s.Price), Length: s.Length, Width: width,
			})
		}
	}
	return list
}
