package solve

import (
	"errors"
	"fmt"
	"slices"
	"strings"

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
				Rule: "stagger", Why: []cutopt.Finding{cutopt.Find("no-starters")},
				Unit: job.Unit, floor: -1,
			}
		}
		return err
	}
	p := places[inf.Run]
	ref := cutopt.RowRef{Room: p.name, Row: p.row + 1}
	no := &InfeasibleError{Rule: "min-piece", Rows: []cutopt.RowRef{ref}, Unit: job.Unit, floor: p.room}
	if !inf.Stagger {
		no.Why = []cutopt.Finding{cutopt.Find("row-short", "row", ref, "length", in.Runs[inf.Run].Length,
			"plank", in.Plank, "least", in.MinPiece)}
		return no
	}
	no.Rule = "stagger"
	for _, t := range in.Touch {
		for k, i := range t {
			if i == inf.Run {
				if q := places[t[1-k]]; q.row < p.row {
					no.Rows = append([]cutopt.RowRef{{Room: q.name, Row: q.row + 1}}, no.Rows...)
				}
			}
		}
	}
	no.Why = []cutopt.Finding{cutopt.Find("no-joints", "row", ref, "stagger", in.Stagger, "least", in.MinPiece,
		"plank", in.Plank)}
	return no
}

// unitless makes plain numbers of the lengths in an error that rows cannot be laid: those of a bare problem have no
// unit.
func unitless(err error) error {
	var no *InfeasibleError
	if errors.As(err, &no) {
		for _, f := range no.Why {
			for i := range f.Figures {
				if l, is := f.Figures[i].Value.(measure.Length); is {
					f.Figures[i].Value = int(l)
				}
			}
		}
	}
	return err
}

// ErrNoPlan is the sentinel that an InfeasibleError unwraps to.
var ErrNoPlan = errors.New("no plan keeps the rules")

// An InfeasibleError names the rows that no plan can lay and the rule in the way. Where the job leaves the width of the
// first row open, that holds for every width on the grid with which the edge rows keep their least width. Error and
// Hint print the findings plainly; Findings of a words.Speech says Why and Mend to people, in their language.
type InfeasibleError struct {
	Rule string          // key of the rule: "min-piece" or "stagger"
	Rows []cutopt.RowRef // the rows in which it clashes, the last of them the one that cannot be laid
	Why  []cutopt.Finding
	Mend []cutopt.Finding // what would do; nil where nothing is known
	// Instead, if not nil, is how the rows of that floor could lie so that they can be laid, other than the job asks.
	Instead *cutopt.RowRules
	Unit    measure.Unit // of the lengths in Error

	floor int // by index, -1 where it is not known
}

// Error prints the findings plainly.
func (e *InfeasibleError) Error() string {
	return fmt.Sprintf("%v: %s", ErrNoPlan, e.plain(slices.Concat(e.Why, e.Mend)))
}

func (e *InfeasibleError) plain(all []cutopt.Finding) string {
	said := make([]string, len(all))
	for i, f := range all {
		said[i] = f.Format(e.Unit)
	}
	return strings.Join(said, "; ")
}

// Hint says plainly what would do; "" where nothing is known.
func (e *InfeasibleError) Hint() string { return e.plain(e.Mend) }

// Unwrap returns ErrNoPlan.
func (e *InfeasibleError) Unwrap() error { return ErrNoPlan }

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
		switch no.Rule {
		case "min-piece":
			no.Why = append(no.Why, cutopt.Find("fit-ender", "fit", fit))
		case "stagger":
			no.Why = append(no.Why, cutopt.Find("fit-stagger", "fit", fit))
		}
	}
	return err
}

// An InternalError reports a plan that [check.Plan] refuses: a fault of this package, never of the job.
type InternalError struct{ Violations []check.Violation }

// Error names the first violation.
func (e *InternalError) Error() string {
	return fmt.Sprintf("solve: internal error: the plan breaks %d rules, first: %v", len(e.Violations),
		e.Violations[0])
}
