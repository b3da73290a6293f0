// Package laying reads a plan in the order in which it is laid: which piece comes next, what it is cut from, what its
// cuts leave, and which offcuts lie about meanwhile. It is what a sheet to work from, a label printer, a saw or a
// progress bar asks of a plan, and what the documents of this module are written from.
//
// [FromPlan] is all there is to call. What it returns is plain data: read it, from as many goroutines as you like, and
// change nothing in it. It points at the pieces of the plan, which must not change meanwhile.
//
// All lengths are whole ticks of package measure, so every figure is exact. Places on a plank are measured from its
// left end.
//
// # The order
//
// Floors follow each other as in the plan, the rows of a floor from its starting side, and runs and pieces along a row
// from the end that is laid first, [cutopt.PlanFloor.LaidFrom]: the order of [cutopt.Plan.Pieces]. A plank is cut in
// that order too: each piece comes off the part of the plank that holds its place, and what lies beside it is its
// offcuts.
//
// Of a job that is begun what lies was cut first, in whatever order its rows were laid; pieces say so by Lies. What is
// gone of a plank parts it, and what is left of it then is an offcut of no piece, as one brought along is.
//
// # What is promised
//
//  1. Every piece of the plan is in the sequence once, and in one plank.
//  2. Pieces and offcuts that nothing more is cut from never overlap; between any two on a plank lies a kerf, or
//     more.
//  3. An offcut is cut from at most once, and what is left of it is offcuts of its own.
//  4. A plan that does not hold together is refused with an error that names the field; nothing panics.
//
// The rules of the floor are not checked: that is the work of package check.
package laying

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/measure"
)

// A Sequence is a plan in the order in which it is laid.
type Sequence struct {
	Pieces []*Piece   // all pieces in the order of laying
	Floors [][]Row    // the rows of each of Plan.Floors, from its starting side
	Planks [][]*Piece // the pieces of each plank of Plan.Planks, from its left end

	// Begun is how many pieces lie; where a job is begun in one floor and row after the other, they come first.
	Begun int
	// OnHand are the offcuts that are there in a job that is begun, for planned pieces to be cut from and left over: parts
	// of opened planks, and offcuts brought along; by plank, from its left end. They arise before the next piece is laid.
	OnHand []*Offcut

	first int       // index of the first piece that does not lie
	kept  []*Offcut // those that something is cut from, in the order they arise
	found []*Offcut // parts of planks of which some is gone
}

// A Row is a row with its runs in the order of laying; a row that no floor lies in has none.
type Row struct {
	Floor, Row int    // indices in the plan
	Runs       []*Run // in the order of laying
	Laid       int    // pieces of the whole plan that are down when the row is: what Sequence.Pile takes
}

// A Run is a run of a row.
type Run struct {
	Index int // in PlanRow.Runs, from the left
	// Name is for people: the number of its row, "5"; in a row of several runs "5a", "5b" and so on from the left, and
	// "5.27" behind "5z".
	Name   string
	Pieces []*Piece // in the order of laying
}

// A Piece is a piece with its place in the order of laying and on its plank.
type Piece struct {
	*cutopt.Piece // of the plan
	Ref           cutopt.PieceRef
	Run           *Run // that it lies in
	Order         int  // index in Sequence.Pieces

	At       measure.Length // where it begins on its plank, from the left end, as planned; it ends at At+Length
	Source   *Offcut        // what it is cut from; nil for a new plank
	Offcuts  []*Offcut      // what its cuts leave, from the left: none, one or two. Sawdust is none
	Role     Role
	SawLeft  bool // its left end is sawn now: neither a factory end nor the end of its source
	SawRight bool // its right end is sawn now
}

// A Role says what part a piece plays in its run.
type Role uint8

// The roles.
const (
	RoleWhole   Role = iota // "whole": a whole plank, wherever it lies
	RoleStarter             // "starter": laid first, of several
	RoleEnder               // "ender": laid last, of several
	RoleSingle              // "single": alone in its run, and not a whole plank
)

var roleNames = []string{"whole", "starter", "ender", "single"}

