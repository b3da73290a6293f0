package site

import (
	"fmt"
	"strconv"
	"strings"
)

// An Error is one thing wrong in a state: a line that cannot be read, or one that contradicts plan or job.
type Error struct {
	File   string // name of the file; may be empty
	Line   int    // from 1; 0 for a line that is not of a file
	Column int    // in characters, from 1
	Value  string // what stands there, shortened; may be empty
	Msg    string // what is wrong: the rule
	Mend   string // how to mend it; may be empty
	Err    error  // cutopt.ErrTooLarge where the file is beyond a limit, else nil

	event *Event // that it is of; nil for a line that cannot be read
}

// Error returns "file:line:column: "value": message; hint", leaving out what is empty.
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
	if e.Value != "" {
		b.WriteString(strings.ReplaceAll(strconv.Quote(shorten(e.Value)), `\"`, `"`) + ": ")
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

// Errors are all the things wrong in a state, from top to bottom.
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

// err returns the errors as an error; nil for none.
func (es Errors) err() error {
	if len(es) == 0 {
		return nil
	}
	return es
}

// shorten cuts a long text for quoting.
func shorten(s string) string {
	const keep = 60
	if len(s) <= keep {
		return s
	}
	return strings.ToValidUTF8(s[:keep], "") + "…"
}
