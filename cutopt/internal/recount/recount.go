// Package recount holds the geometry that package check measures plans with. It shares no code with the planner and
// works another way: nothing is offset, clipped or sliced. The outline, the islands, the strip along every wall that
// the gap keeps free, and every piece are polygons; a sweep over the height finds the cells between neighbouring edges,
// each from where they become neighbours to where one of them ends or they cross, and counts what covers it.
//
// # Tolerances
//
// A piece must stay clear of every wall and island by the gap. At a corner that points into the floor the distance is
// measured to a polygon inscribed in the circle about the corner, with steps of 15 degrees, so that rounded and mitred
// corners both pass.
//
// Floor must be covered unless it is hidden: nearer to a wall than the gap, the trim's cover, the smoothing tolerance
// and [Slack] together, or in the mitre of that distance at a corner that points into the floor, cut off at two and a
// quarter times the distance from the corner.
//
// Where the axes of a room are turned by whole quarters, walls along them are held exactly. Every other wall is held to
// Slack, since positions along it are rounded to whole ticks, and in a floor that has such walls, what is not taller
// than Slack or not larger than [Speck] is rounding, and so is open floor that is not wider than Slack.
package recount

// Slack is the distance in ticks that is forgiven at walls which do not lie along the axes: 1/40 mm.
const Slack = 8.0

// Speck is the area in square ticks that is forgiven in floors with such walls: (2/5 mm)².
const Speck = 128 * 128

// A Spot is a place in a floor's own axes, in ticks.
type Spot struct{ X, Y float64 }

func (p Spot) plus(q Spot, times float64) Spot { return Spot{p.X + q.X*times, p.Y + q.Y*times} }

func (p Spot) minus(q Spot) Spot { return Spot{p.X - q.X, p.Y - q.Y} }

func (p Spot) dot(q Spot) float64 { return p.X*q.X + p.Y*q.Y }

func (p Spot) cross(q Spot) float64 { return p.X*q.Y - p.Y*q.X }

// A Ring is an outline or an island: its corners in order, either way round, and the gap of each edge, which runs from
// corner i to corner i+1.
type Ring struct {
	Corners []Spot
	Gaps    []float64
}

// A Room is an outline with islands and doorways.
type Room struct {
	Outline  Ring
	Islands  []Ring
	Rounds   []Round
	Doorways []Doorway

	// Straight is the outline, and Fixed are the islands, with jogs straightened, where there are any: what that
	// takes of the floor is not open.
	Straight *Ring
	Fixed    []Ring
}

// A Round is a round thing that the floor keeps a gap from.
type Round struct {
	Middle      Spot
	Radius, Gap float64
}

// A Doorway is an opening of a wall that the floor runs into.
type Doorway struct {
	Wall             int
	At, Width, Depth float64
	Gap              float64 // kept from the sides of the opening
	Under            float64 // how far the floor runs beneath the casing, on both sides
	Stop             float64 // kept from its far line, unless it runs through
	Into             int     // index of the room it runs through to; -1 where it ends at its depth
}

// A Floor is what a plan should cover.
type Floor struct {
	Rooms  []Room
	Exact  bool    // the axes are turned by whole quarters
	Hidden float64 // width beside the gap that needs no cover: of the trim and of smoothing
	Sharp  bool    // walls are held exactly and nothing is hidden: to measure floor, not parts
}

// A Strip is a row: the heights between which its pieces lie.
type Strip struct{ From, To float64 }

// A Part is a piece as it lies.
type Part struct {
	Ref
	Corners []Spot
}

// A Ref names a part by the indices of its row, run and piece.
type Ref struct{ Row, Run, Piece int }

// An Edge names an edge of an outline, where Island is -1, or of an island, or a side of a doorway, where Doorway is
// not -1.
type Edge struct{ Room, Island, Doorway, Index int }

// RoundEdge is the Index of an edge that is the rim of a round thing, whose number Island then is.
const RoundEdge = -1

// A FlawKind says what is wrong.
type FlawKind uint8

// The kinds of flaws.
const (
	Uncovered FlawKind = iota // floor of Row without a piece; Area and the extent At, To
	Overlap                   // Part and Other lie on each other at At
	Outside                   // Part lies outside the room or on an island at At
	Near                      // Part comes within Distance of Edge at At, which keeps Gap
	Split                     // the floor goes on between Part and Other, which belong to two runs of a row
)

// An Open is a cell of floor, after the gaps, that no part covers, whether the trim hides it or not.
type Open struct {
	Row    int  // -1 before the first row, the number of rows after the last
	At, To Spot // its extent
	Area   float64
	// Left and Right are where its two sides lie along the rows at its lower and at its upper end.
	Left, Right [2]float64
}

// A Flaw is one thing that is wrong.
type Flaw struct {
	Kind          FlawKind
	Row           int // of uncovered floor: -1 before the first row, the number of rows after the last
	Part, Other   Ref
	Edge          Edge
	At, To        Spot
	Area          float64 // square ticks
	Distance, Gap float64

	tall float64 // height of the slabs where it was found
	wide float64 // width of the widest of them
}
