package jobfile

import (
	"fmt"
	"strconv"
	"strings"
)

// An Error is one thing wrong in a job file.
type Error struct {
	File   string // name of the file as given to Read; may be empty
	Line   int    // from 1; 0 when the whole file is meant
	Column int    // in characters, from 1
	Key    string // path of the key: "plank.length", "rooms[2].islands[1].corners"; items count from 1
	Value  string // what stands there, shortened; may be empty
	Msg    string // what is wrong
	Mend   string // how to mend it; may be empty
	Err    error  // cutopt.ErrTooLarge where the file or its job is beyond a limit, else nil
}

// Error returns "file:line:column: key "value": message; hint", leaving out what is empty.
func (e *Error) Error() string {
	var b strings.Builder
	if e.File != "" {
		b.WriteString(e.File + ":")
	}
	if e.Line > 0 {
		fmt.Fprintf(&b, "%d:%d:", e.Line, e.Column)
	}
	if b.Len() > 0 {
		b.WriteByte(' ')
	}
	if e.Key != "" {
		b.WriteString(e.Key)
		if e.Value != "" {
			b.WriteString(" " + quote(e.Value))
		}
		b.WriteString(": ")
	}
	b.WriteString(e.Msg)
	if e.Mend != "" {
		b.WriteString("; " + e.Mend)
	}
	return b.String()
}

// Hint returns how to mend it; it may be empty.
func (e *Error) Hint() string { return e.Mend }

// Unwrap returns the kind of the error, for errors.Is.
func (e *Error) Unwrap() error { return e.Err }

// quote puts quotes around a text whose inch marks stay as they are.
func quote(s string) string { return strings.ReplaceAll(strconv.Quote(s), `\"`, `"`) }

// Errors are all the things wrong in a job file, from top to bottom.
type Errors []*Error

// Error returns one line for each error.
func (es Errors) Error() string {
	lines := make([]string, len(es))
	for i, e := range es {
		lines[i] = e.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the single errors.
func (es Errors) Unwrap() []error {
	errs := make([]error, len(es))
	for i, e := range es {
		errs[i] = e
	}
	return errs
}
