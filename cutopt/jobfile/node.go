package jobfile

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

const (
	maxDepth  = 20        // of nesting; a job needs seven
	maxNodes  = 1_000_000 // visited, with aliases followed
	maxErrors = 100       // listed
)

// A place is where a key's value stands, and its text.
type place struct {
	line, column int
	value        string
	key          string // that the file has in place of the field that is asked for; "" where it has that
}

// A decoder walks the tree of a file and gathers its errors.
type decoder struct {
	file      *File
	unitKnown bool
	errs      Errors
	dropped   int // errors beyond maxErrors
	nodes     int
	named     *starter        // pattern in one text
	starters  []starter       // or as a list
	broken    map[string]bool // rooms and islands whose outline could not be read
}

// parse returns the root of the file's only document.
func parse(data []byte, name string) (*yaml.Node, *Error) {
	fail := func(msg, hint string) *Error { return &Error{File: name, Msg: msg, Mend: hint} }
	loader, err := yaml.NewLoader(bytes.NewReader(data),
		yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(maxDepth))))
	if err != nil {
		return nil, fail(err.Error(), "")
	}
	var doc, next yaml.Node
	switch err := loader.Load(&doc); {
	case errors.Is(err, io.EOF):
		return nil, fail("the file is empty", "begin with unit, plank, box and rooms")
	case err != nil:
		return nil, syntaxError(err, name)
	}
	if err := loader.Load(&next); !errors.Is(err, io.EOF) {
		if err != nil {
			return nil, syntaxError(err, name)
		}
		return nil, &Error{
			File: name, Line: next.Line, Column: next.Column, Msg: "a second document begins here",
			Mend: "a job file holds one job",
		}
	}
	root := &doc
	if root.Kind == yaml.DocumentNode && len(root.Content) == 1 {
		root = root.Content[0]
	}
	return root, nil
}

// syntaxError says where a file is no YAML.
func syntaxError(err error, name string) *Error {
	e := &Error{File: name, Msg: "this is no YAML: " + err.Error()}
	var le *yaml.LoadError
	if errors.As(err, &le) {
		e.Line, e.Column = le.Mark.Line, le.Mark.Column
		e.Msg = "this is no YAML: " + le.Message
	}
	e.Mend = "indent with blanks, and write a blank after each colon"
	for _, h := range syntaxHints {
		if strings.Contains(e.Msg, h.text) {
			e.Mend = h.hint
			break
		}
	}
	return e
}

// syntaxHints go with what the YAML parser says.
var syntaxHints = []struct{ text, hint string }{
	{"max depth", "a job is not nested so deep"},
	{"mapping values", "put quotes around a text that has a colon in it"},
	{"start any token", "indent with blanks, not with tabs"},
	{"did not find expected", "close every bracket, and write lengths without quotes around them: 14' 6\""},
	{"end of stream", "close every bracket and every quote"},
	{"unknown anchor", "name it with & where it stands first"},
	{"UTF-8", "save the file as text in UTF-8"},
	{"control characters", "save the file as text in UTF-8"},
}

// fail records an error at a node.
func (d *decoder) fail(n *yaml.Node, path, msg, hint string) {
	d.failAt(place{n.Line, n.Column, textOf(n), ""}, path, msg, hint)
}

func (d *decoder) failAt(at place, path, msg, hint string) {
	d.add(&Error{
		File: d.file.name, Line: at.line, Column: at.column, Key: path, Value: shorten(at.value), Msg: msg, Mend: hint,
	})
}

func (d *decoder) add(e *Error) {
	if len(d.errs) >= maxErrors {
		d.dropped++
		return
	}
	d.errs = append(d.errs, e)
}

// sorted returns the errors from top to bottom.
func (d *decoder) sorted() Errors {
	slices.SortStableFunc(d.errs, func(a, b *Error) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Column - b.Column
	})
	if d.dropped > 0 {
		return append(d.errs, &Error{File: d.file.name, Msg: fmt.Sprintf("and %d more errors", d.dropped)})
	}
	return d.errs
}

