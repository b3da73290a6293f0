package solve

import (
	"context"
	"errors"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/rows"
)

// A RowsResult is the best layout of a bare instance, what it needs, and what is proven.
type RowsResult struct {
	Layout  rows.Layout
	Cutting *rows.Cutting
	Bound   cutopt.Bound // Boxes and Proven are of planks: one plank a box
	Status  Status
	Stats   Stats
}

// A Result is a plan and how it was reached.
type Result struct {
	Plan     *cutopt.Plan
	Status   Status
	Stats    Stats
	Instance *rows.Instance // the bare problem that was solved
	// Irregular is what the job would need with joints that follow no pattern; nil where it asks for none.
	Irregular *Irregular
	// Curtailed reports whether a thorough effort would look for longer at whether another first row needs fewer boxes.
	Curtailed bool
	// Before is of the first floor found with so few boxes, whatever the aims, before any joint was moved and with all
	// starters sawn.
	Before cutopt.Quality
}

// Stats count the work of a call in steps, which do not depend on the machine.
type Stats struct {
	Steps  int64 // single-run moves tried by the search
	Paths  int   // shortest paths evaluated by the bound
	Leaves int   // leaves of the proof's branching tree; 1 when it was closed at the root
	Better int64 // steps tried to improve the floor, kept or not
}

// add adds the work of a call before.
func (s *Stats) add(before *Stats) {
	s.Steps, s.Paths, s.Leaves = s.Steps+before.Steps, s.Paths+before.Paths, s.Leaves+before.Leaves
}

// A Status says why a call stopped.
type Status uint8

// The statuses.
const (
	StatusProven    Status = iota // "proven": the objective cannot be bettered; with a Job.Pattern, by that pattern
	StatusExhausted               // "exhausted": the effort is spent and a gap is left
	StatusLimit                   // "limit": Options.Limit or the deadline of the context came first
	StatusCancelled               // "cancelled": the context was cancelled
)

var statusNames = []string{"proven", "exhausted", "limit", "cancelled"}

// String returns "proven", "exhausted", "limit" or "cancelled".
func (s Status) String() string { return enum.String("Status", statusNames, int(s)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (s Status) MarshalText() ([]byte, error) { return enum.MarshalText("Status", statusNames, int(s)) }

// UnmarshalText reads what MarshalText writes.
func (s *Status) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Status", statusNames, text, s)
}

// Early reports whether the call was stopped from outside, by its limit or its context, before its effort was spent:
// with more time the plan might be better.
func (s Status) Early() bool { return s == StatusLimit || s == StatusCancelled }

// Err returns context.DeadlineExceeded for StatusLimit, context.Canceled for StatusCancelled and nil for the others.
func (s Status) Err() error {
	switch s {
	case StatusLimit:
		return context.DeadlineExceeded
	case StatusCancelled:
		return context.Canceled
	}
	return nil
}

// settle decides what is proven of a floor and why the call stopped: the one place that does. Fixed says that the
// layout could not have been another, so that nothing is left to search.
func settle(terms cutopt.Terms, fewest Objective, f *floorplan, fixed bool) (cutopt.Bound, Status) {
	b, planks := &f.certified, f.planks()
	bound := cutopt.Bound{Planks: b.planks, Boxes: terms.Holding(b.planks), Certificate: b.certificate}
	bound.PlanksProven = bound.Planks == planks
	bound.Proven = bound.Boxes == terms.Holding(min(f.least, planks))
	bound.Settled = terms.Boxes(b.planks) == terms.Boxes(planks)
	switch {
	case errors.Is(f.stopped, context.Canceled):
		return bound, StatusCancelled
	case f.stopped != nil:
		return bound, StatusLimit
	case fixed, bound.PlanksProven, fewest == FewestBoxes && bound.Settled:
		return bound, StatusProven
	}
	return bound, StatusExhausted
}
