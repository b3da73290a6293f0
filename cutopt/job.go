package cutopt

import (
	"plank.example/cutopt/measure"
)

// A Job is everything measured and read from the label before a floor is laid: one product, its rules, and the rooms
// that share its planks and offcuts. A Job is plain data: packages solve, check and risk only read it, so one Job may
// be used by several goroutines at once.
type Job struct {
	Name  string       // heading of the printed plan; may be empty
	Unit  measure.Unit // unit of printing and of plan files
	Plank Plank
	Box   Box
	Rules Rules // start from DefaultRules: a zero rule is a rule of zero
	Rooms []Room
	// Pattern gives the starters of the rows of each room in turn, again and again; nil lays joints irregular. They
	// are those of runs that begin where the leftmost run of the room does; other runs are cut so that their joints
	// lie in the same places, or laid in one piece where no such joint leaves two that are long enough. ParsePattern
	// makes one.
	Pattern []measure.Length
	// Aims are what to improve within the boxes, the most important first; nil is DefaultAims, an empty list improves
	// nothing: joints only leave corners where a strip beside them could not be held, and go where they spare a slit.
	Aims []Aim
	// Products are others to compare the job with; planning it does not read them.
	Products []Product
	Spare    Spare // whole planks to keep back for repairs, bought on top of those laid
	// Materials are what else goes with the floor. Planning does not read them: package takeoff does.
	Materials Materials
}

// A Plank is the product: a locking plank with a left and a right factory end that differ.
type Plank struct {
	Name      string         // as on the label; may be empty
	Length    measure.Length // factory length, at most 1 km
	Width     measure.Length // laid width, measured on the face: without the tongue
	Thickness measure.Length // 0 when unknown
	// What the product's instruction says of laying it; where a field is unset, what is printed refers to it.
	Ends   EndJoin  // whether the end or the long edge of a plank is joined first
	ToWall LongEdge // the long edge that faces the starting wall
	From   From     // the end of a row that is laid first; unset lays from the left
}

// An EndJoin says which side of a plank is joined first.
type EndJoin uint8

// The ways to join. The zero value is EndJoinUnset.
const (
	EndJoinUnset EndJoin = iota // "unset"
	EndJoinAngle                // "angle": the end is angled into the plank before, then the long edge goes in
	EndJoinDrop                 // "drop": the long edge is angled in, then the end is pressed down
)

// A LongEdge is one of the two long edges of a plank.
type LongEdge uint8

// The long edges. The zero value is LongEdgeUnset.
const (
	LongEdgeUnset  LongEdge = iota // "unset"
	LongEdgeTongue                 // "tongue"
	LongEdgeGroove                 // "groove"
)

// A From says which end of a row is laid first, facing the starting wall.
type From uint8

// The ends of a row. The zero value is FromUnset.
const (
	FromUnset From = iota // "unset"
	FromLeft              // "left"
	FromRight             // "right"
)

// LaidFrom returns the end at which rows that lie so are laid first: the one that RowRules.LaidFrom names, else that of
// the product, else the left one.
func (j *Job) LaidFrom(r RowRules) Hand {
	from := r.LaidFrom
	if from == FromUnset {
		from = j.Plank.From
	}
	if from == FromRight {
		return HandRight
	}
	return HandLeft
}

// A Box is how the product is sold.
type Box struct {
	Planks int          // planks in a box; 0 takes them from Covers
	Covers measure.Area // area one box covers; 0 takes it from Planks
	Price  Money        // price of one box; 0 when unknown
}

// Money is an amount in hundredths of whatever currency the job is written in.
type Money int64

// A Product is a plank and the box it comes in.
type Product struct {
	Plank Plank
	Box   Box
}

// Rules are the figures a plan must keep. No published norm fixes them for locking planks, so each is a parameter, and
// the product's own instruction overrides every default of DefaultRules.
type Rules struct {
	Gap        measure.Length // expansion gap at every wall and fixed thing
	MinPiece   measure.Length // shortest starter or ender
	Stagger    measure.Length // least distance between end joints of runs that touch in neighbouring rows
	MinRip     measure.Length // narrowest edge row; 0 means half a plank
	MinStrip   measure.Length // narrowest piece or part of a piece that can be held; 0 means none is too narrow
	Edges      EdgeRows       // how the first and the last row share what whole rows leave
	Kerf       measure.Length // width of one saw cut across a plank
	Grid       measure.Length // graduation that starters are measured to
	Smooth     measure.Length // edges of an outline shorter than this are drawing noise
	Fit        measure.Length // how much longer or shorter a run may turn out than it was measured; 0 trusts the tape
	AsItComes  measure.Length // an offcut up to so much longer than its starter is laid as it comes; 0 saws every one
	Cover      measure.Length // the trim hides floor left open up to this width beside the gap
	Under      measure.Length // how far the floor runs beneath a wooden casing, on each side of a doorway
	MaxAlong   measure.Length // longest floor along the rows without a break; 0 means no limit
	MaxAcross  measure.Length // longest floor across the rows without a break; 0 means no limit
	BreakWidth measure.Length // width of what stands in a break; the fields on both sides keep the gap from it
	// The following are what the figures of Quality are measured by. A plan need not keep them.
	InLine        measure.Length // joints two rows apart are in line, and steps equal, within this
	PreferStagger measure.Length // a least stagger that is as good as any larger one
	Round         measure.Length // starters cut to a multiple of it are round figures; 0 makes all of them round
	// Loss is the chance, in percent, that a plank is culled or miscut, and RiskLimit that of running short which is
	// accepted: boxes are bought for both. Both are assumptions. Loss 0 buys what the floor takes and nothing in
	// reserve.
	Loss, RiskLimit float64
	// WasteAllowance is the rule of thumb the plan is compared with: percent added to the floor area.
	WasteAllowance float64
}

