package rows

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"plank.example/cutopt/measure"
)

// maxErrors bounds how many wrong fields one call reports.
const maxErrors = 100

type validator struct{ errs []error }

func (v *validator) add(e *Error) {
	if len(v.errs) < maxErrors {
		v.errs = append(v.errs, e)
	}
}

func (v *validator) length(field string, value measure.Length, ok bool, rule, mend string) {
	if !ok {
		v.wrong(field, value, rule, mend)
	}
}

func (v *validator) wrong(field string, value measure.Length, rule, mend string) {
	v.add(&Error{Field: field, Value: fmt.Sprint(int64(value)), Rule: rule, Mend: mend})
}

func (v *validator) most(field string, n, limit int, mend string) bool {
	if n <= limit {
		return true
	}
	v.add(&Error{
		Field: field, Value: fmt.Sprint(n), Rule: fmt.Sprintf("at most %d", limit), Mend: mend, sentinel: ErrTooLarge,
	})
	return false
}

// Validate reports the fields outside their range, up to a hundred of them: the error joins one [*Error] for each, of
// which those beyond a limit wrap [ErrTooLarge]. It takes O(n log n) for n runs, ties, joints and offcuts, and memory
// for the ties once more.
func (in *Instance) Validate() error {
	v := new(validator)
	in.validatePlank(v)
	in.validateRuns(v)
	in.validateTouch(v)
	if v.most("number of offcuts", len(in.Offcuts), MaxOffcuts, "leave out those that no run can use") {
		for i, o := range in.Offcuts {
			if o.Length <= 0 || o.Length > in.Plank {
				v.wrong(fmt.Sprintf("offcuts[%d].length", i), o.Length,
					"an offcut is longer than 0 and at most the plank", "leave it out, or measure it again")
			}
			if o.End != EndNone && o.End != EndLeft && o.End != EndRight {
				v.add(&Error{
					Field: fmt.Sprintf("offcuts[%d].end", i), Value: quote(string(o.End)),
					Rule: "the factory end is none, left or right", Mend: `write "none", "left" or "right"`,
				})
			}
		}
	}
	return errors.Join(v.errs...)
}

func (in *Instance) validatePlank(v *validator) {
	l := in.Plank
	v.length("plank", l, l > 0 && l <= MaxLength, "a plank is longer than 0 and at most 100 km",
		"give the length of a whole plank")
	v.length("kerf", in.Kerf, in.Kerf >= 0 && in.Kerf < l, "a kerf is at least 0 and less than the plank",
		"give the width of one saw cut, 0 for none")
	v.length("min_piece", in.MinPiece, in.MinPiece >= 0 && in.MinPiece <= l,
		"the shortest piece is at least 0 and at most the plank", "give a length, 0 for none")
	v.length("min_ender", in.MinEnder, in.MinEnder >= 0 && in.MinEnder <= l,
		"the shortest ender is at least 0 and at most the plank", "leave it out where it is min_piece")
	v.length("stagger", in.Stagger, in.Stagger >= 0 && in.Stagger <= MaxLength,
		"a stagger is at least 0 and at most 100 km", "give a length, 0 for none")
	v.length("grid", in.Grid, in.Grid > 0 && in.Grid <= l, "the grid is above 0 and at most the plank",
		"give the graduation that starters are measured to")
}

func (in *Instance) validateRuns(v *validator) {
	if len(in.Runs) == 0 {
		v.add(&Error{Field: "runs", Rule: "an instance has at least one run", Mend: "list the runs to be laid"})
	}
	if !v.most("number of runs", len(in.Runs), MaxRuns, "part the floor into several instances") {
		return
	}
	beside, planks := 0, measure.Length(0)
	for i := range in.Runs {
		r := &in.Runs[i]
		if r.Length <= 0 || r.Length > MaxLength {
			v.wrong(fieldOf(i, "length"), r.Length, "a run is longer than 0 and at most 100 km", "leave out a run of no length")
		}
		if r.From < -MaxLength || r.From > MaxLength {
			v.wrong(fieldOf(i, "from"), r.From, "a run begins within 100 km of the origin", "measure from another line")
		}
		s := r.Starter
		onGrid := s == in.Plank || in.Grid <= 0 || s%in.Grid == 0
		if s < 0 || s > 0 && (s > in.Plank || s >= r.Length || !onGrid) {
			v.wrong(fieldOf(i, "starter"), s,
				"the starter of a run that is begun is a multiple of the grid, or a plank, and below the run's length",
				"leave it out where the run is not begun, or measure from its last joint less a plank")
		}
		for k, x := range r.Beside {
			if x < -2*MaxLength || x > 2*MaxLength {
				v.wrong(fmt.Sprintf("%s[%d]", fieldOf(i, "beside"), k), x,
					"a joint beside a run lies within 200 km of the origin", "leave it out: it is too far to matter")
			}
		}
		beside += len(r.Beside)
		if in.Plank > 0 {
			planks += min(max(r.Length, 0), MaxLength)/in.Plank + 2
		}
	}
	v.most("number of joints beside runs", beside, MaxBeside, "leave out those farther than the stagger from the run")
	v.most("number of planks that the runs may take", int(min(planks, 1<<62)), MaxPlanks,
		"check the unit of the plank's length, or part the floor into several instances")
}

func (in *Instance) validateTouch(v *validator) {
	if !v.most("number of ties", len(in.Touch), MaxTouch, "list each pair of runs once") {
		return
	}
	rising := true
	for i, t := range in.Touch {
		if t[0] < 0 || t[1] >= len(in.Runs) || t[0] >= t[1] {
			v.add(&Error{
				Field: fmt.Sprintf("touch[%d]", i), Value: fmt.Sprint(t),
				Rule: fmt.Sprintf("it names two different runs of the %d, the lower index first", len(in.Runs)),
				Mend: "runs count from 0",
			})
		}
		rising = rising && (i == 0 || comparePairs(in.Touch[i-1], t) < 0)
	}
	if rising {
		return
	}
	order := make([]int, len(in.Touch))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return comparePairs(in.Touch[a], in.Touch[b]) })
	for k := 1; k < len(order); k++ {
		if i := order[k]; in.Touch[i] == in.Touch[order[k-1]] {
			v.add(&Error{
				Field: fmt.Sprintf("touch[%d]", i), Value: fmt.Sprint(in.Touch[i]), Rule: "each pair of runs is listed once",
				Mend: "leave out the second",
			})
		}
	}
}

func comparePairs(a, b [2]int) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) }

func fieldOf(run int, name string) string { return fmt.Sprintf("runs[%d].%s", run, name) }

// quote shows a text from a file, cut short.
func quote(s string) string {
	if len(s) > 40 {
		s = s[:40] + "..."
	}
	return fmt.Sprintf("%q", s)
}
