package cutopt

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/measure"
)

// A Fact is one thing that a plan says of a floor or of the shape of a piece, in figures: words are made where it is
// shown. Its Kind says which of its fields it has, [FactKind.Fields] lists them; all others are zero. Lengths are
// exact, to the tick: whoever shows them rounds.
//
// Numbers of rooms, walls and so on count from 1; those of rooms, walls, islands and doorways are the job's, those of
// rows, runs and pieces the floor's.
type Fact struct {
	Kind FactKind

	Room, Wall, Island, Doorway int // of the job
	Row, Run, Piece             int // of the floor
	Count                       int

	End  Ends  // the ends of the piece that it reaches
	Edge Edges // the long edges that it reaches

	// At is where it begins along the rows: from the left end of the piece, or of the run; of a break, from the first
	// corner of its wall.
	At measure.Length
	// Across is where it begins across the rows: from the front edge of the piece, or from the starting side of the
	// floor.
	Across measure.Length
	// Length is measured along the rows, or is that of a wall, or of the floor where it is too long.
	Length measure.Length
	Width  measure.Length // measured across the rows

	Front, Back measure.Length // what is left of the piece along its front and its back edge
	Left, Right measure.Length // how wide the piece is left at its left and its right end
	First, Last measure.Length // widths of the first and the last row

	Least, Most measure.Length // what a rule allows
	Diameter    measure.Length // of a circle
	Area        measure.Area
}

// A FactKind says what a fact tells.
type FactKind uint8

// The kinds of facts about a floor. Each is recounted by package check; see DEVELOPERS.md for how to add one.
const (
	FactNone FactKind = iota // "": none
	// FactDoorway: doorway number Doorway, in wall Wall of room Room, is no wider than the gaps at its sides, so that
	// no floor runs into it.
	FactDoorway
	// FactJogs: so many jogs of the outlines, each shorter than Most, were straightened.
	FactJogs
	// FactSlivers: so many slivers of floor, Area in all and each narrower than Most, are hidden by the trim and get no
	// plank. One that goes through several rows is counted in each.
	FactSlivers
	// FactEdgeAsked: with the first row as wide as the job asks, the first and the last row are First and Last wide
	// where they are narrowest along the starting wall and the wall opposite, and one of them is below Least.
	FactEdgeAsked
	// FactEdgeForced: no position of the rows that can be laid keeps both edge rows at Least, without strips that are
	// harder to hold; they are First and Last wide where they are narrowest.
	FactEdgeForced
	// FactStrip: piece Piece of run Run of row Row has a strip between two edges that are nearly parallel, Length
	// long and Width wide where it is narrowest, which is less than Least and hard to hold. Its middle lies At from
	// the left end of the piece and Across from the starting side of the row. A piece with several is told of for the
	// narrowest. A piece in which no round of Least fits is one such strip, as wide as the largest round that fits and as
	// long as its farthest corners are apart, about the middle of its extent.
	FactStrip
	// FactDoorwayRow: row Row lies in doorways alone and is Width wide: it can be held, but is narrower than Least,
	// [Job.LeastDoorwayRow], and is stepped on.
	FactDoorwayRow
	// FactThrough: the floor runs through several rooms: the back edge of row Row, Across from the starting side, is
	// the first of the lines between rows that run through most of them, Count rooms. Rows are laid in all rooms that
	// they reach, one row after the other.
	FactThrough
	// FactRoomRows: of a floor through several rooms, Count rows from row Row on reach into room Room.
	FactRoomRows
	// FactBreak: the floor, a field, ends at a break across room Room, which begins at wall Wall, At from its first
	// corner, and is Length long; what stands in it is Width wide, and the floor keeps its gap from that.
	FactBreak
	// FactBreakOn: the same, of a break that begins and ends at other breaks.
	FactBreakOn
	// FactBreakDoorway: the floor ends at a break in doorway number Doorway of room Room, Length long.
	FactBreakDoorway
	// FactBase: the rows are laid out along or across wall Wall of room Room, Length long; of Count walls that are as
	// long but for 1 % it is the one measured first.
	FactBase
	// FactBaseAsked: the rows are laid out along wall Wall of room Room, as the job asks.
	FactBaseAsked
	// FactTaper: the room tapers across the rows, and the first row takes First of that and the last row Last, measured
	// along the longest wall of each side: the last alone would be narrower than Least.
	FactTaper
	// FactLine: the back edge of row Row lies Width from the starting wall, which is wall Wall of room Room.
	FactLine
	// FactLineAt: where the starting wall, which is wall Wall of room Room, is At from its left end, measured along the
	// rows, the back edge of row Row lies Width from it, square to the rows.
	FactLineAt
	// FactLineFixed: no wall can be measured from, since fixed things stand along the starting side: the back edge of row
	// Row lies Width from island Island of room Room.
	FactLineFixed
	// FactLineFixedAt: the same where that side of the island is At from its left end.
	FactLineFixedAt
)

