package sheet

import (
	"strconv"

	"plank.example/cutopt"
)

// orderBlocks says what to buy and how good the plan is.
func (b *book) orderBlocks() []block {
	o, bound, waste := &b.plan.Order, &b.plan.Bound, &b.plan.Waste
	n := strconv.Itoa
	buy := b.buyText()
	use := b.Say("order.use", "bought", n(o.Boxes*o.PlanksPerBox), "per", n(o.PlanksPerBox), "used", n(o.Planks))
	switch {
	case o.Kept > 0 && b.job.Spare.BoxPer > 0:
		use += " " + b.Say("order.kept-boxes", "kept", n(o.Kept))
	case o.Kept > 0:
		use += " " + b.Say("order.kept", "kept", n(o.Kept))
	}
	if o.Reserve > 0 {
		use += " " + b.Say("order.reserve", "reserve", n(o.Reserve), "loss", b.Share(o.Loss/100))
	}
	use += " " + b.Say("order.over", "over", n(o.Over()))
	if o.Kept == 0 {
		use += " " + b.Spares(b.job, b.plan)
	}
	verdict := b.Say("order.open", "bound", n(bound.Boxes), "boxes", n(o.Boxes))
	if bound.Proven {
		key := "order.proven"
		if bound.Rooms != nil {
			key = "order.proven-rooms"
		}
		verdict = b.Say(key, "boxes", n(bound.Boxes), "whatever", b.Whatever(b.job))
	}
	blocks := []block{{Text: buy, Strong: true}, {Text: use}, {Text: verdict}}
	if o.ThumbBoxes > 0 {
		blocks = append(
			blocks,
			block{Text: b.Say(
				"order.thumb", "percent", b.Percent(b.job.Rules.WasteAllowance), "boxes", n(o.ThumbBoxes),
			)},
		)
	}
	blocks = append(blocks, b.verdictBlocks()...)
	return append(blocks,
		block{Text: b.Say("order.lot")},
		block{Head: []string{b.Say("waste.what"), b.Say("waste.value")}, Rows: [][]string{
			{b.Say("waste.net"), b.Area(waste.Net)},
			{b.Say("waste.bought"), b.Area(waste.Bought)},
			{b.Say("waste.added"), b.Percent(waste.AddedToFloor)},
			{b.Say("waste.share"), b.Percent(waste.ShareOfPurchase)},
			{b.Say("waste.afterwards"), b.Percent(waste.Afterwards)},
		}},
		block{Items: b.ruleItems()})
}

// buyText says how many boxes to buy, and their price.
func (b *book) buyText() string {
	o := &b.plan.Order
	buy := b.Count("order.buy", o.Boxes)
	if v := b.opt.Verdict; v != nil && v.Recommended > o.Boxes {
		buy = b.Count("order.takes", o.Boxes)
	}
	if o.Price > 0 {
		buy += " " + b.Say("order.price", "price", b.Decimal(o.Price.String()))
	}
	return buy
}

// verdictBlocks says which number of boxes to buy if planks break, and what the numbers about it mean: the least and
// the plan's, that of the advice and its neighbours, and the rule of thumb's.
func (b *book) verdictBlocks() []block {
	v, o := b.opt.Verdict, &b.plan.Order
	if v == nil {
		return nil
	}
	n := strconv.Itoa
	key := "risk.enough"
	if v.Recommended > o.Boxes {
		key = "risk.buy"
	}
	advice := b.Say(key, "loss", b.Share(v.Loss), "boxes", n(v.Recommended), "limit", b.Share(v.Limit))
	how := b.Say("risk.plain")
	if v.Times > 0 {
		how = b.Say("risk.counted", "times", n(v.Times))
	}
	table := block{Head: []string{
		b.Say(
			"risk.boxes",
		), b.Say("risk.verdict"), b.Say("risk.short"), b.Say("risk.left"), b.Say("risk.added"), b.Say("risk.share"),
	}}
	if floors := b.Floors(v, &b.plan.Bound); floors != "" {
		how = floors + " " + how
	}
	last := -1
	for _, c := range v.Telling(b.plan) {
		if last >= 0 && c.Boxes > last+1 {
			table.Rows = append(table.Rows, []string{"…", "", "", "", "", ""})
		}
		last = c.Boxes
		short := b.Say("risk.none")
		if c.Enough == cutopt.EnoughYes {
			short = b.Percent(100 * c.Risk.Value())
		}
		table.Rows = append(table.Rows, []string{
			n(
				c.Boxes,
			), b.Say("risk." + c.Enough.String()), short, n(c.Left),
			b.Percent(c.AddedToFloor), b.Percent(c.ShareOfPurchase),
		})
	}
	return []block{{Text: advice, Strong: v.Recommended > o.Boxes}, table, {Text: how}}
}

// ruleItems lists the figures that the plan keeps.
func (b *book) ruleItems() []string {
	r, p := &b.job.Rules, &b.job.Plank
	items := []string{b.Say("rules.plank", "length", b.Length(p.Length), "width", b.Length(p.Width))}
	if p.Name != "" {
		items[0] = p.Name + ": " + items[0]
	}
	return append(items,
		b.Say("rules.gap", "gap", b.Length(r.Gap)),
		b.Say("rules.pieces", "piece", b.Length(r.MinPiece), "stagger", b.Length(r.Stagger)),
		b.Say("rules.kerf", "kerf", b.Length(r.Kerf)),
		b.Say("rules.source"))
}
