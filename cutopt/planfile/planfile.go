// Package planfile writes plans and reads them back. [Encode] and [Decode] are all most programs need; [File] lets a
// plan stand inside other JSON values, and [Schema] describes the format to other programs. A file is read strictly:
// every key known, present and given once, with line and column in each error. Whether a plan keeps the rules of its
// job is for package check to say.
package planfile

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"plank.example/cutopt"
)

// MaxSize is the largest plan file that is read, in bytes.
const MaxSize = 256 << 20

//go:embed plan.schema.json
var planSchema []byte

// Schema returns the JSON Schema (draft 2020-12) of plan files, for programs that read or write them. It states keys,
// types and choices; whether a plan keeps the rules of its job is for package check to say.
func Schema() []byte { return slices.Clone(planSchema) }

// An Error says what in a plan file cannot be read, and where.
type Error struct {
	Line, Column int    // from 1; the column counts characters
	Key          string // as in "floors[1].rows[3].width", counted from 1; empty for the file as a whole
	Value        string // as it stands there, shortened; may be empty
	Msg          string // what is wrong
	Mend         string // how to mend it; may be empty
	Err          error  // cutopt.ErrTooLarge where the file is beyond MaxSize, else nil
}

// Error names the place and the key, quotes the value, says what is wrong and suggests the mend.
func (e *Error) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "line %d, column %d: ", e.Line, e.Column)
	if e.Key != "" {
		b.WriteString(e.Key + ": ")
	}
	if e.Value != "" {
		b.WriteString(e.Value + " ")
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

// Encode writes the plan as a file of version [cutopt.PlanVersion] that [Decode] reads back to an equal plan, but that
// empty lists come back as nil. [Schema] describes it: lengths are decimal numbers in Unit, the shortest that read back
// exactly; areas are in square feet or square metres, amounts have two decimals, percentages are as printed by
// encoding/json. Names that are no UTF-8 are mended. The same plan gives the same bytes.
//
// The error is one of w, or says that the plan is of another version, its unit or one of its enumerations is none of
// the constants, or a percentage is no finite number. What was written to w by then is no plan file. It takes O(size of
// the plan) and holds one row in memory.
func Encode(w io.Writer, p *cutopt.Plan) error {
	if p == nil {
		return errors.New("planfile: the plan is nil: give the one that solve.Job returns")
	}
	pw := newPlanWriter(w, p.Unit)
	pw.plan(p)
	return pw.flush()
}

// Decode reads a plan file: strictly, with every key known, present and given once. Keys may come in any order.
// What is read is not held against any job; package check does that.
//
// The error is one of r or a *[Error]. Files above [MaxSize] are refused before they are held, and errors.Is finds
// [cutopt.ErrTooLarge] then: it takes O(size of the file), and holds the file and a plan of no more than a few times
// its size in memory.
func Decode(r io.Reader) (*cutopt.Plan, error) {
	var b bytes.Buffer
	if known, ok := r.(interface{ Len() int }); ok {
		b.Grow(min(known.Len(), MaxSize) + bytes.MinRead)
	}
	if _, err := b.ReadFrom(io.LimitReader(r, MaxSize+1)); err != nil {
		return nil, fmt.Errorf("planfile: reading a plan: %w", err)
	}
	return decode(b.Bytes())
}

// A File is a plan that other JSON values may hold: it is written and read as [Encode] and [Decode] do.
type File struct{ Plan *cutopt.Plan }

// MarshalJSON returns what [Encode] writes.
func (f File) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	if err := Encode(&b, f.Plan); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// UnmarshalJSON reads what [Decode] does. The file is unchanged when it fails.
func (f *File) UnmarshalJSON(data []byte) error {
	p, err := decode(data)
	if err == nil {
		f.Plan = p
	}
	return err
}

func decode(data []byte) (*cutopt.Plan, error) {
	if len(data) > MaxSize {
		return nil, &Error{
			Line: 1, Column: 1, Msg: fmt.Sprintf("the file is larger than %d MiB", MaxSize>>20), Mend: "is this a plan file?",
			Err: cutopt.ErrTooLarge,
		}
	}
	r := newPlanReader(data)
	if !utf8.Valid(data) {
		for i := 0; i < len(data); {
			c, n := utf8.DecodeRune(data[i:])
			if c == utf8.RuneError && n == 1 {
				r.failAt(i, "", "the file is not in UTF-8", "")
				return nil, r.err
			}
			i += n
		}
	}
	p := new(cutopt.Plan)
	if r.plan(p); r.err != nil {
		return nil, r.err
	}
	return p, nil
}
