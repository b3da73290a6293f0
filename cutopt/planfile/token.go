package planfile

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"

	"plank.example/cutopt/measure"
)

// A planReader reads a plan file value by value and knows where it is. The first error sticks, and every method then
// returns at once.
type planReader struct {
	data []byte
	base int // of the decoder's input in data
	dec  *jsontext.Decoder
	unit measure.Unit
	path []planStep
	at   int // where the value just read begins
	err  error

	waiting []planPart // what was set aside until the unit is known
}

// A planStep is one step of the way to a value: a key, or an index where the key is empty.
type planStep struct {
	key   string
	index int
}

// A field is one key of an object that is read into a T.
type field[T any] struct {
	key      string
	optional bool
	read     func(r *planReader, to *T)
}

func newPlanReader(data []byte) *planReader {
	r := &planReader{data: data}
	r.from(0)
	return r
}

// from reads on at a place of the file. Keys given twice are told of here, and bytes that are no UTF-8 before.
func (r *planReader) from(base int) {
	r.base = base
	r.dec = jsontext.NewDecoder(
		bytes.NewBuffer(r.data[base:]),
		jsontext.AllowDuplicateNames(true),
		jsontext.AllowInvalidUTF8(true),
	)
}

// kind returns the first byte of the next value, or of the end of a list or an object: 0 where none can be read.
func (r *planReader) kind() jsontext.Kind {
	if r.err != nil {
		return 0
	}
	return r.dec.PeekKind()
}

// raw reads the next value as it is written, or a key. It holds until the next is read.
func (r *planReader) raw() jsontext.Value {
	if r.err != nil {
		return nil
	}
	before := r.place()
	v, err := r.dec.ReadValue()
	if err != nil {
		r.at = before
		r.broken(err)
		return nil
	}
	r.at = r.place() - len(v)
	return v
}

// open reads the beginning of a list or an object.
func (r *planReader) open(kind jsontext.Kind, what string) bool {
	if got := r.kind(); got != kind && r.err == nil {
		r.wrong(what)
	}
	return r.delimiter()
}

// delimiter reads a brace or a bracket.
func (r *planReader) delimiter() bool {
	if r.err != nil {
		return false
	}
	before := r.place()
	if _, err := r.dec.ReadToken(); err != nil {
		r.at = before
		r.broken(err)
		return false
	}
	r.at = r.place() - 1
	return true
}

// place returns how far the file is read.
func (r *planReader) place() int { return r.base + int(r.dec.InputOffset()) }

// broken records an error of the JSON decoder.
func (r *planReader) broken(err error) {
	var syntax *jsontext.SyntacticError
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF):
		r.failAt(len(r.data), "", "the file ends too early", "it was cut short")
	case errors.As(err, &syntax):
		r.failAt(
			r.base+int(syntax.ByteOffset),
			"",
			"this is not JSON: "+syntax.Err.Error(),
			"a plan file is written by Encode or by plan --json",
		)
	default:
		r.failAt(r.at, "", strings.TrimPrefix(err.Error(), "jsontext: "), "")
	}
}

// fail records an error about the value just read.
func (r *planReader) fail(value, msg, hint string) { r.failAt(r.at, value, msg, hint) }

func (r *planReader) failAt(at int, value, msg, hint string) {
	if r.err != nil {
		return
	}
	before := r.data[:min(at, len(r.data))]
	e := &Error{
		Line: 1 + bytes.Count(before, []byte("\n")), Column: 1 + utf8.RuneCount(before[1+bytes.LastIndexByte(before, '\n'):]),
		Value: value, Msg: msg, Mend: hint,
	}
	if c := []rune(value); len(c) > 60 {
		e.Value = string(c[:60]) + "…"
	}
	var key strings.Builder
	for _, s := range r.path {
		switch {
		case s.key == "":
			fmt.Fprintf(&key, "[%d]", s.index+1)
		case key.Len() > 0:
			key.WriteString("." + s.key)
		default:
			key.WriteString(s.key)
		}
	}
	e.Key = key.String()
	r.err = e
}

// wrong reports that the next value is of the wrong kind.
func (r *planReader) wrong(want string) {
	text := ""
	switch r.kind() {
	case '{':
		text = "an object"
	case '[':
		text = "a list"
	case '}', ']':
		text = "nothing"
	default:
		text = string(r.raw())
	}
	if r.err != nil {
		return
	}
	if text == "an object" || text == "a list" {
		r.delimiter()
	}
	r.fail(text, "stands where "+want+" belongs", "")
}

