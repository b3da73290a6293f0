package check

import (
	"cmp"
	"math"
	"math/big"
	"slices"

	"plank.example/cutopt"
)

// mostPlanks is far more than any plan has, and small enough that no sum of two overflows.
const mostPlanks = 1 << 40

// siteRanges reports figures of the site that could make sense in no plan.
func (c *checker) siteRanges() {
	s, at := c.plan.Site, Violation{Rule: RulePlan}
	count := func(field string, n int) {
		if n < 0 || n > mostPlanks {
			c.report(at, "count-out", "field", "site."+field, "got", n)
		}
	}
	count("bought", s.Bought)
	count("brought", s.Brought)
	count("buy", s.Buy)
	count("needed", s.Needed)
	count("least", s.Least)
	count("short", s.Short)
	for i := range s.Here {
		count("here.planks", s.Here[i].Planks)
		count("here.boxes", s.Here[i].Boxes)
	}
	for i := range s.Changed {
		c.inRange(at, "run", s.Changed[i].Was, s.Changed[i].Is)
	}
}

// A stock is the planks of a job that is begun, counted again.
type stock struct {
	*checker
	*purchase
	*cutopt.Site
	opened int            // planks opened, but for offcuts brought along
	inUse  int            // of these, those that are not lost whole
	here   int            // whole planks here
	needed map[string]int // planks not opened, by lot
	of     map[string]int // whole planks here, by lot
}

// ownPlanks returns how many planks are or were planks of this job: all but offcuts brought along.
func (c *checker) ownPlanks() (n int) {
	for i := range c.plan.Planks {
		if !c.plan.Planks[i].Brought {
			n++
		}
	}
	return n
}

// stock counts the planks of a job that is begun.
func (c *checker) stock(per int) *stock {
	s := &stock{
		checker: c, purchase: &purchase{c.job, per}, Site: c.plan.Site, needed: make(map[string]int),
		of: make(map[string]int),
	}
	for i := range c.plan.Planks {
		use := &c.plan.Planks[i]
		switch gone := len(use.Pieces) == 0 && len(use.Left) == 0; {
		case !use.Opened:
			s.needed[use.Lot]++
		case !use.Brought && gone:
			s.opened++
		case !use.Brought:
			s.opened, s.inUse = s.opened+1, s.inUse+1
		}
	}
	for _, lot := range s.Here {
		s.of[lot.Name] += lot.Planks
		s.here += lot.Planks
	}
	return s
}

// site recounts the stock of a job that is begun, what the rest of its plan needs of it, and what is bought.
func (c *checker) site() {
	per, err := c.job.Box.PlanksPer(c.job.Plank)
	if err != nil || per < 1 {
		return
	}
	s := c.stock(per)
	s.lots()
	s.needs()
	s.order()
	s.bound()
	s.assigned()
	s.changed()
}

// off reports a figure that is not what was recounted.
func (s *stock) off(field string, got, want any) { s.checker.off(RuleSite, field, got, want) }

// lots holds what is here against what was bought and opened.
func (s *stock) lots() {
	seen := make(map[string]bool)
	for i, lot := range s.Here {
		if seen[lot.Name] {
			s.report(Violation{Rule: RuleSite}, "lot-again", "name", lot.Name)
		}
		seen[lot.Name] = true
		if lot.Boxes > lot.Planks/s.per {
			s.report(Violation{Rule: RuleSite}, "lot-boxes", "n", i+1, "boxes", lot.Boxes, "planks", lot.Planks)
		}
	}
	if s.Bought > mostPlanks/s.per || s.Bought*s.per+s.Brought != s.opened+s.here {
		s.report(Violation{Rule: RuleSite}, "planks-astray", "bought", s.Bought, "brought", s.Brought,
			"opened", s.opened, "here", s.here)
	}
	for i := range s.plan.Floors {
		if f := &s.plan.Floors[i]; f.Lot != "" && s.Mixed {
			s.report(Violation{Rule: RuleSite, Floor: i + 1, Name: f.Name}, "lot-of-mixed", "got", f.Lot)
		}
	}
}

// missing returns how many of so many planks of each lot are not here.
func (s *stock) missing(needed map[string]int) (short int) {
	if s.Mixed {
		all := 0
		for _, n := range needed {
			all += n
		}
		return max(0, all-s.here)
	}
	for lot, n := range needed {
		short += max(0, n-s.of[lot])
	}
	return short
}

