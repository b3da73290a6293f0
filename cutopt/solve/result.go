package solve

import (
	"plank.example/cutopt"
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

// A Status says why a call stopped.
type Status uint8

// The statuses.
const (
	StatusProven    Status = iota // "proven": the objective cannot be bettered; with a Job.Pattern, by that pattern
	StatusExhausted               // "exhausted": the effort is spent and a gap is left
	StatusLimit                   // "limit": the clock's limit came first
	StatusCancelled               // "cancelled": the context was cancelled
)

// A Result is a plan and how it was reached.
type Result struct {
	Plan     *cutopt.Plan
	Status   Status
	Stats    Stats
	Instance *rows.Instance // the bare problem that was solved
	// Irregular is what the job would need with joints that follow no pattern; nil where it asks for none.
	Irregular *Irregular
	First     cutopt.Quality // of the first plan found with so few boxes, before it was improved
}

// Stats count the work of a call in steps, which do not depend on the machine.
type Stats struct {
	Steps  int64 // single-run moves tried by the search
	Paths  int   // shortest paths evaluated by the bound
	Leaves int   // leaves of the proof's branching tree; 1 when it was closed at the root
	Better int64 // steps tried to improve the quality of the floor
}
