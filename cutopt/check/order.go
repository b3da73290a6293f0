package check

import (
	"math"
	"math/big"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// order checks what is to be bought.
func (c *checker) order() {
	o := &c.plan.Order
	per, err := c.job.Box.PlanksPer(c.job.Plank)
	if err != nil || per < 1 {
		return // Validate has refused the job
	}
	planks, buy := len(c.plan.Planks), &purchase{c.job, per}
	c.equal(RuleOrder, "order.planks", o.Planks, planks)
	c.equal(RuleOrder, "order.planks_per_box", o.PlanksPerBox, per)
	boxes := buy.boxes(planks)
	c.equal(RuleOrder, "order.boxes", o.Boxes, boxes)
	c.chances(buy, boxes)
	c.equal(RuleOrder, "order.left", o.Left, boxes*per-planks)
	c.equal(RuleOrder, "order.kept", o.Kept, keptFor(&c.job.Spare, planks, per))
	price := new(big.Int).Mul(big.NewInt(int64(c.job.Box.Price)), big.NewInt(int64(boxes)))
	if price.Cmp(big.NewInt(int64(o.Price))) != 0 {
		c.report(Violation{Rule: RuleOrder}, "price-other", "got", o.Price, "boxes", boxes, "price", c.job.Box.Price)
	}
	c.equal(RuleOrder, "order.thumb_boxes", o.ThumbBoxes, c.thumbBoxes(per))
}

// chances checks what the boxes were chosen for, and the chance that they run short.
func (c *checker) chances(buy *purchase, boxes int) {
	o, rules := &c.plan.Order, &c.job.Rules
	planks := len(c.plan.Planks)
	c.equal(RuleOrder, "order.reserve", o.Reserve, buy.reserve(planks))
	if least := min(c.plan.Bound.Planks, planks); o.Fewest < least || o.Fewest > planks {
		c.report(Violation{Rule: RuleOrder}, "fewest-out", "got", o.Fewest, "least", least, "most", planks)
	} else if chosen := buy.boxes(o.Fewest); chosen != boxes {
		c.report(Violation{Rule: RuleOrder}, "fewest-boxes", "got", o.Fewest, "boxes", chosen, "want", boxes)
	}
	if o.Loss != rules.Loss || o.RiskLimit != rules.RiskLimit {
		c.report(Violation{Rule: RuleOrder}, "loss-other", "loss", o.Loss, "limit", o.RiskLimit,
			"wantloss", rules.Loss, "wantlimit", rules.RiskLimit)
	}
	left := boxes*buy.per - planks - keptFor(&c.job.Spare, planks, buy.per)
	if want := buy.short(planks, left); !(math.Abs(o.Risk-want) <= 1e-12+1e-6*want) {
		c.off(RuleOrder, "order.risk", o.Risk, want)
	}
}

// keptFor recounts the planks to keep for repairs.
func keptFor(s *cutopt.Spare, planks, per int) int {
	kept := s.Planks
	if s.Percent > 0 && s.Percent <= cutopt.MaxAllowance {
		// The digits of the percentage over a power of ten, and the percent over a hundred.
		whole, part, _ := strings.Cut(strconv.FormatFloat(s.Percent, 'f', -1, 64), ".")
		need, _ := new(big.Int).SetString(whole+part, 10)
		need.Mul(need, big.NewInt(int64(planks)))
		parts := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(part)+2)), nil)
		need.Add(need, parts).Sub(need, big.NewInt(1)) // rounded up
		kept += int(need.Quo(need, parts).Int64())
	}
	if s.BoxPer > 0 {
		// Boxes that are opened, and lots of BoxPer of them: in each the full ones, and one for what is left.
		opened, left := planks/per, planks%per
		if left > 0 {
			opened++
		}
		lots := opened / s.BoxPer
		if opened%s.BoxPer > 0 {
			lots++
		}
		kept += lots * per
	}
	return kept
}

