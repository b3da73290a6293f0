package cutopt

import (
	"errors"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/proof"
)

// PlanVersion is the version of the plan file that this package writes.
const PlanVersion = 2

// A Plan is a floor laid out piece by piece and plank by plank. It can be laid as it stands: package check finds
// nothing in a plan that package solve returns. A Plan is plain data and shares nothing with the Job it came from.
//
// Positions are in the floor's own axes: x runs along the rows, y across them from the starting side; seen facing the
// starting wall x grows to the right and y towards the viewer.
type Plan struct {
	Version int
	Job     string       // Job.Name
	Unit    measure.Unit // unit of the plan file
	Order   Order
	Bound   Bound
	Waste   Waste
	Quality Quality
	Floors  []PlanFloor
	Breaks  []PlanBreak // where floors are parted into fields, those that the job asks for first
	// Planks are in the order they are first needed; PlankUse i has number i+1. Those opened keep the numbers they have,
	// and the others take those that are left.
	Planks []PlankUse
	Site   *Site // how the job stands that has been begun; nil for a plan from scratch
}

// MarshalJSON refuses: a plan's JSON has one shape, that of package planfile, whose File may stand inside other values.
func (p *Plan) MarshalJSON() ([]byte, error) {
	return nil, errors.New(
		"cutopt: a plan is written as JSON by planfile.Encode, or within other values as planfile.File",
	)
}

// An Order is what to buy, and why so much. Boxes are the fewest that hold the planks of the floor of fewest planks,
// those kept for repairs and a reserve for planks that are lost; the floor laid may use what they hold beyond, for its
// looks, and Kept and Reserve are those of the planks laid.
type Order struct {
	Planks       int   // planks that are cut, laid or lost: all of Plan.Planks but offcuts brought along
	Fewest       int   // planks of the floor of fewest planks found, at most Planks: what Boxes were chosen for
	PlanksPerBox int   // planks in a box
	Boxes        int   // boxes to buy, those bought so far included
	Left         int   // whole planks left when the floor is down and no more are lost: Boxes*PlanksPerBox - Planks
	Kept         int   // of Left, those that Job.Spare keeps for repairs
	Reserve      int   // of Left, those that replace planks that are lost; the others are over
	Price        Money // Boxes times the price of a box; 0 when unknown
	ThumbBoxes   int   // boxes the rule of thumb would buy: floor area plus Rules.WasteAllowance, rounded up

	Loss      float64 // percent of the planks lost, as assumed: Rules.Loss
	RiskLimit float64 // percent: the chance of running short that was accepted, Rules.RiskLimit
	Risk      float64 // the chance of running short of Boxes, 0 to 1, as [Terms.Risk] reckons it
}

// Over returns the whole planks left beyond those kept and those in reserve.
func (o *Order) Over() int { return o.Left - o.Kept - o.Reserve }

// A Bound says how few planks and boxes could possibly do for the rows as they lie in this plan.
type Bound struct {
	Planks int // no layout of these rows that keeps the rules needs fewer
	// boxes that hold Planks and what Job.Spare keeps for so many: fewer cannot do, whatever breaks
	Boxes int
	// Proven says that Boxes hold Order.Fewest and what is kept for so many: the floor fills no fewer. Where planks break
	// more may be bought; of these Settled speaks.
	Proven       bool
	Settled      bool               // for Planks no fewer boxes would be bought than Order.Boxes, at the loss assumed
	PlanksProven bool               // Planks == Order.Planks: fewer planks cannot do
	Certificate  *proof.Certificate // what check.Proof recomputes Planks from
	// Rooms is what holds of the rooms, whichever first row they get; nil where the bound is of these rows only.
	Rooms *RoomBound
}

// A RoomBound says how few planks could possibly do with any first row: no position of the rows on Rules.Grid, running
// the way they do, or square to that too where the job leaves it open, and with the breaks, starts and rules of the
// plan, needs fewer. Positions that leave a strip narrower than Rules.MinStrip do not count, and of the others not
// those that leave an edge row narrower than Rules.MinRip, unless no position is left. Where the job says how wide the
// first row of a floor is, the rows of that floor are those of the plan.
type RoomBound struct {
	Planks int // at most Bound.Planks, and they fill as many boxes, at the loss assumed too
	// Firsts lists by floor first rows, one for each way in which the rows may come to lie, the plan's own first; none for
	// a floor whose rows the job fixes, and none for one of any shape, of which the runs are bounded for each first row on
	// the grid.
	Firsts      [][]FirstRow
	Certificate *proof.FamilyCertificate // of the family that check.Family makes of the lists
}