// textOf returns the text of a scalar.
func textOf(n *yaml.Node) string {
	if n.Kind == yaml.ScalarNode {
		return n.Value
	}
	return ""
}

// shorten cuts a long value for quoting.
func shorten(s string) string {
	const keep = 60
	if len(s) <= keep {
		return s
	}
	return strings.ToValidUTF8(s[:keep], "") + "…"
}

// visit follows an alias, refuses tags, counts the node and remembers its place. It returns nil when it has reported an
// error.
func (d *decoder) visit(n *yaml.Node, path string) *yaml.Node {
	if n.Kind == yaml.AliasNode {
		n = n.Alias
	}
	d.nodes++
	if d.nodes > maxNodes {
		if d.nodes == maxNodes+1 {
			d.add(&Error{
				File: d.file.name, Line: n.Line, Column: n.Column, Key: path, Err: cutopt.ErrTooLarge,
				Msg: "the aliases of this file expand to too much", Mend: "write the rooms out",
			})
		}
		return nil
	}
	d.file.places[path] = place{n.Line, n.Column, textOf(n), ""}
	if n.Style&yaml.TaggedStyle != 0 {
		d.fail(n, path, "tags have no meaning in a job file", "drop "+n.Tag)
		return nil
	}
	return n
}

// A key is an entry of a mapping and the function that reads its value.
type key struct {
	name string
	need string // the hint when it is missing; "" where it may be
	read func(n *yaml.Node, path string)
}

// mapping reads a mapping with the given keys in the order of the file. It returns the names that were there, or nil
// when n is no mapping.
func (d *decoder) mapping(n *yaml.Node, path string, keys ...key) map[string]bool {
	if n = d.visit(n, path); n == nil {
		return nil
	}
	if n.Kind != yaml.MappingNode {
		d.fail(n, path, "this should be a mapping", "write key: value with any of "+names(keys))
		return nil
	}
	seen := make(map[string]bool, len(keys))
	for i := 0; i+1 < len(n.Content); i += 2 {
		d.entry(n.Content[i], n.Content[i+1], path, seen, keys)
	}
	for _, k := range keys {
		if k.need != "" && !seen[k.name] {
			d.failAt(place{line: n.Line, column: n.Column}, join(path, k.name), "this key is missing", k.need)
		}
	}
	return seen
}

// entry reads one entry of a mapping.
func (d *decoder) entry(name, value *yaml.Node, path string, seen map[string]bool, keys []key) {
	if name.Kind == yaml.AliasNode {
		name = name.Alias
	}
	field := join(path, shorten(textOf(name)))
	at := place{line: name.Line, column: name.Column}
	if name.Kind != yaml.ScalarNode {
		d.failAt(at, path, "a key is a word", "")
		return
	}
	i := slices.IndexFunc(keys, func(k key) bool { return k.name == name.Value })
	switch {
	case i < 0 && name.Value == "<<":
		d.failAt(at, field, "mappings are not merged", "write the keys out")
	case i < 0:
		mend := ""
		if len(d.errs) < maxErrors { // it takes as long as to read dozens of keys
			mend = suggest(name.Value, keys)
		}
		d.failAt(at, field, "unknown key", mend)
	case seen[name.Value]:
		d.failAt(at, field, "this key is there twice", "keep one of them")
	default:
		seen[name.Value] = true
		keys[i].read(value, field)
	}
}

// join appends a key to a path.
func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// items reads a list with a function for each item, and reports whether n is one.
func (d *decoder) items(n *yaml.Node, path, hint string, read func(n *yaml.Node, path string)) bool {
	if n = d.visit(n, path); n == nil {
		return false
	}
	if n.Kind != yaml.SequenceNode {
		d.fail(n, path, "this should be a list", hint)
		return false
	}
	for i, item := range n.Content {
		read(item, fmt.Sprintf("%s[%d]", path, i+1))
	}
	return true
}

