package site

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"plank.example/cutopt"
	"plank.example/internal/nearest"
)

// A File is a state as it is kept: the names of the files of its job and its plan, and its lines.
type File struct {
	Job, Plan string // relative to the folder of the file
	Lines     []Line
	name      string
}

// A Line is a line of a file, with its place.
type Line struct {
	Text         string
	Line, Column int // from 1; 0 when it is not of a file
}

const (
	mostBytes  = 1 << 20 // of a file
	mostLines  = 10_000
	mostErrors = 100
)

// Decode reads a state file: YAML with the keys job, plan and happened, which is a list of lines or a block of them.
// Name is the name of the file for errors. The error is of type [Errors], each with line and column, or that of r.
// Files of more than a megabyte or 10,000 lines are refused, where errors.Is finds [cutopt.ErrTooLarge], and those that
// are not in UTF-8.
func Decode(r io.Reader, name string) (*File, error) {
	f := &File{name: name}
	data, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return nil, err
	}
	if len(data) > mostBytes {
		return nil, Errors{{
			File: name, Msg: "the file is larger than a megabyte", Mend: "a state has a line an event", Err: cutopt.ErrTooLarge,
		}}
	}
	d := &fileDecoder{file: f, rows: strings.Split(string(data), "\n")}
	for i, row := range d.rows {
		if at := notUTF8(row); at >= 0 && !inUTF16(data) {
			return nil, Errors{{
				File: name, Line: i + 1, Column: utf8.RuneCountInString(row[:at]) + 1, Value: strings.TrimSpace(row),
				Msg: "the file is not in UTF-8", Mend: saveAsUTF8,
			}}
		}
	}
	root, problem := d.load(data)
	if problem != nil {
		return nil, Errors{problem}
	}
	d.mapping(root)
	if err := d.errs.err(); err != nil {
		return nil, err
	}
	return f, nil
}

const saveAsUTF8 = "save the file as text in UTF-8"

// notUTF8 returns where the first byte stands that is not text in UTF-8; below 0 for none.
func notUTF8(text string) int {
	if utf8.ValidString(text) {
		return -1
	}
	for i, r := range text {
		if _, size := utf8.DecodeRuneInString(text[i:]); r == utf8.RuneError && size == 1 {
			return i
		}
	}
	return -1
}

// inUTF16 reports whether a file says that it is in UTF-16, which YAML may be.
func inUTF16(data []byte) bool {
	return bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff})
}

// A fileDecoder reads the tree of a file.
type fileDecoder struct {
	file *File
	rows []string // of the file, as written
	errs Errors
}

func (d *fileDecoder) fail(n *yaml.Node, value, msg, mend string) {
	if len(d.errs) < mostErrors {
		d.errs = append(d.errs, &Error{File: d.file.name, Line: n.Line, Column: n.Column, Value: value, Msg: msg, Mend: mend})
	}
}

// load returns the root of the only document.
func (d *fileDecoder) load(data []byte) (*yaml.Node, *Error) {
	fail := func(line, column int, msg, mend string) (*yaml.Node, *Error) {
		return nil, &Error{File: d.file.name, Line: line, Column: column, Msg: msg, Mend: mend}
	}
	noYAML := func(err error) (*yaml.Node, *Error) {
		var le *yaml.LoadError
		if errors.As(err, &le) {
			return fail(le.Mark.Line, le.Mark.Column, "this is no YAML: "+le.Message,
				"write happened: | and the lines below it, each behind two blanks")
		}
		return fail(0, 0, "this is no YAML: "+err.Error(), "")
	}
	loader, err := yaml.NewLoader(bytes.NewReader(data), yaml.WithPlugin(loaderlimits.New(loaderlimits.DepthValue(6))))
	if err != nil {
		return noYAML(err)
	}
	var doc, next yaml.Node
	switch err := loader.Load(&doc); {
	case errors.Is(err, io.EOF):
		return fail(0, 0, "the file is empty", "begin with job:, plan: and happened:")
	case err != nil:
		return noYAML(err)
	}
	switch err := loader.Load(&next); {
	case err == nil:
		return fail(next.Line, next.Column, "a second document begins here", "a file holds one state")
	case !errors.Is(err, io.EOF):
		return noYAML(err)
	}
	if doc.Kind == yaml.DocumentNode && len(doc.Content) == 1 {
		return doc.Content[0], nil
	}
	return &doc, nil
}

var fileKeys = []string{"job", "plan", "happened"}