// String returns the name of the role.
func (r Role) String() string { return enum.String("Role", roleNames, int(r)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (r Role) MarshalText() ([]byte, error) { return enum.MarshalText("Role", roleNames, int(r)) }

// UnmarshalText reads what MarshalText writes.
func (r *Role) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Role", roleNames, text, r)
}

// An Offcut is what is left of a plank on one side of a piece when that is cut off. One that nothing more is cut from
// is a leftover of the plan.
type Offcut struct {
	From, To measure.Length // on its plank, from the left end
	Ends     cutopt.Ends    // the factory ends it still has
	Plank    int            // its number
	Of       *Piece         // the piece whose cut leaves it; nil for one on hand of a plank of which some is gone
	Next     *Piece         // the piece that is cut from it; nil when it is left over
}

// Length returns how long the offcut is, above 0.
func (o *Offcut) Length() measure.Length { return o.To - o.From }

// FromPlan puts a plan in the order in which it is laid. The job is the one that the plan is made from; its plank and
// its kerf are all that is read of it. The errors name the field of the job or the plan that does not fit the others:
// a plank or a kerf out of range, a piece whose length is none, a piece that no plank or more than one lists, pieces
// and kerfs longer than their plank, a missing cut. It takes O(pieces + cuts).
func FromPlan(job *cutopt.Job, plan *cutopt.Plan) (*Sequence, error) {
	if job == nil || plan == nil {
		return nil, errors.New("laying: the job or the plan is nil: give both, the plan made from the job")
	}
	long, kerf := job.Plank.Length, job.Rules.Kerf
	if long <= 0 || long > cutopt.MaxLength {
		return nil, fmt.Errorf(
			"laying: Job.Plank.Length is %d ticks: a plank is longer than 0 and at most a kilometre long",
			long,
		)
	}
	if kerf < 0 || kerf > long {
		return nil, fmt.Errorf("laying: Job.Rules.Kerf is %d ticks: a kerf is at least 0 and at most a plank", kerf)
	}
	r := &reader{plan: plan, long: long, kerf: kerf}
	if err := r.rooms(); err != nil {
		return nil, err
	}
	if err := r.planks(); err != nil {
		return nil, err
	}
	r.seq.settle()
	return &r.seq, nil
}

// settle lists the offcuts that are kept, in the order they arise, and those on hand.
func (s *Sequence) settle() {
	for s.first < len(s.Pieces) && s.Pieces[s.first].Lies {
		s.first++
	}
	for _, o := range s.found {
		if o.Next == nil || !o.Next.Lies {
			s.OnHand = append(s.OnHand, o)
		}
		if o.Next != nil {
			s.kept = append(s.kept, o)
		}
	}
	for _, p := range s.Pieces {
		if p.Lies {
			s.Begun++
		}
		for _, o := range p.Offcuts {
			if p.Lies && (o.Next == nil || !o.Next.Lies) {
				s.OnHand = append(s.OnHand, o)
			}
			if o.Next != nil {
				s.kept = append(s.kept, o)
			}
		}
	}
	slices.SortStableFunc(s.OnHand, func(a, b *Offcut) int {
		return cmp.Or(cmp.Compare(a.Plank, b.Plank), cmp.Compare(a.From, b.From))
	})
	slices.SortStableFunc(s.kept, func(a, b *Offcut) int { return cmp.Compare(s.arises(a), s.arises(b)) })
}

// arises returns the index of the piece whose laying leaves an offcut; -1 for one that is there before the first piece,
// or of a piece that lies although one before it in the order does not.
func (s *Sequence) arises(o *Offcut) int {
	if o.Of == nil || o.Of.Lies && o.Of.Order > s.first {
		return -1
	}
	return o.Of.Order
}

// Pile returns the offcuts that lie about when the first pieces of the sequence are laid, so many of them: those that
// have arisen and that a later piece is cut from, in the order they arose. None does after the last piece, nor before
// the first but those of a job that is begun. It takes time in proportion to the offcuts that have arisen.
func (s *Sequence) Pile(laid int) []*Offcut {
	var pile []*Offcut
	for _, o := range s.kept {
		if s.arises(o) >= laid {
			break
		}
		if o.Next.Order >= laid {
			pile = append(pile, o)
		}
	}
	return pile
}
