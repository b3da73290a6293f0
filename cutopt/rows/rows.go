// Package rows is the bare problem behind a plank floor: runs to be laid, which of them touch, and the plank they are
// cut from, with no rooms, units or names of products left. It counts the planks of a layout, cuts them up, checks a
// layout against the rules, and reads and writes the problem in a small solver-neutral file format.
//
// # The problem
//
// A run of length W is laid from left to right with planks of length L. Either it is one piece (W <= L), or it is a
// starter s, n whole planks and an ender e = W - s - nL with MinPiece <= s, e <= L and MinEnder <= e. Its end joints then lie at
// From + s + kL for k = 0 … n. The starter is sawn at its left end only and keeps its right factory end; the ender is
// sawn at its right end only. So a plank gives at most one starter and one ender, and they fit on one plank when
// s + e + Kerf <= L. Pieces of one-piece runs may be sawn at both ends and come from anywhere on a plank. Where two runs
// touch, every joint of the one is at least Stagger from every joint of the other, and so is it from the joints Beside it
// that are laid already. Starters are multiples of Grid, or whole planks. The fewest planks are wanted.
//
// All lengths are whole numbers of one unit; this module uses ticks of 1/320 mm.
package rows

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"plank.example/cutopt/measure"
)

// An Instance is the bare problem. It is plain data: the functions of this package only read it, so it may be shared
// between goroutines.
type Instance struct {
	Name     string         `json:"name,omitempty"`
	Plank    measure.Length `json:"plank"`     // L, above 0
	Kerf     measure.Length `json:"kerf"`      // width of one crosscut, 0 <= Kerf < Plank
	MinPiece measure.Length `json:"min_piece"` // shortest starter or ender, 0 <= MinPiece <= Plank
	// MinEnder is the shortest ender where that is more than MinPiece, at most Plank; 0 for MinPiece. It differs where a run
	// may come out shorter than its Length: then the ender does.
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

// Limits of an instance, so that sums of lengths and prices stay far from overflow.
const (
	MaxLength measure.Length = 1_000_000 * measure.Metre / 10 // 100 km
	MaxRuns                  = 4_000_000
)

// Validate reports every field outside its range.
func (in *Instance) Validate() error {
	var errs []error
	bad := func(field string, value any, rule string) {
		errs = append(errs, fmt.Errorf("rows: %s is %v: %s", field, value, rule))
	}
	if in.Plank <= 0 || in.Plank > MaxLength {
		bad("plank", in.Plank, "a plank is longer than 0 and at most 100 km")
	}
	if in.Kerf < 0 || in.Kerf >= in.Plank {
		bad("kerf", in.Kerf, "a kerf is at least 0 and less than the plank")
	}
	if in.MinPiece < 0 || in.MinPiece > in.Plank {
		bad("min_piece", in.MinPiece, "the shortest piece is at least 0 and at most the plank")
	}
	if in.MinEnder < 0 || in.MinEnder > in.Plank {
		bad("min_ender", in.MinEnder, "the shortest ender is at least 0 and at most the plank")
	}
	if in.Stagger < 0 || in.Stagger > MaxLength {
		bad("stagger", in.Stagger, "a stagger is at least 0")
	}
	if in.Grid <= 0 || in.Grid > in.Plank {
		bad("grid", in.Grid, "the grid is above 0 and at most the plank")
	}
	if len(in.Runs) > MaxRuns {
		bad("runs", len(in.Runs), "at most 4,000,000 runs")
	}
	for i, r := range in.Runs {
		if r.Length <= 0 || r.Length > MaxLength || r.From < -MaxLength || r.From > MaxLength {
			bad(fmt.Sprintf("runs[%d]", i), r, "a run is longer than 0 and lies within 100 km")
		}
		for k, x := range r.Beside {
			if x < -2*MaxLength || x > 2*MaxLength {
				bad(fmt.Sprintf("runs[%d].beside[%d]", i, k), x, "a joint beside a run lies within 200 km")
			}
		}
	}
	seen := make(map[[2]int]bool, len(in.Touch))
	for i, t := range in.Touch {
		if t[0] < 0 || t[1] >= len(in.Runs) || t[0] >= t[1] {
			bad(fmt.Sprintf("touch[%d]", i), t, "two different runs, the lower index first")
		} else if seen[t] {
			bad(fmt.Sprintf("touch[%d]", i), t, "each pair once")
		}
		seen[t] = true
	}
	for i, o := range in.Offcuts {
		if o.Length <= 0 || o.Length > in.Plank {
			bad(fmt.Sprintf("offcuts[%d].length", i), o.Length, "an offcut is longer than 0 and at most the plank")
		}
		if o.End != EndNone && o.End != EndLeft && o.End != EndRight {
			bad(fmt.Sprintf("offcuts[%d].end", i), o.End, `one of "none", "left", "right"`)
		}
	}
	return errors.Join(errs...)
}

// Encode writes the instance as JSON, one field a line at the top level.
func (in *Instance) Encode(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", " ")
	return enc.Encode(in)
}

// Decode reads an instance, refuses unknown fields, and validates it.
func Decode(r io.Reader) (*Instance, error) {
	dec := json.NewDecoder(r)
	dec.DisallowUnknownFields()
	in := new(Instance)
	if err := dec.Decode(in); err != nil {
		return nil, fmt.Errorf("rows: %w", err)
	}
	if err := in.Validate(); err != nil {
		return nil, err
	}
	return in, nil
}