// LeastDoorwayRow returns the width below which plans tell of a row that lies in doorways alone: twice the narrowest
// strip that can be held, and no more than an edge row is asked to be.
func (j *Job) LeastDoorwayRow() measure.Length { return min(2*j.Rules.MinStrip, j.LeastRip()) }

// LeastRip returns the least width of an edge row: Rules.MinRip, or half a plank where that is 0.
func (j *Job) LeastRip() measure.Length {
	if j.Rules.MinRip > 0 {
		return j.Rules.MinRip
	}
	return j.Plank.Width / 2
}

// EdgeRows say how the first and the last row share what whole rows leave.
type EdgeRows uint8

// The ways to share. The zero value is EdgeRowsBalance.
const (
	// "balance": the narrowest strip as wide as can be, which trims both where the last would be narrow
	EdgeRowsBalance    EdgeRows = iota
	EdgeRowsWholeFirst          // "whole-first": the first row is whole where the last is then as wide as MinRip
)

// A Point is a place in a room's drawing, in any axes the drawing uses.
type Point = measure.Point

// GapNone as Island.Gap or Pipe.Gap lays the floor tight against what stands there.
const GapNone measure.Length = -1

// A Room is one outline to be floored.
type Room struct {
	Name    string
	Outline []Point // corners in order, either way round; the last joins the first
	// WallGaps are the expansion gaps of single walls, by index, 0 for none: wall i runs from corner i to corner i+1.
	// Walls that are not in it keep Rules.Gap.
	WallGaps map[int]measure.Length
	Islands  []Island
	Pipes    []Pipe
	Doorways []Doorway
	Breaks   []Break
	Rows     RowRules
}

// An Island is a fixed thing the floor is laid around.
type Island struct {
	Name    string
	Outline []Point
	Gap     measure.Length // expansion gap around it; 0 takes the rules', GapNone means none
}

// A Pipe is a round thing that stands in the floor: a pipe, a column, a closet flange. The floor is cut out to a circle
// of its diameter and twice the gap. A plank cannot be lowered over it, so a hole that is closed all round gets a slit:
// see [FactSlit]. It takes nothing off the net floor area.
type Pipe struct {
	Name     string
	At       Point          // its middle
	Diameter measure.Length // at least 1 mm
	Gap      measure.Length // expansion gap around it; 0 takes the rules', GapNone means none
}

// A Doorway is an opening in a wall that the floor runs into.
type Doorway struct {
	Name   string
	Wall   int            // index of the wall: from corner Wall to corner Wall+1
	At     measure.Length // from that wall's first corner to the near side of the opening
	Width  measure.Length // clear width of the opening
	Depth  measure.Length // how far the floor runs into the wall: to the transition line
	Casing Casing
	To     string // name of the room behind it; "" when there is none in the job
	// Through says that there is no transition: this room and To are one floor with common rows. Both are drawn in one
	// drawing and share the opening: its sides meet one wall of To, at most MaxWall away.
	Through bool
	// Break asks for a break in a doorway that the floor runs through: midway between the walls of the two rooms, whose
	// rows run one way. It may be asked for from both.
	Break bool
	// Transition is what covers the edge of the floor there; TransitionOpen leaves it to Job.DoorTransitions.
	Transition Transition
	Height     measure.Length // of the floor behind, above what this floor is laid on; 0 when unknown
	Clearance  measure.Length // under the door, above what this floor is laid on; 0 when unknown
}

// A Casing says what frames a doorway.
type Casing uint8

// The casings.
const (
	CasingWood  Casing = iota // "wood": undercut to plank and underlay height, the floor runs beneath
	CasingMetal               // "metal": left whole, the plank is cut round it with the gap
)

// RowRules say how the rows of a room lie.
type RowRules struct {
	Direction Direction
	Angle     float64        // of DirectionAngle: degrees from the drawing's x axis, counter-clockwise
	Start     Start          // which of the two sides the first row lies against
	StartWall int            // number of the wall, from 1, that the rows run along and begin at; 0 takes the longest
	LaidFrom  From           // which end of a row is laid first; unset is Plank.From
	FirstRow  measure.Length // width of the first row; 0 lets the planner choose
}

// A Direction says which way rows run.
type Direction uint8

// The directions. The zero value is DirectionAlong.
const (
	DirectionAlong  Direction = iota // "along": along the room's longest wall
	DirectionAcross                  // "across": square to it
	DirectionAngle                   // "angle": at RowRules.Angle
	DirectionFree                    // "free": along or across, whichever needs fewer boxes; else along
)

// A Start says against which side of the room the first row lies.
type Start uint8

// The starting sides. Facing the longest wall from inside the room it is the wall in front; the far side is behind.
const (
	// "near": the longest wall itself (for other directions: the side reached first turning left)
	StartNear Start = iota
	StartFar        // "far": the opposite side
)

// A Hand is a side of a plank, a row or an offcut, seen facing the starting wall.
type Hand uint8

// The two hands. The zero value is HandLeft.
const (
	HandLeft  Hand = iota // "left"
	HandRight             // "right"
)
