package rows

import "errors"

// ErrTooLarge is wrapped by the errors of instances, files and models beyond the limits of this package. They are
// refused before anything in proportion to them is allocated. Test for it with errors.Is.
var ErrTooLarge = errors.New("too large")

// An Error says which field of an instance, of a layout or of a packing breaks which rule.
type Error struct {
	// Field is as files spell it, counted from 0: "runs[2].length", "touch[0]", "layout[3]"; empty where a file as a whole
	// is wrong.
	Field string
	Value string // as it stands; may be empty
	Rule  string // what must hold
	Mend  string // how to mend it

	sentinel error // ErrTooLarge, or nil
}

// Error names the field, quotes the value, states the rule and suggests the mend.
func (e *Error) Error() string {
	s := "rows: "
	if e.Field != "" {
		s += e.Field
		if e.Value != "" {
			s += " is " + e.Value
		}
		s += ": "
	}
	s += e.Rule
	if e.Mend != "" {
		s += "; " + e.Mend
	}
	return s
}

// Hint returns how to mend it.
func (e *Error) Hint() string { return e.Mend }

// Unwrap returns ErrTooLarge where the value is beyond a limit, else nil.
func (e *Error) Unwrap() error { return e.sentinel }