// mapping reads the keys.
func (d *fileDecoder) mapping(root *yaml.Node) {
	if root.Kind != yaml.MappingNode {
		d.fail(root, "", "this should be a mapping", "begin with job:, plan: and happened:")
		return
	}
	seen := make(map[string]bool)
	for i := 0; i+1 < len(root.Content); i += 2 {
		key, value := root.Content[i], root.Content[i+1]
		switch {
		case key.Kind != yaml.ScalarNode || !slices.Contains(fileKeys, key.Value):
			mend := "the keys are job, plan and happened"
			if meant := nearest.Word(key.Value, fileKeys); meant != "" {
				mend = "did you mean " + meant + "?"
			}
			d.fail(key, key.Value, "unknown key", mend)
		case seen[key.Value]:
			d.fail(key, key.Value, "this key is there twice", "keep one of them")
		case key.Value == "job":
			d.path(value, &d.file.Job)
		case key.Value == "plan":
			d.path(value, &d.file.Plan)
		default:
			d.happened(value)
		}
		seen[key.Value] = true
	}
	for _, k := range []string{"job", "plan"} {
		if !seen[k] {
			d.fail(root, "", "the key "+k+" is missing", "add "+k+": and the name of its file")
		}
	}
}

func (d *fileDecoder) path(n *yaml.Node, into *string) {
	if n.Kind != yaml.ScalarNode || n.Value == "" || strings.ContainsAny(n.Value, "\n\r\x00") {
		d.fail(n, "", "this should be the name of a file", "write it as it is from the folder of this file")
		return
	}
	*into = n.Value
}

// happened reads a block of lines, or a list of them.
func (d *fileDecoder) happened(n *yaml.Node) {
	switch n.Kind {
	case yaml.SequenceNode:
		for _, item := range n.Content {
			if item.Kind != yaml.ScalarNode {
				d.fail(item, "", "this should be a line", "put quotes around a line that has a colon in it")
				continue
			}
			d.lines(item)
		}
	case yaml.ScalarNode:
		if n.ShortTag() != "!!null" {
			d.lines(n)
		}
	default:
		d.fail(n, "", "this should be lines", "write happened: | and the lines below it, each behind two blanks")
	}
}

// lines adds the lines of a text.
func (d *fileDecoder) lines(n *yaml.Node) {
	block := n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0
	if n.Style&yaml.FoldedStyle != 0 {
		d.fail(n, ">", "this block joins its lines", "write happened: | for a line an event")
		return
	}
	for i, text := range strings.Split(n.Value, "\n") {
		text = strings.TrimRight(text, "\r")
		trimmed := strings.TrimSpace(text)
		if Blank(text) {
			continue
		}
		if len(d.file.Lines) >= mostLines {
			d.errs = append(d.errs, &Error{
				File: d.file.name, Line: n.Line, Column: n.Column, Msg: fmt.Sprintf("a state has at most %d lines", mostLines),
				Mend: "plan on, and begin the next one", Err: cutopt.ErrTooLarge,
			})
			return
		}
		at := Line{trimmed, n.Line, n.Column}
		if block {
			at.Line = n.Line + 1 + i
		}
		if at.Line >= 1 && at.Line <= len(d.rows) {
			if k := strings.Index(d.rows[at.Line-1], trimmed); k >= 0 {
				at.Column = len([]rune(d.rows[at.Line-1][:k])) + 1
			}
		}
		d.file.Lines = append(d.file.Lines, at)
	}
}

// State reads the lines of the file for its plan. The error is of type [Errors]: all that cannot be read.
func (f *File) State(g *Grammar) (*State, error) {
	s := new(State)
	var errs Errors
	for _, line := range f.Lines {
		e, err := g.Parse(line.Text)
		e.Line, e.Column = line.Line, line.Column
		var wrong *Error
		switch {
		case errors.As(err, &wrong):
			if wrong.File, wrong.Line = f.name, line.Line; line.Line > 0 {
				wrong.Column += line.Column - 1
			}
			if len(errs) < mostErrors {
				errs = append(errs, wrong)
			}
		default:
			s.Events = append(s.Events, e)
		}
	}
	if err := errs.err(); err != nil {
		return nil, err
	}
	return s, nil
}

// Encode writes a state file: a block of lines, which a thumb can go on with. Decode reads it back. The error is an
// [*Error] for a line that is no line of text in UTF-8; nothing is written then.
func Encode(w io.Writer, f *File) error {
	var b strings.Builder
	for i, line := range f.Lines {
		if notUTF8(line.Text) >= 0 || strings.ContainsAny(line.Text, "\n\r") {
			return &Error{Line: i + 1, Column: 1, Value: line.Text, Msg: "this is no line of text in UTF-8"}
		}
	}
	for _, k := range []struct{ key, value string }{{"job", f.Job}, {"plan", f.Plan}} {
		value, err := yaml.Marshal(k.value)
		if err != nil {
			return err
		}
		b.WriteString(k.key + ": " + string(value))
	}
	b.WriteString("happened: |\n")
	for _, line := range f.Lines {
		b.WriteString("  " + strings.TrimSpace(line.Text) + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// FileOf returns a state as a file, in the words of the grammar.
func FileOf(job, plan string, g *Grammar, s *State) *File {
	f := &File{Job: job, Plan: plan}
	for _, e := range s.Events {
		f.Lines = append(f.Lines, Line{Text: g.Format(e)})
	}
	return f
}
