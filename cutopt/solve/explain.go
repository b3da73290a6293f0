package solve

import (
	"errors"
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/internal/bound"
	"plank.example/cutopt/internal/fewest"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/rows"
)

// explain turns an error about a run into one about the rows of a job.
func explain(job *cutopt.Job, in *rows.Instance, places []place, err error) error {
	var inf *bound.Infeasible
	if !errors.As(err, &inf) {
		if errors.Is(err, fewest.ErrNoLayout) {
			return &InfeasibleError{
				Rule: "stagger", floor: -1, Text: "no starters were found that keep every stagger where rows split round " +
					"islands; try a smaller stagger, or thorough effort",
			}
		}
		return err
	}
	text := func(x measure.Length) string { return exactly(x, job.Unit, in.Grid) }
	p := places[inf.Run]
	ref := RowRef{Room: p.name, Row: p.row + 1}
	run := in.Runs[inf.Run]
	if !inf.Stagger {
		return &InfeasibleError{
			Rule: "min-piece", Rows: []RowRef{ref}, floor: p.room,
			Text: fmt.Sprintf("%s is %s long: with planks of %s it needs a starter and an ender of at least min-piece %s each; "+
				"allow a shorter min-piece", ref, text(run.Length), text(in.Plank), text(in.MinPiece)),
		}
	}
	refs := []RowRef{ref}
	for _, t := range in.Touch {
		for k, i := range t {
			if i == inf.Run {
				if q := places[t[1-k]]; q.row < p.row {
					refs = append([]RowRef{{q.name, q.row + 1}}, refs...)
				}
			}
		}
	}
	return &InfeasibleError{
		Rule: "stagger", Rows: refs, floor: p.room,
		Text: fmt.Sprintf(
			"%s and the rows before it have no joints left that keep stagger %s with min-piece %s and planks of %s; "+
				"allow a smaller stagger",
			ref,
			text(in.Stagger),
			text(in.MinPiece),
			text(in.Plank),
		),
	}
}

// String names the row as a message does: "den row 7".
func (r RowRef) String() string {
	if r.Room == "" {
		return fmt.Sprintf("row %d", r.Row)
	}
	return fmt.Sprintf("%s row %d", r.Room, r.Row)
}

// ErrNoPlan is the sentinel that an InfeasibleError unwraps to.
var ErrNoPlan = errors.New("no plan keeps the rules")

// An InfeasibleError names the rows that no plan can lay and the rule in the way. Where the job leaves the width of the
// first row open, that holds for every width on the grid with which the edge rows keep their least width.
type InfeasibleError struct {
	Rule string // key of the rule: "min-piece" or "stagger"
	Rows []RowRef
	Text string // the clash in words, with figures
	// Instead, if not nil, is how the rows of that floor could lie so that they can be laid, other than the job asks.
	Instead *cutopt.RowRules

	floor int    // by index, -1 where it is not known
	mend  string // Instead in words
}

// A RowRef names a row of a room, from 1 at the starting side.
type RowRef struct {
	Room string
	Row  int
}

// Error names the rows, the rule and the figures.
func (e *InfeasibleError) Error() string {
	s := fmt.Sprintf("%v: %s", ErrNoPlan, e.Text)
	if e.mend != "" {
		s += "; " + e.mend
	}
	return s
}

// Hint says with which other first row or direction the rows can be laid; "" where none is known.
func (e *InfeasibleError) Hint() string { return e.mend }

// Unwrap returns ErrNoPlan.
func (e *InfeasibleError) Unwrap() error { return ErrNoPlan }

// exactly prints a length on the grid where it lies there, and to the tick where it does not: no figure of a rule is
// rounded.
func exactly(x measure.Length, unit measure.Unit, grid measure.Length) string {
	if x%grid != 0 {
		grid = measure.Tick
	}
	return x.Format(unit, grid)
}

// asMeasured returns the instance without the fit allowance, for messages.
func asMeasured(job *cutopt.Job, in *rows.Instance) *rows.Instance {
	out := *in
	out.MinPiece, out.MinEnder, out.Stagger = job.Rules.MinPiece, 0, job.Rules.Stagger
	out.Runs = slices.Clone(in.Runs)
	for i := range out.Runs {
		out.Runs[i].Length -= job.Rules.Fit
	}
	return &out
}

// fitToo adds to an error that rows cannot be laid what the fit allowance asks for on top of the rule.
func fitToo(job *cutopt.Job, err error) error {
	var no *InfeasibleError
	if fit := job.Rules.Fit; fit > 0 && errors.As(err, &no) {
		text := exactly(fit, job.Unit, job.Rules.Grid)
		switch no.Rule {
		case "min-piece":
			no.Text += fmt.Sprintf("; fit %s makes the shortest ender so much longer", text)
		case "stagger":
			no.Text += fmt.Sprintf("; fit %s is added to the stagger twice", text)
		}
	}
	return err
}

// An InternalError reports a plan that [check.Plan] refuses: a fault of this package, never of the job.
type InternalError struct{ Violations []check.Violation }

// Error names the first violation.
func (e *InternalError) Error() string {
	return fmt.Sprintf("cutopt: internal error: the plan breaks %d rules, first: %v", len(e.Violations), e.Violations[0])
}
