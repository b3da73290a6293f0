// Package rows is the bare problem behind a plank floor: runs to be laid, which of them touch, and the plank they are
// cut from, with no rooms, units or names of products left. It counts the planks of a layout, cuts them up, checks a
// layout against the rules, and reads and writes the problem in a small solver-neutral file format and as mixed-integer
// models.
//
// # What to call first
//
// [Decode] reads an instance; one made in a program is plain data and passes [Instance.Validate] before anything else
// is called with it. [Instance.Lay] says how a run is laid with a starter, [Instance.Check] whether a whole layout
// keeps the rules, [Instance.Count] how many planks it needs and [Instance.Cut] how they are cut.
// [Instance.WriteStepLP] and [Instance.WriteLP] hand the problem to a general solver. This package searches for no
// layout: Rows of package solve does, and package proof verifies the certificate of the bound that comes with it.
//
// # The problem
//
// A run of length W is laid from left to right with planks of length L. Either it is one piece (W <= L), or it is a
// starter s, n whole planks and an ender e = W - s - nL, both longer than 0, with MinPiece <= s, e <= L and MinEnder <=
// e. Its end joints then lie at From + s + kL for k = 0 … n. The starter is sawn at its left end only and keeps its
// right factory end; the ender is sawn at its right end only. So a plank gives at most one starter and one ender, and
// they fit on one plank when s + e + Kerf <= L. Pieces of one-piece runs may be sawn at both ends and come from
// anywhere on a plank. Where two runs touch, every joint of the one is at least Stagger from every joint of the other,
// and so is it from the joints Beside it that are laid already. Starters are multiples of Grid, or whole planks. The
// fewest planks are wanted.
//
// A run may be begun: its Starter is given, so that all its pieces are, and nothing is asked of it but the stagger to
// the runs that it touches. A run of which some pieces lie, the last joint of them at J, is one that begins at J - L
// with a Starter of L; the plank of that lies already, so it is taken off every number of planks.
//
// An offcut on hand costs no plank. One with a right factory end can be a starter, one with a left end an ender, and
// each can hold pieces of one-piece runs besides, a kerf between any two pieces. A whole piece is always a plank of its
// own.
//
// # Units
//
// All lengths are whole numbers of one unit; this module uses ticks of 1/320 mm. Runs, ties and offcuts count from 0.
//
// # What is promised
//
//  1. Every rule is decided in whole numbers.
//  2. An instance that passes Validate makes nothing panic, overflow or allocate more than its own size and [MaxPlanks]
//     allow; a layout that passes Check and a packing that passes CheckPacking neither.
//  3. Decode accepts just what Encode writes and reads back the same, whatever the order and the spacing of the fields.
//  4. The same instance and layout give the same cutting on any machine. Nothing is kept of a caller's slice, and
//     nothing in it is reordered.
//  5. Without one-piece runs Count is the least number of planks for the layout. With them it is so for a given
//     packing; without a packing see [Instance.Cut] for how far the search for one goes.
//
// Not promised: that a layout exists at all, that Count is least for a nil packing where many one-piece runs meet, and
// the order of the terms in the models.
package rows

import "plank.example/cutopt/measure"

// An Instance is the bare problem. It is plain data: the functions of this package only read it, so it may be shared
// between goroutines.
type Instance struct {
	Name     string         `json:"name,omitempty"`
	Plank    measure.Length `json:"plank"`     // L, above 0
	Kerf     measure.Length `json:"kerf"`      // width of one crosscut, 0 <= Kerf < Plank
	MinPiece measure.Length `json:"min_piece"` // shortest starter or ender, 0 <= MinPiece <= Plank
	// MinEnder is the shortest ender where that is more than MinPiece, at most Plank; 0 for MinPiece. It differs where a
	// run may come out shorter than its Length: then the ender does.
	MinEnder measure.Length `json:"min_ender,omitempty"`
	Stagger  measure.Length `json:"stagger"` // 0 for none
	Grid     measure.Length `json:"grid"`    // graduation of starters, 0 < Grid <= Plank
	Runs     []Run          `json:"runs"`
	Touch    [][2]int       `json:"touch"`             // pairs of runs bound by Stagger, each once, lower index first
	Offcuts  []Offcut       `json:"offcuts,omitempty"` // on hand; pieces cut from them need no plank
}

// A Run is a stretch of one row.
type Run struct {
	From   measure.Length `json:"from"`           // of its left end, on a line common to all runs that touch it
	Length measure.Length `json:"length"`         // above 0
	Name   string         `json:"name,omitempty"` // for messages
	// Beside are the end joints laid already in rows that touch this run, on the line of From: its own joints keep Stagger
	// from them too. They are how the rest of a floor is planned anew when some of it lies.
	Beside []measure.Length `json:"beside,omitempty"`
	// Starter is that of a run that is begun, a multiple of Grid or Plank and below Length, 0 where it is free: the only
	// one that the run can be laid with. MinPiece, MinEnder and Beside are not asked of it.
	Starter measure.Length `json:"starter,omitempty"`
}

// Plain reports whether the run may be laid by its length alone: it is not begun, and no joints lie Beside it.
func (r *Run) Plain() bool { return r.Starter == 0 && len(r.Beside) == 0 }

// MayBeSingle reports whether run i may be laid in one piece: it is no longer than a plank, and not begun.
func (in *Instance) MayBeSingle(i int) bool {
	return in.Runs[i].Length <= in.Plank && in.Runs[i].Starter == 0
}

// An Offcut is a part of a plank on hand.
type Offcut struct {
	Length measure.Length `json:"length"` // above 0, at most Plank
	End    End            `json:"end"`    // its factory end
}

// An End says which factory end an offcut has left.
type End string

// The ends. An offcut with a right factory end can be a starter, one with a left end an ender, one with none only a
// piece of a one-piece run.
const (
	EndNone  End = "none"
	EndLeft  End = "left"
	EndRight End = "right"
)

// Limits of an instance, so that sums of lengths and prices stay far from overflow and every answer fits in memory.
const (
	MaxLength  measure.Length = 100_000 * measure.Metre // 100 km
	MaxRuns                   = 4_000_000
	MaxTouch                  = 16_000_000 // pairs
	MaxBeside                 = 16_000_000 // joints beside runs, of all runs
	MaxOffcuts                = 1_000_000
	// MaxPlanks bounds the planks that all runs may take if no two pieces share one: two a run, and those between.
	MaxPlanks = 20_000_000
	MaxSize   = 256 << 20 // bytes of a file
)
