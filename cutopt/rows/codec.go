package rows

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
)

// Encode writes the instance as JSON, indented by one blank, with a line end at the end. The errors are those of w.
func (in *Instance) Encode(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", " ")
	return enc.Encode(in)
}

// file is an instance as a file spells it: ties are lists, so that one of another length than two is seen.
type file struct {
	Instance
	Touch []tie `json:"touch"`
}

type tie [2]int

func (t *tie) UnmarshalJSON(text []byte) error {
	var list []int
	if err := json.Unmarshal(text, &list); err != nil {
		return err
	}
	if len(list) != 2 {
		return &Error{
			Field: "touch", Value: quote(string(text)), Rule: "a tie is a list of two runs", Mend: "write [0, 1]",
		}
	}
	*t = tie{list[0], list[1]}
	return nil
}

// Decode reads one instance of at most [MaxSize] bytes, refuses unknown fields and text behind it, and validates it.
// The error is an [*Error], several of them joined where fields are out of range, or that of r; ErrTooLarge is wrapped
// where the file or what it asks for is beyond a limit. It takes time and memory in proportion to the file.
func Decode(r io.Reader) (*Instance, error) {
	limited := &io.LimitedReader{R: r, N: MaxSize + 1}
	dec := json.NewDecoder(limited)
	dec.DisallowUnknownFields()
	var f file
	err := dec.Decode(&f)
	if err == nil {
		if _, more := dec.Token(); !errors.Is(more, io.EOF) {
			err = &Error{
				Rule: fmt.Sprintf("there is more text behind the instance, which ends at byte %d", dec.InputOffset()),
				Mend: "a file holds one instance",
			}
		}
	}
	if limited.N <= 0 {
		return nil, &Error{
			Rule: fmt.Sprintf("a file has at most %d MB", MaxSize>>20), Mend: "is this an instance?", sentinel: ErrTooLarge,
		}
	}
	if err != nil {
		return nil, explain(err)
	}
	in := &f.Instance
	if f.Touch != nil {
		in.Touch = make([][2]int, len(f.Touch))
		for i, t := range f.Touch {
			in.Touch[i] = t
		}
	}
	if err := in.Validate(); err != nil {
		return nil, err
	}
	return in, nil
}

// due names in words what JSON has for a kind of Go value.
func due(kind reflect.Kind) string {
	switch kind {
	case reflect.Slice, reflect.Array:
		return "a list"
	case reflect.Struct:
		return "an object"
	case reflect.String:
		return "a text"
	}
	return "a whole number"
}

// explain turns what the JSON decoder says into an Error; errors of the reader stay as they are.
func explain(err error) error {
	var (
		own    *Error
		syntax *json.SyntaxError
		wrong  *json.UnmarshalTypeError
	)
	switch {
	case errors.As(err, &own):
		return own
	case errors.Is(err, io.EOF):
		return &Error{Rule: "the file is empty", Mend: "give an instance in JSON, as Encode writes it"}
	case errors.Is(err, io.ErrUnexpectedEOF):
		return &Error{Rule: "the text ends in the middle", Mend: "is the file complete?"}
	case errors.As(err, &syntax):
		return &Error{
			Rule: fmt.Sprintf("byte %d: %v", syntax.Offset, syntax), Mend: "give an instance in JSON, as Encode writes it",
		}
	case errors.As(err, &wrong):
		return &Error{
			Field: strings.TrimPrefix(wrong.Field, "Instance."), Value: "a JSON " + wrong.Value,
			Rule: fmt.Sprintf("byte %d: %s is due", wrong.Offset, due(wrong.Type.Kind())),
			Mend: "lengths are whole numbers of one unit",
		}
	case strings.HasPrefix(err.Error(), "json: unknown field "):
		return &Error{
			Field: strings.TrimPrefix(err.Error(), "json: unknown field "), Rule: "an instance has no such field",
			Mend: "it has name, plank, kerf, min_piece, min_ender, stagger, grid, runs, touch and offcuts",
		}
	case strings.HasPrefix(err.Error(), "json: "):
		return &Error{Rule: err.Error(), Mend: "give an instance in JSON, as Encode writes it"}
	}
	return err
}