// OfLine reports whether facts of the kind tell of the line that the first row ends on.
func (k FactKind) OfLine() bool { return k >= FactLine && k <= FactLineFixedAt }

// LineStep is how far apart along the rows the places of [FactLineAt] and [FactLineFixedAt] are at most.
const LineStep = 4 * measure.Foot

// Trifle is the width up to which something that comes off a piece is left to the gap: no fact tells of it.
const Trifle = measure.Inch / 32

// The kinds of facts about the shape of a piece, each about one part that comes off the full rectangle of the row.
// Front is the edge nearer to the starting wall. Length is measured along the piece, Width across it.
const (
	// FactRip: a strip Width wide comes off one edge, all along the piece.
	FactRip FactKind = iota + 100
	// FactNotch: a rectangle that reaches the ends End or the edges Edge comes off. What it is for may be out of square
	// by no more than the trim covers.
	FactNotch
	// FactCutOut: a rectangle within the piece comes out, as one does for a notch.
	FactCutOut
	// FactEndCut: the end End is sawn straight and out of square, so that Front and Back are left of the two edges.
	FactEndCut
	// FactEdgeCut: the edge Edge is sawn straight along the whole piece and out of parallel, so that the piece is left
	// Left and Right wide at its ends.
	FactEdgeCut
	// FactCornerCut: a straight cut takes off the corner at End and Edge, Length along the edge and Width along the
	// end.
	FactCornerCut
	// FactScribe: something of another shape comes off; Length x Width encloses it.
	FactScribe
	// FactHole: a circle Diameter wide within the piece comes out, its middle At from the left end and Across from the
	// front edge.
	FactHole
	// FactRound: a part of a circle Diameter wide comes off, which reaches the ends End or the edges Edge; Length x
	// Width encloses what comes off.
	FactRound
	// FactSlit: the piece cannot be laid round a fixed thing, since the cut-out for it, told of beside this, is closed
	// or too narrow on every side: two cuts, as far apart as the cut-out is wide, from it to the nearest end or edge,
	// which is End or Edge, free what lies behind the thing, and that is glued back. The cuts bound the rectangle
	// Length x Width: it begins at a square cut-out, or at the middle of a round one.
	FactSlit
	// FactOutline: the piece is sawn to its outline all round, which Length x Width encloses.
	FactOutline
)

// A FactField names one field of facts, as plan files spell it.
type FactField string

// The fields.
const (
	FieldRoom     FactField = "room"
	FieldWall     FactField = "wall"
	FieldIsland   FactField = "island"
	FieldDoorway  FactField = "doorway"
	FieldRow      FactField = "row"
	FieldRun      FactField = "run"
	FieldPiece    FactField = "piece"
	FieldCount    FactField = "count"
	FieldEnd      FactField = "end"
	FieldEdge     FactField = "edge"
	FieldAt       FactField = "at"
	FieldAcross   FactField = "across"
	FieldLength   FactField = "length"
	FieldWidth    FactField = "width"
	FieldFront    FactField = "front"
	FieldBack     FactField = "back"
	FieldLeft     FactField = "left"
	FieldRight    FactField = "right"
	FieldFirst    FactField = "first"
	FieldLast     FactField = "last"
	FieldLeast    FactField = "least"
	FieldMost     FactField = "most"
	FieldDiameter FactField = "diameter"
	FieldArea     FactField = "area"
)

// FactFields returns all fields.
func FactFields() []FactField {
	return []FactField{
		FieldRoom, FieldWall, FieldIsland, FieldDoorway, FieldRow, FieldRun, FieldPiece, FieldCount, FieldEnd,
		FieldEdge,
		FieldAt,
		FieldAcross, FieldLength, FieldWidth, FieldFront, FieldBack, FieldLeft, FieldRight, FieldFirst, FieldLast,
		FieldLeast,
		FieldMost, FieldDiameter, FieldArea,
	}
}

