package cutopt

import (
	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/measure"
)

// A Change is one thing that differs between two plans, in figures: words are made where it is shown. Floors, rows,
// runs and pieces count from 1; 0 stands for none. What is counted is in WasCount and IsCount, a length in Was and Is.
type Change struct {
	Kind                   ChangeKind
	Floor, Row, Run, Piece int
	WasCount, IsCount      int
	Was, Is                measure.Length
}

// A ChangeKind says what differs.
type ChangeKind uint8

// The kinds of changes.
const (
	ChangeBoxes  ChangeKind = iota // "boxes": boxes to buy
	ChangePlanks                   // "planks": planks that are cut or laid
	ChangeFloors                   // "floors": how many there are; those that only one plan has are not compared
	// "axes": the floor's rows run another way or begin elsewhere; its rows are not compared
	ChangeAxes
	ChangeRows   // "rows": how many the floor has
	ChangeWidth  // "width": of the row
	ChangeRuns   // "runs": how many the row has
	ChangePieces // "pieces": how many the run has
	ChangeLength // "length": of the piece; 0 where it is not there
	ChangeSource // "source": the number of the plank that the piece is cut from
)

var changeNames = []string{"boxes", "planks", "floors", "axes", "rows", "width", "runs", "pieces", "length", "source"}

// String returns the name of the kind.
func (k ChangeKind) String() string { return enum.String("ChangeKind", changeNames, int(k)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (k ChangeKind) MarshalText() ([]byte, error) {
	return enum.MarshalText("ChangeKind", changeNames, int(k))
}

// UnmarshalText reads what MarshalText writes.
func (k *ChangeKind) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("ChangeKind", changeNames, text, k)
}

// Changes lists what differs between an earlier and a later plan of a job, from the whole to the piece; none for plans
// that are laid and cut alike. Rows, runs and pieces are compared by their numbers, and lengths and places that differ
// by no more than a Trifle are alike: measures move ends of runs by as much as a tick, which no tape shows. It takes
// O(pieces).
func Changes(before, after *Plan) []Change {
	c := &comparison{}
	c.count(Change{Kind: ChangeBoxes}, before.Order.Boxes, after.Order.Boxes)
	c.count(Change{Kind: ChangePlanks}, len(before.Planks), len(after.Planks))
	c.count(Change{Kind: ChangeFloors}, len(before.Floors), len(after.Floors))
	for i := range min(len(before.Floors), len(after.Floors)) {
		c.floor(Change{Floor: i + 1}, &before.Floors[i], &after.Floors[i])
	}
	return c.out
}

// A comparison gathers changes.
type comparison struct{ out []Change }

func (c *comparison) add(at Change, kind ChangeKind) {
	at.Kind = kind
	c.out = append(c.out, at)
}

func (c *comparison) count(at Change, was, is int) {
	if at.WasCount, at.IsCount = was, is; was != is {
		c.out = append(c.out, at)
	}
}

func (c *comparison) floor(at Change, was, is *PlanFloor) {
	if !was.Axes.alike(is.Axes) || was.LaidFrom != is.LaidFrom {
		c.add(at, ChangeAxes)
		return
	}
	at.Kind = ChangeRows
	c.count(at, len(was.Rows), len(is.Rows))
	for i := range min(len(was.Rows), len(is.Rows)) {
		at.Row = i + 1
		c.row(at, &was.Rows[i], &is.Rows[i])
	}
}

func (a Axes) alike(b Axes) bool {
	dx, dy := a.Origin.X-b.Origin.X, a.Origin.Y-b.Origin.Y
	a.Origin = b.Origin
	return a == b && max(dx, -dx, dy, -dy) <= Trifle
}

func (c *comparison) row(at Change, was, is *PlanRow) {
	c.length(at, ChangeWidth, was.Width, is.Width)
	at.Kind = ChangeRuns
	c.count(at, len(was.Runs), len(is.Runs))
	for i := range min(len(was.Runs), len(is.Runs)) {
		at.Run = i + 1
		c.run(at, was.Runs[i].Pieces, is.Runs[i].Pieces)
	}
}

func (c *comparison) length(at Change, kind ChangeKind, was, is measure.Length) {
	if at.Was, at.Is = was, is; max(was-is, is-was) > Trifle || was != is && min(was, is) == 0 {
		c.add(at, kind)
	}
}

func (c *comparison) run(at Change, was, is []Piece) {
	at.Kind = ChangePieces
	c.count(at, len(was), len(is))
	for i := range max(len(was), len(is)) {
		at.Piece = i + 1
		var a, b Piece
		if i < len(was) {
			a = was[i]
		}
		if i < len(is) {
			b = is[i]
		}
		c.length(at, ChangeLength, a.Length, b.Length)
		if i < min(len(was), len(is)) {
			at.Kind = ChangeSource
			c.count(at, a.Plank, b.Plank)
		}
	}
}
