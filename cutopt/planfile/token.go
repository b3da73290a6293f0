package planfile

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"plank.example/cutopt/measure"
)

// A planReader reads a plan file value by value and knows where it is. The first error sticks, and every method then
// returns at once.
type planReader struct {
	data []byte
	base int // of the decoder's input in data
	dec  *json.Decoder
	unit measure.Unit
	path []planStep
	at   int // where the value just read begins
	err  error
}

// A planStep is one step of the way to a value: a key, or an index where the key is empty.
type planStep struct {
	key   string
	index int
}

// A planField is one key of an object and how to read its value.
type planField struct {
	key      string
	optional bool
	read     func()
}

func newPlanReader(data []byte) *planReader {
	r := &planReader{data: data}
	r.dec = r.decoder(data)
	return r
}

func (r *planReader) decoder(data []byte) *json.Decoder {
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	dec.DisallowUnknownFields()
	return dec
}

// next returns where the next value begins.
func (r *planReader) next() int {
	at := r.base + int(r.dec.InputOffset())
	for at < len(r.data) && strings.IndexByte(" \t\r\n,:", r.data[at]) >= 0 {
		at++
	}
	return at
}

// token reads the next token; nil after an error.
func (r *planReader) token() json.Token {
	if r.err != nil {
		return nil
	}
	r.at = r.next()
	t, err := r.dec.Token()
	if err != nil {
		r.broken(err)
		return nil
	}
	return t
}

// broken records an error of the JSON decoder.
func (r *planReader) broken(err error) {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF):
		r.failAt(len(r.data), "", "the file ends too early", "it was cut short")
	case errors.As(err, &syntax):
		r.failAt(r.at, "", "this is not JSON: "+syntax.Error(), "a plan file is written by Encode or by plan --json")
	case errors.As(err, &kind):
		r.failAt(r.at, "", fmt.Sprintf("%s holds a %s", kind.Field, kind.Value), "")
	default:
		r.failAt(r.at, "", strings.TrimPrefix(err.Error(), "json: "), "")
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
		Line: 1 + bytes.Count(before, []byte("\n")), Column: len(before) - bytes.LastIndexByte(before, '\n'),
		Value: value, Msg: msg, Hint: hint,
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

// wrong reports a token of the wrong kind.
func (r *planReader) wrong(t json.Token, want string) {
	if r.err != nil {
		return
	}
	text := fmt.Sprint(t)
	switch v := t.(type) {
	case string:
		text = strconv.Quote(v)
	case json.Delim:
		text = map[json.Delim]string{'{': "an object", '[': "a list"}[v]
	case nil:
		text = "null"
	}
	r.fail(text, "stands where "+want+" belongs", "")
}

// object reads an object with exactly these keys.
func (r *planReader) object(fields []planField) {
	if t := r.token(); t != json.Delim('{') {
		r.wrong(t, "an object")
		return
	}
	start := r.at
	var seen uint64 // bit i for fields[i]
	r.path = append(r.path, planStep{})
	for r.err == nil && r.dec.More() {
		t := r.token()
		key, ok := t.(string)
		if !ok {
			break
		}
		i := 0
		for i < len(fields) && fields[i].key != key {
			i++
		}
		if i == len(fields) {
			r.path = r.path[:len(r.path)-1]
			r.fail(strconv.Quote(key), "is no key here", "one of "+planKeys(fields))
			return
		}
		r.path[len(r.path)-1].key = key
		if seen&(1<<i) != 0 {
			r.fail("", "this key is given twice", "")
			return
		}
		seen |= 1 << i
		fields[i].read()
	}
	r.token()
	r.path = r.path[:len(r.path)-1]
	for i := range fields {
		if seen&(1<<i) == 0 && !fields[i].optional {
			r.failAt(start, "", fmt.Sprintf("the key %q is missing", fields[i].key), "")
			return
		}
	}
}

func planKeys(fields []planField) string {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	return strings.Join(keys, ", ")
}

// list reads a list, each item by item.
func (r *planReader) list(item func()) {
	if t := r.token(); t != json.Delim('[') {
		r.wrong(t, "a list")
		return
	}
	r.path = append(r.path, planStep{})
	for r.err == nil && r.dec.More() {
		item()
		r.path[len(r.path)-1].index++
	}
	r.path = r.path[:len(r.path)-1]
	r.token()
}

// A planPart is a value set aside to be read later.
type planPart struct {
	data []byte
	base int
	path []planStep
}

// set puts the next value aside.
func (r *planReader) set() *planPart {
	if r.err != nil {
		return nil
	}
	r.at = r.next()
	part := &planPart{base: r.at, path: append([]planStep(nil), r.path...)}
	var raw json.RawMessage
	if err := r.dec.Decode(&raw); err != nil {
		r.broken(err)
		return nil
	}
	part.data = raw
	return part
}

// within reads a value that was set aside.
func (r *planReader) within(part *planPart, read func()) {
	if r.err != nil {
		return
	}
	r.dec, r.base, r.path = r.decoder(part.data), part.base, part.path
	read()
}

// end makes sure that nothing follows the plan.
func (r *planReader) end() {
	if r.err != nil {
		return
	}
	at := r.next()
	if _, err := r.dec.Token(); !errors.Is(err, io.EOF) {
		r.failAt(at, "", "something follows the plan", "a file holds one plan")
	}
}

// decode reads the next value as encoding/json does.
func (r *planReader) decode(v any) {
	if r.err != nil {
		return
	}
	r.at = r.next()
	if bytes.HasPrefix(r.data[r.at:], []byte("null")) {
		r.fail("null", "stands where an object belongs", "leave the key out")
		return
	}
	if err := r.dec.Decode(v); err != nil {
		r.broken(err)
	}
}

func (r *planReader) text() string {
	t := r.token()
	s, ok := t.(string)
	if !ok {
		r.wrong(t, "a text")
	}
	return s
}

func (r *planReader) flag() bool {
	t := r.token()
	b, ok := t.(bool)
	if !ok {
		r.wrong(t, "true or false")
	}
	return b
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