// Waste is the real waste in the three meanings the word has, and the areas it is made of. The areas add up:
// Bought + Brought = Laid + Offcuts + Ripped + Kerf + Lost + WholeLeft, exactly.
type Waste struct {
	AddedToFloor    float64 // percent bought on top of the net floor area: (Bought-Net)/Net
	ShareOfPurchase float64 // percent of the purchase that is not floor: (Bought-Net)/Bought
	// percent of the planks opened that is not laid: (used-Laid)/used, measured when the floor is down
	Afterwards float64

	Net       measure.Area // floor area: outline less islands
	Bought    measure.Area // all planks of all boxes
	Laid      measure.Area // pieces as they lie
	Offcuts   measure.Area // ends of planks left over, and what offcuts laid as they come are longer than planned
	Ripped    measure.Area // strips and corners sawn off pieces
	Kerf      measure.Area // sawdust of crosscuts
	Lost      measure.Area // what is gone of planks
	Brought   measure.Area // of no box bought for the job: whole planks, and what offcuts brought along have of a plank
	WholeLeft measure.Area // whole planks left
}

// A FirstRow is a width of the first row.
type FirstRow struct {
	Width  measure.Length
	Turned bool // rows run square to those of the plan, which a job with DirectionFree leaves open
}

// A PlanFloor is one floor of a plan: a room, or several joined without a transition, or a field of it between breaks.
// The floors are those of [Job.Fields] of the plan's breaks, in that order.
type PlanFloor struct {
	Name     string
	Field    int // number of the field in its floor, from 1; 0 where no break parts it
	Axes     Axes
	LaidFrom Hand      // the end of each row that is laid first
	Lot      string    // the lot it is laid from; empty where lots are not told apart or may be mixed
	Rows     []PlanRow // from the starting side
	Facts    []Fact    // what was smoothed or dropped, which edge rows are narrow and why, at which breaks it ends
}

// A PlanRow is one row of a floor.
type PlanRow struct {
	From, To measure.Length // across the floor, y
	Width    measure.Length // To-From: the plank's width, or less where the row is ripped
	Runs     []PlanRun      // from left to right
}

// A PlanRun is a maximal stretch of a row between two walls or fixed things.
type PlanRun struct {
	From, To measure.Length // along the row, x
	Pieces   []Piece        // from left to right
}

// A Piece is what is laid. Across the row it lies from the row's From to its To; where Shape is nil it is all of that
// rectangle. Axes.ToDrawing leads to its place in the drawing of the room.
type Piece struct {
	Plank    int            // number of the plank it is cut from, from 1
	From, To measure.Length // along the row, x
	Length   measure.Length // To-From
	// AsItComes, if not 0, is the longest that a starter may turn out which is laid as its offcut comes, without a saw
	// cut. Every rule holds for every length from Length to AsItComes, whatever the other offcuts laid so come out at;
	// whole planks and ender of its run follow it. Places and lengths of the plan are those of Length.
	AsItComes measure.Length
	Ends      Ends // which of its ends are factory ends
	// Lies says that it lies. Of a run all pieces lie, none, or the first few from the end that is laid first: the run in
	// hand.
	Lies    bool
	Shape   []Point // its corners in the floor's own axes where it is not a full rectangle of the row; else nil
	Shaping []Fact  // how to saw that shape from the full rectangle: each part that comes off, from the left
}

// Ends is a set of the two ends of a piece: those that are factory ends, or those that a fact is about.
type Ends uint8

// The ends, a set of two bits.
const (
	EndsNone  Ends = 0 // "none": both sawn
	EndsLeft  Ends = 1 // "left"
	EndsRight Ends = 2 // "right"
	EndsBoth  Ends = 3 // "both": a whole plank
)

// A PlankUse is what becomes of one plank: its pieces from its left end to its right end.
//
// Of an opened plank there is on hand what neither lies nor is gone, less a kerf at each sawn end of a piece that lies
// beside it: each such part is an offcut, with the factory ends that it reaches to. Planned pieces are cut from these.
type PlankUse struct {
	Number int        // from 1
	Pieces []PieceRef // from the plank's left end
	Cuts   []Cut      // in the order they are sawn; none where a piece ends beside what is gone
	Left   []Leftover // what is left over, from the plank's left end

	// Opened says that it is no whole plank of the stock any more: some of it lies, was sawn or is gone.
	Opened bool
	// Brought says that it is an offcut brought along, from another job or the rest of the last: it never was a whole
	// plank of this job. It is opened.
	Brought bool
	// Gone are the parts that are lost, from the left end: broken, culled, mixed up, or sawn away for nothing, as the
	// kerf of a wrong cut; of an offcut brought along what it lacks of a plank. A plank that is lost whole has no pieces.
	// Ends are those of the part, as of an offcut.
	Gone []Leftover
	Lot  string // its lot; empty where lots are not told apart, or for planks still to be bought
}

// A PieceRef names a piece of the plan by position: indices from 0, which are numbers from 1 in files. [Plan.Piece]
// resolves it.
type PieceRef struct{ Floor, Row, Run, Piece int }

// A Cut is one crosscut, measured on the plank.
type Cut struct {
	// At is the distance from the plank's left end to the left side of the kerf. It is below 0 where what comes off the
	// left end is narrower than the kerf.
	At measure.Length
}

// A Leftover is a part of a plank that no piece uses.
type Leftover struct {
	From, To measure.Length // on the plank, from its left end
	Ends     Ends           // its factory ends
}