// text returns the text of a scalar as it stands in the file.
func (d *decoder) text(n *yaml.Node, path, hint string) (at *yaml.Node, s string, ok bool) {
	if n = d.visit(n, path); n == nil {
		return nil, "", false
	}
	switch {
	case n.Kind != yaml.ScalarNode:
		d.fail(n, path, "this should be a single value", hint)
		return n, "", false
	case n.ShortTag() == "!!null":
		d.fail(n, path, "this key has no value", "give it one, or drop the key")
		return n, "", false
	}
	return n, n.Value, true
}

// refused reports an error of a reader of the model, which knows no places, and whether there is one.
func (d *decoder) refused(n *yaml.Node, path string, err error) bool {
	var wrong *cutopt.FieldError
	switch {
	case err == nil:
		return false
	case errors.As(err, &wrong):
		d.fail(n, path, wrong.Rule, wrong.Mend)
	default:
		d.parseError(n, path, 0, err)
	}
	return true
}

// parseError reports a text that measure refused, at the offending character where the file shows it unchanged.
func (d *decoder) parseError(n *yaml.Node, path string, offset int, err error) {
	var pe *measure.ParseError
	if !errors.As(err, &pe) {
		d.fail(n, path, err.Error(), "")
		return
	}
	inText := *pe
	inText.Column += offset
	at := place{n.Line, n.Column, n.Value, ""}
	if n.Style == 0 && pe.Part != "" {
		at.column += inText.Column - 1
	}
	d.failAt(at, path, inText.Reason(), pe.Mend)
}

// count returns how many errors there are so far.
func (d *decoder) count() int { return len(d.errs) + d.dropped }

// validate adds what the job itself finds wrong, but for what follows from the errors that are there already.
func (d *decoder) validate() {
	above := make(map[string]bool) // keys with an error, and all keys around them
	exact := make(map[string]bool)
	for _, e := range d.errs {
		exact[e.Key] = true
		for path := e.Key; path != ""; path = parent(path) {
			above[path] = true
		}
	}
	follows := func(field string) bool {
		if above[field] {
			return true
		}
		for path := field; path != ""; path = parent(path) {
			if exact[path] || d.broken[path] && field != path+".name" {
				return true
			}
		}
		return false
	}
	alone := len(d.errs) == 0 // so that no flaw of the job can hide behind an error that is not there
	for _, fe := range fieldErrors(d.file.Job.Validate()) {
		if alone || !follows(fe.Field) {
			d.add(d.file.locate(fe))
		}
	}
}

// parent cuts the last key or index off a path.
func parent(path string) string {
	return path[:max(strings.LastIndexAny(path, ".["), 0)]
}

// outlineIs says that the corners at a path come from another key.
func (f *File) outlineIs(path, from string) {
	at := f.places[from]
	at.value, at.key = "", from // the value is no corner
	f.places[path] = at
}

// locate gives a field error its place, and the text that stands there.
func (f *File) locate(fe *cutopt.FieldError) *Error {
	e := &Error{File: f.name, Key: fe.Field, Msg: fe.Rule, Mend: fe.Mend, Err: fe.Err}
	at, ok := f.places[fe.Field]
	e.Key, e.Value = cmp.Or(at.key, e.Key), shorten(at.value)
	if e.Value == "" && fe.Value != "" {
		e.Msg = "it is " + fe.Value + ": " + fe.Rule
	}
	if !ok && strings.HasPrefix(fe.Field, "rules.") {
		e.Mend = "that is the default: " + cmp.Or(fe.Mend, "write another") + " under rules"
	}
	for path := fe.Field; !ok; {
		path = parent(path)
		if at, ok = f.places[path]; path == "" {
			break
		}
	}
	e.Line, e.Column = at.line, at.column
	return e
}