// factKinds is the table of facts: the name of each kind and its fields, in the order in which files have them.
var factKinds = []struct {
	kind   FactKind
	name   string
	fields []FactField
}{
	{FactDoorway, "doorway", []FactField{FieldRoom, FieldWall, FieldDoorway}},
	{FactJogs, "jogs", []FactField{FieldCount, FieldMost}},
	{FactSlivers, "slivers", []FactField{FieldCount, FieldMost, FieldArea}},
	{FactEdgeAsked, "edge-asked", []FactField{FieldFirst, FieldLast, FieldLeast}},
	{FactEdgeForced, "edge-forced", []FactField{FieldFirst, FieldLast, FieldLeast}},
	{
		FactStrip,
		"strip",
		[]FactField{FieldRow, FieldRun, FieldPiece, FieldAt, FieldAcross, FieldLength, FieldWidth, FieldLeast},
	},
	{FactDoorwayRow, "doorway-row", []FactField{FieldRow, FieldWidth, FieldLeast}},
	{FactBase, "base", []FactField{FieldRoom, FieldWall, FieldCount, FieldLength}},
	{FactBaseAsked, "base-asked", []FactField{FieldRoom, FieldWall}},
	{FactTaper, "taper", []FactField{FieldFirst, FieldLast, FieldLeast}},
	{FactLine, "line", []FactField{FieldRow, FieldRoom, FieldWall, FieldWidth}},
	{FactLineAt, "line-at", []FactField{FieldRow, FieldRoom, FieldWall, FieldAt, FieldWidth}},
	{FactLineFixed, "line-fixed", []FactField{FieldRow, FieldRoom, FieldIsland, FieldWidth}},
	{FactLineFixedAt, "line-fixed-at", []FactField{FieldRow, FieldRoom, FieldIsland, FieldAt, FieldWidth}},
	{FactThrough, "through", []FactField{FieldRow, FieldAcross, FieldCount}},
	{FactRoomRows, "room-rows", []FactField{FieldRoom, FieldRow, FieldCount}},
	{FactBreak, "break", []FactField{FieldRoom, FieldWall, FieldAt, FieldLength, FieldWidth}},
	{FactBreakOn, "break-on", []FactField{FieldRoom, FieldLength, FieldWidth}},
	{FactBreakDoorway, "break-doorway", []FactField{FieldRoom, FieldDoorway, FieldLength, FieldWidth}},

	{FactRip, "rip", []FactField{FieldEdge, FieldWidth}},
	{FactNotch, "notch", []FactField{FieldEnd, FieldEdge, FieldAt, FieldAcross, FieldLength, FieldWidth}},
	{FactCutOut, "cut-out", []FactField{FieldAt, FieldAcross, FieldLength, FieldWidth}},
	{FactHole, "hole", []FactField{FieldAt, FieldAcross, FieldDiameter}},
	{
		FactRound, "round",
		[]FactField{FieldEnd, FieldEdge, FieldAt, FieldAcross, FieldLength, FieldWidth, FieldDiameter},
	},
	{FactSlit, "slit", []FactField{FieldEnd, FieldEdge, FieldAt, FieldAcross, FieldLength, FieldWidth}},
	{FactEndCut, "end-cut", []FactField{FieldEnd, FieldFront, FieldBack}},
	{FactEdgeCut, "edge-cut", []FactField{FieldEdge, FieldLeft, FieldRight}},
	{FactCornerCut, "corner-cut", []FactField{FieldEnd, FieldEdge, FieldLength, FieldWidth}},
	{FactScribe, "scribe", []FactField{FieldEnd, FieldEdge, FieldAt, FieldAcross, FieldLength, FieldWidth}},
	{FactOutline, "outline", []FactField{FieldLength, FieldWidth}},
}

// FactKinds returns all kinds but FactNone.
func FactKinds() []FactKind {
	kinds := make([]FactKind, len(factKinds))
	for i := range factKinds {
		kinds[i] = factKinds[i].kind
	}
	return kinds
}

// OfShape reports whether facts of the kind are about the shape of a piece; the others are about a floor.
func (k FactKind) OfShape() bool { return k >= FactRip }

// Fields returns the fields that facts of the kind have; nil for FactNone and what is no kind.
func (k FactKind) Fields() []FactField {
	for i := range factKinds {
		if factKinds[i].kind == k {
			return slices.Clone(factKinds[i].fields)
		}
	}
	return nil
}