// thumbBoxes returns the boxes that the rule of thumb would buy: the net floor and the allowance, by the area that the
// label says a box covers, or else by the size of its planks.
func (c *checker) thumbBoxes(per int) int {
	box := big.NewInt(int64(c.job.Box.Covers))
	if c.job.Box.Covers == 0 {
		box = c.planksArea(int64(per))
	}
	percent, _ := new(big.Rat).SetString(strconv.FormatFloat(c.job.Rules.WasteAllowance, 'f', -1, 64))
	need := new(big.Rat).SetInt64(int64(c.plan.Waste.Net))
	need.Mul(need, percent.Add(percent, big.NewRat(100, 1)))
	need.Quo(need, new(big.Rat).SetInt(box.Mul(box, big.NewInt(100))))
	boxes, rest := new(big.Int).DivMod(need.Num(), need.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		boxes.Add(boxes, big.NewInt(1))
	}
	return int(boxes.Int64())
}

// planksArea returns the area of n planks in square ticks.
func (c *checker) planksArea(n int64) *big.Int { return c.along(c.job.Plank.Length, n) }

// along returns n times the area of a length of plank.
func (c *checker) along(l measure.Length, n int64) *big.Int {
	a := new(big.Int).Mul(big.NewInt(int64(l)), big.NewInt(int64(c.job.Plank.Width)))
	return a.Mul(a, big.NewInt(n))
}

// net returns the area of all outlines less their islands, rounded down to whole square ticks.
func (c *checker) net() *big.Int {
	var twice big.Int
	for i := range c.job.Rooms {
		room := &c.job.Rooms[i]
		twice.Add(&twice, big.NewInt(twiceArea(room.Outline)))
		for k := range room.Islands {
			twice.Sub(&twice, big.NewInt(twiceArea(room.Islands[k].Outline)))
		}
	}
	return twice.Rsh(&twice, 1)
}

// twiceArea returns twice the area within a ring. It is exact when that fits 64 bits, which it does for corners within
// a kilometre: sums on the way may wrap round and come back.
func twiceArea(ring []cutopt.Point) int64 {
	var sum int64
	for i, p := range ring {
		q, o := ring[(i+1)%len(ring)], ring[0]
		sum += int64(p.X-o.X)*int64(q.Y-o.Y) - int64(p.Y-o.Y)*int64(q.X-o.X)
	}
	return max(sum, -sum)
}

// bound checks that the figures of the bound agree with each other and with the order.
func (c *checker) bound() {
	b := &c.plan.Bound
	per, err := c.job.Box.PlanksPer(c.job.Plank)
	if err != nil || per < 1 {
		return
	}
	planks := len(c.plan.Planks)
	if b.Planks < 0 || b.Planks > planks {
		c.report(Violation{Rule: RuleBound}, "bound-out", "got", b.Planks, "most", planks)
		return
	}
	buy := &purchase{c.job, per}
	boxes := buy.holding(b.Planks)
	c.equal(RuleBound, "bound.boxes", b.Boxes, boxes)
	c.agree("bound.proven", b.Proven, boxes == buy.holding(c.plan.Order.Fewest))
	c.agree("bound.settled", b.Settled, buy.boxes(b.Planks) == buy.boxes(planks))
	c.agree("bound.planks_proven", b.PlanksProven, b.Planks == planks)
	if b.Certificate != nil {
		c.equal(RuleBound, "bound.certificate.planks", b.Certificate.Planks, b.Planks)
	}
	if r := b.Rooms; r != nil {
		if r.Planks < 0 || r.Planks > b.Planks {
			c.report(Violation{Rule: RuleBound}, "bound-out", "got", r.Planks, "most", b.Planks)
			return
		}
		if r.Certificate != nil {
			c.equal(RuleBound, "bound.rooms.certificate.planks", r.Certificate.Planks, r.Planks)
		}
		same := buy.boxes(r.Planks) == buy.boxes(b.Planks) && buy.holding(r.Planks) == boxes
		c.agree("bound.rooms.planks", same, true)
	}
}

func (c *checker) agree(field string, got, want bool) {
	if got != want {
		c.off(RuleBound, field, got, want)
	}
}

// bought returns the boxes that are bought, the whole planks left, and the whole planks brought along.
func (c *checker) bought(per int) (boxes, left, brought int) {
	if s := c.plan.Site; s != nil {
		return c.plan.Order.Boxes, c.plan.Order.Left, s.Brought // held by the recount of the site
	}
	planks := len(c.plan.Planks)
	boxes = (&purchase{c.job, per}).boxes(planks)
	return boxes, boxes*per - planks, 0
}