// needs recounts what the rest of the plan takes of the stock.
func (s *stock) needs() {
	needed := 0
	for _, n := range s.needed {
		needed += n
	}
	s.whole("site.needed", s.Needed, needed)
	s.whole("site.short", s.Short, s.missing(s.needed))
	if s.Least > needed {
		s.report(Violation{Rule: RuleSite}, "least-out", "got", s.Least, "most", needed)
	}
	s.reaches()
	s.waits()
}

func (s *stock) whole(field string, got, want int) {
	if got != want {
		s.off(field, got, want)
	}
}

// onTop recounts the boxes to buy on top: they hold the planks missing, and with those here the planks needed, those
// kept for repairs and so many in reserve.
func (s *stock) onTop(needed, short, reserve int) int {
	all := needed + keptFor(&s.purchase.job.Spare, s.inUse+needed, s.per) + reserve
	return s.filled(max(0, short, all-s.here))
}

// order recounts what is bought in all, what of it is left, and what can go back.
func (s *stock) order() {
	o, job := &s.plan.Order, s.purchase.job
	s.equal(RuleOrder, "order.planks", o.Planks, s.ownPlanks())
	s.equal(RuleOrder, "order.planks_per_box", o.PlanksPerBox, s.per)
	needed := s.ownPlanks() - s.opened
	reserve := s.reserve(needed)
	s.whole("site.buy", s.Buy, s.onTop(needed, s.missing(s.needed), reserve))
	s.equal(RuleOrder, "order.boxes", o.Boxes, s.Bought+s.Buy)
	left := s.here + s.Buy*s.per - needed
	s.equal(RuleOrder, "order.left", o.Left, left)
	kept := keptFor(&job.Spare, s.inUse+needed, s.per)
	s.equal(RuleOrder, "order.kept", o.Kept, kept)
	s.equal(RuleOrder, "order.reserve", o.Reserve, reserve)
	price := new(big.Int).Mul(big.NewInt(int64(job.Box.Price)), big.NewInt(int64(o.Boxes)))
	if price.Cmp(big.NewInt(int64(o.Price))) != 0 {
		s.report(Violation{Rule: RuleOrder}, "price-other", "got", o.Price, "boxes", o.Boxes, "price", job.Box.Price)
	}
	s.equal(RuleOrder, "order.thumb_boxes", o.ThumbBoxes, s.thumbBoxes(s.per))
	if o.Loss != job.Rules.Loss || o.RiskLimit != job.Rules.RiskLimit {
		s.report(Violation{Rule: RuleOrder}, "loss-other", "loss", o.Loss, "limit", o.RiskLimit,
			"wantloss", job.Rules.Loss, "wantlimit", job.Rules.RiskLimit)
	}
	if want := s.short(needed, left-kept); !(math.Abs(o.Risk-want) <= 1e-12+1e-6*want) {
		s.checker.off(RuleOrder, "order.risk", o.Risk, want)
	}
	s.returns(left-kept-reserve, kept)
}

// returns recounts the unopened boxes that can go back: lot by lot those that no plank is taken of, while so many whole
// planks are over, and while the boxes that attic stock keeps stay unopened.
func (s *stock) returns(over, kept int) {
	stay := 0
	if s.purchase.job.Spare.BoxPer > 0 {
		stay = kept / s.per
	}
	taken, closed := make([]int, len(s.Here)), 0
	rest := 0 // mixed lots are used up in the order that they are told in
	for _, n := range s.needed {
		rest += n
	}
	var want []cutopt.Lot
	for i, lot := range s.Here {
		if taken[i] = min(lot.Planks, s.needed[lot.Name]); s.Mixed {
			taken[i] = min(lot.Planks, rest)
		}
		rest -= taken[i]
		closed += min(lot.Boxes, (lot.Planks-taken[i])/s.per)
	}
	for i, lot := range s.Here {
		boxes := min(lot.Boxes, (lot.Planks-taken[i])/s.per, over/s.per, closed-stay)
		if boxes <= 0 {
			continue
		}
		want = append(want, cutopt.Lot{Name: lot.Name, Planks: boxes * s.per, Boxes: boxes})
		over, closed = over-boxes*s.per, closed-boxes
	}
	if !slices.Equal(s.Returns, want) {
		s.report(Violation{Rule: RuleSite}, "returns-other", "got", boxesOf(s.Returns), "want", boxesOf(want))
	}
}

func boxesOf(lots []cutopt.Lot) (n int) {
	for _, l := range lots {
		n += l.Boxes
	}
	return n
}

