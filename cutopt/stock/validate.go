package stock

import (
	"errors"
	"fmt"
	"strconv"

	"plank.example/cutopt/measure"
)

// Limits of a job. They keep every sum of lengths and of costs within 63 bits and every solver within bounded memory.
const (
	MaxLength = 1000 * measure.Metre
	MaxPieces = 1_000_000 // all counts together
	MaxKinds  = 1000      // different lengths of pieces
	MaxSticks = 1000      // kinds of sticks
	MaxPrice  = 100_000_000_000
)

// ErrTooLarge marks a job, a plan or a certificate that is larger than this package takes.
var ErrTooLarge = errors.New("stock: too large")

// A FieldError says which field of a job breaks which rule.
type FieldError struct {
	Field string // "pieces[2].length"; items count from 1
	Value string // the value, in the job's unit
	Rule  string // what must hold
	Mend  string // how to mend it; may be empty
	Err   error  // ErrTooLarge where it is beyond a limit of this package, else nil
}

// Error names the field, quotes the value, states the rule and suggests the mend.
func (e *FieldError) Error() string {
	s := "stock: " + e.Field
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

// Unwrap returns the kind of the error, for errors.Is.
func (e *FieldError) Unwrap() error { return e.Err }

// Validate reports every field that is out of range, and pieces that fit on no stick, all at once: the error joins one
// [*FieldError] for each. Where a limit of size is passed, errors.Is finds [ErrTooLarge]. Cost: O(sticks + pieces).
func (j *Job) Validate() error {
	if j == nil {
		return &FieldError{Field: "job", Value: "nil", Rule: "there is nothing to cut"}
	}
	v := &validator{job: j, unit: j.Unit}
	if _, err := j.Unit.MarshalText(); err != nil {
		v.add("unit", j.Unit.String(), "a unit is in, ft, mm, cm or m", "")
		v.unit = measure.UnitMillimetre
	}
	v.length("kerf", j.Kerf, 0)
	v.length("keep", j.Keep, 0)
	v.sticks()
	if len(v.errs) == 0 {
		v.pieces()
	}
	return errors.Join(v.errs...)
}

type validator struct {
	job  *Job
	unit measure.Unit
	errs []error
}

func (v *validator) add(field, value, rule, hint string) {
	v.errs = append(v.errs, &FieldError{Field: field, Value: value, Rule: rule, Mend: hint})
}

func (v *validator) tooLarge(field, value, rule, hint string) {
	v.errs = append(v.errs, &FieldError{Field: field, Value: value, Rule: rule, Mend: hint, Err: ErrTooLarge})
}

func (v *validator) format(l measure.Length) string { return l.Decimal(v.unit) + " " + v.unit.String() }

func (v *validator) length(field string, l, least measure.Length) bool {
	switch {
	case l < 0:
		v.add(field, v.format(l), "a length is not below 0", "")
	case l < least:
		v.add(field, v.format(l), "it must be longer than 0", "")
	case l > MaxLength:
		v.tooLarge(field, v.format(l), "lengths go up to "+v.format(MaxLength), "")
	default:
		return true
	}
	return false
}

func (v *validator) sticks() {
	sticks := v.job.Sticks
	switch {
	case len(sticks) == 0:
		v.add("sticks", "empty", "pieces are cut from sticks", "add a stick")
	case len(sticks) > MaxSticks:
		v.tooLarge("sticks", strconv.Itoa(len(sticks))+" kinds", fmt.Sprintf("there may be %d kinds", MaxSticks),
			"give equal sticks one supply")
		return
	}
	priced := v.job.Priced()
	for k, s := range sticks {
		field := fmt.Sprintf("sticks[%d]", k+1)
		if v.length(field+".length", s.Length, 1) && v.length(field+".waste", s.Waste, 0) && s.Usable() <= 0 {
			v.add(field+".waste", v.format(s.Waste), "a stick of "+v.format(s.Length)+" has nothing left between its ends", "")
		}
		switch {
		case s.Price < 0:
			v.add(field+".price", strconv.FormatInt(s.Price, 10), "a price is not below 0", "")
		case s.Price > MaxPrice:
			v.tooLarge(field+".price", strconv.FormatInt(s.Price, 10), "prices go up to "+strconv.FormatInt(MaxPrice, 10), "")
		case s.OnHand && s.Price > 0:
			v.add(field+".price", strconv.FormatInt(s.Price, 10), "a stick on hand costs nothing", "leave the price out")
		case priced && !s.OnHand && s.Price == 0:
			v.add(field+".price", "0", "other sticks have a price", "give this one a price too, or say that it is on hand")
		}
		switch {
		case s.Supply < 0:
			v.add(field+".supply", strconv.Itoa(s.Supply), "a supply is not below 0", "0 stands for any number")
		case s.OnHand && s.Supply == 0:
			v.add(field+".supply", "0", "what is on hand has a number", "say how many lie there")
		}
	}
}

func (v *validator) pieces() {
	pieces := v.job.Pieces
	if len(pieces) == 0 {
		v.add("pieces", "empty", "there is nothing to cut", "add a piece")
	}
	longest := 0
	for k, s := range v.job.Sticks {
		if s.Usable() > v.job.Sticks[longest].Usable() {
			longest = k
		}
	}
	usable := v.job.Sticks[longest].Usable()
	total, kinds := 0, map[measure.Length]bool{}
	for i, p := range pieces {
		field := fmt.Sprintf("pieces[%d]", i+1)
		if v.length(field+".length", p.Length, 1) && p.Length > usable {
			v.add(field+".length", v.format(p.Length),
				"no stick is so long: "+v.stick(longest)+" has "+v.format(usable)+" to cut from",
				"add a longer stick, or make the piece of two")
		}
		kinds[p.Length] = true
		for e, end := range p.Ends {
			if end.Mitre < 0 || end.Mitre >= 9000 {
				v.add(fmt.Sprintf("%s.ends[%d].mitre", field, e+1), strconv.Itoa(end.Mitre),
					"a mitre is 0 to 8999 hundredths of a degree off square", "45 degrees are 4500")
			}
		}
		switch {
		case p.Count < 1:
			v.add(field+".count", strconv.Itoa(p.Count), "a count is 1 or more", "leave out pieces that are not wanted")
		case p.Count > MaxPieces-total:
			v.tooLarge(field+".count", strconv.Itoa(p.Count),
				fmt.Sprintf("all pieces together may be %d", MaxPieces), "cut the job in two")
			return
		default:
			total += p.Count
		}
	}
	if len(kinds) > MaxKinds {
		v.tooLarge("pieces", strconv.Itoa(len(kinds))+" lengths", fmt.Sprintf("there may be %d different ones", MaxKinds),
			"round them up to a graduation")
	}
}

// stick names a stick, the longest in messages.
func (v *validator) stick(k int) string {
	s := fmt.Sprintf("sticks[%d]", k+1)
	if name := v.job.Sticks[k].Name; name != "" {
		s += " (" + strconv.Quote(name) + ")"
	}
	return s + ", the longest,"
}