// object reads an object with exactly these keys and returns where it begins. They may come in any order; in that of
// the list they are found at once.
func object[T any](r *planReader, fields []field[T], to *T) (start int) {
	if !r.open('{', "an object") {
		return r.at
	}
	start = r.at
	var seen uint64 // bit i for fields[i]
	r.path = append(r.path, planStep{})
	next := 0
	for r.err == nil && r.kind() != '}' {
		name := r.raw()
		if r.err != nil {
			break
		}
		i := find(fields, next, name)
		if i < 0 {
			r.path = r.path[:len(r.path)-1]
			r.fail(string(name), "is no key here", "one of "+keysOf(fields))
			return start
		}
		r.path[len(r.path)-1].key = fields[i].key
		if seen&(1<<i) != 0 {
			r.fail("", "this key is given twice", "")
			return start
		}
		seen |= 1 << i
		fields[i].read(r, to)
		next = i + 1
	}
	if !r.delimiter() {
		return start
	}
	r.path = r.path[:len(r.path)-1]
	for i := range fields {
		if seen&(1<<i) == 0 && !fields[i].optional {
			r.failAt(start, "", fmt.Sprintf("the key %q is missing", fields[i].key), "")
		}
	}
	return start
}

// find returns the index of the field with a name, as it is written in quotes; -1 for none. It begins at the given one.
func find[T any](fields []field[T], from int, name jsontext.Value) int {
	if bytes.IndexByte(name, '\\') >= 0 {
		name, _ = jsontext.AppendQuote(nil, unquoted(name))
	}
	name = name[1 : len(name)-1]
	for k := range fields {
		if i := (from + k) % len(fields); fields[i].key == string(name) {
			return i
		}
	}
	return -1
}

// unquoted returns the text of a JSON string.
func unquoted(v jsontext.Value) string {
	if bytes.IndexByte(v, '\\') < 0 {
		return string(v[1 : len(v)-1])
	}
	text, _ := jsontext.AppendUnquote(nil, v)
	return string(text)
}

func keysOf[T any](fields []field[T]) string {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	return strings.Join(keys, ", ")
}

// list reads a list, each item by item.
func list[T any](r *planReader, to *[]T, item func(r *planReader, to *T)) {
	if !r.open('[', "a list") {
		return
	}
	r.path = append(r.path, planStep{})
	for r.err == nil && r.kind() != ']' {
		*to = append(*to, *new(T))
		item(r, &(*to)[len(*to)-1])
		r.path[len(r.path)-1].index++
	}
	if r.err == nil {
		r.path = r.path[:len(r.path)-1]
	}
	r.delimiter()
}

// A planPart is a value set aside to be read later.
type planPart struct {
	at   int
	path []planStep
	read func()
}

// later reads a value once the unit is known.
func (r *planReader) later(known bool, read func()) {
	if known {
		read()
		return
	}
	v := r.raw()
	if r.err == nil {
		r.waiting = append(r.waiting, planPart{r.place() - len(v), append([]planStep(nil), r.path...), read})
	}
}

// rest reads what was set aside.
func (r *planReader) rest() {
	for _, part := range r.waiting {
		if r.err != nil {
			return
		}
		r.from(part.at)
		r.path = part.path
		part.read()
	}
}

// end makes sure that nothing follows the plan.
func (r *planReader) end() {
	if r.err != nil {
		return
	}
	rest := bytes.TrimLeft(r.data[r.place():], " \t\r\n")
	if len(rest) > 0 {
		r.failAt(len(r.data)-len(rest), "", "something follows the plan", "a file holds one plan")
	}
}

// decode reads the next value as encoding/json does, strictly.
func (r *planReader) decode(v any) {
	raw := r.raw()
	if r.err != nil {
		return
	}
	if string(raw) == "null" {
		r.fail("null", "stands where an object belongs", "leave the key out")
		return
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.DisallowUnknownFields()
	if err := dec.Decode(v); err != nil {
		if kind := new(json.UnmarshalTypeError); errors.As(err, &kind) {
			r.fail("", fmt.Sprintf("%s holds a %s", kind.Field, kind.Value), "")
			return
		}
		r.fail("", strings.TrimPrefix(err.Error(), "json: "), "")
	}
}

func (r *planReader) text() string {
	if r.kind() != '"' {
		r.wrong("a text")
		return ""
	}
	if v := r.raw(); r.err == nil {
		return unquoted(v)
	}
	return ""
}

func (r *planReader) flag() bool {
	if k := r.kind(); k != 't' && k != 'f' {
		r.wrong("true or false")
		return false
	}
	return string(r.raw()) == "true"
}

// name reads the name of a constant.
func (r *planReader) name(e encoding.TextUnmarshaler) {
	s := r.text()
	if r.err != nil {
		return
	}
	if err := e.UnmarshalText([]byte(s)); err != nil {
		msg := err.Error()
		if _, after, ok := strings.Cut(msg, ": "); ok {
			msg = after
		}
		r.fail("", msg, "")
	}
}