// String returns the name of the kind as in plan files: "jogs", "cut-out". It is empty for FactNone.
func (k FactKind) String() string {
	if k == FactNone {
		return ""
	}
	for i := range factKinds {
		if factKinds[i].kind == k {
			return factKinds[i].name
		}
	}
	return fmt.Sprintf("FactKind(%d)", uint8(k))
}

// MarshalText returns what String does; it fails for FactNone and a value that is none of the constants.
func (k FactKind) MarshalText() ([]byte, error) {
	if k.Fields() == nil {
		return nil, fmt.Errorf("cutopt: FactKind(%d) is no kind of fact", uint8(k))
	}
	return []byte(k.String()), nil
}

// UnmarshalText reads what MarshalText writes. The kind is unchanged when there is none of that name.
func (k *FactKind) UnmarshalText(text []byte) error {
	for i := range factKinds {
		if factKinds[i].name == string(text) {
			*k = factKinds[i].kind
			return nil
		}
	}
	return fmt.Errorf("cutopt: %q is no kind of fact", text)
}

// Field returns a pointer to the field of that name: an *int, *Ends, *Edges, *measure.Length or *measure.Area; nil for
// a name that is none. Files and words reach the fields of a fact through it.
func (f *Fact) Field(name FactField) any {
	switch name {
	case FieldRoom:
		return &f.Room
	case FieldWall:
		return &f.Wall
	case FieldIsland:
		return &f.Island
	case FieldDoorway:
		return &f.Doorway
	case FieldRow:
		return &f.Row
	case FieldRun:
		return &f.Run
	case FieldPiece:
		return &f.Piece
	case FieldCount:
		return &f.Count
	case FieldEnd:
		return &f.End
	case FieldEdge:
		return &f.Edge
	case FieldArea:
		return &f.Area
	}
	if l := f.length(name); l != nil {
		return l
	}
	return nil
}

// length returns a pointer to the field of that name if it is a length.
func (f *Fact) length(name FactField) *measure.Length {
	switch name {
	case FieldAt:
		return &f.At
	case FieldAcross:
		return &f.Across
	case FieldLength:
		return &f.Length
	case FieldWidth:
		return &f.Width
	case FieldFront:
		return &f.Front
	case FieldBack:
		return &f.Back
	case FieldLeft:
		return &f.Left
	case FieldRight:
		return &f.Right
	case FieldFirst:
		return &f.First
	case FieldLast:
		return &f.Last
	case FieldLeast:
		return &f.Least
	case FieldMost:
		return &f.Most
	case FieldDiameter:
		return &f.Diameter
	}
	return nil
}

// Own returns the fact with only the fields that its kind has: it equals f where no other is set.
func (f *Fact) Own() Fact {
	own := Fact{Kind: f.Kind}
	for _, name := range f.Kind.Fields() {
		switch to := own.Field(name).(type) {
		case *int:
			*to = *f.Field(name).(*int)
		case *Ends:
			*to = f.End
		case *Edges:
			*to = f.Edge
		case *measure.Length:
			*to = *f.length(name)
		case *measure.Area:
			*to = f.Area
		}
	}
	return own
}

// Format prints the fact plainly, with its fields as plan files spell them and lengths in the given unit: "jogs:
// count 2 most 1/8 in".
func (f Fact) Format(unit measure.Unit) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%v:", f.Kind)
	for _, name := range f.Kind.Fields() {
		value := ""
		switch v := f.Field(name).(type) {
		case *int:
			value = strconv.Itoa(*v)
		case *Ends:
			value = v.String()
		case *Edges:
			value = v.String()
		case *measure.Length:
			value = plain(*v, unit)
		case *measure.Area:
			value = plain(*v, unit)
		}
		fmt.Fprintf(&b, " %s %s", name, value)
	}
	return b.String()
}

// Edges is a set of the two long edges of a piece.
type Edges uint8

// The edges, a set of two bits.
const (
	EdgesNone  Edges = 0 // "none"
	EdgesFront Edges = 1 // "front": nearer to the starting wall
	EdgesBack  Edges = 2 // "back"
	EdgesBoth  Edges = 3 // "both"
)

var edgesNames = []string{"none", "front", "back", "both"}

// String returns "none", "front", "back" or "both".
func (e Edges) String() string { return enum.String("Edges", edgesNames, int(e)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (e Edges) MarshalText() ([]byte, error) { return enum.MarshalText("Edges", edgesNames, int(e)) }

// UnmarshalText reads what MarshalText writes.
func (e *Edges) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Edges", edgesNames, text, e)
}
