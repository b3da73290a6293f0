package cutopt

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"plank.example/cutopt/measure"
)

// Limits of a job. Lengths and coordinates stay within a kilometre, so that no area or product of lengths overflows.
const (
	MaxLength    = 1000 * measure.Metre
	MaxRooms     = 100_000
	MaxCorners   = 50_000 // of one room: its outline, its islands and 24 for each pipe
	MaxBoxPlanks = 100_000
	MaxSpare     = 1_000_000 // planks, and boxes for each of which one is kept
	MaxPattern   = 1000      // starters of a pattern
	MaxPrice     = Money(1_000_000_000_00)
	MaxAllowance = 1000.0 // percent
)

// A FieldError says which field of a job breaks which rule.
type FieldError struct {
	Field string // as job files spell it: "plank.length", "rooms[2].islands[1].corners"; items count from 1
	Value string // the value, in the job's unit
	Rule  string // what must hold
	Mend  string // how to mend it; may be empty
	Err   error  // ErrTooLarge where there is more of something than a job may have, else nil
}

// Unwrap returns the kind of the error, for errors.Is.
func (e *FieldError) Unwrap() error { return e.Err }

// Error names the field, quotes the value, states the rule and suggests the mend.
func (e *FieldError) Error() string {
	s := e.Field
	if e.Value != "" {
		s += " is " + e.Value
	}
	s += ": " + e.Rule
	if e.Mend != "" {
		s += "; " + e.Mend
	}
	return s
}

// Hint returns how to mend it; it may be empty.
func (e *FieldError) Hint() string { return e.Mend }

// Validate reports everything that makes a job impossible to plan, all at once: sizes out of range, rules at odds with
// the plank, outlines that cross or touch themselves, islands that leave their room or overlap, openings beyond their
// wall, names used twice. The error joins one [*FieldError] for each; nil means that every field is in range.
//
// Outlines may run either way round, repeat a corner, and have corners in line. Islands may touch walls and each other.
// Whether a plan can keep the rules is for the planner to say: package solve.
//
// Cost: O(n log n) for the n corners of a room, and for each island one pass over the outline.
func (j *Job) Validate() error {
	if j == nil {
		return &FieldError{Field: "job", Value: "nil", Rule: "there is nothing to plan"}
	}
	v := &validator{job: j}
	if _, err := j.Unit.MarshalText(); err != nil {
		v.add("unit", j.Unit.String(), "a unit is in, ft, mm, cm or m", "")
		v.unit = measure.UnitMillimetre
	} else {
		v.unit = j.Unit
	}
	v.names()
	v.product("", j.Plank, j.Box)
	v.spare()
	for i, p := range j.Products {
		v.product(fmt.Sprintf("products[%d].", i+1), p.Plank, p.Box)
	}
	v.rules()
	v.aims()
	v.pattern()
	v.rooms()
	v.materials()
	return errors.Join(v.errs...)
}

// A validator gathers the errors of one job.
type validator struct {
	job  *Job
	unit measure.Unit // to print lengths in
	errs []error
}

func (v *validator) add(field, value, rule, hint string) {
	v.errs = append(v.errs, &FieldError{Field: field, Value: value, Rule: rule, Mend: hint})
}

// tooLarge reports more of something than a job may have.
func (v *validator) tooLarge(field, value, rule, hint string) {
	v.errs = append(v.errs, &FieldError{Field: field, Value: value, Rule: rule, Mend: hint, Err: ErrTooLarge})
}

func (v *validator) text(l measure.Length) string { return l.Format(v.unit, measure.Tick) }

// within reports a length outside low..high and returns whether it is inside. Rule says what the field is.
func (v *validator) within(field string, l, low, high measure.Length, rule string) bool {
	return v.withinElse(field, l, low, high, rule, "")
}

// withinElse is within, with what mends it where the length is none that a wrong unit makes.
func (v *validator) withinElse(field string, l, low, high measure.Length, rule, hint string) bool {
	if low <= l && l <= high {
		return true
	}
	if l > MaxLength {
		hint = "check its unit"
	}
	v.add(field, v.text(l), rule, hint)
	return false
}