// toldApart reports whether planks of one lot cannot take the place of those of another: what is missing of one is then
// bought though others are over.
func (s *stock) toldApart() bool {
	return slices.ContainsFunc(s.Here, func(l cutopt.Lot) bool { return l.Name != "" }) ||
		slices.ContainsFunc(s.plan.Planks, func(u cutopt.PlankUse) bool { return u.Lot != "" })
}

// bound holds the figures of the bound against those of the site and the order.
func (s *stock) bound() {
	b, o := &s.plan.Bound, &s.plan.Order
	needed := s.ownPlanks() - s.opened
	s.equal(RuleBound, "bound.planks", b.Planks, s.opened+s.Least)
	boxes := func(needed int) int { return s.Bought + s.onTop(needed, max(0, needed-s.here), 0) }
	s.equal(RuleBound, "bound.boxes", b.Boxes, boxes(s.Least))
	fewest := o.Fewest - s.opened
	if fewest < min(s.Least, needed) || fewest > needed {
		s.report(Violation{Rule: RuleOrder}, "fewest-out", "got", o.Fewest, "least", s.opened+min(s.Least, needed),
			"most", s.opened+needed)
		return
	}
	chosen := s.onTop(fewest, max(0, fewest-s.here), s.reserve(fewest))
	if chosen != s.Buy && (chosen > s.Buy || s.Mixed || !s.toldApart()) {
		s.report(Violation{Rule: RuleOrder}, "fewest-boxes", "got", o.Fewest, "boxes", s.Bought+chosen,
			"want", s.Bought+s.Buy)
	}
	s.agree("bound.proven", b.Proven, b.Boxes == boxes(fewest))
	s.agree("bound.settled", b.Settled, s.onTop(s.Least, max(0, s.Least-s.here), s.reserve(s.Least)) == s.Buy)
	s.agree("bound.planks_proven", b.PlanksProven, s.Least == needed)
	if b.Certificate != nil {
		s.equal(RuleBound, "bound.certificate.planks", b.Certificate.Planks, s.Least+len(s.inHand()))
	}
}

// inHand lists the runs of which some pieces lie and some do not, by floor, row and run.
func (c *checker) inHand() (runs [][3]int) {
	for i := range c.plan.Floors {
		for j := range c.plan.Floors[i].Rows {
			for k := range c.plan.Floors[i].Rows[j].Runs {
				if run := &c.plan.Floors[i].Rows[j].Runs[k]; begun(run) && !complete(run) {
					runs = append(runs, [3]int{i, j, k})
				}
			}
		}
	}
	return runs
}

// complete reports whether all of a run lies.
func complete(run *cutopt.PlanRun) bool {
	for i := range run.Pieces {
		if !run.Pieces[i].Lies {
			return false
		}
	}
	return len(run.Pieces) > 0
}

// changed holds that the runs told to be changed are not begun, follow each other in the order of laying, and start as
// it is told.
func (s *stock) changed() {
	var before cutopt.PieceRef
	for i, ch := range s.Changed {
		ref := cutopt.PieceRef{Floor: ch.Floor, Row: ch.Row, Run: ch.Run}
		if s.plan.Piece(ref) == nil {
			s.report(Violation{Rule: RuleSite}, "changed-astray", "n", i+1)
			return
		}
		floor := &s.plan.Floors[ch.Floor]
		run := &floor.Rows[ch.Row].Runs[ch.Run]
		p := &run.Pieces[first(floor, len(run.Pieces))]
		if begun(run) || ch.Is != p.To-p.From || ch.Was == ch.Is || ch.Was < 0 || i > 0 && !s.runBefore(before, ref) {
			s.report(Violation{Rule: RuleSite, Floor: ch.Floor + 1, Name: floor.Name, Row: ch.Row + 1, Run: ch.Run + 1},
				"changed-other", "n", i+1, "was", ch.Was, "is", ch.Is, "want", p.To-p.From)
			return
		}
		before = ref
	}
}

// runBefore reports whether a run is laid before another, if none of them lies.
func (s *stock) runBefore(a, b cutopt.PieceRef) bool {
	by := cmp.Compare(a.Run, b.Run)
	if s.plan.Floors[a.Floor].LaidFrom == cutopt.HandRight {
		by = -by
	}
	return cmp.Or(cmp.Compare(a.Floor, b.Floor), cmp.Compare(a.Row, b.Row), by) < 0
}
