package cutopt

import "plank.example/cutopt/measure"

// A Site is how a job stands that has been begun: what is here, and what the rest of the plan takes of it. What lies
// and what was sawn or lost stands with the pieces and planks: [Piece].Lies, [PlankUse].Opened, Gone and Brought.
//
// Planks that are opened are no stock any more: what is left of them are offcuts. Whole planks add up exactly:
//
//	Bought*Order.PlanksPerBox + Brought = planks opened + whole planks here
//
// where offcuts brought along count as nothing, and planks that are lost whole as opened.
type Site struct {
	Bought  int   // boxes bought so far: Order.Boxes less Buy
	Brought int   // whole planks that came otherwise, from another job or the last one's rest
	Here    []Lot // whole planks here, one item for each lot; a single one without a name where lots are not told apart
	Mixed   bool  // planks of several lots may lie in one floor

	Needed int // whole planks that the rest of the plan takes: those of Plan.Planks that are not opened
	Least  int // no layout of the rest takes fewer: what Bound.Planks rests on
	// Short is how many planks are missing before the floor is down, if no more are lost and none is kept: of each lot
	// those needed beyond those here, added up. Planks of no lot are to be bought, where lots are told apart.
	Short int
	// Buy is how many boxes to buy on top, so that what is here and in them holds Short, and Needed with what is kept for
	// repairs and the reserve for planks lost from here on, as [Terms.OnTop] reckons them.
	Buy int
	// Returns are whole boxes, unopened and not needed for spares or reserve, by lot, as [Terms.Returns] reckons them; nil
	// where there are none.
	Returns []Lot
	// Assigned says that no other choice of a lot for each floor leaves fewer planks missing; true where lots are not
	// told apart or may be mixed.
	Assigned bool

	// Reaches says, where planks are Short, how far those here go if the plan is laid as it stands: for each floor how
	// many rows from the starting side on can be finished. Of the planks that are not opened, each lot gives out in the
	// order of their numbers. Nil where nothing is short.
	Reaches []int
	// Waits are the floors, by index, each of which lets all others be finished with what is here, if it is left for
	// later. Nil where nothing is short.
	Waits []int

	// Changed are the runs that are not yet laid and start otherwise than in the plan before, by a step of Rules.Grid or
	// more, in laying order.
	Changed []RunChange
}

// A Lot is planks of one lot (production run) in one place. The colour of lots differs: a floor is laid from one.
type Lot struct {
	Name   string // as on the label; empty where lots are not told apart
	Planks int    // whole planks, those in unopened boxes included
	Boxes  int    // unopened boxes
}

// A RunChange is a run that starts otherwise than in the plan before. Indices are from 0, numbers from 1 in files.
type RunChange struct {
	Floor, Row, Run int
	Was, Is         measure.Length // the piece that is laid first, before and after; Was is 0 where there was no such run
}

// WholePlanks returns how many whole planks are in the lots.
func WholePlanks(lots []Lot) (n int) {
	for _, l := range lots {
		n += l.Planks
	}
	return n
}

// InUse returns how many planks are sawn or laid, or will be: all but offcuts brought along and planks lost whole. It
// is the number that spares are reckoned of.
func (p *Plan) InUse() (n int) {
	for i := range p.Planks {
		use := &p.Planks[i]
		if !use.Brought && (len(use.Pieces) > 0 || len(use.Left) > 0) {
			n++
		}
	}
	return n
}

// OnTop returns how many boxes to buy on top of whole planks that are here: as many as hold those short, and with what
// is here the needed planks, those kept for repairs where inUse are laid in all, and the reserve for losses among those
// needed. It is 0 where these will do, and never falls as planks needed or short grow.
func (t Terms) OnTop(needed, inUse, short, here int) int {
	missing := needed + t.Kept(inUse) + t.Reserve(needed) - here
	return roundUp(max(missing, short, 0), max(t.PerBox, 1))
}

// Returns returns which unopened boxes can go back when of each lot, in the order of here, so many whole planks are
// taken: no more than over, the planks beyond spares and reserve, in whole boxes, and those that stay hold the boxes
// that attic stock keeps. The planks of opened boxes are used first.
func (t Terms) Returns(here []Lot, taken []int, over, inUse int) (back []Lot) {
	per := max(t.PerBox, 1)
	stay := 0 // unopened boxes
	if t.Spare.BoxPer > 0 {
		stay = t.Kept(inUse) / per
	}
	whole := make([]int, len(here)) // boxes that stay unopened
	all := 0
	for i, l := range here {
		whole[i] = max(0, min(l.Boxes, (l.Planks-taken[i])/per))
		all += whole[i]
	}
	most := min(max(0, over)/per, all-stay)
	for i, l := range here {
		if n := min(whole[i], most); n > 0 {
			back = append(back, Lot{Name: l.Name, Planks: n * per, Boxes: n})
			most -= n
		}
	}
	return back
}