func (v *validator) count(field string, n, low, high int, rule string) {
	switch {
	case n < low:
		v.add(field, fmt.Sprint(n), rule, "")
	case n > high:
		v.tooLarge(field, fmt.Sprint(n), rule, "")
	}
}

// spare reports a Spare that is out of range or says two things.
func (v *validator) spare() {
	if rule, hint := v.job.Spare.broken(); rule != "" {
		v.add("spare", v.job.Spare.String(), rule, hint)
	}
}

// product checks a plank and its box; prefix leads to their fields.
func (v *validator) product(prefix string, p Plank, b Box) {
	v.within(prefix+"plank.length", p.Length, 1, MaxLength, "a plank is longer than 0 and at most 1 km long")
	v.within(prefix+"plank.width", p.Width, 1, MaxLength, "a plank is wider than 0 and at most 1 km wide")
	v.within(prefix+"plank.thickness", p.Thickness, 0, MaxLength,
		"a thickness is at least 0 (unknown) and at most 1 km")
	for _, enum := range []struct {
		field string
		text  interface{ MarshalText() ([]byte, error) }
	}{{"ends", p.Ends}, {"to-wall", p.ToWall}, {"from", p.From}} {
		if _, err := enum.text.MarshalText(); err != nil {
			v.add(prefix+"plank."+enum.field, fmt.Sprint(enum.text), "it has no such value", "")
		}
	}
	v.count(
		prefix+"box.planks",
		b.Planks,
		0,
		MaxBoxPlanks,
		"a box holds at least 1 plank and at most 100,000; 0 takes them from covers",
	)
	if b.Covers < 0 {
		v.add(prefix+"box.covers", b.Covers.Format(v.unit),
			"the area a box covers is above 0; 0 takes it from planks", "")
	}
	if b.Price < 0 || b.Price > MaxPrice {
		v.add(prefix+"box.price", b.Price.String(), "a price is at least 0 (unknown) and at most 1,000,000,000", "")
	}
	if b.Planks < 0 || b.Planks > MaxBoxPlanks || b.Covers < 0 || b.Covers > 0 && !p.sized() {
		return
	}
	if _, err := b.planksPer(p, v.unit); err != nil {
		var field *FieldError
		if errors.As(err, &field) {
			field.Field = prefix + field.Field
		}
		v.errs = append(v.errs, err)
	}
}

// sized reports whether the plank's sizes are in range, so that other fields can be held against them.
func (p Plank) sized() bool {
	return 0 < p.Length && p.Length <= MaxLength && 0 < p.Width && p.Width <= MaxLength
}

// aims reports aims that are none or come twice.
func (v *validator) aims() {
	for i, a := range v.job.Aims {
		field := fmt.Sprintf("aims[%d]", i+1)
		if _, err := a.MarshalText(); err != nil {
			v.add(field, a.String(), "an aim is one of "+strings.Join(aimNames, ", "), "")
		} else if slices.Contains(v.job.Aims[:i], a) {
			v.add(field, a.String(), "each aim comes once", "drop the second")
		}
	}
}

// pattern holds each starter of a pattern against the plank, the grid and the shortest piece.
func (v *validator) pattern() {
	r, long := v.job.Rules, v.job.Plank.Length
	v.count("pattern", len(v.job.Pattern), 0, MaxPattern, "a pattern has at most 1,000 starters")
	if !v.job.Plank.sized() || r.Grid <= 0 || len(v.job.Pattern) > MaxPattern {
		return
	}
	for i, s := range v.job.Pattern {
		field := fmt.Sprintf("pattern[%d]", i+1)
		switch {
		case s <= 0 || s > long:
			v.add(field, v.text(s), "a starter is longer than 0 and at most the plank, "+v.text(long), "")
		case s != long && s%r.Grid != 0:
			v.add(field, v.text(s), "a starter is a multiple of the graduation, "+v.text(r.Grid)+", or a whole plank",
				"write "+v.text(max(s.Floor(r.Grid), r.Grid)))
		case s < r.MinPiece:
			v.add(
				field,
				v.text(s),
				"a starter is at least min-piece, "+v.text(r.MinPiece),
				"write longer ones, or allow a shorter min-piece",
			)
		}
	}
}