// waste recounts the areas and the three percentages.
func (c *checker) waste() {
	w := &c.plan.Waste
	per, err := c.job.Box.PlanksPer(c.job.Plank)
	if err != nil || per < 1 {
		return
	}
	boxes, left, whole := c.bought(per)
	laid, shaped := c.laid()
	bought, net := c.planksArea(int64(boxes)*int64(per)), c.net()
	brought := new(big.Int).Add(c.planksArea(int64(whole)), c.along(c.brought, 1))
	used := new(big.Int).Add(c.planksArea(int64(c.ownPlanks())), c.along(c.brought, 1))
	corners := int64(0) // half square ticks that rounding may move
	for i := range c.job.Rooms {
		corners += int64(1 + len(c.job.Rooms[i].Islands))
	}
	c.area("net", w.Net, net, corners)
	c.area("bought", w.Bought, bought, 0)
	c.area("laid", w.Laid, laid, shaped)
	if !c.uncut {
		c.area("offcuts", w.Offcuts, c.along(c.spent, 1), 0)
		c.area("ripped", w.Ripped, new(big.Int).Sub(c.along(c.used, 1), laid), shaped)
		c.area("kerf", w.Kerf, c.along(c.sawn, 1), 0)
		c.area("lost", w.Lost, c.along(c.lost, 1), 0)
		c.area("brought", w.Brought, brought, 0)
	}
	c.area("whole_left", w.WholeLeft, c.planksArea(int64(left)), 0)

	sum := new(big.Int)
	for _, a := range []measure.Area{w.Laid, w.Offcuts, w.Ripped, w.Kerf, w.Lost, w.WholeLeft} {
		sum.Add(sum, big.NewInt(int64(a)))
	}
	sum.Sub(sum, big.NewInt(int64(w.Brought)))
	if sum.Cmp(big.NewInt(int64(w.Bought))) != 0 {
		c.report(Violation{Rule: RuleWaste}, "areas-sum", "got", inArea(sum), "want", w.Bought)
	}
	c.percent("added_to_floor", w.AddedToFloor, float64(w.Bought-w.Net), float64(w.Net))
	c.percent("share_of_purchase", w.ShareOfPurchase, float64(w.Bought-w.Net), float64(w.Bought))
	open, _ := new(big.Int).Sub(used, big.NewInt(int64(w.Laid))).Float64()
	opened, _ := used.Float64()
	c.percent("afterwards", w.Afterwards, open, opened)
}

// laid returns the area of all pieces as they lie, rounded down, and the number of pieces that are no rectangles.
func (c *checker) laid() (area *big.Int, shaped int64) {
	var twice, long, wide big.Int
	for i := range c.plan.Floors {
		for j := range c.plan.Floors[i].Rows {
			row := &c.plan.Floors[i].Rows[j]
			wide.SetInt64(int64(max(0, row.To-row.From)))
			for k := range row.Runs {
				for m := range row.Runs[k].Pieces {
					p := &row.Runs[k].Pieces[m]
					if p.Shape == nil {
						long.SetInt64(2 * int64(max(0, p.To-p.From)))
						twice.Add(&twice, long.Mul(&long, &wide))
						continue
					}
					shaped++
					twice.Add(&twice, big.NewInt(twiceArea(p.Shape)))
				}
			}
		}
	}
	return twice.Rsh(&twice, 1), shaped
}

// area holds an area against what was recounted. Half is how many half square ticks they may differ by.
func (c *checker) area(what string, got measure.Area, want *big.Int, half int64) {
	off := new(big.Int).Sub(want, big.NewInt(int64(got)))
	if off.Abs(off).Cmp(big.NewInt((half+1)/2)) <= 0 {
		return
	}
	c.off(RuleWaste, "waste.areas."+what, got, inArea(want))
}

// inArea returns an area of so many square ticks, at most the largest that is held.
func inArea(a *big.Int) measure.Area {
	if !a.IsInt64() {
		return math.MaxInt64
	}
	return measure.Area(a.Int64())
}

// percent holds a percentage against part/whole.
func (c *checker) percent(what string, got, part, whole float64) {
	const precision = 1e-9
	want := 100 * part / whole
	if !(math.Abs(got-want) <= precision*(1+math.Abs(want))) && !math.IsNaN(want) {
		c.report(Violation{Rule: RuleWaste}, "percent-off", "field", "waste."+what, "got", got, "want", want)
	}
}
